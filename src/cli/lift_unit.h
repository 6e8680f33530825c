/* lift_unit.h: the mass of a unit as it grows, step by step, and how many adults turn, carry and fit it.
 *
 * A unit is a sub-assembly or the main machine. After each of its steps it weighs the parts drawn so far; a sub-assembly
 * that joins it is counted whole at the first step it joins. Three ways to lift it:
 *   turn   tipped over an edge on the bench: half its mass at the other edge, knuckle to elbow, close
 *   carry  knuckle to elbow, close to the body
 *   fit    held to its place: elbow to shoulder, arms out
 * by the guideline figures of trade/lifting.h.
 */
#ifndef CLI_LIFT_UNIT_H
#define CLI_LIFT_UNIT_H

#include "kit/kit.h"
#include "trade/lifting.h"

typedef struct {
    kit_index step;
    double added_kg, mass_kg; /* by this step; after it */
    uint32_t unknown;         /* parts without a mass, so far */
    kit_indices joins;        /* sub-assemblies that join here */
    int turn, carry, fit;     /* adults; 0: more than three, or too heavy for any figure */
} lift_growth;

/* `unit` KIT_NONE: the main machine. In build order, in the arena; returns the number of steps. False in *ok with `e` when
 * no figure is given for these people. */
uint32_t lift_grow(arena *a, const kit *k, kit_index unit, lifting_person who, lift_growth **out, bool *ok,
                   err *e);

#endif
