/* http.c: the one form in which the server says no. */
#include "web/http.h"

#include "base/json_out.h"

static void refuse(http_answer *to, const char *kind, const char *place, text cause, const char *remedy,
                   const text *reasons, uint32_t n) {
    buf_clear(&to->body);
    to->fixed = TEXT("");
    to->gzipped = false;
    to->etag[0] = '\0';
    to->type = "application/json";
    json_out j = json_to(&to->body);
    json_put_object(&j, NULL);
    json_put_object(&j, "error");
    json_put_text(&j, "kind", text_of(kind));
    json_put_text(&j, "place", text_of(place));
    json_put_text(&j, "cause", cause);
    json_put_text(&j, "remedy", text_of(remedy));
    json_put_array(&j, "reasons");
    for (uint32_t i = 0; i < n; i++)
        json_put_text(&j, NULL, reasons[i]);
    json_end_array(&j);
    json_end_object(&j);
    json_end_object(&j);
}

void http_refuse(http_answer *to, unsigned status, const char *kind, const char *place, const char *cause,
                 const char *remedy) {
    to->status = status;
    refuse(to, kind, place, text_of(cause), remedy, NULL, 0);
}

void http_refuse_reasons(http_answer *to, const char *kind, const char *place, const text *reasons,
                         uint32_t n) {
    to->status = 409;
    refuse(to, kind, place, n ? reasons[0] : TEXT(""), "", reasons, n);
}

void http_refuse_err(http_answer *to, const err *e) {
    bool input = e->kind == ERR_INPUT;
    http_refuse(to, input ? 400 : 503, input ? "input" : "run", e->place, e->cause, e->remedy);
}
