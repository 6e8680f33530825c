/* sweep.c: names stretches in the order of their starts, and remembers dead ends.
 *
 * When all stretches up to some moment have their people, only one thing matters to the rest: until when each person is busy. So a
 * moment at which the rest turned out impossible is remembered by that (dead_ends.h), and no search goes through the same impossible
 * rest twice. People whom every seat of these stretches sees alike form a class and are interchangeable: they stand in the
 * state as a class, and of those free only the one whom it suits best is tried.
 *
 * Two ways of choosing. At first seat by seat, who should do it first (learners, those with the fewest minutes). When that does not
 * come out soon, class by class: how many of each class work on the stretch matters to the rest, not on which of its seats. There the
 * class least wanted elsewhere at the same time gives as many as it can, with more weight on stretches that failed, in tries of
 * growing length. After each choice the seats still open at each later moment of the stretch must be fillable by those who
 * will be free (matching).
 */
#include "plan/sweep.h"

#include <string.h>

#include "plan/dead_ends.h"

enum { LEARNERS_FIRST = 1 << 20, SAME_PEOPLE_FIRST = 1 << 22, VERSATILE_LAST = 1 << 12, PRESSURE = 1000 };

/* Nodes of the first try, by turns; each later one has three times as many. */
enum { FIRST_TRY = 400 };

typedef struct {
    const people_work *w;
    naming_item *const *items;
    uint32_t n;
    uint32_t *beside; /* by item: the first later one that starts when it has ended, or after */
    uint8_t class_of[PLAN_MAX_CREW];
    uint32_t n_classes;
    kit_index by_class[PLAN_MAX_CREW]; /* the crew, class by class */
    int32_t busy_until[PLAN_MAX_CREW];
    int32_t *minutes;
    uint32_t *weight; /* by item: how often no way was found to fill its seats */
    int64_t *
        pressure; /* n_items * PLAN_MAX_CREW: how much a person is wanted while an item runs; NULL: go by turns */
    people_set *seats; /* room for open_seats_hold */
    dead_ends *dead;
    uint32_t nodes, limit, deepest;
} sweep;

static const plan_job *job_of(const sweep *s, uint32_t k) {
    return &s->w->jobs[s->items[k]->job];
}

/* ---- classes -------------------------------------------------------------------------------------------------- */

/* Splits every class into those in the set and those outside. */
static void split_classes(sweep *s, people_set set) {
    uint8_t inside[PLAN_MAX_CREW];
    bool has_inside[PLAN_MAX_CREW] = {false}, has_outside[PLAN_MAX_CREW] = {false};
    uint32_t crew = s->w->calendar->workshop->n_crew;
    for (kit_index p = 0; p < crew; p++)
        *(set >> p & 1 ? &has_inside[s->class_of[p]] : &has_outside[s->class_of[p]]) = true;
    uint32_t before = s->n_classes;
    for (uint32_t c = 0; c < before; c++)
        inside[c] = has_inside[c] && has_outside[c] ? (uint8_t)s->n_classes++ : (uint8_t)c;
    for (kit_index p = 0; p < crew; p++)
        if (set >> p & 1)
            s->class_of[p] = inside[s->class_of[p]];
}

static void find_classes(sweep *s) {
    s->n_classes = 1;
    for (uint32_t k = 0; k < s->n; k++)
        for (uint32_t t = 0; t < job_of(s, k)->n_teams; t++)
            for (uint32_t seat = 0; seat < job_of(s, k)->n_seats; seat++)
                split_classes(s, job_of(s, k)->teams[t].seats[seat] & s->items[k]->there);
    uint32_t n = 0;
    for (uint32_t c = 0; c < s->n_classes; c++)
        for (kit_index p = 0; p < s->w->calendar->workshop->n_crew; p++)
            if (s->class_of[p] == c)
                s->by_class[n++] = p;
}

/* What the items from k on can see of what was decided: class by class until when people are busy, ascending; 0: free. */
static void write_state(const sweep *s, uint32_t k, int32_t *state) {
    uint32_t crew = s->w->calendar->workshop->n_crew, first = 0;
    for (uint32_t x = 0; x < crew; x++) {
        kit_index p = s->by_class[x];
        int32_t busy = s->busy_until[p] > s->items[k]->from ? s->busy_until[p] : 0;
        if (x == 0 || s->class_of[p] != s->class_of[s->by_class[x - 1]])
            first = x;
        uint32_t y = x;
        for (; y > first && state[y - 1] > busy; y--)
            state[y] = state[y - 1];
        state[y] = busy;
    }
}

/* ---- whom to try first ------------------------------------------------------------------------------------------ */

