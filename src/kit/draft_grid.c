/* draft_grid.c: the cells of a list, and what separates them. */
#include <string.h>

#include "base/csv.h"
#include "kit/draft_inside.h"

text draft_cell(const draft_record *record, uint32_t place) {
    return place < record->n ? record->cells[place] : TEXT("");
}

bool draft_is_empty(const draft_record *record) {
    for (uint32_t i = 0; i < record->n; i++)
        if (record->cells[i].len)
            return false;
    return true;
}

static bool is_control(char c) {
    return (unsigned char)c < 0x20 || c == 0x7F;
}

/* On one line: a run of line breaks, tabs and other control characters, with the blanks around it, becomes one blank. */
static text tidy(arena *a, text t) {
    t = text_trim(t);
    char *made = arena_alloc(a, t.len + 1);
    size_t n = 0;
    bool broken = false; /* the last character made stands for a break */
    for (size_t i = 0; i < t.len; i++) {
        if (is_control(t.at[i])) {
            while (n && made[n - 1] == ' ')
                n--;
            made[n++] = ' ';
            broken = true;
        } else if (t.at[i] != ' ' || !broken) {
            made[n++] = t.at[i];
            broken = false;
        }
    }
    return text_trim((text){made, n});
}

static void copy_records(arena *a, const csv_table *table, uint32_t from, draft_grid *out) {
    out->records = arena_array(a, draft_record, table->n);
    for (size_t i = from; i < table->n; i++) {
        const csv_record *r = &table->records[i];
        draft_record *made = &out->records[out->n++];
        *made = (draft_record){arena_array(a, text, r->n), r->n, r->row};
        for (uint32_t c = 0; c < r->n; c++)
            made->cells[c] = tidy(a, r->cells[c].value);
        if (r->n > out->widest)
            out->widest = r->n;
    }
}

/* How well a separator fits: a row of headings that we know says most, then rows of equal width; faults in the quoting
 * speak against it. */
typedef struct {
    char separator;
    int headings;   /* known headings in the best of the first rows */
    int same;       /* per cent of the rows with text that have the most common width */
    uint32_t width; /* the most common width */
    bool faulty;
} fit;

enum { HEADER_LOOK = 20, WIDEST_COUNTED = 256 };

static bool has_text(const csv_record *r) {
    for (uint32_t i = 0; i < r->n; i++)
        if (text_trim(r->cells[i].value).len)
            return true;
    return false;
}

static int known_headings(arena *a, const csv_record *r) {
    int known = 0;
    for (uint32_t i = 0; i < r->n && i < WIDEST_COUNTED; i++)
        known += draft_heading_of(a, r->cells[i].value).whole;
    return known;
}

static fit try_separator(text utf8, char separator) {
    arena *scratch = arena_open();
    faults f = faults_in(scratch);
    csv_table table;
    fit result = {.separator = separator, .width = 1};
    result.faulty = !csv_read(scratch, utf8, separator, TEXT(""), &f, &table);
    uint32_t widths[WIDEST_COUNTED] = {0}, with_text = 0;
    for (size_t i = 0; i < table.n; i++) {
        const csv_record *r = &table.records[i];
        if (!has_text(r))
            continue;
        if (with_text++ < HEADER_LOOK) {
            int known = known_headings(scratch, r);
            result.headings = known > result.headings ? known : result.headings;
        }
        widths[r->n < WIDEST_COUNTED ? r->n : WIDEST_COUNTED - 1]++;
    }
    for (uint32_t w = 2; w < WIDEST_COUNTED; w++)
        if (widths[w] > widths[result.width])
            result.width = w;
    result.same = with_text ? (int)(100 * (uint64_t)widths[result.width] / with_text) : 0;
    arena_close(scratch);
    return result;
}

static int points(fit f) {
    if (f.width < 2)
        return f.headings;
    return 300 * (f.headings < 3 ? f.headings : 3) + f.same - (f.faulty ? 250 : 0);
}

static char guess_separator(arena *a, text utf8, draft_reason *reason) {
    static const char candidates[] = {',', ';', '\t'};
    fit best = {0};
    int best_points = -1000, second = -1000;
    for (size_t i = 0; i < sizeof candidates; i++) {
        fit f = try_separator(utf8, candidates[i]);
        int p = points(f);
        if (p > best_points) {
            second = best_points;
            best_points = p;
            best = f;
        } else if (p > second) {
            second = p;
        }
    }
    if (best.width < 2) {
        *reason = (draft_reason){DRAFT_GUESSED, TEXT("no separator gives rows of several cells")};
        return best.separator;
    }
    reason->trust = best_points - second >= 200  ? DRAFT_SURE
                    : best_points - second >= 50 ? DRAFT_LIKELY
                                                 : DRAFT_GUESSED;
    reason->why = arena_format(a, "it gives %d heading%s that we know; %d %% of the rows have %u cells",
                               best.headings, best.headings == 1 ? "" : "s", best.same, best.width);
    return best.separator;
}

/* Some lists name their separator in a first line of their own: "sep=;". */
static char named_in_first_line(text utf8) {
    text t = text_starts(utf8, TEXT("\xEF\xBB\xBF")) ? text_slice(utf8, 3, utf8.len) : utf8;
    bool named = t.len > 5 && text_equal_nocase(text_slice(t, 0, 4), TEXT("sep=")) &&
                 strchr(",;\t", t.at[4]) &&
                 (t.at[5] == '\n' || (t.at[5] == '\r' && t.len > 6 && t.at[6] == '\n'));
    return named ? t.at[4] : 0;
}

bool draft_grid_read(arena *a, text utf8, char wanted, text file, faults *f, draft_grid *out) {
    *out = (draft_grid){.file = file, .separator = wanted, .reason = {DRAFT_NAMED, TEXT("so named")}};
    char named = named_in_first_line(utf8);
    if (!wanted && named) {
        out->separator = named;
        out->reason = (draft_reason){DRAFT_SURE, TEXT("its first line says so")};
    } else if (!wanted) {
        out->separator = guess_separator(a, utf8, &out->reason);
    }
    csv_table table;
    if (!csv_read(a, utf8, out->separator, file, f, &table))
        return false;
    copy_records(a, &table, named ? 1 : 0, out);
    return true;
}
