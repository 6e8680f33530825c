/* package.c: understands a datapackage.json: which table is which file, with which columns.
 *
 * Of the Tabular Data Package specification (version 1) we take name, path and the names of schema.fields of each
 * resource; other properties are for other tools and are passed over. What would make another tool read the tables in
 * another way than we do (another dialect or encoding, a table in pieces) is refused.
 */
#include <jansson.h>
#include <string.h>

#include "base/utf8.h"
#include "kit/inside.h"

typedef struct {
    arena *memory;
    faults *faults;
    text file;
    bool of_workshop;
    kit_package *out;
} package_reader;

static void tell(package_reader *r, const char *remedy, const char *format, ...) PRINTF_LIKE(3, 4);
static void tell(package_reader *r, const char *remedy, const char *format, ...) {
    va_list list;
    va_start(list, format);
    text cause = arena_format_list(r->memory, format, list);
    va_end(list);
    fault_add(r->faults, (fault_place){r->file, 0, TEXT("")}, remedy, "%.*s", TEXT_ARG(cause));
}

static text text_at(package_reader *r, const json_t *object, const char *key) {
    const json_t *value = json_object_get(object, key);
    if (!json_is_string(value))
        return TEXT("");
    return arena_text(r->memory, (text){json_string_value(value), json_string_length(value)});
}

/* The columns that schema.fields names. False when it does not. */
static bool read_fields(package_reader *r, const json_t *resource, kit_resource *out) {
    const json_t *fields = json_object_get(json_object_get(resource, "schema"), "fields");
    if (!json_is_array(fields) || !json_array_size(fields)) {
        tell(r, "list the columns of the file in schema.fields", "resource %.*s has no schema with fields",
             TEXT_ARG(out->name));
        return false;
    }
    out->columns = arena_array(r->memory, text, json_array_size(fields));
    for (size_t i = 0; i < json_array_size(fields); i++) {
        text name = text_at(r, json_array_get(fields, i), "name");
        if (!name.len)
            tell(r, "give it the name of the column", "resource %.*s: field %zu of its schema has no name",
                 TEXT_ARG(out->name), i + 1);
        out->columns[out->n_columns++] = name;
    }
    return true;
}

static void check_dialect(package_reader *r, const json_t *resource, text name) {
    const json_t *dialect = json_object_get(resource, "dialect");
    const json_t *delimiter = json_object_get(dialect, "delimiter"),
                 *header = json_object_get(dialect, "header");
    text encoding = text_at(r, resource, "encoding");
    if (delimiter && !(json_is_string(delimiter) && strcmp(json_string_value(delimiter), ",") == 0))
        tell(r, "separate the columns with commas", "resource %.*s has another delimiter than the comma",
             TEXT_ARG(name));
    if (json_is_false(header))
        tell(r, "name the columns in the first row", "resource %.*s has no heading", TEXT_ARG(name));
    if (encoding.len && !text_equal_nocase(encoding, TEXT("utf-8")))
        tell(r, "save the file as CSV (UTF-8)", "resource %.*s is in the encoding \"%.*s\"", TEXT_ARG(name),
             TEXT_ARG(encoding));
}

static bool is_known(package_reader *r, text name) {
    for (uint32_t i = 0; i < r->out->n; i++) {
        if (!text_equal(r->out->list[i].name, name))
            continue;
        tell(r, "keep one of them", "resource %.*s is there twice", TEXT_ARG(name));
        return true;
    }
    return false;
}

static void read_resource(package_reader *r, const json_t *resource, size_t position) {
    kit_resource one = {.name = text_at(r, resource, "name"), .path = text_at(r, resource, "path")};
    if (!one.name.len) {
        tell(r, "give it the name of its table", "resource %zu has no name", position);
        return;
    }
    if (is_known(r, one.name))
        return;
    if (!kit_find_form(one.name.at, r->of_workshop)) {
        text near = kit_nearest_table(r->of_workshop, one.name);
        tell(r, near.len ? arena_format(r->memory, "name it %.*s", TEXT_ARG(near)).at : "remove it",
             "resource %.*s is no table of a %s", TEXT_ARG(one.name), r->of_workshop ? "workshop" : "kit");
        return;
    }
    if (!kit_is_inner_path(one.path)) {
        tell(r, arena_format(r->memory, "name a file of this folder, as %.*s.csv", TEXT_ARG(one.name)).at,
             "resource %.*s has no path to a file in this folder", TEXT_ARG(one.name));
        one.path = TEXT("");
    }
    check_dialect(r, resource, one.name);
    if (!read_fields(r, resource, &one))
        one.n_columns = 0;
    r->out->list[r->out->n++] = one;
}

static void read_root(package_reader *r, const json_t *root) {
    const json_t *resources = json_object_get(root, "resources");
    if (!json_is_array(resources)) {
        tell(r, "add the list of tables", "it has no list \"resources\"");
        return;
    }
    r->out->list = arena_array(r->memory, kit_resource, json_array_size(resources));
    for (size_t i = 0; i < json_array_size(resources); i++)
        read_resource(r, json_array_get(resources, i), i + 1);
    text profile = text_at(r, root, "profile");
    if (!text_is(profile, "tabular-data-package"))
        tell(r, "write \"profile\": \"tabular-data-package\"",
             "its profile is not that of a tabular data package");
}

bool kit_package_read(arena *a, text bytes, text file, bool of_workshop, faults *f, kit_package *out) {
    size_t before = f->n;
    package_reader r = {.memory = a, .faults = f, .file = file, .of_workshop = of_workshop, .out = out};
    *out = (kit_package){0};
    if (text_starts(bytes, TEXT("\xEF\xBB\xBF")))
        bytes = text_slice(bytes, 3, bytes.len);
    json_error_t why;
    json_t *root = json_loadb(bytes.at, bytes.len, JSON_REJECT_DUPLICATES, &why);
    if (!root)
        tell(&r, "mend it, or write it anew with kitbench check --package", "line %d: it is not JSON (%s)",
             why.line, utf8_fault(text_of(why.text)) < 0 ? why.text : "bytes that are not UTF-8");
    else
        read_root(&r, root);
    json_decref(root);
    return f->n == before;
}
