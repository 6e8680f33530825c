/* draft_inside.h: what the steps of draft.h hand to each other. Private to the room.
 *
 * A new kind of list (a workbook, a Markdown table, bullets) needs one file that makes a draft_grid; all that follows
 * stays as it is.
 */
#ifndef KIT_DRAFT_INSIDE_H
#define KIT_DRAFT_INSIDE_H

#include "kit/kit.h"

/* draft_text.c: bytes to UTF-8 with LF or CRLF. */
typedef struct {
    text utf8;
    draft_encoding encoding;
    draft_reason reason;
} draft_source;

MUST_USE bool draft_decode(arena *a, text bytes, draft_encoding wanted, text file, faults *f,
                           draft_source *out);

/* draft_grid.c: UTF-8 to cells. Cells have no blanks at their ends; line breaks inside them became one space. */
typedef struct {
    text *cells;
    uint32_t n;
    uint32_t row; /* as a spreadsheet numbers it */
} draft_record;

typedef struct {
    text file;
    draft_record *records;
    uint32_t n;
    uint32_t widest; /* cells in the longest record */
    char separator;
    draft_reason reason; /* for the separator */
} draft_grid;

MUST_USE bool draft_grid_read(arena *a, text utf8, char wanted, text file, faults *f, draft_grid *out);

/* The cell of a record, empty when the record is too short or `place` is none. */
text draft_cell(const draft_record *record, uint32_t place);
bool draft_is_empty(const draft_record *record);

/* No column, no part, no record. */
#define DRAFT_NO_COLUMN UINT32_MAX

/* draft_words.c: what headings and units are called in the languages of the lists. */
typedef struct {
    draft_role role;     /* what a column with this heading is for */
    draft_role fallback; /* when another column has a better heading for it */
    int strength;        /* 3 it means nothing else, 2 likely, 1 perhaps; 0: not a heading we know */
    bool known;          /* also for headings that are known to be of no use: prices, links */
    bool whole;          /* the whole heading is a word of ours, not only a part of it */
} draft_heading;

draft_heading draft_heading_of(arena *a, text heading);
draft_heading draft_heading_for(arena *a, text heading, draft_role role);
bool draft_is_total_word(arena *a, text cell);

/* A heading, unit or name made comparable: lower case, no accents, everything but letters, digits, '#' and points inside
 * numbers one blank. */
text draft_plain(arena *a, text t);

/* A unit's word alone ("kg", "Stk.", "pcs"); false when it is none of ours. */
bool draft_unit_read(arena *a, text word, draft_unit *out);

/* draft_quantity.c: how many of what. */
typedef struct {
    bool known;
    int64_t amount; /* in thousandths */
    draft_unit unit;
    bool unit_said; /* the cell itself names the unit */
    int64_t pack_of;
    text why_not;
} draft_quantity;

/* What a cell alone says. */
draft_quantity draft_quantity_read(arena *a, text cell, draft_mark mark);

/* Counts what the cell says about the list's decimal mark. */
typedef struct {
    uint32_t points, commas;
} draft_mark_votes;
void draft_mark_vote(text cell, draft_mark_votes *votes);

/* draft_packs.c: packs and units in words. "packs of 50" to 50; false when `t` says nothing else than that. */
bool draft_packs_of(arena *a, text t, int64_t *size);

/* "M3 nuts, 100 pack" holds 100 in each pack; 0 when the name speaks of no pack, -1 when it speaks of several
 * ("2 x 100 pack"). */
int64_t draft_pack_in_name(arena *a, text name);

/* The unit that a remark names ("Units in kg."); false when it names none. */
bool draft_unit_in_remark(arena *a, text remark, draft_unit *out);

/* The unit in the brackets of a heading ("Quantity (m)"). */
bool draft_unit_in_heading(arena *a, text heading, draft_unit *out);

/* A price, a plain number or a percentage: what stands in the last row of a sum. */
bool draft_is_figure(text cell);
bool draft_is_link(text cell);

/* draft_columns.c: which column is what. Fills header_row, columns, mark of `out`. */
MUST_USE bool draft_columns_find(arena *a, const draft_grid *grid, draft_wishes wishes, faults *f,
                                 draft_list *out);

/* The first column with this role, or DRAFT_NO_COLUMN. */
uint32_t draft_place_of(const draft_list *list, draft_role role);

/* draft_rows.c: fills rows. */
void draft_rows_read(arena *a, const draft_grid *grid, draft_list *out);

/* draft_parts.c: fills parts, and the part of each row. */
void draft_parts_find(arena *a, draft_list *out);

/* draft_fastener.c: what the trade reader makes of a part: its designation, when the list states all of it, else a proposal in
 * words; both empty for what is no fastener. */
void draft_fastener_read(arena *a, const draft_row *row, text *out, text *proposed);

#endif
