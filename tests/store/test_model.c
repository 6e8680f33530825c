/* Random acts on a build file, against a plain model in memory that knows nothing of SQL: after every act the state in
 * the file is what the model says; at the end it is derived anew from the journal alone, and the documented views say
 * the same. The seed of a failing run is printed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/buf.h"
#include "fixture.h"
#include "support/scratch.h"

enum { ACTS = 60, RUNS = 12, MOST = 256 };

typedef struct {
    arena *memory;
    store *s;
    const kit *kit;
    const char *path;
    uint64_t seed, random;
    store_entry log[MOST]; /* log[i] is entry i + 1 */
    bool undone[MOST];
    size_t n;
} model;

static uint64_t next(model *m) { /* splitmix64 */
    uint64_t z = m->random += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
    return z ^ z >> 31;
}

static int64_t below(model *m, int64_t n) {
    return (int64_t)(next(m) % (uint64_t)n);
}

static void wrong(model *m, const char *what) {
    fail_msg("seed %llu, after entry %zu: %s", (unsigned long long)m->seed, m->n, what);
}

/* Of the running build: pieces move out of a row and back. */
static void random_work(model *m, store_entry *n) {
    if (n->verb != STORE_MOVE && n->verb != STORE_READING)
        n->container = n->part = TEXT(""), n->line = 0, n->usable = n->damaged = -1;
    if (n->verb == STORE_START || n->verb == STORE_FINISH || n->verb == STORE_STRIP)
        n->step = m->kit->steps[below(m, m->kit->n_steps)].number, n->people = TEXT("P1;P3");
    if (n->verb == STORE_MOVE) {
        bool out = below(m, 3) > 0;
        n->from_place = out ? TEXT("row") : TEXT("compartment");
        n->to_place = out ? TEXT("compartment") : TEXT("row");
    }
    if (n->verb == STORE_READING)
        n->piece = 1, n->millivolts = 12000 + below(m, 900), n->part = TEXT("");
}

/* Of several people at one build: few different things, so that entries replace each other. */
static void random_shared(model *m, store_entry *n) {
    static const char *const days[] = {"", "{\"comes\": \"yes\"}", "{\"comes\": \"no\"}"};
    if (n->verb == STORE_RECOUNT)
        n->part = TEXT(""), n->person = TEXT("P1");
    if (n->verb == STORE_HOLD || n->verb == STORE_BACK)
        n->part = TEXT(""), n->line = 0, n->people = n->verb == STORE_HOLD ? TEXT("P1;P3") : TEXT("");
    if (n->verb == STORE_LABEL || n->verb == STORE_REPORT || n->verb == STORE_TOOL || n->verb == STORE_SET)
        n->container = TEXT(""), n->line = 0, n->damaged = -1;
    if (n->verb == STORE_LABEL)
        n->note = below(m, 3) ? TEXT("tray 1, B4") : TEXT("");
    if (n->verb == STORE_TOOL) /* the barrow has one */
        n->tool = m->kit->tools[0].number;
    if (n->verb == STORE_TOOL || n->verb == STORE_SET)
        n->part = TEXT("");
    if (n->verb == STORE_SET)
        n->usable = -1, n->sheet = TEXT("attendance"), n->key = below(m, 2) ? TEXT("1;P1") : TEXT("1;P3"),
        n->cells = text_of(days[below(m, 3)]);
}

