/* What all work on the bench has in common: laying out, marking, keeping what
 * is seen. The contracts stand in bench.h. */
#include "bench.h"

#include <stdlib.h>

static int by_fabric(const void *a, const void *b)
{
    const struct face *x = *(const struct face *const *)a;
    const struct face *y = *(const struct face *const *)b;
    if (x->fabric != y->fabric)
        return x->fabric < y->fabric ? -1 : 1;
    return x < y ? -1 : x > y;
}

/* What comes from a heap lies in one layer, so its faces may be drawn in any
 * order: those of one fabric together, which a figure then fills at once. */
static struct cloth *fabric_by_fabric(struct arena *arena, struct cloth *cloth)
{
    const size_t count = cloth->faces.count;
    bool sorted_already = true;
    for (size_t i = 1; i < count; i++)
        sorted_already &=
            cloth->faces.items[i - 1].fabric <= cloth->faces.items[i].fabric;
    if (sorted_already)
        return cloth;
    const struct face **order = ARENA_ARRAY(arena, const struct face *, count);
    for (size_t i = 0; i < count; i++)
        order[i] = &cloth->faces.items[i];
    qsort(order, count, sizeof *order, by_fabric);
    struct cloth *sorted = ARENA_NEW(arena, struct cloth);
    *sorted = *cloth;
    sorted->faces.items = ARENA_ARRAY(arena, struct face, count);
    sorted->faces.capacity = count;
    for (size_t i = 0; i < count; i++)
        sorted->faces.items[i] = *order[i];
    return sorted;
}

struct cloth *placed(const struct bench *bench, const struct input *input)
{
    const struct heap *heap = heap_at(bench->sewer, input->heap);
    const struct cloth *cloth = heap->cloth;
    if (input->turn != 0)
        cloth = cloth_oriented(bench->arena, cloth,
                               (struct orientation){input->turn, false});
    return fabric_by_fabric(
        bench->arena, cloth_moved(bench->arena, cloth, input->x, input->y));
}

/* An edge on the outline of the heap keeps its allowance, which a later seam
 * takes. */
const struct cloth *seen_input(const struct bench *bench, size_t index,
                               const struct cloth *all)
{
    const struct input *input = &bench->heap->inputs.items[index];
    const struct rational width = input_width(bench->sewer, input);
    const struct rational height = input_height(bench->sewer, input);
    struct rational left = input->x, top = input->y;
    struct rational right = rational_add(left, width);
    struct rational bottom = rational_add(top, height);
    if (rational_sign(left) == 0)
        left = rational_times(bench->seam, -1);
    if (rational_sign(top) == 0)
        top = rational_times(bench->seam, -1);
    if (rational_equal(right, bench->heap->width))
        right = rational_add(right, bench->seam);
    if (rational_equal(bottom, bench->heap->height))
        bottom = rational_add(bottom, bench->seam);
    return cloth_within(bench->arena, all,
                        outline_rectangle(bench->arena, left, top,
                                          rational_sub(right, left),
                                          rational_sub(bottom, top)));
}

/* Faces are copied, their points shared: cloth is never changed once made. */
void show(const struct bench *bench, struct state *state,
          const struct cloth *cloth, int part, int gap_x, int gap_y)
{
    for (size_t i = 0; !bench->sewer->run->unseen && i < cloth->faces.count;
         i++) {
        struct shown_face *shown = LIST_ADD(bench->arena, &state->faces);
        *shown = (struct shown_face){cloth->faces.items[i], part, gap_x, gap_y};
    }
}

void mark_line(const struct bench *bench, struct state *state,
               enum mark_kind kind, struct vertex from, struct vertex to)
{
    *LIST_ADD(bench->arena, &state->marks) =
        (struct mark){.kind = kind, .from = from, .to = to};
}

struct vertex moved(struct vertex v, struct rational x, struct rational y)
{
    return (struct vertex){rational_add(v.x, x), rational_add(v.y, y)};
}

/* Zeroed: states are filled with show and mark_line while the work goes on. */
struct action *add_action(const struct bench *bench,
                          const struct operation *operation)
{
    struct action *action = LIST_ADD(bench->arena, &bench->heap->actions);
    action->operation = operation;
    choose_press(bench->sewer, bench->heap, action);
    return action;
}

void add_part(const struct bench *bench, struct action *action, size_t input)
{
    *LIST_ADD(bench->arena, &action->parts) = input;
}

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

