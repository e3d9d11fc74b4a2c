/* Settings on point: diagonal rows of blocks with a triangle at their ends,
 * joined like the rows of a grid, and a triangle at each corner. It is sewn as
 * hands do it, in the direction of the rows; there all blocks lie straight and
 * their sizes stay fractions. Then all of it is turned by an eighth. Derived:
 * of a block of side F the diagonal is F * sqrt 2, so that what floats by e
 * does so by e * sqrt 2 along a row.
 *
 * Two frames are used. In the frame of the rows x runs along a row, to the
 * lower right of the quilt, and y from one row to the next, to its lower left.
 * Its origin is the top left corner of the quilt, the float further in, where
 * the seam of no block lies: the row through that corner has its middle at y =
 * 0 and begins at half a block, as the corner's triangle lies before it. Places
 * of inputs that are `slanted` are told in it, and all joints are looked at in
 * it. slanted_point turns it to the frame of the quilt, clockwise by an eighth.
 *
 * The edges of the quilt are at 45 degrees to the rows. In the frame of the
 * rows the left edge is x - y = 0, the top edge x + y = 0, and the others are
 * as far from these as the quilt is wide and high, times the root of 2.
 *
 * What sticks out of the quilt is there while it is sewn, tips of triangles and
 * halves of cornerstones, and is trimmed when its corners are on: parts are
 * shown as they are laid before, and cut off at a seam's width outside the
 * edges after. Read next: join.c. */
#include "bench.h"

/* Triangles are the later part, and seams go to them, as to a corner. */
static const struct operation join_corner = {
    .name = "join-corner",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_CORNER)};

/* Places come in halves of a block. */
static struct rational half(struct rational a)
{
    return rational_div(a, rational_whole(2));
}

/* ---- building ---- */

/* The lengths that places come from: from one block to the next, and a strip's
 * width, 0 without sashing. */
struct pitch {
    struct rational step, strip;
};

/* All blocks of a setting are of one size, so the first tells it. */
static struct pitch pitch_of(const struct sewer *sewer,
                             const struct on_point *on_point,
                             struct rational factor)
{
    const struct rational *width = sewer->sized->width;
    struct pitch pitch = {.strip = rational_whole(0)};
    if (on_point->sashed)
        pitch.strip = rational_mul(width[on_point->upright->index], factor);
    pitch.step = rational_add(
        pitch.strip,
        rational_mul(width[on_point->blocks[0].piece->index], factor));
    return pitch;
}

/* Is the row one of strips and cornerstones? */
static bool is_strip_row(const struct on_point *on_point, size_t row)
{
    return on_point->sashed && row % 2 == 0;
}

/* How far from the diagonal through the top left corner the middle of a row
 * lies, in half steps: below 0 towards the top right. */
static long half_steps(const struct on_point *on_point, size_t row)
{
    const long across = (long)on_point->across;
    return on_point->sashed ? (long)row + 1 - 2 * across
                            : 2 * ((long)row + 1 - across);
}

/* Where a row begins along itself: its first cell but a triangle, whose right
 * angle lies there. Both edges of the top left corner run away from it by as
 * much as they run along it. */
static struct rational row_start(const struct on_point *on_point, size_t row,
                                 const struct pitch *pitch)
{
    const long away = half_steps(on_point, row);
    const long half_more = is_strip_row(on_point, row) ? 0 : 1;
    return rational_sub(
        half(
            rational_times(pitch->step, (away < 0 ? -away : away) + half_more)),
        half(pitch->strip));
}

/* The triangles at the ends of rows; those at the corners are halved. */
static bool is_triangle(const struct cell *cell)
{
    return cell->piece->shape == PATCH_QUARTERED;
}

/* The cells of a row, from its upper left end. Triangles reach beyond the row
 * where the setting floats; two of the four ways in which they lie have their
 * right angle at the lower side of it. */
