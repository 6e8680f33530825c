/* fault_door.h: lets tests fail SQLite's own system calls; private to the room. Does nothing in builds without the door. */
#ifndef STORE_FAULT_DOOR_H
#define STORE_FAULT_DOOR_H

/* Before a connection is opened. Calling it again does no harm. */
void fault_door_install(void);

#endif
