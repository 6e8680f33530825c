#include "web/server.h"

#include <arpa/inet.h>
#include <errno.h>
#include <ifaddrs.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/signalfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include "base/sys.h"
#include "web/exchange.h"

enum { LARGEST_PEM = 256 * 1024, BYTES_EACH = 24 * 1024 };

struct server {
    app *app;
    struct MHD_Daemon *daemon;
    exchange_room room;
    int signals;
    arena *memory;
};

static bool listen_at(const web_setup *setup, int *out, uint16_t *port, err *e) {
    struct sockaddr_in at = {.sin_family = AF_INET, .sin_port = htons(setup->port)};
    at.sin_addr.s_addr = htonl(setup->lan ? INADDR_ANY : INADDR_LOOPBACK);
    int on = 1, fd = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
    socklen_t n = sizeof at;
    if (fd >= 0 && setsockopt(fd, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on) == 0 &&
        bind(fd, (const struct sockaddr *)&at, sizeof at) == 0 && listen(fd, 128) == 0 &&
        getsockname(fd, (struct sockaddr *)&at, &n) == 0) {
        *out = fd;
        *port = ntohs(at.sin_port);
        return true;
    }
    char place[32];
    snprintf(place, sizeof place, "port %u", setup->port);
    int why = errno;
    if (fd >= 0)
        close(fd);
    return err_run(e, place, why == EADDRINUSE ? "end what uses it, or name another with --port" : "",
                   "it cannot be opened (%s)", strerror(why));
}

/* Every name and address under which our own pages are reached. */
static void name_hosts(app *a) {
    char host[128] = "", local[140];
    const char *const loopback[] = {"localhost", "127.0.0.1"};
    for (int i = 0; i < 2; i++)
        guard_add_host(&a->guard, loopback[i], a->port);
    if (a->setup->name)
        guard_add_host(&a->guard, a->setup->name, a->port);
    struct ifaddrs *all = NULL;
    if (!a->setup->lan || getifaddrs(&all))
        return;
    for (struct ifaddrs *i = all; i; i = i->ifa_next) {
        struct sockaddr_in v4;
        char shown[INET_ADDRSTRLEN];
        if (!i->ifa_addr || i->ifa_addr->sa_family != AF_INET)
            continue;
        memcpy(&v4, i->ifa_addr, sizeof v4);
        if (ntohl(v4.sin_addr.s_addr) >> 24 != 127 && inet_ntop(AF_INET, &v4.sin_addr, shown, sizeof shown))
            guard_add_host(&a->guard, shown, a->port);
    }
    freeifaddrs(all);
    if (gethostname(host, sizeof host - 1) == 0 && host[0]) {
        guard_add_host(&a->guard, host, a->port);
        snprintf(local, sizeof local, "%s.local", host);
        guard_add_host(&a->guard, local, a->port);
    }
}

static bool start(server *s, int fd, const char *certificate, const char *key, err *e) {
    struct MHD_OptionItem tls[] = {
        {MHD_OPTION_HTTPS_MEM_CERT, 0, NULL}, {MHD_OPTION_HTTPS_MEM_KEY, 0, NULL}, {MHD_OPTION_END, 0, NULL}};
    union {
        const char *in;
        void *out;
    } pem[2] = {{certificate}, {key}};
    unsigned flags = MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME;
    if (certificate) {
        flags |= MHD_USE_TLS;
        tls[0].ptr_value = pem[0].out;
        tls[1].ptr_value = pem[1].out;
    } else {
        tls[0] = tls[2];
    }
    s->daemon = MHD_start_daemon(
        flags, 0, NULL, NULL, exchange_handle, &s->room, MHD_OPTION_LISTEN_SOCKET, fd,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)SERVER_MOST_CONNECTIONS, MHD_OPTION_CONNECTION_TIMEOUT,
        (unsigned)SERVER_IDLE_S, MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)BYTES_EACH,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_COMPLETED, exchange_done, &s->room,
        MHD_OPTION_NOTIFY_CONNECTION, exchange_connected, &s->room, MHD_OPTION_ARRAY, tls, MHD_OPTION_END);
    if (s->daemon)
        return true;
    close(fd);
    return certificate ? err_input(e, "--tls", "give a certificate and its key in PEM form",
                                   "they are not understood")
                       : err_run(e, "serve", "", "the server does not start");
}

