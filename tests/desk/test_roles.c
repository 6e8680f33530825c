/* Codes and devices: who has to prove what, locked after five wrong tries, kept in the file. The build is the hand cart's:
 * Fern leads and supervises live work, Moss and Juniper supervise the brake, Comet and Otter learn. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/sys.h"
#include "desk/desk.h"
#include "opened.h"
#include "support/scratch.h"

typedef struct {
    arena *memory;
    const char *folder, *path;
    desk *d;
    err e;
} place;

static const desk_who nobody = {.device = "test"};

static void open_again(place *p) {
    p->d = opened_again(p->memory, p->d);
}

static int set_up(void **state) {
    arena *a = arena_open();
    place *p = arena_new(a, place);
    p->memory = a;
    p->folder = scratch_open(a);
    p->path = scratch_path(a, p->folder, "cart.kitbench");
    setenv("KITBENCH_NOW", "2027-04-06 18:40", 1);
    p->d = opened_new(a, p->path, "tests/support/cart", "tests/support/cart-crew");
    *state = p;
    return 0;
}

static int tear_down(void **state) {
    place *p = *state;
    desk_close(p->d);
    scratch_close(p->folder);
    arena_close(p->memory);
    return 0;
}

static void set_code(place *p, const char *person, const char *code) {
    if (!desk_set_code(p->d, text_of(person), code, nobody, &p->e))
        fail_msg("%s: %s", p->e.place, p->e.cause);
}

static void says(place *p, bool ok, const char *words) {
    char all[1024];
    err_print(&p->e, all, sizeof all);
    if (ok)
        fail_msg("it went through, without \"%s\"", words);
    if (!strstr(all, words))
        fail_msg("it said %s", all);
}

static void test_setting(void **state) {
    place *p = *state;
    desk_code *codes;
    uint32_t n;
    says(p, desk_set_code(p->d, TEXT("Comet"), "7391", nobody, &p->e), "no adult of that name");
    says(p, desk_set_code(p->d, TEXT("Heron"), "7391", nobody, &p->e), "nobody in the crew is called that");
    says(p, desk_set_code(p->d, TEXT("Moss"), "739", nobody, &p->e), "at least 4 digits");
    says(p, desk_set_code(p->d, TEXT("Moss"), "4444", nobody, &p->e), "guessed first");
    says(p, desk_set_code(p->d, TEXT("Moss"), "3456", nobody, &p->e), "guessed first");
    says(p, desk_set_code(p->d, TEXT("Moss"), "9876", nobody, &p->e), "guessed first");
    set_code(p, "Moss", "7391");
    set_code(p, "Fern", "2840"); /* no leader had one before */
    says(p, desk_set_code(p->d, TEXT("Moss"), "8117", nobody, &p->e), "only a leader");
    assert_true(desk_prove(p->d, TEXT("Moss"), "7391", &p->e));
    set_code(p, "Moss", "8117");
    says(p, desk_set_code(p->d, TEXT("Moss"), "5502", nobody, &p->e),
         "only a leader"); /* the proof is used up */
    assert_true(desk_prove(p->d, TEXT("fern"), "2840", &p->e));
    set_code(p, "Moss", "5502");
    assert_true(desk_prove(p->d, TEXT("P1"), "2840", &p->e));
    assert_true(desk_set_code(p->d, TEXT("Moss"), NULL, nobody, &p->e));
    assert_true(desk_codes(p->d, &codes, &n, &p->e));
    assert_int_equal(n, 1);
    assert_true(text_is(codes[0].person, "P1"));
    says(p, desk_clear_codes(p->d, " ", nobody, &p->e), "say why");
    assert_true(desk_clear_codes(p->d, "nobody knows them", nobody, &p->e));
    assert_true(desk_codes(p->d, &codes, &n, &p->e));
    assert_int_equal(n, 0);
    text bytes;
    assert_true(sys_read_file(p->memory, p->path, 1 << 26, &bytes, &p->e));
    assert_int_equal(text_find(bytes, TEXT("2840")), -1); /* neither a code nor, being blanked, its hash */
    assert_int_equal(text_find(bytes, TEXT("$argon2id$")), -1);
}

static void test_locked(void **state) {
    place *p = *state;
    set_code(p, "Moss", "7391");
    for (int i = 0; i < 4; i++) {
        char left[32];
        snprintf(left, sizeof left, "%d more wrong tries", 4 - i);
        says(p, desk_prove(p->d, TEXT("Moss"), "1111", &p->e), left);
        open_again(p); /* starting the program again gives no try back */
    }
    assert_true(desk_prove(p->d, TEXT("Moss"), "7391", &p->e)); /* the right one makes them forgotten */
    for (int i = 0; i < 5; i++)
        says(p, desk_prove(p->d, TEXT("Moss"), i == 2 ? "" : "1111", &p->e), "wrong");
    open_again(p);
    says(p, desk_prove(p->d, TEXT("Moss"), "7391", &p->e), "locked after 5 wrong tries");
    set_code(p, "Moss", "8117");
    assert_true(desk_prove(p->d, TEXT("Moss"), "8117", &p->e));
}

static void refused(place *p, kit_index step, const char *confirm, const char *words) {
    desk_reasons why = {0};
    bool found = false;
    if (!desk_start(p->d, step, "Comet", confirm, nobody, &why, &p->e))
        fail_msg("%s", p->e.cause);
    for (uint32_t i = 0; i < why.n; i++)
        found = found || text_find(why.list[i], text_of(words)) >= 0;
    if (!found)
        fail_msg("the reason \"%s\" is missing", words);
}

