/* kill -9 at random moments while counts are written: every count that was acknowledged is there, at most the one that
 * was being written besides, and the file is whole. 100 counts; 1,000 with KITBENCH_LONG. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "fixture.h"
#include "support/scratch.h"

enum { QUICK_COUNTS = 100, LONG_COUNTS = 1000, WITH_PHOTO = 5 };

static uint64_t random_state;

static uint64_t next(void) { /* splitmix64 */
    uint64_t z = random_state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
    return z ^ z >> 31;
}

/* Some counts come with a photo, which is in the file with its entry or not at all. */
static bool write_count(store *s, const store_entry *n, bool with_photo) {
    static char bytes[30000];
    int64_t number = 0;
    err e;
    bool ok = store_begin(s, &e) && store_append(s, n, &number, &e) &&
              (!with_photo || store_add_photo(s, number, (text){bytes, sizeof bytes}, &e)) &&
              store_commit(s, &e);
    store_abandon(s);
    return ok;
}

/* Writes counts for ever; the number of each goes into the pipe when it was acknowledged. */
static void write_counts(const char *path, int64_t from, int acknowledged) {
    store *s;
    err e;
    if (!store_open(path, STORE_WRITE, "count", &s, &e))
        _exit(1);
    for (int64_t i = from;; i++) {
        store_entry n = fixture_count("A1", 1 + i % 3, i);
        if (!write_count(s, &n, i % WITH_PHOTO == 0) || write(acknowledged, &i, sizeof i) != sizeof i)
            _exit(1);
    }
}

/* Kills a writer after a while; the number of the last count that it acknowledged. */
static int64_t kill_writer(const char *path, int64_t from) {
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    fflush(NULL);
    pid_t child = fork();
    if (child == 0)
        write_counts(path, from, ends[1]);
    close(ends[1]);
    struct timespec while_it_writes = {0, (long)(next() % 15000000)};
    nanosleep(&while_it_writes, NULL);
    kill(child, SIGKILL);
    int64_t last = from - 1, number;
    while (read(ends[0], &number, sizeof number) == sizeof number)
        last = number;
    close(ends[0]);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status));
    return last;
}

static void test_kill(void **state) {
    (void)state;
    arena *a = arena_open();
    const char *folder = scratch_open(a), *path = scratch_path(a, folder, "killed.kitbench");
    const kit *k;
    fixture_create(a, path, &k);
    const char *wish = getenv("KITBENCH_SEED");
    random_state = wish ? strtoull(wish, NULL, 10) : (uint64_t)time(NULL);
    print_message("seed %llu\n", (unsigned long long)random_state);
    int64_t wanted = getenv("KITBENCH_LONG") ? LONG_COUNTS : QUICK_COUNTS, written = 0;
    unsigned kills = 0, besides = 0;
    for (; written < wanted; kills++) {
        int64_t last = kill_writer(path, written + 1);
        /* Opening it as any user would, without telling it what happened. */
        int64_t there = fixture_ask(path, "SELECT max(entry) FROM journal") - 1;
        if (there < last || there > last + 1)
            fail_msg("%lld counts were acknowledged, %lld are there", (long long)last, (long long)there);
        assert_int_equal(fixture_ask(path, "SELECT count(*) FROM journal"), there + 1);
        assert_int_equal(fixture_ask(path, "SELECT integrity_check = 'ok' FROM pragma_integrity_check"), 1);
        if (there)
            assert_int_equal(fixture_ask(path, "SELECT max(usable) FROM state_counts"), there);
        assert_int_equal(fixture_ask(path, "SELECT count(*) FROM photos"), there / WITH_PHOTO);
        besides += there > last;
        written = there;
    }
    print_message("%lld counts, %u kills, %u counts were in the file but not yet acknowledged\n",
                  (long long)written, kills, besides);
    scratch_close(folder);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_kill)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
