/* check_pictures.c: are the pictures that the tables name in the kit folder? */
#include "base/sys.h"
#include "kit/inside.h"

bool kit_is_inner_path(text path) {
    text rest = path, piece;
    for (size_t i = 0; i < path.len; i++)
        if (path.at[i] == '\\' || path.at[i] == ':' || path.at[i] == 0)
            return false;
    while (text_next_piece(&rest, '/', &piece))
        if (!piece.len || text_is(piece, "..") || text_is(piece, "."))
            return false;
    return path.len > 0 && path.at[0] != '~';
}

typedef struct {
    arena *memory;
    const kit *kit;
    const char *folder;
    faults *faults;
} picture_check;

static void check_picture(picture_check *c, const char *table, uint32_t row, text picture) {
    fault_place place = {kit_state(c->kit, table)->file, row, TEXT("picture")};
    if (!picture.len)
        return;
    if (!kit_is_inner_path(picture))
        fault_add(c->faults, place, "name a file inside the kit folder",
                  "\"%.*s\" is no path inside the folder", TEXT_ARG(picture));
    else if (!sys_exists(arena_format(c->memory, "%s/%.*s", c->folder, TEXT_ARG(picture)).at))
        fault_add(c->faults, place, "add the file, or leave the cell empty", "the file \"%.*s\" is not there",
                  TEXT_ARG(picture));
}

bool kit_check_pictures(arena *a, const kit *k, const char *folder, faults *f) {
    size_t before = f->n;
    picture_check c = {a, k, folder, f};
    for (uint32_t i = 0; i < k->n_parts; i++)
        if (!kit_state(k, "parts")->faulty[i])
            check_picture(&c, "parts", k->parts[i].row, k->parts[i].picture);
    for (uint32_t i = 0; i < k->n_steps; i++)
        if (!kit_state(k, "steps")->faulty[i])
            check_picture(&c, "steps", k->steps[i].row, k->steps[i].picture);
    return f->n == before;
}
