/* Settings on point: sizes. A block of side F stands on its corner, F * sqrt 2
 * across and down (derived: Pythagoras), and
 * all blocks of a setting are one square. The finished size is exact, a number
 * with a root; what is cut is rounded up (sew/on_point.c).
 *
 * m blocks of side F across with strips of width s between and around them, the
 * points e inside the edge: m * (F + s) * sqrt 2 + 2e wide. Triangles
 * (derived):
 * - at a side: both legs lie on blocks, F long, and the long edge is the
 *   quilt's, F * sqrt 2. Moved out by e, the legs are e * sqrt 2 longer, as the
 *   right angle stays where it is.
 * - in a corner: the long edge lies on a block, so that the legs, which are the
 *   quilt's edges, are F / sqrt 2. Moved out by e each, they are 2e longer.
 * Strips make none of them larger, as they and their cornerstones reach the
 * edge.
 *
 * The size of the blocks may come from a wish of how large all is to be. It is
 * the weakest word of all: what any piece states goes before. Read next:
 * half_square.c. */
#include "solver.h"

/* n * sqrt 2. */
static struct rational roots_of_2(int64_t n)
{
    return rational_times(rational_root(2), n);
}
static struct rational half(struct rational a)
{
    return rational_div(a, rational_whole(2));
}

/* Blocks are squares of one size. */
static void equal_blocks(struct system *system, const struct on_point *on_point)
{
    const struct piece *first = on_point->blocks[0].piece;
    for (size_t i = 0; i < on_point->block_count; i++) {
        const struct piece *block = on_point->blocks[i].piece;
        system_equal(system, width_of(first), width_of(block));
        system_equal(system, width_of(first), height_of(block));
    }
}

/* Strips are as long as a block and of one width; cornerstones are as wide. */
static void equal_strips(struct system *system, const struct on_point *on_point)
{
    const struct piece *block = on_point->blocks[0].piece;
    const struct piece *upright = on_point->upright, *level = on_point->level;
    const struct piece *stone = on_point->crossing;
    system_equal(system, height_of(upright), width_of(block));
    if (!on_point->turned) {
        system_equal(system, width_of(level), width_of(block));
        system_equal(system, height_of(level), width_of(upright));
    }
    system_equal(system, width_of(stone), width_of(upright));
    system_equal(system, height_of(stone), width_of(upright));
}

/* The setting is so many diagonals of a block and its sashing, and twice what
 * it floats. */
static void whole_size(struct system *system, const struct piece *piece,
                       variable total, size_t blocks, const char *dimension)
{
    const struct on_point *on_point = piece->on_point;
    const struct rational diagonals = roots_of_2((int64_t)blocks);
    struct sum *sum = system_sum(system, total, piece->element, dimension);
    sum->constant = rational_times(on_point->excess, -2);
    const struct piece *block = on_point->blocks[0].piece;
    system_term(system, sum, width_of(block), diagonals, block->element);
    if (on_point->sashed)
        system_term(system, sum, width_of(on_point->upright), diagonals,
                    on_point->upright->element);
}

/* The legs of a triangle, which are `factor` times a block's side and so much
 * longer as it floats (derived: a side triangle lies on a block with both legs,
 * a corner triangle with its long edge). */
static void triangle_size(struct system *system, const struct piece *piece,
                          const struct piece *triangle, struct rational factor,
                          struct rational longer)
{
    const struct piece *block = piece->on_point->blocks[0].piece;
    struct sum *sum =
        system_sum(system, width_of(triangle), piece->element, "wide");
    sum->constant = rational_times(longer, -1);
    system_term(system, sum, width_of(block), factor, block->element);
    system_equal(system, width_of(triangle), height_of(triangle));
}

/* Exact until it is rounded up. */
struct rational triangle_square(const struct pattern *pattern,
                                enum patch_shape shape, struct rational legs)
{
    const bool quartered = shape == PATCH_QUARTERED;
    const struct rational root = rational_root(2), two = rational_whole(2);
    const struct rational seams = rational_mul(
        pattern->seam,
        rational_add(two, quartered ? rational_mul(two, root) : root));
    const struct rational edge = quartered ? rational_mul(legs, root) : legs;
    return rational_round_up(rational_add(edge, seams), pattern->cutting_step);
}

