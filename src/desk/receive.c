/* receive.c: a box at the door. */
#include "desk/act.h"

bool desk_receive(desk *d, text box, int64_t mass_g, const char *damage, desk_who who, kit_index *out,
                  err *e) {
    if (!desk_find_container(d, box, out, e))
        return false;
    const kit_container *c = &d->kit->containers[*out];
    if (c->inside != KIT_NONE)
        return err_input(e, arena_z(d->memory, c->number), "name the box it lies in",
                         "it is a bag; only boxes are received");
    text damage_text = text_trim(text_of(damage));
    if (!act_check_text(damage_text, "--damaged", e))
        return false;
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    store_entry n = act_entry(&stamp, STORE_RECEIVE);
    n.container = c->number;
    n.mass_g = mass_g;
    n.note = damage_text;
    int64_t number;
    return act_end(d, store_append(d->file, &n, &number, e), e);
}