static store_entry random_entry(model *m) {
    static const store_verb verbs[] = {
        STORE_COUNT,   STORE_COUNT,   STORE_COUNT,  STORE_FIND,    STORE_VOLTAGE, STORE_PROMISE, STORE_ARRIVE,
        STORE_RECEIVE, STORE_UNDO,    STORE_UNDO,   STORE_START,   STORE_FINISH,  STORE_STRIP,   STORE_MOVE,
        STORE_MOVE,    STORE_READING, STORE_CLOSE,  STORE_RECOUNT, STORE_HOLD,    STORE_HOLD,    STORE_BACK,
        STORE_LABEL,   STORE_TOOL,    STORE_REPORT, STORE_SET};
    static const char *const finds[] = {"M5x16", "m5X16", "red cap"};
    store_entry n = store_entry_of(verbs[below(m, sizeof verbs / sizeof verbs[0])]);
    const kit_row *row = &m->kit->rows[below(m, m->kit->n_rows)];
    n.at_s = 60 * (int64_t)m->n;
    n.device = TEXT("test");
    n.container = m->kit->containers[row->container].number;
    n.line = row->line;
    n.part = m->kit->parts[row->part].number;
    n.usable = below(m, 4);
    n.damaged = below(m, 2);
    if (n.verb == STORE_COUNT)
        n.part = TEXT("");
    if (n.verb == STORE_FIND)
        n.note = text_of(finds[below(m, 3)]), n.part = TEXT(""), n.line = 0;
    if (n.verb == STORE_VOLTAGE)
        n.piece = 1 + below(m, 2), n.millivolts = 12000 + below(m, 900), n.part = TEXT("");
    if (n.verb == STORE_PROMISE)
        n.day = (date_day)below(m, 3), n.instead = below(m, 4) == 0, n.container = TEXT(""), n.line = 0;
    if (n.verb == STORE_RECEIVE)
        n.mass_g = below(m, 5000), n.line = 0, n.part = TEXT("");
    if (n.verb >= STORE_START && n.verb <= STORE_CLOSE)
        random_work(m, &n);
    if (n.verb >= STORE_RECOUNT)
        random_shared(m, &n);
    return n;
}

/* An undo of any entry but the first that stands now. */
static bool choose_undo(model *m, store_entry *n) {
    for (int i = 0; i < 20; i++) {
        int64_t target = 2 + below(m, (int64_t)m->n);
        if (target <= (int64_t)m->n && !m->undone[target - 1]) {
            *n = store_entry_of(STORE_UNDO);
            n->device = TEXT("test");
            n->undoes = target;
            return true;
        }
    }
    return false;
}

/* The meaning of undo, said the other way round than the store does it: an entry stands unless an undo of it stands. */
static void settle(model *m) {
    for (size_t i = m->n; i-- > 0;) {
        m->undone[i] = false;
        for (size_t j = i + 1; j < m->n; j++)
            if (m->log[j].verb == STORE_UNDO && m->log[j].undoes == (int64_t)i + 1 && !m->undone[j])
                m->undone[i] = true;
    }
}

static bool act(model *m) {
    store_entry n = random_entry(m);
    err e;
    if (n.verb == STORE_UNDO && !choose_undo(m, &n))
        return false;
    if (!fixture_write(m->s, &n, &e))
        wrong(m, e.cause);
    m->log[m->n++] = n;
    settle(m);
    return true;
}

/* ---- what the model says stands ---- */

static const store_entry *last_count(model *m, kit_index row, uint32_t *times) {
    const store_entry *last = NULL;
    const kit_row *r = &m->kit->rows[row];
    *times = 0;
    for (size_t i = 0; i < m->n; i++) {
        const store_entry *n = &m->log[i];
        if (n->verb != STORE_COUNT || m->undone[i] || n->line != r->line ||
            !text_equal(n->container, m->kit->containers[r->container].number))
            continue;
        last = n;
        ++*times;
    }
    return last;
}

static void check_counts(model *m, const stock_record *record) {
    uint32_t found = 0;
    for (kit_index row = 0; row < m->kit->n_rows; row++) {
        uint32_t times;
        const store_entry *wanted = last_count(m, row, &times);
        found += wanted != NULL;
        const stock_count *there = NULL;
        for (uint32_t i = 0; i < record->n_counts; i++)
            if (record->counts[i].row == row)
                there = &record->counts[i];
        if (!wanted != !there)
            wrong(m, "a row is counted in one and not in the other");
        if (wanted &&
            (there->usable != wanted->usable || there->damaged != wanted->damaged || there->times != times))
            wrong(m, "a count differs");
    }
    if (found != record->n_counts)
        wrong(m, "a row has two counts");
}

static bool is_replaced(model *m, size_t i) {
    for (size_t j = i + 1; j < m->n; j++) {
        const store_entry *q = &m->log[j];
        if (q->verb == STORE_PROMISE && !m->undone[j] && text_equal(q->part, m->log[i].part) &&
            (q->instead || q->day == m->log[i].day))
            return true;
    }
    return false;
}

