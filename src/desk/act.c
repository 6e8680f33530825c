/* act.c: every change of a build is one act: one transaction, one time, one person, one device. */
#include "desk/act.h"

#include "desk/sheet_row.h"

#include "base/sys.h"
#include "base/utf8.h"

enum { LONGEST_TEXT = 500 };

store_entry act_entry(const store_entry *stamp, store_verb verb) {
    store_entry n = store_entry_of(verb);
    n.at_s = stamp->at_s;
    n.person = stamp->person;
    n.device = stamp->device;
    n.once = stamp->once;
    return n;
}

bool act_check_text(text t, const char *what, err *e) {
    if (utf8_fault(t) >= 0)
        return err_input(e, what, "type it again on a terminal set to UTF-8", "it is not UTF-8 text");
    for (size_t i = 0; i < t.len; i++)
        if ((unsigned char)t.at[i] < ' ')
            return err_input(e, what, "write it in one line",
                             "it has a line break, a tab or another control character");
    if (t.len > LONGEST_TEXT)
        return err_input(e, what, "say it in fewer words", "it is longer than %d bytes", LONGEST_TEXT);
    return true;
}

/* Names the crew, so that the one who types sees whom to choose from. */
static bool refuse_person(const desk *d, text by, err *e) {
    buf names = {0};
    for (kit_index i = 0; i < d->workshop->n_crew; i++) {
        buf_add_z(&names, i ? ", " : "write one of: ");
        buf_add(&names, d->workshop->crew[i].name);
    }
    err_input(e, "--by", names.at ? names.at : "",
              "nobody in the crew is called \"%.*s\", or more than one is", TEXT_ARG(by));
    buf_free(&names);
    return false;
}

/* Without a crew table the people are whoever was named so far. */
static bool find_helper(desk *d, text by, text *number, err *e) {
    store_person *people;
    uint32_t n;
    if (!store_read_people(d->memory, d->file, &people, &n, e))
        return false;
    text wanted = utf8_fold(d->memory, by, false);
    for (uint32_t i = 0; i < n; i++) {
        if (!text_equal_nocase(people[i].number, by) &&
            !text_equal(utf8_fold(d->memory, people[i].name, false), wanted))
            continue;
        *number = people[i].number;
        return true;
    }
    return store_add_person(d->memory, d->file, by, number, e);
}

bool act_person(desk *d, text by, text *number, err *e) {
    by = text_trim(by);
    *number = TEXT("");
    if (!by.len)
        return true;
    if (!act_check_text(by, "--by", e))
        return false;
    if (!d->workshop)
        return find_helper(d, by, number, e);
    kit_index person = kit_find_person(d->workshop, by);
    if (person == KIT_NONE)
        return refuse_person(d, by, e);
    *number = d->workshop->crew[person].number;
    return true;
}

/* Somebody else may have written since the desk was opened. */
static bool catch_up(desk *d, err *e) {
    int64_t entry, at_s;
    if (!store_read_last(d->file, &entry, &at_s, e))
        return false;
    return entry == d->last_entry || (desk_load_workshop(d, e) && desk_load_stock(d, e));
}

bool act_begin(desk *d, desk_who who, store_entry *stamp, err *e) {
    if (!store_begin(d->file, e))
        return false;
    *stamp = store_entry_of(STORE_BEGIN);
    stamp->at_s = sys_now_seconds();
    stamp->device = text_of(who.device);
    stamp->once = text_of(who.once);
    if (catch_up(d, e) && act_person(d, text_of(who.by), &stamp->person, e))
        return true;
    store_abandon(d->file);
    return false;
}

bool act_end(desk *d, bool ok, err *e) {
    ok = ok && store_commit(d->file, e);
    store_abandon(d->file);
    d->n_proved = 0;
    return ok && desk_load_stock(d, e);
}

text place_of_row(arena *a, const kit *k, kit_index row) {
    const kit_row *r = &k->rows[row];
    return arena_format(a, "%.*s row %lld", TEXT_ARG(k->containers[r->container].number), (long long)r->line);
}
