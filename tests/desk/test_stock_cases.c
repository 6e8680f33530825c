/* Runs tests/desk/stock.txt: what is recorded through the desk, and what follows from it. After every block the state
 * in the file is derived anew from the journal alone, and must be the same. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/number.h"
#include "base/sys.h"
#include "desk/desk.h"
#include "opened.h"

enum { MOST_WORDS = 16 };

typedef struct {
    arena *memory;
    desk *d;
    unsigned line;
    text words[MOST_WORDS];
    size_t n;
    bool ok; /* of the last act */
    err e;
    bool judged; /* its failure was expected */
} run;

/* Words, or quoted texts. */
static void split(run *r, text t) {
    r->n = 0;
    t = text_trim(t);
    while (t.len) {
        assert_true(r->n < MOST_WORDS);
        size_t end = 0, skip = 0;
        if (t.at[0] == '"') {
            end = (size_t)text_find(text_slice(t, 1, t.len), TEXT("\"")) + 1;
            r->words[r->n++] = text_slice(t, 1, end);
            skip = 1;
        } else {
            while (end < t.len && t.at[end] != ' ')
                end++;
            r->words[r->n++] = text_slice(t, 0, end);
        }
        t = text_trim(text_slice(t, end + skip, t.len));
    }
}

static int64_t number(run *r, size_t i) {
    int64_t n = -1;
    number_fault why;
    if (i >= r->n || !number_integer(r->words[i], 0, INT64_C(1000000000000), &n, &why))
        fail_msg("line %u: word %zu must be a number", r->line, i + 1);
    return n;
}

static bool has(run *r, size_t i, const char *word) {
    return i < r->n && text_is(r->words[i], word);
}

static const char *z(run *r, size_t i) {
    return arena_z(r->memory, r->words[i]);
}

static const desk_who nobody = {.device = "test"};

static void act_count(run *r, bool volts) {
    desk_count c = {0};
    r->ok = desk_find_row(r->d, r->words[1], has(r, 2, "-") ? TEXT("") : r->words[2], &c.row, &r->e);
    c.usable = number(r, 3);
    if (volts) {
        c.millivolts = arena_array(r->memory, int64_t, 16);
        text rest = r->words[4], one;
        number_fault why;
        while (text_next_piece(&rest, ';', &one))
            assert_true(number_decimal(one, 3, 0, 100000, &c.millivolts[c.n_millivolts++], &why));
    } else {
        c.damaged = r->n > 4 ? number(r, 4) : 0;
        c.in_transit = has(r, 5, "transit");
    }
    r->ok = r->ok && desk_record_counts(r->d, &c, 1, nobody, &r->e);
}

static void act_find(run *r) {
    desk_count c = {.find = true, .usable = number(r, 2), .what = r->words[3]};
    r->ok = desk_find_container(r->d, r->words[1], &c.container, &r->e) &&
            desk_record_counts(r->d, &c, 1, nobody, &r->e);
}

static void act_enter(run *r, text line) {
    faults f = faults_in(r->memory);
    desk_count *counts;
    size_t n;
    if (!desk_read_entry(r->memory, r->d->kit, r->d->workshop, line, TEXT("entry"), &f, &counts, &n))
        fail_msg("line %u: %s", r->line, f.list[0].cause.at);
    r->ok = desk_record_counts(r->d, counts, n, nobody, &r->e);
}

static void act_receive(run *r) {
    kit_index box;
    bool weighed = r->n > 2 && r->words[2].at[0] >= '0' && r->words[2].at[0] <= '9';
    size_t damage = weighed ? 3 : 2;
    r->ok = desk_receive(r->d, r->words[1], weighed ? number(r, 2) : -1, r->n > damage ? z(r, damage) : NULL,
                         nobody, &box, &r->e);
}

static void act_promise(run *r) {
    date_day day;
    kit_index part;
    assert_true(date_read(r->words[3], &day));
    r->ok = desk_promise(r->d, r->words[1], number(r, 2), day, has(r, 4, "instead"), nobody, &part, &r->e);
}

static void act_arrive(run *r) {
    kit_index part;
    stock_share *placed;
    uint32_t n;
    if (r->n == 2) {
        r->ok = desk_arrive_whole(r->d, r->words[1], nobody, &part, &placed, &n, &r->e);
        return;
    }
    r->ok = desk_arrive(r->d, r->words[1], number(r, 2), r->n > 3 ? number(r, 3) : 0, nobody, &part, &placed,
                        &n, &r->e);
}

static void act_undo(run *r) {
    text *told;
    uint32_t n;
    r->ok = desk_undo(r->d, r->n > 1 ? number(r, 1) : 0, NULL, nobody, &told, &n, &r->e);
    if (r->ok)
        assert_true(n > 0);
}

