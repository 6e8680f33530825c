/* secret.c: hashes of codes and tokens. docs/decisions.md says why these parameters. */
#include "desk/secret.h"

#include <sodium.h>
#include <string.h>

#include "base/sys.h"

enum { PASSES = 3, MEMORY = 12 << 20, TOKEN_BYTES = SECRET_TOKEN / 2, TOKEN_HASH = 32 };

bool secret_hash(arena *a, text code, text *hash, err *e) {
    char out[crypto_pwhash_STRBYTES];
    if (sodium_init() < 0 ||
        crypto_pwhash_str_alg(out, code.at, code.len, PASSES, MEMORY, crypto_pwhash_ALG_ARGON2ID13))
        return err_run(e, "code", "close other programs", "there is no memory to hash it (12 MB)");
    *hash = arena_text(a, text_of(out));
    return true;
}

bool secret_is(text hash, text code) {
    char z[crypto_pwhash_STRBYTES] = "";
    if (hash.len >= sizeof z || sodium_init() < 0)
        return false;
    memcpy(z, hash.at, hash.len);
    return crypto_pwhash_str_verify(z, code.at, code.len) == 0;
}

bool secret_token(char token[SECRET_TOKEN + 1], err *e) {
    unsigned char bytes[TOKEN_BYTES];
    if (!sys_random(bytes, sizeof bytes, e))
        return false;
    sodium_bin2hex(token, SECRET_TOKEN + 1, bytes, sizeof bytes);
    return true;
}

/* Nobody can try all tokens of 128 bits, so a fast hash will do. */
text secret_token_hash(arena *a, text token) {
    unsigned char hash[TOKEN_HASH];
    crypto_generichash(hash, sizeof hash, (const unsigned char *)token.at, token.len, NULL, 0);
    return arena_text(a, (text){(const char *)hash, sizeof hash});
}

bool secret_pick(text alphabet, char *out, size_t n, err *e) {
    size_t most = 256 - 256 % alphabet.len;
    for (size_t i = 0; i < n;) {
        unsigned char byte;
        if (!sys_random(&byte, 1, e))
            return false;
        if (byte < most) /* or some characters came more often */
            out[i++] = alphabet.at[byte % alphabet.len];
    }
    return true;
}
