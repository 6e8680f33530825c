#include "base/sys.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#ifdef KB_FAULT_DOOR
/* The only mutable state of the room: the counter of a fault that a test asked for. It begins anew with each wish. */
bool sys_fault(const char *call) {
    static long counted;
    static char counted_for[64];
    const char *wish = getenv("KITBENCH_FAULT");
    if (!wish) {
        counted_for[0] = '\0';
        return false;
    }
    if (strncmp(wish, counted_for, sizeof counted_for) != 0) {
        counted = 0;
        snprintf(counted_for, sizeof counted_for, "%s", wish);
    }
    const char *colon = strchr(wish, ':');
    if (!colon)
        return false;
    size_t n = (size_t)(colon - wish);
    bool any = n == 3 && strncmp(wish, "any", 3) == 0;
    if (!any && (strlen(call) != n || strncmp(wish, call, n) != 0))
        return false;
    char *after = NULL;
    long when = strtol(colon + 1, &after, 10);
    bool forever = *after == '+';
    after += forever;
    counted++;
    if (forever ? counted < when : counted != when)
        return false;
    errno = *after == ':' ? (int)strtol(after + 1, NULL, 10) : ENOSPC;
    return true;
}
#else
bool sys_fault(const char *call) {
    (void)call;
    return false;
}
#endif

static int open_file(const char *path, int flags, mode_t mode) {
    return sys_fault("open") ? -1 : open(path, flags | O_CLOEXEC, mode);
}

static const char *remedy_for(int code) {
    switch (code) {
    case ENOSPC:
    case EDQUOT:
        return "make room on the disk and try again";
    case EACCES:
    case EPERM:
    case EROFS:
        return "choose a folder that you may write to";
    case ENOENT:
        return "check the name";
    default:
        return "";
    }
}

static const char *remedy_for_reading(int code) {
    return code == EACCES || code == EPERM ? "ask its owner for the right to read it" : remedy_for(code);
}

bool sys_exists(const char *path) {
    struct stat s;
    return stat(path, &s) == 0;
}

bool sys_is_file(const char *path) {
    struct stat s;
    return stat(path, &s) == 0 && S_ISREG(s.st_mode);
}

bool sys_is_folder(const char *path) {
    struct stat s;
    return stat(path, &s) == 0 && S_ISDIR(s.st_mode);
}

static int compare_names(const void *left, const void *right) {
    return text_compare(*(const text *)left, *(const text *)right);
}

bool sys_list_folder(arena *a, const char *path, text **names, size_t *n, err *e) {
    DIR *folder = sys_fault("open") ? NULL : opendir(path);
    size_t cap = 0;
    *names = NULL;
    *n = 0;
    if (!folder && (errno == ENOENT || errno == ENOTDIR))
        return err_input(e, path, "check the name",
                         errno == ENOENT ? "there is no such folder" : "it is a file, not a folder");
    if (!folder)
        return err_run(e, path, remedy_for_reading(errno), "the folder cannot be read (%s)", strerror(errno));
    for (const struct dirent *one; (one = readdir(folder)) != NULL;) {
        if (one->d_name[0] == '.')
            continue;
        arena_room(a, *names, *n, cap, text);
        (*names)[(*n)++] = arena_text(a, text_of(one->d_name));
    }
    closedir(folder);
    if (*n)
        qsort(*names, *n, sizeof **names, compare_names);
    return true;
}

void sys_drop_folder(const char *path) {
    DIR *folder = opendir(path);
    if (!folder)
        return;
    for (const struct dirent *one; (one = readdir(folder)) != NULL;)
        if (strcmp(one->d_name, ".") != 0 && strcmp(one->d_name, "..") != 0)
            (void)unlinkat(dirfd(folder), one->d_name, 0);
    closedir(folder);
    (void)rmdir(path);
}

static bool read_all(int fd, char *to, size_t size, size_t *got) {
    *got = 0;
    while (*got < size) {
        ssize_t n = sys_fault("read") ? -1 : read(fd, to + *got, size - *got);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return false;
        if (n == 0)
            return true;
        *got += (size_t)n;
    }
    return true;
}

static bool size_of(int fd, const char *path, size_t limit, size_t *size, err *e) {
    struct stat s;
    if (fstat(fd, &s))
        return err_run(e, path, "", "it cannot be read (%s)", strerror(errno));
    if (S_ISDIR(s.st_mode))
        return err_input(e, path, "name a file", "it is a folder");
    if (s.st_size < 0 || (size_t)s.st_size > limit)
        return err_input(e, path, "is it the right file?", "it is larger than %zu bytes", limit);
    *size = (size_t)s.st_size;
    return true;
}

