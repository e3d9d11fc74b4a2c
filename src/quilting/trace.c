/* Ways around the faces of an arrangement: at each point the next half is the
 * one before the way back, clockwise, so that the right hand stays on one face.
 * Directions are compared by their ranks: no number is asked here. */
#include "arrange_parts.h"

/* Few begin in one point, so they are sorted by insertion. */
static void sort_fan(size_t *halves, size_t count, const unsigned *direction)
{
    for (size_t i = 1; i < count; i++) {
        const size_t half = halves[i];
        size_t at = i;
        for (; at > 0 && direction[halves[at - 1]] > direction[half]; at--)
            halves[at] = halves[at - 1];
        halves[at] = half;
    }
}

/* Ranks run clockwise from upright up: onwards first, then the ways back. */
struct fans *fans_of(struct arena *arena, const struct arrangement *a,
                     const unsigned *rank, unsigned ranks)
{
    struct fans *fans = ARENA_NEW(arena, struct fans);
    const size_t count = 2 * a->piece_count;
    size_t *ends = ARENA_ARRAY(arena, size_t, a->point_count + 1);
    size_t *halves = ARENA_ARRAY(arena, size_t, count + 1);
    size_t *place = ARENA_ARRAY(arena, size_t, count + 1);
    size_t *begin = ARENA_ARRAY(arena, size_t, count + 1);
    unsigned *direction = ARENA_ARRAY(arena, unsigned, count + 1);
    for (size_t h = 0; h < count; h++) {
        const struct arranged_piece *piece = &a->pieces[h / 2];
        begin[h] = h % 2 == 0 ? piece->from : piece->to;
        direction[h] = rank[h / 2] + (h % 2 == 0 ? 0 : ranks);
        ends[begin[h]]++;
    }
    for (size_t i = 1; i <= a->point_count; i++)
        ends[i] += ends[i - 1];
    for (size_t h = 0; h < count; h++)
        halves[--ends[begin[h]]] = h;
    for (size_t i = 0; i < a->point_count; i++)
        sort_fan(halves + ends[i], ends[i + 1] - ends[i], direction);
    for (size_t i = 0; i < count; i++)
        place[halves[i]] = i;
    *fans = (struct fans){ends, halves, place, begin, direction, count};
    return fans;
}

/* One step before the way back is the sharpest turn to the right. */
size_t fan_next(const struct fans *fans, const bool *walked, size_t half)
{
    const size_t point = fans->begin[half ^ 1];
    const size_t low = fans->starts[point], high = fans->starts[point + 1];
    size_t at = fans->place[half ^ 1];
    do
        at = at == low ? high - 1 : at - 1;
    while (!walked[fans->halves[at]]);
    return fans->halves[at];
}

/* Follows the cycle: it gets its number, and its lowest point, by x, then y,
 * is looked at. All halves of the cycle lead onwards there, clockwise from
 * upright up; the way around the outside leaves behind the one along which it
 * came, every other way before it. */
static struct cycle follow_cycle(const struct arrangement *a,
                                 const struct fans *fans, const bool *walked,
                                 size_t begin, size_t mark, size_t *of)
{
    struct cycle cycle = {SIZE_MAX, false};
    size_t h = begin;
    do {
        const size_t next = fan_next(fans, walked, h);
        const bool around = fans->direction[next] > fans->direction[h ^ 1];
        const size_t p = fans->begin[next];
        const size_t q = cycle.first == SIZE_MAX ? p : fans->begin[cycle.first];
        const int order =
            p == q ? 0 : vertex_compare(a->points[p], a->points[q]);
        if (order <= 0) {
            cycle.hole = around || (order == 0 && cycle.hole);
            cycle.first = next;
        }
        of[h] = mark;
        h = next;
    } while (h != begin);
    return cycle;
}

struct cycles trace_cycles(struct arena *arena, const struct arrangement *a,
                           const struct fans *fans, const bool *walked)
{
    struct cycles cycles = {0};
    cycles.of = ARENA_ARRAY(arena, size_t, fans->half_count + 1);
    for (size_t h = 0; h < fans->half_count; h++)
        cycles.of[h] = SIZE_MAX;
    for (size_t h = 0; h < fans->half_count; h++)
        if (walked[h] && cycles.of[h] == SIZE_MAX) {
            const size_t mark = cycles.list.count;
            *LIST_ADD(arena, &cycles.list) =
                follow_cycle(a, fans, walked, h, mark, cycles.of);
        }
    return cycles;
}

struct arranged_ring cycle_ring(struct arena *arena, const struct fans *fans,
                                const bool *walked, size_t first)
{
    size_t count = 0, h = first;
    do
        count++;
    while ((h = fan_next(fans, walked, h)) != first);
    size_t *points = ARENA_ARRAY(arena, size_t, count);
    size_t *pieces = ARENA_ARRAY(arena, size_t, count);
    for (size_t i = 0; i < count; i++, h = fan_next(fans, walked, h)) {
        points[i] = fans->begin[h];
        pieces[i] = h / 2;
    }
    return (struct arranged_ring){points, pieces, count};
}
