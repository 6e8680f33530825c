/* search.c: parts by the words a person types. */
#include "kit/search.h"

#include <stdlib.h>

#include "kit/kit.h"
#include "trade/trade.h"

enum { WORDS_MOST = 12 };

/* One word of the question. */
typedef struct {
    text lower; /* as typed, lower case */
    text bare;  /* letters and digits alone */
    designation meaning,
        meaning_of_two; /* of the word, and of it with the next one; kind, form and so on; 0: none */
} search_word;

/* What a part shows. */
typedef struct {
    text *lower; /* name, designation, number, maker's numbers */
    uint32_t n;
    designation is; /* what it is; all 0 when that is not known */
    bool has_is;    /* it was looked up */
} shown_part;

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_letter(char c) {
    return (lower(c) >= 'a' && lower(c) <= 'z') || (unsigned char)c >= 0x80;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static text lower_text(arena *a, text t, bool bare) {
    char *z = arena_array(a, char, t.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < t.len; i++)
        if (!bare || is_letter(t.at[i]) || is_digit(t.at[i]))
            z[n++] = lower(t.at[i]);
    return (text){z, n};
}

/* Both sides of a border belong to one word or number. */
static bool joined(char a, char b) {
    return (is_letter(a) && is_letter(b)) || (is_digit(a) && is_digit(b));
}

/* `word` as a word of its own in `t`. "8.8" is not in "18.8", "m8" not in "m80". */
static bool holds_whole(text t, text word) {
    for (size_t from = 0; from + word.len <= t.len;) {
        ptrdiff_t at = text_find(text_slice(t, from, t.len), word);
        if (at < 0)
            return false;
        size_t begin = from + (size_t)at, end = begin + word.len;
        if ((begin == 0 || !joined(t.at[begin - 1], word.at[0])) &&
            (end == t.len || !joined(word.at[word.len - 1], t.at[end])))
            return true;
        from = begin + 1;
    }
    return false;
}

static bool holds_slip(arena *a, text t, text word) {
    unsigned slips = word.len >= 7 ? 2 : word.len >= 4 ? 1 : 0;
    text rest = t, one;
    if (!slips)
        return false;
    if (text_edits(lower_text(a, t, true), word) <= slips)
        return true;
    while (text_next_piece(&rest, ' ', &one))
        if (text_edits(lower_text(a, one, true), word) <= slips)
            return true;
    return false;
}

/* Everything the words say holds for the part, and they say something. */
static bool means(const designation *said, const designation *is) {
    bool stainless =
        said->material == MATERIAL_STAINLESS &&
        (is->material == MATERIAL_A1 || is->material == MATERIAL_A2 || is->material == MATERIAL_A4);
    if (!is->kind || (!said->kind && !said->form && !said->drive && !said->material && !said->thread_um))
        return false;
    return (!said->kind || said->kind == is->kind) && (!said->form || said->form == is->form) &&
           (!said->drive || said->drive == is->drive) &&
           (!said->material || said->material == is->material || stainless) &&
           (!said->thread_um || said->thread_um == is->thread_um) &&
           (!said->length_um || said->length_um == is->length_um) &&
           (!said->grade || said->grade == is->grade);
}

/* Without what divides it: "lf12" is in "LF-12/100", "iso4762" in "ISO 4762". Only where a number stands, or the sizes
 * of a designation would run into each other. */
static bool holds_inside(arena *a, const shown_part *p, uint32_t i, const search_word *w) {
    enum { DESIGNATION_AT = 1 };
    if (text_find(p->lower[i], w->lower) >= 0)
        return true;
    bool divided = i > DESIGNATION_AT || (i == DESIGNATION_AT && is_letter(w->bare.at[0]));
    return divided && text_find(lower_text(a, p->lower[i], true), w->bare) >= 0;
}

static designation meaning_of(arena *a, text said) {
    proposal p;
    designation_propose(a, &said, 1, &p);
    return p.is_fastener ? p.stated : (designation){0};
}

/* A word alone seldom names a piece ("allen", "M5"); beside "screw" it says what it says, but not that it is a screw. */
static designation meaning_of_word(arena *a, text word) {
    designation d = meaning_of(a, word);
    if (d.kind || d.thread_um)
        return d;
    d = meaning_of(a, arena_format(a, "%.*s screw", TEXT_ARG(word)));
    d.kind = FASTENER_UNKNOWN;
    d.length_um = 0;
    return d;
}

static bool has_digit(text t) {
    for (size_t i = 0; i < t.len; i++)
        if (is_digit(t.at[i]))
            return true;
    return false;
}

static shown_part show_part(arena *a, const kit_part *p) {
    shown_part s = {.lower = arena_array(a, text, 3 + p->makers_numbers.n)};
    s.lower[s.n++] = lower_text(a, p->name, false);
    s.lower[s.n++] = lower_text(a, p->designation, false);
    s.lower[s.n++] = lower_text(a, p->number, false);
    for (uint32_t i = 0; i < p->makers_numbers.n; i++)
        s.lower[s.n++] = lower_text(a, p->makers_numbers.list[i], false);
    return s;
}

static kit_found find_word(arena *a, const kit_part *part, shown_part *p, const search_word *w, bool slips) {
    kit_found best = KIT_FOUND_NOT;
    for (uint32_t i = 0; i < p->n && best > KIT_FOUND_WHOLE; i++)
        if (holds_whole(p->lower[i], w->lower))
            best = KIT_FOUND_WHOLE;
    if (best > KIT_FOUND_MEANING && !p->has_is) { /* few get so far, and reading a name costs the most */
        p->has_is = true;
        if (!designation_read(part->designation, &p->is, NULL))
            p->is = meaning_of(a, part->name);
    }
    if (best > KIT_FOUND_MEANING && (means(&w->meaning, &p->is) || means(&w->meaning_of_two, &p->is)))
        best = KIT_FOUND_MEANING;
    for (uint32_t i = 0; i < p->n && best > KIT_FOUND_INSIDE; i++)
        if (holds_inside(a, p, i, w))
            best = KIT_FOUND_INSIDE;
    for (uint32_t i = 0; slips && i < p->n && best > KIT_FOUND_SLIP; i++)
        if (holds_slip(a, p->lower[i], w->bare))
            best = KIT_FOUND_SLIP;
    return best;
}

/* The second of two words that mean something together ("penny washer") need not be found by itself. */
static uint32_t read_words(arena *a, text words, search_word list[WORDS_MOST]) {
    uint32_t n = 0;
    text rest = words, one, before = {"", 0};
    while (n < WORDS_MOST && text_next_piece(&rest, ' ', &one)) {
        text bare = lower_text(a, one, true);
        if (!bare.len)
            continue;
        list[n] = (search_word){.lower = lower_text(a, text_trim(one), false), .bare = bare};
        list[n].meaning = meaning_of_word(a, one);
        if (n > 0 && !has_digit(before) && !has_digit(one)) {
            designation both = meaning_of(a, arena_format(a, "%.*s %.*s", TEXT_ARG(before), TEXT_ARG(one)));
            list[n].meaning_of_two = both;
            if (!list[n - 1].meaning_of_two.kind)
                list[n - 1].meaning_of_two = both;
        }
        before = one;
        n++;
    }
    return n;
}

static int by_fit(const void *x, const void *y) {
    const kit_hit *a = x, *b = y;
    if (a->not_found != b->not_found)
        return a->not_found < b->not_found ? -1 : 1;
    if (a->effort != b->effort)
        return a->effort < b->effort ? -1 : 1;
    return (a->part > b->part) - (a->part < b->part);
}

/* How much a hit says: all words by themselves or in other words, all words somewhere, with a slip, some words. */
static unsigned class_of(const kit_hit *h) {
    return h->not_found                    ? 2 + h->not_found
           : h->worst <= KIT_FOUND_MEANING ? 0
           : h->worst == KIT_FOUND_INSIDE  ? 1
                                           : 2;
}

/* All parts, those that answer to too few words left out. */
static uint32_t find_all(arena *a, const kit *k, const search_word *list, uint32_t n_words, bool slips,
                         kit_hit *hits) {
    static const uint32_t effort[] = {0, 1, 2, 5, 0};
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_parts; i++) {
        shown_part shown = show_part(a, &k->parts[i]);
        kit_hit h = {.part = i, .worst = KIT_FOUND_WHOLE};
        for (uint32_t w = 0; w < n_words; w++) {
            kit_found found = find_word(a, &k->parts[i], &shown, &list[w], slips);
            h.not_found += found == KIT_FOUND_NOT;
            h.effort += effort[found];
            h.worst = found != KIT_FOUND_NOT && found > h.worst ? found : h.worst;
        }
        if (h.not_found < n_words && 2 * h.not_found <= n_words)
            hits[n++] = h;
    }
    return n;
}

uint32_t kit_search_parts(arena *a, const kit *k, text words, kit_hit **out) {
    search_word list[WORDS_MOST];
    uint32_t n_words = read_words(a, words, list), n = 0, kept = 0;
    kit_hit *hits = arena_array(a, kit_hit, k->n_parts);
    unsigned best = UINT32_MAX;
    *out = hits;
    for (int slips = 0; slips < 2 && n_words && best > 1; slips++) {
        n = find_all(a, k, list, n_words, slips != 0, hits);
        for (uint32_t i = 0; i < n; i++)
            best = class_of(&hits[i]) < best ? class_of(&hits[i]) : best;
    }
    for (uint32_t i = 0; i < n; i++)
        if (class_of(&hits[i]) == best)
            hits[kept++] = hits[i];
    if (kept)
        qsort(hits, kept, sizeof *hits, by_fit);
    return kept;
}
