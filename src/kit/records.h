/* records.h: one struct for each table of a kit and of a workshop.
 *
 * A member is one column; schema.c says which, and docs/kit-format.md what it means. References are positions in the
 * arrays of `kit`, or KIT_NONE where the cell may be empty. Everything lives in the arena it was read into.
 */
#ifndef KIT_RECORDS_H
#define KIT_RECORDS_H

#include "base/date.h"
#include "base/text.h"

typedef uint32_t kit_index;
#define KIT_NONE ((kit_index)UINT32_MAX)

/* A list of texts or of indices from one cell, in the order written ("goggles; gloves"). */
typedef struct {
    text *list;
    uint32_t n;
} kit_texts;

typedef struct {
    kit_index *list;
    uint32_t n;
} kit_indices;

typedef struct {
    int64_t *list; /* ascending */
    uint32_t n;
} kit_integers;

/* What a quantity counts. Quantities are whole numbers of it, so a rope of 12 m is 12000 mm. */
typedef enum { KIT_PIECE, KIT_MM, KIT_G, KIT_MG, KIT_ML, KIT_PACK } kit_unit;

typedef enum { KIT_BOX, KIT_BAG } kit_container_kind;
typedef enum { KIT_WORKPLACE, KIT_ZONE } kit_zone_kind;
typedef enum { KIT_BUILD, KIT_STOCK_CHECK, KIT_SORTING, KIT_INDUCTION } kit_step_kind;
typedef enum { KIT_IN_ROOM, KIT_BESIDE, KIT_ADULT_DOES } kit_supervision;
typedef enum { KIT_WALL_CLOCK, KIT_WORKING_TIME } kit_clock;
typedef enum { KIT_NOT_TIGHTENED, KIT_LOOSE, KIT_HAND, KIT_TORQUE } kit_tightening;
typedef enum { KIT_DRY, KIT_OILED, KIT_THREAD_LOCKED } kit_condition;
typedef enum { KIT_HIDES, KIT_DISTURBS } kit_effect;
typedef enum { KIT_LEARNER_SIGNS, KIT_SUPERVISOR_SIGNS, KIT_LEADER_SIGNS } kit_signer;
typedef enum { KIT_AGM, KIT_GEL, KIT_FLOODED } kit_chemistry;

/* Every record knows its row in its table, as a spreadsheet numbers it, for faults found later. */
typedef struct {
    uint32_t row;
    text number; /* column part */
    text name;
    kit_texts makers_numbers;
    text designation; /* "ISO 4762 M8x25-8.8" for a fastener, else empty */
    int64_t mass_mg;  /* of one piece or unit; -1 when not known */
    bool single_use;  /* must be drawn new when undone */
    text picture;     /* file in the kit folder, or empty */
    text note;
} kit_part;

typedef struct {
    uint32_t row;
    text number; /* "box 3": column container */
    text name;
    kit_container_kind kind;
    kit_index inside;     /* container, KIT_NONE for a shipped box */
    int64_t gross_mass_g; /* as shipped; -1 when not known */
    text label;           /* lot or bag label as printed */
    int64_t lift_people;  /* adults the maker asks for to lift it; 0 when not said */
} kit_container;

typedef struct {
    uint32_t row;
    kit_index container;
    int64_t line; /* column line: number of this row inside its container, as printed on the packing list */
    kit_index part;
    int64_t quantity; /* expected, of `unit` */
    kit_unit unit;
    int64_t spare; /* how many of them are spares, 0..quantity */
} kit_row;

typedef struct {
    uint32_t row;
    text number;
    text name;
    text kind; /* "ring spanner" */
    text size; /* "13 mm", or empty */
    int64_t needed;
    int64_t days_to_obtain; /* 0 when not said */
    bool protective;        /* protective equipment */
} kit_tool;

