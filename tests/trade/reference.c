#include "reference.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"

bool reference_open(reference *r, const char *file) {
    char path[128];
    snprintf(path, sizeof path, "reference/%s", file);
    r->memory = arena_open();
    text bytes = shared_file(r->memory, path);
    if (!bytes.at) {
        print_message("SKIPPED: ../shared/%s is not there\n", path);
        arena_close(r->memory);
        return false;
    }
    faults f = faults_in(r->memory);
    if (!csv_read(r->memory, bytes, ',', text_of(file), &f, &r->table))
        fail_msg("%s: %zu faults", file, f.n);
    return true;
}

void reference_open_own(reference *r, const char *file) {
    char path[128];
    snprintf(path, sizeof path, "tests/trade/published/%s", file);
    r->memory = arena_open();
    faults f = faults_in(r->memory);
    if (!csv_read(r->memory, project_file(r->memory, path), ',', text_of(file), &f, &r->table))
        fail_msg("%s: %zu faults", path, f.n);
}

void reference_close(reference *r) {
    arena_close(r->memory);
}

text reference_text(const reference *r, size_t i, const char *column) {
    const csv_record *header = &r->table.records[0], *record = &r->table.records[i];
    for (uint32_t k = 0; k < header->n; k++)
        if (text_is(header->cells[k].value, column))
            return k < record->n ? record->cells[k].value : (text){"", 0};
    fail_msg("no column %s", column);
    return (text){"", 0};
}

double reference_number(const reference *r, size_t i, const char *column) {
    text t = reference_text(r, i, column);
    char z[64], *end;
    snprintf(z, sizeof z, "%.*s", TEXT_ARG(t));
    double value = strtod(z, &end);
    return end == z || *end ? (double)NAN : value;
}

bool reference_is_hard(const reference *r, size_t i) {
    return !text_is(reference_text(r, i, "check_kind"), "memory_only");
}

void reference_compare(agreement *a, const reference *r, size_t i, double ours, double published,
                       double tolerance) {
    if (fabs(ours - published) <= tolerance) {
        a->agree++;
        return;
    }
    bool hard = reference_is_hard(r, i);
    const csv_record *row = &r->table.records[i];
    print_message("%s row %u (%.*s %.*s %.*s): ours %g, published %g%s\n", a->what, row->row,
                  TEXT_ARG(row->cells[0].value), TEXT_ARG(row->cells[1].value), TEXT_ARG(row->cells[2].value),
                  ours, published, hard ? "" : " (memory only)");
    if (hard)
        a->differ++;
    else
        a->soft++;
}

void agreement_print(const agreement *a) {
    print_message("%s: %u agree, %u differ, %u differ from memory only, %u not compared\n", a->what, a->agree,
                  a->differ, a->soft, a->skipped);
}
