/* arena.h: memory for what lives and dies together.
 *
 * Nearly all our data (a kit, a plan, a sheet) is built once, read for a while, and dropped as a whole. An arena
 * hands out pieces of large blocks and frees them all at once, so no single piece is ever freed and nothing can
 * be freed twice. A piece never moves.
 *
 * Out of memory: a program that cannot get a few megabytes on a laptop cannot go on. arena_alloc then writes one
 * line to standard error and ends the process with exit code 3. Nothing is lost by that: every change of a build
 * file is one transaction, every other file is written beside its name and renamed when whole.
 *
 * Not for several threads at once: one arena belongs to one thread at a time.
 */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stddef.h>

typedef struct arena arena;

/* A new, empty arena. The caller owns it and closes it. */
arena *arena_open(void);

/* Frees everything that came from `a`, and `a`. NULL is allowed. */
void arena_close(arena *a);

/* `size` bytes, all zero, aligned for any type. A size of 0 gives a valid, unique pointer. */
void *arena_alloc(arena *a, size_t size);

/* `count` items of `size` bytes, all zero; a product that overflows counts as out of memory. */
void *arena_alloc_array(arena *a, size_t count, size_t size);

/* A larger copy of the array `old` (used / wanted in items). The old one stays where it was, unused. */
void *arena_grow_array(arena *a, const void *old, size_t used, size_t wanted, size_t size);

/* Bytes handed out so far, for reports and tests. */
size_t arena_used(const arena *a);

#define arena_new(a, type) ((type *)arena_alloc((a), sizeof(type)))
#define arena_array(a, type, count) ((type *)arena_alloc_array((a), (count), sizeof(type)))

/* Makes room for one more item in a growing list {type *list; size_t n, cap} that lives in `a`. */
#define arena_room(a, list, n, cap, type)                                                                    \
    do {                                                                                                     \
        if ((n) == (cap)) {                                                                                  \
            (cap) = (cap) ? 2 * (cap) : 8;                                                                   \
            (list) = (type *)arena_grow_array((a), (list), (n), (cap), sizeof(type));                        \
        }                                                                                                    \
    } while (0)

#endif
