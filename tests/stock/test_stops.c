/* Random stocks of a random kit, against an assessment done the slow way: piece by piece, step by step, day by day. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/csv.h"
#include "stock/stock.h"

enum { RUNS = 400, PARTS = 3, STEPS = 5, NEEDS = 9, PROMISES = 4 };

static uint64_t random_state;

static int64_t below(int64_t n) { /* splitmix64 */
    uint64_t z = random_state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
    return (int64_t)((z ^ z >> 31) % (uint64_t)n);
}

/* A kit through its tables, as every kit comes; a step follows the one before it or nothing, so that the build order is
 * known. */
static const kit *read_kit(arena *a, const int64_t packed[PARTS], const bool follows[STEPS],
                           const kit_step_part *needs) {
    buf t = {0};
    kit_tables raw = {arena_array(a, kit_table, 8), 0};
    const char *tables[][2] = {{"kit", "kit,name"},
                               {"parts", "part,name"},
                               {"containers", "container,kind"},
                               {"rows", "container,line,part,quantity"},
                               {"steps", "step,name,low_min,likely_min,high_min,people"},
                               {"step_after", "step,after"},
                               {"step_parts", "step,part,quantity,tightening"}};
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        buf_clear(&t);
        buf_addf(&t, "%s\n", tables[i][1]);
        if (i == 0)
            buf_add_z(&t, "K,kit\n");
        if (i == 2)
            buf_add_z(&t, "B,box\n");
        for (int p = 0; p < PARTS && (i == 1 || i == 3); p++)
            if (i == 1)
                buf_addf(&t, "P%d,part %c\n", p, 'a' + p);
            else
                buf_addf(&t, "B,%d,P%d,%lld\n", p + 1, p, (long long)packed[p]);
        for (int s = 0; s < STEPS && i == 4; s++)
            buf_addf(&t, "S%d,step,1,2,3,1\n", s);
        for (int s = 1; s < STEPS && i == 5; s++)
            if (follows[s])
                buf_addf(&t, "S%d,S%d\n", s, s - 1);
        for (int n = 0; n < NEEDS && i == 6; n++)
            buf_addf(&t, "S%u,P%u,%lld,none\n", needs[n].step, needs[n].part, (long long)needs[n].quantity);
        faults f = faults_in(a);
        csv_table csv;
        assert_true(csv_read(a, arena_text(a, buf_text(&t)), ',', text_of(tables[i][0]), &f, &csv));
        kit_table *out = &raw.list[raw.n++];
        *out = (kit_table){.name = text_of(tables[i][0]), .file = text_of(tables[i][0])};
        out->n_columns = csv.records[0].n;
        out->n_rows = (uint32_t)csv.n - 1;
        out->columns = arena_array(a, text, out->n_columns);
        out->cells = arena_array(a, text, (size_t)out->n_columns * csv.n);
        out->row_numbers = arena_array(a, uint32_t, csv.n);
        for (uint32_t c = 0; c < out->n_columns; c++)
            out->columns[c] = csv.records[0].cells[c].value;
        for (uint32_t r = 0; r < out->n_rows; r++) {
            out->row_numbers[r] = r + 2;
            for (uint32_t c = 0; c < out->n_columns; c++)
                out->cells[r * out->n_columns + c] = csv.records[r + 1].cells[c].value;
        }
    }
    buf_free(&t);
    faults f = faults_in(a);
    const kit *k;
    if (!kit_from_tables(a, &raw, &f, &k))
        fail_msg("%s %s", f.list[0].place.file.at, f.list[0].cause.at);
    return k;
}

/* One piece at a time: first what is usable, then the earliest promise that has some left. */
typedef struct {
    int64_t missing[STEPS][PARTS];
    date_day ready[STEPS][PARTS];
} slow;

/* One piece for a step; what is missing is written down when `out` is given. */
static void draw_piece(kit_index step, kit_index p, int64_t usable[PARTS], stock_promise *promises, size_t n,
                       slow *out) {
    if (usable[p] > 0) {
        usable[p]--;
        return;
    }
    out->missing[step][p]++;
    stock_promise *best = NULL;
    for (size_t j = 0; j < n; j++)
        if (promises[j].part == p && promises[j].quantity > 0 && (!best || promises[j].day < best->day))
            best = &promises[j];
    date_day day = INT32_MAX;
    if (best) {
        best->quantity--;
        day = best->day;
    }
    if (day > out->ready[step][p])
        out->ready[step][p] = day;
}

