/* check_containers.c: do the boxes and bags nest, and can they weigh what is written? */
#include <string.h>

#include "base/number.h"
#include "kit/inside.h"

static bool faulty(const kit_checker *c, kit_index container) {
    return kit_state(c->kit, "containers")->faulty[container];
}

static void check_kind(kit_checker *c, const kit_container *one) {
    if (one->kind == KIT_BAG && one->inside == KIT_NONE)
        fault_add(c->faults, kit_place(c, "containers", one->row, "inside"),
                  "name the box or bag it lies in, or make it a box", "the bag \"%.*s\" lies in nothing",
                  TEXT_ARG(one->number));
    if (one->kind == KIT_BOX && one->inside != KIT_NONE)
        fault_add(c->faults, kit_place(c, "containers", one->row, "inside"),
                  "leave the cell empty, or make it a bag", "the box \"%.*s\" lies in \"%.*s\"",
                  TEXT_ARG(one->number), TEXT_ARG(c->kit->containers[one->inside].number));
}

static void report_circle(kit_checker *c, kit_index start) {
    const kit *k = c->kit;
    text circle = k->containers[start].number;
    kit_index at = start;
    do {
        at = k->containers[at].inside;
        circle =
            arena_format(c->memory, "%.*s in %.*s", TEXT_ARG(circle), TEXT_ARG(k->containers[at].number));
    } while (at != start);
    fault_add(c->faults, kit_place(c, "containers", k->containers[start].row, "inside"),
              "name for one of them the container it really lies in", "they lie in a circle: %.*s",
              TEXT_ARG(circle));
}

/* Follows `inside` from each container; a walk that meets its own track has found a circle. True when there is none. */
static bool check_circles(kit_checker *c) {
    const kit *k = c->kit;
    uint32_t *walk_of = arena_array(c->memory, uint32_t, k->n_containers);
    bool none = true;
    for (kit_index i = 0; i < k->n_containers; i++) {
        kit_index at = i;
        while (at != KIT_NONE && !walk_of[at]) {
            walk_of[at] = i + 1;
            at = k->containers[at].inside;
        }
        if (at == KIT_NONE || walk_of[at] != i + 1)
            continue;
        report_circle(c, at);
        none = false;
    }
    return none;
}

/* Saturating, so that an absurd mass stays absurd. */
static int64_t add_product(int64_t sum, int64_t a, int64_t b) {
    int64_t product;
    if (__builtin_mul_overflow(a, b, &product) || __builtin_add_overflow(sum, product, &sum))
        return INT64_MAX;
    return sum;
}

static void check_masses(kit_checker *c) {
    const kit *k = c->kit;
    int64_t *content_mg = arena_array(c->memory, int64_t, k->n_containers);
    for (uint32_t i = 0; i < k->n_rows; i++) {
        const kit_row *row = &k->rows[i];
        if (kit_state(k, "rows")->faulty[i] || k->parts[row->part].mass_mg < 0)
            continue;
        for (kit_index at = row->container; at != KIT_NONE; at = k->containers[at].inside)
            content_mg[at] = add_product(content_mg[at], k->parts[row->part].mass_mg, row->quantity);
    }
    for (kit_index i = 0; i < k->n_containers; i++) {
        const kit_container *one = &k->containers[i];
        if (faulty(c, i) || one->gross_mass_g < 0)
            continue;
        if (content_mg[i] / 1050 <= one->gross_mass_g) /* 5 % for the pieces' tolerances */
            continue;
        char content[24], gross[24];
        number_print_decimal(content_mg[i] / 1000, 3, content);
        number_print_decimal(one->gross_mass_g, 3, gross);
        fault_add(c->faults, kit_place(c, "containers", one->row, "gross_mass_kg"),
                  "correct it, or the masses of the parts",
                  "the pieces in \"%.*s\" weigh %s kg, it as a whole %s kg", TEXT_ARG(one->number), content,
                  gross);
    }
}

void kit_check_containers(kit_checker *c) {
    for (kit_index i = 0; i < c->kit->n_containers; i++)
        if (!faulty(c, i))
            check_kind(c, &c->kit->containers[i]);
    if (check_circles(c))
        check_masses(c);
}
