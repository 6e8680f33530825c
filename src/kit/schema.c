/* schema.c: every table and every column, as data: one line each.
 *
 * Nothing here is code. The reader (reader.c), the folder and its datapackage.json (folder.c, package.c), the
 * documentation and the build file's copy follow from these lists, so a new column is one line here and one member in
 * records.h. The sentences are what the documentation prints.
 */
#include <string.h>

#include "kit/columns.h"

#define MANY INT64_C(1000000000)     /* most of any quantity */
#define MINUTES INT64_C(100000)      /* most minutes of one step, delay or buffer */
#define DAYS INT64_C(3660)           /* ten years */
#define MASS_MG INT64_C(10000000000) /* ten tonnes in milligrams */
#define MASS_G INT64_C(10000000)     /* ten tonnes in grams */
#define TEST_LIMIT INT64_C(1000000000000)

static const kit_column kit_columns[] = {
    KEY(kit, number, "kit", "The kit's number."),
    TEXT_CELL(kit, name, "name", MUST, "What is built from it."),
    TEXT_CELL(kit, serial, "serial", MAY, "Serial number of this one kit."),
    TEXT_CELL(kit, revision, "revision", MAY, "Revision of the tables; a maker raises it with every change."),
    TEXT_CELL(kit, maker, "maker", MAY, "Who made the kit."),
    TEXT_CELL(kit, contact, "contact", MAY,
              "Where the missing-parts report goes: address, mail or telephone."),
    INTEGER(
        kit, report_within_days, "report_within_days", MAY, 0, DAYS, 0,
        "Days after delivery within which the maker accepts a missing-parts report; 0 or empty: not said."),
    INTEGER(kit, carrier_within_days, "carrier_within_days", MAY, 0, DAYS, 0,
            "Days after delivery within which the carrier accepts damage in transit; 0 or empty: not said."),
};

static const kit_column part_columns[] = {
    KEY(kit_part, number, "part", "The kit's own number of the part."),
    TEXT_CELL(kit_part, name, "name", MUST, "What a beginner would call it."),
    TEXTS(kit_part, makers_numbers, "makers_numbers",
          "Numbers that the original manufacturer may have printed on it."),
    TEXT_CELL(kit_part, designation, "designation", MAY,
              "For a fastener: its designation as the standard writes it, such as `ISO 4762 M8x25-8.8`."),
    DECIMAL(kit_part, mass_mg, "mass_g", MAY, 3, 1, MASS_MG, -1,
            "Mass of one piece (or of one unit) in grams; empty: not known."),
    YES_NO(kit_part, single_use, "single_use", MAY, "Must be drawn new whenever it was undone."),
    TEXT_CELL(kit_part, picture, "picture", MAY, "Picture file in the kit folder."),
    TEXT_CELL(kit_part, note, "note", MAY, "Anything else worth knowing."),
};

static const kit_column container_columns[] = {
    KEY(kit_container, number, "container", "Number of the box or bag, such as `box 3` or `B3`."),
    TEXT_CELL(kit_container, name, "name", MAY, "What is in it, in a few words."),
    WORD(kit_container, kind, "kind", MUST, "box|bag",
         "A box is shipped; a bag lies in a box or in another bag."),
    REFERENCE(kit_container, inside, "inside", MAY, "containers",
              "The container it lies in: needed for a bag, empty for a box."),
    DECIMAL(kit_container, gross_mass_g, "gross_mass_kg", MAY, 3, 1, MASS_G, -1,
            "Mass as shipped in kilograms, packing included; empty: not known."),
    TEXT_CELL(kit_container, label, "label", MAY, "Lot or label as printed on it."),
    INTEGER(kit_container, lift_people, "lift_people", MAY, 0, 20, 0,
            "How many adults the maker asks for to lift it; 0 or empty: not said."),
};

static const kit_column row_columns[] = {
    REFERENCE(kit_row, container, "container", MUST, "containers", "The box or bag that holds the pieces."),
    INTEGER(kit_row, line, "line", MUST, 1, 9999, 0,
            "Number of the row inside its container, as printed on the packing list."),
    REFERENCE(kit_row, part, "part", MUST, "parts", "The part."),
    INTEGER(kit_row, quantity, "quantity", MUST, 1, MANY, 0, "How many are expected, in `unit`."),
    WORD(kit_row, unit, "unit", MAY, "piece|mm|g|mg|ml|pack",
         "What is counted; a rope of 12 m is 12000 `mm`. All rows of a part use one unit."),
    INTEGER(kit_row, spare, "spare", MAY, 0, MANY, 0, "How many of them are spares that no step needs."),
};

