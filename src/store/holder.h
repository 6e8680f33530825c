/* holder.h: who is writing to the file; private to the room.
 *
 * SQLite's lock says that somebody writes, not who. So whoever holds the lock leaves a small note beside the file,
 * NAME.writing, and takes it away again. The note is a courtesy and protects nothing: it is read only while the lock
 * is really held, so a note that a killed program left behind misleads nobody, and the next writer replaces it.
 */
#ifndef STORE_HOLDER_H
#define STORE_HOLDER_H

#include "store/sql.h"

/* Called with the lock held / just before it is given up. Failures are ignored. */
void holder_note(store *s);
void holder_unnote(store *s);

/* The file is in use: fills `e` naming who, and since when. Returns false. */
bool holder_blame(store *s, err *e);

#endif
