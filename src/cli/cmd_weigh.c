/* cmd_weigh.c: `kitbench weigh`: counting by weight, and what explains a bag's wrong weight. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "cli/commands.h"
#include "cli/kit_source.h"
#include "cli/trade_call.h"

static void print_count(buf *out, const weighed_count *c, double wanted) {
    if (c->told)
        buf_addf(out, "%d pieces\n", c->count);
    else
        buf_addf(out, "%d to %d pieces; not sure enough for one number\n", c->low, c->high);
    trade_line(out, "So many pieces come out exactly right %.0f times in 100 with this scale and sample.",
               floor(100 * c->chance_before));
    trade_line(out, "Reading %.2f, error %.2f pieces (one standard deviation).", c->pieces, c->sd);
    if (c->told)
        return;
    if (c->reference_needed)
        trade_line(out, "For %.0f in 100 the reference sample must be %d pieces.", 100 * wanted,
                   c->reference_needed);
    else
        trade_line(
            out, "No reference sample is large enough at this count: weigh smaller heaps, or count by hand.");
}

static int count_pieces(const cli_call *call, err *e) {
    weighing w = {0};
    double wanted;
    weighed_count c;
    bool ok = trade_option(call, "tare", 0, 1e6, 0, &w.tare_g, e) &&
              trade_option(call, "gross", 0, 1e6, (double)NAN, &w.gross_g, e) &&
              trade_whole(call, "reference", 1, 100000, 0, &w.reference_n, e) &&
              trade_option(call, "reference-mass", 0, 1e6, (double)NAN, &w.reference_g, e) &&
              trade_option(call, "step", 0.0001, 10000, 0.1, &w.scale_step_g, e) &&
              trade_option(call, "scatter", 0.0005, 0.2, 0.01, &w.piece_cv, e) &&
              trade_option(call, "sure", 50, 99.99, 95, &wanted, e) && weigh_count(&w, wanted / 100, &c, e);
    if (!ok)
        return cli_fail(e);
    buf out = {0};
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        if (c.told)
            json_put_integer(&j, "count", c.count);
        else
            json_put_null(&j, "count");
        json_put_integer(&j, "low", c.low);
        json_put_integer(&j, "high", c.high);
        trade_json_real(&j, "sd", c.sd);
        trade_json_real(&j, "chance_before", c.chance_before);
        trade_json_real(&j, "chance_right", c.chance_right);
        json_put_integer(&j, "reference_needed", c.reference_needed);
        json_end_object(&j);
    } else {
        print_count(&out, &c, wanted / 100);
    }
    return cli_print(&out, c.told ? EXIT_DONE : EXIT_NO);
}

/* The rows of a bag with their masses. */
typedef struct {
    bag_part *parts;
    kit_index *rows;
    uint32_t n;
} bag_list;

static bool list_bag(const cli_call *call, const kit *k, text number, bag_list *list, err *e) {
    kit_index bag = kit_find_container(k, number);
    if (bag == KIT_NONE)
        return err_input(e, "weigh", "name a box or bag of the kit", "there is no container \"%.*s\"",
                         TEXT_ARG(number));
    list->parts = arena_array(call->memory, bag_part, k->n_rows);
    list->rows = arena_array(call->memory, kit_index, k->n_rows);
    for (uint32_t i = 0; i < k->n_rows; i++) {
        const kit_row *r = &k->rows[i];
        kit_index c = r->container;
        while (c != KIT_NONE && c != bag)
            c = k->containers[c].inside;
        if (c != bag)
            continue;
        int64_t mass = k->parts[r->part].mass_mg;
        if (mass <= 0)
            return err_input(e, "weigh", "give its mass in parts.csv, or count the bag",
                             "the mass of %.*s is not known", TEXT_ARG(k->parts[r->part].number));
        /* a length or a mass is there as a whole or not at all */
        double each = (double)mass * (r->unit == KIT_PIECE ? 1 : (double)r->quantity);
        list->parts[list->n] = (bag_part){each, 0.01 * each, r->unit == KIT_PIECE ? (int32_t)r->quantity : 1};
        list->rows[list->n++] = i;
    }
    return true;
}

