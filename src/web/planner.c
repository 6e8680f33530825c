#include "web/planner.h"

#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <unistd.h>

#include "desk/desk.h"
#include "web/state.h"

/* Long enough for an evening's changes to be planned well, short enough to be there before the tea is drunk. */
static const double plan_seconds = 8;

struct planner {
    char *file;
    int ready; /* eventfd */
    pthread_t thread;
    pthread_mutex_t lock;
    pthread_cond_t news;
    bool started, ending;  /* under the lock, like the two below */
    uint64_t asked;        /* how often a plan was asked for */
    buf answer;            /* empty: taken already */
    sched_cancel *cancels; /* of the plan that is being made, or NULL */
};

static void put_moment(json_out *j, const char *key, date_moment m) {
    char shown[17];
    date_print_moment(m, shown);
    json_put_text(j, key, text_of(shown));
}

static void put_stretch(json_out *j, const plan *p, const plan_step *st, const plan_stretch *x) {
    const plan_session *s = &p->sessions[x->session];
    json_put_object(j, NULL);
    json_put_text(j, "step", p->kit->steps[st->step].number);
    json_put_integer(j, "from_min", x->start_min - s->from_min);
    json_put_integer(j, "to_min", x->end_min - s->from_min);
    json_put_array(j, "people");
    for (uint32_t i = 0; i < x->n_people; i++)
        json_put_text(j, NULL, p->workshop->crew[x->people[i]].number);
    json_end_array(j);
    json_put_text(j, "supervisor",
                  x->supervisor == KIT_NONE ? TEXT("") : p->workshop->crew[x->supervisor].number);
    json_put_bool(j, "decides_finish", st->decides_finish);
    json_end_object(j);
}

static void put_session(json_out *j, const plan *p, uint32_t at) {
    const plan_session *s = &p->sessions[at];
    json_put_object(j, NULL);
    json_put_integer(j, "number", s->number);
    if (s->dated) {
        put_moment(j, "begins", s->begins);
        put_moment(j, "ends", s->ends);
    }
    json_put_integer(j, "minutes", s->to_min - s->from_min);
    json_put_array(j, "work");
    for (uint32_t i = 0; i < p->n_steps; i++)
        for (uint32_t x = 0; x < p->steps[i].n_stretches; x++)
            if (p->steps[i].stretches[x].session == at)
                put_stretch(j, p, &p->steps[i], &p->steps[i].stretches[x]);
    json_end_array(j);
    json_end_object(j);
}

