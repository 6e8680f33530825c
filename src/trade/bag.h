/* bag.h: a bag that weighs too much or too little: what would explain it?
 *
 * Every combination of up to BAG_CHANGES missing or extra pieces is tried (a swap is one missing and one extra), and kept
 * when its mass explains the difference within the scale's error and the pieces' own tolerances. Exact: no combination
 * within the limit is left out. Ranked by likelihood: how well the mass fits, and that each further wrong piece is rarer
 * (prior below). The answer is often that it cannot be told: a whole box on a coarse scale fits thousands of stories.
 *
 * Prior: a piece is missing with 1 in 100, extra with 1 in 300 (common practice, no source); the caller may set others.
 */
#ifndef TRADE_BAG_H
#define TRADE_BAG_H

#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

enum { BAG_CHANGES = 4, BAG_KEPT = 20, BAG_PARTS_MAX = 400 };

typedef struct {
    double mass_mg;
    double sd_mg; /* of one piece; 0.01 x mass is usual for metal parts */
    int32_t expected;
} bag_part;

typedef struct {
    const bag_part *parts;
    uint32_t n_parts;
    double measured_mg;              /* net of packing */
    double scale_sd_mg;              /* of the net figure: both readings */
    double packing_sd_mg;            /* doubt about the packing's own mass, 0 when it was weighed */
    int changes_most;                /* 1..BAG_CHANGES */
    double missing_odds, extra_odds; /* 0: the defaults */
} bag_problem;

typedef struct {
    uint32_t part[BAG_CHANGES];
    int32_t delta[BAG_CHANGES]; /* pieces: -1 missing, +1 extra; 0 ends the list */
    double misfit_sd;           /* what is left unexplained, in standard deviations */
    double chance;              /* among all explanations within the limit */
} bag_story;

typedef enum {
    BAG_AS_LISTED,   /* nothing wrong is the likeliest by far */
    BAG_ONE_STORY,   /* one explanation is likelier than all others together */
    BAG_FEW_STORIES, /* BAG_KEPT or fewer fit: look at these parts first */
    BAG_CANNOT_TELL, /* too many fit */
    BAG_NO_STORY     /* none within the limit: more is wrong, or the packing or the masses are */
} bag_verdict;

typedef struct {
    bag_verdict verdict;
    double difference_mg; /* measured - expected */
    double sd_mg;         /* of the difference if all is as listed */
    uint64_t fitting;     /* combinations that fit within 3 sd, "nothing wrong" among them */
    uint64_t tried;
    bag_story *stories; /* likeliest first; in the arena */
    uint32_t n_stories;
} bag_answer;

/* Refuses NAN and masses out of range, more than BAG_PARTS_MAX parts, and problems of more than 20 million combinations
 * (ask for fewer changes, or weigh bag by bag). */
MUST_USE bool bag_explain(arena *a, const bag_problem *p, bag_answer *out, err *e);

#endif
