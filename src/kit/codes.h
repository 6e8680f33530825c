/* codes.h: the four characters on a label by which a box, bag, part or step is typed in. Part of kit.h.
 *
 * A code is made of the thing's own number, so the same label is right in every build of the kit and after new rows were
 * added. Two numbers that give the same code are told apart in the order of the tables. 24 letters and digits that
 * nobody confuses: no 0 O Q, 1 I, 2 Z, 5 S, 8 B, G.
 */
#ifndef KIT_CODES_H
#define KIT_CODES_H

#include "kit/records.h"

typedef enum { KIT_CODE_CONTAINER, KIT_CODE_PART, KIT_CODE_STEP, KIT_CODE_KINDS } kit_code_kind;

enum { KIT_CODE_LENGTH = 4 };

typedef struct {
    char code[KIT_CODE_LENGTH + 1];
    kit_code_kind kind;
    kit_index index; /* in the kit's table of the kind */
} kit_code;

typedef struct {
    const kit_code *by_index[KIT_CODE_KINDS]; /* each as long as its table */
    const kit_code **sorted;                  /* by code */
    uint32_t n;
} kit_codes;

/* Every code of a kit, in the arena. A kit of more than 165,888 numbers gets none (by_index NULL): four characters do not
 * tell so many apart. */
void kit_make_codes(arena *a, const kit *k, kit_codes *out);

/* NULL when no label has it. Small letters are as good as large ones. */
const kit_code *kit_find_code(const kit_codes *codes, text typed);

#endif
