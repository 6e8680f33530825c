/* tools_need.h: which tools a kit's steps want, how many of each at once, and what is there of them.
 *
 * Two sources: the fasteners of a step (what turns and holds them), and the tools its table names. A screw's head and the
 * nut of one size in one step are held at the same time: two of that spanner. A tool of the table that serves a
 * fastener's need ("ring spanner 13 mm") is counted with that need; the others stand by themselves.
 */
#ifndef CLI_TOOLS_NEED_H
#define CLI_TOOLS_NEED_H

#include "kit/kit.h"
#include "trade/tools.h"

typedef struct {
    kit_index tool;     /* of the kit's table; KIT_NONE: `need` says what it is */
    tool_need need;     /* of a fastener */
    uint32_t *per_step; /* how many each step wants */
    uint32_t steps;     /* that want it */
    uint32_t at_once;   /* the most that the groups can want at the same time */
    int64_t in_table;   /* how many the kit advises to have; a set counts as one of each size */
    int64_t owned;      /* how many the workshop has; -1: no workshop is known */
    int64_t days;       /* to obtain one, the shortest of the tools that serve; 0: not said */
} tool_line;

typedef struct {
    const kit *k;
    const kit_workshop *w; /* NULL: none is known */
    tool_line *lines;      /* fasteners' needs by sort and size, then the table's other tools in its order */
    uint32_t n, cap;
    bool *used; /* by the kit's tools: some step wants it, or a fastener does */
    arena *memory;
} tool_list;

/* `groups` work at once, 1 or more. Everything lives in the arena. */
void tools_need(arena *a, const kit *k, const kit_workshop *w, uint32_t groups, tool_list *out);

/* How many are lacking: of the workshop's when it is known, else of the kit's table. 0: enough. */
int64_t tools_lacking(const tool_line *line);

/* "spanner 13 mm", or the name in the table. In the arena. */
text tools_line_name(const tool_list *l, const tool_line *line);

#endif
