/* commands.c: the one table of commands, by group, in the order of the help. A new command is a row in its group's file,
 * a line in commands.h, and cmd_NAME.c. */
#include "cli/commands.h"

static const struct {
    const char *heading;
    const cli_command *list; /* ends with an entry without a name */
} groups[] = {
    {"Kits", commands_kits},   {"Stock", commands_stock}, {"Build file", commands_build_file},
    {"Crew", commands_crew},   {"Plan", commands_plan},   {"Build", commands_build},
    {"Paper", commands_paper}, {"Trade", commands_trade}, {"For benchmarks", commands_benchmarks},
    {"About", commands_about},
};

const cli_command *cli_command_at(size_t i, const char **heading) {
    for (size_t g = 0; g < sizeof groups / sizeof groups[0]; g++)
        for (const cli_command *c = groups[g].list; c->name; c++)
            if (i-- == 0) {
                if (heading)
                    *heading = groups[g].heading;
                return c;
            }
    return NULL;
}
