/* schema.c: the tables of a build file, and its versions. docs/build-file.md explains each of them to others. */
#include "store/schema.h"

#include "base/buf.h"

#include "store/views.h"

/* The journal is only ever added to, in order. */
const char schema_guard_journal[] =
    "CREATE INDEX journal_by_place ON journal (container, line);"
    "CREATE INDEX journal_by_part ON journal (part);"
    "CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal BEGIN"
    " SELECT RAISE(ABORT, 'the journal is only added to'); END;"
    "CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal BEGIN"
    " SELECT RAISE(ABORT, 'the journal is only added to'); END;"
    "CREATE TRIGGER journal_in_order BEFORE INSERT ON journal"
    " WHEN NEW.entry <> (SELECT coalesce(max(entry), 0) + 1 FROM journal) BEGIN"
    " SELECT RAISE(ABORT, 'the journal is only added to at its end'); END;";

/* The journal is made anew when SQLite cannot change it in place; the views, which name it, are made again after the
 * steps. The caller renames it. */
const char schema_release_journal[] =
    "DROP VIEW IF EXISTS journal_told; DROP VIEW IF EXISTS row_stock; DROP VIEW IF EXISTS part_stock;"
    "DROP VIEW IF EXISTS container_check; DROP VIEW IF EXISTS not_on_the_list; DROP VIEW IF EXISTS promised;"
    "DROP TRIGGER journal_no_update; DROP TRIGGER journal_no_delete; DROP TRIGGER journal_in_order;"
    "DROP TRIGGER IF EXISTS journal_known_verb;"
    "DROP INDEX journal_by_place; DROP INDEX journal_by_part; DROP INDEX IF EXISTS journal_sets;";

/* Numbers and texts that an entry does not use are NULL. */
static const char journal_sql[] =
    "CREATE TABLE people ("
    " person TEXT PRIMARY KEY,"
    " name TEXT NOT NULL,"
    " forgotten INTEGER NOT NULL DEFAULT 0 CHECK (forgotten IN (0, 1))"
    ") STRICT;"
    "CREATE TABLE journal (" SCHEMA_WHO
    " verb TEXT NOT NULL CHECK (verb IN ('begin', 'receive', 'count', 'find', 'voltage', 'promise', 'arrive',"
    "  'undo', 'forget'))," SCHEMA_STOCK ") STRICT;";

/* What stands now: follows from the journal (derive.c) and can be dropped and derived again at any time. */
static const char state_sql[] = "CREATE TABLE state_undone ("
                                " entry INTEGER PRIMARY KEY,"
                                " by_entry INTEGER NOT NULL"
                                ") STRICT;"
                                "CREATE TABLE state_counts ("
                                " container TEXT NOT NULL,"
                                " line INTEGER NOT NULL,"
                                " entry INTEGER NOT NULL,"
                                " usable INTEGER NOT NULL,"
                                " damaged INTEGER NOT NULL,"
                                " in_transit INTEGER NOT NULL,"
                                " note TEXT NOT NULL,"
                                " times INTEGER NOT NULL,"
                                " PRIMARY KEY (container, line)"
                                ") STRICT;"
                                "CREATE TABLE state_finds ("
                                " container TEXT NOT NULL,"
                                " what TEXT NOT NULL COLLATE NOCASE,"
                                " entry INTEGER NOT NULL,"
                                " part TEXT,"
                                " quantity INTEGER NOT NULL,"
                                " PRIMARY KEY (container, what)"
                                ") STRICT;"
                                "CREATE TABLE state_receipts ("
                                " container TEXT PRIMARY KEY,"
                                " entry INTEGER NOT NULL,"
                                " mass_g INTEGER,"
                                " damage TEXT NOT NULL,"
                                " at_s INTEGER NOT NULL"
                                ") STRICT;"
                                "CREATE TABLE state_promises ("
                                " part TEXT NOT NULL,"
                                " day INTEGER NOT NULL,"
                                " entry INTEGER NOT NULL,"
                                " quantity INTEGER NOT NULL,"
                                " PRIMARY KEY (part, day)"
                                ") STRICT;"
                                "CREATE TABLE state_arrivals ("
                                " entry INTEGER PRIMARY KEY,"
                                " part TEXT NOT NULL,"
                                " container TEXT,"
                                " line INTEGER,"
                                " usable INTEGER NOT NULL,"
                                " damaged INTEGER NOT NULL"
                                ") STRICT;"
                                "CREATE TABLE state_voltages ("
                                " container TEXT NOT NULL,"
                                " line INTEGER NOT NULL,"
                                " piece INTEGER NOT NULL,"
                                " entry INTEGER NOT NULL,"
                                " millivolts INTEGER NOT NULL,"
                                " PRIMARY KEY (container, line, piece)"
                                ") STRICT;";