/* ---- from a wish ---- */

enum { SQUARES_MOST = 1000 }; /* of grids that go into one ruler */

/* What the blocks' sides are multiples of: so many cutting steps as give each
 * square of their grids whole ones, two at least (a quarter of an inch). */
static struct rational side_step(const struct pattern *pattern,
                                 const struct on_point *on_point)
{
    int64_t squares = 1;
    for (size_t i = 0; i < on_point->block_count; i++) {
        const struct definition *block = on_point->blocks[i].piece->target;
        if (block == NULL || !block->gridded ||
            !rational_is_fraction(block->grid_across) ||
            block->grid_across.den != 1)
            continue;
        const int64_t more = block->grid_across.num;
        const int64_t times = more / whole_common_divisor(squares, more);
        if (squares > SQUARES_MOST / times)
            break; /* no ruler has them all */
        squares *= times;
    }
    return rational_times(pattern->cutting_step, squares < 2 ? 2 : squares);
}

/* From one block to the next, if the corner of the setting is to lie nearest to
 * the corner of what is wished: of m blocks across a width of W and n across a
 * height of H that is (m * W + n * H) / (m^2 + n^2) on the diagonal (derived:
 * the sum of both squares of what is off is least there). */
static struct rational wished_pitch(const struct on_point *on_point)
{
    const int64_t m = (int64_t)on_point->across, n = (int64_t)on_point->down;
    const struct rational twice = rational_times(on_point->excess, 2);
    const struct rational diagonals = rational_add(
        rational_times(rational_sub(on_point->about.value, twice), m),
        rational_times(rational_sub(on_point->about.second, twice), n));
    return rational_div(diagonals, roots_of_2(m * m + n * n));
}

/* The side of a block, a multiple of its step, that comes nearest. */
static struct rational wished_side(const struct pattern *pattern,
                                   const struct on_point *on_point,
                                   struct rational strip)
{
    const struct rational step = side_step(pattern, on_point);
    const struct rational side = rational_sub(wished_pitch(on_point), strip);
    const struct rational below = rational_sub(side, half(step));
    const struct rational nearest = rational_round_up(below, step);
    return rational_known(nearest) && rational_sign(nearest) > 0 ? nearest
                                                                 : step;
}

/* A wish sizes the blocks where nothing else does. */
static void take_wish(struct system *system, const struct piece *piece)
{
    const struct pattern *pattern = system->design->pattern;
    const struct on_point *on_point = piece->on_point;
    const struct stated *about = &on_point->about;
    const struct piece *strip = on_point->upright;
    if (!about->written)
        return;
    if (!about->usable ||
        (on_point->sashed && strip->width.written && !strip->width.usable)) {
        system_silence(system, width_of(on_point->blocks[0].piece));
        return;
    }
    if (on_point->sashed && !strip->width.usable)
        return; /* told as open, or by its block */
    const struct rational side =
        wished_side(pattern, on_point,
                    on_point->sashed ? strip->width.value : rational_whole(0));
    system_wish(system, width_of(on_point->blocks[0].piece), side, about->span,
                "`about`");
}

/* So many blocks that the wish comes out as near as may be. */
static size_t nearest_count(struct rational wished, struct rational pitch)
{
    const int64_t count = rational_floor(rational_add(
        rational_div(wished, rational_mul(pitch, rational_root(2))),
        rational_make(1, 2)));
    return count < 1 ? 1 : (size_t)count;
}

/* reports: blocks that are not as many as would come nearest to the wish, in
 * that dimension. `half_block`: half of what one of them adds. */
