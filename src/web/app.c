/* app.c: opening a build to serve it, and which address is answered by what. */
#include "web/app.h"

#include <string.h>

#include "base/sys.h"
#include "web/pictures.h"

/* The desk's arena only grows; beyond this the file is opened anew. */
enum { LOOK_AGAIN_S = 20 };
static const size_t most_desk_bytes = (size_t)6 << 20;

static bool open_desk(app *a, err *e) {
    arena *memory = arena_open();
    desk *fresh;
    if (!desk_open(memory, a->setup->file, DESK_WRITE, "serve", &fresh, e)) {
        arena_close(memory);
        return false;
    }
    desk_close(a->desk);
    arena_close(a->memory);
    a->memory = memory;
    a->desk = fresh;
    a->desk_fresh_bytes = arena_used(memory);
    return true;
}

static void write_kit(app *a) {
    buf_clear(&a->kit);
    buf_clear(&a->kit_packed);
    state_write_kit(a->desk, &a->kit);
    assets_gzip(buf_text(&a->kit), &a->kit_packed);
    assets_etag(buf_text(&a->kit), a->kit_etag);
}

bool app_open(app *a, const web_setup *setup, err *e) {
    *a = (app){.setup = setup};
    a->assets = assets_open();
    a->state = state_open();
    if (!a->assets || !a->state)
        return err_run(e, "serve", "close other programs", "out of memory");
    if (!open_desk(a, e) || !(a->live = live_open(e)) || !(a->planner = planner_open(setup->file, e)))
        return false;
    write_kit(a);
    app_publish(a);
    return true;
}

void app_close(app *a) {
    planner_close(a->planner);
    live_close(a->live);
    state_close(a->state);
    assets_close(a->assets);
    buf_free(&a->kit);
    buf_free(&a->kit_packed);
    buf_free(&a->plan);
    desk_close(a->desk);
    if (a->memory)
        arena_close(a->memory);
}

static void put_server(app *a) {
    json_out *j = state_put(a->state, false, "server");
    json_put_integer(j, "reached", a->reached);
    json_put_bool(j, "lan", a->setup->lan);
    json_put_bool(j, "tls", a->guard.tls);
    state_done(a->state);
}

void app_publish(app *a) {
    char at[40];
    buf all = {0}, leader = {0};
    live_next(a->live, at);
    state_begin(a->state);
    state_put_stock(a->state, a->desk);
    state_put_work(a->state, a->desk);
    state_put_shared(a->state, a->desk);
    state_put_journal(a->state, a->desk);
    put_server(a);
    if (a->plan.len)
        state_put_raw(a->state, "plan", buf_text(&a->plan));
    if (state_end(a->state, at, &all, &leader)) {
        live_send(a->live, buf_text(&all), buf_text(&leader));
        a->changed_s = sys_seconds();
    }
    buf_free(&all);
    buf_free(&leader);
    err e;
    if (arena_used(a->memory) > a->desk_fresh_bytes + most_desk_bytes && !open_desk(a, &e))
        a->failing = true; /* the desk that is open goes on; tried again at the next change */
}

/* Some quiet seconds after the last change the plan is made anew; a running check would otherwise ask for one each
 * second. */
static void plan_when_quiet(app *a, double now_s) {
    static const double quiet_s = 2;
    if (a->planned_entry == a->desk->last_entry || now_s - a->changed_s < quiet_s)
        return;
    a->planned_entry = a->desk->last_entry;
    planner_ask(a->planner);
}

void app_tick(app *a) {
    double now_s = sys_seconds();
    int64_t entry, at_s;
    err e;
    if (store_read_last(a->desk->file, &entry, &at_s, &e) && entry != a->desk->last_entry &&
        open_desk(a, &e)) {
        app_publish(a);
    }
    if (now_s - a->beat_s > LIVE_BEAT_S) {
        a->beat_s = now_s;
        live_beat(a->live);
    }
    buf line = {0};
    if (planner_take(a->planner, &line)) {
        buf_clear(&a->plan);
        buf_add(&a->plan, buf_text(&line));
        app_publish(a);
    }
    buf_free(&line);
    /* Delays pass without anybody writing: what can start is looked at again now and then. */
    if (now_s - a->looked_s > LOOK_AGAIN_S) {
        a->looked_s = now_s;
        app_publish(a);
    }
    plan_when_quiet(a, now_s);
}

static void answer_who(const app *a, const device *who, http_answer *to) {
    to->status = 200;
    to->type = "application/json";
    json_out w = json_to(&to->body), *j = &w;
    json_put_object(j, NULL);
    json_put_text(j, "device", who->joined.device);
    json_put_text(j, "role", who->leader ? TEXT("leader") : text_of(desk_role_word(who->joined.role)));
    json_put_text(j, "person", who->joined.person);
    json_put_text(j, "place", who->joined.place);
    json_put_bool(j, "tls", a->guard.tls);
    json_put_text(j, "join_code", who->leader ? text_of(a->devices.join_code) : TEXT(""));
    json_end_object(j);
}

static void set_cookie(const app *a, const char *token, http_answer *to) {
    snprintf(to->cookie, sizeof to->cookie,
             "kitbench=%s; Path=/; HttpOnly; SameSite=Strict; Max-Age=7776000%s", token,
             a->guard.tls ? "; Secure" : "");
}

