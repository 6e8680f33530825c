/* crew.c: people and the workshop, changed without files. */
#include "base/number.h"
#include "base/utf8.h"
#include "desk/sheet_row.h"

static text yes_no(desk_answer a) {
    return a == DESK_YES ? TEXT("yes") : TEXT("no");
}

/* ---- the workshop ---- */

/* A build that began without one: cautious values, until somebody says others. */
static bool begin_workshop(desk *d, const store_entry *stamp, err *e) {
    sheet_row r;
    bool there;
    if (!sheet_row_open(d, "workshop", TEXT(""), &r, &there, e) || there)
        return there;
    sheet_row_put(&r, "name", TEXT("the workshop"));
    sheet_row_put(&r, "minimum_adults", TEXT("1"));
    sheet_row_put(&r, "beginners_factor", TEXT("1.5"));
    return sheet_row_write(&r, stamp, e);
}

static bool put_workshop(sheet_row *r, const desk_workshop_change *c, err *e) {
    date_day day;
    text wanted = text_trim(text_of(c->wanted));
    if (c->name)
        sheet_row_put(r, "name", text_trim(text_of(c->name)));
    if (c->minimum_adults >= 0)
        sheet_row_put(r, "minimum_adults", arena_format(r->d->memory, "%lld", (long long)c->minimum_adults));
    if (c->beginners_percent >= 0) {
        char factor[24];
        number_print_decimal(c->beginners_percent, 2, factor);
        sheet_row_put(r, "beginners_factor", arena_text(r->d->memory, text_of(factor)));
    }
    if (c->wanted)
        sheet_row_put(r, "wanted_day", wanted);
    return !wanted.len || date_read(wanted, &day) ||
           err_input(e, "wanted day", "write it like 2027-09-30", "\"%.*s\" is no day", TEXT_ARG(wanted));
}

bool desk_change_workshop(desk *d, const desk_workshop_change *c, desk_who who, desk_reasons *mind, err *e) {
    store_entry stamp = store_entry_of(STORE_SET);
    sheet_row r;
    bool there;
    if (!act_check_text(text_of(c->name), "name", e) || !act_begin(d, who, &stamp, e))
        return false;
    bool ok = begin_workshop(d, &stamp, e) && sheet_row_open(d, "workshop", TEXT(""), &r, &there, e) &&
              put_workshop(&r, c, e) && sheet_row_write(&r, &stamp, e);
    return sheet_rows_end(d, ok, mind, e);
}

static kit_index find_zone(const kit *k, text number) {
    for (kit_index i = 0; i < k->n_zones; i++)
        if (text_equal_nocase(k->zones[i].number, number))
            return i;
    return KIT_NONE;
}

static bool write_owned(desk *d, const store_entry *stamp, const desk_owned *o, err *e) {
    kit_index tool = kit_find_tool(d->kit, text_trim(o->number)),
              zone = find_zone(d->kit, text_trim(o->number));
    sheet_row r;
    bool there;
    if (tool == KIT_NONE && zone == KIT_NONE)
        return err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(o->number)).at,
                         "write a number of the kit's tools or workplaces",
                         "the kit has no tool and no workplace of that number");
    text number = tool == KIT_NONE ? d->kit->zones[zone].number : d->kit->tools[tool].number;
    const char *sheet = tool == KIT_NONE ? "workplaces" : "tools";
    if (!sheet_row_open(d, sheet, number, &r, &there, e))
        return false;
    sheet_row_put(&r, tool == KIT_NONE ? "zone" : "tool", number);
    sheet_row_put(&r, "quantity", arena_format(d->memory, "%lld", (long long)o->quantity));
    return sheet_row_write(&r, stamp, e);
}

bool desk_own(desk *d, const desk_owned *list, uint32_t n, desk_who who, desk_reasons *mind, err *e) {
    store_entry stamp = store_entry_of(STORE_SET);
    if (!act_begin(d, who, &stamp, e))
        return false;
    bool ok = begin_workshop(d, &stamp, e);
    for (uint32_t i = 0; ok && i < n; i++)
        ok = write_owned(d, &stamp, &list[i], e);
    return sheet_rows_end(d, ok, mind, e);
}