static const kit_column tool_columns[] = {
    KEY(kit_tool, number, "tool", "Number or short name of the tool."),
    TEXT_CELL(kit_tool, name, "name", MUST, "What it is called."),
    TEXT_CELL(kit_tool, kind, "kind", MAY, "Kind, such as `ring spanner`."),
    TEXT_CELL(kit_tool, size, "size", MAY, "Size, such as `13 mm`."),
    INTEGER(kit_tool, needed, "needed", MAY, 1, 1000, 1, "How many the maker advises to have."),
    INTEGER(kit_tool, days_to_obtain, "days_to_obtain", MAY, 0, DAYS, 0,
            "Days to obtain one; 0 or empty: not said."),
    YES_NO(kit_tool, protective, "protective", MAY, "It is protective equipment."),
};

static const kit_column consumable_columns[] = {
    KEY(kit_consumable, number, "consumable", "Number or short name."),
    TEXT_CELL(kit_consumable, name, "name", MUST, "What it is called."),
    INTEGER(kit_consumable, quantity, "quantity", MUST, 1, MANY, 0, "How much is needed in all, in `unit`."),
    WORD(kit_consumable, unit, "unit", MAY, "piece|mm|g|mg|ml|pack", "What is counted."),
    INTEGER(kit_consumable, days_to_obtain, "days_to_obtain", MAY, 0, DAYS, 0,
            "Days to obtain it; 0 or empty: not said."),
    YES_NO(kit_consumable, protective, "protective", MAY, "It is protective equipment, such as gloves."),
};

static const kit_column skill_columns[] = {
    KEY(kit_named, number, "skill", "Short name of the skill."),
    TEXT_CELL(kit_named, name, "name", MUST, "What is practised."),
};

static const kit_column work_columns[] = {
    KEY(kit_named, number, "work", "Short name of a kind of work, such as `striking` or `live`."),
    TEXT_CELL(kit_named, name, "name", MUST,
              "What it is; who may supervise it stands in the workshop's crew."),
};

static const kit_column zone_columns[] = {
    KEY(kit_zone, number, "zone", "Short name of the place."),
    TEXT_CELL(kit_zone, name, "name", MUST, "Where it is."),
    WORD(kit_zone, kind, "kind", MUST, "workplace|zone",
         "A workplace (bench, stand) is the workshop's; a zone is a side of the main machine."),
    INTEGER(kit_zone, groups, "groups", MAY, 1, 100, 1,
            "How many groups fit in a zone at once; for a workplace how many of it are wanted."),
};

static const kit_column sub_assembly_columns[] = {
    KEY(kit_sub_assembly, number, "sub_assembly", "Short name of the sub-assembly."),
    TEXT_CELL(kit_sub_assembly, name, "name", MUST, "What it is called."),
    INTEGER(kit_sub_assembly, buffer_min, "buffer_min", MAY, 0, MINUTES, 0,
            "Working minutes wanted between its being ready and its joining step."),
};

