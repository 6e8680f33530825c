/* identify.h: what `kitbench identify` found, for its two ways of telling it. */
#ifndef CLI_IDENTIFY_H
#define CLI_IDENTIFY_H

#include "cli/kit_source.h"
#include "cli/trade_call.h"

/* A source of a piece on the floor, with the chance that it is this one. */
typedef struct {
    stock_source source;
    double chance;
} likely_source;

typedef struct {
    const cli_call *call;
    const kit_source *from;
    kit_hit *hits; /* with words: the parts that answer to them */
    uint32_t n_hits;
    bool words, looks, floor; /* what was given */

    candidate *list;  /* the fasteners among the parts that are in question */
    kit_index *parts; /* of the kit, by candidate */
    uint32_t n;
    bool has_identity; /* false: there was no fastener to choose from */
    identity id;

    likely_source *sources; /* with floor: likeliest first */
    uint32_t n_sources;
} identified;

void identify_text(const identified *i, buf *out);
void identify_json(const identified *i, buf *out);

#endif
