/* plan_text_turns.c: what each of the crew gets to do, and who has practised what. */
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/plan_text.h"

enum { NAME_COLUMNS = 16, TIME_COLUMNS = 12 };

static text name_of(const plan *p, kit_index person) {
    const kit_person *who = &p->workshop->crew[person];
    return who->name.len ? who->name : who->number;
}

static text hours(arena *a, int32_t minutes) {
    return arena_format(a, "%s%d:%02d", minutes < 0 ? "-" : "", (int)(minutes < 0 ? -minutes : minutes) / 60,
                        (int)(minutes < 0 ? -minutes : minutes) % 60);
}

static void add_columns(buf *out, text name, const text cells[5]) {
    wrap_pad(out, name, NAME_COLUMNS);
    for (uint32_t k = 0; k < 5; k++) {
        for (size_t blanks = cells[k].len; blanks < TIME_COLUMNS; blanks++)
            buf_add_char(out, ' ');
        buf_add(out, cells[k]);
    }
    buf_add_char(out, '\n');
}

static void add_minutes(arena *a, const plan *p, buf *out) {
    const text head[5] = {TEXT("there"), TEXT("at work"), TEXT("fair share"), TEXT("lack"), TEXT("wait")};
    buf_add_z(out, "\nTurns: hours at work with their hands; the longest wait at a session\n");
    add_columns(out, TEXT(""), head);
    for (kit_index q = 0; q < p->workshop->n_crew; q++) {
        const plan_turn *t = &p->turns[q];
        bool learner = !p->workshop->crew[q].adult;
        const text cells[5] = {hours(a, t->present_min), hours(a, t->own_min),
                               learner ? hours(a, t->share_min) : TEXT("-"),
                               learner ? hours(a, t->lack_min) : TEXT("-"), hours(a, t->longest_wait_min)};
        add_columns(out, arena_format(a, "  %.*s", TEXT_ARG(name_of(p, q))), cells);
    }
    wrap_add(out,
             p->turns_least ? TEXT("Proven: no other choice of people leaves the learners less lacking.")
                            : TEXT("No change of one seat and no exchange between two makes this fairer."),
             CLI_WIDTH, 0);
}

static void add_skills(arena *a, const plan *p, buf *out) {
    if (p->kit->n_skills == 0)
        return;
    buf_add_z(out, "\nWho has practised what: works at a step that asks for it, first in session\n");
    for (kit_index q = 0; q < p->workshop->n_crew; q++) {
        const plan_turn *t = &p->turns[q];
        buf line = {0};
        buf_addf(&line, "  %.*s: ", TEXT_ARG(name_of(p, q)));
        for (uint32_t n = 0; n < t->n_skills; n++) {
            const plan_practice *x = &t->skills[n];
            buf_addf(&line, "%s%.*s", n ? ", " : "", TEXT_ARG(p->kit->skills[x->skill].number));
            if (x->before)
                buf_add_z(&line, " (before)");
            else
                buf_addf(&line, " (%lld)", (long long)p->sessions[x->session].number);
        }
        if (t->n_skills == 0)
            buf_add_z(&line, "none yet");
        wrap_add(out, arena_text(a, buf_text(&line)), CLI_WIDTH, 4);
        buf_free(&line);
    }
}

void plan_text_turns(arena *a, const plan *p, buf *out) {
    if (!p->turns)
        return;
    add_minutes(a, p, out);
    add_skills(a, p, out);
}