static const kit_column step_columns[] = {
    KEY(kit_step, number, "step", "Number of the step."),
    TEXT_CELL(kit_step, name, "name", MUST, "What is done."),
    WORD(kit_step, kind, "kind", MAY, "build|stock check|sorting|induction", "What sort of work it is."),
    REFERENCE(kit_step, sub_assembly, "sub_assembly", MAY, "sub_assemblies",
              "The sub-assembly it belongs to; empty: it is work on the main machine."),
    REFERENCE(kit_step, work, "work", MAY, "works",
              "Kind of work, for supervision and for what may not be next to it."),
    INTEGER(kit_step, low_min, "low_min", MUST, 1, MINUTES, 0,
            "Minutes of a practised pair when all goes well."),
    INTEGER(kit_step, likely_min, "likely_min", MUST, 1, MINUTES, 0, "Likely minutes."),
    INTEGER(kit_step, high_min, "high_min", MUST, 1, MINUTES, 0, "Minutes when much goes wrong."),
    INTEGER(kit_step, people, "people", MUST, 1, 100, 0,
            "How many people work on it at once, the supervisor beside them not counted."),
    WORD(
        kit_step, supervision, "supervision", MAY, "in the room|beside the work|adult does it",
        "`in the room`: the workshop's minimum of adults; `beside the work`: one supervisor stays with this step; "
        "`adult does it`: only adults work on it."),
    REFERENCE(kit_step, zone, "zone", MAY, "zones", "Where it is done; empty: anywhere."),
    YES_NO(kit_step, may_pause, "may_pause", MAY, "May be left unfinished at a session's end."),
    TEXT_CELL(kit_step, safe_state, "safe_state", MAY, "How to leave it safely when it pauses."),
    INTEGER(kit_step, resume_min, "resume_min", MAY, 0, MINUTES, 0,
            "Minutes to get into it again after a pause."),
    INTEGERS(kit_step, change_over_min, "change_over_min", 1, MINUTES,
             "Minutes from its start at which other people may take over, ascending."),
    INTEGER(kit_step, delay_min, "delay_min", MAY, 0, MINUTES, 0,
            "Minutes after its end before anything that comes after it may start (curing, drying)."),
    WORD(kit_step, delay_clock, "delay_clock", MAY, "wall clock|working time",
         "Whether the delay also runs between the sessions."),
    TEXT_CELL(kit_step, delay_text, "delay_text", MAY,
              "What the delay needs, such as `cures at 15 C or more`."),
    TEXTS(kit_step, wear, "wear", "What must be worn."),
    TEXTS(kit_step, not_wear, "not_wear", "What must not be worn, such as `gloves; rings; scarves`."),
    REFERENCES(kit_step, not_beside, "not_beside", "works", "Kinds of work that may not run next to it."),
    TEXT_CELL(kit_step, family, "family", MAY,
              "Steps of one family repeat the same job and get faster; any word, the same in each of them."),
    TEXT_CELL(kit_step, page, "page", MAY, "Page of the maker's manual."),
    TEXT_CELL(kit_step, picture, "picture", MAY, "Picture file in the kit folder."),
    TEXT_CELL(kit_step, instruction, "instruction", MAY, "What to do, in the maker's words."),
};

static const kit_column after_columns[] = {
    REFERENCE(kit_after, step, "step", MUST, "steps", "The step."),
    REFERENCE(kit_after, after, "after", MUST, "steps", "A step that must be finished before it starts."),
};

static const kit_column effect_columns[] = {
    REFERENCE(kit_step_effect, step, "step", MUST, "steps", "The step."),
    WORD(
        kit_step_effect, effect, "effect", MUST, "hides|disturbs",
        "It hides what `other` did (undoing `other` means undoing it first) or disturbs it (what was set or tested "
        "there must be looked at again)."),
    REFERENCE(kit_step_effect, other, "other", MUST, "steps", "The earlier step."),
};

static const kit_column step_part_columns[] = {
    REFERENCE(kit_step_part, step, "step", MUST, "steps", "The step that draws the pieces."),
    REFERENCE(kit_step_part, part, "part", MUST, "parts", "The part."),
    INTEGER(kit_step_part, quantity, "quantity", MUST, 1, MANY, 0,
            "How many, in the unit of the part's rows."),
    WORD(
        kit_step_part, tightening, "tightening", MAY, "none|loose|hand|torque",
        "`none`: nothing to tighten; `loose`: hand-tight on purpose, until `closed_by`; `hand`: tight with a hand "
        "tool; `torque`: to the maker's `torque_nm`."),
    DECIMAL(kit_step_part, torque_cnm, "torque_nm", MAY, 2, 1, 1000000, -1,
            "The maker's torque in newton metres; needed for `torque`, empty otherwise."),
    WORD(kit_step_part, condition, "condition", MAY, "dry|oiled|thread-locked", "Condition of the thread."),
    TEXT_CELL(kit_step_part, order, "order", MAY, "Order of tightening, such as `crosswise, in two rounds`."),
    REFERENCE(
        kit_step_part, closed_by, "closed_by", MAY, "steps",
        "The later step that tightens what this one leaves `loose`; needed for `loose`, empty otherwise."),
};

static const kit_column step_tool_columns[] = {
    REFERENCE(kit_step_tool, step, "step", MUST, "steps", "The step."),
    REFERENCE(kit_step_tool, tool, "tool", MUST, "tools", "The tool."),
    INTEGER(kit_step_tool, quantity, "quantity", MAY, 1, 1000, 1, "How many of it at once."),
};