static void check_promises(model *m, const stock_record *record) {
    uint32_t n = 0;
    for (size_t i = 0; i < m->n; i++) {
        const store_entry *p = &m->log[i];
        if (p->verb != STORE_PROMISE || m->undone[i] || !p->usable || is_replaced(m, i))
            continue;
        if (n >= record->n_promises || record->promises[n].entry != (int64_t)i + 1 ||
            record->promises[n].quantity != p->usable)
            wrong(m, "a promise differs");
        n++;
    }
    if (n != record->n_promises)
        wrong(m, "there are too many promises");
}

/* Finds, receipts, voltages: the last standing entry of its key; `same` compares keys. */
static uint32_t count_last(model *m, store_verb verb, bool (*same)(const store_entry *, const store_entry *),
                           int64_t *sum) {
    uint32_t n = 0;
    *sum = 0;
    for (size_t i = 0; i < m->n; i++) {
        bool last = m->log[i].verb == verb && !m->undone[i];
        for (size_t j = i + 1; j < m->n && last; j++)
            last = !(m->log[j].verb == verb && !m->undone[j] && same(&m->log[i], &m->log[j]));
        if (!last || (verb == STORE_FIND && !m->log[i].usable))
            continue;
        n++;
        *sum += verb == STORE_FIND      ? m->log[i].usable
                : verb == STORE_VOLTAGE ? m->log[i].millivolts
                                        : m->log[i].mass_g;
    }
    return n;
}

static bool same_find(const store_entry *a, const store_entry *b) {
    return text_equal(a->container, b->container) && text_equal_nocase(a->note, b->note);
}

static bool same_box(const store_entry *a, const store_entry *b) {
    return text_equal(a->container, b->container);
}

static bool same_piece(const store_entry *a, const store_entry *b) {
    return same_box(a, b) && a->line == b->line && a->piece == b->piece;
}

static void check_others(model *m, const stock_record *record) {
    int64_t wanted, sum = 0;
    if (count_last(m, STORE_FIND, same_find, &wanted) != record->n_finds)
        wrong(m, "the number of finds differs");
    for (uint32_t i = 0; i < record->n_finds; i++)
        sum += record->finds[i].quantity;
    if (sum != wanted)
        wrong(m, "the finds differ");
    sum = 0;
    if (count_last(m, STORE_VOLTAGE, same_piece, &wanted) != record->n_voltages)
        wrong(m, "the number of voltages differs");
    for (uint32_t i = 0; i < record->n_voltages; i++)
        sum += record->voltages[i].millivolts;
    if (sum != wanted)
        wrong(m, "the voltages differ");
    sum = 0;
    if (count_last(m, STORE_RECEIVE, same_box, &wanted) != record->n_receipts)
        wrong(m, "the number of receipts differs");
    for (uint32_t i = 0; i < record->n_receipts; i++)
        sum += record->receipts[i].mass_g;
    if (sum != wanted)
        wrong(m, "the receipts differ");
    uint32_t arrivals = 0;
    for (size_t i = 0; i < m->n; i++)
        arrivals += m->log[i].verb == STORE_ARRIVE && !m->undone[i];
    if (arrivals != record->n_arrivals)
        wrong(m, "the arrivals differ");
}

static uint32_t standing(model *m, store_verb verb) {
    uint32_t n = 0;
    for (size_t i = 0; i < m->n; i++)
        n += m->log[i].verb == verb && !m->undone[i];
    return n;
}

