/* number.h: numbers as people write them in tables.
 *
 * Exact: quantities are integers of a small unit (milligrams, thousandths), never floating point. A failure says in
 * words what is wrong and what would be right, ready for a fault.
 */
#ifndef BASE_NUMBER_H
#define BASE_NUMBER_H

#include <stdint.h>

#include "base/text.h"

/* What is wrong with a number, as the cause and the remedy of a fault. */
typedef struct {
    char cause[128];
    char remedy[128];
} number_fault;

/* A whole number in low..high, without sign but '-', without blanks. */
MUST_USE bool number_integer(text t, int64_t low, int64_t high, int64_t *out, number_fault *why);

/* A decimal number with a point, scaled by 10^scale: ("12.5", 3) gives 12500. More digits after the point than
 * `scale` are refused, so nothing is ever rounded. low and high are scaled too; 0 <= scale <= 9. A decimal comma is
 * refused with the remedy "write 12.5". */
MUST_USE bool number_decimal(text t, int scale, int64_t low, int64_t high, int64_t *out, number_fault *why);

/* (12500, 3) gives "12.5": no zeros at the end; at least 24 bytes of room. */
void number_print_decimal(int64_t value, int scale, char out[24]);

#endif
