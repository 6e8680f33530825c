/* cmd_workshop.c: `kitbench workshop`: adults in the room, pace, wanted day, tools and workplaces that are there. */
#include "base/number.h"
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/crew.h"

static void owned_json(json_out *j, const char *key, const char *member, const kit_owned *list, uint32_t n,
                       const kit *k) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < n; i++) {
        json_put_object(j, NULL);
        json_put_text(j, member,
                      member[0] == 't' ? k->tools[list[i].what].number : k->zones[list[i].what].number);
        json_put_integer(j, "quantity", list[i].quantity);
        json_end_object(j);
    }
    json_end_array(j);
}

static void workshop_json(const desk *d, json_out *j) {
    const kit_workshop *w = d->workshop;
    char day[11];
    json_put_text(j, "name", w->name);
    json_put_integer(j, "minimum_adults", w->minimum_adults);
    json_put_decimal(j, "beginners_factor", w->beginners_percent, 2);
    owned_json(j, "tools", "tool", w->tools, w->n_tools, d->kit);
    owned_json(j, "workplaces", "zone", w->workplaces, w->n_workplaces, d->kit);
    if (w->wanted_day == INT32_MAX) {
        json_put_null(j, "wanted_day");
        return;
    }
    date_print(w->wanted_day, day);
    json_put_text(j, "wanted_day", text_of(day));
}

static void workshop_show(const cli_call *call, const desk *d, json_out *j, buf *out) {
    const kit_workshop *w = d->workshop;
    char day[11] = "not said", factor[24];
    if (call->json) {
        if (w)
            workshop_json(d, j);
        return;
    }
    if (!w) {
        buf_add_z(out, "No workshop yet: kitbench crew FILE add NAME\n");
        return;
    }
    if (w->wanted_day != INT32_MAX)
        date_print(w->wanted_day, day);
    number_print_decimal(w->beginners_percent, 2, factor);
    wrap_add(out, arena_format(call->memory, "%.*s", TEXT_ARG(w->name)), CLI_WIDTH, 2);
    buf_addf(out, "  adults in the room  %lld\n  beginners' factor   %s\n  wanted day          %s\n",
             (long long)w->minimum_adults, factor, day);
    for (uint32_t i = 0; i < w->n_tools; i++)
        wrap_add(
            out,
            arena_format(call->memory, "  %.*s %.*s: %lld", TEXT_ARG(d->kit->tools[w->tools[i].what].number),
                         TEXT_ARG(d->kit->tools[w->tools[i].what].name), (long long)w->tools[i].quantity),
            CLI_WIDTH, 4);
    for (uint32_t i = 0; i < w->n_workplaces; i++)
        wrap_add(out,
                 arena_format(call->memory, "  %.*s %.*s: %lld",
                              TEXT_ARG(d->kit->zones[w->workplaces[i].what].number),
                              TEXT_ARG(d->kit->zones[w->workplaces[i].what].name),
                              (long long)w->workplaces[i].quantity),
                 CLI_WIDTH, 4);
}

/* "T-1=2, bench=1" */
static bool read_owned(const cli_call *call, desk_owned **list, uint32_t *n, err *e) {
    text rest = text_trim(text_of(cli_value(call, "owns"))), one, quantity;
    size_t cap = 0;
    while (rest.len && text_next_piece(&rest, ',', &one)) {
        desk_owned o;
        if (!text_next_piece(&one, '=', &o.number) || !text_next_piece(&one, '=', &quantity))
            return err_input(e, "--owns", "write it like T-1=2,bench=1", "a tool has no quantity");
        if (!build_number("--owns", arena_z(call->memory, text_trim(quantity)), 0, 1000, &o.quantity, e))
            return false;
        arena_room(call->memory, *list, *n, cap, desk_owned);
        (*list)[(*n)++] = o;
    }
    return true;
}

static bool change_workshop(const cli_call *call, desk *d, desk_reasons *mind, err *e) {
    desk_workshop_change c = {
        .name = cli_value(call, "name"), .wanted = cli_value(call, "wanted-day"), .beginners_percent = -1};
    const char *factor = cli_value(call, "beginners-factor");
    number_fault why;
    if (factor && !number_decimal(text_of(factor), 2, 10, 1000, &c.beginners_percent, &why))
        return err_input(e, "--beginners-factor", why.remedy, "%s", why.cause);
    desk_owned *owned = NULL;
    uint32_t n = 0;
    if (!build_option(call, "minimum-adults", 1, 100, -1, &c.minimum_adults, e) ||
        !read_owned(call, &owned, &n, e))
        return false;
    bool others = c.name || c.minimum_adults >= 0 || c.beginners_percent >= 0 || c.wanted;
    return (!others || desk_change_workshop(d, &c, build_who(call), mind, e)) &&
           (!n || desk_own(d, owned, n, build_who(call), mind, e));
}

int cmd_workshop(cli_call *call) {
    bool write = cli_given(call, "name") || cli_given(call, "minimum-adults") ||
                 cli_given(call, "beginners-factor") || cli_given(call, "wanted-day") ||
                 cli_given(call, "owns");
    return crew_run(call, write ? 1 : 2, change_workshop, workshop_show);
}
