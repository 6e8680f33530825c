#include "paper/wording.h"

#include <string.h>

#include "base/buf.h"
#include "base/number.h"

/* A text that was put together in a buffer, moved to the arena. */
static text settle(arena *a, buf *b) {
    text t = arena_text(a, buf_text(b));
    buf_free(b);
    return t;
}

static text scaled(arena *a, int64_t value, const char *small, const char *large) {
    if (value < 1000)
        return arena_format(a, "%lld %s", (long long)value, small);
    char number[24];
    number_print_decimal(value, 3, number);
    return arena_format(a, "%s %s", number, large);
}

text wording_quantity(arena *a, int64_t quantity, kit_unit unit) {
    switch (unit) {
    case KIT_MM:
        return scaled(a, quantity, "mm", "m");
    case KIT_G:
        return scaled(a, quantity, "g", "kg");
    case KIT_MG:
        return scaled(a, quantity, "mg", "g");
    case KIT_ML:
        return scaled(a, quantity, "ml", "l");
    case KIT_PACK:
        return arena_format(a, "%lld pack%s", (long long)quantity, quantity == 1 ? "" : "s");
    case KIT_PIECE:
    default:
        return arena_format(a, "%lld", (long long)quantity);
    }
}

kit_unit wording_unit(const kit *k, kit_index part) {
    for (uint32_t i = 0; i < k->n_rows; i++)
        if (k->rows[i].part == part)
            return k->rows[i].unit;
    return KIT_PIECE;
}

text wording_mass(arena *a, int64_t grams) {
    return scaled(a, grams, "g", "kg");
}

text wording_container(arena *a, const kit *k, kit_index container) {
    const kit_container *c = &k->containers[container];
    const char *word = c->kind == KIT_BOX ? "Box" : "Bag";
    bool has = c->number.len >= 3 && text_equal_nocase(text_slice(c->number, 0, 3), text_of(word));
    if (has)
        return arena_format(a, "%s%.*s", word, TEXT_ARG(text_slice(c->number, 3, c->number.len)));
    return arena_format(a, "%s %.*s", word, TEXT_ARG(c->number));
}

text wording_place(arena *a, const kit *k, kit_index container) {
    text place = wording_container(a, k, container);
    for (kit_index c = k->containers[container].inside; c != KIT_NONE; c = k->containers[c].inside)
        place = arena_format(a, "%.*s › %.*s", TEXT_ARG(wording_container(a, k, c)), TEXT_ARG(place));
    return place;
}

text wording_list(arena *a, kit_texts list, const char *none) {
    if (list.n == 0)
        return text_of(none);
    buf b = {0};
    for (uint32_t i = 0; i < list.n; i++)
        buf_addf(&b, "%s%.*s", i ? ", " : "", TEXT_ARG(list.list[i]));
    return settle(a, &b);
}

text wording_part(arena *a, const kit_part *p) {
    if (!p->designation.len)
        return p->name;
    return arena_format(a, "%.*s\n%.*s", TEXT_ARG(p->name), TEXT_ARG(p->designation));
}

text wording_part_line(arena *a, const kit_part *p) {
    if (!p->designation.len)
        return p->name;
    return arena_format(a, "%.*s, %.*s", TEXT_ARG(p->name), TEXT_ARG(p->designation));
}

text wording_tool(arena *a, const kit_tool *t, int64_t quantity) {
    bool said = t->size.len == 0 || text_find(t->name, t->size) >= 0;
    return arena_format(a, "%lld × %.*s%s%.*s", (long long)quantity, TEXT_ARG(t->name), said ? "" : " ",
                        TEXT_ARG(said ? TEXT("") : t->size));
}

text wording_step(arena *a, const kit *k, kit_index step) {
    return arena_format(a, "%.*s %.*s", TEXT_ARG(k->steps[step].number), TEXT_ARG(k->steps[step].name));
}

static const char *condition_word(kit_condition c) {
    static const char *const words[] = {"", ", oiled", ", thread-locked"};
    return words[c];
}

