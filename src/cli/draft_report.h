/* draft_report.h: how a list was read, for people and as JSON. */
#ifndef CLI_DRAFT_REPORT_H
#define CLI_DRAFT_REPORT_H

#include "base/buf.h"
#include "kit/kit.h"

/* `folder` is where the kit was written, NULL when it was only looked at. */
void draft_report_text(buf *out, arena *a, const draft_list *list, const char *folder);
void draft_report_json(buf *out, arena *a, const draft_list *list, const char *folder);

#endif
