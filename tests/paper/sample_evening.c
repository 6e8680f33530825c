#include "sample_evening.h"

static const char *const names[] = {"Ada (leader)", "Bertil", "Çağla",  "שׁמואל",
                                    "Ewa",          "Fox",    "Grille", "Heiðrún Þorláksdóttir"};
enum { CREW = 8 };

static const kit_workshop *sample_workshop(arena *a) {
    kit_workshop *w = arena_new(a, kit_workshop);
    w->name = TEXT("Club workshop");
    w->minimum_adults = 1;
    w->beginners_percent = 150;
    w->wanted_day = INT32_MAX;
    w->n_crew = CREW;
    w->crew = arena_array(a, kit_person, CREW);
    for (uint32_t i = 0; i < CREW; i++)
        w->crew[i] = (kit_person){.number = arena_format(a, "p%u", i + 1),
                                  .name = text_of(names[i]),
                                  .adult = i < 3,
                                  .leader = i == 0};
    w->n_sessions = 1;
    w->sessions = arena_array(a, kit_session, 1);
    w->sessions[0] = (kit_session){.number = 1,
                                   .day = date_from_civil((date_civil){2027, 5, 14}),
                                   .start = 18 * 60 + 30,
                                   .end = 20 * 60 + 30,
                                   .opening_min = 10,
                                   .closing_min = 10};
    w->n_attendance = 2;
    w->attendance = arena_array(a, kit_attendance, 2);
    w->attendance[0] = (kit_attendance){.session = 0, .person = 7, .from = -1, .until = -1};
    w->attendance[1] =
        (kit_attendance){.session = 0, .person = 6, .comes = true, .from = -1, .until = 19 * 60 + 45};
    return w;
}

static plan_stretch stretch(arena *a, uint32_t session, int32_t from, int32_t to, kit_index first, uint32_t n,
                            kit_index supervisor) {
    kit_index *people = arena_array(a, kit_index, n);
    for (uint32_t i = 0; i < n; i++)
        people[i] = first + i;
    return (plan_stretch){.session = session,
                          .start_min = from,
                          .end_min = to,
                          .people = people,
                          .n_people = n,
                          .supervisor = supervisor};
}

static plan_step step_of(arena *a, kit_index step, plan_stretch first, const plan_stretch *second) {
    plan_stretch *list = arena_array(a, plan_stretch, 2);
    list[0] = first;
    if (second)
        list[1] = *second;
    const plan_stretch *last = second ? second : &list[0];
    return (plan_step){.step = step,
                       .start_min = first.start_min,
                       .end_min = last->end_min,
                       .session = first.session,
                       .last_session = last->session,
                       .stretches = list,
                       .n_stretches = second ? 2 : 1,
                       .slack_min = step == 0 ? 15 : 0,
                       .decides_finish = step != 0};
}

const plan *sample_plan(arena *a, const kit *k) {
    plan *p = arena_new(a, plan);
    p->kit = k;
    p->workshop = sample_workshop(a);
    p->status = PLAN_FEASIBLE;
    p->n_sessions = 2;
    p->sessions = arena_array(a, plan_session, 2);
    date_moment begins = (date_moment)p->workshop->sessions[0].day * MINUTES_PER_DAY + 1120; /* 18:40 */
    const date_moment week = INT64_C(7) * MINUTES_PER_DAY;
    p->sessions[0] = (plan_session){
        .number = 1, .session = 0, .dated = true, .to_min = 100, .begins = begins, .ends = begins + 100};
    p->sessions[1] = (plan_session){.number = 2,
                                    .session = KIT_NONE,
                                    .from_min = 100,
                                    .to_min = 200,
                                    .begins = begins + week,
                                    .ends = begins + week + 100};
    p->n_steps = 4;
    p->steps = arena_array(a, plan_step, 4);
    plan_stretch later = stretch(a, 0, 70, 90, 5, 1, KIT_NONE), second = stretch(a, 1, 100, 130, 1, 2, 0);
    p->steps[0] = step_of(a, 0, stretch(a, 0, 0, 45, 3, 2, KIT_NONE), NULL);
    p->steps[1] = step_of(a, 1, stretch(a, 0, 0, 50, 5, 2, 1), NULL);
    p->steps[2] = step_of(a, 2, stretch(a, 0, 50, 70, 4, 2, KIT_NONE), &later);
    p->steps[3] = step_of(a, 3, stretch(a, 0, 55, 100, 1, 2, 0), &second);
    p->makespan_min = 130;
    return p;
}
