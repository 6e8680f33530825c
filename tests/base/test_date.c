/* Dates: every day of the range against the C library's calendar. */
#include <stdio.h>
#include <time.h>

#include "base/date.h"
#include "support/check.h"

enum { LAST_DAY = 84005 }; /* 2199-12-31 */

static void every_day_is_the_c_librarys(void **state) {
    (void)state;
    for (date_day d = 0; d <= LAST_DAY; d++) {
        time_t seconds = (time_t)d * 86400;
        struct tm theirs;
        assert_non_null(gmtime_r(&seconds, &theirs));
        date_civil c = date_to_civil(d);
        if (c.year != theirs.tm_year + 1900 || c.month != theirs.tm_mon + 1 || c.day != theirs.tm_mday)
            fail_msg("day %d is %d-%d-%d", d, c.year, c.month, c.day);
        assert_int_equal(date_from_civil(c), d);
        assert_int_equal(timegm(&theirs) / 86400, d);
        assert_int_equal(date_weekday(d), (theirs.tm_wday + 6) % 7);
        char printed[11], again[11];
        date_print(d, printed);
        strftime(again, sizeof again, "%Y-%m-%d", &theirs);
        assert_string_equal(printed, again);
        date_day back = -1;
        assert_true(date_read(text_of(printed), &back));
        assert_int_equal(back, d);
    }
}

/* All year-month-day combinations, also those no calendar has. */
static void only_real_days_are_read(void **state) {
    (void)state;
    for (int year = 1968; year <= 2202; year++)
        for (int month = 0; month <= 13; month++)
            for (int day = 0; day <= 32; day++) {
                struct tm t = {.tm_year = year - 1900, .tm_mon = month - 1, .tm_mday = day};
                (void)timegm(&t); /* brings what is out of range into it */
                bool real = t.tm_year == year - 1900 && t.tm_mon == month - 1 && t.tm_mday == day &&
                            year >= 1970 && year <= 2199;
                char written[32];
                snprintf(written, sizeof written, "%04d-%02d-%02d", year, month, day);
                date_day d;
                if (date_read(text_of(written), &d) != real)
                    fail_msg("%s", written);
            }
}

static void other_forms_are_refused(void **state) {
    (void)state;
    static const char *const days[] = {
        "",           "2027",       "2027-3-14",  "27-03-14",    "2027-03-14 ", " 2027-03-14",
        "2027/03/14", "14.03.2027", "2027-03-1a", "2027-03-145", "+027-03-14",  "-027-03-14"};
    static const char *const clocks[] = {"",      "18",    "18:3",  "8:30",     "18.30",
                                         "24:01", "25:00", "18:60", "18:30:00", "-1:30"};
    static const char *const moments[] = {"2027-03-14", "2027-03-14_18:30", "2027-03-14  18:30",
                                          "2027-03-14 18:30Z", "2027-03-14 1:30"};
    date_day d;
    int minutes;
    date_moment m;
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++)
        assert_false(date_read(text_of(days[i]), &d));
    for (size_t i = 0; i < sizeof clocks / sizeof clocks[0]; i++)
        assert_false(date_read_clock(text_of(clocks[i]), &minutes));
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; i++)
        assert_false(date_read_moment(text_of(moments[i]), &m));
}

static void every_minute_of_a_day_reads_back(void **state) {
    (void)state;
    for (int minute = 0; minute <= MINUTES_PER_DAY; minute++) {
        char printed[6];
        date_print_clock(minute, printed);
        int back = -1;
        assert_true(date_read_clock(text_of(printed), &back));
        assert_int_equal(back, minute);
        char moment[17];
        date_moment when = (date_moment)20000 * MINUTES_PER_DAY + minute, again = 0;
        date_print_moment(when, moment);
        assert_true(date_read_moment(text_of(moment), &again));
        assert_int_equal(again, when);
        moment[10] = 'T';
        assert_true(date_read_moment(text_of(moment), &again));
        assert_int_equal(again, when);
        assert_int_equal(date_of_moment(when), 20000 + minute / MINUTES_PER_DAY);
    }
    assert_int_equal(date_of_moment(-1), -1);
    assert_int_equal(date_of_moment(-MINUTES_PER_DAY), -1);
    assert_int_equal(date_of_moment(-MINUTES_PER_DAY - 1), -2);
}

static void weekdays_and_durations_have_words(void **state) {
    (void)state;
    date_day d;
    assert_true(date_read(TEXT("2027-03-14"), &d));
    assert_string_equal(date_weekday_name(d), "Sunday");
    static const struct {
        int64_t minutes;
        const char *words;
    } cases[] = {{0, "0 min"},       {1, "1 min"}, {59, "59 min"},       {60, "1 h"},
                 {85, "1 h 25 min"}, {180, "3 h"}, {6001, "100 h 1 min"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char words[32];
        date_print_duration(cases[i].minutes, words);
        assert_string_equal(words, cases[i].words);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_day_is_the_c_librarys),
        cmocka_unit_test(only_real_days_are_read),
        cmocka_unit_test(other_forms_are_refused),
        cmocka_unit_test(every_minute_of_a_day_reads_back),
        cmocka_unit_test(weekdays_and_durations_have_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
