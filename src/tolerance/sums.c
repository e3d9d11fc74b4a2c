/* The heaps of a quilt as sums: what goes in, which seams take from it, what is
 * trimmed. From what was sewn, not from the source. Read next: spread.c. */
#include "form.h"

/* One heap while its two sides are read. */
struct reading {
    struct arena *arena;
    struct sums *sums;
    const struct heap *heap;
    struct form *sides; /* of the heap */
};

/* With the allowance on both sides, as a ruler finds it. */
double heap_side(const struct sums *sums, size_t heap, int side)
{
    const struct heap *h = &sums->quilt->heaps.items[heap];
    return rational_double(side == ACROSS ? h->width : h->height) +
           2 * sums->seam;
}

/* Geese and squares in squares may be made so, too; they are heaps of their own
 * technique. */
bool is_flipped(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_CORNERS ||
           (heap->technique == TECHNIQUE_FLYING_GEESE &&
            heap->of.flying_geese.method == GEESE_CORNERS) ||
           (heap->technique == TECHNIQUE_SQUARE_IN_SQUARE &&
            heap->of.square_in_square.method == SQUARE_CORNERS);
}

/* The side of an input's heap that lies this way. */
static int side_of(const struct input *input, int side)
{
    return input->turn % 2 == 0 ? side : side == ACROSS ? DOWN : ACROSS;
}

/* What the input covers of the heap, without its allowance. */
static double finished(const struct reading *reading, const struct input *input,
                       int side)
{
    return heap_side(reading->sums, input->heap, side_of(input, side)) -
           2 * reading->sums->seam;
}

/* Finished. */
static double own_side(const struct reading *reading, int side)
{
    const struct heap *heap = reading->heap;
    return rational_double(side == ACROSS ? heap->width : heap->height);
}

/* The side of the input that lies this way goes in so often. */
static void take_input(const struct reading *reading, int side,
                       const struct input *input, double factor)
{
    take(reading->arena, &reading->sides[side], supply_heap(input->heap),
         side_of(input, side), factor);
}

/* A seam that is pressed to no side. */
static bool is_open(const struct sewn_seam *seam)
{
    return seam->seam.x == 0 && seam->seam.y == 0;
}

/* Is the heap's first seam pressed open? Of a technique all are alike. */
bool is_pressed_open(const struct heap *heap)
{
    return heap->actions.count > 0 && heap->actions.items[0].seams.count > 0 &&
           is_open(&heap->actions.items[0].seams.items[0]);
}

/* The seam that holds an input of a technique; each has one. */
static const struct sewn_seam *seam_before(const struct heap *heap,
                                           size_t input)
{
    for (size_t a = 0; a < heap->actions.count; a++) {
        const struct action *action = &heap->actions.items[a];
        for (size_t i = 0; i < action->seams.count; i++)
            if (action->seams.items[i].next == input)
                return &action->seams.items[i];
    }
    return NULL;
}

/* A trimmed unit is trimmed to its size on all sides. */
static void trim_both(const struct reading *reading)
{
    for (int side = ACROSS; side < SIDES; side++)
        trim_form(&reading->sides[side],
                  own_side(reading, side) + 2 * reading->sums->seam);
}

/* ---- techniques ---- */

/* A cut piece is what the mat says, and once the error of a cut. Border strips
 * are as long as the side that was measured: nothing reads their length. */
static void read_cut(const struct reading *reading)
{
    for (int side = ACROSS; side < SIDES; side++)
        reading->sides[side] = (struct form){.base = own_side(reading, side) +
                                                     2 * reading->sums->seam,
                                             .cuts = 1};
}

/* A square covers its share of the two sides of its corner. */
static void read_corners(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    for (int side = ACROSS; side < SIDES; side++)
        take_input(reading, side, &heap->inputs.items[0], 1);
    for (size_t i = 1; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct sewn_seam *seam = seam_before(heap, i);
        for (int side = ACROSS; side < SIDES; side++) {
            const int along = side == ACROSS ? DOWN : ACROSS;
            add_flap(reading->arena, &reading->sides[side],
                     supply_heap(input->heap), seam != NULL && is_open(seam),
                     finished(reading, input, along) /
                         own_side(reading, along));
        }
    }
}

