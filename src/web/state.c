#include "web/state.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    text key, value;
    bool leader;
} item;

typedef struct {
    arena *memory;
    item *list;
    size_t n, cap;
} round_of_items;

struct state {
    round_of_items now, before;
    buf scratch;
    json_out out;
    text key;
    bool leader;
};

state *state_open(void) {
    state *s = calloc(1, sizeof *s);
    if (s) {
        s->now.memory = arena_open();
        s->before.memory = arena_open();
    }
    return s;
}

void state_close(state *s) {
    if (!s)
        return;
    arena_close(s->now.memory);
    arena_close(s->before.memory);
    buf_free(&s->scratch);
    free(s);
}

void state_begin(state *s) {
    arena_close(s->before.memory);
    s->before = s->now;
    s->now = (round_of_items){.memory = arena_open()};
}

static void add(state *s, text key, text value, bool leader) {
    round_of_items *r = &s->now;
    arena_room(r->memory, r->list, r->n, r->cap, item);
    r->list[r->n++] = (item){key, value, leader};
}

json_out *state_put(state *s, bool leader, const char *format, ...) {
    va_list list;
    va_start(list, format);
    s->key = arena_format_list(s->now.memory, format, list);
    va_end(list);
    s->leader = leader;
    buf_clear(&s->scratch);
    s->out = json_to(&s->scratch);
    json_put_object(&s->out, NULL);
    return &s->out;
}

void state_add_compact(buf *out, text json) {
    bool inside = false;
    for (size_t i = 0; i < json.len; i++) {
        char c = json.at[i];
        if (inside && c == '\\' && i + 1 < json.len) {
            buf_add(out, text_slice(json, i, i + 2));
            i++;
            continue;
        }
        inside = c == '"' ? !inside : inside;
        if (inside || (c != ' ' && c != '\n'))
            buf_add_char(out, c);
    }
}

void state_done(state *s) {
    json_end_object(&s->out);
    buf line = {0};
    state_add_compact(&line, buf_text(&s->scratch));
    add(s, s->key, arena_text(s->now.memory, buf_text(&line)), s->leader);
    buf_free(&line);
}

void state_put_raw(state *s, const char *key, text json) {
    add(s, arena_text(s->now.memory, text_of(key)), arena_text(s->now.memory, json), false);
}

static int by_key(const void *a, const void *b) {
    return text_compare(((const item *)a)->key, ((const item *)b)->key);
}

/* One of the two texts of a change while it grows. */
typedef struct {
    buf *to;
    bool leader;
    bool any;
} change;

static void add_set(change *c, const item *i) {
    if (i->leader && !c->leader)
        return;
    buf_add_z(c->to, c->any ? "," : "");
    buf_add_json(c->to, i->key);
    buf_add_char(c->to, ':');
    buf_add(c->to, i->value);
    c->any = true;
}

static void write_change(const state *s, const char *at, change *c) {
    const round_of_items *a = &s->before, *b = &s->now;
    buf dropped = {0};
    buf_addf(c->to, "{\"at\":\"%s\",\"set\":{", at);
    for (size_t i = 0, j = 0; i < a->n || j < b->n;) {
        int order = i == a->n ? 1 : j == b->n ? -1 : text_compare(a->list[i].key, b->list[j].key);
        if (order < 0) {
            if (c->leader || !a->list[i].leader) {
                buf_add_z(&dropped, dropped.len ? "," : "");
                buf_add_json(&dropped, a->list[i].key);
            }
        } else if (order > 0 || !text_equal(a->list[i].value, b->list[j].value)) {
            add_set(c, &b->list[j]);
        }
        i += order <= 0;
        j += order >= 0;
    }
    buf_add_z(c->to, "},\"drop\":[");
    buf_add(c->to, buf_text(&dropped));
    buf_add_z(c->to, "]}");
    buf_free(&dropped);
}

static bool differs(const state *s) {
    const round_of_items *a = &s->before, *b = &s->now;
    if (a->n != b->n)
        return true;
    for (size_t i = 0; i < a->n; i++)
        if (!text_equal(a->list[i].key, b->list[i].key) || !text_equal(a->list[i].value, b->list[i].value))
            return true;
    return false;
}

bool state_end(state *s, const char *at, buf *all, buf *leader) {
    if (s->now.n)
        qsort(s->now.list, s->now.n, sizeof(item), by_key);
    if (!differs(s))
        return false;
    write_change(s, at, &(change){.to = all});
    write_change(s, at, &(change){.to = leader, .leader = true});
    return true;
}

void state_write(const state *s, const char *at, bool leader, buf *out) {
    change c = {.to = out, .leader = leader};
    buf_addf(out, "{\"at\":\"%s\",\"set\":{", at);
    for (size_t i = 0; i < s->now.n; i++)
        add_set(&c, &s->now.list[i]);
    buf_add_z(out, "}}");
}
