/* folder.c: from a folder with datapackage.json and CSV files to raw tables.
 *
 * A record that cannot be read (bad quoting, bytes that are not UTF-8, too many cells) is left out, its table is
 * marked as damaged, and reading goes on, so that all other faults are found in the same run.
 */
#include <string.h>

#include "base/csv.h"
#include "base/sys.h"
#include "base/utf8.h"
#include "kit/inside.h"

#define FILE_LIMIT ((size_t)64 << 20)
enum { MOST_CELLS = 1000 };

typedef struct {
    arena *memory;
    faults *faults;
    const char *folder;
    text prefix; /* before file names in faults: "workshop/" or nothing */
    bool of_workshop;
    kit_package package;
    bool package_read; /* it is there and could be understood */
    kit_tables *out;
    size_t cap;
    err *broken; /* a file that is there and cannot be read: that is no fault of the kit */
} folder_reader;

static text fault_file(const folder_reader *r, text path) {
    return arena_format(r->memory, "%.*s%.*s", TEXT_ARG(r->prefix), TEXT_ARG(path));
}

static const char *path_in(const folder_reader *r, text path) {
    return arena_format(r->memory, "%s/%.*s", r->folder, TEXT_ARG(path)).at;
}

/* Reads one file of the folder. What is wrong with its bytes, or that it is too large, becomes a fault. */
static bool read_file(folder_reader *r, text path, text file, text *bytes) {
    err e = {0};
    if (sys_read_file(r->memory, path_in(r, path), FILE_LIMIT, bytes, &e))
        return true;
    if (e.kind == ERR_RUN)
        *r->broken = e;
    else
        fault_add(r->faults, (fault_place){file, 0, TEXT("")}, e.remedy, "%s", e.cause);
    return false;
}

/* "demo/crew/" gives "crew/", "." gives "workshop/". */
static text prefix_of(arena *a, const char *folder) {
    text name = text_of(folder);
    while (name.len && name.at[name.len - 1] == '/')
        name.len--;
    for (size_t i = name.len; i-- > 0;) {
        if (name.at[i] != '/')
            continue;
        name = text_slice(name, i + 1, name.len);
        break;
    }
    if (!name.len || text_is(name, ".") || text_is(name, "..") || utf8_fault(name) >= 0)
        name = TEXT("workshop");
    return arena_format(a, "%.*s/", TEXT_ARG(name));
}

/* --- one table --- */

typedef struct {
    arena *memory;
    faults *faults;
    kit_table *table;
    size_t next_fault, last_fault; /* the faults of its CSV, in the list */
    bool bad_bytes; /* some of them are told by line only: bytes that are not UTF-8, NUL bytes */
} table_maker;

static void tell_row(table_maker *m, uint32_t row, const char *remedy, const char *format, ...)
    PRINTF_LIKE(4, 5);
static void tell_row(table_maker *m, uint32_t row, const char *remedy, const char *format, ...) {
    va_list list;
    va_start(list, format);
    text cause = arena_format_list(m->memory, format, list);
    va_end(list);
    m->table->damaged = true;
    fault_add(m->faults, (fault_place){m->table->file, row, TEXT("")}, remedy, "%.*s", TEXT_ARG(cause));
}

/* True when the CSV reader found fault with this record. Records and faults both come in the order of rows. */
static bool is_broken(table_maker *m, const csv_record *record) {
    const fault *list = m->faults->list;
    if (m->next_fault == m->last_fault && !m->bad_bytes)
        return false;
    while (m->next_fault < m->last_fault && list[m->next_fault].place.row < record->row)
        m->next_fault++;
    if (m->next_fault < m->last_fault && list[m->next_fault].place.row == record->row)
        return true;
    for (uint32_t i = 0; m->bad_bytes && i < record->n; i++) {
        text t = record->cells[i].value;
        if (utf8_fault(t) >= 0 || (t.len && memchr(t.at, 0, t.len)))
            return true;
    }
    return false;
}

static bool is_empty(const csv_record *record) {
    for (uint32_t i = 0; i < record->n; i++)
        if (text_trim(record->cells[i].value).len)
            return false;
    return true;
}

static size_t count_char(text t, char c) {
    size_t n = 0;
    for (size_t i = 0; i < t.len; i++)
        n += t.at[i] == c;
    return n;
}

