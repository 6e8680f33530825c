#include "trade/lexicon.h"

#include <stdlib.h>
#include <string.h>

#include "trade/scan.h"

enum { MAX_WORDS = 64 };

typedef struct {
    const char *at;
    size_t len;
    bool follows; /* directly behind the word before, with one dash or blank between */
} line_word;

/* Words are runs of letters; a digit inside or at the edge of one ("m8x25", "t8", "a2") belongs to the same run. */
static size_t split_words(const char *line, size_t len, line_word words[MAX_WORDS]) {
    size_t n = 0, i = 0, last_end = 0;
    while (i < len && n < MAX_WORDS) {
        if (scan_is_edge(line[i])) {
            i++;
            continue;
        }
        size_t from = i;
        while (i < len &&
               (!scan_is_edge(line[i]) ||
                (line[i] == '.' && i + 1 < len && scan_is_digit(line[i + 1]) && scan_is_digit(line[i - 1]))))
            i++;
        words[n].at = line + from;
        words[n].len = i - from;
        words[n].follows = n > 0 && from == last_end + 1 && (line[last_end] == ' ' || line[last_end] == '-');
        last_end = i;
        n++;
    }
    return n;
}

static bool only_letters(const char *at, size_t len) {
    for (size_t i = 0; i < len; i++)
        if (!scan_is_letter(at[i]) || at[i] == '?')
            return false;
    return len > 0;
}

/* How many words of the line the phrase takes at words[0]; 0 when it does not fit. */
static size_t phrase_fits(text phrase, const line_word *words, size_t n) {
    size_t used = 0;
    text piece;
    while (text_next_piece(&phrase, ' ', &piece)) {
        if (used == n || (used > 0 && !words[used].follows) || words[used].len != piece.len ||
            memcmp(words[used].at, piece.at, piece.len) != 0)
            return 0;
        used++;
    }
    return used;
}

static const lexicon_phrase *find_exact(const line_word *words, size_t n, size_t *used) {
    const lexicon_phrase *best = NULL, *p;
    *used = 0;
    for (size_t i = 0; (p = lexicon_phrase_at(i)) != NULL; i++) {
        text rest = text_of(p->phrases), phrase;
        while (text_next_piece(&rest, '|', &phrase)) {
            size_t k = phrase_fits(phrase, words, n);
            if (k > *used) {
                *used = k;
                best = p;
            }
        }
    }
    return best;
}

/* A single word with a typing error. Short words are left alone: "nut" is one edit from "but". */
static const lexicon_phrase *find_misspelt(const line_word *w, text *meant) {
    if (w->len < 7 || !only_letters(w->at, w->len))
        return NULL;
    unsigned most = w->len >= 10 ? 2 : 1, least = most + 1;
    const lexicon_phrase *best = NULL, *p;
    for (size_t i = 0; (p = lexicon_phrase_at(i)) != NULL; i++) {
        text rest = text_of(p->phrases), phrase;
        while (!(p->sense & SAYS_NOT) && text_next_piece(&rest, '|', &phrase)) {
            if (phrase.len < 7 || text_find(phrase, TEXT(" ")) >= 0)
                continue;
            unsigned d = text_edits((text){w->at, w->len}, phrase);
            if (d >= least)
                continue;
            least = d;
            best = p;
            *meant = phrase;
        }
    }
    return best;
}

static void copy_cut(char *out, size_t size, const char *at, size_t len) {
    size_t n = len < size ? len : size - 1;
    memcpy(out, at, n);
    out[n] = 0;
}

static void note_misspelt(word_reading *out, const line_word *w, text meant) {
    copy_cut(out->misspelt, sizeof out->misspelt, w->at, w->len);
    copy_cut(out->meant, sizeof out->meant, meant.at, meant.len);
}

/* "screw" beside "set screw", "nut" beside "lock nut": the more telling kind wins, without a conflict. */
static bool kind_refines(fastener_kind old, fastener_kind new) {
    return (old == FASTENER_SCREW && (new == FASTENER_SET_SCREW || new == FASTENER_INSERT)) ||
           (old == FASTENER_ROD && new == FASTENER_INSERT);
}

