/* check_steps.c: can each step be as it is written? */
#include "base/number.h"
#include "kit/inside.h"

static bool faulty(const kit_checker *c, const char *table, uint32_t i) {
    return kit_state(c->kit, table)->faulty[i];
}

static text step_number(const kit_checker *c, kit_index step) {
    return c->kit->steps[step].number;
}

static void check_durations(kit_checker *c, const kit_step *s) {
    if (s->low_min > s->likely_min)
        fault_add(c->faults, kit_place(c, "steps", s->row, "low_min"), "lower it, or raise likely_min",
                  "%lld low minutes are more than %lld likely ones", (long long)s->low_min,
                  (long long)s->likely_min);
    if (s->likely_min > s->high_min)
        fault_add(c->faults, kit_place(c, "steps", s->row, "high_min"), "raise it, or lower likely_min",
                  "%lld high minutes are fewer than %lld likely ones", (long long)s->high_min,
                  (long long)s->likely_min);
    for (uint32_t i = 0; i < s->change_over_min.n; i++) {
        int64_t at = s->change_over_min.list[i];
        if (at < s->likely_min)
            continue;
        fault_add(c->faults, kit_place(c, "steps", s->row, "change_over_min"),
                  "name minutes inside the step, or leave the cell empty",
                  "a change-over at minute %lld is not inside a step of %lld likely minutes", (long long)at,
                  (long long)s->likely_min);
        break;
    }
}

static void check_effects(kit_checker *c) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_step_effects; i++) {
        const kit_step_effect *e = &k->step_effects[i];
        if (faulty(c, "step_effects", i) || kit_state(k, "step_after")->damaged)
            continue;
        if (e->step != e->other && kit_comes_before(&c->order, e->other, e->step))
            continue;
        fault_add(c->faults, kit_place(c, "step_effects", e->row, "other"),
                  "name an earlier step, or add the order to step_after",
                  "step %.*s %s step %.*s, which does not come before it", TEXT_ARG(step_number(c, e->step)),
                  e->effect == KIT_HIDES ? "hides" : "disturbs", TEXT_ARG(step_number(c, e->other)));
    }
}

static void check_test(kit_checker *c, const kit_step_test *t) {
    bool low = t->low_milli != INT64_MIN, high = t->high_milli != INT64_MAX;
    if (low && high && t->low_milli > t->high_milli) {
        char lowest[24], highest[24];
        number_print_decimal(t->low_milli, 3, lowest);
        number_print_decimal(t->high_milli, 3, highest);
        fault_add(c->faults, kit_place(c, "step_tests", t->row, "low"),
                  "exchange the two limits, or correct one",
                  "the lowest good value %s is above the highest %s", lowest, highest);
    }
    if ((low || high) && !t->unit.len)
        fault_add(c->faults, kit_place(c, "step_tests", t->row, "unit"), "write the unit",
                  "there is a limit, but no unit");
    if (!low && !high && t->unit.len)
        fault_add(c->faults, kit_place(c, "step_tests", t->row, "low"),
                  "write low, high or both, or leave the unit empty for a yes or no",
                  "there is the unit \"%.*s\", but no limit", TEXT_ARG(t->unit));
}

static void check_tests(kit_checker *c) {
    for (uint32_t i = 0; i < c->kit->n_step_tests; i++)
        if (!faulty(c, "step_tests", i))
            check_test(c, &c->kit->step_tests[i]);
}

static void check_skills(kit_checker *c) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_step_skills; i++) {
        const kit_step_skill *s = &k->step_skills[i];
        if (faulty(c, "step_skills", i) || faulty(c, "steps", s->step) ||
            s->people <= k->steps[s->step].people)
            continue;
        fault_add(c->faults, kit_place(c, "step_skills", s->row, "people"),
                  "lower it, or raise the people of the step",
                  "step %.*s has %lld people, and %lld of them must have the skill \"%.*s\"",
                  TEXT_ARG(step_number(c, s->step)), (long long)k->steps[s->step].people,
                  (long long)s->people, TEXT_ARG(k->skills[s->skill].number));
    }
}