/* Version 2: the running build. SQLite cannot widen a CHECK; the rows stay as they are. */
static const char set_aside_sql[] = "ALTER TABLE journal RENAME TO journal_of_version_1;";

static const char journal_2_sql[] =
    "CREATE TABLE journal (" SCHEMA_WHO
    " verb TEXT NOT NULL CHECK (verb IN ('begin', 'receive', 'count', 'find', 'voltage', 'promise', 'arrive',"
    "  'undo', 'forget', 'start', 'change', 'leave', 'block', 'finish', 'strip', 'test', 'move', 'reading',"
    "  'close'))," SCHEMA_STOCK "," SCHEMA_WORK ") STRICT;"
    "INSERT INTO journal (entry, act, at_s, person, device, verb, container, line, part, usable, damaged,"
    " in_transit, mass_g, piece, millivolts, day, instead, undoes, about, note) SELECT entry, act, at_s, person,"
    " device, verb, container, line, part, usable, damaged, in_transit, mass_g, piece, millivolts, day, instead,"
    " undoes, about, note FROM journal_of_version_1 ORDER BY entry;"
    "DROP TABLE journal_of_version_1;";

/* What happened to steps, tests, pieces and batteries: the entries that still stand, in the words of the journal. What
 * follows from them is the stock room's to say. */
static const char state_2_sql[] = "CREATE TABLE state_work ("
                                  " entry INTEGER PRIMARY KEY,"
                                  " at_s INTEGER NOT NULL,"
                                  " step TEXT NOT NULL,"
                                  " verb TEXT NOT NULL,"
                                  " people TEXT NOT NULL,"
                                  " about TEXT NOT NULL,"
                                  " minutes INTEGER,"
                                  " note TEXT NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_results ("
                                  " entry INTEGER PRIMARY KEY,"
                                  " at_s INTEGER NOT NULL,"
                                  " step TEXT NOT NULL,"
                                  " test INTEGER NOT NULL,"
                                  " milli INTEGER NOT NULL,"
                                  " person TEXT NOT NULL,"
                                  " about TEXT NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_moves ("
                                  " entry INTEGER PRIMARY KEY,"
                                  " at_s INTEGER NOT NULL,"
                                  " part TEXT NOT NULL,"
                                  " quantity INTEGER NOT NULL,"
                                  " from_place TEXT NOT NULL,"
                                  " to_place TEXT NOT NULL,"
                                  " container TEXT,"
                                  " line INTEGER,"
                                  " step TEXT"
                                  ") STRICT;"
                                  "CREATE TABLE state_readings ("
                                  " entry INTEGER PRIMARY KEY,"
                                  " at_s INTEGER NOT NULL,"
                                  " container TEXT NOT NULL,"
                                  " line INTEGER NOT NULL,"
                                  " piece INTEGER NOT NULL,"
                                  " millivolts INTEGER NOT NULL,"
                                  " minutes INTEGER,"
                                  " charged INTEGER NOT NULL"
                                  ") STRICT;"
                                  "CREATE TABLE state_closings ("
                                  " entry INTEGER PRIMARY KEY,"
                                  " at_s INTEGER NOT NULL,"
                                  " note TEXT NOT NULL"
                                  ") STRICT;";

