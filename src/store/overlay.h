/* overlay.h: what was set in the workshop's tables since they were copied in; private to the room. */
#ifndef STORE_OVERLAY_H
#define STORE_OVERLAY_H

#include "store/sql.h"

/* Puts the rows that were set into a table of the workshop: replaced, added at its end, or taken out; sessions stand in
 * the order of time again. */
MUST_USE bool overlay_rows(arena *a, store *s, const kit_table_form *form, kit_table *t, err *e);

#endif
