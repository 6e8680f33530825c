/* desk.c: opening a build: the kit and the workshop out of the file, and the stock as it stands. */
#include "desk/desk.h"

#include <string.h>
#include <unistd.h>

#include "base/sys.h"
#include "desk/act.h"
#include "desk/pictures.h"
#include "desk/sheet_row.h"

const char *desk_device(arena *a) {
    char host[128] = "";
    if (gethostname(host, sizeof host - 1) || !host[0])
        return "this machine";
    return arena_text(a, text_of(host)).at;
}

/* The kit was checked before it was copied in; only a program with stricter rules can find a fault in it. */
static bool refuse_kit(const char *path, faults *f, err *e) {
    faults_sort(f);
    text place = f->n ? fault_place_text(f->memory, f->list[0].place) : TEXT("");
    return err_run(e, path, "use the program that made the file",
                   "this program does not understand the kit inside it (%.*s: %.*s)", TEXT_ARG(place),
                   TEXT_ARG(f->n ? f->list[0].cause : TEXT("no reason known")));
}

static bool understand_workshop(desk *d, const kit_tables *raw, err *e) {
    faults f = faults_in(d->memory);
    d->workshop = NULL;
    return !raw->n || kit_workshop_from_tables(d->memory, raw, d->kit, &f, &d->workshop) ||
           refuse_kit(d->path, &f, e);
}

static bool load_kit(desk *d, err *e) {
    kit_tables kit_raw, workshop_raw;
    if (!store_read_tables(d->memory, d->file, &kit_raw, &workshop_raw, e))
        return false;
    faults f = faults_in(d->memory);
    if (!kit_from_tables(d->memory, &kit_raw, &f, &d->kit))
        return refuse_kit(d->path, &f, e);
    return understand_workshop(d, &workshop_raw, e);
}

bool desk_load_workshop(desk *d, err *e) {
    kit_tables kit_raw, workshop_raw;
    return store_read_tables(d->memory, d->file, &kit_raw, &workshop_raw, e) &&
           understand_workshop(d, &workshop_raw, e);
}

bool desk_load_stock(desk *d, err *e) {
    int64_t at_s;
    if (!store_read_last(d->file, &d->last_entry, &at_s, e) ||
        !store_read_record(d->memory, d->file, d->kit, &d->record, e))
        return false;
    d->changed = at_s / 60;
    d->stock = stock_assess(d->memory, d->kit, &d->record);
    return desk_load_announced(d, e);
}

static bool load(desk *d, err *e) {
    bool ok = store_begin_read(d->file, e) && load_kit(d, e) && desk_load_stock(d, e);
    store_end_read(d->file);
    return ok;
}

bool desk_open(arena *a, const char *path, desk_mode mode, const char *command, desk **out, err *e) {
    desk *d = arena_new(a, desk);
    d->memory = a;
    d->path = path;
    *out = NULL;
    if (!store_open(path, mode == DESK_WRITE ? STORE_WRITE : STORE_READ, command, &d->file, e))
        return false;
    if (!load(d, e)) {
        desk_close(d);
        return false;
    }
    *out = d;
    return true;
}

void desk_close(desk *d) {
    if (!d)
        return;
    store_close(d->file);
    d->file = NULL;
}

static bool read_folders(arena *a, const char *kit_folder, const char *workshop_folder, faults *f,
                         kit_tables *kit_raw, kit_tables *workshop_raw, const kit **k, err *e) {
    const kit_workshop *w = NULL;
    e->kind = ERR_NONE;
    if (!kit_read(a, kit_folder, workshop_folder, f, k, &w, e))
        return false;
    return kit_check(*k, w, f) && kit_tables_from_folder(a, kit_folder, false, f, kit_raw, e) &&
           (!workshop_folder || kit_tables_from_folder(a, workshop_folder, true, f, workshop_raw, e));
}

bool desk_new(arena *a, const char *path, const char *kit_folder, const char *workshop_folder,
              const char *device, faults *f, err *e) {
    kit_tables kit_raw, workshop_raw;
    const kit *k;
    store_content content = {.kit_raw = &kit_raw, .begin = store_entry_of(STORE_BEGIN)};
    if (!read_folders(a, kit_folder, workshop_folder, f, &kit_raw, &workshop_raw, &k, e) ||
        !pictures_of_kit(a, k, kit_folder, f, &content, e))
        return false;
    content.workshop_raw = workshop_folder ? &workshop_raw : NULL;
    content.begin.at_s = sys_now_seconds();
    content.begin.device = text_of(device);
    content.begin.note = arena_format(a, "kit %.*s, serial %.*s, revision %.*s", TEXT_ARG(k->number),
                                      TEXT_ARG(k->serial), TEXT_ARG(k->revision));
    return store_create(path, &content, e);
}

text desk_person_name(const desk *d, text number) {
    for (kit_index i = 0; d->workshop && i < d->workshop->n_crew; i++)
        if (text_equal(d->workshop->crew[i].number, number))
            return d->workshop->crew[i].name;
    store_person *people;
    uint32_t n;
    if (!store_read_people(d->memory, d->file, &people, &n, NULL))
        return number;
    for (uint32_t i = 0; i < n; i++)
        if (text_equal(people[i].number, number) && people[i].name.len)
            return people[i].name;
    return number;
}
