/* columns.h: how schema.c writes one column on one line.
 *
 * Each macro makes a kit_column. The kind of a cell fixes the type of the member that takes its value; MEMBER holds
 * them together: a column whose member has another type does not compile.
 */
#ifndef KIT_COLUMNS_H
#define KIT_COLUMNS_H

#include <stddef.h>

#include "kit/kit.h"

enum { MAY, MUST }; /* is the cell needed? */

/* Types, names and initialisers cannot stand in parentheses. NOLINTBEGIN(bugprone-macro-parentheses) */

#define MEMBER(type, member, wanted)                                                                         \
    ((uint32_t)(offsetof(type, member) + 0 * sizeof(_Generic(((type *)NULL)->member, wanted : 0))))

#define KEY(type, member, column, says)                                                                      \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_KEY, .required = true, .offset = MEMBER(type, member, text),        \
        .meaning = says                                                                                      \
    }
#define TEXT_CELL(type, member, column, need, says)                                                          \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_TEXT, .required = (need) == MUST,                                   \
        .offset = MEMBER(type, member, text), .meaning = says                                                \
    }
#define TEXTS(type, member, column, says)                                                                    \
    { .name = column, .kind = KIT_CELL_TEXTS, .offset = MEMBER(type, member, kit_texts), .meaning = says }
#define INTEGER(type, member, column, need, from, to, when_empty, says)                                      \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_INTEGER, .required = (need) == MUST,                                \
        .offset = MEMBER(type, member, int64_t), .low = from, .high = to, .empty = when_empty,               \
        .meaning = says                                                                                      \
    }
#define INTEGERS(type, member, column, from, to, says)                                                       \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_INTEGERS, .offset = MEMBER(type, member, kit_integers),             \
        .low = from, .high = to, .meaning = says                                                             \
    }
#define DECIMAL(type, member, column, need, digits, from, to, when_empty, says)                              \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_DECIMAL, .required = (need) == MUST,                                \
        .offset = MEMBER(type, member, int64_t), .scale = digits, .low = from, .high = to,                   \
        .empty = when_empty, .meaning = says                                                                 \
    }
#define YES_NO(type, member, column, need, says)                                                             \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_YES_NO, .required = (need) == MUST,                                 \
        .offset = MEMBER(type, member, bool), .meaning = says                                                \
    }
#define WORD(type, member, column, need, list, says)                                                         \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_WORD, .required = (need) == MUST,                                   \
        .offset = MEMBER(type, member, unsigned), .words = list, .meaning = says                             \
    }
#define REFERENCE(type, member, column, need, table, says)                                                   \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_REFERENCE, .required = (need) == MUST,                              \
        .offset = MEMBER(type, member, kit_index), .refers_to = table, .meaning = says                       \
    }
#define REFERENCES(type, member, column, table, says)                                                        \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_REFERENCES, .offset = MEMBER(type, member, kit_indices),            \
        .refers_to = table, .meaning = says                                                                  \
    }
#define DAY(type, member, column, need, says)                                                                \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_DAY, .required = (need) == MUST,                                    \
        .offset = MEMBER(type, member, date_day), .empty = INT32_MAX, .meaning = says                        \
    }
#define CLOCK(type, member, column, need, says)                                                              \
    {                                                                                                        \
        .name = column, .kind = KIT_CELL_CLOCK, .required = (need) == MUST,                                  \
        .offset = MEMBER(type, member, int), .empty = -1, .meaning = says                                    \
    }

#define OF_WORKSHOP(owner) _Generic((owner *)NULL, kit * : false, kit_workshop * : true)

/* A table of many records, and one of a single record. */
#define TABLE(owner, type, list, table, must, keys, cells, says)                                             \
    {                                                                                                        \
        .name = table, .required = (must) == MUST, .key = keys, .meaning = says, .columns = cells,           \
        .n_columns = sizeof(cells) / sizeof((cells)[0]), .record_size = sizeof(type),                        \
        .list_offset = MEMBER(owner, list, type *), .count_offset = MEMBER(owner, n_##list, uint32_t),       \
        .of_workshop = OF_WORKSHOP(owner)                                                                    \
    }
#define RECORD(owner, table, keys, cells, says)                                                              \
    {                                                                                                        \
        .name = table, .required = true, .one_record = true, .key = keys, .meaning = says, .columns = cells, \
        .n_columns = sizeof(cells) / sizeof((cells)[0]), .record_size = sizeof(owner),                       \
        .of_workshop = OF_WORKSHOP(owner)                                                                    \
    }

/* NOLINTEND(bugprone-macro-parentheses) */

#endif
