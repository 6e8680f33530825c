/* cmd_tools.c: `kitbench tools`: the tools that a kit's fasteners need, against its tool table. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/tools_at_once.h"
#include "cli/trade_call.h"
#include "kit/kit.h"

/* One tool and what the steps want of it. */
typedef struct {
    tool_need need;
    uint32_t *per_step; /* how many at once in each step */
    uint32_t steps;     /* that need it */
    uint32_t at_once;   /* for the groups that work at once */
    int64_t in_table;   /* how many the kit's table asks for; a set counts as one of each */
} tool_line;

typedef struct {
    const kit *k;
    designation *names; /* of each part; kind 0: no fastener */
    tool_line *lines;
    uint32_t n, cap;
    arena *memory;
} tool_list;

static tool_line *line_for(tool_list *l, const tool_need *need) {
    for (uint32_t i = 0; i < l->n; i++)
        if (tool_need_equal(&l->lines[i].need, need))
            return &l->lines[i];
    arena_room(l->memory, l->lines, l->n, l->cap, tool_line);
    tool_line *line = &l->lines[l->n++];
    *line = (tool_line){.need = *need, .per_step = arena_array(l->memory, uint32_t, l->k->n_steps)};
    return line;
}

/* A screw and a nut of one size in one step are held at the same time: two of that spanner. Loose and untightened parts
 * still have to be turned on. */
static void add_step(tool_list *l, kit_index step) {
    for (uint32_t i = 0; i < l->k->n_step_parts; i++) {
        const kit_step_part *p = &l->k->step_parts[i];
        if (p->step != step || !l->names[p->part].kind)
            continue;
        tool_need need = tool_for(&l->names[p->part]);
        if (need.sort == TOOL_NONE)
            continue;
        bool nut = l->names[p->part].kind == FASTENER_NUT;
        bool other_side = false;
        for (uint32_t j = 0; j < l->k->n_step_parts; j++) {
            const kit_step_part *q = &l->k->step_parts[j];
            if (q->step != step || j == i || !l->names[q->part].kind || !nut)
                continue;
            tool_need head = tool_for(&l->names[q->part]);
            other_side |= l->names[q->part].kind == FASTENER_SCREW && tool_need_equal(&head, &need);
        }
        tool_line *line = line_for(l, &need);
        uint32_t wanted = other_side ? 2 : 1;
        if (line->per_step[step] < wanted)
            line->per_step[step] = wanted;
    }
}

static void sum_lines(tool_list *l, uint32_t groups) {
    const bool *ordered = tools_order(l->memory, l->k);
    for (uint32_t i = 0; i < l->n; i++) {
        tool_line *line = &l->lines[i];
        for (uint32_t s = 0; s < l->k->n_steps; s++)
            line->steps += line->per_step[s] > 0;
        line->at_once = tools_at_once(l->memory, l->k, line->per_step, ordered, groups);
    }
}

static int by_need(const void *a, const void *b) {
    return tool_need_compare(&((const tool_line *)a)->need, &((const tool_line *)b)->need);
}

static void match_table(tool_list *l, bool *used) {
    for (uint32_t t = 0; t < l->k->n_tools; t++) {
        const kit_tool *tool = &l->k->tools[t];
        tool_piece piece;
        if (!tool_read(tool->name, tool->kind, tool->size, &piece))
            continue;
        for (uint32_t i = 0; i < l->n; i++) {
            if (!tool_serves(&piece, &l->lines[i].need))
                continue;
            l->lines[i].in_table += tool->needed;
            used[t] = true;
        }
    }
}

static bool is_enough(const tool_line *line) {
    return line->in_table >= line->at_once;
}