/* ---- people ---- */

/* A work or a skill by number or name. */
static const kit_named *find_named(const kit_named *list, uint32_t n, text word) {
    for (uint32_t i = 0; i < n; i++)
        if (text_equal_nocase(list[i].number, word) || text_equal_nocase(list[i].name, word))
            return &list[i];
    return NULL;
}

static bool refuse_named(const desk *d, const char *what, const kit_named *list, uint32_t n, text word,
                         err *e) {
    text all = TEXT("");
    for (uint32_t i = 0; i < n; i++)
        all = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(all),
                           i ? ", " : "write one of: ", TEXT_ARG(list[i].number));
    return err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(word)).at, arena_z(d->memory, all),
                     "the kit has no %s of that name", what);
}

/* Names with commas between as the cell of a table: numbers with "; " between. */
static bool read_named(const desk *d, const char *what, const kit_named *list, uint32_t n, const char *words,
                       text *cell, err *e) {
    text rest = text_trim(text_of(words)), one;
    *cell = TEXT("");
    while (rest.len && text_next_piece(&rest, ',', &one)) {
        const kit_named *found = find_named(list, n, text_trim(one));
        if (!found)
            return refuse_named(d, what, list, n, text_trim(one), e);
        *cell = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(*cell), cell->len ? "; " : "",
                             TEXT_ARG(found->number));
    }
    return true;
}

static bool put_person(sheet_row *r, const desk_person_change *c, err *e) {
    const kit *k = r->d->kit;
    text cell;
    if (c->adult != DESK_AS_IT_IS)
        sheet_row_put(r, "adult", yes_no(c->adult));
    if (c->leader != DESK_AS_IT_IS)
        sheet_row_put(r, "leader", c->leader == DESK_YES ? TEXT("yes") : TEXT(""));
    if (c->supervises) {
        if (!read_named(r->d, "kind of work", k->works, k->n_works, c->supervises, &cell, e))
            return false;
        sheet_row_put(r, "supervises", cell);
    }
    if (c->skills) {
        if (!read_named(r->d, "skill", k->skills, k->n_skills, c->skills, &cell, e))
            return false;
        sheet_row_put(r, "skills", cell);
    }
    return true;
}

static bool is_in_crew(const desk *d, text number) {
    for (kit_index i = 0; d->workshop && i < d->workshop->n_crew; i++)
        if (text_equal(d->workshop->crew[i].number, number))
            return true;
    return false;
}

/* Nobody else of the crew has that name or number. */
static bool check_name(desk *d, text name, text but, err *e) {
    store_person *people = NULL;
    uint32_t n = 0;
    if (!name.len)
        return err_input(e, "NAME", "write a nickname", "it is empty");
    if (!act_check_text(name, "NAME", e) || !store_read_people(d->memory, d->file, &people, &n, e))
        return false;
    if (text_find(name, TEXT(",")) >= 0)
        return err_input(e, "NAME", "leave the comma out", "a comma stands between names");
    text wanted = utf8_fold(d->memory, name, false);
    for (uint32_t i = 0; i < n; i++)
        if (!text_equal(people[i].number, but) && is_in_crew(d, people[i].number) &&
            (text_equal_nocase(people[i].number, name) ||
             text_equal(utf8_fold(d->memory, people[i].name, false), wanted)))
            return err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(name)).at,
                             "take another nickname", "somebody has that name already");
    return true;
}

