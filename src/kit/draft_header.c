/* draft_header.c: which row holds the headings, and what the cells below them look like. */
#include "kit/draft_finder.h"

enum { HEADER_LOOK = 20 };

static bool has_letter(text t) {
    for (size_t i = 0; i < t.len; i++)
        if ((t.at[i] | 32) >= 'a' && (t.at[i] | 32) <= 'z')
            return true;
        else if (t.at[i] & 0x80)
            return true;
    return false;
}

static draft_looks look_at(const draft_finder *d, uint32_t place) {
    draft_looks l = {.counts_up = true};
    int64_t last = 0;
    for (uint32_t i = d->first; i < d->grid->n; i++) {
        text cell = draft_cell(&d->grid->records[i], place);
        if (!cell.len)
            continue;
        l.filled++;
        draft_quantity q = draft_quantity_read(d->memory, cell, DRAFT_ANY_MARK);
        draft_unit unit;
        l.quantities += q.known;
        l.figures += draft_is_figure(cell);
        l.links += draft_is_link(cell);
        l.letters += has_letter(cell) && !q.known;
        l.units += draft_unit_read(d->memory, cell, &unit);
        l.counts_up = l.counts_up && q.known && q.amount == last + 1000;
        last = q.amount;
    }
    l.counts_up = l.counts_up && l.filled > 2;
    return l;
}

int draft_percent(uint32_t part, uint32_t whole) {
    return whole ? (int)(100 * (uint64_t)part / whole) : 0;
}

static int header_points(arena *a, const draft_record *r) {
    int points = 0;
    bool telling = false;
    for (uint32_t i = 0; i < r->n; i++) {
        draft_heading h = draft_heading_of(a, r->cells[i]);
        points += h.whole ? 2 : h.known;
        telling = telling || h.role == DRAFT_NAME || h.role == DRAFT_QUANTITY;
    }
    return telling ? points : 0;
}

/* Headings in a language we do not know: no number in the first row, and below it a column of numbers only. */
static bool is_header_by_looks(const draft_finder *d, uint32_t record) {
    const draft_record *r = &d->grid->records[record];
    bool numbers_below = false;
    for (uint32_t c = 0; c < r->n; c++) {
        if (!r->cells[c].len)
            continue;
        if (draft_is_figure(r->cells[c]) || draft_quantity_read(d->memory, r->cells[c], DRAFT_ANY_MARK).known)
            return false;
        draft_finder below = *d;
        below.first = record + 1;
        draft_looks l = look_at(&below, c);
        numbers_below = numbers_below || (l.filled > 1 && draft_percent(l.figures, l.filled) >= 90);
    }
    return numbers_below;
}

static uint32_t first_with_text(const draft_finder *d) {
    uint32_t i = 0;
    while (i < d->grid->n && draft_is_empty(&d->grid->records[i]))
        i++;
    return i;
}

/* The record that is the header, or DRAFT_NO_COLUMN. */
static uint32_t guess_header(const draft_finder *d) {
    uint32_t best = DRAFT_NO_COLUMN, looked = 0;
    int best_points = 2; /* one known heading may be a part's name */
    for (uint32_t i = 0; i < d->grid->n && looked < HEADER_LOOK; i++) {
        if (draft_is_empty(&d->grid->records[i]))
            continue;
        looked++;
        int points = header_points(d->memory, &d->grid->records[i]);
        if (points > best_points) {
            best_points = points;
            best = i;
        }
    }
    uint32_t first = first_with_text(d);
    if (best == DRAFT_NO_COLUMN && first < d->grid->n && is_header_by_looks(d, first))
        best = first;
    return best;
}

bool draft_find_header(draft_finder *d, int wanted) {
    uint32_t record = DRAFT_NO_COLUMN;
    if (wanted < 0) {
        record = guess_header(d);
    } else if (wanted > 0) {
        for (uint32_t i = 0; i < d->grid->n; i++)
            if (d->grid->records[i].row == (uint32_t)wanted)
                record = i;
        if (record == DRAFT_NO_COLUMN) {
            fault_add(d->faults, (fault_place){d->grid->file, (uint32_t)wanted, TEXT("")},
                      "name the row of the headings", "the list has no such row");
            return false;
        }
    }
    d->list->header_row = record == DRAFT_NO_COLUMN ? 0 : d->grid->records[record].row;
    d->first = record == DRAFT_NO_COLUMN ? 0 : record + 1;
    d->list->n_columns = d->grid->widest;
    d->list->columns = arena_array(d->memory, draft_column, d->grid->widest);
    d->looks = arena_array(d->memory, draft_looks, d->grid->widest);
    for (uint32_t c = 0; c < d->grid->widest; c++) {
        text heading = record == DRAFT_NO_COLUMN ? TEXT("") : draft_cell(&d->grid->records[record], c);
        d->list->columns[c] = (draft_column){c, heading, DRAFT_NOT_USED, {DRAFT_GUESSED, TEXT("")}};
        d->looks[c] = look_at(d, c);
    }
    return true;
}
