/* check.c: runs every rule that looks at more than one cell. */
#include "kit/inside.h"

fault_place kit_place(const kit_checker *c, const char *table, uint32_t row, const char *column) {
    return (fault_place){kit_state(c->kit, table)->file, row, text_of(column)};
}

fault_place kit_workshop_place(const kit_checker *c, const char *table, uint32_t row, const char *column) {
    return (fault_place){kit_workshop_state(c->workshop, table)->file, row, text_of(column)};
}

bool kit_check(const kit *k, const kit_workshop *w, faults *f) {
    size_t before = f->n;
    kit_checker c = {.memory = arena_open(), .faults = f, .kit = k, .workshop = w};
    c.order = kit_order_of(c.memory, k);
    kit_check_containers(&c);
    kit_check_designations(&c);
    kit_check_order(&c);
    kit_check_steps(&c);
    kit_check_tightening(&c);
    kit_check_pieces(&c);
    kit_check_supplies(&c);
    if (w) {
        kit_check_workshop(&c);
        kit_check_resources(&c);
    }
    arena_close(c.memory);
    return f->n == before;
}