static const kit_column step_consumable_columns[] = {
    REFERENCE(kit_step_consumable, step, "step", MUST, "steps", "The step."),
    REFERENCE(kit_step_consumable, consumable, "consumable", MUST, "consumables", "The consumable."),
    INTEGER(kit_step_consumable, quantity, "quantity", MUST, 1, MANY, 0,
            "How much, in the consumable's unit."),
};

static const kit_column step_skill_columns[] = {
    REFERENCE(kit_step_skill, step, "step", MUST, "steps", "The step."),
    REFERENCE(kit_step_skill, skill, "skill", MUST, "skills",
              "The skill that somebody at work on it must have."),
    INTEGER(kit_step_skill, people, "people", MAY, 1, 100, 1, "How many of its people must have it."),
    YES_NO(kit_step_skill, own_people, "own_people", MAY,
           "They do only this during the step and answer for no other skill of it; empty: one person may "
           "answer for several."),
};

static const kit_column step_caution_columns[] = {
    REFERENCE(kit_step_caution, step, "step", MUST, "steps", "The step."),
    TEXT_CELL(kit_step_caution, hazard, "hazard", MUST, "What can hurt."),
    TEXT_CELL(kit_step_caution, who, "who", MUST, "Whom: those at the work, everyone near, ..."),
    TEXT_CELL(kit_step_caution, control, "control", MUST, "What keeps them safe."),
};

static const kit_column step_test_columns[] = {
    REFERENCE(kit_step_test, step, "step", MUST, "steps", "The step at whose end it is tested."),
    TEXT_CELL(kit_step_test, what, "what", MUST, "What is measured or looked at."),
    TEXT_CELL(kit_step_test, unit, "unit", MAY,
              "Unit of the limits, such as `mm`; empty: answered by yes or no."),
    DECIMAL(kit_step_test, low_milli, "low", MAY, 3, -TEST_LIMIT, TEST_LIMIT, INT64_MIN,
            "Lowest good value, in `unit`; empty: no lower limit."),
    DECIMAL(kit_step_test, high_milli, "high", MAY, 3, -TEST_LIMIT, TEST_LIMIT, INT64_MAX,
            "Highest good value, in `unit`; empty: no upper limit."),
    YES_NO(kit_step_test, hold_point, "hold_point", MAY,
           "Nothing after the step starts before it is signed."),
    WORD(kit_step_test, signed_by, "signed_by", MUST, "learner|supervisor|leader",
         "Who may sign it; never somebody who built the step."),
};

static const kit_column stand_in_columns[] = {
    REFERENCE(kit_stand_in, part, "part", MUST, "parts", "The part."),
    REFERENCE(kit_stand_in, stand_in, "stand_in", MUST, "parts",
              "A part that the maker allows in its place."),
    TEXT_CELL(kit_stand_in, condition, "condition", MAY, "Where or how only."),
};

static const kit_column battery_columns[] = {
    REFERENCE(kit_battery, part, "part", MUST, "parts", "The battery."),
    WORD(kit_battery, chemistry, "chemistry", MUST, "agm|gel|flooded", "Kind of lead-acid battery."),
    DECIMAL(kit_battery, nominal_mv, "nominal_v", MUST, 3, 1000, 1000000, 0, "Nominal voltage in volts."),
    DECIMAL(kit_battery, capacity_mah, "capacity_ah", MUST, 3, 1, 10000000, 0,
            "Capacity at the 20 hour rate in ampere hours."),
    DECIMAL(kit_battery, arrival_low_mv, "arrival_low_v", MAY, 3, 1, 1000000, -1,
            "Rested voltage on arrival below which it is reported, in volts; empty: not said."),
    DECIMAL(kit_battery, charge_high_ma, "charge_high_a", MAY, 3, 1, 10000000, -1,
            "Largest charging current that the label allows, in amperes; empty: not said."),
    INTEGER(kit_battery, top_up_days, "top_up_days", MAY, 0, DAYS, 0,
            "Days between top-ups in storage; 0 or empty: not said."),
};

static const kit_column reminder_columns[] = {
    KEY(kit_reminder, number, "reminder", "Number of the reminder."),
    TEXT_CELL(kit_reminder, what, "what", MUST, "What is to be done: retightening, service."),
    INTEGER(kit_reminder, first_days, "first_days", MUST, 0, DAYS, 0,
            "Days after release at which it is due first."),
    INTEGER(kit_reminder, every_days, "every_days", MAY, 0, DAYS, 0,
            "Days between repetitions; 0 or empty: only once."),
    REFERENCE(kit_reminder, step, "step", MAY, "steps", "The step it goes back to."),
};

