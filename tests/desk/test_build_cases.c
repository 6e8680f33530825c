/* Runs tests/desk/build.txt: what happens to steps, tests and pieces, and what follows from it. After every block the
 * state in the file is derived anew from the journal alone, and must be the same. */
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
    bool ok; /* the last act was written */
    err e;
    desk_reasons why;
    bool judged;
} run;

static void split(run *r, text t) {
    r->n = 0;
    t = text_trim(t);
    while (t.len) {
        assert_true(r->n < MOST_WORDS);
        bool quoted = t.at[0] == '"';
        if (quoted)
            t = text_slice(t, 1, t.len);
        size_t end = 0;
        while (end < t.len && t.at[end] != (quoted ? '"' : ' '))
            end++;
        r->words[r->n++] = text_slice(t, 0, end);
        t = text_trim(text_slice(t, end + quoted, t.len));
    }
}

static bool has(const run *r, size_t i, const char *word) {
    return i < r->n && text_is(r->words[i], word);
}

/* A word, or NULL when it is "-" or not there. */
static const char *z(run *r, size_t i) {
    return i < r->n && !has(r, i, "-") ? arena_z(r->memory, r->words[i]) : NULL;
}

static int64_t number(run *r, size_t i) {
    int64_t n = -1;
    number_fault why;
    if (i >= r->n || !number_integer(r->words[i], -1000, 1000000, &n, &why))
        fail_msg("line %u: word %zu must be a number", r->line, i + 1);
    return n;
}

static kit_index step_at(run *r, size_t i) {
    kit_index step = KIT_NONE;
    if (i >= r->n || !desk_find_step(r->d, r->words[i], &step, &r->e))
        fail_msg("line %u: no such step", r->line);
    return step;
}

static kit_index part_at(run *r, size_t i) {
    kit_index part = kit_find_part(r->d->kit, r->words[i]);
    if (part == KIT_NONE)
        fail_msg("line %u: no such part", r->line);
    return part;
}

static desk_who by(run *r, size_t i) {
    return (desk_who){.by = z(r, i), .device = "test"};
}

static const desk_who nobody = {.device = "test"};

static void act_done(run *r) {
    desk_left left = {0};
    if (r->n > 3)
        left = (desk_left){part_at(r, 3), number(r, 4)};
    r->ok = desk_finish(r->d, step_at(r, 1), r->n > 2 ? number(r, 2) : -1, &left, r->n > 3, nobody, &r->why,
                        &r->e);
}

static void act_move(run *r) {
    desk_transfer t = {.part = part_at(r, 1),
                       .quantity = number(r, 2),
                       .from = stock_place_of(r->words[3]),
                       .to = stock_place_of(r->words[4]),
                       .row = KIT_NONE,
                       .step = r->n > 5 ? step_at(r, 5) : KIT_NONE};
    r->ok = desk_move(r->d, &t, nobody, &r->why, &r->e);
}

static void act_count(run *r) {
    desk_count c = {0};
    c.usable = number(r, 3);
    r->ok = desk_find_row(r->d, r->words[1], r->words[2], &c.row, &r->e) &&
            desk_record_counts(r->d, &c, 1, nobody, &r->e);
}

static void act_undo(run *r) {
    text *told;
    uint32_t n;
    r->ok = desk_undo(r->d, has(r, 1, "last") ? 0 : number(r, 1), z(r, 3), by(r, 2), &told, &n, &r->e);
}

static void act_test(run *r) {
    kit_index test = stock_find_test(r->d->kit, step_at(r, 1), number(r, 2));
    r->ok = desk_test(r->d, test, r->words[3], z(r, 5), z(r, 6), by(r, 4), &r->why, &r->e);
}

static kit_index container_at(run *r, size_t i) {
    kit_index c = KIT_NONE;
    if (i >= r->n || !desk_find_container(r->d, r->words[i], &c, &r->e))
        fail_msg("line %u: no such box or bag", r->line);
    return c;
}

