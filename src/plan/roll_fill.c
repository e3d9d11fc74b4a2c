/* One pattern of a simple plan: which sizes go with a given one, and how often
 * the strip is repeated. Weighed are the cloth that it wastes, measured by the
 * duals of the linear programme, and the steps that it asks for. */
#include <string.h>

#include "roll_plan.h"
#include "roll_simple.h"

/* As in the other searches (Marsaglia, xorshift, 2003). */
uint64_t simple_chance(struct simplifier *s, uint64_t below)
{
    s->random ^= s->random << 13;
    s->random ^= s->random >> 7;
    s->random ^= s->random << 17;
    return s->random % below;
}

/* Patterns hold the index of a height; only here it becomes a length. */
int64_t simple_height(const struct simplifier *s, size_t height)
{
    return s->master.heights.items[height].height;
}

/* Pieces beyond what is asked for are worth nothing: they are not cut. */
size_t simple_useful(const struct simplifier *s, const struct simple *pattern,
                     size_t k)
{
    const size_t made = pattern->counts[k] * pattern->repeat;
    const size_t left = s->left[pattern->sizes[k]];
    return made < left ? made : left;
}

/* The duals are prices: what a piece of each size costs at the margin, as a
 * length of cloth (Gilmore and Gomory, 1961). */
static double worth_of(const struct simplifier *s, const struct simple *pattern)
{
    double worth = 0.0;
    for (size_t k = 0; k < pattern->mixed; k++)
        worth +=
            s->dual[pattern->sizes[k]] * (double)simple_useful(s, pattern, k);
    return worth;
}

static double loss_beside(const struct simplifier *s,
                          const struct simple *pattern, double worth)
{
    return (double)(simple_height(s, pattern->height) *
                    (int64_t)pattern->repeat) -
           worth;
}

/* By duality the losses of all patterns add up to what the plan takes beyond
 * the programme. So each pattern alone can be held against the slack, before
 * the others are known. */
double simple_loss(const struct simplifier *s, const struct simple *pattern)
{
    return loss_beside(s, pattern, worth_of(s, pattern));
}

/* ---- weighing ---- */

/* A height that is set already costs no new ruler setting. */
static bool has_height(const struct layout *layout, size_t height)
{
    for (size_t i = 0; i < layout->count; i++)
        if (layout->patterns[i].height == height)
            return true;
    return false;
}

/* A piece that is lower than its strip asks for one more cut. */
static bool is_trimmed(const struct simplifier *s, size_t size, int64_t along,
                       size_t height)
{
    const int64_t strip = simple_height(s, height);
    return roll_across(&s->master.problem->sizes[size], along, strip) < strip;
}

/* A pattern that is weighed in several repeats. */
struct weighed {
    struct simple *pattern;
    double steps; /* lines, settings and trims, whatever the repeat; below 0
                     until they are asked for */
};

static double steps_of(const struct simplifier *s, const struct simple *pattern)
{
    double steps = has_height(s->trial, pattern->height) ? 1.0 : 2.0;
    for (size_t k = 0; k < pattern->mixed; k++) {
        bool told = false;
        for (size_t i = 0; i < k; i++)
            told |= pattern->along[i] == pattern->along[k];
        steps += told ? 0.0 : 1.0;
        steps +=
            is_trimmed(s, pattern->sizes[k], pattern->along[k], pattern->height)
                ? 1.0
                : 0.0;
    }
    return steps;
}

/* What is used of a pattern: it has room for many more sizes. */
static void copy_pattern(struct simple *to, const struct simple *from)
{
    to->height = from->height;
    to->mixed = from->mixed;
    to->repeat = from->repeat;
    for (size_t k = 0; k < from->mixed; k++) {
        to->sizes[k] = from->sizes[k];
        to->counts[k] = from->counts[k];
        to->along[k] = from->along[k];
    }
}

/* Keeps the better pattern: the waste and the effort, in length, for each unit
 * of worth that it delivers. A little noise breaks ties differently each time,
 * so that the search does not walk in a circle. */
