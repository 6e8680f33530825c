/* cmd_enter.c: `kitbench enter`: quick entry from a sheet, all of it or nothing. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"

enum { LONGEST_ENTRY = 1 << 20 };

static bool read_stdin(cli_call *call, text *out, err *e) {
    buf all = {0};
    char piece[4096];
    size_t n;
    while ((n = fread(piece, 1, sizeof piece, stdin)) > 0 && all.len <= LONGEST_ENTRY)
        buf_add(&all, (text){piece, n});
    bool ok = !ferror(stdin) || err_run(e, "standard input", "", "it cannot be read (%s)", strerror(errno));
    if (ok && all.len > LONGEST_ENTRY)
        ok = err_input(e, "standard input", "enter it in parts", "it is longer than %d bytes", LONGEST_ENTRY);
    *out = arena_text(call->memory, buf_text(&all));
    buf_free(&all);
    return ok;
}

/* Before the file is opened: nobody else must wait while somebody types. */
static bool read_entry_text(cli_call *call, text *entry, text *source, err *e) {
    bool from_file = call->n_arguments == 2 && strcmp(call->arguments[1], "-") != 0;
    *source = text_of(from_file ? call->arguments[1] : "standard input");
    return from_file ? sys_read_file(call->memory, call->arguments[1], LONGEST_ENTRY, entry, e)
                     : read_stdin(call, entry, e);
}

typedef struct {
    const desk *d;
    const desk_count *counts;
    size_t n, rows, finds, wrong;
} entered;

static void fill(json_out *j, const void *what) {
    const entered *t = what;
    json_put_integer(j, "rows", (int64_t)t->rows);
    json_put_integer(j, "not_on_the_list", (int64_t)t->finds);
    json_put_integer(j, "rows_wrong", (int64_t)t->wrong);
    json_put_integer(j, "rows_counted", t->d->stock->whole.counted);
    json_put_integer(j, "rows_of_the_kit", t->d->stock->whole.rows);
}

static entered sum_up(const desk *d, const desk_count *counts, size_t n) {
    entered t = {.d = d, .counts = counts, .n = n};
    for (size_t i = 0; i < n; i++) {
        if (counts[i].find) {
            t.finds++;
            continue;
        }
        const stock_row *r = &d->stock->rows[counts[i].row];
        t.rows++;
        t.wrong += r->lacking || r->extra || r->damaged;
    }
    return t;
}

static int save(cli_call *call, desk *d, text entry, text source) {
    faults f = faults_in(call->memory);
    desk_count *counts;
    size_t n;
    err e;
    if (!desk_read_entry(call->memory, d->kit, d->workshop, entry, source, &f, &counts, &n)) {
        int code = cli_fail_faults(call, &f);
        fprintf(stderr, "kitbench: nothing was saved\n");
        return code;
    }
    if (!n) {
        err_input(&e, source.at, "write a line such as \"bag B3 all right\"", "nothing is entered");
        return cli_fail(&e);
    }
    if (!desk_record_counts(d, counts, n, build_who(call), &e))
        return cli_fail(&e);
    entered t = sum_up(d, counts, n);
    text line = arena_format(
        call->memory, "rows entered: %zu, not as on the list: %zu%s. Rows counted: %u of %u.", t.rows,
        t.wrong, t.finds ? arena_format(call->memory, ", not on the list: %zu", t.finds).at : "",
        d->stock->whole.counted, d->stock->whole.rows);
    return build_answer(call, line, fill, &t, EXIT_DONE);
}

int cmd_enter(cli_call *call) {
    err e;
    text entry, source;
    if (!read_entry_text(call, &entry, &source, &e))
        return cli_fail(&e);
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "enter", &d, &e))
        return cli_fail(&e);
    int code = save(call, d, entry, source);
    desk_close(d);
    return code;
}
