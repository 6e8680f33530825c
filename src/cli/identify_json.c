/* identify_json.c: what `kitbench identify --json` tells. */
#include "cli/identify.h"

enum { PARTS_MOST = 20 };

static void open_part(const identified *i, kit_index part, json_out *j) {
    const kit *k = i->from->kit;
    json_put_object(j, NULL);
    json_put_text(j, "part", k->parts[part].number);
    json_put_text(j, "name", k->parts[part].name);
    json_put_text(j, "designation", k->parts[part].designation);
    json_put_array(j, "places");
    for (uint32_t r = 0; r < k->n_rows; r++)
        if (k->rows[r].part == part)
            json_put_text(j, NULL,
                          arena_format(i->call->memory, "%.*s row %lld",
                                       TEXT_ARG(k->containers[k->rows[r].container].number),
                                       (long long)k->rows[r].line));
    json_end_array(j);
}

static void add_parts(const identified *i, json_out *j) {
    json_put_array(j, "parts");
    for (uint32_t c = 0; i->has_identity && (i->looks || !i->words) && c < i->id.n && c < PARTS_MOST; c++) {
        open_part(i, i->parts[i->id.order[c].candidate], j);
        trade_json_real(j, "chance", i->id.order[c].chance);
        json_end_object(j);
    }
    for (uint32_t h = 0; i->words && !i->looks && h < i->n_hits; h++) {
        open_part(i, i->hits[h].part, j);
        json_put_bool(j, "with_a_slip", i->hits[h].worst == KIT_FOUND_SLIP);
        json_put_integer(j, "words_not_found", i->hits[h].not_found);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_next(const identified *i, json_out *j) {
    json_put_array(j, "look_next");
    for (uint32_t n = 0; i->has_identity && n < i->id.n_next; n++) {
        const next_look *look = &i->id.next[n];
        json_put_object(j, NULL);
        trade_json_z(j, "look", look_name(look->look));
        trade_json_z(j, "with", gauge_name(look->gauge));
        trade_json_real(j, "bits", look->bits);
        if (look->look == LOOK_MATE)
            json_put_text(j, "try_with", i->from->kit->parts[i->parts[look->mate]].number);
        else
            json_put_null(j, "try_with");
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_floor(const identified *i, json_out *j) {
    static const char *const kinds[] = {"step", "lost", "bag"};
    const kit *k = i->from->kit;
    json_put_array(j, "sources");
    for (uint32_t n = 0; n < i->n_sources; n++) {
        const stock_source *s = &i->sources[n].source;
        json_put_object(j, NULL);
        trade_json_z(j, "from", kinds[s->kind]);
        json_put_text(j, "part", k->parts[s->part].number);
        if (s->step == KIT_NONE) {
            json_put_null(j, "step");
        } else {
            json_put_text(j, "step", k->steps[s->step].number);
            trade_json_z(j, "state", stock_state_word(i->from->build->stock->work->steps[s->step].state));
            json_put_bool(j, "has_tests", s->has_tests);
            json_put_bool(j, "signed", s->is_signed);
            json_put_integer(j, "fitted_too_few", s->short_by);
            json_put_integer(j, "evenings_since", s->evenings);
            json_put_integer(j, "closing_counts_since", s->closings);
        }
        json_put_integer(j, "pieces", s->pieces);
        trade_json_real(j, "chance", i->sources[n].chance);
        json_end_object(j);
    }
    json_end_array(j);
}

void identify_json(const identified *i, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    add_parts(i, &j);
    json_put_bool(&j, "nothing_fits", i->looks && (!i->has_identity || i->id.nothing_fits));
    json_put_bool(&j, "ruler_is_coarse", i->has_identity && i->id.ruler_is_coarse);
    trade_json_real(&j, "bits_open", i->has_identity ? i->id.bits_open : 0);
    add_next(i, &j);
    if (i->floor)
        add_floor(i, &j);
    json_end_object(&j);
}
