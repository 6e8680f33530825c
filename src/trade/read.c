/* read.c: the strict form of a designation, "[title] STANDARD[-part] size[-mark][-finish]". */
#include <stdio.h>
#include <string.h>

#include "trade/lexicon.h"
#include "trade/scan.h"

typedef struct {
    char line[CLEAN_SIZE];
    char place[128]; /* what err shows: the text itself, in quotes */
    const char *at;
    err *e;
} reader;

static const char write_like[] = "write it as \"ISO 4762 M8x25-8.8\", \"DIN 985 M8\" or \"ISO 7089-8\"";

static bool refuse_size(reader *r, const fastener_standard *s) {
    static const char *const forms[] = {
        [SIZE_THREAD_LENGTH] = "thread and length, such as M8x25",
        [SIZE_THREAD] = "the thread, such as M8 or M8x1",
        [SIZE_FOR_THREAD] = "the thread it is for, such as 8",
        [SIZE_HOLE] = "its hole, such as 8.4",
        [SIZE_DIAMETER_LENGTH] = "diameter and length, such as 6x20",
        [SIZE_DIAMETER] = "the diameter, such as 20",
        [SIZE_TAPPING_LENGTH] = "thread and length, such as ST4.2x16",
    };
    char name[32], remedy[96];
    fastener_standard_print(s, name, sizeof name);
    snprintf(remedy, sizeof remedy, "write %s", forms[s->size]);
    return err_input(r->e, r->place, remedy, "the size is missing or not readable; %s names %s", name,
                     forms[s->size]);
}

static void skip_separators(reader *r) {
    while (*r->at == ' ' || *r->at == '-' || *r->at == ',' || *r->at == '/')
        r->at++;
}

/* The words before the standard: "Hexagon socket head cap screw ISO 4762 - M5 x 20 - 12.9". */
static bool find_standard(reader *r, const fastener_standard **out, size_t *title_len) {
    bool at_edge = true;
    for (const char *c = r->line; *c; c++) {
        const char *body, *behind = c;
        unsigned number;
        if (at_edge && scan_standard(&behind, &body, &number, out)) {
            if (!*out) {
                err_input(r->e, r->place, "use a standard that kitbench fastener --list shows",
                          "%s %u is no fastener standard known here", body, number);
                return false;
            }
            *title_len = (size_t)(c - r->line);
            r->at = behind;
            return true;
        }
        at_edge = scan_is_edge(*c);
    }
    err_input(r->e, r->place, write_like, "names no standard");
    return false;
}

/* A title may stand before the standard; it must not contradict it. */
static bool check_title(reader *r, const fastener_standard *s, size_t title_len) {
    word_reading w;
    lexicon_read(r->line, title_len, &w);
    bool has_digit = strcspn(r->line, "0123456789") < title_len; /* "M10x50 ISO 4762 M8x25": which? */
    if (w.unknown_words || w.not_fastener || has_digit)
        return err_input(r->e, r->place, write_like, "\"%.*s\" before the standard is not understood",
                         (int)title_len, r->line);
    if ((w.kind && w.kind != s->kind) || (w.form && !lexicon_form_fits(w.form, s->form)) ||
        (w.drive && w.drive != s->drive))
        return err_input(r->e, r->place, "mend the name or the standard",
                         "the words say something else than the standard, which is a %s", s->title);
    return true;
}

static bool check_range(reader *r, const fastener_standard *s, int32_t size_um) {
    if (size_um >= s->least_um && size_um <= s->most_um)
        return true;
    char name[32], remedy[64];
    fastener_standard_print(s, name, sizeof name);
    snprintf(remedy, sizeof remedy, "use a size from %g to %g mm", s->least_um / 1e3, s->most_um / 1e3);
    return err_input(r->e, r->place, remedy, "%s is known here from %g to %g mm, not for %g", name,
                     s->least_um / 1e3, s->most_um / 1e3, size_um / 1e3);
}

static bool set_thread(reader *r, designation *d, size_read size) {
    int32_t coarse = thread_coarse_pitch_um(size.thread_um);
    if (!coarse)
        return err_input(r->e, r->place, "use a diameter of ISO 261 from M1.6 to M24",
                         "M%g is no metric thread known here", size.thread_um / 1e3);
    if (size.pitch_um && !thread_pitch_known(size.thread_um, size.pitch_um))
        return err_input(r->e, r->place, "use a pitch that ISO 261 lists for this diameter",
                         "M%g has no pitch of %g mm", size.thread_um / 1e3, size.pitch_um / 1e3);
    d->thread_um = size.thread_um;
    d->pitch_um = size.pitch_um ? size.pitch_um : coarse;
    d->fine = d->pitch_um != coarse;
    return true;
}

static bool set_length(reader *r, designation *d, int32_t length_um) {
    if (length_um < 1000 || length_um > 3000000)
        return err_input(r->e, r->place, "use a length from 1 to 3000 mm",
                         "a length of %g mm is out of range", length_um / 1e3);
    d->length_um = length_um;
    return true;
}