static void consider(struct simplifier *s, struct weighed *weighed,
                     size_t repeat, struct simple *best, double *best_score)
{
    struct simple *pattern = weighed->pattern;
    if (repeat == 0)
        return;
    pattern->repeat = repeat;
    s->master.work += 30 * pattern->mixed;
    double worth = 0.0;
    double finished = 0.0; /* sizes, which need no other line */
    for (size_t k = 0; k < pattern->mixed; k++) {
        const size_t size = pattern->sizes[k];
        const size_t made = pattern->counts[k] * repeat, left = s->left[size];
        worth += s->dual[size] * (double)(int64_t)(made < left ? made : left);
        finished += made < left ? 0.0 : 1.0;
    }
    const double loss = loss_beside(s, pattern, worth);
    if (worth <= 0.0 || loss > s->slack)
        return;
    const double noise = 1.0 + (double)simple_chance(s, 1000) * 0.00005;
    if (weighed->steps < 0.0)
        weighed->steps = steps_of(s, pattern);
    const double value =
        (loss + s->weight * (weighed->steps - finished)) / worth * noise;
    if (value < *best_score) {
        *best_score = value;
        copy_pattern(best, pattern);
    }
}

/* Repeats that finish one of the pattern's sizes, or nearly. */
static void try_repeats(struct simplifier *s, struct simple *pattern,
                        struct simple *best, double *best_score)
{
    struct weighed weighed = {pattern, -1.0};
    for (size_t k = 0; k < pattern->mixed; k++) {
        const size_t left = s->left[pattern->sizes[k]];
        const size_t count = pattern->counts[k];
        const size_t whole = left / count;
        consider(s, &weighed, whole, best, best_score);
        if (left != whole * count)
            consider(s, &weighed, whole + 1, best, best_score);
    }
}

/* ---- the strip that is repeated ---- */

/* A size may go along with so many pieces that the repeats finish it, or with
 * one less. */
struct option {
    const struct roll_way *way;
    size_t counts[2];
    double gains[2];
};

/* Without sizes. Its room is not cleared: patterns are made by the thousand. */
static void start_pattern(struct simple *pattern, size_t height)
{
    pattern->height = height;
    pattern->mixed = 0;
    pattern->repeat = 0;
}

/* requires: less than MOST_MIXED sizes in the pattern. */
static void add_part(struct simple *pattern, const struct roll_way *way,
                     size_t count)
{
    pattern->sizes[pattern->mixed] = way->size;
    pattern->along[pattern->mixed] = way->along;
    pattern->counts[pattern->mixed] = count;
    pattern->mixed++;
}

/* What so many pieces in each strip are worth beyond the steps that they
 * cost. */
static double surplus_of(const struct simplifier *s,
                         const struct simple *pattern,
                         const struct roll_way *way, size_t count)
{
    const size_t left = s->left[way->size];
    const size_t made = count * pattern->repeat;
    double steps = made >= left ? -1.0 : 0.0;
    bool told = false;
    for (size_t k = 0; k < pattern->mixed; k++)
        told |= pattern->along[k] == way->along;
    steps += told ? 0.0 : 1.0;
    steps += is_trimmed(s, way->size, way->along, pattern->height) ? 1.0 : 0.0;
    return s->dual[way->size] * (double)(made < left ? made : left) -
           s->weight * steps;
}

/* The sizes that may go along, some of them left out by chance. Else one start
 * would always lead to the same strip. */
static size_t find_options(struct simplifier *s, const struct simple *pattern,
                           int64_t room, struct option *options, size_t limit)
{
    const struct roll_height *height =
        &s->master.heights.items[pattern->height];
    size_t count = 0;
    for (size_t i = 0; i < height->ways.count && count < limit; i++) {
        const struct roll_way *way = &height->ways.items[i];
        const size_t left = s->left[way->size];
        if (left == 0 || way->size == pattern->sizes[0] || way->along > room ||
            simple_chance(s, 8) == 0)
            continue;
        const size_t fit = (size_t)(room / way->along);
        struct option option = {.way = way};
        const size_t whole = left / pattern->repeat;
        option.counts[0] = whole + (left % pattern->repeat != 0);
        option.counts[1] = whole;
        for (int n = 0; n < 2; n++) {
            if (option.counts[n] > fit)
                option.counts[n] = fit;
            const double luck = 0.9 + 0.002 * (double)simple_chance(s, 100);
            option.gains[n] =
                option.counts[n] == 0
                    ? 0.0
                    : luck * surplus_of(s, pattern, way, option.counts[n]);
        }
        options[count++] = option;
    }
    return count;
}

