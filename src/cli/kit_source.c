/* kit_source.c: a kit from its folder or from a build file. */
#include "cli/kit_source.h"

#include "base/sys.h"

bool kit_source_open(const cli_call *call, const char *path, const char *workshop, kit_source *out,
                     int *code) {
    err e = {0};
    faults f = faults_in(call->memory);
    *out = (kit_source){0};
    if (!sys_is_folder(path) && !sys_is_file(path)) {
        const char *takes = call->command->arguments;
        bool first = takes[takes[0] == '['] == 'K';
        err_input(&e, path,
                  first ? arena_format(call->memory,
                                       "check the name; the kit or build file stands first: kitbench %s %s",
                                       call->command->name, takes)
                              .at
                        : "check the name of the kit's folder or of the build file",
                  "there is no such folder or file");
        *code = cli_fail(&e);
        return false;
    }
    if (sys_is_folder(path)) {
        if (kit_read(call->memory, path, workshop, &f, &out->kit, &out->workshop, &e))
            return true;
        *code = e.kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(&e);
        return false;
    }
    if (workshop) {
        err_input(&e, "--workshop", "leave it out", "a build file has its own workshop");
        *code = cli_fail(&e);
        return false;
    }
    if (!desk_open(call->memory, path, DESK_READ, call->command->name, &out->build, &e)) {
        *code = cli_fail(&e);
        return false;
    }
    out->kit = out->build->kit;
    out->workshop = out->build->workshop;
    return true;
}

void kit_source_close(kit_source *s) {
    desk_close(s->build);
    s->build = NULL;
}
