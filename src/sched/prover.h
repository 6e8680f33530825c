/* prover.h: the conflict-driven prover. Private to sched/; shared by its parts.
 *
 * Lazy clause generation (Ohrimenko, Stuckey, Codish, "Propagation via lazy clause generation", 2009; for scheduling
 * Schutt, Feydy, Stuckey, Wallace, "Explaining the cumulative propagator", 2011) on a trail of bounds:
 *
 *   variable  a task's start, the makespan, or 0/1 "a before b" of two tasks that cannot overlap
 *   node      2 * x stands for x itself, 2 * x + 1 for -x; bound[node] is what the node is at least
 *   literal   (node, v): "node >= v". Its opposite is (node ^ 1, 1 - v). There are no other Booleans, so that the order
 *             of literals on one node costs nothing.
 *   trail     every rise of a bound, with why. Undoing is walking it back.
 *   reason    a kind and two numbers. It is turned into literals only when the analysis of a conflict asks, and then for
 *             the value asked, not the value reached.
 *
 * Invariants. bound[2x] <= -bound[2x+1] outside conflicts. A reason's literals were all true when its entry was made
 * (asserted with KB_CHECK_EXPLANATIONS). Learned clauses follow from the problem and "makespan <= best - 1", never
 * from assumptions. Nothing is allocated while propagating: room is made before (search.c), and growing after all where it was not
 * enough is counted (memory.h).
 */
#ifndef SCHED_PROVER_H
#define SCHED_PROVER_H

#include "sched/solve.h"

typedef struct {
    int32_t node, at_least;
} literal;

typedef enum {
    WHY_ROOT,     /* true without assumptions */
    WHY_DECISION, /* chosen */
    WHY_CLAUSE,   /* a: clause */
    WHY_ARC,      /* a: node it follows from, b: distance */
    WHY_ORDER,    /* a: conditional arc taken because its order holds */
    WHY_TOO_LATE, /* a: pair; the order is excluded by the bounds */
    WHY_TABLE,    /* a: resource, b: time at which it is full */
    WHY_BEYOND,   /* a: general arc (calendar in between), b: 0 forward, 1 backward */
    WHY_STOCK,    /* a: reservoir, b: time */
    WHY_ENERGY,   /* a: resource, b: note with the window */
    WHY_COST      /* a: objective row, b: 0 its sum, else 1 + the term cut off */
} why_kind;

typedef struct {
    int32_t node, old, value;
    int32_t previous; /* entry of the same node before this one, or -1 */
    int32_t level;
    why_kind kind;
    int32_t a, b;
} trail_entry;

/* "bound[to] >= bound[from] + distance", listed by `from`. */
typedef struct {
    int32_t to, distance;
} node_arc;

/* The same while literal (when, 1) holds. */
typedef struct {
    int32_t from, to, distance, when;
} order_arc;

/* Two tasks that never overlap. Variable `order` is 1: a before b; 0: b before a. */
typedef struct {
    int32_t a, b, order;
} order_pair;

/* A relation through a map, or from the end of a task whose length depends on its start. */
typedef struct {
    int32_t from, to; /* variables */
    model_arc arc;
} general_arc;

/* A window of the energy propagator, kept as long as the trail entry that names it. */
typedef struct {
    int32_t resource, from, to;
} energy_note;

/* Of a clause: one of its two watched literals. */
typedef struct {
    literal other;    /* another literal of the clause: where it is true there is nothing to do */
    int32_t falls_at; /* the value of the node at which the watched literal becomes false */
    uint32_t at;      /* 2 * clause + which */
} watch;

/* A run in watch[]. */
typedef struct {
    uint32_t at, n, room;
} watch_bucket;

enum { WATCH_BUCKETS = 64, WATCH_SIZES = 30 };

typedef struct energy energy;
typedef struct cost_term cost_term;

typedef struct prover prover;

struct prover {
    solve *s;
    const model *m;
    memory *mem;

    int32_t n;        /* tasks; variables 0 .. n - 1 are their starts */
    int32_t makespan; /* variable */
    int32_t variables, nodes;
    int32_t *bound, *root; /* by node; root: bounds at level 0 */
    int32_t *first_bound;  /* by node: before anything was learned */
    int32_t *latest;       /* by node: its last entry on the trail, or -1 */

    trail_entry *trail;
    int32_t trail_n, trail_room, done; /* entries before `done` have been propagated */
    int32_t level, *level_at, level_room;
    bool inconsistent; /* a conflict without any assumption: nothing better exists */

    /* The conflict: a literal that could not be made true (node >= 0), or a reason that is false by itself. */
    literal failed;
    why_kind failed_kind;
    int32_t failed_a, failed_b;

