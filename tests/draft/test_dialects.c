/* Property: a random list written in any dialect reads back the same; where one mark and three digits leave it open, the row
 * is reported, never read wrong. The seed of a failing list is printed.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/number.h"
#include "dialect.h"
#include "kit/kit.h"

enum { QUICK_RUNS = 500, MOST_ROWS = 30 };

static uint64_t runs = QUICK_RUNS;

/* splitmix64; source: Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014. */
static uint64_t next(uint64_t *seed) {
    uint64_t z = *seed += UINT64_C(0x9E3779B97F4A7C15);
    z = (z ^ z >> 30) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ z >> 27) * UINT64_C(0x94D049BB133111EB);
    return z ^ z >> 31;
}

static uint32_t below(uint64_t *seed, uint32_t n) {
    return (uint32_t)(next(seed) % n);
}

static const char *one_of(uint64_t *seed, const char *const *list, size_t n) {
    return list[below(seed, (uint32_t)n)];
}
#define ONE_OF(seed, list) one_of((seed), (list), sizeof(list) / sizeof(list)[0])

typedef enum {
    COLUMN_NAME,
    COLUMN_QUANTITY,
    COLUMN_NOTE,
    COLUMN_PRICE,
    COLUMN_LINK,
    COLUMN_KINDS
} column_kind;

static const char *heading(uint64_t *seed, column_kind kind) {
    static const char *const names[] = {"Name",        "Part name",   "Component", "Benennung",
                                        "Bezeichnung", "Description", "Teil"};
    static const char *const quantities[] = {"Qty",    "Quantity", "QTY.",     "Menge",
                                             "Anzahl", "Stück",    "Quantité", "Antal"};
    static const char *const notes[] = {"Note", "Notes", "Bemerkung", "Remark"};
    static const char *const prices[] = {"Price", "Unit cost", "Preis", "Á price"};
    switch (kind) {
    case COLUMN_NAME:
        return ONE_OF(seed, names);
    case COLUMN_QUANTITY:
        return ONE_OF(seed, quantities);
    case COLUMN_NOTE:
        return ONE_OF(seed, notes);
    case COLUMN_PRICE:
        return ONE_OF(seed, prices);
    case COLUMN_LINK:
    case COLUMN_KINDS:
        break;
    }
    return "Link";
}

/* Letters that Windows-1252 has, too, and everything that CSV must quote. */
static text random_words(arena *a, uint64_t *seed, bool breaks) {
    static const char *const words[] = {"bolt",           "Platte",      "Ø8",   "Träger",    "gear", "M5x16",
                                        "a \"wide\" one", "left, upper", "L; R", "tab\there", "–",    "25µm",
                                        "naïve",          "(new)",       "1.5",  "12,5",      "Čapek"};
    static const size_t ansi = sizeof words / sizeof words[0] - 1; /* the last one is not in Windows-1252 */
    text all = TEXT("w");                                          /* a name has a letter */
    for (uint32_t i = 0, n = 1 + below(seed, 4); i < n; i++) {
        const char *gap = breaks && below(seed, 6) == 0 ? "\n" : " ";
        all = arena_format(a, "%.*s%s%s", TEXT_ARG(all), gap, words[below(seed, (uint32_t)ansi)]);
    }
    return all;
}

/* What the reader must find in a row. */
typedef struct {
    text name;
    int64_t amount;
    draft_unit unit;
    bool open; /* one mark, three digits: may be reported instead */
} truth;

static const struct {
    draft_unit unit;
    const char *words[4];
    bool whole; /* only whole numbers make sense */
} unit_forms[] = {{DRAFT_PIECES, {"", "x", " pcs", " Stk."}, true},
                  {DRAFT_PACKS, {" packs", " Packungen", " pk", " pkt"}, true},
                  {DRAFT_KG, {" kg", "kg", " Kg", " KG"}, false},
                  {DRAFT_M, {" m", "m", " metres", " lfm"}, false},
                  {DRAFT_MM, {" mm", "mm", " MM", " Mm"}, true},
                  {DRAFT_L, {" l", "l", " litres", " ltr"}, false}};

/* "1.234,5": thousands parted or not. */
static text write_amount(arena *a, uint64_t *seed, int64_t amount, char mark, bool *open) {
    char printed[24], made[48];
    number_print_decimal(amount, 3, printed);
    size_t whole = strcspn(printed, "."), n = 0,
           fraction = strlen(printed) > whole ? strlen(printed) - whole - 1 : 0;
    bool group = whole > 3 && below(seed, 3) == 0;
    for (size_t i = 0; printed[i]; i++) {
        if (group && i > 0 && i < whole && (whole - i) % 3 == 0)
            made[n++] = (char)(mark == '.' ? ',' : '.');
        made[n++] = printed[i] == '.' ? mark : printed[i];
    }
    size_t groups = group ? (whole - 1) / 3 : 0;
    *open = groups + (fraction > 0) == 1 && (groups == 1 || fraction == 3);
    return arena_text(a, (text){made, n});
}

static text random_quantity(arena *a, uint64_t *seed, char mark, truth *t) {
    uint32_t form = below(seed, 3) ? 0 : below(seed, sizeof unit_forms / sizeof unit_forms[0]);
    int64_t sizes[] = {10, 1000, 100000, 20000000};
    t->unit = unit_forms[form].unit;
    t->amount = (1 + below(seed, (uint32_t)sizes[below(seed, 4)])) *
                (unit_forms[form].whole ? INT64_C(1000) : INT64_C(1));
    text number = write_amount(a, seed, t->amount, mark, &t->open);
    return arena_format(a, "%.*s%s", TEXT_ARG(number), unit_forms[form].words[below(seed, 4)]);
}

