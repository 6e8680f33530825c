// store.js: what this device knows of the build, and what was entered here and is not yet in the laptop's file.
//
// `kit` never changes in a run; `state` is a table of keys and values that the live stream keeps up to date. What is
// entered goes into `queue` first, in localStorage, under a name of its own, so that it survives a reload and is written
// once however often it is sent. One act is sent at a time, in the order they were entered. An act that the laptop refuses
// leaves the queue for `refused`, where the person who entered it decides.

export const kit = { rows: [], parts: [], containers: [], steps: [], stand_ins: [] };
export const state = new Map();
export const me = { role: '', place: '', people: [], joined: false };
export const link = { live: false };
export let queue = [];
export let refused = [];

const listeners = new Set();
export function on_change(f) { listeners.add(f); }
let told = 0;
export function changed() {
  if (told) return;
  told = setTimeout(() => { told = 0; for (const f of listeners) f(); }, 0);
}

// ---- kept on the device

function keep(name, value) {
  try { localStorage.setItem('kitbench-' + name, JSON.stringify(value)); return true; } catch { return false; }
}
function kept(name, otherwise) {
  try { return JSON.parse(localStorage.getItem('kitbench-' + name)) ?? otherwise; } catch { return otherwise; }
}
export function setting(name, value) {
  if (value !== undefined) { keep('set-' + name, value); changed(); }
  return kept('set-' + name, '');
}
queue = kept('queue', []);
refused = kept('refused', []);
me.people = kept('people', []);

export function set_people(people) { me.people = people; keep('people', people); changed(); }

// ---- asking the laptop

export class Failure extends Error {
  constructor(error, status) {
    super([error.place && error.kind !== 'refused' && error.kind !== 'conflict' ? error.place + ': ' + error.cause : error.cause,
      error.remedy].filter(Boolean).join('; '));
    Object.assign(this, { kind: error.kind, status, reasons: error.reasons ?? [] });
  }
}

export async function ask(path, body) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), 10000);
  try {
    const options = { signal: stop.signal, credentials: 'same-origin' };
    if (body) Object.assign(options, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });
    const answer = await fetch(path, options);
    const json = await answer.json();
    if (!answer.ok) throw new Failure(json.error ?? { kind: 'run', cause: answer.statusText }, answer.status);
    return json;
  } finally { clearTimeout(timer); }
}

// ---- what is entered

function fresh_name() {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, b => b.toString(16).padStart(2, '0')).join('');
}

// Returns at once: the act is kept. False: the device has no room left, nothing was kept.
export function enter(act, show) {
  const kept_act = { once: fresh_name(), at: Date.now(), by: me.people[0] ?? '', ...act };
  const next = [...queue, { act: kept_act, show }];
  if (!keep('queue', next)) return false;
  queue = next;
  changed();
  send();
  return kept_act.once;
}

// Some acts make no sense later: they are sent now or not at all.
export async function do_now(act) {
  const answer = await ask('/api/act', { once: fresh_name(), by: me.people[0] ?? '', ...act });
  return answer;
}

export function forget_refused(once) {
  refused = refused.filter(r => r.act.once !== once);
  keep('refused', refused);
  changed();
}

// Entered again by somebody's decision: a new act.
export function enter_again(once, more) {
  const old = refused.find(r => r.act.once === once);
  if (!old) return;
  const { once: _gone, at: _then, ...act } = old.act;
  enter({ ...act, ...more }, old.show);
  forget_refused(once);
}

let sending = false, wait_ms = 500;
export async function send() {
  if (sending || !queue.length || !me.joined) return;
  sending = true;
  while (queue.length) {
    const first = queue[0];
    const { at: _at, ...body } = first.act;
    try {
      await ask('/api/act', body);
      wait_ms = 500;
    } catch (failure) {
      if (!(failure instanceof Failure) || failure.status >= 500 || failure.status === 429) break; // no way there, or not now: later
      if (failure.status === 401) { me.joined = false; break; } // join again, then it is sent
      refused = [...refused, { ...first, kind: failure.kind, words: failure.reasons.length ? failure.reasons.join('; ') : failure.message }];
      keep('refused', refused);
    }
    queue = queue.filter(q => q.act.once !== first.act.once);
    keep('queue', queue);
    changed();
  }
  sending = false;
  changed();
  if (queue.length && me.joined) {
    setTimeout(send, wait_ms);
    wait_ms = Math.min(wait_ms * 2, 15000);
  }
}

// ---- the live state

let stream, heard = 0;
function take(change) {
  for (const [key, value] of Object.entries(change.set)) state.set(key, value);
  for (const key of change.drop ?? []) state.delete(key);
  changed();
}
function set_live(live) {
  if (link.live !== live) { link.live = live; changed(); }
  if (live) send();
}

// All at once, since each way there and back counts. `mine`: what joining answered.
export async function load(mine) {
  const [who, what, all] = await Promise.all([mine ?? ask('/api/me'), ask('/api/kit'), ask('/api/state')]);
  Object.assign(me, who);
  Object.assign(kit, what);
  hold(all);
}

const load_state = async () => hold(await ask('/api/state'));

function hold(all) {
  me.joined = true;
  state.clear();
  take(all);
  listen(all.at);
}

function listen(at) {
  stream?.close();
  const mine = stream = new EventSource('/api/live?since=' + encodeURIComponent(at));
  mine.onopen = () => { heard = Date.now(); set_live(true); };
  mine.onerror = () => {
    set_live(false);
    if (mine.readyState === EventSource.CLOSED && mine === stream) again_soon();
  };
  mine.addEventListener('change', e => { heard = Date.now(); take(JSON.parse(e.data)); });
  mine.addEventListener('again', () => again_soon(0));
}

let again_timer = 0;
function again_soon(ms = 2000) {
  clearTimeout(again_timer);
  again_timer = setTimeout(async () => {
    try { await load_state(); } catch (failure) {
      if (failure instanceof Failure && failure.status === 401) { me.joined = false; changed(); return; }
      set_live(false);
      again_soon(3000);
    }
  }, ms);
}

addEventListener('pagehide', () => stream?.close());
addEventListener('pageshow', e => { if (e.persisted && me.joined) again_soon(0); });
addEventListener('online', () => { wait_ms = 500; send(); });

// ---- small questions to the state

export const of = (key, otherwise = {}) => state.get(key) ?? otherwise;
export function under(prefix) {
  const found = [];
  for (const [key, value] of state) if (key.startsWith(prefix)) found.push({ key, id: key.slice(prefix.length), ...value });
  return found;
}
export const person = no => of('crew/' + no, { name: no }).name;
const index = (list, key) => { const m = new Map(); for (const x of list) m.set(x[key], x); return m; };
let parts_of, parts, steps_of, steps;
export function part(no) {
  if (parts_of !== kit.parts) { parts = index(kit.parts, 'no'); parts_of = kit.parts; }
  return parts.get(no) ?? { no, name: no, makers: [], designation: '', note: '' };
}
export function step(no) {
  if (steps_of !== kit.steps) { steps = index(kit.steps, 'no'); steps_of = kit.steps; }
  return steps.get(no);
}
// What waits in the queue of this device for a row.
export const waiting_for = (box, line) => queue.filter(q => (q.act.in === box && q.act.line === line) || (q.act.do === 'all_here' && lies_in(box, q.act.in) && !of(`row/${box}/${line}`).counted));
const lies_in = (box, outer) => { for (let c = box; c; c = kit.containers.find(x => x.no === c)?.inside) if (c === outer) return true; return false; };
