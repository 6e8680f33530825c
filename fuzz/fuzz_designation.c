/* Names of fasteners: any bytes are read or refused; what the strict reader takes must print and read back the same. */
#include <stdint.h>
#include <stdlib.h>

#include "trade/propose.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    text t = {(const char *)data, size}, rest = t, cells[8];
    designation d, back;
    if (designation_read(t, &d, NULL)) {
        char printed[DESIGNATION_TEXT];
        if ((size_t)designation_print(&d, printed, sizeof printed) >= sizeof printed ||
            !designation_read(text_of(printed), &back, NULL) || !designation_equal(&d, &back))
            abort();
    }
    size_t n = 0;
    while (n < 8 && text_next_piece(&rest, '\n', &cells[n]))
        n++;
    arena *a = arena_open();
    proposal p;
    designation_propose(a, cells, n, &p);
    if (p.is_fastener && p.guess.standard != p.stated.standard && p.n_assumed == 0)
        abort();
    arena_close(a);
    return 0;
}
