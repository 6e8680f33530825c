/* completion.c: what the shell offers after a tab, written from the command table. */
#include "cli/cli.h"
#include "cli/manual.h"

/* The options of one command, in the words that compgen splits at spaces. */
static void add_options(buf *out, const cli_command *command) {
    for (int i = 0; i < CLI_MAX_OPTIONS && command->options[i].name; i++)
        buf_addf(out, "--%s ", command->options[i].name);
    buf_add_z(out, "--json --help");
}

void manual_completion(buf *out) {
    const cli_command *c;
    buf_add_z(out, "# Written by kitbench help --completion from the command table.\n"
                   "_kitbench() {\n"
                   "    local word=${COMP_WORDS[COMP_CWORD]} options=\n"
                   "    COMPREPLY=()\n"
                   "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
                   "        mapfile -t COMPREPLY < <(compgen -W '");
    for (size_t i = 0; (c = cli_command_at(i, NULL)); i++)
        buf_addf(out, "%s ", c->name);
    buf_add_z(out, "--help --version' -- \"$word\")\n"
                   "        return\n"
                   "    fi\n"
                   "    case ${COMP_WORDS[1]} in\n");
    for (size_t i = 0; (c = cli_command_at(i, NULL)); i++) {
        buf_addf(out, "    %s) options='", c->name);
        add_options(out, c);
        buf_add_z(out, "' ;;\n");
    }
    buf_add_z(out, "    esac\n"
                   "    if [[ $word == -* ]]; then\n"
                   "        mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n"
                   "    elif [ \"${COMP_WORDS[1]}\" = help ]; then\n"
                   "        mapfile -t COMPREPLY < <(compgen -W '");
    for (size_t i = 0; (c = cli_command_at(i, NULL)); i++)
        buf_addf(out, "%s%s", i ? " " : "", c->name);
    buf_add_z(out, "' -- \"$word\")\n"
                   "    else\n"
                   "        compopt -o filenames\n"
                   "        mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n"
                   "    fi\n"
                   "}\n"
                   "complete -F _kitbench kitbench\n");
}