/* Width that the option takes at most; nothing where it is worth nothing. */
static int64_t most_used(const struct option *option)
{
    const size_t n = option->gains[0] > 0.0 ? 0 : 1;
    return option->gains[n] > 0.0
               ? option->way->along * (int64_t)option->counts[n]
               : 0;
}

/* The row of an option, from the right down to `least`: `chosen` gets the count
 * that is worth most in room for so much, 1 or 2, 0 for none. */
static void fill_row(double *filled, unsigned char *chosen,
                     const struct option *option, int64_t room, int64_t least)
{
    int64_t used[2];
    for (int n = 0; n < 2; n++)
        used[n] = option->gains[n] > 0.0
                      ? option->way->along * (int64_t)option->counts[n]
                      : room + 1; /* never taken */
    for (int64_t w = room; w >= least; w--) {
        double most = filled[w];
        unsigned char taken = 0;
        for (int n = 0; n < 2; n++) {
            if (used[n] > w)
                continue;
            const double value = filled[w - used[n]] + option->gains[n];
            if (value <= most)
                continue;
            most = value;
            taken = (unsigned char)(n + 1);
        }
        filled[w] = most;
        chosen[w] = taken;
    }
}

/* Each size at most once, in one of its counts: a knapsack with choices. From
 * the right, so that no size meets itself again (the multiple-choice knapsack,
 * Sinha and Zoltners, 1979). `chosen` is kept by size, as the strip is read
 * back from it. That begins with all the room, so of each size only what later
 * ones can leave is needed: `from` and more. */
static void fill_table(struct simplifier *s, const struct option *options,
                       size_t count, int64_t room)
{
    const size_t cells = (size_t)room + 1;
    int64_t from = room;
    s->master.work += 2 * cells * count;
    if (count == 0)
        return;
    for (size_t i = 0; i < count; i++)
        from -= most_used(&options[i]);
    const size_t lowest = from > 0 ? (size_t)from : 0;
    memset(s->filled + lowest, 0, (cells - lowest) * sizeof *s->filled);
    for (size_t i = 0; i < count; i++) {
        unsigned char *chosen = s->chosen + i * cells;
        from += most_used(&options[i]);
        const int64_t along = options[i].way->along;
        const int64_t first = from > 0 ? from : 0;
        fill_row(s->filled, chosen, &options[i], room,
                 first > along ? first : along);
        if (first < along)
            memset(chosen + first, 0, (size_t)(along - first));
    }
}

/* One strip that holds of each size as many as its repeats have to make: a
 * line that finishes several sizes at once. */
static void try_block(struct simplifier *s, size_t height,
                      const struct roll_way *way, struct simple *best,
                      double *best_score)
{
    const int64_t width = s->master.problem->width;
    const size_t fit = (size_t)(width / way->along);
    const size_t left = s->left[way->size];
    struct simple pattern;
    start_pattern(&pattern, height);
    const size_t own = 1 + simple_chance(s, fit < left ? fit : left);
    add_part(&pattern, way, own);
    pattern.repeat = left / own;
    if (left % own != 0 && simple_chance(s, 4) > 0)
        pattern.repeat++;
    const int64_t room = width - way->along * (int64_t)own;
    struct option options[64];
    const size_t count = find_options(s, &pattern, room, options, 64);
    fill_table(s, options, count, room);
    int64_t w = room;
    for (size_t i = count; i-- > 0;) {
        const size_t at = i * ((size_t)room + 1) + (size_t)w;
        if (s->chosen[at] == 0 || pattern.mixed == MOST_MIXED)
            continue;
        const size_t taken = options[i].counts[s->chosen[at] - 1];
        add_part(&pattern, options[i].way, taken);
        w -= options[i].way->along * (int64_t)taken;
    }
    struct weighed weighed = {&pattern, -1.0};
    consider(s, &weighed, pattern.repeat, best, best_score);
}

