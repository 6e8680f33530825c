/* fuzz_kit.c: any bytes as the tables of a kit and a workshop.
 *
 * The input is cut at lines "=NAME" (a table of the kit), "@NAME" (a table of the workshop) and "{" (a
 * datapackage.json up to the next such line); see seeds/kit. Nothing may crash or hang; a kit that passes must hold what
 * kit.h promises, and its own datapackage.json must be read without a fault.
 */
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "kit/inside.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { MOST_TABLES = 40 };

static void must(bool promised) {
    if (!promised)
        abort();
}

static bool is_cut(text line) {
    return line.len && (line.at[0] == '=' || line.at[0] == '@' || line.at[0] == '{');
}

static text next_line(text *rest) {
    const char *end = memchr(rest->at, '\n', rest->len);
    size_t len = end ? (size_t)(end - rest->at) + 1 : rest->len;
    text line = {rest->at, len};
    *rest = (text){rest->at + len, rest->len - len};
    return line;
}

/* The lines up to the next cut. */
static text next_body(text *rest) {
    text body = {rest->at, 0};
    while (rest->len) {
        text ahead = *rest, line = next_line(&ahead);
        if (is_cut(line))
            break;
        body.len += line.len;
        *rest = ahead;
    }
    return body;
}

static void read_package(arena *a, text head, text body) {
    kit_package package;
    faults f = faults_in(a);
    text whole = arena_format(a, "%.*s%.*s", TEXT_ARG(head), TEXT_ARG(body));
    bool read = kit_package_read(a, whole, TEXT("datapackage.json"), false, &f, &package);
    must(read == (f.n == 0));
}

static void check_kit(arena *a, const kit *k, const kit_tables *tables) {
    const kit_index *order = kit_build_order(a, k);
    bool *seen = arena_array(a, bool, k->n_steps);
    for (uint32_t i = 0; i < k->n_steps; i++) {
        must(order[i] < k->n_steps && !seen[order[i]]);
        seen[order[i]] = true;
    }
    for (uint32_t i = 0; i < k->n_step_after; i++)
        must(k->step_after[i].step < k->n_steps && k->step_after[i].after < k->n_steps);
    for (kit_index i = 0; i < k->n_containers; i++) {
        must(k->containers[kit_box_of(k, i)].kind == KIT_BOX);
        must(kit_find_container(k, k->containers[i].number) == i);
    }
    for (kit_index i = 0; i < k->n_rows; i++)
        must(kit_find_row(k, k->rows[i].container, k->rows[i].line) == i);
    for (kit_index i = 0; i < k->n_parts; i++)
        must(k->n_steps == 0 || kit_needed(k, i) <= kit_packed(k, i));
    must(kit_measure(k).pieces >= 0);
    buf out = {0};
    kit_package package;
    faults f = faults_in(a);
    kit_package_print(a, tables, k->number, k->name, NULL, &out);
    must(kit_package_read(a, buf_text(&out), TEXT("datapackage.json"), false, &f, &package));
    must(package.n == tables->n);
    buf_free(&out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    arena *a = arena_open();
    faults f = faults_in(a);
    kit_table lists[2][MOST_TABLES];
    kit_tables tables[2] = {{lists[0], 0}, {lists[1], 0}};
    text rest = {(const char *)data, size};
    (void)next_body(&rest);
    while (rest.len) {
        text head = next_line(&rest), body = next_body(&rest);
        kit_tables *of = &tables[head.at[0] == '@'];
        if (head.at[0] == '{') {
            read_package(a, head, body);
            continue;
        }
        if (of->n == MOST_TABLES || memchr(head.at, 0, head.len))
            continue;
        kit_table *t = &of->list[of->n++];
        text name = arena_text(a, text_trim(text_slice(head, 1, head.len)));
        *t = (kit_table){.name = name, .file = name};
        kit_table_from_bytes(a, body, &f, t);
    }
    bool readable = f.n == 0;
    const kit *k;
    const kit_workshop *w;
    bool whole = kit_read_and_check(a, &tables[0], tables[1].n ? &tables[1] : NULL, &f, &k, &w) && readable;
    must(whole == (f.n == 0));
    if (whole)
        check_kit(a, k, &tables[0]);
    faults_sort(&f);
    arena_close(a);
    return 0;
}
