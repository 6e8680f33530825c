// stock.js: the pages of the stock check: boxes, rows, finding a part, what is missing, the scale of the screen.

import { h, draw } from '/dom.js';
import * as s from '/store.js';
import { word, number, date, typed } from '/words.js';
import { live, keep, now, tell, go, to } from '/main.js';

const CARD_MM = 85.60; // ISO/IEC 7810, ID-1
const rows_in = box => s.kit.rows.filter(r => r.in === box);
const inside = box => s.kit.containers.filter(c => c.inside === box);
const rows_under = box => [...rows_in(box), ...inside(box).flatMap(c => rows_under(c.no))];
const container = no => s.kit.containers.find(c => c.no === no) ?? { no, name: '', inside: '' };
const row_state = (box, line) => s.of(`row/${box}/${line}`, { counted: false, usable: 0, damaged: 0, times: 0, missing: 0, lacking: 0, extra: 0 });
export const amount = (n, unit) => unit ? `${number(n)} ${unit === 'pack' ? word('unit_pack') : unit}` : number(n);

// A row's state in words, with a mark of its own: state is never shown by colour alone.
function row_words(box, line) {
  const r = row_state(box, line);
  const waits = s.waiting_for(box, line).length > 0;
  const words = [];
  if (waits) words.push(h('span', { class: 'warn' }, h('span', { class: 'mark', 'aria-hidden': 'true' }, '▣'), word('waits')));
  if (!r.counted && !waits) words.push(h('span', { class: 'quiet' }, word('not_counted')));
  if (r.counted && !r.missing && !r.damaged && !r.extra) words.push(h('span', { class: 'good' }, h('span', { class: 'mark', 'aria-hidden': 'true' }, '✓'), word('all_right')));
  if (r.missing) words.push(h('span', { class: 'warn' }, word('missing_n', number(r.missing))));
  if (r.damaged) words.push(h('span', { class: 'warn' }, word('damaged_n', number(r.damaged))));
  if (r.extra) words.push(h('span', { class: 'warn' }, word('extra_n', number(r.extra))));
  return words.flatMap((w, i) => i ? [', ', w] : [w]);
}

function box_words(no) {
  const b = s.of('box/' + no, { rows: 0, counted: 0 });
  if (b.absent) return h('span', { class: 'warn' }, word('absent'));
  if (b.rows && b.counted === b.rows) return h('span', { class: b.all_right === b.rows ? 'good' : '' }, h('span', { class: 'mark', 'aria-hidden': 'true' }, '✓'), b.all_right === b.rows ? word('box_right') : word('box_done'));
  return b.rows ? word('box_counted', b.counted, b.rows) : '';
}

export function names(people) { return people.map(s.person).join(', '); }
function with_whom(no) {
  const hold = s.of('hold/' + no, null);
  return hold && word('box_with', [hold.place, names(hold.people)].filter(Boolean).join(': '));
}

function box_line(c) {
  return h('li', {}, h('a', { href: to('box', c.no) }, h('span', {}, h('b', {}, c.no), ' ', c.name),
    h('span', { class: 'sub' }, [c.label, c.box && (s.of('box/' + c.no).received ? word('received') : word('not_received')), with_whom(c.no)].filter(Boolean).join(' · ')),
    h('span', { class: 'end' }, box_words(c.no))));
}

function boxes() {
  return [h('h1', {}, word('boxes')),
    live(() => { const b = s.of('build'); return [h('p', {}, word('rows_of', number(b.counted ?? 0), number(b.rows ?? 0))), h('progress', { max: b.rows ?? 1, value: b.counted ?? 0, 'aria-label': word('check_so_far') })]; }),
    live(() => s.kit.containers.filter(c => c.box).map(c => [h('ul', { class: 'ledger' }, box_line(c), inside(c.no).map(box_line))])),
    s.me.role === 'leader' && h('p', {}, h('a', { href: to('quick'), class: 'go' }, word('quick_entry')))];
}

// ---- one box or bag

