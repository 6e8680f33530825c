/* Published values, one a row, in tests/trade/published/: quantity, piece, condition, value, unit, source, trust.
 *
 * trust says how sure a value is: "several" and "one" count the published places that were seen; "and formula" a formula
 * that gives the same; "one and memory" one place that agrees with memory of the standard. Rows of "memory" alone are
 * compared and told, but fail nothing and do not count. To add a value, add a row; a new quantity needs a line in `ways`.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/trade.h"

typedef struct {
    text quantity, piece, condition;
    double wanted, x, y; /* published value; piece and condition as numbers */
    designation d;       /* when the piece is a designation */
} value_row;

static double size_of(const value_row *v, size_t at) {
    fastener_size z;
    int32_t um;
    if (!fastener_size_of(&v->d, &z, NULL))
        return (double)NAN;
    memcpy(&um, (const char *)&z + at, sizeof um);
    return um / 1e3;
}

static double hole_of(const value_row *v, size_t fit) {
    return thread_clearance_hole_um(v->d.thread_um, (hole_fit)fit) / 1e3;
}

static double area_of(const value_row *v, size_t unused) {
    (void)unused;
    return thread_stress_area_mm2(v->d.thread_um, v->d.pitch_um);
}

static double tool_of(const value_row *v, size_t unused) {
    (void)unused;
    return tool_for(&v->d).size_um / 1e3;
}

/* The published figure itself when it lies in the band that the program tells: the band is the claim. */
static double mass_of(const value_row *v, size_t unused) {
    (void)unused;
    piece_mass m;
    if (!fastener_mass(&v->d, &m, NULL))
        return (double)NAN;
    double last = v->wanted < 1 ? 0.0006 : 0.051; /* half a unit of the last printed digit */
    bool inside = v->wanted >= m.low_mg / 1e3 - last && v->wanted <= m.high_mg / 1e3 + last;
    return inside ? v->wanted : m.mass_mg / 1e3;
}

static double stress_of(const value_row *v, size_t which) {
    screw_strength s;
    if (!screw_strength_of(v->d.grade, v->d.thread_um, &s))
        return (double)NAN;
    return which == 0 ? s.tensile_mpa : which == 1 ? s.yield_mpa : s.proof_mpa;
}

static double load_of(const value_row *v, size_t which) {
    return stress_of(v, which) * area_of(v, 0);
}

static double preload_of(const value_row *v, size_t unused) {
    (void)unused;
    return preload_n(stress_of(v, 1), 0.9, v->d.thread_um, v->d.pitch_um, v->y) / 1e3;
}

static double torque_of(const value_row *v, size_t unused) {
    (void)unused;
    return torque_long_nm(preload_of(v, 0) * 1e3, thread_pitch_diameter_mm(v->d.thread_um, v->d.pitch_um),
                          v->d.pitch_um / 1e3, v->y, v->y, head_friction_diameter_mm(&v->d));
}

static double cable_of(const value_row *v, size_t tinned) {
    return cable_ohm_per_km(v->x, tinned != 0, 20);
}

/* Percent that a 100 Ah battery of this exponent gives at x amperes, 25 C. */
static double peukert_of(const value_row *v, size_t unused) {
    (void)unused;
    battery_sort sort = battery_agm;
    sort.peukert = (band){v->y, v->y, v->y};
    battery_set set = {.sort = &sort, .volts = 12, .ah = 100, .series = 1, .parallel = 1};
    load_part load = {v->x, 60};
    run_time t;
    if (!battery_run_time(&set, &load, 1, 25, 0.8, &t, NULL))
        return (double)NAN;
    return t.minutes.likely * v->x / 60 / 0.8;
}

/* The nearest that the program's band comes to the published charge: makers disagree, so the band is the answer. */
static double rested_of(const value_row *v, size_t unused) {
    (void)unused;
    rest_reading r;
    if (!battery_charge_at_rest(&battery_agm, v->x, 24, &r, NULL))
        return (double)NAN;
    return fmin(fmax(v->wanted, r.charge.low * 100), r.charge.high * 100);
}

static double capacity_of(const value_row *v, size_t unused) {
    (void)unused;
    capacity_test c;
    return battery_capacity_test(100, 100, v->x, &c, NULL) ? 1 / c.share : (double)NAN;
}