typedef struct {
    uint32_t row;
    text number;
    text name;
    int64_t quantity;
    kit_unit unit;
    int64_t days_to_obtain;
    bool protective;
} kit_consumable;

typedef struct {
    uint32_t row;
    text number;
    text name;
} kit_named; /* skills, works */

typedef struct {
    uint32_t row;
    text number;
    text name;
    kit_zone_kind kind; /* a workplace is the workshop's, a zone is a side of the main machine */
    int64_t groups;     /* groups that fit at once; for a workplace how many of it are wanted */
} kit_zone;

typedef struct {
    uint32_t row;
    text number;
    text name;
    int64_t buffer_min; /* wanted between ready and joining, working minutes */
} kit_sub_assembly;

typedef struct {
    uint32_t row;
    text number;
    text name;
    kit_step_kind kind;
    kit_index sub_assembly; /* KIT_NONE: on the main machine */
    kit_index work;         /* kind of work, for supervision and for what may not be next to it */
    int64_t low_min, likely_min, high_min;
    int64_t people; /* at work on it at once, the supervisor beside not counted */
    kit_supervision supervision;
    kit_index zone; /* where; KIT_NONE: anywhere */
    bool may_pause; /* may be left at a session's end */
    text safe_state;
    int64_t resume_min;
    kit_integers change_over_min; /* minutes from the start at which people may change over */
    int64_t delay_min;            /* after its end, before what comes after it */
    kit_clock delay_clock;
    text delay_text; /* "cures at 15 C or more" */
    kit_texts wear, not_wear;
    kit_indices not_beside; /* works that may not run next to it */
    text family;            /* steps of one family repeat the same job and get faster */
    text page;              /* of the maker's manual */
    text picture;
    text instruction;
} kit_step;

typedef struct {
    uint32_t row;
    kit_index step, after;
} kit_after;

typedef struct {
    uint32_t row;
    kit_index step;
    kit_effect effect;
    kit_index other; /* an earlier step that `step` hides or disturbs */
} kit_step_effect;

typedef struct {
    uint32_t row;
    kit_index step, part;
    int64_t quantity;
    kit_tightening tightening;
    int64_t torque_cnm; /* hundredths of a newton metre, the maker's figure; -1 when none */
    kit_condition condition;
    text order;          /* "crosswise, twice" */
    kit_index closed_by; /* the step that tightens what this one leaves loose; KIT_NONE otherwise */
} kit_step_part;

typedef struct {
    uint32_t row;
    kit_index step, tool;
    int64_t quantity;
} kit_step_tool;

typedef struct {
    uint32_t row;
    kit_index step, consumable;
    int64_t quantity; /* of the consumable's unit */
} kit_step_consumable;

typedef struct {
    uint32_t row;
    kit_index step, skill;
    int64_t people;
    bool own_people; /* they answer for no other row of the step */
} kit_step_skill;

typedef struct {
    uint32_t row;
    kit_index step;
    text hazard, who, control;
} kit_step_caution;

typedef struct {
    uint32_t row;
    kit_index step;
    text what;
    text unit;                     /* "mm", or empty for a yes or no */
    int64_t low_milli, high_milli; /* thousandths of `unit`; INT64_MIN / INT64_MAX when open */
    bool hold_point;
    kit_signer signed_by;
} kit_step_test;

typedef struct {
    uint32_t row;
    kit_index part, stand_in;
    text condition;
} kit_stand_in;

typedef struct {
    uint32_t row;
    kit_index part;
    kit_chemistry chemistry;
    int64_t nominal_mv;
    int64_t capacity_mah;   /* 20 h rate */
    int64_t arrival_low_mv; /* below it the battery is reported as low */
    int64_t charge_high_ma; /* largest charging current the label allows */
    int64_t top_up_days;    /* between top-ups in storage */
} kit_battery;

typedef struct {
    uint32_t row;
    text number;
    text what;
    int64_t first_days; /* after release */
    int64_t every_days; /* 0: once */
    kit_index step;
} kit_reminder;

