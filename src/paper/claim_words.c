/* claim_words.c: rows of the packing list in the words of the report. */
#include "paper/claim.h"
#include "paper/wording.h"

text claim_quantity(const claim *r, kit_index row, int64_t n) {
    return wording_quantity(r->memory, n, r->kit->rows[row].unit);
}

text claim_place(const claim *r, kit_index row) {
    const kit_row *listed = &r->kit->rows[row];
    text label = r->kit->containers[listed->container].label;
    return arena_format(r->memory, "%.*s%s%.*s%s row %lld",
                        TEXT_ARG(wording_place(r->memory, r->kit, listed->container)), label.len ? " (" : "",
                        TEXT_ARG(label), label.len ? ")" : "", (long long)listed->line);
}

text claim_evidence(const claim *r, kit_index row) {
    const stock_row *state = &r->found->rows[row];
    text damaged = TEXT("");
    if (state->damaged)
        damaged =
            arena_format(r->memory, ", %.*s damaged%s", TEXT_ARG(claim_quantity(r, row, state->damaged)),
                         state->in_transit ? " on the way" : "");
    return arena_format(r->memory, "%.*s: %.*s usable of %.*s%.*s", TEXT_ARG(claim_place(r, row)),
                        TEXT_ARG(claim_quantity(r, row, state->usable)),
                        TEXT_ARG(claim_quantity(r, row, state->expected)), TEXT_ARG(damaged));
}

text claim_part_evidence(const claim *r, kit_index part) {
    buf lines = {0};
    for (kit_index i = 0; i < r->kit->n_rows; i++)
        if (r->kit->rows[i].part == part && r->found->rows[i].lacking)
            buf_addf(&lines, "%s%.*s", lines.len ? "\n" : "", TEXT_ARG(claim_evidence(r, i)));
    text t = arena_text(r->memory, buf_text(&lines));
    buf_free(&lines);
    return t;
}
