/* The work of hands on virtual cloth: each kind of heap is a short program of
 * the operations in cloth.h, and what is seen before and after each action is
 * kept for the figures. */
#include "press.h"
#include "sewer.h"

struct bench {
    struct sewer *sewer;
    struct arena *arena;
    struct heap *heap;
    struct rational seam;
};

static struct bench bench_for(struct sewer *sewer, struct heap *heap)
{
    return (struct bench){sewer, sewer->run->arena, heap,
                          sewer->sized->design->pattern->seam};
}

/* An input's cloth, turned and put where it lies. */
static struct cloth *placed(const struct bench *bench,
                            const struct input *input)
{
    const struct heap *heap = heap_at(bench->sewer, input->heap);
    struct cloth *cloth = cloth_oriented(
        bench->arena, heap->cloth, (struct orientation){input->turn, false});
    return cloth_moved(bench->arena, cloth, input->x, input->y);
}

static void show(const struct bench *bench, struct state *state,
                 const struct cloth *cloth, int part, int gap_x, int gap_y)
{
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct shown_face *shown = LIST_ADD(bench->arena, &state->faces);
        *shown = (struct shown_face){cloth->faces.items[i], part, gap_x, gap_y};
    }
}

static void mark_line(const struct bench *bench, struct state *state,
                      enum mark_kind kind, struct vertex from, struct vertex to)
{
    *LIST_ADD(bench->arena, &state->marks) = (struct mark){kind, from, to};
}

static struct vertex moved(struct vertex v, struct rational x,
                           struct rational y)
{
    return (struct vertex){rational_add(v.x, x), rational_add(v.y, y)};
}

static struct action *add_action(const struct bench *bench,
                                 enum action_kind kind)
{
    struct action *action = LIST_ADD(bench->arena, &bench->heap->actions);
    action->kind = kind;
    return action;
}

static void add_part(const struct bench *bench, struct action *action,
                     size_t input)
{
    *LIST_ADD(bench->arena, &action->parts) = input;
}

/* The ends of the diagonal of a square with its top left finished corner at
 * (x, y), drawn over its seam allowances from corner to corner. */
static void square_diagonal(const struct bench *bench, struct rational x,
                            struct rational y, struct rational size,
                            enum line_direction line, struct vertex *p,
                            struct vertex *q)
{
    const struct rational left = rational_sub(x, bench->seam);
    const struct rational top = rational_sub(y, bench->seam);
    const struct rational right =
        rational_add(rational_add(x, size), bench->seam);
    const struct rational bottom =
        rational_add(rational_add(y, size), bench->seam);
    const bool rising = line == LINE_RISING;
    *p = (struct vertex){left, rising ? bottom : top};
    *q = (struct vertex){right, rising ? top : bottom};
}

/* The line beside the diagonal from p to q of a square, a seam's width across
 * to the side (x, y), as far as the square goes. A width of s across a diagonal
 * is s * sqrt 2 along an edge; for drawing that may be rounded. */
static void mark_beside(const struct bench *bench, struct state *state,
                        enum mark_kind kind, struct vertex p, struct vertex q,
                        int x, int y)
{
    const struct rational along =
        rational_root2_below(rational_whole(0), bench->seam);
    const struct rational zero = rational_whole(0);
    const struct rational down = rational_times(along, y);
    if (x > 0)
        mark_line(bench, state, kind, moved(p, along, zero),
                  moved(q, zero, down));
    else
        mark_line(bench, state, kind, moved(p, zero, down),
                  moved(q, rational_times(along, -1), zero));
}

/* A seam on a drawn diagonal, and the cut beside it, towards the waste. */
static void mark_seam(const struct bench *bench, struct state *state,
                      struct vertex p, struct vertex q, int waste_x,
                      int waste_y)
{
    mark_line(bench, state, MARK_DRAWN, p, q);
    mark_line(bench, state, MARK_SEWN, p, q);
    mark_beside(bench, state, MARK_CUT, p, q, waste_x, waste_y);
}

/* ---- stitch-and-flip corners ---- */

struct flap {
    const struct input *input;
    struct vertex p, q; /* the drawn line, corner to corner of the square */
    struct half_plane inside; /* of the seam, away from the corner */
    int waste_x, waste_y;     /* towards the corner */
};

