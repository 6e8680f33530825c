/* cli.c: from argv to a command of the table. */
#include "cli/cli.h"

#include <assert.h>
#include <errno.h>
#include <getopt.h>
#include <stdio.h>
#include <string.h>

#include "base/json_out.h"
#include "cli/help.h"

const char *cli_value(const cli_call *call, const char *option) {
    const cli_option *options = call->command->options;
    for (int i = 0; i < CLI_MAX_OPTIONS && options[i].name; i++)
        if (strcmp(options[i].name, option) == 0)
            return call->values[i];
    assert(false && "the command has no such option");
    return NULL;
}

bool cli_given(const cli_call *call, const char *option) {
    return cli_value(call, option) != NULL;
}

/* One line on standard error. What it quotes comes from files and may hold anything. */
static void say_line(text line) {
    buf out = {0};
    buf_add_visible(&out, line);
    buf_add_char(&out, '\n');
    fputs(out.at, stderr);
    buf_free(&out);
}

int cli_fail(const err *e) {
    char line[1024];
    err_print(e, line, sizeof line);
    fputs("kitbench: ", stderr);
    say_line(text_of(line));
    return e->kind == ERR_NONE ? EXIT_CANNOT : (int)e->kind;
}

static void print_faults_json(faults *f) {
    buf out = {0};
    json_out j = json_to(&out);
    json_put_object(&j, NULL);
    json_put_array(&j, "faults");
    for (size_t i = 0; i < f->n; i++) {
        const fault *one = &f->list[i];
        json_put_object(&j, NULL);
        json_put_text(&j, "file", one->place.file);
        json_put_integer(&j, "row", one->place.row);
        json_put_text(&j, "column", one->place.column);
        json_put_text(&j, "cause", one->cause);
        json_put_text(&j, "remedy", one->remedy);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
    cli_print(&out, EXIT_INPUT);
}

int cli_fail_faults(const cli_call *call, faults *f) {
    faults_sort(f);
    if (call->json) {
        print_faults_json(f);
        return EXIT_INPUT;
    }
    for (size_t i = 0; i < f->n; i++) {
        const fault *one = &f->list[i];
        say_line(arena_format(call->memory, "%.*s: %.*s%s%.*s", TEXT_ARG(faults_place_text(f, i)),
                              TEXT_ARG(one->cause), one->remedy.len ? "; " : "", TEXT_ARG(one->remedy)));
    }
    fprintf(stderr, "kitbench: %zu fault%s found\n", f->n, f->n == 1 ? "" : "s");
    return EXIT_INPUT;
}

int cli_print(buf *out, int code) {
    errno = 0;
    bool written = fwrite(out->at ? out->at : "", 1, out->len, stdout) == out->len && fflush(stdout) == 0;
    if (!written) {
        err e;
        err_run(&e, "standard output", "", "it cannot be written (%s)", strerror(errno));
        code = cli_fail(&e);
    }
    buf_free(out);
    return code;
}

static const cli_command *find_command(const char *name) {
    const cli_command *c;
    for (size_t i = 0; (c = cli_command_at(i, NULL)); i++)
        if (strcmp(c->name, name) == 0)
            return c;
    return NULL;
}

enum { LONG_JSON = 1000, LONG_HELP = 1001, LONG_FIRST = 2000 };

/* The option table in getopt's own form. */
static void list_options(const cli_command *command, struct option *longs, char *letters) {
    size_t n = 0, n_letters = 0;
    letters[n_letters++] = ':';
    for (int i = 0; i < CLI_MAX_OPTIONS && command->options[i].name; i++) {
        const cli_option *o = &command->options[i];
        longs[n++] =
            (struct option){o->name, o->value ? required_argument : no_argument, NULL, LONG_FIRST + i};
        if (o->letter) {
            letters[n_letters++] = o->letter;
            if (o->value)
                letters[n_letters++] = ':';
        }
    }
    longs[n++] = (struct option){"json", no_argument, NULL, LONG_JSON};
    longs[n++] = (struct option){"help", no_argument, NULL, LONG_HELP};
    longs[n] = (struct option){0};
    letters[n_letters] = '\0';
}

static int option_index(const cli_command *command, int code) {
    if (code >= LONG_FIRST)
        return code - LONG_FIRST;
    for (int i = 0; i < CLI_MAX_OPTIONS && command->options[i].name; i++)
        if (command->options[i].letter == code)
            return i;
    return -1;
}

static bool refuse_usage(const cli_command *command, const char *format, ...) PRINTF_LIKE(2, 3);
static bool refuse_usage(const cli_command *command, const char *format, ...) {
    va_list list;
    va_start(list, format);
    fprintf(stderr, "kitbench %s: ", command->name);
    vfprintf(stderr, format, list);
    fprintf(stderr, "; see kitbench %s --help\n", command->name);
    va_end(list);
    return false;
}

/* Fills `call` from the words after the command's name. False when help was asked for (*help) or the use is wrong. */
static bool parse(cli_call *call, int argc, char **argv, bool *help) {
    struct option longs[CLI_MAX_OPTIONS + 3];
    char letters[2 * CLI_MAX_OPTIONS + 2];
    list_options(call->command, longs, letters);
    opterr = 0;
    optind = 1;
    for (int code; (code = getopt_long(argc, argv, letters, longs, NULL)) != -1;) {
        if (code == LONG_HELP) {
            *help = true;
            return false;
        }
        if (code == LONG_JSON) {
            call->json = true;
            continue;
        }
        if (code == ':')
            return refuse_usage(call->command, "option %s needs a value", argv[optind - 1]);
        int i = option_index(call->command, code);
        if (code == '?' && optopt >= '0' && optopt <= '9')
            return refuse_usage(call->command, "%s is below 0", argv[optind - 1]);
        if (code == '?' || i < 0)
            return refuse_usage(call->command, "it has no option %s", argv[optind - 1]);
        call->values[i] = optarg ? optarg : "";
    }
    call->arguments = (const char *const *)argv + optind;
    call->n_arguments = argc - optind;
    if (call->n_arguments < call->command->least)
        return refuse_usage(call->command, "something is missing: it takes %s", call->command->arguments);
    if (call->command->most >= 0 && call->n_arguments > call->command->most)
        return refuse_usage(call->command, "there is too much: it takes %s",
                            call->command->arguments[0] ? call->command->arguments : "no arguments");
    return true;
}

static int run_command(const cli_command *command, int argc, char **argv) {
    cli_call call = {.command = command};
    bool help = false;
    if (!parse(&call, argc, argv, &help)) {
        if (!help)
            return EXIT_INPUT;
        buf out = {0};
        help_command(&out, command);
        return cli_print(&out, EXIT_DONE);
    }
    call.memory = arena_open();
    int code = command->run(&call);
    arena_close(call.memory);
    return code;
}

int cli_main(int argc, char **argv) {
    buf out = {0};
    if (argc < 2 || strcmp(argv[1], "--help") == 0) {
        help_all(&out);
        return cli_print(&out, argc < 2 ? EXIT_INPUT : EXIT_DONE);
    }
    if (strcmp(argv[1], "--version") == 0) {
        buf_add_z(&out, "kitbench " KITBENCH_VERSION "\n");
        return cli_print(&out, EXIT_DONE);
    }
    const cli_command *command = find_command(argv[1]);
    if (!command) {
        fprintf(stderr, "kitbench: there is no command \"%s\"; see kitbench --help\n", argv[1]);
        return EXIT_INPUT;
    }
    return run_command(command, argc - 1, argv + 1);
}
