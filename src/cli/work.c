/* work.c: what the commands of the running build share. */
#include "cli/work.h"

#include "base/wrap.h"

desk *work_open(cli_call *call, desk_mode mode, kit_index *step, int *code) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], mode, call->command->name, &d, &e)) {
        *code = cli_fail(&e);
        return NULL;
    }
    if (desk_find_step(d, text_of(call->arguments[1]), step, &e))
        return d;
    *code = cli_fail(&e);
    desk_close(d);
    return NULL;
}

bool work_part(const desk *d, const char *number, kit_index *out, err *e) {
    *out = kit_find_part(d->kit, text_trim(text_of(number)));
    return *out != KIT_NONE || err_input(e, arena_format(d->memory, "\"%s\"", number).at,
                                         "write a part's number as the packing list has it",
                                         "the kit has no part of that number");
}

void work_put_reasons(json_out *j, const char *key, const desk_reasons *list) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < list->n; i++)
        json_put_text(j, NULL, list->list[i]);
    json_end_array(j);
}

text work_people(const desk *d, const kit_texts *people) {
    text all = TEXT("");
    for (uint32_t i = 0; i < people->n; i++)
        all = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(all), i ? ", " : "",
                           TEXT_ARG(desk_person_name(d, people->list[i])));
    return all.len ? all : TEXT("somebody");
}

void work_put_people(json_out *j, const char *key, const desk *d, const kit_texts *people) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < people->n; i++)
        json_put_text(j, NULL, desk_person_name(d, people->list[i]));
    json_end_array(j);
}

int work_list(const cli_call *call, const desk *d, const char *key, const char *none, work_add add,
              int code) {
    buf out = {0};
    json_out j = json_to(&out);
    if (call->json) {
        json_put_object(&j, NULL);
        json_put_array(&j, key);
    }
    add(call, d, &j, &out);
    if (call->json) {
        json_end_array(&j);
        json_end_object(&j);
    } else if (!out.len) {
        buf_add_z(&out, none);
    }
    return cli_print(&out, code);
}

static void add_json(json_out *j, const desk *d, kit_index step, const desk_reasons *why) {
    json_put_object(j, NULL);
    if (step != KIT_NONE) {
        json_put_text(j, "step", d->kit->steps[step].number);
        json_put_text(j, "name", d->kit->steps[step].name);
        json_put_text(j, "state", text_of(stock_state_word(d->stock->work->steps[step].state)));
    }
    json_put_bool(j, "written", why->n == 0);
    work_put_reasons(j, "reasons", why);
    json_end_object(j);
}

int work_answer(cli_call *call, const desk *d, kit_index step, const desk_reasons *why, text line) {
    buf out = {0};
    if (call->json) {
        json_out j = json_to(&out);
        add_json(&j, d, step, why);
    } else if (!why->n) {
        wrap_add(&out, line, CLI_WIDTH, 2);
    } else {
        buf_add_z(&out, "Not written:\n");
        for (uint32_t i = 0; i < why->n; i++)
            wrap_add(&out, arena_format(call->memory, "  %.*s", TEXT_ARG(why->list[i])), CLI_WIDTH, 4);
    }
    return cli_print(&out, why->n ? EXIT_NO : EXIT_DONE);
}
