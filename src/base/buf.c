#include "base/buf.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static _Noreturn void out_of_memory(void) {
    static const char line[] =
        "kitbench: out of memory; nothing that was saved is lost; close other programs\n";
    ssize_t ignored = write(STDERR_FILENO, line, sizeof line - 1);
    (void)ignored;
    _exit(3);
}

static void make_room(buf *b, size_t more) {
    if (b->cap - b->len > more)
        return;
    if (more > SIZE_MAX / 4 || b->cap > SIZE_MAX / 4)
        out_of_memory();
    size_t cap = b->cap ? b->cap * 2 : 256;
    while (cap - b->len <= more)
        cap *= 2;
    char *grown = realloc(b->at, cap);
    if (!grown)
        out_of_memory();
    b->at = grown;
    b->cap = cap;
}

void buf_free(buf *b) {
    free(b->at);
    *b = (buf){0};
}

void buf_clear(buf *b) {
    b->len = 0;
    if (b->at)
        b->at[0] = '\0';
}

void buf_add(buf *b, text t) {
    make_room(b, t.len);
    if (t.len)
        memcpy(b->at + b->len, t.at, t.len);
    b->len += t.len;
    b->at[b->len] = '\0';
}

void buf_add_z(buf *b, const char *z) {
    buf_add(b, text_of(z));
}

void buf_add_char(buf *b, char c) {
    buf_add(b, (text){&c, 1});
}

void buf_addf(buf *b, const char *format, ...) {
    va_list list;
    va_start(list, format);
    va_list again;
    va_copy(again, list);
    int n = vsnprintf(NULL, 0, format, list);
    va_end(list);
    if (n > 0) {
        make_room(b, (size_t)n);
        vsnprintf(b->at + b->len, (size_t)n + 1, format, again);
        b->len += (size_t)n;
    }
    va_end(again);
}

static bool needs_quotes(text t) {
    if (t.len == 0)
        return false;
    if (t.at[0] == ' ' || t.at[t.len - 1] == ' ')
        return true;
    for (size_t i = 0; i < t.len; i++)
        if (strchr(",\"\r\n", t.at[i]) && t.at[i])
            return true;
    return false;
}

void buf_add_csv(buf *b, text t) {
    if (!needs_quotes(t)) {
        buf_add(b, t);
        return;
    }
    buf_add_char(b, '"');
    for (size_t i = 0; i < t.len; i++) {
        if (t.at[i] == '"')
            buf_add_char(b, '"');
        buf_add_char(b, t.at[i]);
    }
    buf_add_char(b, '"');
}

void buf_add_json(buf *b, text t) {
    buf_add_char(b, '"');
    for (size_t i = 0; i < t.len; i++) {
        unsigned char c = (unsigned char)t.at[i];
        if (c == '"' || c == '\\')
            buf_addf(b, "\\%c", c);
        else if (c == '\n')
            buf_add_z(b, "\\n");
        else if (c == '\t')
            buf_add_z(b, "\\t");
        else if (c < 0x20 || c == 0x7F)
            buf_addf(b, "\\u%04x", c);
        else
            buf_add_char(b, (char)c);
    }
    buf_add_char(b, '"');
}

static const char *html_escape(char c) {
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

void buf_add_html(buf *b, text t) {
    for (size_t i = 0; i < t.len; i++) {
        const char *escape = html_escape(t.at[i]);
        if (escape)
            buf_add_z(b, escape);
        else
            buf_add_char(b, t.at[i]);
    }
}

text buf_text(const buf *b) {
    return (text){b->at ? b->at : "", b->len};
}

void buf_add_visible(buf *b, text t) {
    for (size_t i = 0; i < t.len; i++) {
        unsigned char c = (unsigned char)t.at[i], next = i + 1 < t.len ? (unsigned char)t.at[i + 1] : 0;
        bool c1 = c == 0xC2 && next >= 0x80 && next < 0xA0;
        if (c == '\r' || c == '\n' || c == '\t')
            buf_addf(b, "\\%c", c == '\r' ? 'r' : c == '\n' ? 'n' : 't');
        else if (c < 0x20 || c == 0x7F || c1)
            buf_addf(b, "\\x%02X", c1 ? next : c);
        else
            buf_add_char(b, t.at[i]);
        i += c1;
    }
}
