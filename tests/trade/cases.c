#include "cases.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/blocks.h"

static void read_pairs(test_case *c, text line) {
    while ((line = text_trim(line)).len > 0) {
        if (line.at[0] == ':' || c->n_pairs == CASE_PAIRS)
            fail_msg("line %u: too many pairs", c->line);
        ptrdiff_t eq = text_find(line, TEXT("="));
        if (eq <= 0)
            fail_msg("line %u: not a name=value pair: %.*s", c->line, TEXT_ARG(line));
        case_pair *p = &c->pairs[c->n_pairs++];
        p->name = text_slice(line, 0, (size_t)eq);
        line = text_slice(line, (size_t)eq + 1, line.len);
        bool quoted = line.len > 0 && line.at[0] == '"';
        if (quoted)
            line = text_slice(line, 1, line.len);
        ptrdiff_t end = text_find(line, quoted ? TEXT("\"") : TEXT(" "));
        size_t len = end < 0 ? line.len : (size_t)end;
        p->value = text_slice(line, 0, len);
        line = text_slice(line, len + (end >= 0), line.len);
    }
}

case_list cases_read(arena *a, const char *name) {
    const char *path = arena_format(a, "tests/trade/cases/%s", name).at;
    blocks all = blocks_read(a, path);
    case_list list = {arena_array(a, test_case, all.n), all.n};
    for (size_t i = 0; i < all.n; i++) {
        const block *b = &all.list[i];
        test_case *c = &list.list[i];
        *c = (test_case){.input = text_trim(b->lines[0]), .line = b->line};
        for (size_t l = 1; l < b->n; l++) {
            text line = text_trim(b->lines[l]);
            if (text_starts(line, TEXT("not:")))
                c->refusal = text_trim(text_slice(line, 4, line.len));
            else
                read_pairs(c, line);
        }
        if (c->n_pairs == 0 && !c->refusal.at)
            fail_msg("%s line %u: a case without expectation", path, c->line);
    }
    return list;
}

text case_value(const test_case *c, const char *name) {
    for (size_t i = 0; i < c->n_pairs; i++)
        if (text_is(c->pairs[i].name, name))
            return c->pairs[i].value;
    return (text){"", 0};
}

text shared_file(arena *a, const char *path) {
    char full[512];
    const char *data = getenv("KITBENCH_DATA");
    if (data)
        snprintf(full, sizeof full, "%s/../%s", data, path);
    else
        snprintf(full, sizeof full, "../shared/%s", path);
    return whole_file(a, full);
}

text project_file(arena *a, const char *path) {
    text bytes = whole_file(a, path);
    if (!bytes.at)
        fail_msg("%s is missing; run the tests from the project's root", path);
    return bytes;
}