static void test_a_start_is_proved(void **state) {
    place *p = *state;
    kit_index frame = kit_find_step(p->d->kit, TEXT("S1")), brake = kit_find_step(p->d->kit, TEXT("S2"));
    desk_reasons why = {0};
    set_code(p, "Moss", "7391");
    assert_true(desk_start(p->d, frame, "Comet,Otter", NULL, nobody, &why, &p->e) && !why.n);
    assert_true(desk_finish(p->d, frame, 20, NULL, 0, nobody, &why, &p->e) && !why.n);
    setenv("KITBENCH_NOW", "2027-04-06 19:45", 1);
    refused(p, brake, "Moss", "Moss must prove it");
    refused(p, brake, "Juniper", "Juniper has no code yet");
    assert_true(desk_prove(p->d, TEXT("Moss"), "7391", &p->e));
    refused(p, brake, "Juniper", "Juniper has no code yet"); /* Moss's code proves Moss's word only */
    refused(p, brake, "Moss", "Moss must prove it");         /* and the proof is used up */
    assert_true(desk_prove(p->d, TEXT("Moss"), "7391", &p->e));
    assert_true(desk_start(p->d, brake, "Comet", "Moss", nobody, &why, &p->e));
    assert_int_equal(why.n, 0);
    assert_int_equal(p->d->stock->work->steps[brake].state, STOCK_RUNNING);
}

static void test_a_sign_off_is_proved(void **state) {
    place *p = *state;
    kit_index frame = kit_find_step(p->d->kit, TEXT("S1")), test = stock_find_test(p->d->kit, frame, 1);
    desk_reasons why = {0};
    desk_who comet = {.by = "Comet", .device = "test"}, fern = {.by = "Fern", .device = "test"};
    text *told;
    uint32_t n;
    set_code(p, "Fern", "2840");
    assert_true(desk_start(p->d, frame, "Comet,Otter", NULL, nobody, &why, &p->e) && !why.n);
    assert_true(desk_finish(p->d, frame, 20, NULL, 0, nobody, &why, &p->e) && !why.n);
    assert_true(desk_test(p->d, test, TEXT("2.5"), "Fern", NULL, comet, &why, &p->e));
    assert_int_equal(why.n, 1);
    assert_true(text_find(why.list[0], TEXT("must prove it")) >= 0);
    why.n = 0;
    assert_true(desk_prove(p->d, TEXT("Fern"), "2840", &p->e));
    assert_true(desk_test(p->d, test, TEXT("2.5"), "Fern", NULL, comet, &why, &p->e));
    assert_int_equal(why.n, 0);
    says(p, desk_undo(p->d, 0, "misread", fern, &told, &n, &p->e), "prove it with the code");
    assert_true(desk_prove(p->d, TEXT("Fern"), "2840", &p->e));
    assert_true(desk_undo(p->d, 0, "misread", fern, &told, &n, &p->e));
    assert_true(desk_undo_step(p->d, frame, "askew", fern, &why, &p->e));
    assert_int_equal(why.n, 1);
}

static void test_devices(void **state) {
    place *p = *state;
    char code[DESK_JOIN_CODE + 1], token[DESK_TOKEN + 1], own[DESK_TOKEN + 1], small[16];
    desk_joined phone, mine, *all;
    uint32_t n;
    says(p, desk_join(p->d, TEXT(""), "ABCD", token, &phone, &p->e), "no code is set");
    assert_true(desk_new_join_code(p->d, code, nobody, &p->e));
    assert_int_equal(strlen(code), 4);
    says(p, desk_join(p->d, TEXT(""), "!!!!", token, &phone, &p->e), "19 more wrong tries");
    snprintf(small, sizeof small, " %c%c %c%c", code[0], code[1], code[2], code[3]);
    for (char *c = small; *c; c++)
        *c = *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c;
    assert_true(desk_join(p->d, TEXT(""), small, token, &phone, &p->e));
    assert_true(text_is(phone.device, "phone 1") && phone.role == DESK_LEARNER);
    assert_true(desk_place_device(p->d, phone.device, TEXT(" table 2 "), &p->e));

    set_code(p, "Moss", "7391");
    says(p, desk_join(p->d, TEXT("Moss"), "0000", own, &mine, &p->e), "4 more wrong tries");
    assert_true(desk_join(p->d, TEXT("Moss"), "7391", own, &mine, &p->e));
    assert_true(text_is(mine.device, "phone 2") && mine.role == DESK_SUPERVISOR);

    open_again(p);
    assert_true(desk_know_device(p->d, text_of(token), &phone, &p->e));
    assert_true(text_is(phone.place, "table 2") && !phone.person.len);
    assert_false(desk_is_proved(p->d, TEXT("P2")));
    assert_true(desk_know_device(p->d, text_of(own), &mine, &p->e));
    assert_true(desk_is_proved(p->d, TEXT("P2"))); /* Moss's own phone says what Moss says */
    assert_false(desk_is_proved(p->d, TEXT("P1")));
    own[0] = own[0] == 'a' ? 'b' : 'a';
    says(p, desk_know_device(p->d, text_of(own), &mine, &p->e), "has not joined");
    assert_true(desk_drop_device(p->d, TEXT("phone 1"), &p->e));
    says(p, desk_know_device(p->d, text_of(token), &phone, &p->e), "has not joined");
    assert_true(desk_devices(p->d, &all, &n, &p->e));
    assert_int_equal(n, 1);
    text bytes;
    assert_true(sys_read_file(p->memory, p->path, 1 << 26, &bytes, &p->e));
    assert_int_equal(text_find(bytes, text_slice(text_of(token), 8, DESK_TOKEN)), -1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {TEST(test_setting), TEST(test_locked), TEST(test_a_start_is_proved),
                                       TEST(test_a_sign_off_is_proved), TEST(test_devices)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
