#include "base/ical_out.h"

#include <inttypes.h>

enum { OCTETS_IN_LINE = 75 };

/* One content line, folded: a line that goes on begins with a space, which counts. */
static void put_line(buf *out, text line) {
    size_t room = OCTETS_IN_LINE;
    for (size_t i = 0; i < line.len;) {
        size_t n = 1; /* octets of the character here */
        while (i + n < line.len && ((unsigned char)line.at[i + n] & 0xC0) == 0x80)
            n++;
        if (n > room) {
            buf_add_z(out, "\r\n ");
            room = OCTETS_IN_LINE - 1;
        }
        buf_add(out, (text){line.at + i, n});
        room -= n;
        i += n;
    }
    buf_add_z(out, "\r\n");
}

static void put_text(buf *out, const char *name, text value) {
    buf line = {0};
    buf_add_z(&line, name);
    buf_add_char(&line, ':');
    for (size_t i = 0; i < value.len; i++) {
        char c = value.at[i];
        if (c == '\n') {
            buf_add_z(&line, "\\n");
            continue;
        }
        if ((unsigned char)c < ' ' && c != '\t') /* no control character may stand in a text */
            continue;
        if (c == '\\' || c == ';' || c == ',')
            buf_add_char(&line, '\\');
        buf_add_char(&line, c);
    }
    put_line(out, buf_text(&line));
    buf_free(&line);
}

static void put_day(buf *out, const char *name, date_day day) {
    date_civil c = date_to_civil(day);
    buf_addf(out, "%s;VALUE=DATE:%04d%02d%02d\r\n", name, c.year, c.month, c.day);
}

static void put_moment(buf *out, const char *name, date_moment at, const char *zone) {
    date_civil c = date_to_civil(date_of_moment(at));
    int minute = (int)(at % MINUTES_PER_DAY);
    buf_addf(out, "%s:%04d%02d%02dT%02d%02d00%s\r\n", name, c.year, c.month, c.day, minute / 60, minute % 60,
             zone);
}

void ical_begin(buf *out, text name) {
    buf_add_z(out,
              "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Kitbench//Kitbench//EN\r\nCALSCALE:GREGORIAN\r\n");
    put_text(out, "X-WR-CALNAME", name); /* not in the RFC; common practice */
}

/* DTSTAMP must be UTC; a build knows its own clock only, so that clock's figures stand there. They are compared with
 * each other only, beside SEQUENCE. */
void ical_put_event(buf *out, const ical_event *event) {
    static const char *const words[] = {"CONFIRMED", "TENTATIVE", "CANCELLED"};
    buf_add_z(out, "BEGIN:VEVENT\r\n");
    put_text(out, "UID", event->uid);
    put_moment(out, "DTSTAMP", event->stamp, "Z");
    buf_addf(out, "SEQUENCE:%" PRId64 "\r\n", event->sequence);
    if (event->whole_day) {
        put_day(out, "DTSTART", date_of_moment(event->from));
        put_day(out, "DTEND", date_of_moment(event->from) + 1);
    } else {
        put_moment(out, "DTSTART", event->from, "");
        put_moment(out, "DTEND", event->to, "");
    }
    if (event->every_days > 0)
        buf_addf(out, "RRULE:FREQ=DAILY;INTERVAL=%" PRId64 "\r\n", event->every_days);
    put_text(out, "SUMMARY", event->summary);
    if (event->description.len)
        put_text(out, "DESCRIPTION", event->description);
    buf_addf(out, "STATUS:%s\r\n", words[event->status]);
    if (event->whole_day) /* a reminder keeps nobody from other things */
        buf_add_z(out, "TRANSP:TRANSPARENT\r\n");
    buf_add_z(out, "END:VEVENT\r\n");
}

void ical_end(buf *out) {
    buf_add_z(out, "END:VCALENDAR\r\n");
}
