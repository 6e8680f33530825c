/* wrap.c: text in lines of a width, for terminals and plain text files. */
#include "base/wrap.h"

#include "base/utf8.h"

static void add_blanks(buf *out, size_t n) {
    for (size_t i = 0; i < n; i++)
        buf_add_char(out, ' ');
}

void wrap_add(buf *out, text t, size_t width, size_t indent) {
    size_t column = 0;
    while (column < t.len && t.at[column] == ' ')
        column++;
    add_blanks(out, column);
    t = text_slice(t, column, t.len);
    bool first = true; /* on its line: no blank before it */
    text word;
    while (text_next_piece(&t, ' ', &word)) {
        size_t wide = utf8_width(word);
        if (!first && column + 1 + wide > width) {
            buf_add_char(out, '\n');
            add_blanks(out, indent);
            column = indent;
            first = true;
        }
        if (!first)
            buf_add_char(out, ' ');
        column += wide + !first;
        buf_add(out, word);
        first = false;
    }
    buf_add_char(out, '\n');
}

void wrap_pad(buf *out, text t, size_t columns) {
    size_t wide = utf8_width(t);
    if (wide > columns && columns) {
        t = utf8_clip(t, columns - 1);
        buf_add(out, t);
        buf_add_z(out, "\xE2\x80\xA6");
        wide = utf8_width(t) + 1;
    } else {
        buf_add(out, t);
    }
    if (wide < columns)
        add_blanks(out, columns - wide);
}
