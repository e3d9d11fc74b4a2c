/* The quilt top as shapes on a coarse grid, for the card of a kit: all that is
 * kept of what was sewn. Places are rounded, as nothing is cut by them. */
#include <math.h>
#include <string.h>

#include "kit_facts.h"

/* To the nearest step; halves away from 0. */
static int on_grid(double place, double factor)
{
    return (int)lround(place * factor);
}

/* As many spots as the face has corners. */
static void add_shape(struct arena *arena, struct kit_picture *picture,
                      const struct face *face, double factor)
{
    *LIST_ADD(arena, &picture->shapes) = (struct kit_shape){
        (size_t)face->fabric, picture->spots.count, face->count};
    for (size_t i = 0; i < face->count; i++)
        *LIST_ADD(arena, &picture->spots) = (struct kit_spot){
            on_grid(rational_double(face->points[i].x), factor),
            on_grid(rational_double(face->points[i].y), factor)};
}

/* The longer side sets the scale. */
struct kit_picture *kit_picture(struct arena *arena,
                                const struct sewn_quilt *quilt)
{
    struct kit_picture *picture = ARENA_NEW(arena, struct kit_picture);
    const struct cloth *cloth = quilt->cloth;
    const double width = rational_double(quilt->width);
    const double height = rational_double(quilt->height);
    const double factor = KIT_PICTURE_SIDE / fmax(width, height);
    const char *id = quilt->definition->id;
    picture->quilt = arena_copy(arena, id, strlen(id));
    picture->width = on_grid(width, factor);
    picture->height = on_grid(height, factor);
    picture->allowance =
        on_grid(rational_double(quilt->all->sized->design->pattern->seam),
                factor);
    for (size_t i = 0; i < cloth->faces.count; i++)
        add_shape(arena, picture, &cloth->faces.items[i], factor);
    return picture;
}
