/* solve_json_rows.c: faults of a JSON problem, told with their line, and lists of rows and of numbers. */
#include "cli/solve_json.h"

#include <stdio.h>

#include "cli/json_line.h"

void json_complain(const json_reader *r, const char *path, const char *remedy, const char *cause) {
    char place[192];
    snprintf(place, sizeof place, "%s line %u", r->file, json_line(r->content, path));
    fault_add(r->found, (fault_place){text_of(place), 0, text_of(path)}, remedy, "%s", cause);
}

void json_complain_at(const json_reader *r, const char *key, size_t k, const char *remedy,
                      const char *cause) {
    char path[96];
    snprintf(path, sizeof path, "%s[%zu]", key, k);
    json_complain(r, path, remedy, cause);
}

void json_pass_on(json_reader *r, const char *key, size_t k) {
    sched_fault last;
    size_t n = sched_faults_so_far(r->p, &last);
    if (n > r->told)
        json_complain_at(r, key, k, "", last.text);
    r->told = n;
}

bool json_in_range(const json_t *v, int64_t high) {
    return json_is_integer(v) && json_integer_value(v) >= 0 && json_integer_value(v) <= high;
}

int32_t json_number(const json_t *v) {
    return (int32_t)json_integer_value(v);
}

/* The list under `key`; false and *out NULL when it is not there. */
bool json_list_of(const json_reader *r, const char *key, json_t **out) {
    *out = json_object_get(r->root, key);
    if (*out && !json_is_array(*out)) {
        json_complain(r, key, "write a list [ ... ]", "this is no list");
        *out = NULL;
    }
    return *out != NULL;
}

bool json_is_row(const json_t *v, size_t least, size_t most) {
    if (!json_is_array(v) || json_array_size(v) < least || json_array_size(v) > most)
        return false;
    for (size_t k = 0; k < json_array_size(v); k++)
        if (!json_in_range(json_array_get(v, k), SCHED_AMOUNT_MAX))
            return false;
    return true;
}

int32_t json_cell(const json_t *row, size_t k, int32_t otherwise) {
    return k < json_array_size(row) ? json_number(json_array_get(row, k)) : otherwise;
}

void json_each_row(json_reader *r, const char *key, size_t least, size_t most, const char *shape,
                   json_use_row *use) {
    json_t *list, *row;
    size_t k;
    if (!json_list_of(r, key, &list))
        return;
    json_array_foreach(list, k, row) {
        if (json_is_row(row, least, most)) {
            use(r->p, row);
            json_pass_on(r, key, k);
        } else {
            json_complain_at(r, key, k, shape,
                             "this row is not of whole numbers from 0 on, or has the wrong length");
        }
    }
}

void json_each_task(json_reader *r, const char *key, json_use_number *use) {
    json_t *list, *v;
    size_t k;
    if (!json_list_of(r, key, &list))
        return;
    if (json_array_size(list) != (size_t)sched_task_count(r->p)) {
        json_complain(r, key, "give one value for each task, null where there is none",
                      "the list has the wrong length");
        return;
    }
    json_array_foreach(list, k, v) {
        if (json_is_null(v))
            continue;
        if (json_in_range(v, SCHED_TIME_MAX))
            use(r->p, (int32_t)k, json_number(v));
        else
            json_complain_at(r, key, k, "write a whole number from 0 on, or null", "this is no time");
    }
}
