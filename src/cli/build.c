/* build.c: what the commands on a build file share. */
#include "cli/build.h"

#include "base/number.h"
#include "base/wrap.h"

desk_who build_who(const cli_call *call) {
    return (desk_who){.by = cli_value(call, "by"), .device = desk_device(call->memory)};
}

bool build_number(const char *name, const char *value, int64_t low, int64_t high, int64_t *out, err *e) {
    number_fault why;
    return number_integer(text_of(value), low, high, out, &why) ||
           err_input(e, name, why.remedy, "%s", why.cause);
}

bool build_option(const cli_call *call, const char *option, int64_t low, int64_t high, int64_t absent,
                  int64_t *out, err *e) {
    *out = absent;
    if (!cli_given(call, option))
        return true;
    return build_number(arena_format(call->memory, "--%s", option).at, cli_value(call, option), low, high,
                        out, e);
}

text build_place(const cli_call *call, const kit *k, kit_index row) {
    const kit_row *r = &k->rows[row];
    return arena_format(call->memory, "%.*s row %lld", TEXT_ARG(k->containers[r->container].number),
                        (long long)r->line);
}

void build_json_row(json_out *j, const kit *k, kit_index row) {
    const kit_row *r = &k->rows[row];
    json_put_text(j, "container", k->containers[r->container].number);
    json_put_integer(j, "line", r->line);
    json_put_text(j, "part", k->parts[r->part].number);
    json_put_text(j, "name", k->parts[r->part].name);
}

int build_answer(const cli_call *call, text line, void (*fill)(json_out *j, const void *what),
                 const void *what, int code) {
    buf out = {0};
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        fill(&j, what);
        json_end_object(&j);
    } else {
        wrap_add(&out, line, CLI_WIDTH, 2);
    }
    return cli_print(&out, code);
}