static const kit_column workshop_columns[] = {
    TEXT_CELL(kit_workshop, name, "name", MUST, "Name of the workshop or the club."),
    INTEGER(kit_workshop, minimum_adults, "minimum_adults", MAY, 1, 100, 1,
            "How many adults must be in the room for any work."),
    DECIMAL(kit_workshop, beginners_percent, "beginners_factor", MAY, 2, 10, 1000, 100,
            "By how much this crew needs longer than the kit's minutes: 1.5 is half as long again."),
    DAY(kit_workshop, wanted_day, "wanted_day", MAY, "The day by which it must be ready; empty: not said."),
    INTEGER(
        kit_workshop, longest_wait_min, "longest_wait_min", MAY, 1, 1440, 45,
        "How many minutes at a stretch a learner should at most be there without work, if it can be avoided."),
    INTEGER(kit_workshop, cancelled_percent, "cancelled_percent", MAY, 0, 100, 0,
            "How many of a hundred sessions are called off at short notice, for `kitbench risk`."),
    INTEGER(kit_workshop, late_percent, "late_percent", MAY, 0, 100, 0,
            "How many of a hundred promised deliveries come later than promised, for `kitbench risk`."),
    INTEGER(kit_workshop, late_days, "late_days", MAY, 1, 365, 7,
            "By how many days a late delivery is late, on average."),
};

static const kit_column crew_columns[] = {
    KEY(kit_person, number, "person", "Number of the person; it stands in the journal instead of the name."),
    TEXT_CELL(kit_person, name, "name", MUST, "Name; a nickname is enough."),
    YES_NO(kit_person, adult, "adult", MUST, "Of age."),
    YES_NO(kit_person, leader, "leader", MAY, "Leads the build."),
    REFERENCES(kit_person, supervises, "supervises", "works",
               "Kinds of work (of the kit) that this adult may supervise."),
    REFERENCES(kit_person, skills, "skills", "skills", "Skills (of the kit) already practised."),
    INTEGER(
        kit_person, misses_percent, "misses_percent", MAY, 0, 100, 0,
        "How many of a hundred sessions at which they are expected this person misses, for `kitbench risk`."),
};

static const kit_column session_columns[] = {
    INTEGER(kit_session, number, "session", MUST, 1, 9999, 0, "Number of the session."),
    DAY(kit_session, day, "date", MUST, "Its day."),
    CLOCK(kit_session, start, "start", MUST, "When it starts."),
    CLOCK(kit_session, end, "end", MUST, "When it ends."),
    INTEGER(kit_session, opening_min, "opening_min", MAY, 0, 1440, 0,
            "Minutes at its start that are not working time (unlocking, briefing)."),
    INTEGER(kit_session, closing_min, "closing_min", MAY, 0, 1440, 0,
            "Minutes at its end that are not working time (closing count, sweeping)."),
    YES_NO(kit_session, cancelled, "cancelled", MAY, "It was called off: nobody works then."),
};

static const kit_column attendance_columns[] = {
    REFERENCE(kit_attendance, session, "session", MUST, "sessions", "The session."),
    REFERENCE(kit_attendance, person, "person", MUST, "crew", "The person."),
    YES_NO(kit_attendance, comes, "comes", MUST, "Whether the person comes."),
    CLOCK(kit_attendance, from, "from", MAY, "From when; empty: from the session's start."),
    CLOCK(kit_attendance, until, "until", MAY, "Until when; empty: to the session's end."),
};

static const kit_column owned_tool_columns[] = {
    REFERENCE(kit_owned, what, "tool", MUST, "tools", "A tool of the kit's list."),
    INTEGER(kit_owned, quantity, "quantity", MUST, 0, 1000, 0, "How many of it the workshop has."),
};

static const kit_column workplace_columns[] = {
    REFERENCE(kit_owned, what, "zone", MUST, "zones", "A zone of kind `workplace` of the kit."),
    INTEGER(kit_owned, quantity, "quantity", MUST, 0, 100, 0, "How many of it the workshop has."),
};

