/* Identifying a piece: the true part comes out on top, the advised look is the best one, and a coarse ruler is said so. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "draws.h"
#include "trade/identify.h"

/* Our own little kit. */
static const char *const kit[] = {
    "ISO 4762 M4x12-8.8", "ISO 4762 M5x16-8.8",  "ISO 4762 M5x20-8.8", "ISO 4762 M6x16-8.8",
    "ISO 4762 M6x20-8.8", "ISO 4762 M6x25-8.8",  "ISO 4762 M8x25-8.8", "ISO 4762 M8x30-8.8",
    "ISO 7380-1 M5x16",   "ISO 7380-1 M6x20",    "ISO 10642 M6x20",    "ISO 4017 M8x25-8.8",
    "ISO 4017 M8x30-8.8", "ISO 4017 M10x40-8.8", "ISO 4032 M5-8",      "ISO 4032 M6-8",
    "ISO 4032 M8-8",      "DIN 985 M8",          "DIN 985 M6",         "ISO 7089-5",
    "ISO 7089-6",         "ISO 7089-8",          "ISO 7093-1-8",       "ISO 4029 M6x8",
};

enum { PARTS = sizeof kit / sizeof *kit };

static designation names[PARTS];
static candidate parts[PARTS];

static int set_up(void **state) {
    (void)state;
    for (int i = 0; i < PARTS; i++) {
        if (!designation_read(text_of(kit[i]), &names[i], NULL))
            return -1;
        parts[i] = (candidate){&names[i], 10};
    }
    return 0;
}

static uint64_t seed = 0x2545F4914F6CDD1Du;

static double bell(void) {
    return draw_bell(&seed);
}

static seen_thing measure(look_sort look, gauge_sort gauge, double mm) {
    return (seen_thing){.look = look, .gauge = gauge, .mm = mm};
}

/* Look at the shape, measure thread and length with a caliper: the true part must be on top nearly always. */
static void test_true_part_wins(void **state) {
    (void)state;
    arena *a = arena_open();
    int right = 0, all = 0;
    for (int round = 0; round < 40; round++) {
        for (uint32_t i = 0; i < PARTS; i++) {
            const designation *d = &names[i];
            if (d->kind != FASTENER_SCREW)
                continue;
            seen_thing seen[3] = {
                {.look = LOOK_FORM, .shape = d->form},
                measure(LOOK_THREAD, GAUGE_CALIPER, d->thread_um / 1e3 - 0.1 + 0.05 * bell()),
                measure(LOOK_LENGTH, GAUGE_RULER, d->length_um / 1e3 + 0.4 * bell())};
            identity id;
            assert_true(identify_piece(a, parts, PARTS, seen, 3, &id, NULL));
            right += id.order[0].candidate == i;
            all++;
        }
    }
    print_message("%d of %d right\n", right, all);
    assert_true(right >= all * 99 / 100);
    arena_close(a);
}

/* What it promises: among answers called about 80 % sure, about 80 % are right. Noisy ruler measurements. */
static void test_chances_are_honest(void **state) {
    (void)state;
    arena *a = arena_open();
    double promised = 0, right = 0;
    for (int round = 0; round < 150; round++) {
        for (uint32_t i = 0; i < 14; i++) {
            const designation *d = &names[i];
            seen_thing seen[2] = {measure(LOOK_THREAD, GAUGE_RULER, d->thread_um / 1e3 - 0.1 + 0.5 * bell()),
                                  measure(LOOK_LENGTH, GAUGE_RULER, d->length_um / 1e3 + 0.5 * bell())};
            identity id;
            assert_true(identify_piece(a, parts, 14, seen, 2, &id, NULL));
            promised += id.order[0].chance;
            right += id.order[0].candidate == i;
        }
    }
    print_message("promised %.3f, right %.3f\n", promised / (150 * 14), right / (150 * 14));
    assert_true(fabs(promised - right) / (150 * 14) < 0.04);
    arena_close(a);
}

/* M5 or M6 of the same length by ruler: the answer says that a ruler hardly tells, and advises something better. */
static void test_ruler_is_coarse(void **state) {
    (void)state;
    arena *a = arena_open();
    seen_thing seen[3] = {{.look = LOOK_FORM, .shape = FORM_CYLINDER_HEAD},
                          measure(LOOK_THREAD, GAUGE_RULER, 5.5),
                          measure(LOOK_LENGTH, GAUGE_RULER, 16)};
    identity id;
    assert_true(identify_piece(a, parts, PARTS, seen, 3, &id, NULL));
    assert_true(id.ruler_is_coarse && id.n_next > 0);
    const next_look *best = &id.next[0];
    assert_true(best->look == LOOK_WIDTH || best->look == LOOK_THREAD || best->look == LOOK_PITCH);
    assert_true(best->bits > 0.5);
    seen[1] = measure(LOOK_THREAD, GAUGE_CALIPER, 5.9);
    assert_true(identify_piece(a, parts, PARTS, seen, 3, &id, NULL));
    assert_false(id.ruler_is_coarse);
    assert_string_equal(kit[id.order[0].candidate], "ISO 4762 M6x16-8.8");
    arena_close(a);
}

