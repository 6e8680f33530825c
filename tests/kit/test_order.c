/* test_order.c: orders and circles on random kits, against the plainest way to compute the same.
 *
 * Kits of a few steps are made in memory from a seed, which a failure prints.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kit/inside.h"

enum { MOST_STEPS = 12, ROUNDS = 400 };

typedef struct {
    uint64_t state;
} dice;

/* xorshift64*, good enough to vary tests. */
static uint32_t throw_dice(dice *d, uint32_t below) {
    d->state ^= d->state >> 12;
    d->state ^= d->state << 25;
    d->state ^= d->state >> 27;
    return (uint32_t)((d->state * UINT64_C(2685821657736338717)) >> 33) % below;
}

typedef struct {
    uint32_t n;
    bool after[MOST_STEPS][MOST_STEPS]; /* [step][step before it] */
} sample_order;

static kit_table *add_table(arena *a, kit_tables *tables, const char *name, const char *columns,
                            uint32_t n_rows) {
    kit_table *t = &tables->list[tables->n++];
    text rest = text_of(columns), column;
    *t = (kit_table){.name = text_of(name), .file = arena_format(a, "%s.csv", name), .n_rows = n_rows};
    t->columns = arena_array(a, text, 8);
    while (text_next_piece(&rest, ',', &column))
        t->columns[t->n_columns++] = column;
    t->cells = arena_array(a, text, (size_t)n_rows * t->n_columns);
    t->row_numbers = arena_array(a, uint32_t, n_rows);
    for (uint32_t i = 0; i < n_rows; i++)
        t->row_numbers[i] = i + 2;
    return t;
}

static void set_row(kit_table *t, uint32_t row, const char *a, const char *b, const char *c, const char *d) {
    const char *cells[] = {a, b, c, d};
    for (uint32_t i = 0; i < t->n_columns && i < 4; i++)
        t->cells[(size_t)row * t->n_columns + i] = text_of(cells[i]);
}

static const char *step_name(arena *a, uint32_t step) {
    return arena_format(a, "S%u", step + 1).at;
}

static kit_tables tables_of(arena *a, const sample_order *o) {
    kit_tables tables = {arena_array(a, kit_table, 8), 0};
    uint32_t rows = 0;
    for (uint32_t i = 0; i < o->n; i++)
        for (uint32_t j = 0; j < o->n; j++)
            rows += o->after[i][j];
    set_row(add_table(a, &tables, "kit", "kit,name", 1), 0, "K", "kit", "", "");
    set_row(add_table(a, &tables, "parts", "part,name", 1), 0, "P", "part", "", "");
    set_row(add_table(a, &tables, "containers", "container,kind", 1), 0, "B", "box", "", "");
    kit_table *packed = add_table(a, &tables, "rows", "container,line,part,quantity,spare", 1);
    set_row(packed, 0, "B", "1", "P", "1");
    packed->cells[4] = TEXT("1");
    kit_table *steps = add_table(a, &tables, "steps", "step,name,low_min,likely_min,high_min,people", o->n);
    for (uint32_t i = 0; i < o->n; i++) {
        set_row(steps, i, step_name(a, i), "step", "1", "1");
        steps->cells[(size_t)i * 6 + 4] = steps->cells[(size_t)i * 6 + 5] = TEXT("1");
    }
    kit_table *after = add_table(a, &tables, "step_after", "step,after", rows);
    for (uint32_t i = 0, row = 0; i < o->n; i++)
        for (uint32_t j = 0; j < o->n; j++)
            if (o->after[i][j])
                set_row(after, row++, step_name(a, i), step_name(a, j), "", "");
    return tables;
}

/* Warshall's closure: reach[i][j] when j must come before i. */
static void close_order(const sample_order *o, bool reach[MOST_STEPS][MOST_STEPS]) {
    memcpy(reach, o->after, sizeof o->after);
    for (uint32_t k = 0; k < o->n; k++)
        for (uint32_t i = 0; i < o->n; i++)
            for (uint32_t j = 0; j < o->n; j++)
                reach[i][j] = reach[i][j] || (reach[i][k] && reach[k][j]);
}

static bool has_circle(const sample_order *o) {
    bool reach[MOST_STEPS][MOST_STEPS];
    close_order(o, reach);
    for (uint32_t i = 0; i < o->n; i++)
        if (reach[i][i])
            return true;
    return false;
}

/* Of the steps whose predecessors are all done, always the first of the table. */
static void plain_build_order(const sample_order *o, kit_index order[MOST_STEPS]) {
    bool done[MOST_STEPS] = {0};
    for (uint32_t n = 0; n < o->n; n++) {
        uint32_t step = 0;
        for (; step < o->n; step++) {
            bool ready = !done[step];
            for (uint32_t j = 0; j < o->n; j++)
                ready = ready && (!o->after[step][j] || done[j]);
            if (ready)
                break;
        }
        assert_true(step < o->n);
        done[step] = true;
        order[n] = step;
    }
}

