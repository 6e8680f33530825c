#include "support/blocks.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

text whole_file(arena *a, const char *path) {
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

text data_file(arena *a, const char *name) {
    const char *folder = getenv("KITBENCH_DATA");
    char path[512];
    snprintf(path, sizeof path, "%s/%s", folder ? folder : "../shared/data", name);
    text bytes = whole_file(a, path);
    if (!bytes.at)
        print_message("SKIPPED: %s is not there\n", path);
    return bytes;
}

static void add_line(arena *a, blocks *all, text line, unsigned number, bool *inside) {
    if (line.len && line.at[0] == '#')
        return;
    if (!text_trim(line).len) {
        *inside = false;
        return;
    }
    if (!*inside) {
        arena_room(a, all->list, all->n, all->cap, block);
        all->list[all->n++] = (block){.line = number};
        *inside = true;
    }
    block *b = &all->list[all->n - 1];
    if (b->n == BLOCK_LINES)
        fail_msg("line %u: the block is too long", number);
    b->lines[b->n++] = line;
}

blocks blocks_read(arena *a, const char *path) {
    text rest = whole_file(a, path), line;
    if (!rest.at)
        fail_msg("%s is missing; run the tests from the project's root", path);
    blocks all = {0};
    bool inside = false;
    for (unsigned number = 1; text_next_piece(&rest, '\n', &line); number++)
        add_line(a, &all, line, number, &inside);
    if (!all.n)
        fail_msg("%s holds no case", path);
    return all;
}

bool quoted_part(text line, text *inside, text *after) {
    const char *first = line.len ? memchr(line.at, '"', line.len) : NULL;
    const char *last = line.len ? memrchr(line.at, '"', line.len) : NULL;
    if (!first || first == last)
        return false;
    *inside = (text){first + 1, (size_t)(last - first - 1)};
    *after = (text){last + 1, (size_t)(line.at + line.len - last - 1)};
    return true;
}
