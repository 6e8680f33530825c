/* demo_kit.h: the demo kit, read once for the tests of this folder. */
#ifndef DEMO_DEMO_KIT_H
#define DEMO_DEMO_KIT_H

#include "kit/kit.h"

typedef struct {
    arena *memory;
    const kit *kit;
    const kit_workshop *workshop;
    const bool *after; /* n_steps x n_steps: the row's step comes after the column's, directly or not */
} demo;

/* Group set-up and tear-down for cmocka; the set-up fails with every fault printed when the tables have some. */
int demo_open(void **state);
int demo_close(void **state);
const demo *demo_of(void **state);

bool demo_comes_after(const demo *d, kit_index step, kit_index earlier);

/* Batteries of this capacity in a container, its bags included. */
int64_t demo_batteries_in(const kit *k, kit_index container, int64_t capacity_mah);

/* The step is of this kind of work ("striking"). */
bool demo_is_work(const kit *k, kit_index step, const char *work);

/* One of the texts says so: "gloves (everyone near)" has "gloves". */
bool demo_says(kit_texts texts, const char *word);

/* One of the step's cautions has the word in its hazard or its control. */
bool demo_cautions(const kit *k, kit_index step, const char *word);

#endif
