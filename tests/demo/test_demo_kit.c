/* test_demo_kit.c: the demo kit and its workshop stay what they were made to be.
 *
 * The figures that the demo promises are counted from its tables, so that a later edit cannot shrink it unseen. Then
 * the care that every kit should show: who wears what, who stands beside, what comes very last. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "demo/demo_kit.h"

static void test_boxes_and_bags(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t boxes = 0, bags = 0, heavy = 0, with_two_batteries = 0;
    for (kit_index c = 0; c < k->n_containers; c++) {
        const kit_container *box = &k->containers[c];
        if (box->kind == KIT_BAG) {
            bags++;
            continue;
        }
        boxes++;
        if (box->gross_mass_g > 25000) { /* more than one healthy adult lifts by common guidance */
            heavy++;
            assert_true(box->lift_people > 1);
        }
        with_two_batteries += demo_batteries_in(k, c, 33000) == 2;
    }
    assert_int_equal(boxes, 8);
    assert_int_equal(bags, 18);
    assert_int_equal(heavy, 1);
    assert_int_equal(with_two_batteries, 1);
}

/* Steel screws carry a property class, stainless ones their grade: "ISO 4762 M6x20-8.8", "...-A2-70". */
static bool has_class(text designation) {
    ptrdiff_t x = text_find(designation, TEXT("x"));
    return x >= 0 && text_find(text_slice(designation, (size_t)x, designation.len), TEXT("-")) > 0;
}

static void test_rows_and_pieces(void **state) {
    const kit *k = demo_of(state)->kit;
    int64_t pieces = 0, fasteners = 0;
    for (uint32_t r = 0; r < k->n_rows; r++) {
        const kit_row *row = &k->rows[r];
        text designation = k->parts[row->part].designation;
        if (row->unit != KIT_PIECE)
            continue;
        pieces += row->quantity;
        fasteners += designation.len > 0 ? row->quantity : 0;
    }
    assert_true(k->n_rows >= 150);
    assert_true(pieces >= 900);
    assert_true(2 * fasteners > pieces);
    for (uint32_t p = 0; p < k->n_parts; p++) {
        text d = k->parts[p].designation;
        assert_true(d.len == 0 || text_starts(d, TEXT("ISO ")) || text_starts(d, TEXT("DIN ")));
        if (text_starts(d, TEXT("ISO 4762 ")) || text_starts(d, TEXT("ISO 4017 ")))
            assert_true(has_class(d));
    }
}

/* Spares are a few in a hundred of the fasteners, and none of the large pieces. */
static void test_spares(void **state) {
    const kit *k = demo_of(state)->kit;
    int64_t packed = 0, spare = 0;
    for (uint32_t r = 0; r < k->n_rows; r++) {
        const kit_part *part = &k->parts[k->rows[r].part];
        if (part->designation.len > 0) {
            packed += k->rows[r].quantity;
            spare += k->rows[r].spare;
        } else if (part->mass_mg > 100000 && k->rows[r].unit == KIT_PIECE) {
            assert_int_equal(k->rows[r].spare, 0);
        }
    }
    assert_in_range(spare * 100, packed * 2, packed * 8);
}

static void test_tools(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t kinds = 0, sizes = 0;
    for (uint32_t t = 0; t < k->n_tools; t++) {
        const kit_tool *tool = &k->tools[t];
        bool first = true;
        for (uint32_t u = 0; u < t; u++)
            first = first && !text_equal(k->tools[u].kind, tool->kind);
        kinds += first && !tool->protective;
        sizes += tool->size.len > 0;
    }
    assert_true(kinds >= 14);
    assert_true(sizes > kinds);
}

static void test_steps(void **state) {
    const kit *k = demo_of(state)->kit;
    int64_t person_minutes = 0;
    uint32_t kinds[4] = {0}, supervised[3] = {0};
    uint32_t pausing = 0, changing = 0, waiting = 0, told = 0;
    for (uint32_t s = 0; s < k->n_steps; s++) {
        const kit_step *step = &k->steps[s];
        person_minutes += step->people * step->likely_min;
        kinds[step->kind]++;
        supervised[step->supervision]++;
        pausing += step->may_pause && step->safe_state.len > 0;
        changing += step->change_over_min.n > 0;
        waiting += step->delay_min >= 480 && step->delay_clock == KIT_WALL_CLOCK; /* overnight */
        told += step->instruction.len > 0;
    }
    assert_true(k->n_steps >= 70);
    assert_in_range(person_minutes, 56 * 60, 66 * 60);
    assert_true(kinds[KIT_STOCK_CHECK] >= 5 && kinds[KIT_SORTING] >= 2 && kinds[KIT_INDUCTION] >= 2);
    assert_true(supervised[KIT_IN_ROOM] >= 20 && supervised[KIT_BESIDE] >= 10 &&
                supervised[KIT_ADULT_DOES] >= 4);
    assert_true(pausing >= 15 && changing >= 8 && waiting >= 5);
    assert_int_equal(told, k->n_steps);
}

