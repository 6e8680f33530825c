/* lookup.c: finding records by what people type. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/utf8.h"
#include "kit/inside.h"

static int compare_nocase(text a, text b) {
    size_t shared = a.len < b.len ? a.len : b.len;
    int order = shared ? strncasecmp(a.at, b.at, shared) : 0;
    if (order)
        return order;
    return (a.len > b.len) - (a.len < b.len);
}

int kit_compare_keys(const void *left, const void *right) {
    const kit_key *a = left, *b = right;
    int order = compare_nocase(a->key, b->key);
    return order ? order : (a->at > b->at) - (a->at < b->at);
}

/* The position of the first key that is not below `wanted`. */
static uint32_t lower_bound(const kit_key *keys, uint32_t n, text wanted) {
    uint32_t low = 0, high = n;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        if (compare_nocase(keys[middle].key, wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

kit_index kit_find_key(const kit_table_state *s, text key) {
    uint32_t i = lower_bound(s->keys, s->n_keys, key);
    return i < s->n_keys && compare_nocase(s->keys[i].key, key) == 0 ? s->keys[i].at : KIT_NONE;
}

kit_index kit_form_index(const char *table, bool of_workshop) {
    uint32_t n;
    const kit_table_form *form = kit_find_form(table, of_workshop);
    return form ? (kit_index)(form - kit_forms(&n)) : KIT_NONE;
}

const kit_table_state *kit_state(const kit *k, const char *table) {
    return &k->lookup->of[kit_form_index(table, false)];
}

const kit_table_state *kit_workshop_state(const kit_workshop *w, const char *table) {
    return &w->lookup->of[kit_form_index(table, true)];
}

kit_index kit_find_part(const kit *k, text number) {
    return kit_find_key(kit_state(k, "parts"), number);
}

kit_index kit_find_container(const kit *k, text number) {
    return kit_find_key(kit_state(k, "containers"), number);
}

kit_index kit_find_step(const kit *k, text number) {
    return kit_find_key(kit_state(k, "steps"), number);
}

kit_index kit_find_tool(const kit *k, text number) {
    return kit_find_key(kit_state(k, "tools"), number);
}

kit_index kit_find_row(const kit *k, kit_index container, int64_t line) {
    uint32_t low = 0, high = k->n_rows;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        const kit_row *row = &k->rows[k->lookup->rows[middle]];
        if (row->container < container || (row->container == container && row->line < line))
            low = middle + 1;
        else
            high = middle;
    }
    if (low == k->n_rows)
        return KIT_NONE;
    const kit_row *row = &k->rows[k->lookup->rows[low]];
    return row->container == container && row->line == line ? k->lookup->rows[low] : KIT_NONE;
}

/* Only what carries meaning: blanks and dashes are written one way on the bag and another in the list. */
static text bare_number(arena *a, text number) {
    char *made = arena_alloc(a, number.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < number.len; i++) {
        char c = number.at[i];
        if (c == ' ' || c == '-' || c == '\t')
            continue;
        made[n++] = c >= 'A' && c <= 'Z' ? (char)(c + 32) : c;
    }
    return (text){made, n};
}

kit_indices kit_find_parts_by_any_number(arena *a, const kit *k, text number) {
    const kit_lookup *l = k->lookup;
    text wanted = bare_number(a, number);
    uint32_t from = lower_bound(l->any_numbers, l->n_any_numbers, wanted), to = from;
    while (to < l->n_any_numbers && compare_nocase(l->any_numbers[to].key, wanted) == 0)
        to++;
    kit_indices found = {arena_array(a, kit_index, to - from), 0};
    for (uint32_t i = from; i < to; i++)
        if (!found.n || found.list[found.n - 1] != l->any_numbers[i].at)
            found.list[found.n++] = l->any_numbers[i].at;
    return found;
}

kit_index kit_find_person(const kit_workshop *w, text number_or_name) {
    kit_index by_number = kit_find_key(kit_workshop_state(w, "crew"), number_or_name);
    if (by_number != KIT_NONE)
        return by_number;
    /* Names are not only ASCII. */
    arena *a = arena_open();
    text wanted = utf8_fold(a, number_or_name, false);
    kit_index found = KIT_NONE;
    bool several = false;
    for (kit_index i = 0; i < w->n_crew; i++) {
        if (!text_equal(utf8_fold(a, w->crew[i].name, false), wanted))
            continue;
        several = several || found != KIT_NONE;
        found = i;
    }
    arena_close(a);
    return several ? KIT_NONE : found;
}

kit_index kit_box_of(const kit *k, kit_index container) {
    while (k->containers[container].inside != KIT_NONE)
        container = k->containers[container].inside;
    return container;
}

int64_t kit_packed(const kit *k, kit_index part) {
    return k->lookup->packed[part];
}

int64_t kit_needed(const kit *k, kit_index part) {
    return k->lookup->needed[part];
}

/* --- building --- */

static int compare_rows(const void *left, const void *right, void *context) {
    const kit *k = context;
    kit_index i = *(const kit_index *)left, j = *(const kit_index *)right;
    const kit_row *a = &k->rows[i], *b = &k->rows[j];
    if (a->container != b->container)
        return a->container < b->container ? -1 : 1;
    if (a->line != b->line)
        return a->line < b->line ? -1 : 1;
    return (i > j) - (i < j);
}

static void sum_pieces(arena *a, const kit *k, kit_lookup *l) {
    l->packed = arena_array(a, int64_t, k->n_parts);
    l->needed = arena_array(a, int64_t, k->n_parts);
    for (uint32_t i = 0; i < k->n_rows; i++)
        if (k->rows[i].part != KIT_NONE)
            l->packed[k->rows[i].part] += k->rows[i].quantity;
    for (uint32_t i = 0; i < k->n_step_parts; i++)
        if (k->step_parts[i].part != KIT_NONE)
            l->needed[k->step_parts[i].part] += k->step_parts[i].quantity;
}

static void list_numbers(arena *a, const kit *k, kit_lookup *l) {
    uint32_t n = k->n_parts;
    for (uint32_t i = 0; i < k->n_parts; i++)
        n += k->parts[i].makers_numbers.n;
    l->any_numbers = arena_array(a, kit_key, n);
    for (kit_index i = 0; i < k->n_parts; i++) {
        const kit_part *p = &k->parts[i];
        l->any_numbers[l->n_any_numbers++] = (kit_key){bare_number(a, p->number), i};
        for (uint32_t m = 0; m < p->makers_numbers.n; m++)
            l->any_numbers[l->n_any_numbers++] = (kit_key){bare_number(a, p->makers_numbers.list[m]), i};
    }
    qsort(l->any_numbers, l->n_any_numbers, sizeof *l->any_numbers, kit_compare_keys);
}

void kit_finish_lookup(arena *a, kit *k) {
    kit_lookup *l = arena_new(a, kit_lookup);
    *l = *k->lookup;
    l->rows = arena_array(a, kit_index, k->n_rows);
    for (kit_index i = 0; i < k->n_rows; i++)
        l->rows[i] = i;
    qsort_r(l->rows, k->n_rows, sizeof *l->rows, compare_rows, k);
    sum_pieces(a, k, l);
    list_numbers(a, k, l);
    k->lookup = l;
}
