// work.js: where we stand, the session now and next, the job card, tests, the plan, release and batteries.

import { h } from '/dom.js';
import * as s from '/store.js';
import { word, number, date, clock, typed } from '/words.js';
import { follow, live, keep, now, tell, to } from '/main.js';
import { lies, names, amount } from '/stock.js';

const state_of = no => s.of('step/' + no, { state: 'to do', people: [], builders: [], supervisor: '' });
const state_word = state => word('state_' + state.replace(/ /g, '_'));
const mark = { 'to do': '·', running: '▶', 'left unfinished': '▮', blocked: '■', done: '✓' };
const state_words = no => { const x = state_of(no).state; return [h('span', { class: 'mark', 'aria-hidden': 'true' }, mark[x]), state_word(x)]; };

// What speaks against a step, as the laptop says it. Who works on it is asked at the start.
const obstacles = step => s.of('ready/' + step.no, { why: [] }).why;
const is_ready = step => s.of('ready/' + step.no, { ready: false }).ready;

function step_line(step, words) {
  return h('li', {}, h('a', { href: to('step', step.no) }, h('span', {}, h('b', {}, step.no), ' ', step.name), h('span', { class: 'sub' }, words), h('span', { class: 'end' }, state_words(step.no))));
}

// ---- where we stand

function where() {
  return [h('h1', {}, word('where')), h('div', { class: 'two' },
    live(() => {
      const b = s.of('build'), done = s.kit.steps.filter(x => state_of(x.no).state === 'done').length, plan = s.of('plan', null);
      return [h('h2', {}, word('check_so_far')), h('p', {}, h('a', { href: to('boxes') }, word('rows_of', number(b.counted ?? 0), number(b.rows ?? 0)))), h('progress', { max: b.rows || 1, value: b.counted ?? 0, 'aria-label': word('check_so_far') }),
        h('p', {}, h('a', { href: to('boxes') }, word('boxes_of', b.boxes_received ?? 0, b.boxes ?? 0))),
        h('h2', {}, word('build_so_far')), h('p', {}, h('a', { href: to('work') }, word('steps_of', done, s.kit.steps.length))), h('progress', { max: s.kit.steps.length || 1, value: done, 'aria-label': word('build_so_far') }),
        plan?.finish && h('p', {}, h('a', { href: to('plan') }, word('finish_on'), ': ', h('b', {}, date(plan.finish)), plan.wanted ? ` (${word('finish_wanted', date(plan.wanted))})` : ''))];
    }),
    live(() => {
      const plan = s.of('plan', null), next = plan?.sessions?.find(x => x.begins);
      return [h('h2', {}, word('next_session')), next ? h('p', {}, h('a', { href: to('plan') }, word('session_n', next.number), ': ', h('b', {}, date(next.begins)), `, ${clock(next.begins)}–${clock(next.ends)}, `, word('steps_in', new Set(next.work.map(w => w.step)).size))) : h('p', { class: 'quiet' }, plan ? (plan.cause ?? word('no_session')) : word('plan_none')), ...stops_us(), ...decide()];
    }))];
}

function stops_us() {
  const stops = s.under('stop/').slice(0, 8), blocked = s.kit.steps.filter(x => state_of(x.no).state === 'blocked');
  return [h('h2', {}, word('stops_us')), !stops.length && !blocked.length ? h('p', {}, word('stops_none')) :
    h('ul', {}, stops.map(x => h('li', {}, h('a', { href: to('part', x.part) }, word('stop_line', x.step, number(x.missing), s.part(x.part).name)), ' – ', x.ready ? word('stop_promised', date(x.ready)) : word('stop_not_promised'))),
      blocked.map(x => h('li', {}, h('a', { href: to('step', x.no) }, word('blocked_line', x.no, state_of(x.no).note)))))];
}

