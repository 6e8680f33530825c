/* lift_unit.c: the mass of a unit as it grows. */
#include "cli/lift_unit.h"

typedef struct {
    double kg;
    uint32_t unknown;
} mass_sum;

static mass_sum step_mass(const kit *k, kit_index step) {
    mass_sum sum = {0, 0};
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->step != step)
            continue;
        int64_t mg = k->parts[p->part].mass_mg;
        sum.unknown += mg < 0;
        sum.kg += mg > 0 ? (double)mg * (double)p->quantity / 1e6 : 0;
    }
    return sum;
}

/* The first step in build order that follows a step of the sub-assembly without being one; KIT_NONE: it joins nowhere. */
static kit_index joining_step(const kit *k, const kit_index *order, kit_index unit) {
    for (uint32_t o = 0; o < k->n_steps; o++)
        for (uint32_t i = 0; i < k->n_step_after; i++) {
            const kit_after *a = &k->step_after[i];
            if (a->step == order[o] && k->steps[a->after].sub_assembly == unit &&
                k->steps[a->step].sub_assembly != unit)
                return a->step;
        }
    return KIT_NONE;
}

/* All that is in a sub-assembly, with those that join it. Sub-assemblies join in no circle: the order of steps has none;
 * `depth` guards a kit that was not checked. */
static mass_sum unit_mass(const kit *k, const kit_index *joins_at, kit_index unit, uint32_t depth) {
    mass_sum sum = {0, 0};
    for (kit_index s = 0; s < k->n_steps; s++) {
        if (k->steps[s].sub_assembly != unit)
            continue;
        mass_sum own = step_mass(k, s);
        sum.kg += own.kg;
        sum.unknown += own.unknown;
    }
    for (kit_index u = 0; u < k->n_sub_assemblies && depth < k->n_sub_assemblies; u++) {
        if (joins_at[u] == KIT_NONE || k->steps[joins_at[u]].sub_assembly != unit || u == unit)
            continue;
        mass_sum joined = unit_mass(k, joins_at, u, depth + 1);
        sum.kg += joined.kg;
        sum.unknown += joined.unknown;
    }
    return sum;
}

static bool adults(double kg, lifting_person who, lifting_height height, bool arms_out, int *out, err *e) {
    lift_team t = {.people = 0};
    bool light = kg<0.1, heavy = kg> 500;
    if (!lifting_team(light ? 0.1 : heavy ? 500 : kg, who, height, arms_out, &t, e))
        return false;
    *out = heavy ? 0 : t.people;
    return true;
}

static void add_joined(arena *a, const kit *k, const kit_index *joins_at, lift_growth *g) {
    g->joins.list = arena_array(a, kit_index, k->n_sub_assemblies);
    for (kit_index u = 0; u < k->n_sub_assemblies; u++) {
        if (joins_at[u] != g->step)
            continue;
        mass_sum joined = unit_mass(k, joins_at, u, 0);
        g->added_kg += joined.kg;
        g->unknown += joined.unknown;
        g->joins.list[g->joins.n++] = u;
    }
}

uint32_t lift_grow(arena *a, const kit *k, kit_index unit, lifting_person who, lift_growth **out, bool *ok,
                   err *e) {
    const kit_index *order = kit_build_order(a, k);
    kit_index *joins_at = arena_array(a, kit_index, k->n_sub_assemblies);
    lift_growth *list = arena_array(a, lift_growth, k->n_steps);
    double kg = 0;
    uint32_t n = 0, unknown = 0;
    for (kit_index u = 0; u < k->n_sub_assemblies; u++)
        joins_at[u] = joining_step(k, order, u);
    *ok = true;
    *out = list;
    for (uint32_t o = 0; o < k->n_steps && *ok; o++) {
        const kit_step *s = &k->steps[order[o]];
        if (s->sub_assembly != unit || s->kind != KIT_BUILD)
            continue;
        mass_sum own = step_mass(k, order[o]);
        lift_growth *g = &list[n++];
        *g = (lift_growth){.step = order[o], .added_kg = own.kg, .unknown = unknown + own.unknown};
        add_joined(a, k, joins_at, g);
        kg += g->added_kg;
        unknown = g->unknown;
        g->mass_kg = kg;
        *ok = adults(kg / 2, who, HEIGHT_KNUCKLE, false, &g->turn, e) &&
              adults(kg, who, HEIGHT_KNUCKLE, false, &g->carry, e) &&
              adults(kg, who, HEIGHT_ELBOW, true, &g->fit, e);
    }
    return n;
}
