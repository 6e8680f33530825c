/* journal.c: writing acts and reading them back. */
#include <string.h>

#include "store/derive.h"
#include "store/holder.h"
#include "store/sql.h"

static const char *const verb_words[STORE_VERBS] = {
    [STORE_BEGIN] = "begin",       [STORE_RECEIVE] = "receive", [STORE_COUNT] = "count",
    [STORE_FIND] = "find",         [STORE_VOLTAGE] = "voltage", [STORE_PROMISE] = "promise",
    [STORE_ARRIVE] = "arrive",     [STORE_UNDO] = "undo",       [STORE_FORGET] = "forget",
    [STORE_START] = "start",       [STORE_CHANGE] = "change",   [STORE_LEAVE] = "leave",
    [STORE_BLOCK] = "block",       [STORE_FINISH] = "finish",   [STORE_STRIP] = "strip",
    [STORE_TEST] = "test",         [STORE_MOVE] = "move",       [STORE_READING] = "reading",
    [STORE_CLOSE] = "close",       [STORE_RECOUNT] = "recount", [STORE_HOLD] = "hold",
    [STORE_BACK] = "back",         [STORE_LABEL] = "label",     [STORE_TOOL] = "tool",
    [STORE_REPORT] = "report",     [STORE_SET] = "set",         [STORE_RENAME] = "rename",
    [STORE_ANNOUNCE] = "announce", [STORE_CODE] = "code",
};

const char *store_verb_word(store_verb v) {
    return verb_words[v];
}

store_entry store_entry_of(store_verb verb) {
    return (store_entry){.verb = verb,
                         .usable = -1,
                         .damaged = -1,
                         .mass_g = -1,
                         .piece = -1,
                         .millivolts = -1,
                         .day = INT32_MAX,
                         .undoes = -1,
                         .test = -1,
                         .milli = INT64_MIN,
                         .minutes = -1};
}

bool store_begin(store *s, err *e) {
    if (!sql_run(s, "BEGIN IMMEDIATE", e))
        return false;
    s->in_act = true;
    s->act = s->written = 0;
    holder_note(s);
    return true;
}

void store_abandon(store *s) {
    if (!s || !s->in_act)
        return;
    s->in_act = false;
    if (!sqlite3_get_autocommit(s->db))
        sqlite3_exec(s->db, "ROLLBACK", NULL, NULL, NULL);
    holder_unnote(s);
}

static void bind_entry(sqlite3_stmt *st, const store_entry *n, int64_t number, int64_t act) {
    sql_bind_number(st, 1, number);
    sql_bind_number(st, 2, act);
    sql_bind_number(st, 3, n->at_s);
    sql_bind_text_or_null(st, 4, n->person);
    sql_bind_text(st, 5, n->device);
    sql_bind_text(st, 6, text_of(verb_words[n->verb]));
    sql_bind_text_or_null(st, 7, n->container);
    sql_bind_number_or_null(st, 8, n->line, n->line > 0);
    sql_bind_text_or_null(st, 9, n->part);
    sql_bind_number_or_null(st, 10, n->usable, n->usable >= 0);
    sql_bind_number_or_null(st, 11, n->damaged, n->damaged >= 0);
    sql_bind_number(st, 12, n->in_transit);
    sql_bind_number_or_null(st, 13, n->mass_g, n->mass_g >= 0);
    sql_bind_number_or_null(st, 14, n->piece, n->piece > 0);
    sql_bind_number_or_null(st, 15, n->millivolts, n->millivolts >= 0);
    sql_bind_number_or_null(st, 16, n->day, n->day != INT32_MAX);
    sql_bind_number(st, 17, n->instead);
    sql_bind_number_or_null(st, 18, n->undoes, n->undoes > 0);
    sql_bind_text_or_null(st, 19, n->about);
    sql_bind_text(st, 20, n->note);
    sql_bind_text_or_null(st, 21, n->step);
    sql_bind_number_or_null(st, 22, n->test, n->test > 0);
    sql_bind_number_or_null(st, 23, n->milli, n->milli != INT64_MIN);
    sql_bind_number_or_null(st, 24, n->minutes, n->minutes >= 0);
    sql_bind_text_or_null(st, 25, n->people);
    sql_bind_text_or_null(st, 26, n->from_place);
    sql_bind_text_or_null(st, 27, n->to_place);
    sql_bind_text_or_null(st, 28, n->tool);
    sql_bind_text_or_null(st, 29, n->sheet);
    if (n->sheet.len) /* the key of a table of one row is empty */
        sql_bind_text(st, 30, n->key);
    sql_bind_text_or_null(st, 31, n->cells);
    sql_bind_text_or_null(st, 32, number == act ? n->once : TEXT(""));
}