static void draw_all(const kit_step_part *needs, kit_index step, int64_t usable[PARTS],
                     stock_promise *promises, size_t n, slow *out) {
    for (int i = 0; i < NEEDS; i++)
        for (int64_t piece = 0; needs[i].step == step && piece < needs[i].quantity; piece++)
            draw_piece(step, needs[i].part, usable, promises, n, out);
}

static bool can_go(const kit_step_part *needs, kit_index step, const int64_t usable[PARTS],
                   const stock_promise *promises, size_t n) {
    for (kit_index p = 0; p < PARTS; p++) {
        int64_t left = usable[p];
        for (size_t j = 0; j < n; j++)
            left += promises[j].part == p ? promises[j].quantity : 0;
        for (int i = 0; i < NEEDS; i++)
            left -= needs[i].step == step && needs[i].part == p ? needs[i].quantity : 0;
        if (left < 0)
            return false;
    }
    return true;
}

/* First the steps that can go ahead, then those that cannot, each time in build order. */
static void assess_slowly(const kit_step_part *needs, const bool follows[STEPS], int64_t usable[PARTS],
                          stock_promise *promises, size_t n, slow *out) {
    bool goes[STEPS];
    memset(out, 0, sizeof *out);
    for (kit_index s = 0; s < STEPS; s++) {
        goes[s] = (!follows[s] || goes[s - 1]) && can_go(needs, s, usable, promises, n);
        if (goes[s])
            draw_all(needs, s, usable, promises, n, out);
    }
    for (kit_index s = 0; s < STEPS; s++)
        if (!goes[s])
            draw_all(needs, s, usable, promises, n, out);
}

static void compare(const stock *s, const slow *wanted, uint64_t seed) {
    uint32_t n = 0;
    for (int step = 0; step < STEPS; step++)
        for (int part = 0; part < PARTS; part++)
            n += wanted->missing[step][part] > 0;
    if (n != s->n_stops)
        fail_msg("seed %llu: %u stops, not %u", (unsigned long long)seed, s->n_stops, n);
    for (uint32_t i = 0; i < s->n_stops; i++) {
        const stock_stop *t = &s->stops[i];
        if (t->missing != wanted->missing[t->step][t->part] || t->ready != wanted->ready[t->step][t->part])
            fail_msg("seed %llu: S%u misses %lld of P%u until day %d; the slow way %lld until %d",
                     (unsigned long long)seed, t->step, (long long)t->missing, t->part, t->ready,
                     (long long)wanted->missing[t->step][t->part], wanted->ready[t->step][t->part]);
        if (i && s->stops[i - 1].step > t->step)
            fail_msg("seed %llu: not in build order", (unsigned long long)seed);
    }
}

static void run(uint64_t seed) {
    arena *a = arena_open();
    random_state = seed;
    kit_step_part needs[NEEDS];
    int64_t packed[PARTS], usable[PARTS];
    bool follows[STEPS] = {false};
    for (int i = 1; i < STEPS; i++)
        follows[i] = below(3) > 0;
    for (int i = 0; i < NEEDS; i++)
        needs[i] = (kit_step_part){
            .step = (kit_index)below(STEPS), .part = (kit_index)below(PARTS), .quantity = 1 + below(6)};
    stock_count counts[PARTS];
    stock_record record = {.counts = counts};
    for (kit_index p = 0; p < PARTS; p++) {
        packed[p] = usable[p] = 1 + below(20);
        if (below(3) == 0)
            continue;
        usable[p] = below(20);
        counts[record.n_counts++] = (stock_count){.entry = p + 1, .row = p, .usable = usable[p], .times = 1};
    }
    stock_promise promises[PROMISES];
    record.promises = arena_array(a, stock_promise, PROMISES);
    record.n_promises = (uint32_t)below(PROMISES + 1);
    for (uint32_t i = 0; i < record.n_promises; i++)
        promises[i] = record.promises[i] =
            (stock_promise){10 + i, (kit_index)below(PARTS), 1 + below(8), (date_day)(100 + below(5))};
    const kit *k = read_kit(a, packed, follows, needs);
    slow wanted;
    assess_slowly(needs, follows, usable, promises, record.n_promises, &wanted);
    compare(stock_assess(a, k, &record), &wanted, seed);
    arena_close(a);
}

static void test_stops(void **state) {
    (void)state;
    const char *wish = getenv("KITBENCH_SEED");
    uint64_t first = wish ? strtoull(wish, NULL, 10) : 1;
    for (uint64_t seed = first; seed < first + RUNS; seed++)
        run(seed);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_stops)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
