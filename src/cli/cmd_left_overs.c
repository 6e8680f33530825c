/* cmd_left_overs.c: `kitbench left-overs`: what should be left, and what left-over pieces tell. */
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static int64_t spares_of(const kit *k, kit_index part) {
    int64_t n = 0;
    for (kit_index i = 0; i < k->n_rows; i++)
        n += k->rows[i].part == part ? k->rows[i].spare : 0;
    return n;
}

/* Every part of which something should be left, as if nobody had counted it. */
static stock_left_over *expect_all(const cli_call *call, const desk *d, uint32_t *n) {
    stock_left_over *list = arena_array(call->memory, stock_left_over, d->kit->n_parts);
    *n = 0;
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        if (stock_available(d->stock, p) > 0)
            list[(*n)++] = (stock_left_over){
                .part = p, .counted = -1, .expected = stock_available(d->stock, p), .swapped_for = KIT_NONE};
    return list;
}

static bool read_counts(const cli_call *call, const desk *d, stock_left_over *list, uint32_t *n, err *e) {
    if (call->n_arguments % 2 == 0)
        return err_input(e, "left-overs", "write PART N for each", "a part has no quantity");
    for (int i = 1; i < call->n_arguments; i += 2) {
        stock_left_over *l = &list[(*n)++];
        if (!work_part(d, call->arguments[i], &l->part, e) ||
            !build_number("N", call->arguments[i + 1], 0, CLI_MOST, &l->counted, e))
            return false;
        for (uint32_t k = 0; k + 1 < *n; k++)
            if (list[k].part == l->part)
                return err_input(e, call->arguments[i], "name it once, with all its pieces",
                                 "it is named twice");
    }
    return true;
}

static void left_json(const desk *d, const stock_left_over *list, uint32_t n, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "left_overs");
    for (uint32_t i = 0; i < n; i++) {
        const stock_left_over *l = &list[i];
        json_put_object(&j, NULL);
        json_put_text(&j, "part", d->kit->parts[l->part].number);
        if (l->counted < 0)
            json_put_null(&j, "counted");
        else
            json_put_integer(&j, "counted", l->counted);
        json_put_integer(&j, "expected", l->expected);
        json_put_integer(&j, "packed_as_spares", spares_of(d->kit, l->part));
        json_put_text(&j, "label", desk_label_of(d, l->part));
        json_put_array(&j, "steps");
        for (uint32_t s = 0; s < l->n_steps; s++)
            json_put_text(&j, NULL, d->kit->steps[l->steps[s]].number);
        json_end_array(&j);
        if (l->swapped_for == KIT_NONE)
            json_put_null(&j, "swapped_for");
        else
            json_put_text(&j, "swapped_for", d->kit->parts[l->swapped_for].number);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

static void expected_text(const cli_call *call, const desk *d, const stock_left_over *l, buf *out) {
    text label = desk_label_of(d, l->part);
    wrap_add(out,
             arena_format(call->memory, "%.*s %.*s: %lld should be left, %lld of them packed as spares%s%.*s",
                          TEXT_ARG(d->kit->parts[l->part].number), TEXT_ARG(d->kit->parts[l->part].name),
                          (long long)l->expected, (long long)spares_of(d->kit, l->part),
                          label.len ? "; in " : "", TEXT_ARG(label)),
             CLI_WIDTH, 2);
}

static void left_text(const cli_call *call, const desk *d, const stock_left_over *l, buf *out) {
    arena *a = call->memory;
    text line =
        arena_format(a, "%.*s %.*s: %lld counted, %lld expected", TEXT_ARG(d->kit->parts[l->part].number),
                     TEXT_ARG(d->kit->parts[l->part].name), (long long)l->counted, (long long)l->expected);
    for (uint32_t s = 0; s < l->n_steps; s++)
        line = arena_format(a, "%.*s%s%.*s%s", TEXT_ARG(line), s ? ", " : "; may be missing in ",
                            TEXT_ARG(d->kit->steps[l->steps[s]].number),
                            s < l->n_exact ? " (takes just as many)" : "");
    if (l->swapped_for != KIT_NONE)
        line =
            arena_format(a, "%.*s; may also be a swap: too few of %.*s are left, which may sit in its place",
                         TEXT_ARG(line), TEXT_ARG(d->kit->parts[l->swapped_for].number));
    wrap_add(out, line, CLI_WIDTH, 2);
}

int cmd_left_overs(cli_call *call) {
    err e;
    desk *d;
    uint32_t n = 0;
    bool right = true, counted = call->n_arguments > 1;
    buf out = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "left-overs", &d, &e))
        return cli_fail(&e);
    stock_left_over *list = counted ? arena_array(call->memory, stock_left_over, (size_t)call->n_arguments)
                                    : expect_all(call, d, &n);
    if (counted && !read_counts(call, d, list, &n, &e)) {
        desk_close(d);
        return cli_fail(&e);
    }
    if (counted)
        stock_judge_left_overs(call->memory, d->kit, d->stock, list, n);
    for (uint32_t i = 0; i < n; i++)
        right = right && (!counted || !list[i].difference);
    if (call->json)
        left_json(d, list, n, &out);
    for (uint32_t i = 0; i < n && !call->json; i++)
        if (counted)
            left_text(call, d, &list[i], &out);
        else
            expected_text(call, d, &list[i], &out);
    desk_close(d);
    return cli_print(&out, right ? EXIT_DONE : EXIT_NO);
}