    /* arcs */
    int32_t *arc_at;
    node_arc *arc;
    int32_t general_arcs;
    general_arc *general;
    int32_t *general_at, *general_of; /* by variable: indices into general */
    int32_t pairs;
    order_pair *pair;
    int32_t order_arcs;
    order_arc *order_arc;         /* 4 * pair .. 4 * pair + 3 */
    int32_t *order_at, *order_of; /* by node: indices of order arcs from it */
    int32_t *pair_at, *pair_of;   /* by task: pairs */

    /* time table */
    int32_t words, horizon;
    uint64_t *free;               /* time * words: capacity less what certainly runs */
    int32_t *part_from, *part_to; /* by task: what of it is in the table; from >= to: nothing */
    bool *dirty;
    int32_t *dirty_task, dirty_n;
    int32_t changed_from, changed_to; /* times whose free capacity fell since the last filter */
    int32_t *table_task, table_tasks; /* tasks with a need */

    /* energy */
    energy_note *note;
    int32_t notes, note_room;
    energy *energy;
    bool energy_on;

    /* objectives of the second stage */
    int32_t rows, first_cost; /* variables first_cost + row */
    int32_t *row_at;
    struct cost_term *term;
    int64_t *row_base; /* value of the objective where the variable is 0 */
    int32_t goal;      /* the variable that search() caps */
    uint64_t energy_pushes;
    bool energy_always;
    float energy_pause;  /* fixpoints to pass over between two sweeps */
    int32_t energy_wait; /* that are left */

    /* clauses: cells in one array; see clauses.c */
    literal *cell;
    uint32_t cells, cell_room;
    int32_t learned_n, learned_limit;

    /* watches of the clauses; see watches.c */
    watch *watch;
    uint32_t watch_top, watch_room, free_run[WATCH_SIZES];
    watch_bucket *bucket;
    int32_t *bucket_at;    /* by node, nodes + 1: its buckets */
    uint64_t *bucket_used; /* by node: a bit for each bucket with something in it */
    int32_t *bucket_base, *bucket_shift;

    /* analysis */
    int32_t *past;                            /* bounds as they were at the entry looked at */
    int32_t *need;                            /* by node: the value needed, or INT32_MIN */
    int32_t *needed, needed_n, *needed_stamp; /* nodes that were ever needed in this analysis */
    literal *why;                             /* the explanation under construction */
    int32_t why_n, why_room;
    literal *lesson;                 /* the learned clause */
    int32_t lesson_n, lesson_blocks; /* blocks: how many levels it speaks of */
    int32_t *level_seen, level_seen_room, stamp;
    int32_t *level_bound, *level_bound_stamp; /* by node: bound when the level of the conflict began */
    bool out_of_memory;

    /* branching */
    int32_t *atom_at, *atom_base; /* by variable: atoms of its values; the first value */
    int32_t atoms;
    float *activity;
    float bump;
    int32_t *heap, heap_n, *heap_place;
    int32_t *aside, aside_n, *aside_level;
    bool by_activity;
    int32_t *target; /* starts to lean to (the incumbent), by variable */
    bool has_target;

    uint64_t steps; /* elementary steps, handed to solve_spend now and then */
    uint64_t conflicts, decisions, restarts;
};

static inline int32_t lower(const prover *p, int32_t x) {
    return p->bound[2 * x];
}
static inline int32_t upper(const prover *p, int32_t x) {
    return -p->bound[2 * x + 1];
}
static inline bool is_true(const prover *p, literal l) {
    return p->bound[l.node] >= l.at_least;
}
static inline bool is_false(const prover *p, literal l) {
    return p->bound[l.node ^ 1] >= 1 - l.at_least;
}
static inline literal opposite(literal l) {
    return (literal){l.node ^ 1, 1 - l.at_least};
}

/* prover.c. With variables for the first `rows` objectives; no schedule longer than `horizon`. */
MUST_USE bool prover_open(prover *p, solve *s, int32_t rows, int32_t horizon);

/* trail.c. set_bound: false on conflict. */
bool set_bound(prover *p, int32_t node, int32_t value, why_kind kind, int32_t a, int32_t b);
void fail_with(prover *p, why_kind kind, int32_t a, int32_t b);
void undo_to(prover *p, int32_t level);
bool new_level(prover *p); /* false: no memory */
bool trail_reserve(prover *p);
/* The weakest value that, with the allowed starts, says the same as v. */
int32_t weakest(const prover *p, int32_t node, int32_t v);

/* propagate.c: to the fixpoint; false on conflict. */
bool propagate(prover *p);

