/* A block apart. All edges of parts are lines across the block; at each of
 * them the parts are moved on by one gap, and where a part is opened, by what
 * it needs more. May assume joins: what is made otherwise is one part. */
#include "apart.h"

#include <math.h>

/* Between parts of the block, and of an opened unit. */
#define GAP_WIDE MM(3.2)
#define GAP_CLOSE MM(1.6)

/* ---- which parts ---- */

struct collector {
    const struct booklet *booklet;
    size_t *uses; /* of each heap in the block */
    bool *opened;
};

static const struct heap *heap_at(const struct collector *c, size_t index)
{
    return &c->booklet->quilt->heaps.items[index];
}

/* Is it sewn on the way to what is made in that step? */
static bool on_the_way(const struct heap *heap, size_t step)
{
    return heap->technique == TECHNIQUE_JOIN && heap->step == step;
}

static void count_uses(const struct collector *c, const struct heap *heap,
                       size_t step)
{
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t index = heap->inputs.items[i].heap;
        if (on_the_way(heap_at(c, index), step))
            count_uses(c, heap_at(c, index), step);
        else
            c->uses[index]++;
    }
}

/* A rectangle of a heap, where the heap is turned by quarters clockwise. */
static struct loose_part turned_part(struct loose_part part,
                                     const struct heap *heap, unsigned turn)
{
    double across = rational_double(heap->width);
    double down = rational_double(heap->height);
    for (unsigned i = 0; i < turn % 4; i++) {
        const double x = part.x, wide = part.width, high = down;
        part.x = high - part.y - part.height;
        part.y = x;
        part.width = part.height;
        part.height = wide;
        down = across;
        across = high;
    }
    part.turn = (part.turn + turn) % 4;
    return part;
}

static void collect(struct collector *c, struct apart *into, size_t index,
                    unsigned turn, double x, double y, bool further);

/* The parts of a unit by themselves. */
static struct apart *open_part(struct collector *c, size_t index, unsigned turn,
                               bool further)
{
    struct apart *inside = ARENA_NEW(c->booklet->wording.arena, struct apart);
    const struct heap *heap = heap_at(c, index);
    const bool lies = turn % 2 == 1;
    inside->across = rational_double(lies ? heap->height : heap->width);
    inside->down = rational_double(lies ? heap->width : heap->height);
    collect(c, inside, index, turn, 0.0, 0.0, further);
    return inside;
}

/* Adds what a heap is joined from, that lies turned at (x, y). */
static void collect(struct collector *c, struct apart *into, size_t index,
                    unsigned turn, double x, double y, bool further)
{
    const struct heap *heap = heap_at(c, index);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct heap *made = heap_at(c, input->heap);
        const bool lies = input->turn % 2 == 1;
        struct loose_part part = {
            .heap = input->heap,
            .turn = input->turn,
            .x = rational_double(input->x),
            .y = rational_double(input->y),
            .width = rational_double(lies ? made->height : made->width),
            .height = rational_double(lies ? made->width : made->height)};
        part = turned_part(part, heap, turn);
        part.x += x;
        part.y += y;
        if (on_the_way(made, heap->step)) {
            collect(c, into, input->heap, part.turn, part.x, part.y, further);
            continue;
        }
        if (further && made->technique == TECHNIQUE_JOIN &&
            c->uses[input->heap] > 1 && !c->opened[input->heap]) {
            c->opened[input->heap] = true;
            part.inside = open_part(c, input->heap, part.turn, false);
        }
        *LIST_ADD(c->booklet->wording.arena, &into->parts) = part;
    }
}

struct apart *take_apart(const struct booklet *booklet,
                         const struct heap *block)
{
    struct arena *arena = booklet->wording.arena;
    const size_t count = booklet->quilt->heaps.count;
    struct collector c = {booklet, ARENA_ARRAY(arena, size_t, count),
                          ARENA_ARRAY(arena, bool, count)};
    const size_t index = (size_t)(block - booklet->quilt->heaps.items);
    if (block->technique == TECHNIQUE_JOIN) {
        count_uses(&c, block, block->step);
        return open_part(&c, index, 0, true);
    }
    struct apart *whole = ARENA_NEW(arena, struct apart);
    whole->across = rational_double(block->width);
    whole->down = rational_double(block->height);
    *LIST_ADD(arena, &whole->parts) = (struct loose_part){
        .heap = index, .width = whole->across, .height = whole->down};
    return whole;
}

/* ---- where they lie ---- */

/* Lines across one direction: where they are, how much room is between each
 * and the next. */
