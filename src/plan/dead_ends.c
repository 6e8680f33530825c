/* dead_ends.c: open addressing, doubled when half full. */
#include "plan/dead_ends.h"

#include <string.h>

typedef struct {
    uint64_t hash;
    uint32_t place; /* plus 1; 0: empty */
    const int32_t *state;
} entry;

struct dead_ends {
    arena *memory;
    uint32_t numbers;
    entry *entries;
    size_t n, room; /* room: a power of 2 */
};

dead_ends *dead_ends_open(arena *a, uint32_t numbers) {
    dead_ends *d = arena_new(a, dead_ends);
    *d = (dead_ends){.memory = a, .numbers = numbers};
    return d;
}

static uint64_t hash_of(const dead_ends *d, uint32_t place, const int32_t *state) {
    uint64_t h = 0x9e3779b97f4a7c15ULL * ((uint64_t)place + 1);
    for (uint32_t k = 0; k < d->numbers; k++) {
        h = (h ^ (uint32_t)state[k]) * 0xff51afd7ed558ccdULL;
        h ^= h >> 32;
    }
    return h;
}

/* Where the state is, or the free entry for it. */
static entry *find_entry(const dead_ends *d, uint64_t hash, uint32_t place, const int32_t *state) {
    for (size_t at = hash & (d->room - 1);; at = (at + 1) & (d->room - 1)) {
        entry *e = &d->entries[at];
        if (e->place == 0 || (e->hash == hash && e->place == place + 1 &&
                              memcmp(e->state, state, d->numbers * sizeof *state) == 0))
            return e;
    }
}

bool dead_ends_has(const dead_ends *d, uint32_t place, const int32_t *state) {
    return d->n > 0 && find_entry(d, hash_of(d, place, state), place, state)->place != 0;
}

static void double_room(dead_ends *d) {
    entry *old = d->entries;
    size_t before = d->room;
    d->room = before ? 2 * before : 64;
    d->entries = arena_array(d->memory, entry, d->room);
    for (size_t k = 0; k < before; k++)
        if (old[k].place)
            *find_entry(d, old[k].hash, old[k].place - 1, old[k].state) = old[k];
}

void dead_ends_add(dead_ends *d, uint32_t place, const int32_t *state) {
    if (2 * (d->n + 1) > d->room)
        double_room(d);
    uint64_t hash = hash_of(d, place, state);
    int32_t *copy = arena_array(d->memory, int32_t, d->numbers);
    memcpy(copy, state, d->numbers * sizeof *copy);
    *find_entry(d, hash, place, state) = (entry){hash, place + 1, copy};
    d->n++;
}