static bool check_wish(struct run *run, const struct sized *sized,
                       const struct piece *piece, bool across)
{
    const struct on_point *of = piece->on_point;
    const struct pattern *pattern = sized->design->pattern;
    const struct rational size =
        (across ? sized->width : sized->height)[piece->index];
    const struct rational wished = across ? of->about.value : of->about.second;
    struct rational pitch = sized->width[of->blocks[0].piece->index];
    if (of->sashed)
        pitch = rational_add(pitch, sized->width[of->upright->index]);
    if (!rational_known(size) || !rational_known(wished) ||
        !rational_known(pitch))
        return true;
    const struct rational off = rational_sub(size, wished);
    const struct rational half_block =
        rational_mul(pitch, half(rational_root(2)));
    if (rational_compare(rational_max(off, rational_times(off, -1)),
                         half_block) <= 0)
        return true;
    struct diagnostic *d =
        report_in(run, sized->sound, piece->owner, DIAG_STATEMENT,
                  of->about.span, "the setting is %s %s, not about %s",
                  length_plain(run->arena, size, pattern->units),
                  across ? "wide" : "high",
                  length_plain(run->arena, wished, pattern->units));
    diag_note(run, d, piece->element->name,
              "%zu x %zu blocks, %s from one to the next; another one %s "
              "adds %s",
              of->across, of->down,
              length_plain(run->arena, pitch, pattern->units),
              across ? "across" : "down",
              length_plain(run->arena, rational_times(half_block, 2),
                           pattern->units));
    const enum attribute_id id = across ? ATTR_ACROSS : ATTR_DOWN;
    const char *count = arena_printf(
        run->arena, "%zu",
        nearest_count(rational_sub(wished, rational_times(of->excess, 2)),
                      pitch));
    diag_mend(run, d, value_span(piece->element, id), count,
              "%s=\"%s\" comes nearest with such blocks", attribute_name(id),
              count);
    return false;
}

/* reports: triangles that would reach over more than the row beside theirs:
 * along a row the setting floats by the root of 2 times as much, which is less
 * than a block (derived). */
static void check_float(struct run *run, const struct sized *sized,
                        const struct piece *piece)
{
    const struct on_point *of = piece->on_point;
    const struct pattern *pattern = sized->design->pattern;
    const struct rational half_diagonal = rational_mul(
        sized->width[of->blocks[0].piece->index], half(rational_root(2)));
    if (!rational_known(half_diagonal) || !rational_known(of->excess) ||
        rational_sign(of->excess) == 0 ||
        rational_compare(of->excess, half_diagonal) < 0)
        return;
    struct diagnostic *d =
        report_in(run, sized->sound, piece->owner, DIAG_STATEMENT,
                  value_span(piece->element, ATTR_FLOAT),
                  "blocks cannot float by %s: half of one's diagonal is %s",
                  length_plain(run->arena, of->excess, pattern->units),
                  length_plain(run->arena, half_diagonal, pattern->units));
    diag_help(run, d,
              "float by less; a `border` of the same fabric gives the rest");
}

/* A wish that is told twice wrong is told once. */
static void check_on_point(struct run *run, const struct sized *sized,
                           const struct piece *piece)
{
    if (piece->on_point == NULL)
        return;
    check_float(run, sized, piece);
    if (piece->on_point->about.usable && check_wish(run, sized, piece, true))
        check_wish(run, sized, piece, false);
}

static void on_point_sizes(struct system *system, const struct piece *piece,
                           bool local_grid)
{
    (void)local_grid;
    const struct on_point *on_point = piece->on_point;
    if (on_point == NULL || !rational_known(on_point->excess)) {
        silence_all(system, piece);
        return;
    }
    equal_blocks(system, on_point);
    if (on_point->sashed)
        equal_strips(system, on_point);
    whole_size(system, piece, width_of(piece), on_point->across, "wide");
    whole_size(system, piece, height_of(piece), on_point->down, "high");
    if (on_point->side != NULL)
        triangle_size(system, piece, on_point->side, rational_whole(1),
                      rational_mul(on_point->excess, rational_root(2)));
    take_wish(system, piece);
    triangle_size(system, piece, on_point->corner, half(rational_root(2)),
                  rational_times(on_point->excess, 2));
}

const struct sizing sizing_on_point = {.sizes = on_point_sizes,
                                       .check = check_on_point};
