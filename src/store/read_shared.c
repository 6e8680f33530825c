/* read_shared.c: who has which box, second counts, labels, tools and what was asked for, out of the state tables. */
#include "store/reading.h"

static bool take_second_count(reading *r, sqlite3_stmt *st) {
    stock_second_count c = {.entry = sqlite3_column_int64(st, 0),
                            .usable = sqlite3_column_int64(st, 3),
                            .damaged = sqlite3_column_int64(st, 4),
                            .person = sql_text(r->memory, st, 5)};
    if (!reading_row(r, st, 1, &c.row))
        return false;
    arena_room(r->memory, r->out->second_counts, r->out->n_second_counts, r->cap, stock_second_count);
    r->out->second_counts[r->out->n_second_counts++] = c;
    return true;
}

static bool take_hold(reading *r, sqlite3_stmt *st) {
    stock_hold h = {.entry = sqlite3_column_int64(st, 1),
                    .at = sqlite3_column_int64(st, 2) / 60,
                    .people = reading_people(r->memory, sql_text(r->memory, st, 3)),
                    .place = sql_text(r->memory, st, 4)};
    if (!reading_container(r, st, 0, &h.container))
        return false;
    arena_room(r->memory, r->out->holds, r->out->n_holds, r->cap, stock_hold);
    r->out->holds[r->out->n_holds++] = h;
    return true;
}

static bool take_label(reading *r, sqlite3_stmt *st) {
    stock_label l = {.entry = sqlite3_column_int64(st, 1), .label = sql_text(r->memory, st, 2)};
    if (!reading_part(r, st, 0, &l.part))
        return false;
    arena_room(r->memory, r->out->labels, r->out->n_labels, r->cap, stock_label);
    r->out->labels[r->out->n_labels++] = l;
    return true;
}

static bool take_tool(reading *r, sqlite3_stmt *st) {
    stock_tool_count t = {.entry = sqlite3_column_int64(st, 1),
                          .at = sqlite3_column_int64(st, 2) / 60,
                          .quantity = sqlite3_column_int64(st, 3),
                          .tool = kit_find_tool(r->kit, sql_text(r->memory, st, 0))};
    if (t.tool == KIT_NONE)
        return reading_strange(r, "tool");
    arena_room(r->memory, r->out->tool_counts, r->out->n_tool_counts, r->cap, stock_tool_count);
    r->out->tool_counts[r->out->n_tool_counts++] = t;
    return true;
}

static bool take_asked(reading *r, sqlite3_stmt *st) {
    stock_asked q = {.entry = sqlite3_column_int64(st, 1),
                     .at = sqlite3_column_int64(st, 2) / 60,
                     .quantity = sqlite3_column_int64(st, 3),
                     .note = sql_text(r->memory, st, 4)};
    if (!reading_part(r, st, 0, &q.part))
        return false;
    arena_room(r->memory, r->out->asked, r->out->n_asked, r->cap, stock_asked);
    r->out->asked[r->out->n_asked++] = q;
    return true;
}

bool reading_shared(reading *r) {
    return reading_list(r,
                        "SELECT entry, container, line, usable, damaged, person FROM state_recounts"
                        " ORDER BY entry",
                        take_second_count) &&
           reading_list(r, "SELECT container, entry, at_s, people, place FROM state_holds ORDER BY entry",
                        take_hold) &&
           reading_list(r, "SELECT part, entry, label FROM state_labels ORDER BY entry", take_label) &&
           reading_list(r, "SELECT tool, entry, at_s, quantity FROM state_tools ORDER BY entry", take_tool) &&
           reading_list(r, "SELECT part, entry, at_s, quantity, note FROM state_reports ORDER BY entry",
                        take_asked);
}
