/* check_designations.c: can the program read what the fasteners are called? */
#include "kit/inside.h"
#include "trade/trade.h"

void kit_check_designations(kit_checker *c) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_parts; i++) {
        const kit_part *p = &k->parts[i];
        designation d;
        err e;
        if (kit_state(k, "parts")->faulty[i] || !p->designation.len ||
            designation_read(p->designation, &d, &e))
            continue;
        fault_add(c->faults, kit_place(c, "parts", p->row, "designation"),
                  e.remedy[0] ? e.remedy
                              : "write it as in ISO 4762 M8x25-8.8, or leave it empty when it is no fastener",
                  "%s", e.cause);
    }
}
