/* names.c: words for people, and which kind a form belongs to. */
#include "trade/designation.h"

typedef struct {
    fastener_kind kind;
    const char *name;
} form_row;

static const form_row forms[FORM_COUNT] = {
    [FORM_UNKNOWN] = {FASTENER_UNKNOWN, "unknown"},
    [FORM_HEX_HEAD] = {FASTENER_SCREW, "hexagon head"},
    [FORM_HEX_FLANGE_HEAD] = {FASTENER_SCREW, "hexagon flange head"},
    [FORM_CYLINDER_HEAD] = {FASTENER_SCREW, "socket cap"},
    [FORM_LOW_CYLINDER_HEAD] = {FASTENER_SCREW, "low socket cap"},
    [FORM_BUTTON_HEAD] = {FASTENER_SCREW, "button head"},
    [FORM_COUNTERSUNK_HEAD] = {FASTENER_SCREW, "countersunk"},
    [FORM_RAISED_COUNTERSUNK_HEAD] = {FASTENER_SCREW, "raised countersunk"},
    [FORM_PAN_HEAD] = {FASTENER_SCREW, "pan head"},
    [FORM_CHEESE_HEAD] = {FASTENER_SCREW, "cheese head"},
    [FORM_MUSHROOM_HEAD] = {FASTENER_SCREW, "carriage bolt head"},
    [FORM_EYE] = {FASTENER_SCREW, "eye"},
    [FORM_FLAT_POINT] = {FASTENER_SET_SCREW, "flat point"},
    [FORM_CONE_POINT] = {FASTENER_SET_SCREW, "cone point"},
    [FORM_DOG_POINT] = {FASTENER_SET_SCREW, "dog point"},
    [FORM_CUP_POINT] = {FASTENER_SET_SCREW, "cup point"},
    [FORM_PLAIN_ROD] = {FASTENER_ROD, "threaded rod"},
    [FORM_HEX_NUT] = {FASTENER_NUT, "hexagon"},
    [FORM_THIN_NUT] = {FASTENER_NUT, "thin hexagon"},
    [FORM_LOCK_NUT] = {FASTENER_NUT, "locking (plastic ring)"},
    [FORM_THIN_LOCK_NUT] = {FASTENER_NUT, "thin locking (plastic ring)"},
    [FORM_ALL_METAL_LOCK_NUT] = {FASTENER_NUT, "all-metal locking"},
    [FORM_CASTLE_NUT] = {FASTENER_NUT, "castle"},
    [FORM_FLANGE_NUT] = {FASTENER_NUT, "flange"},
    [FORM_FLANGE_LOCK_NUT] = {FASTENER_NUT, "locking flange"},
    [FORM_CAP_NUT] = {FASTENER_NUT, "cap"},
    [FORM_WING_NUT] = {FASTENER_NUT, "wing"},
    [FORM_SQUARE_NUT] = {FASTENER_NUT, "square"},
    [FORM_SLOT_NUT] = {FASTENER_NUT, "T-slot"},
    [FORM_LONG_NUT] = {FASTENER_NUT, "long"},
    [FORM_PLAIN_WASHER] = {FASTENER_WASHER, "plain"},
    [FORM_CHAMFERED_WASHER] = {FASTENER_WASHER, "chamfered"},
    [FORM_SMALL_WASHER] = {FASTENER_WASHER, "small"},
    [FORM_LARGE_WASHER] = {FASTENER_WASHER, "large"},
    [FORM_EXTRA_LARGE_WASHER] = {FASTENER_WASHER, "extra large"},
    [FORM_SPRING_WASHER] = {FASTENER_WASHER, "spring"},
    [FORM_WAVE_WASHER] = {FASTENER_WASHER, "wave"},
    [FORM_CONICAL_WASHER] = {FASTENER_WASHER, "conical spring"},
    [FORM_TOOTHED_WASHER] = {FASTENER_WASHER, "toothed"},
    [FORM_SPLIT_PIN] = {FASTENER_PIN, "split"},
    [FORM_DOWEL_PIN] = {FASTENER_PIN, "dowel"},
    [FORM_SPRING_PIN] = {FASTENER_PIN, "spring"},
    [FORM_TAPER_PIN] = {FASTENER_PIN, "taper"},
    [FORM_CLEVIS_PIN] = {FASTENER_PIN, "clevis"},
    [FORM_SHAFT_RING] = {FASTENER_RING, "shaft"},
    [FORM_BORE_RING] = {FASTENER_RING, "bore"},
    [FORM_E_RING] = {FASTENER_RING, "E"},
    [FORM_THREAD_INSERT] = {FASTENER_INSERT, "thread"},
};

const char *fastener_form_name(fastener_form form) {
    return (unsigned)form < FORM_COUNT ? forms[form].name : "unknown";
}

fastener_kind fastener_form_kind(fastener_form form) {
    return (unsigned)form < FORM_COUNT ? forms[form].kind : FASTENER_UNKNOWN;
}

const char *fastener_kind_name(fastener_kind kind) {
    static const char *const names[] = {"unknown", "screw", "set screw",      "threaded rod", "nut",
                                        "washer",  "pin",   "retaining ring", "insert"};
    return (unsigned)kind < sizeof names / sizeof *names ? names[kind] : "unknown";
}

const char *fastener_drive_name(fastener_drive drive) {
    static const char *const names[DRIVE_COUNT] = {
        "unknown",      "none", "hexagon", "hex socket", "hexalobular socket",
        "cross recess", "slot", "square",  "by hand"};
    return (unsigned)drive < DRIVE_COUNT ? names[drive] : "unknown";
}

const char *fastener_material_name(fastener_material material) {
    static const char *const names[MATERIAL_COUNT] = {
        "unknown", "steel", "spring steel", "A1", "A2", "A4", "stainless", "brass", "aluminium", "plastic"};
    return (unsigned)material < MATERIAL_COUNT ? names[material] : "unknown";
}

const char *fastener_finish_name(fastener_finish finish) {
    static const char *const names[FINISH_COUNT] = {"unknown", "plain",        "black",
                                                    "zinc",    "hot-dip zinc", "nickel"};
    return (unsigned)finish < FINISH_COUNT ? names[finish] : "unknown";
}