static void print_lines(const tool_list *l, uint32_t groups, buf *out) {
    buf_addf(out, "%-34s %6s %9s %8s\n", "tool", "steps", "at once", "in table");
    for (uint32_t i = 0; i < l->n; i++) {
        const tool_line *line = &l->lines[i];
        char name[64];
        tool_print(&line->need, name);
        buf_addf(out, "%-34s %6u %9u %8lld%s\n", name, line->steps, line->at_once, (long long)line->in_table,
                 line->in_table == 0 ? "  missing"
                 : !is_enough(line)  ? "  too few"
                                     : "");
    }
    trade_line(
        out,
        "\nAt once: the most that %u %s can want on steps of which none waits for another. Screw head and nut of "
        "one size count as two, since they are held together.",
        groups, groups == 1 ? "group" : "groups");
}

/* Tools of the kinds we derive that no fastener needs and no step names. */
static bool is_idle(const tool_list *l, uint32_t t, const bool *used) {
    tool_piece piece;
    const kit_tool *tool = &l->k->tools[t];
    if (used[t] || !tool_read(tool->name, tool->kind, tool->size, &piece))
        return false;
    for (uint32_t i = 0; i < l->k->n_step_tools; i++)
        if (l->k->step_tools[i].tool == t)
            return false;
    return true;
}

static void print_idle(const tool_list *l, const bool *used, buf *out) {
    bool any = false;
    for (uint32_t t = 0; t < l->k->n_tools; t++) {
        if (!is_idle(l, t, used))
            continue;
        trade_line(out, "%s%.*s", any ? "  " : "\nIn the table, used by no step and no fastener:\n  ",
                   TEXT_ARG(l->k->tools[t].name));
        any = true;
    }
}

static void json_lines(const tool_list *l, const bool *used, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "tools");
    for (uint32_t i = 0; i < l->n; i++) {
        const tool_line *line = &l->lines[i];
        json_put_object(&j, NULL);
        trade_json_z(&j, "sort", tool_sort_name(line->need.sort));
        trade_json_um(&j, "size_mm", line->need.size_um);
        trade_json_um(&j, "other_size_mm", line->need.other_um);
        json_put_integer(&j, "number", line->need.number);
        json_put_integer(&j, "steps", line->steps);
        json_put_integer(&j, "at_once", line->at_once);
        json_put_integer(&j, "in_table", line->in_table);
        json_put_bool(&j, "enough", is_enough(line));
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_array(&j, "idle");
    for (uint32_t t = 0; t < l->k->n_tools; t++)
        if (is_idle(l, t, used))
            json_put_text(&j, NULL, l->k->tools[t].number);
    json_end_array(&j);
    json_end_object(&j);
}

int cmd_tools(cli_call *call) {
    err e = {0};
    int32_t groups;
    faults f = faults_in(call->memory);
    const kit *k;
    const kit_workshop *w;
    if (!trade_whole(call, "groups", 1, 50, 1, &groups, &e))
        return cli_fail(&e);
    if (!kit_read(call->memory, call->arguments[0], NULL, &f, &k, &w, &e))
        return e.kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(&e);
    tool_list l = {
        .k = k, .memory = call->memory, .names = arena_array(call->memory, designation, k->n_parts)};
    for (uint32_t i = 0; i < k->n_parts; i++)
        if (!designation_read(k->parts[i].designation, &l.names[i], NULL))
            l.names[i] = (designation){0};
    for (uint32_t s = 0; s < k->n_steps; s++)
        add_step(&l, s);
    sum_lines(&l, (uint32_t)groups);
    if (l.n)
        qsort(l.lines, l.n, sizeof *l.lines, by_need);
    bool *used = arena_array(call->memory, bool, k->n_tools);
    match_table(&l, used);
    bool enough = true;
    for (uint32_t i = 0; i < l.n; i++)
        enough &= is_enough(&l.lines[i]);
    buf out = {0};
    if (call->json) {
        json_lines(&l, used, &out);
    } else {
        print_lines(&l, (uint32_t)groups, &out);
        print_idle(&l, used, &out);
    }
    return cli_print(&out, enough ? EXIT_DONE : EXIT_NO);
}
