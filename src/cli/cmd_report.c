/* cmd_report.c: `kitbench report`: the missing-parts report as text, CSV and PDF. */
#include "base/sys.h"
#include "cli/commands.h"
#include "cli/missing.h"
#include "paper/paper.h"

static const char *const names[] = {"report.txt", "report.csv", "report.pdf"};
enum { REPORT_FILES = 3 };

static void fill(json_out *j, const void *what) {
    const text *paths = what;
    json_put_array(j, "files");
    for (int i = 0; i < REPORT_FILES; i++)
        json_put_text(j, NULL, paths[i]);
    json_end_array(j);
}

static bool make_pdf(cli_call *call, const desk *d, buf *pdf, err *e) {
    paper_setup setup = {.size = PAPER_A4, .as_of = d->changed};
    paper_notes notes = {0};
    const char *size = cli_value(call, "paper");
    return (!size || paper_size_read(text_of(size), &setup.size, e)) &&
           paper_report(call->memory, &setup, d->kit, d->stock, d->workshop ? d->workshop->name : TEXT(""),
                        pdf, &notes, e);
}

static bool write_all(cli_call *call, const desk *d, text paths[REPORT_FILES], err *e) {
    const char *folder = cli_value(call, "output");
    buf files[REPORT_FILES] = {{0}};
    desk_report_text(d, date_of_moment(sys_now()), &files[0]);
    desk_report_csv(d, &files[1]);
    bool ok = make_pdf(call, d, &files[2], e) && sys_make_folder(folder, e);
    for (int i = 0; i < REPORT_FILES; i++) {
        paths[i] = arena_format(call->memory, "%s/%s", folder, names[i]);
        ok = ok && sys_write_file(paths[i].at, buf_text(&files[i]), e);
        buf_free(&files[i]);
    }
    return ok;
}

static int write_files(cli_call *call, const desk *d) {
    err e;
    text paths[REPORT_FILES];
    if (!write_all(call, d, paths, &e))
        return cli_fail(&e);
    text line = arena_format(call->memory, "Written: %.*s, %.*s, %.*s", TEXT_ARG(paths[0]),
                             TEXT_ARG(paths[1]), TEXT_ARG(paths[2]));
    return build_answer(call, line, fill, paths, EXIT_DONE);
}

int cmd_report(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "report", &d, &e))
        return cli_fail(&e);
    int code;
    if (cli_given(call, "output")) {
        code = write_files(call, d);
    } else {
        buf out = {0};
        if (call->json)
            missing_json(d, &out);
        else
            desk_report_text(d, date_of_moment(sys_now()), &out);
        code = cli_print(&out, EXIT_DONE);
    }
    desk_close(d);
    return code;
}
