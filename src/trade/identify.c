/* identify.c: which part of the kit is this piece: Bayes over the candidates. */
#include "trade/identify.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "trade/identify_inside.h"

const char *look_name(look_sort look) {
    static const char *const names[LOOK_COUNT] = {"what kind of piece it is",
                                                  "its shape",
                                                  "what turns it",
                                                  "the thread's diameter",
                                                  "its length",
                                                  "its width",
                                                  "the pitch",
                                                  "the mark",
                                                  "its finish",
                                                  "what runs on it"};
    return (unsigned)look < LOOK_COUNT ? names[look] : "unknown";
}

const char *gauge_name(gauge_sort gauge) {
    static const char *const names[] = {"by eye", "with a ruler", "with a caliper"};
    return (unsigned)gauge <= GAUGE_CALIPER ? names[gauge] : "unknown";
}

static int by_chance(const void *a, const void *b) {
    const ranked *x = a, *y = b;
    if (x->chance != y->chance)
        return x->chance > y->chance ? -1 : 1;
    return (x->candidate > y->candidate) - (x->candidate < y->candidate);
}

static bool check_seen(const seen_thing *seen, uint32_t n_seen, err *e) {
    if (n_seen > SEEN_MAX)
        return err_input(e, "identify", "leave some out", "more than %d observations", SEEN_MAX);
    for (uint32_t i = 0; i < n_seen; i++) {
        bool measure = look_is_measure(seen[i].look);
        if ((unsigned)seen[i].look >= LOOK_COUNT || (unsigned)seen[i].gauge > GAUGE_CALIPER)
            return err_input(e, "identify", "name a look that is known", "observation %u is not known",
                             i + 1);
        if (measure && !(seen[i].mm >= 0.05 && seen[i].mm <= 1000))
            return err_input(e, "identify", "give millimetres from 0.05 to 1000",
                             "%s of %g mm is out of range", look_name(seen[i].look), seen[i].mm);
        if (seen[i].look == LOOK_MATE && (!seen[i].mate || !look_can_mate(seen[i].mate)))
            return err_input(e, "identify", "try it with a nut, or a nut with a screw",
                             "the other piece has no thread to try");
    }
    return true;
}

/* Chances after all observations; the best likelihood tells whether anything fits at all. */
static double judge(suspect *list, const candidate *c, uint32_t n, const seen_thing *seen, uint32_t n_seen) {
    double sum = 0, best = 0;
    for (uint32_t i = 0; i < n; i++) {
        double fits = 1;
        suspect_expect(&list[i], c[i].name);
        for (uint32_t k = 0; k < n_seen; k++)
            fits *= suspect_likelihood(&list[i], &seen[k]);
        list[i].chance = fits * (c[i].pieces > 0 ? c[i].pieces : 1);
        sum += list[i].chance;
        best = fits > best ? fits : best;
    }
    for (uint32_t i = 0; i < n; i++)
        list[i].chance = sum > 0 ? list[i].chance / sum : 1.0 / n;
    return best;
}

/* Who is out of question no longer counts for what to look at next; the trial would take n squared steps. */
static uint32_t keep_likely(suspect *list, uint32_t n) {
    uint32_t kept = 0;
    for (uint32_t i = 0; i < n; i++)
        if (list[i].chance >= 1e-6)
            list[kept++] = list[i];
    return kept;
}

static bool coarse_ruler(const candidate *c, const identity *out, const seen_thing *seen, uint32_t n_seen) {
    bool ruler = false;
    for (uint32_t i = 0; i < n_seen; i++)
        ruler |= seen[i].look == LOOK_THREAD && seen[i].gauge != GAUGE_CALIPER;
    if (!ruler || out->n < 2 || out->order[1].chance < 0.05)
        return false;
    int32_t a = c[out->order[0].candidate].name->thread_um, b = c[out->order[1].candidate].name->thread_um;
    return a != b && abs(a - b) <= 1000;
}

bool identify_piece(arena *a, const candidate *list, uint32_t n, const seen_thing *seen, uint32_t n_seen,
                    identity *out, err *e) {
    memset(out, 0, sizeof *out);
    if (n == 0 || n > CANDIDATES_MAX)
        return err_input(e, "identify", "give the parts of a kit",
                         "there must be 1 to %d parts to choose from", CANDIDATES_MAX);
    if (!check_seen(seen, n_seen, e))
        return false;
    suspect *suspects = arena_array(a, suspect, n);
    double *room = arena_array(a, double, n);
    double best = judge(suspects, list, n, seen, n_seen);
    out->nothing_fits = n_seen > 0 && best < pow(0.05, 1 + n_seen / 4.0);
    out->order = arena_array(a, ranked, n);
    out->n = n;
    for (uint32_t i = 0; i < n; i++) {
        out->order[i] = (ranked){i, suspects[i].chance};
        room[i] = suspects[i].chance;
    }
    out->bits_open = identify_entropy_bits(room, n);
    qsort(out->order, n, sizeof *out->order, by_chance);
    identify_next(suspects, keep_likely(suspects, n), list, seen, n_seen, room, out);
    out->ruler_is_coarse = coarse_ruler(list, out, seen, n_seen);
    return true;
}
