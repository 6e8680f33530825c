/* solve_json.c: our JSON form of a whole scheduling problem; docs/models.md describes each key. */
#include "cli/solve_json.h"

#include <stdio.h>
#include <string.h>

#include "cli/solve_read.h"

static void look_at_keys(const json_reader *r) {
    static const char *const known[] = {"session_minutes",
                                        "sessions",
                                        "horizon",
                                        "capacity",
                                        "capacity_changes",
                                        "duration",
                                        "needs",
                                        "after",
                                        "after_start",
                                        "release",
                                        "deadline",
                                        "fixed_start",
                                        "cuts",
                                        "crossing",
                                        "allowed_starts",
                                        "maps",
                                        "no_overlap",
                                        "not_all_at_once",
                                        "reservoirs",
                                        "objectives"};
    const char *key;
    json_t *value;
    json_object_foreach(r->root, key, value) {
        bool found = false;
        for (size_t k = 0; k < sizeof known / sizeof *known; k++)
            found = found || strcmp(known[k], key) == 0;
        if (!found)
            json_complain(r, key, "see docs/models.md for the keys", "there is no such key");
    }
}

/* The relation "before, after" in either of the two lists, as a path. */
static bool find_relation(const json_reader *r, int32_t before, int32_t after, char *path, size_t room) {
    static const char *const lists[] = {"after", "after_start"};
    for (int k = 0; k < 2; k++) {
        const json_t *row;
        size_t q;
        json_array_foreach(json_object_get(r->root, lists[k]), q, row) {
            if (json_cell(row, 0, 0) != before || json_cell(row, 1, 0) != after)
                continue;
            snprintf(path, room, "%s[%zu]", lists[k], q);
            return true;
        }
    }
    return false;
}

/* What is wrong with the problem as a whole. */
static void look_at_all(const json_reader *r) {
    enum { MOST = 64 };
    sched_fault wrong[MOST];
    size_t n = sched_validate(r->p, wrong, MOST);
    for (size_t k = 0; k < n && k < MOST; k++) {
        const sched_fault *f = &wrong[k];
        char path[96] = "";
        if (f->code == SCHED_FAULT_CYCLE)
            (void)find_relation(r, f->task, f->other, path, sizeof path);
        else if (f->code == SCHED_FAULT_MAP)
            snprintf(path, sizeof path, "maps[%lld]", (long long)f->value);
        else if (f->code == SCHED_FAULT_COST)
            snprintf(path, sizeof path, "objectives[%lld]", (long long)f->value);
        else if (f->code == SCHED_FAULT_VALUE && f->task != SCHED_NONE)
            snprintf(path, sizeof path, "allowed_starts");
        json_complain(r, path, "", f->text);
    }
}

bool solve_read_json(sched_problem *p, const char *file, text content, faults *found) {
    json_error_t syntax;
    size_t before = found->n;
    json_reader r = {.file = file, .content = content, .found = found, .p = p};
    r.root = json_loadb(content.at, content.len, JSON_REJECT_DUPLICATES, &syntax);
    if (!r.root) {
        char place[192];
        snprintf(place, sizeof place, "%s line %d", file, syntax.line);
        fault_add(found, (fault_place){text_of(place), 0, TEXT("")}, "mend the JSON", "column %d: %s",
                  syntax.column, syntax.text);
        return false;
    }
    if (!json_is_object(r.root)) {
        json_complain(&r, "", "write an object { ... }", "this is no problem");
        json_decref(r.root);
        return false;
    }
    look_at_keys(&r);
    json_read_tasks(&r);
    json_read_resources(&r);
    json_read_calendar(&r);
    json_read_maps(&r);
    json_read_relations(&r);
    json_read_reservoirs(&r);
    json_read_objectives(&r);
    if (found->n == before)
        look_at_all(&r);
    json_decref(r.root);
    return found->n == before;
}
