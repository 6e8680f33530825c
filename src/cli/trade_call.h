/* trade_call.h: what the commands about the trade share: decimal options, words, designations of the command line. */
#ifndef CLI_TRADE_CALL_H
#define CLI_TRADE_CALL_H

#include "base/json_out.h"
#include "base/wrap.h"
#include "cli/cli.h"
#include "trade/trade.h"

enum { TRADE_WIDTH = 80 };

/* The value of an option as a decimal number from `low` to `high`; `absent` when it is not given (NAN: it must be). A unit
 * behind it must be the option's own ("25 mm"); another one is refused and never converted. */
MUST_USE bool trade_option(const cli_call *call, const char *option, double low, double high, double absent,
                           double *out, err *e);

/* The same, but a number outside the limits is let through: the trade room refuses it and says more than the limits. */
MUST_USE bool trade_figure(const cli_call *call, const char *option, double low, double high, double absent,
                           double *out, err *e);

MUST_USE bool trade_whole(const cli_call *call, const char *option, int32_t low, int32_t high, int32_t absent,
                          int32_t *out, err *e);

/* The place of an option's value among `words` ("dry|oiled|locked"); `absent` when not given. */
MUST_USE bool trade_word(const cli_call *call, const char *option, const char *words, unsigned absent,
                         unsigned *out, err *e);

/* All arguments joined by blanks, so that a designation needs no quotes. */
text trade_joined(const cli_call *call, int from);

/* Strict, or the guess of a proposal that misses nothing and contradicts nothing; the assumptions go to `said`, one a line.
 * Fails with what is missing. */
MUST_USE bool trade_designation(const cli_call *call, text name, designation *out, buf *said, err *e);

/* A paragraph, wrapped. */
void trade_line(buf *out, const char *format, ...) PRINTF_LIKE(2, 3);

/* A text member from a NUL-terminated string. */
void trade_json_z(json_out *j, const char *key, const char *z);
/* Null when it is not finite. */
void trade_json_real(json_out *j, const char *key, double value);
void trade_json_band(json_out *j, const char *key, band b);

/* mm from micrometres, without zeros at the end. */
void trade_json_um(json_out *j, const char *key, int32_t um);

#endif
