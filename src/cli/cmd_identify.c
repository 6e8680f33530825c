/* cmd_identify.c: `kitbench identify`: which part of the kit is this piece, and where does it come from? */
#include <stdlib.h>

#include "cli/commands.h"
#include "cli/identify.h"

static const char kind_words[] = "screw|set screw|rod|nut|washer|pin|ring|insert";
static const char head_words[] =
    "hexagon|hexagon flange|cap|low cap|button|countersunk|raised countersunk|pan|cheese|carriage|eye";
static const char drive_words[] = "none|hexagon|hex socket|six lobes|cross|slot|square|hand";
static const char finish_words[] = "bright|black|zinc|hot-dip zinc|nickel";
static const char gauge_words[] = "ruler|caliper";

typedef struct {
    seen_thing list[SEEN_MAX];
    uint32_t n;
} sightings;

static void see_shape(sightings *seen, look_sort look, unsigned shape) {
    if (shape)
        seen->list[seen->n++] = (seen_thing){.look = look, .shape = shape};
}

static void see_measure(sightings *seen, look_sort look, unsigned gauge, double mm) {
    if (mm > 0)
        seen->list[seen->n++] =
            (seen_thing){.look = look, .gauge = gauge ? GAUGE_CALIPER : GAUGE_RULER, .mm = mm};
}

/* A word of an option as a shape: 0 when it was not given. */
static bool read_shape(const cli_call *call, const char *option, const char *words, unsigned first,
                       unsigned *out, err *e) {
    enum { NOT_GIVEN = 99 };
    unsigned word;
    if (!trade_word(call, option, words, NOT_GIVEN, &word, e))
        return false;
    *out = word == NOT_GIVEN ? 0 : word + first;
    return true;
}

/* "M8" is no measurement: it goes to the words. */
static bool is_nominal(const char *thread) {
    return thread && (thread[0] == 'M' || thread[0] == 'm');
}

/* --head in the words of the trade, when it is none of ours: "csk", "allen" (which says what turns it). */
static bool read_head(const cli_call *call, unsigned *head, unsigned *drive, err *e) {
    if (read_shape(call, "head", head_words, FORM_HEX_HEAD, head, e))
        return true;
    text as_screw = arena_format(call->memory, "%s screw", cli_value(call, "head"));
    proposal p;
    designation_propose(call->memory, &as_screw, 1, &p);
    bool form = p.is_fastener && p.stated.form >= FORM_HEX_HEAD && p.stated.form <= FORM_EYE;
    *head = form ? p.stated.form : 0;
    if (p.is_fastener && !form && p.stated.drive && !*drive)
        *drive = p.stated.drive;
    return form || (p.is_fastener && p.stated.drive);
}

static bool read_seen(const cli_call *call, sightings *seen, err *e) {
    unsigned kind, head, drive, finish, gauge;
    double thread = 0, length, width, pitch;
    bool ok =
        read_shape(call, "kind", kind_words, FASTENER_SCREW, &kind, e) &&
        read_shape(call, "drive", drive_words, DRIVE_NONE, &drive, e) && read_head(call, &head, &drive, e) &&
        read_shape(call, "finish", finish_words, FINISH_PLAIN, &finish, e) &&
        trade_word(call, "with", gauge_words, 0, &gauge, e) &&
        (is_nominal(cli_value(call, "thread")) || trade_option(call, "thread", 0.5, 100, 0, &thread, e)) &&
        trade_option(call, "length", 0.5, 1000, 0, &length, e) &&
        trade_option(call, "width", 0.5, 200, 0, &width, e) &&
        trade_option(call, "pitch", 0.1, 6, 0, &pitch, e);
    if (!ok)
        return false;
    see_shape(seen, LOOK_KIND, kind);
    see_shape(seen, LOOK_FORM, head);
    see_shape(seen, LOOK_DRIVE, drive);
    see_shape(seen, LOOK_FINISH, finish);
    see_measure(seen, LOOK_THREAD, gauge, thread);
    see_measure(seen, LOOK_LENGTH, gauge, length);
    see_measure(seen, LOOK_WIDTH, gauge, width);
    see_measure(seen, LOOK_PITCH, gauge, pitch);
    if (cli_given(call, "mark") && !cli_value(call, "mark")[0])
        return err_input(e, "--mark", "write what stands on the head: 8.8, A2-70", "it is empty");
    if (cli_given(call, "mark"))
        seen->list[seen->n++] = (seen_thing){.look = LOOK_MARK, .mark = text_of(cli_value(call, "mark"))};
    return true;
}

