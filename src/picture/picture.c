/* picture.c: a picture as a growing list of shapes. */
#include "picture/picture.h"

picture picture_in(arena *a, double width, double height) {
    return (picture){.memory = a, .width = width, .height = height};
}

void picture_add(picture *p, picture_shape shape) {
    arena_room(p->memory, p->shapes, p->n, p->cap, picture_shape);
    p->shapes[p->n++] = shape;
}
