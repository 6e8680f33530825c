/* cmd_forget.c: `kitbench forget`: blanks a person's name for good. */
#include "cli/build.h"
#include "cli/commands.h"

static void fill(json_out *j, const void *what) {
    json_put_text(j, "forgotten", *(const text *)what);
}

int cmd_forget(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "forget", &d, &e))
        return cli_fail(&e);
    text number;
    desk_who who = {.device = desk_device(call->memory)};
    int code;
    if (desk_forget(d, text_of(call->arguments[1]), who, &number, &e)) {
        text line =
            arena_format(call->memory,
                         "The name is blanked for good; the person is %.*s from now on. Copies of the file, "
                         "printed sheets and the workshop folder still have the name.",
                         TEXT_ARG(number));
        code = build_answer(call, line, fill, &number, EXIT_DONE);
    } else {
        code = cli_fail(&e);
    }
    desk_close(d);
    return code;
}
