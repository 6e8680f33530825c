/* state_page.c: the state of a build as one HTML page without scripts, to send or to put on a stick. No names in it. */
#include <inttypes.h>

#include "desk/desk.h"

typedef struct {
    const desk *d;
    const plan *p; /* NULL: not planned */
    buf *out;
} page;

static const char head[] =
    "<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
    "<style>\n"
    ":root { color-scheme: light dark; --ground: #fdfcf8; --ink: #171614; --quiet: #55524b; --accent: #8a2415; }\n"
    "@media (prefers-color-scheme: dark) { :root { --ground: #171614; --ink: #f0ede4; --quiet: #b5b0a3; --accent: "
    "#f0907f; } }\n"
    "body { background: var(--ground); color: var(--ink); font: 1rem/1.5 \"DejaVu Sans\", sans-serif; max-width: 60rem;"
    " margin: 0 auto; padding: 1rem; font-variant-numeric: tabular-nums; }\n"
    "h1, h2 { line-height: 1.2; border-top: 2px solid; padding-top: .5rem; }\n"
    "table { border-collapse: collapse; width: 100%; }\n"
    "th, td { text-align: start; vertical-align: top; padding: .25rem .75rem .25rem 0; border-bottom: 1px solid "
    "var(--quiet); }\n"
    "th { color: var(--quiet); font-weight: normal; }\n"
    "th[scope=row] { color: var(--accent); font-weight: bold; }\n"
    ".wide { overflow-x: auto; }\n"
    "</style>\n";

static void cell(page *g, text words) {
    buf_add_z(g->out, "<td>");
    buf_add_html(g->out, words);
}

static void row_head(page *g, text words) {
    buf_add_z(g->out, "<tr><th scope=\"row\">");
    buf_add_html(g->out, words);
}

static void begin_table(page *g, const char *title, const char *const *columns, size_t n) {
    buf_addf(
        g->out,
        "<h2>%s</h2>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"%s\"><table>\n<thead><tr>",
        title, title);
    for (size_t i = 0; i < n; i++)
        buf_addf(g->out, "<th scope=\"col\">%s", columns[i]);
    buf_add_z(g->out, "</thead>\n<tbody>\n");
}

static void end_table(page *g) {
    buf_add_z(g->out, "</tbody></table></div>\n");
}

static void add_list(page *g, const char *title, const desk_reasons *list) {
    if (!list->n)
        return;
    buf_addf(g->out, "<h2>%s</h2>\n<ul>\n", title);
    for (uint32_t i = 0; i < list->n; i++) {
        buf_add_z(g->out, "<li>");
        buf_add_html(g->out, list->list[i]);
        buf_add_z(g->out, "\n");
    }
    buf_add_z(g->out, "</ul>\n");
}

static void add_standing(page *g, const desk_standing *w) {
    const stock *s = g->d->stock;
    buf_addf(g->out, "<p>%u of %u boxes received, %u of %u rows counted, %u of %u steps done.",
             s->boxes_received, s->boxes, s->whole.counted, s->whole.rows, w->done, w->steps);
    if (w->session != KIT_NONE) {
        char starts[17];
        date_print_moment(w->session_starts, starts);
        buf_addf(g->out, " Next session: %s.", starts);
    }
    if (g->p && g->p->n_steps && g->p->finish_dated) {
        char finish[17];
        date_print_moment(g->p->finish, finish);
        buf_addf(g->out, " Planned to be finished: %s.", finish);
    }
    buf_add_z(g->out, "\n");
    add_list(g, "What stops us", &w->stops);
    add_list(g, "To do or to decide", &w->decide);
}

static void add_missing(page *g) {
    static const char *const columns[] = {"part", "what it is", "lacking", "promised"};
    const kit *k = g->d->kit;
    begin_table(g, "Missing", columns, sizeof columns / sizeof columns[0]);
    for (kit_index i = 0; i < k->n_parts; i++) {
        const stock_part *p = &g->d->stock->parts[i];
        if (!p->lacking)
            continue;
        row_head(g, k->parts[i].number);
        cell(g, k->parts[i].name);
        buf_addf(g->out, "<td>%" PRId64 "<td>", p->lacking);
        for (uint32_t j = 0; j < p->n_supplies; j++) {
            char day[11];
            date_print(p->supplies[j].day, day);
            buf_addf(g->out, "%s%" PRId64 " for %s", j ? ", " : "", p->supplies[j].quantity, day);
        }
        buf_add_z(g->out, p->n_supplies ? "\n" : "nothing\n");
    }
    end_table(g);
}