function box(no) {
  const c = container(no), rows = rows_in(no);
  const open = () => rows_under(no).filter(r => !row_state(r.in, r.line).counted && !s.waiting_for(r.in, r.line).length);
  const all_here = () => {
    const n = open().length;
    if (n && confirm(word('all_here_sure', n))) keep({ do: 'all_here', in: no }, `${no}: ${word('all_here', n)}`);
  };
  return [h('p', {}, h('a', { href: c.inside ? to('box', c.inside) : to('boxes') }, '← ', c.inside || word('boxes'))),
    h('h1', {}, c.no, ' ', c.name), c.label && h('p', { class: 'quiet' }, c.label),
    live(() => [h('p', {}, box_words(no), ' ', h('span', { class: 'quiet' }, with_whom(no))),
      hold_buttons(no), open().length > 0 && h('div', { class: 'row' }, h('button', { class: 'main', onclick: all_here }, word('all_here', open().length)))]),
    c.box && receive_form(no),
    inside(no).length > 0 && live(() => inside(no).map(box_line), 'ul'),
    rows.length > 0 && h('h2', {}, word('in_packing_order')),
    rows.length > 0 && live(() => h('ul', { class: 'ledger' }, rows.map(r => h('li', {}, h('a', { href: to('row', no, r.line) },
      h('span', {}, r.line, ' ', h('b', {}, s.part(r.part).name)), h('span', { class: 'sub' }, [r.part, s.part(r.part).designation, word('expected', amount(r.quantity, r.unit))].filter(Boolean).join(' · ')),
      h('span', { class: 'end' }, row_words(no, r.line))))))),
    live(() => s.under('find/').filter(f => f.in === no).map(f => h('p', { class: 'warn' }, `${number(f.quantity)} × ${f.what} `, h('a', { href: `/api/picture/photo/${f.id}`, target: '_blank' }, word('photo'))))),
    find_form(no)];
}

// Who has it: a pair takes a box to its table, and brings it back before the next one.
function hold_buttons(no) {
  const hold = s.of('hold/' + no, null);
  const take = () => keep({ do: 'take', in: no, people: s.me.people, anyway: !!hold && confirm(word('take_anyway', with_whom(no))) }, `${no}: ${word('take_box')}`);
  return h('div', { class: 'row' }, (!hold || hold.place !== s.me.place) && h('button', { onclick: take }, word('take_box')),
    hold && h('button', { onclick: () => { if (confirm(word('box_back_words'))) keep({ do: 'bring_back', in: no }, `${no}: ${word('box_back')}`); } }, word('box_back')));
}

function receive_form(no) {
  const mass = h('input', { id: 'mass', type: 'text', inputmode: 'decimal' }), damage = h('input', { id: 'damage', type: 'text', maxlength: 300 });
  const done = e => {
    e.preventDefault();
    const kg = mass.value.trim() ? typed(mass.value) : -1;
    if (Number.isNaN(kg)) return tell(word('failed', mass.value), true);
    if (keep({ do: 'receive', in: no, mass_g: kg < 0 ? -1 : Math.round(kg * 1000), damage: damage.value }, `${no}: ${word('received')}`)) form.parentElement.open = false;
  };
  const form = h('form', { onsubmit: done }, h('label', { for: 'mass' }, word('mass_kg')), mass, h('label', { for: 'damage' }, word('damage_seen')), damage, h('div', { class: 'row' }, h('button', {}, word('box_receive'))));
  return h('details', { open: !s.of('box/' + no).received }, h('summary', {}, word('box_receive')), form);
}

// A photo small enough to be kept on the phone and sent in one go; what the camera wrote into it stays behind.
async function small_photo(file) {
  const picture = await createImageBitmap(file), canvas = document.createElement('canvas');
  for (const [side, quality] of [[1000, .7], [800, .6], [600, .5], [400, .4]]) {
    const by = Math.min(1, side / Math.max(picture.width, picture.height));
    canvas.width = Math.round(picture.width * by);
    canvas.height = Math.round(picture.height * by);
    canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
    const base64 = canvas.toDataURL('image/jpeg', quality).split(',')[1];
    if (base64.length < 150000) return base64;
  }
  throw new Error('photo');
}

