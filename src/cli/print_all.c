/* print_all.c: `kitbench print FILE all`: every sheet there is, a PDF for each, into one folder. */
#include "base/sys.h"
#include "cli/print.h"

typedef struct {
    const char *name;
    int pages;
    size_t bytes;
    text why_not; /* empty: it was written */
} printed;

/* What a kit or build has nothing for is left out and told; anything else ends it. */
static bool print_one(print_job *j, const print_kind *kind, const char *folder, printed *out, err *e) {
    *out = (printed){.name = kind->name};
    if (kind->of_build && !j->build) {
        out->why_not = TEXT("it is of a build, and this is a kit folder");
        return true;
    }
    text path = arena_format(j->call->memory, "%s/%s.pdf", folder, kind->name);
    j->kind = kind;
    int before = j->notes.pages;
    bool made = print_may_replace(path.at, e) && kind->compose(j, e);
    if (!made && e->kind == ERR_INPUT)
        out->why_not = arena_text(j->call->memory, text_of(e->cause));
    bool ok = made ? sys_write_file(path.at, buf_text(&j->pdf), e) : e->kind == ERR_INPUT;
    out->pages = j->notes.pages - before;
    out->bytes = j->pdf.len;
    buf_free(&j->pdf);
    return ok;
}

static void tell_json(const print_job *j, const char *folder, const printed *list, size_t n, buf *out) {
    json_out json = json_to(out);
    json_put_object(&json, NULL);
    json_put_text(&json, "folder", text_of(folder));
    json_put_integer(&json, "pages", j->notes.pages);
    json_put_array(&json, "sheets");
    for (size_t i = 0; i < n; i++) {
        json_put_object(&json, NULL);
        json_put_text(&json, "sheet", text_of(list[i].name));
        if (list[i].why_not.len) {
            json_put_text(&json, "left_out", list[i].why_not);
        } else {
            json_put_integer(&json, "pages", list[i].pages);
            json_put_integer(&json, "bytes", (int64_t)list[i].bytes);
        }
        json_end_object(&json);
    }
    json_end_array(&json);
    json_put_array(&json, "notes");
    for (size_t i = 0; i < j->notes.n; i++)
        json_put_text(&json, NULL, j->notes.list[i]);
    json_end_array(&json);
    json_end_object(&json);
}

static void tell(const print_job *j, const char *folder, const printed *list, size_t n, buf *out) {
    buf_addf(out, "%s: %d pages\n", folder, j->notes.pages);
    for (size_t i = 0; i < n; i++) {
        if (list[i].why_not.len)
            buf_addf(out, "  %-15s left out: %.*s\n", list[i].name, TEXT_ARG(list[i].why_not));
        else
            buf_addf(out, "  %-15s %3d page%s\n", list[i].name, list[i].pages, list[i].pages == 1 ? "" : "s");
    }
    for (size_t i = 0; i < j->notes.n; i++)
        buf_addf(out, "note: %.*s\n", TEXT_ARG(j->notes.list[i]));
}

int print_all(print_job *j, const char *folder) {
    err e = {0};
    size_t n, written = 0;
    const print_kind *kinds = print_kinds(&n);
    printed *list = arena_array(j->call->memory, printed, n);
    bool ok = sys_make_folder(folder, &e);
    for (size_t i = 0; ok && i < n; i++)
        if (kinds[i].compose)
            ok = print_one(j, &kinds[i], folder, &list[written++], &e);
    if (!ok)
        return cli_fail(&e);
    buf out = {0};
    if (j->call->json)
        tell_json(j, folder, list, written, &out);
    else
        tell(j, folder, list, written, &out);
    return cli_print(&out, EXIT_DONE);
}