/* What several people share; false when the word is none of these. */
static bool act_shared(run *r) {
    uint32_t n;
    if (has(r, 0, "take")) {
        text table = r->n > 3 ? r->words[3] : TEXT("");
        r->ok =
            desk_take(r->d, container_at(r, 1), z(r, 2), table, has(r, 4, "anyway"), nobody, &r->why, &r->e);
    } else if (has(r, 0, "back")) {
        r->ok = desk_bring_back(r->d, container_at(r, 1), nobody, &r->why, &r->e);
    } else if (has(r, 0, "here")) {
        r->ok = desk_all_here(r->d, container_at(r, 1), by(r, 2), &n, &r->e);
    } else if (has(r, 0, "again")) {
        kit_index row;
        r->ok = desk_find_row(r->d, r->words[1], r->words[2], &row, &r->e) &&
                desk_count_again(r->d, row, number(r, 3), 0, by(r, 4), &r->why, &r->e);
    } else if (has(r, 0, "tools")) {
        desk_tools_here here[2] = {{0, number(r, 1)}, {1, number(r, 2)}};
        r->ok = desk_count_tools(r->d, here, 2, nobody, &r->e);
    } else if (has(r, 0, "label")) {
        r->ok = desk_label(r->d, part_at(r, 1), r->words[2], nobody, &r->e);
    } else if (has(r, 0, "sent")) {
        r->ok = desk_report_sent(r->d, z(r, 1), nobody, &n, &r->e);
    } else if (has(r, 0, "asked")) {
        r->ok = desk_correct_asked(r->d, part_at(r, 1), number(r, 2), z(r, 4), by(r, 3), &r->why, &r->e);
    } else if (has(r, 0, "promise")) {
        date_day day;
        kit_index part;
        assert_true(date_read(r->words[3], &day));
        r->ok = desk_promise(r->d, r->words[1], number(r, 2), day, false, nobody, &part, &r->e);
    } else if (has(r, 0, "arrive")) {
        stock_share *placed;
        kit_index part;
        r->ok = desk_arrive(r->d, r->words[1], number(r, 2), 0, nobody, &part, &placed, &n, &r->e);
    } else {
        return false;
    }
    return true;
}

static void act(run *r) {
    if (!r->ok && !r->judged)
        fail_msg("before line %u: an act failed: %s %s", r->line, r->e.cause,
                 r->why.n ? r->why.list[0].at : "");
    r->judged = false;
    r->why = (desk_reasons){0};
    r->e = (err){0};
    r->ok = true;
    if (has(r, 0, "now"))
        setenv("KITBENCH_NOW", arena_format(r->memory, "%s %s", z(r, 1), z(r, 2)).at, 1);
    else if (has(r, 0, "start"))
        r->ok = desk_start(r->d, step_at(r, 1), z(r, 2), z(r, 3), nobody, &r->why, &r->e);
    else if (has(r, 0, "change"))
        r->ok = desk_change_over(r->d, step_at(r, 1), z(r, 2), nobody, &r->why, &r->e);
    else if (has(r, 0, "leave") || has(r, 0, "blocked"))
        r->ok = desk_leave(r->d, step_at(r, 1), z(r, 2), nobody, &r->why, &r->e);
    else if (has(r, 0, "done"))
        act_done(r);
    else if (has(r, 0, "test"))
        act_test(r);
    else if (has(r, 0, "move"))
        act_move(r);
    else if (has(r, 0, "count"))
        act_count(r);
    else if (has(r, 0, "undo"))
        act_undo(r);
    else if (has(r, 0, "strip"))
        r->ok = desk_undo_step(r->d, step_at(r, 1), z(r, 3), by(r, 2), &r->why, &r->e);
    else if (has(r, 0, "reading")) {
        kit_index row;
        r->ok = desk_find_row(r->d, TEXT("C-5"), TEXT(""), &row, &r->e) &&
                desk_read_battery(r->d, row, number(r, 1), number(r, 2), number(r, 3), has(r, 4, "charged"),
                                  nobody, &r->e);
    } else if (has(r, 0, "close"))
        r->ok = desk_close_count(r->d, z(r, 1), nobody, &r->why, &r->e);
    else if (!act_shared(r))
        fail_msg("line %u: what is this?", r->line);
    r->ok = r->ok && !r->why.n;
}

