/* battery_call.c: which battery is meant, and the load on it. */
#include "cli/battery_call.h"

#include "base/number.h"

/* The only battery of the kit, or the one of --part. */
static const kit_battery *find_label(battery_answer *a, const char *part) {
    const kit *k = a->kit;
    kit_index wanted = part ? kit_find_part(k, text_of(part)) : KIT_NONE;
    const kit_battery *found = NULL;
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_batteries; i++) {
        if (part && k->batteries[i].part != wanted)
            continue;
        found = &k->batteries[i];
        n++;
    }
    if (n == 1)
        return found;
    text list = {"", 0};
    for (uint32_t i = 0; i < k->n_batteries; i++)
        list = arena_format(a->call->memory, "%.*s%s%.*s", TEXT_ARG(list), i ? ", " : "",
                            TEXT_ARG(k->parts[k->batteries[i].part].number));
    if (k->n_batteries == 0)
        err_input(&a->e, "battery", "leave the kit out and say --volts and --ah",
                  "this kit has no table of batteries");
    else
        err_input(&a->e, "--part", arena_format(a->call->memory, "name one of: %.*s", TEXT_ARG(list)).at,
                  part ? "\"%s\" is no battery of the kit" : "the kit has several batteries%s",
                  part ? part : "");
    return NULL;
}

static bool read_label(battery_answer *a) {
    a->label = find_label(a, cli_value(a->call, "part"));
    if (!a->label)
        return false;
    if (a->label->chemistry == KIT_FLOODED)
        return err_input(&a->e, "battery", "follow its label and its maker",
                         "the kit's battery is a flooded one, for which no table is here");
    for (uint32_t r = 0; r < a->kit->n_rows; r++)
        a->pieces += a->kit->rows[r].part == a->label->part ? a->kit->rows[r].quantity : 0;
    return true;
}

static bool read_options(battery_answer *a) {
    const kit_battery *b = a->label;
    unsigned sort, own = b && b->chemistry == KIT_GEL;
    int32_t series, parallel;
    double volts = b ? (double)b->nominal_mv / 1e3 : 12, ah = b ? (double)b->capacity_mah / 1e3 : 36;
    bool ok = trade_word(a->call, "sort", "agm|gel", own, &sort, &a->e) &&
              trade_option(a->call, "volts", 6, 12, volts, &a->set.volts, &a->e) &&
              trade_option(a->call, "ah", 1, 300, ah, &a->set.ah, &a->e) &&
              trade_whole(a->call, "series", 1, 4, 1, &series, &a->e) &&
              trade_whole(a->call, "parallel", 1, 4, 1, &parallel, &a->e);
    if (!ok)
        return false;
    a->set.sort = sort ? &battery_gel : &battery_agm;
    a->set.series = series;
    a->set.parallel = parallel;
    return (a->set.volts == 6 || a->set.volts == 12) ||
           err_input(&a->e, "--volts",
                     "give the volts of one battery, 6 or 12; more in a string with --series",
                     "%g V is no battery this knows", a->set.volts);
}

bool battery_meant(battery_answer *a, const char *path, kit_source *from, int *code) {
    *code = 0;
    if (path) {
        if (!kit_source_open(a->call, path, NULL, from, code))
            return false;
        a->kit = from->kit;
        if (!read_label(a))
            return false;
    } else if (cli_given(a->call, "part")) {
        return err_input(&a->e, "--part", "name the kit, too: kitbench battery QUESTION KIT --part P",
                         "a part belongs to a kit");
    }
    return read_options(a);
}

static bool read_number(text t, double *out) {
    number_fault why;
    int64_t milli;
    if (!number_decimal(text_trim(t), 3, 0, 1000000000, &milli, &why))
        return false;
    *out = (double)milli / 1e3;
    return true;
}

bool battery_profile(battery_answer *a, load_part parts[64], size_t *n) {
    const char *value = cli_value(a->call, "load");
    static const char remedy[] =
        "write --load 5 for a steady 5 A, or --load \"10x5; 2x20\" for 10 A 5 min, 2 A 20 min";
    if (!value)
        return err_input(&a->e, "--load", remedy, "it is needed here");
    text rest = text_of(value), piece;
    *n = 0;
    while (text_next_piece(&rest, ';', &piece)) {
        text current = piece, minutes = piece;
        if (*n == 64)
            return err_input(&a->e, "--load", "take parts together", "more than 64 parts");
        (void)text_next_piece(&minutes, 'x', &current);
        parts[*n].minutes = 60;
        if (!read_number(current, &parts[*n].amperes) ||
            (minutes.at && !read_number(minutes, &parts[*n].minutes)))
            return err_input(&a->e, "--load", remedy, "\"%.*s\" is not understood",
                             TEXT_ARG(text_trim(piece)));
        (*n)++;
    }
    return true;
}

void battery_add_band(buf *out, band b, const char *unit) {
    buf_addf(out, "%.3g %s (%.3g to %.3g)", b.likely, unit, b.low, b.high);
}