/* A heading that commas do not part, but semicolons or tabs do. */
static bool check_separator(table_maker *m, const csv_record *heading) {
    size_t semicolons = 0, tabs = 0;
    for (uint32_t i = 0; i < heading->n; i++) {
        semicolons += count_char(heading->cells[i].value, ';');
        tabs += count_char(heading->cells[i].value, '\t');
    }
    if (semicolons < heading->n && tabs < heading->n)
        return true;
    tell_row(m, 1, "save it again as CSV with commas", "the columns are parted by %s",
             semicolons >= heading->n ? "semicolons" : "tabs");
    return false;
}

static bool read_heading(table_maker *m, const csv_table *csv) {
    kit_table *t = m->table;
    if (!csv->n || is_empty(&csv->records[0])) {
        tell_row(m, 1, "name the columns in the first row",
                 csv->n ? "the heading is empty" : "the file is empty");
        return false;
    }
    const csv_record *heading = &csv->records[0];
    if (is_broken(m, heading) || !check_separator(m, heading))
        return false;
    if (heading->n > MOST_CELLS) {
        tell_row(m, 1, "is it the right file?", "it has %u columns", heading->n);
        return false;
    }
    t->n_columns = heading->n;
    t->columns = arena_array(m->memory, text, heading->n);
    for (uint32_t i = 0; i < heading->n; i++)
        t->columns[i] = text_trim(heading->cells[i].value);
    return true;
}

static void add_record(table_maker *m, const csv_record *record) {
    kit_table *t = m->table;
    if (is_broken(m, record) || is_empty(record))
        return;
    if (record->n != t->n_columns) {
        tell_row(m, record->row,
                 record->n > t->n_columns ? "put a cell that holds a comma in quotes"
                                          : "write the commas of the empty cells, too",
                 "it has %u cell%s, the heading has %u", record->n, record->n == 1 ? "" : "s", t->n_columns);
        return;
    }
    for (uint32_t i = 0; i < record->n; i++)
        t->cells[(size_t)t->n_rows * t->n_columns + i] = text_trim(record->cells[i].value);
    t->row_numbers[t->n_rows++] = record->row;
}

void kit_table_from_bytes(arena *a, text bytes, faults *f, kit_table *t) {
    table_maker m = {.memory = a, .faults = f, .table = t, .next_fault = f->n};
    csv_table csv;
    if (!csv_read(a, bytes, ',', t->file, f, &csv))
        t->damaged = true;
    m.last_fault = f->n;
    m.bad_bytes = m.next_fault < m.last_fault && f->list[m.next_fault].place.row == 0;
    if (!read_heading(&m, &csv)) {
        t->damaged = true;
        return;
    }
    t->cells = arena_array(a, text, csv.n * t->n_columns);
    t->row_numbers = arena_array(a, uint32_t, csv.n);
    for (size_t i = 1; i < csv.n; i++)
        add_record(&m, &csv.records[i]);
}

/* Reads the file of a table; what cannot be read becomes a damaged table without rows. */
static kit_table *read_table(folder_reader *r, text name, text path) {
    size_t n = r->out->n;
    arena_room(r->memory, r->out->list, n, r->cap, kit_table);
    kit_table *t = &r->out->list[r->out->n++];
    *t = (kit_table){.name = name, .path = path, .file = fault_file(r, path)};
    text bytes;
    if (read_file(r, path, t->file, &bytes))
        kit_table_from_bytes(r->memory, bytes, r->faults, t);
    else
        t->damaged = true;
    return t;
}

/* --- the folder --- */

static void check_fields(folder_reader *r, const kit_resource *resource, const kit_table *t) {
    fault_place place = {fault_file(r, TEXT("datapackage.json")), 0, TEXT("")};
    if (!resource->n_columns || !t->n_columns)
        return;
    for (uint32_t i = 0; i < resource->n_columns || i < t->n_columns; i++) {
        text listed = i < resource->n_columns ? resource->columns[i] : TEXT("");
        text there = i < t->n_columns ? t->columns[i] : TEXT("");
        if (text_equal(listed, there) || (i < resource->n_columns && !listed.len))
            continue; /* a field without a name has been told */
        fault_add(r->faults, place,
                  "list the columns of the file in its order, or use kitbench check --package",
                  "resource %.*s: column %u is \"%.*s\" in the schema and \"%.*s\" in the file",
                  TEXT_ARG(t->name), i + 1, TEXT_ARG(listed), TEXT_ARG(there));
        return;
    }
}