static struct flap corner_flap(const struct bench *bench,
                               const struct input *input)
{
    struct flap flap = {.input = input};
    const struct rational size = input_width(bench->sewer, input);
    square_diagonal(bench, input->x, input->y, size, corner_line(input->at),
                    &flap.p, &flap.q);
    flap.waste_x = input->at == TOP_RIGHT || input->at == BOTTOM_RIGHT ? 1 : -1;
    flap.waste_y =
        input->at == BOTTOM_LEFT || input->at == BOTTOM_RIGHT ? 1 : -1;
    /* p is the left end, so the left hand is above the line. */
    const struct half_plane above = half_plane_left(flap.p, flap.q);
    flap.inside = flap.waste_y < 0 ? half_plane_other(above) : above;
    return flap;
}

/* The square as it is laid: right sides together, so its wrong side shows. */
static struct cloth *laid_square(const struct bench *bench,
                                 const struct flap *flap)
{
    struct cloth *square = placed(bench, flap->input);
    for (size_t i = 0; i < square->faces.count; i++)
        square->faces.items[i].wrong_side = true;
    return square;
}

/* Sew on the line, trim both layers, press the inner half over the seam. */
static struct cloth *flip_corner(const struct bench *bench,
                                 const struct cloth *base,
                                 const struct flap *flap)
{
    struct cloth *result = cloth_clipped(bench->arena, base, flap->inside);
    struct cloth *inner =
        cloth_clipped(bench->arena, laid_square(bench, flap), flap->inside);
    cloth_add_all(bench->arena, result,
                  cloth_flipped(bench->arena, inner, flap->p, flap->q));
    return result;
}

/* Do two squares overlap, seam allowances included? Then they are sewn one
 * after the other. */
static bool squares_overlap(const struct bench *bench, const struct input *a,
                            const struct input *b)
{
    const struct rational seams = rational_times(bench->seam, 2);
    const struct rational size_a = input_width(bench->sewer, a);
    const struct rational size_b = input_width(bench->sewer, b);
    return rational_compare(
               a->x, rational_add(rational_add(b->x, size_b), seams)) < 0 &&
           rational_compare(
               b->x, rational_add(rational_add(a->x, size_a), seams)) < 0 &&
           rational_compare(
               a->y, rational_add(rational_add(b->y, size_b), seams)) < 0 &&
           rational_compare(
               b->y, rational_add(rational_add(a->y, size_a), seams)) < 0;
}

static struct vertex middle(struct vertex p, struct vertex q)
{
    const struct rational half = rational_make(1, 2);
    return (struct vertex){rational_mul(rational_add(p.x, q.x), half),
                           rational_mul(rational_add(p.y, q.y), half)};
}

/* The stitch line of a drawn diagonal, from corner to corner of the finished
 * square at (x, y), pressed as the action's last mark says. */
static void add_diagonal_seam(const struct bench *bench, struct cloth *cloth,
                              const struct action *action, struct rational x,
                              struct rational y, struct rational size,
                              enum line_direction line)
{
    const struct press_mark *press =
        &action->after.presses.items[action->after.presses.count - 1];
    const struct rational right = rational_add(x, size);
    const struct rational bottom = rational_add(y, size);
    const bool rising = line == LINE_RISING;
    cloth_add_seam(bench->arena, cloth,
                   (struct seam){.from = {x, rising ? bottom : y},
                                 .to = {right, rising ? y : bottom},
                                 .x = press->x,
                                 .y = press->y});
}

/* The flap turns over its seam. The mark crosses the line towards its right
 * end, so that words have room at the left one. */
static void mark_turn(const struct bench *bench, struct state *state,
                      struct vertex p, struct vertex q, struct rational size,
                      int x, int y)
{
    const struct rational reach = rational_div(size, rational_whole(7));
    const struct rational along = rational_make(18, 25);
    const struct vertex at =
        moved(p, rational_mul(rational_sub(q.x, p.x), along),
              rational_mul(rational_sub(q.y, p.y), along));
    const struct rational dx = rational_times(reach, x);
    const struct rational dy = rational_times(reach, y);
    *LIST_ADD(bench->arena, &state->turns) = (struct turn_mark){
        moved(at, rational_times(dx, -1), rational_times(dy, -1)),
        moved(at, dx, dy)};
}

