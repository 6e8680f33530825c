/* cmd_fastener.c: `kitbench fastener`: what a name means, how large the piece is, what turns it, what it weighs. */
#include <math.h>

#include "cli/commands.h"
#include "cli/fastener_thread.h"
#include "cli/trade_call.h"

/* Everything known about one piece. */
typedef struct {
    designation name;
    fastener_size size;
    piece_mass mass;
    tool_need tool;
    bool has_size, has_mass;
} known_piece;

static known_piece learn(const designation *d) {
    known_piece k = {.name = *d, .tool = tool_for(d)};
    k.has_size = fastener_size_of(d, &k.size, NULL);
    k.has_mass = fastener_mass(d, &k.mass, NULL);
    return k;
}

static void add_size(buf *out, const char *what, int32_t um) {
    if (um)
        buf_addf(out, "  %-22s %g mm\n", what, um / 1e3);
}

static void print_sizes(buf *out, const known_piece *k) {
    const fastener_size *z = &k->size;
    const designation *d = &k->name;
    add_size(out, "across flats", z->flats_um);
    add_size(out, "  other width in use", z->other_flats_um);
    add_size(out, "hex key", z->key_um);
    add_size(out, d->kind == FASTENER_WASHER ? "outside" : "head diameter", z->width_um);
    add_size(out, d->kind == FASTENER_SCREW ? "head height" : "height", z->height_um);
    add_size(out, d->kind == FASTENER_PIN ? "shank" : "hole", z->hole_um);
    int32_t threaded = fastener_threaded_um(d, z);
    if (threaded && threaded < d->length_um)
        add_size(out, "thread on", threaded);
    trade_line(out, "  sizes by %s", z->source);
}

static void print_text(buf *out, const known_piece *k, const buf *said) {
    const designation *d = &k->name;
    char name[DESIGNATION_TEXT], tool[64];
    designation_print(d, name, sizeof name);
    tool_print(&k->tool, tool);
    buf_addf(out, "%s\n", name);
    if (d->standard)
        buf_addf(out, "  %-22s %s\n", "what", d->standard->title);
    buf_addf(out, "  %-22s %s, %s\n", "kind", fastener_kind_name(d->kind), fastener_form_name(d->form));
    if (d->pitch_um)
        buf_addf(out, "  %-22s M%g, pitch %g mm%s\n", "thread", d->thread_um / 1e3, d->pitch_um / 1e3,
                 d->fine ? " (fine)" : "");
    if (d->length_um)
        buf_addf(out, "  %-22s %g mm%s\n", "length", d->length_um / 1e3,
                 d->form == FORM_COUNTERSUNK_HEAD ? ", head included" : "");
    if (d->grade || d->material)
        buf_addf(out, "  %-22s %s\n", "strength, material",
                 d->grade ? d->grade->code : fastener_material_name(d->material));
    buf_addf(out, "  %-22s %s\n", "turned by", tool);
    if (k->has_size)
        print_sizes(out, k);
    if (k->has_mass)
        buf_addf(out, "  %-22s %.3g g (%.3g to %.3g)%s\n", "mass", k->mass.mass_mg / 1e3,
                 k->mass.low_mg / 1e3, k->mass.high_mg / 1e3,
                 k->mass.steel_assumed ? ", if it is steel" : "");
    if (d->standard && d->standard->twin[0])
        buf_addf(out, "  %-22s %s%s\n", "akin to", d->standard->twin,
                 d->standard->twin_differs ? ", with other sizes somewhere" : "");
    buf_add(out, buf_text(said));
}

static void add_json(json_out *j, const known_piece *k) {
    const designation *d = &k->name;
    char name[DESIGNATION_TEXT], tool[64];
    designation_print(d, name, sizeof name);
    tool_print(&k->tool, tool);
    trade_json_z(j, "designation", name);
    trade_json_z(j, "kind", fastener_kind_name(d->kind));
    trade_json_z(j, "form", fastener_form_name(d->form));
    trade_json_z(j, "drive", fastener_drive_name(d->drive));
    trade_json_um(j, "thread_mm", d->thread_um);
    trade_json_um(j, "pitch_mm", d->pitch_um);
    trade_json_um(j, "length_mm", d->length_um);
    trade_json_z(j, "strength", d->grade ? d->grade->code : "");
    trade_json_z(j, "material", fastener_material_name(d->material));
    trade_json_z(j, "tool", tool);
    trade_json_um(j, "across_flats_mm", k->size.flats_um);
    trade_json_um(j, "other_across_flats_mm", k->size.other_flats_um);
    trade_json_um(j, "hex_key_mm", k->size.key_um);
    trade_json_um(j, "width_mm", k->size.width_um);
    trade_json_um(j, "height_mm", k->size.height_um);
    trade_json_um(j, "hole_mm", k->size.hole_um);
    trade_json_real(j, "mass_g", k->has_mass ? k->mass.mass_mg / 1e3 : (double)NAN);
    trade_json_z(j, "source", k->has_size ? k->size.source : "");
}

