/* plan_text.c: a plan in words: the two ways to build side by side, what decides the finish, what is held up. */
#include "cli/plan_text.h"

#include "base/wrap.h"
#include "cli/build.h"

text plan_text_day(arena *a, date_moment m) {
    char day[11];
    date_print(date_of_moment(m), day);
    return arena_format(a, "%s %s", date_weekday_name(date_of_moment(m)), day);
}

static void add_line(buf *out, text t, size_t indent) {
    wrap_add(out, t, CLI_WIDTH, indent);
}

/* ---- side by side ---------------------------------------------------------------------------------------------------- */

enum { LABEL_COLUMNS = 16, SIDE_COLUMNS = 32 };

static void add_row(buf *out, const char *label, text left, text right) {
    wrap_pad(out, text_of(label), LABEL_COLUMNS);
    wrap_pad(out, left, SIDE_COLUMNS);
    buf_add(out, right);
    buf_add_char(out, '\n');
}

static text duration(arena *a, int32_t minutes) {
    char shown[32];
    date_print_duration(minutes, shown);
    return arena_format(a, "%s", shown);
}

static text sessions(arena *a, uint32_t all, uint32_t dated) {
    if (all <= dated)
        return arena_format(a, "%u", (unsigned)all);
    return arena_format(a, "%u, %u of them without a date", (unsigned)all, (unsigned)(all - dated));
}

static text clock(arena *a, date_moment m) {
    char shown[17];
    date_print_moment(m, shown);
    return arena_format(a, "%s", shown + 11);
}

static uint32_t dated_sessions(const plan *p) {
    uint32_t n = 0;
    while (n < p->n_sessions && p->sessions[n].dated)
        n++;
    return n;
}

static void add_both_ways(arena *a, const plan *p, buf *out) {
    uint32_t dated = dated_sessions(p);
    bool alone = p->one_after_another_min >= 0;
    text none = TEXT("no such plan"), undated = TEXT("after the last dated session");
    add_row(out, "", TEXT("one step after another"), TEXT("sub-assemblies in parallel"));
    add_row(out, "working time", alone ? duration(a, p->one_after_another_min) : none,
            duration(a, p->makespan_min));
    add_row(out, "sessions", alone ? sessions(a, p->one_after_another_sessions, dated) : TEXT(""),
            sessions(a, plan_session_at(p, p->makespan_min, true) + 1, dated));
    text left = !alone                       ? TEXT("")
                : p->one_after_another_dated ? plan_text_day(a, p->one_after_another_finish)
                                             : undated;
    add_row(out, "finish", left, p->finish_dated ? plan_text_day(a, p->finish) : undated);
    bool left_clock = alone && p->one_after_another_dated;
    if (left_clock || p->finish_dated)
        add_row(out, "", left_clock ? clock(a, p->one_after_another_finish) : TEXT(""),
                p->finish_dated ? clock(a, p->finish) : TEXT(""));
    buf_add_char(out, '\n');
}

/* ---- how good, how late ------------------------------------------------------------------------------------------------ */

static void add_proof(arena *a, const plan *p, buf *out) {
    if (p->proven) {
        add_line(out, TEXT("Proven: no plan of these steps with this crew finishes earlier."), 0);
        return;
    }
    int32_t gap = p->makespan_min - p->lower_bound_min;
    int64_t tenths =
        p->lower_bound_min > 0 ? ((int64_t)gap * 1000 + p->lower_bound_min - 1) / p->lower_bound_min : 0;
    add_line(out,
             arena_format(
                 a,
                 "Not proven best: no plan needs less than %.*s; this one is at most %d min (%d.%d %%) "
                 "above that.",
                 TEXT_ARG(duration(a, p->lower_bound_min)), (int)gap, (int)(tenths / 10), (int)(tenths % 10)),
             0);
}

