/* cmd_stock.c: `kitbench stock`: where the stock check stands, box by box. */
#include <stdio.h>

#include "base/wrap.h"
#include "cli/build.h"
#include "cli/commands.h"

static void add_words(buf *out, uint32_t n, const char *one, const char *more) {
    if (n)
        buf_addf(out, "%s%u %s", out->len ? ", " : "", (unsigned)n, n == 1 ? one : more);
}

/* "all right" is said of what is all right in every way. */
static text state_of(arena *a, const stock_container *c) {
    if (!c->rows)
        return TEXT("nothing to count");
    if (stock_is_absent(c))
        return TEXT("missing, nothing there");
    buf words = {0};
    add_words(&words, c->counted - c->all_right, "row wrong", "rows wrong");
    add_words(&words, c->finds, "find not on the list", "finds not on the list");
    add_words(&words, c->low_batteries, "battery low", "batteries low");
    if (c->counted < c->rows)
        buf_addf(&words, "%s%s", words.len ? ", " : "", c->counted ? "being counted" : "not begun");
    text t = words.len ? arena_text(a, buf_text(&words)) : TEXT("all right");
    buf_free(&words);
    return t;
}

/* What was seen at the door, under the box's name. */
static void add_remark(buf *out, const stock_container *c) {
    buf line = {0};
    buf_addf(&line, "              %s%.*s%s", c->damage.len ? "damaged: " : "", TEXT_ARG(c->damage),
             c->mass_doubtful ? c->damage.len ? "; its mass is not as stated" : "its mass is not as stated"
                              : "");
    wrap_add(out, buf_text(&line), CLI_WIDTH, 14);
    buf_free(&line);
}

/* Goes on under itself when the line is full. */
static void add_state(buf *out, text state) {
    enum { COLUMN = 51 };
    buf words = {0};
    wrap_add(&words, state, CLI_WIDTH - COLUMN, 0);
    text rest = buf_text(&words), line;
    for (bool first = true; rest.len && text_next_piece(&rest, '\n', &line) && line.len; first = false)
        buf_addf(out, "%*s%.*s\n", first ? 0 : COLUMN, "", TEXT_ARG(line));
    buf_free(&words);
}

static void add_line(buf *out, const desk *d, kit_index i, size_t depth) {
    const stock_container *c = &d->stock->containers[i];
    const kit_container *k = &d->kit->containers[i];
    char counted[32];
    snprintf(counted, sizeof counted, "%u of %u", c->counted, c->rows);
    for (size_t j = 0; j < depth; j++)
        buf_add_z(out, "  ");
    wrap_pad(out, k->number, 12 - 2 * depth);
    buf_add_z(out, "  ");
    wrap_pad(out, k->name, 22);
    buf_addf(out, "  %11s  ", counted);
    add_state(out, state_of(d->memory, c));
    if (!depth && (c->damage.len || c->mass_doubtful))
        add_remark(out, c);
}

static void add_nest(buf *out, const desk *d, kit_index outer, size_t depth) {
    for (kit_index i = 0; i < d->kit->n_containers; i++) {
        if (d->kit->containers[i].inside != outer)
            continue;
        add_line(out, d, i, depth);
        add_nest(out, d, i, depth < 4 ? depth + 1 : depth);
    }
}

static void add_text(buf *out, const desk *d) {
    const stock *s = d->stock;
    buf_addf(out, "%u of %u boxes received, %u of %u rows counted, %u of them wrong\n\n", s->boxes_received,
             s->boxes, s->whole.counted, s->whole.rows, s->whole.counted - s->whole.all_right);
    buf_addf(out, "%-12s  %-22s  %11s  %s\n", "box, bag", "", "counted", "state");
    add_nest(out, d, KIT_NONE, 0);
    if (stock_complete(s))
        buf_add_z(out, "\nThe list is complete.\n");
    else if (s->whole.counted == s->whole.rows)
        buf_add_z(out, "\nEverything is counted; kitbench missing shows what is not as on the list.\n");
}

static void add_container_json(json_out *j, const desk *d, kit_index i) {
    const stock_container *c = &d->stock->containers[i];
    const kit_container *k = &d->kit->containers[i];
    json_put_object(j, NULL);
    json_put_text(j, "container", k->number);
    if (k->inside == KIT_NONE)
        json_put_null(j, "inside");
    else
        json_put_text(j, "inside", d->kit->containers[k->inside].number);
    json_put_text(j, "name", k->name);
    json_put_text(j, "label", k->label);
    json_put_integer(j, "rows", c->rows);
    json_put_integer(j, "counted", c->counted);
    json_put_integer(j, "all_right", c->all_right);
    json_put_integer(j, "not_on_the_list", c->finds);
    json_put_integer(j, "low_batteries", c->low_batteries);
    json_put_bool(j, "missing", stock_is_absent(c));
    json_put_bool(j, "received", c->received);
    if (c->mass_g >= 0)
        json_put_integer(j, "mass_g", c->mass_g);
    else
        json_put_null(j, "mass_g");
    json_put_bool(j, "mass_doubtful", c->mass_doubtful);
    json_put_text(j, "damage", c->damage);
    json_end_object(j);
}

static void add_json(buf *out, const desk *d) {
    const stock *s = d->stock;
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_bool(&j, "complete", stock_complete(s));
    json_put_integer(&j, "boxes", s->boxes);
    json_put_integer(&j, "boxes_received", s->boxes_received);
    json_put_integer(&j, "rows", s->whole.rows);
    json_put_integer(&j, "counted", s->whole.counted);
    json_put_integer(&j, "all_right", s->whole.all_right);
    json_put_array(&j, "containers");
    for (kit_index i = 0; i < d->kit->n_containers; i++)
        add_container_json(&j, d, i);
    json_end_array(&j);
    json_end_object(&j);
}

int cmd_stock(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "stock", &d, &e))
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        add_json(&out, d);
    else
        add_text(&out, d);
    desk_close(d);
    return cli_print(&out, EXIT_DONE);
}
