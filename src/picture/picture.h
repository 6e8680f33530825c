/* picture.h: drawings as plain shapes and texts.
 *
 * The geometry of a drawing is computed once, here; paper paints the shapes into a PDF, the pages paint the same ones
 * as SVG. So a shape says where it is and what tone it has, and nothing of how a face draws it. Lengths are points
 * (1/72 inch), y downwards. This room knows no fonts: a text has a box to stand in, and the painter cuts what does not
 * fit with "…".
 *
 * Ownership: shapes and their texts live in the arena given to picture_in. A picture is a plain value.
 */
#ifndef PICTURE_PICTURE_H
#define PICTURE_PICTURE_H

#include <stdint.h>

#include "base/buf.h"
#include "base/err.h"
#include "base/text.h"
#include "plan/plan.h"
#include "trade/trade.h"

typedef enum { PICTURE_BOX, PICTURE_LINE, PICTURE_TEXT, PICTURE_PATH } picture_kind;

/* Tones by their use; black and white first, so a picture never tells two things apart by tone alone. */
typedef enum {
    PICTURE_NOTHING,
    PICTURE_INK,
    PICTURE_QUIET,
    PICTURE_FAINT,
    PICTURE_WASH,
    PICTURE_ACCENT,
    PICTURE_PAPER
} picture_tone;

typedef enum { PICTURE_SMALL, PICTURE_BODY, PICTURE_LARGE } picture_size;
typedef enum { PICTURE_START, PICTURE_MIDDLE, PICTURE_END } picture_anchor;

typedef struct {
    picture_kind kind;
    double x, y, width,
        height; /* a path's points count from x, y; a line runs from x, y to x + width, y + height; a text stands at the top of its box */
    picture_tone stroke; /* of the outline or line; of the letters of a text */
    double weight;       /* of the stroke */
    picture_tone fill;   /* of a box */
    bool hatched;        /* a box: the fill is thin slanting lines of its tone */
    text words;
    picture_size size;
    picture_anchor anchor;
    bool bold;
    int most_lines;       /* 0: one */
    const double *points; /* of a path: x0, y0, x1, y1, ...; straight between them */
    size_t n_points;      /* pairs */
    bool closed;          /* the last joins the first; only a closed path is filled */

    /* For faces that can point at things; empty: none. */
    text role;   /* what it stands for, as a class: "step", "unit" */
    text title;  /* told when it is pointed at */
    text target; /* where it leads: "#S12" */
} picture_shape;

typedef struct {
    arena *memory;
    double width, height;
    picture_shape *shapes; /* later ones lie above earlier ones */
    size_t n, cap;
} picture;

picture picture_in(arena *a, double width, double height);
void picture_add(picture *p, picture_shape shape);

/* ---- an evening as lanes ---------------------------------------------------------------------------------------
 *
 * Time runs from left to right, a lane for each person, a block for each piece of work. Blocks of one lane do not
 * overlap in a right plan; those that do are drawn over each other. What is beside the work (a supervisor) has a
 * hatched strip; what nobody can work in (opening, closing, not there) is washed and named. */

enum { PICTURE_ALL_LANES = UINT16_MAX };

typedef struct {
    text name;
    text remark; /* smaller, below: "leader", "from 19:00" */
} picture_lane;

typedef struct {
    uint16_t lane;
    int from_min, to_min;
    text title; /* bold: "S12" */
    text words; /* after it, cut to fit */
    bool beside;
} picture_block;

typedef struct {
    uint16_t lane; /* PICTURE_ALL_LANES: over all lanes */
    int from_min, to_min;
    text words;
} picture_shade;

typedef struct {
    int from_min, to_min; /* of the axis */
    bool clock; /* minutes are minutes after midnight and are labelled so; otherwise counted from 0:00 */
    const picture_lane *lanes;
    uint16_t n_lanes;
    const picture_block *blocks;
    uint32_t n_blocks;
    const picture_shade *shades;
    uint32_t n_shades;
} picture_lanes;

/* The height that the drawing takes. */
double picture_lanes_height(uint16_t n_lanes);

/* Draws it `width` wide. */
picture picture_draw_lanes(arena *a, const picture_lanes *l, double width);

/* ---- the joining chart --------------------------------------------------------------------------------------------
 *
 * Which sub-assembly joins the main machine when. Working time runs downwards, session by session; the main machine is the trunk in the
 * middle, sub-assemblies run down beside it, half of them on either side, and turn in at their joining step. A step is as wide as
 * people work on it. A step that decides the finish has a heavy outline and a bar at its left. */

/* Draws the plan `width` wide (at least 150; a phone has about 270). A plan without steps gives a picture without shapes. */
picture picture_draw_joining(arena *a, const plan *p, double width);

/* ---- as SVG ----------------------------------------------------------------------------------------------------------- */

/* Appends the picture as one SVG element with real text. `title` and `says` are read out by screen readers. What a text holds
 * beyond its box is cut with an ellipsis, by estimated widths; it stands whole in the text's title. */
void picture_write_svg(const picture *p, text title, text says, buf *out);

/* ---- a fastener ---- */

/* One millimetre of the picture on paper. */
#define PICTURE_MM (72 / 25.4)

/* A fastener from its tables of sizes: on the left the view from the head's end, on the right the side view, head to the
 * left, thread as drawings show it (ISO 6410: thin lines at the core). `scale` 1 is true scale; another value corrects a
 * printer that shrinks (0.2 to 5). The picture is just as large as the views. Refuses what has no table of sizes, and
 * forms that are not drawn. */
MUST_USE bool picture_fastener(arena *a, const designation *d, double scale, picture *out, err *e);

/* ---- a QR code ---- */

/* `words` as a QR code (ISO/IEC 18004, error correction M: 15 % of it may be dirty), `side` points wide and high with
 * its white margin. Refuses what does not fit (2,331 bytes). */
MUST_USE bool picture_qr(arena *a, text words, double side, picture *out, err *e);

#endif
