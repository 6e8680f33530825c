/* sys.h: the few things we ask of the operating system, behind one door.
 *
 * Whole files are read at once; whole files are written beside their name, synced and renamed, so that a reader sees
 * the old file or the new one and never half of one. In builds with the fault door (for tests) the environment
 * variable KITBENCH_FAULT="CALL:N[:ERRNO]" makes the n-th call of that name fail (CALL is open, read, write, fsync,
 * rename, mkdir, ftruncate, unlink or any; ERRNO is ENOSPC unless given as a number), and every one after it when N
 * is followed by '+'.
 */
#ifndef BASE_SYS_H
#define BASE_SYS_H

#include <sys/types.h>

#include "base/date.h"
#include "base/err.h"
#include "base/text.h"

/* Reads the whole file, at most `limit` bytes; followed by a NUL. ERR_INPUT when it is not there, too large or a
 * folder. */
MUST_USE bool sys_read_file(arena *a, const char *path, size_t limit, text *out, err *e);

/* Writes all of `bytes` to `path`, or leaves what was there. ERR_INPUT when that is a folder, a device or a pipe. */
MUST_USE bool sys_write_file(const char *path, text bytes, err *e);

/* Gives the finished file or folder `from` the name `to`, durably, unless something has that name (ERR_INPUT). `from` stays when
 * it fails. */
MUST_USE bool sys_give_name(const char *from, const char *to, err *e);

/* Makes the folder; one that is there already is no failure. */
MUST_USE bool sys_make_folder(const char *path, err *e);

/* Takes away a folder of plain files that was not finished; what cannot be taken away stays, without a word. */
void sys_drop_folder(const char *path);

/* The names in the folder, sorted by bytes, without those that begin with a dot. ERR_INPUT when there is no such
 * folder. */
MUST_USE bool sys_list_folder(arena *a, const char *path, text **names, size_t *n, err *e);

bool sys_exists(const char *path);
bool sys_is_folder(const char *path);
bool sys_is_file(const char *path); /* a file with bytes of its own: no folder, device or pipe */

/* Now on the wall clock, in minutes and in seconds since 1970-01-01 00:00 local time. KITBENCH_NOW="2027-03-14 18:30" sets it, so
 * that a recorded session can be played again. */
date_moment sys_now(void);
int64_t sys_now_seconds(void);

/* Seconds that only grow, for durations. */
double sys_seconds(void);

/* `size` bytes that nobody can guess. */
MUST_USE bool sys_random(void *out, size_t size, err *e);

/* True when the named call has to fail now, errno set: the fault door, asked by every wrapper here and by store/ for
 * SQLite's calls. Always false in builds without the door. */
bool sys_fault(const char *call);

#endif
