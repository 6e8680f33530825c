/* memory.c: see memory.h. Each block carries its links and size in a 64-byte head, so that items stay aligned. */
#include "sched/memory.h"

#include <stdlib.h>
#include <string.h>

struct memory_block {
    memory_block *next, *previous;
    size_t size;
    char pad[64 - 2 * sizeof(void *) - sizeof(size_t)];
};

void memory_open(memory *m, uint64_t limit) {
    *m = (memory){.limit = limit};
}

void memory_close(memory *m) {
    for (memory_block *b = m->all, *next; b; b = next) {
        next = b->next;
        free(b);
    }
    m->all = NULL;
    m->used = 0;
    m->refused = false;
}

void *memory_get(memory *m, size_t count, size_t size) {
    m->loop_gets += m->in_loop;
    if (count == 0)
        count = 1;
    if (count > (SIZE_MAX - 256) / size || m->used + count * size + sizeof(memory_block) > m->limit) {
        m->refused = true;
        return NULL;
    }
    size_t bytes = (count * size + sizeof(memory_block) + 63) / 64 * 64;
    memory_block *b = aligned_alloc(64, bytes);
    if (!b) {
        m->refused = true;
        return NULL;
    }
    memset(b, 0, bytes);
    b->size = bytes;
    b->next = m->all;
    if (m->all)
        m->all->previous = b;
    m->all = b;
    m->used += bytes;
    if (m->used > m->peak)
        m->peak = m->used;
    return b + 1;
}

void memory_give_back(memory *m, void *at) {
    if (!at)
        return;
    memory_block *b = (memory_block *)at - 1;
    if (b->previous)
        b->previous->next = b->next;
    else
        m->all = b->next;
    if (b->next)
        b->next->previous = b->previous;
    m->used -= b->size;
    free(b);
}

void *memory_grow(memory *m, void *old, size_t used, size_t count, size_t size) {
    void *bigger = memory_get(m, count, size);
    if (!bigger)
        return NULL;
    if (old) {
        memcpy(bigger, old, used * size);
        memory_give_back(m, old);
    }
    return bigger;
}
