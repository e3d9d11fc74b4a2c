/* From joins inside of joins to one picture of parts that lie apart. Places are
 * exact; gaps are counted in whole parts of a gap and turned with the cloth.
 * May assume the heaps of one step, each taken by the next. Read next:
 * sewing_join.c.
 */
#include "exploded.h"

#include <string.h>

/* ---- quarter turns ---- */

/* The whole in itself: neither turned nor moved. */
struct placing placing_none(void)
{
    return (struct placing){1, 0, 0, 1, rational_whole(0), rational_whole(0)};
}

/* Clockwise; the turned rectangle has its corner at (x, y) again. */
static struct placing turned_by(unsigned turn, struct rational width,
                                struct rational height, struct rational x,
                                struct rational y)
{
    switch (turn % 4) {
    case 1:
        return (struct placing){0, -1, 1, 0, rational_add(x, height), y};
    case 2:
        return (struct placing){
            -1, 0, 0, -1, rational_add(x, width), rational_add(y, height)};
    case 3:
        return (struct placing){0, 1, -1, 0, x, rational_add(y, width)};
    default:
        return (struct placing){1, 0, 0, 1, x, y};
    }
}

/* A turn moves the upper left corner; so the cloth's own size is needed to put
 * it where the input says. */
struct placing placing_of(const struct sewn_quilt *quilt,
                          const struct input *input)
{
    const struct heap *heap = &quilt->heaps.items[input->heap];
    return turned_by(input->turn, heap->width, heap->height, input->x,
                     input->y);
}

/* Exact, as all sizes are until they are drawn. */
static struct vertex placed_point(struct placing p, struct vertex v)
{
    return (struct vertex){
        rational_add(p.x, rational_add(rational_times(v.x, p.xx),
                                       rational_times(v.y, p.xy))),
        rational_add(p.y, rational_add(rational_times(v.x, p.yx),
                                       rational_times(v.y, p.yy)))};
}

/* The matrix product of the turns; the inner move is turned by the outer. */
struct placing placing_then(struct placing inner, struct placing outer)
{
    const struct vertex at =
        placed_point(outer, (struct vertex){inner.x, inner.y});
    return (struct placing){outer.xx * inner.xx + outer.xy * inner.yx,
                            outer.xx * inner.xy + outer.xy * inner.yy,
                            outer.yx * inner.xx + outer.yy * inner.yx,
                            outer.yx * inner.xy + outer.yy * inner.yy,
                            at.x,
                            at.y};
}

/* How far a placing turns, clockwise. */
static unsigned placing_turn(struct placing p)
{
    return p.xx == 1 ? 0 : p.yx == 1 ? 1 : p.xx == -1 ? 2 : 3;
}

/* Fabric and side stay; the points are copied to the arena. */
struct face placed_face(struct arena *arena, struct face face,
                        struct placing placing)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count);
    for (size_t i = 0; i < face.count; i++)
        points[i] = placed_point(placing, face.points[i]);
    face.points = points;
    face.turn = (face.turn + placing_turn(placing)) % 4;
    return face;
}

/* ---- gaps ---- */

/* How many parts of a gap a heap takes across and down, laid out. */
struct gaps {
    int x, y;
};

struct explosion {
    struct arena *arena;
    const struct sewn_quilt *quilt;
    size_t step;
    struct exploded *out;
    struct gaps *gaps; /* of each heap, once they are known */
    bool *known;
    size_t *first; /* the number before the first seam of a heap */
};

static const struct heap *heap_of(const struct explosion *e, size_t index)
{
    return &e->quilt->heaps.items[index];
}

/* Sewn in the step itself, not brought to it. */
static bool is_inside(const struct explosion *e, size_t index)
{
    return heap_of(e, index)->step == e->step &&
           heap_of(e, index)->technique == TECHNIQUE_JOIN;
}

static struct gaps gaps_of(const struct explosion *e, size_t index);

/* Of one cell, as it lies turned. */
static struct gaps cell_gaps(const struct explosion *e,
                             const struct input *input)
{
    if (!is_inside(e, input->heap))
        return (struct gaps){0, 0};
    const struct gaps gaps = gaps_of(e, input->heap);
    return input->turn % 2 == 1 ? (struct gaps){gaps.y, gaps.x} : gaps;
}

/* Gaps before each column, or before each row, and in all behind the last. */
static int *offsets(const struct explosion *e, const struct heap *heap,
                    bool columns)
{
    const size_t across = heap->of.join.across;
    const size_t lines = columns ? across : heap->of.join.down;
    int *at = ARENA_ARRAY(e->arena, int, lines + 1);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct gaps gaps = cell_gaps(e, &heap->inputs.items[i]);
        const size_t line = columns ? i % across : i / across;
        const int own = columns ? gaps.x : gaps.y;
        at[line + 1] = at[line + 1] > own ? at[line + 1] : own;
    }
    for (size_t line = 0; line < lines; line++)
        at[line + 1] += at[line] + (line + 1 < lines ? GAP_PARTS : 0);
    return at;
}

