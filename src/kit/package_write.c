/* package_write.c: describes tables as a tabular data package, from the forms.
 *
 * Source: Data Package, Tabular Data Resource and Table Schema, version 1 (specs.frictionlessdata.io).
 */
#include "kit/inside.h"

#include "base/json_out.h"
#include "base/sys.h"

static const kit_table *find_table(const kit_tables *tables, const char *name) {
    for (uint32_t i = 0; i < tables->n; i++)
        if (text_is(tables->list[i].name, name))
            return &tables->list[i];
    return NULL;
}

static text table_path(arena *a, const kit_table *t) {
    return t->path.len ? t->path : arena_format(a, "%.*s.csv", TEXT_ARG(t->name));
}

/* The key that a reference names: a number for sessions, a text for all else. */
static const kit_column *key_of(const kit_column *c) {
    const kit_table_form *form = kit_find_form(c->refers_to, false);
    return form ? &form->columns[0] : &kit_find_form(c->refers_to, true)->columns[0];
}

static const char *field_type(const kit_column *c) {
    switch (c->kind) {
    case KIT_CELL_INTEGER:
        return "integer";
    case KIT_CELL_DECIMAL:
        return "number";
    case KIT_CELL_YES_NO:
        return "boolean";
    case KIT_CELL_DAY:
        return "date";
    case KIT_CELL_REFERENCE:
        return field_type(key_of(c));
    case KIT_CELL_KEY:
    case KIT_CELL_TEXT:
    case KIT_CELL_WORD:
    case KIT_CELL_REFERENCES:
    case KIT_CELL_TEXTS:
    case KIT_CELL_INTEGERS:
    case KIT_CELL_CLOCK:
        break;
    }
    return "string";
}

static void add_constraints(json_out *j, const kit_column *c) {
    json_put_object(j, "constraints");
    if (c->required)
        json_put_bool(j, "required", true);
    if (c->kind == KIT_CELL_INTEGER || c->kind == KIT_CELL_DECIMAL) {
        json_put_decimal(j, "minimum", c->low, c->scale);
        json_put_decimal(j, "maximum", c->high, c->scale);
    }
    if (c->kind == KIT_CELL_CLOCK)
        json_put_text(j, "pattern", TEXT("^([01][0-9]|2[0-3]):[0-5][0-9]$|^24:00$"));
    if (c->kind == KIT_CELL_WORD) {
        text rest = text_of(c->words), word;
        json_put_array(j, "enum");
        while (text_next_piece(&rest, '|', &word))
            json_put_text(j, NULL, word);
        json_end_array(j);
    }
    json_end_object(j);
}

static void add_one_word(json_out *j, const char *key, const char *word) {
    json_put_array(j, key);
    json_put_text(j, NULL, text_of(word));
    json_end_array(j);
}

static void add_field(json_out *j, const kit_column *c) {
    json_put_object(j, NULL);
    json_put_text(j, "name", text_of(c->name));
    json_put_text(j, "type", text_of(field_type(c)));
    json_put_text(j, "description", text_of(c->meaning));
    if (c->kind == KIT_CELL_YES_NO) {
        add_one_word(j, "trueValues", "yes");
        add_one_word(j, "falseValues", "no");
    }
    if (c->required || c->kind == KIT_CELL_INTEGER || c->kind == KIT_CELL_DECIMAL ||
        c->kind == KIT_CELL_CLOCK || c->kind == KIT_CELL_WORD)
        add_constraints(j, c);
    json_end_object(j);
}

static const kit_column *find_column(const kit_table_form *form, text name) {
    for (uint32_t i = 0; i < form->n_columns; i++)
        if (text_is(name, form->columns[i].name))
            return &form->columns[i];
    return NULL;
}

/* A reference that another tool can follow: one key, in a table of the same package. */
static bool is_foreign_key(const kit_tables *tables, const kit_table_form *form, const kit_column *c) {
    return c && c->kind == KIT_CELL_REFERENCE && kit_find_form(c->refers_to, form->of_workshop) &&
           find_table(tables, c->refers_to) && !(form->of_workshop && kit_find_form(c->refers_to, false));
}

static void add_foreign_key(json_out *j, const kit_table_form *form, const kit_column *c) {
    const kit_table_form *other = kit_find_form(c->refers_to, form->of_workshop);
    json_put_object(j, NULL);
    json_put_text(j, "fields", text_of(c->name));
    json_put_object(j, "reference");
    json_put_text(j, "resource",
                  other == form ? TEXT("") : text_of(other->name)); /* empty: the table itself */
    json_put_text(j, "fields", text_of(other->columns[0].name));
    json_end_object(j);
    json_end_object(j);
}

