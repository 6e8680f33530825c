/* strength.c: what a strength mark promises, and which nut is strong enough. */
#include <string.h>

#include "trade/tightening.h"

typedef struct {
    const char *code;
    double tensile, yield, proof;
} strength_row;

/* ISO 898-1 (two published copies agree for 4.6 to 5.8 and 8.8 up; one for 5.6 and 6.8); ISO 3506-1 for stainless, which
 * gives no proof stress. 8.8 above M16 is stronger (830, 660, 600), outside our range. */
static const strength_row rows[] = {
    {"4.6", 400, 240, 225},    {"4.8", 420, 340, 310}, {"5.6", 500, 300, 280}, {"5.8", 520, 420, 380},
    {"6.8", 600, 480, 440},    {"8.8", 800, 640, 580}, {"9.8", 900, 720, 650}, {"10.9", 1040, 940, 830},
    {"12.9", 1220, 1100, 970}, {"A1-50", 500, 210, 0}, {"A2-50", 500, 210, 0}, {"A4-50", 500, 210, 0},
    {"A2-70", 700, 450, 0},    {"A4-70", 700, 450, 0}, {"A2-80", 800, 600, 0}, {"A4-80", 800, 600, 0},
};

bool screw_strength_of(const fastener_grade *grade, int32_t thread_um, screw_strength *out) {
    if (!grade || thread_um > 16000)
        return false;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (strcmp(rows[i].code, grade->code) != 0)
            continue;
        *out = (screw_strength){rows[i].tensile, rows[i].yield, rows[i].proof};
        return true;
    }
    return false;
}
