/* risk_text.c: the risk of a plan in words: when it ends, what decides that, where a reserve and a buffer help. */
#include "cli/risk_text.h"

#include <math.h>

#include "base/wrap.h"
#include "cli/build.h"
#include "cli/plan_text.h"

/* Of steps, sessions and joins as many as a leader can act on; less often than `RARELY` in a thousand is not worth a line. */
enum { MOST_STEPS = 12, MOST_LINES = 5, RARELY = 10 };

static text percent(arena *a, double share) {
    return arena_format(a, "%.1f %%", 100 * share);
}

static text with_interval(arena *a, const plan_share *s) {
    return arena_format(a, "%.1f %% (%.1f to %.1f %%)", 100 * s->share, 100 * s->low, 100 * s->high);
}

static text duration(arena *a, int32_t minutes) {
    char shown[32];
    if (minutes < 0)
        return TEXT("more than was looked at");
    date_print_duration(minutes, shown);
    return arena_format(a, "%s", shown);
}

static void add_line(buf *out, text t, size_t indent) {
    wrap_add(out, t, CLI_WIDTH, indent);
}

static void add_finish(arena *a, const plan *p, const plan_risk *r, buf *out) {
    uint32_t held_up = p->n_stopped + p->n_waiting + p->n_impossible;
    add_line(out,
             arena_format(a, "The plan of %.*s carried out %u times", TEXT_ARG(p->kit->name),
                          (unsigned)r->samples),
             2);
    add_line(
        out,
        arena_format(
            a,
            "\nPlanned: %.*s of working time. Half of the times it took at most %.*s, nine times of ten at "
            "most %.*s; on average %.0f min, give or take %.1f.",
            TEXT_ARG(duration(a, r->planned_min)), TEXT_ARG(duration(a, r->half_min)),
            TEXT_ARG(duration(a, r->nine_of_ten_min)), r->mean_min, 1.96 * r->mean_error),
        0);
    if (held_up > 0)
        add_line(out,
                 TEXT("Only the steps that can go ahead were carried out; see kitbench plan for the others."),
                 0);
    buf_add_char(out, '\n');
    if (r->wanted) {
        char day[11];
        date_print(p->workshop->wanted_day, day);
        add_line(
            out,
            arena_format(a, "Ended by the wanted day, %s: %.*s.", day, TEXT_ARG(with_interval(a, &r->met))),
            0);
        buf_add_char(out, '\n');
    }
}

static void add_session(arena *a, const plan_risk *r, const plan_risk_session *s, buf *out) {
    const plan_session *on = &r->sessions[s->session];
    wrap_pad(out, arena_format(a, "  %lld", (long long)on->number), 7);
    wrap_pad(out, on->dated ? plan_text_day(a, on->begins) : TEXT("without a date"), 26);
    wrap_pad(out, with_interval(a, &s->last), 26);
    buf_add(out, percent(a, s->by_then.share));
    buf_add_char(out, '\n');
}

static void add_last_sessions(arena *a, const plan_risk *r, buf *out) {
    buf_add_z(out, "The last session                 how likely                ended by then\n");
    uint32_t rest = r->unfinished;
    for (uint32_t s = 0; s < r->n_sessions; s++) {
        const plan_risk_session *it = &r->by_session[s];
        if ((uint64_t)it->last.count * 2000 >= r->samples)
            add_session(a, r, it, out);
        else
            rest += it->last.count;
    }
    if (rest > 0)
        add_line(out, arena_format(a, "  others %.*s", TEXT_ARG(percent(a, (double)rest / r->samples))), 2);
}

static void add_steps(arena *a, const plan *p, const plan_risk *r, buf *out) {
    buf_add_z(out, "\nDecides the finish most often\n");
    for (uint32_t k = 0; k < r->n_steps && k < MOST_STEPS; k++) {
        const kit_step *s = &p->kit->steps[r->steps[k].step];
        add_line(out,
                 arena_format(a, "  %5.1f %%  %.*s %.*s", 100 * r->steps[k].decides.share,
                              TEXT_ARG(s->number), TEXT_ARG(s->name)),
                 11);
    }
}