function find_form(no) {
  const what = h('input', { id: 'what', type: 'text', maxlength: 200, required: true }), many = h('input', { id: 'many', type: 'text', inputmode: 'numeric', required: true });
  const photo = h('input', { id: 'photo', type: 'file', accept: 'image/*', capture: 'environment' });
  const done = async e => {
    e.preventDefault();
    const n = typed(many.value), act = { do: 'find', in: no, what: what.value.trim(), quantity: n };
    if (!act.what || !Number.isInteger(n)) return tell(word('failed', word('how_many')), true);
    try { if (photo.files[0]) act.photo = await small_photo(photo.files[0]); } catch { return tell(word('failed', word('photo_bad')), true); }
    if (keep(act, `${no}: ${n} × ${act.what}`)) { what.value = many.value = photo.value = ''; }
  };
  return h('details', {}, h('summary', {}, word('not_on_list')), h('form', { onsubmit: done }, h('label', { for: 'what' }, word('what_is_it')), what, h('label', { for: 'many' }, word('how_many')), many, h('label', { for: 'photo' }, word('photo')), photo, h('div', { class: 'row' }, h('button', {}, word('add_find')))));
}

// ---- one row: a large number, a pad, and on to the next

function row(box_no, line_text) {
  const line = Number(line_text), rows = rows_in(box_no), r = rows.find(x => x.line === line);
  if (!r) return [h('h1', {}, word('nothing_there'))];
  const p = s.part(r.part), before = row_state(box_no, line);
  const entered = { usable: '', damaged: '' };
  let which = 'usable';
  const next = () => rows.find(x => x.line > line && !row_state(box_no, x.line).counted && !s.waiting_for(box_no, x.line).length);
  const seen = () => row_state(box_no, line).times + s.queue.filter(q => q.act.do === 'count' && q.act.in === box_no && q.act.line === line).length;
  const seen_at_open = seen();
  const note = h('input', { id: 'note', type: 'text', maxlength: 300 }), transit = h('input', { id: 'transit', type: 'checkbox' });
  const display = h('output', { class: 'count', 'aria-live': 'polite' }), chooser = h('div', { class: 'row' });
  const refresh = () => {
    display.textContent = entered[which] === '' ? '–' : entered[which];
    chooser.replaceChildren(...['usable', 'damaged'].map(k => h('button', { type: 'button', class: 'grow', 'aria-pressed': String(which === k), onclick: () => { which = k; refresh(); } }, word(k), ': ', entered[k] === '' ? (k === 'damaged' ? '0' : '–') : entered[k])));
  };
  const again = h('input', { type: 'radio', name: 'sort', checked: true }), correct = h('input', { type: 'radio', name: 'sort' });
  const write = (usable, damaged) => {
    const blind = before.counted && again.checked;
    const ok = keep(blind ? { do: 'count_again', in: box_no, line, usable, damaged } : { do: 'count', in: box_no, line, usable, damaged, in_transit: transit.checked, note: note.value, seen: seen_at_open },
      `${box_no} ${word('row_n', line)}: ${usable} ${word('usable')}${damaged ? `, ${damaged} ${word('damaged')}` : ''}`);
    if (ok) { const n = next(); if (n) go('row', box_no, n.line); else go('box', box_no); }
  };
  const digit = d => { if (entered[which].length < 7) { entered[which] = String(Number(entered[which] + d)); refresh(); } };
  const pad = h('div', { class: 'pad' }, [1, 2, 3, 4, 5, 6, 7, 8, 9].map(d => h('button', { type: 'button', onclick: () => digit(d) }, d)),
    h('button', { type: 'button', 'aria-label': word('erase'), onclick: () => { entered[which] = ''; refresh(); } }, '⌫'), h('button', { type: 'button', onclick: () => digit(0) }, 0),
    h('button', { type: 'button', class: 'main', onclick: () => { if (entered.usable === '' && entered.damaged === '') return tell(word('failed', word('how_many')), true); write(Number(entered.usable), Number(entered.damaged)); } }, '✓', h('span', { class: 'skip' }, word('write_down'))));
  refresh();
  return [h('p', {}, h('a', { href: to('box', box_no) }, '← ', box_no)),
    h('h1', {}, word('row_n', line), ': ', p.name), h('p', {}, [r.part, p.designation, p.note].filter(Boolean).join(' · ')),
    h('div', { class: 'two' }, h('div', {},
      before.counted && h('fieldset', {}, h('legend', {}, word('count_again')), h('label', { class: 'inline' }, again, word('again_blind')), h('label', { class: 'inline' }, correct, word('again_correct')),
        h('details', {}, h('summary', {}, word('show_count')), live(() => { const b = row_state(box_no, line); return h('p', {}, word('counted_before', number(b.usable), number(b.damaged)), ' ', row_words(box_no, line)); }))),
      h('div', { class: 'row' }, h('button', { class: 'main grow', onclick: () => write(r.quantity, 0) }, word('as_listed', amount(r.quantity, r.unit)))),
      chooser, display, pad,
      h('label', { class: 'inline' }, transit, word('in_transit')), h('label', { for: 'note' }, word('note')), note),
    h('div', {}, picture_of(p), weighing(p)))];
}

