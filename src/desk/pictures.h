/* pictures.h: the kit's pictures, on their way into a new build file; private to the room. */
#ifndef DESK_PICTURES_H
#define DESK_PICTURES_H

#include "desk/desk.h"

/* Reads every picture that a part or a step names out of the kit folder, each once. False when one is no PNG or JPEG or
 * they are too large: faults in `f`. */
MUST_USE bool pictures_of_kit(arena *a, const kit *k, const char *folder, faults *f, store_content *out,
                              err *e);

#endif
