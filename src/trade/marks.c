/* marks.c: what may stand behind the size of a designation. */
#include <string.h>

#include "trade/lexicon.h"
#include "trade/scan.h"

typedef struct {
    const char *mark;
    fastener_material material;
    fastener_finish finish;
} plain_mark;

static const plain_mark plain_marks[] = {
    {"a1", MATERIAL_A1, FINISH_UNKNOWN},
    {"a2", MATERIAL_A2, FINISH_UNKNOWN},
    {"a4", MATERIAL_A4, FINISH_UNKNOWN},
    {"stainless", MATERIAL_STAINLESS, FINISH_UNKNOWN},
    {"spring steel", MATERIAL_SPRING_STEEL, FINISH_UNKNOWN},
    {"steel", MATERIAL_STEEL, FINISH_UNKNOWN},
    {"st", MATERIAL_STEEL, FINISH_UNKNOWN},
    {"brass", MATERIAL_BRASS, FINISH_UNKNOWN},
    {"cuzn", MATERIAL_BRASS, FINISH_UNKNOWN},
    {"al", MATERIAL_ALUMINIUM, FINISH_UNKNOWN},
    {"pa", MATERIAL_PLASTIC, FINISH_UNKNOWN},
    {"plain", MATERIAL_UNKNOWN, FINISH_PLAIN},
    {"black", MATERIAL_UNKNOWN, FINISH_BLACK},
    {"tzn", MATERIAL_UNKNOWN, FINISH_HOT_DIP}, /* ISO 10684 */
    {"zn", MATERIAL_UNKNOWN, FINISH_ZINC},     /* ISO 4042 */
    {"zinc plated", MATERIAL_UNKNOWN, FINISH_ZINC},
    {"zinc", MATERIAL_UNKNOWN, FINISH_ZINC},
    {"ni", MATERIAL_UNKNOWN, FINISH_NICKEL},
};

/* Letters and digits up to the next separator; one dash may join two parts: "a2-70". */
static size_t token_len(const char *at) {
    size_t n = 0;
    while (!scan_is_edge(at[n]) ||
           (at[n] == '.' && n > 0 && scan_is_digit(at[n - 1]) && scan_is_digit(at[n + 1])))
        n++;
    return n;
}

static const fastener_grade *grade_at(const char *at, fastener_kind kind, size_t *len) {
    size_t first = token_len(at);
    if (first == 0)
        return NULL;
    if (at[first] == '-' || at[first] == ' ') { /* "a2-70", "200 hv" */
        size_t second = token_len(at + first + 1);
        char joined[16];
        if (second > 0 && first + 1 + second < sizeof joined) {
            memcpy(joined, at, first);
            bool hardness = second == 2 && memcmp(at + first + 1, "hv", 2) == 0;
            size_t n = first;
            if (!hardness)
                joined[n++] = '-';
            memcpy(joined + n, at + first + 1, second);
            const fastener_grade *g = fastener_grade_find(kind, (text){joined, n + second});
            if (g) {
                *len = first + 1 + second;
                return g;
            }
        }
    }
    *len = first;
    return fastener_grade_find(kind, (text){at, first});
}

/* The three-sign code of the older ISO 4042: metal, thickness, gloss; "a2p" is 5 um of zinc. Only zinc and nickel. */
static fastener_finish old_coating_code(const char *at, size_t len) {
    if (len != 3 || !scan_is_letter(at[0]) || !scan_is_digit(at[1]) || !scan_is_letter(at[2]) || at[2] > 't')
        return FINISH_UNKNOWN;
    return at[0] == 'a' ? FINISH_ZINC : at[0] == 'e' ? FINISH_NICKEL : FINISH_UNKNOWN;
}

static bool is_recess_type(const char *at, size_t *len) {
    const char *c = strncmp(at, "type ", 5) == 0 ? at + 5 : at;
    if ((*c != 'h' && *c != 'z') || !scan_is_edge(c[1]))
        return false;
    *len = (size_t)(c - at) + 1;
    return true;
}

mark_reading lexicon_read_mark(const char *at, fastener_kind kind) {
    mark_reading m = {0};
    size_t len = 0;
    const fastener_grade *g = grade_at(at, kind, &len);
    if (g)
        return (mark_reading){.len = len, .grade = g, .material = g->material};
    if (is_recess_type(at, &len))
        return (mark_reading){.len = len};
    len = token_len(at);
    if (len == 2 && memcmp(at, "lh", 2) == 0)
        return (mark_reading){.len = len, .left_hand = true};
    if ((m.finish = old_coating_code(at, len)) != FINISH_UNKNOWN) {
        m.len = len;
        return m;
    }
    for (size_t i = 0; i < sizeof plain_marks / sizeof *plain_marks; i++) {
        size_t n = strlen(plain_marks[i].mark);
        if (strncmp(at, plain_marks[i].mark, n) != 0)
            continue;
        /* "zn8": the newer ISO 4042 adds the thickness in um */
        size_t digits = plain_marks[i].finish == FINISH_ZINC || plain_marks[i].finish == FINISH_NICKEL
                            ? strspn(at + n, "0123456789")
                            : 0;
        if (!scan_is_edge(at[n + digits]))
            continue;
        return (mark_reading){
            .len = n + digits, .material = plain_marks[i].material, .finish = plain_marks[i].finish};
    }
    return m;
}
