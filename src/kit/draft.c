/* draft.c: the steps from bytes to a list, in order. */
#include "base/utf8.h"
#include "kit/draft_inside.h"

/* A bag has at most 9,999 lines, and no parts list has hundreds of columns. */
enum { MOST_ROWS = 9999, MOST_COLUMNS = 256 };

uint32_t draft_count(const draft_list *list, draft_kind kind) {
    uint32_t n = 0;
    for (uint32_t i = 0; i < list->n_rows; i++)
        n += list->rows[i].kind == kind;
    return n;
}

bool draft_read(arena *a, text bytes, text file, draft_wishes wishes, faults *f, draft_list *out) {
    *out = (draft_list){.file = utf8_mend(a, arena_text(a, file)), .open_packs = wishes.open_packs};
    draft_source source;
    draft_grid grid;
    if (!draft_decode(a, bytes, wishes.encoding, out->file, f, &source) ||
        !draft_grid_read(a, source.utf8, wishes.separator, out->file, f, &grid))
        return false;
    if (grid.n > MOST_ROWS || grid.widest > MOST_COLUMNS) {
        fault_add(f, (fault_place){out->file, 0, TEXT("")}, "draft a kit from a part of it",
                  "it has %u rows of up to %u cells; at most %d rows of %d are read", grid.n, grid.widest,
                  MOST_ROWS, MOST_COLUMNS);
        return false;
    }
    out->encoding = source.encoding;
    out->encoding_reason = source.reason;
    out->separator = grid.separator;
    out->separator_reason = grid.reason;
    if (!draft_columns_find(a, &grid, wishes, f, out))
        return false;
    draft_rows_read(a, &grid, out);
    draft_parts_find(a, out);
    if (draft_count(out, DRAFT_PART) == 0) {
        fault_add(f, (fault_place){out->file, 0, TEXT("")},
                  "say which columns hold them: --columns \"name=A; quantity=C\"",
                  "no row has both a name and a quantity that is understood");
        return false;
    }
    return true;
}
