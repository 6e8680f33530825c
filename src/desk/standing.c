/* standing.c: where the build stands: what is done, what can be begun, what holds it up, what to decide today. */
#include "desk/reasons.h"

#include <stdio.h>

#define NUMBER(step) TEXT_ARG(d->kit->steps[step].number)

uint32_t desk_steps(const desk *d, date_moment now, desk_step_standing **out) {
    const kit_index *order = kit_build_order(d->memory, d->kit);
    *out = arena_array(d->memory, desk_step_standing, d->kit->n_steps);
    for (kit_index i = 0; i < d->kit->n_steps; i++) {
        desk_step_standing *s = &(*out)[i];
        stock_step_state state = d->stock->work->steps[order[i]].state;
        s->step = order[i];
        if (state == STOCK_DONE)
            may_follow(d, s->step, &s->why);
        else if (state != STOCK_RUNNING)
            may_begin(d, s->step, now, &s->why);
        s->ready = state != STOCK_DONE && state != STOCK_RUNNING && !s->why.n;
    }
    return d->kit->n_steps;
}

static void sum_steps(const desk *d, date_moment now, desk_standing *out) {
    desk_step_standing *list;
    out->steps = desk_steps(d, now, &list);
    for (uint32_t i = 0; i < out->steps; i++) {
        const kit_step *s = &d->kit->steps[list[i].step];
        stock_step_state state = d->stock->work->steps[list[i].step].state;
        int64_t minutes = s->likely_min * s->people;
        out->minutes += minutes;
        out->minutes_done += state == STOCK_DONE ? minutes : 0;
        out->done += state == STOCK_DONE;
        out->running += state == STOCK_RUNNING;
        out->ready += list[i].ready;
    }
}

static void find_session(const desk *d, date_moment now, desk_standing *out) {
    out->session = KIT_NONE;
    for (kit_index i = 0; d->workshop && i < d->workshop->n_sessions; i++) {
        const kit_session *s = &d->workshop->sessions[i];
        date_moment midnight = (date_moment)s->day * MINUTES_PER_DAY;
        if (s->cancelled || now >= midnight + s->end)
            continue;
        out->session = i;
        out->session_starts = midnight + s->start;
        return;
    }
}

/* ---- what holds it up ---- */

static void add_stops(const desk *d, desk_standing *out) {
    for (uint32_t i = 0; i < d->stock->n_stops; i++) {
        const stock_stop *s = &d->stock->stops[i];
        reasons_add(d, &out->stops, "%.*s lacks %lld of %.*s %.*s", NUMBER(s->step), (long long)s->missing,
                    TEXT_ARG(d->kit->parts[s->part].number), TEXT_ARG(d->kit->parts[s->part].name));
    }
    for (kit_index i = 0; i < d->kit->n_steps; i++) {
        const stock_step *s = &d->stock->work->steps[i];
        if (s->state == STOCK_BLOCKED)
            reasons_add(d, &out->stops, "%.*s is blocked: %.*s", NUMBER(i), TEXT_ARG(s->note));
        else if (s->state == STOCK_DONE)
            may_follow(d, i, &out->stops);
    }
}

/* ---- what to decide ---- */

static void decide_counts(const desk *d, desk_reasons *list) {
    if (d->stock->boxes && !d->stock->whole.received)
        reasons_add(d, list, "%u of %u boxes are not received", d->stock->boxes - d->stock->boxes_received,
                    d->stock->boxes);
    for (uint32_t i = 0; i < d->stock->n_recheck; i++)
        reasons_add(d, list, "count %.*s again: it may be a swap",
                    TEXT_ARG(place_of_row(d->memory, d->kit, d->stock->recheck[i])));
}

static void decide_chase(const desk *d, date_day today, desk_reasons *list) {
    desk_chased *all;
    uint32_t n = desk_chase(d, today, &all), not_asked = 0;
    char until[32] = "", day[11];
    for (uint32_t i = 0; i < n; i++) {
        const desk_chased *c = &all[i];
        not_asked += c->state == DESK_NOT_ASKED;
        if (c->state == DESK_OVERDUE)
            reasons_add(d, list, "%.*s %.*s was promised and is overdue: ask where it is",
                        TEXT_ARG(d->kit->parts[c->part].number), TEXT_ARG(d->kit->parts[c->part].name));
    }
    if (d->stock->report_by != INT32_MAX) {
        date_print(d->stock->report_by, day);
        snprintf(until, sizeof until, " until %s", day);
    }
    if (not_asked)
        reasons_add(d, list, "ask the maker for %u part%s that lack%s%s", not_asked,
                    not_asked == 1 ? "" : "s", not_asked == 1 ? "s" : "", until);
}

static void decide_second_counts(const desk *d, desk_reasons *list) {
    desk_second_count *all;
    uint32_t n = desk_second_counts(d, &all);
    for (uint32_t i = 0; i < n; i++)
        if (!all[i].agree)
            reasons_add(d, list, "two pairs counted %.*s differently: count it together",
                        TEXT_ARG(place_of_row(d->memory, d->kit, all[i].count->row)));
}

static void decide_batteries(const desk *d, date_day today, desk_reasons *list) {
    desk_battery *all;
    uint32_t n = desk_batteries(d, &all);
    for (uint32_t i = 0; i < n; i++)
        if (all[i].top_up <= today)
            reasons_add(d, list, "top up battery %lld of %.*s, attended and ventilated",
                        (long long)all[i].piece,
                        TEXT_ARG(d->kit->parts[d->kit->rows[all[i].row].part].number));
}

static void decide_boxes_out(const desk *d, date_moment now, desk_reasons *list) {
    for (uint32_t i = 0; i < d->record.n_holds && session_at(d->workshop, now) == KIT_NONE; i++) {
        const stock_hold *h = &d->record.holds[i];
        reasons_add(d, list, "%.*s is not back where it came from%s%.*s",
                    TEXT_ARG(d->kit->containers[h->container].number),
                    h->place.len ? ": it was taken to " : "", TEXT_ARG(h->place));
    }
}

void desk_stand(const desk *d, date_moment now, desk_standing *out) {
    *out = (desk_standing){0};
    sum_steps(d, now, out);
    find_session(d, now, out);
    add_stops(d, out);
    decide_chase(d, date_of_moment(now), &out->decide);
    decide_second_counts(d, &out->decide);
    decide_counts(d, &out->decide);
    decide_batteries(d, date_of_moment(now), &out->decide);
    decide_boxes_out(d, now, &out->decide);
}
