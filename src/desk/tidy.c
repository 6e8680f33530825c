/* tidy.c: where parts lie, and whether the tools are back. */
#include "desk/reasons.h"

bool desk_label(desk *d, kit_index part, text label, desk_who who, err *e) {
    store_entry stamp;
    int64_t number;
    label = text_trim(label);
    if (!act_check_text(label, "label", e) || !act_begin(d, who, &stamp, e))
        return false;
    store_entry n = act_entry(&stamp, STORE_LABEL);
    n.part = d->kit->parts[part].number;
    n.note = label;
    return act_end(d, store_append(d->file, &n, &number, e), e);
}

text desk_label_of(const desk *d, kit_index part) {
    for (uint32_t i = 0; i < d->record.n_labels; i++)
        if (d->record.labels[i].part == part)
            return d->record.labels[i].label;
    return TEXT("");
}

bool desk_count_tools(desk *d, const desk_tools_here *list, uint32_t n, desk_who who, err *e) {
    store_entry stamp;
    int64_t number;
    bool ok = true;
    if (!act_begin(d, who, &stamp, e))
        return false;
    for (uint32_t i = 0; i < n && ok; i++) {
        store_entry t = act_entry(&stamp, STORE_TOOL);
        t.tool = d->kit->tools[list[i].tool].number;
        t.usable = list[i].quantity;
        ok = store_append(d->file, &t, &number, e);
    }
    return act_end(d, ok, e);
}

int64_t desk_tools_expected(const desk *d, kit_index tool) {
    for (kit_index i = 0; d->workshop && i < d->workshop->n_tools; i++)
        if (d->workshop->tools[i].what == tool)
            return d->workshop->tools[i].quantity;
    return d->kit->tools[tool].needed;
}

const stock_tool_count *desk_tool_count(const desk *d, kit_index tool, bool *fresh) {
    *fresh = false;
    for (uint32_t i = 0; i < d->record.n_tool_counts; i++)
        if (d->record.tool_counts[i].tool == tool) {
            *fresh = d->record.tool_counts[i].entry > d->stock->work->last_entry;
            return &d->record.tool_counts[i];
        }
    return NULL;
}

void tidy_check_tools(const desk *d, desk_reasons *why) {
    uint32_t stale = 0;
    for (kit_index t = 0; t < d->kit->n_tools; t++) {
        bool fresh;
        const stock_tool_count *c = desk_tool_count(d, t, &fresh);
        stale += !fresh;
        if (fresh && c->quantity < desk_tools_expected(d, t))
            reasons_add(d, why, "%lld of %lld of tool %.*s %.*s are here; the rest may lie in the machine",
                        (long long)c->quantity, (long long)desk_tools_expected(d, t),
                        TEXT_ARG(d->kit->tools[t].number), TEXT_ARG(d->kit->tools[t].name));
    }
    if (stale)
        reasons_add(d, why, "%u of %u kinds of tools were not counted since the last work", stale,
                    d->kit->n_tools);
}
