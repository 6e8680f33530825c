/* solve_psplib.c: the single-mode text format of PSPLIB (Kolisch and Sprecher, European Journal of Operational Research 96,
 * 1997). Jobs are numbered from 1 in the file, from 0 in the problem; source and sink are tasks of duration 0. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/solve_read.h"

enum { JOBS_MAX = 100000, RESOURCES_MAX = 1000 };

typedef struct {
    const char *file;
    text rest; /* lines not yet read */
    int line;
    text now;
    faults *found;
    sched_problem *p;
    int64_t jobs, resources;
} reader;

static bool fail(const reader *r, const char *remedy, const char *cause) {
    char place[192];
    if (r->line > 0)
        snprintf(place, sizeof place, "%s line %d", r->file, r->line);
    else
        snprintf(place, sizeof place, "%s", r->file);
    fault_add(r->found, (fault_place){text_of(place), 0, TEXT("")}, remedy, "%s", cause);
    return false;
}

static bool next_line(reader *r) {
    if (!text_next_piece(&r->rest, '\n', &r->now))
        return false;
    r->line++;
    return true;
}

/* Cuts a whole number off the front of the line. */
static bool next_number(reader *r, int64_t low, int64_t high, int64_t *out) {
    text t = text_trim(r->now);
    size_t digits = 0;
    int64_t value = 0;
    while (digits < t.len && t.at[digits] >= '0' && t.at[digits] <= '9' && digits < 15)
        value = 10 * value + (t.at[digits++] - '0');
    bool ends = digits == t.len || t.at[digits] == ' ' || t.at[digits] == '\t' || t.at[digits] == '\r';
    if (digits == 0 || !ends)
        return fail(r, "write a whole number, not below 0", "a number is missing or malformed");
    r->now = text_slice(t, digits, t.len);
    if (value < low || value > high) {
        char cause[96];
        snprintf(cause, sizeof cause, "%lld is outside %lld .. %lld", (long long)value, (long long)low,
                 (long long)high);
        return fail(r, "", cause);
    }
    *out = value;
    return true;
}

static bool line_done(reader *r) {
    return text_trim(r->now).len == 0 ||
           fail(r, "take the rest of the line away", "more numbers than expected");
}

/* The number after the colon of a line that contains `key`. */
static bool number_after_colon(reader *r, int64_t high, int64_t *out) {
    ptrdiff_t colon = text_find(r->now, TEXT(":"));
    if (colon < 0)
        return fail(r, "write \": NUMBER\"", "a colon is missing");
    text rest = text_trim(text_slice(r->now, (size_t)colon + 1, r->now.len));
    size_t digits = 0;
    while (digits < rest.len && rest.at[digits] >= '0' && rest.at[digits] <= '9')
        digits++;
    r->now = text_slice(rest, 0, digits); /* a unit letter may follow */
    return next_number(r, 0, high, out);
}

static bool skip_lines(reader *r, int n) {
    while (n-- > 0)
        if (!next_line(r))
            return fail(r, "", "the file ends too early");
    return true;
}

static bool read_job_number(reader *r, int64_t expected) {
    int64_t job = 0;
    if (!next_line(r))
        return fail(r, "", "the file ends too early");
    if (!next_number(r, 1, r->jobs, &job))
        return false;
    return job == expected || fail(r, "list all jobs in order", "a job is missing or out of order");
}

static bool read_precedence(reader *r) {
    if (!skip_lines(r, 1))
        return false;
    for (int64_t job = 1; job <= r->jobs; job++) {
        int64_t modes = 0, n = 0, next = 0;
        if (!read_job_number(r, job) || !next_number(r, 1, 1, &modes) || !next_number(r, 0, r->jobs, &n))
            return false;
        for (int64_t k = 0; k < n; k++) {
            if (!next_number(r, 1, r->jobs, &next))
                return false;
            sched_add_relation(r->p, SCHED_END_START, (int32_t)(job - 1), (int32_t)(next - 1), 0, SCHED_NONE);
        }
        if (!line_done(r))
            return false;
    }
    return true;
}