/* In parts of a gap: what all rows and columns within it need together. */
static struct gaps gaps_of(const struct explosion *e, size_t index)
{
    const struct heap *heap = heap_of(e, index);
    if (!e->known[index]) /* asked for along both axes, at each level */
        e->gaps[index] =
            (struct gaps){offsets(e, heap, true)[heap->of.join.across],
                          offsets(e, heap, false)[heap->of.join.down]};
    e->known[index] = true;
    return e->gaps[index];
}

/* ---- laying out ---- */

/* Where a heap lies in the whole: its points, and its gaps, which may be spread
 * over more room than they need. */
struct lay {
    struct placing points;
    struct gaps origin;    /* of its first cell, in the whole */
    struct gaps own, room; /* as the heap lies itself, not turned */
};

/* A gap of the heap's own in the gaps of the whole. */
static struct gaps placed_gap(struct lay lay, int x, int y)
{
    x = lay.own.x == 0 ? lay.room.x / 2 : x * lay.room.x / lay.own.x;
    y = lay.own.y == 0 ? lay.room.y / 2 : y * lay.room.y / lay.own.y;
    const struct placing p = lay.points;
    /* A turned axis runs from its other end. */
    const int back_x =
        p.xx + p.xy < 0 ? (p.xx != 0 ? lay.room.x : lay.room.y) : 0;
    const int back_y =
        p.yx + p.yy < 0 ? (p.yy != 0 ? lay.room.y : lay.room.x) : 0;
    return (struct gaps){lay.origin.x + back_x + p.xx * x + p.xy * y,
                         lay.origin.y + back_y + p.yx * x + p.yy * y};
}

/* What is brought to the step: all of its cloth, as it comes. */
static void lay_part(const struct explosion *e, const struct input *input,
                     struct placing points, struct gaps gap)
{
    const struct heap *heap = heap_of(e, input->heap);
    const int part = (int)e->out->parts.count;
    const struct rational two = rational_whole(2);
    const struct vertex middle = {rational_div(heap->width, two),
                                  rational_div(heap->height, two)};
    *LIST_ADD(e->arena, &e->out->parts) =
        (struct exploded_part){input->heap, placing_turn(points),
                               placed_point(points, middle), gap.x, gap.y};
    for (size_t i = 0; i < heap->cloth->faces.count; i++)
        *LIST_ADD(e->arena, &e->out->laid.faces) = (struct shown_face){
            placed_face(e->arena, heap->cloth->faces.items[i], points), part,
            gap.x, gap.y};
}

/* Numbers go by the order of sewing: a heap that lies there twice has the same
 * numbers in both places, as both are sewn alike. */
static void number_seams(const struct explosion *e, const struct heap *heap,
                         struct lay lay)
{
    const size_t index = (size_t)(heap - e->quilt->heaps.items);
    const int *columns = offsets(e, heap, true);
    const int *rows = offsets(e, heap, false);
    const size_t across = heap->of.join.across;
    size_t number = e->first[index];
    for (size_t a = 0; a < heap->actions.count; a++) {
        const struct action *action = &heap->actions.items[a];
        const bool row = action->operation->laid == LAID_ACROSS;
        for (size_t i = 0; i < action->seams.count; i++) {
            const struct sewn_seam *sewn = &action->seams.items[i];
            const size_t column = sewn->next % across,
                         line = sewn->next / across;
            const int x =
                row ? columns[column] - GAP_PARTS / 2 : columns[across] / 2;
            const int y =
                row ? (rows[line] + rows[line + 1] -
                       (line + 1 < heap->of.join.down ? GAP_PARTS : 0)) /
                          2
                    : rows[line] - GAP_PARTS / 2;
            const struct gaps gap = placed_gap(lay, x, y);
            const struct rational two = rational_whole(2);
            const struct vertex middle = {
                rational_div(rational_add(sewn->seam.from.x, sewn->seam.to.x),
                             two),
                rational_div(rational_add(sewn->seam.from.y, sewn->seam.to.y),
                             two)};
            const struct placing p = lay.points;
            *LIST_ADD(e->arena, &e->out->seams) = (struct exploded_seam){
                ++number,
                placed_point(p, middle),
                gap.x,
                gap.y,
                row == (p.xx != 0),
                p.xx * sewn->seam.x + p.xy * sewn->seam.y,
                p.yx * sewn->seam.x + p.yy * sewn->seam.y};
        }
    }
}

/* The pressing of the heap's seams, in the whole. */
static void press_seams(const struct explosion *e, const struct heap *heap,
                        struct placing p)
{
    for (size_t a = 0; a < heap->actions.count; a++) {
        const struct state *after = &heap->actions.items[a].after;
        for (size_t i = 0; i < after->presses.count; i++) {
            const struct press_mark *mark = &after->presses.items[i];
            *LIST_ADD(e->arena, &e->out->sewn.presses) = (struct press_mark){
                .at = placed_point(p, mark->at),
                .end = placed_point(p, mark->end),
                .x = p.xx * mark->x + p.xy * mark->y,
                .y = p.yx * mark->x + p.yy * mark->y,
                .across_x = p.xx * mark->across_x + p.xy * mark->across_y,
                .across_y = p.yx * mark->across_x + p.yy * mark->across_y};
        }
    }
}

