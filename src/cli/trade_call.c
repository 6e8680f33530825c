#include "cli/trade_call.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"

/* What the option's value is called in the help: "MM", "KG". */
static const char *value_name(const cli_call *call, const char *option) {
    for (const cli_option *o = call->command->options; o->name; o++)
        if (strcmp(o->name, option) == 0)
            return o->value;
    return "";
}

/* Units people write behind a number, beside the name of the value in the help. */
static bool is_unit(text unit, const char *name) {
    static const struct {
        const char *name, *also;
    } others[] = {{"PERCENT", "%"},
                  {"C", "\xC2\xB0"
                        "C"},
                  {"DEGREES", "\xC2\xB0"},
                  {"MIN", "minutes"}};
    if (text_equal_nocase(unit, text_of(name)))
        return true;
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (strcmp(others[i].name, name) == 0 && text_equal_nocase(unit, text_of(others[i].also)))
            return true;
    return false;
}

/* The name of the value in the help, as a unit is written. */
static const char *unit_words(const char *name) {
    static const struct {
        const char *name, *words;
    } units[] = {{"MM", "mm"}, {"CM", "cm"},     {"MM2", "mm2"}, {"M", "m"},
                 {"G", "g"},   {"KG", "kg"},     {"AH", "Ah"},   {"H", "h"},
                 {"C", "C"},   {"PERCENT", "%"}, {"MIN", "min"}, {"DEGREES", "degrees"}};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (strcmp(units[i].name, name) == 0)
            return units[i].words;
    return name;
}

/* "25 mm" where millimetres are asked for is 25; "25 cm" is refused and not converted: it is more likely a slip. */
static bool strip_unit(const cli_call *call, const char *option, text *value, err *e) {
    const char *name = value_name(call, option);
    size_t digits = 0;
    while (digits < value->len && strchr("+-.,0123456789", value->at[digits]))
        digits++;
    text unit = text_trim(text_slice(*value, digits, value->len));
    if (digits == 0 || unit.len == 0 || unit.at[0] == 'e' || unit.at[0] == 'E')
        return true;
    if (!is_unit(unit, name))
        return err_input(e, arena_format(call->memory, "--%s", option).at,
                         arena_format(call->memory, "give it in %s", unit_words(name)).at,
                         "\"%.*s\" is not in %s", TEXT_ARG(*value), unit_words(name));
    *value = text_slice(*value, 0, digits);
    return true;
}

bool trade_figure(const cli_call *call, const char *option, double low, double high, double absent,
                  double *out, err *e) {
    const char *name = arena_format(call->memory, "--%s", option).at;
    const char *remedy = arena_format(call->memory, "give a number from %.9g to %.9g", low, high).at;
    if (!cli_given(call, option)) {
        *out = absent;
        return !isnan(absent) || err_input(e, name, remedy, "it is needed here");
    }
    number_fault why;
    int64_t millionths;
    text value = text_trim(text_of(cli_value(call, option)));
    if (!strip_unit(call, option, &value, e))
        return false;
    if (!number_decimal(value, 6, INT64_MIN, INT64_MAX, &millionths,
                        &why)) /* a decimal comma has a remedy of its own */
        return err_input(e, name, text_find(value, TEXT(",")) >= 0 ? why.remedy : remedy, "%s", why.cause);
    *out = (double)millionths / 1e6;
    return true;
}

bool trade_option(const cli_call *call, const char *option, double low, double high, double absent,
                  double *out, err *e) {
    if (!trade_figure(call, option, low, high, absent, out, e))
        return false;
    return !cli_given(call, option) || (*out >= low && *out <= high) ||
           err_input(e, arena_format(call->memory, "--%s", option).at,
                     arena_format(call->memory, "give a number from %.9g to %.9g", low, high).at, "%s is %s",
                     cli_value(call, option), *out < low ? "too small" : "too large");
}

