/* tell_build.c: random builds and their plans as JSON, one object a line, for a solver that shares nothing with this program.
 *
 *     tell_build FIRST COUNT DIVISOR EFFORT
 *
 * Builds of 2 to 6 steps. What a build says is written as it stands; nothing is worked out here.
 */
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>

#include "random_build.h"

static json_t *indices(kit_indices set) {
    json_t *list = json_array();
    for (uint32_t n = 0; n < set.n; n++)
        json_array_append_new(list, json_integer(set.list[n]));
    return list;
}

static json_int_t index_or_none(kit_index x) {
    return x == KIT_NONE ? -1 : (json_int_t)x;
}

static json_t *tell_steps(const kit *k) {
    json_t *steps = json_array();
    for (kit_index s = 0; s < k->n_steps; s++) {
        const kit_step *x = &k->steps[s];
        json_t *changes = json_array(), *after = json_array(), *parts = json_array(), *tools = json_array(),
               *skills = json_array();
        for (uint32_t n = 0; n < x->change_over_min.n; n++)
            json_array_append_new(changes, json_integer(x->change_over_min.list[n]));
        for (uint32_t n = 0; n < k->n_step_after; n++)
            if (k->step_after[n].step == s)
                json_array_append_new(after, json_integer(k->step_after[n].after));
        for (uint32_t n = 0; n < k->n_step_parts; n++)
            if (k->step_parts[n].step == s)
                json_array_append_new(parts, json_pack("[i,I]", (int)k->step_parts[n].part,
                                                       (json_int_t)k->step_parts[n].quantity));
        for (uint32_t n = 0; n < k->n_step_tools; n++)
            if (k->step_tools[n].step == s)
                json_array_append_new(tools, json_pack("[i,I]", (int)k->step_tools[n].tool,
                                                       (json_int_t)k->step_tools[n].quantity));
        for (uint32_t n = 0; n < k->n_step_skills; n++)
            if (k->step_skills[n].step == s)
                json_array_append_new(skills, json_pack("[i,I,b]", (int)k->step_skills[n].skill,
                                                        (json_int_t)k->step_skills[n].people,
                                                        (int)k->step_skills[n].own_people));
        json_array_append_new(
            steps, json_pack("{s:I,s:I,s:I,s:I,s:I,s:I,s:b,s:I,s:b,s:I,s:o,s:o,s:o,s:o,s:o,s:o}",
                             "likely_min", (json_int_t)x->likely_min, "people", (json_int_t)x->people, "work",
                             index_or_none(x->work), "zone", index_or_none(x->zone), "supervision",
                             (json_int_t)x->supervision, "resume_min", (json_int_t)x->resume_min, "may_pause",
                             (int)x->may_pause, "delay_min", (json_int_t)x->delay_min, "wall_clock",
                             (int)(x->delay_clock == KIT_WALL_CLOCK), "step", (json_int_t)s,
                             "change_over_min", changes, "after", after, "parts", parts, "tools", tools,
                             "skills", skills, "not_beside", indices(x->not_beside)));
    }
    return steps;
}

static json_t *tell_owned(const kit_owned *list, uint32_t n) {
    json_t *out = json_array();
    for (uint32_t x = 0; x < n; x++)
        json_array_append_new(out, json_pack("[i,I]", (int)list[x].what, (json_int_t)list[x].quantity));
    return out;
}