/* The last standing event of each step says how it stands; moves sum up to where the pieces are. */
static void check_work(model *m, const stock_record *record) {
    if (record->n_events != standing(m, STORE_START) + standing(m, STORE_FINISH) + standing(m, STORE_STRIP) ||
        record->n_moves != standing(m, STORE_MOVE) || record->n_readings != standing(m, STORE_READING) ||
        record->n_closings != standing(m, STORE_CLOSE))
        wrong(m, "the number of events differs");
    const stock_work *w = stock_follow_work(m->memory, m->kit, record);
    for (kit_index step = 0; step < m->kit->n_steps; step++) {
        stock_step_state wanted = STOCK_TO_DO;
        for (size_t i = 0; i < m->n; i++)
            if (!m->undone[i] && text_equal(m->log[i].step, m->kit->steps[step].number))
                wanted = m->log[i].verb == STORE_START    ? STOCK_RUNNING
                         : m->log[i].verb == STORE_FINISH ? STOCK_DONE
                                                          : STOCK_TO_DO;
        if (w->steps[step].state != wanted)
            wrong(m, "a step stands otherwise");
    }
    for (kit_index part = 0; part < m->kit->n_parts; part++) {
        int64_t moved = 0;
        for (size_t i = 0; i < m->n; i++)
            if (m->log[i].verb == STORE_MOVE && !m->undone[i] &&
                text_equal(m->log[i].part, m->kit->parts[part].number))
                moved += text_is(m->log[i].from_place, "row") ? m->log[i].usable : -m->log[i].usable;
        if (w->at[part][STOCK_IN_COMPARTMENT] != moved || w->at[part][STOCK_IN_ROW] != -moved)
            wrong(m, "pieces are somewhere else");
    }
}

static text shared_key(const store_entry *n) {
    return n->verb == STORE_HOLD || n->verb == STORE_BACK ? n->container
           : n->verb == STORE_TOOL                        ? n->tool
           : n->verb == STORE_SET                         ? n->key
                                                          : n->part;
}

/* Entries of these verbs that are the last standing one of their thing; `gone`: those that say there is nothing. */
static uint32_t last_of(model *m, store_verb verb, store_verb other, bool (*gone)(const store_entry *)) {
    uint32_t n = 0;
    for (size_t i = 0; i < m->n; i++) {
        const store_entry *one = &m->log[i];
        bool last = !m->undone[i] && (one->verb == verb || one->verb == other);
        for (size_t j = i + 1; j < m->n && last; j++)
            last = m->undone[j] || (m->log[j].verb != verb && m->log[j].verb != other) ||
                   !text_equal(shared_key(one), shared_key(&m->log[j]));
        n += last && !gone(one);
    }
    return n;
}

static bool says_nothing(const store_entry *n) {
    return n->verb == STORE_BACK || (n->verb == STORE_LABEL && !n->note.len) ||
           (n->verb == STORE_REPORT && !n->usable);
}

static void check_shared(model *m, const stock_record *record) {
    if (record->n_second_counts != standing(m, STORE_RECOUNT) ||
        record->n_holds != last_of(m, STORE_HOLD, STORE_BACK, says_nothing) ||
        record->n_labels != last_of(m, STORE_LABEL, STORE_LABEL, says_nothing) ||
        record->n_tool_counts != last_of(m, STORE_TOOL, STORE_TOOL, says_nothing) ||
        record->n_asked != last_of(m, STORE_REPORT, STORE_REPORT, says_nothing))
        wrong(m, "what several people share differs");
    if (fixture_ask(m->path, "SELECT count(*) FROM state_rows") !=
        last_of(m, STORE_SET, STORE_SET, says_nothing))
        wrong(m, "the set rows differ");
}

static void check(model *m) {
    arena *a = arena_open();
    stock_record record;
    err e;
    if (!store_read_record(a, m->s, m->kit, &record, &e))
        wrong(m, e.cause);
    check_counts(m, &record);
    check_promises(m, &record);
    check_others(m, &record);
    check_work(m, &record);
    check_shared(m, &record);
    arena_close(a);
}

/* Every state table as text, as any client reads it. */
static text dump_state(model *m) {
    static const char *const tables[] = {
        "state_undone",   "state_counts",   "state_finds",    "state_receipts", "state_promises",
        "state_arrivals", "state_voltages", "state_work",     "state_results",  "state_moves",
        "state_readings", "state_closings", "state_recounts", "state_holds",    "state_labels",
        "state_tools",    "state_reports",  "state_rows"};
    sqlite3 *db;
    buf out = {0};
    assert_int_equal(sqlite3_open_v2(m->path, &db, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    for (size_t t = 0; t < sizeof tables / sizeof tables[0]; t++) {
        char sql[128];
        sqlite3_stmt *st;
        snprintf(sql, sizeof sql, "SELECT * FROM %s ORDER BY entry", tables[t]);
        assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &st, NULL), SQLITE_OK);
        while (sqlite3_step(st) == SQLITE_ROW)
            for (int c = 0; c < sqlite3_column_count(st); c++)
                buf_addf(&out, "%s|", (const char *)sqlite3_column_text(st, c));
        sqlite3_finalize(st);
    }
    sqlite3_close(db);
    text dump = arena_text(m->memory, buf_text(&out));
    buf_free(&out);
    return dump;
}

