/* Where each unit, block and piece with an id lies in the top, turned and
 * mirrored: walked in the design, as the heaps are merged where they look
 * alike. A frame is that of a piece as it is drawn; a motion leads from it into
 * the top. May assume known sizes and no more pieces than their limit. */
#include "quilter.h"

/* A piece where it lies. */
struct lying {
    const struct piece *piece;
    struct rational factor; /* real length of a local unit */
    struct motion motion;   /* from the frame of the piece into the top */
};

/* As the piece lies in its definition, in the unit of the pattern. */
static struct rational real_width(const struct quilter *quilter,
                                  const struct lying *laid)
{
    return rational_mul(quilter->sized->width[laid->piece->index],
                        laid->factor);
}

static struct rational real_height(const struct quilter *quilter,
                                   const struct lying *laid)
{
    return rational_mul(quilter->sized->height[laid->piece->index],
                        laid->factor);
}

static const struct vertex origin = {{0, 1}, {0, 1}};

/* The rectangle from (0, 0) as the motion lays it. */
static struct extent moved_extent(struct motion motion, struct rational width,
                                  struct rational height)
{
    const struct vertex a = vertex_moved(motion, origin);
    const struct vertex b =
        vertex_moved(motion, (struct vertex){width, height});
    return (struct extent){{rational_min(a.x, b.x), rational_min(a.y, b.y)},
                           {rational_max(a.x, b.x), rational_max(a.y, b.y)}};
}

/* Where the piece lies in the top, whichever way it is turned. */
static struct extent extent_of(const struct quilter *quilter,
                               const struct lying *laid)
{
    return moved_extent(laid->motion, real_width(quilter, laid),
                        real_height(quilter, laid));
}

/* Notes a place of a unit or block, or of a piece that has an id. A piece
 * that is repeated counts as the one that was written, as words name that one
 * alone. */
static void add_placement(struct quilter *quilter,
                          const struct definition *definition,
                          const struct lying *laid)
{
    *LIST_ADD(quilter->arena, &quilter->placements) = (struct placement){
        .definition = definition,
        .piece = definition == NULL ? laid->piece->first : NULL,
        .extent = extent_of(quilter, laid),
        .motion = laid->motion};
}

/* ---- the walk ---- */

static void walk(struct quilter *quilter, struct lying laid);

/* A cell that lies so, its top left corner at (x, y) of the piece around it. */
static struct lying laid_cell(const struct quilter *quilter,
                              const struct lying *around,
                              const struct cell *cell, struct rational x,
                              struct rational y)
{
    struct lying inner = {cell->piece, around->factor, around->motion};
    inner.motion = motion_compose(
        around->motion,
        placing_motion(cell->orientation, real_width(quilter, &inner),
                       real_height(quilter, &inner), (struct vertex){x, y}));
    return inner;
}

/* A quarter turn exchanges the sides. */
static struct rational cell_width(const struct quilter *quilter,
                                  const struct lying *inner,
                                  const struct cell *cell)
{
    return cell->orientation.turn % 2 == 1 ? real_height(quilter, inner)
                                           : real_width(quilter, inner);
}

static struct rational cell_height(const struct quilter *quilter,
                                   const struct lying *inner,
                                   const struct cell *cell)
{
    return cell->orientation.turn % 2 == 1 ? real_width(quilter, inner)
                                           : real_height(quilter, inner);
}

/* One loop serves the three containers: a column is a grid of one across. */
static size_t cells_across(const struct piece *piece)
{
    return piece->kind == PIECE_GRID  ? piece->across
           : piece->kind == PIECE_ROW ? piece->cells.count
                                      : 1;
}

/* Rows, columns and grids: side by side. */
static void walk_container(struct quilter *quilter, const struct lying *laid)
{
    const struct piece *piece = laid->piece;
    const size_t across = cells_across(piece);
    struct rational x = rational_whole(0), y = rational_whole(0);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        const struct lying inner = laid_cell(quilter, laid, cell, x, y);
        x = rational_add(x, cell_width(quilter, &inner, cell));
        if ((i + 1) % across == 0) {
            x = rational_whole(0);
            y = rational_add(y, cell_height(quilter, &inner, cell));
        }
        walk(quilter, inner);
    }
}

/* Members overlap by the width of the strip, where they are joined. */
static void walk_diagonal(struct quilter *quilter, const struct lying *laid)
{
    const struct piece *piece = laid->piece;
    struct rational along = rational_whole(0);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        const struct rational zero = rational_whole(0);
        const struct lying inner =
            laid_cell(quilter, laid, cell, piece->horizontal ? along : zero,
                      piece->horizontal ? zero : along);
        const struct rational length = piece->horizontal
                                           ? real_width(quilter, &inner)
                                           : real_height(quilter, &inner);
        const struct rational overlap = piece->horizontal
                                            ? real_height(quilter, &inner)
                                            : real_width(quilter, &inner);
        along = rational_sub(rational_add(along, length), overlap);
        walk(quilter, inner);
    }
}

