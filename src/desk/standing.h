/* standing.h: where the build stands, and each of its steps; part of desk.h, which includes it. */
#ifndef DESK_STANDING_H
#define DESK_STANDING_H

typedef struct {
    kit_index step;
    bool ready; /* it can be started or gone on with, given the people */
    desk_reasons
        why; /* what speaks against it, whoever does it; of a done step: tests that are not as they must be */
} desk_step_standing;

/* Every step in build order; in the desk's arena. Returns how many. */
uint32_t desk_steps(const struct desk *d, date_moment now, desk_step_standing **out);

typedef struct {
    uint32_t steps, done, running, ready;
    int64_t minutes, minutes_done; /* of all and of the done steps: people times the kit's likely minutes */
    kit_index session;             /* that is on or comes next; KIT_NONE: no dated one is left */
    date_moment session_starts;
    desk_reasons stops;  /* what holds work up: steps without pieces, blocked ones, hold points */
    desk_reasons decide; /* what to do or decide today, the most urgent first */
} desk_standing;

/* The stock's own numbers (rows counted, boxes received) stand in d->stock->whole. */
void desk_stand(const struct desk *d, date_moment now, desk_standing *out);

#endif
