/* draft_report.c: how a list was read, for people and as JSON. */
#include "cli/draft_report.h"

#include "base/json_out.h"
#include "base/number.h"
#include "base/utf8.h"
#include "base/wrap.h"

enum { COLUMNS = 80 };

/* A line that begins with `head`; what does not fit goes on under its end. */
static void add_line(buf *out, arena *a, text head, text rest) {
    wrap_add(out, arena_format(a, "%.*s%.*s", TEXT_ARG(head), TEXT_ARG(rest)), COLUMNS, utf8_width(head));
}

static const char *separator_word(char separator) {
    return separator == ',' ? "comma" : separator == ';' ? "semicolon" : "tab";
}

static const char *mark_word(draft_mark mark) {
    return mark == DRAFT_POINT ? "point" : mark == DRAFT_COMMA ? "comma" : "none";
}

static void add_guess(buf *out, arena *a, const char *what, const char *value, draft_reason reason) {
    add_line(out, a, arena_format(a, "  %-13s", what),
             arena_format(a, "%s (%s: %.*s)", value, draft_trust_word(reason.trust), TEXT_ARG(reason.why)));
}

static void add_columns(buf *out, arena *a, const draft_list *list) {
    text unused = TEXT("");
    buf_add_z(out, "\nColumns\n");
    for (uint32_t i = 0; i < list->n_columns; i++) {
        const draft_column *c = &list->columns[i];
        char letters[8];
        draft_column_letters(c->place, letters);
        if (c->role == DRAFT_NOT_USED) {
            unused =
                arena_format(a, "%.*s%s%s%s%.*s%s", TEXT_ARG(unused), unused.len ? ", " : "", letters,
                             c->heading.len ? " \"" : "", TEXT_ARG(c->heading), c->heading.len ? "\"" : "");
            continue;
        }
        text heading = c->heading.len ? arena_format(a, "\"%.*s\" ", TEXT_ARG(c->heading)) : TEXT("");
        add_line(out, a, arena_format(a, "  %-2s  %-15s", letters, draft_role_word(c->role)),
                 arena_format(a, "%.*s(%s: %.*s)", TEXT_ARG(heading), draft_trust_word(c->reason.trust),
                              TEXT_ARG(c->reason.why)));
    }
    if (unused.len)
        add_line(out, a, TEXT("  not used  "), unused);
}

static void add_rows(buf *out, arena *a, const draft_list *list, const char *title, bool understood) {
    bool any = false;
    for (uint32_t i = 0; i < list->n_rows; i++) {
        const draft_row *r = &list->rows[i];
        bool left_out = r->kind == DRAFT_TOTAL || r->kind == DRAFT_REMARK || r->kind == DRAFT_NONE_WANTED ||
                        (r->kind == DRAFT_HEADER && r->row != list->header_row);
        if (understood ? !left_out : r->kind != DRAFT_NOT_UNDERSTOOD)
            continue;
        if (!any)
            buf_addf(out, "\n%s\n", title);
        any = true;
        add_line(out, a, arena_format(a, "  row %-4u  ", r->row),
                 arena_format(a, "%.*s%s%.*s", TEXT_ARG(r->name), r->name.len ? ": " : "", TEXT_ARG(r->why)));
    }
}

static void add_fasteners(buf *out, arena *a, const draft_list *list) {
    uint32_t stated = 0, proposed = 0;
    for (uint32_t i = 0; i < list->n_parts; i++) {
        stated += list->parts[i].designation.len > 0;
        proposed += list->parts[i].proposal.len > 0;
    }
    if (!stated && !proposed)
        return;
    buf_add_z(out, "\nFasteners\n");
    for (uint32_t i = 0; i < list->n_parts; i++) {
        const draft_part *p = &list->parts[i];
        text says = p->designation.len ? p->designation : p->proposal;
        if (!says.len)
            continue;
        add_line(out, a, arena_format(a, "  %-8.*s  ", TEXT_ARG(p->number)),
                 arena_format(a, "%.*s: %.*s", TEXT_ARG(p->name), TEXT_ARG(says)));
    }
    if (proposed)
        buf_add_z(out, "  \"perhaps\" is a proposal; it stands in the part's note. When it is right,\n"
                       "  write the designation into parts.csv.\n");
}