static double lift_of(const value_row *v, size_t which) {
    lift l = {.load_kg = 5, .reach_cm = 25, .travel_cm = 25, .lifts_per_min = 0.2, .hours = 1};
    l.height_cm = which & 1 ? 75 : 40;
    if (which & 2)
        l.grip = text_is(v->piece, "good") ? GRIP_GOOD : text_is(v->piece, "fair") ? GRIP_FAIR : GRIP_POOR;
    else
        l.lifts_per_min = v->x, l.hours = v->y;
    lift_answer a;
    if (!lifting_limit(&l, &a, NULL))
        return (double)NAN;
    return which & 2 ? a.cm : a.fm;
}

static double guideline_of(const value_row *v, size_t person) {
    double kg;
    bool known = lifting_guideline((lifting_person)person, (lifting_height)(int)v->x, v->y > 0, &kg, NULL);
    return known ? kg : (double)NAN;
}

/* The two counts of a piece "87 14". */
static bool two_counts(text t, int32_t *first, int32_t *second) {
    char z[32], *end;
    snprintf(z, sizeof z, "%.*s", TEXT_ARG(t));
    *first = (int32_t)strtol(z, &end, 10);
    if (end == z || *end != ' ')
        return false;
    char *rest = end + 1;
    *second = (int32_t)strtol(rest, &end, 10);
    return end != rest && !*end;
}

static double wilson_of(const value_row *v, size_t high) {
    int32_t k, n;
    if (!two_counts(v->piece, &k, &n))
        return (double)NAN;
    interval i = share_wilson(k, n, 2 * normal_cdf(1.96) - 1); /* the source takes z as 1.96 */
    return high ? i.high : i.low;
}

static double chapman_of(const value_row *v, size_t unused) {
    (void)unused;
    int32_t first, second;
    return two_counts(v->piece, &first, &second) ? errors_missed(first, second, (int32_t)v->y).total
                                                 : (double)NAN;
}

/* How a quantity is computed, and how near it must come: `share` of the value plus `within`, as far as it was rounded. */
static const struct {
    const char *quantity;
    double (*compute)(const value_row *v, size_t which);
    size_t which;
    double share, within;
} ways[] = {
    {"flats", size_of, offsetof(fastener_size, flats_um), 0, 0.001},
    {"key", size_of, offsetof(fastener_size, key_um), 0, 0.001},
    {"width", size_of, offsetof(fastener_size, width_um), 0, 0.001},
    {"height", size_of, offsetof(fastener_size, height_um), 0, 0.001},
    {"hole", size_of, offsetof(fastener_size, hole_um), 0, 0.001},
    {"depth", size_of, offsetof(fastener_size, depth_um), 0, 0.001},
    {"thread length", size_of, offsetof(fastener_size, thread_length_um), 0, 0.001},
    {"ring", size_of, offsetof(fastener_size, ring_um), 0, 0.001},
    {"stress area", area_of, 0, 0.005, 0},
    {"hole fine", hole_of, HOLE_FINE, 0, 1e-9},
    {"hole medium", hole_of, HOLE_MEDIUM, 0, 1e-9},
    {"hole coarse", hole_of, HOLE_COARSE, 0, 1e-9},
    {"tool", tool_of, 0, 0, 0.001},
    {"mass", mass_of, 0, 0, 1e-9},
    {"tensile", stress_of, 0, 0, 0.01},
    {"yield", stress_of, 1, 0, 0.01},
    {"proof stress", stress_of, 2, 0, 0.01},
    {"breaking load", load_of, 0, 0.0065, 0}, /* the standard rounds to three digits */
    {"proof load", load_of, 2, 0.0065, 0},
    {"preload fine", preload_of, 0, 0.005, 0.05},
    {"torque fine", torque_of, 0, 0.012, 0.05},
    {"preload stainless", preload_of, 0, 0.05, 0.05},
    {"torque stainless", torque_of, 0, 0.08, 0.05},
    {"preload coarse", preload_of, 0, 0.012, 0.05},
    {"torque coarse", torque_of, 0, 0.02, 0.05},
    {"cable plain", cable_of, 0, 0, 1e-9},
    {"cable tinned", cable_of, 1, 0, 1e-9},
    {"peukert", peukert_of, 0, 0, 1},
    {"rested", rested_of, 0, 0, 6}, /* one chart of AGM lies up to 6 points outside */
    {"capacity factor", capacity_of, 0, 0.002, 0},
    {"fm low", lift_of, 0, 0, 1e-9},
    {"fm high", lift_of, 1, 0, 1e-9},
    {"cm low", lift_of, 2, 0, 1e-9},
    {"cm high", lift_of, 3, 0, 1e-9},
    {"guideline men", guideline_of, PERSON_MAN, 0, 1e-9},
    {"guideline women", guideline_of, PERSON_WOMAN, 0, 1e-9},
    {"wilson low", wilson_of, 0, 0, 1e-9},
    {"wilson high", wilson_of, 1, 0, 1e-9},
    {"chapman", chapman_of, 0, 0, 0.5},
};

