/* session_words.c: cutting a rule for sessions into weekdays, days, times and small words. */
#include "desk/session_words.h"

#include <string.h>

#include "base/number.h"

const char session_example[] =
    "write it like \"Tuesdays 18:30 to 20:30, 5 September to 14 November, not 24 October\"";

static const char *const months[] = {"January", "February", "March",     "April",   "May",      "June",
                                     "July",    "August",   "September", "October", "November", "December"};

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* The whole word or its first three letters or more: "Sept", "Tues". */
static bool abbreviates(text word, const char *whole) {
    size_t length = strlen(whole);
    return word.len >= 3 && word.len <= length &&
           text_equal_nocase(word, text_slice(text_of(whole), 0, word.len));
}

static bool read_name(text word, session_word *out) {
    text single =
        word.len > 4 && (word.at[word.len - 1] | 0x20) == 's' ? text_slice(word, 0, word.len - 1) : word;
    for (int i = 0; i < 7; i++) /* day 4 was a Monday */
        if (abbreviates(word, date_weekday_name(4 + i)) || abbreviates(single, date_weekday_name(4 + i))) {
            *out = (session_word){SESSION_WEEKDAY, i, word};
            return true;
        }
    for (int i = 0; i < 12; i++)
        if (abbreviates(word, months[i])) {
            *out = (session_word){SESSION_MONTH, i + 1, word};
            return true;
        }
    return false;
}

static bool read_small(text word, session_word *out) {
    static const struct {
        const char *word;
        session_word_kind kind;
    } small[] = {{"to", SESSION_TO},   {"until", SESSION_TO},   {"till", SESSION_TO},
                 {"not", SESSION_NOT}, {"except", SESSION_NOT}, {"and", SESSION_AND},
                 {"on", SESSION_AND},  {"from", SESSION_AND},   {"every", SESSION_AND}};
    for (size_t i = 0; i < sizeof small / sizeof small[0]; i++)
        if (text_equal_nocase(word, text_of(small[i].word))) {
            *out = (session_word){small[i].kind, 0, word};
            return true;
        }
    return false;
}

/* The name that a slip of the finger was meant to be, or NULL. */
static const char *meant(text word) {
    const char *best = NULL;
    unsigned least = 3;
    for (int i = 0; i < 19; i++) {
        const char *name = i < 7 ? date_weekday_name(4 + i) : months[i - 7];
        unsigned edits = text_edits(word, text_of(name));
        if (edits < least) {
            least = edits;
            best = name;
        }
    }
    return best;
}

static bool read_letters(arena *a, text word, session_word *out, err *e) {
    if (read_name(word, out) || read_small(word, out))
        return true;
    const char *shown = arena_format(a, "\"%.*s\"", TEXT_ARG(word)).at, *name = meant(word);
    return err_input(e, shown, name ? arena_format(a, "did you mean %s?", name).at : session_example,
                     "it is no weekday, month or other word of a rule");
}

/* "18:30", "2027-09-05" or "14"; a dash after a clock time is a "to". */
static bool read_digits(arena *a, text word, session_word *out, err *e) {
    date_day day;
    int64_t number;
    number_fault why;
    *out = (session_word){SESSION_NUMBER, 0, word};
    if (text_find(word, TEXT(":")) >= 0) {
        out->kind = SESSION_CLOCK;
        return date_read_clock(word, &out->number) ||
               err_input(e, arena_format(a, "\"%.*s\"", TEXT_ARG(word)).at, "write it like 18:30",
                         "it is no clock time");
    }
    if (text_find(word, TEXT("-")) >= 0) {
        out->kind = SESSION_DAY;
        bool ok = date_read(word, &day);
        out->number = ok ? day : 0;
        return ok || err_input(e, arena_format(a, "\"%.*s\"", TEXT_ARG(word)).at, "write it like 2027-09-05",
                               "no calendar has such a day");
    }
    bool ok = number_integer(word, 1, 2199, &number, &why);
    out->number = ok ? (int)number : 0;
    return ok || err_input(e, arena_format(a, "\"%.*s\"", TEXT_ARG(word)).at, session_example,
                           "it is no day of a month and no year");
}

/* Digits with ':' between, or a whole date; the dash of "18:30-20:30" ends the first. */
static size_t digits_end(text t, size_t from) {
    size_t end = from;
    bool clock = false;
    while (end < t.len && (is_digit(t.at[end]) || t.at[end] == ':' || (t.at[end] == '-' && !clock))) {
        clock = clock || t.at[end] == ':';
        end++;
    }
    while (end > from && t.at[end - 1] == '-')
        end--;
    return end;
}

static size_t word_end(text t, size_t from) {
    size_t end = from;
    if (is_digit(t.at[from]))
        return digits_end(t, from);
    while (end < t.len && is_letter(t.at[end]))
        end++;
    return end > from ? end : from + 1;
}

static bool read_word(arena *a, text word, session_word *out, err *e) {
    if (is_digit(word.at[0]))
        return read_digits(a, word, out, e);
    if (is_letter(word.at[0]))
        return read_letters(a, word, out, e);
    *out = (session_word){word.at[0] == '-' ? SESSION_TO : SESSION_AND, 0, word};
    if (word.at[0] == '-' || word.at[0] == ',' || word.at[0] == ';')
        return true;
    return err_input(e, "rule", session_example, "the sign \"%.*s\" stands for nothing in it",
                     TEXT_ARG(word));
}

/* En dashes, as people paste them, are dashes. */
static text plain_dashes(arena *a, text rule) {
    char *out = arena_array(a, char, rule.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < rule.len; i++) {
        bool dash = text_starts(text_slice(rule, i, rule.len), TEXT("\xE2\x80\x93"));
        out[n++] = dash ? '-' : rule.at[i];
        i += dash ? 2 : 0;
    }
    return (text){out, n};
}

bool session_words_read(arena *a, text rule, session_word **out, err *e) {
    text t = plain_dashes(a, text_trim(rule));
    size_t n = 0, cap = 0;
    *out = NULL;
    for (size_t at = 0; at < t.len;) {
        if (t.at[at] == ' ' || t.at[at] == '.') {
            at++;
            continue;
        }
        size_t end = word_end(t, at);
        arena_room(a, *out, n, cap, session_word);
        if (!read_word(a, text_slice(t, at, end), &(*out)[n++], e))
            return false;
        if (n == SESSION_MOST_WORDS)
            return err_input(e, "rule", "say it in several", "it has more than %d words", SESSION_MOST_WORDS);
        at = end;
    }
    arena_room(a, *out, n, cap, session_word);
    (*out)[n] = (session_word){SESSION_END, 0, TEXT("")};
    return true;
}