/* {"code"} or {"person", "code"} */
static void join(app *a, const http_request *r, http_answer *to) {
    err e = {0};
    const char *code, *person;
    char token[DESK_TOKEN + 1];
    device who = {0};
    double now_s = sys_seconds();
    if (!guard_may_try(&a->guard, r->address, now_s)) {
        http_refuse(to, 429, "join", "code", "five wrong codes came from here",
                    "wait a minute, then type it again");
        return;
    }
    json_t *in = ask_object(r->body, &e);
    bool asked = in && ask_word(in, "code", &code, &e) && ask_text(in, "person", &person, &e);
    bool joined = asked && devices_join(&a->devices, a->desk, text_of(person), code, token, &who, &e);
    json_decref(in);
    if (joined) {
        set_cookie(a, token, to);
        answer_who(a, &who, to);
    } else if (asked && e.kind == ERR_INPUT) {
        guard_wrong_code(&a->guard, r->address, now_s);
        http_refuse(to, 401, "join", e.place, e.cause, e.remedy);
    } else {
        http_refuse_err(to, &e);
    }
}

/* "now here: table 2": where the device lies from now on. */
static void sit(app *a, const http_request *r, device *who, http_answer *to) {
    err e = {0};
    const char *place;
    json_t *in = ask_object(r->body, &e);
    bool ok = in && ask_text(in, "place", &place, &e) &&
              (strlen(place) <= 60 ||
               err_input(&e, "place", "say it in fewer words", "it is longer than 60 bytes")) &&
              desk_place_device(a->desk, who->joined.device, text_of(place), &e);
    if (ok)
        who->joined.place = text_trim(arena_text(r->memory, text_of(place)));
    json_decref(in);
    if (ok)
        answer_who(a, who, to);
    else
        http_refuse_err(to, &e);
}

static void answer_kit(const app *a, const http_request *r, http_answer *to) {
    to->status = text_is(r->if_none_match, a->kit_etag) ? 304 : 200;
    to->type = "application/json";
    memcpy(to->etag, a->kit_etag, sizeof to->etag);
    to->gzipped = r->takes_gzip;
    to->fixed = buf_text(r->takes_gzip ? &a->kit_packed : &a->kit);
}

static void answer_state(const app *a, const http_request *r, const device *who, http_answer *to) {
    char at[40];
    live_at(a->live, at);
    to->status = 200;
    to->type = "application/json";
    state_write(a->state, at, who->leader, &to->body);
    if (!r->takes_gzip)
        return;
    buf packed = {0};
    assets_gzip(buf_text(&to->body), &packed);
    buf_free(&to->body);
    to->body = packed;
    to->gzipped = true;
}

static void answer_undoing(const app *a, text number, http_answer *to) {
    kit_index step;
    err e = {0};
    if (!desk_find_step(a->desk, number, &step, &e)) {
        http_refuse(to, 404, "not_found", e.place, e.cause, e.remedy);
        return;
    }
    to->status = 200;
    to->type = "application/json";
    state_write_undoing(a->desk, step, &to->body);
}

static void answer_joined(app *a, const http_request *r, device *who, http_answer *to) {
    if (!r->post && text_is(r->path, "/api/me"))
        answer_who(a, who, to);
    else if (!r->post && text_is(r->path, "/api/kit"))
        answer_kit(a, r, to);
    else if (!r->post && text_is(r->path, "/api/state"))
        answer_state(a, r, who, to);
    else if (!r->post && text_is(r->path, "/api/live"))
        *to = (http_answer){.status = 200, .live = true, .leader = who->leader};
    else if (!r->post && text_starts(r->path, TEXT("/api/picture/")))
        pictures_answer(a, r, text_slice(r->path, 13, r->path.len), to);
    else if (!r->post && text_starts(r->path, TEXT("/api/undoing/")))
        answer_undoing(a, text_slice(r->path, 13, r->path.len), to);
    else if (r->post && text_is(r->path, "/api/sit"))
        sit(a, r, who, to);
    else if (r->post && text_is(r->path, "/api/act"))
        app_act(a, r, who, to);
    else
        http_refuse(to, 404, "not_found", "address", "nothing lies there", "go back to the first page");
}

/* A second phone that opens it proves that phones reach the laptop. */
static void note_reached(app *a, const http_request *r) {
    if (r->loopback)
        return;
    a->reached++;
    char line[160];
    snprintf(line, sizeof line, "A device at %s opened the start-up page: phones reach this laptop.\n",
             r->address);
    a->setup->say(a->setup->user, text_of(line));
    app_publish(a);
}

void app_answer(app *a, const http_request *r, http_answer *to) {
    if (!text_starts(r->path, TEXT("/api/"))) {
        bool joins = text_starts(r->path, TEXT("/j/")) || text_starts(r->path, TEXT("/J/"));
        if (!r->post && assets_answer(a->assets, r, joins ? TEXT("/") : r->path, to)) {
            if (text_is(r->path, "/hello"))
                note_reached(a, r);
            return;
        }
        http_refuse(to, 404, "not_found", "address", "nothing lies there", "go back to the first page");
        return;
    }
    if (r->post && text_is(r->path, "/api/join")) {
        join(a, r, to);
        return;
    }
    device who = {0};
    err e = {0};
    if (!devices_know(&a->devices, a->desk, r->token, &who, &e) && e.kind == ERR_INPUT)
        http_refuse(to, 401, "join", "device", "this device has not joined",
                    "type the code that the laptop shows");
    else if (e.kind)
        http_refuse_err(to, &e);
    else
        answer_joined(a, r, &who, to);
}
