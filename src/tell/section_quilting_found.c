/* How lines that lie beside each other begin, and which areas have a path too
 * short for a figure. Read next: section_quilting.c. */
#include "quilting_words.h"

#include <math.h>

/* ---- the first line of a filler ---- */

/* Distances of sides of areas from the lines next to them that run along. */
struct firsts {
    double least, most;
};

/* How far `p` lies from the straight line, and how far along it. */
struct beside {
    double across, along;
};

static struct beside beside_of(const struct quilted_line *line, struct spot p)
{
    const struct spot a = line->points[0], b = line->points[1];
    const double length = hypot(b.x - a.x, b.y - a.y);
    const double x = (b.x - a.x) / length, y = (b.y - a.y) / length;
    return (struct beside){(p.x - a.x) * y - (p.y - a.y) * x,
                           (p.x - a.x) * x + (p.y - a.y) * y};
}

/* How far the side lies beside the line; HUGE_VAL where it runs another way, or
 * not along it. */
static double side_from(const struct quilted_line *line, struct spot a,
                        struct spot b)
{
    static const double HAIR = 1e-6;
    const struct beside from = beside_of(line, a), to = beside_of(line, b);
    const double end = beside_of(line, line->points[1]).along;
    return fabs(from.across - to.across) < HAIR &&
                   fmin(fmax(from.along, to.along), end) -
                           fmax(fmin(from.along, to.along), 0.0) >
                       HAIR
               ? fabs(from.across)
               : HUGE_VAL;
}

/* Takes in the lines along one side of the outline of a kind's sample. ensures:
 * how many lines run along it. */
static size_t add_side(const struct quilting_plan *plan, size_t sample,
                       const struct told_item *item, size_t side,
                       struct firsts *firsts)
{
    const struct quilted_ring *ring = &plan->areas.items[sample].rings[0];
    double nearest = HUGE_VAL;
    size_t along = 0;
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        if (line->item != item || line->area != sample)
            continue;
        const double distance = side_from(
            line, ring->points[side], ring->points[(side + 1) % ring->count]);
        along += distance < HUGE_VAL;
        nearest = fmin(nearest, distance);
    }
    if (nearest < HUGE_VAL) {
        firsts->least = fmin(firsts->least, nearest);
        firsts->most = fmax(firsts->most, nearest);
    }
    return along;
}

/* Of one area for each kind: the others are images of it. Nothing is known
 * where an area has lines along none of its sides. */
static struct firsts firsts_of(const struct quilting_plan *plan,
                               const struct told_item *item)
{
    struct firsts firsts = {HUGE_VAL, 0.0};
    for (size_t k = 0; k < plan->kinds.count; k++) {
        const struct quilted_kind *kind = &plan->kinds.items[k];
        if (kind->fill != item || !(kind->filled > 0))
            continue;
        const struct quilted_area *area = &plan->areas.items[kind->sample];
        size_t along = 0, lines = 0;
        for (size_t i = 0; i < area->rings[0].count; i++)
            along += add_side(plan, kind->sample, item, i, &firsts);
        for (size_t i = 0; i < plan->lines.count; i++)
            lines += plan->lines.items[i].item == item &&
                     plan->lines.items[i].area == kind->sample;
        if (along < lines)
            firsts.most = HUGE_VAL;
    }
    return firsts;
}

/* Lines of one direction are laid from the middle of the quilt or from the line
 * that they follow on; where that comes to one distance from a side of the
 * area, it is told so, as nobody measures from so far. */
static const char *fill_begins(const struct teller *t,
                               const struct quilted_row *row, const char *found)
{
    const struct wording *w = t->w;
    const struct firsts firsts = firsts_of(t->plan, row->item);
    if (firsts.most < HUGE_VAL && firsts.most >= firsts.least &&
        firsts.most - firsts.least < 1e-6)
        return say(w->arena, w->phrases, "quilting.first-side", "found", found,
                   "first", word_apart(w, firsts.least), NULL);
    return say(w->arena, w->phrases,
               row->item->of.fill.along == ALONG_LINE ? "quilting.first-line"
                                                      : "quilting.first-middle",
               "found", found, NULL);
}

/* Echoes begin at what they are echoes of. */
const char *quilting_found(const struct teller *t,
                           const struct quilted_row *row)
{
    const struct wording *w = t->w;
    const char *found = word_found(w, row);
    if (row->item->kind != TOLD_FILL || row->found == FOUND_FREE)
        return found;
    if (row->item->of.fill.with == TOLD_ECHOES)
        return say(w->arena, w->phrases, "quilting.first-outline", "found",
                   found, NULL);
    return fill_begins(t, row, found);
}

/* ---- areas whose path has no figure ---- */

const char *quilting_plain_areas(const struct teller *t)
{
    const struct wording *w = t->w;
    struct texts by_eye = {.items = {0}}, lines = {.items = {0}};
    for (size_t i = 0; i < t->plan->kinds.count; i++) {
        const struct quilted_kind *kind = &t->plan->kinds.items[i];
        if (quilting_kind_shown(t->plan, i) && quilting_path_plain(kind) &&
            kind->sequences.count > 0)
            texts_add(w, kind->texture_count > 0 ? &by_eye : &lines,
                      kind->letter);
    }
    const char *text = "";
    if (lines.items.count > 0)
        text = say(w->arena, w->phrases, "quilting.plain-lines", "areas",
                   texts_listed(w, &lines), NULL);
    if (by_eye.items.count > 0)
        text = word_then(w, text,
                         say(w->arena, w->phrases, "quilting.plain-eye",
                             "areas", texts_listed(w, &by_eye), NULL));
    return text;
}
