/* manual.c: the man page, written from the command table. */
#include "cli/manual.h"

#include <string.h>

#include "cli/cli.h"

/* Text between macros: no character of it may mean something to groff. */
static void add_escaped(buf *out, const char *from, size_t n) {
    for (size_t i = 0; i < n; i++) {
        if (from[i] == '\\')
            buf_add_z(out, "\\e");
        else if (from[i] == '-')
            buf_add_z(out, "\\-");
        else
            buf_addf(out, "%c", from[i]);
    }
}

static void add_words(buf *out, const char *words) {
    add_escaped(out, words, strlen(words));
}

static void add_line(buf *out, const char *from, size_t n) {
    if (n && (from[0] == '.' || from[0] == '\''))
        buf_add_z(out, "\\&");
    add_escaped(out, from, n);
    buf_add_z(out, "\n");
}

/* The table's paragraphs are filled anew; its indented lines (forms, examples) stay as they are. */
static void add_details(buf *out, const char *details) {
    bool kept = false;
    for (const char *line = details; *line;) {
        size_t n = strcspn(line, "\n");
        bool keep = n && line[0] == ' ';
        if (keep != kept)
            buf_add_z(out, keep ? ".nf\n" : ".fi\n");
        kept = keep;
        if (n)
            add_line(out, line, n);
        else
            buf_add_z(out, ".PP\n");
        line += n + (line[n] == '\n');
    }
    if (kept)
        buf_add_z(out, ".fi\n");
}

static void add_option(buf *out, const cli_option *o) {
    buf_add_z(out, ".TP\n\\fB");
    if (o->letter)
        buf_addf(out, "\\-%c\\fR, \\fB", o->letter);
    buf_add_z(out, "\\-\\-");
    add_words(out, o->name);
    buf_add_z(out, "\\fR");
    if (o->value) {
        buf_add_z(out, " \\fI");
        add_words(out, o->value);
        buf_add_z(out, "\\fR");
    }
    buf_add_z(out, "\n");
    add_line(out, o->help, strlen(o->help));
}

static void add_command(buf *out, const cli_command *command) {
    buf_addf(out, ".SS kitbench %s ", command->name);
    add_words(out, command->arguments);
    buf_add_z(out, "\n");
    add_details(out, command->details);
    for (int i = 0; i < CLI_MAX_OPTIONS && command->options[i].name; i++)
        add_option(out, &command->options[i]);
}

static void add_heading(buf *out, const char *heading) {
    buf_add_z(out, ".SH \"");
    for (const char *c = heading; *c; c++)
        buf_add_char(out, *c >= 'a' && *c <= 'z' ? (char)(*c - 'a' + 'A') : *c);
    buf_add_z(out, "\"\n");
}

static void add_commands(buf *out) {
    const char *above = NULL, *heading;
    const cli_command *command;
    for (size_t i = 0; (command = cli_command_at(i, &heading)); i++) {
        if (heading != above)
            add_heading(out, heading);
        above = heading;
        add_command(out, command);
    }
}

void manual_page(buf *out) {
    buf_add_z(
        out,
        ".\\\" Written by kitbench help --manual from the command table.\n"
        ".TH KITBENCH 1 \"\" \"kitbench " KITBENCH_VERSION "\" \"User commands\"\n"
        ".SH NAME\nkitbench \\- get a machine built from a boxed kit by a crew of beginners\n"
        ".SH SYNOPSIS\n.B kitbench\n.I COMMAND\n.RI [ ARGUMENTS ]\n.RB [ \\-\\-json ]\n"
        ".SH DESCRIPTION\n"
        "A machine arrives as boxes of pieces, a crew of beginners meets for short sessions, and the day is\n"
        "fixed. Kitbench checks the stock, chases what is missing, plans who builds what at which session,\n"
        "prints the sheets, and keeps the account of the build until the machine is released.\n"
        ".PP\n"
        "Every command takes \\fB\\-\\-json\\fR (answer as one JSON object) and \\fB\\-\\-help\\fR.\n");
    add_commands(out);
    buf_add_z(
        out,
        ".SH EXIT STATUS\n.TP\n0\ndone\n.TP\n1\nthe answer is \"no\": pieces missing, late\n"
        ".TP\n2\nbad input\n.TP\n3\ncannot run\n"
        ".SH ENVIRONMENT\n.TP\n.B KITBENCH_NOW\n"
        "the moment that counts as now, as \\fI2027\\-03\\-02 19:04\\fR; the machine's clock when not set\n"
        ".SH FILES\nThe pages named docs/NAME.md lie in the folder of kitbench's documentation, with a kit to try\n"
        "in its folder examples.\n");
}
