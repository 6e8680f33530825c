/* derive.h: the state tables from the journal; private to the room. */
#ifndef STORE_DERIVE_H
#define STORE_DERIVE_H

#include "store/sql.h"

/* Brings the state up to date with one entry of the journal, inside the transaction that wrote it. */
MUST_USE bool derive_entry(store *s, int64_t entry, err *e);

#endif
