/* memory.h: memory of one solve, counted against its limit.
 *
 * All that a solve allocates is in one list, so that ending it in any way, a refused allocation included, is one call.
 * Allocation happens when something is set up or grows, never in the propagation loop. One thread at a time.
 */
#ifndef SCHED_MEMORY_H
#define SCHED_MEMORY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct memory_block memory_block;

typedef struct {
    memory_block *all;
    uint64_t limit, used, peak;
    bool refused;       /* an allocation failed; the owner winds up with what it has */
    bool in_loop;       /* propagation runs, in which nothing should be allocated */
    uint64_t loop_gets; /* allocations while it ran */
} memory;

void memory_open(memory *m, uint64_t limit);
void memory_close(memory *m); /* frees everything */

/* `count` items of `size` bytes, all zero, 64-byte aligned; NULL (and m->refused) above the limit. */
void *memory_get(memory *m, size_t count, size_t size);

/* A larger place for `old` (NULL allowed); the first `used` items are kept, the rest is zero. NULL: refused, and `old`
 * stays as it was. */
void *memory_grow(memory *m, void *old, size_t used, size_t count, size_t size);
void memory_give_back(memory *m, void *at);

#define memory_array(m, type, count) ((type *)memory_get((m), (size_t)(count), sizeof(type)))

#endif
