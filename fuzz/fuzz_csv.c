/* CSV: our reader against libcsv, an independent one. Where ours finds no fault, both must see the same cells; where ours
 * finds a fault of quoting, libcsv in its strict mode must refuse, too.
 *
 * libcsv takes a bare CR for a line break and passes over empty lines; inputs with a bare CR are compared for nothing, our
 * records without cells are passed over, too.
 */
#include <csv.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/csv.h"
#include "base/utf8.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What libcsv saw, as one text: each cell behind a 1 byte, each record ended by a 2 byte. */
typedef struct {
    char *at;
    size_t len;
} trace;

static void add(trace *t, const void *bytes, size_t n) {
    t->at = realloc(t->at, t->len + n + 1);
    if (!t->at)
        abort();
    memcpy(t->at + t->len, bytes, n);
    t->len += n;
}

static void their_cell(void *bytes, size_t n, void *to) {
    add(to, "\1", 1);
    add(to, bytes, n);
}

static void their_record(int end, void *to) {
    (void)end;
    add(to, "\2", 1);
}

static int is_no_blank(unsigned char c) {
    (void)c;
    return 0;
}

/* False when libcsv refuses. */
static bool read_theirs(text t, char separator, trace *to) {
    struct csv_parser p;
    if (csv_init(&p, CSV_STRICT | CSV_STRICT_FINI) != 0)
        abort();
    csv_set_delim(&p, (unsigned char)separator);
    csv_set_space_func(&p, is_no_blank);
    bool ok = csv_parse(&p, t.at, t.len, their_cell, their_record, to) == t.len;
    ok = csv_fini(&p, their_cell, their_record, to) == 0 && ok;
    csv_free(&p);
    return ok;
}

static void trace_ours(const csv_table *table, trace *to) {
    for (size_t i = 0; i < table->n; i++) {
        for (uint32_t c = 0; c < table->records[i].n; c++) {
            add(to, "\1", 1);
            if (table->records[i].cells[c].value.len)
                add(to, table->records[i].cells[c].value.at, table->records[i].cells[c].value.len);
        }
        if (table->records[i].n)
            add(to, "\2", 1);
    }
}

static bool has_bare_cr(text t) {
    for (size_t i = 0; i < t.len; i++)
        if (t.at[i] == '\r' && (i + 1 == t.len || t.at[i + 1] != '\n'))
            return true;
    return false;
}

static void compare(arena *a, text t, char separator) {
    faults f = faults_in(a);
    csv_table table;
    trace ours = {0}, theirs = {0};
    bool clean = csv_read(a, t, separator, TEXT("t"), &f, &table);
    if (clean != (f.n == 0))
        abort();
    for (size_t i = 0; i < f.n; i++)
        if (!f.list[i].cause.len || !f.list[i].remedy.len || utf8_fault(f.list[i].cause) >= 0)
            abort();
    bool plain = utf8_fault(t) < 0 && (!t.len || !memchr(t.at, 0, t.len)) && !has_bare_cr(t) &&
                 !text_starts(t, TEXT("\xEF\xBB\xBF"));
    if (plain) {
        bool taken = read_theirs(t, separator, &theirs);
        trace_ours(&table, &ours);
        if (taken != clean)
            abort();
        if (clean && (ours.len != theirs.len || (ours.len && memcmp(ours.at, theirs.at, ours.len) != 0)))
            abort();
    }
    free(ours.at);
    free(theirs.at);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    arena *a = arena_open();
    text t = {(const char *)data, size};
    compare(a, t, ',');
    compare(a, t, ';');
    compare(a, t, '\t');
    arena_close(a);
    return 0;
}