/* Was the person told to begin another of the jobs that go on meanwhile? */
static bool told_elsewhere(const sweep *s, uint32_t k, kit_index person) {
    for (uint32_t y = 0; y < s->n; y++) {
        const naming_item *other = s->items[y];
        if (y == k || !other->before || other->before != s->w->told[other->job] ||
            other->from >= s->items[k]->to || other->to <= s->items[k]->from)
            continue;
        for (uint32_t x = 0; x < job_of(s, y)->n_seats; x++)
            if (other->before[x] == person)
                return true;
    }
    return false;
}

/* Less is better. */
static int64_t cost_by_turns(const sweep *s, uint32_t k, uint32_t seat, kit_index person) {
    const kit_person *who = &s->w->calendar->workshop->crew[person];
    const plan_job *j = job_of(s, k);
    int64_t cost = s->minutes[person];
    if (s->w->told && told_elsewhere(s, k, person))
        cost += 2 * (int64_t)SAME_PEOPLE_FIRST;
    if (j->beside && seat == 0)
        return cost + (int64_t)who->supervises.n * VERSATILE_LAST -
               (s->items[k]->before && s->items[k]->before[0] == person ? SAME_PEOPLE_FIRST : 0);
    cost += who->adult ? LEARNERS_FIRST : 0;
    for (uint32_t x = j->beside; s->items[k]->before && x < j->n_seats; x++)
        cost -= s->items[k]->before[x] == person ? SAME_PEOPLE_FIRST : 0;
    return cost;
}

/* Each seat open at the same time wants each of its candidates a little, the more the fewer there are. */
static void find_pressure(sweep *s) {
    memset(s->pressure, 0, (size_t)s->n * PLAN_MAX_CREW * sizeof *s->pressure);
    for (uint32_t k = 0; k < s->n; k++)
        for (uint32_t y = k; y < s->beside[k]; y++) {
            const plan_job *j = job_of(s, y);
            for (uint32_t seat = 0; seat < j->n_seats; seat++) {
                people_set can = j->teams[0].seats[seat] & s->items[y]->there;
                int64_t share = can ? (int64_t)PRESSURE * (1 + s->weight[y]) / people_count(can) : 0;
                for (; can; can &= can - 1)
                    s->pressure[k * PLAN_MAX_CREW + (uint32_t)__builtin_ctzll(can)] += share;
            }
        }
}

/* The best of each class among `can`, in the order of trying; their number. */
static uint32_t order_candidates(const sweep *s, uint32_t k, uint32_t seat, people_set can,
                                 kit_index out[PLAN_MAX_CREW]) {
    int64_t cost[PLAN_MAX_CREW];
    int64_t of_class[PLAN_MAX_CREW];
    kit_index best[PLAN_MAX_CREW];
    people_set classes = 0;
    for (; can; can &= can - 1) {
        kit_index p = (kit_index)__builtin_ctzll(can);
        uint8_t c = s->class_of[p];
        int64_t own = cost_by_turns(s, k, seat, p);
        if (classes >> c & 1 && of_class[c] <= own)
            continue;
        classes |= (people_set)1 << c;
        of_class[c] = own;
        best[c] = p;
    }
    uint32_t n = 0;
    for (; classes; classes &= classes - 1) {
        uint32_t c = (uint32_t)__builtin_ctzll(classes), x = n++;
        for (; x > 0 && cost[x - 1] > of_class[c]; x--) {
            cost[x] = cost[x - 1];
            out[x] = out[x - 1];
        }
        cost[x] = of_class[c];
        out[x] = best[c];
    }
    return n;
}

/* ---- looking ahead ------------------------------------------------------------------------------------------------ */

static people_set free_at(const sweep *s, int32_t minute) {
    people_set free = 0;
    for (kit_index p = 0; p < s->w->calendar->workshop->n_crew; p++)
        free |= s->busy_until[p] <= minute ? one_person(p) : 0;
    return free;
}

/* Can those free at the minute fill the seats of the items behind k that run then, and `own` open seats of item k, which stand in
 * s->seats already? `taken` work on item k, whether that is written down already or not. Items with several teams are left
 * out: they may come out one way or the other. */
static bool seats_hold_at(sweep *s, uint32_t k, int32_t minute, uint32_t own, people_set taken) {
    uint32_t n = own;
    for (uint32_t y = k + 1; y < s->beside[k] && s->items[y]->from <= minute; y++) {
        const plan_job *j = job_of(s, y);
        if (s->items[y]->to <= minute || j->n_teams != 1)
            continue;
        for (uint32_t seat = 0; seat < j->n_seats; seat++)
            s->seats[n++] = j->teams[0].seats[seat] & s->items[y]->there & ~taken;
    }
    if (n == 0 || seats_can_fill(s->seats, n, free_at(s, minute) | taken))
        return true;
    s->weight[k]++;
    for (uint32_t y = k + 1; y < s->beside[k] && s->items[y]->from <= minute; y++)
        s->weight[y] += s->items[y]->to > minute;
    return false;
}

