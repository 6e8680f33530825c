/* lifting.h: what healthy adults may lift, by two published rules; nobody else.
 *
 * 1. The revised equation of NIOSH (publication 94-110): RWL = 23 kg x HM VM DM AM FM CM, with
 *      HM = 25/H   VM = 1 - 0.003 |V - 75|   DM = 0.82 + 4.5/D   AM = 1 - 0.0032 A   (cm, degrees; tables for FM and CM)
 *    for two-handed, smooth, unhurried lifting, dry hands, good footing, no carrying of more than a step or two.
 * 2. The risk filter of HSE INDG143: a mass for each height and reach, for men and for women, up to about 30 lifts an hour.
 *    Two people together: two thirds of the sum of what each may lift; three: half of the sum (HSE L23).
 *
 * For minors no figure is given: bones and joints still grow, strength differs widely, and employers must assess each
 * young person. The functions refuse. The same holds for pregnancy, injuries, and loads that move, are hot or have no
 * grip: these figures know nothing of them.
 */
#ifndef TRADE_LIFTING_H
#define TRADE_LIFTING_H

#include "base/err.h"

typedef enum {
    PERSON_ANY_ADULT,
    PERSON_MAN,
    PERSON_WOMAN,
    PERSON_MINOR
} lifting_person; /* any: the lower of the two */

typedef enum { GRIP_GOOD, GRIP_FAIR, GRIP_POOR } lifting_grip; /* handles; finger hold or loose parts; none */

typedef struct {
    double load_kg;
    double reach_cm;      /* H: from between the ankles to the hands, 25 to 63; less counts as 25 */
    double height_cm;     /* V: hands above the floor, 0 to 175 */
    double travel_cm;     /* D: how far up or down, 0 to 175; less than 25 counts as 25 */
    double twist_degrees; /* A: 0 to 135 */
    double lifts_per_min; /* 0 to 15; below 0.2 counts as 0.2 */
    double hours;         /* of such work, above 0 to 8 */
    lifting_grip grip;
    lifting_person person;
} lift;

typedef struct {
    double hm, vm, dm, am, fm, cm;
    double limit_kg; /* recommended weight limit; 0: too often, do not lift so */
    double index;    /* load / limit; above 1 the risk grows */
} lift_answer;

/* Refuses minors, NAN and everything outside the ranges above. */
MUST_USE bool lifting_limit(const lift *l, lift_answer *out, err *e);

typedef enum {
    HEIGHT_SHOULDER,
    HEIGHT_ELBOW,
    HEIGHT_KNUCKLE,
    HEIGHT_KNEE,
    HEIGHT_FLOOR,
    HEIGHT_COUNT
} lifting_height;
const char *lifting_height_name(lifting_height height);

/* Guideline mass for one adult, kg: from shoulder up, elbow to shoulder, knuckle to elbow, mid lower leg to knuckle, below. */
MUST_USE bool lifting_guideline(lifting_person person, lifting_height height, bool arms_out, double *kg,
                                err *e);

typedef struct {
    int people;      /* 1 to 3; 0: more than three, use a hoist, a trolley or split the load */
    double team_kg;  /* what that many may lift together */
    double alone_kg; /* what one may */
} lift_team;

/* How many adults for a mass that all can grip; 0.1 to 500 kg. */
MUST_USE bool lifting_team(double mass_kg, lifting_person person, lifting_height height, bool arms_out,
                           lift_team *out, err *e);

/* What must stand beside every figure. */
extern const char lifting_caution[];

#endif
