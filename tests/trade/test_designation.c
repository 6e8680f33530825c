/* Designations as the standards write them: the cases of a fitter, round trips over everything the tables can say, and
 * noise that must be refused without harm. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"
#include "trade/designation.h"

static const char *mm_text(int32_t um, char out[24]) {
    snprintf(out, 24, "%g", um / 1e3);
    return out;
}

/* What the reader found, under the names the case file uses. */
static const char *found_value(const designation *d, text name, char out[DESIGNATION_TEXT]) {
    if (text_is(name, "kind"))
        return fastener_kind_name(d->kind);
    if (text_is(name, "head"))
        return fastener_form_name(d->form);
    if (text_is(name, "drive"))
        return fastener_drive_name(d->drive);
    if (text_is(name, "extent"))
        return d->extent == THREAD_FULL ? "full" : d->extent == THREAD_PARTIAL ? "partial" : "unknown";
    if (text_is(name, "thread"))
        return mm_text(d->thread_um, out);
    if (text_is(name, "pitch"))
        return mm_text(d->pitch_um, out);
    if (text_is(name, "length"))
        return mm_text(d->length_um, out);
    if (text_is(name, "fine"))
        return d->fine ? "yes" : "no";
    if (text_is(name, "left"))
        return d->left_hand ? "yes" : "no";
    if (text_is(name, "grade"))
        return d->grade ? d->grade->code : "";
    if (text_is(name, "material"))
        return fastener_material_name(d->material);
    if (text_is(name, "finish"))
        return fastener_finish_name(d->finish);
    if (text_is(name, "print")) {
        designation_print(d, out, DESIGNATION_TEXT);
        return out;
    }
    fail_msg("the case names \"%.*s\", which no designation has", TEXT_ARG(name));
    return "";
}

#define complain(...) (print_error(__VA_ARGS__), print_error("\n"), false)

static bool check_case(const test_case *c) {
    designation d;
    err e = {0};
    bool ok = designation_read(c->input, &d, &e);
    if (c->refusal.at) {
        if (ok)
            return complain("line %u: \"%.*s\" was not refused", c->line, TEXT_ARG(c->input));
        char message[1024];
        err_print(&e, message, sizeof message);
        if (text_find(text_of(message), c->refusal) < 0)
            return complain("line %u: refused, but with: %s", c->line, message);
        assert_true(e.kind == ERR_INPUT && e.remedy[0]);
        return true;
    }
    if (!ok)
        return complain("line %u: \"%.*s\" refused: %s; %s", c->line, TEXT_ARG(c->input), e.cause, e.remedy);
    for (size_t i = 0; i < c->n_pairs; i++) {
        char room[DESIGNATION_TEXT];
        const char *found = found_value(&d, c->pairs[i].name, room);
        if (!text_is(c->pairs[i].value, found))
            return complain("line %u: %.*s is \"%s\", expected \"%.*s\"", c->line, TEXT_ARG(c->pairs[i].name),
                            found, TEXT_ARG(c->pairs[i].value));
    }
    return true;
}

static void test_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    case_list list = cases_read(a, "designations.txt");
    assert_true(list.n >= 60);
    size_t bad = 0;
    for (size_t i = 0; i < list.n; i++)
        bad += !check_case(&list.list[i]);
    assert_int_equal(bad, 0);
    arena_close(a);
}

static void check_round_trip(const designation *d) {
    char first[DESIGNATION_TEXT], second[DESIGNATION_TEXT];
    designation back;
    err e;
    assert_true((size_t)designation_print(d, first, sizeof first) < sizeof first);
    if (!designation_read(text_of(first), &back, &e))
        fail_msg("\"%s\" was printed and then refused: %s", first, e.cause);
    designation_print(&back, second, sizeof second);
    assert_string_equal(first, second);
    if (!designation_equal(d, &back))
        fail_msg("\"%s\" reads back as something else", first);
}

