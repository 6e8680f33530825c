/* solve_json.h: what the parts of the reader of problems in JSON share. Private to cli/'s solve_json*.c. */
#ifndef CLI_SOLVE_JSON_H
#define CLI_SOLVE_JSON_H

#include <jansson.h>

#include "base/faults.h"
#include "sched/sched.h"

typedef struct {
    const char *file;
    text content;
    faults *found;
    sched_problem *p;
    json_t *root;
    size_t told; /* faults of the problem that have been passed on */
} json_reader;

/* ---- solve_json_rows.c ------------------------------------------------------------------------------------- */

/* A fault of the element at `path`, "needs[3]"; of element `k` of the list `key`. */
void json_complain(const json_reader *r, const char *path, const char *remedy, const char *cause);
void json_complain_at(const json_reader *r, const char *key, size_t k, const char *remedy, const char *cause);

/* What the problem itself found wrong with the element just handed to it. */
void json_pass_on(json_reader *r, const char *key, size_t k);

bool json_in_range(const json_t *v, int64_t high); /* a whole number 0 .. high */
int32_t json_number(const json_t *v);              /* of one in range */
int32_t json_cell(const json_t *row, size_t k, int32_t otherwise);

/* A row of `least` .. `most` whole numbers >= 0. */
bool json_is_row(const json_t *v, size_t least, size_t most);

/* The list under `key`; false and *out NULL when it is not there, or is no list, which is told. */
bool json_list_of(const json_reader *r, const char *key, json_t **out);

/* Every row of a list of rows; what is no such row is told, and `shape` as the remedy. */
typedef void json_use_row(sched_problem *p, const json_t *row);
void json_each_row(json_reader *r, const char *key, size_t least, size_t most, const char *shape,
                   json_use_row *use);

/* A list with one number, or null, for each task. */
typedef void json_use_number(sched_problem *p, int32_t index, int32_t value);
void json_each_task(json_reader *r, const char *key, json_use_number *use);

/* ---- solve_json_parts.c ------------------------------------------------------------------------------------ */

void json_read_tasks(
    json_reader *r); /* first: the others refer to tasks, relations to maps, changes to resources */
void json_read_resources(json_reader *r);
void json_read_calendar(json_reader *r);
void json_read_maps(json_reader *r);
void json_read_relations(json_reader *r);
void json_read_reservoirs(json_reader *r);
void json_read_objectives(json_reader *r);

#endif
