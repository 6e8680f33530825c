/* acts.c: one act of a device: who may, has it been done already, do it, tell everybody. */
#include "web/acts.h"

#include <string.h>

#include "base/json_out.h"
#include "base/sys.h"

enum { SHORTEST_ONCE = 8, LONGEST_ONCE = 64 };

typedef struct {
    const char *word;
    act_function *run;
    bool leader; /* only the leader's devices may */
} act_form;

static const act_form forms[] = {
    {"count", act_count, false},
    {"all_here", act_all_here, false},
    {"find", act_find, false},
    {"receive", act_receive, false},
    {"promise", act_promise, true},
    {"arrive", act_arrive, false},
    {"enter", act_enter, true},
    {"reading", act_reading, false},
    {"start", act_start, false},
    {"change_over", act_change_over, false},
    {"leave", act_leave, false},
    {"block", act_block, false},
    {"finish", act_finish, false},
    {"test", act_test, false},
    {"move", act_move, false},
    {"close", act_close, false},
    {"undo", act_undo, false},
    {"undo_step", act_undo_step, true},
    {"set_code", act_set_code, true},
    {"take", act_take, false},
    {"bring_back", act_bring_back, false},
    {"count_again", act_count_again, false},
    {"label", act_label, false},
    {"tools", act_tools, false},
    {"report_sent", act_report_sent, true},
    {"add_person", act_add_person, true},
    {"change_person", act_change_person, true},
    {"remove_person", act_remove_person, true},
    {"add_sessions", act_add_sessions, true},
    {"cancel_session", act_cancel_session, true},
    {"attend", act_attend, true},
};

bool act_container(act *a, kit_index *out, err *e) {
    const char *number;
    return ask_word(a->in, "in", &number, e) && desk_find_container(a->desk, text_of(number), out, e);
}

bool act_row(act *a, kit_index *container, kit_index *row, err *e) {
    int64_t line;
    if (!act_container(a, container, e) || !ask_integer(a->in, "line", 1, 9999, 0, &line, e))
        return false;
    *row = kit_find_row(a->desk->kit, *container, line);
    return *row != KIT_NONE || err_input(e, "line", "choose one of the list", "it has no such row");
}

bool act_step(act *a, kit_index *out, err *e) {
    const char *number;
    return ask_word(a->in, "step", &number, e) && desk_find_step(a->desk, text_of(number), out, e);
}

bool act_part(act *a, const json_t *in, kit_index *out, err *e) {
    const char *number;
    if (!ask_word(in, "part", &number, e))
        return false;
    *out = kit_find_part(a->desk->kit, text_trim(text_of(number)));
    return *out != KIT_NONE ||
           err_input(e, "part", "choose one of the list", "the kit has no part of that number");
}

static const act_form *form_of(const char *word) {
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
        if (strcmp(forms[i].word, word) == 0)
            return &forms[i];
    return NULL;
}

/* Without codes the desk takes everybody at their word; a shared phone's word is not enough for what needs an adult. */
bool acts_confirm(act *a, const char *adult, err *e) {
    const char *pin;
    if (!adult[0])
        return true;
    if (!ask_text(a->in, "pin", &pin, e))
        return false;
    if (pin[0])
        return desk_prove(a->desk, text_of(adult), pin, e);
    desk_code *codes;
    uint32_t n;
    if (!desk_codes(a->desk, &codes, &n, e))
        return false;
    bool any = false;
    for (uint32_t i = 0; i < n; i++)
        any = any || codes[i].person.len;
    if (!any && !a->who->leader)
        acts_refuse(a, TEXT("no adult has a PIN yet: set them on the leader's laptop, under Crew and dates"));
    return true;
}

void acts_refuse(act *a, text reason) {
    size_t cap = a->why.cap;
    arena_room(a->memory, a->why.list, a->why.n, cap, text);
    a->why.cap = cap;
    a->why.list[a->why.n++] = reason;
}

static bool read_once(const json_t *in, const char **once, err *e) {
    if (!ask_word(in, "once", once, e))
        return false;
    size_t n = strlen(*once);
    for (size_t i = 0; i < n; i++)
        if (!strchr("abcdefghijklmnopqrstuvwxyz0123456789-", (*once)[i]))
            n = 0;
    return (n >= SHORTEST_ONCE && n <= LONGEST_ONCE) ||
           err_input(e, "once", "make a new one for each act",
                     "it is no name of 8 to 64 letters a-z, digits and -");
}

static void answer_written(http_answer *to, int64_t entry, bool again, const desk_reasons *mind) {
    json_out j = json_to(&to->body);
    to->status = 200;
    to->type = "application/json";
    json_put_object(&j, NULL);
    json_put_bool(&j, "written", true);
    json_put_bool(&j, "again", again);
    json_put_integer(&j, "entry", entry);
    json_put_array(&j, "mind");
    for (uint32_t i = 0; i < mind->n; i++)
        json_put_text(&j, NULL, mind->list[i]);
    json_end_array(&j);
    json_end_object(&j);
}

static void run(act *a, const act_form *form, const char *once, http_answer *to) {
    err e = {0};
    int64_t act_entry = 0;
    if (!desk_find_once(a->desk, text_of(once), &act_entry, &e)) {
        http_refuse_err(to, &e);
    } else if (act_entry) {
        answer_written(to, act_entry, true, &a->mind);
    } else if (!form->run(a, &e)) {
        http_refuse_err(to, &e);
    } else if (a->why.n) {
        http_refuse_reasons(to, a->conflict ? "conflict" : "refused", form->word, a->why.list, a->why.n);
    } else {
        answer_written(to, a->desk->last_entry, false, &a->mind);
        app_publish(a->app);
    }
}

void app_act(app *served, const http_request *r, device *who, http_answer *to) {
    err e = {0};
    const char *word, *once, *by;
    json_t *in = ask_object(r->body, &e);
    if (!in || !ask_word(in, "do", &word, &e) || !read_once(in, &once, &e) || !ask_text(in, "by", &by, &e)) {
        http_refuse_err(to, &e);
        json_decref(in);
        return;
    }
    const act_form *form = form_of(word);
    act a = {.app = served, .desk = served->desk, .memory = r->memory, .in = in, .who = who};
    /* On the leader's laptop the place is not asked for. */
    text place = who->joined.place.len ? who->joined.place : who->joined.device;
    a.by = (desk_who){.by = by[0] ? by : NULL, .device = arena_z(r->memory, place), .once = once};
    if (!form)
        http_refuse(to, 400, "input", "do", "nothing is called that", "see docs/openapi.json");
    else if (form->leader && !who->leader)
        http_refuse(to, 403, "role", word, "only the leader does that",
                    "open the leader's link that the terminal shows on this device");
    else
        run(&a, form, once, to);
    json_decref(in);
}
