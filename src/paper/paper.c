/* paper.c: what the sheets of this room have in common for those outside. */
#include "paper/paper.h"

bool paper_size_read(text t, paper_size *out, err *e) {
    if (text_equal_nocase(t, TEXT("a4"))) {
        *out = PAPER_A4;
        return true;
    }
    if (text_equal_nocase(t, TEXT("letter"))) {
        *out = PAPER_LETTER;
        return true;
    }
    return err_input(e, "paper", "choose a4 or letter", "there is no paper \"%.*s\"", TEXT_ARG(t));
}