static void put_plan(json_out *j, const plan *p) {
    json_put_text(j, "status", text_of(plan_status_word(p->status)));
    json_put_bool(j, "proven", p->proven);
    json_put_integer(j, "makespan_min", p->makespan_min);
    json_put_integer(j, "lower_bound_min", p->lower_bound_min);
    if (p->finish_dated)
        put_moment(j, "finish", p->finish);
    if (p->workshop->wanted_day != INT32_MAX) {
        char day[11];
        date_print(p->workshop->wanted_day, day);
        json_put_text(j, "wanted", text_of(day));
    }
    uint32_t last = 0;
    for (uint32_t i = 0; i < p->n_steps; i++)
        last = p->steps[i].last_session > last ? p->steps[i].last_session : last;
    json_put_array(j, "sessions");
    for (uint32_t i = 0; i <= last && i < p->n_sessions && p->n_steps; i++)
        put_session(j, p, i);
    json_end_array(j);
    json_put_array(j, "stopped");
    for (uint32_t i = 0; i < p->n_stopped; i++) {
        json_put_object(j, NULL);
        json_put_text(j, "step", p->kit->steps[p->stopped[i].step].number);
        json_put_text(j, "part", p->kit->parts[p->stopped[i].part].number);
        json_put_integer(j, "missing", p->stopped[i].missing);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_array(j, "impossible");
    for (uint32_t i = 0; i < p->n_impossible; i++) {
        json_put_object(j, NULL);
        json_put_text(j, "step", p->kit->steps[p->impossible[i].step].number);
        json_put_text(j, "reason", p->impossible[i].reason);
        json_put_text(j, "remedy", p->impossible[i].remedy);
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_failure(json_out *j, const err *e) {
    json_put_text(j, "status", TEXT("none"));
    json_put_text(j, "place", text_of(e->place));
    json_put_text(j, "cause", text_of(e->cause));
    json_put_text(j, "remedy", text_of(e->remedy));
}

static void make_plan(planner *p, sched_cancel *cancel, buf *line) {
    arena *a = arena_open();
    desk *d;
    plan *made;
    err e = {0};
    buf scratch = {0};
    json_out j = json_to(&scratch);
    json_put_object(&j, NULL);
    plan_input how = {.from = INT64_MIN, .seconds = plan_seconds, .cancel = cancel};
    if (!desk_open(a, p->file, DESK_READ, "serve", &d, &e)) {
        put_failure(&j, &e);
    } else {
        bool ok = d->workshop != NULL;
        if (!ok)
            err_input(&e, p->file, "begin it with kitbench new --workshop FOLDER",
                      "the build has no crew and no sessions");
        ok = ok && desk_plan(d, &how, &made, &e);
        if (ok)
            put_plan(&j, made);
        else
            put_failure(&j, &e);
        desk_close(d);
    }
    json_end_object(&j);
    state_add_compact(line, buf_text(&scratch));
    buf_free(&scratch);
    arena_close(a);
}

/* A plan of an older file is given up: `cancel` is asked, and its answer thrown away when another one was asked for. */
static void *work(void *what) {
    planner *p = what;
    uint64_t done = 0;
    pthread_mutex_lock(&p->lock);
    while (!p->ending) {
        if (p->asked == done) {
            pthread_cond_wait(&p->news, &p->lock);
            continue;
        }
        sched_cancel cancel = {0};
        buf line = {0};
        done = p->asked;
        p->cancels = &cancel;
        pthread_mutex_unlock(&p->lock);
        make_plan(p, &cancel, &line);
        pthread_mutex_lock(&p->lock);
        p->cancels = NULL;
        if (p->asked == done && !p->ending) {
            buf_clear(&p->answer);
            buf_add(&p->answer, buf_text(&line));
            uint64_t one = 1;
            if (write(p->ready, &one, sizeof one) < 0)
                buf_clear(&p->answer); /* cannot happen: the counter is far from full */
        }
        buf_free(&line);
    }
    pthread_mutex_unlock(&p->lock);
    return NULL;
}

planner *planner_open(const char *file, err *e) {
    planner *p = calloc(1, sizeof *p);
    if (p) {
        p->ready = eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC);
        p->file = strdup(file);
        pthread_mutex_init(&p->lock, NULL);
        pthread_cond_init(&p->news, NULL);
        if (p->ready >= 0 && p->file && pthread_create(&p->thread, NULL, work, p) == 0) {
            p->started = true;
            return p;
        }
    }
    planner_close(p);
    err_run(e, "serve", "close other programs", "no second thread can be made");
    return NULL;
}

void planner_close(planner *p) {
    if (!p)
        return;
    if (p->started) {
        pthread_mutex_lock(&p->lock);
        p->ending = true;
        if (p->cancels)
            sched_ask_cancel(p->cancels);
        pthread_cond_signal(&p->news);
        pthread_mutex_unlock(&p->lock);
        pthread_join(p->thread, NULL);
    }
    pthread_mutex_destroy(&p->lock);
    pthread_cond_destroy(&p->news);
    if (p->ready >= 0)
        close(p->ready);
    buf_free(&p->answer);
    free(p->file);
    free(p);
}

void planner_ask(planner *p) {
    pthread_mutex_lock(&p->lock);
    p->asked++;
    if (p->cancels)
        sched_ask_cancel(p->cancels);
    pthread_cond_signal(&p->news);
    pthread_mutex_unlock(&p->lock);
}

int planner_fd(const planner *p) {
    return p->ready;
}

bool planner_take(planner *p, buf *out) {
    uint64_t counter;
    bool any = read(p->ready, &counter, sizeof counter) == sizeof counter;
    pthread_mutex_lock(&p->lock);
    any = any && p->answer.len;
    if (any)
        buf_add(out, buf_text(&p->answer));
    buf_clear(&p->answer);
    pthread_mutex_unlock(&p->lock);
    return any;
}