/* Every standard with every size it covers, every pitch, some lengths, marks and finishes, must survive the trip. */
static void test_round_trip_of_all(void **state) {
    (void)state;
    static const char *const marks[] = {"", "8.8", "12.9", "A2-70", "8", "04", "45H", "200HV", "A4-025"};
    static const int32_t lengths[] = {2500, 4000, 16000, 25000, 110500};
    size_t n = 0;
    const fastener_standard *s;
    for (size_t i = 0; (s = fastener_standard_at(i)) != NULL; i++) {
        bool threaded = s->size == SIZE_THREAD_LENGTH || s->size == SIZE_THREAD;
        bool long_one = s->size == SIZE_THREAD_LENGTH || s->size == SIZE_DIAMETER_LENGTH ||
                        s->size == SIZE_TAPPING_LENGTH;
        int32_t t;
        for (size_t k = 0; (t = thread_size_at(k)) != 0; k++) {
            if (t < s->least_um || t > s->most_um)
                continue;
            for (int32_t pitch = 200; pitch <= (threaded ? 3000 : 200); pitch += 50) {
                if (threaded && !thread_pitch_known(t, pitch))
                    continue;
                for (size_t j = 0; j < sizeof marks / sizeof *marks; j++) {
                    const fastener_grade *g = fastener_grade_find(s->kind, text_of(marks[j]));
                    if (marks[j][0] && !g)
                        continue;
                    designation d = {
                        .kind = s->kind, .form = s->form, .drive = s->drive, .extent = s->extent};
                    d.standard = s;
                    d.thread_um = t;
                    d.profile = s->size == SIZE_TAPPING_LENGTH ? THREAD_TAPPING : THREAD_METRIC;
                    d.pitch_um = threaded ? pitch : 0;
                    d.fine = threaded && pitch != thread_coarse_pitch_um(t);
                    d.length_um = long_one ? lengths[n % 5] : 0;
                    d.grade = g;
                    d.material = g ? g->material : (fastener_material)(n % MATERIAL_COUNT);
                    d.finish = (fastener_finish)(n % FINISH_COUNT);
                    d.left_hand = threaded && n % 7 == 0;
                    if (d.length_um && d.length_um <= 3000 && thread_pitch_known(t, d.length_um))
                        continue;
                    check_round_trip(&d);
                    n++;
                }
            }
        }
    }
    assert_true(n > 2000);
}

/* Cut short, with one byte changed, or random: refused or read, never a crash; what is read prints and reads back. */
static void test_noise(void **state) {
    (void)state;
    static const char *const seeds[] = {"ISO 4762 M8x25-8.8", "DIN 985 M8x1-LH",
                                        "ISO 7093-1-8-200HV", "Hexagon nut ISO 4032 - M10 - 8",
                                        "ISO 1234-3.2x20",    "DIN 125-A 8,4"};
    uint64_t x = 88172645463325252u;
    for (int round = 0; round < 60000; round++) {
        char line[64];
        size_t n = (size_t)snprintf(line, sizeof line, "%s", seeds[round % 6]);
        for (int k = 0; k < 1 + round % 3; k++) {
            x ^= x << 13, x ^= x >> 7, x ^= x << 17;
            line[x % n] = (char)(x >> 32);
        }
        designation d;
        err e = {0};
        if (designation_read((text){line, x % 5 ? n : (x >> 8) % n}, &d, &e))
            check_round_trip(&d);
        else
            assert_true(e.kind == ERR_INPUT && e.cause[0]);
    }
}

/* No two standards with the same name; every twin that we name in the table points to a row we have, or is marked so. */
static void test_table_of_standards(void **state) {
    (void)state;
    const fastener_standard *s, *t;
    for (size_t i = 0; (s = fastener_standard_at(i)) != NULL; i++) {
        assert_true(s->least_um > 0 && s->least_um < s->most_um);
        assert_int_equal(fastener_form_kind(s->form), s->kind);
        for (size_t j = i + 1; (t = fastener_standard_at(j)) != NULL; j++)
            assert_false(s->number == t->number && s->part == t->part && strcmp(s->body, t->body) == 0);
        assert_ptr_equal(fastener_standard_find(s->body, s->number, s->part), s);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cases),
        cmocka_unit_test(test_round_trip_of_all),
        cmocka_unit_test(test_noise),
        cmocka_unit_test(test_table_of_standards),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
