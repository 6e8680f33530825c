/* svg.c: the shapes of a picture as SVG.
 *
 * Colours are attributes, not styles, so that a page that forbids inline styles shows them too.
 */
#include "picture/picture.h"

/* Letters of the sizes, in points, and how far an average letter of a sans-serif face goes, in letters' heights. */
static const double letters[] = {6.8, 8.5, 10.5}, lines[] = {10, 12, 14};
static const double average = 0.58, average_bold = 0.66;

static const char *colour_of(picture_tone tone) {
    static const char *const colours[] = {"none",    "#1c1c1f", "#545459", "#b3b3b5",
                                          "#eeeeed", "#942b1a", "#ffffff"};
    return colours[tone];
}

static void add_escaped(buf *out, text words) {
    for (size_t i = 0; i < words.len; i++)
        switch (words.at[i]) {
        case '&':
            buf_add(out, TEXT("&amp;"));
            break;
        case '<':
            buf_add(out, TEXT("&lt;"));
            break;
        case '>':
            buf_add(out, TEXT("&gt;"));
            break;
        case '"':
            buf_add(out, TEXT("&quot;"));
            break;
        default: /* control characters have no place in XML */
            buf_add(out, (unsigned char)words.at[i] < ' ' ? TEXT(" ") : (text){words.at + i, 1});
        }
}

static void begin(buf *out, const picture_shape *s, const char *element) {
    if (s->target.len) {
        buf_addf(out, "<a href=\"");
        add_escaped(out, s->target);
        buf_addf(out, "\">");
    }
    buf_addf(out, "<%s", element);
    if (s->role.len) {
        buf_addf(out, " class=\"");
        add_escaped(out, s->role);
        buf_addf(out, "\"");
    }
}

/* Closes the element, with its title inside. */
static void end(buf *out, const picture_shape *s, const char *element) {
    if (s->title.len) {
        buf_addf(out, "><title>");
        add_escaped(out, s->title);
        buf_addf(out, "</title></%s>", element);
    } else {
        buf_addf(out, "/>");
    }
    buf_addf(out, s->target.len ? "</a>\n" : "\n");
}

static void add_stroke(buf *out, const picture_shape *s) {
    if (s->stroke != PICTURE_NOTHING)
        buf_addf(out, " stroke=\"%s\" stroke-width=\"%.2f\"", colour_of(s->stroke), s->weight);
}

static void write_box(const picture_shape *s, buf *out) {
    begin(out, s, "rect");
    buf_addf(out, " x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\"", s->x, s->y, s->width, s->height);
    if (s->hatched)
        buf_addf(out, " fill=\"url(#hatch)\"");
    else
        buf_addf(out, " fill=\"%s\"", colour_of(s->fill));
    add_stroke(out, s);
    end(out, s, "rect");
}

static void write_line(const picture_shape *s, buf *out) {
    begin(out, s, "line");
    buf_addf(out, " x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\"", s->x, s->y, s->x + s->width,
             s->y + s->height);
    add_stroke(out, s);
    end(out, s, "line");
}

static void write_path(const picture_shape *s, buf *out) {
    begin(out, s, "path");
    buf_addf(out, " d=\"");
    for (size_t i = 0; i < s->n_points; i++)
        buf_addf(out, "%c%.2f %.2f", i ? 'L' : 'M', s->x + s->points[2 * i], s->y + s->points[2 * i + 1]);
    buf_addf(out, "%s\" fill=\"%s\"", s->closed ? "Z" : "", colour_of(s->closed ? s->fill : PICTURE_NOTHING));
    add_stroke(out, s);
    end(out, s, "path");
}

/* Bytes of `words` that fit into so many letters: whole characters; at a space when there is one and `at_space`. */
static size_t fitting(text words, size_t room, bool at_space) {
    size_t count = 0, at = 0, space = 0;
    while (at < words.len && count < room) {
        if (words.at[at] == ' ')
            space = at;
        at++;
        while (at < words.len && ((unsigned char)words.at[at] & 0xc0) == 0x80)
            at++;
        count++;
    }
    return at < words.len && at_space && space > 0 ? space : at;
}

static void write_text(const picture_shape *s, buf *out) {
    static const char *const anchors[] = {"start", "middle", "end"};
    double x = s->x + (s->anchor == PICTURE_MIDDLE ? s->width / 2 : s->anchor == PICTURE_END ? s->width : 0);
    double letter = letters[s->size] * (s->bold ? average_bold : average);
    size_t room = s->width > letter ? (size_t)(s->width / letter) : 0;
    int most = s->most_lines ? s->most_lines : 1;
    if (room < 2)
        return;
    picture_shape whole = *s;
    if (fitting(s->words, room, false) < s->words.len && !s->title.len)
        whole.title = s->words;
    begin(out, &whole, "text");
    buf_addf(out, " font-size=\"%.1f\" text-anchor=\"%s\" fill=\"%s\"%s>", letters[s->size],
             anchors[s->anchor], colour_of(s->stroke), s->bold ? " font-weight=\"bold\"" : "");
    if (whole.title.len) {
        buf_addf(out, "<title>");
        add_escaped(out, whole.title);
        buf_addf(out, "</title>");
    }
    text rest = s->words;
    for (int line = 0; line < most && rest.len; line++) {
        size_t fits = fitting(rest, room, line + 1 < most);
        bool cut = line + 1 == most && fits < rest.len;
        if (cut)
            fits = fitting(rest, room - 1, false);
        buf_addf(out, "<tspan x=\"%.2f\" y=\"%.2f\">", x, s->y + letters[s->size] + line * lines[s->size]);
        add_escaped(out, (text){rest.at, fits});
        buf_addf(out, "%s</tspan>", cut ? "\u2026" : "");
        while (fits < rest.len && rest.at[fits] == ' ')
            fits++;
        rest = (text){rest.at + fits, rest.len - fits};
    }
    buf_addf(out, "</text>%s\n", s->target.len ? "</a>" : "");
}

void picture_write_svg(const picture *p, text title, text says, buf *out) {
    buf_addf(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.2fpt\" height=\"%.2fpt\" viewBox=\"0 0 %.2f %.2f\" "
        "role=\"img\" font-family=\"DejaVu Sans, sans-serif\">\n<title>",
        p->width, p->height, p->width, p->height);
    add_escaped(out, title);
    buf_addf(out, "</title>\n<desc>");
    add_escaped(out, says);
    buf_addf(out,
             "</desc>\n<defs><pattern id=\"hatch\" width=\"3\" height=\"3\" patternUnits=\"userSpaceOnUse\" "
             "patternTransform=\"rotate(45)\"><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"3\" stroke=\"#1c1c1f\" "
             "stroke-width=\"0.5\"/></pattern></defs>\n");
    for (size_t i = 0; i < p->n; i++)
        switch (p->shapes[i].kind) {
        case PICTURE_BOX:
            write_box(&p->shapes[i], out);
            break;
        case PICTURE_LINE:
            write_line(&p->shapes[i], out);
            break;
        case PICTURE_TEXT:
            write_text(&p->shapes[i], out);
            break;
        case PICTURE_PATH:
            write_path(&p->shapes[i], out);
            break;
        }
    buf_addf(out, "</svg>\n");
}
