/* blocks.h: case files for tests that anyone can extend without writing C.
 *
 * A file is a list of blocks divided by empty lines; lines with '#' in front are comments and belong to no block.
 * What the lines of a block mean is the test's business. Also the way to data that a test may miss.
 */
#ifndef TESTS_SUPPORT_BLOCKS_H
#define TESTS_SUPPORT_BLOCKS_H

#include "base/text.h"

enum { BLOCK_LINES = 64 };

typedef struct {
    text lines[BLOCK_LINES]; /* blanks at the ends are kept */
    size_t n;
    unsigned line; /* of the first one in the file, for messages */
} block;

typedef struct {
    block *list;
    size_t n, cap;
} blocks;

/* Reads a file seen from the project's root. Fails the test when it is missing, empty or has too long a block. */
blocks blocks_read(arena *a, const char *path);

/* A file of ../shared/data, or below $KITBENCH_DATA; at == NULL and a message "SKIPPED" when it is not there. */
text data_file(arena *a, const char *name);

/* A whole file; at == NULL when it is not there. */
text whole_file(arena *a, const char *path);

/* What stands between the first and the last double quote of a line, and what follows; false when there are no two. */
bool quoted_part(text line, text *inside, text *after);

#endif
