/* kit.h: what the maker defines, and the workshop that builds it.
 *
 * A kit is read from a folder of tables (docs/kit-format.md), from the copy inside a build file, or from a draft; all
 * three arrive as raw tables of texts and take the same way through kit_from_tables. Read once, then only read: a
 * few thousand rows, a few hundred steps, looked up by number all the time. So: arrays in the order of the tables,
 * references as indices into them, and one sorted index for each key.
 *
 * Ownership: a kit or workshop and every text in it live in the arena it was read into.
 * Invariant: every index is below the length of its array or KIT_NONE where the column may be empty. A kit with faults
 * is never handed out.
 */
#ifndef KIT_KIT_H
#define KIT_KIT_H

#include "base/err.h"
#include "base/faults.h"
#include "kit/codes.h"
#include "kit/draft.h"
#include "kit/records.h" /* the structs */
#include "kit/search.h"
#include "kit/tables.h" /* raw tables, their forms, folders */

/* Understands raw tables; no text of them is copied, so they must live as long. False when a fault was added to `f`:
 * unknown, doubled and missing tables and columns, wrong cells, unknown references, duplicate keys. The rules that need
 * the whole kit are kit_check's. */
MUST_USE bool kit_from_tables(arena *a, const kit_tables *tables, faults *f, const kit **out);
MUST_USE bool kit_workshop_from_tables(arena *a, const kit_tables *tables, const kit *k, faults *f,
                                       const kit_workshop **out);

/* Both at once, from folders, with every fault of both, those of kit_check included. workshop_folder may be NULL, then
 * *w is NULL. Failing as kit_tables_from_folder. */
MUST_USE bool kit_read(arena *a, const char *kit_folder, const char *workshop_folder, faults *f,
                       const kit **k, const kit_workshop **w, err *e);

/* Every rule that looks at more than one cell, as docs/kit-format.md and docs/workshop-format.md list them; the workshop
 * may be NULL. Adds to `f`; true when nothing was added. */
MUST_USE bool kit_check(const kit *k, const kit_workshop *w, faults *f);

/* A row of somebody's parts list (kit/draft.h) in the kit's units: how many, and of what. With open_packs, packs
 * of a known size count their pieces. -1 when that is no whole number from 1 to 1,000,000,000. */
int64_t draft_row_in_kit(const draft_row *row, bool open_packs, kit_unit *unit);

/* The draft kit of a list: its parts, one box and one bag unless the list names more, a packing row for each row
 * that was understood, no steps. `number` (at most 40 characters, without ';') and `name` are the kit's. The tables take
 * the way of all kits: kit_from_tables and kit_check find no fault in them. */
void kit_tables_from_draft(arena *a, const draft_list *list, text number, text name, kit_tables *out);

/* Lookups by number, KIT_NONE when there is none. ASCII case does not count: "b3" finds "B3". O(log n). */
kit_index kit_find_part(const kit *k, text number);
kit_index kit_find_container(const kit *k, text number);
kit_index kit_find_step(const kit *k, text number);
kit_index kit_find_tool(const kit *k, text number);
kit_index kit_find_row(const kit *k, kit_index container, int64_t line);

/* All parts whose number or one of whose maker's numbers is `number` (blanks, dashes and case do not count), in the
 * order of the parts table. In the arena; empty when none. */
kit_indices kit_find_parts_by_any_number(arena *a, const kit *k, text number);

/* Person by number, else by name (case does not count); KIT_NONE when none or when two people have the name. */
kit_index kit_find_person(const kit_workshop *w, text number_or_name);

/* The shipped box a container is in (itself when it is one). */
kit_index kit_box_of(const kit *k, kit_index container);

/* Sum of `quantity` over the rows / over the steps. */
int64_t kit_packed(const kit *k, kit_index part);
int64_t kit_needed(const kit *k, kit_index part);

/* The size of a kit. Person-minutes are people times likely minutes, summed over the steps. */
typedef struct {
    uint32_t boxes, bags, rows, parts, fastener_parts, steps, sub_assemblies, tools, tests, hold_points;
    int64_t pieces; /* of the rows that count pieces */
    int64_t person_min;
} kit_size;

kit_size kit_measure(const kit *k);

/* Steps in build order: a topological order of step_after, ties by the order of the steps table; n_steps long, in the
 * arena. The kit must have passed kit_check. */
const kit_index *kit_build_order(arena *a, const kit *k);

#endif
