/* kit_source.h: a kit from wherever the person has it: the kit's folder, or a build file that holds a copy of it. */
#ifndef CLI_KIT_SOURCE_H
#define CLI_KIT_SOURCE_H

#include "cli/cli.h"
#include "desk/desk.h"

typedef struct {
    const kit *kit;
    const kit_workshop *workshop; /* NULL: none is known */
    desk *build;                  /* NULL: a kit folder */
} kit_source;

/* `workshop` is the folder of --workshop, NULL when it was not given or the command has none; a build file has its own and
 * refuses another. False: it failed, the failure was told, and `code` is the exit code. Close with kit_source_close. */
MUST_USE bool kit_source_open(const cli_call *call, const char *path, const char *workshop, kit_source *out,
                              int *code);
void kit_source_close(kit_source *s);

#endif