bool trade_whole(const cli_call *call, const char *option, int32_t low, int32_t high, int32_t absent,
                 int32_t *out, err *e) {
    *out = absent;
    if (!cli_given(call, option))
        return true;
    number_fault why;
    int64_t value;
    if (!number_integer(text_of(cli_value(call, option)), low, high, &value, &why))
        return err_input(e, arena_format(call->memory, "--%s", option).at,
                         arena_format(call->memory, "give a whole number from %d to %d", low, high).at, "%s",
                         why.cause);
    *out = (int32_t)value;
    return true;
}

/* The word itself, or else a beginning of it that fits no other ("hex" is hexagon though hexagon flange begins so, too). */
static bool find_word(text given, const char *words, unsigned *out) {
    text rest = text_of(words), word, found = {"", 0};
    for (unsigned i = 0; text_next_piece(&rest, '|', &word); i++) {
        *out = i;
        if (text_equal_nocase(word, given))
            return true;
    }
    rest = text_of(words);
    for (unsigned i = 0; given.len && text_next_piece(&rest, '|', &word); i++) {
        if (!text_equal_nocase(text_slice(word, 0, given.len), given) ||
            (found.len && text_starts(word, found)))
            continue;
        if (found.len)
            return false;
        found = word;
        *out = i;
    }
    return found.len > 0;
}

bool trade_word(const cli_call *call, const char *option, const char *words, unsigned absent, unsigned *out,
                err *e) {
    unsigned found;
    *out = absent;
    if (!cli_given(call, option))
        return true;
    text given = text_trim(text_of(cli_value(call, option)));
    if (find_word(given, words, &found)) {
        *out = found;
        return true;
    }
    text list = {"", 0}, rest = text_of(words), word;
    while (text_next_piece(&rest, '|', &word))
        list = arena_format(call->memory, "%.*s%s%.*s", TEXT_ARG(list), list.len ? ", " : "", TEXT_ARG(word));
    return err_input(e, arena_format(call->memory, "--%s", option).at,
                     arena_format(call->memory, "write one of: %.*s", TEXT_ARG(list)).at,
                     "\"%.*s\" is not known, or fits more than one", TEXT_ARG(given));
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

/* "M8-8.8", "M8 8.8": a size and perhaps a mark, and no word of what it is. */
static bool is_bare_size(const cli_call *call, text name) {
    text as_screw = arena_format(call->memory, "%.*s screw", TEXT_ARG(name));
    proposal p;
    designation_propose(call->memory, &as_screw, 1, &p);
    return p.is_fastener && p.stated.thread_um && !p.stated.standard &&
           (name.at[0] == 'M' || name.at[0] == 'm');
}

bool trade_designation(const cli_call *call, text name, designation *out, buf *said, err *e) {
    if (designation_read(name, out, e))
        return true;
    proposal p;
    designation_propose(call->memory, &name, 1, &p);
    if (!p.is_fastener && name.len && is_bare_size(call, name)) {
        *e = (err){0};
        return err_input(e, arena_format(call->memory, "\"%.*s\"", TEXT_ARG(name)).at,
                         "add it: \"M8x25 hexagon screw 8.8\", or write \"ISO 4762 M8x25-8.8\"",
                         "not stated: what it is, and its head");
    }
    if (!p.is_fastener || p.stated.standard)
        return false; /* the strict reader's refusal tells best */
    *e = (err){0};
    const char *place = arena_format(call->memory, "\"%.*s\"", TEXT_ARG(name)).at;
    static const char write_like[] = "write it as \"ISO 4762 M8x25-8.8\", or \"M8x25 hexagon screw 8.8\"";
    if (p.n_conflicts)
        return err_input(e, place, write_like, "%.*s", TEXT_ARG(p.conflicts[0]));
    if (!p.guess.kind || !p.guess.thread_um || !p.guess.form)
        return err_input(e, place, write_like, "not stated: %s",
                         !p.guess.kind        ? "what it is (screw, nut, washer)"
                         : !p.guess.thread_um ? "the thread"
                         : p.guess.kind == FASTENER_SCREW
                             ? "its head (hexagon, socket cap, button, countersunk)"
                             : "its shape");
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
