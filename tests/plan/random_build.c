/* random_build.c: the dice are xorshift64*, so that a seed means the same build everywhere. */
#include "random_build.h"

typedef struct {
    uint64_t state;
} dice;

static uint64_t next(dice *d) {
    d->state ^= d->state >> 12;
    d->state ^= d->state << 25;
    d->state ^= d->state >> 27;
    return d->state * 0x2545f4914f6cdd1dULL;
}

/* low..high, both included */
static int64_t between(dice *d, int64_t low, int64_t high) {
    return low + (int64_t)((next(d) >> 33) % (uint64_t)(high - low + 1));
}

static bool chance(dice *d, int percent) {
    return between(d, 1, 100) <= percent;
}

static kit_index pick(dice *d, uint32_t n) {
    return n == 0 ? KIT_NONE : (kit_index)between(d, 0, (int64_t)n - 1);
}

static kit_named *named(arena *a, const char *letter, uint32_t n) {
    kit_named *list = arena_array(a, kit_named, n);
    for (uint32_t k = 0; k < n; k++)
        list[k].number = list[k].name = arena_format(a, "%s%u", letter, (unsigned)k + 1);
    return list;
}

static kit_indices some_of(arena *a, dice *d, uint32_t n, int percent) {
    kit_indices set = {arena_array(a, kit_index, n), 0};
    for (kit_index k = 0; k < n; k++)
        if (chance(d, percent))
            set.list[set.n++] = k;
    return set;
}

/* ---- the kit ----------------------------------------------------------------------------------------------------------- */

static void add_things(arena *a, dice *d, kit *k) {
    k->n_works = (uint32_t)between(d, 1, 4);
    k->works = named(a, "W", k->n_works);
    k->n_skills = (uint32_t)between(d, 0, 3);
    k->skills = named(a, "K", k->n_skills);
    k->n_zones = (uint32_t)between(d, 0, 3);
    k->zones = arena_array(a, kit_zone, k->n_zones);
    for (uint32_t z = 0; z < k->n_zones; z++)
        k->zones[z] = (kit_zone){0, arena_format(a, "Z%u", (unsigned)z + 1), TEXT("zone"),
                                 chance(d, 50) ? KIT_WORKPLACE : KIT_ZONE, between(d, 1, 2)};
    k->n_tools = (uint32_t)between(d, 0, 4);
    k->tools = arena_array(a, kit_tool, k->n_tools);
    for (uint32_t t = 0; t < k->n_tools; t++) {
        k->tools[t].number = arena_format(a, "T%u", (unsigned)t + 1);
        k->tools[t].name = TEXT("spanner");
    }
    k->n_parts = (uint32_t)between(d, 1, 5);
    k->parts = arena_array(a, kit_part, k->n_parts);
    for (uint32_t p = 0; p < k->n_parts; p++)
        k->parts[p].number = arena_format(a, "P%u", (unsigned)p + 1);
}

static void add_step(arena *a, dice *d, kit *k, kit_index s, const int *rich) {
    kit_step *x = &k->steps[s];
    *x = (kit_step){.sub_assembly = KIT_NONE, .work = KIT_NONE, .zone = KIT_NONE};
    x->number = arena_format(a, "S%u", (unsigned)s + 1);
    x->name = x->number;
    x->likely_min = between(d, 5, chance(d, rich[0]) ? 90 : 35);
    x->low_min = x->likely_min / 2 + 1;
    x->high_min = x->likely_min * 2;
    x->people = chance(d, 70) ? between(d, 1, 2) : between(d, 1, 4);
    if (chance(d, 70))
        x->work = pick(d, k->n_works);
    if (chance(d, rich[1]))
        x->supervision = chance(d, 70) ? KIT_BESIDE : KIT_ADULT_DOES;
    if (x->supervision == KIT_ADULT_DOES)
        x->people = between(d, 1, 2);
    if (chance(d, rich[2]))
        x->zone = pick(d, k->n_zones);
    x->may_pause = chance(d, rich[3]);
    x->resume_min = x->may_pause && chance(d, 70) ? between(d, 0, 12) : 0;
    if (chance(d, rich[4])) {
        x->change_over_min.list = arena_array(a, int64_t, 2);
        for (int64_t at = between(d, 5, 25); at < x->likely_min && x->change_over_min.n < 2;
             at += between(d, 5, 25))
            x->change_over_min.list[x->change_over_min.n++] = at;
    }
    if (chance(d, rich[5])) {
        x->delay_clock = chance(d, 60) ? KIT_WALL_CLOCK : KIT_WORKING_TIME;
        x->delay_min = between(d, 1, x->delay_clock == KIT_WALL_CLOCK ? 2000 : 60);
    }
    if (chance(d, rich[6]))
        x->not_beside = some_of(a, d, k->n_works, 40);
}