static void is(run *r, int64_t found, int64_t wanted, const char *what) {
    if (found != wanted)
        fail_msg("line %u: %s is %lld, not %lld", r->line, what, (long long)found, (long long)wanted);
}

static void must_undoing(run *r) {
    stock_undoing u;
    desk_plan_undoing(r->d, step_at(r, 2), &u);
    text off = TEXT("");
    for (uint32_t i = 0; i < u.n_off; i++)
        off = arena_format(r->memory, "%.*s%s%.*s", TEXT_ARG(off), i ? "," : "",
                           TEXT_ARG(r->d->kit->steps[u.off[i]].number));
    if (!text_equal(off, r->words[3]))
        fail_msg("line %u: %s comes off", r->line, off.at);
    is(r, u.n_void_tests, number(r, 5), "void tests");
    is(r, u.n_again ? u.again[0].again : 0, number(r, 7), "pieces to draw again");
    is(r, u.n_again ? u.again[0].available : 0, number(r, 9), "of them in stock");
    is(r, u.n_later, number(r, 11), "steps after it");
    is(r, u.redo_min, number(r, 13), "minutes");
}

/* Some sentence of the list holds these words; without words: the list is empty. */
static void must_say(run *r, const desk_reasons *list) {
    for (uint32_t i = 0; i < list->n; i++)
        if (r->n > 2 && text_find(list->list[i], r->words[2]) >= 0)
            return;
    if (r->n > 2 || list->n)
        fail_msg("line %u: it does not say that, but %s", r->line, list->n ? list->list[0].at : "nothing");
}

static void must_release(run *r) {
    desk_reasons why = {0};
    desk_release(r->d, &why);
    must_say(r, &why);
}

static void must_test(run *r) {
    const stock_test *t = &r->d->stock->work->tests[stock_find_test(r->d->kit, step_at(r, 2), number(r, 3))];
    const char *found = t->disturbed ? "void" : !t->there ? "none" : !t->in_limits ? "failed" : "right";
    if (!has(r, 4, found))
        fail_msg("line %u: the test is %s", r->line, found);
    is(r, t->is_signed, has(r, 5, "signed"), "signed");
}

/* Planned from now on: the steps that are left, and their minutes together. */
static void must_plan(run *r) {
    plan_input how = {.from = INT64_MIN};
    plan *p;
    if (!desk_plan(r->d, &how, &p, &r->e))
        fail_msg("line %u: %s", r->line, r->e.cause);
    int64_t minutes = 0;
    for (uint32_t i = 0; i < p->n_steps; i++)
        minutes += p->steps[i].end_min - p->steps[i].start_min;
    is(r, p->n_steps, number(r, 2), "the number of steps");
    is(r, minutes, number(r, 4), "the minutes");
    const plan_step *s = plan_find_step(p, step_at(r, 6));
    char start[17];
    assert_non_null(s);
    date_print_moment(s->start, start);
    if (!text_equal(text_of(start), r->words[7]))
        fail_msg("line %u: it starts %s", r->line, start);
}

/* Left-overs of two parts at once, judged for the first. */
static void must_left(run *r) {
    stock_left_over list[2] = {{.part = part_at(r, 2), .counted = number(r, 3)},
                               {.part = part_at(r, 4), .counted = number(r, 5)}};
    stock_judge_left_overs(r->memory, r->d->kit, r->d->stock, list, 2);
    is(r, list[0].difference, number(r, 7), "the difference");
    is(r, list[0].n_exact, number(r, 9), "steps that take just as many");
    if (list[0].n_exact)
        assert_int_equal(list[0].steps[0], step_at(r, 10));
    is(r, list[0].swapped_for != KIT_NONE, has(r, 11, "swap"), "a swap");
}

