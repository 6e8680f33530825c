/* may_places.c: tools and places that a step needs, against those in use now. */
#include "desk/reasons.h"

static bool is_running(const desk *d, kit_index step) {
    return d->stock->work->steps[step].state == STOCK_RUNNING;
}

/* How many of it the workshop has; -1: it does not say. */
static int64_t owned(const kit_owned *list, uint32_t n, kit_index what) {
    for (uint32_t i = 0; i < n; i++)
        if (list[i].what == what)
            return list[i].quantity;
    return -1;
}

static int64_t wanted_by(const kit *k, kit_index step, kit_index tool) {
    for (kit_index i = 0; i < k->n_step_tools; i++)
        if (k->step_tools[i].step == step && k->step_tools[i].tool == tool)
            return k->step_tools[i].quantity;
    return 0;
}

static void check_tool(const desk *d, kit_index step, kit_index tool, int64_t wanted, desk_reasons *why) {
    const kit_workshop *w = d->workshop;
    int64_t there = owned(w->tools, w->n_tools, tool), used = 0;
    text users = TEXT("");
    for (kit_index s = 0; s < d->kit->n_steps; s++) {
        int64_t n = s != step && is_running(d, s) ? wanted_by(d->kit, s, tool) : 0;
        if (!n)
            continue;
        used += n;
        users = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(users), users.len ? ", " : "",
                             TEXT_ARG(d->kit->steps[s].number));
    }
    const kit_tool *t = &d->kit->tools[tool];
    if (there >= 0 && used + wanted > there)
        reasons_add(d, why, "it takes %lld of tool %.*s %.*s; the workshop has %lld%s%.*s", (long long)wanted,
                    TEXT_ARG(t->number), TEXT_ARG(t->name), (long long)there, users.len ? ", in use at " : "",
                    TEXT_ARG(users));
}

/* Groups that fit: a zone's by the kit, a workplace's by the workshop. */
static void check_place(const desk *d, kit_index step, desk_reasons *why) {
    kit_index zone = d->kit->steps[step].zone;
    if (zone == KIT_NONE)
        return;
    const kit_zone *z = &d->kit->zones[zone];
    int64_t room = z->kind == KIT_WORKPLACE ? owned(d->workshop->workplaces, d->workshop->n_workplaces, zone)
                                            : z->groups;
    int64_t used = 0;
    text users = TEXT("");
    for (kit_index s = 0; s < d->kit->n_steps; s++) {
        if (s == step || !is_running(d, s) || d->kit->steps[s].zone != zone)
            continue;
        used++;
        users = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(users), users.len ? ", " : "",
                             TEXT_ARG(d->kit->steps[s].number));
    }
    if (room >= 0 && used >= room)
        reasons_add(d, why, "there is no room at %.*s: %.*s %s there", TEXT_ARG(z->name), TEXT_ARG(users),
                    used == 1 ? "is" : "are");
}

void may_have_places(const desk *d, kit_index step, desk_reasons *why) {
    if (!d->workshop)
        return;
    for (kit_index i = 0; i < d->kit->n_step_tools; i++)
        if (d->kit->step_tools[i].step == step)
            check_tool(d, step, d->kit->step_tools[i].tool, d->kit->step_tools[i].quantity, why);
    check_place(d, step, why);
}
