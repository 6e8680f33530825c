/* tightening.h: how hard a screw may be tightened when the kit's maker does not say.
 *
 * The maker's figure comes first: these functions are for screws without one. They give ONE figure, for the lowest
 * friction of the stated condition, so that a screw that happens to run easily is not stretched; the price is that one
 * that runs hard is clamped less, and the spread says how much.
 *
 * Long form, VDI 2230 part 1 (through secondary pages, reproduced against its published tables):
 *   preload   F  = 0.9 Rp0.2 As / sqrt(1 + 3 [1.5 (d2/d0) (P/(pi d2) + 1.155 muG)]^2),  d0 = (d2 + d3)/2
 *   torque    T  = F (0.16 P + 0.58 d2 muG + muK DKm/2),  DKm = (dw + dh)/2, dh by ISO 273 medium
 * Short form: T = K F d; K is given with each figure.
 * Strengths: ISO 898-1 and ISO 3506-1. Ranges of friction of a condition: common practice, no source; see tightening.c.
 *
 * Checked for M3 to M16, steel screw, steel nut or steel thread, head and nut resting on steel. Not for anything else.
 */
#ifndef TRADE_TIGHTENING_H
#define TRADE_TIGHTENING_H

#include "trade/dimensions.h"

typedef enum {
    THREAD_DRY,
    THREAD_OILED,
    THREAD_LOCKED
} thread_condition; /* locked: wet thread-locking liquid */

/* What the screw holds. All but the first are refused: they have rules of their own. */
typedef enum {
    JOINT_STEEL,
    JOINT_BATTERY_TERMINAL,
    JOINT_PLASTIC,
    JOINT_LIGHT_ALLOY_THREAD,
    JOINT_INSERT,
    JOINT_CASTLE_NUT,
    JOINT_CABLE_CLAMP,
    JOINT_BEARING_PRELOAD,
    JOINT_COUNT
} joint_kind;

typedef struct {
    double torque_nm; /* the one figure */
    double clamp_least_n,
        clamp_most_n; /* of a torque wrench that is 6 % off, over the condition's range of friction */
    double mu_least, mu_most;
    double k_factor; /* T / (F d) at the lowest friction */
    double stress_area_mm2;
    double proof_load_n; /* As x proof stress; 0 for stainless, which has none in ISO 3506-1 */
    double yield_mpa;
    bool reduced_head;         /* button and countersunk heads: 80 % (ISO 898-1 on reduced loadability, M) */
    bool do_not_use_power;     /* stainless: it seizes */
    double prevailing_most_nm; /* of a locking nut when new; 0: none */
    const char *range;         /* what it was checked for */
    const char *source;
} tightening;

/* The recommended torque. `nut` may be NULL; a locking nut adds its prevailing torque, which must be measured while it runs
 * on and added by hand. Refuses: no strength mark, other joints, thin nuts, set screws, plastics, brass, aluminium, nuts
 * weaker than the screw, stainless dry, sizes outside M3 to M16. */
MUST_USE bool tightening_for(const designation *screw, const designation *nut, thread_condition condition,
                             joint_kind joint, tightening *out, err *e);

/* Why a joint is refused; NULL for JOINT_STEEL. */
const char *joint_refusal(joint_kind joint);
const char *joint_name(joint_kind joint);

/* Strength by mark: MPa; 0 for values the standard does not give. False when the mark is none of a screw. */
typedef struct {
    double tensile_mpa, yield_mpa, proof_mpa;
} screw_strength;
MUST_USE bool screw_strength_of(const fastener_grade *grade, int32_t thread_um, screw_strength *out);

/* The formulas alone, for checks and for teaching. Lengths in mm, forces in N, torques in N m. */
double preload_n(double yield_mpa, double use, int32_t thread_um, int32_t pitch_um, double mu_thread);
double torque_long_nm(double force_n, double d2_mm, double pitch_mm, double mu_thread, double mu_head,
                      double head_friction_diameter_mm);
/* Mean friction diameter under the head, mm; 0 when not known. */
double head_friction_diameter_mm(const designation *screw);

/* Largest prevailing torque of a new locking nut at first run-on, N m (ISO 2320, M); 0 outside M3 to M16. */
double prevailing_torque_most_nm(int32_t thread_um);

/* What a hand reaches: `force_n` at the end of a tool of this length. An adult pulls 200 N without trying hard (common
 * practice, no source). */
#define EASY_PULL_N 200.0
double tool_reach_nm(double length_mm, double force_n);
/* Length of an ordinary ring or open spanner of this size, mm (common practice: about 12 times the size and 30 more; no
 * source), and the long arm of a hex key (ISO 2936, M); 0 when not known. */
double spanner_length_mm(int32_t flats_um);
double hex_key_arm_mm(int32_t key_um);

#endif
