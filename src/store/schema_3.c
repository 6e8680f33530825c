/* schema_3.c: version 3 of the build file: pictures, shared use by several people and devices, a crew and dates that
 * are changed in the file. docs/build-file.md explains each table to others. */
#include "store/schema.h"

/* The verbs become rows of a table, so that another one needs no new journal. `once`: a name that a device gave the
 * act, so that the same act sent twice is written once. */
static const char journal_3_sql[] =
    "ALTER TABLE journal RENAME TO journal_of_version_2;"
    "CREATE TABLE verbs (verb TEXT PRIMARY KEY) STRICT;"
    "INSERT INTO verbs (verb) VALUES ('begin'), ('receive'), ('count'), ('find'), ('voltage'), ('promise'),"
    " ('arrive'), ('undo'), ('forget'), ('start'), ('change'), ('leave'), ('block'), ('finish'), ('strip'),"
    " ('test'), ('move'), ('reading'), ('close'), ('recount'), ('hold'), ('back'), ('label'), ('tool'), ('report'),"
    " ('set'), ('rename'), ('code');"
    "CREATE TABLE journal (" SCHEMA_WHO " verb TEXT NOT NULL REFERENCES verbs (verb)," SCHEMA_STOCK
    "," SCHEMA_WORK ","
    " tool TEXT,"
    " sheet TEXT CHECK (sheet IN ('workshop', 'crew', 'sessions', 'attendance', 'tools', 'workplaces')),"
    " key TEXT,"
    " cells TEXT,"
    " once TEXT UNIQUE"
    ") STRICT;"
    "INSERT INTO journal (entry, act, at_s, person, device, verb, container, line, part, usable, damaged,"
    " in_transit, mass_g, piece, millivolts, day, instead, undoes, about, note, step, test, milli, minutes,"
    " people, from_place, to_place) SELECT entry, act, at_s, person, device, verb, container, line, part,"
    " usable, damaged, in_transit, mass_g, piece, millivolts, day, instead, undoes, about, note, step, test,"
    " milli, minutes, people, from_place, to_place FROM journal_of_version_2 ORDER BY entry;"
    "DROP TABLE journal_of_version_2;"
    "CREATE INDEX journal_sets ON journal (sheet, key, entry) WHERE verb = 'set';"
    "CREATE TRIGGER journal_known_verb BEFORE INSERT ON journal"
    " WHEN NEW.verb NOT IN (SELECT verb FROM verbs) BEGIN" /* whether the client heeds references or not */
    " SELECT RAISE(ABORT, 'the journal knows no such verb'); END;";

/* Beside the journal: bytes, and what nobody may read out of it. A code's person is '' for the code to join with. */
static const char beside_sql[] = "CREATE TABLE kit_pictures ("
                                 " picture TEXT PRIMARY KEY,"
                                 " bytes BLOB NOT NULL"
                                 ") STRICT;"
                                 "CREATE TABLE photos ("
                                 " entry INTEGER PRIMARY KEY REFERENCES journal (entry),"
                                 " bytes BLOB NOT NULL"
                                 ") STRICT;"
                                 "CREATE TABLE codes ("
                                 " person TEXT PRIMARY KEY,"
                                 " hash TEXT NOT NULL,"
                                 " wrong_tries INTEGER NOT NULL DEFAULT 0 CHECK (wrong_tries >= 0)"
                                 ") STRICT;"
                                 "CREATE TABLE devices ("
                                 " device TEXT PRIMARY KEY,"
                                 " token BLOB NOT NULL UNIQUE,"
                                 " person TEXT NOT NULL DEFAULT '',"
                                 " place TEXT NOT NULL DEFAULT '',"
                                 " since_s INTEGER NOT NULL"
                                 ") STRICT;";

static const char state_3_sql[] = "CREATE TABLE state_recounts ("
                                  " entry INTEGER PRIMARY KEY,"
                                  " container TEXT NOT NULL,"
                                  " line INTEGER NOT NULL,"
                                  " usable INTEGER NOT NULL,"
                                  " damaged INTEGER NOT NULL,"
                                  " person TEXT NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_holds ("
                                  " container TEXT PRIMARY KEY,"
                                  " entry INTEGER NOT NULL,"
                                  " at_s INTEGER NOT NULL,"
                                  " people TEXT NOT NULL,"
                                  " place TEXT NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_labels ("
                                  " part TEXT PRIMARY KEY,"
                                  " entry INTEGER NOT NULL,"
                                  " label TEXT NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_tools ("
                                  " tool TEXT PRIMARY KEY,"
                                  " entry INTEGER NOT NULL,"
                                  " at_s INTEGER NOT NULL,"
                                  " quantity INTEGER NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_reports ("
                                  " part TEXT PRIMARY KEY,"
                                  " entry INTEGER NOT NULL,"
                                  " at_s INTEGER NOT NULL,"
                                  " quantity INTEGER NOT NULL,"
                                  " note TEXT NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_rows ("
                                  " sheet TEXT NOT NULL,"
                                  " key TEXT NOT NULL,"
                                  " entry INTEGER NOT NULL,"
                                  " cells TEXT,"
                                  " PRIMARY KEY (sheet, key)"
                                  ") STRICT;";

bool schema_add_shared_use(store *s, err *e) {
    return sql_run(s, schema_release_journal, e) && sql_run(s, journal_3_sql, e) &&
           sql_run(s, schema_guard_journal, e) && sql_run(s, beside_sql, e) && sql_run(s, state_3_sql, e);
}
