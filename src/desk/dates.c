/* dates.c: sessions and who comes to them, changed without files. */
#include "base/sys.h"
#include "desk/session_rule.h"
#include "desk/sheet_row.h"

enum { USUAL_OPENING_MIN = 10, USUAL_CLOSING_MIN = 10, LAST_SESSION = 9999 };

static text number_text(const desk *d, int64_t n) {
    return arena_format(d->memory, "%lld", (long long)n);
}

static text clock_text(const desk *d, int minutes) {
    char clock[6];
    date_print_clock(minutes, clock);
    return arena_text(d->memory, text_of(clock));
}

/* ---- sessions ---- */

static int64_t last_number(const kit_workshop *w) {
    int64_t last = 0;
    for (kit_index i = 0; w && w->sessions && i < w->n_sessions; i++)
        last = w->sessions[i].number > last ? w->sessions[i].number : last;
    return last;
}

static bool write_session(desk *d, const store_entry *stamp, int64_t number, date_day day,
                          const session_rule *rule, int64_t opening_min, int64_t closing_min, err *e) {
    sheet_row r;
    bool there;
    char date[11];
    date_print(day, date);
    if (!sheet_row_open(d, "sessions", number_text(d, number), &r, &there, e))
        return false;
    sheet_row_put(&r, "session", number_text(d, number));
    sheet_row_put(&r, "date", arena_text(d->memory, text_of(date)));
    sheet_row_put(&r, "start", clock_text(d, rule->start));
    sheet_row_put(&r, "end", clock_text(d, rule->end));
    sheet_row_put(&r, "opening_min", number_text(d, opening_min));
    sheet_row_put(&r, "closing_min", number_text(d, closing_min));
    return sheet_row_write(&r, stamp, e);
}

bool desk_add_sessions(desk *d, text rule, int64_t opening_min, int64_t closing_min, desk_who who,
                       desk_reasons *mind, int64_t *first, uint32_t *n, err *e) {
    session_rule dates;
    store_entry stamp;
    if (!act_check_text(rule, "rule", e) ||
        !session_rule_read(d->memory, rule, date_of_moment(sys_now()), &dates, e) ||
        !act_begin(d, who, &stamp, e))
        return false;
    const kit_workshop *w = d->workshop;
    const kit_session *like = w && w->n_sessions ? &w->sessions[w->n_sessions - 1] : NULL;
    if (opening_min < 0)
        opening_min = like ? like->opening_min : USUAL_OPENING_MIN;
    if (closing_min < 0)
        closing_min = like ? like->closing_min : USUAL_CLOSING_MIN;
    *first = last_number(w) + 1;
    *n = dates.n;
    bool ok = w && *first + dates.n <= LAST_SESSION;
    if (!w)
        err_input(e, "sessions", "add somebody first: kitbench crew FILE add NAME", "there is no crew yet");
    else if (!ok)
        err_input(e, "sessions", "take old ones out", "session numbers end at %d", LAST_SESSION);
    for (uint32_t i = 0; ok && i < dates.n; i++)
        ok = write_session(d, &stamp, *first + i, dates.days[i], &dates, opening_min, closing_min, e);
    return sheet_rows_end(d, ok, mind, e);
}

static bool find_session(const desk *d, int64_t number, kit_index *out, err *e) {
    for (kit_index i = 0; d->workshop && i < d->workshop->n_sessions; i++)
        if (d->workshop->sessions[i].number == number) {
            *out = i;
            return true;
        }
    return err_input(e, arena_format(d->memory, "session %lld", (long long)number).at,
                     "kitbench sessions shows their numbers", "there is none of that number");
}

static text attendance_key(const desk *d, kit_index session, kit_index person) {
    return arena_format(d->memory, "%lld;%.*s", (long long)d->workshop->sessions[session].number,
                        TEXT_ARG(d->workshop->crew[person].number));
}

bool desk_remove_session(desk *d, int64_t session, desk_who who, desk_reasons *mind, err *e) {
    store_entry stamp;
    kit_index index = KIT_NONE;
    if (!act_begin(d, who, &stamp, e))
        return false;
    bool ok = find_session(d, session, &index, e);
    for (kit_index i = 0; ok && i < d->workshop->n_attendance; i++) {
        const kit_attendance *a = &d->workshop->attendance[i];
        if (a->session == index)
            ok = sheet_row_remove(d, "attendance", attendance_key(d, index, a->person), &stamp, e);
    }
    return sheet_rows_end(d, ok && sheet_row_remove(d, "sessions", number_text(d, session), &stamp, e), mind,
                          e);
}

static bool write_cancelled(desk *d, const store_entry *stamp, int64_t session, bool cancelled, err *e) {
    sheet_row r;
    bool there;
    kit_index index;
    if (!find_session(d, session, &index, e) ||
        !sheet_row_open(d, "sessions", number_text(d, session), &r, &there, e))
        return false;
    sheet_row_put(&r, "cancelled", cancelled ? TEXT("yes") : TEXT(""));
    return sheet_row_write(&r, stamp, e);
}

bool desk_cancel_session(desk *d, int64_t session, bool cancelled, desk_who who, desk_reasons *mind, err *e) {
    store_entry stamp;
    return act_begin(d, who, &stamp, e) &&
           sheet_rows_end(d, write_cancelled(d, &stamp, session, cancelled, e), mind, e);
}

/* ---- attendance ---- */

static bool write_attendance(desk *d, const store_entry *stamp, kit_index session, kit_index person,
                             bool comes, int from, int until, err *e) {
    text key = attendance_key(d, session, person);
    sheet_row r;
    bool there;
    if (!sheet_row_open(d, "attendance", key, &r, &there, e))
        return false;
    if (comes && from < 0 && until < 0)
        return !there || sheet_row_remove(d, "attendance", key, stamp, e);
    sheet_row_put(&r, "session", number_text(d, d->workshop->sessions[session].number));
    sheet_row_put(&r, "person", d->workshop->crew[person].number);
    sheet_row_put(&r, "comes", comes ? TEXT("yes") : TEXT("no"));
    sheet_row_put(&r, "from", from < 0 ? TEXT("") : clock_text(d, from));
    sheet_row_put(&r, "until", until < 0 ? TEXT("") : clock_text(d, until));
    return sheet_row_write(&r, stamp, e);
}

bool desk_attend(desk *d, int64_t session, text person, bool comes, int from, int until, desk_who who,
                 desk_reasons *mind, err *e) {
    store_entry stamp;
    kit_index at = KIT_NONE, whom = KIT_NONE;
    if (!act_begin(d, who, &stamp, e))
        return false;
    bool ok = find_session(d, session, &at, e);
    if (ok)
        whom = kit_find_person(d->workshop, text_trim(person));
    if (ok && whom == KIT_NONE)
        ok = err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(person)).at,
                       "kitbench crew shows who is in it", "nobody in the crew is called that");
    return sheet_rows_end(d, ok && write_attendance(d, &stamp, at, whom, comes, from, until, e), mind, e);
}
