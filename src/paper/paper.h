/* paper.h: the sheets that hang on the wall, lie in the tray and go to the maker.
 *
 * Every function here composes one kind of sheet and gives the whole PDF as bytes; writing a file is the caller's
 * business (sys_write_file), so that never half a file lies on the disk. A sheet is composed section by section (a
 * box, a job card): each section is laid out twice, first to count its pages, then to draw them, and is forgotten;
 * memory does not grow with the number of pages, apart from the PDF itself.
 *
 * The same input gives the same bytes: the only fonts are those inside the executable, the system's fonts and locale
 * are never asked, and the file's creation date is the `as_of` of the setup. Texts may be in any script; a character
 * that the fonts do not have is drawn as a box with its code point and named in the notes.
 *
 * Units inside the room are points (1/72 inch), y downwards. Not for several threads with one arena; otherwise no
 * shared state.
 */
#ifndef PAPER_PAPER_H
#define PAPER_PAPER_H

#include "base/buf.h"
#include "base/date.h"
#include "base/err.h"
#include "kit/kit.h"
#include "plan/plan.h"
#include "stock/stock.h"

typedef enum { PAPER_A4, PAPER_LETTER } paper_size;

/* "a4" or "letter", case does not count; err names what there is. */
MUST_USE bool paper_size_read(text t, paper_size *out, err *e);

/* No moment: the footer does not speak of one and the creation date is 1970-01-01. */
#define PAPER_NO_MOMENT ((date_moment)-1)

/* Gives the bytes of a picture that the kit names; false when there is none. The bytes live as long as the call that
 * asked for them. */
typedef bool (*paper_find_picture)(void *context, text name, text *bytes);

typedef struct {
    paper_size size;
    double
        printed_mm; /* what the printed 100 mm ruler measured; 0: not measured. Sheets are drawn so much larger. */
    date_moment as_of;               /* when what is printed was true: a build file's last change */
    paper_find_picture find_picture; /* may be NULL: no pictures */
    void *context;                   /* given to find_picture */
} paper_setup;

/* What the one who prints should know: pictures that cannot be drawn, characters without a glyph. Not failures; the
 * sheets are right all the same. Lives in the arena. */
typedef struct {
    text *list;
    size_t n, cap;
    int pages; /* that were drawn */
} paper_notes;

/* Check sheets: each box on sheets of its own, its rows by bag in the order of the packing list. */
typedef struct {
    const kit_index *boxes; /* containers of kind box */
    uint32_t n_boxes;       /* 0: all boxes */
    int copies;             /* of each box's sheets, for several pairs; 1..20 */
} paper_check_choice;

MUST_USE bool paper_check_sheets(arena *a, const paper_setup *setup, const kit *k,
                                 const paper_check_choice *choice, buf *pdf, paper_notes *notes, err *e);

/* Job cards: one for each step, in the order given. */
typedef struct {
    const kit_index *steps;
    uint32_t n_steps; /* 0: all steps in build order */
} paper_card_choice;

MUST_USE bool paper_job_cards(arena *a, const paper_setup *setup, const kit *k,
                              const paper_card_choice *choice, buf *pdf, paper_notes *notes, err *e);

/* The missing-parts report: to the maker what is missing, damaged, extra and not on the list, with the kit's and the
 * maker's numbers, box, bag label and row; on sheets of their own for the carrier what was damaged on the way. A
 * complete stock gives a report that says so. `from` is who reports; empty: not said. */
MUST_USE bool paper_report(arena *a, const paper_setup *setup, const kit *k, const stock *found, text from,
                           buf *pdf, paper_notes *notes, err *e);

/* Tonight's run sheet: who does what, when and where in one session, drawn as a lane for each person and listed by
 * time, with tools, protective equipment, cautions and tests. `session` is an index into plan.sessions; a session
 * without work gives a sheet that says so. */
MUST_USE bool paper_run_sheet(arena *a, const paper_setup *setup, const plan *p, uint32_t session, buf *pdf,
                              paper_notes *notes, err *e);

/* Sheets that need no more than a kit. A kit without what the sheet is about is refused. */
typedef enum {
    PAPER_TOOL_SHEET, /* tools and protective equipment to have, by kind */
    PAPER_HAZARD_TABLE, /* step, hazard, who, control, supervision: input for the leader's own risk assessment */
    PAPER_EMERGENCY_CARD, /* blanks for address and first aider, and what to do first */
    PAPER_BATTERY_CARD,   /* care, limits of the label, lines for readings */
    PAPER_UNIT_TAGS,      /* one for each sub-assembly, to tie to it while it is half built */
    PAPER_RELEASE_LIST,   /* hold points, tests, what was left loose, to sign */
    PAPER_CLOSING_SHEET,  /* the end of a session: tools out and back */
    PAPER_PACKING_LISTS   /* for the maker: by box and bag, with the mass each must have */
} paper_kit_sheet;

MUST_USE bool paper_of_kit(arena *a, const paper_setup *setup, paper_kit_sheet which, const kit *k, buf *pdf,
                           paper_notes *notes, err *e);

/* Labels for boxes and bags, or for the sorter's compartments (parts with a designation), each with its number, what it
 * is, a QR code and the four characters of kit/codes.h. Lengths in millimetres on the paper. */
typedef enum { PAPER_BAG_LABELS, PAPER_SORTER_LABELS } paper_label_kind;

typedef struct {
    int columns, rows;
    double width_mm, height_mm; /* of one label */
    double left_mm, top_mm;     /* of the first one's corner, from the paper's */
    double gap_x_mm, gap_y_mm;  /* between labels */
    int first;                  /* place of the first on a sheet that was begun, from 1, row by row */
    text address;               /* of the pages: the QR code then leads there; empty: it says the number */
} paper_label_form;

/* Three columns of eight. */
paper_label_form paper_label_default(paper_size size);

MUST_USE bool paper_labels(arena *a, const paper_setup *setup, const kit *k, paper_label_kind kind,
                           const paper_label_form *form, buf *pdf, paper_notes *notes, err *e);

/* Every fastener of the kit in true scale, alike ones side by side, with a ruler that proves the scale. */
MUST_USE bool paper_gauge_sheets(arena *a, const paper_setup *setup, const kit *k, buf *pdf,
                                 paper_notes *notes, err *e);

/* Rulers both ways, a square and frames: what a printer does to true scale. */
MUST_USE bool paper_test_page(arena *a, const paper_setup *setup, buf *pdf, paper_notes *notes, err *e);

#endif
