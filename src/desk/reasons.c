/* reasons.c: lists of reasons and of people. */
#include "desk/reasons.h"

#include <stdarg.h>

void reasons_add(const desk *d, desk_reasons *why, const char *format, ...) {
    va_list list;
    va_start(list, format);
    text reason = arena_format_list(d->memory, format, list);
    va_end(list);
    arena_room(d->memory, why->list, why->n, why->cap, text);
    why->list[why->n++] = reason;
}

bool reasons_is_among(const kit_texts *people, text number) {
    for (uint32_t i = 0; i < people->n; i++)
        if (text_equal(people->list[i], number))
            return true;
    return false;
}

bool reasons_people(desk *d, const char *names, kit_texts *out, err *e) {
    *out = (kit_texts){0};
    size_t cap = 0;
    text rest = text_trim(text_of(names)), one;
    while (rest.len && text_next_piece(&rest, ',', &one)) {
        text number;
        if (!act_person(d, one, &number, e))
            return false;
        if (!number.len || reasons_is_among(out, number))
            continue;
        arena_room(d->memory, out->list, out->n, cap, text);
        out->list[out->n++] = number;
    }
    return true;
}

text reasons_join(arena *a, const kit_texts *people) {
    text all = TEXT("");
    for (uint32_t i = 0; i < people->n; i++)
        all = arena_format(a, "%.*s%s%.*s", TEXT_ARG(all), i ? ";" : "", TEXT_ARG(people->list[i]));
    return all;
}

const kit_person *reasons_person(const desk *d, text number) {
    if (!d->workshop)
        return NULL;
    kit_index person = kit_find_person(d->workshop, number);
    return person == KIT_NONE ? NULL : &d->workshop->crew[person];
}

bool reasons_may_supervise(const desk *d, text number, kit_index step) {
    const kit_person *p = reasons_person(d, number);
    kit_index work = d->kit->steps[step].work;
    if (!p || !p->adult)
        return false;
    for (uint32_t i = 0; work != KIT_NONE && i < p->supervises.n; i++)
        if (p->supervises.list[i] == work)
            return true;
    return work == KIT_NONE;
}

bool reasons_end(desk *d, bool ok, const desk_reasons *why, err *e) {
    if (!ok || !why->n)
        return act_end(d, ok, e);
    store_abandon(d->file);
    d->n_proved = 0;
    return true;
}
