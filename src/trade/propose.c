/* propose.c: reads the cells of one row of a loose list.
 *
 * Order of trust: a standard named anywhere in the row; words and sizes of the name; words and sizes of other cells.
 * The name decides whether it is a fastener at all; a remark may only add. */
#include "trade/propose.h"

#include <stdio.h>
#include <string.h>

#include "trade/guess.h"
#include "trade/lexicon.h"
#include "trade/scan.h"

/* Longer remarks are prose, and prose mentions screws that the row is not about. */
enum { REMARK_WORDS_MAX = 6 };

/* What one cell says. */
typedef struct {
    char line[CLEAN_SIZE];
    word_reading words;
    size_read size;
    bool has_size;  /* a thread "m8" */
    bool two_sizes; /* and another one that differs */
    size_t size_at;
    int32_t bare_mm[2]; /* numbers with "mm" but without "m" in front: "16mm", "8mm" */
    size_t n_bare;
    const fastener_standard *standard;
    bool unknown_standard;
    mark_reading mark;
} cell_reading;

static void note(text *list, uint8_t *n, text t) {
    for (uint8_t i = 0; i < *n; i++)
        if (text_equal(list[i], t))
            return;
    if (*n < PROPOSAL_NOTES)
        list[(*n)++] = t;
}

/* Sizes stand at the edge of a word: "m8" in "vs-5ewh06fn-m3" counts as one only beside fastener words. */
static bool word_starts(const char *line, size_t i) {
    return i == 0 || scan_is_edge(line[i - 1]);
}

static void find_sizes(cell_reading *c) {
    for (size_t i = 0; c->line[i]; i++) {
        const char *at = c->line + i;
        if (!word_starts(c->line, i))
            continue;
        size_read size;
        bool found = *at == 'm' && scan_thread(&at, true, &size) && thread_coarse_pitch_um(size.thread_um) &&
                     (scan_is_edge(*at) || strncmp(at, "mm", 2) == 0);
        if (found && c->has_size) {
            c->two_sizes |= size.thread_um != c->size.thread_um || size.length_um != c->size.length_um;
            i = (size_t)(at - c->line) - 1;
            continue;
        }
        if (found) {
            c->size = size;
            c->has_size = true;
            c->size_at = i;
            i = (size_t)(at - c->line) - 1;
            continue;
        }
        int32_t um;
        at = c->line + i;
        bool after_point = i > 0 && c->line[i - 1] == '.';
        if (!after_point && c->n_bare < 2 && scan_mm(&at, &um)) {
            while (*at == ' ')
                at++;
            if (strncmp(at, "mm", 2) == 0 && scan_is_edge(at[2]) && um > 0)
                c->bare_mm[c->n_bare++] = um;
        }
    }
}

static void find_standard(cell_reading *c) {
    for (size_t i = 0; c->line[i]; i++) {
        const char *at = c->line + i, *body;
        unsigned number;
        const fastener_standard *found;
        if (!word_starts(c->line, i) || !scan_standard(&at, &body, &number, &found))
            continue;
        if (found) {
            c->standard = found;
            return;
        }
        c->unknown_standard = true;
    }
}

/* A strength mark or material behind the size, as strict designations carry it. */
static void find_mark(cell_reading *c, fastener_kind kind) {
    for (size_t i = 0; c->line[i]; i++) {
        bool behind = i > 0 && (c->line[i - 1] == '-' || c->line[i - 1] == ' ' || c->line[i - 1] == ',');
        if (!behind || scan_is_edge(c->line[i]))
            continue;
        mark_reading m = lexicon_read_mark(c->line + i, kind);
        if (m.len && m.grade && strchr(m.grade->code, '.')) { /* bare "8" or "10" could be anything */
            c->mark = m;
            return;
        }
        if (m.len && m.grade && strchr(m.grade->code, '-')) {
            c->mark = m;
            return;
        }
    }
}

static void read_cell(text t, cell_reading *c) {
    memset(c, 0, sizeof *c);
    scan_clean(t, c->line);
    lexicon_read(c->line, strlen(c->line), &c->words);
    find_sizes(c);
    find_standard(c);
}

