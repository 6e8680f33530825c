#include "base/faults.h"

#include <stdlib.h>

#include "base/utf8.h"

faults faults_in(arena *a) {
    return (faults){.memory = a};
}

static bool same_place(fault_place a, fault_place b) {
    return a.row == b.row && text_equal(a.file, b.file) && text_equal(a.column, b.column);
}

/* The same fault is found twice when two rules look at one cell; they follow each other closely. */
static bool is_known(const faults *f, fault_place place, text cause) {
    enum { LOOK_BACK = 16 };
    size_t first = f->n > LOOK_BACK ? f->n - LOOK_BACK : 0;
    for (size_t i = first; i < f->n; i++)
        if (same_place(f->list[i].place, place) && text_equal(f->list[i].cause, cause))
            return true;
    return false;
}

void fault_add(faults *f, fault_place place, const char *remedy, const char *cause_format, ...) {
    va_list list;
    va_start(list, cause_format);
    text cause = utf8_mend(f->memory, arena_format_list(f->memory, cause_format, list));
    va_end(list);
    place.file = utf8_mend(f->memory, place.file);
    place.column = utf8_mend(f->memory, place.column);
    if (is_known(f, place, cause))
        return;
    arena_room(f->memory, f->list, f->n, f->cap, fault);
    f->list[f->n++] = (fault){
        .place = {arena_text(f->memory, place.file), place.row, arena_text(f->memory, place.column)},
        .cause = cause,
        .remedy = arena_text(f->memory, utf8_mend(f->memory, text_of(remedy))),
    };
}

typedef struct {
    fault fault;
    size_t met;       /* position in the list before sorting */
    size_t file_rank; /* position of the first fault of the same file */
} ranked;

static int compare_ranked(const void *left, const void *right) {
    const ranked *a = left, *b = right;
    if (a->file_rank != b->file_rank)
        return a->file_rank < b->file_rank ? -1 : 1;
    if (a->fault.place.row != b->fault.place.row)
        return a->fault.place.row < b->fault.place.row ? -1 : 1;
    return a->met < b->met ? -1 : 1;
}

static size_t rank_of_file(const faults *f, const size_t *heads, size_t n_heads, text file) {
    for (size_t i = 0; i < n_heads; i++)
        if (text_equal(f->list[heads[i]].place.file, file))
            return i;
    return n_heads;
}

void faults_sort(faults *f) {
    ranked *order = arena_array(f->memory, ranked, f->n);
    size_t *heads = arena_array(f->memory, size_t, f->n);
    size_t n_heads = 0;
    for (size_t i = 0; i < f->n; i++) {
        size_t rank = rank_of_file(f, heads, n_heads, f->list[i].place.file);
        if (rank == n_heads)
            heads[n_heads++] = i;
        order[i] = (ranked){f->list[i], i, rank};
    }
    qsort(order, f->n, sizeof *order, compare_ranked);
    for (size_t i = 0; i < f->n; i++)
        f->list[i] = order[i].fault;
}

text faults_place_text(const faults *f, size_t i) {
    fault_place place = f->list[i].place;
    return f->of_lines && place.row ? arena_format(f->memory, "%.*s line %u", TEXT_ARG(place.file), place.row)
                                    : fault_place_text(f->memory, place);
}

text fault_place_text(arena *a, fault_place place) {
    if (!place.row)
        return arena_format(a, "%.*s%s%.*s", TEXT_ARG(place.file), place.column.len ? ", " : "",
                            TEXT_ARG(place.column));
    return arena_format(a, "%.*s row %u%s%.*s", TEXT_ARG(place.file), place.row, place.column.len ? ", " : "",
                        TEXT_ARG(place.column));
}
