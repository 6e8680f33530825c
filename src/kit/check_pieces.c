/* check_pieces.c: does the packing list hold what the steps need, and do the steps use what it holds? */
#include "kit/inside.h"

/* What is known of one part. */
typedef struct {
    bool on_row, used;
    bool unsure; /* a row or step with a faulty quantity names it */
    const kit_row *first_row;
    int64_t needed; /* so far, in the order of step_parts */
    bool told;
} piece_use;

static void check_row(kit_checker *c, const kit_row *row, const piece_use *use) {
    if (row->spare > row->quantity)
        fault_add(c->faults, kit_place(c, "rows", row->row, "spare"), "lower it, or raise the quantity",
                  "%lld spares are more than the quantity %lld", (long long)row->spare,
                  (long long)row->quantity);
    if (row->unit != use->first_row->unit)
        fault_add(c->faults, kit_place(c, "rows", row->row, "unit"), "count all of it in one unit",
                  "\"%.*s\" is counted in %s here, in %s in row %u",
                  TEXT_ARG(c->kit->parts[row->part].number), kit_unit_word(row->unit),
                  kit_unit_word(use->first_row->unit), use->first_row->row);
}

static void read_rows(kit_checker *c, piece_use *use) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_rows; i++) {
        const kit_row *row = &k->rows[i];
        if (row->part == KIT_NONE)
            continue;
        piece_use *u = &use[row->part];
        u->on_row = true;
        if (kit_state(k, "rows")->faulty[i]) {
            u->unsure = true;
            continue;
        }
        if (!u->first_row)
            u->first_row = row;
        check_row(c, row, u);
    }
}

static void read_uses(const kit_checker *c, piece_use *use) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        if (k->step_parts[i].part == KIT_NONE)
            continue;
        piece_use *u = &use[k->step_parts[i].part];
        u->used = true;
        u->unsure = u->unsure || kit_state(k, "step_parts")->faulty[i];
    }
}

static void check_need(kit_checker *c, const kit_step_part *one, piece_use *u) {
    const kit *k = c->kit;
    text part = k->parts[one->part].number;
    if (u->told)
        return;
    if (!u->on_row) {
        fault_add(c->faults, kit_place(c, "step_parts", one->row, "part"),
                  "add a row for it to the packing list, or correct the part",
                  "step %.*s needs \"%.*s\", but no row holds it", TEXT_ARG(k->steps[one->step].number),
                  TEXT_ARG(part));
        u->told = true;
        return;
    }
    u->needed += one->quantity;
    if (u->unsure || u->needed <= kit_packed(k, one->part))
        return;
    fault_add(c->faults, kit_place(c, "step_parts", one->row, "quantity"),
              "pack more, or lower the quantities of the steps",
              "the steps need %lld of \"%.*s\", the boxes hold %lld", (long long)kit_needed(k, one->part),
              TEXT_ARG(part), (long long)kit_packed(k, one->part));
    u->told = true;
}

static void check_needs(kit_checker *c, piece_use *use) {
    const kit *k = c->kit;
    if (kit_state(k, "rows")->damaged)
        return;
    for (uint32_t i = 0; i < k->n_step_parts; i++)
        if (!kit_state(k, "step_parts")->faulty[i])
            check_need(c, &k->step_parts[i], &use[k->step_parts[i].part]);
}

static void check_unused(kit_checker *c, const piece_use *use) {
    const kit *k = c->kit;
    if (kit_state(k, "step_parts")->damaged)
        return;
    for (uint32_t i = 0; i < k->n_rows; i++) {
        const kit_row *row = &k->rows[i];
        if (kit_state(k, "rows")->faulty[i] || use[row->part].used || row->spare >= row->quantity)
            continue;
        fault_add(c->faults, kit_place(c, "rows", row->row, "part"),
                  arena_format(c->memory, "mark all %lld as spare, or add the step that uses it",
                               (long long)row->quantity)
                      .at,
                  "no step uses \"%.*s\", but %lld of %lld are spare", TEXT_ARG(k->parts[row->part].number),
                  (long long)row->spare, (long long)row->quantity);
    }
}

void kit_check_pieces(kit_checker *c) {
    piece_use *use = arena_array(c->memory, piece_use, c->kit->n_parts);
    read_rows(c, use);
    if (c->kit->n_steps == 0)
        return; /* a kit to be counted only */
    read_uses(c, use);
    check_needs(c, use);
    check_unused(c, use);
}
