/* cmd_identify.c: `kitbench identify`: which part of the kit is this piece? */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/trade_call.h"
#include "kit/kit.h"

static const char kind_words[] = "screw|set screw|rod|nut|washer|pin|ring|insert";
static const char head_words[] =
    "hexagon|hexagon flange|cap|low cap|button|countersunk|raised countersunk|pan|cheese|carriage|eye";
static const char drive_words[] = "none|hexagon|hex socket|six lobes|cross|slot|square|hand";
static const char gauge_words[] = "ruler|caliper";

typedef struct {
    candidate *list;
    kit_index *parts;
    uint32_t n;
} choice;

/* The fasteners of the kit, each with the pieces its rows hold. */
static choice fasteners_of(arena *m, const kit *k) {
    choice c = {arena_array(m, candidate, k->n_parts), arena_array(m, kit_index, k->n_parts), 0};
    for (uint32_t i = 0; i < k->n_parts; i++) {
        designation *d = arena_new(m, designation);
        if (!designation_read(k->parts[i].designation, d, NULL))
            continue;
        double pieces = 0;
        for (uint32_t r = 0; r < k->n_rows; r++)
            pieces += k->rows[r].part == i ? (double)k->rows[r].quantity : 0;
        c.list[c.n] = (candidate){d, pieces};
        c.parts[c.n++] = i;
    }
    return c;
}

static void see_shape(seen_thing *seen, uint32_t *n, look_sort look, unsigned shape) {
    if (shape)
        seen[(*n)++] = (seen_thing){.look = look, .shape = shape};
}

static void see_measure(seen_thing *seen, uint32_t *n, look_sort look, unsigned gauge, double mm) {
    if (mm > 0)
        seen[(*n)++] = (seen_thing){.look = look, .gauge = gauge ? GAUGE_CALIPER : GAUGE_RULER, .mm = mm};
}

static bool read_seen(const cli_call *call, seen_thing *seen, uint32_t *n, err *e) {
    enum { NOT_SEEN = 99 };
    unsigned kind, head, drive, gauge;
    double thread, length, width, pitch;
    bool ok = trade_word(call, "kind", kind_words, NOT_SEEN, &kind, e) &&
              trade_word(call, "head", head_words, NOT_SEEN, &head, e) &&
              trade_word(call, "drive", drive_words, NOT_SEEN, &drive, e) &&
              trade_word(call, "with", gauge_words, 0, &gauge, e) &&
              trade_option(call, "thread", 0.5, 100, 0, &thread, e) &&
              trade_option(call, "length", 0.5, 1000, 0, &length, e) &&
              trade_option(call, "width", 0.5, 200, 0, &width, e) &&
              trade_option(call, "pitch", 0.1, 6, 0, &pitch, e);
    if (!ok)
        return false;
    if (kind != NOT_SEEN)
        see_shape(seen, n, LOOK_KIND, kind + 1);
    if (head != NOT_SEEN)
        see_shape(seen, n, LOOK_FORM, head + FORM_HEX_HEAD);
    if (drive != NOT_SEEN)
        see_shape(seen, n, LOOK_DRIVE, drive + DRIVE_NONE);
    see_measure(seen, n, LOOK_THREAD, gauge, thread);
    see_measure(seen, n, LOOK_LENGTH, gauge, length);
    see_measure(seen, n, LOOK_WIDTH, gauge, width);
    see_measure(seen, n, LOOK_PITCH, gauge, pitch);
    if (cli_given(call, "mark"))
        seen[(*n)++] = (seen_thing){.look = LOOK_MARK, .mark = text_of(cli_value(call, "mark"))};
    return true;
}

/* "--nut-runs D-905": the nut of that part runs on freely, so the piece has its thread and pitch. */
static bool try_nut(const cli_call *call, const kit *k, seen_thing *seen, uint32_t *n, err *e) {
    const char *number = cli_value(call, "nut-runs");
    if (!number)
        return true;
    kit_index part = kit_find_part(k, text_of(number));
    designation d;
    if (part == KIT_NONE || !designation_read(k->parts[part].designation, &d, NULL) || d.kind != FASTENER_NUT)
        return err_input(e, "--nut-runs", "name the part number of a nut of this kit",
                         "\"%s\" is no nut of the kit", number);
    seen[(*n)++] = (seen_thing){.look = LOOK_THREAD, .gauge = GAUGE_CALIPER, .mm = d.thread_um / 1e3 - 0.1};
    seen[(*n)++] = (seen_thing){.look = LOOK_PITCH, .gauge = GAUGE_EYE, .mm = d.pitch_um / 1e3};
    return true;
}

static void print_text(const kit *k, const choice *c, const identity *id, buf *out) {
    if (id->nothing_fits)
        trade_line(out, "Nothing in this kit fits what was seen; look again, or it is not from this kit.");
    for (uint32_t i = 0; i < id->n && i < 8 && (i == 0 || id->order[i].chance >= 0.01); i++) {
        const kit_part *p = &k->parts[c->parts[id->order[i].candidate]];
        buf_addf(out, "%5.1f %%  ", 100 * id->order[i].chance);
        wrap_pad(out, p->number, 8);
        buf_addf(out, "  %.*s\n", TEXT_ARG(p->designation));
    }
    if (id->ruler_is_coarse)
        trade_line(
            out, "A ruler (0.5 mm either way) hardly tells M5 from M6: use a caliper, a gauge or try a nut.");
    if (id->n_next) {
        const next_look *best = &id->next[0];
        trade_line(out, "Look next at %s, %s: it tells most (%.1f of the %.1f bits that are open).",
                   look_name(best->look), gauge_name(best->gauge), best->bits, id->bits_open);
    }
}