static void act(run *r, text line) {
    if (!r->ok && !r->judged)
        fail_msg("before line %u: an act failed: %s: %s", r->line, r->e.place, r->e.cause);
    r->judged = false;
    r->ok = true;
    if (has(r, 0, "receive"))
        act_receive(r);
    else if (has(r, 0, "count") || has(r, 0, "volts"))
        act_count(r, has(r, 0, "volts"));
    else if (has(r, 0, "find"))
        act_find(r);
    else if (has(r, 0, "enter"))
        act_enter(r, text_slice(line, 6, line.len));
    else if (has(r, 0, "promise"))
        act_promise(r);
    else if (has(r, 0, "arrive"))
        act_arrive(r);
    else if (has(r, 0, "undo"))
        act_undo(r);
    else if (has(r, 0, "now"))
        setenv("KITBENCH_NOW", arena_format(r->memory, "%s %s", z(r, 1), z(r, 2)).at, 1);
    else
        fail_msg("line %u: what is this?", r->line);
}

static void is(run *r, int64_t found, int64_t wanted, const char *what) {
    if (found != wanted)
        fail_msg("line %u: %s is %lld, not %lld", r->line, what, (long long)found, (long long)wanted);
}

static kit_index row_at(run *r, size_t i) {
    kit_index row;
    err e;
    if (!desk_find_row(r->d, r->words[i], r->words[i + 1], &row, &e))
        fail_msg("line %u: %s", r->line, e.cause);
    return row;
}

static kit_index part_at(run *r, size_t i) {
    kit_index part = kit_find_part(r->d->kit, r->words[i]);
    if (part == KIT_NONE)
        fail_msg("line %u: no such part", r->line);
    return part;
}

static void must_be_day(run *r, date_day found, size_t i) {
    date_day wanted = INT32_MAX;
    if (i < r->n && !has(r, i, "none"))
        assert_true(date_read(r->words[i], &wanted));
    is(r, found, wanted, "the day");
}

static void must_row(run *r) {
    const stock_row *row = &r->d->stock->rows[row_at(r, 2)];
    is(r, row->usable, number(r, 5), "usable");
    is(r, row->damaged, number(r, 7), "damaged");
    is(r, row->missing, number(r, 9), "missing");
    is(r, row->extra, number(r, 11), "extra");
}

static void must_part(run *r) {
    const stock_part *p = &r->d->stock->parts[part_at(r, 2)];
    is(r, p->usable, number(r, 4), "usable");
    is(r, p->lacking, number(r, 6), "lacking");
    is(r, p->extra, number(r, 8), "extra");
}

static void must_promised(run *r) {
    const stock_part *p = &r->d->stock->parts[part_at(r, 2)];
    text all = TEXT("none");
    for (uint32_t i = 0; i < p->n_supplies; i++) {
        char day[11];
        date_print(p->supplies[i].day, day);
        all = arena_format(r->memory, "%s%s%lld:%s", i ? all.at : "", i ? " " : "",
                           (long long)p->supplies[i].quantity, day);
    }
    text wanted = r->words[3];
    for (size_t i = 4; i < r->n; i++)
        wanted = arena_format(r->memory, "%.*s %.*s", TEXT_ARG(wanted), TEXT_ARG(r->words[i]));
    if (!text_equal(all, wanted))
        fail_msg("line %u: promised is %s", r->line, all.at);
}

static void must_stop(run *r) {
    const stock *s = r->d->stock;
    for (uint32_t i = 0; i < s->n_stops; i++) {
        if (s->stops[i].part != part_at(r, 3) || s->stops[i].step != kit_find_step(r->d->kit, r->words[2]))
            continue;
        is(r, s->stops[i].missing, number(r, 4), "missing");
        must_be_day(r, s->stops[i].ready, 5);
        return;
    }
    fail_msg("line %u: the step is not stopped by it", r->line);
}

/* "A1 1 > box 1 2 fits" */
static text swap_text(run *r, const stock_swap *w) {
    const kit *k = r->d->kit;
    text one;
    if (w->extra_row == KIT_NONE)
        one = arena_format(r->memory, "%.*s find",
                           TEXT_ARG(k->containers[r->d->record.finds[w->find].container].number));
    else
        one = arena_format(r->memory, "%.*s %lld",
                           TEXT_ARG(k->containers[k->rows[w->extra_row].container].number),
                           (long long)k->rows[w->extra_row].line);
    return arena_format(r->memory, "%.*s > %.*s %lld%s", TEXT_ARG(one),
                        TEXT_ARG(k->containers[k->rows[w->missing_row].container].number),
                        (long long)k->rows[w->missing_row].line, w->fits ? " fits" : "");
}

static void must_swap(run *r, text line) {
    text wanted = text_trim(text_slice(line, 6, line.len)), seen = TEXT("none");
    for (uint32_t i = 0; i < r->d->stock->n_swaps; i++) {
        seen = swap_text(r, &r->d->stock->swaps[i]);
        assert_true(r->d->stock->swaps[i].reason.len > 0);
        if (text_equal(seen, wanted))
            return;
    }
    fail_msg("line %u: the swap is %s", r->line, seen.at);
}

