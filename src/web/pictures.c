#include "web/pictures.h"

#include "base/json_out.h"
#include "base/number.h"
#include "picture/picture.h"

static void put_points(json_out *j, const picture_shape *s) {
    json_put_array(j, "points");
    for (size_t i = 0; i < 2 * s->n_points; i++)
        json_put_number(j, NULL, s->points[i]);
    json_end_array(j);
}

static void put_shape(json_out *j, const picture_shape *s) {
    static const char *const kinds[] = {"box", "line", "text", "path"};
    static const char *const tones[] = {"nothing", "ink", "quiet", "faint", "wash", "accent", "paper"};
    static const char *const anchors[] = {"start", "middle", "end"};
    json_put_object(j, NULL);
    json_put_text(j, "kind", text_of(kinds[s->kind]));
    json_put_number(j, "x", s->x);
    json_put_number(j, "y", s->y);
    json_put_number(j, "width", s->width);
    json_put_number(j, "height", s->height);
    json_put_text(j, "stroke", text_of(tones[s->stroke]));
    json_put_number(j, "weight", s->weight);
    json_put_text(j, "fill", text_of(tones[s->fill]));
    json_put_bool(j, "hatched", s->hatched);
    if (s->kind == PICTURE_TEXT) {
        json_put_text(j, "words", s->words);
        json_put_text(j, "anchor", text_of(anchors[s->anchor]));
        json_put_integer(j, "size", s->size);
        json_put_bool(j, "bold", s->bold);
    }
    if (s->kind == PICTURE_PATH) {
        put_points(j, s);
        json_put_bool(j, "closed", s->closed);
    }
    json_end_object(j);
}

static void answer_picture(const picture *p, http_answer *to) {
    json_out j = json_to(&to->body);
    to->status = 200;
    to->type = "application/json";
    json_put_object(&j, NULL);
    json_put_number(&j, "width", p->width);
    json_put_number(&j, "height", p->height);
    json_put_array(&j, "shapes");
    for (size_t i = 0; i < p->n; i++)
        put_shape(&j, &p->shapes[i]);
    json_end_array(&j);
    json_end_object(&j);
}

static void answer_part(app *a, const http_request *r, text number, http_answer *to) {
    kit_index part = kit_find_part(a->desk->kit, number);
    err e = {0};
    designation d;
    picture p;
    if (part == KIT_NONE || !a->desk->kit->parts[part].designation.len) {
        http_refuse(to, 404, "not_found", "picture", "there is no picture of it", "");
        return;
    }
    if (!designation_read(a->desk->kit->parts[part].designation, &d, &e) ||
        !picture_fastener(r->memory, &d, 1, &p, &e))
        http_refuse(to, 404, "not_found", e.place, e.cause, e.remedy);
    else
        answer_picture(&p, to);
}

/* The photo of an entry, or a picture of the kit, as it is. */
static void answer_bytes(text bytes, http_answer *to) {
    if (!bytes.len) {
        http_refuse(to, 404, "not_found", "picture", "there is no picture of that name", "");
        return;
    }
    to->status = 200;
    to->type = text_starts(bytes, TEXT("\x89PNG")) ? "image/png" : "image/jpeg";
    buf_add(&to->body, bytes);
}

static void answer_photo(app *a, text entry, http_answer *to) {
    int64_t n;
    number_fault why;
    text bytes = TEXT("");
    err e = {0};
    if (number_integer(entry, 1, INT64_MAX, &n, &why) && !desk_photo(a->desk, n, &bytes, &e))
        http_refuse_err(to, &e);
    else
        answer_bytes(bytes, to);
}

static void answer_kit_picture(app *a, text name, http_answer *to) {
    text bytes;
    err e = {0};
    if (!desk_picture(a->desk, name, &bytes, &e))
        http_refuse_err(to, &e);
    else
        answer_bytes(bytes, to);
}

void pictures_answer(app *a, const http_request *r, text name, http_answer *to) {
    if (text_starts(name, TEXT("part/")))
        answer_part(a, r, text_slice(name, 5, name.len), to);
    else if (text_starts(name, TEXT("photo/")))
        answer_photo(a, text_slice(name, 6, name.len), to);
    else if (text_starts(name, TEXT("kit/")))
        answer_kit_picture(a, text_slice(name, 4, name.len), to);
    else
        http_refuse(to, 404, "not_found", "picture", "there is no picture of that name", "");
}