function decide() {
  const lines = [...(s.of('standing').decide ?? [])];
  for (const w of s.under('swap/')) lines.push([h('a', { href: to('row', w.missing_in, w.missing_line) }, word('swap_line', w.pieces, w.extra_in ? `${w.extra_in} ${word('row_n', w.extra_line)}` : w.extra_what, `${w.missing_in} ${word('row_n', w.missing_line)}`)), ' – ', w.reason]);
  for (const c of s.under('second/')) if (!c.agrees) lines.push(h('a', { href: to('row', c.in, c.line) }, word('second_differs', c.in, c.line, c.usable, c.damaged)));
  return [h('h2', {}, word('decide_today')), lines.length ? h('ul', {}, lines.map(l => h('li', {}, l))) : h('p', {}, word('decide_none'))];
}

// ---- the session

function work() {
  return [h('h1', {}, word('work')), live(() => {
    const running = [], ready = [], held = [], waits = [];
    for (const step of s.kit.steps) {
      const x = state_of(step.no).state;
      if (x === 'running') running.push(step);
      else if (x === 'left unfinished' || x === 'blocked') held.push(step);
      else if (x === 'to do') (is_ready(step) ? ready : waits).push(step);
    }
    const planned = no => { for (const x of s.of('plan').sessions ?? []) for (const w of x.work) if (w.step === no) return w; return null; };
    const who = step => { const w = planned(step.no); return [w && names(w.people), w?.supervisor && `${word('supervisor')}: ${s.person(w.supervisor)}`, word('likely', step.likely_min)].filter(Boolean).join(' · '); };
    return [h('h2', {}, word('running')), running.length ? h('ul', { class: 'ledger' }, running.map(x => step_line(x, [names(state_of(x.no).people), word('since', clock(state_of(x.no).since)), word('likely', x.likely_min)].filter(Boolean).join(' · ')))) : h('p', { class: 'quiet' }, word('running_none')),
      held.length > 0 && [h('h2', {}, word('left_steps')), h('ul', { class: 'ledger' }, held.map(x => step_line(x, state_of(x.no).note || word('since', date(state_of(x.no).since)))))],
      h('h2', {}, word('can_start')), ready.length ? h('ul', { class: 'ledger' }, ready.map(x => step_line(x, who(x)))) : h('p', { class: 'quiet' }, word('can_start_none')),
      h('p', {}, h('a', { href: to('closing'), class: 'go' }, word('closing'))),
      h('details', {}, h('summary', {}, word('waiting_steps'), ` (${waits.length})`), h('ul', { class: 'ledger' }, waits.map(x => step_line(x, obstacles(x).join(' · '))))),
      h('details', {}, h('summary', {}, word('all_steps'), ` (${s.kit.steps.length})`), h('ul', { class: 'ledger' }, s.kit.steps.map(x => step_line(x, x.unit))))];
  })];
}

// ---- the job card

function tightening(p) {
  if (p.tightening === 'none') return '';
  const how = p.tightening === 'torque' ? word('tight_torque', number(p.torque_nm, 2), word('condition_' + p.condition)) : word('tight_' + p.tightening);
  return [how, p.order, p.closed_by && word('closed_by', p.closed_by)].filter(Boolean).join(', ');
}

