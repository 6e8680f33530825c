/* cmd_crew.c: `kitbench crew`: people, added and changed without files. */
#include <string.h>

#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/crew.h"
#include "cli/work.h"

static text names_of(const desk *d, const kit_named *list, const kit_indices *which) {
    text all = TEXT("");
    for (uint32_t i = 0; i < which->n; i++)
        all = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(all), i ? ", " : "",
                           TEXT_ARG(list[which->list[i]].name));
    return all;
}

static void put_numbers(json_out *j, const char *key, const kit_named *list, const kit_indices *which) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < which->n; i++)
        json_put_text(j, NULL, list[which->list[i]].number);
    json_end_array(j);
}

static void person_json(json_out *j, const desk *d, const kit_person *p) {
    json_put_object(j, NULL);
    json_put_text(j, "person", p->number);
    json_put_text(j, "name", p->name);
    json_put_bool(j, "adult", p->adult);
    json_put_bool(j, "leader", p->leader);
    put_numbers(j, "supervises", d->kit->works, &p->supervises);
    put_numbers(j, "skills", d->kit->skills, &p->skills);
    json_end_object(j);
}

static void person_text(const desk *d, const kit_person *p, buf *out) {
    text line = arena_format(d->memory, "%.*s %.*s: %s%s", TEXT_ARG(p->number), TEXT_ARG(p->name),
                             p->adult ? "adult" : "learner", p->leader ? ", leads" : "");
    if (p->supervises.n)
        line = arena_format(d->memory, "%.*s; supervises %.*s", TEXT_ARG(line),
                            TEXT_ARG(names_of(d, d->kit->works, &p->supervises)));
    if (p->skills.n)
        line = arena_format(d->memory, "%.*s; has practised %.*s", TEXT_ARG(line),
                            TEXT_ARG(names_of(d, d->kit->skills, &p->skills)));
    wrap_add(out, line, CLI_WIDTH, 2);
}

static void add_mind(const cli_call *call, json_out *j, const desk_reasons *mind, buf *out) {
    if (call->json)
        json_put_array(j, "does_not_fit");
    else if (mind->n)
        buf_add_z(out, "What does not fit now:\n");
    for (uint32_t i = 0; i < mind->n; i++)
        if (call->json)
            json_put_text(j, NULL, mind->list[i]);
        else
            wrap_add(out, arena_format(call->memory, "  %.*s", TEXT_ARG(mind->list[i])), CLI_WIDTH, 4);
    if (call->json)
        json_end_array(j);
}

int crew_answer(const cli_call *call, const desk *d, const desk_reasons *mind,
                void (*fill)(const cli_call *call, const desk *d, json_out *j, buf *out)) {
    buf out = {0};
    json_out j = json_to(&out);
    if (call->json)
        json_put_object(&j, NULL);
    fill(call, d, &j, &out);
    add_mind(call, &j, mind, &out);
    if (call->json)
        json_end_object(&j);
    return cli_print(&out, EXIT_DONE);
}

static void crew_list(const cli_call *call, const desk *d, json_out *j, buf *out) {
    if (call->json)
        json_put_array(j, "crew");
    else if (!d->workshop || !d->workshop->n_crew)
        buf_add_z(out, "Nobody yet: kitbench crew FILE add NAME\n");
    for (kit_index i = 0; d->workshop && i < d->workshop->n_crew; i++)
        if (call->json)
            person_json(j, d, &d->workshop->crew[i]);
        else
            person_text(d, &d->workshop->crew[i], out);
    if (call->json)
        json_end_array(j);
}

static bool read_answer(const cli_call *call, const char *option, desk_answer *out, err *e) {
    const char *word = cli_value(call, option);
    *out = !word ? DESK_AS_IT_IS : strcmp(word, "yes") == 0 ? DESK_YES : DESK_NO;
    return !word || *out == DESK_YES || strcmp(word, "no") == 0 ||
           err_input(e, arena_format(call->memory, "--%s", option).at, "write yes or no", "\"%s\" is neither",
                     word);
}

static bool change_crew(const cli_call *call, desk *d, desk_reasons *mind, err *e) {
    const char *verb = call->arguments[1];
    text name = text_of(call->arguments[2]), number;
    desk_person_change c = {.name = cli_value(call, "name"),
                            .supervises = cli_value(call, "supervises"),
                            .skills = cli_value(call, "skills")};
    if (!read_answer(call, "adult", &c.adult, e) || !read_answer(call, "leader", &c.leader, e))
        return false;
    if (strcmp(verb, "add") == 0) {
        c.name = call->arguments[2];
        return desk_add_person(d, &c, build_who(call), mind, &number, e);
    }
    if (strcmp(verb, "change") == 0)
        return desk_change_person(d, name, &c, build_who(call), mind, e);
    if (strcmp(verb, "remove") == 0)
        return desk_remove_person(d, name, build_who(call), mind, e);
    return err_input(e, "crew", "write add, change or remove", "\"%s\" is nothing that can be done", verb);
}

int crew_run(cli_call *call, int least_to_write,
             bool (*change)(const cli_call *, desk *, desk_reasons *, err *),
             void (*fill)(const cli_call *, const desk *, json_out *, buf *)) {
    err e;
    desk *d;
    desk_reasons mind = {0};
    bool write = call->n_arguments >= least_to_write;
    if (!write && call->n_arguments > 1) {
        err_input(&e, call->command->name,
                  arena_format(call->memory, "see kitbench %s --help", call->command->name).at,
                  "something is missing after \"%s\"", call->arguments[call->n_arguments - 1]);
        return cli_fail(&e);
    }
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, call->command->name, &d,
                   &e))
        return cli_fail(&e);
    int code = write && !change(call, d, &mind, &e) ? cli_fail(&e) : crew_answer(call, d, &mind, fill);
    desk_close(d);
    return code;
}

int cmd_crew(cli_call *call) {
    return crew_run(call, 3, change_crew, crew_list);
}
