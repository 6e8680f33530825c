/* ask.c: asking for what must not stand on a command line: codes. */
#include "cli/ask.h"

#include <stdio.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

enum { LONGEST_LINE = 256 };

static bool read_line(char *line, size_t size) {
    size_t n = 0;
    char c;
    ssize_t got;
    /* Byte by byte: what follows the line is for the next question. */
    while ((got = read(STDIN_FILENO, &c, 1)) == 1 && c != '\n')
        if (n + 1 < size)
            line[n++] = c;
    line[n && line[n - 1] == '\r' ? n - 1 : n] = 0;
    return got == 1 || n > 0;
}

bool ask_secret(const cli_call *call, const char *prompt, const char **out, err *e) {
    struct termios before, silent;
    bool terminal = isatty(STDIN_FILENO) && tcgetattr(STDIN_FILENO, &before) == 0;
    char line[LONGEST_LINE];
    if (terminal) {
        silent = before;
        silent.c_lflag &= ~(tcflag_t)ECHO;
        fprintf(stderr, "%s: ", prompt);
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &silent);
    }
    bool ok = read_line(line, sizeof line);
    if (terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
        fputc('\n', stderr);
    }
    *out = ok ? arena_text(call->memory, text_of(line)).at : NULL;
    return ok || err_input(e, prompt, "type it, or give it as a line of standard input", "it is missing");
}

bool ask_proof(const cli_call *call, desk *d, const char *person, err *e) {
    const char *code;
    if (!person || !person[0] || !desk_needs_proof(d, text_of(person)))
        return true;
    return ask_secret(call, arena_format(call->memory, "code of %s", person).at, &code, e) &&
           desk_prove(d, text_of(person), code, e);
}
