/* draft_packs.c: packs and units that stand in names, remarks and headings, as words. */
#include <string.h>

#include "kit/draft_inside.h"

enum { MOST_IN_PACK = 10000 };

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static const char PACK_WORDS[] =
    "|pack|packs|pk|pkt|pkts|packet|packets|package|packages|packung|paket|pakete|paquet|"
    "paquete|pacco|pak|forpackning|";
static const char HOLDER_WORDS[] = "|bag|bags|box|boxes|set|sets|beutel|sachet|bolsa|caja|reel|";
static const char PIECE_WORDS[] = "|pcs|pc|pieces|piece|stk|stuck|stucke|";
static const char COUNT_WORDS[] = "|pcs|pc|pieces|piece|stk|stuck|st|er|count|ct|";
static const char OF_WORDS[] = "|of|with|mit|med|a|de|di|con|van|met|";

static bool is_word(text word, const char *list) {
    char wanted[40];
    if (word.len == 0 || word.len > sizeof wanted - 3)
        return false;
    wanted[0] = '|';
    memcpy(wanted + 1, word.at, word.len);
    wanted[word.len + 1] = '|';
    wanted[word.len + 2] = '\0';
    return strstr(list, wanted) != NULL;
}

/* A size of packs: 2 to 10,000; 0 for anything else. */
static int64_t pack_size(text word) {
    int64_t n = 0;
    if (!word.len || word.len > 5)
        return 0;
    for (size_t i = 0; i < word.len; i++) {
        if (!is_digit(word.at[i]))
            return 0;
        n = n * 10 + (word.at[i] - '0');
    }
    return n >= 2 && n <= MOST_IN_PACK ? n : 0;
}

/* "100pcs" to 100 and "pcs". */
static int64_t split_size(text word, text *after) {
    size_t n = 0;
    while (n < word.len && is_digit(word.at[n]))
        n++;
    *after = text_slice(word, n, word.len);
    return pack_size(text_slice(word, 0, n));
}

enum { MOST_WORDS = 64 };

static size_t words_of(text plain, text list[MOST_WORDS]) {
    size_t n = 0;
    text word;
    while (n < MOST_WORDS && text_next_piece(&plain, ' ', &word))
        list[n++] = word;
    return n;
}

/* The size that words i.. name: "100 pack", "100 pcs pack", "100pcs", "pack of 100"; 0 for none. */
static int64_t size_at(const text *w, size_t n, size_t i) {
    text none = {"", 0};
    text next = i + 1 < n ? w[i + 1] : none, third = i + 2 < n ? w[i + 2] : none, after;
    int64_t size = pack_size(w[i]);
    if (size && (is_word(next, PACK_WORDS) || is_word(next, PIECE_WORDS)))
        return size;
    if (size && is_word(next, COUNT_WORDS) && is_word(third, PACK_WORDS))
        return size;
    size = split_size(w[i], &after);
    if (size && after.len && (is_word(after, PACK_WORDS) || is_word(after, PIECE_WORDS)))
        return size;
    if (size && is_word(after, COUNT_WORDS) && is_word(next, PACK_WORDS))
        return size;
    if ((is_word(w[i], PACK_WORDS) || is_word(w[i], HOLDER_WORDS)) && is_word(next, OF_WORDS))
        return pack_size(third);
    return 0;
}

int64_t draft_pack_in_name(arena *a, text name) {
    text w[MOST_WORDS];
    size_t n = words_of(draft_plain(a, name), w);
    for (size_t i = 0; i < n; i++) {
        int64_t size = size_at(w, n, i);
        if (size)
            return i > 0 && text_is(w[i - 1], "x") ? -1 : size;
    }
    return 0;
}

bool draft_packs_of(arena *a, text t, int64_t *size) {
    text w[MOST_WORDS];
    size_t n = words_of(draft_plain(a, t), w);
    bool said = n == 3 || (n == 4 && is_word(w[3], PIECE_WORDS));
    if (!said || !(is_word(w[0], PACK_WORDS) || is_word(w[0], HOLDER_WORDS)) || !is_word(w[1], OF_WORDS))
        return false;
    *size = pack_size(w[2]);
    return *size > 0;
}

static bool is_measure(draft_unit unit) {
    return unit != DRAFT_PIECES && unit != DRAFT_PACKS;
}

bool draft_unit_in_remark(arena *a, text remark, draft_unit *out) {
    text w[MOST_WORDS];
    size_t n = words_of(draft_plain(a, remark), w);
    for (size_t i = 0; i + 1 < n; i++) {
        bool unit = is_word(w[i], "|unit|units|einheit|einheiten|enhet|unite|unites|unidad|unita|eenheid|");
        bool quantity = is_word(w[i], "|quantity|qty|menge|quantite|cantidad|quantita|aantal|antal|");
        bool in = is_word(w[i + 1], "|in|en|i|is|are|");
        if ((!unit && !quantity) || (quantity && !in))
            continue;
        size_t at = i + 1 + in;
        if (at < n && draft_unit_read(a, w[at], out) && is_measure(*out))
            return true;
    }
    return false;
}

bool draft_unit_in_heading(arena *a, text heading, draft_unit *out) {
    for (size_t i = 0; i < heading.len; i++) {
        if (heading.at[i] != '(' && heading.at[i] != '[')
            continue;
        size_t end = i + 1;
        while (end < heading.len && heading.at[end] != ')' && heading.at[end] != ']')
            end++;
        return draft_unit_read(a, text_slice(heading, i + 1, end), out);
    }
    text w[MOST_WORDS];
    size_t n = words_of(draft_plain(a, heading), w);
    return n >= 3 && is_word(w[n - 2], "|in|en|i|") && draft_unit_read(a, w[n - 1], out);
}