/* Some of the step's skills get people of their own, as far as it has people. */
static void own_people(dice *d, kit *k, kit_index s) {
    int64_t own = 0, most = 0;
    for (uint32_t x = 0; x < k->n_step_skills; x++)
        if (k->step_skills[x].step == s && k->step_skills[x].people > most)
            most = k->step_skills[x].people;
    for (uint32_t x = 0; x < k->n_step_skills; x++) {
        kit_step_skill *row = &k->step_skills[x];
        if (row->step != s || !chance(d, 40) || own + row->people + most > k->steps[s].people)
            continue;
        row->own_people = true;
        own += row->people;
    }
}

static void add_rows_of_step(dice *d, kit *k, kit_index s, const int *rich) {
    for (kit_index before = 0; before < s; before++)
        if (chance(d, (int)(60 / (s < 4 ? 4 : s))) && k->n_step_after < 4 * k->n_steps)
            k->step_after[k->n_step_after++] = (kit_after){0, s, before};
    for (kit_index p = 0; p < k->n_parts; p++)
        if (chance(d, 35))
            k->step_parts[k->n_step_parts++] =
                (kit_step_part){.step = s, .part = p, .quantity = between(d, 1, 9), .closed_by = KIT_NONE};
    for (kit_index t = 0; t < k->n_tools; t++)
        if (chance(d, rich[7]))
            k->step_tools[k->n_step_tools++] = (kit_step_tool){0, s, t, between(d, 1, 2)};
    for (kit_index x = 0; x < k->n_skills; x++)
        if (chance(d, rich[8]))
            k->step_skills[k->n_step_skills++] =
                (kit_step_skill){.step = s, .skill = x, .people = between(d, 1, k->steps[s].people)};
    own_people(d, k, s);
}

/* Every other build has sub-assemblies: each step belongs to one of them or to the main machine, which changes nothing
 * else. (With dice of their own: the builds stay what they were without.) */
static void add_sub_assemblies(arena *a, uint64_t seed, kit *k) {
    dice d = {seed * 0xd1342543de82ef95ULL + 3};
    for (int n = 0; n < 8; n++)
        (void)next(&d);
    k->n_sub_assemblies = seed % 2 ? (uint32_t)between(&d, 1, 3) : 0;
    k->sub_assemblies = arena_array(a, kit_sub_assembly, k->n_sub_assemblies);
    for (uint32_t u = 0; u < k->n_sub_assemblies; u++) {
        k->sub_assemblies[u].number = k->sub_assemblies[u].name = arena_format(a, "U%u", (unsigned)u + 1);
        k->sub_assemblies[u].buffer_min = between(&d, 0, 30);
    }
    for (kit_index s = 0; s < k->n_steps; s++)
        if (chance(&d, 60))
            k->steps[s].sub_assembly = pick(&d, k->n_sub_assemblies);
}

static const kit *random_kit(arena *a, dice *d, uint64_t seed, uint32_t size) {
    kit *k = arena_new(a, kit);
    int rich[9]; /* how often each feature is met in this build, per cent */
    for (int r = 0; r < 9; r++)
        rich[r] = chance(d, 40) ? 0 : (int)between(d, 5, 60);
    k->name = TEXT("random");
    add_things(a, d, k);
    k->n_steps = size;
    k->steps = arena_array(a, kit_step, size);
    k->step_after = arena_array(a, kit_after, (size_t)size * 4 + 1);
    k->step_parts = arena_array(a, kit_step_part, (size_t)size * k->n_parts);
    k->step_tools = arena_array(a, kit_step_tool, (size_t)size * (k->n_tools + 1));
    k->step_skills = arena_array(a, kit_step_skill, (size_t)size * (k->n_skills + 1));
    for (kit_index s = 0; s < size; s++) {
        add_step(a, d, k, s, rich);
        add_rows_of_step(d, k, s, rich);
    }
    add_sub_assemblies(a, seed, k);
    k->rows = arena_array(a, kit_row, k->n_parts);
    k->n_rows = k->n_parts;
    for (kit_index p = 0; p < k->n_parts; p++) {
        k->rows[p] = (kit_row){.part = p};
        for (uint32_t x = 0; x < k->n_step_parts; x++)
            k->rows[p].quantity += k->step_parts[x].part == p ? k->step_parts[x].quantity : 0;
    }
    return k;
}

