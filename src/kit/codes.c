#include <stdlib.h>
#include <string.h>

#include "kit/kit.h"

static const char letters[] = "ACDEFHJKLMNPRTUVWXY34679";
enum { LETTERS = sizeof letters - 1, POSSIBLE = LETTERS * LETTERS * LETTERS * LETTERS };

/* FNV-1a (Fowler, Noll, Vo), 32 bits. */
static uint32_t hash(kit_code_kind kind, text number, uint32_t again) {
    uint32_t h = 2166136261U;
    for (size_t i = 0; i < number.len; i++)
        h = (h ^ (unsigned char)number.at[i]) * 16777619U;
    h = (h ^ (uint32_t)kind) * 16777619U;
    h = (h ^ again) * 16777619U;
    return h ^ h >> 15;
}

static uint32_t length_of(const kit *k, kit_code_kind kind) {
    return kind == KIT_CODE_CONTAINER ? k->n_containers : kind == KIT_CODE_PART ? k->n_parts : k->n_steps;
}

static text number_of(const kit *k, kit_code_kind kind, kit_index i) {
    return kind == KIT_CODE_CONTAINER ? k->containers[i].number
           : kind == KIT_CODE_PART    ? k->parts[i].number
                                      : k->steps[i].number;
}

static void spell(uint32_t value, char out[KIT_CODE_LENGTH + 1]) {
    for (int i = KIT_CODE_LENGTH; i-- > 0; value /= LETTERS)
        out[i] = letters[value % LETTERS];
    out[KIT_CODE_LENGTH] = '\0';
}

static int compare(const void *a, const void *b) {
    return strcmp((*(const kit_code *const *)a)->code, (*(const kit_code *const *)b)->code);
}

void kit_make_codes(arena *a, const kit *k, kit_codes *out) {
    *out = (kit_codes){0};
    for (int kind = 0; kind < KIT_CODE_KINDS; kind++)
        out->n += length_of(k, (kit_code_kind)kind);
    if (out->n > POSSIBLE / 2) {
        *out = (kit_codes){0};
        return;
    }
    out->sorted = arena_array(a, const kit_code *, out->n);
    bool *taken = arena_array(a, bool, POSSIBLE);
    uint32_t n = 0;
    for (int kind = 0; kind < KIT_CODE_KINDS; kind++) {
        uint32_t length = length_of(k, (kit_code_kind)kind);
        kit_code *list = arena_array(a, kit_code, length);
        for (kit_index i = 0; i < length; i++) {
            text number = number_of(k, (kit_code_kind)kind, i);
            uint32_t again = 0, value;
            do
                value = hash((kit_code_kind)kind, number, again++) % POSSIBLE;
            while (taken[value]);
            taken[value] = true;
            list[i] = (kit_code){.kind = (kit_code_kind)kind, .index = i};
            spell(value, list[i].code);
            out->sorted[n++] = &list[i];
        }
        out->by_index[kind] = list;
    }
    if (n)
        qsort(out->sorted, n, sizeof(const kit_code *), compare);
}

const kit_code *kit_find_code(const kit_codes *codes, text typed) {
    kit_code wanted = {0};
    if (typed.len != KIT_CODE_LENGTH)
        return NULL;
    for (size_t i = 0; i < typed.len; i++) {
        char c = typed.at[i];
        wanted.code[i] = c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
    }
    const kit_code *key = &wanted, **found = NULL;
    if (codes->n)
        found = bsearch(&key, codes->sorted, codes->n, sizeof(const kit_code *), compare);
    return found ? *found : NULL;
}
