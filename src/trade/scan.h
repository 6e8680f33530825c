/* scan.h: small pieces both readers of names use (private to the room).
 *
 * A name is first cleaned into one plain line: ASCII, lower case, one kind of dash, of blank and of times sign, decimal
 * point. Everything after works on that line, which is followed by a NUL. */
#ifndef TRADE_SCAN_H
#define TRADE_SCAN_H

#include "trade/designation.h"

enum { CLEAN_SIZE = 512 };

/* Letters beyond ASCII become '?', so that they end a word and match nothing. False when the text was cut. */
bool scan_clean(text t, char out[CLEAN_SIZE]);

bool scan_is_letter(char c);
bool scan_is_digit(char c);
/* A byte that a word or number may stand beside: neither letter nor digit. NUL counts. */
bool scan_is_edge(char c);

/* A number of at most five digits before and three after the point, as micrometres. Moves *at behind it. */
bool scan_mm(const char **at, int32_t *um);
/* "x", with blanks around it, when a digit follows. Moves *at behind it. */
bool scan_times(const char **at);

/* A standard at *at: "iso 4762", "din en iso 4762", "iso4032", "iso 7093-1". Moves *at behind it. `body` gets "ISO", "DIN"
 * or "EN", `number` the number; *found the row of our table or NULL when we do not know it. */
bool scan_standard(const char **at, const char **body, unsigned *number, const fastener_standard **found);

/* Diameter of the thread for a washer named by its hole (DIN 125 and kin); 0 when none fits. */
int32_t scan_thread_for_hole(int32_t hole_um);

/* The size part that belongs to `style`; see read_size in read.c. */
typedef struct {
    int32_t thread_um, pitch_um, length_um; /* 0: not there */
} size_read;

/* "m8", "m8x25", "m8x1x25", "m8x1". Decides between pitch and length as described in scan.c. `has_length`: pieces of this
 * sort have one. */
bool scan_thread(const char **at, bool has_length, size_read *out);

#endif