bool sys_read_file(arena *a, const char *path, size_t limit, text *out, err *e) {
    int fd = open_file(path, O_RDONLY, 0);
    if (fd < 0)
        return errno == ENOENT
                   ? err_input(e, path, "check the name", "there is no such file")
                   : err_run(e, path, remedy_for_reading(errno), "it cannot be opened (%s)", strerror(errno));
    size_t size = 0, got = 0;
    bool ok = size_of(fd, path, limit, &size, e);
    if (ok) {
        char *bytes = arena_alloc(a, size + 1);
        ok = read_all(fd, bytes, size, &got);
        if (!ok)
            err_run(e, path, "", "it cannot be read (%s)", strerror(errno));
        *out = (text){bytes, got};
    }
    close(fd);
    return ok;
}

static bool write_all(int fd, text bytes) {
    for (size_t done = 0; done < bytes.len;) {
        ssize_t n = sys_fault("write") ? -1 : write(fd, bytes.at + done, bytes.len - done);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return false;
        done += (size_t)n;
    }
    return true;
}

static int sync_file(int fd) {
    return sys_fault("fsync") ? -1 : fsync(fd);
}

/* The rename itself must reach the disk, too. */
static void sync_folder_of(const char *path) {
    const char *slash = strrchr(path, '/');
    char folder[4096];
    int n = slash ? snprintf(folder, sizeof folder, "%.*s", (int)(slash - path + 1), path)
                  : snprintf(folder, sizeof folder, ".");
    if (n < 0 || (size_t)n >= sizeof folder)
        return;
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return;
    (void)fsync(fd);
    close(fd);
}

/* Renaming onto a device or a pipe would take it away from everybody. */
static bool is_replaceable(const char *path, err *e) {
    struct stat s;
    if (stat(path, &s) || S_ISREG(s.st_mode))
        return true;
    return err_input(e, path, "name a file", "it is %s",
                     S_ISDIR(s.st_mode) ? "a folder" : "a device or a pipe");
}

bool sys_write_file(const char *path, text bytes, err *e) {
    if (!is_replaceable(path, e))
        return false;
    char beside[4096];
    int n = snprintf(beside, sizeof beside, "%s.part-%ld", path, (long)getpid());
    if (n < 0 || (size_t)n >= sizeof beside)
        return err_input(e, path, "choose a name with fewer letters", "the name is too long");
    int fd = open_file(beside, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    if (fd < 0)
        return err_run(e, path, remedy_for(errno), "it cannot be written (%s)", strerror(errno));
    bool ok = write_all(fd, bytes) && sync_file(fd) == 0;
    int code = errno;
    if (close(fd) && ok) {
        ok = false;
        code = errno;
    }
    if (ok && (sys_fault("rename") || rename(beside, path))) {
        ok = false;
        code = errno;
    }
    if (!ok) {
        unlink(beside);
        return err_run(e, path, remedy_for(code), "it cannot be written (%s)", strerror(code));
    }
    sync_folder_of(path);
    return true;
}

/* Some file systems (sticks, shares) cannot rename without replacing: then looking first has to do. */
static int rename_new(const char *from, const char *to) {
    if (sys_fault("rename"))
        return -1;
    if (renameat2(AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE) == 0)
        return 0;
    if (errno != EINVAL && errno != ENOSYS)
        return -1;
    if (sys_exists(to)) {
        errno = EEXIST;
        return -1;
    }
    return rename(from, to);
}

bool sys_give_name(const char *from, const char *to, err *e) {
    if (rename_new(from, to)) {
        if (errno == EEXIST)
            return err_input(e, to, "choose another name, or move that file away",
                             "there is a file of that name already");
        return err_run(e, to, remedy_for(errno), "it cannot be written (%s)", strerror(errno));
    }
    sync_folder_of(to);
    return true;
}

bool sys_make_folder(const char *path, err *e) {
    if ((!sys_fault("mkdir") && mkdir(path, 0777) == 0) || (errno == EEXIST && sys_is_folder(path)))
        return true;
    if (errno == EEXIST)
        return err_input(e, path, "name another folder", "it is a file, not a folder");
    return err_run(e, path, remedy_for(errno), "the folder cannot be made (%s)", strerror(errno));
}

int64_t sys_now_seconds(void) {
    date_moment set;
    const char *wish = getenv("KITBENCH_NOW");
    if (wish && date_read_moment(text_of(wish), &set))
        return set * 60;
    time_t now = time(NULL);
    struct tm local;
    if (!localtime_r(&now, &local))
        return (int64_t)now;
    return (int64_t)now + local.tm_gmtoff;
}

date_moment sys_now(void) {
    return sys_now_seconds() / 60;
}

double sys_seconds(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

bool sys_random(void *out, size_t size, err *e) {
    unsigned char *to = out;
    for (size_t done = 0; done < size;) {
        ssize_t n = sys_fault("random") ? -1 : getrandom(to + done, size - done, 0);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return err_run(e, "random numbers", "", "the system gives none (%s)", strerror(errno));
        done += (size_t)n;
    }
    return true;
}
