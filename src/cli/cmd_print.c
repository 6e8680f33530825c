/* cmd_print.c: `kitbench print`: sheets as a PDF. */
#include <stdio.h>
#include <string.h>

#include "base/json_out.h"
#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "paper/paper.h"

enum { MOST_PICTURE_BYTES = 32 << 20 };

/* What is printed from: a kit folder or a build file. */
typedef struct {
    cli_call *call;
    const char *source;
    const kit *kit;
    desk *build; /* NULL: a kit folder */
    paper_setup setup;
    buf pdf;
    paper_notes notes;
} job;

typedef struct {
    const char *name;
    const char *meaning;
    bool (*compose)(job *j, err *e);
} sheet_kind;

/* Reads a picture of the kit's folder; a name that leads out of the folder is not there. */
static bool find_picture(void *context, text name, text *bytes) {
    job *j = context;
    err e;
    if (name.at[0] == '/' || text_find(name, TEXT("..")) >= 0)
        return false;
    text path = arena_format(j->call->memory, "%s/%.*s", j->source, TEXT_ARG(name));
    return sys_read_file(j->call->memory, path.at, MOST_PICTURE_BYTES, bytes, &e);
}

/* The pieces of "--box 1,3" as indices by `find`. NULL (none given) gives an empty list. */
static bool read_list(const job *j, const char *option, kit_index (*find)(const kit *, text),
                      const char *table, kit_indices *out, err *e) {
    const char *value = cli_value(j->call, option);
    *out = (kit_indices){0};
    if (!value)
        return true;
    text rest = text_of(value), piece;
    out->list = arena_array(j->call->memory, kit_index, rest.len + 1);
    while (text_next_piece(&rest, ',', &piece)) {
        kit_index i = find(j->kit, text_trim(piece));
        if (i == KIT_NONE)
            return err_input(e, arena_format(j->call->memory, "--%s", option).at,
                             arena_format(j->call->memory, "see %s of the kit", table).at,
                             "the kit has no %s \"%.*s\"", option, TEXT_ARG(piece));
        out->list[out->n++] = i;
    }
    return true;
}

/* "3" also names the box whose number is "box 3". */
static kit_index find_box(const kit *k, text number) {
    kit_index i = kit_find_container(k, number);
    char longer[64];
    if (i != KIT_NONE || number.len > sizeof longer - 8)
        return i;
    snprintf(longer, sizeof longer, "box %.*s", TEXT_ARG(number));
    return kit_find_container(k, text_of(longer));
}

static bool compose_check_sheets(job *j, err *e) {
    kit_indices boxes;
    int64_t copies;
    if (!read_list(j, "box", find_box, "containers.csv", &boxes, e) ||
        !build_option(j->call, "copies", 1, 20, 1, &copies, e))
        return false;
    paper_check_choice choice = {.boxes = boxes.list, .n_boxes = boxes.n, .copies = (int)copies};
    return paper_check_sheets(j->call->memory, &j->setup, j->kit, &choice, &j->pdf, &j->notes, e);
}

static bool compose_job_cards(job *j, err *e) {
    kit_indices steps;
    if (!read_list(j, "step", kit_find_step, "steps.csv", &steps, e))
        return false;
    paper_card_choice choice = {.steps = steps.list, .n_steps = steps.n};
    return paper_job_cards(j->call->memory, &j->setup, j->kit, &choice, &j->pdf, &j->notes, e);
}

static bool needs_build(const job *j, const char *what, err *e) {
    return j->build || err_input(e, j->source, "name a build file; see kitbench new --help",
                                 "it is a kit folder, and %s needs a build", what);
}

static bool compose_report(job *j, err *e) {
    return needs_build(j, "the report", e) &&
           paper_report(j->call->memory, &j->setup, j->kit, j->build->stock, &j->pdf, &j->notes, e);
}

static const sheet_kind kinds[] = {
    {"check-sheets", "the rows of each box to tick at the stock check", compose_check_sheets},
    {"report", "what is missing or damaged, for the maker and the carrier", compose_report},
    {"job-cards", "a card for each step", compose_job_cards},
};
enum { N_KINDS = sizeof kinds / sizeof kinds[0] };

static const sheet_kind *find_kind(const char *name, err *e) {
    buf names = {0};
    for (size_t i = 0; i < N_KINDS; i++) {
        if (strcmp(kinds[i].name, name) == 0) {
            buf_free(&names);
            return &kinds[i];
        }
        buf_addf(&names, "%s%s", i == 0 ? "choose " : i + 1 == N_KINDS ? " or " : ", ", kinds[i].name);
    }
    err_input(e, "print", names.at, "there is no sheet \"%s\"", name);
    buf_free(&names);
    return NULL;
}

static int print_result(job *j, const char *out) {
    buf answer = {0};
    if (j->call->json) {
        json_out json = json_to(&answer);
        json_object(&json, NULL);
        json_text(&json, "file", text_of(out));
        json_integer(&json, "pages", j->notes.pages);
        json_integer(&json, "bytes", (int64_t)j->pdf.len);
        json_array(&json, "notes");
        for (size_t i = 0; i < j->notes.n; i++)
            json_text(&json, NULL, j->notes.list[i]);
        json_end_array(&json);
        json_end_object(&json);
    } else {
        buf_addf(&answer, "%s: %d page%s\n", out, j->notes.pages, j->notes.pages == 1 ? "" : "s");
        for (size_t i = 0; i < j->notes.n; i++)
            buf_addf(&answer, "note: %.*s\n", TEXT_ARG(j->notes.list[i]));
    }
    return cli_print(&answer, EXIT_DONE);
}

static int compose_and_write(job *j, const sheet_kind *kind) {
    err e = {0};
    const char *out = cli_value(j->call, "output");
    const char *size = cli_value(j->call, "paper");
    if (!out) {
        err_input(&e, "print", "add -o OUT.pdf", "the name of the PDF is missing");
        return cli_fail(&e);
    }
    if (size && !paper_size_read(text_of(size), &j->setup.size, &e))
        return cli_fail(&e);
    bool ok = kind->compose(j, &e) && sys_write_file(out, buf_text(&j->pdf), &e);
    int code = ok ? print_result(j, out) : cli_fail(&e);
    buf_free(&j->pdf);
    return code;
}

static int print_kit(job *j, const sheet_kind *kind) {
    err e = {0};
    faults f = faults_in(j->call->memory);
    const kit_workshop *none;
    if (!kit_read(j->call->memory, j->source, NULL, &f, &j->kit, &none, &e))
        return e.kind == ERR_NONE ? cli_fail_faults(j->call, &f) : cli_fail(&e);
    j->setup = (paper_setup){.as_of = PAPER_NO_MOMENT, .find_picture = find_picture, .context = j};
    return compose_and_write(j, kind);
}

static int print_build(job *j, const sheet_kind *kind) {
    err e = {0};
    if (!desk_open(j->call->memory, j->source, DESK_READ, "print", &j->build, &e))
        return cli_fail(&e);
    j->kit = j->build->kit;
    j->setup = (paper_setup){.as_of = j->build->changed};
    int code = compose_and_write(j, kind);
    desk_close(j->build);
    return code;
}

int cmd_print(cli_call *call) {
    err e = {0};
    job j = {.call = call, .source = call->arguments[0]};
    const sheet_kind *kind = find_kind(call->arguments[1], &e);
    if (!kind)
        return cli_fail(&e);
    return sys_is_folder(j.source) ? print_kit(&j, kind) : print_build(&j, kind);
}
