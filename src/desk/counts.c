/* counts.c: writing down what was found. */
#include "base/image_file.h"
#include "desk/act.h"

/* A phone's photo has 2 to 6 MB. */
enum { MOST_PHOTO_BYTES = 8 << 20 };

static bool check_photo(text photo, err *e) {
    if (photo.len > MOST_PHOTO_BYTES)
        return err_input(e, "photo", "save it smaller", "it is larger than 8 MB");
    return !photo.len || image_file_kind(photo) != IMAGE_FILE_NONE ||
           err_input(e, "photo", "take a PNG or JPEG file", "it is neither PNG nor JPEG");
}

static bool check_count(const desk *d, const desk_count *c, err *e) {
    if (!act_check_text(c->note, "note", e) || !act_check_text(c->what, "what it is", e) ||
        !check_photo(c->photo, e))
        return false;
    if (!c->find && c->n_millivolts > (uint64_t)d->kit->rows[c->row].quantity)
        return err_input(e, place_of_row(d->memory, d->kit, c->row).at, "give one voltage for each piece",
                         "%u voltages for %lld pieces", c->n_millivolts,
                         (long long)d->kit->rows[c->row].quantity);
    return true;
}

static bool append_photo(desk *d, int64_t entry, text photo, err *e) {
    buf bare = {0};
    const char *why;
    if (!photo.len)
        return true;
    bool ok = image_file_strip(photo, &bare, &why) ? store_add_photo(d->file, entry, buf_text(&bare), e)
                                                   : err_input(e, "photo", "take it again", "%s", why);
    buf_free(&bare);
    return ok;
}

static bool append_find(desk *d, const store_entry *stamp, const desk_count *c, err *e) {
    store_entry n = act_entry(stamp, STORE_FIND);
    n.container = d->kit->containers[c->container].number;
    n.note = text_trim(c->what);
    n.usable = c->usable;
    kit_indices parts = kit_find_parts_by_any_number(d->memory, d->kit, n.note);
    if (parts.n == 1)
        n.part = d->kit->parts[parts.list[0]].number;
    int64_t number;
    return store_append(d->file, &n, &number, e) && append_photo(d, number, c->photo, e);
}

static bool append_count(desk *d, const store_entry *stamp, const desk_count *c, err *e) {
    const kit_row *row = &d->kit->rows[c->row];
    store_entry n = act_entry(stamp, STORE_COUNT);
    n.container = d->kit->containers[row->container].number;
    n.line = row->line;
    n.usable = c->usable;
    n.damaged = c->damaged;
    n.in_transit = c->in_transit;
    n.note = text_trim(c->note);
    int64_t number;
    if (!store_append(d->file, &n, &number, e) || !append_photo(d, number, c->photo, e))
        return false;
    for (uint32_t i = 0; i < c->n_millivolts; i++) {
        store_entry v = act_entry(stamp, STORE_VOLTAGE);
        v.container = n.container;
        v.line = n.line;
        v.piece = (int64_t)i + 1;
        v.millivolts = c->millivolts[i];
        if (!store_append(d->file, &v, &number, e))
            return false;
    }
    return true;
}

static bool append_all(desk *d, store_entry stamp, const desk_count *counts, size_t n, err *e) {
    text common = stamp.person, by = TEXT(""), by_number = TEXT("");
    for (size_t i = 0; i < n; i++) {
        const desk_count *c = &counts[i];
        if (c->by.len && !text_equal(c->by, by) && !act_person(d, c->by, &by_number, e))
            return false;
        by = c->by;
        stamp.person = c->by.len ? by_number : common;
        if (!(c->find ? append_find(d, &stamp, c, e) : append_count(d, &stamp, c, e)))
            return false;
    }
    return true;
}

bool desk_record_counts(desk *d, const desk_count *counts, size_t n, desk_who who, err *e) {
    for (size_t i = 0; i < n; i++)
        if (!check_count(d, &counts[i], e))
            return false;
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    return act_end(d, append_all(d, stamp, counts, n, e), e);
}
