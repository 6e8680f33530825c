/* cmd_again.c: `kitbench again` and `photo`: rows counted again by somebody who was not shown the count, and photos. */
#include "base/sys.h"
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static void second_json(json_out *j, const desk *d, const desk_second_count *c) {
    json_put_object(j, NULL);
    build_json_row(j, d->kit, c->count->row);
    json_put_integer(j, "usable", c->count->usable);
    json_put_integer(j, "damaged", c->count->damaged);
    json_put_text(j, "by", desk_person_name(d, c->count->person));
    json_put_integer(j, "again_usable", c->again->usable);
    json_put_integer(j, "again_damaged", c->again->damaged);
    json_put_text(j, "again_by", desk_person_name(d, c->again->person));
    json_put_bool(j, "agree", c->agree);
    json_end_object(j);
}

static text second_text(const cli_call *call, const desk *d, const desk_second_count *c) {
    return arena_format(call->memory,
                        "%.*s: %lld usable, %lld damaged (%.*s); again %lld and %lld (%.*s): %s",
                        TEXT_ARG(build_place(call, d->kit, c->count->row)), (long long)c->count->usable,
                        (long long)c->count->damaged, TEXT_ARG(desk_person_name(d, c->count->person)),
                        (long long)c->again->usable, (long long)c->again->damaged,
                        TEXT_ARG(desk_person_name(d, c->again->person)), c->agree ? "the same" : "DIFFERENT");
}

static void add_second(const cli_call *call, const desk *d, json_out *j, buf *out) {
    desk_second_count *list;
    uint32_t n = desk_second_counts(d, &list);
    for (uint32_t i = 0; i < n; i++)
        if (call->json)
            second_json(j, d, &list[i]);
        else
            wrap_add(out, second_text(call, d, &list[i]), CLI_WIDTH, 2);
}

static int show(const cli_call *call, const desk *d) {
    desk_second_count *list;
    bool agree = true;
    uint32_t n = desk_second_counts(d, &list);
    for (uint32_t i = 0; i < n; i++)
        agree = agree && list[i].agree;
    return work_list(call, d, "counted_again", "Nothing was counted again.\n", add_second,
                     agree ? EXIT_DONE : EXIT_NO);
}

static bool write_again(cli_call *call, desk *d, kit_index *row, desk_reasons *why, err *e) {
    int64_t usable, damaged;
    return build_number("USABLE", call->arguments[3], 0, CLI_MOST, &usable, e) &&
           build_option(call, "damaged", 0, CLI_MOST, 0, &damaged, e) &&
           desk_find_row(d, text_of(call->arguments[1]), text_of(call->arguments[2]), row, e) &&
           desk_count_again(d, *row, usable, damaged, build_who(call), why, e);
}

int cmd_again(cli_call *call) {
    err e;
    desk *d;
    kit_index row;
    desk_reasons why = {0};
    bool write = call->n_arguments == 4;
    if (!write && call->n_arguments != 1) {
        err_input(&e, "again", "write FILE BAG ROW USABLE, or FILE alone", "something is missing");
        return cli_fail(&e);
    }
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "again", &d, &e))
        return cli_fail(&e);
    int code;
    if (!write)
        code = show(call, d);
    else if (write_again(call, d, &row, &why, &e)) /* whether the two agree is not told: it was blind */
        code = work_answer(
            call, d, KIT_NONE, &why,
            arena_format(call->memory, "%.*s is counted again.", TEXT_ARG(build_place(call, d->kit, row))));
    else
        code = cli_fail(&e);
    desk_close(d);
    return code;
}

/* ---- photos ---- */

static bool write_photo(const cli_call *call, const desk *d, const char *path, text *bytes, err *e) {
    int64_t entry;
    if (!path)
        return err_input(e, "photo", "add -o OUT", "the name of the file is missing");
    if (!build_number("ENTRY", call->arguments[1], 1, INT64_MAX, &entry, e) ||
        !desk_photo(d, entry, bytes, e))
        return false;
    if (!bytes->len)
        return err_input(e, arena_format(call->memory, "entry %lld", (long long)entry).at,
                         "take the entry from kitbench count --json", "no photo came with it");
    if (sys_exists(path))
        return err_input(e, path, "choose another name", "there is a file of that name already");
    return sys_write_file(path, *bytes, e);
}

int cmd_photo(cli_call *call) {
    err e;
    desk *d;
    text bytes = TEXT_INIT("");
    const char *path = cli_value(call, "output");
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "photo", &d, &e))
        return cli_fail(&e);
    bool ok = write_photo(call, d, path, &bytes, &e);
    buf out = {0};
    if (ok && call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        json_put_text(&j, "file", text_of(path));
        json_put_integer(&j, "bytes", (int64_t)bytes.len);
        json_end_object(&j);
    } else if (ok) {
        buf_addf(&out, "%s: %zu bytes\n", path, bytes.len);
    }
    desk_close(d);
    return ok ? cli_print(&out, EXIT_DONE) : cli_fail(&e);
}
