/* recount.h: how many rows to count again before the list may be trusted.
 *
 * Rows are drawn at random and counted again blind, by someone who does not see the first count. After n of them, c were
 * wrong (and are put right). The question is about the rest: with the confidence asked for, fewer than x rows of the whole
 * are still wrong. Exact, by the hypergeometric distribution: the smallest n at which a list with x + c wrong rows at the
 * start would have shown c or fewer with at most 1 - confidence.
 */
#ifndef TRADE_RECOUNT_H
#define TRADE_RECOUNT_H

#include <stdint.h>

#include "base/err.h"

typedef struct {
    int32_t rows;          /* in the list */
    int32_t recounted;     /* so far, 0 to start */
    int32_t found_wrong;   /* among those */
    int32_t wrong_allowed; /* x: fewer than this many wrong rows may be left */
    double confidence;     /* 0.95 */
} recount_state;

typedef struct {
    int32_t needed;  /* rows to have counted again in all, if no more errors turn up */
    int32_t to_go;   /* needed - recounted, not below 0 */
    double sure_now; /* confidence reached now that fewer than x are left */
    double share_low,
        share_high; /* of wrong rows in the list, from what was found; exact 95 %; NAN before the first */
} recount_plan;

/* Refuses impossible numbers (more found than counted, x of 0, and so on). */
MUST_USE bool recount_needed(const recount_state *s, recount_plan *out, err *e);

#endif
