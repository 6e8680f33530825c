#include "trade/tools.h"

#include <stdio.h>
#include <string.h>

#include "trade/lexicon.h"
#include "trade/scan.h"

static tool_sort sort_for(const designation *d) {
    if (d->kind == FASTENER_PIN)
        return d->form == FORM_SPLIT_PIN    ? TOOL_PLIERS
               : d->form == FORM_CLEVIS_PIN ? TOOL_NONE
                                            : TOOL_HAMMER_AND_PUNCH;
    if (d->kind == FASTENER_RING)
        return d->form == FORM_E_RING ? TOOL_PLIERS : TOOL_RING_PLIERS;
    static const tool_sort by_drive[DRIVE_COUNT] = {
        [DRIVE_HEXAGON] = TOOL_SPANNER,    [DRIVE_HEX_SOCKET] = TOOL_HEX_KEY,
        [DRIVE_CROSS] = TOOL_CROSS_DRIVER, [DRIVE_SLOT] = TOOL_SLOT_DRIVER,
        [DRIVE_SQUARE] = TOOL_SPANNER,     [DRIVE_HEXALOBULAR] = TOOL_HEXALOBULAR_KEY,
    };
    return (unsigned)d->drive < DRIVE_COUNT ? by_drive[d->drive] : TOOL_NONE;
}

tool_need tool_for(const designation *d) {
    tool_need t = {.sort = sort_for(d), .number = -1};
    fastener_size size;
    if (t.sort == TOOL_NONE || !fastener_size_of(d, &size, NULL))
        return t;
    if (t.sort == TOOL_SPANNER) {
        t.size_um = size.flats_um;
        t.other_um = size.other_flats_um;
    } else if (t.sort == TOOL_HEX_KEY) {
        t.size_um = size.key_um;
    } else if (t.sort == TOOL_CROSS_DRIVER || t.sort == TOOL_HEXALOBULAR_KEY) {
        t.number = size.drive_number;
    }
    return t;
}

const char *tool_sort_name(tool_sort sort) {
    static const char *const names[TOOL_SORT_COUNT] = {
        "none",        "spanner",          "hex key", "cross driver", "slot driver", "hexalobular key",
        "ring pliers", "hammer and punch", "pliers",
    };
    return (unsigned)sort < TOOL_SORT_COUNT ? names[sort] : "unknown";
}

int tool_print(const tool_need *t, char out[64]) {
    const char *name = tool_sort_name(t->sort);
    if (t->size_um && t->other_um)
        return snprintf(out, 64, "%s %g mm (or %g)", name, t->size_um / 1e3, t->other_um / 1e3);
    if (t->size_um)
        return snprintf(out, 64, "%s %g mm", name, t->size_um / 1e3);
    if (t->number >= 0)
        return snprintf(out, 64, "%s size %d", name, t->number);
    bool sized = t->sort == TOOL_SPANNER || t->sort == TOOL_HEX_KEY || t->sort == TOOL_CROSS_DRIVER ||
                 t->sort == TOOL_HEXALOBULAR_KEY;
    return snprintf(out, 64, "%s%s", name, sized ? ", size not known" : "");
}

/* Words of tool tables. The first that is found decides, so the more telling ones stand first. */
typedef struct {
    const char *word;
    tool_sort sort;
} tool_word;

static const tool_word tool_words[] = {

    {"hexalobular", TOOL_HEXALOBULAR_KEY},
    {"torx", TOOL_HEXALOBULAR_KEY},
    {"hex key", TOOL_HEX_KEY},
    {"allen", TOOL_HEX_KEY},
    {"hexagon key", TOOL_HEX_KEY},
    {"hex bit", TOOL_HEX_KEY},
    {"ring pliers", TOOL_RING_PLIERS},
    {"circlip", TOOL_RING_PLIERS},
    {"cross", TOOL_CROSS_DRIVER},
    {"phillips", TOOL_CROSS_DRIVER},
    {"pozi", TOOL_CROSS_DRIVER},
    {"slot", TOOL_SLOT_DRIVER},
    {"flat driver", TOOL_SLOT_DRIVER},
    {"flat screwdriver", TOOL_SLOT_DRIVER},
    {"punch", TOOL_HAMMER_AND_PUNCH},
    {"pliers", TOOL_PLIERS},
    {"spanner", TOOL_SPANNER},
    {"socket", TOOL_SPANNER},
    {"nut driver", TOOL_SPANNER},
    {"wrench", TOOL_SPANNER},
};