static void print_json(const kit *k, const choice *c, const identity *id, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "parts");
    for (uint32_t i = 0; i < id->n && i < 20; i++) {
        const kit_part *p = &k->parts[c->parts[id->order[i].candidate]];
        json_put_object(&j, NULL);
        json_put_text(&j, "part", p->number);
        json_put_text(&j, "designation", p->designation);
        trade_json_real(&j, "chance", id->order[i].chance);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_bool(&j, "nothing_fits", id->nothing_fits);
    json_put_bool(&j, "ruler_is_coarse", id->ruler_is_coarse);
    json_put_array(&j, "look_next");
    for (uint32_t i = 0; i < id->n_next; i++) {
        json_put_object(&j, NULL);
        trade_json_z(&j, "look", look_name(id->next[i].look));
        trade_json_z(&j, "with", gauge_name(id->next[i].gauge));
        trade_json_real(&j, "bits", id->next[i].bits);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

/* Letters and digits alone, lower case: "LF-12/100" and "lf12100" are the same number. */
static text bare(arena *m, text t) {
    char *z = arena_array(m, char, t.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < t.len; i++) {
        char c = t.at[i];
        if (c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (unsigned char)c >= 0x80)
            z[n++] = c;
    }
    return (text){z, n};
}

/* How well a part answers to what was typed: 0 holds it, 1 with a slip or two, 2 not. Slips: one letter in four, two
 * in seven and more. */
static unsigned answers_to(arena *m, text own, text wanted) {
    text bare_own = bare(m, own), rest = own, word;
    if (text_find(bare_own, wanted) >= 0)
        return 0;
    unsigned slips = wanted.len >= 7 ? 2 : wanted.len >= 4 ? 1 : 0;
    if (slips && text_edits(bare_own, wanted) <= slips)
        return 1;
    while (slips && text_next_piece(&rest, ' ', &word))
        if (text_edits(bare(m, word), wanted) <= slips)
            return 1;
    return 2;
}

static unsigned part_answers(arena *m, const kit_part *p, text wanted) {
    unsigned best = answers_to(m, p->number, wanted), other = answers_to(m, p->name, wanted);
    best = other < best ? other : best;
    other = answers_to(m, p->designation, wanted);
    best = other < best ? other : best;
    for (uint32_t i = 0; i < p->makers_numbers.n; i++) {
        other = answers_to(m, p->makers_numbers.list[i], wanted);
        best = other < best ? other : best;
    }
    return best;
}

static void add_found(const kit_part *p, bool slip, bool json, buf *out, json_out *j) {
    if (json) {
        json_put_object(j, NULL);
        json_put_text(j, "part", p->number);
        json_put_text(j, "name", p->name);
        json_put_text(j, "designation", p->designation);
        json_put_bool(j, "with_a_slip", slip);
        json_end_object(j);
        return;
    }
    wrap_pad(out, p->number, 8);
    buf_addf(out, "  %.*s%s%.*s\n", TEXT_ARG(p->name), p->designation.len ? ", " : "",
             TEXT_ARG(p->designation));
}

/* Parts whose number, maker's number, name or designation holds the piece of text; else those that are a slip away. */
static int find_by_text(const cli_call *call, const kit *k, const char *piece) {
    text wanted = bare(call->memory, text_of(piece));
    buf out = {0};
    json_out j = json_to(&out);
    unsigned found = 0;
    if (call->json)
        json_put_array(&j, NULL);
    for (unsigned slip = 0; slip <= 1 && !found && wanted.len; slip++) {
        for (uint32_t i = 0; i < k->n_parts; i++) {
            if (part_answers(call->memory, &k->parts[i], wanted) != slip)
                continue;
            if (slip && !found && !call->json)
                buf_add_z(&out, "Nothing with just this in it; with a slip of the pen:\n");
            add_found(&k->parts[i], slip != 0, call->json, &out, &j);
            found++;
        }
    }
    if (call->json)
        json_end_array(&j);
    else if (!found)
        trade_line(&out, "No part of this kit has \"%s\" in its number, maker's number, name or designation.",
                   piece);
    return cli_print(&out, found ? EXIT_DONE : EXIT_NO);
}

int cmd_identify(cli_call *call) {
    err e = {0};
    faults f = faults_in(call->memory);
    const kit *k;
    const kit_workshop *w;
    if (!kit_read(call->memory, call->arguments[0], NULL, &f, &k, &w, &e))
        return e.kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(&e);
    if (cli_given(call, "text"))
        return find_by_text(call, k, cli_value(call, "text"));
    choice c = fasteners_of(call->memory, k);
    seen_thing seen[SEEN_MAX];
    uint32_t n = 0;
    identity id;
    if (!read_seen(call, seen, &n, &e) || !try_nut(call, k, seen, &n, &e) ||
        !identify_piece(call->memory, c.list, c.n, seen, n, &id, &e))
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        print_json(k, &c, &id, &out);
    else
        print_text(k, &c, &id, &out);
    return cli_print(&out, id.nothing_fits ? EXIT_NO : EXIT_DONE);
}