/* ---- the workshop -------------------------------------------------------------------------------------------------------- */

static void add_crew(arena *a, dice *d, const kit *k, kit_workshop *w) {
    w->n_crew = (uint32_t)between(d, 3, 9);
    w->crew = arena_array(a, kit_person, w->n_crew);
    uint32_t adults = (uint32_t)between(d, 1, 3);
    for (uint32_t p = 0; p < w->n_crew; p++) {
        kit_person *x = &w->crew[p];
        x->number = arena_format(a, "p%u", (unsigned)p + 1);
        x->name = arena_format(a, "Person %u", (unsigned)p + 1);
        x->adult = p < adults;
        x->leader = p == 0;
        if (x->adult)
            x->supervises = some_of(a, d, k->n_works, p == 0 ? 90 : 50);
        x->skills = some_of(a, d, k->n_skills, 45);
    }
    w->minimum_adults = chance(d, 80) ? 1 : 2;
}

static void add_sessions(arena *a, dice *d, kit_workshop *w) {
    w->n_sessions = (uint32_t)between(d, 1, 8);
    w->sessions = arena_array(a, kit_session, w->n_sessions);
    w->attendance = arena_array(a, kit_attendance, (size_t)w->n_sessions * w->n_crew);
    date_day day = 20000;
    int absent = chance(d, 40) ? 0 : (int)between(d, 5, 40);
    for (uint32_t s = 0; s < w->n_sessions; s++) {
        int start = (int)between(d, 9, 18) * 60;
        day += (date_day)between(d, 1, 7);
        w->sessions[s] = (kit_session){0,
                                       (int64_t)s + 1,
                                       day,
                                       start,
                                       start + (int)between(d, 70, 180),
                                       between(d, 0, 15),
                                       between(d, 0, 15),
                                       s > 0 && day % 13 == 0};
        for (kit_index p = 0; p < w->n_crew; p++) {
            if (!chance(d, absent))
                continue;
            kit_attendance *x = &w->attendance[w->n_attendance++];
            *x = (kit_attendance){0, s, p, chance(d, 50), -1, -1};
            if (x->comes && chance(d, 60))
                x->from = start + (int)between(d, 0, 50);
            if (x->comes && chance(d, 60))
                x->until = start + (int)between(d, 40, 120);
        }
    }
}

static const kit_workshop *random_workshop(arena *a, dice *d, const kit *k) {
    kit_workshop *w = arena_new(a, kit_workshop);
    w->name = TEXT("workshop");
    w->wanted_day = INT32_MAX;
    w->longest_wait_min = 45;
    w->beginners_percent = chance(d, 50) ? 100 : between(d, 80, 170);
    add_crew(a, d, k, w);
    add_sessions(a, d, w);
    w->tools = arena_array(a, kit_owned, k->n_tools);
    w->n_tools = chance(d, 90) ? k->n_tools : 0;
    for (kit_index t = 0; t < w->n_tools; t++)
        w->tools[t] = (kit_owned){0, t, chance(d, 95) ? between(d, 2, 3) : 1};
    w->workplaces = arena_array(a, kit_owned, k->n_zones);
    for (kit_index z = 0; z < k->n_zones; z++)
        if (k->zones[z].kind == KIT_WORKPLACE && chance(d, 95))
            w->workplaces[w->n_workplaces++] = (kit_owned){0, z, between(d, 1, 2)};
    return w;
}

/* ---- stock and what was done ----------------------------------------------------------------------------------------------- */

static void add_stock(arena *a, dice *d, plan_input *in) {
    const kit *k = in->kit;
    bool complete = chance(d, 40);
    int64_t *usable = arena_array(a, int64_t, k->n_parts);
    plan_arrival *arrivals = arena_array(a, plan_arrival, k->n_parts);
    for (kit_index p = 0; p < k->n_parts; p++) {
        int64_t lack = !complete && chance(d, 50) ? between(d, 0, k->rows[p].quantity) / 2 : 0;
        usable[p] = k->rows[p].quantity - lack;
        if (lack > 0 && chance(d, 70))
            arrivals[in->n_arrivals++] = (plan_arrival){p, chance(d, 70) ? lack : between(d, 1, lack),
                                                        (date_moment)(20000 + between(d, 0, 60)) * 1440};
    }
    in->usable = usable;
    in->arrivals = arrivals;
}

