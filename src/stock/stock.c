/* stock.c: the assessment as a whole; each stage has a file of its own. */
#include "stock/stock.h"

#include "stock/assess.h"

const stock *stock_assess(arena *a, const kit *k, const stock_record *record) {
    stock *s = arena_new(a, stock);
    s->record = record;
    s->rows = arena_array(a, stock_row, k->n_rows);
    s->parts = arena_array(a, stock_part, k->n_parts);
    s->containers = arena_array(a, stock_container, k->n_containers);
    assessment as = {.memory = a, .kit = k, .record = record, .out = s};
    s->work = stock_follow_work(a, k, record);
    assess_receipts(&as);
    assess_rows(&as);
    assess_containers(&as);
    assess_parts(&as);
    assess_swaps(&as);
    assess_stops(&as);
    assess_batteries(&as);
    return s;
}

bool stock_complete(const stock *s) {
    return s->whole.counted == s->whole.rows && !s->n_missing_rows && !s->n_extra_rows &&
           !s->n_damaged_rows && !s->whole.finds && !s->n_low_batteries;
}

int64_t stock_available(const stock *s, kit_index part) {
    const int64_t *at = s->work->at[part];
    int64_t there = s->parts[part].usable + s->parts[part].not_counted - at[STOCK_IN_TUB] -
                    at[STOCK_FITTED_IN] - at[STOCK_LOST] - at[STOCK_SCRAPPED];
    return there > 0 ? there : 0;
}
