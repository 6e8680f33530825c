/* pictures.c: the kit's pictures: into a new build file, and out of it again. */
#include "desk/pictures.h"

#include "base/image_file.h"
#include "base/sys.h"

/* A phone's photo has 2 to 6 MB; a build file of some ten MB can still be copied to a stick in seconds. */
enum { MOST_PICTURE_BYTES = 8 << 20, MOST_BYTES = 64 << 20 };

typedef struct {
    arena *memory;
    const char *folder;
    faults *faults;
    store_picture *list;
    uint32_t n;
    size_t cap, bytes;
} collector;

static bool is_there(const collector *c, text name) {
    for (uint32_t i = 0; i < c->n; i++)
        if (text_equal(c->list[i].name, name))
            return true;
    return false;
}

/* What is wrong with the file, NULL when nothing is. */
static const char *what_is_wrong(const collector *c, text bytes, const char **remedy) {
    *remedy = "save it as PNG or JPEG";
    if (image_file_kind(bytes) == IMAGE_FILE_NONE)
        return "it is neither PNG nor JPEG";
    *remedy = "save the pictures smaller; 1600 points across are plenty for a card";
    return c->bytes + bytes.len > MOST_BYTES ? "all pictures together are larger than 64 MB" : NULL;
}

static void collect(collector *c, const char *file, uint32_t row, text name) {
    if (!name.len || is_there(c, name))
        return;
    text bytes = TEXT(""), path = arena_format(c->memory, "%s/%.*s", c->folder, TEXT_ARG(name));
    err why;
    fault_place place = {text_of(file), row, TEXT("picture")};
    if (!sys_read_file(c->memory, path.at, MOST_PICTURE_BYTES, &bytes, &why)) {
        fault_add(c->faults, place, why.remedy, "\"%.*s\": %s", TEXT_ARG(name), why.cause);
        return;
    }
    const char *remedy, *wrong = what_is_wrong(c, bytes, &remedy);
    if (wrong)
        fault_add(c->faults, place, remedy, "\"%.*s\": %s", TEXT_ARG(name), wrong);
    c->bytes += bytes.len;
    arena_room(c->memory, c->list, c->n, c->cap, store_picture);
    c->list[c->n++] = (store_picture){name, bytes};
}

bool pictures_of_kit(arena *a, const kit *k, const char *folder, faults *f, store_content *out, err *e) {
    collector c = {.memory = a, .folder = folder, .faults = f};
    size_t before = f->n;
    e->kind = ERR_NONE;
    for (kit_index i = 0; i < k->n_parts; i++)
        collect(&c, "parts.csv", k->parts[i].row, k->parts[i].picture);
    for (kit_index i = 0; i < k->n_steps; i++)
        collect(&c, "steps.csv", k->steps[i].row, k->steps[i].picture);
    out->pictures = c.list;
    out->n_pictures = c.n;
    return f->n == before;
}

bool desk_picture(const desk *d, text name, text *bytes, err *e) {
    return store_read_picture(d->memory, d->file, name, bytes, e);
}