/* One propagator a file. */
bool propagate_arcs(prover *p, const trail_entry *e); /* prop_precedence.c */
bool propagate_general(prover *p, const trail_entry *e);
bool propagate_all_general(prover *p);                  /* at the root, where fixed tasks leave no entries */
bool propagate_orders(prover *p, const trail_entry *e); /* prop_order.c */
bool propagate_clauses(prover *p, int32_t node, int32_t old); /* clauses.c */
bool table_open(prover *p);                                   /* prop_timetable.c */
bool table_update(prover *p);
bool table_filter(prover *p);
void table_undo(prover *p, int32_t i);
bool energy_open(prover *p);    /* prop_energy.c */
bool energy_reserve(prover *p); /* more room for notes; false: no memory */
void energy_touch(prover *p, int32_t task);
bool propagate_energy(prover *p);
bool propagate_stock(prover *p); /* prop_stock.c */

bool costs_open(prover *p, int32_t rows);    /* prop_cost.c */
int64_t costs_range(prover *p, int32_t row); /* sets row_base; the greatest value of the row's variable */
bool propagate_costs(prover *p);
int32_t cost_best_start(const prover *p, int32_t row, int32_t task);

/* Explanations: literals that were true before the entry and imply (node, v); read p->past, write through add_why. */
void explain(prover *p, why_kind kind, int32_t a, int32_t b, literal l);
void explain_general(prover *p, int32_t k, int32_t backward, literal l);
void explain_too_late(prover *p, int32_t k, literal l);
void explain_table(prover *p, int32_t r, int32_t t, literal l);
void explain_energy(prover *p, int32_t r, int32_t note, literal l);
void explain_cost(prover *p, int32_t row, int32_t term, literal l);
void explain_stock(prover *p, int32_t v, int32_t t, literal l);

/* Debug: every literal of an explanation held before the entry. */
void check_why(const prover *p);

static inline void add_why(prover *p, int32_t node, int32_t at_least) {
    if (at_least > p->root[node])
        p->why[p->why_n++] = (literal){node, at_least};
}

/* clauses.c */
bool clauses_open(prover *p);
/* Adds a clause whose first two literals are the ones to watch; its reference, or 0 without memory. */
uint32_t clause_add(prover *p, const literal *l, int32_t n, int32_t blocks);
/* The clause had a part in a conflict: the next reduction spares it if it is not much worse than the middle. */
void clause_mark_used(prover *p, uint32_t ref);
/* At level 0: drops learned clauses that lie in the worse half by blocks, but for those near the middle that had a part in a
 * conflict since the last time; and what the root facts make superfluous. */
void clauses_reduce(prover *p);
int32_t clauses_middle(const prover *p); /* half of the learned clauses have at most so many blocks */
/* All clauses, one after the other; clause_read is false behind the last. */
uint32_t clause_first(void);
uint32_t clause_next(const prover *p, uint32_t ref);
bool clause_read(const prover *p, uint32_t ref, int32_t *size, int32_t *blocks);
int32_t clause_size(const prover *p, uint32_t ref);
const literal *clause_literals(const prover *p, uint32_t ref);

/* watches.c */
bool watches_open(prover *p);
bool watches_reserve(prover *p); /* ahead of adding a clause; false: no memory */
void watches_clear(prover *p);
int32_t watch_bucket_of(const prover *p, int32_t node, int32_t value);
void watch_hang(prover *p, uint32_t at, literal mine, literal other); /* without memory: sets out_of_memory */

/* analyse.c: fills lesson (its first literal is the asserting one) and returns the level to go back to, -1 when the
 * conflict needs no assumption. */
int32_t analyse(prover *p);

/* branch.c */
bool branch_open(prover *p);
bool decide(prover *p); /* false: everything is fixed */
void branch_bump(prover *p, literal l);
void branch_decay(prover *p);
void branch_undone(prover *p); /* after undo_to */

/* search.c */
typedef enum { SEARCH_LIMIT, SEARCH_SOLVED, SEARCH_REFUTED } search_end;
/* One run from the root: looks for a schedule with goal <= cap (an assumption; INT32_MAX: none) for so many conflicts. SOLVED: starts are
 * the lower bounds, at the level reached. REFUTED: none exists. */
search_end search(prover *p, int32_t cap, uint64_t conflict_limit);

/* prove.c: parts the second stage uses too. */
void prover_lean(prover *p); /* phases towards the best schedule */
bool prover_add_refused_bounds(prover *p);
uint64_t prover_luby(uint64_t k);

#define PROVER_TASKS_MAX 3000 /* pairs of tasks are looked at: quadratic */
#define PROVER_RESTART 100    /* conflicts */

#endif
