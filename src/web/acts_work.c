/* acts_work.c: what pages do at the steps, with pieces, and to take back what was entered. */
#include <string.h>

#include "web/acts.h"

static const char *or_null(const char *z) {
    return z[0] ? z : NULL;
}

bool act_start(act *a, err *e) {
    kit_index step;
    const char *people, *confirm;
    return act_step(a, &step, e) && ask_names(a->memory, a->in, "people", &people, e) &&
           ask_text(a->in, "confirm", &confirm, e) && acts_confirm(a, confirm, e) &&
           (a->why.n || desk_start(a->desk, step, people, confirm, a->by, &a->why, e));
}

bool act_change_over(act *a, err *e) {
    kit_index step;
    const char *people;
    return act_step(a, &step, e) && ask_names(a->memory, a->in, "people", &people, e) &&
           desk_change_over(a->desk, step, people, a->by, &a->why, e);
}

bool act_leave(act *a, err *e) {
    kit_index step;
    return act_step(a, &step, e) && desk_leave(a->desk, step, NULL, a->by, &a->why, e);
}

bool act_block(act *a, err *e) {
    kit_index step;
    const char *reason;
    return act_step(a, &step, e) && ask_word(a->in, "reason", &reason, e) &&
           desk_leave(a->desk, step, reason, a->by, &a->why, e);
}

static bool read_left(act *a, desk_left **out, uint32_t *n, err *e) {
    const json_t *list = json_object_get(a->in, "left");
    *n = 0;
    *out = NULL;
    if (!list || json_is_null(list))
        return true;
    if (!json_is_array(list) || json_array_size(list) > a->desk->kit->n_parts)
        return err_input(e, "left", "send a list of parts with their quantities", "it is none");
    *out = arena_array(a->memory, desk_left, json_array_size(list) + 1);
    for (size_t i = 0; i < json_array_size(list); i++, (*n)++) {
        const json_t *one = json_array_get(list, i);
        if (!act_part(a, one, &(*out)[i].part, e) ||
            !ask_integer(one, "quantity", 0, ACT_MOST_PIECES, -2, &(*out)[i].quantity, e))
            return false;
    }
    return true;
}

bool act_finish(act *a, err *e) {
    kit_index step;
    int64_t minutes;
    desk_left *left;
    uint32_t n;
    return act_step(a, &step, e) && ask_integer(a->in, "minutes", -1, 10000, -1, &minutes, e) &&
           read_left(a, &left, &n, e) && desk_finish(a->desk, step, minutes, left, n, a->by, &a->why, e);
}

bool act_test(act *a, err *e) {
    kit_index step;
    int64_t n;
    const char *value, *signed_by, *reason;
    if (!act_step(a, &step, e) || !ask_integer(a->in, "n", 1, 9999, 0, &n, e) ||
        !ask_word(a->in, "value", &value, e) || !ask_text(a->in, "signed_by", &signed_by, e) ||
        !ask_text(a->in, "reason", &reason, e))
        return false;
    kit_index test = stock_find_test(a->desk->kit, step, n);
    if (test == KIT_NONE)
        return err_input(e, "n", "choose one of the list", "the step has no such test");
    return acts_confirm(a, signed_by, e) &&
           (a->why.n ||
            desk_test(a->desk, test, text_of(value), or_null(signed_by), or_null(reason), a->by, &a->why, e));
}

static bool read_place(act *a, const char *key, stock_place *out, err *e) {
    const char *word;
    if (!ask_word(a->in, key, &word, e))
        return false;
    *out = stock_place_of(text_of(word));
    return *out != STOCK_PLACES ||
           err_input(e, key, "write row, compartment, tub, fitted, lost or scrapped", "it is no place");
}

bool act_move(act *a, err *e) {
    desk_transfer t = {.row = KIT_NONE, .step = KIT_NONE};
    const char *step, *container;
    int64_t line;
    kit_index in;
    if (!act_part(a, a->in, &t.part, e) ||
        !ask_integer(a->in, "quantity", 1, ACT_MOST_PIECES, 0, &t.quantity, e) ||
        !read_place(a, "from", &t.from, e) || !read_place(a, "to", &t.to, e) ||
        !ask_text(a->in, "step", &step, e) || !ask_text(a->in, "in", &container, e) ||
        !ask_integer(a->in, "line", -1, 9999, -1, &line, e))
        return false;
    if (step[0] && !desk_find_step(a->desk, text_of(step), &t.step, e))
        return false;
    if (container[0] && !desk_find_container(a->desk, text_of(container), &in, e))
        return false;
    if (container[0] && (t.row = kit_find_row(a->desk->kit, in, line)) == KIT_NONE)
        return err_input(e, "line", "choose one of the list", "it has no such row");
    return desk_move(a->desk, &t, a->by, &a->why, e);
}

bool act_close(act *a, err *e) {
    const char *missing;
    return ask_text(a->in, "missing", &missing, e) && desk_close_count(a->desk, missing, a->by, &a->why, e);
}

bool act_undo(act *a, err *e) {
    int64_t entry;
    const char *reason;
    text *told;
    uint32_t n;
    return ask_integer(a->in, "entry", 1, INT64_MAX, 0, &entry, e) && ask_text(a->in, "reason", &reason, e) &&
           desk_undo(a->desk, entry, or_null(reason), a->by, &told, &n, e);
}

bool act_undo_step(act *a, err *e) {
    kit_index step;
    const char *reason;
    return act_step(a, &step, e) && ask_word(a->in, "reason", &reason, e) &&
           acts_confirm(a, a->by.by ? a->by.by : "", e) &&
           (a->why.n || desk_undo_step(a->desk, step, reason, a->by, &a->why, e));
}

/* An adult's PIN. The new one is not in the journal, only that there is one. */
bool act_set_code(act *a, err *e) {
    const char *person, *code;
    return ask_word(a->in, "person", &person, e) && ask_text(a->in, "code", &code, e) &&
           acts_confirm(a, a->by.by ? a->by.by : "", e) &&
           (a->why.n || desk_set_code(a->desk, text_of(person), or_null(code), a->by, e));
}
