/* read.c: the ways in: from raw tables, from folders. */
#include "kit/inside.h"

static kit *new_kit(arena *a, kit_reader *r) {
    uint32_t n;
    kit_forms(&n);
    kit *k = arena_new(a, kit);
    kit_lookup *l = arena_new(a, kit_lookup);
    l->of = arena_array(a, kit_table_state, n);
    k->lookup = l;
    r->own = l->of;
    r->of_kit = l->of;
    return k;
}

/* As much of the kit as can be read. */
static const kit *understand_kit(arena *a, const kit_tables *tables, faults *f) {
    kit_reader r = {.memory = a, .faults = f};
    kit *k = new_kit(a, &r);
    kit_read_tables(&r, tables, k);
    kit_finish_lookup(a, k);
    return k;
}

static const kit_workshop *understand_workshop(arena *a, const kit_tables *tables, const kit *k, faults *f) {
    uint32_t n;
    kit_forms(&n);
    kit_workshop *w = arena_new(a, kit_workshop);
    kit_lookup *l = arena_new(a, kit_lookup);
    l->of = arena_array(a, kit_table_state, n);
    w->lookup = l;
    kit_reader r = {.memory = a, .faults = f, .of_workshop = true, .own = l->of, .of_kit = k->lookup->of};
    kit_read_tables(&r, tables, w);
    return w;
}

bool kit_from_tables(arena *a, const kit_tables *tables, faults *f, const kit **out) {
    size_t before = f->n;
    const kit *k = understand_kit(a, tables, f);
    *out = f->n == before ? k : NULL;
    return *out != NULL;
}

bool kit_workshop_from_tables(arena *a, const kit_tables *tables, const kit *k, faults *f,
                              const kit_workshop **out) {
    size_t before = f->n;
    const kit_workshop *w = understand_workshop(a, tables, k, f);
    *out = f->n == before ? w : NULL;
    return *out != NULL;
}

bool kit_read_and_check(arena *a, const kit_tables *of_kit, const kit_tables *of_workshop, faults *f,
                        const kit **k, const kit_workshop **w) {
    size_t before = f->n;
    *k = understand_kit(a, of_kit, f);
    *w = of_workshop ? understand_workshop(a, of_workshop, *k, f) : NULL;
    return kit_check(*k, *w, f) && f->n == before;
}

bool kit_read(arena *a, const char *kit_folder, const char *workshop_folder, faults *f, const kit **k,
              const kit_workshop **w, err *e) {
    kit_tables of_kit, of_workshop;
    *k = NULL;
    *w = NULL;
    /* Faults of the folders do not end it; a folder that cannot be read at all does. */
    bool whole = kit_tables_from_folder(a, kit_folder, false, f, &of_kit, e);
    if (e->kind == ERR_NONE && workshop_folder)
        whole = kit_tables_from_folder(a, workshop_folder, true, f, &of_workshop, e) && whole;
    if (e->kind != ERR_NONE)
        return false;
    const kit *read_kit;
    const kit_workshop *read_workshop;
    whole =
        kit_read_and_check(a, &of_kit, workshop_folder ? &of_workshop : NULL, f, &read_kit, &read_workshop) &&
        whole;
    if (!kit_check_pictures(a, read_kit, kit_folder, f) || !whole)
        return false;
    *k = read_kit;
    *w = read_workshop;
    return true;
}
