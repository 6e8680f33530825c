#include "base/number.h"

#include "base/utf8.h"
#include <inttypes.h>
#include <stdio.h>

static bool refuse(number_fault *why, const char *remedy, const char *format, ...) PRINTF_LIKE(3, 4);
static bool refuse(number_fault *why, const char *remedy, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(why->cause, sizeof why->cause, format, list);
    va_end(list);
    snprintf(why->remedy, sizeof why->remedy, "%s", remedy);
    return false;
}

/* What is shown of a wrong cell: at most 40 columns and 84 bytes, whole characters, "…" when something is left out. */
typedef struct {
    text start;
    const char *dots;
} shown;

static shown show(text t) {
    enum { COLUMNS = 40, BYTES = 84 };
    text start = utf8_clip(t, COLUMNS);
    if (start.len > BYTES) {
        start.len = BYTES;
        while (start.len > 0 && ((unsigned char)t.at[start.len] & 0xC0) == 0x80)
            start.len--;
    }
    return (shown){start, start.len < t.len ? "…" : ""};
}

/* Digits, one comma, digits: the comma was meant as the point. */
static bool has_decimal_comma(text t, size_t *comma) {
    size_t digits = t.len && t.at[0] == '-', commas = 0;
    for (size_t i = digits; i < t.len; i++) {
        bool is_comma = t.at[i] == ',';
        if (is_comma && i > 0 && i + 1 < t.len && t.at[i - 1] != '-')
            *comma = i;
        else if (t.at[i] < '0' || t.at[i] > '9')
            return false;
        commas += is_comma;
    }
    return commas == 1;
}

static bool refuse_text(number_fault *why, text t, int scale) {
    char remedy[128] = "write digits only, as in 12";
    size_t comma = 0;
    shown s = show(t);
    if (scale > 0 && !s.dots[0] && has_decimal_comma(t, &comma))
        snprintf(remedy, sizeof remedy, "write %.*s.%.*s", (int)comma, t.at, (int)(t.len - comma - 1),
                 t.at + comma + 1);
    else if (scale > 0)
        snprintf(remedy, sizeof remedy, "write a number with a point, as in 12.5");
    if (t.len == 0)
        return refuse(why, remedy, "no number is given");
    return refuse(why, remedy, "\"%.*s%s\" is not a %s", TEXT_ARG(s.start), s.dots,
                  scale ? "number" : "whole number");
}

static bool refuse_digits(number_fault *why, text t, int scale) {
    shown s = show(t);
    return refuse(why, "round it", "%.*s%s has more than %d digits after the point", TEXT_ARG(s.start),
                  s.dots, scale);
}

static bool refuse_range(number_fault *why, text t, int scale, int64_t low, int64_t high) {
    char lowest[24], highest[24], remedy[128];
    shown s = show(t);
    number_print_decimal(low, scale, lowest);
    number_print_decimal(high, scale, highest);
    snprintf(remedy, sizeof remedy, "write a value from %s to %s", lowest, highest);
    return refuse(why, remedy, "%.*s%s is out of range", TEXT_ARG(s.start), s.dots);
}

/* Puts a digit behind *value, which is built below zero when `negative`, so that the lowest number fits, too. False on
 * overflow. */
static bool add_digit(int64_t *value, char c, bool negative) {
    int64_t digit = negative ? '0' - c : c - '0';
    return !__builtin_mul_overflow(*value, 10, value) && !__builtin_add_overflow(*value, digit, value);
}

bool number_decimal(text t, int scale, int64_t low, int64_t high, int64_t *out, number_fault *why) {
    bool negative = t.len && t.at[0] == '-';
    int64_t value = 0;
    int after_point = -1; /* digits met after the point; -1 before it */
    size_t digits = 0;
    bool fits = true;
    for (size_t i = negative; i < t.len; i++) {
        char c = t.at[i];
        if (c == '.' && after_point < 0 && scale > 0 && digits > 0) {
            after_point = 0;
            continue;
        }
        if (c < '0' || c > '9')
            return refuse_text(why, t, scale);
        digits++;
        if (after_point >= 0 && ++after_point > scale) {
            if (c != '0')
                return refuse_digits(why, t, scale);
            continue;
        }
        fits = fits && add_digit(&value, c, negative);
    }
    if (digits == 0 || after_point == 0)
        return refuse_text(why, t, scale);
    for (int i = after_point < 0 ? 0 : after_point; i < scale; i++)
        fits = fits && add_digit(&value, '0', negative);
    if (!fits || value < low || value > high)
        return refuse_range(why, t, scale, low, high);
    *out = value;
    return true;
}

bool number_integer(text t, int64_t low, int64_t high, int64_t *out, number_fault *why) {
    return number_decimal(t, 0, low, high, out, why);
}

void number_print_decimal(int64_t value, int scale, char out[24]) {
    uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    uint64_t unit = 1;
    for (int i = 0; i < scale; i++)
        unit *= 10;
    int n = snprintf(out, 24, "%s%" PRIu64, value < 0 ? "-" : "", size / unit);
    uint64_t rest = size % unit;
    if (!rest || n < 0)
        return;
    while (rest % 10 == 0)
        rest /= 10, scale--;
    snprintf(out + n, 24 - (size_t)n, ".%0*" PRIu64, scale, rest);
}
