/* csv.c: one pass over the bytes; a small state machine for each cell. */
#include "base/csv.h"

#include <string.h>

#include "base/utf8.h"

typedef struct {
    arena *memory;
    faults *faults;
    text file;
    text in;
    size_t at;
    uint32_t line;
    uint32_t row;
    char separator;
    size_t cells_cap;
    size_t records_cap;
} reader;

static fault_place here(const reader *r) {
    return (fault_place){r->file, r->row, TEXT("")};
}

static bool at_end(const reader *r) {
    return r->at >= r->in.len;
}

static char peek(const reader *r) {
    return r->in.at[r->at];
}

static bool at_line_end(const reader *r) {
    return at_end(r) || peek(r) == '\n' ||
           (peek(r) == '\r' && r->at + 1 < r->in.len && r->in.at[r->at + 1] == '\n');
}

static void skip_line_end(reader *r) {
    if (at_end(r))
        return;
    r->at += peek(r) == '\r' ? 2 : 1;
    r->line++;
}

static void report_bare_cr(reader *r) {
    fault_add(r->faults, here(r), "end lines with LF or CRLF; save the file again as CSV (UTF-8)",
              "line %u holds a bare carriage return", r->line);
}

/* Up to the separator or the line's end. */
static text read_plain(reader *r) {
    size_t from = r->at;
    bool told = false;
    while (!at_line_end(r) && peek(r) != r->separator) {
        if (peek(r) == '"' && !told) {
            fault_add(r->faults, here(r), "put the whole cell in quotes and double each quote inside it",
                      "cell \"%.*s…\" has a quote in the middle",
                      (int)utf8_clip(text_slice(r->in, from, r->at), 24).len, r->in.at + from);
            told = true;
        }
        if (peek(r) == '\r')
            report_bare_cr(r);
        r->at++;
    }
    return text_slice(r->in, from, r->at);
}

/* The inside of a quoted cell from `from` to `to`, doubled quotes taken as one. */
static text undouble(reader *r, size_t from, size_t to, bool doubled) {
    text raw = text_slice(r->in, from, to);
    if (!doubled)
        return raw;
    char *made = arena_alloc(r->memory, raw.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < raw.len; i++) {
        made[n++] = raw.at[i];
        if (raw.at[i] == '"')
            i++;
    }
    return (text){made, n};
}

static void skip_after_quote(reader *r) {
    size_t from = r->at;
    while (!at_line_end(r) && peek(r) != r->separator)
        r->at++;
    if (r->at > from)
        fault_add(r->faults, here(r), "double each quote inside a quoted cell",
                  "text \"%.*s\" follows a closing quote",
                  (int)utf8_clip(text_slice(r->in, from, r->at), 24).len, r->in.at + from);
}

static text read_quoted(reader *r) {
    uint32_t first_line = r->line;
    size_t from = ++r->at;
    bool doubled = false;
    for (;; r->at++) {
        if (at_end(r)) {
            fault_add(r->faults, here(r), "close it with one quote",
                      "the quote that opens on line %u is never closed", first_line);
            return undouble(r, from, r->at, doubled);
        }
        if (peek(r) == '\n')
            r->line++;
        if (peek(r) == '\r' && !at_line_end(r))
            report_bare_cr(r);
        if (peek(r) != '"')
            continue;
        if (r->at + 1 < r->in.len && r->in.at[r->at + 1] == '"') {
            doubled = true;
            r->at++;
            continue;
        }
        break;
    }
    text value = undouble(r, from, r->at, doubled);
    r->at++;
    skip_after_quote(r);
    return value;
}

static void read_record(reader *r, csv_record *record) {
    size_t cap = r->cells_cap;
    record->cells = arena_array(r->memory, csv_cell, cap);
    record->row = r->row;
    record->n = 0;
    if (at_line_end(r)) {
        skip_line_end(r);
        return;
    }
    for (;;) {
        size_t n = record->n;
        arena_room(r->memory, record->cells, n, cap, csv_cell);
        csv_cell *cell = &record->cells[record->n++];
        cell->line = r->line;
        cell->quoted = peek(r) == '"';
        cell->value = cell->quoted ? read_quoted(r) : read_plain(r);
        if (at_line_end(r))
            break;
        r->at++; /* the separator */
        if (at_end(r)) {
            n = record->n;
            arena_room(r->memory, record->cells, n, cap, csv_cell);
            record->cells[record->n++] = (csv_cell){.line = r->line, .value = TEXT("")};
            break;
        }
        if (at_line_end(r)) {
            n = record->n;
            arena_room(r->memory, record->cells, n, cap, csv_cell);
            record->cells[record->n++] = (csv_cell){.line = r->line, .value = TEXT("")};
            break;
        }
    }
    skip_line_end(r);
    r->cells_cap = record->n ? record->n : 1; /* the next record is likely as wide */
}

/* Faults of the bytes themselves. The row is counted in lines here, which is what an editor shows. */
static void check_bytes(reader *r) {
    text rest = r->in;
    size_t done = 0;
    for (int told = 0; told < 10; told++) {
        ptrdiff_t bad = utf8_fault(text_slice(rest, done, rest.len));
        if (bad < 0)
            break;
        done += (size_t)bad;
        uint32_t line = 1;
        for (size_t i = 0; i < done; i++)
            line += rest.at[i] == '\n';
        fault_add(r->faults, (fault_place){r->file, 0, TEXT("")}, "save the file again as CSV (UTF-8)",
                  "line %u: the byte %02X is not UTF-8", line, (unsigned char)rest.at[done]);
        while (done < rest.len && rest.at[done] != '\n')
            done++;
    }
    if (rest.len && memchr(rest.at, 0, rest.len))
        fault_add(r->faults, (fault_place){r->file, 0, TEXT("")}, "save the file again as CSV (UTF-8)",
                  "it holds NUL bytes, so it is no plain text");
}

bool csv_read(arena *a, text bytes, char separator, text file, faults *f, csv_table *out) {
    size_t before = f->n;
    reader r = {.memory = a,
                .faults = f,
                .file = file,
                .in = bytes,
                .line = 1,
                .row = 1,
                .separator = separator,
                .cells_cap = 4};
    *out = (csv_table){0};
    check_bytes(&r);
    if (text_starts(bytes, TEXT("\xEF\xBB\xBF")))
        r.at = 3;
    for (; !at_end(&r); r.row++) {
        arena_room(a, out->records, out->n, r.records_cap, csv_record);
        read_record(&r, &out->records[out->n++]);
    }
    return f->n == before;
}
