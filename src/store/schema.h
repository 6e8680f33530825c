/* schema.h: the tables and views of a build file, and how an older file is brought up to date; private to the room. */
#ifndef STORE_SCHEMA_H
#define STORE_SCHEMA_H

#include "store/sql.h"

enum {
    STORE_APPLICATION_ID = 0x4B697442, /* "KitB" */
    STORE_VERSION = 4
};

/* One step from version i to i + 1; runs inside the transaction that store_migrate opened. */
typedef bool (*migration)(store *s, err *e);

/* Columns of the journal that are the same in several versions; like a step, never changed. */
#define SCHEMA_WHO                                                                                           \
    " entry INTEGER PRIMARY KEY CHECK (entry >= 1),"                                                         \
    " act INTEGER NOT NULL CHECK (act BETWEEN 1 AND entry),"                                                 \
    " at_s INTEGER NOT NULL,"                                                                                \
    " person TEXT REFERENCES people (person),"                                                               \
    " device TEXT NOT NULL,"
#define SCHEMA_STOCK                                                                                         \
    " container TEXT,"                                                                                       \
    " line INTEGER,"                                                                                         \
    " part TEXT,"                                                                                            \
    " usable INTEGER CHECK (usable >= 0),"                                                                   \
    " damaged INTEGER CHECK (damaged >= 0),"                                                                 \
    " in_transit INTEGER NOT NULL DEFAULT 0 CHECK (in_transit IN (0, 1)),"                                   \
    " mass_g INTEGER CHECK (mass_g >= 0),"                                                                   \
    " piece INTEGER CHECK (piece >= 1),"                                                                     \
    " millivolts INTEGER CHECK (millivolts >= 0),"                                                           \
    " day INTEGER,"                                                                                          \
    " instead INTEGER NOT NULL DEFAULT 0 CHECK (instead IN (0, 1)),"                                         \
    " undoes INTEGER REFERENCES journal (entry),"                                                            \
    " about TEXT REFERENCES people (person),"                                                                \
    " note TEXT NOT NULL DEFAULT ''"
#define SCHEMA_WORK                                                                                          \
    " step TEXT,"                                                                                            \
    " test INTEGER CHECK (test >= 1),"                                                                       \
    " milli INTEGER,"                                                                                        \
    " minutes INTEGER CHECK (minutes >= 0),"                                                                 \
    " people TEXT,"                                                                                          \
    " from_place TEXT CHECK (from_place IN ('row', 'compartment', 'tub', 'fitted', 'lost', 'scrapped')),"    \
    " to_place TEXT CHECK (to_place IN ('row', 'compartment', 'tub', 'fitted', 'lost', 'scrapped'))"

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