static bool often(const plan_share *s) {
    return s->share * 1000 >= RARELY;
}

static text reserve_gain(arena *a, const plan_risk *r, const plan_risk_session *s) {
    if (!s->tried)
        return TEXT("");
    if (fabs(s->earlier_min) < 1.96 * s->earlier_error)
        return TEXT("; a reserve did not change the finish by more than chance does");
    text sooner = TEXT("");
    if (r->wanted && fabs(s->sooner_share) >= 1.96 * s->sooner_error)
        sooner =
            arena_format(a, ", and the wanted day is met in %.1f more of a hundred", 100 * s->sooner_share);
    return arena_format(a, "; with one in reserve the build ends %.1f min earlier (give or take %.1f)%.*s",
                        s->earlier_min, 1.96 * s->earlier_error, TEXT_ARG(sooner));
}

static void add_reserves(arena *a, const plan_risk *r, buf *out) {
    uint32_t lines = 0;
    buf_add_z(out, "\nA supervisor in reserve\n");
    for (double below = 2; lines < MOST_LINES; lines++) {
        const plan_risk_session *best = NULL;
        for (uint32_t s = 0; s < r->n_sessions; s++) {
            const plan_risk_session *it = &r->by_session[s];
            double rank = it->held_up.share + (it->tried ? 1 : 0) - 1e-9 * s;
            if (often(&it->held_up) && rank < below &&
                (!best || rank > best->held_up.share + (best->tried ? 1 : 0) - 1e-9 * best->session))
                best = it;
        }
        if (!best)
            break;
        below = best->held_up.share + (best->tried ? 1 : 0) - 1e-9 * best->session;
        const plan_session *on = &r->sessions[best->session];
        add_line(out,
                 arena_format(a, "  session %lld, %.*s: work waits for an adult in %.1f %%%.*s",
                              (long long)on->number,
                              TEXT_ARG(on->dated ? plan_text_day(a, on->begins) : TEXT("without a date")),
                              100 * best->held_up.share, TEXT_ARG(reserve_gain(a, r, best))),
                 4);
    }
    if (lines == 0)
        buf_add_z(out, "  At no session did work wait for an adult who missed it.\n");
}

static void add_joins(arena *a, const plan *p, const plan_risk *r, buf *out) {
    uint32_t lines = 0;
    buf_add_z(out, "\nWhere a buffer helps\n");
    for (uint32_t k = 0; k < r->n_joins && lines < MOST_LINES; k++) {
        const plan_risk_join *j = &r->joins[k];
        const kit_sub_assembly *unit = &p->kit->sub_assemblies[j->sub_assembly];
        if (!often(&j->late))
            continue;
        lines++;
        add_line(out,
                 arena_format(
                     a, "  %.*s, for %.*s: the joining step waits for it in %.1f %%, %.1f min on average%.*s",
                     TEXT_ARG(unit->name), TEXT_ARG(p->kit->steps[j->step].number), 100 * j->late.share,
                     j->late_min,
                     TEXT_ARG(j->nine_of_ten_min == 0
                                  ? TEXT("")
                                  : arena_format(a, "; ready %d min sooner it is late once in ten times",
                                                 (int)j->nine_of_ten_min))),
                 4);
    }
    if (lines == 0)
        buf_add_z(out, "  No joining step waits for its sub-assembly more than once in a hundred times.\n");
}

void risk_text(arena *a, const plan *p, const plan_risk *r, buf *out) {
    add_finish(a, p, r, out);
    add_last_sessions(a, r, out);
    add_steps(a, p, r, out);
    add_reserves(a, r, out);
    add_joins(a, p, r, out);
    buf_add_char(out, '\n');
    add_line(
        out,
        arena_format(
            a,
            "Ranges are 95 %% intervals of the sampling error with seed %llu; they say nothing of how well minutes "
            "and habits were guessed. Nothing is planned anew on the way: who plans again each evening mostly "
            "does better.",
            (unsigned long long)r->seed),
        0);
}
