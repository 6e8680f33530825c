/* cli.h: what every command gets, and the one table they all stand in.
 *
 * A command is a row in commands_GROUP.c (name, arguments, options, help) and a function in a file of its own named
 * cmd_NAME.c. Parsing, `--help`, the list of commands and the checks of too few or too many arguments come from the
 * table. Exit codes: 0 done, 1 the answer is "no", 2 bad input, 3 cannot run.
 */
#ifndef CLI_CLI_H
#define CLI_CLI_H

#include "base/buf.h"
#include "base/err.h"
#include "base/faults.h"

enum { EXIT_DONE = 0, EXIT_NO = 1, EXIT_INPUT = 2, EXIT_CANNOT = 3 };

enum { CLI_MAX_OPTIONS = 24 };

typedef struct {
    const char *name;  /* without the dashes: "workshop" */
    char letter;       /* 'o' for -o, or 0 */
    const char *value; /* name of its value in the help, or NULL for a switch */
    const char *help;
} cli_option;

typedef struct cli_call cli_call;

typedef struct {
    const char *name;
    const char *arguments; /* as in the help: "FILE BAG ROW USABLE" */
    int least, most;       /* how many arguments; most < 0: any number */
    const char *summary;   /* one line for the list of commands, at most 56 columns */
    const char *details;   /* paragraphs for --help, lines of at most 80 columns */
    int (*run)(cli_call *call);
    cli_option
        options[CLI_MAX_OPTIONS]; /* ends with a NULL name; --json and --help are added to each command */
} cli_command;

struct cli_call {
    arena *memory; /* lives as long as the command runs */
    const cli_command *command;
    const char *const *arguments; /* positional ones, in order */
    int n_arguments;
    bool json;
    const char *values[CLI_MAX_OPTIONS]; /* by option; a switch that is given has "" */
};

/* The value of an option of the running command, NULL when not given. Naming an option that the command does not have
 * is a mistake of the program (assert). */
const char *cli_value(const cli_call *call, const char *option);
bool cli_given(const cli_call *call, const char *option);

/* The i-th command in the order of the help, NULL past the last; `heading`, when not NULL, gets that of its group. */
const cli_command *cli_command_at(size_t i, const char **heading);

/* Prints a failure to standard error and returns its exit code. */
int cli_fail(const err *e);

/* Prints faults as lines "kitbench: PLACE: CAUSE; REMEDY" to standard error (with --json as one object to standard
 * output) and returns 2. */
int cli_fail_faults(const cli_call *call, faults *f);

/* Standard output is written once, at the end, whole. Frees `out`. Returns `code`, or 3 when writing failed. */
int cli_print(buf *out, int code);

/* Runs the program; `main` does nothing else. */
int cli_main(int argc, char **argv);

#endif
