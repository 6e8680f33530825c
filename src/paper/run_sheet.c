/* run_sheet.c: one session on paper, to hang beside the door. */
#include "paper/book.h"
#include "paper/facts.h"
#include "paper/masthead.h"
#include "paper/run.h"
#include "paper/wording.h"

static void draw_masthead(const run *r, sheet *s) {
    const kit_workshop *w = r->plan->workshop;
    masthead m = {.kind = "RUN SHEET", .corner = w->name};
    long long number = (long long)r->session->number;
    if (r->session->dated) {
        const kit_session *session = &w->sessions[r->session->session];
        char from[6], to[6];
        date_print_clock(session->start, from);
        date_print_clock(session->end, to);
        m.title = wording_day(r->memory, session->day);
        m.subtitle = arena_format(r->memory, "session %lld, %s to %s; work from %.*s to %.*s", number, from,
                                  to, TEXT_ARG(run_clock(r, r->session->from_min)),
                                  TEXT_ARG(run_clock(r, r->session->to_min)));
    } else {
        m.title = arena_format(r->memory, "Session %lld", number);
        m.subtitle = TEXT("no date yet; times count from the session's begin");
    }
    masthead_draw(s, &m);
}

/* Names of the crew that `wanted` picks, with commas. */
static text names_of(const run *r, bool here, bool adults_only) {
    const kit_workshop *w = r->plan->workshop;
    buf b = {0};
    for (uint32_t i = 0; i < w->n_crew; i++) {
        int from, until;
        if (run_comes(r, i, &from, &until) == here && (w->crew[i].adult || !adults_only))
            buf_addf(&b, "%s%.*s", b.len ? ", " : "", TEXT_ARG(run_person(r, i)));
    }
    text t = b.len ? arena_text(r->memory, buf_text(&b)) : TEXT("nobody");
    buf_free(&b);
    return t;
}

static void draw_facts(const run *r, sheet *s) {
    const kit_workshop *w = r->plan->workshop;
    int here = 0;
    for (uint32_t i = 0; i < w->n_crew; i++) {
        int from, until;
        here += run_comes(r, i, &from, &until);
    }
    fact facts[] = {
        {.label = "people here", .value = arena_format(r->memory, "%d", here)},
        {.label = "adults here", .value = names_of(r, true, true)},
        {.label = "not here", .value = names_of(r, false, false)},
        {.label = "steps", .value = arena_format(r->memory, "%u", r->n_steps)},
    };
    static const double shares[] = {16, 42, 30, 12};
    facts_draw(s, facts, shares, 4);
    s->y += 10;
}

/* The last minutes: what is always done. */
static void draw_closing(const run *r, sheet *s) {
    static const char *const items[] = {
        "half-built units stand in their safe state and carry their tag",
        "tools are counted and back in their places",
        "every tub is counted; what was dropped is found or written down",
        "finished steps are ticked here, their cards signed, their minutes written down",
    };
    type_style style = {.size = TYPE_BODY, .colour = INK_BLACK};
    heading_draw(s, "Closing", 64);
    for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
        sheet_tick(s, s->left, s->y + 1.5, 9);
        sheet_paragraph(s, text_of(items[i]), style, s->left + 16, sheet_width(s) - 16);
        s->y += 3;
    }
    (void)r;
    s->y += 4;
    masthead_defer(s, "Whoever sees a danger stops the work and calls an adult.");
}

static void compose(sheet *s, const void *what) {
    const run *r = what;
    draw_masthead(r, s);
    draw_facts(r, s);
    run_draw_lanes(r, s);
    if (r->n_steps == 0) {
        heading_draw(s, "No work is planned for this session.", 0);
        return;
    }
    run_draw_times(r, s);
    run_draw_cautions(r, s);
    run_draw_wear(r, s);
    run_draw_tests(r, s);
    run_draw_tools(r, s);
    draw_closing(r, s);
}

static void collect_step(run *r, const plan_step *p) {
    run_step step = {.planned = p};
    step.stretches = arena_array(r->memory, const plan_stretch *, p->n_stretches);
    for (uint32_t i = 0; i < p->n_stretches; i++) {
        if (p->stretches[i].session == r->index)
            step.stretches[step.n++] = &p->stretches[i];
    }
    if (step.n == 0)
        return;
    step.began = p->stretches[0].session < r->index;
    step.goes_on = p->last_session > r->index;
    uint32_t at = r->n_steps++;
    for (; at > 0 && r->steps[at - 1].stretches[0]->start_min > step.stretches[0]->start_min; at--)
        r->steps[at] = r->steps[at - 1];
    r->steps[at] = step;
}

bool paper_run_sheet(arena *a, const paper_setup *setup, const plan *p, uint32_t session, buf *pdf,
                     paper_notes *notes, err *e) {
    if (session >= p->n_sessions)
        return err_input(e, "session", "see kitbench plan for the sessions", "the plan has no such session");
    run r = {.memory = a, .plan = p, .session = &p->sessions[session], .index = session};
    r.steps = arena_array(a, run_step, p->n_steps);
    for (uint32_t i = 0; i < p->n_steps; i++)
        collect_step(&r, &p->steps[i]);
    book *to;
    text name = arena_format(a, "Run sheet of session %lld", (long long)r.session->number);
    text title = arena_format(a, "%.*s: %.*s", TEXT_ARG(name), TEXT_ARG(p->kit->name));
    if (!book_open(a, setup, title, wording_kit(a, p->kit), pdf, &to, e))
        return false;
    book_add(to, &(book_section){.outline = name, .running = name, .compose = compose, .what = &r});
    return book_close(to, notes, e);
}
