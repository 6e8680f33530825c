#include "base/json_out.h"

#include <assert.h>
#include <inttypes.h>

enum { DEEPEST = 32 };

json_out json_to(buf *to) {
    return (json_out){.to = to, .first = true};
}

static void start(json_out *j, const char *key) {
    if (j->depth) {
        buf_add_z(j->to, j->first ? "\n" : ",\n");
        for (int i = 0; i < j->depth; i++)
            buf_add_z(j->to, "  ");
    }
    j->first = false;
    if (key) {
        buf_add_json(j->to, text_of(key));
        buf_add_z(j->to, ": ");
    }
}

static void open_level(json_out *j, const char *key, char bracket) {
    start(j, key);
    buf_add_char(j->to, bracket);
    assert(j->depth < DEEPEST);
    j->depth++;
    j->first = true;
}

static void close_level(json_out *j, char bracket) {
    assert(j->depth > 0);
    bool empty = j->first;
    j->depth--;
    j->first = false;
    if (!empty) {
        buf_add_char(j->to, '\n');
        for (int i = 0; i < j->depth; i++)
            buf_add_z(j->to, "  ");
    }
    buf_add_char(j->to, bracket);
    if (j->depth == 0)
        buf_add_char(j->to, '\n');
}

void json_put_object(json_out *j, const char *key) {
    open_level(j, key, '{');
}

void json_put_array(json_out *j, const char *key) {
    open_level(j, key, '[');
}

void json_end_object(json_out *j) {
    close_level(j, '}');
}

void json_end_array(json_out *j) {
    close_level(j, ']');
}

void json_put_text(json_out *j, const char *key, text value) {
    start(j, key);
    buf_add_json(j->to, value);
}

void json_put_integer(json_out *j, const char *key, int64_t value) {
    start(j, key);
    buf_addf(j->to, "%" PRId64, value);
}

void json_put_bool(json_out *j, const char *key, bool value) {
    start(j, key);
    buf_add_z(j->to, value ? "true" : "false");
}

void json_put_null(json_out *j, const char *key) {
    start(j, key);
    buf_add_z(j->to, "null");
}

void json_put_decimal(json_out *j, const char *key, int64_t value, int scale) {
    uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    uint64_t unit = 1;
    for (int i = 0; i < scale; i++)
        unit *= 10;
    start(j, key);
    buf_addf(j->to, "%s%" PRIu64, value < 0 ? "-" : "", size / unit);
    if (scale > 0)
        buf_addf(j->to, ".%0*" PRIu64, scale, size % unit);
}

void json_put_number(json_out *j, const char *key, double value) {
    start(j, key);
    buf_addf(j->to, "%.6g", value);
}
