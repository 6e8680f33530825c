/* find.c: what somebody means who names a box, a bag, a row or a part. */

#include <stdio.h>

#include "base/number.h"
#include "desk/act.h"

enum { LARGEST_LINE = 9999 };

static kit_index find_with_word(const desk *d, const char *word, text number) {
    char full[128];
    int n = snprintf(full, sizeof full, "%s %.*s", word, TEXT_ARG(number));
    if (n < 0 || (size_t)n >= sizeof full)
        return KIT_NONE;
    return kit_find_container(d->kit, text_of(full));
}

/* The containers of the same kind as a hint: all of them fit in a line for a kit of ordinary size. */
static const char *list_containers(const desk *d, char *out, size_t size) {
    size_t used = (size_t)snprintf(out, size, "there are ");
    for (kit_index i = 0; i < d->kit->n_containers && used < size; i++) {
        text number = d->kit->containers[i].number;
        used += (size_t)snprintf(out + used, size - used, "%s%.*s", i ? ", " : "", TEXT_ARG(number));
    }
    return out;
}

bool desk_find_container(const desk *d, text number, kit_index *out, err *e) {
    number = text_trim(number);
    *out = kit_find_container(d->kit, number);
    if (*out == KIT_NONE)
        *out = find_with_word(d, "box", number);
    if (*out == KIT_NONE)
        *out = find_with_word(d, "bag", number);
    if (*out == KIT_NONE && number.len > 4 &&
        (text_equal_nocase(text_slice(number, 0, 4), TEXT("bag ")) ||
         text_equal_nocase(text_slice(number, 0, 4), TEXT("box "))))
        *out = kit_find_container(d->kit, text_trim(text_slice(number, 4, number.len)));
    if (*out != KIT_NONE)
        return true;
    char shown[192], names[320];
    snprintf(shown, sizeof shown, "\"%.*s\"", TEXT_ARG(number));
    return err_input(e, shown, list_containers(d, names, sizeof names),
                     "the kit has no box or bag of that number");
}

static bool refuse_choice(const desk *d, text number, const kit_index *rows, uint32_t n, err *e) {
    char shown[192], choice[256];
    snprintf(shown, sizeof shown, "\"%.*s\"", TEXT_ARG(number));
    size_t used = (size_t)snprintf(choice, sizeof choice, "write box or bag, and row: ");
    for (uint32_t i = 0; i < n && used < sizeof choice; i++) {
        text place = place_of_row(d->memory, d->kit, rows[i]);
        used +=
            (size_t)snprintf(choice + used, sizeof choice - used, "%s%.*s", i ? ", " : "", TEXT_ARG(place));
    }
    return err_input(e, shown, choice, "it stands on %u rows", n);
}

/* All rows of the parts that `number` may mean, inside `container` or (KIT_NONE) anywhere. */
static uint32_t rows_of_number(const desk *d, text number, kit_index container, kit_index *rows) {
    kit_indices parts = kit_find_parts_by_any_number(d->memory, d->kit, number);
    uint32_t n = 0;
    for (kit_index i = 0; i < d->kit->n_rows; i++) {
        if (container != KIT_NONE && d->kit->rows[i].container != container)
            continue;
        for (uint32_t j = 0; j < parts.n; j++)
            if (d->kit->rows[i].part == parts.list[j]) {
                rows[n++] = i;
                break;
            }
    }
    return n;
}

static bool find_by_number(const desk *d, text number, kit_index container, kit_index *out, err *e) {
    kit_index *rows = arena_array(d->memory, kit_index, d->kit->n_rows);
    uint32_t n = rows_of_number(d, number, container, rows);
    if (n > 1)
        return refuse_choice(d, number, rows, n, e);
    if (n == 1) {
        *out = rows[0];
        return true;
    }
    char shown[192];
    snprintf(shown, sizeof shown, "\"%.*s\"", TEXT_ARG(number));
    if (container == KIT_NONE && kit_find_container(d->kit, number) != KIT_NONE)
        return err_input(e, shown, "write BAG ROW USABLE", "it is a box or bag, and the row is missing");
    return err_input(e, shown, "look at the check sheet, or count it as extra: see kitbench count --help",
                     "no row has a part of that number");
}

static bool refuse_line(const desk *d, kit_index container, int64_t line, err *e) {
    int64_t last = 0;
    uint32_t n = 0;
    for (kit_index i = 0; i < d->kit->n_rows; i++) {
        if (d->kit->rows[i].container != container)
            continue;
        n++;
        last = d->kit->rows[i].line > last ? d->kit->rows[i].line : last;
    }
    char remedy[128];
    if (n)
        snprintf(remedy, sizeof remedy, "it has %u rows, the last is row %lld", n, (long long)last);
    else
        snprintf(remedy, sizeof remedy, "it has none: name the bag inside it");
    return err_input(e, arena_z(d->memory, d->kit->containers[container].number), remedy,
                     "it has no row %lld", (long long)line);
}

bool desk_find_row(const desk *d, text container_or_number, text line, kit_index *out, err *e) {
    if (!line.len)
        return find_by_number(d, container_or_number, KIT_NONE, out, e);
    kit_index container;
    if (!desk_find_container(d, container_or_number, &container, e))
        return false;
    int64_t n;
    number_fault why;
    if (!number_integer(line, 1, LARGEST_LINE, &n, &why))
        return find_by_number(d, line, container, out, e);
    *out = kit_find_row(d->kit, container, n);
    return *out != KIT_NONE || refuse_line(d, container, n, e);
}
