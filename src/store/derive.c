/* derive.c: what stands now follows from the journal.
 *
 * Each kind of entry speaks about one thing: a count about its row, a promise about its part. When an entry is written
 * or undone, what is known about its thing is dropped and derived again from all entries about it that still stand. So
 * it makes no difference whether the state grew entry by entry or is derived from the whole journal at once, and an
 * undo needs no inverse.
 */
#include "store/derive.h"

#define STANDS(alias) alias ".entry NOT IN (SELECT entry FROM state_undone)"

/* `drop` and `derive` take one parameter: the number of an entry about the thing. */
typedef struct {
    const char *verb;
    const char *drop;
    const char *derive;
} derivation;

/* What happened to a step is kept event by event. */
#define WORK                                                                                                 \
    "DELETE FROM state_work WHERE entry = ?1",                                                               \
        "INSERT INTO state_work (entry, at_s, step, verb, people, about, minutes, note)"                     \
        " SELECT j.entry, j.at_s, j.step, j.verb, coalesce(j.people, ''), coalesce(j.about, ''), j.minutes," \
        " j.note FROM journal j WHERE j.entry = ?1 AND " STANDS("j")

/* A box or bag lies with those who took it last, until it is brought back. */
#define HOLD                                                                                                 \
    "DELETE FROM state_holds WHERE container = (SELECT container FROM journal WHERE entry = ?1)",            \
        "INSERT INTO state_holds (container, entry, at_s, people, place)"                                    \
        " SELECT container, entry, at_s, people, note FROM (SELECT j.container, j.entry, j.at_s, j.verb,"    \
        "  coalesce(j.people, '') AS people, j.note FROM journal j WHERE j.verb IN ('hold', 'back')"         \
        "  AND j.container = (SELECT container FROM journal WHERE entry = ?1) AND " STANDS(                  \
            "j") " ORDER BY j.entry DESC LIMIT 1) WHERE verb = 'hold'"

