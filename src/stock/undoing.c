/* undoing.c: what undoing a step brings with it. */
#include "stock/stock.h"

static bool is_begun(const stock_work *w, kit_index step) {
    return w->steps[step].state != STOCK_TO_DO;
}

/* Whatever hides a step that comes off must come off, too: until nothing is added. */
static void close_over_hides(const kit *k, const stock_work *w, bool *off) {
    for (bool grew = true; grew;) {
        grew = false;
        for (kit_index i = 0; i < k->n_step_effects; i++) {
            const kit_step_effect *f = &k->step_effects[i];
            if (f->effect != KIT_HIDES || !off[f->other] || off[f->step] || !is_begun(w, f->step))
                continue;
            off[f->step] = true;
            grew = true;
        }
    }
}

/* In the reverse of the build order, so that what hides comes off before what is hidden. */
static void list_off(arena *a, const kit *k, const stock_work *w, const bool *off, stock_undoing *out) {
    const kit_index *order = kit_build_order(a, k);
    out->off = arena_array(a, kit_index, k->n_steps);
    out->running = arena_array(a, kit_index, k->n_steps);
    for (kit_index i = k->n_steps; i-- > 0;) {
        if (!off[order[i]])
            continue;
        out->off[out->n_off++] = order[i];
        if (w->steps[order[i]].state == STOCK_RUNNING)
            out->running[out->n_running++] = order[i];
        out->redo_min += k->steps[order[i]].likely_min;
    }
    out->off_min = (out->redo_min + 1) / 2;
}

static bool is_disturbed(const kit *k, const bool *off, kit_index step) {
    for (kit_index i = 0; i < k->n_step_effects; i++)
        if (k->step_effects[i].effect == KIT_DISTURBS && k->step_effects[i].other == step &&
            off[k->step_effects[i].step])
            return true;
    return false;
}

static void list_tests(arena *a, const kit *k, const stock_work *w, const bool *off, stock_undoing *out) {
    out->void_tests = arena_array(a, kit_index, k->n_step_tests);
    for (kit_index i = 0; i < k->n_step_tests; i++) {
        kit_index step = k->step_tests[i].step;
        if (w->tests[i].there && (off[step] || is_disturbed(k, off, step)))
            out->void_tests[out->n_void_tests++] = i;
    }
}

/* Begun steps that follow one of `off`, at once or through others. */
static void list_later(arena *a, const kit *k, const stock_work *w, const bool *off, stock_undoing *out) {
    bool *follows = arena_array(a, bool, k->n_steps);
    for (bool grew = true; grew;) {
        grew = false;
        for (kit_index i = 0; i < k->n_step_after; i++) {
            const kit_after *f = &k->step_after[i];
            if (follows[f->step] || !(off[f->after] || follows[f->after]))
                continue;
            follows[f->step] = true;
            grew = true;
        }
    }
    out->later = arena_array(a, kit_index, k->n_steps);
    for (kit_index i = 0; i < k->n_steps; i++)
        if (follows[i] && !off[i] && is_begun(w, i))
            out->later[out->n_later++] = i;
}

static void list_again(arena *a, const kit *k, const stock_record *record, const bool *off,
                       const int64_t *available, stock_undoing *out) {
    out->again = arena_array(a, stock_again, k->n_parts);
    for (kit_index p = 0; p < k->n_parts; p++) {
        int64_t fitted = 0;
        for (kit_index s = 0; s < k->n_steps && k->parts[p].single_use; s++)
            fitted += off[s] ? stock_at_step(record, s, p, STOCK_FITTED_IN) : 0;
        if (fitted > 0)
            out->again[out->n_again++] = (stock_again){p, fitted, available[p]};
    }
}

void stock_undo_step(arena *a, const kit *k, const stock_record *record, const stock_work *w, kit_index step,
                     const int64_t *available, stock_undoing *out) {
    *out = (stock_undoing){0};
    bool *off = arena_array(a, bool, k->n_steps);
    off[step] = true;
    close_over_hides(k, w, off);
    list_off(a, k, w, off, out);
    list_tests(a, k, w, off, out);
    list_later(a, k, w, off, out);
    list_again(a, k, record, off, available, out);
}
