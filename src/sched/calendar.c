/* calendar.c: ends, allowed starts and delay maps of a model.
 *
 * With SCHED_CUT_COSTS the end is no monotone function of the start: a task begun one minute before a cut pays its
 * extra time and may end later than one begun at the cut. Between two neighbouring cuts it is monotone, which the
 * searches below use.
 */
#include "sched/model.h"

/* Index of the first cut > t. */
static int32_t first_cut_after(const model *m, int32_t t) {
    int32_t low = 0, high = m->cut_count;
    while (low < high) {
        int32_t mid = (low + high) / 2;
        if (m->cut[mid] > t)
            high = mid;
        else
            low = mid + 1;
    }
    return low;
}

int32_t model_next_cut(const model *m, int32_t t) {
    int32_t k = first_cut_after(m, t);
    return k < m->cut_count ? m->cut[k] : INT32_MAX;
}

int32_t model_end(const model *m, int32_t i, int32_t s) {
    int32_t d = m->duration[i];
    if (m->extra[i] == 0 || d == 0)
        return s + d;
    int64_t t = s, left = d;
    for (int32_t k = first_cut_after(m, s); k < m->cut_count && m->cut[k] < t + left; k++) {
        left -= m->cut[k] - t;
        t = m->cut[k];
        left += m->extra[i];
        if (t + left > SCHED_TIME_MAX)
            return SCHED_TIME_MAX + 1;
    }
    return (int32_t)(t + left);
}

int32_t model_next_start(const model *m, int32_t i, int32_t t) {
    int32_t domain = m->domain[i];
    if (domain == 0)
        return t;
    int32_t low = m->interval_at[domain], high = m->interval_at[domain + 1], end = high;
    while (low < high) { /* the first interval that ends at t or later */
        int32_t mid = (low + high) / 2;
        if (m->interval[mid].last >= t)
            high = mid;
        else
            low = mid + 1;
    }
    if (low == end)
        return INT32_MAX;
    return m->interval[low].first > t ? m->interval[low].first : t;
}

int32_t model_last_start(const model *m, int32_t i, int32_t t) {
    int32_t domain = m->domain[i];
    if (domain == 0)
        return t;
    int32_t first = m->interval_at[domain], low = first, high = m->interval_at[domain + 1];
    while (low < high) { /* the first interval that begins after t */
        int32_t mid = (low + high) / 2;
        if (m->interval[mid].first > t)
            high = mid;
        else
            low = mid + 1;
    }
    if (low == first)
        return -1;
    return m->interval[low - 1].last < t ? m->interval[low - 1].last : t;
}

int32_t model_least_end(const model *m, int32_t i, int32_t a, int32_t b) {
    int32_t least = model_end(m, i, a);
    if (m->extra[i] == 0)
        return least;
    for (int32_t k = first_cut_after(m, a); k < m->cut_count && m->cut[k] <= b; k++) {
        if (m->cut[k] + m->duration[i] >= least)
            break;
        int32_t end = model_end(m, i, m->cut[k]);
        if (end < least)
            least = end;
    }
    return least;
}

int32_t model_start_ending_by(const model *m, int32_t i, int32_t t, int32_t u) {
    int32_t d = m->duration[i];
    int32_t high = t - d < u ? t - d : u;
    if (m->extra[i] == 0 || high < 0)
        return high < 0 ? -1 : high;
    for (int32_t k = first_cut_after(m, high);;
         k--) { /* the stretch [cut k-1, cut k) from its end backwards */
        int32_t low = k > 0 ? m->cut[k - 1] : 0;
        if (model_end(m, i, low) <= t) {
            while (low < high) {
                int32_t mid = low + (high - low + 1) / 2;
                if (model_end(m, i, mid) <= t)
                    low = mid;
                else
                    high = mid - 1;
            }
            return low;
        }
        if (k == 0 || low == 0)
            return -1;
        high = low - 1;
    }
}

int32_t model_map(const model *m, int32_t map, int32_t t) {
    const problem_span span = m->problem->maps.at[map];
    const sched_map_piece *piece = m->problem->map_pieces.at + span.at;
    size_t low = 0, high = span.n;
    while (low < high) { /* the first piece that begins after t */
        size_t mid = (low + high) / 2;
        if (piece[mid].from > t)
            high = mid;
        else
            low = mid + 1;
    }
    if (low == 0)
        return t;
    int64_t value = piece[low - 1].value + (int64_t)piece[low - 1].slope * (t - piece[low - 1].from);
    return value > SCHED_TIME_MAX ? SCHED_TIME_MAX + 1 : (int32_t)value;
}

int32_t model_map_back(const model *m, int32_t map, int32_t t) {
    int32_t low = -1, high = t; /* f(x) >= x, so x <= t */
    while (low < high) {
        int32_t mid = low + (high - low + 1) / 2;
        if (model_map(m, map, mid) <= t)
            low = mid;
        else
            high = mid - 1;
    }
    return low;
}