static void must_days(run *r) {
    const stock *s = r->d->stock;
    must_be_day(r,
                has(r, 2, "delivered") ? s->delivered
                : has(r, 2, "report")  ? s->report_by
                                       : s->carrier_by,
                3);
}

static void must_rest(run *r, text line) {
    const stock *s = r->d->stock;
    kit_index container;
    if (has(r, 1, "swap"))
        must_swap(r, line);
    else if (has(r, 1, "swaps"))
        is(r, s->n_swaps, number(r, 2), "the number of swaps");
    else if (has(r, 1, "days"))
        must_days(r);
    else if (has(r, 1, "low"))
        is(r, s->n_low_batteries, number(r, 2), "the number of low batteries");
    else if (has(r, 1, "transit"))
        is(r, s->rows[row_at(r, 2)].in_transit, has(r, 4, "yes"), "in transit");
    else if (has(r, 1, "doubtful") && desk_find_container(r->d, r->words[2], &container, &r->e))
        is(r, s->containers[container].mass_doubtful, has(r, 3, "yes"), "doubtful");
    else if (has(r, 1, "absent") && desk_find_container(r->d, r->words[2], &container, &r->e))
        is(r, stock_is_absent(&s->containers[container]), has(r, 3, "yes"), "absent");
    else
        fail_msg("line %u: what is this?", r->line);
}

static void must(run *r, text line) {
    const stock *s = r->d->stock;
    if (has(r, 1, "row"))
        must_row(r);
    else if (has(r, 1, "part"))
        must_part(r);
    else if (has(r, 1, "times"))
        is(r, s->rows[row_at(r, 2)].times, number(r, 4), "times counted");
    else if (has(r, 1, "available"))
        is(r, stock_available(s, part_at(r, 2)), number(r, 3), "available");
    else if (has(r, 1, "promised"))
        must_promised(r);
    else if (has(r, 1, "counts")) {
        is(r, s->whole.counted, number(r, 2), "counted");
        is(r, s->whole.rows, number(r, 4), "rows");
    } else if (has(r, 1, "finds"))
        is(r, s->whole.finds, number(r, 2), "finds");
    else if (has(r, 1, "complete"))
        is(r, stock_complete(s), has(r, 2, "yes"), "complete");
    else if (has(r, 1, "stops"))
        is(r, s->n_stops, number(r, 2), "the number of stops");
    else if (has(r, 1, "stop"))
        must_stop(r);
    else
        must_rest(r, line);
}

static void must_fail(run *r, text words) {
    if (r->ok)
        fail_msg("line %u: it did not fail", r->line);
    char all[1024];
    err_print(&r->e, all, sizeof all);
    if (text_find(text_of(all), words) < 0)
        fail_msg("line %u: it failed with: %s", r->line, all);
    assert_int_equal(r->e.kind, ERR_INPUT);
    r->judged = true;
}

static void run_line(run *r, text line) {
    line = text_trim(line);
    split(r, line);
    if (line.at[0] == '!')
        must_fail(r, text_trim(text_slice(line, 1, line.len)));
    else if (line.at[0] == '=')
        must(r, line);
    else
        act(r, line);
}

static text stock_dump(const desk *d) {
    const stock *s = d->stock;
    buf out = {0};
    for (kit_index i = 0; i < d->kit->n_rows; i++)
        buf_addf(&out, "%d %u %lld %lld %lld %lld;", s->rows[i].counted, s->rows[i].times,
                 (long long)s->rows[i].usable, (long long)s->rows[i].damaged, (long long)s->rows[i].missing,
                 (long long)s->rows[i].extra);
    for (kit_index i = 0; i < d->kit->n_parts; i++)
        buf_addf(&out, "%lld %lld %lld;", (long long)s->parts[i].usable, (long long)s->parts[i].lacking,
                 (long long)s->parts[i].promised);
    for (uint32_t i = 0; i < d->record.n_finds; i++)
        buf_addf(&out, "%s %lld;", d->record.finds[i].what.at, (long long)d->record.finds[i].quantity);
    buf_addf(&out, "%u %u %u", s->n_low_batteries, s->boxes_received, s->n_swaps);
    text dump = arena_text(d->memory, buf_text(&out));
    buf_free(&out);
    return dump;
}

static void run_block(const block *b, const char *path) {
    run r = {.memory = arena_open(), .ok = true};
    unsetenv("KITBENCH_NOW");
    r.d = opened_new(r.memory, path, "tests/support/barrow", "tests/support/barrow-crew");
    for (size_t i = 1; i < b->n; i++) {
        r.line = b->line + (unsigned)i;
        run_line(&r, b->lines[i]);
    }
    if (!r.ok && !r.judged)
        fail_msg("line %u: it failed: %s: %s", r.line, r.e.place, r.e.cause);
    desk_close(opened_rebuilt(r.d, stock_dump, r.line));
    arena_close(r.memory);
}

static void test_cases(void **state) {
    (void)state;
    opened_each("tests/desk/stock.txt", run_block);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
