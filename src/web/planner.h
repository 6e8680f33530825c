/* planner.h: makes the plan of the build in a second thread; private to the room.
 *
 * The thread opens the file for itself, for reading, plans for a few seconds and hands back JSON. Between it and the
 * serving thread lie one mutex, one condition and one file descriptor that becomes readable when a plan is ready.
 */
#ifndef WEB_PLANNER_H
#define WEB_PLANNER_H

#include "base/buf.h"
#include "base/err.h"

typedef struct planner planner;

planner *planner_open(const char *file, err *e);
void planner_close(planner *p);

/* Asks for a plan of the file as it is now. One that is being made is given up when it began with an older file. */
void planner_ask(planner *p);

/* Becomes readable when planner_take has something. */
int planner_fd(const planner *p);

/* True when a plan was made since: `out` gets it as one line of JSON. */
bool planner_take(planner *p, buf *out);

#endif
