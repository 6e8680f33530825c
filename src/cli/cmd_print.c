/* cmd_print.c: `kitbench print`: sheets as a PDF. */
#include <stdio.h>
#include <string.h>

#include "base/json_out.h"
#include "base/number.h"
#include "base/sys.h"
#include "cli/commands.h"
#include "cli/print.h"

enum { MOST_PICTURE_BYTES = 32 << 20 };

/* Reads a picture of the kit's folder; a name that leads out of the folder is not there. */
static bool find_picture(void *context, text name, text *bytes) {
    print_job *j = context;
    err e;
    if (name.at[0] == '/' || text_find(name, TEXT("..")) >= 0)
        return false;
    text path = arena_format(j->call->memory, "%s/%.*s", j->source, TEXT_ARG(name));
    return sys_read_file(j->call->memory, path.at, MOST_PICTURE_BYTES, bytes, &e);
}

/* A picture that was copied into the build file. */
static bool find_picture_of_build(void *context, text name, text *bytes) {
    print_job *j = context;
    err e;
    return desk_picture(j->build, name, bytes, &e) && bytes->len;
}

static const print_kind *find_kind(const char *name, err *e) {
    buf names = {0};
    size_t n;
    const print_kind *kinds = print_kinds(&n), *found = NULL;
    for (size_t i = 0; i < n; i++) {
        if (strcmp(kinds[i].name, name) == 0)
            found = &kinds[i];
        buf_addf(&names, "%s%s", i == 0 ? "choose " : i + 1 == n ? " or " : ", ", kinds[i].name);
    }
    if (!found)
        err_input(e, "print", names.at, "there is no sheet \"%s\"", name);
    buf_free(&names);
    return found;
}

/* Refuses what the sheet would not heed. */
static bool options_fit(const print_job *j, const print_kind *kind, err *e) {
    static const char *const choosing[] = {"box",   "copies", "step", "session", "grid",
                                           "label", "corner", "gap",  "first",   "address"};
    for (size_t i = 0; i < sizeof choosing / sizeof choosing[0]; i++)
        if (cli_given(j->call, choosing[i]) && !strstr(kind->options, choosing[i]))
            return err_input(e, "print", "leave it out", "%s takes no --%s", kind->name, choosing[i]);
    return !kind->of_build || j->build ||
           err_input(e, j->source, "name a build file; see kitbench new --help",
                     "it is a kit folder, and %s is of a build", kind->name);
}

static int print_result(print_job *j, const char *out) {
    buf answer = {0};
    if (j->call->json) {
        json_out json = json_to(&answer);
        json_put_object(&json, NULL);
        json_put_text(&json, "file", text_of(out));
        json_put_integer(&json, "pages", j->notes.pages);
        json_put_integer(&json, "bytes", (int64_t)j->pdf.len);
        json_put_array(&json, "notes");
        for (size_t i = 0; i < j->notes.n; i++)
            json_put_text(&json, NULL, j->notes.list[i]);
        json_end_array(&json);
        json_end_object(&json);
    } else {
        buf_addf(&answer, "%s: %d page%s\n", out, j->notes.pages, j->notes.pages == 1 ? "" : "s");
        for (size_t i = 0; i < j->notes.n; i++)
            buf_addf(&answer, "note: %.*s\n", TEXT_ARG(j->notes.list[i]));
    }
    return cli_print(&answer, EXIT_DONE);
}

bool print_may_replace(const char *path, err *e) {
    FILE *there = sys_is_file(path) ? fopen(path, "rb") : NULL;
    if (!there)
        return true; /* writing tells what is wrong, if anything */
    char begin[5];
    size_t n = fread(begin, 1, sizeof begin, there);
    (void)fclose(there);
    if (n == 0 || (n == sizeof begin && memcmp(begin, "%PDF-", sizeof begin) == 0))
        return true;
    return err_input(e, path, "choose another name, or move that file away",
                     "there is a file of that name already, and it is no PDF");
}

static bool read_ruler(print_job *j, err *e) {
    const char *value = cli_value(j->call, "ruler");
    int64_t hundredths;
    number_fault why;
    if (!value)
        return true;
    if (!number_decimal(text_of(value), 2, 8100, 12400, &hundredths, &why))
        return err_input(e, "--ruler", why.remedy, "%s", why.cause);
    j->setup.printed_mm = (double)hundredths / 100;
    return true;
}

static int compose_and_write(print_job *j, const print_kind *kind) {
    err e = {0};
    const char *out = cli_value(j->call, "output");
    const char *size = cli_value(j->call, "paper");
    if (!out) {
        err_input(&e, "print", "add -o OUT.pdf", "the name of the PDF is missing");
        return cli_fail(&e);
    }
    if (!options_fit(j, kind, &e))
        return cli_fail(&e);
    if (size && !paper_size_read(text_of(size), &j->setup.size, &e))
        return cli_fail(&e);
    if (!read_ruler(j, &e))
        return cli_fail(&e);
    if (!kind->compose)
        return print_all(j, out);
    bool ok =
        print_may_replace(out, &e) && kind->compose(j, &e) && sys_write_file(out, buf_text(&j->pdf), &e);
    int code = ok ? print_result(j, out) : cli_fail(&e);
    buf_free(&j->pdf);
    return code;
}

static int print_kit(print_job *j, const print_kind *kind) {
    err e = {0};
    faults f = faults_in(j->call->memory);
    const kit_workshop *none;
    if (!kit_read(j->call->memory, j->source, NULL, &f, &j->kit, &none, &e))
        return e.kind == ERR_NONE ? cli_fail_faults(j->call, &f) : cli_fail(&e);
    j->setup = (paper_setup){.as_of = PAPER_NO_MOMENT, .find_picture = find_picture, .context = j};
    return compose_and_write(j, kind);
}

static int print_build(print_job *j, const print_kind *kind) {
    err e = {0};
    if (!desk_open(j->call->memory, j->source, DESK_READ, "print", &j->build, &e))
        return cli_fail(&e);
    j->kit = j->build->kit;
    j->setup = (paper_setup){.as_of = j->build->changed, .find_picture = find_picture_of_build, .context = j};
    int code = compose_and_write(j, kind);
    desk_close(j->build);
    return code;
}

int cmd_print(cli_call *call) {
    err e = {0};
    print_job j = {.call = call, .source = call->arguments[0]};
    const print_kind *kind = find_kind(call->arguments[1], &e);
    if (!kind)
        return cli_fail(&e);
    j.kind = kind;
    return sys_is_folder(j.source) ? print_kit(&j, kind) : print_build(&j, kind);
}
