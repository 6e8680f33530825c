#include "web/ask.h"

#include <string.h>

#include "base/buf.h"

json_t *ask_object(text body, err *e) {
    json_error_t why;
    json_t *in = json_loadb(body.at ? body.at : "", body.len, JSON_REJECT_DUPLICATES, &why);
    if (json_is_object(in))
        return in;
    json_decref(in);
    err_input(e, "body", "send one JSON object", "%s", in ? "it is no object" : why.text);
    return NULL;
}

bool ask_text(const json_t *in, const char *key, const char **out, err *e) {
    const json_t *v = json_object_get(in, key);
    *out = "";
    if (!v || json_is_null(v))
        return true;
    if (!json_is_string(v))
        return err_input(e, key, "write it in quotes", "it is no text");
    if (json_string_length(v) > ASK_LONGEST)
        return err_input(e, key, "say it in fewer words", "it is longer than %d bytes", ASK_LONGEST);
    *out = json_string_value(v);
    return true;
}

bool ask_word(const json_t *in, const char *key, const char **out, err *e) {
    return ask_text(in, key, out, e) &&
           (text_trim(text_of(*out)).len || err_input(e, key, "fill it in", "it is missing"));
}

bool ask_integer(const json_t *in, const char *key, int64_t low, int64_t high, int64_t absent, int64_t *out,
                 err *e) {
    const json_t *v = json_object_get(in, key);
    *out = absent;
    if (!v || json_is_null(v))
        return (absent >= low && absent <= high) || absent == -1 ||
               err_input(e, key, "fill it in", "it is missing");
    *out = json_integer_value(v);
    if (!json_is_integer(v) || *out < low || *out > high)
        return err_input(e, key, "write a whole number in that range", "it is no number from %lld to %lld",
                         (long long)low, (long long)high);
    return true;
}

bool ask_bool(const json_t *in, const char *key, bool *out, err *e) {
    const json_t *v = json_object_get(in, key);
    *out = json_is_true(v);
    return !v || json_is_boolean(v) || json_is_null(v) ||
           err_input(e, key, "write true or false", "it is neither");
}

bool ask_names(arena *a, const json_t *in, const char *key, const char **out, err *e) {
    const json_t *v = json_object_get(in, key);
    *out = "";
    if (!v || json_is_null(v))
        return true;
    if (!json_is_array(v) || json_array_size(v) > 64)
        return err_input(e, key, "send a list of at most 64 names", "it is none");
    buf all = {0};
    bool ok = true;
    for (size_t i = 0; ok && i < json_array_size(v); i++) {
        const json_t *one = json_array_get(v, i);
        ok = json_is_string(one) && json_string_length(one) <= ASK_LONGEST &&
             !strchr(json_string_value(one), ',');
        buf_addf(&all, "%s%s", i ? "," : "", ok ? json_string_value(one) : "");
    }
    *out = arena_z(a, buf_text(&all));
    buf_free(&all);
    return ok || err_input(e, key, "send names or numbers without commas", "one of them is none");
}
