/* Tools from parts, and the names of tools. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"
#include "reference.h"
#include "trade/tools.h"

static void test_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    case_list list = cases_read(a, "tools.txt");
    for (size_t i = 0; i < list.n; i++) {
        designation d;
        err e;
        if (!designation_read(list.list[i].input, &d, &e))
            fail_msg("line %u: %s", list.list[i].line, e.cause);
        tool_need t = tool_for(&d);
        char found[64];
        tool_print(&t, found);
        if (!text_is(case_value(&list.list[i], "tool"), found))
            fail_msg("line %u: %s", list.list[i].line, found);
    }
    arena_close(a);
}

static void test_published_sizes(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "01c_tool_sizes.csv"))
        skip();
    agreement a = {.what = "tool sizes"};
    for (size_t i = 1; i < r.table.n; i++) {
        static const char *const rows[][3] = {
            {"hex head / hex nut, current", "ISO 4032", ""},
            {"hex head / hex nut, old", "DIN 934", ""},
            {"hex socket cap", "ISO 4762", "x20"},
            {"button head", "ISO 7380-1", "x20"},
            {"countersunk socket", "ISO 10642", "x20"},
            {"set screw", "ISO 4029", "x20"},
            {"nyloc", "ISO 7040", ""},
        };
        text what = reference_text(&r, i, "fastener");
        char line[64] = "";
        for (size_t k = 0; k < sizeof rows / sizeof *rows; k++)
            if (text_starts(what, text_of(rows[k][0])))
                snprintf(line, sizeof line, "%s %.*s%s", rows[k][1],
                         TEXT_ARG(reference_text(&r, i, "thread")), rows[k][2]);
        designation d;
        if (!line[0] || !designation_read(text_of(line), &d, NULL)) {
            a.skipped++;
            continue;
        }
        reference_compare(&a, &r, i, tool_for(&d).size_um / 1e3, reference_number(&r, i, "size_mm"), 1e-9);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 55);
    reference_close(&r);
}

static void test_reading_tools(void **state) {
    (void)state;
    static const struct {
        const char *name, *kind, *size;
        tool_sort sort;
        int low, high, number;
        bool set;
    } rows[] = {
        {"", "ring spanner", "13 mm", TOOL_SPANNER, 13, 13, -1, false},
        {"combination spanner 10 mm, insulated", "combination spanner", "10 mm insulated", TOOL_SPANNER, 10,
         10, -1, false},
        {"", "socket", "13 mm, 1/2 inch square", TOOL_SPANNER, 13, 13, -1, false},
        {"", "socket set", "8-19 mm", TOOL_SPANNER, 8, 19, -1, true},
        {"", "hex key", "6 mm", TOOL_HEX_KEY, 6, 6, -1, false},
        {"", "hex bit", "3 mm, 1/4 inch", TOOL_HEX_KEY, 3, 3, -1, false},
        {"screwdriver, cross recess", "screwdriver", "PH2", TOOL_CROSS_DRIVER, 0, 0, 2, false},
        {"screwdriver, slot", "screwdriver", "3.5 mm", TOOL_SLOT_DRIVER, 0, 0, -1, false},
        {"", "pin punch", "7.8 mm", TOOL_HAMMER_AND_PUNCH, 0, 0, -1, false},
        {"combination pliers", "pliers", "180 mm", TOOL_PLIERS, 0, 0, -1, false},
        {"", "torque wrench", "4 to 25 N m", TOOL_NONE, 0, 0, -1, false},
        {"", "crimping pliers", "0.5 to 4 mm2", TOOL_NONE, 0, 0, -1, false},
        {"", "multimeter", "500 V", TOOL_NONE, 0, 0, -1, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        tool_piece p = {0};
        bool known = tool_read(text_of(rows[i].name), text_of(rows[i].kind), text_of(rows[i].size), &p);
        if (known != (rows[i].sort != TOOL_NONE) || (known && p.sort != rows[i].sort))
            fail_msg("row %zu: sort %d", i, (int)p.sort);
        if (known)
            assert_true(p.low_um == rows[i].low * 1000 && p.high_um == rows[i].high * 1000 &&
                        p.number == rows[i].number && p.is_set == rows[i].set);
    }
    tool_piece ring, set;
    assert_true(tool_read(TEXT(""), TEXT("ring spanner"), TEXT("13 mm"), &ring));
    assert_true(tool_read(TEXT(""), TEXT("socket set"), TEXT("8-19 mm"), &set));
    tool_need m8 = {TOOL_SPANNER, 13000, 0, -1}, m10 = {TOOL_SPANNER, 16000, 17000, -1},
              key = {TOOL_HEX_KEY, 6000, 0, -1};
    assert_true(tool_serves(&ring, &m8) && !tool_serves(&ring, &m10) && tool_serves(&set, &m10) &&
                !tool_serves(&set, &key));
    assert_true(tool_need_compare(&m8, &m10) < 0 && tool_need_compare(&m10, &key) < 0 &&
                tool_need_equal(&m8, &m8));
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases), cmocka_unit_test(test_published_sizes),
                                       cmocka_unit_test(test_reading_tools)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
