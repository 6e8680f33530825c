/* package_keep.c: what a datapackage.json says beyond the tables (title, licences, sources) outlives its rewriting. */
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "base/sys.h"
#include "kit/inside.h"

static json_t *read_old(arena *a, const char *path) {
    text bytes;
    if (!sys_exists(path) || !sys_read_file(a, path, (size_t)16 << 20, &bytes, NULL))
        return NULL;
    return json_loadb(bytes.at, bytes.len, 0, NULL);
}

text kit_package_old_text(arena *a, const char *path, const char *key, text otherwise) {
    json_t *old = read_old(a, path);
    const json_t *value = json_object_get(old, key);
    if (json_is_string(value) && json_string_length(value))
        otherwise = arena_text(a, (text){json_string_value(value), json_string_length(value)});
    json_decref(old);
    return otherwise;
}

static bool is_ours(const char *key) {
    static const char *const ours[] = {"profile", "name", "title", "resources"};
    for (size_t i = 0; i < sizeof ours / sizeof ours[0]; i++)
        if (strcmp(key, ours[i]) == 0)
            return true;
    return false;
}

/* A member of the outermost object. Line breaks inside texts are escaped, so each one in the dump is one of its layout
 * and takes our two columns more. */
static void add_member(buf *out, const char *key, const json_t *value) {
    char *dump = json_dumps(value, JSON_INDENT(2) | JSON_ENCODE_ANY);
    if (!dump)
        return;
    buf_add_z(out, ",\n  ");
    buf_add_json(out, text_of(key));
    buf_add_z(out, ": ");
    for (const char *c = dump; *c; c++) {
        buf_add_char(out, *c);
        if (*c == '\n')
            buf_add_z(out, "  ");
    }
    free(dump);
}

void kit_package_keep(arena *a, const char *path, buf *out) {
    json_t *old = read_old(a, path);
    const char *key;
    json_t *value;
    json_object_foreach(old, key, value) {
        if (!is_ours(key))
            add_member(out, key, value);
    }
    json_decref(old);
}
