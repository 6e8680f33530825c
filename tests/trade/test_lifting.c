/* Lifting against the published tables and worked examples, and every refusal. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/lifting.h"

static const lift ideal = {10, 25, 75, 25, 0, 0.2, 1, GRIP_GOOD, PERSON_ANY_ADULT};

static double multiplier(text what, text unit, double x, bool *known) {
    lift l = ideal;
    lift_answer a;
    *known = true;
    if (text_starts(what, TEXT("HM")))
        l.reach_cm = text_is(unit, "in") ? 2.5 * x : x; /* the inch table is 10/H: 25 cm stands for 10 in */
    else if (text_starts(what, TEXT("VM")))
        l.height_cm = x;
    else if (text_starts(what, TEXT("DM")))
        l.travel_cm = x;
    else if (text_starts(what, TEXT("AM")))
        l.twist_degrees = x;
    else if (text_starts(what, TEXT("FM"))) {
        l.lifts_per_min = x;
        l.height_cm = text_find(what, TEXT("V<75")) >= 0 ? 50 : 100;
        l.hours = text_is(unit, "<=1 h") ? 1 : text_is(unit, "1-2 h") ? 2 : 8;
    } else {
        *known = false;
        return 0;
    }
    if (!lifting_limit(&l, &a, NULL)) /* beyond the range the multiplier is 0: we refuse */
        return 0;
    char m = what.at[0];
    return m == 'H' ? a.hm : m == 'V' ? a.vm : m == 'D' ? a.dm : m == 'A' ? a.am : a.fm;
}

static void test_published_multipliers(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "05b_niosh_multipliers.csv"))
        skip();
    agreement a = {.what = "multipliers"};
    for (size_t i = 1; i < r.table.n; i++) {
        bool known;
        double x = reference_number(&r, i, "x"), published = reference_number(&r, i, "published");
        text what = reference_text(&r, i, "multiplier"), unit = reference_text(&r, i, "unit_or_duration");
        if (isnan(x) || isnan(published)) {
            a.skipped++;
            continue;
        }
        double ours = multiplier(what, unit, x, &known);
        /* the printed table has 0.86 at D 130, where the formula gives 0.855; the inch table has 0.46 and 0.44 at 22 and 23 in, where the formula rounds to 0.45 and 0.43 */
        double tolerance = text_is(unit, "in") ? 0.0101 : 0.0055;
        if (!known)
            a.skipped++;
        else
            reference_compare(&a, &r, i, ours, published, tolerance);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 150);
    reference_close(&r);
}

/* NIOSH 94-110, example 1: punch press stock, 44 lb, H 23, V 15, D 49 in, good to fair grip: RWL 16.3 lb, index 2.7;
 * destination V 64: 14.5 lb, 3.0; example 3: 40 lb, H 18, V 15, D 21, A 45: 18.9 lb, 2.1. */
/* The worksheets multiply rounded multipliers, so full precision differs by a little. */
static void test_worked_examples(void **state) {
    (void)state;
    static const struct {
        double load, h, v, d, a, rwl, index;
        lifting_grip grip;
    } examples[] = {
        {44, 23, 15, 49, 0, 16.3, 2.7, GRIP_FAIR},
        {44, 23, 64, 49, 0, 14.5, 3.0, GRIP_FAIR},
        {40, 18, 15, 21, 45, 18.9, 2.1, GRIP_FAIR},
    };
    for (size_t i = 0; i < 3; i++) {
        double lb = 0.45359237;
        lift l = {examples[i].load * lb,
                  examples[i].h * 2.5,
                  examples[i].v * 2.5,
                  examples[i].d * 2.5,
                  examples[i].a,
                  0.2,
                  1,
                  examples[i].grip,
                  PERSON_ANY_ADULT};
        lift_answer a;
        assert_true(lifting_limit(&l, &a, NULL));
        double rwl_lb = a.limit_kg / 23 * 51;
        assert_true(fabs(rwl_lb - examples[i].rwl) < 0.45);
        assert_true(fabs(examples[i].load / rwl_lb - examples[i].index) < 0.11);
    }
}