typedef struct {
    unsigned hard, differ, memory, memory_differ;
} tally;

static double leading_number(text t) {
    char z[48], *end;
    snprintf(z, sizeof z, "%.*s", TEXT_ARG(t));
    double x = strtod(z, &end);
    return end == z ? (double)NAN : x;
}

static void compare_row(const reference *r, size_t i, const char *file, tally *sum) {
    value_row v = {.quantity = reference_text(r, i, "quantity"),
                   .piece = reference_text(r, i, "piece"),
                   .condition = reference_text(r, i, "condition"),
                   .wanted = reference_number(r, i, "value")};
    text trust = reference_text(r, i, "trust");
    v.x = leading_number(v.piece);
    v.y = leading_number(v.condition);
    if (isnan(v.wanted) || !reference_text(r, i, "source").len || !reference_text(r, i, "unit").len ||
        !trust.len)
        fail_msg("%s row %u: no value, unit, source or trust", file, r->table.records[i].row);
    /* a piece that cannot be read has no size: it differs below */
    if (isnan(v.x) && !designation_read(v.piece, &v.d, NULL))
        v.d = (designation){0};
    size_t w = 0, n = sizeof ways / sizeof *ways;
    while (w < n && !text_is(v.quantity, ways[w].quantity))
        w++;
    if (w == n)
        fail_msg("%s row %u: nothing computes %.*s", file, r->table.records[i].row, TEXT_ARG(v.quantity));
    double ours = ways[w].compute(&v, ways[w].which);
    bool soft = text_is(trust, "memory");
    bool near = fabs(ours - v.wanted) <= ways[w].share * fabs(v.wanted) + ways[w].within;
    *(soft ? &sum->memory : &sum->hard) += 1;
    if (near)
        return;
    *(soft ? &sum->memory_differ : &sum->differ) += 1;
    print_message("%s row %u, %.*s of %.*s: ours %.9g, published %.9g (%.*s)\n", file,
                  r->table.records[i].row, TEXT_ARG(v.quantity), TEXT_ARG(v.piece), ours, v.wanted,
                  TEXT_ARG(trust));
}

/* Each file with the number of values it held when it was written: they may grow, never shrink. */
static void test_tables(void **state) {
    (void)state;
    static const struct {
        const char *file;
        unsigned least;
    } files[] = {
        {"sizes.csv", 424},  {"threads.csv", 40},    {"tools.csv", 51},
        {"masses.csv", 222}, {"strengths.csv", 105}, {"torques.csv", 192},
        {"power.csv", 90},   {"lifting.csv", 128},   {"counting.csv", 25},
    };
    unsigned total = 0, differ = 0;
    for (size_t f = 0; f < sizeof files / sizeof *files; f++) {
        reference r;
        tally sum = {0};
        reference_open_own(&r, files[f].file);
        for (size_t i = 1; i < r.table.n; i++)
            compare_row(&r, i, files[f].file, &sum);
        print_message("%s: %u published values, %u differ; %u from memory, %u of them differ\n",
                      files[f].file, sum.hard, sum.differ, sum.memory, sum.memory_differ);
        assert_true(sum.hard >= files[f].least);
        total += sum.hard;
        differ += sum.differ;
        reference_close(&r);
    }
    print_message("%u published values compared\n", total);
    assert_int_equal(differ, 0);
    assert_true(total >= 600);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_tables)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
