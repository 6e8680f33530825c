/* random_build.h: small random kits with a crew, sessions and stock, the same for the same seed. */
#ifndef TESTS_PLAN_RANDOM_BUILD_H
#define TESTS_PLAN_RANDOM_BUILD_H

#include "plan/plan.h"

/* A build of about `size` steps (1..40). Features come and go with the seed: attendance, pauses, change-over points, delays
 * on both clocks, sub-assemblies, supervision, skills, tools, places, works that may not be next to each other, missing parts, promises,
 * steps done, a first moment in the middle of a session. Everything in `a`. */
plan_input random_build(arena *a, uint64_t seed, uint32_t size);

/* The same build with every minute but those of delays on the wall clock divided by `divisor`: small enough for a solver that tries
 * every start. */
plan_input random_build_small(arena *a, uint64_t seed, uint32_t size, int64_t divisor);

#endif