/* The nut or screw that was tried: a part's number, a designation, or the place of a row: "B1 3". */
/* What lies in the compartment with that label, in a build whose compartments have labels. */
static kit_index find_in_compartment(const kit_source *from, text label) {
    const stock_record *r = from->build ? &from->build->record : NULL;
    for (uint32_t i = 0; r && i < r->n_labels; i++)
        if (text_equal_nocase(r->labels[i].label, label))
            return r->labels[i].part;
    return KIT_NONE;
}

static bool find_mate(const cli_call *call, const kit_source *from, const char *option,
                      const designation **out, err *e) {
    const kit *k = from->kit;
    text wanted = text_trim(text_of(cli_value(call, option))), rest = wanted, bag;
    designation *d = arena_new(call->memory, designation);
    kit_index part = kit_find_part(k, wanted), container;
    *out = d;
    if (part == KIT_NONE && text_next_piece(&rest, ' ', &bag) && rest.len) {
        text line = text_trim(rest);
        if (text_starts(line, TEXT("row ")))
            line = text_trim(text_slice(line, 4, line.len));
        container = kit_find_container(k, bag);
        int64_t number = container == KIT_NONE ? 0 : strtoll(arena_z(call->memory, line), NULL, 10);
        kit_index row = number > 0 ? kit_find_row(k, container, number) : KIT_NONE;
        part = row == KIT_NONE ? KIT_NONE : k->rows[row].part;
    }
    if (part == KIT_NONE)
        part = find_in_compartment(from, wanted);
    text name = part == KIT_NONE ? wanted : k->parts[part].designation;
    bool known = designation_read(name, d, NULL);
    if (known && d->pitch_um > 0 && (d->kind == FASTENER_NUT || d->length_um > 0))
        return true;
    return err_input(
        e, arena_format(call->memory, "--%s", option).at,
        "name a nut or screw of the kit by its number, its bag and row (\"B1 3\") or its compartment",
        known || part != KIT_NONE ? "%.*s has no thread to try" : "there is no \"%.*s\"", TEXT_ARG(wanted));
}

static bool read_mates(const cli_call *call, const kit_source *from, sightings *seen, err *e) {
    static const char *const options[] = {"stops-with", "runs-with"};
    for (int runs = 0; runs < 2; runs++) {
        if (!cli_given(call, options[runs]))
            continue;
        seen_thing *t = &seen->list[seen->n++];
        *t = (seen_thing){.look = LOOK_MATE, .runs = runs != 0};
        if (!find_mate(call, from, options[runs], &t->mate, e))
            return false;
    }
    return true;
}

static double packed_pieces(const kit *k, kit_index part) {
    double n = 0;
    for (uint32_t r = 0; r < k->n_rows; r++)
        n += k->rows[r].part == part ? (double)k->rows[r].quantity : 0;
    return n;
}

/* How likely the part is before anything was looked at: by the pieces of the kit, on the floor by its sources. */
static double prior(const identified *i, kit_index part) {
    const kit *k = i->from->kit;
    stock_source *sources;
    double sum = 0;
    if (!i->floor)
        return packed_pieces(k, part);
    uint32_t n = stock_found_sources(i->call->memory, k, i->from->build->stock, part, &sources);
    for (uint32_t s = 0; s < n; s++)
        sum += sources[s].weight;
    return sum;
}