static bool read_threaded(reader *r, const fastener_standard *s, designation *d) {
    bool has_length = s->size == SIZE_THREAD_LENGTH;
    size_read size;
    if (!scan_thread(&r->at, has_length, &size))
        return refuse_size(r, s);
    if (!set_thread(r, d, size))
        return false;
    if (!has_length)
        return size.length_um ? refuse_size(r, s) : true;
    if (size.length_um == 0) /* rod is also sold by the metre */
        return s->kind == FASTENER_ROD || refuse_size(r, s);
    return set_length(r, d, size.length_um);
}

/* Washers: "8", "M8", or the hole "8.4". */
static bool read_washer(reader *r, const fastener_standard *s, designation *d) {
    bool thread_named = *r->at == 'm';
    int32_t size = 0;
    r->at += thread_named;
    if (!scan_mm(&r->at, &size))
        return refuse_size(r, s);
    if (s->size == SIZE_HOLE && !thread_named) {
        int32_t thread = scan_thread_for_hole(size);
        if (!thread)
            return err_input(r->e, r->place, "write the hole (8.4) or the thread (M8)",
                             "no washer of this standard has a hole of %g mm", size / 1e3);
        size = thread;
    }
    if (!thread_coarse_pitch_um(size))
        return err_input(r->e, r->place, "use a diameter of ISO 261 from M1.6 to M24",
                         "there is no thread M%g for this washer", size / 1e3);
    d->thread_um = size;
    return true;
}

static bool read_plain_size(reader *r, const fastener_standard *s, designation *d) {
    if (s->size == SIZE_TAPPING_LENGTH) {
        if (strncmp(r->at, "st", 2) != 0)
            return refuse_size(r, s);
        r->at += r->at[2] == ' ' ? 3 : 2;
        d->profile = THREAD_TAPPING;
    }
    if (!scan_mm(&r->at, &d->thread_um) || d->thread_um == 0)
        return refuse_size(r, s);
    if (s->size == SIZE_DIAMETER)
        return true;
    int32_t length;
    if (!scan_times(&r->at) || !scan_mm(&r->at, &length))
        return refuse_size(r, s);
    return set_length(r, d, length);
}

static bool read_size(reader *r, const fastener_standard *s, designation *d) {
    skip_separators(r);
    /* "DIN 127-B8", "DIN 125-A 8.4": a letter for the variety, which tells edges apart and nothing we use */
    if (*r->at >= 'a' && *r->at <= 'c' && (scan_is_digit(r->at[1]) || r->at[1] == ' ' || r->at[1] == '-')) {
        r->at++;
        skip_separators(r);
    }
    bool ok;
    switch (s->size) {
    case SIZE_THREAD_LENGTH:
    case SIZE_THREAD:
        ok = read_threaded(r, s, d);
        break;
    case SIZE_FOR_THREAD:
    case SIZE_HOLE:
        ok = read_washer(r, s, d);
        break;
    case SIZE_DIAMETER_LENGTH:
    case SIZE_DIAMETER:
    case SIZE_TAPPING_LENGTH:
    default:
        ok = read_plain_size(r, s, d);
    }
    if (ok && strncmp(r->at, "mm", 2) == 0)
        r->at += 2;
    if (ok && !scan_is_edge(*r->at))
        return refuse_size(r, s);
    return ok && check_range(r, s, d->thread_um);
}

/* What follows the size: strength mark, material, finish, "LH", type of cross recess. */
static bool read_tail(reader *r, designation *d) {
    for (skip_separators(r); *r->at; skip_separators(r)) {
        mark_reading m = lexicon_read_mark(r->at, d->kind);
        if (!m.len) {
            size_t n = strcspn(r->at, " -,/");
            return err_input(r->e, r->place, "use a mark that kitbench fastener --list shows",
                             "\"%.*s\" is no strength mark, material or finish of a %s known here",
                             (int)(n ? n : 1), r->at, fastener_kind_name(d->kind));
        }
        if ((m.grade && d->grade) || (m.finish && d->finish))
            return err_input(r->e, r->place, "leave one", "two strength marks or two finishes are given");
        if (m.material && d->material && m.material != d->material)
            return err_input(r->e, r->place, "leave one", "two different materials are given");
        d->grade = m.grade ? m.grade : d->grade;
        d->material = m.material ? m.material : d->material;
        d->finish = m.finish ? m.finish : d->finish;
        d->left_hand |= m.left_hand;
        r->at += m.len;
    }
    return true;
}

bool designation_read(text t, designation *out, err *e) {
    reader r = {.e = e};
    t = text_trim(t);
    snprintf(r.place, sizeof r.place, "\"%.*s\"", (int)(t.len < 100 ? t.len : 100), t.at ? t.at : "");
    if (t.len == 0)
        return err_input(e, r.place, write_like, "there is no designation");
    if (!scan_clean(t, r.line))
        return err_input(e, r.place, "give the designation alone", "the text is longer than %d bytes",
                         CLEAN_SIZE - 1);
    const fastener_standard *s = NULL;
    size_t title_len = 0;
    if (!find_standard(&r, &s, &title_len) || !check_title(&r, s, title_len))
        return false;
    designation d = {.kind = s->kind, .form = s->form, .drive = s->drive, .extent = s->extent, .standard = s};
    if (!read_size(&r, s, &d) || !read_tail(&r, &d))
        return false;
    *out = d;
    return true;
}
