/* grades.c: strength marks. Sources (M unless a test names a published table): screws ISO 898-1, nuts ISO 898-2, set
 * screws ISO 898-5, stainless ISO 3506-1 to -3, washers ISO 7089 and ISO 887. */
#include <string.h>

#include "trade/designation.h"

static const fastener_grade grades[] = {
    {"4.6", FASTENER_SCREW, MATERIAL_STEEL},     {"4.8", FASTENER_SCREW, MATERIAL_STEEL},
    {"5.6", FASTENER_SCREW, MATERIAL_STEEL},     {"5.8", FASTENER_SCREW, MATERIAL_STEEL},
    {"6.8", FASTENER_SCREW, MATERIAL_STEEL},     {"8.8", FASTENER_SCREW, MATERIAL_STEEL},
    {"9.8", FASTENER_SCREW, MATERIAL_STEEL},     {"10.9", FASTENER_SCREW, MATERIAL_STEEL},
    {"12.9", FASTENER_SCREW, MATERIAL_STEEL},    {"A1-50", FASTENER_SCREW, MATERIAL_A1},
    {"A2-50", FASTENER_SCREW, MATERIAL_A2},      {"A2-70", FASTENER_SCREW, MATERIAL_A2},
    {"A2-80", FASTENER_SCREW, MATERIAL_A2},      {"A4-50", FASTENER_SCREW, MATERIAL_A4},
    {"A4-70", FASTENER_SCREW, MATERIAL_A4},      {"A4-80", FASTENER_SCREW, MATERIAL_A4},
    {"14H", FASTENER_SET_SCREW, MATERIAL_STEEL}, {"22H", FASTENER_SET_SCREW, MATERIAL_STEEL},
    {"33H", FASTENER_SET_SCREW, MATERIAL_STEEL}, {"45H", FASTENER_SET_SCREW, MATERIAL_STEEL},
    {"A1-12H", FASTENER_SET_SCREW, MATERIAL_A1}, {"A2-12H", FASTENER_SET_SCREW, MATERIAL_A2},
    {"A2-21H", FASTENER_SET_SCREW, MATERIAL_A2}, {"A4-12H", FASTENER_SET_SCREW, MATERIAL_A4},
    {"A4-21H", FASTENER_SET_SCREW, MATERIAL_A4}, {"4", FASTENER_NUT, MATERIAL_STEEL},
    {"04", FASTENER_NUT, MATERIAL_STEEL},        {"05", FASTENER_NUT, MATERIAL_STEEL},
    {"5", FASTENER_NUT, MATERIAL_STEEL},         {"6", FASTENER_NUT, MATERIAL_STEEL},
    {"8", FASTENER_NUT, MATERIAL_STEEL},         {"9", FASTENER_NUT, MATERIAL_STEEL},
    {"10", FASTENER_NUT, MATERIAL_STEEL},        {"12", FASTENER_NUT, MATERIAL_STEEL},
    {"A2-025", FASTENER_NUT, MATERIAL_A2},       {"A2-035", FASTENER_NUT, MATERIAL_A2},
    {"A2-50", FASTENER_NUT, MATERIAL_A2},        {"A2-70", FASTENER_NUT, MATERIAL_A2},
    {"A2-80", FASTENER_NUT, MATERIAL_A2},        {"A4-025", FASTENER_NUT, MATERIAL_A4},
    {"A4-035", FASTENER_NUT, MATERIAL_A4},       {"A4-50", FASTENER_NUT, MATERIAL_A4},
    {"A4-70", FASTENER_NUT, MATERIAL_A4},        {"A4-80", FASTENER_NUT, MATERIAL_A4},
    {"100HV", FASTENER_WASHER, MATERIAL_STEEL},  {"140HV", FASTENER_WASHER, MATERIAL_STEEL},
    {"200HV", FASTENER_WASHER, MATERIAL_STEEL},  {"300HV", FASTENER_WASHER, MATERIAL_STEEL},
};

enum { N_GRADES = sizeof grades / sizeof *grades };

/* Rods carry the marks of screws. */
static bool grade_fits(const fastener_grade *g, fastener_kind kind) {
    return g->kind == (kind == FASTENER_ROD ? FASTENER_SCREW : kind);
}

const fastener_grade *fastener_grade_at(size_t i) {
    return i < N_GRADES ? &grades[i] : NULL;
}

const fastener_grade *fastener_grade_find(fastener_kind kind, text code) {
    for (size_t i = 0; i < N_GRADES; i++)
        if (grade_fits(&grades[i], kind) && text_equal_nocase(text_of(grades[i].code), code))
            return &grades[i];
    return NULL;
}
