#include "document.h"

#include <jansson.h>

document *document_make(char kind, int64_t number, const char *t) {
    switch (kind) {
    case 'o':
        return (document *)json_pack("{}");
    case 'a':
        return (document *)json_pack("[]");
    case 's':
        return (document *)json_pack("s", t);
    case 'i':
        return (document *)json_pack("I", (json_int_t)number);
    case 'd':
        return (document *)json_pack("f", (double)number / 1000);
    case 'b':
        return (document *)json_pack("b", number != 0);
    default:
        return (document *)json_pack("n");
    }
}

void document_add(document *parent, const char *key, document *child) {
    if (key)
        json_object_set_new((json_t *)parent, key, (json_t *)child);
    else
        json_array_append_new((json_t *)parent, (json_t *)child);
}

document *document_read(text json) {
    return (document *)json_loadb(json.at, json.len, JSON_REJECT_DUPLICATES, NULL);
}

bool document_equal(const document *one, const document *other) {
    return json_equal((const json_t *)one, (const json_t *)other);
}

void document_free(document *d) {
    json_decref((json_t *)d);
}
