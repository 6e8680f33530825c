/* test_plan_network.c: early and late times against published examples.
 *
 * In this file: "Milwaukee Paper" from Heizer and Render, "Operations Management" (chapter on project management), a
 * textbook example with its solution table; more examples with their sources stand in the reference data
 * (07a_cpm_examples.csv), read when it is there: $KITBENCH_DATA/../reference or ../shared/reference.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/csv.h"
#include "base/number.h"
#include "base/sys.h"
#include "plan/network.h"

typedef struct {
    text network, name, before;
    int32_t duration, early_start, early_end, late_start, late_end, slack, all;
} activity;

static const activity milwaukee[] = {
    {TEXT_INIT(""), TEXT_INIT("A"), TEXT_INIT(""), 2, 0, 2, 0, 2, 0, 15},
    {TEXT_INIT(""), TEXT_INIT("B"), TEXT_INIT(""), 3, 0, 3, 1, 4, 1, 15},
    {TEXT_INIT(""), TEXT_INIT("C"), TEXT_INIT("A"), 2, 2, 4, 2, 4, 0, 15},
    {TEXT_INIT(""), TEXT_INIT("D"), TEXT_INIT("A B"), 4, 3, 7, 4, 8, 1, 15},
    {TEXT_INIT(""), TEXT_INIT("E"), TEXT_INIT("C"), 4, 4, 8, 4, 8, 0, 15},
    {TEXT_INIT(""), TEXT_INIT("F"), TEXT_INIT("C"), 3, 4, 7, 10, 13, 6, 15},
    {TEXT_INIT(""), TEXT_INIT("G"), TEXT_INIT("D E"), 5, 8, 13, 8, 13, 0, 15},
    {TEXT_INIT(""), TEXT_INIT("H"), TEXT_INIT("F G"), 2, 13, 15, 13, 15, 0, 15},
};

static uint32_t find(const activity *list, uint32_t n, text name) {
    for (uint32_t k = 0; k < n; k++)
        if (text_equal(list[k].name, name))
            return k;
    fail_msg("no activity %.*s", TEXT_ARG(name));
    return 0;
}

/* Puts the activities so that what comes before stands before; their order in `list` is kept otherwise. */
static const uint32_t *order_of(arena *a, const network_link *links, uint32_t n_links, uint32_t n) {
    uint32_t *order = arena_array(a, uint32_t, n), placed = 0;
    bool *is_placed = arena_array(a, bool, n);
    while (placed < n) {
        uint32_t before = placed;
        for (uint32_t k = 0; k < n; k++) {
            bool ready = !is_placed[k];
            for (uint32_t x = 0; x < n_links; x++)
                ready = ready && (links[x].after != k || is_placed[links[x].before]);
            if (!ready)
                continue;
            is_placed[k] = true;
            order[placed++] = k;
        }
        assert_true(placed > before);
    }
    return order;
}

static void check_network(const activity *list, uint32_t n) {
    arena *a = arena_open();
    plan_job *jobs = arena_array(a, plan_job, n);
    network_link *links = arena_array(a, network_link, (size_t)n * n + 1);
    uint32_t n_links = 0;
    for (uint32_t k = 0; k < n; k++) {
        jobs[k].duration = list[k].duration;
        text rest = list[k].before, piece;
        while (list[k].before.len && text_next_piece(&rest, ' ', &piece))
            links[n_links++] = (network_link){.before = find(list, n, piece), .after = k};
    }
    network w = {.jobs = jobs,
                 .n_jobs = n,
                 .links = links,
                 .n_links = n_links,
                 .order = order_of(a, links, n_links, n)};
    network_times *times = arena_array(a, network_times, n);
    assert_int_equal(network_forward(&w, times), UINT32_MAX);
    int32_t finish = 0, *earliest = arena_array(a, int32_t, n);
    for (uint32_t k = 0; k < n; k++) {
        earliest[k] = times[k].early_start;
        finish = times[k].early_end > finish ? times[k].early_end : finish;
    }
    network_backward(&w, finish, earliest, times);
    for (uint32_t k = 0; k < n; k++) {
        assert_int_equal(finish, list[k].all);
        assert_int_equal(times[k].early_start, list[k].early_start);
        assert_int_equal(times[k].early_end, list[k].early_end);
        assert_int_equal(times[k].late_start, list[k].late_start);
        assert_int_equal(times[k].late_end, list[k].late_end);
        assert_int_equal(times[k].late_start - times[k].early_start, list[k].slack);
    }
    arena_close(a);
}

static void textbook_example(void **state) {
    (void)state;
    check_network(milwaukee, sizeof milwaukee / sizeof milwaukee[0]);
}

static int32_t integer(text t) {
    int64_t value;
    number_fault why;
    assert_true(number_integer(t, 0, 1000000, &value, &why));
    return (int32_t)value;
}

static bool read_reference(arena *a, text *out) {
    const char *data = getenv("KITBENCH_DATA");
    const char *folders[] = {"../shared/reference", "../../shared/reference", "../../../shared/reference"};
    err e;
    if (data &&
        sys_read_file(a, arena_format(a, "%s/../reference/07a_cpm_examples.csv", data).at, 1 << 20, out, &e))
        return true;
    for (size_t k = 0; k < sizeof folders / sizeof folders[0]; k++)
        if (sys_read_file(a, arena_format(a, "%s/07a_cpm_examples.csv", folders[k]).at, 1 << 20, out, &e))
            return true;
    return false;
}

static void published_examples(void **state) {
    (void)state;
    arena *a = arena_open();
    text bytes;
    if (!read_reference(a, &bytes)) {
        print_message("SKIPPED: the reference data is not there\n");
        arena_close(a);
        skip();
    }
    faults f = faults_in(a);
    csv_table table;
    assert_true(csv_read(a, bytes, ',', TEXT("07a_cpm_examples.csv"), &f, &table));
    activity *list = arena_array(a, activity, table.n);
    uint32_t n = 0, networks = 0;
    for (size_t r = 1; r < table.n; r++) {
        const csv_cell *c = table.records[r].cells;
        if (n > 0 && !text_equal(list[0].network, c[0].value)) {
            check_network(list, n);
            networks++;
            n = 0;
        }
        list[n++] =
            (activity){c[0].value,          c[1].value,          c[3].value,          integer(c[2].value),
                       integer(c[4].value), integer(c[5].value), integer(c[6].value), integer(c[7].value),
                       integer(c[8].value), integer(c[9].value)};
    }
    check_network(list, n);
    networks++;
    print_message("%u published networks\n", (unsigned)networks);
    assert_true(networks >= 3);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(textbook_example),
                                       cmocka_unit_test(published_examples)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
