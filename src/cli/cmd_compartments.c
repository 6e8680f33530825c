/* cmd_compartments.c: `kitbench compartments` and `tools-here`: where parts lie, and which tools are back. */
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static int64_t lies_there(const desk *d, kit_index part) {
    return d->stock->work->at[part][STOCK_IN_COMPARTMENT];
}

static void compartments_add(const cli_call *call, const desk *d, json_out *j, buf *out) {
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        text label = desk_label_of(d, p);
        if (!label.len && lies_there(d, p) <= 0)
            continue;
        const kit_part *part = &d->kit->parts[p];
        if (call->json) {
            json_put_object(j, NULL);
            json_put_text(j, "part", part->number);
            json_put_text(j, "name", part->name);
            json_put_text(j, "label", label);
            json_put_integer(j, "pieces", lies_there(d, p));
            json_end_object(j);
            continue;
        }
        wrap_add(out,
                 arena_format(call->memory, "%.*s: %.*s %.*s, %lld",
                              TEXT_ARG(label.len ? label : TEXT("no label")), TEXT_ARG(part->number),
                              TEXT_ARG(part->name), (long long)lies_there(d, p)),
                 CLI_WIDTH, 2);
    }
}

int cmd_compartments(cli_call *call) {
    err e;
    desk *d;
    kit_index part;
    bool write = call->n_arguments == 3;
    if (!write && call->n_arguments != 1) {
        err_input(&e, "compartments", "write FILE PART LABEL, or FILE alone", "something is missing");
        return cli_fail(&e);
    }
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "compartments", &d, &e))
        return cli_fail(&e);
    bool ok = !write || (work_part(d, call->arguments[1], &part, &e) &&
                         desk_label(d, part, text_of(call->arguments[2]), build_who(call), &e));
    int code = ok ? work_list(call, d, "compartments", "No part lies in a compartment.\n", compartments_add,
                              EXIT_DONE)
                  : cli_fail(&e);
    desk_close(d);
    return code;
}

/* ---- tools ---- */

static void tools_add(const cli_call *call, const desk *d, json_out *j, buf *out) {
    for (kit_index t = 0; t < d->kit->n_tools; t++) {
        bool fresh;
        const stock_tool_count *c = desk_tool_count(d, t, &fresh);
        const kit_tool *tool = &d->kit->tools[t];
        if (call->json) {
            json_put_object(j, NULL);
            json_put_text(j, "tool", tool->number);
            json_put_text(j, "name", tool->name);
            json_put_integer(j, "expected", desk_tools_expected(d, t));
            if (c)
                json_put_integer(j, "here", c->quantity);
            else
                json_put_null(j, "here");
            json_put_bool(j, "since_last_work", fresh);
            json_end_object(j);
            continue;
        }
        text here = c ? arena_format(call->memory, "%lld", (long long)c->quantity) : TEXT("not counted");
        wrap_add(out,
                 arena_format(call->memory, "%.*s %.*s %.*s: %.*s of %lld%s", TEXT_ARG(tool->number),
                              TEXT_ARG(tool->name), TEXT_ARG(tool->size), TEXT_ARG(here),
                              (long long)desk_tools_expected(d, t),
                              fresh ? ""
                              : c   ? ", before the last work"
                                    : ""),
                 CLI_WIDTH, 2);
    }
}

static bool all_tools_here(const desk *d) {
    bool fresh, all = true;
    for (kit_index t = 0; t < d->kit->n_tools; t++) {
        const stock_tool_count *c = desk_tool_count(d, t, &fresh);
        all = all && fresh && c->quantity >= desk_tools_expected(d, t);
    }
    return all;
}

static bool find_tool(const desk *d, const char *number, kit_index *out, err *e) {
    *out = kit_find_tool(d->kit, text_trim(text_of(number)));
    return *out != KIT_NONE ||
           err_input(e, arena_format(d->memory, "\"%s\"", number).at, "kitbench tools-here shows the numbers",
                     "the kit has no tool of that number");
}

/* With --all every tool is here in its number, but for those that are named. */
static bool read_tools(const cli_call *call, const desk *d, desk_tools_here *list, uint32_t *n, err *e) {
    for (kit_index t = 0; t < d->kit->n_tools && cli_given(call, "all"); t++)
        list[(*n)++] = (desk_tools_here){t, desk_tools_expected(d, t)};
    if (call->n_arguments % 2 == 0)
        return err_input(e, "tools-here", "write TOOL N for each", "a tool has no number of pieces");
    for (int i = 1; i < call->n_arguments; i += 2) {
        desk_tools_here one;
        if (!find_tool(d, call->arguments[i], &one.tool, e) ||
            !build_number("N", call->arguments[i + 1], 0, 1000, &one.quantity, e))
            return false;
        if (cli_given(call, "all"))
            list[one.tool] = one;
        else
            list[(*n)++] = one;
    }
    return true;
}

int cmd_tools_here(cli_call *call) {
    err e;
    desk *d;
    uint32_t n = 0;
    bool write = call->n_arguments > 1 || cli_given(call, "all");
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "tools-here", &d, &e))
        return cli_fail(&e);
    desk_tools_here *list =
        arena_array(call->memory, desk_tools_here, (size_t)d->kit->n_tools + (size_t)call->n_arguments);
    bool ok =
        !write || (read_tools(call, d, list, &n, &e) && desk_count_tools(d, list, n, build_who(call), &e));
    int code = ok ? work_list(call, d, "tools", "The kit names no tools.\n", tools_add,
                              all_tools_here(d) ? EXIT_DONE : EXIT_NO)
                  : cli_fail(&e);
    desk_close(d);
    return code;
}
