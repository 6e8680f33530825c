/* Parts lists: any bytes are read or refused; a list that is read makes a kit in which the reader and the checker find no
 * fault. The first byte chooses what the person says about the list. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "kit/kit.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void look_at_kit(arena *a, const draft_list *list) {
    kit_tables tables;
    const kit *k;
    faults f = faults_in(a);
    kit_tables_from_draft(a, list, TEXT("draft"), TEXT("A draft"), &tables);
    if (!kit_from_tables(a, &tables, &f, &k) || !kit_check(k, NULL, &f)) {
        fault_place place = f.list[0].place;
        fprintf(stderr, "%.*s: %.*s\n", TEXT_ARG(fault_place_text(a, place)), TEXT_ARG(f.list[0].cause));
        abort();
    }
    if (k->n_parts != list->n_parts || k->n_rows != draft_count(list, DRAFT_PART))
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    if (size == 0)
        return 0;
    draft_wishes wishes = DRAFT_AS_GUESSED;
    if (data[0] & 1)
        wishes.encoding = (draft_encoding)(data[0] >> 5 & 3);
    if (data[0] & 2)
        wishes.columns = TEXT("name=A; quantity=B; number=C");
    if (data[0] & 4)
        wishes.header_row = data[0] >> 6;
    if (data[0] & 8)
        wishes.separator = ';';
    wishes.open_packs = (data[0] & 16) != 0;
    arena *a = arena_open();
    faults f = faults_in(a);
    draft_list list;
    if (draft_read(a, (text){(const char *)data + 1, size - 1}, TEXT("list"), wishes, &f, &list))
        look_at_kit(a, &list);
    else if (f.n == 0)
        abort(); /* refused without a word */
    arena_close(a);
    return 0;
}
