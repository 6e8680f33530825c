// main.js: which page is shown, the head with "live" and "now here", joining, and what every page shares.

import { h, put } from '/dom.js';
import * as s from '/store.js';
import { word, choose_language, ensure_language, languages } from '/words.js';
import { stock_pages } from '/stock.js';
import { work_pages } from '/work.js';
import { people_pages } from '/people.js';

const pages = [...stock_pages, ...work_pages, ...people_pages];
const $ = id => document.getElementById(id);

// ---- parts of a page that follow the state

let followers = [];
// What `make` gives is made again whenever the state changes; nothing moves when it would be the same.
export function live(make, tag = 'div') {
  const el = put(h(tag, {}), make());
  followers.push(() => {
    const fresh = put(h(tag, {}), make());
    if (fresh.isEqualNode(el)) return;
    const focus = el.contains(document.activeElement) ? address_of(document.activeElement) : '';
    el.replaceChildren(...fresh.childNodes);
    if (focus) [...el.querySelectorAll('a,button,input,select')].find(x => address_of(x) === focus)?.focus();
  });
  return el;
}
// Runs now and whenever the state changes, as long as the page is shown.
export function follow(f) {
  followers.push(f);
  f();
}
// A list whose lines are made anew one by one, each when its value becomes another: what is folded open elsewhere stays so.
export function keyed_list(values, make) {
  const el = h('ul', { class: 'ledger' }), there = new Map();
  follow(() => {
    const list = values(), wanted = new Set(list.map(x => x.key));
    for (const [key, old] of there) if (!wanted.has(key)) { old.line.remove(); there.delete(key); }
    list.forEach((x, i) => {
      const told = JSON.stringify(x), old = there.get(x.key);
      if (old?.told === told) return;
      const line = make(x);
      if (old) { const open = old.line.querySelector('details')?.open; old.line.replaceWith(line); if (open) line.querySelector('details').open = true; } else el.insertBefore(line, el.children[i] ?? null);
      there.set(x.key, { told, line });
    });
  });
  return el;
}

export const show_again = () => setTimeout(() => show(false), 300);
const address_of = el => [el.tagName, el.id, el.getAttribute('href') ?? '', el.name ?? '', el.tagName === 'BUTTON' ? el.textContent : ''].join('|');

// ---- telling

let notice_timer;
export function tell(words, warns) {
  clearTimeout(notice_timer);
  $('notice').replaceChildren(h('div', { class: warns ? 'warns' : '' }, words));
  notice_timer = setTimeout(() => $('notice').replaceChildren(), warns ? 12000 : 3000);
}

// Keeps an act and says so. True when it is kept.
export function keep(act, show) {
  const ok = s.enter(act, show);
  tell(ok ? (s.link.live ? word('saved') : word('kept_note')) : word('no_room'), !ok);
  return !!ok;
}

// An act that makes sense only here and now. True when it is written.
export async function now(act) {
  try {
    await s.do_now(act);
    tell(word('saved'));
    return true;
  } catch (failure) {
    const refused = failure instanceof s.Failure;
    tell(refused ? word('failed', failure.reasons.length ? failure.reasons.join('; ') : failure.message) : word('now_only'), true);
    return false;
  }
}

export const go = (...path) => { location.hash = '#/' + path.map(encodeURIComponent).join('/'); };
export const to = (...path) => '#/' + path.map(encodeURIComponent).join('/');

// ---- head and places

const places = [['', 'where'], ['boxes', 'stock'], ['find', 'find'], ['work', 'work'], ['more', 'more']];

// Pages that belong to a place.
const parents = { box: 'boxes', row: 'boxes', quick: 'boxes', part: 'find', step: 'work', closing: 'work' };

function head() {
  const kept = s.queue.length, refused = s.refused.length;
  return [
    h('span', { class: 'name' }, s.kit.name || word('app')),
    s.me.joined && h('a', { href: to('me') }, s.me.place ? word('here', s.me.place) : word('here_none')),
    (kept > 0 || refused > 0) && h('a', { href: to('waiting'), class: refused ? 'warn' : '' }, h('span', { class: 'mark', 'aria-hidden': 'true' }, refused ? '!' : '▣'),
      [kept > 0 && word('kept', kept), refused > 0 && word('refused_n', refused)].filter(Boolean).join(', ')),
    s.me.joined && h('span', { class: s.link.live ? 'quiet' : 'warn' }, h('span', { class: 'mark', 'aria-hidden': 'true' }, s.link.live ? '●' : '○'), s.link.live ? word('live') : word('not_live')),
  ];
}

