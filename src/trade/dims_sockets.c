/* dims_sockets.c: sizes of hex socket and hexalobular heads, set screws, as the standards print them, in
 * hundredths of a millimetre.
 *
 * Columns: thread, flats, key, width, height, hole, depth, thread length, ring, number of the drive (-1: none). */
#include "trade/dims_tables.h"

/* Tables stay in columns. */
/* clang-format off */
static const dims_row socket_cap[] = {
    {  200,     0,   150,   380,   200,     0,   100,  1600,     0,  -1},
    {  250,     0,   200,   450,   250,     0,   110,  1700,     0,  -1},
    {  300,     0,   250,   550,   300,     0,   130,  1800,     0,  -1},
    {  400,     0,   300,   700,   400,     0,   200,  2000,     0,  -1},
    {  500,     0,   400,   850,   500,     0,   250,  2200,     0,  -1},
    {  600,     0,   500,  1000,   600,     0,   300,  2400,     0,  -1},
    {  800,     0,   600,  1300,   800,     0,   400,  2800,     0,  -1},
    { 1000,     0,   800,  1600,  1000,     0,   500,  3200,     0,  -1},
    { 1200,     0,  1000,  1800,  1200,     0,   600,  3600,     0,  -1},
    { 1400,     0,  1200,  2100,  1400,     0,   700,  4000,     0,  -1},
    { 1600,     0,  1400,  2400,  1600,     0,   800,  4400,     0,  -1},
};
static const dims_row low_cap[] = {
    {  300,     0,   200,   550,   200,     0,     0,     0,     0,  -1},
    {  400,     0,   250,   700,   280,     0,     0,     0,     0,  -1},
    {  500,     0,   300,   850,   350,     0,     0,     0,     0,  -1},
    {  600,     0,   400,  1000,   400,     0,     0,     0,     0,  -1},
    {  800,     0,   500,  1300,   500,     0,     0,     0,     0,  -1},
    { 1000,     0,   700,  1600,   600,     0,     0,     0,     0,  -1},
    { 1200,     0,   800,  1800,   700,     0,     0,     0,     0,  -1},
    { 1400,     0,  1000,  2100,   800,     0,     0,     0,     0,  -1},
    { 1600,     0,  1200,  2400,   900,     0,     0,     0,     0,  -1},
};
static const dims_row low_pilot[] = {
    {  400,     0,   300,   700,   280,     0,     0,     0,     0,  -1},
    {  500,     0,   400,   850,   350,     0,     0,     0,     0,  -1},
    {  600,     0,   500,  1000,   400,     0,     0,     0,     0,  -1},
    {  800,     0,   600,  1300,   500,     0,     0,     0,     0,  -1},
    { 1000,     0,   800,  1600,   650,     0,     0,     0,     0,  -1},
    { 1200,     0,  1000,  1800,   750,     0,     0,     0,     0,  -1},
    { 1400,     0,  1200,  2100,   850,     0,     0,     0,     0,  -1},
    { 1600,     0,  1400,  2400,  1000,     0,     0,     0,     0,  -1},
};
static const dims_row button[] = {
    {  300,     0,   200,   570,   165,     0,   104,     0,     0,  -1},
    {  400,     0,   250,   760,   220,     0,   130,     0,     0,  -1},
    {  500,     0,   300,   950,   275,     0,   156,     0,     0,  -1},
    {  600,     0,   400,  1050,   330,     0,   208,     0,     0,  -1},
    {  800,     0,   500,  1400,   440,     0,   260,     0,     0,  -1},
    { 1000,     0,   600,  1750,   550,     0,   312,     0,     0,  -1},
    { 1200,     0,   800,  2100,   660,     0,   416,     0,     0,  -1},
    { 1600,     0,  1000,  2800,   880,     0,   520,     0,     0,  -1},
};
static const dims_row countersunk[] = {
    {  200,     0,   125,   409,   124,     0,     0,     0,     0,  -1},
    {  250,     0,   150,   508,   155,     0,     0,     0,     0,  -1},
    {  300,     0,   200,   672,   186,     0,   110,  1800,     0,  -1},
    {  400,     0,   250,   896,   248,     0,   150,  2000,     0,  -1},
    {  500,     0,   300,  1120,   310,     0,   190,  2200,     0,  -1},
    {  600,     0,   400,  1344,   372,     0,   220,  2400,     0,  -1},
    {  800,     0,   500,  1792,   496,     0,   300,  2800,     0,  -1},
    { 1000,     0,   600,  2240,   620,     0,   360,  3200,     0,  -1},
    { 1200,     0,   800,  2688,   744,     0,   430,  3600,     0,  -1},
    { 1400,     0,  1000,  3080,   840,     0,   450,  4000,     0,  -1},
    { 1600,     0,  1000,  3360,   880,     0,   480,  4400,     0,  -1},
};
static const dims_row countersunk_din[] = {
    {  300,     0,   200,   600,   170,     0,     0,  1200,     0,  -1},
    {  400,     0,   250,   800,   230,     0,     0,  1400,     0,  -1},
    {  500,     0,   300,  1000,   280,     0,     0,  1600,     0,  -1},
    {  600,     0,   400,  1200,   330,     0,     0,  1800,     0,  -1},
    {  800,     0,   500,  1600,   440,     0,     0,  2200,     0,  -1},
    { 1000,     0,   600,  2000,   550,     0,     0,  2600,     0,  -1},
    { 1200,     0,   800,  2400,   650,     0,     0,  3000,     0,  -1},
    { 1400,     0,  1000,  2700,   700,     0,     0,  3400,     0,  -1},
    { 1600,     0,  1000,  3000,   750,     0,     0,  3800,     0,  -1},
};
static const dims_row cap_lobe[] = {
    {  200,     0,     0,   380,   200,     0,     0,  1600,     0,   6},
    {  250,     0,     0,   450,   250,     0,     0,  1700,     0,   8},
    {  300,     0,     0,   550,   300,     0,     0,  1800,     0,  10},
    {  400,     0,     0,   700,   400,     0,     0,  2000,     0,  20},
    {  500,     0,     0,   850,   500,     0,     0,  2200,     0,  25},
    {  600,     0,     0,  1000,   600,     0,     0,  2400,     0,  30},
    {  800,     0,     0,  1300,   800,     0,     0,  2800,     0,  45},
    { 1000,     0,     0,  1600,  1000,     0,     0,  3200,     0,  50},
    { 1200,     0,     0,  1800,  1200,     0,     0,  3600,     0,  55},
};
static const dims_row pan_lobe[] = {
    {  200,     0,     0,   400,   160,     0,     0,     0,     0,   6},
    {  250,     0,     0,   500,   210,     0,     0,     0,     0,   8},
    {  300,     0,     0,   560,   240,     0,     0,     0,     0,  10},
    {  400,     0,     0,   800,   310,     0,     0,     0,     0,  20},
    {  500,     0,     0,   950,   370,     0,     0,     0,     0,  25},
    {  600,     0,     0,  1200,   460,     0,     0,     0,     0,  30},
};
static const dims_row countersunk_lobe[] = {
    {  200,     0,     0,   380,   120,     0,     0,     0,     0,   6},
    {  250,     0,     0,   470,   150,     0,     0,     0,     0,   8},
    {  300,     0,     0,   550,   165,     0,     0,     0,     0,  10},
    {  400,     0,     0,   840,   270,     0,     0,     0,     0,  20},
    {  500,     0,     0,   930,   270,     0,     0,     0,     0,  25},
    {  600,     0,     0,  1130,   330,     0,     0,     0,     0,  30},
};
static const dims_row set_cup[] = {
    {  200,     0,    90,     0,     0,     0,   170,     0,     0,  -1},
    {  250,     0,   130,     0,     0,     0,   200,     0,     0,  -1},
    {  300,     0,   150,     0,     0,     0,   200,     0,     0,  -1},
    {  400,     0,   200,     0,     0,     0,   250,     0,     0,  -1},
    {  500,     0,   250,     0,     0,     0,   300,     0,     0,  -1},
    {  600,     0,   300,     0,     0,     0,   350,     0,     0,  -1},
    {  800,     0,   400,     0,     0,     0,   500,     0,     0,  -1},
    { 1000,     0,   500,     0,     0,     0,   600,     0,     0,  -1},
    { 1200,     0,   600,     0,     0,     0,   800,     0,     0,  -1},
    { 1400,     0,   600,     0,     0,     0,     0,     0,     0,  -1},
    { 1600,     0,   800,     0,     0,     0,  1000,     0,     0,  -1},
};

