/* pictures.h: the kit's pictures inside the file; private to the room. */
#ifndef STORE_PICTURES_H
#define STORE_PICTURES_H

#include "store/sql.h"

/* Adds one; a name that is there already is left as it is. */
MUST_USE bool pictures_add(store *s, const store_picture *p, err *e);

#endif