static void list_standard(const fastener_standard *s, bool json, json_out *j, buf *out) {
    char name[32];
    fastener_standard_print(s, name, sizeof name);
    if (!json) {
        buf_addf(out, "%-12s %s\n", name, s->title);
        return;
    }
    json_put_object(j, NULL);
    trade_json_z(j, "standard", name);
    trade_json_z(j, "title", s->title);
    trade_json_z(j, "akin_to", s->twin);
    json_end_object(j);
}

/* "screw: 4.6, 4.8, ..." for each kind that carries marks. */
static void list_marks(const cli_call *call, json_out *j, buf *out) {
    for (unsigned kind = FASTENER_SCREW; kind <= FASTENER_WASHER; kind++) {
        const fastener_grade *g;
        text all = {"", 0};
        if (call->json)
            json_put_array(j, fastener_kind_name((fastener_kind)kind));
        for (size_t i = 0; (g = fastener_grade_at(i)) != NULL; i++) {
            if (g->kind != kind)
                continue;
            if (call->json)
                trade_json_z(j, NULL, g->code);
            all = arena_format(call->memory, "%.*s%s%s", TEXT_ARG(all), all.len ? ", " : "", g->code);
        }
        if (call->json)
            json_end_array(j);
        else if (all.len)
            trade_line(out, "%-12s %.*s", fastener_kind_name((fastener_kind)kind), TEXT_ARG(all));
    }
}

static int list_known(const cli_call *call) {
    buf out = {0};
    const fastener_standard *s;
    json_out j = json_to(&out);
    if (call->json) {
        json_put_object(&j, NULL);
        json_put_array(&j, "standards");
    }
    for (size_t i = 0; (s = fastener_standard_at(i)) != NULL; i++)
        list_standard(s, call->json, &j, &out);
    if (call->json) {
        json_end_array(&j);
        json_put_object(&j, "marks");
    } else {
        buf_add_z(&out, "\nStrength marks\n");
    }
    list_marks(call, &j, &out);
    if (call->json) {
        json_end_object(&j);
        json_end_object(&j);
    }
    return cli_print(&out, EXIT_DONE);
}

static void compare(const cli_call *call, const designation *d, const designation *other, buf *out,
                    json_out *j) {
    static const char *const grades[] = {"told apart at a glance", "mixed up when seen alone", "look alike",
                                         "the same piece"};
    look_alike look;
    char name[DESIGNATION_TEXT];
    designation_look_alike(d, other, &look);
    designation_print(other, name, sizeof name);
    if (call->json) {
        json_put_object(j, "against");
        trade_json_z(j, "designation", name);
        trade_json_z(j, "verdict", grades[look.grade]);
        trade_json_z(j, "reason", look.reason);
        trade_json_z(j, "tell_apart", look.tell);
        json_end_object(j);
        return;
    }
    trade_line(out, "Against %s: %s; %s.%s%s%s", name, grades[look.grade], look.reason,
               look.tell[0] ? " To tell: " : "", look.tell, look.tell[0] ? "." : "");
}

int cmd_fastener(cli_call *call) {
    if (cli_given(call, "list"))
        return list_known(call);
    err e = {0};
    if (call->n_arguments == 0) {
        err_input(&e, "fastener", "name a piece, or ask for --list", "no piece is named");
        return cli_fail(&e);
    }
    designation d, other;
    if (fastener_thread_read(trade_joined(call, 0), &d) && !cli_given(call, "against"))
        return fastener_thread_tell(call, &d);
    buf said = {0}, out = {0};
    bool ok = trade_designation(call, trade_joined(call, 0), &d, &said, &e);
    const char *against = cli_value(call, "against");
    if (ok && against)
        ok = trade_designation(call, text_of(against), &other, &said, &e);
    if (!ok) {
        buf_free(&said);
        return cli_fail(&e);
    }
    known_piece k = learn(&d);
    json_out j = json_to(&out);
    if (call->json) {
        json_put_object(&j, NULL);
        add_json(&j, &k);
    } else {
        print_text(&out, &k, &said);
    }
    if (against)
        compare(call, &d, &other, &out, &j);
    if (call->json) {
        json_put_text(&j, "assumed", buf_text(&said));
        json_end_object(&j);
    }
    buf_free(&said);
    return cli_print(&out, EXIT_DONE);
}