static text story_text(const cli_call *call, const kit *k, const bag_list *list, const bag_story *s) {
    if (!s->delta[0])
        return TEXT("nothing wrong");
    text all = {"", 0};
    for (int i = 0; i < BAG_CHANGES && s->delta[i]; i++) {
        const kit_part *p = &k->parts[k->rows[list->rows[s->part[i]]].part];
        all = arena_format(call->memory, "%.*s%s%d %s %.*s (%.*s)", TEXT_ARG(all), all.len ? ", " : "",
                           abs(s->delta[i]), s->delta[i] < 0 ? "missing" : "extra", TEXT_ARG(p->number),
                           TEXT_ARG(p->name));
    }
    return all;
}

static void print_bag(const cli_call *call, const kit *k, const bag_list *list, const bag_answer *b,
                      buf *out) {
    static const char *const verdicts[] = {
        "as listed", "one explanation is likelier than all others together",
        "a few explanations fit: look at these first", "cannot tell: too many explanations fit",
        "no explanation with so few wrong pieces: more is wrong, or a mass or the packing is"};
    trade_line(out, "%+.2f g against the list (one standard deviation %.2f g): %s", b->difference_mg / 1e3,
               b->sd_mg / 1e3, verdicts[b->verdict]);
    uint32_t shown = b->verdict == BAG_CANNOT_TELL ? 3 : b->n_stories < 8 ? b->n_stories : 8;
    for (uint32_t i = 0; i < shown && i < b->n_stories; i++)
        trade_line(out, "  %4.1f %%  %.*s", 100 * b->stories[i].chance,
                   TEXT_ARG(story_text(call, k, list, &b->stories[i])));
    trade_line(out, "%llu of %llu combinations fit. A weight is a hint, never a count.",
               (unsigned long long)b->fitting, (unsigned long long)b->tried);
}

static void json_bag(const cli_call *call, const kit *k, const bag_list *list, const bag_answer *b,
                     buf *out) {
    static const char *const verdicts[] = {"as listed", "one story", "few stories", "cannot tell",
                                           "no story"};
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    trade_json_z(&j, "verdict", verdicts[b->verdict]);
    trade_json_real(&j, "difference_g", b->difference_mg / 1e3);
    trade_json_real(&j, "sd_g", b->sd_mg / 1e3);
    json_put_integer(&j, "fitting", (int64_t)b->fitting);
    json_put_integer(&j, "tried", (int64_t)b->tried);
    json_put_array(&j, "stories");
    for (uint32_t i = 0; i < b->n_stories; i++) {
        json_put_object(&j, NULL);
        json_put_text(&j, "what", story_text(call, k, list, &b->stories[i]));
        trade_json_real(&j, "chance", b->stories[i].chance);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

static int explain_bag(const cli_call *call, const kit_source *from, err *e) {
    const kit *k = from->kit;
    bag_list list = {0};
    bag_answer b;
    double gross, tare, step;
    int32_t changes;
    bool ok =
        call->n_arguments == 2 || err_input(e, "weigh", "write kitbench weigh KIT BAG", "no bag is named");
    ok = ok && list_bag(call, k, text_of(call->arguments[1]), &list, e) &&
         trade_option(call, "gross", 0, 1e6, (double)NAN, &gross, e) &&
         trade_option(call, "tare", 0, 1e6, (double)NAN, &tare, e) &&
         trade_option(call, "step", 0.0001, 10000, 0.1, &step, e) &&
         trade_whole(call, "changes", 1, 4, 2, &changes, e);
    if (ok && gross < tare)
        ok = err_input(e, "weigh", "weigh the empty bag again", "the full bag is lighter than the empty one");
    if (!ok)
        return cli_fail(e);
    double scale_sd = 1e3 * step / sqrt(6.0); /* tare and gross, each a step wide */
    bag_problem p = {.parts = list.parts,
                     .n_parts = list.n,
                     .measured_mg = 1e3 * (gross - tare),
                     .scale_sd_mg = scale_sd,
                     .changes_most = changes};
    if (!bag_explain(call->memory, &p, &b, e))
        return cli_fail(e);
    buf out = {0};
    if (call->json)
        json_bag(call, k, &list, &b, &out);
    else
        print_bag(call, k, &list, &b, &out);
    return cli_print(&out, b.verdict == BAG_AS_LISTED ? EXIT_DONE : EXIT_NO);
}

int cmd_weigh(cli_call *call) {
    err e = {0};
    kit_source from;
    int code;
    if (!call->n_arguments)
        return count_pieces(call, &e);
    if (!kit_source_open(call, call->arguments[0], NULL, &from, &code))
        return code;
    code = explain_bag(call, &from, &e);
    kit_source_close(&from);
    return code;
}