/* The first sessions are not building: no build step comes before a walk through the workshop and a count. */
static void test_first_work(void **state) {
    const demo *d = demo_of(state);
    const kit *k = d->kit;
    for (uint32_t s = 0; s < k->n_steps; s++) {
        bool rules = false, count = false;
        for (uint32_t e = 0; e < k->n_steps; e++)
            if (demo_comes_after(d, s, e)) {
                rules = rules || k->steps[e].kind == KIT_INDUCTION;
                count = count || k->steps[e].kind == KIT_STOCK_CHECK;
            }
        assert_true(k->steps[s].kind != KIT_BUILD || (rules && count));
    }
}

/* Nine units are made beside the machine, each of several steps, and joined by a step on the machine. */
static void test_sub_assemblies(void **state) {
    const kit *k = demo_of(state)->kit;
    assert_int_equal(k->n_sub_assemblies, 9);
    for (kit_index sub = 0; sub < k->n_sub_assemblies; sub++) {
        uint32_t steps = 0;
        kit_index joining = KIT_NONE;
        for (uint32_t s = 0; s < k->n_steps; s++)
            steps += k->steps[s].sub_assembly == sub;
        for (uint32_t a = 0; a < k->n_step_after; a++) {
            kit_index step = k->step_after[a].step;
            if (k->steps[k->step_after[a].after].sub_assembly != sub || k->steps[step].sub_assembly == sub)
                continue;
            assert_int_equal(k->steps[step].sub_assembly, KIT_NONE);
            assert_true(joining == KIT_NONE || joining == step);
            joining = step;
        }
        assert_true(joining != KIT_NONE);
        assert_true(steps >= 2);
    }
}

static void test_what_the_steps_say(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t tightening[4] = {0}, conditions[3] = {0}, effects[2] = {0}, held = 0, limits = 0, zones[2] = {0};
    for (uint32_t p = 0; p < k->n_step_parts; p++) {
        tightening[k->step_parts[p].tightening]++;
        conditions[k->step_parts[p].condition] += k->step_parts[p].tightening != KIT_NOT_TIGHTENED;
    }
    for (uint32_t e = 0; e < k->n_step_effects; e++)
        effects[k->step_effects[e].effect]++;
    for (uint32_t t = 0; t < k->n_step_tests; t++) {
        held += k->step_tests[t].hold_point;
        limits += k->step_tests[t].unit.len > 0;
    }
    for (uint32_t z = 0; z < k->n_zones; z++)
        zones[k->zones[z].kind]++;
    for (int i = 0; i < 4; i++)
        assert_true(tightening[i] >= 8);
    for (int i = 0; i < 3; i++)
        assert_true(conditions[i] >= 3);
    assert_true(effects[KIT_HIDES] >= 5 && effects[KIT_DISTURBS] >= 3);
    assert_true(held >= 20 && limits >= 40);
    assert_true(zones[KIT_WORKPLACE] >= 3 && zones[KIT_ZONE] >= 2);
    assert_true(k->n_step_skills >= 20 && k->n_step_consumables >= 5 && k->n_step_cautions >= 60);
    assert_true(k->n_stand_ins >= 1 && k->n_batteries == 1 && k->n_reminders >= 5);
}

static void test_workshop(void **state) {
    const kit_workshop *w = demo_of(state)->workshop;
    uint32_t adults = 0, full = 0;
    for (uint32_t p = 0; p < w->n_crew; p++)
        adults += w->crew[p].adult;
    assert_int_equal(w->n_crew, 9);
    assert_int_equal(adults, 3);
    assert_int_equal(w->n_sessions, 14);
    for (uint32_t s = 0; s < w->n_sessions; s++) {
        int64_t there = adults;
        for (uint32_t a = 0; a < w->n_attendance; a++)
            there -= w->attendance[a].session == s && !w->attendance[a].comes &&
                     w->crew[w->attendance[a].person].adult;
        assert_true(there >= w->minimum_adults);
        full += there == adults;
        assert_in_range(w->sessions[s].end - w->sessions[s].start, 105, 135);
        assert_true(w->sessions[s].start >= 17 * 60);
    }
    assert_true(full < w->n_sessions); /* not all of them come each time */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_boxes_and_bags), cmocka_unit_test(test_rows_and_pieces),
        cmocka_unit_test(test_spares),         cmocka_unit_test(test_tools),
        cmocka_unit_test(test_steps),          cmocka_unit_test(test_first_work),
        cmocka_unit_test(test_sub_assemblies), cmocka_unit_test(test_what_the_steps_say),
        cmocka_unit_test(test_workshop),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