function card(step) {
  const list = (title, items) => items.length > 0 && [h('dt', {}, title), h('dd', {}, items.join(', '))];
  return [step.cautions.length > 0 && h('div', { class: 'box warns' }, h('h2', {}, word('cautions')), h('ul', {}, step.cautions.map(c => h('li', {}, h('b', {}, c.hazard), c.who ? ` (${c.who})` : '', ': ', c.control)))),
    h('dl', { class: 'pairs' }, list(word('wear'), step.wear), list(word('not_wear'), step.not_wear), [h('dt', {}, word('supervisor')), h('dd', {}, word('super_' + step.supervision), step.supervision !== 'room' && step.work ? ` (${step.work})` : '')],
      step.zone && [h('dt', {}, word('where_work')), h('dd', {}, step.zone)], step.unit && [h('dt', {}, ''), h('dd', {}, step.unit)], step.safe_state && [h('dt', {}, word('safe_state')), h('dd', {}, step.safe_state)]),
    step.picture && h('p', {}, h('img', { src: '/api/picture/kit/' + encodeURIComponent(step.picture), alt: step.name, class: 'step' })), h('p', {}, step.instruction), h('p', { class: 'quiet' }, [step.page && word('page_of', step.page), step.delay_text, word('manual_first')].filter(Boolean).join(' · ')),
    step.parts.length > 0 && [h('h2', {}, word('parts_to_draw')), h('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': word('parts_to_draw') }, live(() => [h('tbody', {}, step.parts.map(p => h('tr', {}, h('td', { class: 'n' }, h('b', {}, amount(p.quantity, s.kit.rows.find(r => r.part === p.part)?.unit)), ' ×'),
      h('td', {}, h('a', { href: to('part', p.part) }, s.part(p.part).name), h('br'), h('span', { class: 'quiet' }, [p.part, s.part(p.part).single_use && word('single_use')].filter(Boolean).join(' · '))),
      h('td', {}, s.kit.rows.filter(r => r.part === p.part).map(r => r.in).join(', '), s.of('label/' + p.part).label ? ' / ' + s.of('label/' + p.part).label : ''), h('td', {}, tightening(p)))))], 'table'))],
    step.tools.length > 0 && [h('h2', {}, word('tools')), h('ul', {}, step.tools.map(t => h('li', {}, t.quantity > 1 ? `${t.quantity} × ` : '', t.name, ' ', t.size)))]];
}

function step(no) {
  const x = s.step(no);
  if (!x) return [h('h1', {}, word('nothing_there'))];
  return [h('p', {}, h('a', { href: to('work') }, '← ', word('work'))), h('h1', {}, x.no, ' ', x.name),
    live(() => { const t = state_of(no); return [h('p', {}, h('b', {}, state_words(no)), [t.people.length && names(t.people), t.supervisor && `${word('supervisor')}: ${s.person(t.supervisor)}`, t.note].filter(Boolean).map(w => ` · ${w}`)), t.state !== 'running' && obstacles(x).length > 0 && h('ul', { class: 'warn' }, obstacles(x).map(o => h('li', {}, o))), h('p', { class: 'quiet' }, word('people_n', x.people), ' · ', word('likely', x.likely_min))]; }),
    h('div', { class: 'two' }, h('div', {}, card(x)), h('div', {}, actions(x), tests(x)))];
}

const crew = () => s.under('crew/');
function choose_people(id, chosen, filter = () => true) {
  const boxes = crew().filter(filter).map(p => ({ no: p.id, box: h('input', { type: 'checkbox', name: id, checked: chosen.includes(p.id) }), name: p.name }));
  return { el: h('div', {}, boxes.map(b => h('label', { class: 'inline' }, b.box, b.name))), get: () => boxes.filter(b => b.box.checked).map(b => b.no) };
}
function choose_one(id, filter, label) {
  const select = h('select', { id }, h('option', { value: '' }, '– ', word('choose'), ' –'), crew().filter(filter).map(p => h('option', { value: p.id }, p.name)));
  return { el: [h('label', { for: id }, label), select], get: () => select.value };
}
function pin_field(id) {
  const field = h('input', { id, type: 'password', inputmode: 'numeric', autocomplete: 'off', maxlength: 12 });
  return { el: [h('label', { for: id }, word('pin')), field], get: () => field.value, clear: () => { field.value = ''; } };
}

// What can be done with the step now; made anew only when its state becomes another, so that nothing typed is lost.
function actions(x) {
  const el = h('div', {});
  let before = null;
  follow(() => {
    const state = state_of(x.no).state;
    if (state === before) return;
    before = state;
    el.replaceChildren(state === 'running' ? running_form(x) : state === 'done' ? undo_form(x) : start_form(x, state));
  });
  return el;
}