static void press_corner(const struct bench *bench, struct action *action,
                         const struct flap *flap)
{
    const bool open = action->press.side == PRESS_OPEN;
    *LIST_ADD(bench->arena, &action->after.presses) =
        (struct press_mark){.at = middle(flap->p, flap->q),
                            .x = open ? 0 : flap->waste_x,
                            .y = open ? 0 : flap->waste_y,
                            .across_x = flap->waste_x,
                            .across_y = flap->waste_y};
}

/* One action: the corners from `first` on that do not overlap each other. */
static size_t sew_corners(const struct bench *bench, struct cloth **cloth,
                          size_t first)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, ACTION_FLIP_CORNER);
    choose_press(bench->sewer, heap, action);
    add_part(bench, action, 0);
    action->at = heap->inputs.items[first].at;
    action->line = corner_line(action->at);
    /* What has a corner already is no longer the piece that was cut. */
    show(bench, &action->before, *cloth, first == 1 ? 0 : WHOLE, 0, 0);
    size_t last = first;
    for (; last < heap->inputs.count; last++) {
        const struct input *input = &heap->inputs.items[last];
        for (size_t k = first; k < last; k++)
            if (squares_overlap(bench, input, &heap->inputs.items[k]))
                goto laid;
        const struct flap flap = corner_flap(bench, input);
        add_part(bench, action, last);
        show(bench, &action->before, laid_square(bench, &flap), (int)last, 0,
             0);
        mark_seam(bench, &action->before, flap.p, flap.q, flap.waste_x,
                  flap.waste_y);
        const struct rational size = input_width(bench->sewer, input);
        mark_turn(bench, &action->before, flap.p, flap.q, size, flap.waste_x,
                  flap.waste_y);
        *cloth = flip_corner(bench, *cloth, &flap);
        press_corner(bench, action, &flap);
        add_diagonal_seam(bench, *cloth, action, input->x, input->y, size,
                          corner_line(input->at));
    }
laid:
    show(bench, &action->after, *cloth, WHOLE, 0, 0);
    return last;
}

static void sew_corner_heap(const struct bench *bench)
{
    struct cloth *cloth = placed(bench, &bench->heap->inputs.items[0]);
    for (size_t next = 1; next < bench->heap->inputs.count;)
        next = sew_corners(bench, &cloth, next);
    bench->heap->cloth = cloth;
}

/* ---- strips joined by diagonal seams ---- */

/* Lay the next strip at a right angle, right sides together, sew across the
 * overlap from corner to corner, trim, press. */
static void join_strip(const struct bench *bench, struct cloth **cloth,
                       size_t next)
{
    struct heap *heap = bench->heap;
    const bool across = heap->piece->horizontal;
    const struct input *input = &heap->inputs.items[next];
    const struct rational width = across ? heap->height : heap->width;
    struct action *action = add_action(bench, ACTION_JOIN_DIAGONAL);
    action->line = heap->line;
    choose_press(bench->sewer, heap, action);
    struct vertex p, q;
    square_diagonal(bench, input->x, input->y, width, heap->line, &p, &q);
    const struct half_plane above = half_plane_left(p, q);
    /* What was sewn so far lies above the line, or, in a strip that runs
     * across and whose line falls, below it. */
    const bool so_far_above = !across || heap->line == LINE_RISING;
    const struct half_plane keep =
        so_far_above ? above : half_plane_other(above);
    struct cloth *strip = placed(bench, input);
    struct cloth *laid = cloth_flipped(bench->arena, strip, p, q);
    add_part(bench, action, next - 1);
    add_part(bench, action, next);
    show(bench, &action->before, *cloth, next == 1 ? 0 : WHOLE, 0, 0);
    show(bench, &action->before, laid, (int)next, 0, 0);
    const int waste_y = so_far_above ? 1 : -1;
    const int waste_x = heap->line == LINE_RISING ? waste_y : -waste_y;
    mark_seam(bench, &action->before, p, q, waste_x, waste_y);
    struct cloth *joined = cloth_clipped(bench->arena, *cloth, keep);
    cloth_add_all(bench->arena, joined,
                  cloth_clipped(bench->arena, strip, half_plane_other(keep)));
    *cloth = joined;
    show(bench, &action->after, joined, WHOLE, 0, 0);
    mark_turn(bench, &action->before, p, q, width, waste_x, waste_y);
    press_diagonal(bench->sewer, heap, action, middle(p, q), waste_x, waste_y,
                   next);
    add_diagonal_seam(bench, joined, action, input->x, input->y, width,
                      heap->line);
}

