#include "trade/weigh.h"

#include <math.h>

#include "trade/chance.h"

static const double nan_value = (double)NAN;

double weigh_sd(int32_t pieces, int32_t reference_n, double piece_cv, double scale_sd_share) {
    if (pieces < 1 || reference_n < 1 || !(piece_cv >= 0 && piece_cv <= 0.5) ||
        !(scale_sd_share >= 0 && scale_sd_share < 1e6))
        return nan_value;
    double n = pieces, r = reference_n, cv2 = piece_cv * piece_cv, s2 = scale_sd_share * scale_sd_share;
    return sqrt(n * cv2 + n * n * cv2 / r + s2 + n * n * s2 / (r * r));
}

double weigh_chance_right(double sd) {
    return sd > 0 ? 2 * normal_cdf(0.5 / sd) - 1 : sd == 0 ? 1 : nan_value;
}

/* Solves sd(n) = 0.5/z for 1/n: a quadratic in x = 1/n. */
int32_t weigh_reference_needed(int32_t pieces, double piece_cv, double scale_sd_share, double wanted) {
    if (isnan(weigh_sd(pieces, 1, piece_cv, scale_sd_share)) || !(wanted > 0 && wanted < 1))
        return 0;
    double z = normal_quantile(0.5 + wanted / 2), n = pieces;
    double cv2 = piece_cv * piece_cv, s2 = scale_sd_share * scale_sd_share;
    double room = 0.25 / (z * z) - n * cv2 - s2; /* what a perfect reference leaves */
    if (room <= 0)
        return 0;
    double a = n * n * s2, b = n * n * cv2;
    double x = a > 0 ? (-b + sqrt(b * b + 4 * a * room)) / (2 * a) : b > 0 ? room / b : 1;
    double needed = ceil(1 / x - 1e-9);
    return needed > 1e6 ? 0 : needed < 1 ? 1 : (int32_t)needed;
}

static bool is_mass(double grams) {
    return grams >= 0 && grams <= 1e6; /* false for NAN */
}

static bool check_weighing(const weighing *w, double wanted, err *e) {
    static const char place[] = "weighing";
    if (!is_mass(w->tare_g) || !is_mass(w->gross_g) || !is_mass(w->reference_g) ||
        !is_mass(w->scale_step_g) || !is_mass(w->scale_sd_g))
        return err_input(e, place, "give masses in grams", "a mass is not between 0 and 1,000,000 g");
    if (!(w->scale_step_g > 0))
        return err_input(e, place, "give the scale's step in grams, such as 0.1",
                         "the scale's step is not stated");
    if (!(w->piece_cv >= 0.0005 && w->piece_cv <= 0.2))
        return err_input(e, place, "weigh ten single pieces, or take 0.01 for screws and nuts",
                         "the scatter of one piece must be from 0.0005 to 0.2");
    if (w->reference_n < 1 || w->reference_n > 100000 || !(w->reference_g > 0))
        return err_input(e, place, "count at least ten pieces and weigh them",
                         "there is no reference sample");
    if (w->gross_g < w->tare_g)
        return err_input(e, place, "weigh the empty bag again", "the full bag is lighter than the empty one");
    if (!(wanted >= 0.5 && wanted <= 0.9999))
        return err_input(e, place, "ask for 0.95", "the chance asked for must be from 0.5 to 0.9999");
    return true;
}

/* Every whole number near the reading is possible; its likelihood falls with the distance. The range is the smallest
 * one around the count that holds 95 of 100. */
static void judge_reading(weighed_count *r) {
    enum { REACH = 8 };
    double likely[2 * REACH + 1], sum = 0;
    for (int k = -REACH; k <= REACH; k++) {
        double off = (r->pieces - (r->count + k)) / r->sd;
        likely[k + REACH] = r->count + k < 0 ? 0 : exp(-0.5 * off * off);
        sum += likely[k + REACH];
    }
    r->chance_right = likely[REACH] / sum;
    int low = REACH, high = REACH;
    for (double held = likely[REACH]; held < 0.95 * sum && (low > 0 || high < 2 * REACH);) {
        bool down = low > 0 && (high == 2 * REACH || likely[low - 1] >= likely[high + 1]);
        held += down ? likely[--low] : likely[++high];
    }
    r->low = r->count + low - REACH;
    r->high = r->count + high - REACH;
}

bool weigh_count(const weighing *w, double wanted, weighed_count *out, err *e) {
    if (!check_weighing(w, wanted, e))
        return false;
    double mean = w->reference_g / w->reference_n;
    double scale_sd = sqrt(w->scale_step_g * w->scale_step_g / 12 + w->scale_sd_g * w->scale_sd_g);
    weighed_count r = {.pieces = (w->gross_g - w->tare_g) / mean};
    if (r.pieces > 1e6)
        return err_input(e, "weighing", "check the units", "more than a million pieces");
    r.count = (int32_t)lround(r.pieces);
    int32_t least_one = r.count > 0 ? r.count : 1;
    /* tare and gross are two readings */
    r.sd = weigh_sd(least_one, w->reference_n, w->piece_cv, scale_sd * sqrt(2.0) / mean);
    if (r.sd > 0.75)
        return err_input(e, "weighing",
                         "count by hand, or weigh smaller heaps with a larger reference sample",
                         "%d pieces cannot be told from %d: the error is %.1f pieces either way", r.count,
                         r.count + 1, 1.96 * r.sd);
    judge_reading(&r);
    r.chance_before = weigh_chance_right(r.sd);
    r.told = r.chance_right >= wanted && r.chance_before >= wanted;
    r.reference_needed = weigh_reference_needed(least_one, w->piece_cv, scale_sd * sqrt(2.0) / mean, wanted);
    *out = r;
    return true;
}

bool weigh_scatter(const double *masses_g, int32_t n, double *mean_g, double *cv, err *e) {
    if (n < 5)
        return err_input(e, "weighing", "weigh at least five single pieces", "%d weighings say little", n);
    double sum = 0, squares = 0;
    for (int32_t i = 0; i < n; i++) {
        if (!(masses_g[i] > 0) || !is_mass(masses_g[i]))
            return err_input(e, "weighing", "give masses in grams", "mass %d is not above 0", i + 1);
        sum += masses_g[i];
    }
    double mean = sum / n;
    for (int32_t i = 0; i < n; i++)
        squares += (masses_g[i] - mean) * (masses_g[i] - mean);
    *mean_g = mean;
    *cv = sqrt(squares / (n - 1)) / mean;
    return true;
}
