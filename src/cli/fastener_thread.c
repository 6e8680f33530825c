/* fastener_thread.c: `kitbench fastener M8`: a thread, its holes, and what turns the usual pieces on it. */
#include "cli/fastener_thread.h"

#include "base/number.h"

static const struct {
    const char *what, *key;
    fastener_kind kind;
    fastener_form form;
    fastener_drive drive;
} usual[] = {
    {"hexagon head, nut", "spanner_mm", FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON},
    {"socket cap", "cap_key_mm", FASTENER_SCREW, FORM_CYLINDER_HEAD, DRIVE_HEX_SOCKET},
    {"button head", "button_key_mm", FASTENER_SCREW, FORM_BUTTON_HEAD, DRIVE_HEX_SOCKET},
    {"countersunk", "countersunk_key_mm", FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_HEX_SOCKET},
    {"set screw", "set_screw_key_mm", FASTENER_SET_SCREW, FORM_CUP_POINT, DRIVE_HEX_SOCKET},
};

static bool read_um(text t, int32_t *out) {
    number_fault why;
    int64_t um;
    if (!number_decimal(t, 3, 1, 100000, &um, &why))
        return false;
    *out = (int32_t)um;
    return true;
}

bool fastener_thread_read(text t, designation *out) {
    t = text_trim(t);
    if (!text_starts(t, TEXT("M")) && !text_starts(t, TEXT("m")))
        return false;
    text rest = text_slice(t, 1, t.len), size;
    designation d = {.kind = FASTENER_UNKNOWN};
    if (!text_next_piece(&rest, 'x', &size) || !read_um(size, &d.thread_um))
        return false;
    d.pitch_um = thread_coarse_pitch_um(d.thread_um);
    d.fine = rest.at != NULL;
    if (!d.pitch_um ||
        (rest.at && (!read_um(rest, &d.pitch_um) || !thread_pitch_known(d.thread_um, d.pitch_um))))
        return false;
    d.fine = d.pitch_um != thread_coarse_pitch_um(d.thread_um);
    *out = d;
    return true;
}

static tool_need turned_by(const designation *thread, size_t i) {
    designation d = *thread;
    d.kind = usual[i].kind;
    d.form = usual[i].form;
    d.drive = usual[i].drive;
    return tool_for(&d);
}

static void tell_json(const designation *d, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    trade_json_um(&j, "thread_mm", d->thread_um);
    trade_json_um(&j, "pitch_mm", d->pitch_um);
    json_put_bool(&j, "fine", d->fine);
    trade_json_real(&j, "stress_area_mm2", thread_stress_area_mm2(d->thread_um, d->pitch_um));
    trade_json_real(&j, "pitch_diameter_mm", thread_pitch_diameter_mm(d->thread_um, d->pitch_um));
    trade_json_real(&j, "core_diameter_mm", thread_core_diameter_mm(d->thread_um, d->pitch_um));
    trade_json_um(&j, "tapping_drill_mm", thread_tapping_drill_um(d->thread_um, d->pitch_um));
    trade_json_um(&j, "hole_fine_mm", thread_clearance_hole_um(d->thread_um, HOLE_FINE));
    trade_json_um(&j, "hole_medium_mm", thread_clearance_hole_um(d->thread_um, HOLE_MEDIUM));
    trade_json_um(&j, "hole_coarse_mm", thread_clearance_hole_um(d->thread_um, HOLE_COARSE));
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        trade_json_um(&j, usual[i].key, turned_by(d, i).size_um);
    json_end_object(&j);
}

static void tell_text(const designation *d, buf *out) {
    int32_t medium = thread_clearance_hole_um(d->thread_um, HOLE_MEDIUM);
    buf_addf(out, "M%g, pitch %g mm%s\n", d->thread_um / 1e3, d->pitch_um / 1e3, d->fine ? " (fine)" : "");
    buf_addf(out, "  %-22s %.3g mm2; core %.3f mm\n", "stress area",
             thread_stress_area_mm2(d->thread_um, d->pitch_um),
             thread_core_diameter_mm(d->thread_um, d->pitch_um));
    buf_addf(out, "  %-22s %g mm (diameter less pitch; common practice)\n", "tapping drill",
             thread_tapping_drill_um(d->thread_um, d->pitch_um) / 1e3);
    if (medium)
        buf_addf(out, "  %-22s %g mm medium, %g fine, %g coarse (ISO 273)\n", "hole to pass through",
                 medium / 1e3, thread_clearance_hole_um(d->thread_um, HOLE_FINE) / 1e3,
                 thread_clearance_hole_um(d->thread_um, HOLE_COARSE) / 1e3);
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        tool_need need = turned_by(d, i);
        char tool[64];
        tool_print(&need, tool);
        if (need.size_um)
            buf_addf(out, "  %-22s %s\n", usual[i].what, tool);
    }
    trade_line(out, "Name a piece for more: \"ISO 4762 M8x25-8.8\", \"M6 nut\", \"M5x16 button head\".");
}

int fastener_thread_tell(const cli_call *call, const designation *thread) {
    buf out = {0};
    if (call->json)
        tell_json(thread, &out);
    else
        tell_text(thread, &out);
    return cli_print(&out, EXIT_DONE);
}
