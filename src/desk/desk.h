/* desk.h: the use cases: load, compute, save. What the faces (command line, pages) can do to a build stands here.
 *
 * A desk is one build file opened for one piece of work: the kit, the workshop and the state of the stock as they
 * stand at that moment. Everything it gives lives in its arena. A call that changes the file does so in one
 * transaction and brings `record` and `stock` up to date.
 *
 * Failures: ERR_INPUT when the caller can mend it (place = what was given, remedy = what would be right), ERR_RUN when
 * the file cannot be used here and now.
 */
#ifndef DESK_DESK_H
#define DESK_DESK_H

#include "base/buf.h"
#include "kit/kit.h"
#include "plan/plan.h"
#include "stock/stock.h"
#include "store/store.h"

typedef enum { DESK_READ, DESK_WRITE } desk_mode;

typedef struct desk {
    arena *memory;
    store *file;
    const char *path;
    const kit *kit;
    const kit_workshop *workshop; /* NULL: the build has none */
    stock_record record;
    const stock *stock;
    int64_t last_entry;   /* of the journal */
    date_moment changed;  /* when it was written */
    plan_told *announced; /* what the crew was told last */
    uint32_t n_announced;
    text *proved; /* people whose word is proved for the next act (roles.h) */
    uint32_t n_proved;
    size_t proved_cap;
} desk;

/* Begins a build file of a kit and, when not NULL, a workshop, with the kit's pictures. Every fault of them goes into `f`
 * (then e->kind stays ERR_NONE). */
MUST_USE bool desk_new(arena *a, const char *path, const char *kit_folder, const char *workshop_folder,
                       const char *device, faults *f, err *e);

/* `command` is what somebody else who wants to write meanwhile is told. Close with desk_close, also after a failure
 * (*out is NULL then, which is allowed). */
MUST_USE bool desk_open(arena *a, const char *path, desk_mode mode, const char *command, desk **out, err *e);
void desk_close(desk *d);

/* Who does it: `by` is a name or a number of the crew (NULL: not said); in a build without a crew, any name. */
typedef struct {
    const char *by;
    const char *device;
    const char *once; /* a name of the device's own for the act, so that it is written once; NULL: none */
} desk_who;

#include "desk/roles.h" /* who may say what */
#include "desk/work.h"  /* the running build */

#include "desk/crew.h"     /* people, dates, attendance */
#include "desk/standing.h" /* where it stands */
#include "desk/together.h" /* several pairs */

/* The name to show for a person's number: the name, or the number when it was forgotten. In the desk's arena. */
text desk_person_name(const desk *d, text number);

/* A picture of the kit by the name that its tables use (kit_step.picture), PNG or JPEG; empty when there is none. */
MUST_USE bool desk_picture(const desk *d, text name, text *bytes, err *e);

/* Name of this machine, for desk_who. In the arena. */
const char *desk_device(arena *a);

/* --- receiving ------------------------------------------------------------------------------------------------- */

/* mass_g -1: not weighed; damage NULL: none seen. */
MUST_USE bool desk_receive(desk *d, text box, int64_t mass_g, const char *damage, desk_who who,
                           kit_index *out, err *e);

/* --- the stock check -------------------------------------------------------------------------------------------- */

/* A box or bag by its number; "3" finds "box 3" when nothing is called "3". The failure names what there is. */
MUST_USE bool desk_find_container(const desk *d, text number, kit_index *out, err *e);

/* Finds a row by container and line ("B3", "7") or part ("B3", "F-012"), or by a part number or maker's number alone
 * (line empty): refused with the rows to choose from when there are several. */
MUST_USE bool desk_find_row(const desk *d, text container_or_number, text line, kit_index *out, err *e);

typedef struct {
    bool find;           /* something on no row: container and what; otherwise a row's count */
    kit_index row;       /* of a count */
    kit_index container; /* of a find */
    text what;
    int64_t usable, damaged;
    bool in_transit;
    text note;
    int64_t *millivolts; /* of batteries, one for each measured piece */
    uint32_t n_millivolts;
    text photo; /* PNG or JPEG of what was found, or empty; kept without place, time and device */
    text by;    /* empty: the one of desk_who */
} desk_count;