static void add_in_time(arena *a, const plan *p, buf *out) {
    date_day wanted = p->workshop->wanted_day;
    if (!p->finish_dated)
        add_line(out,
                 arena_format(a,
                              "The dated sessions do not suffice: %u more like the last one are needed (same "
                              "minutes, everybody there). Their days are not known.",
                              (unsigned)p->n_undated_used),
                 0);
    if (wanted == INT32_MAX)
        return;
    text day = plan_text_day(a, (date_moment)wanted * MINUTES_PER_DAY);
    bool all = p->n_stopped + p->n_waiting + p->n_impossible == 0;
    if (!all)
        add_line(out,
                 arena_format(a, "Wanted for %.*s: not the whole machine can be planned yet.", TEXT_ARG(day)),
                 0);
    else if (p->finish_dated && date_of_moment(p->finish) <= wanted)
        add_line(out,
                 arena_format(a, "Wanted for %.*s: in time, %d days before.", TEXT_ARG(day),
                              (int)(wanted - date_of_moment(p->finish))),
                 0);
    else if (p->finish_dated)
        add_line(out,
                 arena_format(a, "Wanted for %.*s: %d days late.", TEXT_ARG(day),
                              (int)(date_of_moment(p->finish) - wanted)),
                 0);
    else
        add_line(out,
                 arena_format(a, "Wanted for %.*s: no dated session is left to finish in.", TEXT_ARG(day)),
                 0);
}

static text step_label(arena *a, const plan *p, kit_index step) {
    const kit_step *s = &p->kit->steps[step];
    return arena_format(a, "%.*s %.*s", TEXT_ARG(s->number), TEXT_ARG(s->name));
}

/* "; waits until S37 has cured", "; waits for D-302" */
static text waits_label(arena *a, const plan *p, const plan_step *s) {
    const kit *k = p->kit;
    text cure = TEXT(""), part = TEXT("");
    if (s->waits_delay_of != KIT_NONE)
        cure =
            arena_format(a, "; waits out the delay after %.*s", TEXT_ARG(k->steps[s->waits_delay_of].number));
    if (s->waits_part != KIT_NONE)
        part = arena_format(a, "; waits for the promised %.*s %.*s", TEXT_ARG(k->parts[s->waits_part].number),
                            TEXT_ARG(k->parts[s->waits_part].name));
    return arena_format(a, "%.*s%.*s", TEXT_ARG(cure), TEXT_ARG(part));
}

/* Steps without slack; those that were put off until they had none are only counted. */
static void add_deciding(arena *a, const plan *p, buf *out) {
    uint32_t n = 0, put_off = 0;
    for (uint32_t k = 0; k < p->n_steps; k++) {
        put_off += p->steps[k].decides_finish && p->steps[k].put_off_min > 0;
        n += p->steps[k].decides_finish && p->steps[k].put_off_min <= 0;
    }
    buf_addf(out, "\nWhat decides the finish: %u of %u steps; later by a minute, they move it\n", (unsigned)n,
             (unsigned)p->n_steps);
    for (uint32_t k = 0; k < p->n_steps; k++) {
        const plan_step *s = &p->steps[k];
        if (s->decides_finish && s->put_off_min <= 0)
            add_line(out,
                     arena_format(a, "  session %lld  %.*s%.*s", (long long)p->sessions[s->session].number,
                                  TEXT_ARG(step_label(a, p, s->step)), TEXT_ARG(waits_label(a, p, s))),
                     14);
    }
    if (put_off)
        buf_addf(out, "  %u more were put off on purpose until they have no slack\n", (unsigned)put_off);
}

/* ---- what lies half-built ------------------------------------------------------------------------------------------------ */

static text hours(arena *a, int64_t minutes) {
    return arena_format(a, "%lld h %02lld min", (long long)(minutes / 60), (long long)(minutes % 60));
}

/* Buffers that the finish leaves no room for. */
static void add_short_buffers(arena *a, const plan *p, buf *out) {
    for (uint32_t n = 0; n < p->n_units; n++) {
        const plan_unit *u = &p->units[n];
        const kit_sub_assembly *s = &p->kit->sub_assemblies[u->sub_assembly];
        if (u->joins && u->buffer_min < u->wanted_buffer_min)
            add_line(
                out,
                arena_format(a,
                             "  %.*s %.*s: with this finish a buffer of %d min was found, not the %d min "
                             "wanted",
                             TEXT_ARG(s->number), TEXT_ARG(s->name), (int)u->buffer_min,
                             (int)u->wanted_buffer_min),
                4);
    }
}

static void add_shelf(arena *a, const plan *p, buf *out) {
    if (p->n_units == 0)
        return;
    buf_addf(out, "\nSub-assemblies half-built on the shelf%s\n",
             p->announced ? ", begun as announced" : ", each begun only when it must be");
    add_line(
        out,
        arena_format(a,
                     "  at most %u at one time, %.*s of working time in all; begun as early as the finish "
                     "was found with, %u and %.*s%s",
                     (unsigned)p->shelf.most, TEXT_ARG(hours(a, p->shelf.unit_min)),
                     (unsigned)p->early_shelf.most, TEXT_ARG(hours(a, p->early_shelf.unit_min)),
                     p->shelf_least ? ". Proven: less is not possible with this finish." : "."),
        4);
    add_short_buffers(a, p, out);
}