static void check_rebuilt(model *m) {
    text before = dump_state(m);
    assert_int_equal(
        fixture_try(m->path,
                    "DELETE FROM state_counts; DELETE FROM state_promises;"
                    "UPDATE state_arrivals SET usable = 77;"
                    "UPDATE state_moves SET quantity = 5; DELETE FROM state_work; DELETE FROM state_undone"),
        SQLITE_OK);
    err e;
    if (!store_rebuild(m->s, &e))
        wrong(m, e.cause);
    if (!text_equal(before, dump_state(m)))
        wrong(m, "derived from the journal alone the state is another");
}

/* The views' own SQL against stock_assess. */
static void check_views(model *m) {
    stock_record record;
    err e;
    assert_true(store_read_record(m->memory, m->s, m->kit, &record, &e));
    const stock *s = stock_assess(m->memory, m->kit, &record);
    for (kit_index i = 0; i < m->kit->n_rows; i++) {
        char sql[512];
        const kit_row *r = &m->kit->rows[i];
        snprintf(
            sql, sizeof sql,
            "SELECT count(*) FROM row_stock WHERE container = '%.*s' AND line = %lld AND counted = %d AND usable = %lld"
            " AND damaged = %lld AND missing = %lld AND extra = %lld AND times_counted = %u",
            TEXT_ARG(m->kit->containers[r->container].number), (long long)r->line, s->rows[i].counted,
            (long long)s->rows[i].usable, (long long)s->rows[i].damaged, (long long)s->rows[i].missing,
            (long long)s->rows[i].extra, s->rows[i].times);
        if (fixture_ask(m->path, sql) != 1)
            wrong(m, sql);
    }
    for (kit_index i = 0; i < m->kit->n_parts; i++) {
        char sql[512];
        snprintf(
            sql, sizeof sql,
            "SELECT count(*) FROM part_stock WHERE part = '%.*s' AND expected = %lld AND usable = %lld AND"
            " damaged = %lld AND not_counted = %lld",
            TEXT_ARG(m->kit->parts[i].number), (long long)s->parts[i].expected, (long long)s->parts[i].usable,
            (long long)s->parts[i].damaged, (long long)s->parts[i].not_counted);
        if (fixture_ask(m->path, sql) != 1)
            wrong(m, sql);
    }
    for (kit_index i = 0; i < m->kit->n_containers; i++) {
        char sql[512];
        const stock_container *c = &s->containers[i];
        snprintf(
            sql, sizeof sql,
            "SELECT count(*) FROM container_check WHERE container = '%.*s' AND rows = %u AND counted = %u AND"
            " wrong = %u",
            TEXT_ARG(m->kit->containers[i].number), c->rows, c->counted, c->counted - c->all_right);
        if (fixture_ask(m->path, sql) != 1)
            wrong(m, sql);
    }
}

static void run(arena *a, const char *folder, uint64_t seed) {
    model *m = arena_new(a, model);
    m->memory = a;
    m->seed = m->random = seed;
    m->path = scratch_path(a, folder, "model.kitbench");
    remove(m->path);
    fixture_create(a, m->path, &m->kit);
    m->s = fixture_open(m->path, STORE_WRITE);
    m->log[m->n++] = store_entry_of(STORE_BEGIN);
    for (int i = 0; i < ACTS; i++)
        if (act(m))
            check(m);
    check_rebuilt(m);
    check(m);
    check_views(m);
    store_close(m->s);
}

static void test_model(void **state) {
    (void)state;
    arena *a = arena_open();
    const char *folder = scratch_open(a), *wish = getenv("KITBENCH_SEED");
    uint64_t first = wish ? strtoull(wish, NULL, 10) : 1;
    for (uint64_t seed = first; seed < first + RUNS; seed++)
        run(a, folder, seed);
    scratch_close(folder);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_model)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