static void add_keys(json_out *j, const kit_tables *tables, const kit_table *t, const kit_table_form *form) {
    if (form->key[0]) {
        text rest = text_of(form->key), column;
        json_put_array(j, "primaryKey");
        while (text_next_piece(&rest, '+', &column))
            json_put_text(j, NULL, column);
        json_end_array(j);
    }
    bool any = false;
    for (uint32_t i = 0; i < t->n_columns; i++) {
        const kit_column *c = find_column(form, t->columns[i]);
        if (!is_foreign_key(tables, form, c))
            continue;
        if (!any)
            json_put_array(j, "foreignKeys");
        any = true;
        add_foreign_key(j, form, c);
    }
    if (any)
        json_end_array(j);
}

static void add_resource(arena *a, json_out *j, const kit_tables *tables, const kit_table *t,
                         const kit_table_form *form) {
    json_put_object(j, NULL);
    json_put_text(j, "name", text_of(form->name));
    json_put_text(j, "path", table_path(a, t));
    json_put_text(j, "profile", TEXT("tabular-data-resource"));
    json_put_text(j, "description", text_of(form->meaning));
    json_put_text(j, "encoding", TEXT("utf-8"));
    json_put_object(j, "schema");
    json_put_array(j, "fields");
    for (uint32_t i = 0; i < t->n_columns; i++) {
        const kit_column *c = find_column(form, t->columns[i]);
        if (c)
            add_field(j, c);
    }
    json_end_array(j);
    add_keys(j, tables, t, form);
    json_end_object(j);
    json_end_object(j);
}

/* "Dome kit 7/B" gives "dome-kit-7-b". */
static text package_name(arena *a, text name) {
    char *made = arena_alloc(a, name.len + 8);
    size_t n = 0;
    for (size_t i = 0; i < name.len; i++) {
        char c = name.at[i];
        bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
        if (c >= 'A' && c <= 'Z')
            made[n++] = (char)(c + 32);
        else if (plain)
            made[n++] = c;
        else if (n && made[n - 1] != '-')
            made[n++] = '-';
    }
    while (n && made[n - 1] == '-')
        n--;
    return n ? (text){made, n} : TEXT("kit");
}

void kit_package_print(arena *a, const kit_tables *tables, text name, text title, const char *old, buf *out) {
    bool of_workshop = find_table(tables, "workshop") || find_table(tables, "crew");
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_text(&j, "profile", TEXT("tabular-data-package"));
    json_put_text(&j, "name", package_name(a, name));
    if (title.len)
        json_put_text(&j, "title", title);
    if (old)
        kit_package_keep(a, old, out);
    json_put_array(&j, "resources");
    for (uint32_t i = 0; i < n; i++) {
        const kit_table *t = find_table(tables, forms[i].name);
        if (t && forms[i].of_workshop == of_workshop)
            add_resource(a, &j, tables, t, &forms[i]);
    }
    json_end_array(&j);
    json_end_object(&j);
}

static const char *path_in(arena *a, const char *folder, text name) {
    return arena_format(a, "%s/%.*s", folder, TEXT_ARG(name)).at;
}

static bool write_package(arena *a, const char *folder, const kit_tables *tables, text name, text title,
                          bool keep, err *e) {
    const char *path = path_in(a, folder, TEXT("datapackage.json"));
    buf out = {0};
    if (keep) {
        name = kit_package_old_text(a, path, "name", name);
        title = kit_package_old_text(a, path, "title", title);
    }
    kit_package_print(a, tables, name, title, keep ? path : NULL, &out);
    bool ok = sys_write_file(path, buf_text(&out), e);
    buf_free(&out);
    return ok;
}

bool kit_write_package(const char *folder, const kit_tables *tables, text name, text title, err *e) {
    arena *a = arena_open();
    bool ok = write_package(a, folder, tables, name, title, true, e);
    arena_close(a);
    return ok;
}

static void print_csv(const kit_table *t, buf *out) {
    for (uint32_t i = 0; i < t->n_columns; i++) {
        buf_add_z(out, i ? "," : "");
        buf_add_csv(out, t->columns[i]);
    }
    buf_add_z(out, "\r\n");
    for (size_t cell = 0; cell < (size_t)t->n_rows * t->n_columns; cell++) {
        buf_add_csv(out, t->cells[cell]);
        buf_add_z(out, (cell + 1) % t->n_columns ? "," : "\r\n");
    }
}

bool kit_write_folder(const char *folder, const kit_tables *tables, text name, text title, err *e) {
    arena *a = arena_open();
    bool ok = sys_make_folder(folder, e);
    for (uint32_t i = 0; ok && i < tables->n; i++) {
        buf out = {0};
        print_csv(&tables->list[i], &out);
        ok = sys_write_file(path_in(a, folder, table_path(a, &tables->list[i])), buf_text(&out), e);
        buf_free(&out);
    }
    ok = ok && write_package(a, folder, tables, name, title, false, e);
    arena_close(a);
    return ok;
}