text schema_table_name(arena *a, const kit_table_form *form) {
    return arena_format(a, "%s_%s", form->of_workshop ? "workshop" : "kit", form->name);
}

/* A table of the kit or the workshop as it was read: texts, by the row of the maker's own table. */
static bool create_raw_table(store *s, const kit_table_form *form, err *e) {
    arena *a = arena_open();
    buf sql = {0};
    buf_addf(&sql, "CREATE TABLE \"%s\" (sheet_row INTEGER PRIMARY KEY", schema_table_name(a, form).at);
    for (uint32_t i = 0; i < form->n_columns; i++)
        buf_addf(&sql, ", \"%s\" TEXT NOT NULL DEFAULT ''", form->columns[i].name);
    buf_add_z(&sql, ") STRICT");
    bool ok = sql_run(s, sql.at, e);
    buf_free(&sql);
    arena_close(a);
    return ok;
}

static bool create_first_version(store *s, err *e) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    for (uint32_t i = 0; i < n; i++)
        if (!create_raw_table(s, &forms[i], e))
            return false;
    return sql_run(s, journal_sql, e) && sql_run(s, schema_guard_journal, e) && sql_run(s, state_sql, e);
}

static bool add_running_build(store *s, err *e) {
    return sql_run(s, schema_release_journal, e) && sql_run(s, set_aside_sql, e) &&
           sql_run(s, journal_2_sql, e) && sql_run(s, schema_guard_journal, e) && sql_run(s, state_2_sql, e);
}

/* Version 4: what the crew was told. It follows from the journal's rows of that verb as they stand. */
static bool add_announcing(store *s, err *e) {
    return sql_run(s, "INSERT INTO verbs (verb) VALUES ('announce')", e);
}

/* A new version is a new line here; a step that once shipped is never changed. */
static const migration migrations[] = {create_first_version, add_running_build, schema_add_shared_use,
                                       add_announcing};
_Static_assert(sizeof migrations / sizeof migrations[0] == STORE_VERSION, "one step for each version");

const migration *store_migrations(uint32_t *n) {
    *n = STORE_VERSION;
    return migrations;
}

static bool make_views(store *s, err *e) {
    for (size_t i = 0; i < store_n_views; i++) {
        buf sql = {0};
        buf_addf(&sql, "DROP VIEW IF EXISTS %s; CREATE VIEW %s AS %s", store_views[i].name,
                 store_views[i].name, store_views[i].select);
        bool ok = sql_run(s, sql.at, e);
        buf_free(&sql);
        if (!ok)
            return false;
    }
    return true;
}

static bool run_steps(store *s, const migration *steps, int64_t from, uint32_t n, err *e) {
    for (int64_t i = from; i < n; i++)
        if (!steps[i](s, e))
            return false;
    buf sql = {0};
    buf_addf(&sql, "PRAGMA application_id=%d; PRAGMA user_version=%u", STORE_APPLICATION_ID, n);
    bool ok = make_views(s, e) && sql_run(s, sql.at, e);
    buf_free(&sql);
    return ok;
}

bool store_migrate(store *s, const migration *steps, uint32_t n, err *e) {
    int64_t version;
    if (!sql_number(s, "PRAGMA user_version", &version, e))
        return false;
    if (version > n)
        return err_run(e, s->path, "use the newer program",
                       "it was made by a newer kitbench (file version %lld; this one knows %u)",
                       (long long)version, n);
    if (version == n)
        return true;
    /* Somebody else may have done it meanwhile: look again with the lock held. */
    if (!sql_run(s, "BEGIN IMMEDIATE", e))
        return false;
    bool ok = sql_number(s, "PRAGMA user_version", &version, e) &&
              (version == n || run_steps(s, steps, version, n, e)) && sql_run(s, "COMMIT", e);
    if (!ok)
        sqlite3_exec(s->db, "ROLLBACK", NULL, NULL, NULL);
    return ok;
}