static bool read_pem(server *s, const web_setup *setup, const char **certificate, const char **key, err *e) {
    text bytes[2] = {{NULL, 0}, {NULL, 0}};
    if (!setup->certificate)
        return true;
    if (!sys_read_file(s->memory, setup->certificate, LARGEST_PEM, &bytes[0], e) ||
        !sys_read_file(s->memory, setup->private_key, LARGEST_PEM, &bytes[1], e))
        return false;
    *certificate = bytes[0].at;
    *key = bytes[1].at;
    return true;
}

void server_block_signals(sigset_t *before) {
    sigset_t wanted;
    sigemptyset(&wanted);
    sigaddset(&wanted, SIGINT);
    sigaddset(&wanted, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &wanted, before);
}

static bool take_signals(server *s, err *e) {
    sigset_t wanted;
    sigemptyset(&wanted);
    sigaddset(&wanted, SIGINT);
    sigaddset(&wanted, SIGTERM);
    s->signals = signalfd(-1, &wanted, SFD_CLOEXEC | SFD_NONBLOCK);
    return s->signals >= 0 || err_run(e, "serve", "", "signals cannot be read (%s)", strerror(errno));
}

bool server_open(app *a, server **out, err *e) {
    const char *certificate = NULL, *key = NULL;
    int fd = -1;
    server *s = calloc(1, sizeof *s);
    if (!s)
        return err_run(e, "serve", "close other programs", "out of memory");
    s->app = a;
    s->room.app = a;
    s->signals = -1;
    s->memory = arena_open();
    *out = s;
    a->guard.tls = a->setup->certificate != NULL;
    if (!take_signals(s, e) || !read_pem(s, a->setup, &certificate, &key, e) ||
        !listen_at(a->setup, &fd, &a->port, e) || !start(s, fd, certificate, key, e))
        return false;
    name_hosts(a);
    return true;
}

static int wait_ms(struct MHD_Daemon *d) {
    MHD_UNSIGNED_LONG_LONG ms;
    bool soon = MHD_get_timeout(d, &ms) == MHD_YES && ms < SERVER_TICK_MS;
    return soon ? (int)ms : SERVER_TICK_MS;
}

void server_run(server *s) {
    const union MHD_DaemonInfo *sockets = MHD_get_daemon_info(s->daemon, MHD_DAEMON_INFO_EPOLL_FD);
    struct pollfd fds[] = {{sockets ? sockets->epoll_fd : -1, POLLIN, 0},
                           {planner_fd(s->app->planner), POLLIN, 0},
                           {s->signals, POLLIN, 0}};
    double ticked = 0;
    for (;;) {
        if (poll(fds, 3, wait_ms(s->daemon)) < 0 && errno != EINTR)
            return;
        struct signalfd_siginfo taken; /* read, or it would still wait for us when it may come again */
        if (fds[2].revents && read(s->signals, &taken, sizeof taken) == (ssize_t)sizeof taken)
            return;
        MHD_run(s->daemon);
        double now_s = sys_seconds();
        if (fds[1].revents || (now_s - ticked) * 1000 >= SERVER_TICK_MS) {
            ticked = now_s;
            app_tick(s->app);
            exchange_cut_slow(&s->room, now_s, SERVER_PATIENCE_S);
        }
    }
}

void server_close(server *s) {
    if (!s)
        return;
    if (s->daemon) {
        live_end_all(s->app->live);
        MHD_run(s->daemon);
        MHD_stop_daemon(s->daemon);
    }
    if (s->signals >= 0)
        close(s->signals);
    arena_close(s->memory);
    free(s);
}
