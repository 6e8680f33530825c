// words.js: every text of the pages in one catalogue, and dates and numbers as the reader writes them. {0}, {1} are filled in.

import { de } from '/words-de.js';

const en = {
  app: 'Kitbench', skip: 'Skip to the page', loading: 'Asking the laptop …', 
  // joining
  join_title: 'Join this build', join_words: 'Type the four characters that the laptop shows.', join_code: 'Code', join_do: 'Join', join_own: 'A supervisor\'s own phone', join_own_words: 'With your name and PIN this device becomes yours: what you say on it needs no PIN again.', who_name: 'Name',
  // head and places
  places: 'Pages', where: 'Where we stand', stock: 'Stock check', find: 'Find', work: 'Work', more: 'More',
  live: 'live', not_live: 'no way to the laptop', kept: 'kept here: {0}', refused_n: 'to decide: {0}', here: 'now here: {0}', here_none: 'now here: ?',
  kept_title: 'Kept on this device', kept_words: 'Each of these is on this device and is sent once, as soon as the laptop answers.', kept_none: 'Nothing waits. All that was entered here is in the laptop\'s file.',
  kept_offline: 'The laptop does not answer. What you enter is kept on this device and sent later. Do not close this tab; after a reload no page shows, yet what was entered stays and is sent at the next opening.',
  no_room: 'This device has no room left to keep it. It was NOT written down: use paper.',
  refused_title: 'Not written: please decide', refused_why: 'The laptop says: {0}', refused_drop: 'Drop mine', refused_again: 'Write mine down all the same', conflict_title: 'Somebody else was there before',
  saved: 'Written down.', kept_note: 'Kept here, will be sent.', failed: 'Not written: {0}',
  // where we stand
  check_so_far: 'Stock check', rows_of: '{0} of {1} rows counted', boxes_of: '{0} of {1} boxes received', steps_of: '{0} of {1} steps done', build_so_far: 'The build',
  next_session: 'Next session', no_session: 'No session lies ahead.', session_n: 'Session {0}', stops_us: 'What stops us', stops_none: 'Nothing that we know of.', decide_today: 'To decide today', decide_none: 'Nothing.',
  stop_line: '{0} misses {1} × {2}', stop_promised: 'promised for {0}', stop_not_promised: 'not promised', 
  finish_on: 'Finished by the plan', finish_wanted: 'wanted by {0}', plan_none: 'No plan yet; it is being made.', plan_proven: 'no plan finishes earlier', plan_gap: 'at most {0} min above what no plan can beat',
  swap_line: '{0} × may be swapped: too many in {1}, too few in {2}', second_differs: 'Second count differs: {0} row {1}: {2} usable, {3} damaged', blocked_line: '{0} is blocked: {1}',
  // stock check
  boxes: 'Boxes and bags', box_counted: '{0} of {1}', box_done: 'all counted', box_right: 'all right', box_with: 'with {0}', received: 'received', not_received: 'not received', absent: 'nothing of it was found',
  take_box: 'We have it now', box_back: 'Everything is back where it came from', box_back_words: 'Before the bag is closed: everything back where it came from?', 
  in_packing_order: 'In packing order', all_here: 'All here: the {0} rows not counted yet', all_here_sure: 'All {0} rows are here, each piece usable?', yes: 'Yes', no: 'No', 
  row_n: 'row {0}', expected: 'expected {0}', not_counted: 'not counted', all_right: 'all right', missing_n: '{0} missing', damaged_n: '{0} damaged', extra_n: '{0} too many', waits: 'kept here',
  usable: 'usable', damaged: 'damaged', as_listed: 'All here: {0}', write_down: 'Write down', erase: 'Erase', in_transit: 'The damage was done on the way', note: 'Note', counted_before: 'Counted: {0} usable, {1} damaged',
  count_again: 'Somebody counted this row already. Count without looking at their number, then write yours down.', show_count: 'Show the count',
  not_on_list: 'Something that is on no row', what_is_it: 'What is it? A number on it, or in words', how_many: 'How many', add_find: 'Write down',
  by_weight: 'By weight', by_weight_words: 'Weigh the pieces without their bag. One piece weighs {0} g by the list, so {1} g are about {2} pieces. A mixed bag counts wrong: look through it first. Recount by hand where a screw too few stops the work.', weight_g: 'Mass in grams',
  true_scale: 'At true scale', no_scale: 'Set the scale of this screen first', scale_title: 'Scale of this screen', scale_words: 'Lay a bank card on the striped box and move the slider until both are equally wide (85.60 mm, ISO/IEC 7810).', scale_save: 'They are equal', scale_mm: 'Width of the box',
  quick_entry: 'Type in a paper sheet', quick_words: 'One line for each bag, as on the printed sheet: "bag B3 all right except row 7: 11".', quick_do: 'Write all of it down',
  box_receive: 'The box is here', mass_kg: 'Weighed, kg', damage_seen: 'Damage seen from outside (empty: none)',
  // find
  find_words: 'A number, a maker\'s number, or words: "M8 hex 30"', find_none: 'No part fits. Try fewer words.', lies_in: 'Where it lies', used_by: 'Steps that use it', floor_found: 'Found on the floor', floor_do: 'Back into its compartment',
  makers_no: 'Maker\'s numbers', stand_ins: 'The maker allows instead', place_compartment: 'compartment', place_tub: 'step tubs', place_fitted: 'fitted', place_lost: 'lost', place_scrapped: 'scrapped', mass_each: 'mass of one', identify_cli: 'By shape and measure: kitbench identify on the laptop.',
  // missing
  missing: 'Missing', missing_none: 'Nothing is missing of what was counted.', not_all_counted: '{0} rows are not counted yet: they say nothing.', lacking_n: '{0} to be sent', promised_for: '{0} promised for {1}', promise_title: 'The maker promised', day: 'Day', quantity: 'Quantity', arrived_title: 'Pieces came', arrive_do: 'They are here', promise_do: 'Note the promise', stops_steps: 'Stops: {0}',
  // work
  running: 'At work now', running_none: 'Nobody is at work on a step.', can_start: 'Next', can_start_none: 'No step can start now.', waiting_steps: 'Waits', left_steps: 'Left unfinished or blocked', since: 'since {0}', minutes_n: '{0} min', likely: 'likely {0} min', people_n: '{0} people', 
  state_to_do: 'to do', state_running: 'running', state_left_unfinished: 'left unfinished', state_blocked: 'blocked', state_done: 'done', all_steps: 'All steps',
  wear: 'Wear', not_wear: 'Do not wear', cautions: 'Mind', who: 'Who', parts_to_draw: 'Parts to draw', tools: 'Tools', tests: 'Tests', page_of: 'Manual: {0}', where_work: 'Where', safe_state: 'To leave it safely', manual_first: 'The maker\'s manual and local rules come first.',
  tight_none: '', tight_loose: 'leave hand-loose', tight_hand: 'hand-tight', tight_torque: '{0} N·m, {1}', closed_by: 'tightened at {0}', condition_dry: 'dry', 'condition_oiled': 'oiled', 'condition_thread-locked': 'thread-locked', single_use: 'new each time',
  super_room: 'an adult in the room', super_beside: 'a supervisor beside it', super_adult: 'an adult does it', supervisor: 'Supervisor', who_works: 'Who works on it', start: 'Start', go_on: 'Go on', done: 'Done', leave: 'Leave for next time', block: 'Blocked', change_over: 'Others go on', reason: 'Reason', pin: 'PIN', tub_empty: 'Is the tub empty?', left_over: 'What is left of the pieces drawn', left_words: 'Empty: all of it was fitted.', minutes: 'Minutes (empty: as the clock says)', choose: 'choose', needs_adult: 'This needs: {0}. Confirmed here and now, never without the network.', now_only: 'This needs the laptop: try again when it answers.',
  test_value: 'Measured, {0}', test_yes_no: 'As it must be?', measured_by: 'Measured by', signed_by: 'Signed by', not_signed: 'not signed', hold_point: 'hold point: nothing goes on before it is signed', limits: '{0} to {1} {2}', at_least: 'at least {0} {1}', at_most: 'at most {0} {1}', signs_learner: 'anybody else signs', signs_supervisor: 'a supervisor signs', signs_leader: 'the leader signs', out_of_limits: 'out of limits', in_limits: 'within limits', disturbed: 'void: disturbed since', sign_words: 'Who built or measured it does not sign it.', undo_step: 'Take it apart again', builders: 'Built by',
  // plan
  plan: 'Plan', plan_words: 'Minutes of work along each session; a bar in ink decides the finish.', decides: 'decides the finish', plan_stopped: 'Stopped: {0} misses {1} × {2}', plan_impossible: 'Nobody can do {0}: {1}; {2}', free_time: 'nothing planned', steps_in: '{0} steps', 
  // release, batteries, crew
  release: 'Is the list complete?', release_yes: 'Yes: list complete.', release_no: 'No. What is missing:', release_words: 'This says that the list is complete, never that the machine is safe: people decide that, by the maker\'s manual and the local rules.', loose_list: 'Left loose on purpose', loose_none: 'Nothing is left loose.', loose_line: '{0} of {1}: tightened at {2}', closing: 'Closing count', closing_words: 'Everything back in its place, tubs empty, tools counted?', closing_all: 'Everything is here', closing_missing: 'What is missing',
  batteries: 'Batteries', battery_n: 'battery {0}', volts: 'Voltage, V', rested: 'Hours of rest', charged_now: 'It was charged to full just now', reading_do: 'Write down', battery_words: 'The label comes first. Voltage says something only after 12 to 24 hours of rest, each battery alone. Charging: ventilated, attended, by an adult, never frozen.', percent_of: 'holds {0} to {1} %', never_measured: 'not measured since it came', flat: 'flat: charge it now', top_up: 'next top-up {0}', battery_none: 'The kit has no batteries.',
  crew: 'Crew and dates', adult: 'adult', leader: 'leader', learner: 'learner', supervises: 'may supervise: {0}', sessions: 'Sessions', attendance: 'Who comes', comes: 'comes', stays_away: 'does not come', from_until: '{0} to {1}', pin_set: 'has a PIN', pin_none: 'no PIN', pin_locked: 'locked after five wrong tries', pin_new: 'New PIN for {0}', pin_words: 'At least four characters. Only the adult types it.', pin_yours: 'The leader\'s own PIN, when one is set', crew_none: 'The build has no crew table.',
  // me
  this_device: 'This device', table: 'Table or place', table_words: 'Phones are shared: a phone belongs to a table. Write "table 2" or "bench".', people_here: 'Who is here now', people_words: 'The first one named stands beside what is entered.', language: 'Language', save: 'Save', role_leader: 'This device is the leader\'s.', role_learner: 'This device is for everybody.', join_code_is: 'Code to join: {0}', plain_http: 'Plain HTTP: whoever shares the Wi-Fi can listen.',
  recent: 'Last entries', undo: 'Undo', undone: 'undone', undo_sure: 'Undo this: {0}?',
  hello_title: 'This device reaches the laptop', hello_words: 'The laptop\'s terminal says so too. Now open the first page and type the code that the laptop shows.', hello_next: 'To the first page', hello_times: 'There and back: {0} ms',
  take_anyway: 'Somebody has it: {0}. Take it all the same?', photo: 'Photo', photo_bad: 'this picture cannot be read', again_blind: 'we count it a second time', again_correct: 'we correct the count', label_title: 'Its compartment', label_words: 'As on the label: "tray 2, B4"', report_sent: 'The report was sent to the maker', report_words: 'Every part that lacks pieces is noted as asked for. The report itself: kitbench report.', report_how: 'How it was sent', chase_not_asked: 'not asked for', chase_asked: 'asked for', chase_promised: 'promised', chase_overdue: 'overdue', chase_arrived: 'arrived',
  tools_count: 'Count the tools', tools_all: 'All as they should be', change: 'Change {0}', person_new: 'Somebody new', nickname: 'Nickname', remove: 'Remove', remove_sure: 'Nobody expects {0} any more?', sessions_new: 'More sessions', rule_words: 'In English: "Tuesdays 18:30 to 20:30, 5 September to 14 November, not 24 October"', called_off: 'called off', call_off: 'Call it off', held_after_all: 'It is held after all',
  undo_off: 'Comes off: {0}; {1} min to take apart, {2} min to do again', undo_void: 'Void then: {0}', undo_new: '{0} × {1} new (there are {2})', recount_title: 'Count these again tonight', recount_line: '– {0} pieces; {1} % that a mistake shows',
  unit_pack: 'packs', nothing_there: 'Nothing lies there.',
};

