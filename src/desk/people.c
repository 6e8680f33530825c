/* people.c: forgetting a name, and copying a build. */
#include "base/sys.h"
#include "base/utf8.h"
#include "desk/act.h"

/* By name or number, among all who were ever named in this build. */
static bool find_named(desk *d, text person, text *number, err *e) {
    store_person *people;
    uint32_t n, found = 0;
    if (!store_read_people(d->memory, d->file, &people, &n, e))
        return false;
    text wanted = utf8_fold(d->memory, person, false);
    for (uint32_t i = 0; i < n; i++) {
        bool by_number = text_equal_nocase(people[i].number, person);
        if (!by_number && !text_equal(utf8_fold(d->memory, people[i].name, false), wanted))
            continue;
        *number = people[i].number;
        found = by_number ? 1 : found + 1;
        if (by_number)
            break;
    }
    if (found == 1)
        return true;
    return err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(person)).at,
                     "write the person's number as it stands in the crew table",
                     found ? "more than one person has that name" : "nobody in this build has that name");
}

bool desk_forget(desk *d, text person, desk_who who, text *number, err *e) {
    person = text_trim(person);
    if (!person.len)
        return err_input(e, "PERSON", "write a name or a number of the crew", "it is empty");
    if (!find_named(d, person, number, e))
        return false;
    store_entry entry = store_entry_of(STORE_FORGET);
    entry.at_s = sys_now_seconds();
    entry.device = text_of(who.device);
    entry.about = *number;
    return store_forget(d->file, &entry, e) && desk_load_stock(d, e);
}

bool desk_copy(desk *d, const char *out_path, err *e) {
    return store_copy(d->file, out_path, e);
}