/* Writes all of them as one act. A find that names a part of the kit (by any of its numbers) is booked to it. */
MUST_USE bool desk_record_counts(desk *d, const desk_count *counts, size_t n, desk_who who, err *e);

/* Reads quick entry in the words of the printed sheet (docs/quick-entry.md): `source` names it in the faults, all of
 * which are added to `f`. `w` may be NULL: then
 * any name may follow "by". The counts come back in the arena `a`; nothing is written. */
MUST_USE bool desk_read_entry(arena *a, const kit *k, const kit_workshop *w, text entry, text source,
                              faults *f, desk_count **out, size_t *n);

/* --- chasing ---------------------------------------------------------------------------------------------------- */

MUST_USE bool desk_promise(desk *d, text part, int64_t quantity, date_day day, bool instead, desk_who who,
                           kit_index *out, err *e);

/* Books pieces that came; `placed` says into which rows, in the arena. */
MUST_USE bool desk_arrive(desk *d, text part, int64_t usable, int64_t damaged, desk_who who, kit_index *out,
                          stock_share **placed, uint32_t *n_placed, err *e);

/* A box or bag came late: all that lacks on its rows, nested ones included, was in it. Refused when nothing lacks. */
MUST_USE bool desk_arrive_whole(desk *d, text container, desk_who who, kit_index *out, stock_share **placed,
                                uint32_t *n_placed, err *e);

/* The report as plain text (80 columns) and as CSV. The PDF is the paper room's (paper_report). */
void desk_report_text(const desk *d, date_day today, buf *out);
void desk_report_csv(const desk *d, buf *out);

/* --- planning --------------------------------------------------------------------------------------------------- */

/* What a plan of the build is made from: `how` with kit, workshop, pieces and promises filled in, in the desk's arena. */
void desk_plan_input(const desk *d, const plan_input *how, plan_input *out);

/* Plans the build: with the pieces counted (those of rows nobody counted yet are taken as the packing list says) and
 * those promised for a day. What is done is left out, a step that was begun takes the minutes that are left of it, and
 * nothing is planned before now, unless `how` says from when. `how` gives from, limits, cancel and progress; the rest of
 * it is filled here. */
MUST_USE bool desk_plan(const desk *d, const plan_input *how, plan **out, err *e);

/* The state as one HTML page without scripts. `p` may be NULL. No names of people are in it. */
void desk_state_page(const desk *d, const plan *p, date_moment now, buf *out);

/* --- dates for other programs ------------------------------------------------------------------------------------- */

/* Sessions (with the steps that `p` puts there), promised arrivals, top-ups of batteries and care afterwards as
 * iCalendar. Every event keeps its UID in later calendars of the same build, so that a program that reads them again
 * updates and does not double. Tentative: what is only promised or planned. `p` may be NULL. `n` gets the number of
 * events. Names of people are not in it. */
MUST_USE bool desk_calendar(const desk *d, const plan *p, buf *out, uint32_t *n, err *e);

/* Writes down that the crew was told this plan: its sessions with a date. Plans made from then on keep to it (plan/announced.h). `n`
 * gets how many steps. */
MUST_USE bool desk_announce(desk *d, const plan *p, desk_who who, uint32_t *n, err *e);

/* --- the journal ------------------------------------------------------------------------------------------------ */

/* Undoes one entry, or with 0 the last act that still stands. An entry of the running build is undone with its whole act,
 * and only when nothing was built on it since; a sign-off only by an adult, with a reason. `told` gets what was undone, a line for each entry. */
MUST_USE bool desk_undo(desk *d, int64_t entry, const char *reason, desk_who who, text **told,
                        uint32_t *n_told, err *e);

/* An entry in words: "B3 row 7: 11 usable, 1 damaged". In the desk's arena. */
text desk_tell_entry(const desk *d, const store_entry *n);

MUST_USE bool desk_forget(desk *d, text person, desk_who who, text *number, err *e);
MUST_USE bool desk_copy(desk *d, const char *out_path, err *e);

/* All that was put into the build as JSON (docs/export.md), without codes and devices. */
MUST_USE bool desk_export(desk *d, buf *out, err *e);

/* Makes the build file `path` from an export (`source` names it in failures) and looks whether it can be used; nothing is
 * left behind when it cannot. */
MUST_USE bool desk_restore(const char *path, const char *source, text json, err *e);

#endif
