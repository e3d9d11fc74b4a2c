/* How lines that lie beside each other begin, and which areas have a path too
 * short for a figure. Read next: section_quilting.c. */
#include "quilting_words.h"

#include <math.h>

/* ---- the first line of a filler ---- */

/* Distances of the lines that lie next to a parallel side of their area. */
struct firsts {
    double least, most;
};

static double across(struct spot from, struct spot along, struct spot to)
{
    return fabs((to.x - from.x) * along.y - (to.y - from.y) * along.x);
}

/* How far the nearest side of the area that is parallel to the line lies from
 * it; HUGE_VAL where none is. */
static double nearest_side(const struct quilted_area *area,
                           const struct quilted_line *line)
{
    static const double HAIR = 1e-6;
    const double length = hypot(line->points[1].x - line->points[0].x,
                                line->points[1].y - line->points[0].y);
    const struct spot along = {(line->points[1].x - line->points[0].x) / length,
                               (line->points[1].y - line->points[0].y) /
                                   length};
    double nearest = HUGE_VAL;
    for (size_t r = 0; r < area->ring_count; r++)
        for (size_t i = 0; i < area->rings[r].count; i++) {
            const struct spot a = area->rings[r].points[i];
            const struct spot b =
                area->rings[r].points[(i + 1) % area->rings[r].count];
            if (across(a, along, b) < HAIR &&
                hypot(b.x - a.x, b.y - a.y) > HAIR)
                nearest = fmin(nearest, across(line->points[0], along, a));
        }
    return nearest;
}

/* Do both lines run one way? */
static bool parallel(const struct quilted_line *one,
                     const struct quilted_line *other)
{
    const double x = one->points[1].x - one->points[0].x;
    const double y = one->points[1].y - one->points[0].y;
    const double u = other->points[1].x - other->points[0].x;
    const double v = other->points[1].y - other->points[0].y;
    return fabs(x * v - y * u) < 1e-6 * hypot(x, y) * hypot(u, v);
}

/* Lines of an area that run one way, and how near the nearest of them lies to a
 * side. */
struct family {
    const struct quilted_line *one;
    double distance;
};

struct families {
    LIST(struct family) items;
};

/* Areas have one or two families. */
static struct family *family_of(const struct wording *w,
                                struct families *families,
                                const struct quilted_line *line)
{
    for (size_t i = 0; i < families->items.count; i++) {
        struct family *family = &families->items.items[i];
        if (family->one->area == line->area && parallel(family->one, line))
            return family;
    }
    struct family *family = LIST_ADD(w->arena, &families->items);
    *family = (struct family){line, HUGE_VAL};
    return family;
}

/* Of one area for each kind: the others are images of it. */
static struct firsts firsts_of(const struct teller *t,
                               const struct told_item *item)
{
    const struct quilting_plan *plan = t->plan;
    struct firsts firsts = {HUGE_VAL, 0.0};
    struct families families = {.items = {0}};
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        if (line->item != item || line->area == QUILTING_NONE)
            continue;
        const struct quilted_area *area = &plan->areas.items[line->area];
        if (plan->kinds.items[area->kind].sample != line->area)
            continue;
        struct family *family = family_of(t->w, &families, line);
        family->distance = fmin(family->distance, nearest_side(area, line));
    }
    for (size_t i = 0; i < families.items.count; i++) {
        const double distance = families.items.items[i].distance;
        firsts.least = fmin(firsts.least, distance);
        firsts.most = fmax(firsts.most, distance);
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
    const struct firsts firsts = firsts_of(t, row->item);
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