static void add_row(struct sewer *sewer, struct heap *recipe, size_t row,
                    const struct pitch *pitch, struct rational top)
{
    const struct piece *piece = recipe->piece;
    const struct on_point *on_point = piece->on_point;
    const struct rational height =
        is_strip_row(on_point, row) ? pitch->strip
                                    : rational_sub(pitch->step, pitch->strip);
    struct rational at = row_start(on_point, row, pitch);
    for (size_t i = on_point->first[row]; i < on_point->first[row + 1]; i++) {
        const struct cell *cell = &piece->cells.items[i];
        struct input *input =
            add_input(sewer, recipe,
                      build_cell(sewer, cell, recipe->factor, false), at, top);
        const struct rational width = input_width(sewer, input);
        input->slanted = true;
        if (!is_triangle(cell)) {
            at = rational_add(at, width);
            continue;
        }
        if (i == on_point->first[row])
            input->x = rational_sub(at, width);
        if (cell->orientation.turn >= 2)
            input->y = rational_sub(rational_add(top, height), width);
    }
}

/* Clockwise from the top left, their legs along the edges. */
static void add_corners(struct sewer *sewer, struct heap *recipe)
{
    const struct piece *piece = recipe->piece;
    const size_t first = piece->on_point->first[piece->on_point->rows];
    const struct rational zero = rational_whole(0);
    for (size_t i = 0; i < 4; i++) {
        const struct ref ref = build_cell(sewer, &piece->cells.items[first + i],
                                          recipe->factor, false);
        const struct rational legs = heap_at(sewer, ref.heap)->width;
        add_input(sewer, recipe, ref,
                  i == 1 || i == 2 ? rational_sub(recipe->width, legs) : zero,
                  i >= 2 ? rational_sub(recipe->height, legs) : zero);
    }
}

/* In a quilt, which is not mirrored. The first row lies half a strip above the
 * line that half a block lies below. */
static struct ref build_on_point(struct sewer *sewer, const struct piece *piece,
                                 struct rational factor, bool mirror)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_ON_POINT, &craft_on_point);
    const struct on_point *on_point = piece->on_point;
    const struct pitch pitch = pitch_of(sewer, on_point, factor);
    recipe.of.join.down = on_point->rows;
    recipe.of.join.first = on_point->first;
    recipe.of.join.excess = rational_mul(on_point->excess, factor);
    struct rational top = rational_sub(
        half(rational_times(pitch.step, 1 - 2 * (int64_t)on_point->across)),
        half(pitch.strip));
    for (size_t row = 0; row < on_point->rows; row++) {
        const size_t cells = on_point->first[row + 1] - on_point->first[row];
        if (cells > recipe.of.join.across)
            recipe.of.join.across = cells;
        add_row(sewer, &recipe, row, &pitch, top);
        top = rational_add(top, is_strip_row(on_point, row)
                                    ? pitch.strip
                                    : rational_sub(pitch.step, pitch.strip));
    }
    add_corners(sewer, &recipe);
    return find_or_add(sewer, &recipe);
}

/* A quilt has it once, so it is never compared. */
static void key_on_point(struct sewer *sewer, struct buffer *key,
                         const struct heap *heap, unsigned turn)
{
    buffer_printf(key, "%zu %u ", heap->piece->index, turn);
    key_inputs(sewer, key, heap->inputs.items, heap->inputs.count);
    key_press(sewer, key, heap, turn, &join_row);
    key_press(sewer, key, heap, turn, &join_column);
}

/* ---- sewing, in the direction of the rows ---- */

/* The parts of the rows: as they are laid, and without the allowances that
 * their seams take. */
struct parts {
    const struct cloth **laid, **joined;
};

/* The edges of the top, seen from the rows, so much further out: along a row an
 * edge at 45 degrees is root 2 as far. */
