/* check_workshop.c: is the workshop's own side right? */
#include "kit/inside.h"

static bool faulty(const kit_checker *c, const char *table, uint32_t i) {
    return kit_workshop_state(c->workshop, table)->faulty[i];
}

static text clock_text(const kit_checker *c, int minutes) {
    char clock[6];
    date_print_clock(minutes, clock);
    return arena_text(c->memory, text_of(clock));
}

static void check_length(kit_checker *c, const kit_session *s) {
    if (s->end <= s->start)
        fault_add(c->faults, kit_workshop_place(c, "sessions", s->row, "end"), "correct one of the two",
                  "the session ends at %.*s, but starts at %.*s", TEXT_ARG(clock_text(c, s->end)),
                  TEXT_ARG(clock_text(c, s->start)));
    else if (s->opening_min + s->closing_min >= s->end - s->start)
        fault_add(c->faults, kit_workshop_place(c, "sessions", s->row, "opening_min"),
                  "lower opening_min or closing_min, or end later",
                  "opening and closing take %lld min of a session of %d min",
                  (long long)s->opening_min + (long long)s->closing_min, s->end - s->start);
}

static void check_sessions(kit_checker *c) {
    const kit_session *before = NULL;
    for (uint32_t i = 0; i < c->workshop->n_sessions; i++) {
        const kit_session *s = &c->workshop->sessions[i];
        if (faulty(c, "sessions", i))
            continue;
        check_length(c, s);
        if (before && s->day < before->day)
            fault_add(c->faults, kit_workshop_place(c, "sessions", s->row, "date"),
                      "put the sessions in the order of time",
                      "session %lld is before session %lld of the row above", (long long)s->number,
                      (long long)before->number);
        else if (before && s->day == before->day && s->start < before->end)
            fault_add(c->faults, kit_workshop_place(c, "sessions", s->row, "start"),
                      "let one begin after the other ends",
                      "session %lld starts at %.*s, but session %lld ends at %.*s", (long long)s->number,
                      TEXT_ARG(clock_text(c, s->start)), (long long)before->number,
                      TEXT_ARG(clock_text(c, before->end)));
        before = s;
    }
}

static void check_attendance(kit_checker *c, const kit_attendance *a) {
    const kit_session *s = &c->workshop->sessions[a->session];
    if (!a->comes) {
        if (a->from >= 0 || a->until >= 0)
            fault_add(c->faults, kit_workshop_place(c, "attendance", a->row, a->from >= 0 ? "from" : "until"),
                      "leave the times empty, or write yes in comes",
                      "there is a time, but the person does not come");
        return;
    }
    int from = a->from >= 0 ? a->from : s->start, until = a->until >= 0 ? a->until : s->end;
    if (from < s->start || from >= s->end)
        fault_add(c->faults, kit_workshop_place(c, "attendance", a->row, "from"),
                  "write a time inside the session", "%.*s is not inside session %lld, %.*s to %.*s",
                  TEXT_ARG(clock_text(c, from)), (long long)s->number, TEXT_ARG(clock_text(c, s->start)),
                  TEXT_ARG(clock_text(c, s->end)));
    else if (until <= from || until > s->end)
        fault_add(c->faults, kit_workshop_place(c, "attendance", a->row, "until"),
                  "write a later time inside the session",
                  "%.*s is not between %.*s and the end of session %lld, %.*s",
                  TEXT_ARG(clock_text(c, until)), TEXT_ARG(clock_text(c, from)), (long long)s->number,
                  TEXT_ARG(clock_text(c, s->end)));
}

static void check_crew(kit_checker *c) {
    const kit_workshop *w = c->workshop;
    int64_t adults = 0;
    for (uint32_t i = 0; i < w->n_crew; i++) {
        const kit_person *p = &w->crew[i];
        adults += p->adult;
        if (!faulty(c, "crew", i) && !p->adult && p->supervises.n)
            fault_add(c->faults, kit_workshop_place(c, "crew", p->row, "supervises"),
                      "leave the cell empty; only adults supervise", "\"%.*s\" is not an adult",
                      TEXT_ARG(p->number));
    }
    const kit_table_state *crew = kit_workshop_state(w, "crew"), *shop = kit_workshop_state(w, "workshop");
    bool whole = !crew->damaged && !shop->damaged && shop->n == 1 && !shop->faulty[0];
    for (uint32_t i = 0; whole && i < crew->n; i++)
        whole = !crew->faulty[i];
    if (whole && adults < w->minimum_adults)
        fault_add(c->faults, kit_workshop_place(c, "workshop", w->row, "minimum_adults"), "find more adults",
                  "%lld adult%s must be in the room, the crew has %lld", (long long)w->minimum_adults,
                  w->minimum_adults == 1 ? "" : "s", (long long)adults);
}

static void check_workplaces(kit_checker *c) {
    for (uint32_t i = 0; i < c->workshop->n_workplaces; i++) {
        const kit_owned *o = &c->workshop->workplaces[i];
        if (faulty(c, "workplaces", i) || c->kit->zones[o->what].kind == KIT_WORKPLACE)
            continue;
        fault_add(c->faults, kit_workshop_place(c, "workplaces", o->row, "zone"),
                  "remove the row; only workplaces are the workshop's",
                  "\"%.*s\" is a side of the main machine, not a workplace",
                  TEXT_ARG(c->kit->zones[o->what].number));
    }
}

void kit_check_workshop(kit_checker *c) {
    check_crew(c);
    check_sessions(c);
    for (uint32_t i = 0; i < c->workshop->n_attendance; i++)
        if (!faulty(c, "attendance", i) && !faulty(c, "sessions", c->workshop->attendance[i].session))
            check_attendance(c, &c->workshop->attendance[i]);
    check_workplaces(c);
}
