/* Any bytes as a rule for sessions: it ends, and what it gives back are days in order on which a session can be. */
#include <stdint.h>
#include <stdlib.h>

#include "desk/session_rule.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    arena *a = arena_open();
    session_rule r;
    err e = {0};
    if (session_rule_read(a, (text){(const char *)data, size}, 21000, &r, &e)) {
        if (!r.n || r.start >= r.end || r.end > MINUTES_PER_DAY)
            abort();
        for (uint32_t i = 1; i < r.n; i++)
            if (r.days[i] <= r.days[i - 1])
                abort();
    } else if (e.kind != ERR_INPUT || !e.cause[0]) {
        abort();
    }
    arena_close(a);
    return 0;
}