static void edges_of(const struct heap *heap, struct rational out,
                     struct half_plane edges[4])
{
    const struct rational one = rational_whole(1), minus = rational_whole(-1);
    const struct rational root = rational_root(2);
    const struct rational near =
        rational_mul(rational_add(heap->of.join.excess, out), root);
    const struct rational right = rational_mul(
        rational_add(rational_sub(heap->width, heap->of.join.excess), out),
        root);
    const struct rational bottom = rational_mul(
        rational_add(rational_sub(heap->height, heap->of.join.excess), out),
        root);
    edges[0] = (struct half_plane){minus, one, near}; /* left: x - y >= -near */
    edges[1] = (struct half_plane){minus, minus, near}; /* top */
    edges[2] = (struct half_plane){one, minus, right};
    edges[3] = (struct half_plane){one, one, bottom};
}

/* Where the seams of the top left corner and of the bottom right one cross the
 * rows: half a diagonal of a block from their points. They run on through the
 * tips of triangles beside them. */
static struct half_plane left_corner(const struct bench *bench)
{
    const struct heap *heap = bench->heap;
    const struct on_point *of = heap->piece->on_point;
    const struct pitch pitch = pitch_of(bench->sewer, of, heap->factor);
    return (struct half_plane){rational_whole(-1), rational_whole(0),
                               half(rational_sub(pitch.strip, pitch.step))};
}

static struct half_plane right_corner(const struct bench *bench)
{
    const struct heap *heap = bench->heap;
    const struct on_point *of = heap->piece->on_point;
    const struct pitch pitch = pitch_of(bench->sewer, of, heap->factor);
    const int64_t halves = 2 * (int64_t)(of->across + of->down) - 1;
    return (struct half_plane){
        rational_whole(1), rational_whole(0),
        half(rational_add(rational_times(pitch.step, halves), pitch.strip))};
}

/* The upper edge of a row: that of its first block, strip or cornerstone. */
static struct rational row_top(const struct bench *bench, size_t row)
{
    const struct input *input =
        &bench->heap->inputs.items[heap_row_begin(bench->heap, row)];
    const struct cell *cell =
        &bench->heap->piece->cells.items[heap_row_begin(bench->heap, row)];
    if (!is_triangle(cell))
        return input->y;
    return input[1].y; /* a triangle has a block beside it */
}

/* The lower edge, which the next row is sewn to. */
static struct rational row_bottom(const struct bench *bench, size_t row)
{
    const struct input *input =
        &bench->heap->inputs.items[heap_row_begin(bench->heap, row)];
    const struct cell *cell =
        &bench->heap->piece->cells.items[heap_row_begin(bench->heap, row)];
    if (is_triangle(cell))
        input++;
    return rational_add(input->y, input_height(bench->sewer, input));
}

/* Rows are joined at both sides, with each other or with a corner; at their
 * ends only where a corner is. */
static const struct cloth *joined_part(const struct bench *bench, size_t row,
                                       size_t part, const struct cloth *laid)
{
    const struct heap *heap = bench->heap;
    const struct cell *cells = heap->piece->cells.items;
    const struct input *input = &heap->inputs.items[part];
    const struct rational one = rational_whole(1), zero = rational_whole(0);
    const struct rational minus = rational_whole(-1);
    const bool strips = is_strip_row(heap->piece->on_point, row);
    struct half_plane planes[10];
    size_t count = 4;
    edges_of(heap, bench->seam, planes);
    planes[count++] = left_corner(bench);
    planes[count++] = right_corner(bench);
    planes[count++] = (struct half_plane){
        zero, minus, rational_times(row_top(bench, row), -1)};
    planes[count++] = (struct half_plane){zero, one, row_bottom(bench, row)};
    if (part > heap_row_begin(heap, row) ||
        (!strips && !is_triangle(&cells[part])))
        planes[count++] =
            (struct half_plane){minus, zero, rational_times(input->x, -1)};
    if (part + 1 < heap_row_end(heap, row) ||
        (!strips && !is_triangle(&cells[part])))
        planes[count++] = (struct half_plane){
            one, zero,
            rational_add(input->x, input_width(bench->sewer, input))};
    return cloth_inside(bench->arena, laid, planes, count);
}