/* Durations come after the relations in the file, but tasks must exist first: this part is read in a pass before. */
static bool read_requests(reader *r, bool add_tasks) {
    if (!skip_lines(r, 2))
        return false;
    for (int64_t job = 1; job <= r->jobs; job++) {
        int64_t mode = 0, duration = 0, amount = 0;
        if (!read_job_number(r, job) || !next_number(r, 1, 1, &mode) ||
            !next_number(r, 0, SCHED_TIME_MAX, &duration))
            return false;
        if (add_tasks)
            sched_add_task(r->p, (int32_t)duration);
        for (int64_t k = 0; k < r->resources; k++) {
            if (!next_number(r, 0, SCHED_AMOUNT_MAX, &amount))
                return false;
            if (add_tasks && amount > 0)
                sched_set_demand(r->p, (int32_t)(job - 1), (int32_t)k, (int32_t)amount);
        }
        if (!line_done(r))
            return false;
    }
    return true;
}

static bool read_availability(reader *r, bool add) {
    if (!skip_lines(r, 2))
        return false;
    for (int64_t k = 0; k < r->resources; k++) {
        int64_t capacity = 0;
        if (!next_number(r, 0, SCHED_AMOUNT_MAX, &capacity))
            return false;
        if (add)
            sched_add_resource(r->p, (int32_t)capacity);
    }
    return line_done(r);
}

typedef enum { PASS_RESOURCES, PASS_TASKS, PASS_RELATIONS, PASSES } pass;

/* One pass over the file. All passes read all sections, so that the first fault in the file is the one told. */
static bool read_pass(reader *r, text content, pass now) {
    bool precedence = false, requests = false, availability = false;
    r->rest = content;
    r->line = 0;
    r->jobs = r->resources = -1;
    while (next_line(r)) {
        text line = text_trim(r->now);
        bool section = false;
        if (text_starts(line, TEXT("jobs (incl"))) {
            if (!number_after_colon(r, JOBS_MAX, &r->jobs))
                return false;
        } else if (text_starts(line, TEXT("- renewable"))) {
            if (!number_after_colon(r, RESOURCES_MAX, &r->resources))
                return false;
        } else if (text_starts(line, TEXT("- nonrenewable")) || text_starts(line, TEXT("- doubly"))) {
            int64_t none = 0;
            if (!number_after_colon(r, 0, &none))
                return false;
        } else {
            section = text_starts(line, TEXT("PRECEDENCE RELATIONS")) ||
                      text_starts(line, TEXT("REQUESTS/DURATIONS")) ||
                      text_starts(line, TEXT("RESOURCEAVAILABILITIES"));
        }
        if (!section)
            continue;
        if (r->jobs < 0 || r->resources < 0)
            return fail(r, "give the lines \"jobs (incl. supersource/sink )\" and \"- renewable\" first",
                        "a section begins before the numbers of jobs and resources");
        if (text_starts(line, TEXT("PRE"))) {
            precedence = true;
            if (now == PASS_RELATIONS ? !read_precedence(r) : !skip_lines(r, (int)r->jobs + 1))
                return false;
        } else if (text_starts(line, TEXT("REQ"))) {
            requests = true;
            if (!read_requests(r, now == PASS_TASKS))
                return false;
        } else {
            availability = true;
            if (!read_availability(r, now == PASS_RESOURCES))
                return false;
        }
    }
    r->line = 0; /* no one line is to blame */
    return (precedence && requests && availability) ||
           fail(r, "a file has PRECEDENCE RELATIONS, REQUESTS/DURATIONS and RESOURCEAVAILABILITIES",
                "a section is missing");
}

/* A fault of the whole: where the relations go round it is told at the job's line. */
static bool look_at_all(reader *r, text content) {
    sched_fault f;
    if (sched_validate(r->p, &f, 1) == 0)
        return true;
    r->rest = content;
    r->line = 0;
    if (f.code == SCHED_FAULT_CYCLE) {
        while (next_line(r) && !text_starts(text_trim(r->now), TEXT("PRECEDENCE RELATIONS")))
            continue;
        if (!skip_lines(r, f.task + 2))
            return false;
        char cause[96];
        snprintf(cause, sizeof cause,
                 "the relations go round: job %d must come before job %d and also after it", f.task + 1,
                 f.other + 1);
        return fail(r, "take one of them away", cause);
    }
    return fail(r, "", f.text);
}

bool solve_read_psplib(sched_problem *p, const char *file, text content, faults *found) {
    reader r = {.file = file, .found = found, .p = p};
    for (int now = PASS_RESOURCES; now < PASSES; now++)
        if (!read_pass(&r, content, (pass)now))
            return false;
    return look_at_all(&r, content);
}
