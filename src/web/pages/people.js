// people.js: this device, what is kept on it, the last entries, the crew and the dates.

import { h } from '/dom.js';
import * as s from '/store.js';
import { word, date, clock } from '/words.js';
import { keyed_list, show_again, live, keep, now, tell, to, go, use_language, languages } from '/main.js';

function more() {
  const places = [['missing', 'missing'], ['plan', 'plan'], ['release', 'release'], ['batteries', 'batteries'], ['crew', 'crew'], ['recent', 'recent'], ['waiting', 'kept_title'], ['scale', 'scale_title'], ['me', 'this_device']];
  return [h('h1', {}, word('more')), h('ul', { class: 'ledger' }, places.map(([path, name]) => h('li', {}, h('a', { href: to(path) }, word(name)))))];
}

function me() {
  const place = h('input', { id: 'place', type: 'text', maxlength: 30, value: s.me.place });
  const boxes = s.under('crew/').map(p => ({ no: p.id, box: h('input', { type: 'checkbox', name: 'here', checked: s.me.people.includes(p.id) }), name: p.name }));
  const language = h('select', { id: 'language', onchange: () => use_language(language.value) }, Object.entries(languages).map(([code, name]) => h('option', { value: code, selected: document.documentElement.lang === code }, name)));
  const save = async e => {
    e.preventDefault();
    s.set_people(boxes.filter(b => b.box.checked).map(b => b.no));
    try { Object.assign(s.me, await s.ask('/api/sit', { place: place.value.trim() })); s.changed(); tell(word('saved')); if (location.hash === to('me')) go(''); } catch (failure) { tell(word('failed', failure.message), true); }
  };
  return [h('h1', {}, word('this_device')), h('p', {}, s.me.role === 'leader' ? word('role_leader') : word('role_learner')), s.me.join_code && h('p', {}, word('join_code_is', s.me.join_code)),
    h('form', { onsubmit: save }, h('label', { for: 'place' }, word('table')), h('p', { class: 'quiet' }, word('table_words')), place,
      boxes.length > 0 && h('fieldset', {}, h('legend', {}, word('people_here')), h('p', { class: 'quiet' }, word('people_words')), boxes.map(b => h('label', { class: 'inline' }, b.box, b.name))),
      h('div', { class: 'row' }, h('button', { class: 'main' }, word('save')))),
    h('label', { for: 'language' }, word('language')), language, h('p', {}, h('a', { href: to('scale') }, word('scale_title'))),
    location.protocol !== 'https:' && h('p', { class: 'quiet' }, word('plain_http'))];
}

function waiting() {
  return [h('h1', {}, word('kept_title')), live(() => [
    s.refused.length > 0 && [h('h2', {}, word('refused_title')), s.refused.map(r => h('div', { class: 'box warns' }, h('p', {}, h('b', {}, r.kind === 'conflict' ? word('conflict_title') : r.show)), r.kind === 'conflict' && h('p', {}, r.show), h('p', {}, word('refused_why', r.words)),
      h('div', { class: 'row' }, r.kind === 'conflict' && h('button', { onclick: () => s.enter_again(r.act.once, { seen: -1 }) }, word('refused_again')), h('button', { onclick: () => s.forget_refused(r.act.once) }, word('refused_drop')))))],
    !s.link.live && h('p', { class: 'box' }, word('kept_offline')),
    s.queue.length ? [h('p', {}, word('kept_words')), h('ul', { class: 'ledger' }, s.queue.map(q => h('li', {}, h('div', { class: 'line' }, h('span', {}, q.show), h('span', { class: 'end' }, h('span', { class: 'mark', 'aria-hidden': 'true' }, '▣'), word('waits'))))))] : h('p', {}, word('kept_none'))])];
}

function recent() {
  return [h('h1', {}, word('recent')), live(() => h('ul', { class: 'ledger' }, s.under('entry/').sort((a, b) => Number(b.id) - Number(a.id)).filter(e => e.do !== 'undo').map(e => h('li', {}, h('div', { class: 'line' },
    h('span', {}, e.words), h('span', { class: 'sub' }, [date(e.at), clock(e.at), e.person && s.person(e.person), e.device].filter(Boolean).join(' · ')),
    h('span', { class: 'end' }, e.undone ? word('undone') : !['begin', 'forget', 'code', 'rename'].includes(e.do) && h('button', { 'aria-label': `${word('undo')}: ${e.words}`, onclick: () => { if (confirm(word('undo_sure', e.words))) keep({ do: 'undo', entry: Number(e.id) }, `${word('undo')}: ${e.words}`); } }, word('undo'))))))))];
}

