#include "trade/scan.h"

#include <string.h>

bool scan_is_letter(char c) {
    return (c >= 'a' && c <= 'z') || c == '?';
}

bool scan_is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool scan_is_edge(char c) {
    return !scan_is_letter(c) && !scan_is_digit(c);
}

/* What lists write for a plain sign. Longest first does not matter: none is the start of another. */
typedef struct {
    const char *from;
    char to;
} plain_sign;

static const plain_sign plain_signs[] = {
    {"\xC3\x97", 'x'},
    {"\xE2\x9C\x95", 'x'},
    {"\xE2\x80\x90", '-'},
    {"\xE2\x80\x91", '-'},
    {"\xE2\x80\x93", '-'},
    {"\xE2\x80\x94", '-'},
    {"\xE2\x88\x92", '-'},
    {"\xC2\xA0", ' '},
    {"\xE2\x80\x89", ' '},
    {"\xE2\x80\xAF", ' '},
    {"<br>", ' '},
    {"<br/>", ' '},
    {"*", 'x'},
    {"_", ' '},
    {"\t", ' '},
    {"\n", ' '},
    {"\r", ' '},
};

/* The plain sign at t.at[i] and how many bytes it stands for. */
static char plain_at(text t, size_t i, size_t *len) {
    for (size_t k = 0; k < sizeof plain_signs / sizeof *plain_signs; k++) {
        size_t n = strlen(plain_signs[k].from);
        if (t.len - i >= n && memcmp(t.at + i, plain_signs[k].from, n) == 0) {
            *len = n;
            return plain_signs[k].to;
        }
    }
    unsigned char c = (unsigned char)t.at[i];
    *len = 1;
    if (c >= 0x80) {
        while (i + *len < t.len && ((unsigned char)t.at[i + *len] & 0xC0) == 0x80)
            (*len)++;
        return '?';
    }
    if (c < 0x20 || c == 0x7F)
        return ' ';
    return (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
}

/* "2,5" between digits is a decimal comma, as much of Europe writes. */
static void turn_decimal_commas(char *z) {
    for (char *c = z; *c; c++)
        if (*c == ',' && c != z && scan_is_digit(c[-1]) && scan_is_digit(c[1]))
            *c = '.';
}

bool scan_clean(text t, char out[CLEAN_SIZE]) {
    size_t n = 0, i = 0;
    while (i < t.len && n + 1 < CLEAN_SIZE) {
        size_t len = 1;
        out[n++] = plain_at(t, i, &len);
        i += len;
    }
    while (n > 0 && out[n - 1] == ' ')
        n--;
    out[n] = 0;
    turn_decimal_commas(out);
    return i >= t.len;
}

bool scan_mm(const char **at, int32_t *um) {
    const char *c = *at;
    int32_t value = 0;
    int digits = 0;
    for (; scan_is_digit(*c); c++) {
        if (++digits > 5)
            return false;
        value = value * 10 + (*c - '0');
    }
    if (digits == 0)
        return false;
    value *= 1000;
    if (*c == '.' && scan_is_digit(c[1])) {
        int32_t unit = 100;
        for (c++; scan_is_digit(*c); c++, unit /= 10) {
            if (unit == 0)
                return false;
            value += unit * (*c - '0');
        }
    }
    *at = c;
    *um = value;
    return true;
}

bool scan_times(const char **at) {
    const char *c = *at;
    while (*c == ' ')
        c++;
    if (*c != 'x')
        return false;
    for (c++; *c == ' '; c++)
        ;
    if (!scan_is_digit(*c))
        return false;
    *at = c;
    return true;
}

static void skip_blanks(const char **at) {
    while (**at == ' ')
        (*at)++;
}

static bool take_word(const char **at, const char *word) {
    size_t n = strlen(word);
    if (strncmp(*at, word, n) != 0 || scan_is_letter((*at)[n]))
        return false;
    *at += n;
    skip_blanks(at);
    return true;
}

/* "-1" behind a number is a part only when the standard has that part and more text does not make it a size:
 * "ISO 7093-1-8" is part 1 for M8, "ISO 7089-8" is a washer for M8. */
static unsigned take_part(const char **at, const char *body, unsigned number) {
    const char *c = *at;
    if (c[0] != '-' || !scan_is_digit(c[1]) || scan_is_digit(c[2]) || c[2] == '.')
        return 0;
    unsigned part = (unsigned)(c[1] - '0');
    const fastener_standard *s = fastener_standard_find(body, number, part);
    if (!s || s->part != part)
        return 0;
    *at = c + 2;
    return part;
}

bool scan_standard(const char **at, const char **body, unsigned *number, const fastener_standard **found) {
    const char *c = *at;
    const char *name = NULL;
    if (take_word(&c, "din"))
        name = "DIN";
    if (take_word(&c, "en"))
        name = "EN";
    if (take_word(&c, "iso"))
        name = "ISO";
    if (!name)
        return false;
    if (*c == '-' || *c == '.')
        c++;
    unsigned value = 0;
    int digits = 0;
    for (; scan_is_digit(*c) && digits < 6; c++, digits++)
        value = value * 10 + (unsigned)(*c - '0');
    bool size_follows = *c == 'm' && scan_is_digit(c[1]); /* "ISO4032M3" */
    if (digits == 0 || digits > 5 || (scan_is_letter(*c) && !size_follows))
        return false;
    *body = name;
    *number = value;
    *found = fastener_standard_find(name, value, take_part(&c, name, value));
    *at = c;
    return true;
}

/* Holes of DIN 125 / DIN 9021 in mm x 1000; a hole of DIN 433 or DIN 6797 differs by 0.1 at some sizes. */
int32_t scan_thread_for_hole(int32_t hole_um) {
    static const int32_t holes[][2] = {
        {1700, 1600},   {2200, 2000},   {2700, 2500},   {3200, 3000},   {3700, 3500},   {4300, 4000},
        {5300, 5000},   {5500, 5000},   {6400, 6000},   {6600, 6000},   {7400, 7000},   {8400, 8000},
        {9000, 8000},   {10500, 10000}, {11000, 10000}, {13000, 12000}, {13500, 12000}, {15000, 14000},
        {17000, 16000}, {17500, 16000}, {19000, 18000}, {21000, 20000}, {22000, 20000}, {23000, 22000},
        {25000, 24000}, {26000, 24000}};
    for (size_t i = 0; i < sizeof holes / sizeof *holes; i++)
        if (holes[i][0] == hole_um)
            return holes[i][1];
    return 0;
}

/* One number behind "m8x" is a length, unless it is a pitch that this thread has: pitches are 3 mm at most and less
 * than the diameter, and no screw of that diameter is so short. */
static bool is_pitch(int32_t thread_um, int32_t value_um) {
    return value_um <= 3000 && value_um < thread_um && thread_pitch_known(thread_um, value_um);
}

bool scan_thread(const char **at, bool has_length, size_read *out) {
    const char *c = *at;
    size_read r = {0};
    if (*c != 'm')
        return false;
    c++;
    if (*c == ' ' && scan_is_digit(c[1]))
        c++;
    if (!scan_mm(&c, &r.thread_um))
        return false;
    if (strncmp(c, "mm", 2) == 0 && !scan_is_letter(c[2]))
        c += 2;
    const char *behind = c;
    int32_t first = 0, second = 0;
    if (scan_times(&c) && scan_mm(&c, &first)) {
        if (strncmp(c, "mm", 2) == 0 && (!scan_is_letter(c[2]) || c[2] == 'x'))
            c += 2;
        behind = c;
        if (scan_times(&c) && scan_mm(&c, &second))
            behind = c;
    }
    if (second) {
        r.pitch_um = first;
        r.length_um = second;
    } else if (first && (!has_length || is_pitch(r.thread_um, first))) {
        r.pitch_um = first;
    } else {
        r.length_um = first;
    }
    *at = behind;
    *out = r;
    return true;
}