const catalogues = { en, de };
export const languages = { en: 'English', de: 'Deutsch' };
let now = en, locale = 'en-GB';

export function choose_language() {
  let wanted = '';
  try { wanted = JSON.parse(localStorage.getItem('kitbench-set-language') ?? '""'); } catch { /* then the browser's */ }
  const all = [wanted, ...(navigator.languages ?? [navigator.language])];
  return all.map(l => String(l).slice(0, 2)).find(l => catalogues[l]) ?? 'en';
}

export function ensure_language(language) {
  now = catalogues[language] ?? en;
  const same = (navigator.languages ?? []).find(l => l.startsWith(language));
  locale = same ?? (language === 'de' ? 'de-DE' : 'en-GB');
}

export function word(key, ...values) {
  const text = now[key] ?? en[key] ?? key;
  return values.length ? text.replace(/\{(\d)\}/g, (_, i) => values[+i] ?? '') : text;
}

export const number = (n, digits = 0) => new Intl.NumberFormat(locale, { maximumFractionDigits: digits }).format(n);

export function date(text) { // "2027-03-14"
  const [y, m, d] = text.slice(0, 10).split('-').map(Number);
  return new Intl.DateTimeFormat(locale, { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' }).format(new Date(y, m - 1, d));
}
export function clock(text) { // "18:30" or "2027-03-14 18:30"
  const [h, m] = text.slice(-5).split(':').map(Number);
  return new Intl.DateTimeFormat(locale, { hour: 'numeric', minute: '2-digit' }).format(new Date(2000, 0, 1, h, m));
}
// A number as people type it here: "12,5" and "12.5" are one. NaN when it is none.
export const typed = text => /^\s*\d+([.,]\d+)?\s*$/.test(text) ? Number(text.trim().replace(',', '.')) : NaN;
