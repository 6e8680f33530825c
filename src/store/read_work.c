/* read_work.c: the running build out of the state tables. */
#include "store/reading.h"

static date_moment moment_at(sqlite3_stmt *st, int at) {
    return sqlite3_column_int64(st, at) / 60;
}

static bool take_step(reading *r, sqlite3_stmt *st, int at, kit_index *step) {
    *step = kit_find_step(r->kit, sql_text(r->memory, st, at));
    return *step != KIT_NONE || reading_strange(r, "step");
}

kit_texts reading_people(arena *a, text all) {
    kit_texts out = {0};
    size_t cap = 0;
    text rest = all, one;
    while (all.len && text_next_piece(&rest, ';', &one)) {
        arena_room(a, out.list, out.n, cap, text);
        out.list[out.n++] = one;
    }
    return out;
}

static bool kind_of(text verb, stock_event_kind *kind) {
    static const store_verb verbs[] = {STORE_START, STORE_CHANGE, STORE_LEAVE,
                                       STORE_BLOCK, STORE_FINISH, STORE_STRIP};
    static const stock_event_kind kinds[] = {STOCK_STARTED, STOCK_CHANGED,  STOCK_LEFT,
                                             STOCK_HELD,    STOCK_FINISHED, STOCK_STRIPPED};
    for (size_t i = 0; i < sizeof verbs / sizeof verbs[0]; i++)
        if (text_is(verb, store_verb_word(verbs[i]))) {
            *kind = kinds[i];
            return true;
        }
    return false;
}

static bool take_event(reading *r, sqlite3_stmt *st) {
    stock_event v = {.entry = sqlite3_column_int64(st, 0),
                     .at = moment_at(st, 1),
                     .people = reading_people(r->memory, sql_text(r->memory, st, 4)),
                     .supervisor = sql_text(r->memory, st, 5),
                     .minutes = sql_number_at(st, 6, -1),
                     .note = sql_text(r->memory, st, 7)};
    if (!take_step(r, st, 2, &v.step))
        return false;
    if (!kind_of(sql_text(r->memory, st, 3), &v.kind))
        return reading_strange(r, "kind of event");
    arena_room(r->memory, r->out->events, r->out->n_events, r->cap, stock_event);
    r->out->events[r->out->n_events++] = v;
    return true;
}

static bool take_result(reading *r, sqlite3_stmt *st) {
    kit_index step;
    stock_result v = {.entry = sqlite3_column_int64(st, 0),
                      .at = moment_at(st, 1),
                      .milli = sqlite3_column_int64(st, 4),
                      .by = sql_text(r->memory, st, 5),
                      .signed_by = sql_text(r->memory, st, 6)};
    if (!take_step(r, st, 2, &step))
        return false;
    v.test = stock_find_test(r->kit, step, sqlite3_column_int64(st, 3));
    if (v.test == KIT_NONE)
        return reading_strange(r, "test");
    arena_room(r->memory, r->out->results, r->out->n_results, r->cap, stock_result);
    r->out->results[r->out->n_results++] = v;
    return true;
}

static bool take_move(reading *r, sqlite3_stmt *st) {
    stock_move m = {.entry = sqlite3_column_int64(st, 0),
                    .at = moment_at(st, 1),
                    .quantity = sqlite3_column_int64(st, 3),
                    .from = stock_place_of(sql_text(r->memory, st, 4)),
                    .to = stock_place_of(sql_text(r->memory, st, 5)),
                    .row = KIT_NONE,
                    .step = KIT_NONE};
    if (m.from == STOCK_PLACES || m.to == STOCK_PLACES)
        return reading_strange(r, "place");
    if (!reading_part(r, st, 2, &m.part) ||
        (sqlite3_column_type(st, 6) != SQLITE_NULL && !reading_row(r, st, 6, &m.row)) ||
        (sqlite3_column_type(st, 8) != SQLITE_NULL && !take_step(r, st, 8, &m.step)))
        return false;
    arena_room(r->memory, r->out->moves, r->out->n_moves, r->cap, stock_move);
    r->out->moves[r->out->n_moves++] = m;
    return true;
}

static bool take_reading(reading *r, sqlite3_stmt *st) {
    stock_reading v = {.entry = sqlite3_column_int64(st, 0),
                       .at = moment_at(st, 1),
                       .piece = sqlite3_column_int64(st, 4),
                       .millivolts = sqlite3_column_int64(st, 5),
                       .rested_min = sql_number_at(st, 6, -1),
                       .charged = sqlite3_column_int64(st, 7) != 0};
    if (!reading_row(r, st, 2, &v.row))
        return false;
    arena_room(r->memory, r->out->readings, r->out->n_readings, r->cap, stock_reading);
    r->out->readings[r->out->n_readings++] = v;
    return true;
}

static bool take_closing(reading *r, sqlite3_stmt *st) {
    stock_closing v = {
        .entry = sqlite3_column_int64(st, 0), .at = moment_at(st, 1), .missing = sql_text(r->memory, st, 2)};
    arena_room(r->memory, r->out->closings, r->out->n_closings, r->cap, stock_closing);
    r->out->closings[r->out->n_closings++] = v;
    return true;
}

bool reading_work(reading *r) {
    return reading_list(r,
                        "SELECT entry, at_s, step, verb, people, about, minutes, note FROM state_work"
                        " ORDER BY entry",
                        take_event) &&
           reading_list(
               r, "SELECT entry, at_s, step, test, milli, person, about FROM state_results ORDER BY entry",
               take_result) &&
           reading_list(r,
                        "SELECT entry, at_s, part, quantity, from_place, to_place, container, line, step"
                        " FROM state_moves ORDER BY entry",
                        take_move) &&
           reading_list(r,
                        "SELECT entry, at_s, container, line, piece, millivolts, minutes, charged"
                        " FROM state_readings ORDER BY entry",
                        take_reading) &&
           reading_list(r, "SELECT entry, at_s, note FROM state_closings ORDER BY entry", take_closing);
}
