/* raw.c: finding one's way in a table before anybody understood it. */
#include "kit/kit.h"

int kit_table_column(const kit_table *t, text name) {
    for (uint32_t i = 0; i < t->n_columns; i++)
        if (text_equal(t->columns[i], name))
            return (int)i;
    return -1;
}

text kit_table_key(arena *a, const kit_table_form *form, const kit_table *t, uint32_t row) {
    text names = text_of(form->key), name, key = TEXT("");
    for (bool first = true; names.len && text_next_piece(&names, '+', &name); first = false) {
        int at = kit_table_column(t, name);
        text cell = at < 0 ? TEXT("") : t->cells[(size_t)row * t->n_columns + (size_t)at];
        key = first ? cell : arena_format(a, "%.*s;%.*s", TEXT_ARG(key), TEXT_ARG(cell));
    }
    return key;
}