static void read_package(folder_reader *r) {
    text path = TEXT("datapackage.json"), file = fault_file(r, path), bytes;
    if (!sys_exists(path_in(r, path))) {
        fault_add(r->faults, (fault_place){file, 0, TEXT("")}, "write it with kitbench check --package",
                  "the file is not there, but it is needed");
        return;
    }
    if (read_file(r, path, file, &bytes) &&
        kit_package_read(r->memory, bytes, file, r->of_workshop, r->faults, &r->package))
        r->package_read = true;
}

static void read_listed(folder_reader *r) {
    for (uint32_t i = 0; i < r->package.n; i++) {
        const kit_resource *one = &r->package.list[i];
        if (!one->path.len)
            continue;
        if (sys_exists(path_in(r, one->path))) {
            const kit_table *t = read_table(r, one->name, one->path);
            check_fields(r, one, t);
            continue;
        }
        fault_add(r->faults, (fault_place){fault_file(r, TEXT("datapackage.json")), 0, TEXT("")},
                  "add the file, or remove the resource",
                  "resource %.*s names the file \"%.*s\", which is not there", TEXT_ARG(one->name),
                  TEXT_ARG(one->path));
    }
}

static bool is_listed(const folder_reader *r, text file) {
    for (uint32_t i = 0; i < r->package.n; i++)
        if (text_equal(r->package.list[i].path, file))
            return true;
    return false;
}

static bool is_read(const folder_reader *r, text table) {
    for (uint32_t i = 0; i < r->out->n; i++)
        if (text_equal(r->out->list[i].name, table))
            return true;
    return false;
}

/* Also "PARTS.CSV", which some systems make of it; that is not "parts.csv" on others. */
static bool is_csv(text file) {
    return file.len > 4 && text_equal_nocase(text_slice(file, file.len - 4, file.len), TEXT(".csv")) &&
           utf8_fault(file) < 0;
}

/* A table that the package does not list: told, and read all the same, so that its faults are found, too. */
static void read_unlisted(folder_reader *r, text file) {
    text name = arena_text(r->memory, text_slice(file, 0, file.len - 4));
    fault_place place = {fault_file(r, file), 0, TEXT("")};
    bool known = kit_find_form(name.at, r->of_workshop) != NULL && text_ends(file, TEXT(".csv"));
    text near = kit_nearest_table(r->of_workshop, name);
    if (!known) {
        text remedy = near.len ? arena_format(r->memory, "name it %.*s.csv", TEXT_ARG(near))
                               : TEXT("take it out of the folder");
        fault_add(r->faults, place, remedy.at, "it is no table of a %s", r->of_workshop ? "workshop" : "kit");
        return;
    }
    if (r->package_read)
        fault_add(r->faults, place, "list it there, or use kitbench check --package",
                  "datapackage.json does not list it");
    if (!is_read(r, name))
        (void)read_table(r, name, file);
}

static bool has_file(const text *files, size_t n, const char *name) {
    for (size_t i = 0; i < n; i++)
        if (text_is(files[i], name))
            return true;
    return false;
}

/* One sentence instead of a fault for each of its tables. */
static bool refuse_other_folder(const char *folder, bool workshop, const text *files, size_t n, err *e) {
    bool parts = has_file(files, n, "kit.csv") && has_file(files, n, "parts.csv");
    bool crew = has_file(files, n, "crew.csv");
    if (workshop && parts && !crew)
        return !err_input(e, folder, "name the workshop's own folder, which holds crew.csv",
                          "it is a kit's folder, not a workshop's");
    if (!workshop && crew && !parts)
        return !err_input(e, folder, "name the kit's folder, which holds parts.csv",
                          "it is a workshop's folder, not a kit's");
    return false;
}

bool kit_tables_from_folder(arena *a, const char *folder, bool workshop, faults *f, kit_tables *out, err *e) {
    size_t before = f->n, n_files;
    text *files;
    *e = (err){0};
    *out = (kit_tables){0};
    if (!sys_list_folder(a, folder, &files, &n_files, e) ||
        refuse_other_folder(folder, workshop, files, n_files, e))
        return false;
    folder_reader r = {.memory = a,
                       .faults = f,
                       .folder = folder,
                       .prefix = workshop ? prefix_of(a, folder) : TEXT(""),
                       .of_workshop = workshop,
                       .out = out,
                       .broken = e};
    read_package(&r);
    read_listed(&r);
    for (size_t i = 0; i < n_files; i++)
        if (is_csv(files[i]) && !is_listed(&r, files[i]))
            read_unlisted(&r, files[i]);
    return e->kind == ERR_NONE && f->n == before;
}
