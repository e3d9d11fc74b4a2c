/* Symmetry of the plan: every line has its image, and every area that is filled
 * by eye is filled alike where its image lies. Read next: say.c. */
#include "regions.h"

struct symmetry_row {
    unsigned told;
    enum symmetry which;
    const char *name;
};
static const struct symmetry_row symmetries[] = {
    {TOLD_LEFT_RIGHT, SYMMETRY_LEFT_RIGHT, "left-right"},
    {TOLD_TOP_BOTTOM, SYMMETRY_TOP_BOTTOM, "top-bottom"},
    {TOLD_HALF_TURN, SYMMETRY_HALF_TURN, "half-turn"},
    {TOLD_QUARTER_TURN, SYMMETRY_QUARTER_TURN, "quarter-turn"},
    {TOLD_RISING, SYMMETRY_RISING, "rising"},
    {TOLD_FALLING, SYMMETRY_FALLING, "falling"}};
enum { SYMMETRIES = sizeof symmetries / sizeof symmetries[0] };

/* ---- fillers that are stitched by eye ---- */

/* Swirls alike, or pebbles, with the same thread; or neither area has any. */
static bool filled_alike(const struct quilted_area *one,
                         const struct quilted_area *other)
{
    if (!(one->free > 0) || !(other->free > 0))
        return !(one->free > 0) && !(other->free > 0);
    const struct told_item *a = one->fill, *b = other->fill;
    return a->of.fill.with == b->of.fill.with && a->thread == b->thread &&
           rational_equal(a->of.fill.spacing, b->of.fill.spacing);
}

/* The first area whose image is filled otherwise; QUILTING_NONE where all are
 * alike. Areas are faces of exact lines: where those have images, a spot well
 * inside of one is well inside of its image. */
static size_t area_without_image(const struct quilter *quilter,
                                 struct grid *by_place, struct motion motion)
{
    const struct quilting_plan *plan = quilter->plan;
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct spot at = spot_moved(motion, plan->areas.items[i].label);
        const size_t *near;
        const size_t count = grid_at(by_place, at, &near);
        for (size_t k = 0; k < count; k++)
            if (area_holds(quilter, near[k], at) &&
                !filled_alike(&plan->areas.items[i],
                              &plan->areas.items[near[k]]))
                return i;
    }
    return QUILTING_NONE;
}

/* ---- all of it ---- */

/* What has no image under a symmetry, if anything. */
struct without_image {
    bool found, area; /* a line, or an area */
    struct spot at, image;
};

static struct without_image find_lost(struct quilter *quilter,
                                      const struct spot_line *lines,
                                      size_t count, struct grid *by_place,
                                      struct motion motion)
{
    const size_t line =
        line_without_image(quilter->arena, lines, count, motion);
    if (line != SIZE_MAX) {
        const struct spot middle = {(lines[line].from.x + lines[line].to.x) / 2,
                                    (lines[line].from.y + lines[line].to.y) /
                                        2};
        return (struct without_image){true, false, middle,
                                      spot_moved(motion, middle)};
    }
    const size_t area = area_without_image(quilter, by_place, motion);
    if (area == QUILTING_NONE)
        return (struct without_image){false, false, {0, 0}, {0, 0}};
    const struct spot label = quilter->plan->areas.items[area].label;
    return (struct without_image){true, true, label, spot_moved(motion, label)};
}

/* reports: what has no image; as a remark of a symmetry that is not stated. */
static struct diagnostic *say_lost(struct quilter *quilter, const struct symmetry_row *row,
                     const struct without_image *lost, bool stated)
{
    const struct element *element = quilter->told->element;
    struct diagnostic *d =
        stated
            ? say_error(quilter, DIAG_ASYMMETRIC,
                        value_span(element, ATTR_SYMMETRY),
                        "the quilting is not the same by %s", row->name)
            : diag_report(quilter->run, DIAG_ONE_SIDED, element->name,
                          "the top is the same by %s, and its quilting is not",
                          row->name);
    diag_note(quilter->run, d, (struct span){0, 0},
              lost->area ? "an area lies %s" : "a line lies %s",
              place_words(quilter, lost->at));
    if (lost->area)
        diag_note(quilter->run, d, (struct span){0, 0},
                  "it is not filled as the one %s",
                  place_words(quilter, lost->image));
    else if (stated)
        diag_note(quilter->run, d, (struct span){0, 0}, "and none lies %s",
                  place_words(quilter, lost->image));
    return d;
}

/* Which of the stated ones do hold, as they are written: the mend, if any
 * holds. */
static void help_held(struct quilter *quilter, struct diagnostic *d)
{
    const char *held = "";
    const unsigned both = quilter->plan->symmetry & quilter->told->symmetry;
    for (int i = 0; i < SYMMETRIES; i++)
        if ((both & symmetries[i].told) != 0)
            held = arena_printf(quilter->arena, "%s%s%s", held,
                                held[0] == '\0' ? "" : " ", symmetries[i].name);
    if (held[0] != '\0')
        diag_mend(quilter->run, d,
                  value_span(quilter->told->element, ATTR_SYMMETRY), held,
                  "symmetry=\"%s\" holds", held);
    else
        diag_help(quilter->run, d,
                  "without `symmetry` nothing is stated, and the quilting may "
                  "be as it is");
}

/* Only what maps the top onto itself can map its quilting. Where nothing is
 * stated, the first that lacks is remarked, and no other. */
void check_symmetry(struct quilter *quilter)
{
    size_t count;
    struct quilting_plan *plan = quilter->plan;
    const struct spot_line *lines = pieces_of_lines(quilter, &count);
    struct grid *by_place = grid_of_boxes(
        quilter->arena, quilter->regions->boxes, plan->areas.count);
    const unsigned stated = quilter->told->symmetry;
    LIST(struct diagnostic *) broken = {0}; /* told once all are looked at */
    for (int i = 0; i < SYMMETRIES; i++) {
        const struct symmetry_row *row = &symmetries[i];
        if ((quilter->top_symmetries & SYMMETRY_BIT(row->which)) == 0) {
            if ((stated & row->told) != 0)
                *LIST_ADD(quilter->arena, &broken) = say_error(
                    quilter, DIAG_ASYMMETRIC,
                    value_span(quilter->told->element, ATTR_SYMMETRY),
                    "the top itself is not the same by %s", row->name);
            continue;
        }
        plan->top_symmetry |= row->told;
        const struct without_image lost =
            find_lost(quilter, lines, count, by_place,
                      symmetry_motion(row->which, plan->quilt->width,
                                      plan->quilt->height));
        if (!lost.found)
            plan->symmetry |= row->told;
        else if ((stated & row->told) != 0)
            *LIST_ADD(quilter->arena, &broken) =
                say_lost(quilter, row, &lost, true);
        else if (stated == 0 && !quilter->one_sided) {
            quilter->one_sided = true;
            say_lost(quilter, row, &lost, false);
        }
    }
    for (size_t i = 0; i < broken.count; i++)
        help_held(quilter, broken.items[i]);
}
