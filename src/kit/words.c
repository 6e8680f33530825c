/* words.c: the words of the tables for our enumerations, from the forms. */
#include <assert.h>
#include <string.h>

#include "kit/kit.h"

text kit_word(const char *table, const char *column, unsigned value) {
    const kit_table_form *form = kit_find_form(table, false);
    for (uint32_t i = 0; form && i < form->n_columns; i++) {
        if (strcmp(form->columns[i].name, column) != 0 || !form->columns[i].words)
            continue;
        text rest = text_of(form->columns[i].words), word;
        for (unsigned n = 0; text_next_piece(&rest, '|', &word); n++)
            if (n == value)
                return word;
    }
    assert(false && "no such table, column or word");
    return TEXT("");
}

const char *kit_unit_word(kit_unit u) {
    static const char *const words[] = {"piece", "mm", "g", "mg", "ml", "pack"};
    return words[u];
}

const char *kit_supervision_word(kit_supervision s) {
    static const char *const words[] = {"in the room", "beside the work", "adult does it"};
    return words[s];
}