/* The center, then what lies at the corners, clockwise from the top left. */
static void walk_border(struct quilter *quilter, const struct lying *laid)
{
    const struct piece *piece = laid->piece;
    const struct rational b = piece->border->width, zero = rational_whole(0);
    const struct rational far_x = rational_sub(real_width(quilter, laid), b);
    const struct rational far_y = rational_sub(real_height(quilter, laid), b);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct rational x = i == 0 ? b : i == 2 || i == 3 ? far_x : zero;
        const struct rational y = i == 0 ? b : i >= 3 ? far_y : zero;
        walk(quilter, laid_cell(quilter, laid, &piece->cells.items[i], x, y));
    }
}

/* What a use shows is turned in the use's own rectangle. */
static void walk_use(struct quilter *quilter, const struct lying *laid)
{
    const struct piece *piece = laid->piece;
    struct lying inner = {piece->target->root,
                          use_scale(quilter->sized, piece, laid->factor),
                          laid->motion};
    inner.motion = motion_compose(
        laid->motion,
        placing_motion(piece->orientation, real_width(quilter, &inner),
                       real_height(quilter, &inner), origin));
    add_placement(quilter, piece->target, &inner);
    walk(quilter, inner);
}

/* Recursion is bounded: resolving refuses pieces that nest too deeply. Pieces
 * of cloth hold nothing that has a place of its own. */
static void walk(struct quilter *quilter, struct lying laid)
{
    if (laid.piece->id != NULL)
        add_placement(quilter, NULL, &laid);
    switch (laid.piece->kind) {
    case PIECE_ROW:
    case PIECE_COLUMN:
    case PIECE_GRID:
        walk_container(quilter, &laid);
        break;
    case PIECE_DIAGONAL:
        walk_diagonal(quilter, &laid);
        break;
    case PIECE_BORDER:
        walk_border(quilter, &laid);
        break;
    case PIECE_USE:
        walk_use(quilter, &laid);
        break;
    case PIECE_PATCH:
    case PIECE_HALF_SQUARE:
    case PIECE_QUARTER_SQUARE:
    case PIECE_HALF_RECTANGLE:
    case PIECE_STAR:
    case PIECE_FLYING_GEESE:
    case PIECE_SQUARE_IN_SQUARE:
    case PIECE_ON_POINT: /* told as a limit before places are asked for */
    case PIECE_TRIANGLES:
        break;
    }
}

/* ---- the setting ---- */

/* Strips and cornerstones of a sashing are no cells of the setting. */
static bool is_sashing(const struct element *element)
{
    for (; element != NULL; element = element->parent)
        if (element->kind == ELEMENT_SASHING)
            return true;
    return false;
}

/* What the cells of a setting may lie in. */
static bool is_container(const struct piece *piece)
{
    return piece->kind == PIECE_ROW || piece->kind == PIECE_COLUMN ||
           piece->kind == PIECE_GRID;
}

/* A row that a sashing has put together is told by the cells in it. */
static bool is_strip(const struct piece *piece)
{
    for (size_t i = 0; is_container(piece) && i < piece->cells.count; i++)
        if (!is_sashing(piece->cells.items[i].piece->element))
            return false;
    return is_sashing(piece->element);
}

static void add_cell(struct quilter *quilter, const struct lying *laid,
                     size_t row, size_t column)
{
    *LIST_ADD(quilter->arena, &quilter->cells) =
        (struct setting_cell){extent_of(quilter, laid), row, column};
}

/* Columns of rows are counted through: a grid with sashing is one, too.
 * ensures: how many rows it has. */
static size_t count_cells(struct quilter *quilter, const struct lying *laid,
                          size_t row, size_t column)
{
    const struct piece *piece = laid->piece;
    const size_t across = cells_across(piece);
    struct rational x = rational_whole(0), y = rational_whole(0);
    size_t rows = 0, columns = 0;
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        const struct lying inner = laid_cell(quilter, laid, cell, x, y);
        const bool strip = is_strip(cell->piece);
        const bool down = across == 1 && is_container(cell->piece);
        if (!strip && down)
            rows += count_cells(quilter, &inner, row + rows, column);
        else if (!strip)
            add_cell(quilter, &inner, row + rows, column + columns++);
        x = rational_add(x, cell_width(quilter, &inner, cell));
        if ((i + 1) % across == 0) {
            x = rational_whole(0);
            y = rational_add(y, cell_height(quilter, &inner, cell));
            rows += columns > 0;
            columns = 0;
        }
    }
    return rows;
}

/* ---- all of it ---- */

