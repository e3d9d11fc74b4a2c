/* Strips put in order: what they make beyond what is asked is not cut, like
 * ones become one line, borders and high ones come first. Read next: place.c.
 */
#include <stdlib.h>

#include "cutter.h"

/* A strip is as high as its highest cut. */
void settle_strip(struct strip *strip)
{
    strip->used = strip->height = rational_whole(0);
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        strip->used = rational_add(
            strip->used, rational_times(cut->along, (int64_t)cut->count));
        strip->height = rational_max(
            strip->height, rational_times(cut->across, (int64_t)cut->stack));
    }
}

/* Takes up to `most` pieces of an item out of a list of cuts.
 * ensures: how many were taken. */
static size_t take_out(struct strip_cut *cuts, size_t *count, size_t item,
                       size_t most)
{
    for (size_t i = 0; i < *count; i++) {
        if (cuts[i].item != item)
            continue;
        const size_t taken = cuts[i].count < most ? cuts[i].count : most;
        cuts[i].count -= taken;
        if (cuts[i].count == 0) {
            for (size_t k = i + 1; k < *count; k++)
                cuts[k - 1] = cuts[k];
            --*count;
        }
        return taken;
    }
    return 0;
}

/* How many pieces of an item the cuts of one strip make. */
static size_t pieces_in(const struct strip_cut *cuts, size_t count, size_t item)
{
    size_t pieces = 0;
    for (size_t i = 0; i < count; i++)
        if (cuts[i].item == item)
            pieces += cuts[i].count;
    return pieces;
}

/* All strips of a line are alike but the last one, where that has cuts of its
 * own. */
/* Takes pieces out of the last strip of a line. */
static size_t take_from_last(struct arena *arena, struct strip *strip,
                             size_t item, size_t most)
{
    if (strip->repeat == 0)
        return 0;
    if (strip->repeat == 1)
        return take_out(strip->cuts.items, &strip->cuts.count, item, most);
    if (pieces_in(strip->cuts.items, strip->cuts.count, item) == 0)
        return 0;
    if (strip->last.count == 0)
        for (size_t i = 0; i < strip->cuts.count; i++)
            *LIST_ADD(arena, &strip->last) = strip->cuts.items[i];
    const size_t taken =
        take_out(strip->last.items, &strip->last.count, item, most);
    /* Nothing left of the last one, so the one before it is the last. */
    if (strip->last.count == 0)
        strip->repeat--;
    return taken;
}

/* A last strip that is not enough becomes a line of its own, so that the one
 * before it can be cut in part, too. */
static void split_last(struct arena *arena, struct fabric_plan *plan)
{
    const size_t count = plan->strips.count;
    for (size_t i = 0; i < count; i++) {
        struct strip part = plan->strips.items[i];
        if (part.last.count == 0)
            continue;
        plan->strips.items[i].repeat--;
        plan->strips.items[i].last.count = 0;
        plan->strips.items[i].last.items = NULL;
        plan->strips.items[i].last.capacity = 0;
        part.cuts.items = part.last.items;
        part.cuts.count = part.last.count;
        part.cuts.capacity = part.last.capacity;
        part.last.items = NULL;
        part.last.count = part.last.capacity = 0;
        part.repeat = 1;
        *LIST_ADD(arena, &plan->strips) = part;
    }
}

/* By item: what whole strips make. requires: no last ones of their own. */
static size_t *count_made(struct arena *arena, const struct fabric_plan *plan)
{
    size_t *made = ARENA_ARRAY(arena, size_t, plan->items.count + 1);
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        for (size_t k = 0; k < strip->cuts.count; k++)
            made[strip->cuts.items[k].item] +=
                strip->cuts.items[k].count * strip->repeat;
    }
    return made;
}

/* What the strips make beyond what is asked is not cut: whole cloth is worth
 * more than pieces without use. It ends: where no last strip gives a piece,
 * splitting makes whole strips the last ones again. */
void drop_surplus(struct arena *arena, struct fabric_plan *plan,
                  const size_t *wanted)
{
    const size_t *made = count_made(arena, plan);
    for (size_t item = 0; item < plan->items.count; item++) {
        size_t surplus =
            made[item] > wanted[item] ? made[item] - wanted[item] : 0;
        while (surplus > 0) {
            size_t taken = 0;
            for (size_t i = plan->strips.count; i-- > 0 && taken < surplus;)
                taken += take_from_last(arena, &plan->strips.items[i], item,
                                        surplus - taken);
            if (taken == 0)
                split_last(arena, plan);
            surplus -= taken;
        }
    }
}

/* How much of its length a strip of the line may use. */
static struct rational usable_length(const struct fabric_plan *plan,
                                     const struct strip *strip)
{
    const struct rational kept =
        rational_sub(plan->strip_length, plan->reserve);
    return rational_compare(strip->used, kept) > 0 ? plan->strip_length : kept;
}

/* One more piece in each strip but the last, which gets what is then left to
 * make: an even number is cut folded, an odd one must be opened for. */
static void make_even(struct arena *arena, const struct fabric_plan *plan,
                      struct strip *strip, size_t index)
{
    struct strip_cut *cut = &strip->cuts.items[index];
    const size_t count = cut->count, strips = strip->repeat;
    settle_strip(strip);
    if (count % 2 == 0 || strips < 2 || strips > count ||
        rational_compare(rational_add(strip->used, cut->along),
                         usable_length(plan, strip)) > 0)
        return;
    if (strip->last.count == 0)
        for (size_t i = 0; i < strip->cuts.count; i++)
            *LIST_ADD(arena, &strip->last) = strip->cuts.items[i];
    cut->count = count + 1;
    strip->last.items[index].count = count + 1 - strips;
}

