#include "base/err.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* A text that did not fit ends in "…", and never in half a character. */
static void mark_cut(char *field, size_t size, int wanted) {
    if (wanted < 0 || (size_t)wanted < size)
        return;
    size_t end = size - 4;
    while (end > 0 && ((unsigned char)field[end] & 0xC0) == 0x80)
        end--;
    memcpy(field + end, "\xE2\x80\xA6", 4);
}

static void fill(err *e, err_kind kind, const char *place, const char *remedy, const char *format,
                 va_list list) PRINTF_LIKE(5, 0);
static void fill(err *e, err_kind kind, const char *place, const char *remedy, const char *format,
                 va_list list) {
    e->kind = kind;
    mark_cut(e->place, sizeof e->place, snprintf(e->place, sizeof e->place, "%s", place ? place : ""));
    mark_cut(e->remedy, sizeof e->remedy, snprintf(e->remedy, sizeof e->remedy, "%s", remedy ? remedy : ""));
    mark_cut(e->cause, sizeof e->cause, vsnprintf(e->cause, sizeof e->cause, format, list));
}

bool err_input(err *e, const char *place, const char *remedy, const char *cause_format, ...) {
    if (e) {
        va_list list;
        va_start(list, cause_format);
        fill(e, ERR_INPUT, place, remedy, cause_format, list);
        va_end(list);
    }
    return false;
}

bool err_run(err *e, const char *place, const char *remedy, const char *cause_format, ...) {
    if (e) {
        va_list list;
        va_start(list, cause_format);
        fill(e, ERR_RUN, place, remedy, cause_format, list);
        va_end(list);
    }
    return false;
}

int err_print(const err *e, char *out, size_t size) {
    return snprintf(out, size, "%s%s%s%s%s", e->place, e->place[0] ? ": " : "", e->cause,
                    e->remedy[0] ? "; " : "", e->remedy);
}
