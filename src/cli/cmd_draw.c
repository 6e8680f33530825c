/* cmd_draw.c: `kitbench draw`: charts of the plan as SVG. */
#include <string.h>

#include "base/number.h"
#include "base/sys.h"
#include "cli/commands.h"
#include "cli/plan_call.h"
#include "picture/picture.h"

/* Millimetres, as points; A4 between its margins when nothing is said. */
static bool read_width(const cli_call *call, double *points, err *e) {
    const char *width = cli_value(call, "width");
    int64_t millimetres = 180;
    number_fault why;
    if (width && !number_integer(text_of(width), 55, 2000, &millimetres, &why))
        return err_input(e, "--width", why.remedy, "%s", why.cause);
    *points = (double)millimetres * PICTURE_MM;
    return true;
}

static bool is_svg_or_new(const char *path, err *e) {
    size_t n = strlen(path);
    return (n > 4 && strcmp(path + n - 4, ".svg") == 0) ||
           err_input(e, path, "let it end in .svg", "the picture is written as SVG");
}

int cmd_draw(cli_call *call) {
    err e;
    plan_call it;
    plan *p;
    double width = 0;
    const char *out = cli_value(call, "output");
    if (strcmp(call->arguments[1], "joining") != 0) {
        err_input(&e, "draw", "write joining", "there is no chart \"%s\"", call->arguments[1]);
        return cli_fail(&e);
    }
    if (!read_width(call, &width, &e) || (out && !is_svg_or_new(out, &e)) ||
        !plan_call_open(call, "draw", &it, &e))
        return cli_fail(&e);
    bool made = plan_make(call->memory, &it.in, &p, &e);
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    if (p->n_steps == 0) {
        err_input(&e, "draw", "see kitbench plan", "no step can be planned, so there is nothing to draw");
        return cli_fail(&e);
    }
    picture chart = picture_draw_joining(call->memory, p, width);
    buf svg = {0};
    text says = arena_format(call->memory,
                             "%u steps in working time from top to bottom, the main machine in the middle, "
                             "sub-assemblies beside it down to the step they join at.",
                             (unsigned)p->n_steps);
    picture_write_svg(&chart, arena_format(call->memory, "Joining chart of %.*s", TEXT_ARG(p->kit->name)),
                      says, &svg);
    if (!out)
        return cli_print(&svg, EXIT_DONE);
    bool written = sys_write_file(out, buf_text(&svg), &e);
    buf_free(&svg);
    if (!written)
        return cli_fail(&e);
    buf answer = {0};
    buf_addf(&answer, "%s: %.0f x %.0f mm\n", out, chart.width / PICTURE_MM, chart.height / PICTURE_MM);
    return cli_print(&answer, EXIT_DONE);
}