export function picture_of(p) {
  if (!p.designation) return '';
  const scale = Number(s.setting('mm'));
  const place = h('div', { class: 'scroll' });
  if (!scale) return h('p', {}, h('a', { href: to('scale') }, word('no_scale')));
  s.ask('/api/picture/part/' + encodeURIComponent(p.no)).then(picture => place.replaceChildren(h('h2', {}, word('true_scale')), draw(picture, scale, `${p.name} ${p.designation}`)), () => {});
  return place;
}

function weighing(p) {
  if (p.mass_mg <= 0) return '';
  const grams = h('input', { id: 'grams', type: 'text', inputmode: 'decimal' }), said = h('p', { 'aria-live': 'polite' });
  grams.addEventListener('input', () => {
    const g = typed(grams.value);
    said.textContent = Number.isNaN(g) ? '' : word('by_weight_words', number(p.mass_mg / 1000, 3), number(g, 1), number(1000 * g / p.mass_mg, 1));
  });
  return h('details', {}, h('summary', {}, word('by_weight')), h('label', { for: 'grams' }, word('weight_g')), grams, said);
}

function scale() {
  const slider = h('input', { id: 'slider', type: 'range', min: 200, max: 700, step: 1, value: Math.round(CARD_MM * (Number(s.setting('mm')) || 3.78)) });
  const card = h('div', { class: 'card' });
  const fit = () => { card.style.width = slider.value + 'px'; card.style.height = Math.round(slider.value * 53.98 / CARD_MM) + 'px'; };
  slider.addEventListener('input', fit);
  fit();
  return [h('h1', {}, word('scale_title')), h('p', {}, word('scale_words')), h('div', { class: 'scroll' }, card), h('label', { for: 'slider' }, word('scale_mm')), slider,
    h('div', { class: 'row' }, h('button', { class: 'main', onclick: () => { s.setting('mm', Number(slider.value) / CARD_MM); tell(word('saved')); history.back(); } }, word('scale_save')))];
}

function quick() {
  const entry = h('textarea', { id: 'entry', rows: 8 });
  return [h('h1', {}, word('quick_entry')), h('p', {}, word('quick_words')), h('label', { for: 'entry' }, word('quick_entry')), entry,
    h('div', { class: 'row' }, h('button', { class: 'main', onclick: async () => { if (await now({ do: 'enter', entry: entry.value })) entry.value = ''; } }, word('quick_do')))];
}

// ---- finding

