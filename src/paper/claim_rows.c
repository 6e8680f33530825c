/* claim_rows.c: lists of rows of the packing list: damaged, too many, elsewhere. */
#include "paper/claim.h"
#include "paper/masthead.h"
#include "paper/table.h"
#include "paper/wording.h"

/* A table of rows of the packing list: how many, what, where. */
typedef struct {
    const char *name, *count_head;
    const kit_index *rows;
    uint32_t n;
    int64_t (*count)(const stock_row *);
    bool (*wanted)(const claim *, kit_index);
} row_list;

static void draw_rows(const claim *r, sheet *s, const row_list *list) {
    table_column columns[] = {
        {.head = list->count_head, .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "number in the kit", .width = MM(29)},
        {.head = "what it is", .share = 1},
        {.head = "where", .share = 1},
    };
    table_form form = {.columns = columns, .n = 4};
    table t;
    bool any = false;
    for (uint32_t i = 0; i < list->n; i++) {
        kit_index row = list->rows[i];
        const kit_part *part = &r->kit->parts[r->kit->rows[row].part];
        const stock_row *state = &r->found->rows[row];
        if (!list->wanted(r, row))
            continue;
        if (!any) {
            heading_draw(s, list->name, 70);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        table_cell cells[] = {
            {.main = claim_quantity(r, row, list->count(state))},
            {.main = part->number},
            {.main = wording_part(r->memory, part)},
            {.main = claim_place(r, row), .under = state->note},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}

static int64_t count_damaged(const stock_row *row) {
    return row->damaged;
}

static int64_t count_extra(const stock_row *row) {
    return row->extra;
}

static int64_t count_missing(const stock_row *row) {
    return row->missing;
}

static bool any_row(const claim *r, kit_index row) {
    (void)r;
    (void)row;
    return true;
}

static bool damaged_before(const claim *r, kit_index row) {
    return !r->found->rows[row].in_transit;
}

static bool damaged_on_the_way(const claim *r, kit_index row) {
    return r->found->rows[row].in_transit;
}

static bool lies_elsewhere(const claim *r, kit_index row) {
    return r->found->parts[r->kit->rows[row].part].lacking <= 0;
}

void claim_draw_damaged(const claim *r, sheet *s) {
    draw_rows(r, s,
              &(row_list){"Damaged when unpacked", "damaged", r->found->damaged_rows,
                          r->found->n_damaged_rows, count_damaged, damaged_before});
}

void claim_draw_extra(const claim *r, sheet *s) {
    draw_rows(r, s,
              &(row_list){"More than listed", "too many", r->found->extra_rows, r->found->n_extra_rows,
                          count_extra, any_row});
}

void claim_draw_elsewhere(const claim *r, sheet *s) {
    draw_rows(r, s,
              &(row_list){"Not where it is listed, found in another place", "not here",
                          r->found->missing_rows, r->found->n_missing_rows, count_missing, lies_elsewhere});
}

void claim_draw_contents(const claim *r, sheet *s) {
    draw_rows(r, s,
              &(row_list){"Contents damaged", "damaged", r->found->damaged_rows, r->found->n_damaged_rows,
                          count_damaged, damaged_on_the_way});
}

bool claim_has_transit_damage(const claim *r) {
    for (kit_index i = 0; i < r->kit->n_containers; i++)
        if (r->found->containers[i].damage.len)
            return true;
    for (uint32_t i = 0; i < r->found->n_damaged_rows; i++)
        if (damaged_on_the_way(r, r->found->damaged_rows[i]))
            return true;
    return false;
}