/* Rows with people of their own add up; what the others ask for must find room in the rest. */
static void check_own_people(kit_checker *c) {
    const kit *k = c->kit;
    int64_t *own = arena_array(c->memory, int64_t, k->n_steps);
    for (uint32_t i = 0; i < k->n_step_skills; i++)
        if (!faulty(c, "step_skills", i) && k->step_skills[i].own_people)
            own[k->step_skills[i].step] += k->step_skills[i].people;
    for (uint32_t i = 0; i < k->n_step_skills; i++) {
        const kit_step_skill *s = &k->step_skills[i];
        if (faulty(c, "step_skills", i) || faulty(c, "steps", s->step))
            continue;
        const kit_step *step = &k->steps[s->step];
        int64_t wanted = own[s->step] + (s->own_people ? 0 : s->people);
        if (own[s->step] == 0 || s->people > step->people || wanted <= step->people)
            continue;
        fault_add(c->faults, kit_place(c, "step_skills", s->row, "own_people"),
                  "raise the people of the step, or let one person answer for several skills",
                  "step %.*s has %lld people, and its skills ask for %lld who do nothing else",
                  TEXT_ARG(step_number(c, s->step)), (long long)step->people, (long long)wanted);
    }
}

/* A unit that is made beside the machine and never joined to it: most likely a row of step_after was forgotten. */
static void check_joining(kit_checker *c, const bool *made) {
    const kit *k = c->kit;
    bool *joined = arena_array(c->memory, bool, k->n_sub_assemblies);
    for (uint32_t i = 0; i < k->n_step_after; i++) {
        const kit_after *a = &k->step_after[i];
        if (faulty(c, "step_after", i))
            continue;
        kit_index from = k->steps[a->after].sub_assembly;
        if (from != KIT_NONE && from != k->steps[a->step].sub_assembly)
            joined[from] = true;
    }
    for (uint32_t i = 0; i < k->n_sub_assemblies; i++)
        if (made[i] && !joined[i] && !faulty(c, "sub_assemblies", i) && !kit_state(k, "step_after")->damaged)
            fault_add(c->faults, kit_place(c, "sub_assemblies", k->sub_assemblies[i].row, "sub_assembly"),
                      "add the joining step to step_after", "no step takes \"%.*s\" when it is made",
                      TEXT_ARG(k->sub_assemblies[i].number));
}

static void check_sub_assemblies(kit_checker *c) {
    const kit *k = c->kit;
    bool *made = arena_array(c->memory, bool, k->n_sub_assemblies);
    if (kit_state(k, "steps")->damaged)
        return;
    for (uint32_t i = 0; i < k->n_steps; i++)
        if (k->steps[i].sub_assembly != KIT_NONE)
            made[k->steps[i].sub_assembly] = true;
    for (uint32_t i = 0; i < k->n_sub_assemblies; i++) {
        const kit_sub_assembly *s = &k->sub_assemblies[i];
        if (!made[i] && !faulty(c, "sub_assemblies", i))
            fault_add(c->faults, kit_place(c, "sub_assemblies", s->row, "sub_assembly"),
                      "name it in the steps that make it, or remove it", "no step makes \"%.*s\"",
                      TEXT_ARG(s->number));
    }
    check_joining(c, made);
}

static void check_stand_ins(kit_checker *c) {
    for (uint32_t i = 0; i < c->kit->n_stand_ins; i++) {
        const kit_stand_in *s = &c->kit->stand_ins[i];
        if (!faulty(c, "stand_ins", i) && s->part == s->stand_in)
            fault_add(c->faults, kit_place(c, "stand_ins", s->row, "stand_in"),
                      "name another part, or remove the row", "\"%.*s\" stands in for itself",
                      TEXT_ARG(c->kit->parts[s->part].number));
    }
}

static void check_batteries(kit_checker *c) {
    for (uint32_t i = 0; i < c->kit->n_batteries; i++) {
        const kit_battery *b = &c->kit->batteries[i];
        if (faulty(c, "batteries", i) || b->arrival_low_mv < 0)
            continue;
        if (2 * b->arrival_low_mv >= b->nominal_mv && 2 * b->arrival_low_mv <= 3 * b->nominal_mv)
            continue;
        char low[24], nominal[24];
        number_print_decimal(b->arrival_low_mv, 3, low);
        number_print_decimal(b->nominal_mv, 3, nominal);
        fault_add(c->faults, kit_place(c, "batteries", b->row, "arrival_low_v"), "correct one of them",
                  "%s V is no rested voltage of a battery of %s V", low, nominal);
    }
}

void kit_check_steps(kit_checker *c) {
    for (uint32_t i = 0; i < c->kit->n_steps; i++)
        if (!faulty(c, "steps", i))
            check_durations(c, &c->kit->steps[i]);
    check_sub_assemblies(c);
    check_effects(c);
    check_skills(c);
    check_own_people(c);
    check_tests(c);
    check_stand_ins(c);
    check_batteries(c);
}
