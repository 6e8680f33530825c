/* dims_tables.h: the tables behind dimensions.h (private to the room). */
#ifndef TRADE_DIMS_TABLES_H
#define TRADE_DIMS_TABLES_H

#include "trade/dimensions.h"

/* In hundredths of a millimetre, so that 6.72 and 0.3 stand as printed; 0: none. */
typedef struct {
    int16_t thread; /* 250 is M2.5; of a split pin its nominal size */
    int16_t flats, key, width, height, hole, depth, thread_length, ring;
    int16_t number; /* of the drive */
} dims_row;

typedef struct {
    const char *standards; /* divided by ';', the usual one first */
    fastener_form form;    /* what a piece without standard must be */
    fastener_drive drive;
    const dims_row *rows;
    size_t n_rows;
    const char *source;
} dims_family;

/* The families of one file; `n` gets their number. */
const dims_family *dims_hexagons(size_t *n);
const dims_family *dims_sockets(size_t *n);
const dims_family *dims_others(size_t *n);

#endif
