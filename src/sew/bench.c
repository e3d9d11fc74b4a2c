/* What all work on the bench has in common: laying out, marking, keeping what
 * is seen. The contracts stand in bench.h. */
#include "bench.h"

/* An input's cloth, turned and put where it lies. */
struct cloth *placed(const struct bench *bench, const struct input *input)
{
    const struct heap *heap = heap_at(bench->sewer, input->heap);
    struct cloth *cloth = cloth_oriented(
        bench->arena, heap->cloth, (struct orientation){input->turn, false});
    return cloth_moved(bench->arena, cloth, input->x, input->y);
}

/* Faces are copied, their points shared: cloth is never changed once made. */
void show(const struct bench *bench, struct state *state,
          const struct cloth *cloth, int part, int gap_x, int gap_y)
{
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct shown_face *shown = LIST_ADD(bench->arena, &state->faces);
        *shown = (struct shown_face){cloth->faces.items[i], part, gap_x, gap_y};
    }
}

void mark_line(const struct bench *bench, struct state *state,
               enum mark_kind kind, struct vertex from, struct vertex to)
{
    *LIST_ADD(bench->arena, &state->marks) = (struct mark){kind, from, to};
}

struct vertex moved(struct vertex v, struct rational x, struct rational y)
{
    return (struct vertex){rational_add(v.x, x), rational_add(v.y, y)};
}

/* Zeroed: states are filled with show and mark_line while the work goes on. */
struct action *add_action(const struct bench *bench, enum action_kind kind)
{
    struct action *action = LIST_ADD(bench->arena, &bench->heap->actions);
    action->kind = kind;
    return action;
}

void add_part(const struct bench *bench, struct action *action, size_t input)
{
    *LIST_ADD(bench->arena, &action->parts) = input;
}

/* The ends of the diagonal of a square with its top left finished corner at
 * (x, y), drawn over its seam allowances from corner to corner. */
void square_diagonal(const struct bench *bench, struct rational x,
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
    /* p is the left end in either direction, so half_plane_left is above. */
    *p = (struct vertex){left, rising ? bottom : top};
    *q = (struct vertex){right, rising ? top : bottom};
}

struct rational diagonal_offset(const struct bench *bench)
{
    return rational_mul(bench->seam, rational_make(47321, 33461));
}

/* The line beside the diagonal from p to q of a square, a seam's width across
 * to the side (x, y), as far as the square goes. A width of s across a diagonal
 * is s * sqrt 2 along an edge; for drawing that may be rounded. */
void mark_beside(const struct bench *bench, struct state *state,
                 enum mark_kind kind, struct vertex p, struct vertex q, int x,
                 int y)
{
    const struct rational along = diagonal_offset(bench);
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
void mark_seam(const struct bench *bench, struct state *state, struct vertex p,
               struct vertex q, int waste_x, int waste_y)
{
    mark_line(bench, state, MARK_DRAWN, p, q);
    mark_line(bench, state, MARK_SEWN, p, q);
    mark_beside(bench, state, MARK_CUT, p, q, waste_x, waste_y);
}

struct vertex middle(struct vertex p, struct vertex q)
{
    const struct rational half = rational_make(1, 2);
    return (struct vertex){rational_mul(rational_add(p.x, q.x), half),
                           rational_mul(rational_add(p.y, q.y), half)};
}

/* The stitch line of a drawn diagonal, from corner to corner of the finished
 * square at (x, y), pressed as the action's last mark says. */
void add_diagonal_seam(const struct bench *bench, struct cloth *cloth,
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
                                 .y = press->y,
                                 .stated = !action->pressed_by_rule});
}

/* The flap turns over its seam. The mark crosses the line towards its right
 * end, so that words have room at the left one. */
void mark_turn(const struct bench *bench, struct state *state, struct vertex p,
               struct vertex q, struct rational size, int x, int y)
{
    /* Short enough to stay on the smallest flap, long enough for a bow. */
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