/* All parts of all rows, in the order of the inputs. */
static struct parts parts_of(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const size_t count = heap_row_begin(heap, heap_down(heap));
    const struct parts parts = {
        ARENA_ARRAY(bench->arena, const struct cloth *, count),
        ARENA_ARRAY(bench->arena, const struct cloth *, count)};
    for (size_t row = 0; row < heap_down(heap); row++)
        for (size_t i = heap_row_begin(heap, row); i < heap_row_end(heap, row);
             i++) {
            parts.laid[i] = placed(bench, &heap->inputs.items[i]);
            parts.joined[i] = joined_part(bench, row, i, parts.laid[i]);
        }
    return parts;
}

/* The seam before a part of a row. */
static struct sewn_seam upright_seam(const struct bench *bench, size_t row,
                                     size_t part)
{
    const struct heap *heap = bench->heap;
    const struct rational x = heap->inputs.items[part].x;
    return (struct sewn_seam){.seam = {.from = {x, row_top(bench, row)},
                                       .to = {x, row_bottom(bench, row)}},
                              .before = part - 1,
                              .next = part,
                              .across_x = 1,
                              .row = (int)row};
}

/* The seam above a row, from edge to edge of the top. */
static struct sewn_seam level_seam(const struct bench *bench, size_t row)
{
    const struct heap *heap = bench->heap;
    const struct rational y = row_top(bench, row);
    struct half_plane edges[4];
    edges_of(heap, rational_whole(0), edges);
    /* Left and top run away from the row on either side of the corner. */
    const struct rational left = rational_sub(y, edges[0].c);
    const struct rational top = rational_sub(rational_times(y, -1), edges[1].c);
    const struct rational right = rational_add(edges[2].c, y);
    const struct rational bottom = rational_sub(edges[3].c, y);
    return (struct sewn_seam){.seam = {.from = {rational_max(left, top), y},
                                       .to = {rational_min(right, bottom), y}},
                              .before = heap_row_begin(heap, row - 1),
                              .next = heap_row_begin(heap, row),
                              .across_y = 1};
}

/* Rows go to and fro where nobody spoke of them, as in a grid. One block alone
 * is no row. */
static void sew_rows(const struct bench *bench, struct cloth *whole)
{
    struct heap *heap = bench->heap;
    if (heap_row_begin(heap, heap_down(heap)) == 1)
        return;
    struct action *action = add_action(bench, &join_row);
    for (size_t row = 0; row < heap_down(heap); row++)
        for (size_t i = heap_row_begin(heap, row); i < heap_row_end(heap, row);
             i++) {
            add_part(bench, action, i);
            if (i == heap_row_begin(heap, row))
                continue;
            struct sewn_seam seam = upright_seam(bench, row, i);
            if (action->press.side == PRESS_RULE)
                seam.seam.x = (row % 2 == 0 ? 1 : -1) *
                              first_row_way(bench->sewer, heap, &join_row);
            cloth_add_seam(bench->arena, whole, sew_seam(bench, action, seam));
        }
}

/* Rows from the top right corner down. */
static void join_rows(const struct bench *bench, struct cloth *whole)
{
    if (heap_down(bench->heap) == 1)
        return;
    struct action *action = add_action(bench, &join_column);
    for (size_t row = 1; row < heap_down(bench->heap); row++)
        cloth_add_seam(bench->arena, whole,
                       sew_seam(bench, action, level_seam(bench, row)));
}

/* ---- turned by an eighth ---- */

/* Ends and the side that it is pressed to. */
static void turn_seam(const struct heap *heap, struct seam *seam)
{
    seam->from = slanted_point(heap, seam->from);
    seam->to = slanted_point(heap, seam->to);
    turn_eighth(&seam->x, &seam->y);
}

/* Seams and marks of an action that was sewn in rows. Marks of rows that lie
 * apart go with them. */
