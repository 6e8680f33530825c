/* reading.h: reading lists of the state out of the file, with its names matched to the kit; private to the room. */
#ifndef STORE_READING_H
#define STORE_READING_H

#include "store/sql.h"

typedef struct {
    arena *memory;
    store *file;
    const kit *kit;
    stock_record *out;
    err *e;
    size_t cap; /* of the list that is being read */
} reading;

/* Says that the file is damaged: it names a `what` that its kit does not have. Returns false. */
bool reading_strange(reading *r, const char *what);

/* A row (container and line in two columns), a part and a container, by number. */
bool reading_row(reading *r, sqlite3_stmt *st, int at, kit_index *row);
bool reading_part(reading *r, sqlite3_stmt *st, int at, kit_index *part);
bool reading_container(reading *r, sqlite3_stmt *st, int at, kit_index *container);

/* "P1;P3" */
kit_texts reading_people(arena *a, text all);

/* Runs the query and gives each of its rows to `take`. */
bool reading_list(reading *r, const char *sql, bool (*take)(reading *, sqlite3_stmt *));

/* Steps, tests, pieces and batteries of the running build (read_work.c). */
bool reading_work(reading *r);

/* Who has which box, second counts, labels, tools, what was asked for (read_shared.c). */
bool reading_shared(reading *r);

#endif