/* Spots come from doubles, so the rim is as wide as what they are right to. */
bool extent_has(struct extent extent, struct spot at)
{
    const double slack = 1e-6;
    return at.x >= number_double(extent.low.x) - slack &&
           at.x <= number_double(extent.high.x) + slack &&
           at.y >= number_double(extent.low.y) - slack &&
           at.y <= number_double(extent.high.y) + slack;
}

static struct spot extent_middle(struct extent extent)
{
    return vertex_spot(vertex_middle(extent.low, extent.high));
}

/* From the outside in, as each border takes its width off all four sides. */
static void find_levels(struct quilter *quilter)
{
    const struct definition *quilt = quilter->plan->quilt->definition;
    const size_t count = quilt->borders.count;
    struct extent *levels =
        ARENA_ARRAY(quilter->arena, struct extent, count + 1);
    levels[count] = quilter->ground->extent;
    for (size_t i = count; i-- > 0;) {
        const struct rational b = quilt->borders.items[i].width;
        levels[i] = (struct extent){{rational_add(levels[i + 1].low.x, b),
                                     rational_add(levels[i + 1].low.y, b)},
                                    {rational_sub(levels[i + 1].high.x, b),
                                     rational_sub(levels[i + 1].high.y, b)}};
    }
    quilter->levels = levels;
    quilter->border_count = count;
}

/* The walk begins at the outermost border, which holds all else. A quilt of a
 * single piece is a setting of one cell. */
void find_places(struct quilter *quilter)
{
    const struct definition *quilt = quilter->plan->quilt->definition;
    const struct rational one = rational_whole(1);
    const struct motion still = {1, 0, 0, 1, origin};
    find_levels(quilter);
    walk(quilter, (struct lying){quilt->whole, one, still});
    const struct lying root = {
        quilt->root, one, {1, 0, 0, 1, quilter->levels[0].low}};
    if (is_container(quilt->root))
        count_cells(quilter, &root, 1, 1);
    else
        add_cell(quilter, &root, 1, 1);
}

/* A spot in a border has no cell of its own; people look for it from the
 * nearest block. */
const struct setting_cell *nearest_cell(const struct quilter *quilter,
                                        struct spot at)
{
    const struct setting_cell *best = NULL;
    double least = 0;
    for (size_t i = 0; i < quilter->cells.count; i++) {
        const struct setting_cell *cell = &quilter->cells.items[i];
        const struct spot low = vertex_spot(cell->extent.low);
        const struct spot high = vertex_spot(cell->extent.high);
        const double x = at.x < low.x    ? low.x - at.x
                         : at.x > high.x ? at.x - high.x
                                         : 0;
        const double y = at.y < low.y    ? low.y - at.y
                         : at.y > high.y ? at.y - high.y
                                         : 0;
        if (best != NULL && x * x + y * y >= least)
            continue;
        best = cell;
        least = x * x + y * y;
    }
    return best;
}

/* Does a cell of that row and column, 0 for any, hold the spot? */
static bool cell_holds(const struct quilter *quilter, size_t row, size_t column,
                       struct spot at)
{
    for (size_t i = 0; i < quilter->cells.count; i++) {
        const struct setting_cell *cell = &quilter->cells.items[i];
        if ((row == 0 || cell->row == row) &&
            (column == 0 || cell->column == column) &&
            extent_has(cell->extent, at))
            return true;
    }
    return false;
}

/* ---- what words mean ---- */

/* Words that name nothing, or the quilt itself, mean all of it. */
static bool is_whole_top(const struct quilter *quilter,
                         const struct quilting_place *place)
{
    return place->piece == NULL &&
           (place->of == NULL || place->of == quilter->plan->quilt->definition);
}

/* Is it a place of what the words name? */
static bool names(const struct quilting_place *place,
                  const struct placement *placement)
{
    return place->of != NULL ? placement->definition == place->of
                             : placement->piece != NULL &&
                                   placement->piece == place->piece->first;
}

/* Which name a place has; NULL for a piece without any. */
static const char *name_of(const struct placement *placement)
{
    return placement->definition != NULL ? placement->definition->id
           : placement->piece != NULL    ? placement->piece->id
                                         : NULL;
}

/* The first of the names that do lie in the quilt. */
static void help_place(struct quilter *quilter, struct diagnostic *d)
{
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const char *name = name_of(&quilter->placements.items[i]);
        if (name == NULL)
            continue;
        diag_help(quilter->run, d,
                  "of=\"%s\" is there; without `of` the whole top is meant",
                  name);
        return;
    }
    diag_help(quilter->run, d, "without `of` the whole top is meant");
}

