/* identify_text.c: what `kitbench identify` tells on a terminal. */
#include <stdio.h>

#include "cli/identify.h"

enum { PARTS_SHOWN = 10, SOURCES_SHOWN = 8, LOOKS_SHOWN = 3, HITS_SHOWN = 20 };

/* "; in B1, E1, G2": where pieces of the part are packed. */
static text places(const identified *i, kit_index part) {
    const kit *k = i->from->kit;
    text all = {"", 0};
    unsigned n = 0;
    for (uint32_t r = 0; r < k->n_rows; r++) {
        if (k->rows[r].part != part)
            continue;
        if (++n > 3)
            return arena_format(i->call->memory, "%.*s and more", TEXT_ARG(all));
        all = arena_format(i->call->memory, "%.*s%s%.*s", TEXT_ARG(all), n > 1 ? ", " : "; in ",
                           TEXT_ARG(k->containers[k->rows[r].container].number));
    }
    return all;
}

/* "D-913  socket cap screw M6x20, ISO 4762 M6x20-8.8; in B1, E1, G2" */
static text part_line(const identified *i, kit_index part) {
    const kit_part *p = &i->from->kit->parts[part];
    return arena_format(i->call->memory, "%.*s  %.*s%s%.*s%.*s", TEXT_ARG(p->number), TEXT_ARG(p->name),
                        p->designation.len && p->name.len ? ", " : "", TEXT_ARG(p->designation),
                        TEXT_ARG(places(i, part)));
}

static void add_line(buf *out, text line, size_t indent) {
    wrap_add(out, line, TRADE_WIDTH, indent);
}

static void add_hits(const identified *i, buf *out) {
    if (!i->n_hits) {
        add_line(
            out,
            TEXT(
                "No part of this kit answers to these words: not its number, maker's number, name or designation."),
            2);
        return;
    }
    const kit_hit *first = &i->hits[0];
    if (first->not_found)
        add_line(out, TEXT("No part answers to all these words; nearest:"), 2);
    else if (first->worst == KIT_FOUND_SLIP)
        add_line(out, TEXT("Nothing just so; with a slip of the pen:"), 2);
    for (uint32_t h = 0; h < i->n_hits && h < HITS_SHOWN; h++)
        add_line(out, part_line(i, i->hits[h].part), 4);
    if (i->n_hits > HITS_SHOWN)
        add_line(out, arena_format(i->call->memory, "and %u more; say more words", i->n_hits - HITS_SHOWN),
                 2);
}

static void add_ranking(const identified *i, buf *out) {
    const identity *id = &i->id;
    if (id->nothing_fits)
        add_line(
            out,
            TEXT(
                "Nothing in this kit fits what was seen well; look again, or it is not from this kit. Nearest:"),
            2);
    else if (!i->looks)
        add_line(out,
                 i->floor ? TEXT("Nothing was said of the piece yet; by the work alone:")
                          : TEXT("Nothing was said of the piece yet; by the pieces in the kit alone:"),
                 2);
    for (uint32_t c = 0; c < id->n && c < PARTS_SHOWN && (c == 0 || id->order[c].chance >= 0.01); c++)
        add_line(out,
                 arena_format(i->call->memory, "%5.1f %%  %.*s", 100 * id->order[c].chance,
                              TEXT_ARG(part_line(i, i->parts[id->order[c].candidate]))),
                 11);
}

static text look_text(const identified *i, const next_look *look) {
    double share = i->id.bits_open > 0 ? 100 * look->bits / i->id.bits_open : 0;
    if (look->look != LOOK_MATE)
        return arena_format(i->call->memory, "%s, %s (%.0f %%)", look_name(look->look),
                            gauge_name(look->gauge), share);
    const kit_part *p = &i->from->kit->parts[i->parts[look->mate]];
    bool nut = i->list[look->mate].name->kind == FASTENER_NUT;
    return arena_format(i->call->memory, "%s %.*s %.*s%.*s: does it run on freely? (%.0f %%)",
                        nut ? "try the" : "try it on the", TEXT_ARG(p->number), TEXT_ARG(p->name),
                        TEXT_ARG(places(i, i->parts[look->mate])), share);
}

/* A finer gauge for a look that was shown and tells as much already. */
static bool is_finer(const identity *id, uint32_t k) {
    for (uint32_t earlier = 0; earlier < k; earlier++)
        if (id->next[earlier].look == id->next[k].look && id->next[k].look != LOOK_MATE &&
            id->next[earlier].bits + 0.06 > id->next[k].bits)
            return true;
    return false;
}

