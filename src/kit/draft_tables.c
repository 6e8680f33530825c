/* draft_tables.c: the raw tables of a draft kit. */
#include "base/utf8.h"
#include "kit/draft_inside.h"

enum { LONGEST_KEY = 40 };

int64_t draft_row_in_kit(const draft_row *row, bool open_packs, kit_unit *unit) {
    static const struct {
        kit_unit unit;
        int64_t thousandths; /* of the list's unit that are one of the kit's */
    } forms[] = {
        [DRAFT_PIECES] = {KIT_PIECE, 1000}, [DRAFT_PACKS] = {KIT_PACK, 1000}, [DRAFT_KG] = {KIT_G, 1},
        [DRAFT_G] = {KIT_G, 1000},          [DRAFT_MG] = {KIT_MG, 1000},      [DRAFT_M] = {KIT_MM, 1},
        [DRAFT_CM] = {KIT_MM, 100},         [DRAFT_MM] = {KIT_MM, 1000},      [DRAFT_L] = {KIT_ML, 1},
        [DRAFT_ML] = {KIT_ML, 1000}};
    int64_t most = INT64_C(1000000000), amount = row->amount, size = forms[row->unit].thousandths;
    *unit = forms[row->unit].unit;
    if (row->unit == DRAFT_G && amount % size) {
        *unit = KIT_MG;
        size = 1;
    }
    if (amount % size)
        return -1;
    int64_t quantity = amount / size;
    if (row->unit == DRAFT_PACKS && open_packs && row->pack_of && quantity <= most) {
        *unit = KIT_PIECE;
        quantity *= row->pack_of;
    }
    return quantity >= 1 && quantity <= most ? quantity : -1;
}

/* ---- tables that grow by rows ---- */

static void begin(arena *a, kit_tables *to, const char *name, const char *columns, uint32_t most_rows) {
    kit_table *t = &to->list[to->n++];
    text rest = text_of(columns), one;
    *t = (kit_table){.name = text_of(name), .file = arena_format(a, "%s.csv", name)};
    t->columns = arena_array(a, text, 16);
    while (text_next_piece(&rest, ' ', &one))
        t->columns[t->n_columns++] = one;
    t->cells = arena_array(a, text, (size_t)most_rows * t->n_columns);
    t->row_numbers = arena_array(a, uint32_t, most_rows);
}

static void add_row(kit_table *t, const text *cells) {
    for (uint32_t c = 0; c < t->n_columns; c++)
        t->cells[(size_t)t->n_rows * t->n_columns + c] = cells[c];
    t->row_numbers[t->n_rows] = t->n_rows + 2; /* the heading is row 1 */
    t->n_rows++;
}

/* ---- parts ---- */

/* Adds a piece of a note once. */
static void add_note(arena *a, text *note, text more) {
    if (!more.len || text_find(*note, more) >= 0)
        return;
    *note = note->len ? arena_format(a, "%.*s; %.*s", TEXT_ARG(*note), TEXT_ARG(more)) : more;
}

static text note_of(arena *a, const draft_list *list, uint32_t part) {
    text note = TEXT("");
    for (uint32_t i = list->parts[part].first_row; i < list->n_rows; i++) {
        const draft_row *row = &list->rows[i];
        if (row->part != part)
            continue;
        add_note(a, &note, row->specification);
        add_note(a, &note, row->note);
        if (row->pack_of)
            add_note(a, &note, draft_unit_text(a, row));
        if (row->kind == DRAFT_NOT_UNDERSTOOD)
            add_note(a, &note,
                     arena_format(a, "not understood in row %u: %.*s", row->row, TEXT_ARG(row->why)));
    }
    add_note(a, &note, list->parts[part].proposal);
    return note;
}

static void fill_parts(arena *a, const draft_list *list, kit_table *t) {
    for (uint32_t i = 0; i < list->n_parts; i++) {
        const draft_part *p = &list->parts[i];
        add_row(t, (text[]){p->number, p->name, list->rows[p->first_row].makers_numbers, p->designation,
                            note_of(a, list, i)});
    }
}

