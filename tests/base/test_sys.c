/* Files: written whole or not at all, whatever call fails. The faults need a build with the fault door (build-asan). */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/sys.h"
#include "base/utf8.h"
#include "support/blocks.h"
#include "support/check.h"

enum { LIMIT = 1 << 20 };

/* A fresh folder; *state holds its name. */
static int make_place(void **state) {
    static char place[64];
    snprintf(place, sizeof place, "/tmp/kitbench-test-XXXXXX");
    *state = mkdtemp(place);
    return *state ? 0 : -1;
}

static const char *path_in(const char *folder, const char *name) {
    static char paths[16][512];
    static unsigned turn;
    char *path = paths[turn++ % 16];
    snprintf(path, sizeof paths[0], "%s/%s", folder, name);
    return path;
}

static int clear_place(void **state) {
    DIR *d = opendir(*state);
    for (const struct dirent *one; d && (one = readdir(d)) != NULL;)
        if (one->d_name[0] != '.')
            remove(path_in(*state, one->d_name));
    if (d)
        closedir(d);
    return rmdir(*state);
}

static unsigned files_in(const char *folder) {
    DIR *d = opendir(folder);
    unsigned n = 0;
    assert_non_null(d);
    for (const struct dirent *one; (one = readdir(d)) != NULL;)
        n += one->d_name[0] != '.';
    closedir(d);
    return n;
}

