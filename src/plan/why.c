/* why.c: what holds a build up: each thing that could is given once more, and the plan made again.
 *
 * Changes that cannot matter are not tried: things no planned step asks for, a person just like one tried already; and where more of
 * a kind can only help, all of them are tried at once first. Every search begins from the plan of now. The
 * plan of now stays possible with more of anything, so a plan made again that is later only tells that the search ended
 * early (or that pieces went to other steps); it counts as no gain, not proven. An additional session moves the minutes but not the clock, so plans are compared by the clock.
 */
#include <stdlib.h>
#include <string.h>

#include "plan/plan.h"
#include "plan/supply.h"

/* For the smallest set: how many changes together, and of how many of the best ones they are taken. */
enum { MOST_CHANGES = 3, BEST_CHANGES = 6 };

/* Effort for each plan when the caller sets no limit: less than a plan that people work by gets. */
enum { EFFORT_EACH = 12000 };

typedef struct {
    arena *memory;
    const plan_input *in;
    const plan *now;
    plan_why *why;
    size_t cap;
} asking;

/* ---- which changes -------------------------------------------------------------------------------------------------- */

static void add(asking *q, plan_change_kind kind, kit_index what) {
    arena_room(q->memory, q->why->effects, q->why->n_effects, q->cap, plan_effect);
    q->why->effects[q->why->n_effects++] = (plan_effect){.change = {kind, what, KIT_NONE}};
}

static bool same_set(kit_indices a, kit_indices b) {
    for (uint32_t x = 0; x < a.n; x++) {
        bool found = false;
        for (uint32_t y = 0; y < b.n; y++)
            found = found || a.list[x] == b.list[y];
        if (!found)
            return false;
    }
    return a.n == b.n;
}

static bool like_one_before(const kit_workshop *w, kit_index person) {
    const kit_person *p = &w->crew[person];
    for (kit_index q = 0; q < person; q++)
        if (w->crew[q].adult == p->adult && same_set(w->crew[q].skills, p->skills) &&
            same_set(w->crew[q].supervises, p->supervises))
            return true;
    return false;
}

static bool misses_some(const kit_workshop *w, kit_index person) {
    for (uint32_t x = 0; x < w->n_attendance; x++) {
        const kit_attendance *row = &w->attendance[x];
        if (row->person == person && (!row->comes || row->from >= 0 || row->until >= 0))
            return true;
    }
    return false;
}

static void add_people(asking *q) {
    const kit_workshop *w = q->in->workshop;
    for (kit_index p = 0; p < w->n_crew; p++)
        if (w->n_crew < PLAN_MAX_CREW && !like_one_before(w, p))
            add(q, PLAN_ONE_MORE_PERSON, p);
    for (kit_index p = 0; p < w->n_crew; p++)
        if (misses_some(w, p))
            add(q, PLAN_ALWAYS_THERE, p);
}

/* Tools that two planned steps, or a step that is not planned, could want at one time. */
static void add_tools(asking *q) {
    const kit *k = q->in->kit;
    const kit_workshop *w = q->in->workshop;
    for (kit_index t = 0; t < k->n_tools && w->n_tools > 0; t++) {
        int64_t owned = 0, wanted = 0;
        for (uint32_t x = 0; x < w->n_tools; x++)
            owned += w->tools[x].what == t ? w->tools[x].quantity : 0;
        for (uint32_t x = 0; x < k->n_step_tools; x++)
            wanted += k->step_tools[x].tool == t ? k->step_tools[x].quantity : 0;
        if (wanted > owned)
            add(q, PLAN_ONE_MORE_TOOL, t);
    }
}

static void add_workplaces(asking *q) {
    const kit *k = q->in->kit;
    const kit_workshop *w = q->in->workshop;
    for (kit_index z = 0; z < k->n_zones && w->n_workplaces > 0; z++) {
        int64_t owned = 0, wanted = 0;
        for (uint32_t x = 0; x < w->n_workplaces; x++)
            owned += w->workplaces[x].what == z ? w->workplaces[x].quantity : 0;
        for (kit_index s = 0; s < k->n_steps; s++)
            wanted += k->steps[s].zone == z;
        if (k->zones[z].kind == KIT_WORKPLACE && wanted > owned)
            add(q, PLAN_ONE_MORE_WORKPLACE, z);
    }
}

