#include "sample.h"

/* Invented; the designations are in the standards' own form. */
static const struct {
    const char *number, *name, *designation, *makers;
} shapes[] = {
    {"F-0625", "Hexagon socket screw", "ISO 4762 M6x25-8.8", "SK 625-88"},
    {"F-0620", "Hexagon socket screw", "ISO 4762 M6x20-8.8", "SK 620-88"},
    {"W-06", "Washer", "ISO 7089 6-200HV", ""},
    {"N-06", "Self-locking nut", "ISO 7040 M6-8", "NL 06 / NL-06-8"},
    {"P-113", "Roller carriage, left hand, with its two rollers and the retaining pin", "", "RC-L 113"},
    {"P-114", "גלגלת מתכת, שמאל", "", "RC-R 114"},
    {"P-115", "Führungsrolle Ø 62 – příliš žluťoučký kůň", "", "FR 62"},
    {"P-116", "بكرة الحبل", "", "ROPE 8 mm"},
};
enum { N_SHAPES = sizeof shapes / sizeof shapes[0] };

static void make_parts(arena *a, kit *k, text long_name) {
    k->n_parts = N_SHAPES;
    k->parts = arena_array(a, kit_part, N_SHAPES);
    for (uint32_t i = 0; i < N_SHAPES; i++) {
        kit_part *p = &k->parts[i];
        *p = (kit_part){.row = i + 2,
                        .number = text_of(shapes[i].number),
                        .name = text_of(shapes[i].name),
                        .designation = text_of(shapes[i].designation),
                        .mass_mg = -1};
        if (shapes[i].makers[0]) {
            p->makers_numbers.n = 1;
            p->makers_numbers.list = arena_array(a, text, 1);
            p->makers_numbers.list[0] = text_of(shapes[i].makers);
        }
    }
    if (long_name.len)
        k->parts[2].name = long_name;
}

static void make_containers(arena *a, kit *k, sample_size size) {
    k->n_containers = size.boxes + size.bags;
    k->containers = arena_array(a, kit_container, k->n_containers);
    for (uint32_t i = 0; i < size.boxes; i++)
        k->containers[i] = (kit_container){.number = arena_format(a, "%u", i + 1),
                                           .name = TEXT_INIT("Carriages and guides"),
                                           .kind = KIT_BOX,
                                           .inside = KIT_NONE,
                                           .gross_mass_g = 24600,
                                           .lift_people = i == 0 ? 2 : 0};
    for (uint32_t i = 0; i < size.bags; i++)
        k->containers[size.boxes + i] = (kit_container){.number = arena_format(a, "B%u", i + 1),
                                                        .name = TEXT_INIT("Fasteners for the ring"),
                                                        .kind = KIT_BAG,
                                                        .inside = i % size.boxes,
                                                        .gross_mass_g = 420,
                                                        .label = TEXT_INIT("lot 7")};
    if (size.long_name.len && size.bags > 1)
        k->containers[size.boxes + 1].name = size.long_name;
}

static void make_rows(arena *a, kit *k, sample_size size) {
    k->n_rows = size.rows;
    k->rows = arena_array(a, kit_row, size.rows);
    for (uint32_t i = 0; i < size.rows; i++)
        k->rows[i] = (kit_row){.row = i + 2,
                               .container = size.bags ? size.boxes + i % size.bags : i % size.boxes,
                               .line = 1 + (size.bags ? i / size.bags : i / size.boxes),
                               .part = i % N_SHAPES,
                               .quantity = 4 + i % 9,
                               .spare = i % 5 == 0};
}

static void make_workplaces(arena *a, kit *k) {
    k->n_works = 3;
    k->works = arena_array(a, kit_named, 3);
    k->works[0] = (kit_named){.number = TEXT_INIT("striking"), .name = TEXT_INIT("striking pins")};
    k->works[1] = (kit_named){.number = TEXT_INIT("assembly"), .name = TEXT_INIT("assembly")};
    k->works[2] = (kit_named){.number = TEXT_INIT("live"), .name = TEXT_INIT("work under voltage")};
    k->n_zones = 2;
    k->zones = arena_array(a, kit_zone, 2);
    k->zones[0] = (kit_zone){.number = TEXT_INIT("bench"), .name = TEXT_INIT("Bench with vice"), .groups = 2};
    k->zones[1] = (kit_zone){
        .number = TEXT_INIT("east"), .name = TEXT_INIT("East side"), .kind = KIT_ZONE, .groups = 1};
    k->n_sub_assemblies = 1;
    k->sub_assemblies = arena_array(a, kit_sub_assembly, 1);
    k->sub_assemblies[0] =
        (kit_sub_assembly){.number = TEXT_INIT("carriages"), .name = TEXT_INIT("Roller carriages")};
    k->n_tools = 3;
    k->tools = arena_array(a, kit_tool, 3);
    k->tools[0] = (kit_tool){.number = TEXT_INIT("hex-5"),
                             .name = TEXT_INIT("Hexagon key"),
                             .size = TEXT_INIT("5 mm"),
                             .needed = 2};
    k->tools[1] = (kit_tool){.number = TEXT_INIT("tw-25"),
                             .name = TEXT_INIT("Torque wrench"),
                             .size = TEXT_INIT("5 to 25 Nm"),
                             .needed = 1};
    k->tools[2] = (kit_tool){
        .number = TEXT_INIT("goggles"), .name = TEXT_INIT("Goggles"), .needed = 6, .protective = true};
    k->n_consumables = 1;
    k->consumables = arena_array(a, kit_consumable, 1);
    k->consumables[0] = (kit_consumable){.number = TEXT_INIT("lock"),
                                         .name = TEXT_INIT("Thread locker, medium"),
                                         .quantity = 10,
                                         .unit = KIT_ML};
    k->n_skills = 1;
    k->skills = arena_array(a, kit_named, 1);
    k->skills[0] = (kit_named){.number = TEXT_INIT("torque"), .name = TEXT_INIT("tightening by torque")};
}

