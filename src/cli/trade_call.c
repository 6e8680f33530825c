#include "cli/trade_call.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"

bool trade_option(const cli_call *call, const char *option, double low, double high, double absent,
                  double *out, err *e) {
    const char *name = arena_format(call->memory, "--%s", option).at;
    if (!cli_given(call, option)) {
        *out = absent;
        return !isnan(absent) ||
               err_input(e, name, arena_format(call->memory, "give a number from %g to %g", low, high).at,
                         "it is needed here");
    }
    number_fault why;
    int64_t millionths;
    if (!number_decimal(text_of(cli_value(call, option)), 6, (int64_t)llround(low * 1e6),
                        (int64_t)llround(high * 1e6), &millionths, &why))
        return err_input(e, name, why.remedy, "%s", why.cause);
    *out = (double)millionths / 1e6;
    return true;
}

bool trade_whole(const cli_call *call, const char *option, int32_t low, int32_t high, int32_t absent,
                 int32_t *out, err *e) {
    *out = absent;
    if (!cli_given(call, option))
        return true;
    number_fault why;
    int64_t value;
    if (!number_integer(text_of(cli_value(call, option)), low, high, &value, &why))
        return err_input(e, arena_format(call->memory, "--%s", option).at, why.remedy, "%s", why.cause);
    *out = (int32_t)value;
    return true;
}

bool trade_word(const cli_call *call, const char *option, const char *words, unsigned absent, unsigned *out,
                err *e) {
    *out = absent;
    if (!cli_given(call, option))
        return true;
    text given = text_of(cli_value(call, option)), rest = text_of(words), word;
    for (unsigned i = 0; text_next_piece(&rest, '|', &word); i++) {
        if (text_equal_nocase(word, given)) {
            *out = i;
            return true;
        }
    }
    char list[256];
    size_t n = strlen(words) < sizeof list ? strlen(words) : sizeof list - 1;
    for (size_t i = 0; i < n; i++)
        list[i] = words[i] == '|' ? ',' : words[i];
    list[n] = 0;
    return err_input(e, arena_format(call->memory, "--%s", option).at,
                     arena_format(call->memory, "write one of %s", list).at, "\"%.*s\" is not known",
                     TEXT_ARG(given));
}

text trade_joined(const cli_call *call, int from) {
    text all = {"", 0};
    for (int i = from; i < call->n_arguments; i++)
        all = arena_format(call->memory, "%.*s%s%s", TEXT_ARG(all), all.len ? " " : "", call->arguments[i]);
    return all;
}

static void say(buf *said, const char *what, const text *list, size_t n) {
    for (size_t i = 0; i < n; i++)
        trade_line(said, "%s: %.*s", what, TEXT_ARG(list[i]));
}

bool trade_designation(const cli_call *call, text name, designation *out, buf *said, err *e) {
    if (designation_read(name, out, e))
        return true;
    proposal p;
    designation_propose(call->memory, &name, 1, &p);
    if (!p.is_fastener || p.stated.standard)
        return false; /* the strict reader's refusal tells best */
    *e = (err){0};
    const char *place = arena_format(call->memory, "\"%.*s\"", TEXT_ARG(name)).at;
    static const char write_like[] = "write it as \"ISO 4762 M8x25-8.8\"";
    if (p.n_conflicts)
        return err_input(e, place, write_like, "%.*s", TEXT_ARG(p.conflicts[0]));
    if (!p.guess.kind || !p.guess.thread_um || !p.guess.form)
        return err_input(e, place, write_like, "not stated: %.*s", TEXT_ARG(p.missing[0]));
    say(said, "assumed", p.assumed, p.n_assumed);
    *out = p.guess;
    return true;
}

void trade_line(buf *out, const char *format, ...) {
    char line[2048];
    va_list list;
    va_start(list, format);
    vsnprintf(line, sizeof line, format, list);
    va_end(list);
    wrap_add(out, text_of(line), TRADE_WIDTH, 2);
}

void trade_json_z(json_out *j, const char *key, const char *z) {
    json_put_text(j, key, text_of(z));
}

void trade_json_real(json_out *j, const char *key, double value) {
    if (isfinite(value))
        json_put_number(j, key, value);
    else
        json_put_null(j, key);
}

void trade_json_band(json_out *j, const char *key, band b) {
    json_put_object(j, key);
    trade_json_real(j, "low", b.low);
    trade_json_real(j, "likely", b.likely);
    trade_json_real(j, "high", b.high);
    json_end_object(j);
}

void trade_json_um(json_out *j, const char *key, int32_t um) {
    if (um)
        json_put_number(j, key, um / 1e3);
    else
        json_put_null(j, key);
}
