/* cmd_count.c: `kitbench count`: what was found for one row, or on no row. */
#include <string.h>

#include "base/number.h"
#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"

enum { MOST_BATTERIES = 100, MOST_MILLIVOLTS = 100000 };

typedef struct {
    const desk *d;
    const desk_count *count;
} counted;

static void fill(json_out *j, const void *what) {
    const counted *c = what;
    if (c->count->find) {
        json_put_text(j, "container", c->d->kit->containers[c->count->container].number);
        json_put_text(j, "not_on_the_list", c->count->what);
        json_put_integer(j, "quantity", c->count->usable);
        json_put_integer(j, "entry", c->d->last_entry);
        return;
    }
    const stock_row *r = &c->d->stock->rows[c->count->row];
    build_json_row(j, c->d->kit, c->count->row);
    json_put_integer(j, "expected", r->expected);
    json_put_integer(j, "usable", r->usable);
    json_put_integer(j, "damaged", r->damaged);
    json_put_integer(j, "missing", r->missing);
    json_put_integer(j, "extra", r->extra);
    json_put_integer(j, "times_counted", r->times);
    json_put_integer(j, "entry", c->d->last_entry - c->count->n_millivolts);
}

static text tell(cli_call *call, const desk *d, const desk_count *c) {
    arena *a = call->memory;
    if (c->find)
        return arena_format(a, "%.*s: %lld x %.*s, not on the list",
                            TEXT_ARG(d->kit->containers[c->container].number), (long long)c->usable,
                            TEXT_ARG(c->what));
    const stock_row *r = &d->stock->rows[c->row];
    const kit_part *p = &d->kit->parts[d->kit->rows[c->row].part];
    text line =
        arena_format(a, "%.*s, %.*s %.*s: %lld of %lld usable", TEXT_ARG(build_place(call, d->kit, c->row)),
                     TEXT_ARG(p->number), TEXT_ARG(p->name), (long long)r->usable, (long long)r->expected);
    if (r->damaged)
        line = arena_format(a, "%.*s, %lld damaged", TEXT_ARG(line), (long long)r->damaged);
    if (r->missing)
        line = arena_format(a, "%.*s, %lld missing", TEXT_ARG(line), (long long)r->missing);
    if (r->extra)
        line = arena_format(a, "%.*s, %lld too many", TEXT_ARG(line), (long long)r->extra);
    if (!r->lacking && !r->extra && !r->damaged)
        line = arena_format(a, "%.*s, all right", TEXT_ARG(line));
    if (r->times > 1)
        line = arena_format(a, "%.*s (counted %u times, this count stands)", TEXT_ARG(line), r->times);
    return line;
}

/* "12.81;12.79" or "12.81 12.79" */
static bool read_volts(cli_call *call, desk_count *c, err *e) {
    const char *given = cli_value(call, "volts");
    if (!given)
        return true;
    c->millivolts = arena_array(call->memory, int64_t, MOST_BATTERIES);
    text rest = text_of(given), piece;
    while (text_next_piece(&rest, ';', &piece)) {
        number_fault why;
        if (c->n_millivolts == MOST_BATTERIES)
            return err_input(e, "--volts", "", "these are more than %d voltages", MOST_BATTERIES);
        if (!number_decimal(text_trim(piece), 3, 0, MOST_MILLIVOLTS, &c->millivolts[c->n_millivolts], &why))
            return err_input(e, "--volts", why.remedy, "%s", why.cause);
        c->n_millivolts++;
    }
    return true;
}

/* BAG extra WHAT QUANTITY */
static bool read_find(cli_call *call, const desk *d, desk_count *c, err *e) {
    c->find = true;
    c->what = text_trim(text_of(call->arguments[3]));
    if (!c->what.len)
        return err_input(e, "WHAT", "write what it looks like: \"M5x16 pan head\"", "it is empty");
    if (cli_given(call, "damaged") || cli_given(call, "in-transit") || cli_given(call, "volts"))
        return err_input(e, "count", "put it into WHAT", "pieces that are on no row have no such option");
    return desk_find_container(d, text_of(call->arguments[1]), &c->container, e) &&
           build_number("QUANTITY", call->arguments[4], 0, CLI_MOST, &c->usable, e);
}

/* BAG ROW USABLE, or NUMBER USABLE */
static bool read_row(cli_call *call, const desk *d, desk_count *c, err *e) {
    bool by_row = call->n_arguments == 4;
    return build_number("USABLE", call->arguments[by_row ? 3 : 2], 0, CLI_MOST, &c->usable, e) &&
           build_option(call, "damaged", 0, CLI_MOST, 0, &c->damaged, e) && read_volts(call, c, e) &&
           desk_find_row(d, text_of(call->arguments[1]), text_of(by_row ? call->arguments[2] : ""), &c->row,
                         e);
}

enum { MOST_PHOTO_FILE = 64 << 20 };

static bool read_photo(cli_call *call, desk_count *c, err *e) {
    const char *path = cli_value(call, "photo");
    return !path || sys_read_file(call->memory, path, MOST_PHOTO_FILE, &c->photo, e);
}

/* BAG all-here */
static void fill_all(json_out *j, const void *what) {
    json_put_integer(j, "rows", *(const uint32_t *)what);
}

static int all_here(cli_call *call, desk *d) {
    err e;
    kit_index container;
    uint32_t n;
    if (!desk_find_container(d, text_of(call->arguments[1]), &container, &e) ||
        !desk_all_here(d, container, build_who(call), &n, &e))
        return cli_fail(&e);
    text line = arena_format(call->memory, "%.*s: %u row%s all right",
                             TEXT_ARG(d->kit->containers[container].number), n, n == 1 ? "" : "s");
    return build_answer(call, line, fill_all, &n, EXIT_DONE);
}

static bool read_arguments(cli_call *call, const desk *d, desk_count *c, err *e) {
    c->note = text_trim(text_of(cli_value(call, "note")));
    c->in_transit = cli_given(call, "in-transit");
    if (call->n_arguments == 5 && strcmp(call->arguments[2], "extra") == 0)
        return read_find(call, d, c, e);
    if (call->n_arguments == 5)
        return err_input(e, "count", "write BAG ROW USABLE, NUMBER USABLE, or BAG extra WHAT QUANTITY",
                         "five words are too many");
    return read_row(call, d, c, e);
}

int cmd_count(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "count", &d, &e))
        return cli_fail(&e);
    if (call->n_arguments == 3 && strcmp(call->arguments[2], "all-here") == 0) {
        int all = all_here(call, d);
        desk_close(d);
        return all;
    }
    desk_count c = {0};
    counted answer = {d, &c};
    bool ok = read_photo(call, &c, &e) && read_arguments(call, d, &c, &e) &&
              desk_record_counts(d, &c, 1, build_who(call), &e);
    int code = ok ? build_answer(call, tell(call, d, &c), fill, &answer, EXIT_DONE) : cli_fail(&e);
    desk_close(d);
    return code;
}