/* The fasteners of the kit, or those among the parts that answer to the words. */
static void list_candidates(identified *i) {
    const kit *k = i->from->kit;
    arena *m = i->call->memory;
    i->list = arena_array(m, candidate, k->n_parts);
    i->parts = arena_array(m, kit_index, k->n_parts);
    for (uint32_t p = 0; p < (i->words ? i->n_hits : k->n_parts); p++) {
        kit_index part = i->words ? i->hits[p].part : p;
        designation *d = arena_new(m, designation);
        if (!designation_read(k->parts[part].designation, d, NULL) || i->n == CANDIDATES_MAX)
            continue;
        i->parts[i->n] = part;
        i->list[i->n++] = (candidate){d, prior(i, part)};
    }
}

static int by_chance(const void *x, const void *y) {
    double a = ((const likely_source *)x)->chance, b = ((const likely_source *)y)->chance;
    return a > b ? -1 : a < b;
}

static void add_sources(identified *i, kit_index part, double chance) {
    stock_source *list;
    const kit *k = i->from->kit;
    uint32_t n = stock_found_sources(i->call->memory, k, i->from->build->stock, part, &list);
    likely_source *all = arena_array(i->call->memory, likely_source, (size_t)i->n_sources + n);
    double sum = 0;
    for (uint32_t s = 0; s < i->n_sources; s++)
        all[s] = i->sources[s];
    for (uint32_t s = 0; s < n; s++)
        sum += list[s].weight;
    for (uint32_t s = 0; s < n; s++)
        all[i->n_sources + s] = (likely_source){list[s], chance * list[s].weight / sum};
    i->sources = all;
    i->n_sources += n;
}

/* By what was seen, or, when words alone name the piece, every part that answers to them by its own weight. */
static void find_sources(identified *i) {
    enum { PARTS_MOST = 12 };
    double sum = 0;
    bool by_words = i->words && (!i->looks || !i->has_identity);
    for (uint32_t h = 0; by_words && h < i->n_hits && h < PARTS_MOST; h++)
        sum += prior(i, i->hits[h].part);
    for (uint32_t h = 0; by_words && h < i->n_hits && h < PARTS_MOST; h++)
        add_sources(i, i->hits[h].part, prior(i, i->hits[h].part) / sum);
    for (uint32_t c = 0; !by_words && i->has_identity && c < i->id.n && c < PARTS_MOST; c++)
        add_sources(i, i->parts[i->id.order[c].candidate], i->id.order[c].chance);
    if (i->n_sources)
        qsort(i->sources, i->n_sources, sizeof *i->sources, by_chance);
}

static bool identify(identified *i, err *e) {
    const kit *k = i->from->kit;
    sightings seen = {.n = 0};
    text words = trade_joined(i->call, 1);
    if (!read_seen(i->call, &seen, e) || !read_mates(i->call, i->from, &seen, e))
        return false;
    if (is_nominal(cli_value(i->call, "thread")))
        words = arena_format(i->call->memory, "%.*s %s", TEXT_ARG(words), cli_value(i->call, "thread"));
    i->words = text_trim(words).len > 0;
    i->looks = seen.n > 0;
    if (i->floor && !i->from->build)
        return err_input(e, "--floor", "name the build file", "a kit's folder knows nothing of the work");
    if (i->words)
        i->n_hits = kit_search_parts(i->call->memory, k, words, &i->hits);
    list_candidates(i);
    i->has_identity = i->n > 0;
    if (i->has_identity && !identify_piece(i->call->memory, i->list, i->n, seen.list, seen.n, &i->id, e))
        return false;
    if (i->floor)
        find_sources(i);
    return true;
}

int cmd_identify(cli_call *call) {
    err e = {0};
    int code;
    kit_source from;
    if (!kit_source_open(call, call->arguments[0], NULL, &from, &code))
        return code;
    identified i = {.call = call, .from = &from, .floor = cli_given(call, "floor")};
    buf out = {0};
    if (!identify(&i, &e)) {
        code = cli_fail(&e);
    } else {
        bool nothing = i.words ? i.n_hits == 0 : !i.has_identity;
        code = nothing || (i.looks && (!i.has_identity || i.id.nothing_fits)) ? EXIT_NO : EXIT_DONE;
        if (call->json)
            identify_json(&i, &out);
        else
            identify_text(&i, &out);
        code = cli_print(&out, code);
    }
    kit_source_close(&from);
    return code;
}
