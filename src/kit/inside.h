/* inside.h: what the files of this room share and nobody else sees.
 *
 * Reading goes in two steps, so that every fault is found in one run. First each table is read alone and each record
 * with a fault is marked; then the rules of check*.c look at all records that are not marked, also when some are. A
 * rule that concludes from what is *not* there (no row holds this part) rests when the table it looks in is damaged.
 */
#ifndef KIT_INSIDE_H
#define KIT_INSIDE_H

#include "base/buf.h"
#include "kit/kit.h"

typedef struct {
    text key;
    kit_index at;
} kit_key;

/* What the reader found out about one table. */
typedef struct {
    text file;          /* for faults: "parts.csv" */
    bool damaged;       /* some of it could not be read at all */
    uint32_t n;         /* records */
    const bool *faulty; /* by record: one of its cells is wrong */
    kit_key *keys;      /* sorted without case; only for tables with a key of one column */
    uint32_t n_keys;
} kit_table_state;

struct kit_lookup {
    kit_table_state *of; /* by position in kit_forms(); a workshop's lookup has only its own tables */
    /* Only for a kit: */
    kit_index *rows;          /* sorted by container, line */
    int64_t *packed, *needed; /* by part */
    kit_key *any_numbers;     /* part and maker's numbers, only letters and digits, lower case; sorted */
    uint32_t n_any_numbers;
};

/* --- lookup.c --- */
kit_index kit_form_index(const char *table, bool of_workshop);
const kit_table_state *kit_state(const kit *k, const char *table);
const kit_table_state *kit_workshop_state(const kit_workshop *w, const char *table);
int kit_compare_keys(const void *left,
                     const void *right); /* kit_key, by key without case, then by position */
kit_index kit_find_key(const kit_table_state *s, text key);
void kit_finish_lookup(arena *a, kit *k); /* the parts of a kit's lookup that need its records */

/* --- suggest.c --- */

/* The key nearest to `wrong` (other case, blanks and dashes, at most two letters changed), or an empty text. */
text kit_nearest_key(const kit_table_state *s, text wrong);
text kit_nearest_table(bool of_workshop, text wrong);
text kit_nearest_column(const kit_table_form *form, text wrong);

/* --- cells.c --- */
typedef struct {
    arena *memory;
    faults *faults;
    bool of_workshop;
    kit_table_state *own;          /* by form */
    const kit_table_state *of_kit; /* by form; the same as `own` for a kit */
} kit_reader;

/* Reads one cell into the record's member; an empty or wrong cell sets what an empty one means. False when a fault was
 * added. */
MUST_USE bool kit_read_cell(kit_reader *r, const kit_column *c, text cell, fault_place place, void *member);

/* The integer key as references compare it: "07" and "7" are the same. */
text kit_integer_key(arena *a, int64_t value);

/* --- reader.c --- */

/* Reads all tables of a kit or workshop into the zeroed struct `owner`, as far as they can be read. */
void kit_read_tables(kit_reader *r, const kit_tables *tables, void *owner);

/* --- folder.c --- */

/* Fills columns, cells and rows of a table that has its name and file. What cannot be read is left out, told, and makes
 * the table damaged. */
void kit_table_from_bytes(arena *a, text bytes, faults *f, kit_table *t);

/* --- read.c --- */

/* Reads and checks as much as can be read; of_workshop may be NULL. The results are whole only when no fault was
 * added (true). */
MUST_USE bool kit_read_and_check(arena *a, const kit_tables *of_kit, const kit_tables *of_workshop, faults *f,
                                 const kit **k, const kit_workshop **w);

/* --- order.c --- */

/* The steps before each step: those of step i are before[first[i]] .. before[first[i + 1] - 1]; by[] are the positions
 * in step_after that say so. Records with faults are left out. */
typedef struct {
    uint32_t n;
    uint32_t *first;
    kit_index *before;
    uint32_t *by;
    uint32_t *seen; /* scratch of kit_comes_before: the number of the question that met the step last */
    kit_index *open;
    uint32_t questions;
} kit_order;

kit_order kit_order_of(arena *a, const kit *k);

/* True when `earlier` must be finished before `later` starts. O(rows of step_after). */
bool kit_comes_before(kit_order *o, kit_index earlier, kit_index later);

/* --- check_*.c: the rules, called by check.c --- */
typedef struct {
    arena *memory;
    faults *faults;
    const kit *kit;
    const kit_workshop *workshop;
    kit_order order;
} kit_checker;

void kit_check_containers(kit_checker *c);
void kit_check_designations(kit_checker *c);
void kit_check_order(kit_checker *c);
void kit_check_steps(kit_checker *c);
void kit_check_tightening(kit_checker *c);
void kit_check_pieces(kit_checker *c);
void kit_check_supplies(kit_checker *c);
void kit_check_workshop(kit_checker *c);
void kit_check_resources(kit_checker *c);

/* Outside of kit_check, because only a kit in a folder has pictures. False when a fault was added. */
MUST_USE bool kit_check_pictures(arena *a, const kit *k, const char *folder, faults *f);

/* A relative path that leads to nothing outside its folder. */
bool kit_is_inner_path(text path);

fault_place kit_place(const kit_checker *c, const char *table, uint32_t row, const char *column);
fault_place kit_workshop_place(const kit_checker *c, const char *table, uint32_t row, const char *column);

/* --- package.c, package_write.c --- */
typedef struct {
    text name; /* a table's */
    text path;
    text *columns; /* as its schema names them */
    uint32_t n_columns;
} kit_resource;

typedef struct {
    kit_resource *list;
    uint32_t n;
} kit_package;

/* datapackage.json for these tables. `old` is a file whose other properties are kept, or NULL. */
void kit_package_print(arena *a, const kit_tables *tables, text name, text title, const char *old, buf *out);

/* A text of the old file, if there is such a file and text. */
text kit_package_old_text(arena *a, const char *path, const char *key, text otherwise);

/* Adds all properties of the old file but those that we write, as further members of the outermost object in `out`. */
void kit_package_keep(arena *a, const char *path, buf *out);

/* Understands the bytes of a datapackage.json. Adds to `f`; `out` holds what could be read. */
MUST_USE bool kit_package_read(arena *a, text bytes, text file, bool of_workshop, faults *f,
                               kit_package *out);

#endif
