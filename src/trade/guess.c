/* guess.c: what an experienced store keeper would take a loose name for. Common practice, no source; every step is told. */
#include "trade/guess.h"

#include "trade/lexicon.h"

static void assume(proposal *out, text t) {
    if (out->n_assumed < PROPOSAL_NOTES)
        out->assumed[out->n_assumed++] = t;
}

/* The usual standard of a form. */
typedef struct {
    fastener_form form;
    fastener_drive drive; /* DRIVE_UNKNOWN: whatever was said */
    const char *body;
    unsigned number, part;
} usual_standard;

static const usual_standard usual[] = {
    {FORM_CYLINDER_HEAD, DRIVE_HEX_SOCKET, "ISO", 4762, 0},
    {FORM_BUTTON_HEAD, DRIVE_HEX_SOCKET, "ISO", 7380, 1},
    {FORM_COUNTERSUNK_HEAD, DRIVE_HEX_SOCKET, "ISO", 10642, 0},
    {FORM_COUNTERSUNK_HEAD, DRIVE_CROSS, "ISO", 7046, 1},
    {FORM_COUNTERSUNK_HEAD, DRIVE_SLOT, "ISO", 2009, 0},
    {FORM_COUNTERSUNK_HEAD, DRIVE_HEXALOBULAR, "ISO", 14581, 0},
    {FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_CROSS, "ISO", 7047, 0},
    {FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_SLOT, "ISO", 2010, 0},
    {FORM_PAN_HEAD, DRIVE_CROSS, "ISO", 7045, 0},
    {FORM_PAN_HEAD, DRIVE_SLOT, "ISO", 1580, 0},
    {FORM_PAN_HEAD, DRIVE_HEXALOBULAR, "ISO", 14583, 0},
    {FORM_CHEESE_HEAD, DRIVE_SLOT, "ISO", 1207, 0},
    {FORM_MUSHROOM_HEAD, DRIVE_UNKNOWN, "ISO", 8677, 0},
    {FORM_CUP_POINT, DRIVE_HEX_SOCKET, "ISO", 4029, 0},
    {FORM_FLAT_POINT, DRIVE_HEX_SOCKET, "ISO", 4026, 0},
    {FORM_CONE_POINT, DRIVE_HEX_SOCKET, "ISO", 4027, 0},
    {FORM_DOG_POINT, DRIVE_HEX_SOCKET, "ISO", 4028, 0},
    {FORM_PLAIN_ROD, DRIVE_UNKNOWN, "DIN", 976, 1},
    {FORM_HEX_NUT, DRIVE_UNKNOWN, "ISO", 4032, 0},
    {FORM_THIN_NUT, DRIVE_UNKNOWN, "ISO", 4035, 0},
    {FORM_LOCK_NUT, DRIVE_UNKNOWN, "DIN", 985, 0},
    {FORM_ALL_METAL_LOCK_NUT, DRIVE_UNKNOWN, "ISO", 7042, 0},
    {FORM_CASTLE_NUT, DRIVE_UNKNOWN, "ISO", 7035, 0},
    {FORM_FLANGE_NUT, DRIVE_UNKNOWN, "ISO", 4161, 0},
    {FORM_FLANGE_LOCK_NUT, DRIVE_UNKNOWN, "ISO", 7043, 0},
    {FORM_CAP_NUT, DRIVE_UNKNOWN, "DIN", 1587, 0},
    {FORM_WING_NUT, DRIVE_UNKNOWN, "DIN", 315, 0},
    {FORM_SQUARE_NUT, DRIVE_UNKNOWN, "DIN", 557, 0},
    {FORM_LONG_NUT, DRIVE_UNKNOWN, "DIN", 6334, 0},
    {FORM_PLAIN_WASHER, DRIVE_UNKNOWN, "ISO", 7089, 0},
    {FORM_CHAMFERED_WASHER, DRIVE_UNKNOWN, "ISO", 7090, 0},
    {FORM_SMALL_WASHER, DRIVE_UNKNOWN, "ISO", 7092, 0},
    {FORM_LARGE_WASHER, DRIVE_UNKNOWN, "ISO", 7093, 1},
    {FORM_SPRING_WASHER, DRIVE_UNKNOWN, "DIN", 127, 0},
    {FORM_WAVE_WASHER, DRIVE_UNKNOWN, "DIN", 137, 0},
    {FORM_CONICAL_WASHER, DRIVE_UNKNOWN, "DIN", 6796, 0},
    {FORM_SPLIT_PIN, DRIVE_UNKNOWN, "ISO", 1234, 0},
    {FORM_SHAFT_RING, DRIVE_UNKNOWN, "DIN", 471, 0},
    {FORM_BORE_RING, DRIVE_UNKNOWN, "DIN", 472, 0},
    {FORM_E_RING, DRIVE_UNKNOWN, "DIN", 6799, 0},
};

