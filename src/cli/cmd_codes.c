/* cmd_codes.c: `kitbench codes`: who proves with a code what an adult must say. */
#include <string.h>

#include "base/wrap.h"
#include "cli/ask.h"
#include "cli/commands.h"

static text name_of(const desk *d, const desk_code *c) {
    return c->person.len ? desk_person_name(d, c->person) : TEXT("the code to join with");
}

static void add_json(buf *out, const desk *d, const desk_code *codes, uint32_t n) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "codes");
    for (uint32_t i = 0; i < n; i++) {
        json_put_object(&j, NULL);
        if (codes[i].person.len) {
            json_put_text(&j, "person", codes[i].person);
            json_put_text(&j, "name", desk_person_name(d, codes[i].person));
        } else {
            json_put_null(&j, "person");
            json_put_null(&j, "name");
        }
        json_put_text(&j, "role", text_of(desk_role_word(desk_role_of(d, codes[i].person))));
        json_put_integer(&j, "wrong_tries", codes[i].wrong_tries);
        json_put_bool(&j, "locked", codes[i].locked);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

static int show(cli_call *call, const desk *d, err *e) {
    desk_code *codes;
    uint32_t n;
    buf out = {0};
    if (!desk_codes(d, &codes, &n, e))
        return cli_fail(e);
    if (call->json)
        add_json(&out, d, codes, n);
    else if (!n)
        buf_add_z(&out, "No codes: everybody is taken at their word.\n");
    for (uint32_t i = 0; i < n && !call->json; i++)
        wrap_add(&out,
                 arena_format(call->memory, "%.*s: set%s", TEXT_ARG(name_of(d, &codes[i])),
                              codes[i].locked ? ", LOCKED after wrong tries" : ""),
                 CLI_WIDTH, 2);
    return cli_print(&out, EXIT_DONE);
}

/* On a terminal it is typed twice, since nobody sees it. */
static bool read_new_code(const cli_call *call, const char **code, err *e) {
    const char *again;
    if (!ask_secret(call, "new code", code, e) || !ask_secret(call, "once more", &again, e))
        return false;
    return strcmp(*code, again) == 0 || err_input(e, "new code", "type it again", "the two differ");
}

static bool change(cli_call *call, desk *d, err *e) {
    const char *code = NULL, *leader = cli_value(call, "by");
    text person = text_of(call->n_arguments == 2 ? call->arguments[1] : NULL);
    if (cli_given(call, "clear"))
        return desk_clear_codes(d, cli_value(call, "reason"), build_who(call), e);
    if (!ask_proof(call, d, leader, e))
        return false;
    if (cli_given(call, "remove"))
        return desk_set_code(d, person, NULL, build_who(call), e);
    return read_new_code(call, &code, e) && desk_set_code(d, person, code, build_who(call), e);
}

int cmd_codes(cli_call *call) {
    err e;
    desk *d;
    bool write = call->n_arguments == 2 || cli_given(call, "clear");
    if (call->n_arguments == 1 && cli_given(call, "remove")) {
        err_input(&e, "codes", "write FILE PERSON --remove, or FILE --clear --reason TEXT",
                  "whose code is missing");
        return cli_fail(&e);
    }
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "codes", &d, &e))
        return cli_fail(&e);
    int code = write && !change(call, d, &e) ? cli_fail(&e) : show(call, d, &e);
    desk_close(d);
    return code;
}
