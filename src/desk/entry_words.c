/* entry_words.c: cutting a line of quick entry into words, numbers and quoted texts. */
#include "desk/entry_words.h"

#include <ctype.h>

static bool is_word_byte(char c) {
    return isalnum((unsigned char)c) || (unsigned char)c >= 0x80 || c == '-' || c == '.' || c == '_' ||
           c == '/';
}

static text after(text t, size_t n) {
    return text_slice(t, n, t.len);
}

bool at_end(text rest) {
    return text_trim(rest).len == 0;
}

bool take_char(text *rest, char c) {
    text t = text_trim(*rest);
    if (!t.len || t.at[0] != c)
        return false;
    *rest = after(t, 1);
    return true;
}

bool take_any_word(text *rest, text *word) {
    text t = text_trim(*rest);
    size_t n = 0;
    while (n < t.len && is_word_byte(t.at[n]))
        n++;
    if (!n)
        return false;
    *word = text_slice(t, 0, n);
    *rest = after(t, n);
    return true;
}

bool take_word(text *rest, const char *word) {
    text there, copy = *rest;
    if (!take_any_word(&copy, &there) || !text_equal_nocase(there, text_of(word)))
        return false;
    *rest = copy;
    return true;
}

bool take_quoted(text *rest, text *inside) {
    text t = text_trim(*rest);
    if (t.len < 2 || t.at[0] != '"')
        return false;
    ptrdiff_t end = text_find(after(t, 1), TEXT("\""));
    if (end < 0)
        return false;
    *inside = text_slice(t, 1, 1 + (size_t)end);
    *rest = after(t, (size_t)end + 2);
    return true;
}

bool take_prefix(text *rest, text prefix) {
    text t = text_trim(*rest);
    if (t.len < prefix.len || !text_equal_nocase(text_slice(t, 0, prefix.len), prefix))
        return false;
    if (t.len > prefix.len && is_word_byte(t.at[prefix.len]))
        return false;
    *rest = after(t, prefix.len);
    return true;
}