static uint32_t step_at(text *rest) {
    uint32_t n = 0;
    assert_true(text_starts(*rest, TEXT("S")));
    *rest = text_slice(*rest, 1, rest->len);
    while (rest->len && rest->at[0] >= '0' && rest->at[0] <= '9') {
        n = n * 10 + (uint32_t)(rest->at[0] - '0');
        *rest = text_slice(*rest, 1, rest->len);
    }
    return n - 1;
}

/* Walks "S1 after S4 after S1": each link is in the table, and it comes back to where it began. Takes the row that the
 * fault names out of `o`. */
static void assert_circle(const sample_order *o, sample_order *left, const kit_tables *tables,
                          const fault *f) {
    ptrdiff_t at = text_find(f->cause, TEXT("S"));
    assert_true(at > 0);
    text rest = text_slice(f->cause, (size_t)at, f->cause.len);
    uint32_t first = step_at(&rest), step = first;
    do {
        assert_true(text_starts(rest, TEXT(" after ")));
        rest = text_slice(rest, 7, rest.len);
        uint32_t before = step_at(&rest);
        assert_true(o->after[step][before]);
        step = before;
    } while (rest.len);
    assert_int_equal(step, first);
    const kit_table *after = &tables->list[tables->n - 1];
    text a = after->cells[(size_t)(f->place.row - 2) * 2],
         b = after->cells[(size_t)(f->place.row - 2) * 2 + 1];
    left->after[step_at(&a)][step_at(&b)] = false;
}

static sample_order random_order(uint32_t seed, uint32_t density, bool forward) {
    dice d = {seed * UINT64_C(0x9E3779B97F4A7C15) + 1};
    sample_order o = {.n = 1 + throw_dice(&d, MOST_STEPS)};
    uint32_t rank[MOST_STEPS]; /* a hidden right order, when there shall be no circle */
    for (uint32_t i = 0; i < o.n; i++)
        rank[i] = throw_dice(&d, 1000) * MOST_STEPS + i;
    for (uint32_t i = 0; i < o.n; i++)
        for (uint32_t j = 0; j < o.n; j++)
            o.after[i][j] = throw_dice(&d, 100) < density && (!forward || rank[j] < rank[i]);
    return o;
}

static void test_build_orders(void **state) {
    (void)state;
    for (uint32_t seed = 1; seed <= ROUNDS; seed++) {
        arena *a = arena_open();
        sample_order o = random_order(seed, 10 + seed % 30, true);
        kit_tables tables = tables_of(a, &o);
        faults f = faults_in(a);
        const kit *k;
        const kit_workshop *w;
        if (!kit_read_and_check(a, &tables, NULL, &f, &k, &w))
            fail_msg("seed %u: %.*s", seed, TEXT_ARG(f.list[0].cause));
        kit_index wanted[MOST_STEPS];
        plain_build_order(&o, wanted);
        const kit_index *order = kit_build_order(a, k);
        for (uint32_t i = 0; i < o.n; i++)
            if (order[i] != wanted[i])
                fail_msg("seed %u: step %u stands at %u", seed, order[i], i);
        bool reach[MOST_STEPS][MOST_STEPS];
        close_order(&o, reach);
        kit_order inside = kit_order_of(a, k);
        for (uint32_t i = 0; i < o.n; i++)
            for (uint32_t j = 0; j < o.n; j++)
                if (i != j && kit_comes_before(&inside, j, i) != reach[i][j])
                    fail_msg("seed %u: %u before %u", seed, j, i);
        arena_close(a);
    }
}

/* A circle is told exactly when there is one; each told circle is one; and without the rows that are named none is left
 * (unless ten were told). */
static void test_circles(void **state) {
    (void)state;
    uint32_t with = 0;
    for (uint32_t seed = 1; seed <= ROUNDS; seed++) {
        arena *a = arena_open();
        sample_order o = random_order(seed, 2 + seed % 20, false), left = o;
        kit_tables tables = tables_of(a, &o);
        faults f = faults_in(a);
        const kit *k;
        const kit_workshop *w;
        bool whole = kit_read_and_check(a, &tables, NULL, &f, &k, &w);
        if (whole == has_circle(&o))
            fail_msg("seed %u: %s", seed, whole ? "a circle is not told" : "there is no circle");
        for (size_t i = 0; i < f.n; i++)
            assert_circle(&o, &left, &tables, &f.list[i]);
        if (f.n < 10)
            assert_false(has_circle(&left));
        with += !whole;
        arena_close(a);
    }
    assert_true(with > ROUNDS / 4 && with < ROUNDS - ROUNDS / 4);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_build_orders), cmocka_unit_test(test_circles)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