/* A day without a session, today or later, before the finish: one more would be early enough to help. */
static void add_sessions(asking *q) {
    const kit_workshop *w = q->in->workshop;
    for (kit_index s = 0; s < w->n_sessions; s++) {
        date_day day = w->sessions[s].day + 1;
        bool taken = false;
        for (kit_index other = 0; other < w->n_sessions; other++)
            taken = taken || w->sessions[other].day == day;
        date_moment begins = (date_moment)day * MINUTES_PER_DAY + w->sessions[s].start;
        if (!taken && begins > q->in->from && (!q->why->now.found || begins < q->why->now.finish))
            add(q, PLAN_ONE_MORE_SESSION, s);
    }
}

static void add_parts(asking *q) {
    const kit *k = q->in->kit;
    for (kit_index p = 0; p < k->n_parts; p++) {
        bool late = false;
        for (uint32_t x = 0; x < q->in->n_arrivals; x++)
            late = late || q->in->arrivals[x].part == p;
        for (uint32_t x = 0; x < q->now->n_stopped; x++)
            late = late || q->now->stopped[x].part == p;
        if (late && supply_needed(k, p) > 0)
            add(q, PLAN_PART_HERE, p);
    }
}

/* ---- solving again ---------------------------------------------------------------------------------------------------- */

/* Minutes by which a plan's start moves when these sessions are held too, those before it. */
static int32_t moved_by(const asking *q, const plan_step *s, const plan_change *changes, uint32_t n) {
    int32_t sum = 0;
    for (uint32_t k = 0; k < n; k++) {
        if (changes[k].kind != PLAN_ONE_MORE_SESSION)
            continue;
        const kit_session *like = &q->in->workshop->sessions[changes[k].what];
        date_moment begins = (date_moment)(like->day + 1) * MINUTES_PER_DAY + like->start + like->opening_min;
        int32_t minutes = (int32_t)(like->end - like->start - like->opening_min - like->closing_min);
        sum += begins < q->now->sessions[s->session].begins && begins >= q->in->from ? minutes : 0;
    }
    return sum;
}

/* The plan of now on the line of sessions with the changes: right in nearly every case, and looked at before it is taken. */
static const int32_t *known_starts(arena *a, const asking *q, const plan_change *changes, uint32_t n) {
    int32_t *starts = arena_array(a, int32_t, q->in->kit->n_steps);
    for (kit_index s = 0; s < q->in->kit->n_steps; s++)
        starts[s] = -1;
    for (uint32_t k = 0; k < q->now->n_steps; k++)
        starts[q->now->steps[k].step] =
            q->now->steps[k].start_min + moved_by(q, &q->now->steps[k], changes, n);
    return starts;
}

static bool solve_with(asking *q, const plan_change *changes, uint32_t n, plan_outcome *out, err *e) {
    arena *scratch = arena_open();
    plan_input in;
    plan *p;
    plan_change_input(scratch, q->in, changes, n, &in);
    in.known_starts = known_starts(scratch, q, changes, n);
    in.known_bound_min = 0;
    in.finish_only = true;
    in.without_alone = true;
    if (in.effort == 0 && in.seconds <= 0)
        in.effort = EFFORT_EACH;
    bool made = plan_make(scratch, &in, &p, e);
    if (made)
        *out = plan_outcome_of(p);
    arena_close(scratch);
    q->why->n_plans++;
    return made;
}

/* Nothing is held up: then more of anything only widens what is possible. (Held up, a step made possible may take the pieces
 * of another.) */
static bool only_widens(const asking *q) {
    return q->now->n_stopped + q->now->n_waiting + q->now->n_impossible == 0 && q->why->now.proven;
}

/* Is somebody alone in the room for a time at which work may go on? An adult may be; with a learner who comes too nobody
 * may work, so that more people are not more possibilities. */
static bool somebody_is_alone(const asking *q) {
    arena *scratch = arena_open();
    calendar c;
    err unused;
    bool alone = !calendar_open(scratch, q->in->workshop, q->in->from, 0, &c, &unused);
    for (uint32_t k = 0; !alone && k < c.n_presence; k++)
        alone = people_count(c.presence[k].there) == 1;
    arena_close(scratch);
    return alone;
}

