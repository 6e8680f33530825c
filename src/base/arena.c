/* arena.c: blocks in a list, the newest first; each new block is at least twice the last, up to 1 MiB. */
#include "base/arena.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { FIRST_BLOCK = 4096, LARGEST_BLOCK = 1 << 20, ALIGNMENT = 16 };

typedef struct block block;
struct block {
    block *older;
    size_t used;
    size_t size;
    size_t padding; /* keeps `bytes` aligned to 16 */
    unsigned char bytes[];
};

struct arena {
    block *newest;
    size_t next_size;
    size_t used;
};

static _Noreturn void out_of_memory(void) {
    static const char line[] =
        "kitbench: out of memory; nothing that was saved is lost; close other programs\n";
    ssize_t ignored = write(STDERR_FILENO, line, sizeof line - 1);
    (void)ignored;
    _exit(3);
}

arena *arena_open(void) {
    arena *a = calloc(1, sizeof *a);
    if (!a)
        out_of_memory();
    a->next_size = FIRST_BLOCK;
    return a;
}

void arena_close(arena *a) {
    if (!a)
        return;
    for (block *b = a->newest; b;) {
        block *older = b->older;
        free(b);
        b = older;
    }
    free(a);
}

static block *add_block(arena *a, size_t at_least) {
    size_t size = a->next_size > at_least ? a->next_size : at_least;
    block *b = calloc(1, sizeof *b + size);
    if (!b)
        out_of_memory();
    b->size = size;
    b->older = a->newest;
    a->newest = b;
    if (a->next_size < LARGEST_BLOCK)
        a->next_size *= 2;
    return b;
}

void *arena_alloc(arena *a, size_t size) {
    if (size > SIZE_MAX / 2)
        out_of_memory();
    size_t rounded = size ? (size + ALIGNMENT - 1) & ~(size_t)(ALIGNMENT - 1) : ALIGNMENT;
    block *b = a->newest;
    if (!b || b->size - b->used < rounded)
        b = add_block(a, rounded);
    void *piece = b->bytes + b->used;
    b->used += rounded;
    a->used += rounded;
    return piece;
}

void *arena_alloc_array(arena *a, size_t count, size_t size) {
    if (size && count > SIZE_MAX / 2 / size)
        out_of_memory();
    return arena_alloc(a, count * size);
}

void *arena_grow_array(arena *a, const void *old, size_t used, size_t wanted, size_t size) {
    void *grown = arena_alloc_array(a, wanted, size);
    if (used)
        memcpy(grown, old, used * size);
    return grown;
}

size_t arena_used(const arena *a) {
    return a->used;
}
