/* Any bytes as quick entry: it ends, and what it gives back are counts of rows and containers that the kit has. Run from
 * the project's root. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "desk/desk.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const kit *the_kit(const kit_workshop **w) {
    static arena *a; /* kept for the whole run */
    static const kit *k;
    static const kit_workshop *crew;
    if (!k) {
        a = arena_open();
        faults f = faults_in(a);
        err e;
        if (!kit_read(a, "tests/support/barrow", "tests/support/barrow-crew", &f, &k, &crew, &e)) {
            fprintf(stderr, "run it from the project's root\n");
            exit(1);
        }
    }
    *w = crew;
    return k;
}

static void check(const kit *k, const desk_count *c) {
    if (c->find ? c->container >= k->n_containers || !c->what.len : c->row >= k->n_rows)
        abort();
    if (c->usable < 0 || c->damaged < 0)
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    const kit_workshop *w;
    const kit *k = the_kit(&w);
    arena *a = arena_open();
    faults f = faults_in(a);
    desk_count *counts;
    size_t n;
    text entry = arena_text(a, (text){(const char *)data, size});
    if (desk_read_entry(a, k, w, entry, TEXT("fuzz"), &f, &counts, &n)) {
        for (size_t i = 0; i < n; i++)
            check(k, &counts[i]);
    } else if (!f.n) {
        abort();
    }
    arena_close(a);
    return 0;
}
