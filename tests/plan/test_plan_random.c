/* test_plan_random.c: plans of random builds, each judged by every rule.
 *
 *     test_plan_random                 the builds of the quick suite
 *     test_plan_random SEED [SIZE]     one build, told in full
 *     test_plan_random --builds N      so many
 */
#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "plan_rules.h"
#include "random_build.h"

/* What was met, so that a test in which nothing ever pauses cannot pass for one of pauses. */
typedef struct {
    uint32_t builds, steps, pauses, change_overs, undated, stopped, waiting, impossible, beside, proven,
        slack, parallel, empty;
} met;

static uint64_t builds_wanted = 150;

static void note(const plan *p, met *m) {
    m->builds++;
    m->steps += p->n_steps;
    m->undated += p->n_undated_used > 0;
    m->stopped += p->n_stopped;
    m->waiting += p->n_waiting;
    m->impossible += p->n_impossible;
    m->proven += p->proven && p->n_steps > 0;
    m->empty += p->n_steps == 0;
    m->parallel += p->makespan_min < p->one_after_another_min;
    for (uint32_t n = 0; n < p->n_steps; n++) {
        const plan_step *s = &p->steps[n];
        m->slack += s->slack_min > 0;
        m->beside += s->stretches[0].supervisor != KIT_NONE;
        for (uint32_t k = 1; k < s->n_stretches; k++) {
            bool paused = s->stretches[k].session != s->stretches[k - 1].session;
            m->pauses += paused;
            m->change_overs += !paused;
        }
    }
}

/* The plan of the build and the plan with every step at its late start keep every rule. */
static bool build_holds(uint64_t seed, uint32_t size, met *m, broken_rule *why) {
    arena *a = arena_open();
    plan_input in = random_build(a, seed, size);
    plan *p;
    err e;
    bool right = plan_make(a, &in, &p, &e);
    if (!right) {
        why->rule = RULE_NONE;
        snprintf(why->text, sizeof why->text, "no plan: %.50s: %.180s", e.place, e.cause);
    }
    right = right && plan_rules_hold(p, &in, why);
    if (right && p->n_steps > 0) {
        int32_t *late = arena_array(a, int32_t, p->n_steps);
        for (uint32_t n = 0; n < p->n_steps; n++)
            late[n] = p->steps[n].start_min + p->steps[n].slack_min;
        plan shifted;
        right = plan_rules_shift(a, p, late, &shifted) && plan_rules_hold(&shifted, &in, why) &&
                shifted.makespan_min == p->makespan_min;
        why->late = !right;
    }
    if (right)
        note(p, m);
    arena_close(a);
    return right;
}

static void random_plans_keep_every_rule(void **state) {
    (void)state;
    met m = {0};
    for (uint64_t seed = 1; seed <= builds_wanted; seed++) {
        broken_rule why = {.rule = RULE_NONE};
        uint32_t size = 1 + (uint32_t)(seed * 7 % 17);
        if (build_holds(seed, size, &m, &why))
            continue;
        for (uint32_t smaller = 1; smaller < size; smaller++) { /* shrink */
            met unused = {0};
            broken_rule other = {.rule = RULE_NONE};
            if (!build_holds(seed, smaller, &unused, &other)) {
                size = smaller;
                why = other;
                break;
            }
        }
        fail_msg("seed %" PRIu64 " size %u%s: rule %d: %s", seed, (unsigned)size,
                 why.late ? ", all steps at their late start" : "", (int)why.rule, why.text);
    }
    print_message(
        "%u builds, %u steps, %u pauses, %u change-overs, %u with undated sessions, %u stopped, "
        "%u waiting, %u impossible, %u supervised beside, %u proven, %u with slack, %u faster in parallel, "
        "%u empty\n",
        m.builds, m.steps, m.pauses, m.change_overs, m.undated, m.stopped, m.waiting, m.impossible, m.beside,
        m.proven, m.slack, m.parallel, m.empty);
    assert_true(m.pauses > 20 && m.change_overs > 50 && m.undated > 20 && m.stopped > 10 && m.waiting > 10);
    assert_true(m.impossible > 10 && m.beside > 50 && m.slack > 50 && m.parallel > 50);
    assert_true(m.proven > m.builds / 10);
}

static int show(uint64_t seed, uint32_t size) {
    arena *a = arena_open();
    plan_input in = random_build(a, seed, size);
    plan *p;
    err e;
    broken_rule why;
    if (!plan_make(a, &in, &p, &e)) {
        printf("%s: %s\n", e.place, e.cause);
    } else {
        for (uint32_t n = 0; n < p->n_sessions; n++)
            printf("session %d  %d..%d %s\n", (int)p->sessions[n].number, (int)p->sessions[n].from_min,
                   (int)p->sessions[n].to_min, p->sessions[n].dated ? "" : "undated");
        for (uint32_t n = 0; n < p->n_steps; n++) {
            const plan_step *s = &p->steps[n];
            printf("%s %d..%d slack %d\n", in.kit->steps[s->step].number.at, (int)s->start_min,
                   (int)s->end_min, (int)s->slack_min);
            for (uint32_t k = 0; k < s->n_stretches; k++) {
                printf("    %d..%d ", (int)s->stretches[k].start_min, (int)s->stretches[k].end_min);
                for (uint32_t q = 0; q < s->stretches[k].n_people; q++)
                    printf(" %u", (unsigned)s->stretches[k].people[q] + 1);
                if (s->stretches[k].supervisor != KIT_NONE)
                    printf(" with %u", (unsigned)s->stretches[k].supervisor + 1);
                printf("\n");
            }
        }
        for (uint32_t n = 0; n < p->n_impossible; n++)
            printf("%s impossible: %s\n", in.kit->steps[p->impossible[n].step].number.at,
                   p->impossible[n].reason.at);
        printf("%s %d bound %d alone %d\n", plan_status_word(p->status), (int)p->makespan_min,
               (int)p->lower_bound_min, (int)p->one_after_another_min);
        printf("%s\n", plan_rules_hold(p, &in, &why) ? "every rule holds" : why.text);
    }
    met m = {0};
    printf("%s\n", build_holds(seed, size, &m, &why) ? "late starts hold too" : why.text);
    arena_close(a);
    return 0;
}

int main(int argc, char **argv) {
    if (argc == 3 && strcmp(argv[1], "--builds") == 0)
        builds_wanted = strtoull(argv[2], NULL, 10);
    else if (argc > 1)
        return show(strtoull(argv[1], NULL, 10), argc > 2
                                                     ? (uint32_t)strtoul(argv[2], NULL, 10)
                                                     : 1 + (uint32_t)(strtoull(argv[1], NULL, 10) * 7 % 17));
    const struct CMUnitTest tests[] = {cmocka_unit_test(random_plans_keep_every_rule)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