static const kit_table_form forms[] = {
    RECORD(kit, "kit", "kit", kit_columns, "What the kit is; one row."),
    TABLE(kit, kit_part, parts, "parts", MUST, "part", part_columns, "The parts list."),
    TABLE(kit, kit_container, containers, "containers", MUST, "container", container_columns,
          "Boxes as shipped, and the bags and cartons inside them."),
    TABLE(kit, kit_row, rows, "rows", MUST, "container+line", row_columns,
          "The packing list: what lies in which container."),
    TABLE(kit, kit_tool, tools, "tools", MAY, "tool", tool_columns, "The tools the build needs."),
    TABLE(kit, kit_consumable, consumables, "consumables", MAY, "consumable", consumable_columns,
          "What is used up and does not come with the kit."),
    TABLE(kit, kit_named, skills, "skills", MAY, "skill", skill_columns, "What learners practise."),
    TABLE(kit, kit_named, works, "works", MAY, "work", work_columns, "Kinds of work."),
    TABLE(kit, kit_zone, zones, "zones", MAY, "zone", zone_columns, "Where groups work."),
    TABLE(kit, kit_sub_assembly, sub_assemblies, "sub_assemblies", MAY, "sub_assembly", sub_assembly_columns,
          "The units that are made beside the main machine."),
    TABLE(kit, kit_step, steps, "steps", MAY, "step", step_columns, "The jobs of the build."),
    TABLE(kit, kit_after, step_after, "step_after", MAY, "step+after", after_columns,
          "What must be finished first; without rows for a step it may come at any time."),
    TABLE(kit, kit_step_effect, step_effects, "step_effects", MAY, "step+effect+other", effect_columns,
          "What a step hides or disturbs."),
    TABLE(kit, kit_step_part, step_parts, "step_parts", MAY, "", step_part_columns,
          "The pieces each step draws, and how they are tightened."),
    TABLE(kit, kit_step_tool, step_tools, "step_tools", MAY, "step+tool", step_tool_columns,
          "The tools each step needs."),
    TABLE(kit, kit_step_consumable, step_consumables, "step_consumables", MAY, "step+consumable",
          step_consumable_columns, "What each step uses up."),
    TABLE(kit, kit_step_skill, step_skills, "step_skills", MAY, "step+skill", step_skill_columns,
          "The skills each step needs."),
    TABLE(kit, kit_step_caution, step_cautions, "step_cautions", MAY, "step+hazard", step_caution_columns,
          "Hazard, who, control: shown wherever the step is."),
    TABLE(kit, kit_step_test, step_tests, "step_tests", MAY, "step+what", step_test_columns,
          "Tests, limits and hold points."),
    TABLE(kit, kit_stand_in, stand_ins, "stand_ins", MAY, "part+stand_in", stand_in_columns,
          "Parts that the maker allows for others; the program never releases one itself."),
    TABLE(kit, kit_battery, batteries, "batteries", MAY, "part", battery_columns,
          "What the battery labels say."),
    TABLE(kit, kit_reminder, reminders, "reminders", MAY, "reminder", reminder_columns,
          "What comes due after release."),
    RECORD(kit_workshop, "workshop", "", workshop_columns, "The workshop; one row."),
    TABLE(kit_workshop, kit_person, crew, "crew", MUST, "person", crew_columns, "The people."),
    TABLE(kit_workshop, kit_session, sessions, "sessions", MUST, "session", session_columns,
          "The dated meetings, in the order of time."),
    TABLE(kit_workshop, kit_attendance, attendance, "attendance", MAY, "session+person", attendance_columns,
          "Exceptions: who is not named comes to the whole session."),
    TABLE(kit_workshop, kit_owned, tools, "tools", MAY, "tool", owned_tool_columns,
          "The tools that are there."),
    TABLE(kit_workshop, kit_owned, workplaces, "workplaces", MAY, "zone", workplace_columns,
          "The workplaces that are there."),
};

/* A word is stored as the enumeration's own type, and every record begins with its row. */
_Static_assert(sizeof(kit_unit) == sizeof(unsigned), "words are stored as unsigned");
_Static_assert(offsetof(kit_part, row) == 0 && offsetof(kit, row) == 0 && offsetof(kit_workshop, row) == 0,
               "records begin with their row");

const kit_table_form *kit_forms(uint32_t *n) {
    *n = sizeof forms / sizeof forms[0];
    return forms;
}

const kit_table_form *kit_find_form(const char *name, bool of_workshop) {
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
        if (forms[i].of_workshop == of_workshop && strcmp(forms[i].name, name) == 0)
            return &forms[i];
    return NULL;
}
