/* draft_quantity.c: how many of what, as lists write it: "12", "12x", "1,2 kg", "1'000 pcs", "2 packs of 50".
 *
 * The rule is that a wrong reading is worse than none. Whatever could mean two things ("1.000", "3-14", "2 x 50", "ca. 5")
 * is not understood, and says why.
 */
#include <string.h>

#include "kit/draft_inside.h"

enum { THOUSAND = 1000, MOST_DIGITS = 9 };

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* Length of a mark that only ever parts thousands: no-break, narrow no-break and thin space, apostrophes. */
static size_t group_mark(text t) {
    static const char *const marks[] = {"\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89", "'", "\xE2\x80\x99"};
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++)
        if (text_starts(t, text_of(marks[i])))
            return strlen(marks[i]);
    return 0;
}

/* The number at the start of a cell, taken apart: runs of digits and the marks between them. */
typedef struct {
    int n_runs;
    text run[8];
    char mark[8]; /* mark[i] stands before run[i]: '.', ',' or ' ' for a group mark */
    size_t length;
} written;

static text take_run(text t, size_t *at) {
    size_t from = *at;
    while (*at < t.len && is_digit(t.at[*at]))
        ++*at;
    return text_slice(t, from, *at);
}

/* False when there are more runs than any number has. */
static bool take_apart(text t, written *w) {
    *w = (written){0};
    size_t at = 0;
    w->run[w->n_runs++] = take_run(t, &at);
    for (;;) {
        text rest = text_slice(t, at, t.len);
        size_t wide = group_mark(rest);
        bool point = rest.len && (rest.at[0] == '.' || rest.at[0] == ',');
        size_t skip = point ? 1 : wide;
        if (!skip || at + skip >= t.len || !is_digit(t.at[at + skip]))
            break;
        if (w->n_runs == 8)
            return false;
        w->mark[w->n_runs] = point ? rest.at[0] : ' ';
        at += skip;
        w->run[w->n_runs++] = take_run(t, &at);
    }
    w->length = at;
    return true;
}

static int count_marks(const written *w, char mark) {
    int n = 0;
    for (int i = 1; i < w->n_runs; i++)
        n += w->mark[i] == mark;
    return n;
}

/* Runs 1 to before `end` have three digits each and run 0 one to three without a zero in front. */
static bool are_thousands(const written *w, int end) {
    if (w->run[0].len < 1 || w->run[0].len > 3 || w->run[0].at[0] == '0')
        return false;
    for (int i = 1; i < end; i++)
        if (w->run[i].len != 3)
            return false;
    return true;
}

/* Which mark of the number is its decimal mark: '.', ',', 0 for none, '?' when it cannot be told from the cell alone. */
static char decimal_mark(const written *w) {
    int points = count_marks(w, '.'), commas = count_marks(w, ',');
    char last = w->n_runs > 1 ? w->mark[w->n_runs - 1] : 0;
    if (!points && !commas)
        return 0;
    if (points + commas > 1 && (!points || !commas))
        return 0; /* 1.000.000 */
    if (last == ' ')
        return '!';
    if (points + commas > 1 || count_marks(w, ' '))
        return count_marks(w, last) == 1 ? last : '!'; /* 1.234,5 and 1 234,5 */
    bool open = w->n_runs == 2 && w->run[1].len == 3 && are_thousands(w, 2);
    return open ? '?' : last;
}

void draft_mark_vote(text cell, draft_mark_votes *votes) {
    written w;
    cell = text_trim(cell);
    if (!cell.len || !(is_digit(cell.at[0]) || cell.at[0] == '.' || cell.at[0] == ',') ||
        !take_apart(cell, &w))
        return;
    char mark = decimal_mark(&w);
    bool grouped = !mark && w.n_runs > 2 && w.mark[1] != ' ' && are_thousands(&w, w.n_runs);
    votes->points += mark == '.' || (grouped && w.mark[1] == ',');
    votes->commas += mark == ',' || (grouped && w.mark[1] == '.');
}

static draft_quantity refuse(arena *a, const char *format, ...) PRINTF_LIKE(2, 3);
static draft_quantity refuse(arena *a, const char *format, ...) {
    va_list list;
    va_start(list, format);
    draft_quantity q = {.why_not = arena_format_list(a, format, list)};
    va_end(list);
    return q;
}

/* What is shown of a cell that is not understood. */
static text shown(arena *a, text cell) {
    enum { SHOWN = 40 };
    size_t end = cell.len < SHOWN ? cell.len : SHOWN;
    while (end < cell.len && end > 0 && ((unsigned char)cell.at[end] & 0xC0) == 0x80)
        end--;
    return arena_format(a, "\"%.*s%s\"", (int)end, cell.at, end < cell.len ? "…" : "");
}

