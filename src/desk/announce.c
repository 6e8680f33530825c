/* announce.c: what the crew was told: written to the journal, and read back for the plans after it. */
#include "desk/act.h"

/* "P1;P3" */
static text numbers_of(const desk *d, const plan_stretch *s) {
    buf b = {0};
    for (uint32_t k = 0; k < s->n_people; k++) {
        buf_add_z(&b, k ? ";" : "");
        buf_add(&b, d->workshop->crew[s->people[k]].number);
    }
    text all = arena_text(d->memory, buf_text(&b));
    buf_free(&b);
    return all;
}

static bool append_stretch(desk *d, const store_entry *stamp, const plan *p, const plan_step *step,
                           const plan_stretch *s, err *e) {
    const plan_session *on = &p->sessions[s->session];
    date_moment from = on->begins + (s->start_min - on->from_min);
    store_entry n = act_entry(stamp, STORE_ANNOUNCE);
    n.step = d->kit->steps[step->step].number;
    n.day = date_of_moment(from);
    n.minutes = from - (date_moment)n.day * MINUTES_PER_DAY;
    n.usable = s->end_min - s->start_min;
    n.people = numbers_of(d, s);
    if (s->supervisor != KIT_NONE)
        n.about = d->workshop->crew[s->supervisor].number;
    int64_t number;
    return store_append(d->file, &n, &number, e);
}

bool desk_announce(desk *d, const plan *p, desk_who who, uint32_t *n, err *e) {
    store_entry stamp;
    *n = 0;
    for (uint32_t k = 0; k < p->n_steps; k++)
        *n += p->steps[k].start_dated;
    if (*n == 0)
        return err_input(e, "plan", "see kitbench plan for what is in the way",
                         "no step is planned for a session with a date, so there is nothing to announce");
    if (!act_begin(d, who, &stamp, e))
        return false;
    bool ok = true;
    for (uint32_t k = 0; k < p->n_steps; k++)
        for (uint32_t s = 0; s < p->steps[k].n_stretches && ok; s++)
            if (p->sessions[p->steps[k].stretches[s].session].dated)
                ok = append_stretch(d, &stamp, p, &p->steps[k], &p->steps[k].stretches[s], e);
    return act_end(d, ok, e);
}

/* ---- reading -------------------------------------------------------------------------------------------------------- */

/* Somebody who left the crew since is no longer expected anywhere. */
static void take_people(const desk *d, text numbers, plan_told *t) {
    kit_index *list = arena_array(d->memory, kit_index, d->workshop->n_crew);
    text rest = numbers, one;
    while (numbers.len && text_next_piece(&rest, ';', &one)) {
        kit_index person = kit_find_person(d->workshop, one);
        if (person == KIT_NONE || t->n_people == d->workshop->n_crew)
            continue;
        uint32_t at = t->n_people++;
        for (; at > 0 && list[at - 1] > person; at--)
            list[at] = list[at - 1];
        list[at] = person;
    }
    t->people = list;
}

bool desk_load_announced(desk *d, err *e) {
    store_entry *list;
    size_t n;
    if (!store_read_announced(d->memory, d->file, &list, &n, e))
        return false;
    d->announced = arena_array(d->memory, plan_told, n);
    d->n_announced = 0;
    for (size_t k = 0; k < n && d->workshop; k++) {
        plan_told t = {.step = kit_find_step(d->kit, list[k].step),
                       .from = (date_moment)list[k].day * MINUTES_PER_DAY + list[k].minutes,
                       .minutes = (int32_t)list[k].usable,
                       .supervisor =
                           list[k].about.len ? kit_find_person(d->workshop, list[k].about) : KIT_NONE};
        if (t.step == KIT_NONE)
            continue;
        take_people(d, list[k].people, &t);
        d->announced[d->n_announced++] = t;
    }
    return true;
}