/* Within so many seconds: which parts are chosen; checked against every subset. */
static void must_closing(run *r) {
    stock_recount *list;
    uint32_t seconds = (uint32_t)number(r, 2);
    uint32_t n = stock_closing_count(r->memory, r->d->kit, r->d->stock, 0, seconds, &list);
    is(r, n, number(r, 3), "parts handled");
    assert_true(n < 16);
    double best = 0, chosen = 0;
    int64_t used = 0;
    for (uint32_t set = 0; set < 1u << n; set++) {
        double sum = 0;
        int64_t time = 0;
        for (uint32_t i = 0; i < n; i++)
            if (set >> i & 1)
                sum += list[i].chance, time += list[i].seconds;
        best = time <= seconds && sum > best ? sum : best;
    }
    for (uint32_t i = 0; i < n; i++)
        if (list[i].chosen)
            chosen += list[i].chance, used += list[i].seconds;
    assert_true(used <= seconds);
    if (chosen < best - 1e-12)
        fail_msg("line %u: chosen %f, the best is %f", r->line, chosen, best);
}

static void must_battery(run *r) {
    desk_battery *list;
    char day[11] = "none";
    assert_int_equal(desk_batteries(r->d, &list), 1);
    is(r, list[0].known, has(r, 2, "known"), "known");
    if (list[0].top_up != INT32_MAX)
        date_print(list[0].top_up, day);
    if (!has(r, 3, day))
        fail_msg("line %u: top-up %s", r->line, day);
}

static void must_chase(run *r) {
    desk_chased *list;
    uint32_t n = desk_chase(r->d, date_of_moment(sys_now()), &list);
    for (uint32_t i = 0; i < n; i++)
        if (list[i].part == part_at(r, 2)) {
            if (!has(r, 3, desk_chase_word(list[i].state)))
                fail_msg("line %u: it is %s", r->line, desk_chase_word(list[i].state));
            is(r, list[i].steps_stopped, number(r, 5), "steps stopped");
            return;
        }
    if (!has(r, 3, "-"))
        fail_msg("line %u: it is not chased", r->line);
}

static void must_share(run *r) {
    desk_second_count *list;
    uint32_t n = desk_second_counts(r->d, &list), agree = 0;
    if (has(r, 1, "held")) {
        const stock_hold *h = desk_holder(r->d, container_at(r, 2));
        if (has(r, 3, "-") ? h != NULL : !h || !text_equal(h->place, r->words[3]))
            fail_msg("line %u: it lies %s", r->line, h ? h->place.at : "where it came from");
        return;
    }
    for (uint32_t i = 0; i < n; i++)
        agree += list[i].agree;
    is(r, agree, number(r, 2), "agree");
    is(r, n - agree, number(r, 3), "differ");
}

static void must_stand(run *r) {
    desk_standing s;
    desk_stand(r->d, sys_now(), &s);
    if (has(r, 1, "stops") || has(r, 1, "decide")) {
        must_say(r, has(r, 1, "stops") ? &s.stops : &s.decide);
        return;
    }
    is(r, s.running, number(r, 3), "running");
    is(r, s.ready, number(r, 5), "ready");
    is(r, s.done, number(r, 7), "done");
    is(r, s.minutes_done, number(r, 9), "person-minutes done");
}