/* A number that is too large, and the largest that there is. */
static void say_beyond(struct quilter *quilter, const struct element *element,
                       enum attribute_id attribute, const char *what, size_t asked,
                       size_t most)
{
    const struct span span = value_span(element, attribute);
    const bool border = attribute == ATTR_BORDER;
    struct diagnostic *d = say_error(
        quilter, DIAG_NO_SHAPE, span, "there is no %s %zu: %s%s%s has %zu",
        what, asked, border ? "`" : "",
        border ? quilter->plan->quilt->definition->id : "the setting",
        border ? "`" : "", most);
    if (most > 0)
        diag_mend(quilter->run, d, span,
                  arena_printf(quilter->arena, "%zu", most),
                  "%s=\"%zu\" is the last", what, most);
}

/* reports: what the quilt takes none of, or no place in that row. */
static void say_no_place(struct quilter *quilter,
                         const struct quilting_place *place, size_t named)
{
    const struct element *element = place->element;
    const char *id = place->of != NULL ? place->of->id : place->piece->id;
    if (named == 0) {
        struct diagnostic *d = say_error(
            quilter, DIAG_NO_SHAPE, value_span(element, place->attribute),
            "`%s` has no `%s`", quilter->plan->quilt->definition->id, id);
        diag_note(quilter->run, d, (struct span){0, 0},
                  "it lies nowhere in this quilt");
        help_place(quilter, d);
        return;
    }
    struct diagnostic *d =
        say_error(quilter, DIAG_NO_SHAPE,
                  value_span(element, place->row > 0 ? ATTR_ROW : ATTR_COLUMN),
                  "no `%s` lies in that %s of the setting", id,
                  place->row == 0      ? "column"
                  : place->column == 0 ? "row"
                                       : "cell");
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const struct placement *placement = &quilter->placements.items[i];
        if (!names(place, placement))
            continue;
        const struct setting_cell *cell =
            nearest_cell(quilter, extent_middle(placement->extent));
        diag_note(quilter->run, d, (struct span){0, 0},
                  "one of %zu lies in row %zu, column %zu", named, cell->row,
                  cell->column);
        return;
    }
}

/* reports: a border, a row or a column that the quilt has not. */
static bool outside_setting(struct quilter *quilter,
                            const struct quilting_place *place)
{
    const struct element *element = place->element;
    size_t rows = 0, columns = 0;
    for (size_t i = 0; i < quilter->cells.count; i++) {
        const struct setting_cell *cell = &quilter->cells.items[i];
        rows = cell->row > rows ? cell->row : rows;
        columns = cell->column > columns ? cell->column : columns;
    }
    if (place->border > quilter->border_count)
        say_beyond(quilter, element, ATTR_BORDER, "border", place->border,
                   quilter->border_count);
    else if (place->row > rows)
        say_beyond(quilter, element, ATTR_ROW, "row", place->row, rows);
    else if (place->column > columns)
        say_beyond(quilter, element, ATTR_COLUMN, "column", place->column,
                   columns);
    else
        return false;
    return true;
}

/* Rows and columns are asked of the middle, as a place may reach over cells
 * where a sashing lies. */
placement_list places_of(struct quilter *quilter,
                         const struct quilting_place *place)
{
    placement_list found = {0};
    size_t named = 0;
    if (outside_setting(quilter, place))
        return found;
    if (is_whole_top(quilter, place)) {
        *LIST_ADD(quilter->arena, &found) =
            (struct placement){.definition = quilter->plan->quilt->definition,
                               .extent = quilter->ground->extent,
                               .motion = {1, 0, 0, 1, origin}};
        return found;
    }
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const struct placement *placement = &quilter->placements.items[i];
        if (!names(place, placement))
            continue;
        named++;
        if ((place->row == 0 && place->column == 0) ||
            cell_holds(quilter, place->row, place->column,
                       extent_middle(placement->extent)))
            *LIST_ADD(quilter->arena, &found) = *placement;
    }
    if (found.count == 0)
        say_no_place(quilter, place, named);
    return found;
}

/* Strictly inside the rectangle, not on its rim. */
static bool inside_of(struct extent extent, struct spot at)
{
    const double slack = 1e-6;
    return at.x > number_double(extent.low.x) + slack &&
           at.x < number_double(extent.high.x) - slack &&
           at.y > number_double(extent.low.y) + slack &&
           at.y < number_double(extent.high.y) - slack;
}

/* A border is a ring: in its outer rectangle and not inside its inner one;
 * the seams on both rims are its own. */
bool place_holds(const struct quilter *quilter,
                 const struct quilting_place *place,
                 const struct placement *placement, struct spot at)
{
    const size_t border = place->border;
    if (!extent_has(placement->extent, at))
        return false;
    if (border > quilter->border_count ||
        (border > 0 && (!extent_has(quilter->levels[border], at) ||
                        inside_of(quilter->levels[border - 1], at))))
        return false;
    return (place->row == 0 && place->column == 0) ||
           cell_holds(quilter, place->row, place->column, at);
}
