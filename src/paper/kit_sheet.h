/* kit_sheet.h: sheets that need no more than a kit, one file each; private to the room. */
#ifndef PAPER_KIT_SHEET_H
#define PAPER_KIT_SHEET_H

#include "paper/book.h"
#include "paper/masthead.h"
#include "paper/table.h"
#include "paper/wording.h"

typedef struct {
    arena *memory;
    const kit *kit;
} kit_sheet;

/* Each fills the sections of one kind into the book. */
void add_tool_sheet(book *b, const kit_sheet *k);
void add_hazard_table(book *b, const kit_sheet *k);
void add_emergency_card(book *b, const kit_sheet *k);
void add_battery_card(book *b, const kit_sheet *k);
void add_unit_tags(book *b, const kit_sheet *k);
void add_release_list(book *b, const kit_sheet *k);
void add_closing_sheet(book *b, const kit_sheet *k);
void add_packing_lists(book *b, const kit_sheet *k);

#endif