static const derivation derivations[] = {
    {"receive",
     "DELETE FROM state_receipts WHERE container = (SELECT container FROM journal WHERE entry = ?1)",
     "INSERT INTO state_receipts (container, entry, mass_g, damage, at_s)"
     " SELECT j.container, j.entry, j.mass_g, j.note, j.at_s FROM journal j WHERE j.verb = 'receive'"
     " AND j.container = (SELECT container FROM journal WHERE entry = ?1) AND " STANDS(
         "j") " ORDER BY j.entry DESC LIMIT 1"},
    {"count",
     "DELETE FROM state_counts WHERE (container, line) = "
     "(SELECT container, line FROM journal WHERE entry = ?1)",
     "INSERT INTO state_counts (container, line, entry, usable, damaged, in_transit, note, times)"
     " SELECT j.container, j.line, j.entry, j.usable, j.damaged, j.in_transit, j.note,"
     "  (SELECT count(*) FROM journal k WHERE k.verb = 'count' AND k.container = j.container"
     "   AND k.line = j.line AND " STANDS(
         "k") ")"
              " FROM journal j WHERE j.verb = 'count'"
              " AND (j.container, j.line) = (SELECT container, line FROM journal WHERE entry = ?1) AND " STANDS(
                  "j") " ORDER BY j.entry DESC LIMIT 1"},
    {"find",
     "DELETE FROM state_finds WHERE (container, what) = "
     "(SELECT container, note FROM journal WHERE entry = ?1)",
     "INSERT INTO state_finds (container, what, entry, part, quantity)"
     " SELECT container, note, entry, part, usable FROM (SELECT * FROM journal j WHERE j.verb = 'find'"
     "  AND j.container = (SELECT container FROM journal WHERE entry = ?1)"
     "  AND j.note = (SELECT note FROM journal WHERE entry = ?1) COLLATE NOCASE AND " STANDS(
         "j") "  ORDER BY j.entry DESC LIMIT 1) WHERE usable > 0"},
    {"voltage",
     "DELETE FROM state_voltages WHERE (container, line, piece) = "
     "(SELECT container, line, piece FROM journal WHERE entry = ?1)",
     "INSERT INTO state_voltages (container, line, piece, entry, millivolts)"
     " SELECT j.container, j.line, j.piece, j.entry, j.millivolts FROM journal j WHERE j.verb = 'voltage'"
     " AND (j.container, j.line, j.piece) = (SELECT container, line, piece FROM journal WHERE entry = ?1)"
     " AND " STANDS("j") " ORDER BY j.entry DESC LIMIT 1"},
    {"promise", "DELETE FROM state_promises WHERE part = (SELECT part FROM journal WHERE entry = ?1)",
     "INSERT INTO state_promises (part, day, entry, quantity)"
     " SELECT p.part, p.day, p.entry, p.usable FROM journal p WHERE p.verb = 'promise' AND p.usable > 0"
     " AND p.part = (SELECT part FROM journal WHERE entry = ?1) AND " STANDS(
         "p") " AND NOT EXISTS (SELECT 1 FROM journal q WHERE q.verb = 'promise' AND q.part = p.part"
              "  AND q.entry > p.entry AND (q.day = p.day OR q.instead = 1) AND " STANDS("q") ")"},
    {"arrive", "DELETE FROM state_arrivals WHERE entry = ?1",
     "INSERT INTO state_arrivals (entry, part, container, line, usable, damaged)"
     " SELECT j.entry, j.part, j.container, j.line, j.usable, j.damaged FROM journal j"
     " WHERE j.entry = ?1 AND " STANDS("j")},
    {"start", WORK},
    {"change", WORK},
    {"leave", WORK},
    {"block", WORK},
    {"finish", WORK},
    {"strip", WORK},
    {"test", "DELETE FROM state_results WHERE entry = ?1",
     "INSERT INTO state_results (entry, at_s, step, test, milli, person, about)"
     " SELECT j.entry, j.at_s, j.step, j.test, j.milli, coalesce(j.person, ''), coalesce(j.about, '')"
     " FROM journal j WHERE j.entry = ?1 AND " STANDS("j")},
    {"move", "DELETE FROM state_moves WHERE entry = ?1",
     "INSERT INTO state_moves (entry, at_s, part, quantity, from_place, to_place, container, line, step)"
     " SELECT j.entry, j.at_s, j.part, j.usable, j.from_place, j.to_place, j.container, j.line, j.step"
     " FROM journal j WHERE j.entry = ?1 AND " STANDS("j")},
    {"reading", "DELETE FROM state_readings WHERE entry = ?1",
     "INSERT INTO state_readings (entry, at_s, container, line, piece, millivolts, minutes, charged)"
     " SELECT j.entry, j.at_s, j.container, j.line, j.piece, j.millivolts, j.minutes, j.instead"
     " FROM journal j WHERE j.entry = ?1 AND " STANDS("j")},
    {"close", "DELETE FROM state_closings WHERE entry = ?1",
     "INSERT INTO state_closings (entry, at_s, note)"
     " SELECT j.entry, j.at_s, j.note FROM journal j WHERE j.entry = ?1 AND " STANDS("j")},
    {"recount", "DELETE FROM state_recounts WHERE entry = ?1",
     "INSERT INTO state_recounts (entry, container, line, usable, damaged, person)"
     " SELECT j.entry, j.container, j.line, j.usable, j.damaged, coalesce(j.person, '') FROM journal j"
     " WHERE j.entry = ?1 AND " STANDS("j")},
    {"hold", HOLD},
    {"back", HOLD},
    {"label", "DELETE FROM state_labels WHERE part = (SELECT part FROM journal WHERE entry = ?1)",
     "INSERT INTO state_labels (part, entry, label) SELECT part, entry, note FROM (SELECT * FROM journal j"
     " WHERE j.verb = 'label' AND j.part = (SELECT part FROM journal WHERE entry = ?1) AND " STANDS(
         "j") " ORDER BY j.entry DESC LIMIT 1) WHERE note <> ''"},
    {"tool", "DELETE FROM state_tools WHERE tool = (SELECT tool FROM journal WHERE entry = ?1)",
     "INSERT INTO state_tools (tool, entry, at_s, quantity) SELECT j.tool, j.entry, j.at_s, j.usable"
     " FROM journal j WHERE j.verb = 'tool' AND j.tool = (SELECT tool FROM journal WHERE entry = ?1) AND " STANDS(
         "j") " ORDER BY j.entry DESC LIMIT 1"},
    {"report", "DELETE FROM state_reports WHERE part = (SELECT part FROM journal WHERE entry = ?1)",
     "INSERT INTO state_reports (part, entry, at_s, quantity, note)"
     " SELECT part, entry, at_s, usable, note FROM (SELECT * FROM journal j WHERE j.verb = 'report'"
     "  AND j.part = (SELECT part FROM journal WHERE entry = ?1) AND " STANDS(
         "j") " ORDER BY j.entry DESC LIMIT 1) WHERE usable > 0"},
    {"set", "DELETE FROM state_rows WHERE (sheet, key) = (SELECT sheet, key FROM journal WHERE entry = ?1)",
     "INSERT INTO state_rows (sheet, key, entry, cells) SELECT j.sheet, j.key, j.entry, j.cells"
     " FROM journal j WHERE j.verb = 'set'"
     " AND (j.sheet, j.key) = (SELECT sheet, key FROM journal WHERE entry = ?1) AND " STANDS(
         "j") " ORDER BY j.entry DESC LIMIT 1"},
};