function start_form(x, state) {
  const people = choose_people('who', s.me.people), supervised = x.supervision !== 'room';
  const adult = choose_one('confirm', p => p.adult && p.supervises.includes(x.work), word('supervisor')), pin = pin_field('pin');
  const start = async () => {
    const act = { do: 'start', step: x.no, people: people.get() };
    if (!supervised) return keep(act, `${x.no}: ${word('start')}`);
    await now({ ...act, confirm: adult.get(), pin: pin.get() });
    pin.clear();
  };
  return h('div', {}, h('h2', {}, state === 'to do' ? word('start') : word('go_on')), crew().length > 0 && [h('p', { class: 'quiet' }, word('who_works')), people.el],
    supervised && h('div', { class: 'box' }, h('p', {}, word('needs_adult', word('super_' + x.supervision))), adult.el, pin.el),
    h('div', { class: 'row' }, h('button', { class: 'main', onclick: start }, state === 'to do' ? word('start') : word('go_on'))), state === 'to do' && block_form(x));
}

function block_form(x) {
  const reason = h('input', { id: 'reason', type: 'text', maxlength: 300 });
  return h('details', {}, h('summary', {}, word('block')), h('label', { for: 'reason' }, word('reason')), reason,
    h('div', { class: 'row' }, h('button', { onclick: () => { if (reason.value.trim()) keep({ do: 'block', step: x.no, reason: reason.value.trim() }, `${x.no}: ${word('block')}`); else tell(word('failed', word('reason')), true); } }, word('block'))));
}

function running_form(x) {
  const minutes = h('input', { id: 'minutes', type: 'text', inputmode: 'numeric' }), people = choose_people('others', state_of(x.no).people);
  const left = x.parts.map(p => ({ part: p.part, field: h('input', { id: 'left-' + p.part, type: 'text', inputmode: 'numeric', 'aria-label': `${word('left_over')}: ${s.part(p.part).name}` }) }));
  const finish = () => {
    const m = minutes.value.trim() ? typed(minutes.value) : -1, back = left.filter(l => l.field.value.trim()).map(l => ({ part: l.part, quantity: typed(l.field.value) }));
    if (Number.isNaN(m) || !back.every(l => Number.isInteger(l.quantity))) return tell(word('failed', word('how_many')), true);
    keep({ do: 'finish', step: x.no, minutes: m, left: back }, `${x.no}: ${word('done')}`);
  };
  return h('div', {}, h('h2', {}, word('done')), x.parts.length > 0 && h('details', {}, h('summary', {}, word('tub_empty')), h('p', { class: 'quiet' }, word('left_over'), '. ', word('left_words')), left.map(l => [h('label', { for: 'left-' + l.part }, s.part(l.part).name), l.field])),
    h('label', { for: 'minutes' }, word('minutes')), minutes, h('div', { class: 'row' }, h('button', { class: 'main', onclick: finish }, word('done')), x.may_pause && h('button', { onclick: () => keep({ do: 'leave', step: x.no }, `${x.no}: ${word('leave')}`) }, word('leave'))),
    block_form(x), crew().length > 0 && h('details', {}, h('summary', {}, word('change_over')), people.el, h('div', { class: 'row' }, h('button', { onclick: () => now({ do: 'change_over', step: x.no, people: people.get() }) }, word('change_over')))));
}

function undo_form(x) {
  if (s.me.role !== 'leader') return h('p', { class: 'quiet' }, word('builders'), ': ', names(state_of(x.no).builders));
  const cost = h('div', { 'aria-live': 'polite' });
  const ask_cost = async e => {
    if (!e.target.open) return;
    try {
      const u = await s.ask('/api/undoing/' + encodeURIComponent(x.no));
      cost.replaceChildren(h('ul', {}, h('li', {}, word('undo_off', u.off.join(', '), number(u.off_min), number(u.redo_min))), u.void_tests.map(t => h('li', {}, word('undo_void', t))), u.again.map(p => h('li', {}, word('undo_new', number(p.quantity), s.part(p.part).name, number(p.available))))));
    } catch { cost.replaceChildren(word('now_only')); }
  };
  const reason = h('input', { id: 'why-undo', type: 'text', maxlength: 300 }), adult = choose_one('undo-by', p => p.adult, word('who')), pin = pin_field('undo-pin');
  return h('div', {}, h('p', { class: 'quiet' }, word('builders'), ': ', names(state_of(x.no).builders)), h('details', { ontoggle: ask_cost }, h('summary', {}, word('undo_step')), cost, adult.el, pin.el, h('label', { for: 'why-undo' }, word('reason')), reason,
    h('div', { class: 'row' }, h('button', { onclick: () => now({ do: 'undo_step', step: x.no, reason: reason.value, by: adult.get(), pin: pin.get() }) }, word('undo_step')))));
}