/* The first few steps done, each after all it follows. */
static void add_done(arena *a, dice *d, plan_input *in) {
    if (chance(d, 60))
        return;
    uint32_t count = (uint32_t)between(d, 0, in->kit->n_steps / 2);
    plan_done *done = arena_array(a, plan_done, count);
    const kit_session *s = &in->workshop->sessions[0];
    for (uint32_t n = 0; n < count; n++)
        done[n] = (plan_done){n, (date_moment)s->day * 1440 + s->start + between(d, 0, 60)};
    in->done = done;
    in->n_done = count;
    if (chance(d, 70))
        in->from = (date_moment)s->day * 1440 + s->start + between(d, 60, 100);
}

plan_input random_build(arena *a, uint64_t seed, uint32_t size) {
    dice d = {seed * 0x9e3779b97f4a7c15ULL + 1};
    for (int k = 0; k < 8; k++)
        (void)next(&d);
    plan_input in = {.kit = random_kit(a, &d, seed, size), .from = INT64_MIN, .effort = 2000};
    in.workshop = random_workshop(a, &d, in.kit);
    add_stock(a, &d, &in);
    add_done(a, &d, &in);
    return in;
}

/* ---- the same in fewer minutes ---------------------------------------------------------------------------------------------- */

static void make_steps_small(kit *k, int64_t divisor) {
    for (kit_index s = 0; s < k->n_steps; s++) {
        kit_step *x = &k->steps[s];
        x->likely_min = (x->likely_min + divisor - 1) / divisor;
        x->low_min = x->low_min / divisor + 1;
        x->high_min = x->high_min / divisor + 1;
        x->resume_min = (x->resume_min + divisor - 1) / divisor;
        if (x->delay_clock == KIT_WORKING_TIME)
            x->delay_min = (x->delay_min + divisor - 1) / divisor;
        uint32_t kept = 0;
        for (uint32_t n = 0; n < x->change_over_min.n; n++) {
            int64_t at = x->change_over_min.list[n] / divisor;
            if (at > 0 && at < x->likely_min && (kept == 0 || at > x->change_over_min.list[kept - 1]))
                x->change_over_min.list[kept++] = at;
        }
        x->change_over_min.n = kept;
    }
}

static void make_sessions_small(kit_workshop *w, int divisor) {
    for (uint32_t n = 0; n < w->n_attendance; n++) {
        kit_attendance *x = &w->attendance[n];
        int start = w->sessions[x->session].start;
        x->from = x->from < 0 ? x->from : start + (x->from - start) / divisor;
        x->until = x->until < 0 ? x->until : start + (x->until - start) / divisor;
    }
    for (kit_index s = 0; s < w->n_sessions; s++) {
        kit_session *x = &w->sessions[s];
        x->end = x->start + (x->end - x->start) / divisor;
        x->opening_min /= divisor;
        x->closing_min /= divisor;
    }
}

static date_moment nearer(date_moment at, date_moment start, int64_t divisor) {
    return at == INT64_MIN ? at : start + (at - start) / divisor;
}

plan_input random_build_small(arena *a, uint64_t seed, uint32_t size, int64_t divisor) {
    plan_input in = random_build(a, seed, size);
    kit *k = arena_new(a, kit);
    kit_workshop *w = arena_new(a, kit_workshop);
    plan_done *done = arena_array(a, plan_done, in.n_done);
    *k = *in.kit; /* the arrays behind are this build's own */
    *w = *in.workshop;
    date_moment start = (date_moment)w->sessions[0].day * 1440 + w->sessions[0].start;
    for (uint32_t n = 0; n < in.n_done; n++)
        done[n] = (plan_done){in.done[n].step, nearer(in.done[n].at, start, divisor)};
    make_steps_small(k, divisor);
    make_sessions_small(w, (int)divisor);
    in.kit = k;
    in.workshop = w;
    in.done = done;
    in.from = nearer(in.from, start, divisor);
    return in;
}
