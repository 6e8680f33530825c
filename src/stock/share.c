/* share.c: gives the pieces out, first to the steps that can go ahead. */
#include "stock/stock.h"

/* What is left to give of each part. */
typedef struct {
    int64_t usable, promised;
    uint32_t supply; /* the first of the part's supplies that is not used up */
    int64_t taken;   /* of that supply */
} left_over;

/* All that one step needs of one part. */
typedef struct {
    kit_index part;
    int64_t quantity;
} total_need;

typedef struct {
    const kit *kit;
    const stock_pieces *pieces;
    left_over *left;
    total_need *needs;
    uint32_t *first, *count; /* by step, into needs */
} giving;

/* Takes `wanted` from what is promised; tells the day when the last of it comes, and gives what is not promised. */
static int64_t take_promised(const stock_pieces *p, left_over *left, int64_t wanted, date_day *ready) {
    while (wanted > 0 && left->supply < p->n_supplies) {
        const stock_supply *s = &p->supplies[left->supply];
        int64_t there = s->quantity - left->taken;
        int64_t used = there < wanted ? there : wanted;
        left->taken += used;
        left->promised -= used;
        wanted -= used;
        *ready = s->day;
        if (left->taken == s->quantity) {
            left->supply++;
            left->taken = 0;
        }
    }
    if (wanted > 0)
        *ready = INT32_MAX;
    return wanted;
}

/* Gives the step what there is. True when what it misses is promised. */
static bool serve(giving *g, kit_index step, stock_stop *stops, uint32_t *n) {
    bool all = true;
    for (uint32_t i = 0; i < g->count[step]; i++) {
        const total_need *need = &g->needs[g->first[step] + i];
        left_over *left = &g->left[need->part];
        int64_t given = left->usable < need->quantity ? left->usable : need->quantity;
        left->usable -= given;
        if (given == need->quantity)
            continue;
        stock_stop *stop = &stops[(*n)++];
        *stop = (stock_stop){.step = step, .part = need->part, .needed = need->quantity};
        stop->missing = need->quantity - given;
        stop->unpromised = take_promised(&g->pieces[need->part], left, stop->missing, &stop->ready);
        all = all && !stop->unpromised;
    }
    return all;
}

static bool suffices(const giving *g, kit_index step) {
    for (uint32_t i = 0; i < g->count[step]; i++) {
        const total_need *need = &g->needs[g->first[step] + i];
        const left_over *left = &g->left[need->part];
        if (need->quantity - left->usable > left->promised)
            return false;
    }
    return true;
}

/* The needs of each step, one after another, those of one part as one. */
static void list_needs(arena *a, giving *g) {
    const kit *k = g->kit;
    g->needs = arena_array(a, total_need, k->n_step_parts);
    g->first = arena_array(a, uint32_t, k->n_steps + 1);
    g->count = arena_array(a, uint32_t, k->n_steps);
    for (kit_index i = 0; i < k->n_step_parts; i++)
        g->first[k->step_parts[i].step + 1]++;
    for (kit_index i = 0; i < k->n_steps; i++)
        g->first[i + 1] += g->first[i];
    for (kit_index i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        total_need *of_step = &g->needs[g->first[p->step]];
        uint32_t at = 0;
        while (at < g->count[p->step] && of_step[at].part != p->part)
            at++;
        if (at == g->count[p->step])
            of_step[g->count[p->step]++] = (total_need){p->part, 0};
        of_step[at].quantity += p->quantity;
    }
}

static void fill_left(arena *a, giving *g) {
    g->left = arena_array(a, left_over, g->kit->n_parts);
    for (kit_index p = 0; p < g->kit->n_parts; p++) {
        g->left[p].usable = g->pieces[p].usable;
        for (uint32_t i = 0; i < g->pieces[p].n_supplies; i++)
            g->left[p].promised += g->pieces[p].supplies[i].quantity;
    }
}

/* A step right before `step` that does not go ahead, or KIT_NONE. */
static kit_index held_up_by(const kit *k, const stock_sharing *s, kit_index step) {
    for (uint32_t i = 0; i < k->n_step_after; i++) {
        kit_index before = k->step_after[i].after;
        if (k->step_after[i].step == step && s->fate[before] != STOCK_FATE_DONE &&
            s->fate[before] != STOCK_FATE_GOES)
            return before;
    }
    return KIT_NONE;
}

/* Both lists are in build order; a step is in one of them. */
static void merge(stock_sharing *s, const uint32_t *rank, const stock_stop *going, uint32_t n_going,
                  const stock_stop *held, uint32_t n_held) {
    uint32_t i = 0, j = 0;
    while (i < n_going || j < n_held) {
        bool take_going = j == n_held || (i < n_going && rank[going[i].step] < rank[held[j].step]);
        s->stops[s->n_stops++] = take_going ? going[i++] : held[j++];
    }
}

void stock_share_pieces(arena *a, const kit *k, const kit_index *order, const stock_pieces *pieces,
                        stock_sharing *s) {
    giving g = {.kit = k, .pieces = pieces};
    list_needs(a, &g);
    fill_left(a, &g);
    s->waits_for = arena_array(a, kit_index, k->n_steps);
    s->stops = arena_array(a, stock_stop, k->n_step_parts);
    s->n_stops = 0;
    s->drawn = arena_array(a, int64_t, k->n_parts);
    stock_stop *going = arena_array(a, stock_stop, k->n_step_parts),
               *held = arena_array(a, stock_stop, k->n_step_parts);
    uint32_t *rank = arena_array(a, uint32_t, k->n_steps), n_going = 0, n_held = 0;
    for (uint32_t n = 0; n < k->n_steps; n++) {
        kit_index step = order[n];
        rank[step] = n;
        s->waits_for[step] = KIT_NONE;
        if (s->fate[step] == STOCK_FATE_DONE || s->fate[step] == STOCK_FATE_IMPOSSIBLE)
            continue;
        s->waits_for[step] = held_up_by(k, s, step);
        s->fate[step] = s->waits_for[step] != KIT_NONE ? STOCK_FATE_WAITING
                        : suffices(&g, step)           ? STOCK_FATE_GOES
                                                       : STOCK_FATE_STOPPED;
        if (s->fate[step] != STOCK_FATE_GOES)
            continue;
        (void)serve(&g, step, going, &n_going);
        for (uint32_t i = g.first[step]; i < g.first[step] + g.count[step]; i++)
            s->drawn[g.needs[i].part] += g.needs[i].quantity;
    }
    for (uint32_t n = 0; n < k->n_steps; n++) {
        kit_index step = order[n];
        bool is_held = s->fate[step] == STOCK_FATE_STOPPED || s->fate[step] == STOCK_FATE_WAITING;
        if (is_held && !serve(&g, step, held, &n_held))
            s->fate[step] = STOCK_FATE_STOPPED;
    }
    merge(s, rank, going, n_going, held, n_held);
}