bool store_append(store *s, const store_entry *entry, int64_t *number, err *e) {
    int64_t last;
    if (!sql_number(s, "SELECT max(entry) FROM journal", &last, e))
        return false;
    sqlite3_stmt *st = sql_prepare(
        s,
        "INSERT INTO journal (entry, act, at_s, person, device, verb, container, line, part, usable, damaged,"
        " in_transit, mass_g, piece, millivolts, day, instead, undoes, about, note, step, test,"
        " milli, minutes, people, from_place, to_place, tool, sheet, key, cells, once)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        e);
    if (!st)
        return false;
    if (!s->act)
        s->act = last + 1;
    bind_entry(st, entry, last + 1, s->act);
    if (!sql_finish(s, st, e) || !derive_entry(s, last + 1, e))
        return false;
    s->written = last + 1;
    *number = last + 1;
    return true;
}

/* The very last calls of a commit (taking the rollback journal away, and making that durable) can fail after the
 * change is in the file. Then it is there, but a power cut may take it back: nobody may rely on it. */
static bool may_be_there(store *s) {
    int64_t there;
    return s->written &&
           (!sql_number(s, "SELECT max(entry) FROM journal", &there, NULL) || there >= s->written);
}

bool store_commit(store *s, err *e) {
    int code = sqlite3_exec(s->db, "COMMIT", NULL, NULL, NULL);
    bool ok = code == SQLITE_OK || sql_fail(s, code, e);
    if (!ok && !sqlite3_get_autocommit(s->db))
        sqlite3_exec(s->db, "ROLLBACK", NULL, NULL, NULL);
    s->in_act = false;
    holder_unnote(s);
    if (!ok && (code & 0xff) == SQLITE_IOERR && may_be_there(s))
        return err_run(e, s->path, "look with kitbench stock whether it is there before you enter it again",
                       "the disk failed at the last moment; it is not certain that this was saved");
    return ok;
}

bool store_begin_read(store *s, err *e) {
    return sql_run(s, "BEGIN", e);
}

void store_end_read(store *s) {
    if (!s->in_act && !sqlite3_get_autocommit(s->db))
        sqlite3_exec(s->db, "COMMIT", NULL, NULL, NULL);
}

bool store_read_last(store *s, int64_t *entry, int64_t *at_s, err *e) {
    return sql_number(s, "SELECT max(entry) FROM journal", entry, e) &&
           sql_number(s, "SELECT at_s FROM journal ORDER BY entry DESC LIMIT 1", at_s, e);
}

bool store_find_once(store *s, text once, int64_t *act, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT act FROM journal WHERE once = ?", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, once);
    int got = sql_next(s, st, e);
    *act = got == 1 ? sqlite3_column_int64(st, 0) : 0;
    sqlite3_finalize(st);
    return got >= 0;
}

static store_verb verb_of(text word) {
    for (int v = 0; v < STORE_VERBS; v++)
        if (text_is(word, verb_words[v]))
            return (store_verb)v;
    return STORE_VERBS;
}

static store_entry read_entry(arena *a, sqlite3_stmt *st) {
    return (store_entry){
        .entry = sql_number_at(st, 0, 0),
        .act = sql_number_at(st, 1, 0),
        .at_s = sql_number_at(st, 2, 0),
        .person = sql_text(a, st, 3),
        .device = sql_text(a, st, 4),
        .verb = verb_of(sql_text(a, st, 5)),
        .container = sql_text(a, st, 6),
        .line = sql_number_at(st, 7, 0),
        .part = sql_text(a, st, 8),
        .usable = sql_number_at(st, 9, -1),
        .damaged = sql_number_at(st, 10, -1),
        .in_transit = sql_number_at(st, 11, 0) != 0,
        .mass_g = sql_number_at(st, 12, -1),
        .piece = sql_number_at(st, 13, -1),
        .millivolts = sql_number_at(st, 14, -1),
        .day = (date_day)sql_number_at(st, 15, INT32_MAX),
        .instead = sql_number_at(st, 16, 0) != 0,
        .undoes = sql_number_at(st, 17, -1),
        .about = sql_text(a, st, 18),
        .note = sql_text(a, st, 19),
        .step = sql_text(a, st, 20),
        .test = sql_number_at(st, 21, -1),
        .milli = sql_number_at(st, 22, INT64_MIN),
        .minutes = sql_number_at(st, 23, -1),
        .people = sql_text(a, st, 24),
        .from_place = sql_text(a, st, 25),
        .to_place = sql_text(a, st, 26),
        .tool = sql_text(a, st, 27),
        .sheet = sql_text(a, st, 28),
        .key = sql_text(a, st, 29),
        .cells = sql_text(a, st, 30),
        .once = sql_text(a, st, 31),
        .undone = sql_number_at(st, 32, 0) != 0,
    };
}

bool store_read_journal(arena *a, store *s, int64_t from, store_entry **out, size_t *n, err *e) {
    sqlite3_stmt *st = sql_prepare(
        s,
        "SELECT entry, act, at_s, person, device, verb, container, line, part, usable, damaged, in_transit,"
        " mass_g, piece, millivolts, day, instead, undoes, about, note, step, test, milli, minutes, people,"
        " from_place, to_place, tool, sheet, key, cells, once, entry IN (SELECT entry FROM state_undone)"
        " FROM journal WHERE entry >= ? ORDER BY entry",
        e);
    if (!st)
        return false;
    sql_bind_number(st, 1, from);
    size_t cap = 0;
    *out = NULL;
    *n = 0;
    int got;
    while ((got = sql_next(s, st, e)) == 1) {
        arena_room(a, *out, *n, cap, store_entry);
        (*out)[(*n)++] = read_entry(a, st);
    }
    sqlite3_finalize(st);
    return got == 0;
}

bool store_read_announced(arena *a, store *s, store_entry **out, size_t *n, err *e) {
    int64_t act;
    store_entry *all;
    size_t n_all;
    *n = 0;
    if (!sql_number(s,
                    "SELECT coalesce(max(act), 0) FROM journal WHERE verb = 'announce'"
                    " AND entry NOT IN (SELECT entry FROM state_undone)",
                    &act, e))
        return false;
    *out = NULL;
    if (act == 0)
        return true;
    if (!store_read_journal(a, s, act, &all, &n_all, e))
        return false;
    *out = arena_array(a, store_entry, n_all);
    for (size_t k = 0; k < n_all; k++)
        if (all[k].act == act && all[k].verb == STORE_ANNOUNCE && !all[k].undone)
            (*out)[(*n)++] = all[k];
    return true;
}
