/* acts_together.c: several pairs at one stock check: who has which box, second counts, labels, tools, the report. */
#include <sodium.h>
#include <string.h>

#include "web/acts.h"

bool act_take(act *a, err *e) {
    kit_index container;
    const char *people;
    bool anyway;
    return act_container(a, &container, e) && ask_names(a->memory, a->in, "people", &people, e) &&
           ask_bool(a->in, "anyway", &anyway, e) &&
           desk_take(a->desk, container, people, a->who->joined.place, anyway, a->by, &a->why, e);
}

bool act_bring_back(act *a, err *e) {
    kit_index container;
    return act_container(a, &container, e) && desk_bring_back(a->desk, container, a->by, &a->why, e);
}

bool act_all_here(act *a, err *e) {
    kit_index container;
    uint32_t n;
    return act_container(a, &container, e) && desk_all_here(a->desk, container, a->by, &n, e);
}

bool act_count_again(act *a, err *e) {
    kit_index container, row;
    int64_t usable, damaged;
    return act_row(a, &container, &row, e) &&
           ask_integer(a->in, "usable", 0, ACT_MOST_PIECES, -2, &usable, e) &&
           ask_integer(a->in, "damaged", 0, ACT_MOST_PIECES, 0, &damaged, e) &&
           desk_count_again(a->desk, row, usable, damaged, a->by, &a->why, e);
}

bool act_label(act *a, err *e) {
    kit_index part;
    const char *label;
    return act_part(a, a->in, &part, e) && ask_text(a->in, "label", &label, e) &&
           desk_label(a->desk, part, text_of(label), a->by, e);
}

bool act_tools(act *a, err *e) {
    const json_t *list = json_object_get(a->in, "tools");
    size_t n = json_array_size(list);
    if (!json_is_array(list) || n == 0 || n > a->desk->kit->n_tools)
        return err_input(e, "tools", "send a list of tools with their quantities", "it is none");
    desk_tools_here *here = arena_array(a->memory, desk_tools_here, n);
    for (size_t i = 0; i < n; i++) {
        const char *number;
        const json_t *one = json_array_get(list, i);
        if (!ask_word(one, "tool", &number, e) ||
            !ask_integer(one, "quantity", 0, ACT_MOST_PIECES, -2, &here[i].quantity, e))
            return false;
        here[i].tool = kit_find_tool(a->desk->kit, text_of(number));
        if (here[i].tool == KIT_NONE)
            return err_input(e, "tool", "choose one of the list", "the kit has no tool of that number");
    }
    return desk_count_tools(a->desk, here, (uint32_t)n, a->by, e);
}

bool act_report_sent(act *a, err *e) {
    const char *note;
    uint32_t n;
    return ask_text(a->in, "note", &note, e) &&
           desk_report_sent(a->desk, note[0] ? note : NULL, a->by, &n, e);
}

bool act_read_photo(act *a, text *out, err *e) {
    const json_t *v = json_object_get(a->in, "photo");
    *out = TEXT("");
    if (!v || json_is_null(v))
        return true;
    size_t n = 0, most = json_string_length(v) / 4 * 3 + 3;
    unsigned char *bytes = arena_array(a->memory, unsigned char, most);
    if (!json_is_string(v) || sodium_base642bin(bytes, most, json_string_value(v), json_string_length(v),
                                                NULL, &n, NULL, sodium_base64_VARIANT_ORIGINAL))
        return err_input(e, "photo", "take it again", "it is no picture in Base64 (RFC 4648)");
    *out = (text){(const char *)bytes, n};
    return true;
}
