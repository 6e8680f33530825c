#include "base/date.h"

#include <stdio.h>

enum { DAYS_PER_ERA = 146097, DAYS_TO_1970 = 719468, LAST_YEAR = 2199 };

/* Years begin in March here, so that the leap day is the last of its year. */
date_day date_from_civil(date_civil c) {
    int year = c.month <= 2 ? c.year - 1 : c.year;
    int era = (year >= 0 ? year : year - 399) / 400;
    int year_of_era = year - era * 400;
    int day_of_year = (153 * (c.month + (c.month > 2 ? -3 : 9)) + 2) / 5 + c.day - 1;
    int day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * DAYS_PER_ERA + day_of_era - DAYS_TO_1970;
}

date_civil date_to_civil(date_day d) {
    int shifted = d + DAYS_TO_1970;
    int era = (shifted >= 0 ? shifted : shifted - (DAYS_PER_ERA - 1)) / DAYS_PER_ERA;
    int day_of_era = shifted - era * DAYS_PER_ERA;
    int year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    int day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    int march_month = (5 * day_of_year + 2) / 153;
    int month = march_month < 10 ? march_month + 3 : march_month - 9;
    return (date_civil){year_of_era + era * 400 + (month <= 2), month,
                        day_of_year - (153 * march_month + 2) / 5 + 1};
}

int date_weekday(date_day d) {
    int w = (d + 3) % 7; /* 1970-01-01 was a Thursday */
    return w < 0 ? w + 7 : w;
}

const char *date_weekday_name(date_day d) {
    static const char *const names[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                        "Friday", "Saturday", "Sunday"};
    return names[date_weekday(d)];
}

/* `count` digits at the start of *t, which moves past them. */
static bool take_digits(text *t, int count, int *out) {
    int value = 0;
    if (t->len < (size_t)count)
        return false;
    for (int i = 0; i < count; i++) {
        if (t->at[i] < '0' || t->at[i] > '9')
            return false;
        value = value * 10 + (t->at[i] - '0');
    }
    t->at += count;
    t->len -= (size_t)count;
    *out = value;
    return true;
}

static bool take_char(text *t, char c) {
    if (!t->len || t->at[0] != c)
        return false;
    t->at++;
    t->len--;
    return true;
}

static bool take_date(text *t, date_day *out) {
    date_civil c;
    if (!take_digits(t, 4, &c.year) || !take_char(t, '-') || !take_digits(t, 2, &c.month) ||
        !take_char(t, '-') || !take_digits(t, 2, &c.day))
        return false;
    if (c.year < 1970 || c.year > LAST_YEAR || c.month < 1 || c.month > 12 || c.day < 1)
        return false;
    date_day d = date_from_civil(c);
    date_civil again = date_to_civil(d);
    if (again.month != c.month || again.day != c.day)
        return false;
    *out = d;
    return true;
}

static bool take_clock(text *t, int *minutes) {
    int hour, minute;
    if (!take_digits(t, 2, &hour) || !take_char(t, ':') || !take_digits(t, 2, &minute))
        return false;
    if (hour > 24 || minute > 59 || (hour == 24 && minute))
        return false;
    *minutes = hour * 60 + minute;
    return true;
}

bool date_read(text t, date_day *out) {
    return take_date(&t, out) && t.len == 0;
}

bool date_read_clock(text t, int *minutes) {
    return take_clock(&t, minutes) && t.len == 0;
}

bool date_read_moment(text t, date_moment *out) {
    date_day d;
    int minutes;
    if (!take_date(&t, &d) || !(take_char(&t, ' ') || take_char(&t, 'T')) || !take_clock(&t, &minutes) ||
        t.len)
        return false;
    *out = (date_moment)d * MINUTES_PER_DAY + minutes;
    return true;
}

void date_print(date_day d, char out[11]) {
    date_civil c = date_to_civil(d);
    snprintf(out, 11, "%04u-%02u-%02u", (unsigned)c.year % 10000, (unsigned)c.month % 100,
             (unsigned)c.day % 100);
}

void date_print_clock(int minutes, char out[6]) {
    snprintf(out, 6, "%02u:%02u", (unsigned)minutes / 60 % 100, (unsigned)minutes % 60);
}

date_day date_of_moment(date_moment m) {
    return (date_day)(m >= 0 ? m / MINUTES_PER_DAY : (m - MINUTES_PER_DAY + 1) / MINUTES_PER_DAY);
}

void date_print_moment(date_moment m, char out[17]) {
    date_day d = date_of_moment(m);
    date_print(d, out);
    out[10] = ' ';
    date_print_clock((int)(m - (date_moment)d * MINUTES_PER_DAY), out + 11);
}

void date_print_duration(int64_t minutes, char out[32]) {
    long long hours = minutes / 60, rest = minutes % 60;
    if (!hours)
        snprintf(out, 32, "%lld min", rest);
    else if (!rest)
        snprintf(out, 32, "%lld h", hours);
    else
        snprintf(out, 32, "%lld h %lld min", hours, rest);
}
