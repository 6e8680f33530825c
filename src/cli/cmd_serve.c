/* cmd_serve.c: `kitbench serve`: the pages for the phones and the laptop of the workshop. */
#include <stdio.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "cli/build.h"
#include "cli/commands.h"
#include "web/web.h"

static void say(void *user, text words) {
    (void)user;
    fwrite(words.at, 1, words.len, stdout);
    fflush(stdout);
}

static void drop_line_end(char *line) {
    line[strcspn(line, "\r\n")] = '\0';
}

/* Asked for, since arguments are seen by everybody on the machine. Without a terminal it is the first line of input. */
static bool ask_password(char *to, size_t size, err *e) {
    struct termios before, quiet;
    bool terminal = isatty(STDIN_FILENO) && tcgetattr(STDIN_FILENO, &before) == 0;
    if (terminal) {
        quiet = before;
        quiet.c_lflag &= ~(tcflag_t)ECHO;
        fputs("Password of the Wi-Fi (none: just Enter): ", stderr);
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet);
    }
    bool read = fgets(to, (int)size, stdin) != NULL;
    if (terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
        fputc('\n', stderr);
    }
    if (!read)
        to[0] = '\0';
    drop_line_end(to);
    size_t n = strlen(to);
    return n == 0 || (n >= 8 && n <= WEB_MOST_WIFI) ||
           err_input(e, "the password of the Wi-Fi", "type it again",
                     "it has %zu characters; those of a Wi-Fi have 8 to 63", n);
}

/* "CERT,KEY": two files in one value, since an option has one. */
static bool read_tls(cli_call *call, web_setup *setup, err *e) {
    const char *files = cli_value(call, "tls");
    const char *comma = files ? strchr(files, ',') : NULL;
    if (!files)
        return true;
    if (!comma || comma == files || !comma[1])
        return err_input(e, "--tls", "write CERT.pem,KEY.pem", "two files are needed, with a comma between");
    setup->certificate = arena_z(call->memory, (text){files, (size_t)(comma - files)});
    setup->private_key = comma + 1;
    return true;
}

int cmd_serve(cli_call *call) {
    err e = {0};
    int64_t port;
    char password[256] = "";
    web_setup setup = {.file = call->arguments[0], .say = say};
    setup.lan = cli_given(call, "lan");
    setup.name = cli_value(call, "name");
    setup.wifi = cli_value(call, "wifi");
    if (setup.wifi && (strlen(setup.wifi) == 0 || strlen(setup.wifi) > 32))
        err_input(&e, "--wifi", "write its name as phones show it", "the name of a Wi-Fi has 1 to 32 bytes");
    if (e.kind || !build_option(call, "port", 0, 65535, WEB_USUAL_PORT, &port, &e) ||
        !read_tls(call, &setup, &e) || (setup.wifi && !ask_password(password, sizeof password, &e)))
        return cli_fail(&e);
    setup.port = (uint16_t)port;
    setup.wifi_password = password[0] ? password : NULL;
    return web_serve(&setup, &e) ? EXIT_DONE : cli_fail(&e);
}