/* ---- containers ---- */

typedef struct {
    text box, bag; /* as the list writes them */
    text number;
    int64_t lines;
    bool is_box;
} holder;

typedef struct {
    arena *memory;
    holder *list;
    uint32_t n;
    kit_table *containers;
} holders;

static bool number_used(const holders *h, text number) {
    for (uint32_t i = 0; i < h->n; i++)
        if (text_equal_nocase(h->list[i].number, number))
            return true;
    return false;
}

static text first_characters(text t, size_t most) {
    size_t at = 0, length;
    for (size_t i = 0; i < most && at < t.len; i++, at += length)
        utf8_point(t, at, &length);
    return text_trim(text_slice(t, 0, at));
}

/* A box "3" is called "box 3", as on its label; a bag is called what is written on it. A number used already gets -2. */
static text number_for(const holders *h, bool is_box, text written) {
    text base = written.len ? written : is_box ? TEXT("1") : TEXT("A1");
    if (is_box && base.at[0] >= '0' && base.at[0] <= '9')
        base = arena_format(h->memory, "box %.*s", TEXT_ARG(base));
    base = first_characters(base, LONGEST_KEY - 6);
    char *clean = arena_alloc(h->memory, base.len + 1);
    for (size_t i = 0; i < base.len; i++)
        clean[i] = (char)(base.at[i] == ';' ? ',' : base.at[i]);
    base = (text){clean, base.len};
    text number = base;
    for (int i = 2; number_used(h, number); i++)
        number = arena_format(h->memory, "%.*s-%d", TEXT_ARG(base), i);
    return number;
}

static holder *find_holder(holders *h, text box, text bag, bool is_box) {
    for (uint32_t i = 0; i < h->n; i++) {
        holder *one = &h->list[i];
        if (one->is_box == is_box && text_equal(one->box, box) && (is_box || text_equal(one->bag, bag)))
            return one;
    }
    text inside = is_box ? TEXT("") : find_holder(h, box, bag, true)->number;
    holder *made = &h->list[h->n];
    *made = (holder){.box = box, .bag = bag, .is_box = is_box};
    made->number = number_for(h, is_box, is_box ? box : bag);
    h->n++;
    add_row(h->containers,
            (text[]){made->number, is_box ? TEXT("box") : TEXT("bag"), inside, is_box ? box : bag});
    return made;
}

static void fill_rows(arena *a, const draft_list *list, kit_table *containers, kit_table *rows) {
    holders h = {.memory = a, .containers = containers};
    h.list = arena_array(a, holder, 2 * (size_t)list->n_rows + 2);
    for (uint32_t i = 0; i < list->n_rows; i++) {
        const draft_row *row = &list->rows[i];
        kit_unit unit;
        if (row->kind != DRAFT_PART)
            continue;
        int64_t quantity = draft_row_in_kit(row, list->open_packs, &unit);
        holder *bag = find_holder(&h, row->box, row->bag, false);
        add_row(rows, (text[]){bag->number, arena_format(a, "%lld", (long long)++bag->lines),
                               list->parts[row->part].number, arena_format(a, "%lld", (long long)quantity),
                               text_of(kit_unit_word(unit))});
    }
    if (!h.n)
        find_holder(&h, TEXT(""), TEXT(""), false);
}

void kit_tables_from_draft(arena *a, const draft_list *list, text number, text name, kit_tables *out) {
    *out = (kit_tables){arena_array(a, kit_table, 4), 0};
    begin(a, out, "kit", "kit name revision", 1);
    begin(a, out, "parts", "part name makers_numbers designation note", list->n_parts);
    begin(a, out, "containers", "container kind inside label", 2 * list->n_rows + 2);
    begin(a, out, "rows", "container line part quantity unit", list->n_rows);
    add_row(&out->list[0], (text[]){number, name, TEXT("draft")});
    fill_parts(a, list, &out->list[1]);
    fill_rows(a, list, &out->list[2], &out->list[3]);
}
