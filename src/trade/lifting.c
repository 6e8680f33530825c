#include "trade/lifting.h"

#include <math.h>

const char lifting_caution[] =
    "For healthy adults who are used to it; a guide, not a promise. The kit maker's manual and local rules come first. "
    "Look at the way before you lift, keep the load close, do not twist; put it down rather than hold on.";

static bool refuse_minor(err *e) {
    return err_input(e, "lifting", "let adults lift, or use a trolley or hoist",
                     "no figure is given for minors: they are still growing and each one differs");
}

/* FM of NIOSH 94-110, table 5: by lifts per minute; columns up to 1 h, up to 2 h, up to 8 h; low: hands below 75 cm. */
typedef struct {
    double lifts;
    double low[3], high[3];
} frequency_row;

static const frequency_row frequencies[] = {
    {0.2, {1.00, 0.95, 0.85}, {1.00, 0.95, 0.85}}, {0.5, {0.97, 0.92, 0.81}, {0.97, 0.92, 0.81}},
    {1, {0.94, 0.88, 0.75}, {0.94, 0.88, 0.75}},   {2, {0.91, 0.84, 0.65}, {0.91, 0.84, 0.65}},
    {3, {0.88, 0.79, 0.55}, {0.88, 0.79, 0.55}},   {4, {0.84, 0.72, 0.45}, {0.84, 0.72, 0.45}},
    {5, {0.80, 0.60, 0.35}, {0.80, 0.60, 0.35}},   {6, {0.75, 0.50, 0.27}, {0.75, 0.50, 0.27}},
    {7, {0.70, 0.42, 0.22}, {0.70, 0.42, 0.22}},   {8, {0.60, 0.35, 0.18}, {0.60, 0.35, 0.18}},
    {9, {0.52, 0.30, 0.00}, {0.52, 0.30, 0.15}},   {10, {0.45, 0.26, 0.00}, {0.45, 0.26, 0.13}},
    {11, {0.41, 0.00, 0.00}, {0.41, 0.23, 0.00}},  {12, {0.37, 0.00, 0.00}, {0.37, 0.21, 0.00}},
    {13, {0.00, 0.00, 0.00}, {0.34, 0.00, 0.00}},  {14, {0.00, 0.00, 0.00}, {0.31, 0.00, 0.00}},
    {15, {0.00, 0.00, 0.00}, {0.28, 0.00, 0.00}},
};

enum { N_FREQUENCIES = sizeof frequencies / sizeof *frequencies };

/* Between rows the table is read along a straight line. */
static double frequency_multiplier(double lifts, double hours, bool low) {
    int column = hours <= 1 ? 0 : hours <= 2 ? 1 : 2;
    if (lifts <= frequencies[0].lifts)
        return frequencies[0].high[column];
    for (size_t i = 1; i < N_FREQUENCIES; i++) {
        const frequency_row *a = &frequencies[i - 1], *b = &frequencies[i];
        if (lifts > b->lifts)
            continue;
        double before = low ? a->low[column] : a->high[column],
               after = low ? b->low[column] : b->high[column];
        if (after == 0)
            return lifts == a->lifts ? before : 0;
        return before + (after - before) * (lifts - a->lifts) / (b->lifts - a->lifts);
    }
    return 0;
}

static double grip_multiplier(lifting_grip grip, bool low) {
    return grip == GRIP_GOOD ? 1 : grip == GRIP_POOR ? 0.90 : low ? 0.95 : 1;
}

static bool within(double value, double least, double most) {
    return value >= least && value <= most;
}