struct lines {
    double *at, *room;
    size_t count;
};

static void add_line(struct lines *lines, double at)
{
    size_t i = lines->count;
    for (size_t k = 0; k < lines->count; k++)
        if (fabs(lines->at[k] - at) < 1e-6)
            return;
    lines->count++;
    for (; i > 0 && lines->at[i - 1] > at; i--)
        lines->at[i] = lines->at[i - 1];
    lines->at[i] = at;
}

static size_t line_of(const struct lines *lines, double at)
{
    size_t i = 0;
    while (i + 1 < lines->count && fabs(lines->at[i] - at) >= 1e-6)
        i++;
    return i;
}

/* Room from line to line, without the gap behind the last. */
static double room_between(const struct lines *lines, size_t from, size_t to,
                           double gap)
{
    double room = 0.0;
    for (size_t i = from; i < to; i++)
        room += lines->room[i] + (i > from ? gap : 0.0);
    return room;
}

/* An opened part widens the outermost of the places that it spans. */
static void make_room(struct lines *lines, double from, double to, double wide,
                      double gap, double middle)
{
    const size_t first = line_of(lines, from), end = line_of(lines, to);
    const double lacking = wide - room_between(lines, first, end, gap);
    if (lacking > 0.0 && end > first)
        lines->room[from < middle ? first : end - 1] += lacking;
}

/* Toward the middle of the block, so that its seams stay in line. */
static double aligned(const struct lines *lines, double from, double to,
                      double wide, double gap, double middle)
{
    const size_t first = line_of(lines, from), end = line_of(lines, to);
    double start = 0.0;
    for (size_t i = 0; i < first; i++)
        start += lines->room[i] + gap;
    const double spare = room_between(lines, first, end, gap) - wide;
    const double share = to <= middle + 1e-6     ? 1.0
                         : from >= middle - 1e-6 ? 0.0
                                                 : 0.5;
    return start + spare * share;
}

static void lay(struct arena *arena, struct apart *e, double scale, double gap)
{
    const size_t most = 2 * e->parts.count + 2;
    struct lines xs = {ARENA_ARRAY(arena, double, most),
                       ARENA_ARRAY(arena, double, most), 0};
    struct lines ys = {ARENA_ARRAY(arena, double, most),
                       ARENA_ARRAY(arena, double, most), 0};
    for (size_t i = 0; i < e->parts.count; i++) {
        struct loose_part *part = &e->parts.items[i];
        add_line(&xs, part->x);
        add_line(&xs, part->x + part->width);
        add_line(&ys, part->y);
        add_line(&ys, part->y + part->height);
        part->wide = part->width * scale;
        part->high = part->height * scale;
        if (part->inside == NULL)
            continue;
        lay(arena, part->inside, scale, GAP_CLOSE);
        part->wide = part->inside->width;
        part->high = part->inside->height;
    }
    for (size_t i = 0; i + 1 < xs.count; i++)
        xs.room[i] = (xs.at[i + 1] - xs.at[i]) * scale;
    for (size_t i = 0; i + 1 < ys.count; i++)
        ys.room[i] = (ys.at[i + 1] - ys.at[i]) * scale;
    for (size_t i = 0; i < e->parts.count; i++) {
        const struct loose_part *part = &e->parts.items[i];
        make_room(&xs, part->x, part->x + part->width, part->wide, gap,
                  e->across / 2.0);
        make_room(&ys, part->y, part->y + part->height, part->high, gap,
                  e->down / 2.0);
    }
    for (size_t i = 0; i < e->parts.count; i++) {
        struct loose_part *part = &e->parts.items[i];
        part->left = aligned(&xs, part->x, part->x + part->width, part->wide,
                             gap, e->across / 2.0);
        part->top = aligned(&ys, part->y, part->y + part->height, part->high,
                            gap, e->down / 2.0);
    }
    e->width = room_between(&xs, 0, xs.count - 1, gap);
    e->height = room_between(&ys, 0, ys.count - 1, gap);
}

void lay_apart(struct arena *arena, struct apart *apart, double scale)
{
    lay(arena, apart, scale, GAP_WIDE);
}

/* Gaps do not grow with the scale: two layings tell how much of the width they
 * take. */
double apart_scale(struct arena *arena, struct apart *apart, double width,
                   double height)
{
    lay_apart(arena, apart, 0.0);
    const double gaps_across = apart->width;
    const double gaps_down = apart->height;
    return fmax(fmin((width - gaps_across) / apart->across,
                     (height - gaps_down) / apart->down),
                0.0);
}
