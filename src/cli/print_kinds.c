/* print_kinds.c: the sheets that can be printed, and how the command line chooses what is on them. */
#include <stdio.h>

#include "base/sys.h"
#include "cli/print.h"

/* The pieces of "--box 1,3" as indices by `find`. NULL (none given) gives an empty list. */
static bool read_list(const print_job *j, const char *option, kit_index (*find)(const kit *, text),
                      const char *table, kit_indices *out, err *e) {
    const char *value = cli_value(j->call, option);
    *out = (kit_indices){0};
    if (!value)
        return true;
    text rest = text_of(value), piece;
    out->list = arena_array(j->call->memory, kit_index, rest.len + 1);
    while (text_next_piece(&rest, ',', &piece)) {
        kit_index i = find(j->kit, text_trim(piece));
        if (i == KIT_NONE)
            return err_input(e, arena_format(j->call->memory, "--%s", option).at,
                             arena_format(j->call->memory, "see %s of the kit", table).at,
                             "the kit has no %s \"%.*s\"", option, TEXT_ARG(piece));
        out->list[out->n++] = i;
    }
    return true;
}

/* "3" also names the box whose number is "box 3". */
static kit_index find_box(const kit *k, text number) {
    kit_index i = kit_find_container(k, number);
    char longer[64];
    if (i != KIT_NONE || number.len > sizeof longer - 8)
        return i;
    snprintf(longer, sizeof longer, "box %.*s", TEXT_ARG(number));
    return kit_find_container(k, text_of(longer));
}

/* The build's plan, and the session that --session names: the one that is on or comes next unless it says otherwise. */
static bool find_session(const print_job *j, plan **p, uint32_t *session, err *e) {
    int64_t number;
    plan_input how = {.from = INT64_MIN};
    if (!build_option(j->call, "session", 1, CLI_MOST, 0, &number, e) || !desk_plan(j->build, &how, p, e))
        return false;
    const plan *made = *p;
    if (made->n_sessions == 0)
        return err_input(e, j->source, "see kitbench plan", "the plan has no session");
    for (uint32_t i = 0; i < made->n_sessions; i++) {
        const plan_session *s = &made->sessions[i];
        *session = i;
        if (number ? s->number == number : !s->dated || s->ends > sys_now())
            return true;
    }
    if (!number)
        return true; /* all are over: the last */
    return err_input(e, "--session", "see kitbench plan for the sessions", "the plan has no session %lld",
                     (long long)number);
}

/* The steps that are worked at in a session, in the plan's order. */
static bool steps_of_session(const print_job *j, kit_indices *steps, err *e) {
    plan *p;
    uint32_t session;
    if (!j->build)
        return err_input(e, j->source, "name a build file; see kitbench new --help",
                         "it is a kit folder, and sessions are planned in a build");
    if (!find_session(j, &p, &session, e))
        return false;
    *steps = (kit_indices){.list = arena_array(j->call->memory, kit_index, p->n_steps)};
    for (uint32_t i = 0; i < p->n_steps; i++)
        if (p->steps[i].session <= session && session <= p->steps[i].last_session)
            steps->list[steps->n++] = p->steps[i].step;
    return steps->n ||
           err_input(e, "--session", "choose another session", "no step is planned for that session");
}

/* --- one function for each sheet ------------------------------------------------------------------------------- */

static bool compose_check_sheets(print_job *j, err *e) {
    kit_indices boxes;
    int64_t copies;
    if (!read_list(j, "box", find_box, "containers.csv", &boxes, e) ||
        !build_option(j->call, "copies", 1, 20, 1, &copies, e))
        return false;
    paper_check_choice choice = {.boxes = boxes.list, .n_boxes = boxes.n, .copies = (int)copies};
    return paper_check_sheets(j->call->memory, &j->setup, j->kit, &choice, &j->pdf, &j->notes, e);
}

static bool compose_job_cards(print_job *j, err *e) {
    kit_indices steps = {0};
    if (cli_given(j->call, "session") && cli_given(j->call, "step"))
        return err_input(e, "print", "give one of them", "--session and --step both choose the steps");
    bool chosen = cli_given(j->call, "session") ? steps_of_session(j, &steps, e)
                                                : read_list(j, "step", kit_find_step, "steps.csv", &steps, e);
    if (!chosen)
        return false;
    paper_card_choice choice = {.steps = steps.list, .n_steps = steps.n};
    return paper_job_cards(j->call->memory, &j->setup, j->kit, &choice, &j->pdf, &j->notes, e);
}

static bool compose_report(print_job *j, err *e) {
    text from = j->build->workshop ? j->build->workshop->name : TEXT("");
    return paper_report(j->call->memory, &j->setup, j->kit, j->build->stock, from, &j->pdf, &j->notes, e);
}

static bool compose_run_sheet(print_job *j, err *e) {
    plan *p = NULL;
    uint32_t session = 0;
    return find_session(j, &p, &session, e) &&
           paper_run_sheet(j->call->memory, &j->setup, p, session, &j->pdf, &j->notes, e);
}

static bool compose_gauge_sheets(print_job *j, err *e) {
    return paper_gauge_sheets(j->call->memory, &j->setup, j->kit, &j->pdf, &j->notes, e);
}

static bool compose_test_page(print_job *j, err *e) {
    return paper_test_page(j->call->memory, &j->setup, &j->pdf, &j->notes, e);
}

static bool compose_of_kit(print_job *j, err *e) {
    return paper_of_kit(j->call->memory, &j->setup, j->kind->sheet, j->kit, &j->pdf, &j->notes, e);
}

#define LABEL_OPTIONS "grid label corner gap first address"

static const print_kind kinds[] = {
    {"check-sheets", "box copies", false, compose_check_sheets, 0},
    {"report", "", true, compose_report, 0},
    {"job-cards", "step session", false, compose_job_cards, 0},
    {"run-sheet", "session", true, compose_run_sheet, 0},
    {"bag-labels", LABEL_OPTIONS, false, print_bag_labels, 0},
    {"sorter-labels", LABEL_OPTIONS, false, print_sorter_labels, 0},
    {"gauge-sheets", "", false, compose_gauge_sheets, 0},
    {"tools", "", false, compose_of_kit, PAPER_TOOL_SHEET},
    {"hazards", "", false, compose_of_kit, PAPER_HAZARD_TABLE},
    {"emergency-card", "", false, compose_of_kit, PAPER_EMERGENCY_CARD},
    {"battery-card", "", false, compose_of_kit, PAPER_BATTERY_CARD},
    {"unit-tags", "", false, compose_of_kit, PAPER_UNIT_TAGS},
    {"release-list", "", false, compose_of_kit, PAPER_RELEASE_LIST},
    {"closing-sheet", "", false, compose_of_kit, PAPER_CLOSING_SHEET},
    {"packing-lists", "", false, compose_of_kit, PAPER_PACKING_LISTS},
    {"test-page", "", false, compose_test_page, 0},
    {"all", "", false, NULL, 0},
};

const print_kind *print_kinds(size_t *n) {
    *n = sizeof kinds / sizeof kinds[0];
    return kinds;
}