text wording_tightening(arena *a, const kit *k, const kit_step_part *p) {
    buf b = {0};
    char torque[24];
    switch (p->tightening) {
    case KIT_LOOSE:
        buf_add_z(&b, "leave loose");
        break;
    case KIT_HAND:
        buf_add_z(&b, "tight, by hand tool");
        break;
    case KIT_TORQUE:
        if (p->torque_cnm >= 0) {
            number_print_decimal(p->torque_cnm, 2, torque);
            buf_addf(&b, "%s\u00a0N\u00a0m", torque); /* never broken in two */
        } else {
            buf_add_z(&b, "torque: maker's manual");
        }
        break;
    case KIT_NOT_TIGHTENED:
    default:
        break;
    }
    if (b.len)
        buf_add_z(&b, condition_word(p->condition));
    if (p->order.len)
        buf_addf(&b, "%s%.*s", b.len ? ", " : "", TEXT_ARG(p->order));
    if (p->closed_by != KIT_NONE)
        buf_addf(&b, "%s%.*s tightens it", b.len ? "; " : "", TEXT_ARG(k->steps[p->closed_by].number));
    return settle(a, &b);
}

text wording_limits(arena *a, const kit_step_test *t) {
    char low[24], high[24];
    bool has_low = t->low_milli != INT64_MIN, has_high = t->high_milli != INT64_MAX;
    if (!has_low && !has_high)
        return TEXT("yes");
    number_print_decimal(has_low ? t->low_milli : 0, 3, low);
    number_print_decimal(has_high ? t->high_milli : 0, 3, high);
    text unit = t->unit;
    const char *gap = unit.len ? " " : "";
    if (!has_low)
        return arena_format(a, "at most %s%s%.*s", high, gap, TEXT_ARG(unit));
    if (!has_high)
        return arena_format(a, "at least %s%s%.*s", low, gap, TEXT_ARG(unit));
    if (t->low_milli == t->high_milli)
        return arena_format(a, "%s%s%.*s", low, gap, TEXT_ARG(unit));
    return arena_format(a, "%s to %s%s%.*s", low, high, gap, TEXT_ARG(unit));
}

text wording_minutes(arena *a, const kit_step *s) {
    if (s->low_min == s->likely_min && s->likely_min == s->high_min)
        return arena_format(a, "%lld min", (long long)s->likely_min);
    return arena_format(a, "%lld min (%lld to %lld)", (long long)s->likely_min, (long long)s->low_min,
                        (long long)s->high_min);
}

const char *wording_signer(kit_signer s) {
    static const char *const words[] = {"learner", "supervisor", "leader"};
    return words[s];
}

text wording_name(arena *a, text name) {
    for (size_t i = 0; i < name.len; i++) {
        unsigned char c = (unsigned char)name.at[i];
        if (c >= 0xD6 && c <= 0xDF) /* first bytes of U+0580 to U+07FF: Hebrew, Arabic and their kin */
            return arena_format(a, "\u200E%.*s\u200E", TEXT_ARG(name));
    }
    return name;
}

text wording_kit(arena *a, const kit *k) {
    buf b = {0};
    buf_add(&b, k->name);
    if (k->serial.len)
        buf_addf(&b, " · serial %.*s", TEXT_ARG(k->serial));
    if (k->revision.len)
        buf_addf(&b, " · revision %.*s", TEXT_ARG(k->revision));
    return settle(a, &b);
}

text wording_date(arena *a, date_day d) {
    static const char *const months[] = {"January",   "February", "March",    "April",
                                         "May",       "June",     "July",     "August",
                                         "September", "October",  "November", "December"};
    date_civil c = date_to_civil(d);
    return arena_format(a, "%d %s %d", c.day, months[c.month - 1], c.year);
}

text wording_day(arena *a, date_day d) {
    return arena_format(a, "%s %.*s", date_weekday_name(d), TEXT_ARG(wording_date(a, d)));
}
