/* Arenas: pieces are zero, aligned, apart, and stay where they are; too much ends the process with code 3. */
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/arena.h"
#include "support/check.h"

static void pieces_are_zero_aligned_and_apart(void **state) {
    (void)state;
    enum { PIECES = 2000 };
    static unsigned char *at[PIECES];
    static size_t size[PIECES];
    arena *a = arena_open();
    uint64_t seed = 1;
    size_t sum = 0;
    for (unsigned i = 0; i < PIECES; i++) {
        size[i] = i % 100 == 99 ? 300000 + random_below(&seed, 3000000) : random_below(&seed, 200);
        at[i] = arena_alloc(a, size[i]);
        assert_int_equal((uintptr_t)at[i] % 16, 0);
        for (size_t b = 0; b < size[i]; b++)
            if (at[i][b])
                fail_msg("byte %zu of piece %u is not zero", b, i);
        memset(at[i], (int)(i % 251), size[i]);
        sum += size[i];
    }
    for (unsigned i = 0; i < PIECES; i++)
        for (size_t b = 0; b < size[i]; b++)
            if (at[i][b] != i % 251)
                fail_msg("piece %u was written over", i);
    assert_true(arena_used(a) >= sum);
    assert_true(arena_used(a) < sum + 16 * PIECES + 16);
    arena_close(a);
}

static void empty_pieces_are_different(void **state) {
    (void)state;
    arena *a = arena_open();
    void *one = arena_alloc(a, 0), *other = arena_alloc_array(a, 0, 100),
         *third = arena_alloc_array(a, 100, 0);
    assert_true(one && other && third && one != other && other != third);
    arena_close(a);
    arena_close(NULL);
}

static void a_list_grows_and_its_old_places_stay(void **state) {
    (void)state;
    arena *a = arena_open();
    uint32_t *list = NULL;
    size_t n = 0, cap = 0;
    const uint32_t *first = NULL;
    for (uint32_t i = 0; i < 10000; i++) {
        arena_room(a, list, n, cap, uint32_t);
        list[n++] = i * 7;
        if (i == 0)
            first = list;
    }
    for (uint32_t i = 0; i < 10000; i++)
        assert_int_equal(list[i], i * 7);
    assert_true(first != list && first[0] == 0);
    arena_close(a);
}

/* The exit code of a child that asks for `count` items of `size` bytes, and what it said. */
static int ask_for(size_t count, size_t size, char *said, size_t room) {
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    fflush(NULL);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        dup2(ends[1], STDERR_FILENO);
        (void)arena_alloc_array(arena_open(), count, size);
        _exit(0);
    }
    close(ends[1]);
    ssize_t n = read(ends[0], said, room - 1);
    said[n > 0 ? n : 0] = '\0';
    close(ends[0]);
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void too_much_ends_with_code_3_and_one_line(void **state) {
    (void)state;
    static const size_t asks[][2] = {
        {SIZE_MAX, 1}, {SIZE_MAX / 2, 3}, {SIZE_MAX, SIZE_MAX}, {1, SIZE_MAX - 3}};
    for (size_t i = 0; i < sizeof asks / sizeof asks[0]; i++) {
        char said[256];
        assert_int_equal(ask_for(asks[i][0], asks[i][1], said, sizeof said), 3);
        assert_string_equal(
            said, "kitbench: out of memory; nothing that was saved is lost; close other programs\n");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_are_zero_aligned_and_apart),
        cmocka_unit_test(empty_pieces_are_different),
        cmocka_unit_test(a_list_grows_and_its_old_places_stay),
        cmocka_unit_test(too_much_ends_with_code_3_and_one_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
