/* swaps.c: too many of one, too few of its look-alike: rows to look at again before anybody telephones.
 *
 * Every row with extra pieces, and everything found on no row, is compared with every row with missing pieces. The
 * likeliest pairs are taken first: the numbers fit, then how alike the pieces look, then how near they lay. Each row
 * is used once on its side.
 */
#include <stdlib.h>

#include "stock/assess.h"

typedef struct {
    stock_swap swap;
    int grade;
    int nearness; /* 2 same container, 1 same box, 0 */
    uint32_t met; /* keeps the order of the packing list */
} candidate;

typedef struct {
    candidate *list;
    uint32_t n, cap;
} candidates;

static int nearness(const kit *k, kit_index c, kit_index d) {
    return c == d ? 2 : kit_box_of(k, c) == kit_box_of(k, d);
}

static void consider(assessment *as, candidates *all, stock_swap swap, int64_t extra, kit_index container,
                     likeness like) {
    if (!like.grade)
        return;
    const kit_row *row = &as->kit->rows[swap.missing_row];
    int64_t missing = as->out->rows[swap.missing_row].missing;
    swap.pieces = extra < missing ? extra : missing;
    swap.fits = extra == missing;
    swap.reason = like.reason;
    swap.tell = like.tell;
    arena_room(as->memory, all->list, all->n, all->cap, candidate);
    all->list[all->n] = (candidate){swap, like.grade, nearness(as->kit, container, row->container), all->n};
    all->n++;
}

static void compare_rows(assessment *as, candidates *all, kit_index missing) {
    const kit *k = as->kit;
    const stock *s = as->out;
    for (uint32_t i = 0; i < s->n_extra_rows; i++) {
        kit_index extra = s->extra_rows[i];
        stock_swap swap = {.extra_row = extra, .find = UINT32_MAX, .missing_row = missing};
        consider(as, all, swap, s->rows[extra].extra, k->rows[extra].container,
                 alike_parts(as->memory, k, k->rows[extra].part, k->rows[missing].part));
    }
    for (uint32_t i = 0; i < as->record->n_finds; i++) {
        const stock_find *f = &as->record->finds[i];
        stock_swap swap = {.extra_row = KIT_NONE, .find = i, .missing_row = missing};
        likeness like = f->part != KIT_NONE ? alike_parts(as->memory, k, f->part, k->rows[missing].part)
                                            : alike_found(as->memory, k, f->what, k->rows[missing].part);
        consider(as, all, swap, f->quantity, f->container, like);
    }
}

static int compare_candidates(const void *left, const void *right) {
    const candidate *a = left, *b = right;
    if (a->swap.fits != b->swap.fits)
        return a->swap.fits ? -1 : 1;
    if (a->grade != b->grade)
        return a->grade > b->grade ? -1 : 1;
    if (a->nearness != b->nearness)
        return a->nearness > b->nearness ? -1 : 1;
    return a->met < b->met ? -1 : a->met > b->met;
}

static void list_recheck(assessment *as) {
    stock *s = as->out;
    s->recheck = arena_array(as->memory, kit_index, 2 * (size_t)s->n_swaps);
    for (uint32_t i = 0; i < s->n_swaps; i++) {
        if (s->swaps[i].extra_row != KIT_NONE)
            s->recheck[s->n_recheck++] = s->swaps[i].extra_row;
        s->recheck[s->n_recheck++] = s->swaps[i].missing_row;
    }
}

void assess_swaps(assessment *as) {
    stock *s = as->out;
    candidates all = {0};
    for (uint32_t i = 0; i < s->n_missing_rows; i++)
        compare_rows(as, &all, s->missing_rows[i]);
    if (all.n)
        qsort(all.list, all.n, sizeof *all.list, compare_candidates);
    bool *row_used = arena_array(as->memory, bool, as->kit->n_rows);
    bool *find_used = arena_array(as->memory, bool, as->record->n_finds);
    s->swaps = arena_array(as->memory, stock_swap, all.n);
    for (uint32_t i = 0; i < all.n; i++) {
        const stock_swap *c = &all.list[i].swap;
        bool *extra_used = c->extra_row != KIT_NONE ? &row_used[c->extra_row] : &find_used[c->find];
        if (*extra_used || row_used[c->missing_row])
            continue;
        *extra_used = row_used[c->missing_row] = true;
        s->swaps[s->n_swaps++] = *c;
    }
    list_recheck(as);
}
