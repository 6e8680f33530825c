/* session_rule.c: dates of sessions in plain words. */
#include "desk/session_rule.h"

#include <stdlib.h>

#include "desk/session_words.h"

enum { MOST_DAYS = 200, LAST_YEAR = 2199 };

typedef struct {
    arena *memory;
    err *e;
    date_day today;
    const session_word *at;
    bool weekday[7];
    uint32_t n_weekdays;
    int clock[2];
    uint32_t n_clocks;
    date_day *days, *left_out;
    uint32_t n_days, n_left_out;
    size_t days_cap, left_out_cap;
    bool span; /* the second day was written after a "to" */
} reader;

static const char *shown(const reader *r, date_day day) {
    char printed[11];
    date_print(day, printed);
    return arena_format(r->memory, "%s, a %s", printed, date_weekday_name(day)).at;
}

static date_day read_civil(int year, int month, int day) {
    date_civil c = {year, month, day};
    date_day d = date_from_civil(c);
    date_civil back = date_to_civil(d);
    return back.month == month && back.day == day ? d : INT32_MAX;
}

/* The first day of that name that is not before another; a 29 February may be years away. */
static date_day first_from(date_day from, int month, int day) {
    int year = date_to_civil(from).year;
    for (int i = 0; i < 9 && year + i <= LAST_YEAR; i++) {
        date_day d = read_civil(year + i, month, day);
        if (d != INT32_MAX && d >= from)
            return d;
    }
    return INT32_MAX;
}

/* "5 September", "September 5", either with a year after it. */
static bool read_day_of_month(reader *r, date_day from, date_day *out) {
    const session_word *first = r->at++, *second = r->at;
    bool pair = (first->kind == SESSION_NUMBER && second->kind == SESSION_MONTH) ||
                (first->kind == SESSION_MONTH && second->kind == SESSION_NUMBER);
    const char *place = arena_format(r->memory, "\"%.*s\"", TEXT_ARG(first->as_written)).at;
    if (!pair)
        return err_input(r->e, place, session_example, "%s",
                         first->kind == SESSION_NUMBER ? "no month follows this number"
                                                       : "no day stands beside this month");
    int month = first->kind == SESSION_MONTH ? first->number : second->number;
    int day = first->kind == SESSION_MONTH ? second->number : first->number;
    r->at++;
    if (r->at->kind == SESSION_NUMBER && r->at->number >= 1970) {
        *out = read_civil(r->at->number, month, day);
        r->at++;
    } else {
        *out = first_from(from, month, day);
    }
    return *out != INT32_MAX ||
           err_input(r->e,
                     arena_format(r->memory, "\"%.*s %.*s\"", TEXT_ARG(first->as_written),
                                  TEXT_ARG(second->as_written))
                         .at,
                     "look into a calendar", "there is no such day");
}

static bool read_day(reader *r, date_day from, date_day *out) {
    if (r->at->kind != SESSION_DAY)
        return read_day_of_month(r, from, out);
    *out = r->at->number;
    r->at++;
    return true;
}

static bool add_day(reader *r, bool left_out) {
    date_day day = INT32_MAX, from = r->span ? r->days[0] : r->today;
    if (!read_day(r, from, &day))
        return false;
    if (left_out) {
        arena_room(r->memory, r->left_out, r->n_left_out, r->left_out_cap, date_day);
        r->left_out[r->n_left_out++] = day;
    } else {
        arena_room(r->memory, r->days, r->n_days, r->days_cap, date_day);
        r->days[r->n_days++] = day;
    }
    return true;
}

static bool add_clock(reader *r) {
    if (r->n_clocks == 2)
        return err_input(r->e, arena_format(r->memory, "\"%.*s\"", TEXT_ARG(r->at->as_written)).at,
                         "say sessions of other times in another rule", "it is a third clock time");
    r->clock[r->n_clocks++] = r->at->number;
    r->at++;
    return true;
}