static void add_next(const identified *i, buf *out) {
    const identity *id = &i->id;
    if (id->ruler_is_coarse)
        add_line(
            out,
            TEXT("A ruler (0.5 mm either way) hardly tells M5 from M6: use a caliper, a gauge or try a nut."),
            2);
    if (id->bits_open < 0.1 || !id->n_next)
        return;
    add_line(out, arena_format(i->call->memory, "Look next at: %.*s", TEXT_ARG(look_text(i, &id->next[0]))),
             2);
    for (uint32_t k = 1, shown = 1; k < id->n_next && shown < LOOKS_SHOWN; k++) {
        if (is_finer(id, k))
            continue;
        add_line(out, arena_format(i->call->memory, "  or: %.*s", TEXT_ARG(look_text(i, &id->next[k]))), 6);
        shown++;
    }
    add_line(out, TEXT("In brackets: how much of the doubt it takes away on average."), 2);
}

/* "done, not signed; fitted 1 less than the kit asks for; 2 evenings ago" */
static text story(const identified *i, const stock_source *s) {
    const stock_work *w = i->from->build->stock->work;
    arena *m = i->call->memory;
    text t = arena_format(m, "%s", stock_state_word(w->steps[s->step].state));
    t = arena_format(m, "%.*s, %s", TEXT_ARG(t),
                     s->is_signed   ? "signed"
                     : s->has_tests ? "not signed"
                                    : "nothing to sign");
    if (s->short_by > 0)
        t = arena_format(m, "%.*s; fitted %lld fewer than the kit asks for", TEXT_ARG(t),
                         (long long)s->short_by);
    if (s->evenings)
        t = arena_format(m, "%.*s; %u evening%s ago", TEXT_ARG(t), s->evenings, s->evenings > 1 ? "s" : "");
    if (s->closings)
        t = arena_format(m, "%.*s; %u closing count%s since", TEXT_ARG(t), s->closings,
                         s->closings > 1 ? "s" : "");
    return t;
}

static void add_source(const identified *i, const likely_source *l, bool name_part, buf *out) {
    const stock_source *s = &l->source;
    const kit *k = i->from->kit;
    arena *m = i->call->memory;
    text part = name_part ? arena_format(m, "%.*s ", TEXT_ARG(k->parts[s->part].number)) : TEXT("");
    text line;
    if (s->kind == STOCK_FROM_LOST)
        line = arena_format(m, "%.*swritten down as lost: %lld", TEXT_ARG(part), (long long)s->pieces);
    else if (s->kind == STOCK_FROM_BAG)
        line = arena_format(m, "%.*sfrom a bag or compartment, where %lld lie", TEXT_ARG(part),
                            (long long)s->pieces);
    else
        line = arena_format(m, "%.*s%.*s %.*s: took %lld; %.*s", TEXT_ARG(part),
                            TEXT_ARG(k->steps[s->step].number), TEXT_ARG(k->steps[s->step].name),
                            (long long)s->pieces, TEXT_ARG(story(i, s)));
    add_line(out, arena_format(m, "%5.1f %%  %.*s", 100 * l->chance, TEXT_ARG(line)), 9);
}

static void add_floor(const identified *i, buf *out) {
    bool several = false;
    for (uint32_t s = 1; s < i->n_sources; s++)
        several = several || i->sources[s].source.part != i->sources[0].source.part;
    if (!i->n_sources)
        return;
    buf_add_z(out, "\nWhere it may come from, likeliest first:\n");
    for (uint32_t s = 0; s < i->n_sources && s < SOURCES_SHOWN && (s == 0 || i->sources[s].chance >= 0.01);
         s++)
        add_source(i, &i->sources[s], several, out);
    add_line(
        out,
        TEXT(
            "The chances only rank: pieces handled, what is signed, what was fitted short, and how long ago (our "
            "rule, no source). Look at the work before it is signed or hidden."),
        2);
}

void identify_text(const identified *i, buf *out) {
    if (i->words && !i->looks)
        add_hits(i, out);
    else if (!i->has_identity)
        add_line(out,
                 i->words ? TEXT("No fastener of this kit answers to these words.")
                          : TEXT("This kit has no fasteners in its list to choose from."),
                 2);
    else
        add_ranking(i, out);
    if (i->has_identity && (i->looks || !i->words || i->n > 1))
        add_next(i, out);
    if (i->floor)
        add_floor(i, out);
}