/* The digits of the number on *amount in thousandths; NULL, or why not. */
static const char *value_of(const written *w, char mark, int64_t *amount) {
    bool fraction = mark == '.' || mark == ',';
    int whole_runs = fraction ? w->n_runs - 1 : w->n_runs;
    if (whole_runs > 1 && !are_thousands(w, whole_runs))
        return "its digits do not stand in threes";
    int64_t value = 0;
    size_t digits = 0;
    for (int i = 0; i < whole_runs; i++)
        for (size_t d = 0; d < w->run[i].len; d++, digits++) {
            if (digits >= MOST_DIGITS)
                return "it is too large";
            value = value * 10 + (w->run[i].at[d] - '0');
        }
    value *= THOUSAND;
    if (fraction) {
        text after = w->run[w->n_runs - 1];
        int64_t unit = THOUSAND / 10;
        for (size_t d = 0; d < after.len; d++, unit /= 10) {
            if (!unit && after.at[d] != '0')
                return "it has more than three digits after the decimal mark";
            value += unit * (after.at[d] - '0');
        }
    }
    *amount = value;
    return NULL;
}

/* Reads the number; NULL, or why not. */
static const char *read_number(arena *a, const written *w, draft_mark mark, int64_t *amount) {
    char own = decimal_mark(w);
    if (own == '!')
        return "its marks contradict each other";
    char list = (char)(mark == DRAFT_POINT ? '.' : mark == DRAFT_COMMA ? ',' : 0);
    if (own == '?') {
        if (!list)
            return arena_format(a, "it may mean %.*s or %.*s%.*s; say which with --decimal",
                                TEXT_ARG(w->run[0]), TEXT_ARG(w->run[0]), TEXT_ARG(w->run[1]))
                .at;
        own = (char)(w->mark[1] == list ? list : 0);
    } else if (list && (own == '.' || own == ',') && own != list) {
        return "the rest of the list writes decimals with another mark";
    } else if (list && !own && w->n_runs > 1 && w->mark[1] == list) {
        return "the rest of the list writes decimals with this mark";
    }
    return value_of(w, own, amount);
}

/* What follows the number: nothing, a unit, "packs of 50". */
static bool read_unit_after(arena *a, text rest, draft_quantity *q) {
    rest = text_trim(rest);
    if (!rest.len)
        return true;
    q->unit_said = true;
    if (text_is(rest, "×") || text_equal_nocase(rest, TEXT("x"))) {
        q->unit = DRAFT_PIECES;
        return true;
    }
    if (draft_packs_of(a, rest, &q->pack_of)) {
        q->unit = DRAFT_PACKS;
        return true;
    }
    return draft_unit_read(a, rest, &q->unit);
}

draft_quantity draft_quantity_read(arena *a, text cell, draft_mark mark) {
    cell = text_trim(cell);
    if (!cell.len)
        return refuse(a, "no quantity is given");
    text number = cell;
    size_t times = text_starts(number, TEXT("×")) ? 2 : text_starts(number, TEXT("x")) ? 1 : 0;
    if (times)
        number = text_trim(text_slice(number, times, number.len));
    bool begins = number.len && (is_digit(number.at[0]) || ((number.at[0] == '.' || number.at[0] == ',') &&
                                                            number.len > 1 && is_digit(number.at[1])));
    written w;
    if (!begins || !take_apart(number, &w))
        return refuse(a, "the quantity %s is no number", shown(a, cell).at);
    draft_quantity q = {0};
    const char *why = read_number(a, &w, mark, &q.amount);
    if (why)
        return refuse(a, "the quantity %s is not clear: %s", shown(a, cell).at, why);
    text rest = text_slice(number, w.length, number.len);
    if (!read_unit_after(a, rest, &q) || (times && q.unit_said))
        return refuse(a, "the quantity %s is not clear: after the number stands %s", shown(a, cell).at,
                      shown(a, text_trim(rest)).at);
    q.known = true;
    return q;
}

bool draft_is_link(text cell) {
    return text_starts(cell, TEXT("http://")) || text_starts(cell, TEXT("https://")) ||
           text_starts(cell, TEXT("www."));
}

bool draft_is_figure(text cell) {
    static const char *const money[] = {"$", "€", "£", "¥", "EUR", "USD", "GBP", "SEK", "CHF", "kr", "%"};
    cell = text_trim(cell);
    for (size_t i = 0; i < sizeof money / sizeof money[0]; i++) {
        text word = text_of(money[i]);
        if (text_starts(cell, word))
            cell = text_trim(text_slice(cell, word.len, cell.len));
        if (text_ends(cell, word))
            cell = text_trim(text_slice(cell, 0, cell.len - word.len));
    }
    bool digit = false;
    for (size_t i = 0; i < cell.len; i++) {
        size_t wide = group_mark(text_slice(cell, i, cell.len));
        if (wide) {
            i += wide - 1;
            continue;
        }
        if (!is_digit(cell.at[i]) && !strchr(".,- ", cell.at[i]))
            return false;
        digit = digit || is_digit(cell.at[i]);
    }
    return digit;
}