function find(words = '') {
  const field = h('input', { id: 'search', type: 'search', value: words, maxlength: 100 }), list = h('div', { 'aria-live': 'polite' });
  const plain = t => t.toLowerCase().normalize('NFKD').replace(/[\u0300-\u036f]/g, '');
  const search = () => {
    const wanted = plain(field.value).split(/\s+/).filter(Boolean);
    const found = wanted.length ? s.kit.parts.filter(p => { const all = plain([p.no, p.name, p.designation, ...p.makers, p.note].join(' ')); const tight = all.replace(/[\s-]/g, ''); return wanted.every(w => all.includes(w) || tight.includes(w.replace(/-/g, ''))); }).slice(0, 40) : [];
    list.replaceChildren(wanted.length && !found.length ? h('p', {}, word('find_none')) : h('ul', { class: 'ledger' }, found.map(p => h('li', {}, h('a', { href: to('part', p.no) }, h('span', {}, h('b', {}, p.name)), h('span', { class: 'sub' }, [p.no, p.designation].filter(Boolean).join(' · ')))))));
  };
  field.addEventListener('input', search);
  search();
  return [h('h1', {}, word('find')), h('label', { for: 'search' }, word('find_words')), field, list, h('p', { class: 'quiet' }, word('identify_cli'))];
}

export function lies(no) {
  const at = s.of('part/' + no, { at: {} }).at ?? {};
  const label = s.of('label/' + no, null)?.label;
  return [...s.kit.rows.filter(r => r.part === no).map(r => [h('a', { href: to('row', r.in, r.line) }, `${r.in} ${word('row_n', r.line)}`), ': ', row_words(r.in, r.line)]),
    ...Object.entries(at).filter(([, n]) => n > 0).map(([place, n]) => `${word('place_' + place)}${place === 'compartment' && label ? ' ' + label : ''}: ${number(n)}`)];
}

function part(no) {
  const p = s.part(no), many = h('input', { id: 'floor', type: 'text', inputmode: 'numeric', value: '1' });
  const steps = s.kit.steps.filter(x => x.parts.some(q => q.part === no));
  const stand_ins = s.kit.stand_ins.filter(x => x.part === no);
  const floor = () => {
    const n = typed(many.value), drawn = s.of('part/' + no, { at: {} }).at?.lost ?? 0;
    if (Number.isInteger(n) && n > 0) now({ do: 'move', part: no, quantity: n, from: drawn >= n ? 'lost' : 'row', to: 'compartment' });
  };
  return [h('h1', {}, p.name), h('p', {}, [no, p.designation, p.note].filter(Boolean).join(' · ')),
    h('dl', { class: 'pairs' }, p.makers.length > 0 && [h('dt', {}, word('makers_no')), h('dd', {}, p.makers.join(', '))], p.mass_mg > 0 && [h('dt', {}, word('mass_each')), h('dd', {}, number(p.mass_mg / 1000, 2), ' g')]),
    picture_of(p), h('h2', {}, word('lies_in')), live(() => h('ul', {}, lies(no).map(l => h('li', {}, l)))),
    stand_ins.length > 0 && [h('h2', {}, word('stand_ins')), h('ul', {}, stand_ins.map(x => h('li', {}, h('a', { href: to('part', x.stand_in) }, `${s.part(x.stand_in).name} (${x.stand_in})`), x.condition ? ': ' + x.condition : '')))],
    h('h2', {}, word('used_by')), h('ul', {}, steps.map(x => h('li', {}, h('a', { href: to('step', x.no) }, `${x.no} ${x.name}`), ': ', number(x.parts.filter(q => q.part === no).reduce((a, q) => a + q.quantity, 0))))),
    label_form(no),
    h('details', {}, h('summary', {}, word('floor_found')), h('label', { for: 'floor' }, word('how_many')), many, h('div', { class: 'row' }, h('button', { onclick: floor }, word('floor_do')))),
    chase(no)];
}

function label_form(no) {
  const label = h('input', { id: 'label', type: 'text', maxlength: 60, value: s.of('label/' + no, { label: '' }).label });
  return h('details', {}, h('summary', {}, word('label_title')), h('label', { for: 'label' }, word('label_words')), label, h('div', { class: 'row' }, h('button', { onclick: () => keep({ do: 'label', part: no, label: label.value.trim() }, `${no}: ${label.value.trim()}`) }, word('save'))));
}

