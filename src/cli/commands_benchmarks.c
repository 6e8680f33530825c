/* commands_benchmarks.c: the rows of the command table that are about the scheduling kernel by itself. */
#include "cli/commands.h"

const cli_command commands_benchmarks[] = {
    {
        .name = "solve",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "schedule the problem in a file (for benchmarks)",
        .details = "Reads a scheduling problem, in the open PSPLIB text format (single mode) or in\n"
                   "the JSON form of docs/models.md, and prints one JSON object: status, makespan,\n"
                   "lower_bound, proven, seconds, schedules, conflicts, starts. Ctrl-C gives the\n"
                   "best so far. Exit code 1: no schedule.",
        .run = cmd_solve,
        .options = {{.name = "seconds", .value = "S", .help = "stop after S seconds"},
                    {.name = "processor-seconds",
                     .value = "S",
                     .help = "stop after S seconds of processor time of each thread"},
                    {.name = "threads", .value = "N", .help = "use N threads (1)"},
                    {.name = "seed", .value = "K", .help = "seed of all that is random (1)"},
                    {.name = "schedules", .value = "M", .help = "only generate M schedules, prove nothing"}},
    },
    {.name = NULL},
};