/* The number of somebody who was in the crew before, else "P6": the first that nobody ever had. */
static bool choose_number(desk *d, text name, text *number, err *e) {
    store_person *people = NULL;
    uint32_t n = 0;
    if (!store_read_people(d->memory, d->file, &people, &n, e))
        return false;
    text wanted = utf8_fold(d->memory, name, false);
    for (uint32_t p = 0; p < n; p++)
        if (text_equal(utf8_fold(d->memory, people[p].name, false), wanted)) {
            *number = people[p].number;
            return true;
        }
    for (uint32_t i = 1;; i++) {
        bool taken = false;
        *number = arena_format(d->memory, "P%u", i);
        for (uint32_t p = 0; p < n; p++)
            taken = taken || text_equal_nocase(people[p].number, *number);
        if (!taken)
            return true;
    }
}

static bool write_name(desk *d, const store_entry *stamp, text number, text name, err *e) {
    store_entry n = act_entry(stamp, STORE_RENAME);
    int64_t entry;
    n.about = number;
    return store_name_person(d->file, number, name, e) && store_append(d->file, &n, &entry, e);
}

bool desk_add_person(desk *d, const desk_person_change *c, desk_who who, desk_reasons *mind, text *number,
                     err *e) {
    text name = text_trim(text_of(c->name));
    store_entry stamp = store_entry_of(STORE_SET);
    sheet_row r;
    bool there;
    if (!act_begin(d, who, &stamp, e))
        return false;
    bool ok = check_name(d, name, TEXT(""), e) && choose_number(d, name, number, e) &&
              begin_workshop(d, &stamp, e) && write_name(d, &stamp, *number, name, e) &&
              sheet_row_open(d, "crew", *number, &r, &there, e);
    if (ok) {
        sheet_row_put(&r, "person", *number);
        sheet_row_put(&r, "adult", TEXT("no"));
        ok = put_person(&r, c, e) && sheet_row_write(&r, &stamp, e);
    }
    return sheet_rows_end(d, ok, mind, e);
}

static bool find_person(const desk *d, text person, text *number, err *e) {
    kit_index found = d->workshop ? kit_find_person(d->workshop, text_trim(person)) : KIT_NONE;
    if (found == KIT_NONE)
        return err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(person)).at,
                         "kitbench crew shows who is in it",
                         "nobody in the crew is called that, or more than one is");
    *number = d->workshop->crew[found].number;
    return true;
}

static bool write_change(desk *d, text person, const desk_person_change *c, const store_entry *stamp,
                         err *e) {
    text number = TEXT(""), name = text_trim(text_of(c->name));
    sheet_row r;
    bool there, more = c->adult != DESK_AS_IT_IS || c->leader != DESK_AS_IT_IS || c->supervises || c->skills;
    if (!find_person(d, person, &number, e))
        return false;
    if (c->name && (!check_name(d, name, number, e) || !write_name(d, stamp, number, name, e)))
        return false;
    return !more || (sheet_row_open(d, "crew", number, &r, &there, e) && put_person(&r, c, e) &&
                     sheet_row_write(&r, stamp, e));
}

bool desk_change_person(desk *d, text person, const desk_person_change *c, desk_who who, desk_reasons *mind,
                        err *e) {
    store_entry stamp = store_entry_of(STORE_SET);
    return act_begin(d, who, &stamp, e) && sheet_rows_end(d, write_change(d, person, c, &stamp, e), mind, e);
}

bool desk_remove_person(desk *d, text person, desk_who who, desk_reasons *mind, err *e) {
    store_entry stamp = store_entry_of(STORE_SET);
    text number = TEXT("");
    if (!act_begin(d, who, &stamp, e))
        return false;
    bool ok = find_person(d, person, &number, e);
    kit_index index = ok ? kit_find_person(d->workshop, number) : KIT_NONE;
    for (kit_index i = 0; ok && i < d->workshop->n_attendance; i++) {
        const kit_attendance *a = &d->workshop->attendance[i];
        if (a->person == index)
            ok = sheet_row_remove(d, "attendance",
                                  arena_format(d->memory, "%lld;%.*s",
                                               (long long)d->workshop->sessions[a->session].number,
                                               TEXT_ARG(number)),
                                  &stamp, e);
    }
    return sheet_rows_end(d, ok && sheet_row_remove(d, "crew", number, &stamp, e), mind, e);
}
