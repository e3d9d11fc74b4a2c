/* The pieces that a star is made of, and where they lie. Every second diamond,
 * and all triangles, lie turned by an eighth; their places are told in a frame
 * that is turned so, about the middle. Read next: angled.c. */
#include "star.h"

/* A box about the origin of its frame. */
struct box_about {
    struct rational x, y, width, height;
};

/* The box after so many quarter turns about the origin, clockwise. */
static struct box_about turned_box(struct box_about at, unsigned quarters)
{
    for (unsigned i = 0; i < quarters; i++)
        at = (struct box_about){
            rational_times(rational_add(at.y, at.height), -1), at.x, at.height,
            at.width};
    return at;
}

/* An input whose place is told about the middle, perhaps in the frame that is
 * turned by an eighth. */
static void add_about(struct sewer *sewer, struct heap *recipe, struct ref ref,
                      struct box_about upright, unsigned quarters, bool slanted)
{
    const struct box_about at = turned_box(upright, quarters);
    const struct rational middle =
        slanted ? rational_whole(0)
                : rational_div(recipe->width, rational_whole(2));
    ref.turn = (ref.turn + quarters) % heap_at(sewer, ref.heap)->symmetry;
    add_input(sewer, recipe, ref, rational_add(middle, at.x),
              rational_add(middle, at.y))
        ->slanted = slanted;
}

/* The one on the right of the middle, whose lower edge is level, is number 1.
 */
static void add_diamonds(struct sewer *sewer, struct heap *recipe)
{
    const struct star *star = &recipe->of.star;
    const struct rational h = star->cut.height;
    const struct box_about upright = {rational_whole(0), rational_times(h, -1),
                                      rational_add(star->cut.side, h), h};
    for (unsigned i = 0; i < POINTS; i++) {
        const unsigned eighths = (i + POINTS - 1) % POINTS;
        add_about(sewer, recipe,
                  build_diamond(sewer, *recipe,
                                i % 2 == 0 ? star->points : star->second,
                                &star->cut),
                  upright, eighths / 2, eighths % 2 == 1);
    }
}

static void add_squares(struct sewer *sewer, struct heap *recipe)
{
    const struct star *star = &recipe->of.star;
    const struct rational a = star->cut.side, zero = rational_whole(0);
    const struct rational far = rational_sub(recipe->width, a);
    for (size_t i = 0; i < QUARTERS; i++)
        add_input(sewer, recipe, build_cut(sewer, *recipe, star->corners, a, a),
                  i == 1 || i == 2 ? far : zero, i >= 2 ? far : zero);
}

/* The right angle points to the middle; turned by nothing it lies below. */
static void add_triangles(struct sewer *sewer, struct heap *recipe)
{
    const struct star *star = &recipe->of.star;
    const struct box_about upright = {star->cut.height, star->cut.height,
                                      star->cut.side, star->cut.side};
    for (unsigned i = 0; i < QUARTERS; i++)
        add_about(
            sewer, recipe,
            build_side_triangle(sewer, *recipe, star->sides, star->cut.side),
            upright, (i + 2) % QUARTERS, true);
}

/* The inputs of a recipe whose star is told. */
void add_star_parts(struct sewer *sewer, struct heap *recipe)
{
    add_diamonds(sewer, recipe);
    add_squares(sewer, recipe);
    add_triangles(sewer, recipe);
}

static bool is_one_way(const struct sewer *sewer, const struct star *star)
{
    const struct fabric *fabrics = sewer->sized->design->fabrics.items;
    return fabrics[star->points].one_way || fabrics[star->second].one_way ||
           fabrics[star->corners].one_way || fabrics[star->sides].one_way;
}

/* It looks the same from all sides, but for a print. */
void key_star(struct sewer *sewer, struct buffer *key, const struct heap *heap,
              unsigned turn)
{
    const struct star *star = &heap->of.star;
    key_number(key, heap->width);
    buffer_printf(key, "%d %d %d %d ", star->points, star->second,
                  star->corners, star->sides);
    if (is_one_way(sewer, star))
        buffer_printf(key, "print %u ", turn);
}