static void test_published_filter(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "05a_lifting_filters.csv"))
        skip();
    agreement a = {.what = "guideline masses"};
    for (size_t i = 1; i < r.table.n; i++) {
        text who = reference_text(&r, i, "population"), zone = reference_text(&r, i, "zone");
        double published = reference_number(&r, i, "value_kg_or_rule");
        int height = 0;
        while (height < HEIGHT_COUNT && !text_is(zone, lifting_height_name((lifting_height)height)) &&
               !(height == 0 && text_starts(zone, TEXT("shoulder"))))
            height++;
        if (isnan(published) || height == HEIGHT_COUNT || !(text_is(who, "men") || text_is(who, "women"))) {
            a.skipped++;
            continue;
        }
        bool out = text_is(reference_text(&r, i, "condition"), "arms extended");
        double kg, any;
        assert_true(lifting_guideline(text_is(who, "men") ? PERSON_MAN : PERSON_WOMAN, (lifting_height)height,
                                      out, &kg, NULL));
        assert_true(lifting_guideline(PERSON_ANY_ADULT, (lifting_height)height, out, &any, NULL) &&
                    any <= kg);
        reference_compare(&a, &r, i, kg, published, 1e-9);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_int_equal(a.agree, 20);
    reference_close(&r);
}

static void test_teams(void **state) {
    (void)state;
    lift_team t;
    assert_true(lifting_team(12, PERSON_ANY_ADULT, HEIGHT_KNUCKLE, false, &t, NULL) && t.people == 1);
    assert_true(lifting_team(12, PERSON_ANY_ADULT, HEIGHT_FLOOR, false, &t, NULL) &&
                t.people == 0); /* not from the floor */
    assert_true(lifting_team(20, PERSON_ANY_ADULT, HEIGHT_KNUCKLE, false, &t, NULL) && t.people == 2);
    assert_true(fabs(t.team_kg - 2 * 16 * 2 / 3.0) < 1e-9);
    assert_true(lifting_team(24, PERSON_ANY_ADULT, HEIGHT_KNUCKLE, false, &t, NULL) && t.people == 3);
    assert_true(lifting_team(100, PERSON_MAN, HEIGHT_KNUCKLE, false, &t, NULL) && t.people == 0);
}

static void test_refusals(void **state) {
    (void)state;
    lift_answer a;
    lift_team t;
    double kg;
    err e = {0};
    lift minor = ideal;
    minor.person = PERSON_MINOR;
    assert_false(lifting_limit(&minor, &a, &e));
    assert_non_null(strstr(e.cause, "minors"));
    assert_false(lifting_team(1, PERSON_MINOR, HEIGHT_KNUCKLE, false, &t, &e));
    assert_false(lifting_guideline(PERSON_MINOR, HEIGHT_KNUCKLE, false, &kg, &e));
    for (int i = 0; i < 9; i++) {
        lift l = ideal;
        switch (i) {
        case 0:
            l.load_kg = (double)NAN;
            break;
        case 1:
            l.load_kg = -5;
            break;
        case 2:
            l.reach_cm = 80;
            break;
        case 3:
            l.height_cm = 200;
            break;
        case 4:
            l.travel_cm = -1;
            break;
        case 5:
            l.twist_degrees = 170;
            break;
        case 6:
            l.lifts_per_min = 20;
            break;
        case 7:
            l.hours = 0;
            break;
        case 8:
            l.load_kg = 5000;
            break;
        default:
            break;
        }
        e = (err){0};
        assert_false(lifting_limit(&l, &a, &e));
        assert_true(e.cause[0] && e.remedy[0]);
    }
    /* too often for too long: the table has no weight at all */
    lift often = ideal;
    often.lifts_per_min = 12;
    often.hours = 8;
    assert_true(lifting_limit(&often, &a, NULL) && a.limit_kg == 0 && isinf(a.index));
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_published_multipliers),
                                       cmocka_unit_test(test_worked_examples),
                                       cmocka_unit_test(test_published_filter), cmocka_unit_test(test_teams),
                                       cmocka_unit_test(test_refusals)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
