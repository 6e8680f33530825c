/* draft.h: from somebody else's parts list to a draft kit.
 *
 * People who built a machine publish a parts list: a table of any dialect, with a column that names the part and one
 * that says how many. Reading it goes in four steps, each on its own:
 *
 *   bytes -> grid of cells -> columns -> rows -> draft tables
 *   draft_text  draft_grid    draft_columns draft_rows draft_tables
 *
 * What the list does not say is guessed, and every guess is handed out with how sure it is and why, so that a person
 * can look at it and name the right one instead. What is not understood is said with its row; nothing is understood
 * silently: a row is a part with a name and a quantity, or it is listed with the reason why it is none.
 *
 * Workload: lists of some ten to some thousand rows, read once. Ownership: a list and all its texts live in the arena
 * it was read into; nothing points into the bytes given.
 */
#ifndef KIT_DRAFT_H
#define KIT_DRAFT_H

#include "base/err.h"
#include "base/faults.h"

/* How sure a guess is. NAMED is no guess: the person said so. */
typedef enum { DRAFT_NAMED, DRAFT_SURE, DRAFT_LIKELY, DRAFT_GUESSED } draft_trust;

typedef enum {
    DRAFT_UTF8,
    DRAFT_UTF16_LE,
    DRAFT_UTF16_BE,
    DRAFT_WINDOWS_1252,
    DRAFT_ANY_ENCODING /* to be guessed */
} draft_encoding;

typedef enum { DRAFT_POINT, DRAFT_COMMA, DRAFT_ANY_MARK /* to be guessed */ } draft_mark;

/* What a column is for. Several columns may hold maker's numbers, specifications or notes, one each of the others. */
typedef enum {
    DRAFT_NOT_USED,
    DRAFT_NAME,
    DRAFT_QUANTITY,
    DRAFT_UNIT,
    DRAFT_NUMBER, /* the list's own part number */
    DRAFT_MAKERS_NUMBER,
    DRAFT_SPECIFICATION,
    DRAFT_NOTE,
    DRAFT_BOX,
    DRAFT_BAG,
    DRAFT_ROLES /* how many */
} draft_role;

/* Units as lists write them. */
typedef enum {
    DRAFT_PIECES,
    DRAFT_PACKS,
    DRAFT_KG,
    DRAFT_G,
    DRAFT_MG,
    DRAFT_M,
    DRAFT_CM,
    DRAFT_MM,
    DRAFT_L,
    DRAFT_ML
} draft_unit;

/* What the person says about the list; DRAFT_AS_GUESSED says nothing. */
typedef struct {
    draft_encoding encoding;
    char separator; /* ',' ';' or tab; 0: to be guessed */
    draft_mark mark;
    int header_row;  /* as a spreadsheet numbers it; 0: the list has none; -1: to be guessed */
    text columns;    /* "name=Part; quantity=C": a heading or a spreadsheet's letter; may be empty */
    bool open_packs; /* 2 packs of 50 become 100 pieces */
} draft_wishes;

#define DRAFT_AS_GUESSED                                                                                     \
    ((draft_wishes){                                                                                         \
        .encoding = DRAFT_ANY_ENCODING, .mark = DRAFT_ANY_MARK, .header_row = -1, .columns = {"", 0}})

typedef struct {
    draft_trust trust;
    text why; /* "it begins with a byte order mark" */
} draft_reason;

typedef struct {
    uint32_t place; /* 0 is column A */
    text heading;   /* as written, blanks at the ends removed; empty without header */
    draft_role role;
    draft_reason reason;
} draft_column;

typedef enum {
    DRAFT_PART,           /* has a name and a quantity */
    DRAFT_NOT_UNDERSTOOD, /* looks like a part, but `why` */
    DRAFT_EMPTY,
    DRAFT_HEADER, /* the header and what stands above it */
    DRAFT_TOTAL,
    DRAFT_REMARK,
    DRAFT_NONE_WANTED /* a part of which the list wants 0 */
} draft_kind;

typedef struct {
    uint32_t row; /* as a spreadsheet numbers it */
    draft_kind kind;
    text why;     /* for everything but a part */
    text name;    /* as the list writes it, on one line; may be empty when not understood */
    text written; /* the quantity's cell as the list writes it */

    int64_t amount; /* the list's quantity in thousandths of `unit`; valid for a part only */
    draft_unit unit;
    int64_t pack_of; /* pieces in one pack; 0: not a pack, or not said */

    text number, makers_numbers, specification, note, box, bag; /* several are joined with "; " */
    uint32_t part; /* index into `parts`; UINT32_MAX when it is none */
} draft_row;

/* Rows that mean the same part share one. */
typedef struct {
    text number;        /* the list's own, or P and the row it first stands in */
    text name;          /* with the specification where the list has the same name for other parts */
    text designation;   /* canonical, only when the list states all of it */
    text proposal;      /* what the piece may be and what was assumed for it; empty when there is none */
    uint32_t first_row; /* index into `rows` */
} draft_part;

typedef struct {
    text file;
    draft_encoding encoding;
    draft_reason encoding_reason;
    char separator;
    draft_reason separator_reason;
    draft_mark mark;
    draft_reason mark_reason;
    uint32_t header_row; /* 0: none */
    draft_column *columns;
    uint32_t n_columns;
    draft_row *rows; /* every record of the list, in its order */
    uint32_t n_rows;
    draft_part *parts; /* those with at least one row that names them, in the order of the list */
    uint32_t n_parts;
    bool open_packs;
} draft_list;

/* Reads a list. `file` is its name for messages. False when it cannot be read as a table at all or when no column of
 * names or quantities is found: then `f` says with place, cause and remedy why. Rows that are not understood are no
 * fault of the list; look at their kind. */
MUST_USE bool draft_read(arena *a, text bytes, text file, draft_wishes wishes, faults *f, draft_list *out);

/* How many rows are of this kind. */
uint32_t draft_count(const draft_list *list, draft_kind kind);

/* The words for people: "name", "maker's number"; "sure"; "UTF-8"; "kg". */
const char *draft_role_word(draft_role role);
const char *draft_trust_word(draft_trust trust);
const char *draft_encoding_word(draft_encoding encoding);
const char *draft_unit_word(draft_unit unit);

/* The word of a wish to its meaning: "utf-16le", "comma" or "semicolon" or "tab", "point" or "comma". */
MUST_USE bool draft_encoding_read(text word, draft_encoding *out);
MUST_USE bool draft_separator_read(text word, char *out);
MUST_USE bool draft_mark_read(text word, draft_mark *out);

/* A column's letters as a spreadsheet shows them: 0 is "A", 26 is "AA". */
void draft_column_letters(uint32_t place, char out[8]);

/* "pack of 100", "kg", or empty for pieces; in the arena. */
text draft_unit_text(arena *a, const draft_row *row);

#endif