static void files_are_written_and_read_whole(void **state) {
    arena *a = arena_open();
    const char *path = path_in(*state, "f");
    err e;
    text read;
    for (size_t size = 0; size < 300000; size = size * 3 + 1) {
        char *bytes = arena_alloc(a, size + 1);
        for (size_t i = 0; i < size; i++)
            bytes[i] = (char)(i * 31 % 256);
        assert_true(sys_write_file(path, (text){bytes, size}, &e));
        assert_true(sys_read_file(a, path, LIMIT, &read, &e));
        assert_true(text_equal(read, (text){bytes, size}) && read.at[size] == '\0');
        assert_int_equal(files_in(*state), 1);
    }
    assert_true(sys_read_file(a, path, read.len, &read, &e));
    assert_false(sys_read_file(a, path, read.len - 1, &read, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    remove(path);
    arena_close(a);
}

static void what_cannot_be_read_says_why(void **state) {
    arena *a = arena_open();
    err e;
    text read;
    assert_false(sys_read_file(a, path_in(*state, "nothing"), LIMIT, &read, &e));
    assert_true(e.kind == ERR_INPUT && strstr(e.cause, "no such file") && strstr(e.place, "nothing"));
    assert_false(sys_read_file(a, *state, LIMIT, &read, &e));
    assert_true(e.kind == ERR_INPUT && strstr(e.cause, "folder"));
    assert_false(sys_write_file(path_in(*state, "no/such/place"), TEXT("x"), &e));
    assert_true(e.kind == ERR_RUN && e.cause[0] && e.remedy[0]);
    arena_close(a);
}

static void a_name_is_given_once(void **state) {
    err e;
    const char *from = path_in(*state, "from"), *to = path_in(*state, "to");
    assert_true(sys_write_file(from, TEXT("one"), &e));
    assert_true(sys_give_name(from, to, &e));
    assert_true(sys_exists(to) && !sys_exists(from));
    assert_true(sys_write_file(from, TEXT("two"), &e));
    assert_false(sys_give_name(from, to, &e));
    assert_true(e.kind == ERR_INPUT && sys_exists(from));
    assert_false(sys_give_name(path_in(*state, "nothing"), path_in(*state, "other"), &e));
    assert_int_equal(e.kind, ERR_RUN);
    remove(from);
    remove(to);
}

static void folders_are_made_and_listed(void **state) {
    arena *a = arena_open();
    err e;
    text *names;
    size_t n;
    const char *folder = path_in(*state, "folder");
    assert_true(sys_make_folder(folder, &e) && sys_is_folder(folder));
    assert_true(sys_make_folder(folder, &e)); /* it is there: no failure */
    assert_true(sys_list_folder(a, *state, &names, &n, &e));
    assert_int_equal(n, files_in(*state));
    for (size_t i = 1; i < n; i++)
        assert_true(text_compare(names[i - 1], names[i]) < 0);
    assert_false(sys_list_folder(a, path_in(*state, "nothing"), &names, &n, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    const char *file = path_in(*state, "folder-that-is-a-file");
    assert_true(sys_write_file(file, TEXT(""), &e));
    assert_false(sys_make_folder(file, &e));
    assert_false(sys_list_folder(a, file, &names, &n, &e));
    remove(file);
    assert_true(sys_write_file(path_in(*state, "folder/a"), TEXT("x"), &e) &&
                sys_write_file(path_in(*state, "folder/.b"), TEXT("y"), &e));
    sys_drop_folder(folder);
    assert_false(sys_exists(folder));
    sys_drop_folder(folder); /* nothing is there: nothing happens */
    arena_close(a);
}

/* ---- every call fails ---- */

static bool has_door(void) {
    fflush(NULL);
    pid_t child = fork();
    if (child == 0) {
        setenv("KITBENCH_FAULT", "read:1", 1);
        _exit(sys_fault("read"));
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WEXITSTATUS(status) == 1;
}

/* What the child reports: wrote, refused with a good failure, or refused badly. */
enum { WROTE = 10, REFUSED = 11, BADLY = 12 };

static int write_under_fault(const char *wish, const char *path, text bytes) {
    fflush(NULL);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        err e = {0};
        setenv("KITBENCH_FAULT", wish, 1);
        if (sys_write_file(path, bytes, &e))
            _exit(WROTE);
        bool told =
            e.kind == ERR_RUN && strcmp(e.place, path) == 0 && e.cause[0] && utf8_fault(text_of(e.cause)) < 0;
        _exit(told ? REFUSED : BADLY);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* After each attempt the file is the old one or the new one, whole, and nothing lies beside it. */
static unsigned fail_each(const char *folder, const char *call, const char *how) {
    arena *a = arena_open();
    const char *path = path_in(folder, "book");
    err e;
    unsigned refused = 0;
    static const int codes[] = {ENOSPC, EIO, EACCES, EROFS, EDQUOT, EMFILE};
    for (unsigned n = 1;; n++) {
        char wish[64];
        snprintf(wish, sizeof wish, "%s:%u%s:%d", call, n, how, codes[n % 6]);
        text before = TEXT("the old text"), after = arena_format(a, "the new text %0*u", 70000, n), read;
        assert_true(sys_write_file(path, before, &e));
        int told = write_under_fault(wish, path, after);
        assert_true(sys_read_file(a, path, LIMIT, &read, &e));
        if (told != WROTE && told != REFUSED)
            fail_msg("%s: the child ended with %d", wish, told);
        if (!text_equal(read, told == WROTE ? after : before))
            fail_msg("%s: the file is neither the old nor the new one", wish);
        if (files_in(folder) != 1)
            fail_msg("%s: something lies beside the file", wish);
        if (told == WROTE)
            break;
        refused++;
        assert_true(n < 100);
    }
    remove(path);
    arena_close(a);
    return refused;
}

static void no_fault_leaves_half_a_file(void **state) {
    if (!has_door()) {
        print_message("SKIPPED: this build has no fault door\n");
        return;
    }
    static const char *const calls[] = {"open", "write", "fsync", "rename"};
    for (size_t i = 0; i < sizeof calls / sizeof calls[0]; i++) {
        assert_true(fail_each(*state, calls[i], "") >= 1);
        assert_true(fail_each(*state, calls[i], "+") >= 1);
    }
    assert_true(fail_each(*state, "any", "") >= 4);
    assert_true(fail_each(*state, "any", "+") >= 4);
}

/* A call that was interrupted is made again. */
static void an_interrupted_write_goes_on(void **state) {
    if (!has_door()) {
        print_message("SKIPPED: this build has no fault door\n");
        return;
    }
    arena *a = arena_open();
    const char *path = path_in(*state, "book");
    char wish[32];
    err e;
    text read;
    snprintf(wish, sizeof wish, "write:1:%d", EINTR);
    assert_int_equal(write_under_fault(wish, path, TEXT("text")), WROTE);
    assert_true(sys_read_file(a, path, LIMIT, &read, &e) && text_is(read, "text"));
    remove(path);
    arena_close(a);
}

static void the_clock_can_be_set(void **state) {
    (void)state;
    date_moment wanted;
    assert_true(date_read_moment(TEXT("2027-03-14 18:30"), &wanted));
    setenv("KITBENCH_NOW", "2027-03-14 18:30", 1);
    assert_true(sys_now() == wanted && sys_now_seconds() == wanted * 60);
    unsetenv("KITBENCH_NOW");
    double before = sys_seconds();
    assert_true(sys_now() > wanted - 100 * 365 * MINUTES_PER_DAY && sys_seconds() >= before);
    unsigned char one[32] = {0}, other[32] = {0};
    err e;
    assert_true(sys_random(one, sizeof one, &e) && sys_random(other, sizeof other, &e));
    assert_true(memcmp(one, other, sizeof one) != 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(files_are_written_and_read_whole),
        cmocka_unit_test(what_cannot_be_read_says_why),
        cmocka_unit_test(a_name_is_given_once),
        cmocka_unit_test(folders_are_made_and_listed),
        cmocka_unit_test(no_fault_leaves_half_a_file),
        cmocka_unit_test(an_interrupted_write_goes_on),
        cmocka_unit_test(the_clock_can_be_set),
    };
    return cmocka_run_group_tests(tests, make_place, clear_place);
}
