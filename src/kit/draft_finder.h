/* draft_finder.h: what the three files that find columns share. Private to them.
 *
 * draft_header.c finds the header and looks at the cells below it, draft_named.c takes what the person named,
 * draft_columns.c guesses the rest.
 */
#ifndef KIT_DRAFT_FINDER_H
#define KIT_DRAFT_FINDER_H

#include "kit/draft_inside.h"

/* What the cells below the header look like. */
typedef struct {
    uint32_t filled, quantities, figures, links, letters, units;
    bool counts_up; /* 1, 2, 3: a running number */
} draft_looks;

typedef struct {
    arena *memory;
    const draft_grid *grid;
    faults *faults;
    draft_list *list;
    uint32_t first; /* record below the header */
    draft_looks *looks;
} draft_finder;

int draft_percent(uint32_t part, uint32_t whole);

/* `wanted` as in draft_wishes. Fills the header's row, the columns with their headings, and how each looks. */
MUST_USE bool draft_find_header(draft_finder *d, int wanted);

/* Gives the columns that `wishes` names their roles; what is wrong with it is added to the faults. */
void draft_take_names(draft_finder *d, text wishes);

/* "A "Part", B "Qty"", for messages. */
text draft_list_headings(const draft_finder *d);

/* A role that one column has at most. */
bool draft_is_single(draft_role role);

#endif
