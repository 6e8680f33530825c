#include "opened.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "support/scratch.h"

static desk *open_it(arena *a, const char *path) {
    desk *d;
    err e;
    if (!desk_open(a, path, DESK_WRITE, "test", &d, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return d;
}

desk *opened_new(arena *a, const char *path, const char *kit_folder, const char *crew_folder) {
    faults f = faults_in(a);
    err e;
    remove(path);
    if (!desk_new(a, path, kit_folder, crew_folder, "test", &f, &e))
        fail_msg("%s", f.n ? f.list[0].cause.at : e.cause);
    return open_it(a, path);
}

desk *opened_again(arena *a, desk *d) {
    const char *path = d->path;
    desk_close(d);
    return open_it(a, path);
}

desk *opened_rebuilt(desk *d, text (*dump)(const desk *d), unsigned line) {
    text before = dump(d);
    err e;
    if (!store_rebuild(d->file, &e))
        fail_msg("%s", e.cause);
    d = opened_again(d->memory, d);
    if (!text_equal(before, dump(d)))
        fail_msg("line %u: derived anew it is %s, not %s", line, dump(d).at, before.at);
    return d;
}

void opened_each(const char *cases, void (*run)(const block *b, const char *path)) {
    arena *a = arena_open();
    const char *folder = scratch_open(a);
    blocks all = blocks_read(a, cases);
    assert_true(all.n > 5);
    for (size_t i = 0; i < all.n; i++)
        run(&all.list[i], scratch_path(a, folder, "case.kitbench"));
    print_message("%zu cases\n", all.n);
    scratch_close(folder);
    arena_close(a);
}
