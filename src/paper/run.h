/* run.h: tonight's run sheet in pieces; run_sheet.c puts them together. */
#ifndef PAPER_RUN_H
#define PAPER_RUN_H

#include "paper/sheet.h"

/* A plan's step as far as it is worked at in the session. */
typedef struct {
    const plan_step *planned;
    const plan_stretch **stretches; /* those of the session */
    uint32_t n;
    bool goes_on; /* after the session */
    bool began;   /* in an earlier one */
} run_step;

typedef struct {
    arena *memory;
    const plan *plan;
    const plan_session *session;
    uint32_t index;
    run_step *steps; /* by their first minute of the session */
    uint32_t n_steps;
} run;

/* "18:40", or minutes from the session's begin when it has no date: "0:25". */
text run_clock(const run *r, int32_t minute);

/* The session's whole time as minutes after midnight, opening and closing included. */
void run_span(const run *r, int *from, int *to);

/* True when the person comes at all; from and until get what was said, or -1. */
bool run_comes(const run *r, kit_index person, int *from, int *until);

text run_person(const run *r, kit_index person);

/* "Ada, Bo; beside them: Cy" of a stretch */
text run_people(const run *r, const plan_stretch *s);

void run_draw_lanes(const run *r, sheet *s);
void run_draw_times(const run *r, sheet *s);
void run_draw_wear(const run *r, sheet *s);
void run_draw_tools(const run *r, sheet *s);
void run_draw_cautions(const run *r, sheet *s);
void run_draw_tests(const run *r, sheet *s);

#endif