// ---- tests

function limits(t) {
  if (!t.unit) return '';
  if (t.low !== undefined && t.high !== undefined) return word('limits', number(t.low, 3), number(t.high, 3), t.unit);
  return t.low !== undefined ? word('at_least', number(t.low, 3), t.unit) : t.high !== undefined ? word('at_most', number(t.high, 3), t.unit) : t.unit;
}

function test_words(no, t) {
  const r = s.of(`test/${no}/${t.n}`, null);
  if (!r) return '';
  if (r.disturbed && !r.counts) return h('span', { class: 'warn' }, word('disturbed'));
  return [t.unit ? `${number(r.value, 3)} ${t.unit}` : r.value ? word('yes') : word('no'), ' – ', h('span', { class: r.in_limits ? 'good' : 'warn' }, r.in_limits ? word('in_limits') : word('out_of_limits')), ' – ', r.signed ? `${word('signed_by')} ${s.person(r.signed_by)}` : h('span', { class: 'warn' }, word('not_signed'))];
}

function test_form(x, t) {
  const id = `t${t.n}`, value = t.unit ? h('input', { id: id + 'v', type: 'text', inputmode: 'decimal' }) : h('select', { id: id + 'v' }, h('option', { value: '' }, '–'), h('option', { value: 'yes' }, word('yes')), h('option', { value: 'no' }, word('no')));
  const by = choose_one(id + 'b', () => true, word('measured_by')), signer = choose_one(id + 's', p => t.signed_by === 'learner' || p.adult, word('signed_by')), pin = pin_field(id + 'p');
  const reason = h('input', { id: id + 'r', type: 'text', maxlength: 300 });
  const write = async () => {
    if (!value.value) return tell(word('failed', word('tests')), true);
    const plain = t.unit ? value.value.trim().replace(',', '.') : value.value;
    await now({ do: 'test', step: x.no, n: t.n, value: plain, by: by.get(), signed_by: signer.get(), pin: pin.get(), reason: reason.value });
    pin.clear();
  };
  return h('li', {}, h('p', {}, h('b', {}, t.what), ' ', h('span', { class: 'quiet' }, [limits(t), t.hold_point && word('hold_point'), word('signs_' + t.signed_by)].filter(Boolean).join(' · '))), live(() => h('p', {}, test_words(x.no, t))),
    h('details', {}, h('summary', {}, t.unit ? word('test_value', t.unit) : word('test_yes_no')), h('label', { for: id + 'v' }, t.unit ? word('test_value', t.unit) : word('test_yes_no')), value, by.el, signer.el, h('p', { class: 'quiet' }, word('sign_words')), pin.el,
      h('label', { for: id + 'r' }, word('reason')), reason, h('div', { class: 'row' }, h('button', { onclick: write }, word('write_down')))));
}

const tests = x => x.tests.length > 0 && [h('h2', {}, word('tests')), h('ul', { class: 'ledger' }, x.tests.map(t => test_form(x, t)))];

// ---- the plan

function plan() {
  return [h('h1', {}, word('plan')), live(() => {
    const p = s.of('plan', null);
    if (!p) return h('p', {}, word('plan_none'));
    if (p.cause) return h('p', { class: 'warn' }, [p.place, p.cause, p.remedy].filter(Boolean).join(': '));
    return [p.finish && h('p', { class: 'figure' }, word('finish_on'), ': ', date(p.finish)), p.wanted && h('p', {}, word('finish_wanted', date(p.wanted))),
      h('p', { class: 'quiet' }, p.proven ? word('plan_proven') : word('plan_gap', number(p.makespan_min - p.lower_bound_min))), h('p', { class: 'quiet' }, word('plan_words')),
      p.stopped.map(x => h('p', { class: 'warn' }, word('plan_stopped', x.step, number(x.missing), s.part(x.part).name))), p.impossible.map(x => h('p', { class: 'warn' }, word('plan_impossible', x.step, x.reason, x.remedy))),
      p.sessions.map(session_chart)];
  })];
}

