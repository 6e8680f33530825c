/* model_lanes.c: packing resources into the lanes of 64-bit words (see model.h).
 *
 * A lane is as wide as its greatest capacity or demand needs, plus the guard bit; demands above the peak never fit and
 * are told as infeasible elsewhere. Only resources somebody uses get a lane. */
#include <stdlib.h>
#include <string.h>

#include "sched/model_parts.h"

static int32_t bits_of(int32_t value) {
    int32_t bits = 0;
    for (; value > 0; value >>= 1)
        bits++;
    return bits ? bits : 1;
}

/* The greatest amount that must be written in the lane of r. */
static int32_t greatest_amount(const model *m, int32_t r) {
    int32_t most = m->peak[r];
    for (int32_t k = m->user_at[r]; k < m->user_at[r + 1]; k++)
        if (m->user[k].amount > most)
            most = m->user[k].amount;
    return most;
}

static bool place_lanes(model *m, memory *mem) {
    m->lane_word = memory_array(mem, int32_t, m->resources);
    m->lane_shift = memory_array(mem, int32_t, m->resources);
    m->guard = memory_array(mem, uint64_t, m->resources + 1);
    if (!m->lane_word || !m->lane_shift || !m->guard)
        return false;
    int32_t shift = 0;
    m->words = 1;
    for (int32_t r = 0; r < m->resources; r++) {
        m->lane_word[r] = SCHED_NONE;
        if (m->user_at[r] == m->user_at[r + 1])
            continue;
        int32_t width = bits_of(greatest_amount(m, r)) + 1;
        if (shift + width > 64) {
            m->words++;
            shift = 0;
        }
        m->lane_word[r] = m->words - 1;
        m->lane_shift[r] = shift;
        m->guard[m->words - 1] |= (uint64_t)1 << (shift + width - 1);
        shift += width;
    }
    return true;
}

static int compare_times(const void *x, const void *y) {
    int32_t a = *(const int32_t *)x, b = *(const int32_t *)y;
    return a < b ? -1 : a > b;
}

/* All instants at which any used capacity changes. */
static bool merge_times(model *m, memory *mem) {
    m->lane_from = memory_array(mem, int32_t, m->step_at[m->resources] + 1);
    if (!m->lane_from)
        return false;
    int32_t n = 1;
    for (int32_t r = 0; r < m->resources; r++)
        for (int32_t k = m->step_at[r]; k < m->step_at[r + 1] && m->lane_word[r] != SCHED_NONE; k++)
            m->lane_from[n++] = m->step[k].from;
    qsort(m->lane_from, (size_t)n, sizeof *m->lane_from, compare_times);
    for (int32_t k = 0; k < n; k++)
        if (m->lane_steps == 0 || m->lane_from[m->lane_steps - 1] != m->lane_from[k])
            m->lane_from[m->lane_steps++] = m->lane_from[k];
    return true;
}

bool model_build_lanes(model *m, memory *mem) {
    if (!place_lanes(m, mem) || !merge_times(m, mem))
        return false;
    m->need = memory_array(mem, uint64_t, (size_t)m->n * (size_t)m->words);
    m->lane_free = memory_array(mem, uint64_t, (size_t)m->lane_steps * (size_t)m->words);
    if (!m->need || !m->lane_free)
        return false;
    for (int32_t r = 0; r < m->resources; r++) {
        int32_t word = m->lane_word[r], shift = m->lane_shift[r], s = m->step_at[r];
        if (word == SCHED_NONE)
            continue;
        for (int32_t k = m->user_at[r]; k < m->user_at[r + 1]; k++)
            m->need[m->user[k].task * m->words + word] |= (uint64_t)m->user[k].amount << shift;
        for (int32_t k = 0; k < m->lane_steps; k++) {
            while (s + 1 < m->step_at[r + 1] && m->step[s + 1].from <= m->lane_from[k])
                s++;
            m->lane_free[k * m->words + word] |= (uint64_t)m->step[s].capacity << shift;
        }
    }
    return true;
}