/* ---- what is held up ----------------------------------------------------------------------------------------------------- */

static void add_held_up(arena *a, const plan *p, buf *out) {
    const kit *k = p->kit;
    if (p->n_stopped)
        buf_add_z(out, "\nStopped: pieces are missing and not promised\n");
    for (uint32_t n = 0; n < p->n_stopped; n++) {
        const plan_stopped *s = &p->stopped[n];
        const kit_part *part = &k->parts[s->part];
        add_line(out,
                 arena_format(a, "  %.*s: %lld x %.*s %.*s missing", TEXT_ARG(step_label(a, p, s->step)),
                              (long long)s->missing, TEXT_ARG(part->number), TEXT_ARG(part->name)),
                 4);
    }
    if (p->n_impossible)
        buf_add_z(out, "\nNot possible with this crew and workshop\n");
    for (uint32_t n = 0; n < p->n_impossible; n++) {
        const plan_impossible *s = &p->impossible[n];
        add_line(out,
                 arena_format(a, "  %.*s: %.*s; %.*s", TEXT_ARG(step_label(a, p, s->step)),
                              TEXT_ARG(s->reason), TEXT_ARG(s->remedy)),
                 4);
    }
    if (p->n_waiting)
        buf_add_z(out, "\nWaiting for those\n");
    for (uint32_t n = 0; n < p->n_waiting; n++)
        add_line(out,
                 arena_format(a, "  %.*s, after %.*s", TEXT_ARG(step_label(a, p, p->waiting[n].step)),
                              TEXT_ARG(k->steps[p->waiting[n].after].number)),
                 4);
}

/* Planned steps that draw pieces which come on a promised day. One that is planned before that day draws pieces that are
 * here already: the stock gives them out in build order, the plan in the order of the starts. */
static void add_promised(arena *a, const plan *p, const stock *s, buf *out) {
    bool any = false;
    for (uint32_t n = 0; n < s->n_stops; n++) {
        const stock_stop *stop = &s->stops[n];
        const plan_step *planned = plan_find_step(p, stop->step);
        if (!planned || stop->unpromised ||
            date_of_moment(p->sessions[planned->session].begins) < stop->ready)
            continue;
        if (!any)
            buf_add_z(out, "\nNot before promised pieces are here\n");
        any = true;
        const kit_part *part = &p->kit->parts[stop->part];
        add_line(out,
                 arena_format(a, "  %.*s: %lld x %.*s %.*s, promised for %.*s; in session %lld",
                              TEXT_ARG(step_label(a, p, stop->step)), (long long)stop->missing,
                              TEXT_ARG(part->number), TEXT_ARG(part->name),
                              TEXT_ARG(plan_text_day(a, (date_moment)stop->ready * MINUTES_PER_DAY)),
                              (long long)p->sessions[planned->session].number),
                 4);
    }
}

void plan_text(arena *a, const plan *p, const stock *s, buf *out) {
    uint32_t held_up = p->n_impossible + p->n_waiting;
    for (uint32_t n = 0; n < p->n_stopped; n++)
        held_up += n == 0 || p->stopped[n].step != p->stopped[n - 1].step;
    add_line(out, arena_format(a, "Plan of %.*s", TEXT_ARG(p->kit->name)), 0);
    if (held_up)
        add_line(out,
                 arena_format(a, "for the %u steps that can go ahead; %u are held up (see below)",
                              (unsigned)p->n_steps, (unsigned)held_up),
                 0);
    buf_add_char(out, '\n');
    if (p->n_steps == 0) {
        buf_add_z(out, p->status == PLAN_OPTIMAL   ? "Every step is done.\n"
                       : p->status == PLAN_UNKNOWN ? "No plan was found within the limits given.\n"
                                                   : "Nothing can go ahead.\n");
        add_held_up(a, p, out);
        return;
    }
    add_both_ways(a, p, out);
    add_proof(a, p, out);
    add_in_time(a, p, out);
    plan_text_pace(a, p, out);
    plan_text_changes(a, p, out);
    add_deciding(a, p, out);
    add_shelf(a, p, out);
    add_promised(a, p, s, out);
    add_held_up(a, p, out);
    plan_text_turns(a, p, out);
    plan_text_sessions(a, p, out);
}
