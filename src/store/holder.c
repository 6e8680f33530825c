/* holder.c: the note of who is writing to the file, as four lines: command, process, machine, time. */
#include "store/holder.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/sys.h"

enum { NOTE_BYTES = 512, PATH_BYTES = 4096 };

static bool note_path(const store *s, char out[PATH_BYTES]) {
    int n = snprintf(out, PATH_BYTES, "%s.writing", s->path);
    return n > 0 && n < PATH_BYTES;
}

/* Not through sys_write_file: a courtesy must not cost two syncs. */
void holder_note(store *s) {
    char path[PATH_BYTES], note[NOTE_BYTES], host[128] = "";
    if (!note_path(s, path))
        return;
    if (gethostname(host, sizeof host - 1))
        host[0] = '\0';
    int n = snprintf(note, sizeof note, "%s\n%ld\n%s\n%lld\n", s->command, (long)getpid(), host,
                     (long long)sys_now_seconds());
    if (n < 0 || (size_t)n >= sizeof note)
        return;
    int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (fd < 0)
        return;
    ssize_t written = write(fd, note, (size_t)n);
    close(fd);
    s->noted = true;
    if (written != n)
        holder_unnote(s);
}

void holder_unnote(store *s) {
    char path[PATH_BYTES];
    if (s->noted && note_path(s, path))
        unlink(path);
    s->noted = false;
}

static bool next_line(text *rest, text *line) {
    return text_next_piece(rest, '\n', line) && line->len > 0;
}

static bool read_note(const store *s, char *bytes, text *out) {
    char path[PATH_BYTES];
    if (!note_path(s, path))
        return false;
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    if (fd < 0)
        return false;
    ssize_t n = read(fd, bytes, NOTE_BYTES - 1);
    close(fd);
    if (n <= 0)
        return false;
    bytes[n] = '\0';
    *out = (text){bytes, (size_t)n};
    return true;
}

bool holder_blame(store *s, err *e) {
    char bytes[NOTE_BYTES];
    text rest, command, process, host, since;
    if (!read_note(s, bytes, &rest) || !next_line(&rest, &command) || !next_line(&rest, &process) ||
        !next_line(&rest, &host) || !next_line(&rest, &since))
        return err_run(e, s->path, "try again when it is done",
                       "another program has been using the file for more than 2 seconds");
    int64_t at_s = strtoll(since.at, NULL, 10);
    char clock[6] = "?";
    if (at_s > 0)
        date_print_clock((int)(at_s / 60 % MINUTES_PER_DAY), clock);
    return err_run(e, s->path, "try again when it is done",
                   "\"kitbench %.*s\" (process %.*s on %.*s) has been writing to it since %s:%02d",
                   TEXT_ARG(command), TEXT_ARG(process), TEXT_ARG(host), clock, (int)(at_s % 60));
}