function session_chart(x) {
  const work = [...x.work].sort((a, b) => a.from_min - b.from_min);
  return h('section', {}, h('h2', {}, word('session_n', x.number), x.begins ? ` – ${date(x.begins)}, ${clock(x.begins)}–${clock(x.ends)}` : ''), work.length === 0 && h('p', { class: 'quiet' }, word('free_time')),
    h('ul', { class: 'ledger' }, work.map(w => h('li', {}, h('a', { href: to('step', w.step) }, h('span', {}, h('b', {}, w.step), ' ', s.step(w.step)?.name), h('span', { class: 'sub' }, [names(w.people), w.supervisor && `${word('supervisor')}: ${s.person(w.supervisor)}`, w.decides_finish && word('decides')].filter(Boolean).join(' · '), bar(w, x.minutes)), h('span', { class: 'end' }, at(x, w.from_min), '–', at(x, w.to_min)))))));
}
function at(x, minute) {
  if (!x.begins) return word('minutes_n', minute);
  const [hh, mm] = x.begins.slice(-5).split(':').map(Number), m = hh * 60 + mm + minute;
  return clock(`${String(Math.floor(m / 60) % 24).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`);
}
function bar(w, minutes) {
  const NS = 'http://www.w3.org/2000/svg', svg = document.createElementNS(NS, 'svg'), line = document.createElementNS(NS, 'rect'), track = document.createElementNS(NS, 'rect');
  svg.setAttribute('viewBox', `0 0 ${minutes || 1} 4`); svg.setAttribute('preserveAspectRatio', 'none'); svg.setAttribute('aria-hidden', 'true'); svg.setAttribute('width', '100%'); svg.setAttribute('height', '10');
  for (const [el, x, width, cls] of [[track, 0, minutes, 'fill-wash'], [line, w.from_min, w.to_min - w.from_min, w.decides_finish ? 'fill-ink' : 'fill-accent']]) { el.setAttribute('x', x); el.setAttribute('y', 0); el.setAttribute('width', Math.max(width, 1)); el.setAttribute('height', 4); el.setAttribute('class', cls); svg.append(el); }
  return svg;
}

// ---- release, closing, batteries

function release() {
  return [h('h1', {}, word('release')), live(() => {
    const r = s.of('release', { complete: false, reasons: [], loose: [] });
    return [r.complete ? h('p', { class: 'figure good' }, '✓ ', word('release_yes')) : [h('p', { class: 'figure' }, word('release_no')), h('ul', {}, r.reasons.map(x => h('li', {}, x)))], h('p', { class: 'box' }, word('release_words')),
      h('h2', {}, word('loose_list')), r.loose.length ? h('ul', {}, r.loose.map(l => h('li', {}, word('loose_line', s.part(l.part).name, l.step, l.closed_by)))) : h('p', {}, word('loose_none'))];
  })];
}

function closing() {
  const missing = h('input', { id: 'gone', type: 'text', maxlength: 300 });
  return [h('h1', {}, word('closing')), h('p', {}, word('closing_words')), live(() => { const list = s.of('recount').list ?? []; return list.length > 0 && [h('h2', {}, word('recount_title')), h('ul', {}, list.map(r => h('li', {}, r.name, ' ', word('recount_line', number(r.pieces), r.percent))))]; }), tool_count(), live(() => { const tubs = s.kit.parts.map(p => [p, s.of('part/' + p.no).at?.tub ?? 0]).filter(([, n]) => n > 0); return tubs.length > 0 && [h('h2', {}, word('place_tub')), h('ul', {}, tubs.map(([p, n]) => h('li', {}, `${number(n)} × ${p.name}`)))]; }),
    h('div', { class: 'row' }, h('button', { class: 'main', onclick: () => keep({ do: 'close', missing: '' }, word('closing_all')) }, word('closing_all'))),
    h('label', { for: 'gone' }, word('closing_missing')), missing, h('div', { class: 'row' }, h('button', { onclick: () => { if (missing.value.trim()) keep({ do: 'close', missing: missing.value.trim() }, missing.value.trim()); } }, word('write_down')))];
}