/* Changes of one group are tried together first; 0: each by itself. */
static int group_of(plan_change_kind kind, bool people_too) {
    if (kind == PLAN_ONE_MORE_TOOL || kind == PLAN_ONE_MORE_WORKPLACE)
        return 1;
    return people_too && kind == PLAN_ONE_MORE_PERSON ? 2 : people_too && kind == PLAN_ALWAYS_THERE ? 3 : 0;
}

/* Tries the effects first .. first + n - 1, of one group. Most of them do not matter, so first all of them are given at once:
 * when that gains nothing, no single one does; otherwise the two halves are tried. */
static bool try_effects(asking *q, uint32_t first, uint32_t n, err *e) {
    plan_effect *list = q->why->effects + first;
    if (n == 1)
        return solve_with(q, &list->change, 1, &list->then, e);
    plan_outcome all;
    plan_change *changes = arena_array(q->memory, plan_change, n);
    for (uint32_t k = 0; k < n; k++)
        changes[k] = list[k].change;
    if (!solve_with(q, changes, n, &all, e))
        return false;
    if (!all.proven || plan_compare_outcomes(&all, &q->why->now) != 0)
        return try_effects(q, first, n / 2, e) && try_effects(q, first + n / 2, n - n / 2, e);
    for (uint32_t k = 0; k < n; k++)
        list[k].then = q->why->now;
    return true;
}

static bool try_all(asking *q, err *e) {
    plan_why *w = q->why;
    bool together = only_widens(q), people_too = together && !somebody_is_alone(q);
    for (uint32_t k = 0; k < w->n_effects;) {
        int group = together ? group_of(w->effects[k].change.kind, people_too) : 0;
        uint32_t n = 1;
        while (group && k + n < w->n_effects &&
               group_of(w->effects[k + n].change.kind, people_too) == group &&
               (group != 2 || q->in->workshop->n_crew + n < PLAN_MAX_CREW))
            n++;
        if (!try_effects(q, k, n, e))
            return false;
        k += n;
    }
    return true;
}

static text finish_words(arena *a, const plan_outcome *o) {
    if (!o->dated)
        return arena_format(a, "after the last dated session, as session %u", (unsigned)o->sessions);
    char moment[17];
    date_print_moment(o->finish, moment);
    return arena_format(a, "%s %s", date_weekday_name(date_of_moment(o->finish)), moment);
}

static const char *plural(int64_t n) {
    return n == 1 ? "" : "s";
}

static text sentence(asking *q, const plan_effect *x) {
    arena *a = q->memory;
    text what = plan_change_words(a, q->in, x->change), when = finish_words(a, &x->then);
    const char *least = x->sure ? "" : "at least ", *or_before = x->sure ? "" : ", or before";
    if (x->more_steps > 0)
        return arena_format(a, "With %.*s %u more step%s can go ahead; the finish is then %.*s%s.",
                            TEXT_ARG(what), (unsigned)x->more_steps, plural(x->more_steps), TEXT_ARG(when),
                            or_before);
    if (x->min_earlier == 0)
        return arena_format(a, "With %.*s %s.", TEXT_ARG(what),
                            x->sure ? "the finish stays" : "no earlier finish was found");
    int32_t amount = x->days_earlier > 0 ? x->days_earlier : x->min_earlier;
    return arena_format(a, "With %.*s the build ends %s%d %s%s earlier: %.*s%s.", TEXT_ARG(what), least,
                        (int)amount, x->days_earlier > 0 ? "day" : "min",
                        x->days_earlier > 0 ? plural(amount) : "", TEXT_ARG(when), or_before);
}

static void tell_effect(asking *q, plan_effect *x) {
    const plan_outcome *now = &q->why->now;
    if (plan_compare_outcomes(&x->then, now) > 0) { /* the plan of now is still possible */
        x->then = *now;
        x->then.proven = false;
    }
    x->sure = now->proven && x->then.proven;
    x->more_steps = x->then.steps_planned - now->steps_planned;
    if (x->more_steps == 0 && x->then.found && x->then.finish < now->finish) {
        x->min_earlier = (int32_t)(now->finish - x->then.finish);
        x->days_earlier = date_of_moment(now->finish) - date_of_moment(x->then.finish);
    }
    x->sentence = sentence(q, x);
}

