/* alike.c: which two parts a beginner takes for each other.
 *
 * Fasteners are compared by their designations (trade/look.h). Other parts look alike when their names are the same
 * but for one word that says which hand, which end or which size: "Rail, left" and "Rail, right", "Bracket 2" and
 * "Bracket 3". The pairs of such words are common practice, no source.
 */
#include <string.h>

#include "base/utf8.h"
#include "stock/assess.h"
#include "trade/trade.h"

enum { GRADE_NAME = 2, GRADE_SAME_PART = 4 };

static const char *const opposites[][2] = {
    {"left", "right"},   {"upper", "lower"},    {"top", "bottom"}, {"front", "rear"},  {"front", "back"},
    {"inner", "outer"},  {"inside", "outside"}, {"long", "short"}, {"large", "small"}, {"male", "female"},
    {"first", "second"}, {"north", "south"},    {"east", "west"},  {"lh", "rh"},
};

static bool is_word_byte(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (unsigned char)c >= 0x80 || c == '.';
}

static bool next_word(text *rest, text *word) {
    size_t from = 0;
    while (from < rest->len && !is_word_byte(rest->at[from]))
        from++;
    size_t to = from;
    while (to < rest->len && is_word_byte(rest->at[to]))
        to++;
    *word = text_slice(*rest, from, to);
    *rest = text_slice(*rest, to, rest->len);
    return word->len > 0;
}

static bool has_digit(text t) {
    for (size_t i = 0; i < t.len; i++)
        if (t.at[i] >= '0' && t.at[i] <= '9')
            return true;
    return false;
}

/* Words that tell two pieces of one family apart. */
static bool are_counterparts(text a, text b) {
    if ((has_digit(a) && has_digit(b)) || (a.len == 1 && b.len == 1))
        return true;
    for (size_t i = 0; i < sizeof opposites / sizeof opposites[0]; i++)
        if ((text_is(a, opposites[i][0]) && text_is(b, opposites[i][1])) ||
            (text_is(a, opposites[i][1]) && text_is(b, opposites[i][0])))
            return true;
    return false;
}

static likeness alike_names(arena *a, text one, text other) {
    text rest_one = utf8_fold(a, one, true), rest_other = utf8_fold(a, other, true);
    text differs_one = {0}, differs_other = {0};
    int same = 0, different = 0;
    for (;;) {
        text x, y;
        bool more_one = next_word(&rest_one, &x), more_other = next_word(&rest_other, &y);
        if (more_one != more_other)
            return (likeness){0};
        if (!more_one)
            break;
        if (text_equal(x, y)) {
            same++;
            continue;
        }
        if (++different > 1 || !are_counterparts(x, y))
            return (likeness){0};
        differs_one = x;
        differs_other = y;
    }
    if (!same || !different)
        return (likeness){0};
    return (likeness){GRADE_NAME,
                      arena_format(a, "same name but for \"%.*s\" and \"%.*s\"", TEXT_ARG(differs_one),
                                   TEXT_ARG(differs_other)),
                      TEXT("")};
}

static likeness alike_designations(arena *a, const designation *one, const designation *other) {
    look_alike look;
    designation_look_alike(one, other, &look);
    int grade = look.grade == LOOK_SAME ? 3 : look.grade == LOOK_ALIKE ? 2 : look.grade == LOOK_NEAR;
    return (likeness){grade, arena_text(a, text_of(look.reason)), arena_text(a, text_of(look.tell))};
}

likeness alike_parts(arena *a, const kit *k, kit_index one, kit_index other) {
    if (one == other)
        return (likeness){GRADE_SAME_PART, TEXT("the same part, in two places"), TEXT("")};
    const kit_part *p = &k->parts[one], *q = &k->parts[other];
    designation d, e;
    bool d_known = p->designation.len && designation_read(p->designation, &d, NULL);
    bool e_known = q->designation.len && designation_read(q->designation, &e, NULL);
    if (d_known && e_known)
        return alike_designations(a, &d, &e);
    return d_known || e_known ? (likeness){0} : alike_names(a, p->name, q->name);
}

likeness alike_found(arena *a, const kit *k, text what, kit_index part) {
    const kit_part *p = &k->parts[part];
    designation d, e;
    if (designation_read(what, &d, NULL) && p->designation.len && designation_read(p->designation, &e, NULL))
        return alike_designations(a, &d, &e);
    return alike_names(a, what, p->name);
}