/* At all moments of item k, when `taken` work on it. */
static bool seats_hold(sweep *s, uint32_t k, uint32_t own, people_set taken) {
    if (!seats_hold_at(s, k, s->items[k]->from, own, taken))
        return false;
    for (uint32_t y = k + 1; y < s->beside[k]; y++)
        if (s->items[y]->from > s->items[y - 1]->from && !seats_hold_at(s, k, s->items[y]->from, own, taken))
            return false;
    return true;
}

/* ---- the search ---------------------------------------------------------------------------------------------------- */

static people_answer name_from(sweep *s, uint32_t k);

static void sit_down(sweep *s, uint32_t k, uint32_t seat, kit_index p) {
    s->busy_until[p] = s->items[k]->to;
    s->minutes[p] += s->items[k]->to - s->items[k]->from;
    s->items[k]->seats[seat] = p;
}

static void stand_up(sweep *s, uint32_t k, kit_index p, int32_t busy_before) {
    s->busy_until[p] = busy_before;
    s->minutes[p] -= s->items[k]->to - s->items[k]->from;
}

/* Seat by seat: fills the seats of item k from order[x] on, then the items behind it. Classes in `failed` failed on a seat
 * before that asks for the same. */
static people_answer fill_seats(sweep *s, uint32_t k, const job_team *team, const uint32_t *order, uint32_t x,
                                people_set failed) {
    const naming_item *item = s->items[k];
    uint32_t n_seats = job_of(s, k)->n_seats;
    if (x == n_seats)
        return name_from(s, k + 1);
    if (s->nodes++ >= s->limit)
        return PEOPLE_GAVE_UP;
    uint32_t seat = order[x];
    kit_index candidates[PLAN_MAX_CREW];
    uint32_t n =
        order_candidates(s, k, seat, team->seats[seat] & item->there & free_at(s, item->from), candidates);
    bool twin = x + 1 < n_seats && team->seats[order[x + 1]] == team->seats[seat];
    people_answer answer = PEOPLE_CANNOT;
    for (uint32_t c = 0; c < n && answer == PEOPLE_CANNOT; c++) {
        kit_index p = candidates[c];
        if (failed >> s->class_of[p] & 1)
            continue;
        int32_t before = s->busy_until[p];
        sit_down(s, k, seat, p);
        uint32_t own = 0;
        for (uint32_t y = x + 1; y < n_seats; y++)
            s->seats[own++] = team->seats[order[y]] & item->there & ~one_person(p);
        if (seats_hold(s, k, own, 0))
            answer = fill_seats(s, k, team, order, x + 1, twin ? failed : 0);
        if (answer == PEOPLE_NAMED)
            return answer;
        stand_up(s, k, p, before);
        failed |= (people_set)1 << s->class_of[p];
    }
    return answer;
}

/* The people of item k are chosen: names the items behind it. */
static people_answer go_on_with(sweep *s, uint32_t k, const job_team *team, people_set chosen) {
    uint32_t n = job_of(s, k)->n_seats;
    kit_index people[PLAN_MAX_CREW] = {0};
    people_set seats[PLAN_MAX_CREW] = {0};
    for (uint32_t seat = 0; seat < n; seat++)
        seats[seat] = team->seats[seat] & s->items[k]->there;
    if (!seats_fill(seats, n, chosen, people))
        return PEOPLE_CANNOT;
    int32_t before[PLAN_MAX_CREW];
    for (uint32_t seat = 0; seat < n; seat++) {
        before[seat] = s->busy_until[people[seat]];
        sit_down(s, k, seat, people[seat]);
    }
    people_answer answer = name_from(s, k + 1);
    for (uint32_t seat = 0; seat < n && answer != PEOPLE_NAMED; seat++)
        stand_up(s, k, people[seat], before[seat]);
    return answer;
}

/* Class by class: those `chosen` work on item k; `rest` may, class after class from order[x] on. */
static people_answer fill_classes(sweep *s, uint32_t k, const job_team *team, const uint8_t *order,
                                  uint32_t x, people_set chosen, people_set rest) {
    uint32_t n = job_of(s, k)->n_seats, open = n - people_count(chosen);
    if (open == 0)
        return go_on_with(s, k, team, chosen);
    if (x == s->n_classes)
        return PEOPLE_CANNOT;
    if (s->nodes++ >= s->limit)
        return PEOPLE_GAVE_UP;
    people_set of_class = 0;
    for (people_set p = rest; p; p &= p - 1)
        of_class |= s->class_of[__builtin_ctzll(p)] == order[x] ? p & -p : 0;
    people_set taken = 0;
    for (people_set p = of_class; p && people_count(taken) < open; p &= p - 1)
        taken |= p & -p;
    people_answer answer = PEOPLE_CANNOT;
    for (;; taken &= taken - 1) {
        people_set now = chosen | taken, later = rest & ~of_class;
        for (uint32_t seat = 0; seat < n; seat++)
            s->seats[seat] = team->seats[seat] & s->items[k]->there & (now | later);
        if (seats_hold(s, k, n, now))
            answer = fill_classes(s, k, team, order, x + 1, now, later);
        if (answer != PEOPLE_CANNOT || taken == 0)
            return answer;
    }
}

