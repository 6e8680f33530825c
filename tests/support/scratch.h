/* scratch.h: a folder of its own for a test, and a build file of the garden barrow in it.
 *
 * Tests run from the project's root; the barrow (tests/support/barrow, barrow-crew) is a small kit with look-alike
 * screws, two nested levels, a rope in millimetres and a battery.
 */
#ifndef TESTS_SUPPORT_SCRATCH_H
#define TESTS_SUPPORT_SCRATCH_H

#include "base/text.h"

/* Makes it, in the arena; the test fails when it cannot. */
const char *scratch_open(arena *a);

/* Removes the folder and what is in it. */
void scratch_close(const char *folder);

/* "FOLDER/NAME" in the arena. */
const char *scratch_path(arena *a, const char *folder, const char *name);

#endif
