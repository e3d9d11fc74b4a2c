/* Where each unit, block and piece with an id lies in the top, turned and
 * mirrored: walked in the design, as the heaps are merged where they look
 * alike. A frame is that of a piece as it is drawn; a motion leads from it into
 * the top, or, of what a setting on point holds, into the level frame of its
 * block, which a slant turns by an eighth. May assume known sizes and no more
 * pieces than their limit. Read next: places.c. */
#include "quilter.h"

/* By an eighth, clockwise, about a point of a level frame, which comes to lie at
 * `middle` of the top. */
struct slant {
    struct vertex center, middle;
};

/* A piece where it lies. */
struct lying {
    const struct piece *piece;
    struct rational factor;    /* real length of a local unit */
    struct motion motion;      /* from the frame of the piece into the top, */
    const struct slant *slant; /* this behind it; NULL for none */
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
    return level_extent(
        (struct vertex){rational_min(a.x, b.x), rational_min(a.y, b.y)},
        (struct vertex){rational_max(a.x, b.x), rational_max(a.y, b.y)});
}

/* The cosine of an eighth is half the root of 2, and so is its sine. */
static struct vertex slanted(const struct slant *slant, struct vertex v)
{
    const struct rational half_root =
        rational_div(rational_root(2), rational_whole(2));
    const struct rational x = rational_sub(v.x, slant->center.x);
    const struct rational y = rational_sub(v.y, slant->center.y);
    return (struct vertex){
        rational_add(slant->middle.x,
                     rational_mul(half_root, rational_sub(x, y))),
        rational_add(slant->middle.y,
                     rational_mul(half_root, rational_add(x, y)))};
}

/* Where the piece lies in the top, whichever way it is turned. */
static struct extent extent_of(const struct quilter *quilter,
                               const struct lying *laid)
{
    const struct extent level = moved_extent(
        laid->motion, real_width(quilter, laid), real_height(quilter, laid));
    struct vertex corners[EXTENT_CORNERS];
    if (laid->slant == NULL)
        return level;
    extent_corners(level, corners);
    for (int i = 0; i < EXTENT_CORNERS; i++)
        corners[i] = slanted(laid->slant, corners[i]);
    return extent_of_corners(quilter->arena, corners);
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
        .extent = extent_of(quilter, laid)};
}

/* ---- the walk ---- */

static void walk(struct quilter *quilter, struct lying laid);

/* A cell that lies so, its top left corner at (x, y) of the piece around it. */
static struct lying laid_cell(const struct quilter *quilter,
                              const struct lying *around,
                              const struct cell *cell, struct rational x,
                              struct rational y)
{
    struct lying inner = {cell->piece, around->factor, around->motion,
                          around->slant};
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
                          laid->motion, laid->slant};
    inner.motion = motion_compose(
        laid->motion,
        placing_motion(piece->orientation, real_width(quilter, &inner),
                       real_height(quilter, &inner), origin));
    add_placement(quilter, piece->target, &inner);
    walk(quilter, inner);
}

/* ---- on point ---- */

/* Places in quarters of the diagonal from one block to the next, from the points
 * of the outermost blocks: middles of blocks lie at odd halves both ways or at
 * even ones, those of strips at odd quarters, and cornerstones where the sum of
 * both halves is odd. */
struct lattice {
    const struct lying *laid; /* the setting */
    struct rational quarter, excess;
};

static struct lattice lattice_of(const struct quilter *quilter,
                                 const struct lying *laid)
{
    const struct on_point *of = laid->piece->on_point;
    const struct rational *width = quilter->sized->width;
    struct rational step = width[of->blocks[0].piece->index];
    if (of->sashed)
        step = rational_add(step, width[of->upright->index]);
    const struct rational diagonal =
        rational_mul(rational_mul(step, laid->factor), rational_root(2));
    return (struct lattice){laid, rational_div(diagonal, rational_whole(4)),
                            rational_mul(of->excess, laid->factor)};
}

/* What lies so in a level frame of its own, its middle at (x, y) quarters. */
static struct lying laid_aslant(struct quilter *quilter,
                                const struct lattice *lattice,
                                const struct piece *piece,
                                struct orientation lies, size_t x, size_t y)
{
    const struct lying *around = lattice->laid;
    const struct vertex at = {
        rational_add(rational_times(lattice->quarter, (int64_t)x),
                     lattice->excess),
        rational_add(rational_times(lattice->quarter, (int64_t)y),
                     lattice->excess)};
    struct slant *slant = ARENA_NEW(quilter->arena, struct slant);
    struct lying inner = {piece, around->factor, around->motion, NULL};
    const struct rational width = real_width(quilter, &inner);
    const struct rational height = real_height(quilter, &inner);
    inner.motion = placing_motion(lies, width, height, origin);
    const struct extent level = moved_extent(inner.motion, width, height);
    *slant = (struct slant){vertex_middle(level.low, level.high),
                            vertex_moved(around->motion, at)};
    inner.slant = slant;
    return inner;
}

/* Block `at` of a level line, as the designer told them. */
static struct lying laid_block(struct quilter *quilter,
                               const struct lattice *lattice, size_t line,
                               size_t at)
{
    const struct on_point *of = lattice->laid->piece->on_point;
    const size_t index = line / 2 * (2 * of->across - 1) +
                         (line % 2 == 1 ? of->across : 0) + at;
    return laid_aslant(quilter, lattice, of->blocks[index].piece,
                       of->blocks[index].orientation,
                       4 * at + 2 + 2 * (line % 2), 2 * line + 2);
}

