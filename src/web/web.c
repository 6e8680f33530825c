/* web.c: a server from its beginning to its end. */
#include "web/web.h"

#include <string.h>

#include "web/server.h"

static bool check_name(const char *name, err *e) {
    size_t n = name ? strlen(name) : 0;
    if (name && (n == 0 || n > 100 ||
                 strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-") != n))
        return err_input(e, "--name", "write a host name such as workshop.local", "\"%s\" is none", name);
    return true;
}

bool web_serve(const web_setup *setup, err *e) {
    app a;
    server *s = NULL;
    if (!check_name(setup->name, e))
        return false;
    sigset_t before;
    server_block_signals(&before);
    /* Tonight's code last: where the port is taken another server runs, whose code must stay. */
    bool ok = app_open(&a, setup, e) && server_open(&a, &s, e) && devices_open(&a.devices, a.desk, e);
    if (ok) {
        app_publish(&a);
        arena *memory = arena_open();
        welcome_say(&a, memory);
        arena_close(memory);
        server_run(s);
        setup->say(setup->user, TEXT("\nStopped. Everything that was entered is in the build file.\n"));
    }
    server_close(s);
    app_close(&a);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return ok;
}