void even_strips(struct arena *arena, struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        struct strip *strip = &plan->strips.items[i];
        if (strip->last.count > 0 || plan->bolt->layers == 1)
            continue;
        for (size_t k = 0; k < strip->cuts.count; k++)
            make_even(arena, plan, strip, k);
    }
}

static bool same_cuts(const struct strip *a, const struct strip *b)
{
    if (!rational_equal(a->height, b->height) || a->cuts.count != b->cuts.count)
        return false;
    for (size_t i = 0; i < a->cuts.count; i++)
        if (a->cuts.items[i].item != b->cuts.items[i].item ||
            a->cuts.items[i].count != b->cuts.items[i].count ||
            !rational_equal(a->cuts.items[i].along, b->cuts.items[i].along))
            return false;
    return true;
}

bool same_sheets(const struct sheet *a, const struct sheet *b)
{
    if (a->kind != b->kind || a->foot != b->foot || a->down != b->down ||
        !rational_equal(a->width, b->width) ||
        !rational_equal(a->height, b->height) ||
        a->strips.count != b->strips.count)
        return false;
    for (size_t i = 0; i < a->strips.count; i++) {
        const struct strip *one = &a->strips.items[i];
        const struct strip *other = &b->strips.items[i];
        if (one->repeat != other->repeat || !same_cuts(one, other))
            return false;
        for (size_t k = 0; k < one->cuts.count; k++)
            if (one->cuts.items[k].stack != other->cuts.items[k].stack)
                return false;
    }
    return true;
}

/* Lines by what is cut from them: `first[hash]` and `next[line]`, both + 1, in
 * their order. */
struct lines {
    size_t *first, *last, *next;
    size_t places; /* a power of two */
};

static size_t place_of(const struct lines *lines, const struct strip *strip)
{
    size_t hash = 14695981039346656037u; /* FNV-1a, a word at a time */
    for (size_t i = 0; i < strip->cuts.count; i++) {
        hash = (hash ^ strip->cuts.items[i].item) * 1099511628211u;
        hash = (hash ^ strip->cuts.items[i].count) * 1099511628211u;
    }
    return hash & (lines->places - 1);
}

/* The line above that is cut the same way, or `count`: what was taken out of a
 * strip may have made it like another, or lower. Only one of two may end in a
 * strip that is cut in part. */
static size_t line_for(const struct lines *lines, const struct strip *strips,
                       size_t count, const struct strip *strip)
{
    for (size_t at = lines->first[place_of(lines, strip)]; at > 0;
         at = lines->next[at - 1])
        if (same_cuts(&strips[at - 1], strip) &&
            (strip->last.count == 0 || strips[at - 1].last.count == 0))
            return at - 1;
    return count;
}

static void add_line(struct lines *lines, const struct strip *strip,
                     size_t line)
{
    const size_t place = place_of(lines, strip);
    if (lines->first[place] == 0)
        lines->first[place] = line + 1;
    else
        lines->next[lines->last[place] - 1] = line + 1;
    lines->last[place] = line + 1;
}

/* A strip and its place before sorting. */
struct ordered_strip {
    struct strip strip;
    bool border; /* left whole for a border */
    size_t order;
};

/* Borders first, while the cloth is longest; then from high to low, so that the
 * ruler is set anew as seldom as can be; equal heights as they were. */
static int compare_strips(const void *first, const void *second)
{
    const struct ordered_strip *a = first, *b = second;
    if (a->border != b->border)
        return a->border ? -1 : 1;
    const int height = rational_compare(b->strip.height, a->strip.height);
    return height != 0 ? height : a->order < b->order ? -1 : 1;
}

static bool is_border(const struct fabric_plan *plan, const struct strip *strip)
{
    return is_whole_strip(plan, strip) &&
           plan->items.items[strip->cuts.items[0].item].use == CUT_BORDER;
}

/* The same, whatever qsort does with equal ones. */
static void sort_strips(struct arena *arena, struct fabric_plan *plan)
{
    const size_t count = plan->strips.count;
    struct ordered_strip *ordered =
        ARENA_ARRAY(arena, struct ordered_strip, count + 1);
    for (size_t i = 0; i < count; i++)
        ordered[i] = (struct ordered_strip){
            plan->strips.items[i], is_border(plan, &plan->strips.items[i]), i};
    qsort(ordered, count, sizeof *ordered, compare_strips);
    for (size_t i = 0; i < count; i++)
        plan->strips.items[i] = ordered[i].strip;
}

/* Strips of which nothing is left, go; the others are measured, those that are
 * alike joined, and all put in order. */
void settle_strips(struct fabric_plan *plan)
{
    struct arena *scratch = arena_create();
    struct strip *strips = plan->strips.items;
    const size_t count = plan->strips.count;
    struct lines lines = {.places = 16};
    while (lines.places < count)
        lines.places *= 2;
    lines.first = ARENA_ARRAY(scratch, size_t, lines.places);
    lines.last = ARENA_ARRAY(scratch, size_t, lines.places);
    lines.next = ARENA_ARRAY(scratch, size_t, count + 1);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        struct strip strip = strips[i];
        if (strip.cuts.count == 0 || strip.repeat == 0)
            continue;
        settle_strip(&strip);
        const size_t at = line_for(&lines, strips, kept, &strip);
        if (at == kept) {
            add_line(&lines, &strip, kept);
            strips[kept++] = strip;
            continue;
        }
        strips[at].repeat += strip.repeat;
        if (strip.last.count > 0) {
            strips[at].last.items = strip.last.items;
            strips[at].last.count = strip.last.count;
        }
    }
    plan->strips.count = kept;
    sort_strips(scratch, plan);
    arena_destroy(scratch);
}
