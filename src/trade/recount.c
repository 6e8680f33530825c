#include "trade/recount.h"

#include <math.h>

#include "trade/chance.h"

/* The chance that a list with x wrong rows left (x + c at the start) shows no more than c in n. */
static double chance_of_so_few(const recount_state *s, int32_t n) {
    int32_t wrong = s->wrong_allowed + s->found_wrong;
    if (wrong > s->rows)
        return 0; /* there cannot be so many */
    return hypergeometric_cdf(s->found_wrong, s->rows, wrong, n);
}

static bool check_state(const recount_state *s, err *e) {
    static const char place[] = "recount";
    if (s->rows < 1 || s->rows > 100000)
        return err_input(e, place, "give the number of rows, 1 to 100000", "%d rows is out of range",
                         s->rows);
    if (s->recounted < 0 || s->recounted > s->rows || s->found_wrong < 0 || s->found_wrong > s->recounted)
        return err_input(e, place, "rows counted again are at most all, wrong ones at most those",
                         "%d wrong among %d of %d rows is impossible", s->found_wrong, s->recounted, s->rows);
    if (s->wrong_allowed < 1 || s->wrong_allowed > s->rows)
        return err_input(e, place, "ask for fewer than 1 (none) up to all rows",
                         "fewer than %d wrong rows cannot be asked for", s->wrong_allowed);
    if (!(s->confidence >= 0.5 && s->confidence <= 0.9999))
        return err_input(e, place, "ask for 0.95", "the confidence must be from 0.5 to 0.9999");
    return true;
}

bool recount_needed(const recount_state *s, recount_plan *out, err *e) {
    if (!check_state(s, e))
        return false;
    double risk = 1 - s->confidence;
    int32_t low = s->found_wrong, high = s->rows; /* counting all is always enough */
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (chance_of_so_few(s, middle) <= risk)
            high = middle;
        else
            low = middle + 1;
    }
    recount_plan p = {.needed = low};
    p.to_go = p.needed > s->recounted ? p.needed - s->recounted : 0;
    p.sure_now = 1 - chance_of_so_few(s, s->recounted);
    interval share = share_exact(s->found_wrong, s->recounted, 0.95);
    p.share_low = share.low;
    p.share_high = share.high;
    *out = p;
    return true;
}