typedef struct {
    table table;
    truth truths[MOST_ROWS];
    uint32_t n_truths;
    uint32_t first_row; /* spreadsheet row of the first truth */
    dialect dialect;
} random_list;

static void shuffle(uint64_t *seed, column_kind *order, uint32_t n) {
    for (uint32_t i = n; i > 1; i--) {
        uint32_t j = below(seed, i);
        column_kind swap = order[i - 1];
        order[i - 1] = order[j];
        order[j] = swap;
    }
}

static text random_cell(arena *a, uint64_t *seed, column_kind kind, char mark, truth *t) {
    switch (kind) {
    case COLUMN_NAME:
        t->name = random_words(a, seed, true);
        return t->name;
    case COLUMN_QUANTITY:
        return random_quantity(a, seed, mark, t);
    case COLUMN_NOTE:
        return below(seed, 2) ? random_words(a, seed, true) : TEXT("");
    case COLUMN_PRICE:
        return arena_format(a, "%u%c%02u", below(seed, 500), mark, below(seed, 100));
    case COLUMN_LINK:
    case COLUMN_KINDS:
        break;
    }
    return arena_format(a, "https://example.org/%u?a=1;b=2,3", below(seed, 1000));
}

static void make(arena *a, uint64_t seed, random_list *out) {
    static const char separators[] = {',', ';', '\t'};
    column_kind order[COLUMN_KINDS] = {COLUMN_NAME, COLUMN_QUANTITY, COLUMN_NOTE, COLUMN_PRICE, COLUMN_LINK};
    uint32_t width = 2 + below(&seed, COLUMN_KINDS - 1);
    char mark = below(&seed, 2) ? ',' : '.';
    *out = (random_list){.dialect = {separators[below(&seed, 3)], (letters)below(&seed, LETTERS),
                                     (line_break)below(&seed, BREAKS), below(&seed, 4) == 0,
                                     below(&seed, 2) == 0}};
    shuffle(&seed, order, width);
    bool title = below(&seed, 4) == 0;
    out->n_truths = 1 + below(&seed, MOST_ROWS);
    out->first_row = title ? 3 : 2;
    out->table = (table){arena_array(a, table_row, out->n_truths + 2), 0};
    if (title)
        out->table.rows[out->table.n++] = (table_row){arena_array(a, text, width), width};
    if (title)
        out->table.rows[0].cells[0] = TEXT("Parts of the machine");
    for (uint32_t i = 0; i <= out->n_truths; i++) {
        table_row *row = &out->table.rows[out->table.n++];
        *row = (table_row){arena_array(a, text, width), width};
        for (uint32_t c = 0; c < width; c++)
            row->cells[c] = i == 0 ? text_of(heading(&seed, order[c]))
                                   : random_cell(a, &seed, order[c], mark, &out->truths[i - 1]);
    }
}

/* Line breaks and tabs become one blank. */
static text on_one_line(arena *a, text t) {
    char *made = arena_alloc(a, t.len + 1);
    for (size_t i = 0; i < t.len; i++)
        made[i] = (char)(t.at[i] == '\n' || t.at[i] == '\t' ? ' ' : t.at[i]);
    return (text){made, t.len};
}

static void random_lists_read_back(void **state) {
    (void)state;
    unsigned rows = 0, reported = 0;
    for (uint64_t seed = 1; seed <= runs; seed++) {
        arena *a = arena_open();
        random_list *made = arena_new(a, random_list);
        make(a, seed, made);
        text bytes = dialect_write(a, &made->table, made->dialect),
             words = dialect_in_words(a, made->dialect);
        faults f = faults_in(a);
        draft_list list = {0};
        bool all_open = true;
        for (uint32_t i = 0; i < made->n_truths; i++)
            all_open = all_open && made->truths[i].open;
        if (!draft_read(a, bytes, TEXT("list"), DRAFT_AS_GUESSED, &f, &list)) {
            if (!all_open)
                fail_msg("seed %llu (%.*s): %.*s", (unsigned long long)seed, TEXT_ARG(words),
                         TEXT_ARG(f.list[0].cause));
            arena_close(a);
            continue;
        }
        for (uint32_t i = 0; i < made->n_truths; i++, rows++) {
            const truth *t = &made->truths[i];
            const draft_row *r = &list.rows[made->first_row - 1 + i];
            bool told = r->kind == DRAFT_NOT_UNDERSTOOD && t->open;
            reported += told;
            if (!text_equal(r->name, on_one_line(a, t->name)) ||
                (!told && (r->kind != DRAFT_PART || r->amount != t->amount || r->unit != t->unit)))
                fail_msg("seed %llu (%.*s) row %u: %.*s, %lld %s instead of %lld %s of %.*s (%.*s)",
                         (unsigned long long)seed, TEXT_ARG(words), r->row, TEXT_ARG(r->name),
                         (long long)r->amount, draft_unit_word(r->unit), (long long)t->amount,
                         draft_unit_word(t->unit), TEXT_ARG(t->name), TEXT_ARG(r->why));
        }
        arena_close(a);
    }
    print_message("%llu lists, %u rows, %u reported as open\n", (unsigned long long)runs, rows, reported);
    assert_true(reported * 20 < rows);
}

/* An argument asks for more lists than the quick run has. */
int main(int argc, char **argv) {
    if (argc > 1)
        runs = strtoull(argv[1], NULL, 10);
    const struct CMUnitTest tests[] = {cmocka_unit_test(random_lists_read_back)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
