/* store.h: the build file: one SQLite file in which everything that happens to a build is a row of a journal.
 *
 * What is in it is documented for any SQLite client in docs/build-file.md: the kit's and the workshop's tables as they
 * were read, the journal, the state that follows from it, the people's names (nowhere else), and views.
 *
 * Every change is one act: store_begin, one or more store_append, store_commit. The journal is only ever added to (triggers
 * in the file refuse anything else); the state tables are derived in the same transaction, and store_rebuild derives
 * them anew from the journal alone. Undoing is another row.
 *
 * Durability: rollback journal and synchronous=FULL, so what store_commit acknowledged survives a crash. One writer at
 * a time; another waits two seconds and then fails with ERR_RUN, naming who is writing and since when.
 *
 * A store is one connection and belongs to one thread. SQL exists in this room and nowhere else.
 */
#ifndef STORE_STORE_H
#define STORE_STORE_H

#include "base/buf.h"
#include "kit/kit.h"
#include "stock/stock.h"

typedef struct store store;

typedef enum { STORE_READ, STORE_WRITE } store_mode;

/* What an entry of the journal tells. The words stand in the file (docs/build-file.md). */
typedef enum {
    STORE_BEGIN,   /* the build file was begun */
    STORE_RECEIVE, /* container, mass_g, note = damage */
    STORE_COUNT,   /* container, line, usable, damaged, in_transit, note */
    STORE_FIND,    /* container, note = what, usable = how many (0: none after all), part when known */
    STORE_VOLTAGE, /* container, line, piece, millivolts */
    STORE_PROMISE, /* part, usable = how many (0: withdrawn), day, instead = takes the place of all earlier ones */
    STORE_ARRIVE, /* part, usable, damaged, container, line where they were put (empty, 0: nowhere) */
    STORE_UNDO,   /* undoes = entry */
    STORE_FORGET, /* person of whom the name was blanked: `about` */
    /* The running build. `people`: who works on the step; `about`: the supervisor who confirmed, or who signed. */
    STORE_START,  /* step, people, about: begun, or gone on with */
    STORE_CHANGE, /* step, people: others go on with it */
    STORE_LEAVE,  /* step: left unfinished */
    STORE_BLOCK,  /* step, note = reason */
    STORE_FINISH, /* step, minutes when they were said */
    STORE_STRIP,  /* step, note = reason: what it fitted comes off again */
    STORE_TEST,   /* step, test, milli, about; person = who measured */
    STORE_MOVE, /* part, usable = how many, from_place, to_place, container and line of a row, step of a tub or fitted */
    STORE_READING, /* container, line, piece, millivolts, minutes of rest, instead = was charged to full then */
    STORE_CLOSE,   /* a closing count was done; note = what is missing, empty when nothing is */
    /* Several people at one build. */
    STORE_RECOUNT, /* container, line, usable, damaged: counted again by somebody who was not shown the count */
    STORE_HOLD,    /* container, people, note = where they sit: they have this box or bag */
    STORE_BACK,    /* container: it is back where it came from */
    STORE_LABEL,   /* part, note = the compartment it lies in; empty: none */
    STORE_TOOL,    /* tool, usable = how many are here */
    STORE_REPORT, /* part, usable = how many the maker was asked for (0: not asked after all), note */
    STORE_SET,    /* sheet, key, cells: a row of the workshop's tables is this now; cells empty: it is gone */
    STORE_RENAME, /* about: this person's name was written anew */
    STORE_CODE,   /* about (empty: the code to join with), note: a code was set or taken away */
    STORE_ANNOUNCE, /* step, day, minutes = clock minute it starts at, usable = minutes long, people, about = beside */
    STORE_VERBS
} store_verb;

const char *store_verb_word(store_verb v);

/* One row of the journal. Texts that are not used are empty, numbers that are not used are -1 (line: 0). */
typedef struct {
    int64_t entry; /* 1.. in the order of writing */
    int64_t act;   /* entry of the first row of the same act */
    int64_t at_s;  /* wall clock, seconds since 1970-01-01 00:00 */
    text person;   /* by number, empty when not said */
    text device;
    store_verb verb;
    text container;
    int64_t line;
    text part;
    int64_t usable, damaged;
    bool in_transit;
    int64_t mass_g, piece, millivolts;
    date_day day; /* INT32_MAX when not used */
    bool instead;
    int64_t undoes;
    text about;
    text note;
    text step;
    int64_t test;  /* of its step, from 1; -1 when not used */
    int64_t milli; /* the measured value in thousandths; INT64_MIN when not used; 1000 is yes */
    int64_t minutes;
    text people; /* numbers with ';' between */
    text from_place, to_place;
    text tool;
    text sheet, key, cells; /* "crew", "P3", a JSON object of the row's cells without the name */
    text once;   /* the name that a device gave the act, so that it is written once; on its first row */
    bool undone; /* filled by store_read_journal */
} store_entry;

/* An entry with nothing in it but its verb. */
store_entry store_entry_of(store_verb verb);

/* A picture of the kit by the name that its tables use, and the bytes of its file. */
typedef struct {
    text name, bytes;
} store_picture;

/* What a new build file is made of. */
typedef struct {
    const kit_tables *kit_raw;
    const kit_tables *workshop_raw; /* NULL: no workshop */
    const store_picture *pictures;
    uint32_t n_pictures;
    store_entry begin; /* its first entry */
} store_content;