static bool check_lift(const lift *l, err *e) {
    static const char place[] = "lifting";
    if (l->person == PERSON_MINOR)
        return refuse_minor(e);
    if (!within(l->load_kg, 0.1, 500))
        return err_input(e, place, "give the mass in kg", "the load must be from 0.1 to 500 kg");
    if (!within(l->reach_cm, 0, 63))
        return err_input(e, place, "step closer",
                         "with the hands farther than 63 cm from the ankles do not lift");
    if (!within(l->height_cm, 0, 175) || !within(l->travel_cm, 0, 175))
        return err_input(e, place, "use a lower shelf or two lifts",
                         "heights and travel must be from 0 to 175 cm");
    if (!within(l->twist_degrees, 0, 135))
        return err_input(e, place, "move the feet instead", "a twist must be from 0 to 135 degrees");
    if (!within(l->lifts_per_min, 0, 15) || !(l->hours > 0 && l->hours <= 8))
        return err_input(e, place, "lift less often, take breaks",
                         "at most 15 lifts a minute and 8 hours are covered");
    if ((unsigned)l->grip > GRIP_POOR)
        return err_input(e, place, "say good, fair or poor", "the grip is not known");
    return true;
}

bool lifting_limit(const lift *l, lift_answer *out, err *e) {
    if (!check_lift(l, e))
        return false;
    bool low = l->height_cm < 75;
    double reach = l->reach_cm < 25 ? 25 : l->reach_cm, travel = l->travel_cm < 25 ? 25 : l->travel_cm;
    lift_answer a = {.hm = 25 / reach,
                     .vm = 1 - 0.003 * fabs(l->height_cm - 75),
                     .dm = 0.82 + 4.5 / travel,
                     .am = 1 - 0.0032 * l->twist_degrees,
                     .fm = frequency_multiplier(l->lifts_per_min, l->hours, low),
                     .cm = grip_multiplier(l->grip, low)};
    a.limit_kg = 23 * a.hm * a.vm * a.dm * a.am * a.fm * a.cm;
    a.index = a.limit_kg > 0 ? l->load_kg / a.limit_kg : (double)INFINITY;
    *out = a;
    return true;
}

static const char *const height_names[HEIGHT_COUNT] = {
    "shoulder and above",       "elbow to shoulder",   "knuckle to elbow",
    "mid lower leg to knuckle", "below mid lower leg",
};

const char *lifting_height_name(lifting_height height) {
    return (unsigned)height < HEIGHT_COUNT ? height_names[height] : "unknown";
}

/* HSE INDG143 (rev 4): close to the body, arms out. */
static const double men[HEIGHT_COUNT][2] = {{10, 5}, {20, 10}, {25, 15}, {20, 10}, {10, 5}};
static const double women[HEIGHT_COUNT][2] = {{7, 3}, {13, 7}, {16, 10}, {13, 7}, {7, 3}};

bool lifting_guideline(lifting_person person, lifting_height height, bool arms_out, double *kg, err *e) {
    if (person == PERSON_MINOR)
        return refuse_minor(e);
    if ((unsigned)height >= HEIGHT_COUNT || (unsigned)person > PERSON_WOMAN)
        return err_input(e, "lifting", "say shoulder, elbow, knuckle, knee or floor",
                         "the height is not known");
    *kg = person == PERSON_MAN ? men[height][arms_out] : women[height][arms_out];
    return true;
}

bool lifting_team(double mass_kg, lifting_person person, lifting_height height, bool arms_out, lift_team *out,
                  err *e) {
    double alone = 0;
    if (!lifting_guideline(person, height, arms_out, &alone, e))
        return false;
    if (!within(mass_kg, 0.1, 500))
        return err_input(e, "lifting", "give the mass in kg", "the load must be from 0.1 to 500 kg");
    /* together: the sum, two thirds of it, half of it */
    const double together[] = {alone, 2 * alone * 2 / 3, 3 * alone / 2};
    lift_team t = {.people = 0, .team_kg = together[2], .alone_kg = alone};
    for (int n = 0; n < 3; n++) {
        if (mass_kg > together[n])
            continue;
        t.people = n + 1;
        t.team_kg = together[n];
        break;
    }
    *out = t;
    return true;
}