void draft_report_text(buf *out, arena *a, const draft_list *list, const char *folder) {
    add_line(out, a, TEXT(""), list->file);
    add_guess(out, a, "letters", draft_encoding_word(list->encoding), list->encoding_reason);
    add_guess(out, a, "separator", separator_word(list->separator), list->separator_reason);
    add_guess(out, a, "decimal mark", mark_word(list->mark), list->mark_reason);
    if (list->header_row)
        buf_addf(out, "  headings     in row %u\n", list->header_row);
    else
        buf_add_z(out, "  headings     none\n");
    add_columns(out, a, list);
    add_rows(out, a, list, "Not understood: the part is in the kit, but on no packing row", false);
    add_rows(out, a, list, "Left out", true);
    add_fasteners(out, a, list);
    uint32_t rows = draft_count(list, DRAFT_PART), bad = draft_count(list, DRAFT_NOT_UNDERSTOOD);
    buf_addf(out, "\n%u part%s in %u row%s", list->n_parts, list->n_parts == 1 ? "" : "s", rows,
             rows == 1 ? "" : "s");
    if (bad)
        buf_addf(out, ", %u row%s not understood", bad, bad == 1 ? "" : "s");
    buf_add_z(out, ".\n");
    if (folder)
        add_line(
            out, a, TEXT(""),
            arena_format(a, "Written to %s. Look through parts.csv and rows.csv before you use it.", folder));
    else
        buf_add_z(out, "Nothing was written; -o KIT writes the draft kit.\n");
}

/* ---- JSON ---- */

static void put_reason(json_out *j, draft_reason reason) {
    json_put_text(j, "trust", text_of(draft_trust_word(reason.trust)));
    json_put_text(j, "why", reason.why);
}

static void put_guess(json_out *j, const char *key, const char *value, draft_reason reason) {
    json_put_object(j, key);
    json_put_text(j, "value", text_of(value));
    put_reason(j, reason);
    json_end_object(j);
}

static void put_columns(json_out *j, const draft_list *list) {
    json_put_array(j, "columns");
    for (uint32_t i = 0; i < list->n_columns; i++) {
        const draft_column *c = &list->columns[i];
        char letters[8];
        draft_column_letters(c->place, letters);
        json_put_object(j, NULL);
        json_put_text(j, "column", text_of(letters));
        json_put_text(j, "heading", c->heading);
        json_put_text(j, "role", text_of(draft_role_word(c->role)));
        put_reason(j, c->reason);
        json_end_object(j);
    }
    json_end_array(j);
}

static const char *kind_word(draft_kind kind) {
    static const char *const words[] = {"part",  "not understood", "empty",      "header",
                                        "total", "remark",         "none wanted"};
    return words[kind];
}

/* The quantity as the list has it, without zeros at its end, and as the kit counts it. */
static void put_quantity(json_out *j, arena *a, const draft_list *list, const draft_row *r) {
    kit_unit unit;
    int64_t amount = r->amount, in_kit = draft_row_in_kit(r, list->open_packs, &unit);
    int scale = 3;
    while (scale > 0 && amount % 10 == 0)
        amount /= 10, scale--;
    json_put_decimal(j, "quantity", amount, scale);
    json_put_text(j, "unit", draft_unit_text(a, r));
    json_put_integer(j, "kit_quantity", in_kit);
    json_put_text(j, "kit_unit", text_of(kit_unit_word(unit)));
}

static void put_row(json_out *j, arena *a, const draft_list *list, const draft_row *r) {
    json_put_object(j, NULL);
    json_put_integer(j, "row", r->row);
    json_put_text(j, "kind", text_of(kind_word(r->kind)));
    json_put_text(j, "name", r->name);
    json_put_text(j, "written", r->written);
    if (r->kind == DRAFT_PART) {
        put_quantity(j, a, list, r);
    } else {
        json_put_null(j, "quantity");
        json_put_text(j, "why", r->why);
    }
    if (r->part < list->n_parts)
        json_put_text(j, "part", list->parts[r->part].number);
    else
        json_put_null(j, "part");
    json_end_object(j);
}

static void put_parts(json_out *j, const draft_list *list) {
    json_put_array(j, "parts");
    for (uint32_t i = 0; i < list->n_parts; i++) {
        const draft_part *p = &list->parts[i];
        json_put_object(j, NULL);
        json_put_text(j, "part", p->number);
        json_put_text(j, "name", p->name);
        json_put_text(j, "designation", p->designation);
        json_put_text(j, "proposal", p->proposal);
        json_end_object(j);
    }
    json_end_array(j);
}

void draft_report_json(buf *out, arena *a, const draft_list *list, const char *folder) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_text(&j, "file", list->file);
    if (folder)
        json_put_text(&j, "kit", text_of(folder));
    else
        json_put_null(&j, "kit");
    put_guess(&j, "encoding", draft_encoding_word(list->encoding), list->encoding_reason);
    put_guess(&j, "separator", separator_word(list->separator), list->separator_reason);
    put_guess(&j, "decimal_mark", mark_word(list->mark), list->mark_reason);
    json_put_integer(&j, "header_row", list->header_row);
    put_columns(&j, list);
    json_put_array(&j, "rows");
    for (uint32_t i = 0; i < list->n_rows; i++)
        put_row(&j, a, list, &list->rows[i]);
    json_end_array(&j);
    put_parts(&j, list);
    json_put_integer(&j, "not_understood", draft_count(list, DRAFT_NOT_UNDERSTOOD));
    json_end_object(&j);
}