static bool run_with(store *s, const char *sql, int64_t entry, err *e) {
    sqlite3_stmt *st = sql_prepare(s, sql, e);
    if (!st)
        return false;
    sql_bind_number(st, 1, entry);
    return sql_finish(s, st, e);
}

/* The verb of an entry, and what it undoes when it is an undo (0 otherwise). */
static bool look_up(store *s, int64_t entry, const derivation **how, int64_t *undoes, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT verb, undoes FROM journal WHERE entry = ?1", e);
    if (!st)
        return false;
    sql_bind_number(st, 1, entry);
    int got = sql_next(s, st, e);
    *how = NULL;
    *undoes = 0;
    if (got == 1) {
        text verb = text_of((const char *)sqlite3_column_text(st, 0));
        *undoes = sql_number_at(st, 1, 0);
        for (size_t i = 0; i < sizeof derivations / sizeof derivations[0]; i++)
            if (text_is(verb, derivations[i].verb))
                *how = &derivations[i];
    }
    sqlite3_finalize(st);
    return got >= 0;
}

static bool mark(store *s, int64_t entry, int64_t by, err *e) {
    sqlite3_stmt *st =
        sql_prepare(s,
                    by ? "INSERT OR REPLACE INTO state_undone (entry, by_entry) VALUES (?1, ?2)"
                       : "DELETE FROM state_undone WHERE entry = ?1",
                    e);
    if (!st)
        return false;
    sql_bind_number(st, 1, entry);
    if (by)
        sql_bind_number(st, 2, by);
    return sql_finish(s, st, e);
}

/* An undo takes its target away; when the target is itself an undo, that one's target stands again, and so on. */
bool derive_entry(store *s, int64_t entry, err *e) {
    bool away = false;
    for (int64_t by = 0, at = entry;;) {
        if (by && !mark(s, at, away ? by : 0, e))
            return false;
        const derivation *how;
        int64_t undoes;
        if (!look_up(s, at, &how, &undoes, e))
            return false;
        if (how && !(run_with(s, how->drop, at, e) && run_with(s, how->derive, at, e)))
            return false;
        if (!undoes)
            return true;
        by = at;
        at = undoes;
        away = !away;
    }
}

static const char drop_state[] =
    "DELETE FROM state_undone; DELETE FROM state_counts; DELETE FROM state_finds;"
    "DELETE FROM state_receipts; DELETE FROM state_promises;"
    "DELETE FROM state_arrivals; DELETE FROM state_voltages; DELETE FROM state_work;"
    "DELETE FROM state_results; DELETE FROM state_moves; DELETE FROM state_readings;"
    "DELETE FROM state_closings; DELETE FROM state_recounts; DELETE FROM state_holds;"
    "DELETE FROM state_labels; DELETE FROM state_tools; DELETE FROM state_reports; DELETE FROM state_rows";

static bool derive_all(store *s, err *e) {
    int64_t last;
    if (!sql_run(s, drop_state, e) || !sql_number(s, "SELECT max(entry) FROM journal", &last, e))
        return false;
    for (int64_t i = 1; i <= last; i++)
        if (!derive_entry(s, i, e))
            return false;
    return true;
}

bool store_rebuild(store *s, err *e) {
    if (!store_begin(s, e))
        return false;
    bool ok = derive_all(s, e) && store_commit(s, e);
    store_abandon(s);
    return ok;
}