static int compare_effects(const void *a, const void *b) {
    const plan_effect *x = a, *y = b;
    int c = plan_compare_outcomes(&x->then, &y->then);
    if (c == 0)
        c = (int)x->change.kind - (int)y->change.kind;
    return c ? c : (int)x->change.what - (int)y->change.what;
}

/* ---- the wanted day ----------------------------------------------------------------------------------------------------- */

static bool in_time(const asking *q, const plan_outcome *o) {
    uint32_t all = q->in->kit->n_steps - q->in->n_done;
    return o->found && o->steps_planned == all &&
           (all == 0 || (o->dated && date_of_moment(o->finish) <= q->in->workshop->wanted_day));
}

static void take_enough(asking *q, const plan_change *set, uint32_t n) {
    q->why->enough = arena_array(q->memory, plan_change, n);
    memcpy(q->why->enough, set, n * sizeof *set);
    q->why->n_enough = n;
}

/* Sets of `size` of the best changes, in the order of their rank. */
static bool try_sets(asking *q, plan_change *set, uint32_t n, uint32_t from, uint32_t size, err *e) {
    uint32_t best = q->why->n_effects < BEST_CHANGES ? q->why->n_effects : BEST_CHANGES;
    if (n == size) {
        plan_outcome o;
        if (!solve_with(q, set, n, &o, e))
            return false;
        q->why->least = q->why->least && (o.proven || in_time(q, &o));
        if (in_time(q, &o))
            take_enough(q, set, n);
        return true;
    }
    for (uint32_t k = from; k < best && q->why->n_enough == 0; k++) {
        set[n] = q->why->effects[k].change;
        if (!try_sets(q, set, n + 1, k + 1, size, e))
            return false;
    }
    return true;
}

/* More only helps: when all changes at once are proven too late, no set of them is enough. */
static bool try_everything(asking *q, err *e) {
    plan_why *w = q->why;
    plan_change *all = arena_array(q->memory, plan_change, w->n_effects);
    uint32_t n = 0;
    plan_outcome o;
    for (uint32_t k = 0; k < w->n_effects; k++)
        if (w->effects[k].change.kind != PLAN_ONE_MORE_PERSON || q->in->workshop->n_crew + n < PLAN_MAX_CREW)
            all[n++] = w->effects[k].change;
    if (n == 0 || !solve_with(q, all, n, &o, e))
        return n == 0;
    w->never = o.proven && !in_time(q, &o) && n == w->n_effects && !somebody_is_alone(q);
    return true;
}

static bool find_enough(asking *q, err *e) {
    plan_why *w = q->why;
    w->wanted = q->in->workshop->wanted_day != INT32_MAX;
    w->met = w->wanted && in_time(q, &w->now);
    if (!w->wanted || w->met)
        return true;
    w->least = true; /* of one change all were tried; of more, only sets of the best ones */
    w->tried = 1;
    for (uint32_t k = 0; k < w->n_effects && w->n_enough == 0; k++)
        if (in_time(q, &w->effects[k].then))
            take_enough(q, &w->effects[k].change, 1);
    for (uint32_t k = 0; k < w->n_effects; k++)
        w->least = w->least && (w->n_enough == 1 || w->effects[k].then.proven);
    plan_change set[MOST_CHANGES];
    if (w->n_enough == 0 && !try_everything(q, e))
        return false;
    for (uint32_t size = 2; !w->never && size <= MOST_CHANGES && w->n_enough == 0; size++) {
        w->least = w->least && (size == 2 || w->n_effects <= BEST_CHANGES);
        w->tried = size;
        if (!try_sets(q, set, 0, 0, size, e))
            return false;
    }
    return true;
}

bool plan_ask_why(arena *a, const plan_input *in, const plan *now, plan_why **out, err *e) {
    plan_why *w = arena_new(a, plan_why);
    *w = (plan_why){.now = plan_outcome_of(now)};
    asking q = {.memory = a, .in = in, .now = now, .why = w};
    add_people(&q);
    add_tools(&q);
    add_workplaces(&q);
    add_sessions(&q);
    add_parts(&q);
    if (!try_all(&q, e))
        return false;
    for (uint32_t k = 0; k < w->n_effects; k++)
        tell_effect(&q, &w->effects[k]);
    if (w->n_effects > 1)
        qsort(w->effects, w->n_effects, sizeof *w->effects, compare_effects);
    *out = w;
    return find_enough(&q, e);
}
