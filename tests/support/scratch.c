#include "support/scratch.h"

#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

const char *scratch_open(arena *a) {
    /* Tests write and sync thousands of times; memory is as good as a disk for what they look at. */
    const char *base = access("/dev/shm", W_OK) == 0 ? "/dev/shm" : getenv("TMPDIR");
    char *folder = arena_array(a, char, 512);
    snprintf(folder, 512, "%s/kitbench-test-XXXXXX", base ? base : "/tmp");
    if (!mkdtemp(folder))
        fail_msg("no folder for the test: %s", folder);
    return folder;
}

void scratch_close(const char *folder) {
    DIR *d = opendir(folder);
    if (!d)
        return;
    for (struct dirent *one; (one = readdir(d));) {
        if (strcmp(one->d_name, ".") == 0 || strcmp(one->d_name, "..") == 0)
            continue;
        char path[1024];
        snprintf(path, sizeof path, "%s/%s", folder, one->d_name);
        unlink(path);
    }
    closedir(d);
    rmdir(folder);
}

const char *scratch_path(arena *a, const char *folder, const char *name) {
    return arena_format(a, "%s/%s", folder, name).at;
}
