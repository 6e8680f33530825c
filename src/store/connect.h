/* connect.h: a connection to any SQLite file, set as this room wants it; private to the room. */
#ifndef STORE_CONNECT_H
#define STORE_CONNECT_H

#include "store/sql.h"

/* Opens `file` without asking whether it is a build file; failures call it `shown`. `create`: makes the file when it is
 * not there. */
MUST_USE bool connect_file(const char *file, const char *shown, bool create, store_mode mode,
                           const char *command, store **out, err *e);

/* False, with the reason, when no file can be made in the folder of `path`: SQLite only says that it cannot open. */
MUST_USE bool beside_possible(const char *path, err *e);

/* A name beside `path` for a file that is not whole yet; the caller removes it when things fail. */
text beside_name(arena *a, const char *path);
void beside_remove(const char *beside);

#endif
