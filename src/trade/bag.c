#include "trade/bag.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "trade/chance.h"

static const double fit_sd = 3.0;
static const double combinations_most = 2e7;

typedef struct {
    const bag_problem *p;
    double difference, variance; /* as listed */
    double log_missing, log_extra;
    bag_answer *out;
    double weights[BAG_KEPT]; /* of the kept stories, unnormalised */
    double total_weight;
    bag_story now;
    int depth;
} search;

static double sanitize_odds(double given, double usual) {
    return given > 0 && given < 1 ? given : usual;
}

static bool check_part(const bag_part *part, uint32_t i, err *e) {
    if (part->mass_mg > 0 && part->mass_mg <= 1e9 && part->sd_mg >= 0 && part->sd_mg <= part->mass_mg &&
        part->expected >= 0 && part->expected <= 1000000)
        return true;
    return err_input(e, "bag", "give each part a mass above 0, a tolerance and a quantity",
                     "part %u has a mass, tolerance or quantity out of range", i + 1);
}

static bool check_problem(const bag_problem *p, err *e) {
    if (p->n_parts == 0 || p->n_parts > BAG_PARTS_MAX)
        return err_input(e, "bag", "weigh bag by bag", "a bag of 1 to %d sorts of part can be checked",
                         BAG_PARTS_MAX);
    if (!(p->measured_mg >= 0 && p->measured_mg <= 1e9) || !(p->scale_sd_mg > 0 && p->scale_sd_mg <= 1e9) ||
        !(p->packing_sd_mg >= 0 && p->packing_sd_mg <= 1e9))
        return err_input(e, "bag", "give masses in milligrams", "a mass or a scale error is out of range");
    if (p->changes_most < 1 || p->changes_most > BAG_CHANGES)
        return err_input(e, "bag", "ask for 1 to 4", "%d changed pieces cannot be asked for",
                         p->changes_most);
    for (uint32_t i = 0; i < p->n_parts; i++)
        if (!check_part(&p->parts[i], i, e))
            return false;
    double combinations = 1, ways = 2.0 * p->n_parts;
    for (int k = 1; k <= p->changes_most; k++)
        combinations *= (ways + k - 1) / k;
    if (combinations > combinations_most)
        return err_input(e, "bag", "ask for fewer changed pieces, or weigh bag by bag",
                         "%.0f million combinations are too many", combinations / 1e6);
    return true;
}

/* Keeps the best BAG_KEPT, likeliest first. */
static void keep(search *s, double weight, double misfit) {
    bag_answer *out = s->out;
    if (out->n_stories == BAG_KEPT && weight <= s->weights[BAG_KEPT - 1])
        return;
    uint32_t i = out->n_stories < BAG_KEPT ? out->n_stories++ : BAG_KEPT - 1;
    for (; i > 0 && s->weights[i - 1] < weight; i--) {
        s->weights[i] = s->weights[i - 1];
        out->stories[i] = out->stories[i - 1];
    }
    s->weights[i] = weight;
    out->stories[i] = s->now;
    out->stories[i].misfit_sd = misfit;
}

/* One combination: does its mass explain the difference? */
static void weigh_story(search *s) {
    double change = 0, variance = s->variance, log_prior = 0;
    for (int k = 0; k < s->depth; k++) {
        const bag_part *part = &s->p->parts[s->now.part[k]];
        int32_t delta = s->now.delta[k];
        change += delta * part->mass_mg;
        variance += delta * part->sd_mg * part->sd_mg; /* one piece less scatters less */
        log_prior += abs(delta) * (delta < 0 ? s->log_missing : s->log_extra);
    }
    s->out->tried++;
    double sd = sqrt(variance > 0 ? variance : s->p->scale_sd_mg * s->p->scale_sd_mg);
    double misfit = (s->difference - change) / sd;
    if (fabs(misfit) > fit_sd)
        return;
    s->out->fitting++;
    double weight = exp(log_prior - 0.5 * misfit * misfit) / sd;
    s->total_weight += weight;
    keep(s, weight, misfit);
}

/* Combinations as multisets of single changes: part ascending, one direction for each part. */
static void try_from(search *s, uint32_t first, int left) {
    weigh_story(s);
    if (left == 0 || s->depth == BAG_CHANGES)
        return;
    for (uint32_t i = first; i < s->p->n_parts; i++) {
        for (int sign = -1; sign <= 1; sign += 2) {
            for (int pieces = 1; pieces <= left; pieces++) {
                if (sign < 0 && pieces > s->p->parts[i].expected)
                    break;
                s->now.part[s->depth] = i;
                s->now.delta[s->depth] = sign * pieces;
                s->depth++;
                try_from(s, i + 1, left - pieces);
                s->depth--;
                s->now.delta[s->depth] = 0;
            }
        }
    }
}

static bag_verdict judge(const bag_answer *out) {
    if (out->n_stories == 0)
        return BAG_NO_STORY;
    const bag_story *best = &out->stories[0];
    bool nothing_wrong = best->delta[0] == 0;
    if (nothing_wrong && best->chance >= 0.95)
        return BAG_AS_LISTED;
    if (!nothing_wrong && best->chance > 0.5)
        return BAG_ONE_STORY;
    return out->fitting <= BAG_KEPT ? BAG_FEW_STORIES : BAG_CANNOT_TELL;
}

bool bag_explain(arena *a, const bag_problem *p, bag_answer *out, err *e) {
    if (!check_problem(p, e))
        return false;
    memset(out, 0, sizeof *out);
    out->stories = arena_array(a, bag_story, BAG_KEPT);
    search s = {.p = p, .out = out};
    s.log_missing = log(sanitize_odds(p->missing_odds, 0.01));
    s.log_extra = log(sanitize_odds(p->extra_odds, 1.0 / 300));
    double expected = 0;
    s.variance = p->scale_sd_mg * p->scale_sd_mg + p->packing_sd_mg * p->packing_sd_mg;
    for (uint32_t i = 0; i < p->n_parts; i++) {
        expected += p->parts[i].expected * p->parts[i].mass_mg;
        s.variance += p->parts[i].expected * p->parts[i].sd_mg * p->parts[i].sd_mg;
    }
    s.difference = p->measured_mg - expected;
    out->difference_mg = s.difference;
    out->sd_mg = sqrt(s.variance);
    try_from(&s, 0, p->changes_most);
    for (uint32_t i = 0; i < out->n_stories; i++)
        out->stories[i].chance = s.total_weight > 0 ? s.weights[i] / s.total_weight : 0;
    out->verdict = judge(out);
    return true;
}
