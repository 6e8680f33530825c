/* jobs.c: where a job's work lies in the sessions, and when it can start. */
#include "plan/jobs.h"

static void add_stretch(arena *a, job_stretches *out, uint32_t session, int32_t from, int32_t to) {
    arena_room(a, out->list, out->n, out->cap, job_stretch);
    out->list[out->n++] = (job_stretch){session, from, to};
}

/* Lays the job into the sessions from `start` on; stretches only when `out` is given. The end, or -1. */
static int32_t lay_out(arena *a, const calendar *c, const plan_job *j, int32_t start, job_stretches *out) {
    if (start < 0 || start >= c->end)
        return -1;
    uint32_t session = calendar_session(c, start, false);
    int32_t t = start, done = 0, getting_in = 0; /* minutes of work done; minutes of resuming still to come */
    uint32_t point = 0;
    while (session < c->n_sessions) {
        int32_t until = c->sessions[session].to_min, from = t;
        int32_t room = until - t, left = getting_in + j->duration - done;
        int32_t end = left <= room ? t + left : until;
        while (point < j->n_change_over && j->change_over[point] <= done)
            point++;
        for (; out && point < j->n_change_over; point++) {
            int32_t at = t + getting_in + j->change_over[point] - done;
            if (at >= end)
                break;
            add_stretch(a, out, session, from, at);
            from = at;
        }
        if (out)
            add_stretch(a, out, session, from, end);
        if (left <= room)
            return end;
        if (!j->may_pause)
            return -1;
        int32_t worked = room - getting_in;
        done += worked > 0 ? worked : 0;
        /* A session that ends while people still get back into it leaves the rest of that and the resuming anew. */
        getting_in = (worked < 0 ? -worked : 0) + j->resume;
        t = until;
        session++;
    }
    return -1;
}

int32_t job_end(const calendar *c, const plan_job *j, int32_t start) {
    return lay_out(NULL, c, j, start, NULL);
}

bool job_stretch_out(arena *a, const calendar *c, const plan_job *j, int32_t start, job_stretches *out) {
    out->n = 0;
    return lay_out(a, c, j, start, out) >= 0;
}

/* Remembers the last few sets of people asked for: nearly all stretches see the same ones. */
typedef struct {
    people_set there[8];
    bool can[8];
    uint32_t n, next;
} staff_memory;

static bool can_staff(staff_memory *m, const plan_job *j, people_set there) {
    for (uint32_t k = 0; k < m->n; k++)
        if (m->there[k] == there)
            return m->can[k];
    bool can = job_can_staff(j, there);
    m->there[m->next] = there;
    m->can[m->next] = can;
    m->next = (m->next + 1) % 8;
    m->n += m->n < 8;
    return can;
}

static void add_start(arena *a, plan_job *j, size_t *cap, int32_t t) {
    if (j->n_starts && j->starts[j->n_starts - 1].last == t - 1) {
        j->starts[j->n_starts - 1].last = t;
        return;
    }
    size_t n = j->n_starts;
    arena_room(a, j->starts, n, *cap, job_starts);
    j->starts[j->n_starts++] = (job_starts){t, t};
}

void job_find_starts(arena *a, const calendar *c, plan_job *j) {
    job_stretches run = {0};
    staff_memory memory = {0};
    size_t cap = 0;
    j->n_starts = 0;
    for (int32_t t = 0; t < c->end; t++) {
        if (!can_staff(&memory, j, calendar_there(c, t, t + 1)) || !job_stretch_out(a, c, j, t, &run))
            continue;
        bool can = true;
        for (size_t k = 0; k < run.n && can; k++)
            can = can_staff(&memory, j, calendar_there(c, run.list[k].from, run.list[k].to));
        if (can)
            add_start(a, j, &cap, t);
    }
}

int32_t job_next_start(const plan_job *j, int32_t t) {
    uint32_t low = 0, high = j->n_starts;
    while (low < high) {
        uint32_t mid = (low + high) / 2;
        if (j->starts[mid].last >= t)
            high = mid;
        else
            low = mid + 1;
    }
    if (low == j->n_starts)
        return -1;
    return j->starts[low].first > t ? j->starts[low].first : t;
}

int32_t job_last_start(const plan_job *j, int32_t t) {
    uint32_t low = 0, high = j->n_starts;
    while (low < high) {
        uint32_t mid = (low + high) / 2;
        if (j->starts[mid].first > t)
            high = mid;
        else
            low = mid + 1;
    }
    if (low == 0)
        return -1;
    return j->starts[low - 1].last < t ? j->starts[low - 1].last : t;
}
