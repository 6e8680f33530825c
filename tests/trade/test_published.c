/* Published values that need no file beside the project; each case names its source. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "cases.h"
#include "trade/trade.h"

static double number(text t) {
    char z[32];
    snprintf(z, sizeof z, "%.*s", TEXT_ARG(t));
    return t.len ? strtod(z, NULL) : (double)NAN;
}

/* Ours for one name of a case, NAN when the name is none of a value; `share` gets the tolerance. */
static double ours(const designation *d, const test_case *c, text name, double *share) {
    fastener_size z = {0};
    screw_strength s = {0};
    *share = 1e-9;
    bool sized = fastener_size_of(d, &z, NULL), strong = screw_strength_of(d->grade, d->thread_um, &s);
    if (sized && text_is(name, "key"))
        return z.key_um / 1e3;
    if (sized && text_is(name, "flats"))
        return z.flats_um / 1e3;
    if (sized && text_is(name, "width"))
        return z.width_um / 1e3;
    if (sized && text_is(name, "height"))
        return z.height_um / 1e3;
    if (sized && text_is(name, "hole"))
        return z.hole_um / 1e3;
    *share = 0.007;
    double area = d->pitch_um ? thread_stress_area_mm2(d->thread_um, d->pitch_um) : (double)NAN;
    if (text_is(name, "area"))
        return area;
    if (strong && text_is(name, "proof"))
        return area * s.proof_mpa;
    if (strong && text_is(name, "breaking"))
        return area * s.tensile_mpa;
    *share = 0.06;
    double mu = number(case_value(c, "mu"));
    if (strong && text_is(name, "torque") && !isnan(mu)) {
        double force = preload_n(s.yield_mpa, 0.9, d->thread_um, d->pitch_um, mu);
        return torque_long_nm(force, thread_pitch_diameter_mm(d->thread_um, d->pitch_um), d->pitch_um / 1e3,
                              mu, mu, head_friction_diameter_mm(d));
    }
    return (double)NAN;
}

static void test_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    case_list list = cases_read(a, "published.txt");
    unsigned compared = 0, bad = 0;
    for (size_t i = 0; i < list.n; i++) {
        const test_case *c = &list.list[i];
        designation d;
        if (!designation_read(c->input, &d, NULL) || case_value(c, "source").len == 0)
            fail_msg("line %u: no designation, or no source", c->line);
        for (size_t k = 0; k < c->n_pairs; k++) {
            if (text_is(c->pairs[k].name, "source") || text_is(c->pairs[k].name, "mu"))
                continue;
            double share, wanted = number(c->pairs[k].value), found = ours(&d, c, c->pairs[k].name, &share);
            compared++;
            if (fabs(found - wanted) <= share * wanted)
                continue;
            bad++;
            print_error("line %u: %.*s is %g, published %g\n", c->line, TEXT_ARG(c->pairs[k].name), found,
                        wanted);
        }
    }
    print_message("%u published values compared\n", compared);
    assert_int_equal(bad, 0);
    assert_true(compared >= 90);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