static const dims_family families[] = {
    {"ISO 4762;DIN 912", FORM_CYLINDER_HEAD, DRIVE_HEX_SOCKET, socket_cap, 11, "ISO 4762: from memory (M), compared with open CAD tables"},
    {"DIN 7984", FORM_LOW_CYLINDER_HEAD, DRIVE_HEX_SOCKET, low_cap, 9, "DIN 7984: from memory (M)"},
    {"DIN 6912", FORM_LOW_CYLINDER_HEAD, DRIVE_HEX_SOCKET, low_pilot, 8, "DIN 6912: from memory (M)"},
    {"ISO 7380-1", FORM_BUTTON_HEAD, DRIVE_HEX_SOCKET, button, 8, "ISO 7380-1: from memory (M), compared with open CAD tables"},
    {"ISO 10642", FORM_COUNTERSUNK_HEAD, DRIVE_HEX_SOCKET, countersunk, 11, "ISO 10642 (theoretical head): from memory (M), M3 up compared with open CAD tables, M2 and M2.5 from one of them"},
    {"DIN 7991", FORM_COUNTERSUNK_HEAD, DRIVE_HEX_SOCKET, countersunk_din, 9, "DIN 7991: from memory (M), compared with open CAD tables"},
    {"ISO 14579", FORM_CYLINDER_HEAD, DRIVE_HEXALOBULAR, cap_lobe, 9, "ISO 14579: from memory (M)"},
    {"ISO 14583", FORM_PAN_HEAD, DRIVE_HEXALOBULAR, pan_lobe, 6, "ISO 14583: from memory (M)"},
    {"ISO 14581", FORM_COUNTERSUNK_HEAD, DRIVE_HEXALOBULAR, countersunk_lobe, 6, "ISO 14581: from memory (M)"},
    {"ISO 4029;DIN 916", FORM_CUP_POINT, DRIVE_HEX_SOCKET, set_cup, 11, "ISO 4026 to 4029: from memory (M), compared with open CAD tables"},
    {"ISO 4026;DIN 913", FORM_FLAT_POINT, DRIVE_HEX_SOCKET, set_cup, 11, "ISO 4026 to 4029: from memory (M), compared with open CAD tables"},
    {"ISO 4027;DIN 914", FORM_CONE_POINT, DRIVE_HEX_SOCKET, set_cup, 11, "ISO 4026 to 4029: from memory (M), compared with open CAD tables"},
    {"ISO 4028;DIN 915", FORM_DOG_POINT, DRIVE_HEX_SOCKET, set_cup, 11, "ISO 4026 to 4029: from memory (M), compared with open CAD tables"},
};
/* clang-format on */

const dims_family *dims_sockets(size_t *n) {
    *n = sizeof families / sizeof *families;
    return families;
}