typedef struct kit_lookup kit_lookup; /* sorted keys; see the find functions */

typedef struct {
    uint32_t row;
    text number, name, serial, revision, maker, contact;
    int64_t report_within_days;  /* after delivery; 0 when not said */
    int64_t carrier_within_days; /* for transport damage */

    kit_part *parts;
    uint32_t n_parts;
    kit_container *containers;
    uint32_t n_containers;
    kit_row *rows;
    uint32_t n_rows;
    kit_tool *tools;
    uint32_t n_tools;
    kit_consumable *consumables;
    uint32_t n_consumables;
    kit_named *skills;
    uint32_t n_skills;
    kit_named *works;
    uint32_t n_works;
    kit_zone *zones;
    uint32_t n_zones;
    kit_sub_assembly *sub_assemblies;
    uint32_t n_sub_assemblies;
    kit_step *steps;
    uint32_t n_steps;
    kit_after *step_after;
    uint32_t n_step_after;
    kit_step_effect *step_effects;
    uint32_t n_step_effects;
    kit_step_part *step_parts;
    uint32_t n_step_parts;
    kit_step_tool *step_tools;
    uint32_t n_step_tools;
    kit_step_consumable *step_consumables;
    uint32_t n_step_consumables;
    kit_step_skill *step_skills;
    uint32_t n_step_skills;
    kit_step_caution *step_cautions;
    uint32_t n_step_cautions;
    kit_step_test *step_tests;
    uint32_t n_step_tests;
    kit_stand_in *stand_ins;
    uint32_t n_stand_ins;
    kit_battery *batteries;
    uint32_t n_batteries;
    kit_reminder *reminders;
    uint32_t n_reminders;

    const kit_lookup *lookup;
} kit;

/* The workshop's side: its own small folder (docs/workshop-format.md). Refers to works, skills, tools and zones of a kit. */
typedef struct {
    uint32_t row;
    text number; /* column person: stands in the journal instead of the name */
    text name;   /* a nickname is enough */
    bool adult;
    bool leader;
    kit_indices supervises; /* works */
    kit_indices skills;     /* already practised */
    int64_t misses_percent; /* 0..100: of the sessions at which they are expected */
} kit_person;

typedef struct {
    uint32_t row;
    int64_t number;
    date_day day;
    int start, end;                   /* minutes after midnight */
    int64_t opening_min, closing_min; /* not working time */
    bool cancelled;                   /* called off: nobody works then */
} kit_session;

typedef struct {
    uint32_t row;
    kit_index session, person;
    bool comes;
    int from, until; /* minutes after midnight, or -1: the whole session */
} kit_attendance;    /* exceptions: who is not named comes to the whole session */

typedef struct {
    uint32_t row;
    kit_index what; /* tool, or zone of kind workplace */
    int64_t quantity;
} kit_owned;

typedef struct {
    uint32_t row;
    text name;
    int64_t minimum_adults;    /* in the room for any work, at least 1 */
    int64_t beginners_percent; /* 150: a beginner crew takes 1.5 times the likely minutes */
    date_day wanted_day;       /* the day it must be ready; INT32_MAX when not said */
    int64_t longest_wait_min;  /* nobody should be there without work for longer, if it can be avoided */
    int64_t cancelled_percent; /* 0..100: of the sessions, called off at short notice */
    int64_t late_percent;      /* 0..100: of the promised deliveries, later than promised */
    int64_t late_days;         /* by how much these are late on average, at least 1 */
    kit_person *crew;
    uint32_t n_crew;
    kit_session *sessions;
    uint32_t n_sessions;
    kit_attendance *attendance;
    uint32_t n_attendance;
    kit_owned *tools;
    uint32_t n_tools;
    kit_owned *workplaces;
    uint32_t n_workplaces;

    const kit_lookup *lookup;
} kit_workshop;

#endif
