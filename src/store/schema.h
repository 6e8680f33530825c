/* schema.h: the tables and views of a build file, and how an older file is brought up to date; private to the room. */
#ifndef STORE_SCHEMA_H
#define STORE_SCHEMA_H

#include "store/sql.h"

enum {
    STORE_APPLICATION_ID = 0x4B697442, /* "KitB" */
    STORE_VERSION = 3
};

/* One step from version i to i + 1; runs inside the transaction that store_migrate opened. */
typedef bool (*migration)(store *s, err *e);

/* Version 3: several people and devices at one build, and its crew and dates changed in the file (schema_3.c). */
MUST_USE bool schema_add_shared_use(store *s, err *e);

/* Triggers and indices of the journal; and what must go before it is made anew. */
extern const char schema_guard_journal[], schema_release_journal[];

/* All steps of this program; `n` gets STORE_VERSION. */
const migration *store_migrations(uint32_t *n);

/* Brings the file from the version it has to `n`, all steps and the views in one transaction, or leaves it as it was.
 * A file of a version above `n` is ERR_RUN. Does nothing when it is up to date. */
MUST_USE bool store_migrate(store *s, const migration *steps, uint32_t n, err *e);

/* "kit_parts" or "workshop_crew": the table of the build file that holds a form's rows. */
text schema_table_name(arena *a, const kit_table_form *form);

#endif