/* The classes least wanted elsewhere while item k runs first. */
static void order_classes(const sweep *s, uint32_t k, uint8_t *order) {
    int64_t wanted[PLAN_MAX_CREW] = {0};
    for (kit_index p = 0; p < s->w->calendar->workshop->n_crew; p++)
        wanted[s->class_of[p]] = s->pressure[k * PLAN_MAX_CREW + p];
    for (uint32_t c = 0; c < s->n_classes; c++) {
        uint32_t x = c;
        for (; x > 0 && wanted[order[x - 1]] > wanted[c]; x--)
            order[x] = order[x - 1];
        order[x] = (uint8_t)c;
    }
}

/* The seats with the fewest candidates first; those that ask for the same side by side, but the supervisor's apart. */
static void order_seats(const sweep *s, uint32_t k, const job_team *team, uint32_t *order) {
    const plan_job *j = job_of(s, k);
    for (uint32_t seat = 0; seat < j->n_seats; seat++) {
        uint32_t x = seat, can = people_count(team->seats[seat] & s->items[k]->there);
        for (; x > (j->beside ? 1 : 0); x--) {
            people_set other = team->seats[order[x - 1]];
            uint32_t others = people_count(other & s->items[k]->there);
            if (others < can || (others == can && other <= team->seats[seat]))
                break;
            order[x] = order[x - 1];
        }
        order[x] = seat;
    }
}

/* Names item k with each of its teams, and all behind it. */
static people_answer name_from(sweep *s, uint32_t k) {
    int32_t state[PLAN_MAX_CREW];
    if (k == s->n)
        return PEOPLE_NAMED;
    s->deepest = k > s->deepest ? k : s->deepest;
    write_state(s, k, state);
    if (dead_ends_has(s->dead, k, state))
        return PEOPLE_CANNOT;
    const plan_job *j = job_of(s, k);
    uint32_t seats[PLAN_MAX_CREW];
    uint8_t classes[PLAN_MAX_CREW];
    people_answer answer = PEOPLE_CANNOT;
    for (uint32_t t = 0; t < j->n_teams && answer == PEOPLE_CANNOT; t++) {
        if (s->pressure) {
            people_set can = 0;
            for (uint32_t seat = 0; seat < j->n_seats; seat++)
                can |= j->teams[t].seats[seat];
            order_classes(s, k, classes);
            answer = fill_classes(s, k, &j->teams[t], classes, 0, 0,
                                  can & s->items[k]->there & free_at(s, s->items[k]->from));
        } else {
            order_seats(s, k, &j->teams[t], seats);
            answer = fill_seats(s, k, &j->teams[t], seats, 0, 0);
        }
    }
    if (answer == PEOPLE_CANNOT)
        dead_ends_add(s->dead, k, state);
    return answer;
}

people_answer sweep_name(arena *a, const people_work *w, naming_item *const *items, uint32_t n,
                         uint32_t effort, int32_t *minutes, uint32_t *reached) {
    sweep s = {.w = w, .items = items, .n = n, .minutes = minutes};
    s.beside = arena_array(a, uint32_t, n);
    s.weight = arena_array(a, uint32_t, n);
    size_t most = 0;
    for (uint32_t k = 0; k < n; k++) {
        most += job_of(&s, k)->n_seats;
        s.beside[k] = k + 1;
        while (s.beside[k] < n && items[s.beside[k]]->from < items[k]->to)
            s.beside[k]++;
        if (job_of(&s, k)->n_seats > PLAN_MAX_CREW) {
            *reached = k + 1;
            return PEOPLE_CANNOT;
        }
    }
    s.seats = arena_array(a, people_set, most);
    s.dead = dead_ends_open(a, w->calendar->workshop->n_crew);
    find_classes(&s);
    people_answer answer = PEOPLE_GAVE_UP;
    s.limit = FIRST_TRY;
    for (uint32_t t = 0; answer == PEOPLE_GAVE_UP && s.limit <= effort; t++, s.limit *= 3) {
        s.nodes = 0;
        if (t == 1)
            s.pressure = arena_array(a, int64_t, (size_t)n * PLAN_MAX_CREW);
        if (s.pressure)
            find_pressure(&s);
        answer = name_from(&s, 0);
    }
    *reached = s.deepest + 1;
    return answer;
}
