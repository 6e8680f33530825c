#include "dialect.h"

#include <iconv.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"

static const struct {
    const char *name, *mark;
    size_t mark_length;
} encodings[LETTERS] = {{"UTF-8", "", 0},    {"UTF-8", "\xEF\xBB\xBF", 3}, {"UTF-16LE", "", 0},
                        {"UTF-16BE", "", 0}, {"UTF-16LE", "\xFF\xFE", 2},  {"UTF-16BE", "\xFE\xFF", 2},
                        {"CP1252", "", 0}};

static const char *const line_breaks[BREAKS] = {"\n", "\r\n", "\r"};

static bool needs_quotes(text t, char separator) {
    for (size_t i = 0; i < t.len; i++)
        if (t.at[i] == separator || strchr("\"\r\n", t.at[i]))
            return true;
    return false;
}

static void write_cell(buf *to, text t, dialect d) {
    bool quotes = d.quote_all || needs_quotes(t, d.separator);
    if (quotes)
        buf_add_char(to, '"');
    for (size_t i = 0; i < t.len; i++) {
        if (t.at[i] == '"')
            buf_add_char(to, '"');
        if (t.at[i] == '\n')
            buf_add_z(to, line_breaks[d.breaks]);
        else
            buf_add_char(to, t.at[i]);
    }
    if (quotes)
        buf_add_char(to, '"');
}

static text convert(arena *a, text utf8, const char *encoding) {
    iconv_t way = iconv_open(encoding, "UTF-8");
    assert_true(way != (iconv_t)-1);
    size_t room = 4 * utf8.len + 4, left = room, in_left = utf8.len;
    char *made = arena_alloc(a, room), *to = made;
    char *from = arena_alloc(a, utf8.len + 1);
    memcpy(from, utf8.at, utf8.len);
    if (iconv(way, &from, &in_left, &to, &left) == (size_t)-1)
        fail_msg("a letter is not in %s", encoding);
    iconv_close(way);
    return (text){made, room - left};
}

text dialect_write(arena *a, const table *t, dialect d) {
    buf plain = {0};
    for (size_t i = 0; i < t->n; i++) {
        for (size_t c = 0; c < t->rows[i].n; c++) {
            if (c)
                buf_add_char(&plain, d.separator);
            write_cell(&plain, t->rows[i].cells[c], d);
        }
        if (i + 1 < t->n || !d.no_last_break)
            buf_add_z(&plain, line_breaks[d.breaks]);
    }
    text body = convert(a, buf_text(&plain), encodings[d.letters].name);
    buf_free(&plain);
    char *made = arena_alloc(a, body.len + 4);
    memcpy(made, encodings[d.letters].mark, encodings[d.letters].mark_length);
    memcpy(made + encodings[d.letters].mark_length, body.at, body.len);
    return (text){made, body.len + encodings[d.letters].mark_length};
}

text dialect_in_words(arena *a, dialect d) {
    static const char *const breaks[] = {"LF", "CRLF", "CR"};
    return arena_format(a, "%s, %s%s, %s%s",
                        d.separator == ','   ? "comma"
                        : d.separator == ';' ? "semicolon"
                                             : "tab",
                        encodings[d.letters].name, encodings[d.letters].mark_length ? " with mark" : "",
                        breaks[d.breaks], d.quote_all ? ", all quoted" : "");
}
