/* views.h: what any SQLite client can read without knowing how the state comes about; private to the room. */
#ifndef STORE_VIEWS_H
#define STORE_VIEWS_H

#include <stddef.h>

typedef struct {
    const char *name;
    const char *select;
} store_view;

extern const store_view store_views[];
extern const size_t store_n_views;

#endif
