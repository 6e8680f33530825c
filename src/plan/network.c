/* network.c: forward and backward pass. */
#include "plan/network.h"

int32_t network_end(const network *n, uint32_t job, int32_t start) {
    return n->calendar ? job_end(n->calendar, &n->jobs[job], start) : start + n->jobs[job].duration;
}

int32_t network_reach(const network_link *l, int32_t x) {
    return l->reaches ? l->reaches[x] : x + l->delay;
}

/* The first possible start at or after t, -1 when there is none. */
static int32_t next_start(const network *n, uint32_t job, int32_t t) {
    return n->calendar ? job_next_start(&n->jobs[job], t) : t;
}

static int32_t last_start(const network *n, uint32_t job, int32_t t) {
    return n->calendar ? job_last_start(&n->jobs[job], t) : t;
}

/* The least end of a start at or after `start`: a job begun at the end of a session pays for taking it up again, and may end
 * later than one begun at the next. */
static int32_t least_end(const network *n, uint32_t job, int32_t start) {
    int32_t best = network_end(n, job, start);
    while (n->calendar && n->jobs[job].resume > 0) {
        start = next_start(n, job, start + 1);
        if (start < 0 || start + n->jobs[job].duration >= best)
            break;
        int32_t end = network_end(n, job, start);
        best = end >= 0 && end < best ? end : best;
    }
    return best;
}

uint32_t network_forward(const network *n, network_times *out) {
    for (uint32_t k = 0; k < n->n_jobs; k++) {
        uint32_t job = n->order[k];
        int32_t t = n->release ? n->release[job] : 0;
        for (uint32_t x = 0; x < n->n_links; x++) {
            const network_link *l = &n->links[x];
            if (l->after != job)
                continue;
            int32_t event = l->from_start ? out[l->before].early_start : out[l->before].early_end;
            int32_t reach = network_reach(l, event);
            t = reach > t ? reach : t;
        }
        int32_t start = next_start(n, job, t);
        if (start < 0)
            return job;
        out[job].early_start = start;
        out[job].early_end = least_end(n, job, start);
    }
    return UINT32_MAX;
}

/* The greatest x <= most with reach(x) <= t; -1 when there is none. */
static int32_t reach_back(const network_link *l, int32_t t, int32_t most) {
    if (!l->reaches)
        return t - l->delay < most ? t - l->delay : most;
    int32_t low = -1, high = most;
    while (low < high) {
        int32_t mid = low + (high - low + 1) / 2;
        if (l->reaches[mid] <= t)
            low = mid;
        else
            high = mid - 1;
    }
    return low;
}

void network_backward(const network *n, int32_t finish, const int32_t *earliest, network_times *out) {
    for (uint32_t k = n->n_jobs; k-- > 0;) {
        uint32_t job = n->order[k];
        int32_t last_end = finish, start = finish - n->jobs[job].duration;
        for (uint32_t x = 0; x < n->n_links; x++) {
            const network_link *l = &n->links[x];
            if (l->before != job)
                continue;
            int32_t bound = reach_back(l, out[l->after].late_start, finish);
            if (l->from_start)
                start = bound < start ? bound : start;
            else
                last_end = bound < last_end ? bound : last_end;
        }
        start = last_end - n->jobs[job].duration < start ? last_end - n->jobs[job].duration : start;
        for (start = last_start(n, job, start); start > earliest[job];
             start = last_start(n, job, start - 1)) {
            int32_t end = network_end(n, job, start);
            if (end >= 0 && end <= last_end && (!n->may_start || n->may_start(n->user, job, start)))
                break;
        }
        if (start < earliest[job])
            start = earliest[job];
        out[job].late_start = start;
        out[job].late_end = network_end(n, job, start);
    }
}
