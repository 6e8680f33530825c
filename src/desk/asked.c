/* asked.c: what the maker was asked for, and where each missing part stands. */
#include "desk/reasons.h"

static const stock_asked *asked_of(const desk *d, kit_index part) {
    for (uint32_t i = 0; i < d->record.n_asked; i++)
        if (d->record.asked[i].part == part)
            return &d->record.asked[i];
    return NULL;
}

static int64_t asked_number(const desk *d, kit_index part) {
    const stock_asked *a = asked_of(d, part);
    return a ? a->quantity : 0;
}

static bool write_asked(desk *d, const store_entry *stamp, kit_index part, int64_t quantity, text note,
                        err *e) {
    store_entry n = act_entry(stamp, STORE_REPORT);
    int64_t number;
    n.part = d->kit->parts[part].number;
    n.usable = quantity;
    n.note = note;
    return store_append(d->file, &n, &number, e);
}

bool desk_report_sent(desk *d, const char *note, desk_who who, uint32_t *n, err *e) {
    store_entry stamp;
    text how = text_trim(text_of(note));
    bool ok = true;
    *n = 0;
    if (!act_check_text(how, "note", e) || !act_begin(d, who, &stamp, e))
        return false;
    for (kit_index p = 0; p < d->kit->n_parts && ok; p++) {
        int64_t lacking = d->stock->parts[p].lacking;
        if (lacking <= asked_number(d, p))
            continue;
        ok = write_asked(d, &stamp, p, lacking, how, e);
        ++*n;
    }
    return act_end(d, ok, e);
}

bool desk_correct_asked(desk *d, kit_index part, int64_t quantity, const char *reason, desk_who who,
                        desk_reasons *why, err *e) {
    store_entry stamp;
    text because = text_trim(text_of(reason));
    if (!act_check_text(because, "--reason", e) || !act_begin(d, who, &stamp, e))
        return false;
    const kit_person *p = reasons_person(d, stamp.person);
    if (!asked_of(d, part))
        reasons_add(d, why, "%.*s was not asked for yet", TEXT_ARG(d->kit->parts[part].number));
    if (!because.len)
        reasons_add(d, why, "a report was sent; say why it is corrected: --reason TEXT");
    if (d->workshop && (!p || !p->adult))
        reasons_add(d, why, "a report was sent; an adult corrects it: --by NAME");
    roles_check(d, stamp.person, why);
    return reasons_end(d, why->n || write_asked(d, &stamp, part, quantity, because, e), why, e);
}

/* ---- where each stands ---- */

const char *desk_chase_word(desk_chase_state s) {
    static const char *const words[] = {"not asked", "asked", "promised", "overdue", "arrived"};
    return words[s];
}

static desk_chase_state state_of(const desk *d, const desk_chased *c, date_day today) {
    const stock_part *p = &d->stock->parts[c->part];
    if (!c->lacking)
        return DESK_ARRIVED;
    for (uint32_t i = 0; i < p->n_supplies; i++)
        if (p->supplies[i].day < today)
            return DESK_OVERDUE;
    if (c->promised >= c->lacking)
        return DESK_PROMISED;
    return c->asked >= c->lacking ? DESK_ASKED : DESK_NOT_ASKED;
}

static void add_stand_ins(const desk *d, desk_chased *c) {
    c->stand_ins = arena_array(d->memory, kit_index, d->kit->n_stand_ins);
    for (kit_index i = 0; i < d->kit->n_stand_ins; i++)
        if (d->kit->stand_ins[i].part == c->part)
            c->stand_ins[c->n_stand_ins++] = i;
}

uint32_t desk_chase(const desk *d, date_day today, desk_chased **out) {
    uint32_t n = 0;
    *out = arena_array(d->memory, desk_chased, d->kit->n_parts);
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        const stock_part *s = &d->stock->parts[p];
        const stock_asked *a = asked_of(d, p);
        if (!s->lacking && !a)
            continue;
        desk_chased *c = &(*out)[n++];
        *c = (desk_chased){.part = p,
                           .lacking = s->lacking,
                           .asked = a ? a->quantity : 0,
                           .asked_at = a ? a->at : 0,
                           .promised = s->promised,
                           .promised_for = s->n_supplies ? s->supplies[s->n_supplies - 1].day : INT32_MAX};
        for (uint32_t i = 0; i < d->stock->n_stops; i++)
            c->steps_stopped += d->stock->stops[i].part == p && d->stock->stops[i].missing > 0;
        add_stand_ins(d, c);
        c->state = state_of(d, c, today);
    }
    return n;
}