static void sew_diagonal_heap(const struct bench *bench)
{
    struct cloth *cloth = placed(bench, &bench->heap->inputs.items[0]);
    for (size_t next = 1; next < bench->heap->inputs.count; next++)
        join_strip(bench, &cloth, next);
    bench->heap->cloth = cloth;
}

/* ---- half-squares ---- */

/* Method two: draw the diagonal, sew a seam's width on both sides of it, cut
 * on it. Method one: sew on it, trim one side. */
static void mark_half_square(const struct bench *bench, struct state *state,
                             struct vertex p, struct vertex q)
{
    const struct heap *heap = bench->heap;
    const int down = heap->line == LINE_RISING ? 1 : -1;
    if (heap->method == METHOD_ONE) {
        mark_seam(bench, state, p, q, 1, down);
        return;
    }
    mark_line(bench, state, MARK_DRAWN, p, q);
    mark_line(bench, state, MARK_CUT, p, q);
    mark_beside(bench, state, MARK_SEWN, p, q, 1, down);
    mark_beside(bench, state, MARK_SEWN, p, q, -1, -down);
}

static void sew_half_square(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    struct arena *arena = bench->arena;
    struct action *action = add_action(bench, ACTION_HALF_SQUARE);
    action->line = heap->line;
    choose_press(bench->sewer, heap, action);
    const struct cloth *base =
        heap_at(bench->sewer, heap->inputs.items[0].heap)->cloth;
    struct cloth *laid = cloth_moved(
        arena, heap_at(bench->sewer, heap->inputs.items[1].heap)->cloth,
        rational_whole(0), rational_whole(0));
    for (size_t i = 0; i < laid->faces.count; i++)
        laid->faces.items[i].wrong_side = true;
    add_part(bench, action, 0);
    add_part(bench, action, 1);
    show(bench, &action->before, base, 0, 0, 0);
    show(bench, &action->before, laid, 1, 0, 0);
    struct vertex p, q;
    square_diagonal(bench, rational_whole(0), rational_whole(0), base->width,
                    heap->line, &p, &q);
    mark_half_square(bench, &action->before, p, q);
    /* Trimmed about the diagonal, which stays in its corners. */
    square_diagonal(bench, rational_whole(0), rational_whole(0), heap->width,
                    heap->line, &p, &q);
    const struct half_plane above = half_plane_left(p, q);
    const struct half_plane left =
        heap->line == LINE_RISING ? above : half_plane_other(above);
    struct cloth *cloth = cloth_rectangle(arena, heap->left, heap->width,
                                          heap->height, bench->seam);
    struct cloth *right = cloth_rectangle(arena, heap->right, heap->width,
                                          heap->height, bench->seam);
    cloth = cloth_clipped(arena, cloth, left);
    cloth_add_all(arena, cloth,
                  cloth_clipped(arena, right, half_plane_other(left)));
    heap->cloth = cloth;
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    press_diagonal(bench->sewer, heap, action, middle(p, q), 1,
                   heap->line == LINE_RISING ? 1 : -1, 1);
    add_diagonal_seam(bench, cloth, action, rational_whole(0),
                      rational_whole(0), heap->width, heap->line);
}

/* ---- rows, columns, grids ---- */

/* A part's cloth without the allowances that seams inside the heap take. */
static struct cloth *joined_part(const struct bench *bench,
                                 const struct input *input)
{
    const struct heap *heap = bench->heap;
    const struct rational one = rational_whole(1), zero = rational_whole(0);
    const struct rational minus = rational_whole(-1);
    const struct rational right =
        rational_add(input->x, input_width(bench->sewer, input));
    const struct rational bottom =
        rational_add(input->y, input_height(bench->sewer, input));
    struct cloth *cloth = placed(bench, input);
    if (rational_sign(input->x) > 0)
        cloth = cloth_clipped(
            bench->arena, cloth,
            (struct half_plane){minus, zero, rational_times(input->x, -1)});
    if (rational_sign(input->y) > 0)
        cloth = cloth_clipped(
            bench->arena, cloth,
            (struct half_plane){zero, minus, rational_times(input->y, -1)});
    if (rational_compare(right, heap->width) < 0)
        cloth = cloth_clipped(bench->arena, cloth,
                              (struct half_plane){one, zero, right});
    if (rational_compare(bottom, heap->height) < 0)
        cloth = cloth_clipped(bench->arena, cloth,
                              (struct half_plane){zero, one, bottom});
    return cloth;
}

