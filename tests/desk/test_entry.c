/* Runs tests/desk/entry.txt: lines of quick entry, and what comes of them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "desk/desk.h"
#include "support/blocks.h"

typedef struct {
    arena *memory;
    const kit *kit;
    const kit_workshop *workshop;
} barrow;

static int set_up(void **state) {
    arena *a = arena_open();
    barrow *b = arena_new(a, barrow);
    b->memory = a;
    faults f = faults_in(a);
    err e;
    if (!kit_read(a, "tests/support/barrow", "tests/support/barrow-crew", &f, &b->kit, &b->workshop, &e))
        fail_msg("the barrow is not right");
    *state = b;
    return 0;
}

static int tear_down(void **state) {
    arena_close(((barrow *)*state)->memory);
    return 0;
}

static text tell_count(arena *a, const kit *k, const desk_count *c) {
    text by = c->by.len ? arena_format(a, " by %.*s", TEXT_ARG(c->by)) : TEXT("");
    if (c->find)
        return arena_format(a, "find %.*s %lld \"%.*s\"%.*s", TEXT_ARG(k->containers[c->container].number),
                            (long long)c->usable, TEXT_ARG(c->what), TEXT_ARG(by));
    const kit_row *r = &k->rows[c->row];
    text line = arena_format(a, "%.*s %lld: %lld", TEXT_ARG(k->containers[r->container].number),
                             (long long)r->line, (long long)c->usable);
    if (c->damaged)
        line = arena_format(a, "%s damaged %lld", line.at, (long long)c->damaged);
    if (c->in_transit)
        line = arena_format(a, "%s transit", line.at);
    for (uint32_t i = 0; i < c->n_millivolts; i++)
        line = arena_format(a, "%s%s %lld", line.at, i ? "" : " volts", (long long)c->millivolts[i]);
    line = arena_format(a, "%s%.*s", line.at, TEXT_ARG(by));
    return c->note.len ? arena_format(a, "%s \"%.*s\"", line.at, TEXT_ARG(c->note)) : line;
}

static text tell_fault(const faults *f, size_t i) {
    return arena_format(f->memory, "%.*s: %.*s", TEXT_ARG(faults_place_text(f, i)),
                        TEXT_ARG(f->list[i].cause));
}

/* The lines that are entered stand in quotes at the block's front. */
static size_t take_entry(arena *a, const block *b, text *entry) {
    size_t i = 0;
    *entry = TEXT("");
    for (; i < b->n && b->lines[i].at[0] == '"'; i++)
        *entry =
            arena_format(a, "%s%.*s\n", entry->at, TEXT_ARG(text_slice(b->lines[i], 1, b->lines[i].len - 1)));
    return i;
}

static void check_faults(arena *a, const block *b, size_t first, const faults *f) {
    size_t n = b->n - first;
    for (size_t i = 0; i < n && i < f->n; i++) {
        text wanted = text_trim(text_slice(b->lines[first + i], 1, b->lines[first + i].len));
        text place, words = wanted, told = tell_fault(f, i);
        if (!text_next_piece(&words, ':', &place))
            fail_msg("line %zu: no line number", b->line + first + i);
        if (!text_starts(told, arena_format(a, "sheet line %.*s:", TEXT_ARG(place))) ||
            text_find(told, text_trim(words)) < 0)
            fail_msg("line %zu: the fault is: %s", b->line + first + i, told.at);
        assert_true(f->list[i].remedy.len > 0);
    }
    if (n != f->n)
        fail_msg("block at line %u: %zu faults, not %zu", b->line, f->n, n);
}

static void check_counts(arena *a, const kit *k, const block *b, size_t first, const desk_count *counts,
                         size_t n) {
    for (size_t i = 0; i < n && first + i < b->n; i++) {
        text told = tell_count(a, k, &counts[i]);
        if (!text_equal(told, text_trim(b->lines[first + i])))
            fail_msg("line %zu: it is: %s", b->line + first + i, told.at);
    }
    if (n != b->n - first)
        fail_msg("block at line %u: %zu counts, not %zu", b->line, n, b->n - first);
}

static void test_cases(void **state) {
    const barrow *w = *state;
    blocks all = blocks_read(w->memory, "tests/desk/entry.txt");
    for (size_t i = 0; i < all.n; i++) {
        const block *b = &all.list[i];
        text entry;
        size_t first = take_entry(w->memory, b, &entry);
        faults f = faults_in(w->memory);
        desk_count *counts;
        size_t n;
        assert_true(first > 0 && first < b->n);
        bool ok = desk_read_entry(w->memory, w->kit, w->workshop, entry, TEXT("sheet"), &f, &counts, &n);
        assert_int_equal(ok, f.n == 0);
        if (b->lines[first].at[0] == '!')
            check_faults(w->memory, b, first, &f);
        else if (f.n)
            fail_msg("block at line %u: %s", b->line, tell_fault(&f, 0).at);
        else
            check_counts(w->memory, w->kit, b, first, counts, n);
    }
    print_message("%zu cases\n", all.n);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test_setup_teardown(test_cases, set_up, tear_down)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
