/* What a unit or a block measures by its own pieces, and whether its grid can
 * be trusted beside them. Solved apart from the rest, into a run whose messages
 * nobody reads: what is wrong is told when all is solved with what is found
 * here. Read next: misfit.c. */
#include "solver.h"

/* A size counts only where nothing in the definition speaks against it. */
static struct real_size measured(struct system *system,
                                 const struct definition *definition)
{
    const struct piece *root = definition->root;
    if (root == NULL || !system->sound[definition->index])
        return (struct real_size){rational_unknown(), rational_unknown()};
    return (struct real_size){system_value(system, width_of(root)),
                              system_value(system, height_of(root))};
}

/* The pieces of all definitions, those of one together, in their order: those
 * of definition d from first[d] up to first[d + 1]. */
struct grouped {
    const struct piece **pieces;
    size_t *first;
};

static struct grouped group_pieces(struct arena *arena,
                                   const struct design *design)
{
    const size_t count = design->pieces.count;
    const struct grouped grouped = {
        ARENA_ARRAY(arena, const struct piece *, count),
        ARENA_ARRAY(arena, size_t, design->definitions.count + 2)};
    for (size_t i = 0; i < count; i++)
        grouped.first[design->pieces.items[i]->owner->index + 2]++;
    for (size_t d = 0; d < design->definitions.count; d++)
        grouped.first[d + 2] += grouped.first[d + 1];
    /* The start of the next one runs along, and ends where it begins. */
    for (size_t i = 0; i < count; i++) {
        const struct piece *piece = design->pieces.items[i];
        grouped.pieces[grouped.first[piece->owner->index + 1]++] = piece;
    }
    return grouped;
}

/* From the inside out: a definition takes what those it uses measure. In memory
 * and messages that go at once. */
static void measure(struct run *run, const struct design *design,
                    struct own_sizes *own)
{
    struct arena *scratch = arena_create();
    bool *sound = ARENA_ARRAY(scratch, bool, design->definitions.count);
    for (size_t i = 0; i < design->definitions.count; i++)
        sound[i] = !design->definitions.items[i]->unsound;
    struct system system;
    system_init(&system, run_create(scratch, run->source), design, sound,
                2 * design->pieces.count);
    system.own = own;
    const struct grouped grouped = group_pieces(scratch, design);
    for (size_t i = 0; i < design->inner_first.count; i++) {
        const struct definition *definition = design->inner_first.items[i];
        const size_t d = definition->index, first = grouped.first[d];
        if (definition->kind == DEFINE_QUILT)
            continue;
        build_definition(&system, definition, grouped.pieces + first,
                         grouped.first[d + 1] - first);
        system_settle(&system);
        own->size[d] = measured(&system, definition);
    }
    arena_destroy(scratch);
}

struct real_size squares_of(const struct own_sizes *own,
                            const struct definition *definition)
{
    if (own->measuring)
        return (struct real_size){definition->grid_across,
                                  definition->grid_down};
    return own->squares[definition->index];
}

struct real_size asked_size(const struct design *design,
                            const struct piece *use)
{
    if (use->finished.usable)
        return (struct real_size){use->finished.value, use->finished.second};
    const struct rational seams = rational_times(design->pattern->seam, 2);
    if (use->unfinished.usable)
        return (struct real_size){rational_sub(use->unfinished.value, seams),
                                  rational_sub(use->unfinished.second, seams)};
    return (struct real_size){rational_unknown(), rational_unknown()};
}

bool same_shape(struct real_size a, struct real_size b)
{
    return rational_equal(rational_mul(a.width, b.height),
                          rational_mul(a.height, b.width));
}

static bool same_size(struct real_size a, struct real_size b)
{
    return rational_equal(a.width, b.width) &&
           rational_equal(a.height, b.height);
}

/* How well squares suit what uses ask for: 0 where one asks for another shape,
 * or for squares that no ruler cuts; else the less the finer a square is. */
