/* draft_fastener.c: what the trade makes of a name in a list.
 *
 * Only what the list itself states becomes a designation: it must name the standard, and the strict reader must accept all
 * of it. Everything that had to be assumed stays a proposal in words, for a person to confirm.
 */
#include "kit/draft_inside.h"
#include "trade/trade.h"

/* ". Assumed: a; b" */
static text add_list(arena *a, text to, const char *lead, const text *list, uint8_t n) {
    for (uint8_t i = 0; i < n; i++)
        to = arena_format(a, "%.*s%s%.*s", TEXT_ARG(to), i ? "; " : lead, TEXT_ARG(list[i]));
    return to;
}

/* The canonical text of `d` when the strict reader takes it for the same piece, else empty. */
static text strict_text(arena *a, const designation *d) {
    char printed[DESIGNATION_TEXT];
    designation again;
    int n = designation_print(d, printed, sizeof printed);
    if (!d->standard || n <= 0 || (size_t)n >= sizeof printed ||
        !designation_read(text_of(printed), &again, NULL) || !designation_equal(d, &again))
        return TEXT("");
    return arena_text(a, text_of(printed));
}

void draft_fastener_read(arena *a, const draft_row *row, text *out, text *proposed) {
    *out = *proposed = TEXT("");
    designation d;
    if (designation_read(row->name, &d, NULL)) {
        *out = strict_text(a, &d);
        return;
    }
    const text cells[] = {row->name, row->specification, row->note};
    proposal p;
    designation_propose(a, cells, sizeof cells / sizeof cells[0], &p);
    if (!p.is_fastener)
        return;
    if (!p.n_conflicts && !p.n_missing)
        *out = strict_text(a, &p.stated);
    if (out->len)
        return;
    char printed[DESIGNATION_TEXT];
    designation_print(&p.guess, printed, sizeof printed);
    text t = arena_format(a, "perhaps %s", printed);
    t = add_list(a, t, ". Assumed: ", p.assumed, p.n_assumed);
    t = add_list(a, t, ". Not said: ", p.missing, p.n_missing);
    *proposed = add_list(a, t, ". Contradiction: ", p.conflicts, p.n_conflicts);
}