/* ---- a strip filled by chance ---- */

/* Fills the room of a pattern with one more size. As many as there is room for:
 * the caller may take some away. False where chance named a size that is in it,
 * is done or is too long. */
static bool mix_in(struct simplifier *s, struct simple *pattern, int64_t *room)
{
    const struct roll_height *height =
        &s->master.heights.items[pattern->height];
    const struct roll_way *way =
        &height->ways.items[simple_chance(s, height->ways.count)];
    const size_t left = s->left[way->size];
    for (size_t k = 0; k < pattern->mixed; k++)
        if (pattern->sizes[k] == way->size)
            return false;
    if (left == 0 || way->along > *room)
        return false;
    size_t fit = (size_t)(*room / way->along);
    fit = fit < left ? fit : left;
    *room -= way->along * (int64_t)fit;
    add_part(pattern, way, fit);
    return true;
}

/* Takes some of the last size away. */
static void thin_out(struct simplifier *s, struct simple *pattern,
                     int64_t *room)
{
    size_t *count = &pattern->counts[pattern->mixed - 1];
    const size_t kept = 1 + simple_chance(s, *count);
    *room += pattern->along[pattern->mixed - 1] * (int64_t)(*count - kept);
    *count = kept;
}

/* One size alone, then with others. */
static void try_mixes(struct simplifier *s, size_t height,
                      const struct roll_way *way, struct simple *best,
                      double *best_score)
{
    enum { MIXES = 6 };
    const int64_t width = s->master.problem->width;
    const size_t fit = (size_t)(width / way->along);
    const size_t left = s->left[way->size];
    const size_t most = fit < left ? fit : left;
    struct simple mixed;
    start_pattern(&mixed, height);
    add_part(&mixed, way, most);
    try_repeats(s, &mixed, best, best_score);
    for (int n = 0; n < MIXES; n++) {
        mixed.mixed = 1;
        mixed.counts[0] = 1 + simple_chance(s, most);
        int64_t room = width - way->along * (int64_t)mixed.counts[0];
        s->master.work += 20;
        if (!mix_in(s, &mixed, &room))
            continue;
        try_repeats(s, &mixed, best, best_score);
        while (mixed.mixed < MOST_MIXED && simple_chance(s, 3) > 0) {
            if (simple_chance(s, 2) == 0)
                thin_out(s, &mixed, &room);
            if (!mix_in(s, &mixed, &room))
                break;
        }
        if (mixed.mixed > 2)
            try_repeats(s, &mixed, best, best_score);
    }
}

/* All heights compete by one score, so that a higher strip wins only where it
 * saves steps. A pattern that would use up more slack than there is, was never
 * kept, so what is taken here keeps to the budget. */
bool simple_lay(struct simplifier *s, size_t size)
{
    struct simple best = {0};
    double best_score = 1e18;
    for (size_t k = 0; k < s->master.heights.count; k++) {
        const struct roll_height *height = &s->master.heights.items[k];
        s->master.work += 2 * height->ways.count + 4;
        for (size_t i = 0; i < height->ways.count; i++) {
            const struct roll_way *way = &height->ways.items[i];
            if (way->size != size)
                continue;
            try_mixes(s, k, way, &best, &best_score);
            try_block(s, k, way, &best, &best_score);
        }
    }
    if (best.repeat == 0 || s->trial->count == MOST_PATTERNS)
        return false;
    s->slack -= simple_loss(s, &best);
    for (size_t k = 0; k < best.mixed; k++)
        s->left[best.sizes[k]] -= simple_useful(s, &best, k);
    s->trial->patterns[s->trial->count++] = best;
    return true;
}
