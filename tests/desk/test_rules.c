/* Runs tests/desk/rules.txt: dates of sessions in plain words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "desk/session_rule.h"
#include "support/blocks.h"

static text told(arena *a, const session_rule *r) {
    char start[6], end[6];
    date_print_clock(r->start, start);
    date_print_clock(r->end, end);
    text t = arena_format(a, "= %s %s", start, end);
    for (uint32_t i = 0; i < r->n; i++) {
        char day[11];
        date_print(r->days[i], day);
        t = arena_format(a, "%.*s %s", TEXT_ARG(t), day);
    }
    return t;
}

static void run(arena *a, const block *b) {
    session_rule r;
    err e;
    char all[1024];
    assert_int_equal(b->n, 2);
    text wanted = text_trim(b->lines[1]);
    bool ok = session_rule_read(a, b->lines[0], date_from_civil((date_civil){2027, 8, 20}), &r, &e);
    if (wanted.at[0] == '=') {
        if (!ok)
            fail_msg("line %u: %s: %s", b->line, e.place, e.cause);
        if (!text_equal(told(a, &r), wanted))
            fail_msg("line %u: it is %s", b->line, told(a, &r).at);
        return;
    }
    if (ok)
        fail_msg("line %u: it is %s", b->line, told(a, &r).at);
    assert_int_equal(e.kind, ERR_INPUT);
    err_print(&e, all, sizeof all);
    if (text_find(text_of(all), text_trim(text_slice(wanted, 1, wanted.len))) < 0)
        fail_msg("line %u: it says %s", b->line, all);
}

static void test_rules(void **state) {
    (void)state;
    arena *a = arena_open();
    blocks all = blocks_read(a, "tests/desk/rules.txt");
    assert_true(all.n > 25);
    for (size_t i = 0; i < all.n; i++)
        run(a, &all.list[i]);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_rules)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