static void turn_action(const struct heap *heap, struct action *action)
{
    const int rows = (int)heap_down(heap);
    for (size_t i = 0; i < action->seams.count; i++) {
        struct sewn_seam *seam = &action->seams.items[i];
        turn_seam(heap, &seam->seam);
        turn_eighth(&seam->across_x, &seam->across_y);
    }
    for (size_t i = 0; i < action->after.presses.count; i++) {
        struct press_mark *mark = &action->after.presses.items[i];
        mark->at = slanted_point(heap, mark->at);
        mark->end = slanted_point(heap, mark->end);
        turn_eighth(&mark->x, &mark->y);
        turn_eighth(&mark->across_x, &mark->across_y);
        if (action->operation == &join_row)
            mark->gap_x = rows - 1 - mark->gap_y;
    }
}

/* The column of a row's first cell. Cells of one column of the whole keep
 * together where they are drawn apart. */
static int first_column(const struct heap *heap, size_t row)
{
    const struct on_point *on_point = heap->piece->on_point;
    const long away = half_steps(on_point, row) / (on_point->sashed ? 1 : 2);
    const struct cell *first =
        &heap->piece->cells.items[heap_row_begin(heap, row)];
    return (int)(away < 0 ? -away : away) + (is_triangle(first) ? 0 : 1);
}

/* In the first figure all parts lie apart, then rows do, then nothing does. */
static void show_row(const struct bench *bench, const struct parts *parts,
                     size_t number)
{
    struct heap *heap = bench->heap;
    struct action *rows = &heap->actions.items[0];
    struct action *all = &heap->actions.items[1];
    const int row = (int)number, back = (int)heap_down(heap) - 1 - row;
    int column = first_column(heap, number);
    for (size_t i = heap_row_begin(heap, number);
         i < heap_row_end(heap, number); i++, column++) {
        const struct cloth *joined = slanted_cloth(bench, parts->joined[i]);
        show(bench, &rows->before, slanted_cloth(bench, parts->laid[i]), (int)i,
             column + back, column + row);
        show(bench, &rows->after, joined, WHOLE, back, row);
        show(bench, &all->before, joined, WHOLE, back, row);
        show(bench, &all->after, joined, WHOLE, 0, 0);
    }
}

/* ---- corners ---- */

/* The part of a row on which a corner's triangle is laid. The rows of the other
 * two corners have a triangle before it, a block or a strip, if they have any.
 */
static size_t beside_corner(const struct heap *heap, size_t corner)
{
    const struct on_point *of = heap->piece->on_point;
    const size_t every = of->sashed ? 2 : 1, half_strip = of->sashed ? 1 : 0;
    const size_t row = corner == 0   ? every * (of->across - 1) + half_strip
                       : corner == 1 ? 0
                       : corner == 2 ? every * (of->down - 1) + half_strip
                                     : heap_down(heap) - 1;
    const size_t begin = heap_row_begin(heap, row);
    const size_t end = heap_row_end(heap, row);
    if (corner == 0)
        return begin;
    if (corner == 2)
        return end - 1;
    return begin + 1 < end &&
                   (of->sashed || is_triangle(&heap->piece->cells.items[begin]))
               ? begin + 1
               : begin;
}

/* The seam of the triangle number `corner`, clockwise from the top left. */
static struct sewn_seam corner_seam(const struct bench *bench, size_t corner)
{
    const struct heap *heap = bench->heap;
    const size_t first = heap_row_begin(heap, heap_down(heap));
    const struct input *input = &heap->inputs.items[first + corner];
    const struct rational legs = input_width(bench->sewer, input);
    const struct rational right = rational_add(input->x, legs);
    const struct rational bottom = rational_add(input->y, legs);
    const bool rising = corner % 2 == 0;
    const size_t before = beside_corner(heap, corner);
    return (struct sewn_seam){
        .seam = {.from = {input->x, rising ? bottom : input->y},
                 .to = {right, rising ? input->y : bottom}},
        .before = before,
        .next = first + corner,
        .across_x = corner == 1 || corner == 2 ? 1 : -1,
        .across_y = corner >= 2 ? 1 : -1};
}

