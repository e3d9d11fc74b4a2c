/* Borders: sizes. What a border goes round fixes it, and nothing else does, so
 * it stands in no sum: its size is told when all else is solved. Read next:
 * use.c. */
#include "solver.h"

/* What lies at a corner is as wide and as high as the border. */
static void border_sizes(struct system *system, const struct piece *piece,
                         bool local_grid)
{
    (void)local_grid;
    const struct border *border = piece->border;
    system_silence(system, width_of(piece));
    system_silence(system, height_of(piece));
    for (size_t i = 1; i < piece->cells.count; i++) {
        const struct piece *corner = piece->cells.items[i].piece;
        if (i > 1 && corner == piece->cells.items[i - 1].piece)
            continue;
        if (!rational_known(border->width)) {
            system_silence(system, width_of(corner));
            system_silence(system, height_of(corner));
            continue;
        }
        const struct span span = value_span(border->element, ATTR_WIDTH);
        system_fact(system, width_of(corner), border->width, span, "`border`");
        system_fact(system, height_of(corner), border->width, span, "`border`");
    }
}

/* A border adds its finished width at both ends, whatever its corners. */
void size_borders(struct sized *sized, const struct definition *quilt)
{
    for (size_t i = 0; i < quilt->borders.count; i++) {
        const struct border *border = &quilt->borders.items[i];
        if (border->piece == NULL || border->piece->cells.count == 0)
            continue;
        const size_t inner = border->piece->cells.items[0].piece->index;
        const struct rational both = rational_times(border->width, 2);
        const size_t index = border->piece->index;
        sized->width[index] = rational_add(sized->width[inner], both);
        sized->height[index] = rational_add(sized->height[inner], both);
    }
}

const struct sizing sizing_border = {.sizes = border_sizes};
