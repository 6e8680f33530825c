/* cmd_check.c: `kitbench check` */
#include "base/json_out.h"
#include "cli/commands.h"
#include "kit/kit.h"

static void print_json(buf *out, const kit *k, const kit_workshop *w) {
    kit_size s = kit_measure(k);
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "faults");
    json_end_array(&j);
    json_put_text(&j, "kit", k->number);
    json_put_text(&j, "name", k->name);
    json_put_text(&j, "serial", k->serial);
    json_put_text(&j, "revision", k->revision);
    json_put_integer(&j, "boxes", s.boxes);
    json_put_integer(&j, "bags", s.bags);
    json_put_integer(&j, "parts", s.parts);
    json_put_integer(&j, "rows", s.rows);
    json_put_integer(&j, "pieces", s.pieces);
    json_put_integer(&j, "tools", s.tools);
    json_put_integer(&j, "sub_assemblies", s.sub_assemblies);
    json_put_integer(&j, "steps", s.steps);
    json_put_integer(&j, "tests", s.tests);
    json_put_integer(&j, "hold_points", s.hold_points);
    json_put_integer(&j, "person_min", s.person_min);
    if (w) {
        json_put_integer(&j, "crew", w->n_crew);
        json_put_integer(&j, "sessions", w->n_sessions);
    }
    json_end_object(&j);
}

/* "8 boxes", "1 box" */
static void add_count(buf *out, const char *before, int64_t n, const char *one, const char *many) {
    buf_addf(out, "%s%lld %s", before, (long long)n, n == 1 ? one : many);
}

static void print_text(buf *out, const kit *k, const kit_workshop *w) {
    kit_size s = kit_measure(k);
    buf_addf(out, "%.*s\n  kit       %.*s", TEXT_ARG(k->name), TEXT_ARG(k->number));
    if (k->serial.len)
        buf_addf(out, ", serial %.*s", TEXT_ARG(k->serial));
    if (k->revision.len)
        buf_addf(out, ", revision %.*s", TEXT_ARG(k->revision));
    add_count(out, "\n  packed    ", s.boxes, "box", "boxes");
    add_count(out, ", ", s.bags, "bag", "bags");
    add_count(out, ", ", s.rows, "row", "rows");
    add_count(out, ", ", s.pieces, "piece", "pieces");
    if (s.steps) {
        add_count(out, "\n  build     ", s.steps, "step", "steps");
        add_count(out, ", ", s.sub_assemblies, "sub-assembly", "sub-assemblies");
        buf_addf(out, ", %lld.%lld person-hours", (long long)(s.person_min / 60),
                 (long long)(s.person_min % 60 / 6));
        add_count(out, ",\n            ", s.tests, "test", "tests");
        add_count(out, ", ", s.hold_points, "hold point", "hold points");
        add_count(out, ", ", s.tools, "tool", "tools");
    } else {
        buf_add_z(out, "\n  build     no steps: it can be counted and reported, but not planned");
    }
    if (w) {
        add_count(out, "\n  workshop  ", w->n_crew, "person", "people");
        add_count(out, ", ", w->n_sessions, "session", "sessions");
    }
    buf_add_z(out, "\nNo fault found.\n");
}

/* Other faults than those of the package itself are told by the reading that follows. */
static bool write_package(arena *a, const char *folder, bool workshop, err *e) {
    faults passed_over = faults_in(a);
    kit_tables tables;
    if (!kit_tables_from_folder(a, folder, workshop, &passed_over, &tables, e) && e->kind != ERR_NONE)
        return false;
    text name = workshop ? TEXT("workshop") : TEXT("kit"), title = TEXT("");
    for (uint32_t i = 0; i < tables.n; i++) {
        const kit_table *t = &tables.list[i];
        if (!text_equal(t->name, name) || t->n_rows != 1)
            continue;
        for (uint32_t c = 0; c < t->n_columns; c++) {
            if (text_is(t->columns[c], "kit"))
                name = t->cells[c];
            if (text_is(t->columns[c], "name"))
                title = t->cells[c];
        }
        break;
    }
    return kit_write_package(folder, &tables, name, title, e);
}

int cmd_check(cli_call *call) {
    const char *kit_folder = call->arguments[0], *workshop_folder = cli_value(call, "workshop");
    err e = {0};
    if (cli_given(call, "package") &&
        !(write_package(call->memory, kit_folder, false, &e) &&
          (!workshop_folder || write_package(call->memory, workshop_folder, true, &e))))
        return cli_fail(&e);
    faults f = faults_in(call->memory);
    const kit *k;
    const kit_workshop *w;
    if (!kit_read(call->memory, kit_folder, workshop_folder, &f, &k, &w, &e))
        return e.kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(&e);
    buf out = {0};
    if (call->json)
        print_json(&out, k, w);
    else
        print_text(&out, k, w);
    return cli_print(&out, EXIT_DONE);
}
