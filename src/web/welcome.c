/* welcome.c: what the terminal shows when the server is ready: addresses, codes, and QR codes of them. */
#include <qrencode.h>
#include <string.h>

#include "web/app.h"

/* Two rows of modules in one line of characters, light on dark swapped for the quiet zone: readable on any terminal. */
static void add_qr(buf *out, const char *content) {
    QRcode *q = QRcode_encodeString8bit(content, 0, QR_ECLEVEL_M);
    if (!q)
        return;
    const int quiet = 2;
    for (int y = -quiet; y < q->width + quiet; y += 2) {
        buf_add_z(out, "  ");
        for (int x = -quiet; x < q->width + quiet; x++) {
            bool light[2];
            for (int k = 0; k < 2; k++) {
                bool inside = x >= 0 && y + k >= 0 && x < q->width && y + k < q->width;
                light[k] = !inside || !(q->data[(y + k) * q->width + x] & 1);
            }
            buf_add_z(out, light[0] ? (light[1] ? "\u2588" : "\u2580") : (light[1] ? "\u2584" : " "));
        }
        buf_add_char(out, '\n');
    }
    QRcode_free(q);
}

/* A Wi-Fi in the form that phones' cameras read; \ ; , : " are written with \ before them. */
static void add_wifi(buf *out, const char *name, const char *password) {
    buf content = {0};
    const char *const parts[] = {name, password ? password : ""};
    buf_add_z(&content, password ? "WIFI:T:WPA;S:" : "WIFI:T:nopass;S:");
    for (int i = 0; i < 2; i++) {
        for (const char *c = parts[i]; *c; c++) {
            if (strchr("\\;,:\"", *c))
                buf_add_char(&content, '\\');
            buf_add_char(&content, *c);
        }
        buf_add_z(&content, i ? ";;" : password ? ";P:" : ";;");
        if (!password)
            break;
    }
    buf_addf(out, "\nTo join the Wi-Fi \"%s\" with a phone's camera:\n", name);
    add_qr(out, content.at);
    buf_free(&content);
}

/* The name that phones can use: the one given, else the first address that is not this machine's own. */
static const char *host_for_phones(const app *a) {
    for (int i = 2; i < a->guard.n_hosts; i++)
        return a->guard.hosts[i];
    return a->guard.hosts[0];
}

void welcome_say(app *a, arena *memory) {
    buf out = {0};
    const char *scheme = a->guard.tls ? "https" : "http";
    buf_addf(&out, "Serving %s. Ctrl-C ends it.\n\n", a->setup->file);
    buf_addf(&out, "On this laptop, for the leader:\n  %s://%s/j/%s\n", scheme, a->guard.hosts[0],
             a->devices.leader_code);
    if (a->setup->lan) {
        const char *join =
            arena_format(memory, "%s://%s/j/%s", scheme, host_for_phones(a), a->devices.join_code).at;
        buf_addf(&out, "\nOn the phones: %s://%s  and the code  %s\n  or with the camera:\n", scheme,
                 host_for_phones(a), a->devices.join_code);
        add_qr(&out, join);
        buf_addf(&out, "\nTo try whether phones reach this laptop, open %s://%s/hello on one.\n", scheme,
                 host_for_phones(a));
        if (a->setup->wifi)
            add_wifi(&out, a->setup->wifi, a->setup->wifi_password);
        if (!a->guard.tls)
            buf_add_z(
                &out,
                "\nThis is plain HTTP: whoever shares the Wi-Fi can listen. Use a Wi-Fi of your own.\n");
    } else {
        buf_addf(&out, "\nThe code to join: %s. Only this laptop reaches it; --lan lets phones in.\n",
                 a->devices.join_code);
    }
    a->setup->say(a->setup->user, buf_text(&out));
    buf_free(&out);
}