/* What lies beyond the seam of a corner. */
static struct half_plane beyond_corner(const struct bench *bench, size_t corner)
{
    const struct sewn_seam seam = corner_seam(bench, corner);
    const struct half_plane beyond =
        half_plane_left(seam.seam.from, seam.seam.to);
    const struct vertex out =
        moved(seam.seam.from, rational_whole(seam.across_x),
              rational_whole(seam.across_y));
    return rational_sign(half_plane_side(beyond, out)) > 0
               ? half_plane_other(beyond)
               : beyond;
}

/* Seams of later corners run over it where one block has two corners. */
static const struct cloth *joined_corner(const struct bench *bench,
                                         size_t corner,
                                         const struct cloth *laid,
                                         struct outline unfinished)
{
    const struct cloth *joined =
        cloth_clipped(bench->arena, laid, beyond_corner(bench, corner));
    for (size_t later = corner + 1; later < 4; later++)
        joined = cloth_clipped(bench->arena, joined,
                               half_plane_other(beyond_corner(bench, later)));
    return cloth_within(bench->arena, joined, unfinished);
}

/* Corners last; then the top is squared up. */
static void sew_corners(const struct bench *bench, struct cloth *whole,
                        const struct cloth *center)
{
    struct heap *heap = bench->heap;
    const size_t first = heap_row_begin(heap, heap_down(heap));
    const struct outline unfinished =
        outline_grown(bench->arena, heap->outline, bench->seam);
    struct action *action = add_action(bench, &join_corner);
    show(bench, &action->before, center, WHOLE, 1, 1);
    show(bench, &action->after, center, WHOLE, 0, 0);
    for (size_t i = 0; i < 4; i++) {
        const struct sewn_seam seam = corner_seam(bench, i);
        const struct cloth *laid =
            placed(bench, &heap->inputs.items[first + i]);
        const struct cloth *joined = joined_corner(bench, i, laid, unfinished);
        add_part(bench, action, first + i);
        show(bench, &action->before, laid, (int)(first + i),
             i == 1 || i == 2 ? 2 : 0, i >= 2 ? 2 : 0);
        show(bench, &action->after, joined, WHOLE, 0, 0);
        cloth_add_all(bench->arena, whole, joined);
        cloth_add_seam(bench->arena, whole, sew_seam(bench, action, seam));
    }
}

/* Joints are looked at while the rows lie straight. */
static void sew_on_point(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct parts parts = parts_of(bench);
    struct cloth *rows = ARENA_NEW(bench->arena, struct cloth);
    for (size_t i = 0; i < heap_row_begin(heap, heap_down(heap)); i++)
        cloth_add_all(bench->arena, rows, parts.joined[i]);
    sew_rows(bench, rows);
    join_rows(bench, rows);
    heap->cloth = rows;
    if (heap->actions.count > 0) {
        if (!bench->sewer->counting)
            check_joints(bench->sewer, heap, parts.joined);
        turn_action(heap, &heap->actions.items[0]);
        turn_action(heap, &heap->actions.items[1]);
        for (size_t row = 0; row < heap_down(heap); row++)
            show_row(bench, &parts, row);
    }
    struct cloth *whole = slanted_cloth(bench, rows);
    sew_corners(bench, whole, slanted_cloth(bench, rows));
    heap->cloth = whole;
}

/* Words for the seams in rows, between them, and at the corners. */
static unsigned on_point_presses(const struct piece *piece)
{
    (void)piece;
    return join_row.presses | join_column.presses | join_corner.presses;
}

const struct craft craft_on_point = {.name = "on-point",
                                     .build = build_on_point,
                                     .key = key_on_point,
                                     .sew = sew_on_point,
                                     .presses = on_point_presses};