/* Many seams that are all pressed alike are told by one mark for those across
 * and one for those down: more would hide the quilt and say nothing new. */
static void thin_presses(struct state *sewn)
{
    enum { MANY = 8 };
    struct press_mark *marks = sewn->presses.items;
    const size_t count = sewn->presses.count;
    for (size_t i = 1; i < count; i++)
        if (marks[i].x != marks[0].x || marks[i].y != marks[0].y)
            return;
    if (count <= MANY)
        return;
    sewn->presses.count = 1;
    for (size_t i = 1; i < count && sewn->presses.count == 1; i++)
        if ((marks[i].across_x == 0) != (marks[0].across_x == 0))
            marks[sewn->presses.count++] = marks[i];
}

/* Recursive: heaps that are sewn within the step are laid out cell by cell, all
 * others are parts. Each gets the room that its row and column leave it,
 * measured in the whole, and turned back where it lies on its side. */
static void lay_heap(const struct explosion *e, size_t index, struct lay lay)
{
    const struct heap *heap = heap_of(e, index);
    const int *columns = offsets(e, heap, true);
    const int *rows = offsets(e, heap, false);
    const size_t across = heap->of.join.across;
    lay.own = (struct gaps){columns[across], rows[heap->of.join.down]};
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const size_t column = i % across, line = i / across;
        const struct placing points =
            placing_then(placing_of(e->quilt, input), lay.points);
        /* A row of few parts spreads over all of its line; a part lies in the
         * middle of it. */
        const int wide = columns[column + 1] - columns[column] -
                         (column + 1 < across ? GAP_PARTS : 0);
        const int high = rows[line + 1] - rows[line] -
                         (line + 1 < heap->of.join.down ? GAP_PARTS : 0);
        if (!is_inside(e, input->heap)) {
            lay_part(e, input, points,
                     placed_gap(lay, columns[column] + wide / 2,
                                rows[line] + high / 2));
            continue;
        }
        const struct gaps from = placed_gap(lay, columns[column], rows[line]);
        const struct gaps to =
            placed_gap(lay, columns[column] + wide, rows[line] + high);
        const struct gaps room = {to.x > from.x ? to.x - from.x : from.x - to.x,
                                  to.y > from.y ? to.y - from.y
                                                : from.y - to.y};
        const bool turned = points.xx == 0;
        lay_heap(e, input->heap,
                 (struct lay){points,
                              {from.x < to.x ? from.x : to.x,
                               from.y < to.y ? from.y : to.y},
                              {0, 0},
                              turned ? (struct gaps){room.y, room.x} : room});
    }
    press_seams(e, heap, lay.points);
    number_seams(e, heap, lay);
}

/* Seams are counted first, for all heaps of the step in their order, so that a
 * seam has its number whatever place it is met at. */
struct exploded explode(struct arena *arena, const struct sewn_quilt *quilt,
                        const struct told_step *step)
{
    struct exploded out = {.gaps_x = 0};
    const size_t count = quilt->heaps.count;
    struct explosion e = {.arena = arena,
                          .quilt = quilt,
                          .step = step->number,
                          .out = &out,
                          .gaps = ARENA_ARRAY(arena, struct gaps, count),
                          .known = ARENA_ARRAY(arena, bool, count),
                          .first = ARENA_ARRAY(arena, size_t, count)};
    size_t seams = 0;
    for (size_t i = 0; i < step->heaps.count; i++) {
        const struct heap *heap = heap_of(&e, step->heaps.items[i]);
        e.first[step->heaps.items[i]] = seams;
        for (size_t a = 0; a < heap->actions.count; a++)
            seams += heap->actions.items[a].seams.count;
    }
    const struct gaps gaps = gaps_of(&e, step->heap);
    lay_heap(&e, step->heap, (struct lay){placing_none(), {0, 0}, gaps, gaps});
    thin_presses(&out.sewn);
    out.gaps_x = gaps.x;
    out.gaps_y = gaps.y;
    const struct cloth *cloth = heap_of(&e, step->heap)->cloth;
    for (size_t i = 0; i < cloth->faces.count; i++)
        *LIST_ADD(arena, &out.sewn.faces) =
            (struct shown_face){cloth->faces.items[i], WHOLE, 0, 0};
    return out;
}

unsigned shown_turn(const struct sewn_quilt *quilt,
                    const struct exploded_part *part)
{
    const struct heap *heap = &quilt->heaps.items[part->heap];
    return heap->technique == TECHNIQUE_CUT ? 0 : part->turn % heap->symmetry;
}