static const usual_standard *find_usual(fastener_form form, fastener_drive drive) {
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        if (usual[i].form == form && (usual[i].drive == drive || usual[i].drive == DRIVE_UNKNOWN))
            return &usual[i];
    return NULL;
}

/* "8mm penny washer": people name a washer by the bolt it goes on. */
static void guess_thread(arena *a, const guess_context *ctx, proposal *out) {
    designation *g = &out->guess;
    if (g->thread_um || !ctx->bare_um)
        return;
    int32_t um = ctx->bare_um;
    if (!thread_coarse_pitch_um(um))
        return;
    if (g->kind == FASTENER_PIN || g->kind == FASTENER_RING) {
        g->thread_um = um;
        return;
    }
    if (g->kind != FASTENER_WASHER && g->kind != FASTENER_NUT)
        return;
    g->thread_um = um;
    g->pitch_um = g->kind == FASTENER_NUT ? thread_coarse_pitch_um(um) : 0;
    assume(out,
           arena_format(a, "%g mm is the thread (M%g), not the hole or the outside", um / 1e3, um / 1e3));
}

static void set_form(proposal *out, fastener_form form, text why) {
    out->guess.form = form;
    assume(out, why);
}

static void guess_form(const guess_context *ctx, proposal *out) {
    designation *g = &out->guess;
    bool locking = (ctx->sense & SAYS_LOCKING) != 0;
    if (g->form && !(g->kind == FASTENER_NUT && g->form == FORM_HEX_NUT && locking))
        return;
    if (g->standard)
        return;
    if (g->kind == FASTENER_NUT && locking)
        set_form(out, FORM_LOCK_NUT, TEXT("a locking nut is one with a plastic ring; it could be all metal"));
    else if (g->kind == FASTENER_NUT)
        set_form(out, FORM_HEX_NUT, TEXT("a nut without more words is a plain hexagon nut"));
    else if (g->kind == FASTENER_WASHER && locking)
        set_form(out, FORM_SPRING_WASHER,
                 TEXT("a locking washer is a spring washer; it could be a toothed one"));
    else if (g->kind == FASTENER_WASHER)
        set_form(out, FORM_PLAIN_WASHER, TEXT("a washer without more words is a plain washer"));
    else if (g->kind == FASTENER_SET_SCREW)
        set_form(out, FORM_CUP_POINT, TEXT("a set screw without more words has a cup point"));
}

static void guess_drive(proposal *out) {
    designation *g = &out->guess;
    if (g->drive)
        return;
    if (g->kind == FASTENER_NUT && g->form != FORM_SLOT_NUT) {
        g->drive = DRIVE_HEXAGON; /* said by the form */
    } else if (g->kind == FASTENER_SET_SCREW) {
        g->drive = DRIVE_HEX_SOCKET;
        assume(out, TEXT("a set screw is turned with a hex key; it could have a slot"));
    } else if (g->form == FORM_COUNTERSUNK_HEAD && g->profile == THREAD_METRIC) {
        g->drive = DRIVE_HEX_SOCKET;
        assume(out, TEXT("a countersunk screw has a hex socket; it could have a cross, a slot or six lobes"));
    } else if (g->kind == FASTENER_WASHER || g->kind == FASTENER_PIN || g->kind == FASTENER_RING ||
               g->kind == FASTENER_ROD) {
        g->drive = DRIVE_NONE;
    }
}

static void guess_standard(arena *a, proposal *out) {
    designation *g = &out->guess;
    if (g->standard || g->profile == THREAD_TAPPING)
        return;
    const fastener_standard *s = NULL;
    const usual_standard *u = find_usual(g->form, g->drive);
    if (g->form == FORM_HEX_HEAD && g->extent != THREAD_EXTENT_UNKNOWN)
        s = fastener_standard_find("ISO", g->extent == THREAD_FULL ? 4017 : 4014, 0);
    else if (u)
        s = fastener_standard_find(u->body, u->number, u->part);
    if (!s || !g->thread_um || g->thread_um < s->least_um || g->thread_um > s->most_um)
        return;
    g->standard = s;
    g->extent = s->extent;
    char name[32];
    fastener_standard_print(s, name, sizeof name);
    assume(out, arena_format(a, "%s, the usual one for: %s", name, s->title));
}

void guess_fill(arena *a, const guess_context *ctx, proposal *out) {
    guess_thread(a, ctx, out);
    guess_form(ctx, out);
    guess_drive(out);
    guess_standard(a, out);
}
