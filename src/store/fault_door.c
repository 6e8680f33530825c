/* fault_door.c: every call of SQLite's to the system asks sys_fault first, in builds for tests.
 *
 * SQLite's unix VFS calls through a table of function pointers that may be replaced (xSetSystemCall). Its fdatasync is
 * not in that table, so the symbol itself is replaced here; the dynamic linker gives SQLite this one.
 */
#include "store/fault_door.h"

#ifdef KB_FAULT_DOOR

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "base/sys.h"

static int door_open(const char *path, int flags, int mode) {
    return sys_fault("open") ? -1 : open(path, flags, mode);
}

static ssize_t door_read(int fd, void *to, size_t n) {
    return sys_fault("read") ? -1 : read(fd, to, n);
}

static ssize_t door_pread(int fd, void *to, size_t n, off_t at) {
    return sys_fault("read") ? -1 : pread(fd, to, n, at);
}

static ssize_t door_write(int fd, const void *from, size_t n) {
    return sys_fault("write") ? -1 : write(fd, from, n);
}

static ssize_t door_pwrite(int fd, const void *from, size_t n, off_t at) {
    return sys_fault("write") ? -1 : pwrite(fd, from, n, at);
}

static int door_ftruncate(int fd, off_t size) {
    return sys_fault("ftruncate") ? -1 : ftruncate(fd, size);
}

static int door_unlink(const char *path) {
    return sys_fault("unlink") ? -1 : unlink(path);
}

/* NOLINTNEXTLINE(readability-inconsistent-declaration-parameter-name): the system's own name is a reserved one */
int fdatasync(int fd) {
    return sys_fault("fsync") ? -1 : (int)syscall(SYS_fdatasync, fd);
}

typedef struct {
    const char *name;
    sqlite3_syscall_ptr call;
} door;

void fault_door_install(void) {
    static const door doors[] = {
        {"open", (sqlite3_syscall_ptr)door_open},       {"read", (sqlite3_syscall_ptr)door_read},
        {"pread", (sqlite3_syscall_ptr)door_pread},     {"pread64", (sqlite3_syscall_ptr)door_pread},
        {"write", (sqlite3_syscall_ptr)door_write},     {"pwrite", (sqlite3_syscall_ptr)door_pwrite},
        {"pwrite64", (sqlite3_syscall_ptr)door_pwrite}, {"ftruncate", (sqlite3_syscall_ptr)door_ftruncate},
        {"unlink", (sqlite3_syscall_ptr)door_unlink},
    };
    sqlite3_vfs *vfs = sqlite3_vfs_find("unix");
    if (!vfs || vfs->iVersion < 3)
        return;
    for (size_t i = 0; i < sizeof doors / sizeof doors[0]; i++)
        vfs->xSetSystemCall(vfs, doors[i].name, doors[i].call);
}

#else

void fault_door_install(void) {
}

#endif
