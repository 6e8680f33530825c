/* export.c: a build out of its file and into another, as JSON. */
#include <unistd.h>

#include "desk/desk.h"

bool desk_export(desk *d, buf *out, err *e) {
    return store_export(d->file, out, e);
}

bool desk_restore(const char *path, const char *source, text json, err *e) {
    if (!store_restore(path, source, json, e))
        return false;
    arena *a = arena_open();
    desk *d;
    err why;
    bool ok = desk_open(a, path, DESK_READ, "restore", &d, &why) ||
              err_input(e, source, "take the export as it was written", "%s", why.cause);
    desk_close(d);
    arena_close(a);
    if (!ok)
        (void)unlink(path);
    return ok;
}
