/* kit_sheet.c: which of the sheets that need only a kit is wanted, and whether the kit has what it is about. */
#include "paper/kit_sheet.h"

#include <assert.h>

typedef struct {
    const char *title;
    void (*add)(book *b, const kit_sheet *k);
} form;

static const form forms[] = {
    [PAPER_TOOL_SHEET] = {"Tools", add_tool_sheet},
    [PAPER_HAZARD_TABLE] = {"Hazards", add_hazard_table},
    [PAPER_EMERGENCY_CARD] = {"Emergency card", add_emergency_card},
    [PAPER_BATTERY_CARD] = {"Battery care", add_battery_card},
    [PAPER_UNIT_TAGS] = {"Tags for half-built units", add_unit_tags},
    [PAPER_RELEASE_LIST] = {"Release list", add_release_list},
    [PAPER_CLOSING_SHEET] = {"Closing sheet", add_closing_sheet},
    [PAPER_PACKING_LISTS] = {"Packing lists", add_packing_lists},
};

static bool refuse(const kit *k, paper_kit_sheet which, err *e) {
    if (which == PAPER_TOOL_SHEET && k->n_tools == 0)
        return err_input(e, "tools.csv", "list the tools there", "the kit names no tools");
    if (which == PAPER_HAZARD_TABLE && k->n_step_cautions == 0)
        return err_input(e, "step_cautions.csv", "list what can hurt whom there", "the kit names no hazard");
    if (which == PAPER_BATTERY_CARD && k->n_batteries == 0)
        return err_input(e, "batteries.csv", "list them there", "the kit has no batteries");
    if (which == PAPER_UNIT_TAGS && k->n_sub_assemblies == 0)
        return err_input(e, "sub_assemblies.csv", "list them there", "the kit has no sub-assemblies");
    if (which == PAPER_PACKING_LISTS && k->n_rows == 0)
        return err_input(e, "rows.csv", "packing lists need it", "the kit has no rows");
    return true;
}

bool paper_of_kit(arena *a, const paper_setup *setup, paper_kit_sheet which, const kit *k, buf *pdf,
                  paper_notes *notes, err *e) {
    assert(which < sizeof forms / sizeof forms[0]);
    if (!refuse(k, which, e))
        return false;
    book *to;
    text title = arena_format(a, "%s: %.*s", forms[which].title, TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    forms[which].add(to, &(kit_sheet){a, k});
    return book_close(to, notes, e);
}