static tool_sort find_sort(const char *line) {
    if (strstr(line, "crimping") || strstr(line, "torque") || strstr(line, "stripper"))
        return TOOL_NONE;
    for (size_t i = 0; i < sizeof tool_words / sizeof *tool_words; i++)
        if (strstr(line, tool_words[i].word))
            return tool_words[i].sort;
    return TOOL_NONE;
}

/* The first number and, behind "-" or "to", a second: "8-19 mm", "8 to 19", "13 mm, 1/2 inch square" (13 alone). */
static void read_sizes(const char *line, tool_piece *p) {
    const char *c = line + strcspn(line, "0123456789");
    if (!scan_mm(&c, &p->low_um))
        return;
    p->high_um = p->low_um;
    if (strncmp(c, " mm", 3) == 0)
        c += 3;
    while (*c == ' ')
        c++;
    bool range = *c == '-' || strncmp(c, "to ", 3) == 0;
    c += strspn(c, "-to ");
    int32_t high;
    if (range && scan_mm(&c, &high) && high > p->low_um)
        p->high_um = high;
}

/* "ph2", "size 2", "t20": drivers go by number, unless millimetres are given. */
static int read_number(const char *line) {
    const char *c = line + strcspn(line, "0123456789");
    int32_t um;
    if (!scan_mm(&c, &um) || um % 1000 || strncmp(c, " mm", 3) == 0 || strncmp(c, "mm", 2) == 0)
        return -1;
    return um / 1000;
}

/* A screwdriver says in its kind, its name or its size which one it is. */
static tool_sort find_driver(const char *kind, const char *name, const char *size) {
    if (!strstr(kind, "driver"))
        return TOOL_NONE;
    tool_sort sort = find_sort(name);
    if (!sort)
        sort = find_sort(size);
    if (!sort && (strncmp(size, "ph", 2) == 0 || strncmp(size, "pz", 2) == 0))
        sort = TOOL_CROSS_DRIVER;
    return sort;
}

bool tool_read(text name, text kind, text size, tool_piece *out) {
    char names[CLEAN_SIZE], kinds[CLEAN_SIZE], sizes[CLEAN_SIZE];
    scan_clean(name, names);
    scan_clean(kind, kinds);
    scan_clean(size, sizes);
    tool_piece p = {.sort = find_sort(kinds), .number = -1};
    if (!p.sort)
        p.sort = find_driver(kinds, names, sizes);
    if (!p.sort)
        return false;
    if (p.sort == TOOL_SPANNER || p.sort == TOOL_HEX_KEY)
        read_sizes(sizes, &p);
    if (p.sort == TOOL_CROSS_DRIVER || p.sort == TOOL_HEXALOBULAR_KEY)
        p.number = read_number(sizes);
    p.is_set = strstr(kinds, " set") || strstr(names, " set") || p.high_um > p.low_um;
    *out = p;
    return true;
}

bool tool_serves(const tool_piece *piece, const tool_need *need) {
    if (piece->sort != need->sort)
        return false;
    bool sized = need->sort == TOOL_SPANNER || need->sort == TOOL_HEX_KEY;
    if (sized && need->size_um && piece->low_um)
        return need->size_um >= piece->low_um && need->size_um <= piece->high_um;
    if (need->number >= 0 && piece->number >= 0)
        return need->number == piece->number;
    return true;
}

bool tool_need_equal(const tool_need *a, const tool_need *b) {
    return a->sort == b->sort && a->size_um == b->size_um && a->number == b->number;
}

int tool_need_compare(const tool_need *a, const tool_need *b) {
    if (a->sort != b->sort)
        return a->sort < b->sort ? -1 : 1;
    if (a->size_um != b->size_um)
        return a->size_um < b->size_um ? -1 : 1;
    return (a->number > b->number) - (a->number < b->number);
}
