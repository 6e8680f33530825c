/* designation.h: what a fastener is called.
 *
 * A designation is the name a standard gives a piece: "ISO 4762 M8x25-8.8", "DIN 985 M8", "ISO 7089-8". Three doors:
 *
 *   designation_read     the strict form. All of the text must be understood and fit together, or it is refused with
 *                        cause and remedy. What it returns can be trusted.
 *   designation_propose  the loose forms of real parts lists ("M5x16mm-socket-head", "M6 nyloc", "M2,5x25"). The
 *                        answer is a proposal: what is stated, what was assumed and why, what is not known. A person
 *                        confirms it; no part of this program treats a proposal as a designation.
 *   designation_print    the canonical text; designation_read gives the same value back.
 *
 * Lengths are in micrometres (1 mm = 1000), because threads have pitches such as 0.45 mm and equality must be exact.
 * 0 means "not stated" everywhere. A designation is a plain value; what it points to lives for ever.
 *
 * Known: metric threads M1.6 to M24 (ISO 261), the standards listed in standards.c, lengths from 1 to 500 mm (rod: 3 m).
 */
#ifndef TRADE_DESIGNATION_H
#define TRADE_DESIGNATION_H

#include <stdint.h>

#include "base/err.h"
#include "base/text.h"

typedef enum {
    FASTENER_UNKNOWN,
    FASTENER_SCREW, /* with a head; the trade's bolts are in here */
    FASTENER_SET_SCREW,
    FASTENER_ROD, /* studs and threaded rod */
    FASTENER_NUT,
    FASTENER_WASHER,
    FASTENER_PIN,
    FASTENER_RING, /* retaining rings */
    FASTENER_INSERT
} fastener_kind;

/* What the eye sees: the head of a screw, the point of a set screw, the build of a nut, a washer or a pin. */
typedef enum {
    FORM_UNKNOWN,
    FORM_HEX_HEAD,
    FORM_HEX_FLANGE_HEAD,
    FORM_CYLINDER_HEAD, /* socket cap */
    FORM_LOW_CYLINDER_HEAD,
    FORM_BUTTON_HEAD,
    FORM_COUNTERSUNK_HEAD,
    FORM_RAISED_COUNTERSUNK_HEAD,
    FORM_PAN_HEAD,
    FORM_CHEESE_HEAD,
    FORM_MUSHROOM_HEAD, /* carriage bolt: round head over a square neck */
    FORM_EYE,
    FORM_FLAT_POINT,
    FORM_CONE_POINT,
    FORM_DOG_POINT,
    FORM_CUP_POINT,
    FORM_PLAIN_ROD,
    FORM_HEX_NUT,
    FORM_THIN_NUT,
    FORM_LOCK_NUT, /* prevailing torque, plastic ring */
    FORM_THIN_LOCK_NUT,
    FORM_ALL_METAL_LOCK_NUT,
    FORM_CASTLE_NUT,
    FORM_FLANGE_NUT,
    FORM_FLANGE_LOCK_NUT,
    FORM_CAP_NUT,
    FORM_WING_NUT,
    FORM_SQUARE_NUT,
    FORM_SLOT_NUT, /* for the slots of profiles and tables */
    FORM_LONG_NUT, /* coupling nut */
    FORM_PLAIN_WASHER,
    FORM_CHAMFERED_WASHER,
    FORM_SMALL_WASHER,
    FORM_LARGE_WASHER,
    FORM_EXTRA_LARGE_WASHER,
    FORM_SPRING_WASHER,
    FORM_WAVE_WASHER,
    FORM_CONICAL_WASHER,
    FORM_TOOTHED_WASHER,
    FORM_SPLIT_PIN,
    FORM_DOWEL_PIN,
    FORM_SPRING_PIN,
    FORM_TAPER_PIN,
    FORM_CLEVIS_PIN,
    FORM_SHAFT_RING,
    FORM_BORE_RING,
    FORM_E_RING,
    FORM_THREAD_INSERT,
    FORM_COUNT
} fastener_form;

typedef enum {
    DRIVE_UNKNOWN,
    DRIVE_NONE,
    DRIVE_HEXAGON,    /* from outside: spanner, ring, socket */
    DRIVE_HEX_SOCKET, /* hex key */
    DRIVE_HEXALOBULAR,
    DRIVE_CROSS, /* type H or Z of ISO 4757 */
    DRIVE_SLOT,
    DRIVE_SQUARE, /* square outside */
    DRIVE_HAND,   /* wings */
    DRIVE_COUNT
} fastener_drive;

typedef enum { THREAD_EXTENT_UNKNOWN, THREAD_PARTIAL, THREAD_FULL } thread_extent;
typedef enum { THREAD_METRIC, THREAD_TAPPING } thread_profile; /* ISO 68-1; ISO 1478 (ST) */