static kit_texts texts_of(arena *a, const char *one, const char *two) {
    kit_texts t = {arena_array(a, text, 2), 2};
    t.list[0] = text_of(one);
    t.list[1] = text_of(two);
    return t;
}

static void make_steps(arena *a, kit *k, sample_size size) {
    k->n_steps = size.steps;
    k->steps = arena_array(a, kit_step, size.steps);
    for (uint32_t i = 0; i < size.steps; i++) {
        kit_step *s = &k->steps[i];
        *s = (kit_step){.row = i + 2,
                        .number = arena_format(a, "S%02u", i + 1),
                        .name = TEXT_INIT("Fit the rollers and strike the pins home"),
                        .sub_assembly = i % 2 ? KIT_NONE : 0,
                        .work = i % 2,
                        .low_min = 20,
                        .likely_min = 30,
                        .high_min = 50,
                        .people = 2,
                        .supervision = (kit_supervision)(i % 3),
                        .zone = i % 2,
                        .may_pause = i % 2 == 0,
                        .safe_state = TEXT_INIT("pins home or out, never half-way; carriage lying flat"),
                        .resume_min = 5,
                        .page = TEXT_INIT("14"),
                        .delay_min = i % 3 == 1 ? 720 : 0,
                        .delay_text = i % 3 == 1 ? TEXT("cures at 15 °C or more") : TEXT(""),
                        .instruction =
                            TEXT_INIT("Grease both axles thinly. Set a roller between the cheeks, line up "
                                      "the holes and start the pin by hand.\nStrike the pin home with the "
                                      "soft-faced hammer until its shoulder sits.\nSpin the roller: it "
                                      "runs free without play.")};
        s->wear = texts_of(a, "goggles, everyone within 3 m", "closed shoes");
        s->not_wear = texts_of(a, "gloves", "rings or loose hair");
        s->not_beside.n = 1;
        s->not_beside.list = arena_array(a, kit_index, 1);
        s->not_beside.list[0] = 2;
    }
    if (size.long_name.len && size.steps > 1)
        k->steps[1].name = size.long_name;
}

static void make_step_lists(arena *a, kit *k, sample_size size) {
    uint32_t n = size.steps;
    k->step_after = arena_array(a, kit_after, n);
    k->step_parts = arena_array(a, kit_step_part, 3 * n);
    k->step_tools = arena_array(a, kit_step_tool, 3 * n);
    k->step_cautions = arena_array(a, kit_step_caution, n);
    k->step_tests = arena_array(a, kit_step_test, 2 * n);
    for (uint32_t i = 0; i < n; i++) {
        if (i > 0)
            k->step_after[k->n_step_after++] = (kit_after){.step = i, .after = i - 1};
        k->step_parts[k->n_step_parts++] = (kit_step_part){.step = i,
                                                           .part = 0,
                                                           .quantity = 4,
                                                           .tightening = KIT_TORQUE,
                                                           .torque_cnm = 950,
                                                           .condition = KIT_THREAD_LOCKED,
                                                           .order = TEXT_INIT("crosswise, twice"),
                                                           .closed_by = KIT_NONE};
        k->step_parts[k->n_step_parts++] =
            (kit_step_part){.step = i, .part = 2, .quantity = 8, .torque_cnm = -1, .closed_by = KIT_NONE};
        bool last = i + 1 == n;
        k->step_parts[k->n_step_parts++] = (kit_step_part){.step = i,
                                                           .part = 3,
                                                           .quantity = 4,
                                                           .tightening = last ? KIT_HAND : KIT_LOOSE,
                                                           .torque_cnm = -1,
                                                           .closed_by = last ? KIT_NONE : n - 1};
        for (uint32_t t = 0; t < 3; t++)
            k->step_tools[k->n_step_tools++] = (kit_step_tool){.step = i, .tool = t, .quantity = 1 + t};
        k->step_cautions[k->n_step_cautions++] =
            (kit_step_caution){.step = i,
                               .hazard = TEXT_INIT("splinters fly when the pin is struck"),
                               .who = TEXT_INIT("everyone within 3 m"),
                               .control = TEXT_INIT("goggles on, others stand behind the line")};
        k->step_tests[k->n_step_tests++] = (kit_step_test){.step = i,
                                                           .what = TEXT_INIT("gap between roller and cheek"),
                                                           .unit = TEXT_INIT("mm"),
                                                           .low_milli = 200,
                                                           .high_milli = 800,
                                                           .signed_by = KIT_SUPERVISOR_SIGNS};
        k->step_tests[k->n_step_tests++] =
            (kit_step_test){.step = i,
                            .what = TEXT_INIT("every pin sits on its shoulder"),
                            .low_milli = INT64_MIN,
                            .high_milli = INT64_MAX,
                            .hold_point = true,
                            .signed_by = KIT_LEADER_SIGNS};
    }
}

const kit *sample_kit(arena *a, sample_size size) {
    kit *k = arena_new(a, kit);
    k->number = TEXT("ring");
    k->name = TEXT("Turning ring");
    k->serial = TEXT("0007");
    k->revision = TEXT("C");
    k->maker = TEXT("Ring and Roller Works (invented)");
    k->contact = TEXT("parts@example.org");
    k->report_within_days = 14;
    k->carrier_within_days = 7;
    make_parts(a, k, size.long_name);
    make_containers(a, k, size);
    make_rows(a, k, size);
    make_workplaces(a, k);
    make_steps(a, k, size);
    make_step_lists(a, k, size);
    return k;
}
