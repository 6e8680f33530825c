/* Loose names: a store keeper's cases, and the promise that nothing is guessed silently. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"
#include "trade/propose.h"

#define complain(...) (print_error(__VA_ARGS__), print_error("\n"), false)

static bool tells(const text *list, size_t n, text piece) {
    for (size_t i = 0; i < n; i++)
        if (text_find(list[i], piece) >= 0)
            return true;
    return false;
}

static bool same_print(const designation *d, text want, unsigned line, const char *which) {
    char found[DESIGNATION_TEXT];
    designation_print(d, found, sizeof found);
    if (want.len == 0 || text_is(want, found))
        return true;
    return complain("line %u: %s is \"%s\", expected \"%.*s\"", line, which, found, TEXT_ARG(want));
}

static bool told(const test_case *c, const char *name, const text *list, size_t n) {
    text want = case_value(c, name);
    if (want.len == 0 || tells(list, n, want))
        return true;
    for (size_t i = 0; i < n; i++)
        print_message("  %s: %.*s\n", name, TEXT_ARG(list[i]));
    return complain("line %u: %s does not tell \"%.*s\"", c->line, name, TEXT_ARG(want));
}

static bool check_case(arena *a, const test_case *c) {
    text cells[8], rest = c->input;
    size_t n = 0;
    while (n < 8 && text_next_piece(&rest, '|', &cells[n])) {
        cells[n] = text_trim(cells[n]);
        n++;
    }
    proposal p;
    designation_propose(a, cells, n, &p);
    bool wanted = !text_is(case_value(c, "fastener"), "no");
    if (p.is_fastener != wanted)
        return complain("line %u: \"%.*s\" is %s fastener (%.*s)", c->line, TEXT_ARG(c->input),
                        p.is_fastener ? "a" : "no", TEXT_ARG(p.why_not));
    if (!wanted)
        return p.why_not.len > 0 || complain("line %u: no reason why not", c->line);
    bool ok = same_print(&p.stated, case_value(c, "stated"), c->line, "stated");
    ok &= same_print(&p.guess, case_value(c, "guess"), c->line, "guess");
    ok &= told(c, "assumed", p.assumed, p.n_assumed);
    ok &= told(c, "missing", p.missing, p.n_missing);
    ok &= told(c, "conflict", p.conflicts, p.n_conflicts);
    /* a guess that goes beyond what is stated is always told */
    bool beyond = p.guess.standard != p.stated.standard || p.guess.thread_um != p.stated.thread_um;
    return (ok && (!beyond || p.n_assumed > 0)) || complain("line %u: see above", c->line);
}

static void test_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    case_list list = cases_read(a, "loose.txt");
    size_t bad = 0;
    for (size_t i = 0; i < list.n; i++)
        bad += !check_case(a, &list.list[i]);
    assert_int_equal(bad, 0);
    arena_close(a);
}

/* A strict designation given as a loose name says the same and needs no assumption. */
static void test_strict_names_are_plain(void **state) {
    (void)state;
    arena *a = arena_open();
    case_list list = cases_read(a, "designations.txt");
    size_t n = 0;
    for (size_t i = 0; i < list.n; i++) {
        designation d;
        if (!designation_read(list.list[i].input, &d, NULL))
            continue;
        assert_int_equal(designation_sort(list.list[i].input), NAME_STANDARD);
        proposal p;
        designation_propose(a, &list.list[i].input, 1, &p);
        assert_true(p.is_fastener);
        assert_true(designation_equal(&p.stated, &d) && designation_equal(&p.guess, &d));
        assert_int_equal(p.n_assumed + p.n_missing + p.n_conflicts, 0);
        n++;
    }
    assert_true(n >= 40);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases),
                                       cmocka_unit_test(test_strict_names_are_plain)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