static int64_t suits_uses(const struct design *design,
                          const struct own_sizes *own,
                          const struct definition *block,
                          struct real_size squares)
{
    int64_t finest = 1;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *use = design->pieces.items[i];
        if (use->target != block || own->local_grid[use->owner->index])
            continue;
        const struct real_size asked = asked_size(design, use);
        if (!rational_known(asked.width))
            continue;
        const struct rational square = rational_div(asked.width, squares.width);
        const struct rational steps =
            rational_div(square, design->pattern->cutting_step);
        if (!same_shape(asked, squares) || steps.den != 1)
            return 0;
        if (square.den > finest)
            finest = square.den;
    }
    return INT64_MAX / finest;
}

/* The cells of a picture that is told as one token a square; unknown for all
 * others. */
static struct real_size drawn_squares(const struct definition *block)
{
    const struct real_size none = {rational_unknown(), rational_unknown()};
    const size_t count = block->cells.count;
    if (count == 0 || block->picture_cells != 0 || block->picture_triangles)
        return none;
    const size_t rows = block->cells.items[count - 1].row;
    for (size_t i = 0; i < count; i++)
        if (count % rows != 0 ||
            block->cells.items[i].row != i / (count / rows) + 1)
            return none;
    return (struct real_size){rational_whole((int64_t)(count / rows)),
                              rational_whole((int64_t)rows)};
}

/* What the pieces make; a side that they leave open is the grid's, or keeps a
 * square a square. */
static struct real_size made_squares(const struct own_sizes *own,
                                     const struct definition *block)
{
    const bool square = rational_equal(block->grid_across, block->grid_down);
    struct real_size made = own->size[block->index];
    if (!rational_known(made.width))
        made.width = square && rational_known(made.height) ? made.height
                                                           : block->grid_across;
    if (!rational_known(made.height))
        made.height = square ? made.width : block->grid_down;
    return made;
}

/* Where pieces and grid differ, the picture decides; else the sizes that uses
 * ask for, by what a square would be; else it is the grid where both sides
 * differ, as one wrong piece would mostly change one alone. */
static bool grid_is_wrong(const struct design *design,
                          const struct own_sizes *own,
                          const struct definition *block)
{
    const struct real_size grid = {block->grid_across, block->grid_down};
    const struct real_size made = made_squares(own, block);
    /* Squares are whole numbers; any other size is a slip of a piece. */
    if (!rational_known(grid.width) || same_size(made, grid) ||
        made.width.den != 1 || made.height.den != 1 ||
        rational_sign(made.width) <= 0 || rational_sign(made.height) <= 0)
        return false;
    if (grid.width.den != 1 || grid.height.den != 1)
        return true; /* that was reported */
    const struct real_size drawn = drawn_squares(block);
    if (same_size(drawn, grid) || same_size(drawn, made))
        return same_size(drawn, made);
    const int64_t made_suits = suits_uses(design, own, block, made);
    const int64_t grid_suits = suits_uses(design, own, block, grid);
    if (made_suits != grid_suits)
        return made_suits > grid_suits;
    const struct real_size size = own->size[block->index];
    return made_suits > 0 && rational_known(size.width) &&
           rational_known(size.height) &&
           !rational_equal(size.width, grid.width) &&
           !rational_equal(size.height, grid.height);
}

static void judge_grids(const struct design *design, struct own_sizes *own)
{
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *block = design->definitions.items[i];
        own->wrong_grid[i] =
            block->gridded && grid_is_wrong(design, own, block);
        own->squares[i] =
            own->wrong_grid[i]
                ? made_squares(own, block)
                : (struct real_size){block->grid_across, block->grid_down};
    }
}

struct own_sizes *find_own_sizes(struct run *run, const struct design *design)
{
    const size_t count = design->definitions.count;
    struct own_sizes *own = ARENA_NEW(run->arena, struct own_sizes);
    own->local_grid = find_local_grids(run, design);
    own->lies = find_lying(run, design);
    own->size = ARENA_ARRAY(run->arena, struct real_size, count + 1);
    own->squares = ARENA_ARRAY(run->arena, struct real_size, count + 1);
    own->wrong_grid = ARENA_ARRAY(run->arena, bool, count + 1);
    own->told = ARENA_ARRAY(run->arena, bool, count + 1);
    own->measuring = true;
    measure(run, design, own);
    judge_grids(design, own);
    own->measuring = false;
    return own;
}