typedef enum {
    MATERIAL_UNKNOWN,
    MATERIAL_STEEL,
    MATERIAL_SPRING_STEEL,
    MATERIAL_A1,
    MATERIAL_A2,
    MATERIAL_A4,
    MATERIAL_STAINLESS, /* stainless, group not stated */
    MATERIAL_BRASS,
    MATERIAL_ALUMINIUM,
    MATERIAL_PLASTIC,
    MATERIAL_COUNT
} fastener_material;

typedef enum {
    FINISH_UNKNOWN,
    FINISH_PLAIN,
    FINISH_BLACK,
    FINISH_ZINC,
    FINISH_HOT_DIP,
    FINISH_NICKEL,
    FINISH_COUNT
} fastener_finish;

/* How a standard names its size. */
typedef enum {
    SIZE_THREAD_LENGTH,   /* M8x25 */
    SIZE_THREAD,          /* M8 */
    SIZE_FOR_THREAD,      /* 8: a washer for M8 */
    SIZE_HOLE,            /* 8.4: the older way for washers */
    SIZE_DIAMETER_LENGTH, /* 6x20: pins */
    SIZE_DIAMETER,        /* 20: retaining rings */
    SIZE_TAPPING_LENGTH   /* ST4.2x16 */
} size_style;

/* One row of the table of standards; constant for the life of the program. */
typedef struct {
    const char *body; /* "ISO", "DIN" or "EN" */
    uint16_t number;
    uint8_t part; /* 0: the standard has no parts that matter */
    fastener_kind kind;
    fastener_form form;
    fastener_drive drive;
    thread_extent extent;
    size_style size;
    int32_t least_um, most_um; /* nominal diameters the standard covers, as far as we know them */
    const char *twin;          /* the standard that replaced it or that it replaced: "DIN 912"; "" for none */
    bool twin_differs;         /* the twin has other dimensions somewhere: never treat as the same piece */
    const char *title;         /* in our words */
} fastener_standard;

/* Strength as the standards mark it. `code` is unique and what designation_print writes. */
typedef struct {
    const char *code; /* "8.8", "A2-70", "8", "200HV", "45H" */
    fastener_kind kind;
    fastener_material material;
} fastener_grade;

typedef struct {
    fastener_kind kind;
    fastener_form form;
    fastener_drive drive;
    thread_extent extent;
    thread_profile profile;
    const fastener_standard *standard; /* NULL: not stated */
    int32_t thread_um;                 /* nominal diameter; of the thread a washer is for; of a pin or ring */
    int32_t pitch_um;                  /* of threaded pieces always filled; 0 for others */
    bool fine;                         /* a pitch other than the coarse one of ISO 261 */
    bool left_hand;
    int32_t
        length_um; /* as the standard counts it: a countersunk screw with its head, others under the head */
    const fastener_grade *grade; /* NULL: not stated */
    fastener_material material;
    fastener_finish finish;
} designation;

/* Strict. On false `out` is not touched. */
MUST_USE bool designation_read(text t, designation *out, err *e);

/* Canonical text; always followed by a NUL, cut at `size`. Returns the length as snprintf does.
 * A piece without standard prints as words: "M5x16 socket cap screw". */
int designation_print(const designation *d, char *out, size_t size);

/* Longest canonical text, with its NUL. */
#define DESIGNATION_TEXT 96

bool designation_equal(const designation *a, const designation *b);

/* Is this text the name of a fastener at all? A cheap first look; it promises nothing about the reading. */
typedef enum {
    NAME_NO_FASTENER, /* nothing in it says so: "Window controller", "QX-4DRL07GK-M3" */
    NAME_STANDARD,    /* designation_read accepts it */
    NAME_LOOSE        /* says that it is a fastener, in words of its own: see designation_propose */
} name_sort;

name_sort designation_sort(text name);

/* The table of standards, for lists and for lookup. */
const fastener_standard *fastener_standard_at(size_t i); /* NULL after the last */
const fastener_standard *fastener_standard_find(const char *body, unsigned number, unsigned part);
/* "ISO 7380-1" into `out`. */
int fastener_standard_print(const fastener_standard *s, char *out, size_t size);
const fastener_grade *fastener_grade_at(size_t i); /* NULL after the last */
const fastener_grade *fastener_grade_find(fastener_kind kind, text code);

/* Words for people: "socket cap", "hex socket", "screw", "A2". Never NULL. */
const char *fastener_kind_name(fastener_kind kind);
const char *fastener_form_name(fastener_form form);
const char *fastener_drive_name(fastener_drive drive);
const char *fastener_material_name(fastener_material material);
const char *fastener_finish_name(fastener_finish finish);
fastener_kind fastener_form_kind(fastener_form form);

/* ISO 261: coarse pitch of a nominal diameter, 0 when it is none of ours. */
int32_t thread_coarse_pitch_um(int32_t thread_um);
/* True for a pitch that ISO 261 lists for this diameter. */
bool thread_pitch_known(int32_t thread_um, int32_t pitch_um);
/* i-th diameter we know, ascending; 0 after the last. */
int32_t thread_size_at(size_t i);

#endif
