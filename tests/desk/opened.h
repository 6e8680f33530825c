/* opened.h: build files of their own for the tests of the desk. What cannot be made or opened fails the test. */
#ifndef TESTS_DESK_OPENED_H
#define TESTS_DESK_OPENED_H

#include "desk/desk.h"
#include "support/blocks.h"

/* A new build file at `path`, open for writing.  */
desk *opened_new(arena *a, const char *path, const char *kit_folder, const char *crew_folder);

/* Closed and opened again, as by another program. */
desk *opened_again(arena *a, desk *d);

/* Derives the state anew from the journal alone, and opens again: `dump` must tell the same. */
desk *opened_rebuilt(desk *d, text (*dump)(const desk *d), unsigned line);

/* Every block of a file of cases, each with a path for its build file. */
void opened_each(const char *cases, void (*run)(const block *b, const char *path));

#endif
