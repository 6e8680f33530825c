/* claim_lists.c: the other lists of the report: what to send, what is on no row, low batteries, damaged boxes. */
#include "paper/claim.h"
#include "paper/masthead.h"
#include "paper/table.h"
#include "paper/wording.h"

/* One line says more than ten rows of nothing. A bag inside one that is missing is not named again. */
void claim_draw_absent(const claim *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "rows", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "box or bag", .share = 1},
        {.head = "what it is", .share = 1},
        {.head = "label", .share = 1},
    };
    const kit *k = r->kit;
    table_form form = {.columns = columns, .n = 4};
    table t;
    bool any = false;
    for (kit_index i = 0; i < k->n_containers; i++) {
        kit_index outer = k->containers[i].inside;
        if (!stock_is_absent(&r->found->containers[i]) ||
            (outer != KIT_NONE && stock_is_absent(&r->found->containers[outer])))
            continue;
        if (!any) {
            heading_draw(s, "Missing as a whole", 70);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        table_cell cells[] = {
            {.main = arena_format(r->memory, "%u", (unsigned)r->found->containers[i].rows)},
            {.main = wording_place(r->memory, k, i)},
            {.main = k->containers[i].name},
            {.main = k->containers[i].label.len ? k->containers[i].label : TEXT("–")},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}

void claim_draw_to_send(const claim *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "to send", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "number in the kit", .width = MM(29)},
        {.head = "maker's number", .width = MM(27)},
        {.head = "what it is, and where it is listed", .share = 1},
    };
    const kit *k = r->kit;
    table_form form = {.columns = columns, .n = 4};
    heading_draw(s, "Please send", 70);
    table t = table_begin(s, &form, s->left);
    bool any = false;
    for (kit_index i = 0; i < k->n_parts; i++) {
        if (r->found->parts[i].lacking <= 0)
            continue;
        any = true;
        table_cell cells[] = {
            {.main = wording_quantity(r->memory, r->found->parts[i].lacking, wording_unit(k, i))},
            {.main = k->parts[i].number},
            {.main = wording_list(r->memory, k->parts[i].makers_numbers, "–")},
            {.main = wording_part(r->memory, &k->parts[i]), .under = claim_part_evidence(r, i)},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
    else
        sheet_paragraph(s, TEXT("Nothing: of all that was counted, enough usable pieces are there."),
                        (type_style){.size = TYPE_BODY}, s->left, sheet_width(s));
}

void claim_draw_finds(const claim *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "pieces", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "what it is", .share = 1},
        {.head = "found in", .share = 1},
    };
    const stock_record *record = r->found->record;
    if (!record->n_finds)
        return;
    heading_draw(s, "Not on the packing list", 70);
    table_form form = {.columns = columns, .n = 3};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < record->n_finds; i++) {
        const stock_find *find = &record->finds[i];
        table_cell cells[] = {
            {.main = arena_format(r->memory, "%lld", (long long)find->quantity)},
            {.main = find->what},
            {.main = wording_place(r->memory, r->kit, find->container)},
        };
        table_row(&t, cells);
    }
    table_end(&t);
}

static text volts(arena *a, int64_t millivolts) {
    return arena_format(a, "%lld.%02lld V", (long long)(millivolts / 1000),
                        (long long)(millivolts % 1000 / 10));
}

void claim_draw_batteries(const claim *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "measured", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "at least", .width = MM(18), .align = TYPE_END},
        {.head = "battery", .share = 1},
        {.head = "where", .share = 1},
    };
    const stock *found = r->found;
    if (!found->n_low_batteries)
        return;
    heading_draw(s, "Batteries below the voltage on arrival", 70);
    table_form form = {.columns = columns, .n = 4};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < found->n_low_batteries; i++) {
        const stock_low_battery *b = &found->low_batteries[i];
        const kit_part *part = &r->kit->parts[r->kit->rows[b->row].part];
        table_cell cells[] = {
            {.main = volts(r->memory, b->millivolts)},
            {.main = volts(r->memory, b->low_mv)},
            {.main = arena_format(r->memory, "%.*s %.*s, piece %lld", TEXT_ARG(part->number),
                                  TEXT_ARG(part->name), (long long)b->piece)},
            {.main = claim_place(r, b->row)},
        };
        table_row(&t, cells);
    }
    table_end(&t);
}

void claim_draw_boxes(const claim *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "box", .width = MM(26), .bold = true, .ledger = true},
        {.head = "damage seen at the door", .share = 1},
        {.head = "weighed", .width = MM(22), .align = TYPE_END},
        {.head = "as shipped", .width = MM(22), .align = TYPE_END},
    };
    const kit *k = r->kit;
    table_form form = {.columns = columns, .n = 4};
    table t;
    bool any = false;
    for (kit_index i = 0; i < k->n_containers; i++) {
        const stock_container *c = &r->found->containers[i];
        if (!c->damage.len)
            continue;
        if (!any) {
            heading_draw(s, "Boxes damaged", 70);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        int64_t stated = k->containers[i].gross_mass_g;
        table_cell cells[] = {
            {.main = wording_container(r->memory, k, i)},
            {.main = c->damage},
            {.main = c->mass_g >= 0 ? wording_mass(r->memory, c->mass_g) : TEXT("–")},
            {.main = stated >= 0 ? wording_mass(r->memory, stated) : TEXT("–")},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}