// Tools one by one: what is here against what there should be.
function tool_count() {
  const tools = s.under('tool/').filter(t => t.expected > 0), fields = tools.map(t => h('input', { id: 'tool-' + t.id, type: 'text', inputmode: 'numeric', value: t.fresh && t.here !== undefined ? String(t.here) : '' }));
  const write = () => {
    const list = tools.map((t, i) => ({ tool: t.id, quantity: typed(fields[i].value), said: fields[i].value.trim() })).filter(t => t.said);
    if (!list.length || !list.every(t => Number.isInteger(t.quantity))) return tell(word('failed', word('how_many')), true);
    keep({ do: 'tools', tools: list.map(({ tool, quantity }) => ({ tool, quantity })) }, word('tools'));
  };
  return tools.length > 0 && h('details', {}, h('summary', {}, word('tools_count')), h('div', { class: 'row' }, h('button', { onclick: () => tools.forEach((t, i) => { fields[i].value = String(t.expected); }) }, word('tools_all'))),
    tools.map((t, i) => [h('label', { for: 'tool-' + t.id }, `${t.name} ${t.size} – ${word('expected', t.expected)}`), fields[i]]), h('div', { class: 'row' }, h('button', { class: 'main', onclick: write }, word('write_down'))));
}

function batteries() {
  const list = s.under('battery/');
  return [h('h1', {}, word('batteries')), h('p', { class: 'box' }, word('battery_words')), !list.length && h('p', {}, word('battery_none')), list.map(battery)];
}
function battery(b) {
  const id = b.id.replace(/[^A-Za-z0-9]/g, '-'), volts = h('input', { id: id + 'v', type: 'text', inputmode: 'decimal' }), hours = h('input', { id: id + 'h', type: 'text', inputmode: 'decimal' }), charged = h('input', { type: 'checkbox', id: id + 'c' });
  const write = () => {
    const v = typed(volts.value), r = hours.value.trim() ? typed(hours.value) : -1;
    if (Number.isNaN(v) || Number.isNaN(r)) return tell(word('failed', word('volts')), true);
    keep({ do: 'reading', in: b.in, line: b.line, piece: b.piece, millivolts: Math.round(v * 1000), rested_min: r < 0 ? -1 : Math.round(r * 60), charged: charged.checked }, `${b.in} ${word('battery_n', b.piece)}: ${volts.value} V`);
  };
  return h('section', {}, h('h2', {}, `${s.part(b.part).name}, ${word('battery_n', b.piece)}`), live(() => { const x = s.of('battery/' + b.id, b); return [h('p', {}, x.millivolts !== undefined ? `${number(x.millivolts / 1000, 3)} V` : word('never_measured'), x.low_percent !== undefined ? `, ${word('percent_of', x.low_percent, x.high_percent)}` : '', x.why_not ? `, ${x.why_not}` : ''), x.flat && h('p', { class: 'warn' }, word('flat')), x.top_up && h('p', {}, word('top_up', date(x.top_up)))]; }),
    h('details', {}, h('summary', {}, word('reading_do')), h('label', { for: id + 'v' }, word('volts')), volts, h('label', { for: id + 'h' }, word('rested')), hours, h('label', { class: 'inline' }, charged, word('charged_now')), h('div', { class: 'row' }, h('button', { onclick: write }, word('reading_do')))));
}

export const work_pages = [
  { path: '', make: where }, { path: 'work', make: work }, { path: 'step', make: step }, { path: 'plan', make: plan },
  { path: 'release', make: release }, { path: 'closing', make: closing }, { path: 'batteries', make: batteries },
];
