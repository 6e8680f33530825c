#include "base/number.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static bool refuse(number_fault *why, const char *remedy, const char *format, ...) PRINTF_LIKE(3, 4);
static bool refuse(number_fault *why, const char *remedy, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(why->cause, sizeof why->cause, format, list);
    va_end(list);
    snprintf(why->remedy, sizeof why->remedy, "%s", remedy);
    return false;
}

/* At most this much of a wrong cell is shown. */
enum { SHOWN = 40 };

static bool refuse_text(number_fault *why, text t, int scale) {
    char remedy[128] = "write digits only, as in 12";
    const char *comma = t.len ? memchr(t.at, ',', t.len) : NULL;
    if (scale > 0) {
        snprintf(remedy, sizeof remedy, "write a number with a point, as in 12.5");
        if (comma && t.len < SHOWN)
            snprintf(remedy, sizeof remedy, "write %.*s.%.*s", (int)(comma - t.at), t.at,
                     (int)(t.at + t.len - comma - 1), comma + 1);
    }
    if (t.len == 0)
        return refuse(why, remedy, "no number is given");
    return refuse(why, remedy, "\"%.*s\" is not a %s", t.len < SHOWN ? (int)t.len : SHOWN, t.at,
                  scale ? "number" : "whole number");
}

static bool in_range(int64_t value, int scale, int64_t low, int64_t high, text t, number_fault *why) {
    if (value >= low && value <= high)
        return true;
    char lowest[24], highest[24], remedy[128];
    number_print_decimal(low, scale, lowest);
    number_print_decimal(high, scale, highest);
    snprintf(remedy, sizeof remedy, "write a value from %s to %s", lowest, highest);
    return refuse(why, remedy, "%.*s is out of range", t.len < SHOWN ? (int)t.len : SHOWN, t.at);
}

/* Reads digits onto *value; false on overflow. */
static bool add_digit(int64_t *value, char c) {
    int64_t digit = c - '0';
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
                return refuse(why, "round it", "%.*s has more than %d digits after the point",
                              t.len < SHOWN ? (int)t.len : SHOWN, t.at, scale);
            continue;
        }
        fits = fits && add_digit(&value, c);
    }
    if (digits == 0 || after_point == 0)
        return refuse_text(why, t, scale);
    for (int i = after_point < 0 ? 0 : after_point; i < scale; i++)
        fits = fits && add_digit(&value, '0');
    if (!fits)
        value = INT64_MAX;
    if (!in_range(negative ? -value : value, scale, low, high, t, why))
        return false;
    *out = negative ? -value : value;
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