// The adult types it, on the leader's device.
function pin_form(p) {
  const code = h('input', { id: 'pin-' + p.id, type: 'password', autocomplete: 'new-password', maxlength: 40 }), own = h('input', { id: 'own-' + p.id, type: 'password', autocomplete: 'off', maxlength: 40 });
  const by = h('select', { id: 'by-' + p.id }, h('option', { value: '' }, '–'), s.under('crew/').filter(x => x.leader).map(x => h('option', { value: x.id }, x.name)));
  const save = async e => {
    e.preventDefault();
    if (await now({ do: 'set_code', person: p.id, code: code.value, by: by.value, pin: own.value })) code.value = own.value = '';
  };
  return h('details', {}, h('summary', {}, word('pin_new', p.name), ' – ', live(() => { const c = s.of('code/' + p.id, null); return !c ? word('pin_none') : c.locked ? word('pin_locked') : word('pin_set'); }, 'span')),
    h('form', { onsubmit: save }, h('p', { class: 'quiet' }, word('pin_words')), h('label', { for: 'pin-' + p.id }, word('pin_new', p.name)), code, h('label', { for: 'by-' + p.id }, word('leader')), by, h('label', { for: 'own-' + p.id }, word('pin_yours')), own, h('div', { class: 'row' }, h('button', {}, word('save')))));
}

// ---- the crew and its dates; the leader changes them here, everybody may look

const say = async act => { if (await now(act)) show_again(); };

function person_form(p) {
  const name = h('input', { id: 'name-' + (p?.id ?? 'new'), type: 'text', maxlength: 40, value: p?.name ?? '' }), adult = h('input', { type: 'checkbox', checked: p?.adult });
  const save = e => {
    e.preventDefault();
    if (!name.value.trim()) return tell(word('failed', word('who_name')), true);
    say({ do: p ? 'change_person' : 'add_person', ...(p ? { person: p.id } : {}), name: name.value.trim(), adult: adult.checked });
  };
  return h('details', {}, h('summary', {}, p ? word('change', p.name) : word('person_new')), h('form', { onsubmit: save }, h('label', { for: 'name-' + (p?.id ?? 'new') }, word('nickname')), name, h('label', { class: 'inline' }, adult, word('adult')),
    h('div', { class: 'row' }, h('button', {}, word('save')), p && h('button', { type: 'button', onclick: () => { if (confirm(word('remove_sure', p.name))) say({ do: 'remove_person', person: p.id }); } }, word('remove')))), p?.adult && pin_form(p));
}

function rule_form() {
  const rule = h('input', { id: 'rule', type: 'text', maxlength: 200 });
  return h('details', {}, h('summary', {}, word('sessions_new')), h('form', { onsubmit: e => { e.preventDefault(); say({ do: 'add_sessions', rule: rule.value }); } }, h('label', { for: 'rule' }, word('rule_words')), rule, h('div', { class: 'row' }, h('button', {}, word('save')))));
}

function session_line(x, people, leads) {
  const differs = new Map(x.differs.map(d => [d.person, d]));
  const comes = p => differs.get(p.id)?.comes ?? true;
  return h('li', {}, h('div', { class: 'line' }, h('span', {}, h('b', {}, word('session_n', x.id)), ' ', date(x.day), x.cancelled ? h('span', { class: 'warn' }, ' – ', word('called_off')) : ''),
    h('span', { class: 'sub' }, x.differs.map(d => `${s.person(d.person)} ${d.comes ? word('from_until', d.from ? clock(d.from) : '…', d.until ? clock(d.until) : '…') : word('stays_away')}`).join(' · ')), h('span', { class: 'end' }, clock(x.start), '–', clock(x.end))),
    h('details', {}, h('summary', {}, word('attendance')), h('div', { class: 'row' }, people.map(p => h('button', { 'aria-pressed': String(comes(p)), disabled: !leads, onclick: () => keep({ do: 'attend', session: Number(x.id), person: p.id, comes: !comes(p) }, `${p.name}: ${comes(p) ? word('stays_away') : word('comes')}`) }, p.name, ': ', comes(p) ? word('comes') : word('stays_away')))),
      leads && h('div', { class: 'row' }, h('button', { onclick: () => say({ do: 'cancel_session', session: Number(x.id), cancelled: !x.cancelled }) }, x.cancelled ? word('held_after_all') : word('call_off')))));
}

function crew() {
  const leads = s.me.role === 'leader';
  return [h('h1', {}, word('crew')), live(() => {
    const people = s.under('crew/');
    if (!people.length) return h('p', {}, word('crew_none'));
    return h('ul', { class: 'ledger' }, people.map(p => h('li', {}, h('div', { class: 'line' }, h('b', {}, p.name), h('span', { class: 'sub' }, p.supervises.length ? word('supervises', p.supervises.join(', ')) : ''), h('span', { class: 'end' }, p.leader ? word('leader') : p.adult ? word('adult') : word('learner'))))));
  }), leads && [s.under('crew/').map(person_form), person_form(null)], h('h2', {}, word('sessions')), leads && rule_form(),
  keyed_list(() => s.under('session/').sort((a, b) => Number(a.id) - Number(b.id)), x => session_line(x, s.under('crew/'), leads))];
}

export const people_pages = [{ path: 'more', make: more }, { path: 'me', make: me }, { path: 'waiting', make: waiting }, { path: 'recent', make: recent }, { path: 'crew', make: crew }];