/* Both sides alike: seam and fold run from corner to corner. */
static void read_pair(const struct reading *reading,
                      enum half_square_method method)
{
    const struct heap *heap = reading->heap;
    for (int side = ACROSS; side < SIDES; side++)
        pair_form(reading->arena, &reading->sides[side], method,
                  supply_heap(heap->inputs.items[0].heap),
                  supply_heap(heap->inputs.items[1].heap),
                  is_pressed_open(heap));
    if (method != METHOD_ONE)
        trim_both(reading);
}

/* Half-squares drawn out: a side has half of the rectangle's side that lies so,
 * and half of the other one's other side, as much shorter or longer as the unit
 * is. A seam of width q beside the slant takes q * slant / other side of it,
 * and the legs lie a seam off the edges that are trimmed. */
static void read_slant(const struct reading *reading)
{
    const struct input *inputs = reading->heap->inputs.items;
    for (int side = ACROSS; side < SIDES; side++) {
        struct form *form = &reading->sides[side];
        const int other = side == ACROSS ? DOWN : ACROSS;
        const double shape = own_side(reading, side) / own_side(reading, other);
        const double slant = sqrt(1 + squared(shape));
        take_input(reading, side, &inputs[0], 0.5);
        take(reading->arena, form, supply_heap(inputs[1].heap),
             side_of(&inputs[1], other), shape / 2);
        form->base += reading->sums->seam * (1 - shape);
        form->seams -= slant;
        form->stitches += squared(slant);
        add_fold(form, is_pressed_open(reading->heap), -slant / 2);
    }
    trim_both(reading);
}

/* The base lies level where the goose points up or down. Inputs: the large
 * square, then the far, the near and the free small one; the far one becomes
 * part of another goose. */
static void read_geese(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    const struct input *inputs = heap->inputs.items;
    const bool upright = heap->of.flying_geese.points == SIDE_TOP ||
                         heap->of.flying_geese.points == SIDE_BOTTOM;
    for (int side = ACROSS; side < SIDES; side++)
        geese_form(reading->arena, &reading->sides[side],
                   (side == ACROSS) == upright, supply_heap(inputs[0].heap),
                   supply_heap(inputs[2].heap), supply_heap(inputs[3].heap),
                   is_pressed_open(heap));
    trim_both(reading);
}

/* The center, then the squares that are cut into two triangles each. */
static void read_triangles(const struct reading *reading)
{
    const struct input *inputs = reading->heap->inputs.items;
    for (int side = ACROSS; side < SIDES; side++)
        triangles_form(reading->arena, &reading->sides[side],
                       supply_heap(inputs[0].heap), supply_heap(inputs[1].heap),
                       supply_heap(inputs[2].heap),
                       is_pressed_open(reading->heap));
    trim_both(reading);
}

/* Each strip is a flap on the one before it, and shifts all that follows; its
 * own width counts as much as it is long. What strips overlap is in the size of
 * the whole. */
static void read_diagonal(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    const int along = heap->piece->horizontal ? ACROSS : DOWN;
    const int across = along == DOWN ? ACROSS : DOWN;
    struct form *length = &reading->sides[along];
    double sum = 0;
    for (size_t i = 0; i < heap->inputs.count; i++)
        sum += finished(reading, &heap->inputs.items[i], along);
    length->base = own_side(reading, along) - sum;
    length->base -= 2 * reading->sums->seam * (double)(heap->inputs.count - 1);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        take_input(reading, along, input, 1);
        take_input(reading, across, input,
                   finished(reading, input, along) / sum);
        if (i == 0)
            continue;
        length->lines += ROOT2;
        length->stitches += 2;
        length->cuts += 0.5;
        add_fold(length, is_pressed_open(heap), -1 / ROOT2);
    }
}

