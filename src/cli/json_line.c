/* json_line.c: see json_line.h. The text has been parsed before, so that only brackets and strings must be told apart. */
#include "cli/json_line.h"

#include <stdlib.h>
#include <string.h>

static size_t skip_space(text t, size_t at) {
    while (at < t.len && strchr(" \t\r\n,:", t.at[at]) && t.at[at])
        at++;
    return at;
}

/* Past the string that begins at `at`. */
static size_t skip_string(text t, size_t at) {
    for (at++; at < t.len && t.at[at] != '"'; at++)
        if (t.at[at] == '\\')
            at++;
    return at < t.len ? at + 1 : t.len;
}

/* Past the value that begins at `at`. */
static size_t skip_value(text t, size_t at) {
    size_t depth = 0;
    do {
        char c = at < t.len ? t.at[at] : 0;
        if (c == '"') {
            at = skip_string(t, at);
        } else if (c == '[' || c == '{') {
            depth++;
            at++;
        } else if (c == ']' || c == '}') {
            depth--;
            at++;
        } else { /* a number or a word */
            while (at < t.len && !strchr("\"[]{}, \t\r\n:", t.at[at]))
                at++;
        }
        if (depth > 0)
            at = skip_space(t, at);
    } while (depth > 0 && at < t.len);
    return at;
}

/* Where the member `key` of the object at `at` has its value, or its key where `of_key`; t.len: there is none. */
static size_t find_member(text t, size_t at, text key) {
    if (at >= t.len || t.at[at] != '{')
        return t.len;
    for (at = skip_space(t, at + 1); at < t.len && t.at[at] == '"';) {
        size_t end = skip_string(t, at);
        bool same = end >= at + 2 && text_equal(text_slice(t, at + 1, end - 1), key);
        size_t value = skip_space(t, end);
        if (same)
            return value;
        at = skip_space(t, skip_value(t, value));
    }
    return t.len;
}

static size_t find_item(text t, size_t at, size_t index) {
    if (at >= t.len || t.at[at] != '[')
        return t.len;
    at = skip_space(t, at + 1);
    for (; index > 0 && at < t.len && t.at[at] != ']'; index--)
        at = skip_space(t, skip_value(t, at));
    return at < t.len && t.at[at] != ']' ? at : t.len;
}

uint32_t json_line(text json, const char *path) {
    size_t at = skip_space(json, 0), found = at;
    while (*path && at < json.len) {
        if (*path == '[') {
            char *end;
            at = find_item(json, at, (size_t)strtoull(path + 1, &end, 10));
            path = end + (*end == ']');
        } else {
            path += *path == '.';
            size_t n = strcspn(path, "[.");
            at = n ? find_member(json, at, (text){path, n}) : json.len;
            path += n;
        }
        found = at < json.len ? at : found;
    }
    uint32_t line = 1;
    for (size_t k = 0; k < found && k < json.len; k++)
        line += json.at[k] == '\n';
    return line;
}
