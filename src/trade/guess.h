/* guess.h: the assumptions of a proposal, each with its reason (private to the room). */
#ifndef TRADE_GUESS_H
#define TRADE_GUESS_H

#include "trade/propose.h"

typedef struct {
    unsigned sense;  /* phrase_sense bits */
    int32_t bare_um; /* a number with "mm" and no "M", 0 for none */
    bool has_thread; /* an "M" size was written */
} guess_context;

/* Fills out->guess beyond out->stated and says each step in out->assumed. */
void guess_fill(arena *a, const guess_context *ctx, proposal *out);

#endif
