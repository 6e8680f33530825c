/* cmd_reading.c: `kitbench reading`: batteries measured after arrival, and when to top up. */
#include "base/number.h"
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static bool write_reading(cli_call *call, desk *d, err *e) {
    kit_index row;
    int64_t piece, millivolts, hours;
    number_fault why;
    const char *bag = cli_value(call, "bag");
    text part = text_of(call->arguments[1]);
    if (!build_number("PIECE", call->arguments[2], 1, CLI_MOST, &piece, e) ||
        !build_option(call, "rested", 0, 10000, -1, &hours, e))
        return false;
    if (!number_decimal(text_of(call->arguments[3]), 3, 0, 100000, &millivolts, &why))
        return err_input(e, "VOLTS", why.remedy, "%s", why.cause);
    return desk_find_row(d, bag ? text_of(bag) : part, bag ? part : TEXT(""), &row, e) &&
           desk_read_battery(d, row, piece, millivolts, hours < 0 ? -1 : hours * 60,
                             cli_given(call, "charged"), build_who(call), e);
}

static void add_json(json_out *j, const desk *d, const desk_battery *b) {
    char day[11];
    json_put_object(j, NULL);
    json_put_text(j, "part", d->kit->parts[d->kit->rows[b->row].part].number);
    json_put_integer(j, "piece", b->piece);
    if (b->last)
        json_put_integer(j, "millivolts", b->last->millivolts);
    else
        json_put_null(j, "millivolts");
    if (b->known) {
        json_put_number(j, "charge_low", b->low);
        json_put_number(j, "charge_high", b->high);
    } else {
        json_put_null(j, "charge_low");
        json_put_null(j, "charge_high");
    }
    json_put_bool(j, "flat", b->flat);
    json_put_text(j, "why_not", b->why_not);
    if (b->top_up == INT32_MAX) {
        json_put_null(j, "top_up");
    } else {
        date_print(b->top_up, day);
        json_put_text(j, "top_up", text_of(day));
    }
    json_end_object(j);
}

static text told(const cli_call *call, const desk *d, const desk_battery *b) {
    arena *a = call->memory;
    char volts[24], day[11] = "not known";
    if (b->top_up != INT32_MAX)
        date_print(b->top_up, day);
    number_print_decimal(b->last ? b->last->millivolts : 0, 3, volts);
    text says = TEXT("");
    if (b->known)
        says = arena_format(a, ", charged %.0f to %.0f %%%s", 100 * b->low, 100 * b->high,
                            b->flat ? ", flat: an adult looks at it" : "");
    else if (b->why_not.len)
        says = arena_format(a, ", says nothing: %.*s", TEXT_ARG(b->why_not));
    return arena_format(a, "%.*s %lld: %s%s%.*s; next top-up %s",
                        TEXT_ARG(d->kit->parts[d->kit->rows[b->row].part].number), (long long)b->piece,
                        b->last ? volts : "not measured since it arrived", b->last ? " V" : "",
                        TEXT_ARG(says), day);
}

static int answer(cli_call *call, const desk *d) {
    buf out = {0};
    desk_battery *list;
    uint32_t n = desk_batteries(d, &list);
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        json_put_array(&j, "batteries");
        for (uint32_t i = 0; i < n; i++)
            add_json(&j, d, &list[i]);
        json_end_array(&j);
        json_end_object(&j);
        return cli_print(&out, EXIT_DONE);
    }
    for (uint32_t i = 0; i < n; i++)
        wrap_add(&out, told(call, d, &list[i]), CLI_WIDTH, 2);
    wrap_add(
        &out,
        TEXT("The label on the battery comes first. Charge ventilated and attended, by an adult; never a "
             "frozen battery."),
        CLI_WIDTH, 0);
    return cli_print(&out, EXIT_DONE);
}

int cmd_reading(cli_call *call) {
    err e;
    desk *d;
    bool write = call->n_arguments == 4;
    if (!write && call->n_arguments != 1) {
        err_input(&e, "reading", "write FILE PART PIECE VOLTS, or FILE alone", "something is missing");
        return cli_fail(&e);
    }
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "reading", &d, &e))
        return cli_fail(&e);
    int code = !write || write_reading(call, d, &e) ? answer(call, d) : cli_fail(&e);
    desk_close(d);
    return code;
}