static bool read_parts(reader *r) {
    bool left_out = false, to = false;
    for (; r->at->kind != SESSION_END; to = r->at[-1].kind == SESSION_TO) {
        switch (r->at->kind) {
        case SESSION_WEEKDAY:
            if (!left_out && !r->weekday[r->at->number]) {
                r->weekday[r->at->number] = true;
                r->n_weekdays++;
            }
            r->at++;
            break;
        case SESSION_CLOCK:
            if (!add_clock(r))
                return false;
            break;
        case SESSION_DAY:
        case SESSION_MONTH:
        case SESSION_NUMBER:
            r->span = r->span || (to && !left_out && r->n_days == 1);
            if (!add_day(r, left_out))
                return false;
            break;
        case SESSION_NOT:
            left_out = true;
            r->at++;
            break;
        case SESSION_TO:
        case SESSION_AND:
        case SESSION_END:
            r->at++;
            break;
        }
    }
    return true;
}

static bool check_parts(const reader *r) {
    if (r->n_clocks < 2 || r->clock[1] <= r->clock[0])
        return err_input(r->e, "rule", "write it like 18:30 to 20:30", "%s",
                         r->n_clocks < 2 ? "it does not say from when to when" : "it ends before it begins");
    if (!r->n_days)
        return err_input(r->e, "rule", session_example, "it names no day");
    if (r->span && r->n_days > 2)
        return err_input(r->e, "rule", "say single days in another rule",
                         "it has a first and a last day, and others besides");
    if (r->span && !r->n_weekdays)
        return err_input(r->e, "rule", "name them: Tuesdays, or Mondays and Thursdays",
                         "it does not say on which weekdays");
    if (r->span && r->days[1] < r->days[0])
        return err_input(r->e, "rule", "exchange the two", "its last day, %s, is before its first, %s",
                         shown(r, r->days[1]), shown(r, r->days[0]));
    if (!r->span && r->n_days == 1 && r->n_weekdays > 1)
        return err_input(r->e, "rule", "write the last day, too: 5 September to 14 November",
                         "several weekdays, but only one day");
    return true;
}

static bool put_day(reader *r, session_rule *out, size_t *cap, date_day day) {
    if (out->n == MOST_DAYS)
        return err_input(r->e, "rule", "say it in several", "these are more than %d sessions", MOST_DAYS);
    arena_room(r->memory, out->days, out->n, *cap, date_day);
    out->days[out->n++] = day;
    return true;
}

static bool list_span(reader *r, session_rule *out) {
    size_t cap = 0;
    for (date_day d = r->days[0]; d <= r->days[1]; d++)
        if (r->weekday[date_weekday(d)] && !put_day(r, out, &cap, d))
            return false;
    return true;
}

static bool list_single(reader *r, session_rule *out) {
    size_t cap = 0;
    for (uint32_t i = 0; i < r->n_days; i++) {
        if (r->n_weekdays && !r->weekday[date_weekday(r->days[i])])
            return err_input(r->e, shown(r, r->days[i]),
                             r->n_days == 1
                                 ? "correct it; or write the last day, too: 5 September to 14 November"
                                 : "correct one of the two",
                             "it is on another weekday than the rule says");
        if (!put_day(r, out, &cap, r->days[i]))
            return false;
    }
    return true;
}

static bool take_out(reader *r, session_rule *out) {
    for (uint32_t i = 0; i < r->n_left_out; i++) {
        uint32_t kept = 0;
        for (uint32_t k = 0; k < out->n; k++)
            if (out->days[k] != r->left_out[i])
                out->days[kept++] = out->days[k];
        if (kept == out->n)
            return err_input(r->e, shown(r, r->left_out[i]), "correct it, or leave it out",
                             "it is left out, but there would be no session on it");
        out->n = kept;
    }
    return out->n || err_input(r->e, "rule", "make the days reach further", "no session is left");
}

static int by_day(const void *a, const void *b) {
    date_day x = *(const date_day *)a, y = *(const date_day *)b;
    return (x > y) - (x < y);
}

bool session_rule_read(arena *a, text rule, date_day today, session_rule *out, err *e) {
    session_word *words;
    *out = (session_rule){0};
    if (!session_words_read(a, rule, &words, e))
        return false;
    reader r = {.memory = a, .e = e, .today = today, .at = words};
    if (!read_parts(&r) || !check_parts(&r) || !(r.span ? list_span(&r, out) : list_single(&r, out)) ||
        !take_out(&r, out))
        return false;
    qsort(out->days, out->n, sizeof *out->days, by_day);
    for (uint32_t i = 1; i < out->n; i++)
        if (out->days[i] == out->days[i - 1])
            return err_input(e, shown(&r, out->days[i]), "name it once", "it is named twice");
    out->start = r.clock[0];
    out->end = r.clock[1];
    return true;
}
