#include "sample.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/buf.h"
#include "base/csv.h"

/* Invented; the designations are in the standards' own form. */
static const char parts[] =
    "part,name,designation,makers_numbers\n"
    "F-0625,Hexagon socket screw,ISO 4762 M6x25-8.8,SK 625-88\n"
    "F-0620,Hexagon socket screw,ISO 4762 M6x20-8.8,SK 620-88\n"
    "W-06,\"%.*s\",ISO 7089-6-200HV,\n"
    "N-06,Self-locking nut,ISO 7040 M6-8,NL 06; NL-06-8\n"
    "P-113,\"Roller carriage, left hand, with its two rollers and the retaining pin\",,RC-L 113\n"
    "P-114,\"גלגלת מתכת, שמאל\",,RC-R 114\n"
    "P-115,Führungsrolle Ø 62 – příliš žluťoučký kůň,,FR 62\n"
    "P-116,بكرة الحبل,,ROPE 8 mm\n"
    "P-117,\"螺栓, bolt\",,LB 12\n";
static const char *const numbers[] = {"F-0625", "F-0620", "W-06",  "N-06", "P-113",
                                      "P-114",  "P-115",  "P-116", "P-117"};
enum { N_PARTS = sizeof numbers / sizeof numbers[0] };

typedef struct {
    arena *a;
    kit_table *list;
    uint32_t n;
} tables;

/* Takes the buffer's CSV as a table; the buffer is freed. */
static void add_table(tables *t, const char *name, buf *csv) {
    text copy = arena_text(t->a, buf_text(csv));
    buf_free(csv);
    faults f = faults_in(t->a);
    csv_table read;
    bool ok = csv_read(t->a, copy, ',', text_of(name), &f, &read);
    assert(ok);
    (void)ok;
    kit_table *to = &t->list[t->n++];
    to->name = to->file = text_of(name);
    to->n_columns = read.records[0].n;
    to->n_rows = (uint32_t)read.n - 1;
    to->columns = arena_array(t->a, text, to->n_columns);
    to->cells = arena_array(t->a, text, (size_t)to->n_columns * to->n_rows);
    to->row_numbers = arena_array(t->a, uint32_t, to->n_rows);
    for (uint32_t c = 0; c < to->n_columns; c++)
        to->columns[c] = read.records[0].cells[c].value;
    for (uint32_t r = 0; r < to->n_rows; r++) {
        to->row_numbers[r] = r + 2;
        for (uint32_t c = 0; c < read.records[r + 1].n; c++)
            to->cells[(size_t)r * to->n_columns + c] = read.records[r + 1].cells[c].value;
    }
}

static void add_plain(tables *t, const char *name, const char *csv) {
    buf b = {0};
    buf_add_z(&b, csv);
    add_table(t, name, &b);
}

static void add_parts(tables *t, text long_name) {
    text name = long_name.len ? long_name : TEXT("Washer");
    buf b = {0};
    buf_addf(&b, parts, TEXT_ARG(name));
    add_table(t, "parts", &b);
}

static void add_containers(tables *t, sample_size size) {
    buf b = {0};
    buf_add_z(&b, "container,name,kind,inside,gross_mass_kg,label,lift_people\n");
    for (uint32_t i = 0; i < size.boxes; i++)
        buf_addf(&b, "box %u,Carriages and guides,box,,24.6,,%d\n", i + 1, i == 0 ? 2 : 0);
    for (uint32_t i = 0; i < size.bags; i++)
        buf_addf(&b, "B%u,%.*s,bag,box %u,0.42,lot 7,\n", i + 1,
                 TEXT_ARG(size.long_name.len && i == 1 ? size.long_name : TEXT("Fasteners for the ring")),
                 1 + (size.boxes ? i % size.boxes : 0));
    add_table(t, "containers", &b);
}

static void add_rows(tables *t, sample_size size) {
    buf b = {0};
    buf_add_z(&b, "container,line,part,quantity,spare\n");
    uint32_t n = size.bags ? size.bags : size.boxes;
    if (n == 0)
        n = 1;
    for (uint32_t i = 0; i < size.rows; i++) {
        buf_addf(&b, "%s%u,%u,%s,%u,%d\n", size.bags ? "B" : "box ", 1 + i % n, 1 + i / n,
                 numbers[i % N_PARTS], 4 + i % 9, i % 5 == 0);
    }
    add_table(t, "rows", &b);
}

static void add_workshop_words(tables *t) {
    add_plain(t, "works", "work,name\nstriking,striking pins\nassembly,assembly\nlive,work under voltage\n");
    add_plain(t, "zones",
              "zone,name,kind,groups\nbench,Bench with vice,workplace,2\neast,East side,zone,1\n");
    add_plain(t, "sub_assemblies", "sub_assembly,name,buffer_min\ncarriages,Roller carriages,30\n");
    add_plain(
        t, "tools",
        "tool,name,size,needed,protective\nhex-5,Hexagon key,5 mm,2,no\ntw-25,Torque wrench,5 to 25 N m,1,no\n"
        "goggles,Goggles,,6,yes\n");
    add_plain(t, "consumables", "consumable,name,quantity,unit\nlock,\"Thread locker, medium\",10,ml\n");
    add_plain(t, "skills", "skill,name\ntorque,tightening by torque\n");
}

