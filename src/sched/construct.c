/* construct.c: priority rules, and repair of a list whose schedule missed a deadline.
 *
 * The rules are the classic ones (Kolisch, "Serial and parallel resource-constrained project scheduling methods
 * revisited", 1996): latest start, latest end, earliest start, most work behind. Repair: the task that found no start, and
 * what must come before it, move to the front; each failure moves it further. */
#include "sched/construct.h"

#include <string.h>

#include "sched/generate.h"

#define REPAIRS 200

typedef enum { RULE_LATEST_START, RULE_LATEST_END, RULE_EARLIEST_START, RULE_WORK_BEHIND, RULES } rule;

static void keys_of_rule(const model *m, rule by, int32_t *key) {
    for (int32_t k = m->n - 1; k >= 0; k--) {
        int32_t i = m->order[k];
        switch (by) {
        case RULE_LATEST_START:
            key[i] = m->lst[i];
            break;
        case RULE_LATEST_END:
            key[i] = m->lst[i] + m->duration[i];
            break;
        case RULE_EARLIEST_START:
            key[i] = m->est[i];
            break;
        case RULE_WORK_BEHIND: /* minus the longest chain of durations from here on */
        case RULES: {
            int32_t behind = 0;
            for (int32_t a = m->after_at[i]; a < m->after_at[i + 1]; a++)
                behind = key[m->after[a].task] < behind ? key[m->after[a].task] : behind;
            key[i] = behind - m->duration[i];
            break;
        }
        }
    }
}

/* Puts a task and all that must come before it ahead of what had their place. */
static void advance(const model *m, int32_t task, int32_t by, int32_t *key) {
    key[task] -= by;
    for (int32_t k = m->n - 1; k >= 0; k--) {
        int32_t i = m->order[k];
        for (int32_t a = m->after_at[i]; a < m->after_at[i + 1]; a++)
            if (m->after[a].task == task && key[i] > key[task])
                key[i] = key[task];
    }
}

void construct(solve *s) {
    const model *m = &s->m;
    generator g;
    int32_t *key = memory_array(&s->mem, int32_t, m->n), *order = memory_array(&s->mem, int32_t, m->n);
    int32_t *heap = memory_array(&s->mem, int32_t, m->n), *waiting = memory_array(&s->mem, int32_t, m->n);
    if (!key || !order || !heap || !waiting || !generator_open(&g, m, &s->mem))
        return;
    for (int32_t by = 0; by < RULES && !solve_is_over(s); by++) {
        keys_of_rule(m, (rule)by, key);
        int32_t step = 1;
        for (int32_t repair = 0; repair <= REPAIRS && !solve_is_over(s); repair++) {
            order_by_key(m, key, order, heap, waiting);
            int32_t makespan = generate_serial(&g, order);
            s->schedules++;
            solve_spend(s, (uint64_t)m->n * 64);
            if (makespan != SCHED_NONE) {
                solve_offer(s, g.start);
                break;
            }
            if (g.failed_task == SCHED_NONE || s->makespan != SCHED_NONE)
                break;
            advance(m, g.failed_task, step, key);
            step += step / 2 + 1;
            if (step > SCHED_TIME_MAX / 4)
                step = 1;
        }
    }
}
