/* tables.h: kits and workshops as tables of texts, and the forms that say what each column is.
 *
 * Raw tables are what a folder, a build file, a draft or (later) a workbook holds. All of them take the same way from
 * here into records (kit_from_tables).
 */
#ifndef KIT_TABLES_H
#define KIT_TABLES_H

#include "base/err.h"
#include "base/faults.h"
#include "kit/records.h"

/* A table before anybody understood it. */
typedef struct {
    text name; /* "parts" */
    text file; /* for faults: "parts.csv" */
    text path; /* in its folder; empty: NAME.csv */
    text *columns;
    uint32_t n_columns;
    text *cells;           /* n_rows x n_columns, row by row; missing cells are empty */
    uint32_t *row_numbers; /* as a spreadsheet shows them */
    uint32_t n_rows;
    bool damaged; /* some of it could not be read, so nothing follows from what is not there */
} kit_table;

typedef struct {
    kit_table *list;
    uint32_t n;
} kit_tables;

/* One column of one table as this program knows it: the reader, the documentation, datapackage.json and the build
 * file's copy all come from this list. The kind says how a cell is written and which type the record's member has. */
typedef enum {
    KIT_CELL_KEY,        /* text: names the record; no ';', no line break */
    KIT_CELL_TEXT,       /* text */
    KIT_CELL_INTEGER,    /* int64_t in low..high */
    KIT_CELL_DECIMAL,    /* int64_t in low..high, the number times 10^scale */
    KIT_CELL_YES_NO,     /* bool; "yes" or "no", empty is no */
    KIT_CELL_WORD,       /* an enum; one of `words`, empty is the first */
    KIT_CELL_REFERENCE,  /* kit_index into refers_to; empty is KIT_NONE */
    KIT_CELL_REFERENCES, /* kit_indices; list with ';' */
    KIT_CELL_TEXTS,      /* kit_texts; list with ';' */
    KIT_CELL_INTEGERS,   /* kit_integers in low..high; list with ';' */
    KIT_CELL_DAY,        /* date_day; 2027-03-14 */
    KIT_CELL_CLOCK       /* int, minutes after midnight; 18:30 */
} kit_cell_kind;

typedef struct {
    const char *name;
    kit_cell_kind kind;
    bool required;
    uint32_t offset; /* of the member that takes the value, in the record */
    const char
        *refers_to; /* table, for references: the kit's, or where it has none of that name the workshop's */
    const char *words;   /* "box|bag" for words */
    int scale;           /* digits after the point, for decimals */
    int64_t low, high;   /* scaled, for numbers */
    int64_t empty;       /* what an empty cell means, for numbers, days and clock times */
    const char *meaning; /* one sentence for the documentation, unit included */
} kit_column;

typedef struct {
    const char *name;
    bool of_workshop;
    bool required;   /* the table must be there */
    bool one_record; /* exactly one row, read into the kit or workshop itself */
    const char *key; /* "part", "container+line", or "" */
    const char *meaning;
    const kit_column *columns;
    uint32_t n_columns;
    uint32_t record_size;
    uint32_t list_offset, count_offset; /* of the array and of its length, in kit or kit_workshop */
} kit_table_form;

/* All forms, kit tables first; `n` gets their number. The list is constant. */
const kit_table_form *kit_forms(uint32_t *n);

/* The form of a table; NULL when there is none. */
const kit_table_form *kit_find_form(const char *name, bool of_workshop);

/* Where a column stands in a raw table; -1 when it has none of that name. */
int kit_table_column(const kit_table *t, text name);

/* The key of a row of a raw table: the cells of the form's key columns with ';' between; in the arena. */
text kit_table_key(arena *a, const kit_table_form *form, const kit_table *t, uint32_t row);

/* The word of an enumeration as it stands in a table: ("step_parts", "tightening", KIT_HAND) gives "hand". The column
 * must be one of words. */
text kit_word(const char *table, const char *column, unsigned value);

/* The same for two that are wanted often: "piece", "beside the work". */
const char *kit_unit_word(kit_unit u);
const char *kit_supervision_word(kit_supervision s);

/* Reads datapackage.json and the tables of a kit or workshop folder. False when the folder cannot be read at all
 * (`e`), or when any fault was found (added to `f`; `e->kind` stays ERR_NONE then and `out` holds what could be read).
 * Texts are UTF-8 and without blanks at their ends. Files of a workshop are named "FOLDER/crew.csv" in faults, because
 * a kit and a workshop both have a tools.csv. */
MUST_USE bool kit_tables_from_folder(arena *a, const char *folder, bool workshop, faults *f, kit_tables *out,
                                     err *e);

/* Writes the tables and their datapackage.json into `folder`, which is made. `name` is the package's (made into lower
 * case letters, digits, '-', '.' and '_'), `title` may be empty. */
MUST_USE bool kit_write_folder(const char *folder, const kit_tables *tables, text name, text title, err *e);

/* Writes only datapackage.json, for tables that lie in `folder` already. One that is there keeps its name, its title and
 * all properties other than the tables. */
MUST_USE bool kit_write_package(const char *folder, const kit_tables *tables, text name, text title, err *e);

#endif