static void add_boxes(page *g) {
    static const char *const columns[] = {"box, bag", "what", "rows counted", "all right"};
    const kit *k = g->d->kit;
    begin_table(g, "Boxes and bags", columns, sizeof columns / sizeof columns[0]);
    for (kit_index i = 0; i < k->n_containers; i++) {
        const stock_container *c = &g->d->stock->containers[i];
        row_head(g, k->containers[i].number);
        cell(g, k->containers[i].name);
        buf_addf(g->out, "<td>%u of %u<td>%u\n", c->counted, c->rows, c->all_right);
    }
    end_table(g);
}

static void add_steps(page *g, date_moment now) {
    static const char *const columns[] = {"step", "what", "state", "why not now"};
    const kit *k = g->d->kit;
    desk_step_standing *list;
    uint32_t n = desk_steps(g->d, now, &list);
    begin_table(g, "Steps", columns, sizeof columns / sizeof columns[0]);
    for (uint32_t i = 0; i < n; i++) {
        const desk_step_standing *s = &list[i];
        row_head(g, k->steps[s->step].number);
        cell(g, k->steps[s->step].name);
        cell(g,
             s->ready ? TEXT("ready") : text_of(stock_state_word(g->d->stock->work->steps[s->step].state)));
        buf_add_z(g->out, "<td>");
        for (uint32_t j = 0; j < s->why.n; j++) {
            buf_add_z(g->out, j ? "; " : "");
            buf_add_html(g->out, s->why.list[j]);
        }
        buf_add_z(g->out, "\n");
    }
    end_table(g);
}

static void add_plan(page *g) {
    static const char *const columns[] = {"session", "when", "steps"};
    if (!g->p || !g->p->n_steps)
        return;
    begin_table(g, "The plan", columns, sizeof columns / sizeof columns[0]);
    for (uint32_t i = 0; i < g->p->n_sessions; i++) {
        const plan_session *s = &g->p->sessions[i];
        if (!s->dated && g->p->sessions[i].from_min >= g->p->makespan_min)
            continue; /* not needed */
        char begins[17] = "without a date";
        if (s->dated)
            date_print_moment(s->begins, begins);
        buf_addf(g->out, "<tr><th scope=\"row\">%" PRId64 "<td>%s<td>", s->number, begins);
        bool any = false;
        for (uint32_t j = 0; j < g->p->n_steps; j++) {
            const plan_step *step = &g->p->steps[j];
            if (step->session > i || step->last_session < i)
                continue;
            buf_add_z(g->out, any ? ", " : "");
            buf_add_html(g->out, g->d->kit->steps[step->step].number);
            any = true;
        }
        buf_add_z(g->out, any ? "\n" : "free\n");
    }
    end_table(g);
}

void desk_state_page(const desk *d, const plan *p, date_moment now, buf *out) {
    page g = {d, p, out};
    desk_standing standing;
    char changed[17];
    desk_stand(d, now, &standing);
    date_print_moment(d->changed, changed);
    buf_add_z(out, "<!doctype html>\n<html lang=\"en\">\n<title>");
    buf_add_html(out, d->kit->name);
    buf_addf(out, "</title>\n%s<h1>", head);
    buf_add_html(out, d->kit->name);
    buf_add_z(out, "</h1>\n<p>");
    buf_add_html(out, d->kit->serial);
    buf_addf(out, ", as of %s. This page is a picture of that moment; it does not change.\n", changed);
    add_standing(&g, &standing);
    add_missing(&g);
    add_plan(&g);
    add_steps(&g, now);
    add_boxes(&g);
    buf_add_z(out, "<p>The kit maker’s manual and local rules come first.\n</html>\n");
}
