#include "web/guard.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

void guard_add_host(guard *g, const char *host, uint16_t port) {
    char *to = g->hosts[g->n_hosts < GUARD_MOST_HOSTS ? g->n_hosts : 0];
    if (g->n_hosts == GUARD_MOST_HOSTS || strlen(host) + 8 > sizeof g->hosts[0])
        return;
    snprintf(to, sizeof g->hosts[0], "%s:%u", host, port);
    g->n_hosts++;
}

static bool is_ours(const guard *g, const char *host) {
    for (int i = 0; i < g->n_hosts; i++) {
        const char *ours = g->hosts[i], *colon = strrchr(ours, ':');
        if (strcasecmp(ours, host) == 0)
            return true;
        /* The usual port of the scheme is left out by browsers. */
        bool usual = strcmp(colon, g->tls ? ":443" : ":80") == 0;
        if (usual && strlen(host) == (size_t)(colon - ours) && strncasecmp(ours, host, strlen(host)) == 0)
            return true;
    }
    return false;
}

typedef struct {
    int hosts, lengths, codings, origins, types;
} header_counts;

static enum MHD_Result count_header(void *to, enum MHD_ValueKind kind, const char *name, const char *value) {
    header_counts *n = to;
    (void)kind;
    (void)value;
    n->hosts += strcasecmp(name, "Host") == 0;
    n->lengths += strcasecmp(name, "Content-Length") == 0;
    n->codings += strcasecmp(name, "Transfer-Encoding") == 0;
    n->origins += strcasecmp(name, "Origin") == 0;
    n->types += strcasecmp(name, "Content-Type") == 0;
    return MHD_YES;
}

static const char *header(struct MHD_Connection *c, const char *name) {
    const char *value = MHD_lookup_connection_value(c, MHD_HEADER_KIND, name);
    return value ? value : "";
}

static bool refuse(http_answer *no, unsigned status, const char *kind, const char *place, const char *cause,
                   const char *remedy) {
    http_refuse(no, status, kind, place, cause, remedy);
    return false;
}

static bool admit_post(const guard *g, struct MHD_Connection *c, const header_counts *n, http_answer *no) {
    const char *origin = header(c, "Origin"), *scheme = g->tls ? "https://" : "http://";
    size_t cut = strlen(scheme);
    if (n->origins != 1 || strncasecmp(origin, scheme, cut) != 0 || !is_ours(g, origin + cut))
        return refuse(no, 403, "origin", "Origin", "only our own pages may change anything",
                      "open the address that the laptop shows");
    if (n->types != 1 || strncasecmp(header(c, "Content-Type"), "application/json", 16) != 0)
        return refuse(no, 415, "type", "Content-Type", "it is no JSON", "send application/json");
    if (n->lengths != 1)
        return refuse(no, 411, "length", "Content-Length", "it is missing", "say how long the body is");
    char *end;
    unsigned long long length = strtoull(header(c, "Content-Length"), &end, 10);
    if (*end || length > HTTP_LARGEST_BODY)
        return refuse(no, 413, "too_large", "body", "it is larger than 256 kB", "send less at once");
    return true;
}

bool guard_admit(const guard *g, struct MHD_Connection *c, const char *method, http_answer *no) {
    header_counts n = {0};
    MHD_get_connection_values(c, MHD_HEADER_KIND, count_header, &n);
    if (n.hosts != 1 || !is_ours(g, header(c, "Host")))
        return refuse(no, 421, "host", "Host", "this server is not called that",
                      "open the address that the laptop shows, or start it with --name");
    if (n.codings || n.lengths > 1)
        return refuse(no, 400, "input", "headers", "the length of the body is not clear",
                      "send one Content-Length and no Transfer-Encoding");
    if (strcmp(method, "GET") == 0)
        return n.lengths == 0 || strcmp(header(c, "Content-Length"), "0") == 0 ||
               refuse(no, 400, "input", "body", "a GET has none", "leave it out");
    if (strcmp(method, "POST") != 0)
        return refuse(no, 405, "method", method, "it is not answered here", "use GET or POST");
    return admit_post(g, c, &n, no);
}

bool guard_may_try(const guard *g, const char *address, double now_s) {
    for (int i = 0; i < GUARD_ADDRESSES; i++)
        if (strcmp(g->tries[i].address, address) == 0 && now_s - g->tries[i].since < GUARD_WAIT_S)
            return g->tries[i].wrong < GUARD_TRIES;
    return true;
}

void guard_wrong_code(guard *g, const char *address, double now_s) {
    int at = 0;
    for (int i = 0; i < GUARD_ADDRESSES; i++) {
        if (strcmp(g->tries[i].address, address) == 0) {
            at = i;
            break;
        }
        at = g->tries[i].since < g->tries[at].since ? i : at;
    }
    bool known = strcmp(g->tries[at].address, address) == 0 && now_s - g->tries[at].since < GUARD_WAIT_S;
    snprintf(g->tries[at].address, sizeof g->tries[at].address, "%s", address);
    g->tries[at].wrong = known ? g->tries[at].wrong + 1 : 1;
    g->tries[at].since = now_s;
}
