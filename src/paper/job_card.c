/* job_card.c: one card for each step, complete enough to work from beside the maker's manual. */
#include "paper/book.h"
#include "paper/card.h"
#include "paper/facts.h"
#include "paper/masthead.h"
#include "paper/wording.h"

static const char *kind_of(const kit_step *s) {
    static const char *const kinds[] = {"JOB CARD", "JOB CARD · STOCK CHECK", "JOB CARD · SORTING",
                                        "JOB CARD · INDUCTION"};
    return kinds[s->kind];
}

static void draw_masthead(const card *c, sheet *s) {
    const kit *k = c->kit;
    const kit_step *step = &k->steps[c->step];
    masthead m = {
        .kind = kind_of(step),
        .title = wording_step(c->memory, k, c->step),
        .subtitle = step->kind != KIT_BUILD          ? TEXT("")
                    : step->sub_assembly == KIT_NONE ? TEXT("on the main machine")
                                                     : k->sub_assemblies[step->sub_assembly].name,
        .corner = arena_format(c->memory, "card %u of %u", c->number, c->of),
        .corner_more = step->work == KIT_NONE ? TEXT("") : k->works[step->work].name,
    };
    masthead_draw(s, &m);
}

static text skills_of(const card *c) {
    const kit *k = c->kit;
    buf words = {0};
    for (uint32_t i = 0; i < k->n_step_skills; i++)
        if (k->step_skills[i].step == c->step)
            buf_addf(&words, "%s%lld with skill: %.*s%s", words.len ? "; " : "",
                     (long long)k->step_skills[i].people, TEXT_ARG(k->skills[k->step_skills[i].skill].name),
                     k->step_skills[i].own_people ? " (only that)" : "");
    text t = arena_text(c->memory, buf_text(&words));
    buf_free(&words);
    return t;
}

static void draw_facts(const card *c, sheet *s) {
    const kit *k = c->kit;
    const kit_step *step = &k->steps[c->step];
    static const char *const supervision[] = {"adults in the room", "supervisor beside the work",
                                              "an adult does it"};
    fact facts[] = {
        {.label = "people",
         .value = arena_format(c->memory, "%lld", (long long)step->people),
         .under = skills_of(c)},
        {.label = "minutes",
         .value = arena_format(c->memory, "%lld", (long long)step->likely_min),
         .under = step->low_min == step->high_min
                      ? TEXT("")
                      : arena_format(c->memory, "%lld to %lld", (long long)step->low_min,
                                     (long long)step->high_min)},
        {.label = "supervision",
         .value = text_of(supervision[step->supervision]),
         .loud = step->supervision != KIT_IN_ROOM},
        {.label = "where", .value = step->zone == KIT_NONE ? TEXT("anywhere") : k->zones[step->zone].name},
        {.label = "manual page", .value = step->page.len ? step->page : TEXT("–")},
    };
    static const double shares[] = {16, 14, 30, 26, 14};
    facts_draw(s, facts, shares, sizeof facts / sizeof facts[0]);
}

static void compose(sheet *s, const void *what) {
    const card *c = what;
    draw_masthead(c, s);
    draw_facts(c, s);
    sheet_ledger(s, s->left + CARD_LEDGER);
    s->y += 6;
    card_before(c, s);
    card_wear(c, s);
    card_cautions(c, s);
    card_parts(c, s);
    card_tools(c, s);
    card_picture(c, s);
    card_work(c, s);
    card_tests(c, s);
    card_stopping(c, s);
    card_after(c, s);
    card_done(c, s);
}

static void add_card(book *to, card *c) {
    c->memory = arena_open();
    card_find_picture(c);
    text name = wording_step(c->memory, c->kit, c->step);
    book_add(to, &(book_section){.outline = name,
                                 .running = arena_format(c->memory, "Job card · %.*s", TEXT_ARG(name)),
                                 .foot = TEXT("the maker's manual and local rules come first"),
                                 .compose = compose,
                                 .what = c});
    image_close(&c->picture);
    arena_close(c->memory);
}

bool paper_job_cards(arena *a, const paper_setup *setup, const kit *k, const paper_card_choice *choice,
                     buf *pdf, paper_notes *notes, err *e) {
    if (k->n_steps == 0)
        return err_input(e, "steps.csv", "job cards need the maker's steps", "the kit has no steps");
    book *to;
    text title = arena_format(a, "Job cards: %.*s", TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    bool all = choice->n_steps == 0;
    const kit_index *steps = all ? kit_build_order(a, k) : choice->steps;
    uint32_t n = all ? k->n_steps : choice->n_steps;
    for (uint32_t i = 0; i < n; i++)
        add_card(to, &(card){.kit = k,
                             .step = steps[i],
                             .number = i + 1,
                             .of = n,
                             .setup = setup,
                             .notes = notes,
                             .lasting = a});
    return book_close(to, notes, e);
}