function chase(no) {
  const many = h('input', { id: 'came', type: 'text', inputmode: 'numeric' }), bad = h('input', { id: 'came-bad', type: 'text', inputmode: 'numeric', value: '0' });
  const said = h('input', { id: 'promised', type: 'text', inputmode: 'numeric' }), day = h('input', { id: 'day', type: 'date' });
  const whole = field => { const n = typed(field.value); return Number.isInteger(n) ? n : NaN; };
  const came = () => { const n = whole(many), d = whole(bad); if (Number.isNaN(n + d)) return tell(word('failed', word('how_many')), true); if (keep({ do: 'arrive', part: no, usable: n, damaged: d }, `${no}: ${n} ${word('usable')}`)) many.value = ''; };
  const promise = () => { const n = whole(said); if (Number.isNaN(n) || !day.value) return tell(word('failed', word('day')), true); if (keep({ do: 'promise', part: no, quantity: n, day: day.value }, `${no}: ${word('promised_for', n, day.value)}`)) said.value = ''; };
  return [live(() => (s.of('part/' + no).promised ?? []).map(p => h('p', {}, word('promised_for', number(p.quantity), date(p.day))))),
    h('details', {}, h('summary', {}, word('arrived_title')), h('label', { for: 'came' }, word('usable')), many, h('label', { for: 'came-bad' }, word('damaged')), bad, h('div', { class: 'row' }, h('button', { onclick: came }, word('arrive_do')))),
    s.me.role === 'leader' && h('details', {}, h('summary', {}, word('promise_title')), h('label', { for: 'promised' }, word('quantity')), said, h('label', { for: 'day' }, word('day')), day, h('div', { class: 'row' }, h('button', { onclick: promise }, word('promise_do'))))];
}

function report_form() {
  const note = h('input', { id: 'sent', type: 'text', maxlength: 200 });
  return h('details', {}, h('summary', {}, word('report_sent')), h('p', { class: 'quiet' }, word('report_words')), h('label', { for: 'sent' }, word('report_how')), note, h('div', { class: 'row' }, h('button', { onclick: () => now({ do: 'report_sent', note: note.value.trim() }) }, word('report_sent'))));
}

function missing() {
  return [h('h1', {}, word('missing')), s.me.role === 'leader' && report_form(),
    live(() => {
      const b = s.of('build'), list = s.kit.parts.map(p => ({ ...p, ...s.of('part/' + p.no) })).filter(p => p.lacking > 0 || p.damaged > 0);
      const stops = s.under('stop/');
      return [b.counted < b.rows && h('p', { class: 'quiet' }, word('not_all_counted', number(b.rows - b.counted))),
        !list.length ? h('p', {}, word('missing_none')) : h('ul', { class: 'ledger' }, list.map(p => h('li', {}, h('a', { href: to('part', p.no) }, h('span', {}, h('b', {}, p.name)),
          h('span', { class: 'sub' }, [p.no, p.designation, s.of('chase/' + p.no, null) && word('chase_' + s.of('chase/' + p.no).state.replace(' ', '_')), ...p.promised.map(x => word('promised_for', number(x.quantity), date(x.day))), stops.some(x => x.part === p.no) && word('stops_steps', stops.filter(x => x.part === p.no).map(x => x.step).join(', '))].filter(Boolean).join(' · ')),
          h('span', { class: 'end warn' }, [p.lacking > 0 && word('lacking_n', number(p.lacking)), p.damaged > 0 && word('damaged_n', number(p.damaged))].filter(Boolean).join(', '))))))];
    })];
}

export const stock_pages = [
  { path: 'boxes', make: boxes }, { path: 'box', make: box }, { path: 'row', make: row }, { path: 'scale', make: scale },
  { path: 'quick', make: quick }, { path: 'find', make: find }, { path: 'part', make: part }, { path: 'missing', make: missing },
];