static void add_steps(tables *t, sample_size size) {
    static const char *const supervision[] = {"in the room", "beside the work", "adult does it"};
    buf b = {0};
    buf_add_z(&b, "step,name,sub_assembly,work,low_min,likely_min,high_min,people,supervision,zone,may_pause,"
                  "safe_state,resume_min,change_over_min,delay_min,delay_text,wear,not_wear,not_beside,page,"
                  "instruction\n");
    for (uint32_t i = 0; i < size.steps; i++) {
        text name =
            size.long_name.len && i == 1 ? size.long_name : TEXT("Fit the rollers and strike the pins home");
        buf_addf(&b, "S%02u,%.*s,%s,%s,20,30,50,2,%s,%s,%s,", i + 1, TEXT_ARG(name), i % 2 ? "" : "carriages",
                 i % 2 ? "assembly" : "striking", supervision[i % 3], i % 2 ? "east" : "bench",
                 i % 2 ? "no" : "yes");
        buf_addf(&b, "pins home or out; never half-way,5,10; 20,%d,%s,", i % 3 == 1 ? 720 : 0,
                 i % 3 == 1 ? "cures at 15 °C or more" : "");
        buf_add_z(
            &b,
            "\"goggles, everyone within 3 m; closed shoes\",gloves; rings or loose hair,live,14,"
            "\"Grease both axles thinly. Set a roller between the cheeks, line up the holes and start the "
            "pin by hand.\nStrike the pin home with the soft-faced hammer until its shoulder sits.\n"
            "Spin the roller: it runs free without play.\"\n");
    }
    add_table(t, "steps", &b);
}

static void add_step_lists(tables *t, sample_size size) {
    buf after = {0}, drawn = {0}, tools = {0}, cautions = {0}, tests = {0};
    buf_add_z(&after, "step,after\n");
    buf_add_z(&drawn, "step,part,quantity,tightening,torque_nm,condition,order,closed_by\n");
    buf_add_z(&tools, "step,tool,quantity\n");
    buf_add_z(&cautions, "step,hazard,who,control\n");
    buf_add_z(&tests, "step,what,unit,low,high,hold_point,signed_by\n");
    for (uint32_t i = 1; i <= size.steps; i++) {
        if (i > 1)
            buf_addf(&after, "S%02u,S%02u\n", i, i - 1);
        buf_addf(&drawn,
                 "S%02u,F-0625,4,torque,9.5,thread-locked,\"crosswise, twice\",\nS%02u,W-06,8,none,,,,\n", i,
                 i);
        if (i < size.steps)
            buf_addf(&drawn, "S%02u,N-06,4,loose,,,,S%02u\n", i, size.steps);
        else
            buf_addf(&drawn, "S%02u,N-06,4,hand,,,,\n", i);
        buf_addf(&tools, "S%02u,hex-5,1\nS%02u,tw-25,2\nS%02u,goggles,3\n", i, i, i);
        buf_addf(
            &cautions,
            "S%02u,splinters fly when the pin is struck,everyone within 3 m,\"goggles on, others stand behind "
            "the line\"\n",
            i);
        buf_addf(&tests,
                 "S%02u,gap between roller and cheek,mm,0.2,0.8,no,supervisor\n"
                 "S%02u,every pin sits on its shoulder,,,,yes,leader\n",
                 i, i);
    }
    add_table(t, "step_after", &after);
    add_table(t, "step_parts", &drawn);
    add_table(t, "step_tools", &tools);
    add_table(t, "step_cautions", &cautions);
    add_table(t, "step_tests", &tests);
}

const kit *sample_kit(arena *a, sample_size size) {
    tables t = {.a = a, .list = arena_array(a, kit_table, 20)};
    add_plain(&t, "kit",
              "kit,name,serial,revision,maker,contact,report_within_days,carrier_within_days\n"
              "ring,Turning ring,0007,C,Ring and Roller Works (invented),parts@example.org,14,7\n");
    add_parts(&t, size.long_name);
    add_containers(&t, size);
    add_rows(&t, size);
    add_workshop_words(&t);
    add_steps(&t, size);
    add_step_lists(&t, size);
    faults f = faults_in(a);
    const kit *k = NULL;
    if (!kit_from_tables(a, &(kit_tables){.list = t.list, .n = t.n}, &f, &k)) {
        for (size_t i = 0; i < f.n; i++)
            fprintf(stderr, "%.*s: %.*s; %.*s\n", TEXT_ARG(fault_place_text(a, f.list[i].place)),
                    TEXT_ARG(f.list[i].cause), TEXT_ARG(f.list[i].remedy));
        abort();
    }
    return k;
}
