#include "web/live.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "base/sys.h"

typedef struct {
    buf all, leader; /* whole frames */
} frame;

typedef struct stream {
    struct stream *next;
    live *of;
    struct MHD_Connection *connection;
    int64_t number; /* of the event it reads next */
    size_t offset;  /* already read of it */
    bool leader, waits, again, beat, ending;
} stream;

struct live {
    char run[17];
    int64_t last;
    frame kept[LIVE_KEPT]; /* event N at N % LIVE_KEPT */
    stream *streams;
    uint32_t n_streams;
};

live *live_open(err *e) {
    unsigned char random[8];
    live *l = calloc(1, sizeof *l);
    if (!l || !sys_random(random, sizeof random, e)) {
        free(l);
        return NULL;
    }
    for (int i = 0; i < 8; i++)
        snprintf(l->run + (ptrdiff_t)2 * i, 3, "%02x", random[i]);
    return l;
}

void live_close(live *l) {
    for (int i = 0; l && i < LIVE_KEPT; i++) {
        buf_free(&l->kept[i].all);
        buf_free(&l->kept[i].leader);
    }
    free(l);
}

void live_at(const live *l, char out[40]) {
    snprintf(out, 40, "%s-%lld", l->run, (long long)l->last);
}

void live_next(const live *l, char out[40]) {
    snprintf(out, 40, "%s-%lld", l->run, (long long)l->last + 1);
}

uint32_t live_streams(const live *l) {
    return l->n_streams;
}

static void wake(stream *s) {
    if (s->waits)
        MHD_resume_connection(s->connection);
    s->waits = false;
}

static void fill(frame *f, const char *id, text all, text leader) {
    buf_clear(&f->all);
    buf_clear(&f->leader);
    buf_addf(&f->all, "id: %s\nevent: change\ndata: ", id);
    buf_add(&f->all, all);
    buf_add_z(&f->all, "\n\n");
    buf_addf(&f->leader, "id: %s\nevent: change\ndata: ", id);
    buf_add(&f->leader, leader);
    buf_add_z(&f->leader, "\n\n");
}

void live_send(live *l, text all, text leader) {
    char id[40];
    l->last++;
    live_at(l, id);
    frame *f = &l->kept[l->last % LIVE_KEPT];
    for (stream *s = l->streams; s; s = s->next) /* its place is taken by the new event */
        if (s->number <= l->last - LIVE_KEPT)
            s->again = true;
    fill(f, id, all, leader);
    for (stream *s = l->streams; s; s = s->next)
        wake(s);
}

void live_beat(live *l) {
    for (stream *s = l->streams; s; s = s->next) {
        s->beat = true;
        wake(s);
    }
}

void live_end_all(live *l) {
    for (stream *s = l->streams; s; s = s->next) {
        s->ending = true;
        wake(s);
    }
}

/* What the stream has to read now, from its offset on. Empty: nothing. */
static text what_next(stream *s) {
    if (s->again) {
        s->number = s->of->last + 1;
        s->offset = 0;
        s->again = false;
        return TEXT("event: again\ndata: {}\n\n");
    }
    if (s->number > s->of->last) {
        bool beat = s->beat;
        s->beat = false;
        return beat ? TEXT(":\n\n") : TEXT("");
    }
    const frame *f = &s->of->kept[s->number % LIVE_KEPT];
    text t = buf_text(s->leader ? &f->leader : &f->all);
    return text_slice(t, s->offset, t.len);
}

static ssize_t read_stream(void *from, uint64_t at, char *to, size_t room) {
    stream *s = from;
    (void)at;
    if (s->ending)
        return MHD_CONTENT_READER_END_OF_STREAM;
    /* An event that was begun and whose place is gone cannot be ended: the browser connects again. */
    if (s->again && s->offset)
        return MHD_CONTENT_READER_END_WITH_ERROR;
    bool event = !s->again && s->number <= s->of->last;
    text t = what_next(s);
    if (!t.len) {
        s->waits = true;
        MHD_suspend_connection(s->connection);
        return 0;
    }
    size_t n = t.len < room ? t.len : room;
    memcpy(to, t.at, n);
    if (event && n == t.len) {
        s->number++;
        s->offset = 0;
    } else if (event) {
        s->offset += n;
    }
    return (ssize_t)n;
}

static void end_stream(void *what) {
    stream *s = what;
    for (stream **at = &s->of->streams; *at; at = &(*at)->next)
        if (*at == s) {
            *at = s->next;
            break;
        }
    s->of->n_streams--;
    free(s);
}

/* The number in an id of this run, -1 otherwise. */
static int64_t number_of(const live *l, text id) {
    size_t cut = strlen(l->run);
    int64_t n;
    number_fault why;
    if (id.len <= cut + 1 || !text_starts(id, text_of(l->run)) || id.at[cut] != '-')
        return -1;
    return number_integer(text_slice(id, cut + 1, id.len), 0, l->last, &n, &why) ? n : -1;
}

struct MHD_Response *live_response(live *l, struct MHD_Connection *c, text since, bool leader) {
    stream *s = l->n_streams < LIVE_MOST_STREAMS ? calloc(1, sizeof *s) : NULL;
    if (!s)
        return NULL;
    int64_t seen = number_of(l, since);
    *s = (stream){.of = l, .connection = c, .leader = leader, .number = seen + 1, .next = l->streams};
    s->again = seen < 0 || seen < l->last - LIVE_KEPT;
    s->beat = true; /* the browser learns at once that it is connected */
    struct MHD_Response *r =
        MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, 8192, read_stream, s, end_stream);
    if (!r) {
        free(s);
        return NULL;
    }
    l->streams = s;
    l->n_streams++;
    return r;
}