/* Strips on the upper right and the lower left of a block run along its row,
 * falling; cornerstones at the rim are whole here, as they are sewn. */
static void walk_slanted_sashing(struct quilter *quilter,
                                 const struct lattice *lattice)
{
    const struct on_point *of = lattice->laid->piece->on_point;
    const struct orientation straight = {0, false};
    const struct orientation along = {of->turned ? 1 : 0, false};
    for (size_t y = 0; y <= 2 * of->down; y++)
        for (size_t x = (y + 1) % 2; x <= 2 * of->across; x += 2)
            walk(quilter, laid_aslant(quilter, lattice, of->crossing, straight,
                                      2 * x, 2 * y));
    for (size_t y = 1; y < 4 * of->down; y += 2)
        for (size_t x = 1; x < 4 * of->across; x += 2) {
            const bool falls = (x + y) % 4 == 0;
            walk(quilter, laid_aslant(quilter, lattice,
                                      falls ? of->level : of->upright,
                                      falls ? along : straight, x, y));
        }
}

/* How many blocks a level line has; twice `down` less one lines there are. */
static size_t line_blocks(const struct on_point *of, size_t line)
{
    return of->across - line % 2;
}

/* The triangles around have no names. */
static void walk_on_point(struct quilter *quilter, const struct lying *laid)
{
    const struct on_point *of = laid->piece->on_point;
    const struct lattice lattice = lattice_of(quilter, laid);
    for (size_t line = 0; line + 1 < 2 * of->down; line++)
        for (size_t i = 0; i < line_blocks(of, line); i++)
            walk(quilter, laid_block(quilter, &lattice, line, i));
    if (of->sashed)
        walk_slanted_sashing(quilter, &lattice);
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
    case PIECE_TRIANGLES:
        break;
    case PIECE_ON_POINT:
        walk_on_point(quilter, &laid);
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

/* Level lines are the rows of a setting on point, as its map tells them. */
static void add_slanted_cells(struct quilter *quilter, const struct lying *laid)
{
    const struct on_point *of = laid->piece->on_point;
    const struct lattice lattice = lattice_of(quilter, laid);
    for (size_t line = 0; line + 1 < 2 * of->down; line++)
        for (size_t i = 0; i < line_blocks(of, line); i++) {
            const struct lying block = laid_block(quilter, &lattice, line, i);
            add_cell(quilter, &block, line + 1, i + 1);
        }
}

/* A place among rows of triangles: with half a triangle more at the ends of
 * rows, so that each row is covered by its places. Counted in halves of a side
 * and in rows. */
static void add_triangle_cell(struct quilter *quilter, const struct lying *laid,
                              size_t row, size_t place)
{
    const struct triangle_rows *rows = laid->piece->triangles;
    const bool down = rows->down != ((row + place) % 2 == 1);
    const bool last = place + 1 == rows->across;
    const size_t tip_left = place == 0 ? 0 : place + 1;
    const size_t tip_right = last ? rows->across + 1 : place + 1;
    const size_t halves[EXTENT_CORNERS] = {
        down ? place : tip_left, down ? place + 2 : tip_right,
        down ? tip_right : place + 2, down ? tip_left : place};
    const struct rational half =
        rational_div(real_width(quilter, laid),
                     rational_whole((int64_t)rows->across + 1));
    const struct rational height = rational_div(
        real_height(quilter, laid), rational_whole((int64_t)rows->rows));
    struct vertex corners[EXTENT_CORNERS];
    for (size_t i = 0; i < EXTENT_CORNERS; i++) {
        const struct vertex at = {
            rational_times(half, (int64_t)halves[i]),
            rational_times(height, (int64_t)(row + i / 2))};
        corners[i] = vertex_moved(laid->motion, at);
    }
    *LIST_ADD(quilter->arena, &quilter->cells) = (struct setting_cell){
        extent_of_corners(quilter->arena, corners), row + 1, place + 1};
}

static void add_triangle_cells(struct quilter *quilter,
                               const struct lying *laid)
{
    const struct triangle_rows *rows = laid->piece->triangles;
    for (size_t row = 0; row < rows->rows; row++)
        for (size_t place = 0; place < rows->across; place++)
            add_triangle_cell(quilter, laid, row, place);
}

/* ---- all of it ---- */

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
        const struct vertex low = levels[i + 1].low, high = levels[i + 1].high;
        levels[i] = level_extent(
            (struct vertex){rational_add(low.x, b), rational_add(low.y, b)},
            (struct vertex){rational_sub(high.x, b), rational_sub(high.y, b)});
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
    walk(quilter, (struct lying){quilt->whole, one, still, NULL});
    const struct lying root = {
        quilt->root, one, {1, 0, 0, 1, quilter->levels[0].low}, NULL};
    if (is_container(quilt->root))
        count_cells(quilter, &root, 1, 1);
    else if (quilt->root->kind == PIECE_ON_POINT)
        add_slanted_cells(quilter, &root);
    else if (quilt->root->kind == PIECE_TRIANGLES)
        add_triangle_cells(quilter, &root);
    else
        add_cell(quilter, &root, 1, 1);
}