/* ---- rows, columns, grids ---- */

/* How much of the whole an input has: finished sides add up. */
static double share_of(const struct reading *reading, size_t input, int side)
{
    return finished(reading, &reading->heap->inputs.items[input], side) /
           own_side(reading, side);
}

/* Rows are sewn first: of a row, widths add up and heights are eased to one
 * another; then heights of rows add up, and their widths are eased. */
static void read_cells(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    for (size_t i = 0; i < heap->inputs.count; i++) {
        take_input(reading, ACROSS, &heap->inputs.items[i],
                   share_of(reading, i, DOWN));
        take_input(reading, DOWN, &heap->inputs.items[i],
                   share_of(reading, i, ACROSS));
    }
}

/* A seam within a row counts as much as its row is high. */
static void read_row_seam(const struct reading *reading,
                          const struct sewn_seam *seam)
{
    const double share = share_of(reading, seam->next, DOWN);
    struct form *form = &reading->sides[ACROSS];
    form->seams -= 2 * share;
    form->stitches += 4 * share * share;
    add_fold(form, is_open(seam), -share);
}

/* Of a grid, both actions; of a row or a column, its one. */
static void read_join(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    read_cells(reading);
    for (size_t a = 0; a < heap->actions.count; a++) {
        const struct action *action = &heap->actions.items[a];
        for (size_t i = 0; i < action->seams.count; i++)
            if (action->operation->laid == LAID_ACROSS)
                read_row_seam(reading, &action->seams.items[i]);
            else
                add_seam(&reading->sides[DOWN],
                         is_open(&action->seams.items[i]));
    }
}

/* Cut to the side that was measured, so that nothing is eased; what lies at its
 * corners is as wide as its strips. */
static void read_border(const struct reading *reading)
{
    static const enum border_input strips[SIDES][2] = {
        {BORDER_LEFT, BORDER_RIGHT}, {BORDER_TOP, BORDER_BOTTOM}};
    const struct heap *heap = reading->heap;
    for (int side = ACROSS; side < SIDES; side++) {
        take_input(reading, side, &heap->inputs.items[BORDER_CENTER], 1);
        for (size_t i = 0; i < 2; i++) {
            take_input(reading, side, &heap->inputs.items[strips[side][i]], 1);
            add_seam(&reading->sides[side], is_pressed_open(heap));
        }
    }
}

/* What stands on a corner gives both its sides by the root of 2, and has seams
 * on all four. */
static void take_on_corner(const struct reading *reading, int side,
                           const struct input *input)
{
    struct form *form = &reading->sides[side];
    for (int own = ACROSS; own < SIDES; own++)
        take(reading->arena, form, supply_heap(input->heap),
             side_of(input, own), 1 / ROOT2);
    add_slanted_seams(form, is_pressed_open(reading->heap));
}

/* Along the first level line of blocks on point, and down the left one, which
 * are the first of their rows; with as many cornerstones between them, and half
 * of one at both ends. The points' distance to the edge is trimmed by a ruler. */
static void read_on_point(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    const struct on_point *of = heap->piece->on_point;
    const size_t every = of->sashed ? 2 : 1;
    for (int side = ACROSS; side < SIDES; side++) {
        const size_t blocks = side == ACROSS ? of->across : of->down;
        for (size_t i = 0; i < blocks; i++) {
            const size_t row =
                every * (side == ACROSS ? i : of->across - 1 + i) + every - 1;
            const size_t first = heap_row_begin(heap, row);
            const bool whole =
                heap->piece->cells.items[first].piece->shape == PATCH_WHOLE;
            take_on_corner(
                reading, side,
                &heap->inputs.items[first + !whole + (of->sashed ? 1 : 0)]);
            if (of->sashed)
                take_on_corner(
                    reading, side,
                    &heap->inputs.items[heap_row_begin(heap, row - 1)]);
        }
        reading->sides[side].base +=
            2 * rational_double(heap->of.join.excess) + 2 * reading->sums->seam;
    }
}