static void must(run *r) {
    const stock_work *w = r->d->stock->work;
    stock_loose *loose;
    if (has(r, 1, "state")) {
        const char *found = stock_state_word(w->steps[step_at(r, 2)].state);
        if (!has(r, 3, found))
            fail_msg("line %u: it is %s", r->line, found);
    } else if (has(r, 1, "worked")) {
        is(r, w->steps[step_at(r, 2)].worked_min, number(r, 3), "worked");
    } else if (has(r, 1, "at")) {
        is(r, w->at[part_at(r, 2)][stock_place_of(r->words[3])], number(r, 4), "pieces");
    } else if (has(r, 1, "row")) {
        kit_index row;
        assert_true(desk_find_row(r->d, r->words[2], r->words[3], &row, &r->e));
        is(r, r->d->stock->rows[row].usable, number(r, 4), "usable");
        is(r, r->d->stock->rows[row].missing, number(r, 5), "missing");
    } else if (has(r, 1, "available")) {
        is(r, stock_available(r->d->stock, part_at(r, 2)), number(r, 3), "available");
    } else if (has(r, 1, "loose")) {
        is(r, stock_loose_list(r->memory, r->d->kit, w, &loose), number(r, 2), "loose");
    } else if (has(r, 1, "reasons")) {
        is(r, r->why.n, number(r, 2), "the number of reasons");
    } else if (has(r, 1, "undoing")) {
        must_undoing(r);
    } else if (has(r, 1, "release")) {
        must_release(r);
    } else if (has(r, 1, "test")) {
        must_test(r);
    } else if (has(r, 1, "left")) {
        must_left(r);
    } else if (has(r, 1, "closing")) {
        must_closing(r);
    } else if (has(r, 1, "battery")) {
        must_battery(r);
    } else if (has(r, 1, "plan")) {
        must_plan(r);
    } else if (has(r, 1, "chase")) {
        must_chase(r);
    } else if (has(r, 1, "again") || has(r, 1, "held")) {
        must_share(r);
    } else if (has(r, 1, "label")) {
        if (!text_equal(desk_label_of(r->d, part_at(r, 2)), r->words[3]))
            fail_msg("line %u: it lies in %s", r->line, desk_label_of(r->d, part_at(r, 2)).at);
    } else if (has(r, 1, "stand") || has(r, 1, "stops") || has(r, 1, "decide")) {
        must_stand(r);
    } else {
        fail_msg("line %u: what is this?", r->line);
    }
}

/* Some reason, or the failure, holds these words. */
static void must_refuse(run *r, text words) {
    if (r->ok)
        fail_msg("line %u: it was written", r->line);
    char all[1024];
    err_print(&r->e, all, sizeof all);
    bool found = !r->why.n && text_find(text_of(all), words) >= 0;
    for (uint32_t i = 0; i < r->why.n; i++)
        found = found || text_find(r->why.list[i], words) >= 0;
    if (!found)
        fail_msg("line %u: it was refused with: %s", r->line, r->why.n ? r->why.list[0].at : all);
    r->judged = true;
}

static void run_line(run *r, text line) {
    line = text_trim(line);
    if (line.at[0] == '!') {
        must_refuse(r, text_trim(text_slice(line, 1, line.len)));
        return;
    }
    split(r, line);
    if (line.at[0] == '=')
        must(r);
    else
        act(r);
}

static text dump(const desk *d) {
    const kit *k = d->kit;
    const stock_work *w = d->stock->work;
    buf out = {0};
    for (kit_index i = 0; i < k->n_steps; i++)
        buf_addf(&out, "%d %lld %u %u;", w->steps[i].state, (long long)w->steps[i].worked_min,
                 w->steps[i].people.n, w->steps[i].builders.n);
    for (kit_index i = 0; i < k->n_step_tests; i++)
        buf_addf(&out, "%d %d %d %d;", w->tests[i].there, w->tests[i].disturbed, w->tests[i].in_limits,
                 w->tests[i].is_signed);
    for (kit_index i = 0; i < k->n_parts; i++)
        for (int p = 0; p < STOCK_PLACES; p++)
            buf_addf(&out, "%lld;", (long long)w->at[i][p]);
    for (kit_index i = 0; i < k->n_rows; i++)
        buf_addf(&out, "%lld %lld;", (long long)w->row_out[i], (long long)d->stock->rows[i].usable);
    text t = arena_text(d->memory, buf_text(&out));
    buf_free(&out);
    return t;
}

static void run_block(const block *b, const char *path) {
    run r = {.memory = arena_open(), .ok = true};
    setenv("KITBENCH_NOW", "2027-04-06 18:40", 1);
    r.d = opened_new(r.memory, path, "tests/support/cart", "tests/support/cart-crew");
    for (size_t i = 1; i < b->n; i++) {
        r.line = b->line + (unsigned)i;
        run_line(&r, b->lines[i]);
    }
    if (!r.ok && !r.judged)
        fail_msg("line %u: it failed: %s %s", r.line, r.e.cause, r.why.n ? r.why.list[0].at : "");
    desk_close(opened_rebuilt(r.d, dump, r.line));
    arena_close(r.memory);
}

static void test_cases(void **state) {
    (void)state;
    opened_each("tests/desk/build.txt", run_block);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
