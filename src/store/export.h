/* export.h: which tables hold what was put in, not what follows from it; private to the room. */
#ifndef STORE_EXPORT_H
#define STORE_EXPORT_H

#include "store/sql.h"

/* In the order in which they can be filled. `list` gets names in the arena. */
uint32_t export_tables(arena *a, const char ***list);

/* The version of the form of the JSON, not of the file. */
enum { EXPORT_FORM = 1 };

#endif
