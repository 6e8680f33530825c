/* entry.h: the parts of the reader of quick entry; private to the room. */
#ifndef DESK_ENTRY_H
#define DESK_ENTRY_H

#include "desk/desk.h"

typedef struct {
    arena *memory;
    const kit *kit;
    const kit_workshop *workshop;
    faults *f;
    text source;
    uint32_t line;
    desk_count *list;
    size_t n, cap;
    text by;
} entry_reader;

/* What one line says. */
typedef struct {
    kit_index container;
    bool itself; /* only what lies in no bag of it */
    bool all_right, missing;
    size_t first; /* of the reader's list: what this line added explicitly */
} entry_line;

/* A fault in the line that is being read. Returns false. */
bool entry_complain(entry_reader *r, const char *remedy, const char *cause);

/* The same, naming what is left of the line. */
bool entry_not_understood(entry_reader *r, text rest);

/* "bag B3", "box 3", "B3" off the front of `rest`. False when there is none; with a fault when a word says that there
 * should be one. */
bool entry_take_container(entry_reader *r, text *rest, kit_index *out);

bool entry_lies_in(const kit *k, kit_index container, kit_index outer);

void entry_add(entry_reader *r, desk_count c);

/* Does the line, or what was read between `from` and `to`, name the row already? */
bool entry_is_listed(const entry_reader *r, size_t from, size_t to, kit_index row);

/* Adds the rows that "all right" (all_right) or "missing" speaks of: all in `container`, or with `itself` only those in no
 * bag of it, but those the line names already. False when the packing list has no row there. */
bool entry_add_rows(entry_reader *r, const entry_line *line, kit_index container, bool itself,
                    bool all_right);

/* All that stands in a line after its container (entry_items.c). */
bool entry_read_items(entry_reader *r, text *rest, entry_line *line);

#endif