static void join_across(const struct bench *bench,
                        const struct cloth *const *joined)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, ACTION_JOIN_ROW);
    choose_press(bench->sewer, heap, action);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const int column = (int)(i % heap->across),
                  row = (int)(i / heap->across);
        add_part(bench, action, i);
        show(bench, &action->before, placed(bench, &heap->inputs.items[i]),
             (int)i, column, row);
        show(bench, &action->after, joined[i], WHOLE, 0, row);
        if (column > 0)
            press_join(bench->sewer, heap, action, i, false);
    }
}

static void join_down(const struct bench *bench,
                      const struct cloth *const *joined)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, ACTION_JOIN_COLUMN);
    choose_press(bench->sewer, heap, action);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t row = i / heap->across;
        const int part = heap->across == 1 ? (int)i : WHOLE;
        if (heap->across == 1)
            add_part(bench, action, i);
        show(bench, &action->before,
             heap->across == 1 ? placed(bench, &heap->inputs.items[i])
                               : joined[i],
             part, 0, (int)row);
        show(bench, &action->after, joined[i], WHOLE, 0, 0);
        if (row > 0 && i % heap->across == 0)
            press_join(bench->sewer, heap, action, i, true);
    }
}

/* The seams of the joints themselves, pressed as the marks say. A mark lies on
 * its seam: one before each part of a row, one above each row. */
static void add_joint_seams(const struct bench *bench, struct cloth *cloth)
{
    const struct heap *heap = bench->heap;
    const struct rational half = rational_make(1, 2);
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        const bool row = action->kind == ACTION_JOIN_ROW;
        size_t part = 0;
        for (size_t k = 0; k < action->after.presses.count; k++) {
            const struct press_mark *mark = &action->after.presses.items[k];
            part += part % heap->across == 0; /* no seam before the first */
            const struct rational reach = rational_mul(
                row ? input_height(bench->sewer, &heap->inputs.items[part])
                    : heap->width,
                half);
            const struct rational zero = rational_whole(0);
            const struct rational dx = row ? zero : reach;
            const struct rational dy = row ? reach : zero;
            cloth_add_seam(bench->arena, cloth,
                           (struct seam){moved(mark->at, rational_times(dx, -1),
                                               rational_times(dy, -1)),
                                         moved(mark->at, dx, dy), mark->x,
                                         mark->y});
            part++;
        }
    }
}

static void sew_join(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    const struct cloth **joined =
        ARENA_ARRAY(bench->arena, const struct cloth *, heap->inputs.count);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        joined[i] = joined_part(bench, &heap->inputs.items[i]);
        cloth_add_all(bench->arena, whole, joined[i]);
    }
    if (heap->across > 1)
        join_across(bench, joined);
    if (heap->down > 1)
        join_down(bench, joined);
    heap->cloth = whole;
    add_joint_seams(bench, whole);
    check_joints(bench->sewer, heap, joined);
}

void sew_heap(struct sewer *sewer, struct heap *heap)
{
    const struct bench bench = bench_for(sewer, heap);
    switch (heap->work) {
    case WORK_CUT:
        heap->cloth = cloth_rectangle(bench.arena, heap->fabric, heap->width,
                                      heap->height, bench.seam);
        return;
    case WORK_CORNERS:
        sew_corner_heap(&bench);
        break;
    case WORK_DIAGONAL:
        sew_diagonal_heap(&bench);
        break;
    case WORK_HALF_SQUARE:
        sew_half_square(&bench);
        break;
    case WORK_JOIN:
        sew_join(&bench);
        break;
    }
    struct cloth *cloth = cloth_moved(bench.arena, heap->cloth,
                                      rational_whole(0), rational_whole(0));
    cloth->width = heap->width;
    cloth->height = heap->height;
    heap->cloth = cloth;
    verify_outline(sewer, heap);
}