/* The advised look is the one that leaves least doubt on average, checked by doing every look on every part. */
static void test_advice_is_best(void **state) {
    (void)state;
    arena *a = arena_open();
    identity start;
    assert_true(identify_piece(a, parts, PARTS, NULL, 0, &start, NULL));
    assert_true(fabs(start.bits_open - log2(PARTS)) < 1e-9);
    double left_form = 0, left_kind = 0;
    for (uint32_t i = 0; i < PARTS; i++) {
        seen_thing form = {.look = LOOK_FORM, .shape = names[i].form};
        seen_thing kind = {.look = LOOK_KIND, .shape = names[i].kind};
        identity id;
        assert_true(identify_piece(a, parts, PARTS, &form, 1, &id, NULL));
        left_form += id.bits_open / PARTS;
        assert_true(identify_piece(a, parts, PARTS, &kind, 1, &id, NULL));
        left_kind += id.bits_open / PARTS;
    }
    for (uint32_t k = 0; k < start.n_next; k++) {
        if (start.next[k].look == LOOK_FORM)
            assert_true(fabs(start.bits_open - start.next[k].bits - left_form) < 1e-9);
        if (start.next[k].look == LOOK_KIND)
            assert_true(fabs(start.bits_open - start.next[k].bits - left_kind) < 1e-9);
        assert_true(k == 0 || start.next[k].bits <= start.next[k - 1].bits + 0.06);
    }
    arena_close(a);
}

/* A nut that runs on settles the thread; the expected bits of trying it are those that trying it gives, on average over
 * both answers of every part. */
static void test_trying_a_nut(void **state) {
    (void)state;
    arena *a = arena_open();
    identity id;
    seen_thing seen[2] = {{.look = LOOK_FORM, .shape = FORM_CYLINDER_HEAD},
                          {.look = LOOK_MATE, .mate = &names[16], .runs = true}};
    assert_true(identify_piece(a, parts, PARTS, seen, 2, &id, NULL));
    assert_true(id.order[0].chance + id.order[1].chance > 0.9);
    for (int i = 0; i < 2; i++)
        assert_int_equal(names[id.order[i].candidate].thread_um, 8000);
    seen[1].runs = false;
    assert_true(identify_piece(a, parts, PARTS, seen, 2, &id, NULL));
    assert_int_not_equal(names[id.order[0].candidate].thread_um, 8000);

    assert_true(identify_piece(a, parts, PARTS, seen, 1, &id, NULL));
    unsigned tried = 0;
    for (uint32_t k = 0; k < id.n_next; k++) {
        if (id.next[k].look != LOOK_MATE)
            continue;
        double left = 0;
        seen_thing answer[2] = {seen[0], {.look = LOOK_MATE, .mate = &names[id.next[k].mate]}};
        identity after[2];
        double chance = 0;
        for (int runs = 0; runs < 2; runs++) {
            answer[1].runs = runs != 0;
            assert_true(identify_piece(a, parts, PARTS, answer, 2, &after[runs], NULL));
        }
        /* P(runs) from the law of total probability at the likeliest part before: chance(part) = p after1 + (1 - p) after0 */
        uint32_t part = id.order[0].candidate;
        double with[2] = {0, 0};
        for (int runs = 0; runs < 2; runs++)
            for (uint32_t i = 0; i < PARTS; i++)
                with[runs] += after[runs].order[i].candidate == part ? after[runs].order[i].chance : 0;
        chance = (id.order[0].chance - with[0]) / (with[1] - with[0]);
        left = chance * after[1].bits_open + (1 - chance) * after[0].bits_open;
        assert_true(fabs(id.bits_open - id.next[k].bits - left) < 1e-4);
        tried++;
    }
    assert_true(tried >= 2);
    seen_thing washer = {.look = LOOK_MATE, .mate = &names[19], .runs = true};
    err e = {0};
    assert_false(identify_piece(a, parts, PARTS, &washer, 1, &id, &e));
    assert_true(e.remedy[0]);
    arena_close(a);
}

/* Bright or black tells stainless from a hard set screw, but never alone decides. */
static void test_finish(void **state) {
    (void)state;
    arena *a = arena_open();
    designation two[2];
    assert_true(designation_read(TEXT("ISO 4762 M6x20-A2-70"), &two[0], NULL));
    assert_true(designation_read(TEXT("ISO 4762 M6x20-12.9"), &two[1], NULL));
    candidate both[2] = {{&two[0], 10}, {&two[1], 10}};
    seen_thing black = {.look = LOOK_FINISH, .shape = FINISH_BLACK};
    identity id;
    assert_true(identify_piece(a, both, 2, &black, 1, &id, NULL));
    assert_int_equal(id.order[0].candidate, 1);
    assert_true(id.order[0].chance > 0.9 && id.order[0].chance < 0.99);
    black.shape = FINISH_PLAIN;
    assert_true(identify_piece(a, both, 2, &black, 1, &id, NULL));
    assert_int_equal(id.order[0].candidate, 0);
    arena_close(a);
}

static void test_nothing_fits_and_refusals(void **state) {
    (void)state;
    arena *a = arena_open();
    identity id;
    seen_thing odd[3] = {{.look = LOOK_FORM, .shape = FORM_WING_NUT},
                         measure(LOOK_THREAD, GAUGE_CALIPER, 15.9),
                         measure(LOOK_LENGTH, GAUGE_RULER, 150)};
    assert_true(identify_piece(a, parts, PARTS, odd, 3, &id, NULL) && id.nothing_fits);
    seen_thing bad = measure(LOOK_THREAD, GAUGE_RULER, (double)NAN);
    err e = {0};
    assert_false(identify_piece(a, parts, PARTS, &bad, 1, &id, &e));
    assert_true(e.cause[0] && e.remedy[0]);
    bad.mm = -4;
    assert_false(identify_piece(a, parts, PARTS, &bad, 1, &id, &e));
    assert_false(identify_piece(a, parts, 0, NULL, 0, &id, &e));
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_true_part_wins),
        cmocka_unit_test(test_chances_are_honest),
        cmocka_unit_test(test_ruler_is_coarse),
        cmocka_unit_test(test_advice_is_best),
        cmocka_unit_test(test_trying_a_nut),
        cmocka_unit_test(test_finish),
        cmocka_unit_test(test_nothing_fits_and_refusals),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
