/* pictures.h: drawings and pictures over HTTP; private to the room. */
#ifndef WEB_PICTURES_H
#define WEB_PICTURES_H

#include "web/app.h"

/* Answers with what `name` says: "part/F-012": the shapes of that fastener at true scale, in points, as JSON;
 * "photo/17": the photo that came with that entry; "kit/NAME": a picture of the kit. */
void pictures_answer(app *a, const http_request *r, text name, http_answer *to);

#endif