/* A place of a row is half a side wide, between seams at 60 degrees, each of
 * which takes twice its width by the sine; rows take seams as others do. A piece
 * is as wide as the way from one cut to the next. */
static void read_triangle_rows(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    const size_t cells = heap_row_end(heap, 0) - heap_row_begin(heap, 0);
    const bool open = is_pressed_open(heap);
    struct form *across = &reading->sides[ACROSS];
    across->base = own_side(reading, ACROSS) + 2 * reading->sums->seam;
    for (size_t i = 1; i < cells; i++) {
        across->base += 4 * reading->sums->seam / ROOT3;
        across->seams -= 4 / ROOT3;
        across->stitches += 16.0 / 3;
        across->cuts += 4.0 / 3;
        add_fold(across, open, -2 / ROOT3);
    }
    for (size_t row = 0; row < heap_down(heap); row++) {
        take_input(reading, DOWN,
                   &heap->inputs.items[heap_row_begin(heap, row)], 1);
        if (row > 0)
            add_seam(&reading->sides[DOWN], open);
    }
}

/* Two diamonds across, each as high as its strip less a seam on both sides, and
 * a star is 1 + root 2 times as wide as both; what is set in is eased to them.
 * Seams take what the strips have too much. */
static void read_star(const struct reading *reading)
{
    enum { DIAMONDS = 2, EDGES = 2 * DIAMONDS };
    const double factor = 1 + ROOT2;
    for (int side = ACROSS; side < SIDES; side++) {
        struct form *form = &reading->sides[side];
        form->base = own_side(reading, side) +
                     2 * reading->sums->seam +
                     EDGES * factor * reading->sums->seam;
        form->seams -= EDGES * factor;
        form->stitches += EDGES * factor * factor;
        form->cuts += DIAMONDS * factor * factor;
        add_fold(form, is_pressed_open(reading->heap), -EDGES * factor / 2);
    }
}

/* requires: forms that are empty. */
/* No default: a new technique is told by the compiler. */
static void read_heap(const struct reading *reading)
{
    const struct heap *heap = reading->heap;
    if (is_flipped(heap)) {
        read_corners(reading);
        return;
    }
    switch (heap->technique) {
    case TECHNIQUE_CUT:
        read_cut(reading);
        return;
    case TECHNIQUE_CORNERS: /* is flipped */
        return;
    case TECHNIQUE_DIAGONAL:
        read_diagonal(reading);
        return;
    case TECHNIQUE_HALF_SQUARE:
        read_pair(reading, heap->of.half_square.method);
        return;
    case TECHNIQUE_JOIN:
        read_join(reading);
        return;
    case TECHNIQUE_BORDER:
        read_border(reading);
        return;
    case TECHNIQUE_FLYING_GEESE:
        read_geese(reading);
        return;
    case TECHNIQUE_SQUARE_IN_SQUARE:
        read_triangles(reading);
        return;
    case TECHNIQUE_ON_POINT:
        read_on_point(reading);
        return;
    case TECHNIQUE_TRIANGLES:
        read_triangle_rows(reading);
        return;
    case TECHNIQUE_STAR:
        read_star(reading);
        return;
    case TECHNIQUE_QUARTER_SQUARE:
        read_pair(reading, heap->of.quarter_square.method);
        return;
    case TECHNIQUE_HALF_RECTANGLE:
        read_slant(reading);
        return;
    }
}

/* Once for a quilt; any number of hands sew it. */
struct sums *sums_of(struct arena *arena, const struct pattern *pattern,
                     const struct sewn_quilt *quilt)
{
    struct sums *sums = ARENA_NEW(arena, struct sums);
    *sums = (struct sums){
        pattern, quilt, rational_double(pattern->seam),
        ARENA_ARRAY(arena, struct form, SIDES * quilt->heaps.count)};
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct reading reading = {arena, sums, &quilt->heaps.items[i],
                                        &sums->forms[SIDES * i]};
        read_heap(&reading);
    }
    return sums;
}
