/* analyse.c: from a conflict to a clause.
 *
 * Walks the trail backwards with a copy of the bounds, so that at each entry they are those of the moment it was made.
 * need[node] is the value a node must have reached for the conflict to follow; an entry that reached it is replaced by its
 * explanation, until one literal of the conflict's level is left (the first unique implication point; Marques-Silva and
 * Sakallah, "GRASP", 1999). Because a value is needed, not the value reached, literals get weaker on the way.
 *
 * The walk then goes on to the bottom to minimise: a literal whose explanation is implied by what is needed anyway is
 * dropped, or weakened when only a lower value of its own node is missing. Justifications point down the trail, or to
 * literals already kept for good, so that they cannot go round. */
#include "sched/prover.h"

#include <string.h>

#define NOT_NEEDED INT32_MIN

/* The value of a node when the conflict's level began. */
static int32_t bound_before_level(prover *p, int32_t node) {
    if (p->level_bound_stamp[node] == p->stamp)
        return p->level_bound[node];
    int32_t value = p->bound[node], start = p->level_at[p->level - 1];
    for (int32_t k = p->latest[node]; k >= start; k = p->trail[k].previous)
        value = p->trail[k].old;
    p->level_bound_stamp[node] = p->stamp;
    p->level_bound[node] = value;
    return value;
}

typedef struct {
    int32_t here;        /* literals needed of the conflict's level */
    int32_t outstanding; /* all literals needed whose entry has not been met */
} walk;

static void require(prover *p, walk *w, literal l) {
    l.at_least = weakest(p, l.node, l.at_least);
    int32_t before = p->need[l.node];
    if (l.at_least <= p->root[l.node] || l.at_least <= before)
        return;
    if (before == NOT_NEEDED) {
        if (p->needed_stamp[l.node] != p->stamp) {
            p->needed_stamp[l.node] = p->stamp;
            p->needed[p->needed_n++] = l.node;
        }
        w->outstanding++;
    }
    int32_t start = bound_before_level(p, l.node);
    if (before <= start && l.at_least > start)
        w->here++;
    p->need[l.node] = l.at_least;
}

static void require_all(prover *p, walk *w) {
    for (int32_t k = 0; k < p->why_n; k++)
        require(p, w, p->why[k]);
}

/* Is what the explanation in why[] says implied by what is needed anyway? A lower value of `node` itself may be
 * missing: then it is put in *own. */
static bool implied(const prover *p, int32_t node, int32_t *own) {
    for (int32_t k = 0; k < p->why_n; k++) {
        literal l = p->why[k];
        if (l.node == node) {
            *own = l.at_least > *own ? l.at_least : *own;
            continue;
        }
        if (l.at_least > p->need[l.node])
            return false;
    }
    return true;
}

static void keep(prover *p, literal needed, int32_t level, int32_t *back) {
    p->lesson[p->lesson_n++] = opposite(needed);
    if (level > *back) {
        *back = level;
        literal highest = p->lesson[p->lesson_n - 1]; /* watch one of the highest level */
        p->lesson[p->lesson_n - 1] = p->lesson[1];
        p->lesson[1] = highest;
    }
    if (p->level_seen[level] != p->stamp) {
        p->level_seen[level] = p->stamp;
        p->lesson_blocks++;
    }
}

/* The rest of the walk: literals of lower levels are kept, dropped or weakened. */
static int32_t minimise(prover *p, walk *w, int32_t at) {
    int32_t back = 0;
    for (; at >= 0 && w->outstanding > 0; at--) {
        const trail_entry *e = &p->trail[at];
        int32_t needed = p->need[e->node];
        p->past[e->node] = e->old;
        if (needed <= e->old || needed > e->value) /* the second: kept already, its entry lies above */
            continue;
        int32_t own = NOT_NEEDED;
        bool drop = false;
        if (e->kind != WHY_DECISION) {
            p->need[e->node] = NOT_NEEDED;
            explain(p, e->kind, e->a, e->b, (literal){e->node, needed});
            p->need[e->node] = needed;
            drop = implied(p, e->node, &own);
        }
        if (drop && own != NOT_NEEDED) {
            p->need[e->node] = own; /* weaker; its entry is further down */
        } else if (drop) {
            p->need[e->node] = NOT_NEEDED;
            w->outstanding--;
        } else {
            keep(p, (literal){e->node, needed}, e->level, &back);
            w->outstanding--;
        }
    }
    return back;
}

/* Level at which literal l became true. */
static int32_t level_of(const prover *p, literal l) {
    int32_t k = p->latest[l.node];
    while (k >= 0 && p->trail[k].old >= l.at_least)
        k = p->trail[k].previous;
    return k < 0 ? 0 : p->trail[k].level;
}

/* The literals of the conflict in why[]; undoes levels that have no part in it. */
static void begin(prover *p) {
    memcpy(p->past, p->bound, (size_t)p->nodes * sizeof *p->past);
    explain(p, p->failed_kind, p->failed_a, p->failed_b, p->failed);
    if (p->failed.node >= 0)
        add_why(p, p->failed.node ^ 1, 1 - p->failed.at_least);
    int32_t highest = 0;
    for (int32_t k = 0; k < p->why_n; k++) {
        int32_t level = level_of(p, p->why[k]);
        highest = level > highest ? level : highest;
    }
    if (highest < p->level) {
        undo_to(p, highest);
        memcpy(p->past, p->bound, (size_t)p->nodes * sizeof *p->past);
    }
}

int32_t analyse(prover *p) {
    p->stamp++;
    p->lesson_n = p->lesson_blocks = p->needed_n = 0;
    begin(p);
    if (p->level == 0)
        return -1;
    walk w = {0, 0};
    require_all(p, &w);
    int32_t at = p->trail_n - 1;
    for (;; at--) {
        const trail_entry *e = &p->trail[at];
        literal l = {e->node, p->need[e->node]};
        p->past[e->node] = e->old;
        if (l.at_least <= e->old)
            continue;
        branch_bump(p, l);
        if (w.here == 1) {
            p->lesson[p->lesson_n++] = opposite(l);
            p->level_seen[e->level] = p->stamp;
            p->lesson_blocks = 1;
            w.outstanding--;
            break;
        }
        p->need[e->node] = NOT_NEEDED;
        w.here--;
        w.outstanding--;
        explain(p, e->kind, e->a, e->b, l);
        if (e->kind == WHY_CLAUSE)
            clause_mark_used(p, (uint32_t)e->a);
        require_all(p, &w);
    }
    int32_t back = minimise(p, &w, at - 1);
    for (int32_t k = 0; k < p->needed_n; k++)
        p->need[p->needed[k]] = NOT_NEEDED;
    for (int32_t k = 1; k < p->lesson_n; k++)
        branch_bump(p, p->lesson[k]);
    branch_decay(p);
    p->steps += (uint64_t)p->trail_n / 4;
    return back;
}