function nav() {
  const first = parents[location.hash.split('/')[1]] ?? location.hash.split('/')[1] ?? '';
  return places.map(([path, name]) => h('a', { href: '#/' + path, 'aria-current': (places.some(p => p[0] === first) ? first : 'more') === path ? 'page' : null }, word(name)));
}

function replace(el, children) {
  const fresh = put(h(el.tagName, {}), children);
  if (fresh.innerHTML !== el.innerHTML) el.replaceChildren(...fresh.childNodes);
}

// ---- joining

function join_page() {
  const code = h('input', { id: 'code', type: 'text', autocomplete: 'off', autocapitalize: 'characters', spellcheck: 'false', maxlength: '14' });
  const person = h('input', { id: 'own', type: 'text', maxlength: '60' }), pin = h('input', { id: 'own-pin', type: 'password', inputmode: 'numeric', autocomplete: 'off', maxlength: '40' });
  const wrong = h('p', { class: 'warn', role: 'alert' });
  const submit = body => async e => {
    e.preventDefault();
    wrong.textContent = '';
    try { await join(body()); } catch (failure) { wrong.textContent = failure instanceof s.Failure ? failure.message : word('now_only'); }
  };
  return [h('h1', {}, word('join_title')), h('form', { onsubmit: submit(() => ({ code: code.value })) }, h('p', {}, word('join_words')), h('label', { for: 'code' }, word('join_code')), code, wrong,
    h('div', { class: 'row' }, h('button', { class: 'main' }, word('join_do')))),
    h('details', {}, h('summary', {}, word('join_own')), h('form', { onsubmit: submit(() => ({ person: person.value, code: pin.value })) }, h('p', {}, word('join_own_words')), h('label', { for: 'own' }, word('who_name')), person, h('label', { for: 'own-pin' }, word('pin')), pin,
      h('div', { class: 'row' }, h('button', {}, word('join_do'))))),
    s.queue.length > 0 && h('p', { class: 'box' }, word('kept', s.queue.length)),
    location.protocol !== 'https:' && h('p', { class: 'quiet' }, word('plain_http'))];
}

async function join(body) {
  await s.load(await s.ask('/api/join', body));
  if (!s.setting('seen')) { s.setting('seen', 'yes'); if (!s.me.place) go('me'); }
  show(true);
  s.send();
}

// ---- showing

let shown = null, asked_for_join = false;
function show(moves) {
  const path = location.hash.replace(/^#\/?/, '').split('/').map(decodeURIComponent);
  followers = [];
  asked_for_join = !s.me.joined;
  const page = pages.find(p => p.path === (path[0] ?? ''));
  let content;
  if (!s.me.joined) content = join_page();
  else content = page ? page.make(...path.slice(1)) : [h('h1', {}, word('nothing_there'))];
  $('main').replaceChildren();
  put($('main'), content);
  const title = $('main').querySelector('h1')?.textContent ?? word('app');
  document.title = `${title} – ${s.kit.name || word('app')}`;
  refresh_frame();
  if (s.me.joined && shown === null) performance.mark('usable');
  if (moves) { scrollTo(0, 0); if (shown !== null) $('main').focus({ preventScroll: true }); }
  shown = location.hash;
}

function refresh_frame() {
  replace($('top'), head());
  $('places').hidden = !s.me.joined;
  replace($('places'), nav());
}

function frame_words() {
  document.documentElement.lang = choose_language();
  $('skip').textContent = word('skip');
  $('places').setAttribute('aria-label', word('places'));
}

s.on_change(() => {
  if (asked_for_join === s.me.joined) return show(false); // joined, or thrown out
  refresh_frame();
  for (const f of followers) f();
});
addEventListener('hashchange', () => show(true));
$('skip').addEventListener('click', e => { e.preventDefault(); $('main').focus(); });

export function use_language(language) {
  s.setting('language', language);
  ensure_language(language);
  frame_words();
  show(false);
}
export { languages };

async function begin() {
  ensure_language(choose_language());
  frame_words();
  $('main').replaceChildren(h('p', { class: 'quiet' }, word('loading')));
  const code = location.pathname.match(/^\/j\/([A-Za-z0-9]+)$/i)?.[1];
  if (code) {
    history.replaceState(null, '', '/' + location.hash);
    try { await join({ code }); return; } catch { /* then by hand, or the device has joined before */ }
  }
  for (let wait = 1000; ; wait = Math.min(2 * wait, 10000)) {
    try { await s.load(); break; } catch (failure) {
      if (failure instanceof s.Failure && failure.status === 401) break;
      $('main').replaceChildren(h('p', { class: 'warn' }, word('not_live')), s.queue.length ? h('p', {}, word('kept', s.queue.length)) : '');
      await new Promise(done => setTimeout(done, wait));
    }
  }
  show(true);
  s.send();
}
begin();