/* Makes a new build file. Whole or not at all. Fails when there is something of that name. */
MUST_USE bool store_create(const char *path, const store_content *content, err *e);

/* Opens. `command` is what another writer is told ("count"). Fails clearly on what is no build file, is damaged or was
 * made by a newer program. An older file is brought up to date first. Close with store_close (NULL is allowed). */
MUST_USE bool store_open(const char *path, store_mode mode, const char *command, store **out, err *e);
void store_close(store *s);

/* The tables as they were read, the workshop's with what was set since, names of people filled in from where they stand
 * (a forgotten name: the number). The workshop's list is empty when the file has none. */
MUST_USE bool store_read_tables(arena *a, store *s, kit_tables *kit_raw, kit_tables *workshop_raw, err *e);

/* What stands now. Entries about rows the kit does not have are a damaged file. Names of finds are matched by the kit. */
MUST_USE bool store_read_record(arena *a, store *s, const kit *k, stock_record *out, err *e);

/* The journal, oldest first, from entry `from` on. */
MUST_USE bool store_read_journal(arena *a, store *s, int64_t from, store_entry **out, size_t *n, err *e);

/* What the crew was told last, and nobody took back: the entries of one act, a stretch of work each; none: nothing was. */
MUST_USE bool store_read_announced(arena *a, store *s, store_entry **out, size_t *n, err *e);

/* Number and time of the last entry. */
MUST_USE bool store_read_last(store *s, int64_t *entry, int64_t *at_s, err *e);

/* A writing transaction. Reading inside it sees what it wrote. After a failure of append or commit nothing of the act
 * is in the file; store_abandon ends it (and is harmless after). */
MUST_USE bool store_begin(store *s, err *e);
MUST_USE bool store_append(store *s, const store_entry *entry, int64_t *number, err *e);
MUST_USE bool store_commit(store *s, err *e);
void store_abandon(store *s);

/* One consistent view for several reads in a row; ended by store_end_read. */
MUST_USE bool store_begin_read(store *s, err *e);
void store_end_read(store *s);

/* People: number and name; a forgotten name is empty. */
typedef struct {
    text number, name;
} store_person;
MUST_USE bool store_read_people(arena *a, store *s, store_person **out, uint32_t *n, err *e);

/* Inside a writing transaction: a helper who is in no crew table gets the next number ("helper 1"). */
MUST_USE bool store_add_person(arena *a, store *s, text name, text *number, err *e);

/* Blanks the name for good: writes the entry, then rewrites the file so that no free page holds it. Outside a
 * transaction. False with ERR_RUN when the rewriting failed; the name is blank then, but remnants may remain. */
MUST_USE bool store_forget(store *s, const store_entry *entry, err *e);

/* Inside a writing transaction: writes a person's name, who is added when the number is new. */
MUST_USE bool store_name_person(store *s, text number, text name, err *e);

/* The bytes of one of the kit's pictures; empty when the file has none of that name. */
MUST_USE bool store_read_picture(arena *a, store *s, text name, text *bytes, err *e);

/* Photos of what was found: one for an entry. Adding one is part of the act that wrote the entry. */
MUST_USE bool store_add_photo(store *s, int64_t entry, text bytes, err *e);
MUST_USE bool store_read_photo(arena *a, store *s, int64_t entry, text *bytes, err *e);

/* The act that was given this name (store_entry.once); 0: none. */
MUST_USE bool store_find_once(store *s, text once, int64_t *act, err *e);

/* Codes: the hash of a person's code, or of the one to join with (person empty). Inside a writing transaction, but for
 * the reading ones. A hash that is empty takes the code away. Setting one forgets the wrong tries. */
typedef struct {
    text person, hash;
    int64_t wrong_tries;
} store_code;
MUST_USE bool store_read_codes(arena *a, store *s, store_code **out, uint32_t *n, err *e);
MUST_USE bool store_set_code(store *s, text person, text hash, err *e);
MUST_USE bool store_set_wrong_tries(store *s, text person, int64_t n, err *e);

/* Devices that joined. `token` is what only the device knows, hashed. A device belongs to a person (a supervisor's own
 * phone) or to nobody; `place` is the table it lies on. */
typedef struct {
    text device, token, person, place;
    int64_t since_s;
} store_device;
MUST_USE bool store_read_devices(arena *a, store *s, store_device **out, uint32_t *n, err *e);
MUST_USE bool store_put_device(store *s, const store_device *device, err *e);
MUST_USE bool store_drop_device(store *s, text device, err *e);

/* A consistent copy of a build in use. Whole or not at all; fails when there is something of that name. */
MUST_USE bool store_copy(store *s, const char *out_path, err *e);

/* All that was put in as JSON (docs/export.md): kit, workshop, people, journal, pictures. Codes and devices are not in it. */
MUST_USE bool store_export(store *s, buf *out, err *e);

/* Makes the build file `path` anew from such an export; `source` names it in failures. What follows from the journal is
 * derived again. Whether the kit in it is right is not looked at here. */
MUST_USE bool store_restore(const char *path, const char *source, text json, err *e);

/* Drops the derived tables and derives them from the journal alone, in one transaction. */
MUST_USE bool store_rebuild(store *s, err *e);

#endif
