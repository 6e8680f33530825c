/* cmd_draft.c: `kitbench draft`, a draft kit from somebody else's parts list. */
#include <string.h>
#include <unistd.h>

#include "base/number.h"
#include "base/sys.h"
#include "cli/commands.h"
#include "cli/draft_report.h"

enum { LARGEST_LIST = 16 << 20, LONGEST_NUMBER = 40 };

static bool refuse_word(err *e, const char *option, const char *value, const char *remedy) {
    return err_input(e, option, remedy, "\"%s\" is none of them", value);
}

/* The options that say how the list is written. */
static bool read_wishes(const cli_call *call, draft_wishes *w, err *e) {
    *w = DRAFT_AS_GUESSED;
    const char *encoding = cli_value(call, "encoding"), *separator = cli_value(call, "separator");
    const char *mark = cli_value(call, "decimal"), *header = cli_value(call, "header-row");
    if (encoding && !draft_encoding_read(text_of(encoding), &w->encoding))
        return refuse_word(e, "--encoding", encoding, "write utf-8, utf-16le, utf-16be or windows-1252");
    if (separator && !draft_separator_read(text_of(separator), &w->separator))
        return refuse_word(e, "--separator", separator, "write comma, semicolon or tab");
    if (mark && !draft_mark_read(text_of(mark), &w->mark))
        return refuse_word(e, "--decimal", mark, "write point or comma");
    if (header) {
        int64_t row;
        number_fault why;
        if (!number_integer(text_of(header), 0, 1000000, &row, &why))
            return err_input(e, "--header-row", why.remedy, "%s", why.cause);
        w->header_row = (int)row;
    }
    w->columns = text_of(cli_value(call, "columns"));
    w->open_packs = cli_given(call, "open-packs");
    return true;
}

/* "lists/feeder.csv" to "feeder.csv" and, without the ending, "feeder". */
static text file_name(const char *path) {
    const char *slash = strrchr(path, '/');
    return text_of(slash ? slash + 1 : path);
}

static text stem_of(text file) {
    for (size_t i = file.len; i > 1; i--)
        if (file.at[i - 1] == '.')
            return text_slice(file, 0, i - 1);
    return file;
}

/* A name for machines: letters, digits and dashes, at most 40. */
static text plain_number(arena *a, text t) {
    char *made = arena_alloc(a, LONGEST_NUMBER + 1);
    size_t n = 0;
    for (size_t i = 0; i < t.len && n < LONGEST_NUMBER; i++) {
        char c = t.at[i];
        char low = (char)(c >= 'A' && c <= 'Z' ? c + 32 : c);
        if ((low >= 'a' && low <= 'z') || (low >= '0' && low <= '9'))
            made[n++] = low;
        else if (n && made[n - 1] != '-')
            made[n++] = '-';
    }
    while (n && made[n - 1] == '-')
        n--;
    return n ? (text){made, n} : TEXT("draft");
}

/* The draft must be a kit that all other commands take; if it is not, the mistake is ours and nothing is written. */
static bool is_right(arena *a, const kit_tables *tables, faults *f) {
    const kit *k;
    return kit_from_tables(a, tables, f, &k) && kit_check(k, NULL, f);
}

/* All of the kit or nothing: it is written beside its name, which it gets when it is finished. */
static bool write_whole(arena *a, const kit_tables *tables, const char *folder, text number, text name,
                        err *e) {
    text target = text_of(folder);
    while (target.len > 1 && target.at[target.len - 1] == '/')
        target.len--;
    const char *to = arena_z(a, target);
    const char *beside = arena_format(a, "%s.part-%ld", to, (long)getpid()).at;
    if (kit_write_folder(beside, tables, number, name, e) && sys_give_name(beside, to, e))
        return true;
    sys_drop_folder(beside);
    return false;
}

static int write_kit(cli_call *call, const draft_list *list, const char *folder) {
    err e = {0};
    if (sys_exists(folder)) {
        err_input(&e, folder, "name a folder that is not there yet, or move this one away",
                  "it is there already");
        return cli_fail(&e);
    }
    text stem = stem_of(list->file);
    const char *wished = cli_value(call, "name");
    text name = wished && text_trim(text_of(wished)).len ? text_trim(text_of(wished)) : stem;
    text number = plain_number(call->memory, stem);
    kit_tables tables;
    kit_tables_from_draft(call->memory, list, number, name, &tables);
    faults f = faults_in(call->memory);
    if (!is_right(call->memory, &tables, &f))
        return cli_fail_faults(call, &f);
    return write_whole(call->memory, &tables, folder, number, name, &e) ? EXIT_DONE : cli_fail(&e);
}

int cmd_draft(cli_call *call) {
    err e = {0};
    draft_wishes wishes;
    text bytes;
    if (!read_wishes(call, &wishes, &e) ||
        !sys_read_file(call->memory, call->arguments[0], LARGEST_LIST, &bytes, &e))
        return cli_fail(&e);
    faults f = faults_in(call->memory);
    draft_list list;
    if (!draft_read(call->memory, bytes, file_name(call->arguments[0]), wishes, &f, &list))
        return cli_fail_faults(call, &f);
    const char *folder = cli_value(call, "output");
    if (folder) {
        int code = write_kit(call, &list, folder);
        if (code != EXIT_DONE)
            return code;
    }
    buf out = {0};
    if (call->json)
        draft_report_json(&out, call->memory, &list, folder);
    else
        draft_report_text(&out, call->memory, &list, folder);
    return cli_print(&out, draft_count(&list, DRAFT_NOT_UNDERSTOOD) ? EXIT_NO : EXIT_DONE);
}
