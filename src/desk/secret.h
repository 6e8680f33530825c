/* secret.h: hashes of codes and tokens (libsodium); private to the room. */
#ifndef DESK_SECRET_H
#define DESK_SECRET_H

#include "base/err.h"
#include "base/text.h"

/* A code's hash, as text with its own parameters and salt; in the arena. ERR_RUN without the memory for it. */
MUST_USE bool secret_hash(arena *a, text code, text *hash, err *e);
bool secret_is(text hash, text code);

/* A token that nobody can guess, in hexadecimal digits, and the hash under which it is kept. */
enum { SECRET_TOKEN = 32 };
MUST_USE bool secret_token(char token[SECRET_TOKEN + 1], err *e);
text secret_token_hash(arena *a, text token);

/* `n` characters out of `alphabet`, evenly. */
MUST_USE bool secret_pick(text alphabet, char *out, size_t n, err *e);

#endif