void beside(struct vertex *p, struct vertex *q, struct rational along, int x,
            int y)
{
    const struct rational zero = rational_whole(0);
    const struct rational down = rational_times(along, y);
    const struct vertex from = *p, to = *q;
    *p = x > 0 ? moved(from, along, zero) : moved(from, zero, down);
    *q = x > 0 ? moved(to, zero, down)
               : moved(to, rational_times(along, -1), zero);
}

void mark_beside(const struct bench *bench, struct state *state,
                 enum mark_kind kind, struct vertex p, struct vertex q, int x,
                 int y)
{
    beside(&p, &q, diagonal_offset(bench), x, y);
    mark_line(bench, state, kind, p, q);
    if (kind == MARK_CUT) {
        struct mark *cut = &state->marks.items[state->marks.count - 1];
        cut->waste_x = x;
        cut->waste_y = y;
    }
}

void mark_seam(const struct bench *bench, struct state *state, struct vertex p,
               struct vertex q, int waste_x, int waste_y)
{
    mark_line(bench, state, MARK_DRAWN, p, q);
    mark_line(bench, state, MARK_SEWN, p, q);
    mark_beside(bench, state, MARK_CUT, p, q, waste_x, waste_y);
}

static struct vertex middle(struct vertex p, struct vertex q)
{
    const struct rational half = rational_make(1, 2);
    return (struct vertex){rational_mul(rational_add(p.x, q.x), half),
                           rational_mul(rational_add(p.y, q.y), half)};
}

struct sewn_seam diagonal_seam(struct rational x, struct rational y,
                               struct rational size, enum line_direction line)
{
    const struct rational right = rational_add(x, size);
    const struct rational bottom = rational_add(y, size);
    const bool rising = line == LINE_RISING;
    return (struct sewn_seam){.seam = {.from = {x, rising ? bottom : y},
                                       .to = {right, rising ? y : bottom}}};
}

/* The mark lies on the middle of the seam; while rows lie apart, so do their
 * marks. */
struct seam sew_seam(const struct bench *bench, struct action *action,
                     struct sewn_seam seam)
{
    if (seam.seam.x == 0 && seam.seam.y == 0)
        press_seam(bench->sewer, bench->heap, action, &seam);
    seam.seam.piece = bench->heap->piece;
    seam.seam.operation = action->operation;
    *LIST_ADD(bench->arena, &action->seams) = seam;
    *LIST_ADD(bench->arena, &action->after.presses) =
        (struct press_mark){.at = middle(seam.seam.from, seam.seam.to),
                            .end = seam.seam.to,
                            .x = seam.seam.x,
                            .y = seam.seam.y,
                            .gap_y = seam.row,
                            .across_x = seam.across_x,
                            .across_y = seam.across_y};
    return seam.seam;
}

void name_pressed_cloth(const struct bench *bench, struct action *action)
{
    if (action->press.side != PRESS_RULE &&
        action->press.side != PRESS_TOWARD_FABRIC)
        return;
    const struct sewn_seam *last =
        &action->seams.items[action->seams.count - 1];
    const bool onward =
        last->seam.x == last->across_x && last->seam.y == last->across_y;
    const struct input *there =
        &bench->heap->inputs.items[onward ? last->next : last->before];
    action->press.fabric = heap_fabric(heap_at(bench->sewer, there->heap));
    action->press.side = PRESS_TOWARD_FABRIC;
}

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

/* The size is set last: programs cut and join without minding it. A cut is its
 * outline. All is made in scratch memory, of which what a heap is stays. */
void sew_on_bench(struct sewer *sewer, struct heap *heap)
{
    const struct bench bench = {sewer, sewer->scratch, heap,
                                sewer->sized->design->pattern->seam};
    /* Which heaps there are, and how many, hangs on the cloth of the parts of
     * units and blocks, but not on that of a quilt, which is most of the work.
     */
    if ((sewer->run->trial || sewer->counting) &&
        heap->piece->owner->kind == DEFINE_QUILT &&
        (heap->technique == TECHNIQUE_JOIN ||
         heap->technique == TECHNIQUE_BORDER))
        return;
    heap->craft->sew(&bench);
    keep_work(sewer, heap);
    if (!sewer->aside && !sewer->run->trial && !sewer->counting)
        verify_outline(sewer, heap);
}
