/* battery_call.h: what the questions of `kitbench battery` share: which battery is meant, the load, the answer. */
#ifndef CLI_BATTERY_CALL_H
#define CLI_BATTERY_CALL_H

#include "cli/kit_source.h"
#include "cli/trade_call.h"

typedef struct {
    const cli_call *call;
    battery_set set;
    const kit *kit;           /* NULL: only the options say what battery it is */
    const kit_battery *label; /* the kit's row about it, NULL likewise */
    int64_t pieces;           /* of it in the kit; 0 likewise */
    buf out;
    json_out json; /* of --json: an open object */
    err e;
} battery_answer;

/* The battery from the kit's table when `path` is not NULL (a kit's folder or a build file, opened into `from`), then from
 * the options, which come first. False: a->e says why, or `*code` when the failure was told already. */
MUST_USE bool battery_meant(battery_answer *a, const char *path, kit_source *from, int *code);

/* "5" or "10x5; 2x20": amperes x minutes, parts divided by ';'. One number alone is a steady current. At most 64 parts. */
MUST_USE bool battery_profile(battery_answer *a, load_part parts[64], size_t *n);

/* The question "store", in battery_store.c: false when a->e says why not. */
MUST_USE bool battery_store(battery_answer *a);

void battery_add_band(buf *out, band b, const char *unit);

#endif