/* Does the name say that it is a fastener? `why` says what spoke against. */
static bool names_fastener(const cell_reading *name, const cell_reading *row, const char **why) {
    const word_reading *w = &name->words;
    if (row->standard)
        return true;
    if (w->not_fastener) {
        *why = "its name is that of another thing";
        return false;
    }
    bool sized = name->has_size && (name->size.length_um || name->size.pitch_um);
    bool weak = (w->sense & SAYS_ONLY_IF) != 0;
    if (sized)
        return true;
    if (w->kind && name->has_size)
        return true;
    if (w->kind && !weak && (w->unknown_words == 0 || name->n_bare > 0))
        return true;
    *why = w->kind ? "it has no thread, and its other words are not known here"
                   : "it names no fastener and no size";
    return false;
}

static void merge_words(word_reading *all, const word_reading *w, bool remark) {
    if (remark && w->unknown_words + w->known_words > REMARK_WORDS_MAX)
        return;
    if (!all->kind)
        all->kind = w->kind;
    if (!all->form && (!w->form || !all->kind || fastener_form_kind(w->form) == all->kind ||
                       (all->kind == FASTENER_SCREW && w->kind == FASTENER_SET_SCREW)))
        all->form = w->form;
    if (all->kind == FASTENER_SCREW && w->kind == FASTENER_SET_SCREW)
        all->kind = FASTENER_SET_SCREW;
    if (!all->drive)
        all->drive = w->drive;
    if (!all->material)
        all->material = w->material;
    if (!all->finish)
        all->finish = w->finish;
    all->sense |= w->sense;
    all->form_conflict |= w->form_conflict;
    all->kind_conflict |= w->kind_conflict;
    if (w->misspelt[0] && !all->misspelt[0]) {
        memcpy(all->misspelt, w->misspelt, sizeof all->misspelt);
        memcpy(all->meant, w->meant, sizeof all->meant);
    }
}

/* One reading of the whole row; `name` is cell 0, remarks add what is missing. */
static void read_row(const text *cells, size_t n, cell_reading *name, cell_reading *row) {
    read_cell(cells[0], name);
    *row = *name;
    for (size_t i = 1; i < n; i++) {
        cell_reading c;
        if (text_starts(cells[i], TEXT("http"))) /* an address names what a shop sells, not what the row is */
            continue;
        read_cell(cells[i], &c);
        merge_words(&row->words, &c.words, true);
        bool prose = c.words.unknown_words + c.words.known_words > REMARK_WORDS_MAX;
        if (!row->standard)
            row->standard = c.standard;
        row->unknown_standard |= c.unknown_standard;
        if (!row->has_size && c.has_size && !prose && c.size_at == 0) {
            row->has_size = true;
            row->size = c.size;
        }
    }
    fastener_kind kind = row->standard ? row->standard->kind : row->words.kind;
    find_mark(row, kind);
}

static void state_size(const cell_reading *row, designation *d) {
    bool threaded = d->kind != FASTENER_WASHER && d->kind != FASTENER_PIN && d->kind != FASTENER_RING;
    if (row->has_size) {
        d->thread_um = row->size.thread_um;
        if (threaded) {
            int32_t coarse = thread_coarse_pitch_um(d->thread_um);
            d->pitch_um = row->size.pitch_um ? row->size.pitch_um : coarse;
            d->fine = d->pitch_um != coarse;
        }
        bool has_length = d->kind != FASTENER_NUT && d->kind != FASTENER_WASHER;
        d->length_um = has_length ? row->size.length_um : 0;
        if (has_length && !d->length_um && row->n_bare > 0) /* "M3 16mm countersunk screw" */
            d->length_um = row->bare_mm[0];
    }
    d->profile = row->words.sense & SAYS_TAPPING ? THREAD_TAPPING : THREAD_METRIC;
}

static void state_row(const cell_reading *row, designation *d) {
    const fastener_standard *s = row->standard;
    const word_reading *w = &row->words;
    if (s) {
        *d = (designation){
            .kind = s->kind, .form = s->form, .drive = s->drive, .extent = s->extent, .standard = s};
    } else {
        d->kind = w->kind ? w->kind : fastener_form_kind(w->form);
        d->form = w->form && fastener_form_kind(w->form) == d->kind ? w->form : FORM_UNKNOWN;
        d->drive = w->drive;
        if (w->sense & SAYS_FULL_THREAD)
            d->extent = THREAD_FULL;
        if (w->sense & SAYS_PART_THREAD)
            d->extent = THREAD_PARTIAL;
    }
    d->material = w->material;
    d->finish = w->finish;
    if (row->mark.grade) {
        d->grade = row->mark.grade;
        d->material = row->mark.material;
    }
    state_size(row, d);
}

