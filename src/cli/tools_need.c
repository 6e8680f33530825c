/* tools_need.c: the tools that a kit's steps want. */
#include "cli/tools_need.h"

#include <stdlib.h>

#include "cli/tools_at_once.h"
#include "trade/trade.h"

static tool_line *new_line(tool_list *l, kit_index tool, const tool_need *need) {
    arena_room(l->memory, l->lines, l->n, l->cap, tool_line);
    tool_line *line = &l->lines[l->n++];
    *line = (tool_line){.tool = tool, .owned = l->w ? 0 : -1};
    if (need)
        line->need = *need;
    line->per_step = arena_array(l->memory, uint32_t, l->k->n_steps);
    return line;
}

static tool_line *line_for(tool_list *l, const tool_need *need) {
    for (uint32_t i = 0; i < l->n; i++)
        if (tool_need_equal(&l->lines[i].need, need))
            return &l->lines[i];
    return new_line(l, KIT_NONE, need);
}

/* A nut held against a screw whose head is turned by the same size. */
static bool has_other_side(const kit *k, const designation *names, const kit_step_part *nut,
                           const tool_need *need) {
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->step != nut->step || names[p->part].kind != FASTENER_SCREW)
            continue;
        tool_need head = tool_for(&names[p->part]);
        if (tool_need_equal(&head, need))
            return true;
    }
    return false;
}

/* Loose and untightened parts still have to be turned on. */
static void add_fasteners(tool_list *l) {
    const kit *k = l->k;
    designation *names = arena_array(l->memory, designation, k->n_parts);
    for (uint32_t i = 0; i < k->n_parts; i++)
        if (!designation_read(k->parts[i].designation, &names[i], NULL))
            names[i] = (designation){0};
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        const designation *d = &names[p->part];
        tool_need need = tool_for(d);
        if (!d->kind || need.sort == TOOL_NONE)
            continue;
        uint32_t wanted = d->kind == FASTENER_NUT && has_other_side(k, names, p, &need) ? 2 : 1;
        tool_line *line = line_for(l, &need);
        if (line->per_step[p->step] < wanted)
            line->per_step[p->step] = wanted;
    }
}

static int by_need(const void *a, const void *b) {
    return tool_need_compare(&((const tool_line *)a)->need, &((const tool_line *)b)->need);
}

static int64_t owned_of(const kit_workshop *w, kit_index tool) {
    int64_t n = 0;
    for (uint32_t i = 0; w && i < w->n_tools; i++)
        n += w->tools[i].what == tool ? w->tools[i].quantity : 0;
    return n;
}

static void add_tool(tool_list *l, tool_line *line, kit_index tool) {
    const kit_tool *t = &l->k->tools[tool];
    line->in_table += t->needed;
    if (l->w)
        line->owned += owned_of(l->w, tool);
    if (t->days_to_obtain > 0 && (!line->days || t->days_to_obtain < line->days))
        line->days = t->days_to_obtain;
    l->used[tool] = true;
}

/* What the steps name of the tools that serve this need, all together; tool KIT_NONE: of that very tool. */
static void raise_to_named(tool_list *l, tool_line *line, const bool *serves) {
    uint32_t *named = arena_array(l->memory, uint32_t, l->k->n_steps);
    for (uint32_t i = 0; i < l->k->n_step_tools; i++) {
        const kit_step_tool *t = &l->k->step_tools[i];
        if (serves[t->tool])
            named[t->step] += (uint32_t)t->quantity;
    }
    for (uint32_t s = 0; s < l->k->n_steps; s++)
        if (line->per_step[s] < named[s])
            line->per_step[s] = named[s];
}

static void match_needs(tool_list *l) {
    uint32_t n = l->n; /* needs only, so far */
    for (uint32_t i = 0; i < n; i++) {
        bool *serves = arena_array(l->memory, bool, l->k->n_tools);
        for (uint32_t t = 0; t < l->k->n_tools; t++) {
            const kit_tool *tool = &l->k->tools[t];
            tool_piece piece;
            serves[t] = tool_read(tool->name, tool->kind, tool->size, &piece) &&
                        tool_serves(&piece, &l->lines[i].need);
            if (serves[t])
                add_tool(l, &l->lines[i], t);
        }
        raise_to_named(l, &l->lines[i], serves);
    }
}

static void add_other_tools(tool_list *l) {
    for (uint32_t t = 0; t < l->k->n_tools; t++) {
        bool *serves = arena_array(l->memory, bool, l->k->n_tools);
        bool named = false;
        serves[t] = true;
        for (uint32_t i = 0; i < l->k->n_step_tools; i++)
            named = named || l->k->step_tools[i].tool == t;
        if (l->used[t] || !named)
            continue;
        tool_line *line = new_line(l, t, NULL);
        add_tool(l, line, t);
        raise_to_named(l, line, serves);
    }
}

void tools_need(arena *a, const kit *k, const kit_workshop *w, uint32_t groups, tool_list *out) {
    *out = (tool_list){.k = k, .w = w, .memory = a, .used = arena_array(a, bool, k->n_tools)};
    add_fasteners(out);
    if (out->n)
        qsort(out->lines, out->n, sizeof *out->lines, by_need);
    match_needs(out);
    add_other_tools(out);
    const bool *ordered = tools_order(a, k);
    for (uint32_t i = 0; i < out->n; i++) {
        tool_line *line = &out->lines[i];
        for (uint32_t s = 0; s < k->n_steps; s++)
            line->steps += line->per_step[s] > 0;
        line->at_once = tools_at_once(a, k, line->per_step, ordered, groups);
    }
}

int64_t tools_lacking(const tool_line *line) {
    int64_t there = line->owned >= 0 ? line->owned : line->in_table;
    return there < line->at_once ? line->at_once - there : 0;
}

text tools_line_name(const tool_list *l, const tool_line *line) {
    char name[64];
    if (line->tool != KIT_NONE)
        return l->k->tools[line->tool].name;
    tool_print(&line->need, name);
    return arena_text(l->memory, text_of(name));
}