static json_t *tell_workshop(const kit *k, const kit_workshop *w) {
    json_t *crew = json_array(), *sessions = json_array(), *attendance = json_array(), *zones = json_array();
    for (kit_index p = 0; p < w->n_crew; p++)
        json_array_append_new(crew, json_pack("{s:b,s:o,s:o}", "adult", (int)w->crew[p].adult, "supervises",
                                              indices(w->crew[p].supervises), "skills",
                                              indices(w->crew[p].skills)));
    for (uint32_t n = 0; n < w->n_attendance; n++) {
        const kit_attendance *x = &w->attendance[n];
        json_array_append_new(attendance, json_pack("{s:i,s:i,s:b,s:i,s:i}", "session", (int)x->session,
                                                    "person", (int)x->person, "comes", (int)x->comes, "from",
                                                    x->from, "until", x->until));
    }
    for (kit_index z = 0; z < k->n_zones; z++)
        json_array_append_new(zones, json_pack("{s:b,s:I}", "zone", (int)(k->zones[z].kind == KIT_ZONE),
                                               "groups", (json_int_t)k->zones[z].groups));
    for (kit_index s = 0; s < w->n_sessions; s++) {
        const kit_session *x = &w->sessions[s];
        json_array_append_new(
            sessions,
            json_pack("{s:i,s:i,s:i,s:I,s:I}", "day", (int)x->day, "start", x->start, "end", x->end,
                      "opening_min", (json_int_t)x->opening_min, "closing_min",
                      (json_int_t)(x->cancelled ? x->end - x->start - x->opening_min : x->closing_min)));
    }
    return json_pack("{s:I,s:I,s:o,s:o,s:o,s:o,s:o,s:o}", "beginners_percent",
                     (json_int_t)w->beginners_percent, "minimum_adults", (json_int_t)w->minimum_adults,
                     "crew", crew, "sessions", sessions, "attendance", attendance, "zones", zones, "tools",
                     tell_owned(w->tools, w->n_tools), "workplaces",
                     tell_owned(w->workplaces, w->n_workplaces));
}

static json_t *tell_stock(const plan_input *in) {
    json_t *usable = json_array(), *arrivals = json_array(), *done = json_array();
    for (kit_index p = 0; p < in->kit->n_parts; p++)
        json_array_append_new(usable, json_integer(in->usable[p]));
    for (uint32_t n = 0; n < in->n_arrivals; n++)
        json_array_append_new(arrivals, json_pack("[i,I,I]", (int)in->arrivals[n].part,
                                                  (json_int_t)in->arrivals[n].quantity,
                                                  (json_int_t)in->arrivals[n].at));
    for (uint32_t n = 0; n < in->n_done; n++)
        json_array_append_new(done, json_pack("[i,I]", (int)in->done[n].step, (json_int_t)in->done[n].at));
    return json_pack("{s:o,s:o,s:o}", "usable", usable, "arrivals", arrivals, "done", done);
}

static json_t *tell_plan(const plan *p) {
    json_t *sessions = json_array(), *steps = json_array();
    for (uint32_t n = 0; n < p->n_sessions; n++)
        json_array_append_new(sessions,
                              json_pack("{s:I,s:I,s:I,s:I}", "session", index_or_none(p->sessions[n].session),
                                        "from_min", (json_int_t)p->sessions[n].from_min, "to_min",
                                        (json_int_t)p->sessions[n].to_min, "begins",
                                        (json_int_t)p->sessions[n].begins));
    for (uint32_t n = 0; n < p->n_steps; n++)
        json_array_append_new(steps, json_integer(p->steps[n].step));
    return json_pack("{s:s,s:i,s:i,s:o,s:o}", "status", plan_status_word(p->status), "makespan_min",
                     p->makespan_min, "lower_bound_min", p->lower_bound_min, "sessions", sessions, "steps",
                     steps);
}

static bool tell_build(uint64_t seed, int64_t divisor, uint64_t effort) {
    arena *a = arena_open();
    plan_input in = random_build_small(a, seed, 2 + (uint32_t)(seed % 5), divisor);
    in.effort = effort;
    plan *p;
    err e;
    if (!plan_make(a, &in, &p, &e)) {
        fprintf(stderr, "build %llu: %s: %s\n", (unsigned long long)seed, e.place, e.cause);
        arena_close(a);
        return false;
    }
    json_t *all =
        json_pack("{s:I,s:o,s:o,s:o,s:o}", "seed", (json_int_t)seed, "steps", tell_steps(in.kit), "workshop",
                  tell_workshop(in.kit, in.workshop), "stock", tell_stock(&in), "plan", tell_plan(p));
    bool written = all && json_dumpf(all, stdout, JSON_COMPACT) == 0 && putchar('\n') == '\n';
    json_decref(all);
    arena_close(a);
    return written;
}

int main(int argc, char **argv) {
    if (argc != 5) {
        fputs("tell_build FIRST COUNT DIVISOR EFFORT\n", stderr);
        return 2;
    }
    uint64_t first = strtoull(argv[1], NULL, 10), count = strtoull(argv[2], NULL, 10);
    for (uint64_t seed = first; seed < first + count; seed++)
        if (!tell_build(seed, strtoll(argv[3], NULL, 10), strtoull(argv[4], NULL, 10)))
            return 1;
    return 0;
}
