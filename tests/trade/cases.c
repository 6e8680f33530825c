#include "cases.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static text read_file(arena *a, const char *path) {
    FILE *f = fopen(path, "rb");
    if (!f)
        return (text){NULL, 0};
    size_t cap = 1 << 16, n = 0;
    char *bytes = arena_array(a, char, cap);
    for (size_t got; (got = fread(bytes + n, 1, cap - n, f)) > 0;) {
        n += got;
        if (n == cap) {
            bytes = arena_grow_array(a, bytes, n, 2 * cap, 1);
            cap *= 2;
        }
    }
    fclose(f);
    return (text){bytes, n};
}

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

static void read_line(arena *a, case_list *list, text line, unsigned number, bool *in_block) {
    line = text_trim(line);
    if (line.len == 0) {
        *in_block = false;
        return;
    }
    if (line.at[0] == '#')
        return;
    if (!*in_block) {
        arena_room(a, list->list, list->n, list->cap, test_case);
        list->list[list->n++] = (test_case){.input = line, .line = number};
        *in_block = true;
        return;
    }
    test_case *c = &list->list[list->n - 1];
    if (text_starts(line, TEXT("not:")))
        c->refusal = text_trim(text_slice(line, 4, line.len));
    else
        read_pairs(c, line);
}

case_list cases_read(arena *a, const char *name) {
    char path[256];
    snprintf(path, sizeof path, "tests/trade/cases/%s", name);
    text rest = read_file(a, path), line;
    if (!rest.at)
        fail_msg("%s is missing; run the tests from the project's root", path);
    case_list list = {0};
    bool in_block = false;
    for (unsigned number = 1; text_next_piece(&rest, '\n', &line); number++)
        read_line(a, &list, line, number, &in_block);
    for (size_t i = 0; i < list.n; i++)
        if (list.list[i].n_pairs == 0 && !list.list[i].refusal.at)
            fail_msg("%s line %u: a case without expectation", path, list.list[i].line);
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
    return read_file(a, full);
}

text project_file(arena *a, const char *path) {
    text bytes = read_file(a, path);
    if (!bytes.at)
        fail_msg("%s is missing; run the tests from the project's root", path);
    return bytes;
}
