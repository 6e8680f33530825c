/* suggest.c: what somebody probably meant to write.
 *
 * The distance is the optimal string alignment distance (insert, delete, change, swap two neighbours), with case,
 * blanks, dashes and underscores not counted at all. Digits must agree: S12 is not a likely slip for S13.
 */
#include <string.h>

#include "kit/inside.h"

enum { LONGEST = 40, FARTHEST = 2, LONG_START = 4 };

static uint32_t bare_letters(text t, char out[LONGEST]) {
    uint32_t n = 0;
    for (size_t i = 0; i < t.len && n < LONGEST; i++) {
        char c = t.at[i];
        if (c == ' ' || c == '-' || c == '_' || c == '.')
            continue;
        out[n++] = c >= 'A' && c <= 'Z' ? (char)(c + 32) : c;
    }
    return n;
}

static uint32_t least(uint32_t a, uint32_t b) {
    return a < b ? a : b;
}

static uint32_t distance(const char *a, uint32_t n, const char *b, uint32_t m) {
    uint32_t rows[3][LONGEST + 1];
    for (uint32_t j = 0; j <= m; j++)
        rows[0][j] = j;
    for (uint32_t i = 1; i <= n; i++) {
        uint32_t *now = rows[i % 3];
        const uint32_t *up = rows[(i + 2) % 3], *two_up = rows[(i + 1) % 3];
        now[0] = i;
        for (uint32_t j = 1; j <= m; j++) {
            now[j] = least(least(up[j], now[j - 1]) + 1, up[j - 1] + (a[i - 1] != b[j - 1]));
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                now[j] = least(now[j], two_up[j - 2] + 1);
        }
    }
    return rows[n % 3][m];
}

typedef struct {
    char letters[LONGEST];
    uint32_t n;
    uint32_t best; /* distance of the nearest so far */
    text nearest;
} search;

static search search_for(text wrong) {
    search s = {.nearest = TEXT("")};
    s.n = bare_letters(wrong, s.letters);
    s.best = least(FARTHEST, s.n / 3) + 1; /* of three letters one may be wrong, of six two */
    return s;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool same_digits(const char *a, uint32_t n, const char *b, uint32_t m) {
    for (uint32_t i = 0, j = 0;; i++, j++) {
        while (i < n && !is_digit(a[i]))
            i++;
        while (j < m && !is_digit(b[j]))
            j++;
        if (i == n || j == m)
            return i == n && j == m;
        if (a[i] != b[j])
            return false;
    }
}

static void look_at(search *s, text candidate) {
    char letters[LONGEST];
    uint32_t n = bare_letters(candidate, letters);
    uint32_t both = least(n, s->n);
    bool begins = both >= LONG_START && memcmp(letters, s->letters, both) == 0; /* mass_gram, mass_g */
    bool far = s->n > n + FARTHEST || n > s->n + FARTHEST;
    if (n == 0 || (far && !begins) || !same_digits(s->letters, s->n, letters, n))
        return;
    uint32_t d = far ? 1 : distance(s->letters, s->n, letters, n);
    if (d < s->best) {
        s->best = d;
        s->nearest = candidate;
    }
}

text kit_nearest_key(const kit_table_state *state, text wrong) {
    search s = search_for(wrong);
    for (uint32_t i = 0; i < state->n_keys && s.best > 0; i++)
        look_at(&s, state->keys[i].key);
    return s.nearest;
}

text kit_nearest_table(bool of_workshop, text wrong) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    search s = search_for(wrong);
    for (uint32_t i = 0; i < n; i++)
        if (forms[i].of_workshop == of_workshop)
            look_at(&s, text_of(forms[i].name));
    return s.nearest;
}

text kit_nearest_column(const kit_table_form *form, text wrong) {
    search s = search_for(wrong);
    for (uint32_t i = 0; i < form->n_columns; i++)
        look_at(&s, text_of(form->columns[i].name));
    return s.nearest;
}