static void find_conflicts(arena *a, const cell_reading *row, proposal *out) {
    const fastener_standard *s = row->standard;
    const word_reading *w = &row->words;
    if (w->form_conflict || w->kind_conflict)
        note(out->conflicts, &out->n_conflicts, text_of("the words name two different shapes"));
    char name[32];
    if (s && ((w->kind && w->kind != s->kind) || (w->form && !lexicon_form_fits(w->form, s->form)))) {
        fastener_standard_print(s, name, sizeof name);
        const char *said = w->form ? fastener_form_name(w->form) : fastener_kind_name(w->kind);
        note(out->conflicts, &out->n_conflicts,
             arena_format(a, "the words say %s, but %s is: %s", said, name, s->title));
    }
    int32_t pitch = row->has_size ? row->size.pitch_um : 0;
    if (pitch && !thread_pitch_known(row->size.thread_um, pitch))
        note(out->conflicts, &out->n_conflicts,
             arena_format(a, "M%g has no pitch of %g mm in ISO 261", row->size.thread_um / 1e3, pitch / 1e3));
    int32_t thread = out->stated.thread_um;
    if (s && thread && (thread < s->least_um || thread > s->most_um))
        note(out->conflicts, &out->n_conflicts,
             arena_format(a, "%s %u does not cover %g mm here", s->body, s->number, thread / 1e3));
    if (row->two_sizes)
        note(out->conflicts, &out->n_conflicts, text_of("it names two sizes; the first was taken"));
    if (row->unknown_standard && !s)
        note(out->conflicts, &out->n_conflicts, text_of("it names a standard that is not known here"));
}

static void find_missing(proposal *out) {
    const designation *d = &out->stated;
    if (!d->kind)
        note(out->missing, &out->n_missing, text_of("what it is (screw, nut, washer)"));
    if (!d->thread_um)
        note(out->missing, &out->n_missing, text_of("thread"));
    bool long_one = d->kind == FASTENER_SCREW || d->kind == FASTENER_SET_SCREW || d->kind == FASTENER_ROD ||
                    d->kind == FASTENER_PIN;
    if (long_one && !d->length_um)
        note(out->missing, &out->n_missing, text_of("length"));
    bool headed = d->kind == FASTENER_SCREW;
    if (headed && !d->form)
        note(out->missing, &out->n_missing, text_of("head"));
    if (headed && d->form && !d->drive)
        note(out->missing, &out->n_missing, text_of("drive"));
}

void designation_propose(arena *a, const text *cells, size_t n_cells, proposal *out) {
    memset(out, 0, sizeof *out);
    if (n_cells == 0) {
        out->why_not = text_of("there is no text");
        return;
    }
    if (designation_read(cells[0], &out->stated, NULL)) { /* nothing loose about it */
        out->is_fastener = true;
        out->guess = out->stated;
        return;
    }
    cell_reading name, row;
    read_row(cells, n_cells, &name, &row);
    const char *why = "";
    out->is_fastener = names_fastener(&name, &row, &why);
    out->why_not = text_of(why);
    if (!out->is_fastener)
        return;
    state_row(&row, &out->stated);
    if (row.words.misspelt[0] && strcmp(row.words.misspelt, row.words.meant) != 0)
        note(out->assumed, &out->n_assumed,
             arena_format(a, "\"%s\" is read as \"%s\"", row.words.misspelt, row.words.meant));
    out->guess = out->stated;
    guess_context ctx = {
        .sense = row.words.sense, .bare_um = row.n_bare ? row.bare_mm[0] : 0, .has_thread = row.has_size};
    guess_fill(a, &ctx, out);
    find_conflicts(a, &row, out);
    find_missing(out);
}

name_sort designation_sort(text name) {
    designation d;
    if (designation_read(name, &d, NULL))
        return NAME_STANDARD;
    cell_reading c, row;
    const char *why;
    read_row(&name, 1, &c, &row);
    return names_fastener(&c, &row, &why) ? NAME_LOOSE : NAME_NO_FASTENER;
}
