/* document.h: JSON documents as jansson holds them, the other side in the tests of our own writer. */
#ifndef TESTS_BASE_DOCUMENT_H
#define TESTS_BASE_DOCUMENT_H

#include <stdbool.h>
#include <stdint.h>

#include "base/text.h"

typedef struct document document;

/* One value; `kind` is 'o' object, 'a' array, 's' text (`t`), 'i' whole number, 'd' the number / 1000, 'b' truth, 'n' null. */
document *document_make(char kind, int64_t number, const char *t);

/* Puts `child`, which it takes over, into an object (with key) or an array. */
void document_add(document *parent, const char *key, document *child);

/* NULL when it is no JSON or has a key twice. */
document *document_read(text json);
bool document_equal(const document *one, const document *other);
void document_free(document *d);

#endif