static void apply_phrase(word_reading *out, const lexicon_phrase *p) {
    if (p->kind && out->kind && p->kind != out->kind) {
        if (kind_refines(out->kind, p->kind))
            out->kind = p->kind;
        else if (!kind_refines(p->kind, out->kind) && !(p->sense & SAYS_ONLY_IF))
            out->kind_conflict = true;
    } else if (p->kind) {
        out->sense = out->kind ? out->sense & (p->sense | ~(unsigned)SAYS_ONLY_IF) : out->sense | p->sense;
        out->kind = p->kind;
    }
    if (p->form && out->form && p->form != out->form)
        out->form_conflict = true;
    else if (p->form)
        out->form = p->form;
    /* an explicit drive wins over the weak "hex" of "hex ... socket" */
    if (p->drive && (!out->drive || out->drive == DRIVE_HEXAGON))
        out->drive = p->drive;
    if (p->material &&
        (!out->material || out->material == MATERIAL_STEEL || out->material == MATERIAL_STAINLESS))
        out->material = p->material;
    if (p->finish && !out->finish)
        out->finish = p->finish;
    out->sense |= p->sense & ~(unsigned)SAYS_ONLY_IF;
    out->not_fastener |= (p->sense & SAYS_NOT) != 0;
}

void lexicon_read(const char *line, size_t len, word_reading *out) {
    line_word words[MAX_WORDS];
    size_t n = split_words(line, len, words);
    memset(out, 0, sizeof *out);
    for (size_t i = 0; i < n;) {
        size_t used;
        const lexicon_phrase *p = find_exact(words + i, n - i, &used);
        text meant = {"", 0};
        if (!p && (p = find_misspelt(&words[i], &meant)) != NULL) {
            note_misspelt(out, &words[i], meant);
            used = 1;
        }
        if (p) {
            apply_phrase(out, p);
            out->known_words += (unsigned)used;
        } else if (only_letters(words[i].at, words[i].len)) {
            out->unknown_words++;
        }
        i += p ? used : 1;
    }
    if (out->drive == DRIVE_HEXAGON && (out->kind == FASTENER_SCREW || out->kind == FASTENER_SET_SCREW) &&
        out->form != FORM_HEX_HEAD && out->form != FORM_HEX_FLANGE_HEAD && out->form != FORM_UNKNOWN)
        out->drive = DRIVE_HEX_SOCKET; /* "M3 hex countersunk": a hexagon in such a head is a socket */
}

bool lexicon_form_fits(fastener_form said, fastener_form of_standard) {
    static const fastener_form allowed[][2] = {
        {FORM_COUNTERSUNK_HEAD, FORM_RAISED_COUNTERSUNK_HEAD},
        {FORM_CYLINDER_HEAD, FORM_LOW_CYLINDER_HEAD},
        {FORM_HEX_NUT, FORM_THIN_NUT},
        {FORM_HEX_NUT, FORM_LOCK_NUT},
        {FORM_HEX_NUT, FORM_THIN_LOCK_NUT},
        {FORM_HEX_NUT, FORM_ALL_METAL_LOCK_NUT},
        {FORM_HEX_NUT, FORM_LONG_NUT},
        {FORM_LOCK_NUT, FORM_THIN_LOCK_NUT},
        {FORM_PLAIN_WASHER, FORM_CHAMFERED_WASHER},
        {FORM_PLAIN_WASHER, FORM_SMALL_WASHER},
        {FORM_PLAIN_WASHER, FORM_LARGE_WASHER},
        {FORM_PLAIN_WASHER, FORM_EXTRA_LARGE_WASHER},
    };
    if (said == of_standard)
        return true;
    for (size_t i = 0; i < sizeof allowed / sizeof *allowed; i++)
        if (allowed[i][0] == said && allowed[i][1] == of_standard)
            return true;
    return false;
}
