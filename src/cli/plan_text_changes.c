/* plan_text_changes.c: what a plan learned from what was done, and what it changes of what the crew was told. */
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/plan_text.h"

static text moment(arena *a, date_moment m) {
    char shown[17];
    date_print_moment(m, shown);
    return arena_format(a, "%.3s %s", date_weekday_name(date_of_moment(m)), shown);
}

static text clock(arena *a, date_moment m) {
    char shown[17];
    date_print_moment(m, shown);
    return arena_format(a, "%s", shown + 11);
}

static text what_changes(arena *a, const plan_shift *s) {
    text now = s->now_dated ? moment(a, s->now) : TEXT("after the last dated session");
    switch (s->kind) {
    case PLAN_SHIFT_DROPPED:
        return arena_format(a, "does not go ahead; announced for %.*s", TEXT_ARG(moment(a, s->told)));
    case PLAN_SHIFT_SESSION:
        return arena_format(a, "%.*s, not %.*s", TEXT_ARG(now), TEXT_ARG(moment(a, s->told)));
    case PLAN_SHIFT_TIME:
        return arena_format(a, "%.*s, not at %.*s", TEXT_ARG(now), TEXT_ARG(clock(a, s->told)));
    case PLAN_SHIFT_PEOPLE:
        return arena_format(a, "%.*s with other people", TEXT_ARG(now));
    case PLAN_SHIFT_ADDED:
        return arena_format(a, "%.*s, not announced", TEXT_ARG(now));
    }
    return TEXT("");
}

void plan_text_changes(arena *a, const plan *p, buf *out) {
    if (!p->announced)
        return;
    if (p->n_shifts == 0) {
        buf_add_z(out, "\nAs announced: what lies ahead is as the crew was told.\n");
        return;
    }
    buf_addf(out, "\nWhat changes of what was announced: %u step%s\n", (unsigned)p->n_shifts,
             p->n_shifts == 1 ? "" : "s");
    for (uint32_t n = 0; n < p->n_shifts; n++) {
        const plan_shift *s = &p->shifts[n];
        const kit_step *step = &p->kit->steps[s->step];
        wrap_add(out,
                 arena_format(a, "  %.*s %.*s: %.*s%s%.*s", TEXT_ARG(step->number), TEXT_ARG(step->name),
                              TEXT_ARG(what_changes(a, s)), s->why.len ? ": " : "", TEXT_ARG(s->why)),
                 CLI_WIDTH, 6);
    }
}

static text factor(arena *a, int64_t percent) {
    return arena_format(a, "%lld.%02lld", (long long)percent / 100, (long long)percent % 100);
}

void plan_text_pace(arena *a, const plan *p, buf *out) {
    if (!p->paces || p->paces->crew.steps == 0)
        return;
    const plan_pace *crew = &p->paces->crew;
    buf works = {0};
    for (uint32_t n = 0; n < p->paces->n_works; n++) {
        const plan_pace *it = &p->paces->works[n];
        text name = it->work == KIT_NONE ? TEXT("other work") : p->kit->works[it->work].name;
        buf_addf(&works, "%s%.*s %.*s", n ? ", " : "", TEXT_ARG(name), TEXT_ARG(factor(a, it->percent)));
    }
    wrap_add(out,
             arena_format(
                 a,
                 "Pace learned from %u step%s: %.*s times the kit's minutes (seen %.*s, thought %.*s); %.*s.",
                 (unsigned)crew->steps, crew->steps == 1 ? "" : "s", TEXT_ARG(factor(a, crew->percent)),
                 TEXT_ARG(factor(a, crew->seen_percent)), TEXT_ARG(factor(a, p->workshop->beginners_percent)),
                 TEXT_ARG(buf_text(&works))),
             CLI_WIDTH, 0);
    buf_free(&works);
}
