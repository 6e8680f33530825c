/* cmd_tools.c: `kitbench tools`: the tools that a kit's steps need, against its table and the workshop's own. */
#include "cli/commands.h"
#include "cli/kit_source.h"
#include "cli/tools_need.h"
#include "cli/trade_call.h"

static void print_line(const tool_list *l, const tool_line *line, buf *out) {
    int64_t lacking = tools_lacking(line);
    wrap_pad(out, tools_line_name(l, line), 34);
    buf_addf(out, " %5u %8u %8lld", line->steps, line->at_once, (long long)line->in_table);
    if (line->owned >= 0)
        buf_addf(out, " %6lld", (long long)line->owned);
    if (lacking > 0 && line->in_table == 0 && line->owned <= 0)
        buf_add_z(out, "  missing");
    else if (lacking > 0)
        buf_addf(out, "  %lld short", (long long)lacking);
    buf_add_char(out, '\n');
}

static void print_lines(const tool_list *l, uint32_t groups, buf *out) {
    wrap_pad(out, TEXT("tool"), 34);
    buf_addf(out, " %5s %8s %8s%s\n", "steps", "at once", "in table", l->w ? "  owned" : "");
    for (uint32_t i = 0; i < l->n; i++)
        print_line(l, &l->lines[i], out);
    trade_line(
        out,
        "\nAt once: the most that %u %s can want on steps of which none waits for another. Screw head and "
        "nut of one size count as two, since they are held together.",
        groups, groups == 1 ? "group" : "groups");
    if (groups > 1)
        trade_line(
            out,
            "Fewer will do when the plan lets steps wait: \"kitbench why\" tells what one more is worth.");
}

static void print_orders(const tool_list *l, buf *out) {
    bool any = false;
    for (uint32_t i = 0; i < l->n; i++) {
        const tool_line *line = &l->lines[i];
        if (tools_lacking(line) == 0 || line->days == 0)
            continue;
        text name = tools_line_name(l, line);
        trade_line(out, "%s%.*s: %lld days to obtain", any ? "  " : "\nOrder in time:\n  ", TEXT_ARG(name),
                   (long long)line->days);
        any = true;
    }
}

static void print_idle(const tool_list *l, buf *out) {
    bool any = false;
    for (uint32_t t = 0; t < l->k->n_tools; t++) {
        if (l->used[t])
            continue;
        trade_line(out, "%s%.*s  %.*s", any ? "  " : "\nIn the table, wanted by no step and no fastener:\n  ",
                   TEXT_ARG(l->k->tools[t].number), TEXT_ARG(l->k->tools[t].name));
        any = true;
    }
}

static void json_line(const tool_list *l, const tool_line *line, json_out *j) {
    bool fastener = line->tool == KIT_NONE;
    json_put_object(j, NULL);
    json_put_text(j, "name", tools_line_name(l, line));
    trade_json_z(j, "sort", fastener ? tool_sort_name(line->need.sort) : "");
    json_put_text(j, "tool", fastener ? TEXT("") : l->k->tools[line->tool].number);
    trade_json_um(j, "size_mm", line->need.size_um);
    trade_json_um(j, "other_size_mm", line->need.other_um);
    json_put_integer(j, "number", fastener ? line->need.number : -1);
    json_put_integer(j, "steps", line->steps);
    json_put_integer(j, "at_once", line->at_once);
    json_put_integer(j, "in_table", line->in_table);
    if (line->owned >= 0)
        json_put_integer(j, "owned", line->owned);
    else
        json_put_null(j, "owned");
    json_put_bool(j, "enough", tools_lacking(line) == 0);
    json_put_integer(j, "short_by", tools_lacking(line));
    json_put_integer(j, "days_to_obtain", line->days);
    json_end_object(j);
}

static void json_lines(const tool_list *l, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "tools");
    for (uint32_t i = 0; i < l->n; i++)
        json_line(l, &l->lines[i], &j);
    json_end_array(&j);
    json_put_array(&j, "idle");
    for (uint32_t t = 0; t < l->k->n_tools; t++)
        if (!l->used[t])
            json_put_text(&j, NULL, l->k->tools[t].number);
    json_end_array(&j);
    json_end_object(&j);
}

int cmd_tools(cli_call *call) {
    err e = {0};
    int32_t groups;
    int code;
    kit_source from;
    if (!trade_whole(call, "groups", 1, 50, 1, &groups, &e))
        return cli_fail(&e);
    if (!kit_source_open(call, call->arguments[0], cli_value(call, "workshop"), &from, &code))
        return code;
    tool_list l;
    tools_need(call->memory, from.kit, from.workshop, (uint32_t)groups, &l);
    bool enough = true;
    for (uint32_t i = 0; i < l.n; i++)
        enough = enough && tools_lacking(&l.lines[i]) == 0;
    buf out = {0};
    if (call->json) {
        json_lines(&l, &out);
    } else {
        print_lines(&l, (uint32_t)groups, &out);
        print_orders(&l, &out);
        print_idle(&l, &out);
    }
    kit_source_close(&from);
    return cli_print(&out, enough ? EXIT_DONE : EXIT_NO);
}
