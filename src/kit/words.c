/* words.c: the words of the tables for our enumerations. */
#include "kit/kit.h"

const char *kit_unit_word(kit_unit u) {
    static const char *const words[] = {"piece", "mm", "g", "mg", "ml", "pack"};
    return words[u];
}

const char *kit_supervision_word(kit_supervision s) {
    static const char *const words[] = {"in the room", "beside the work", "adult does it"};
    return words[s];
}
