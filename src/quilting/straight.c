/* Exact straight lines in their one form: what the arrangement, walks over the
 * top and symmetries share. Read next: arrange.c. */
#include "straight.h"

/* Upright only where both have one x, exactly: a hair aside is a steep slope.
 */
struct straight straight_through(struct vertex a, struct vertex b)
{
    const number across = number_sub(b.x, a.x);
    if (number_known(across) && number_sign(across) == 0)
        return (struct straight){true, number_whole(0), a.x};
    const number slope = number_div(number_sub(b.y, a.y), across);
    return (struct straight){false, slope,
                             number_sub(a.y, number_mul(slope, a.x))};
}

bool straight_known(struct straight s)
{
    return number_known(s.slope) && number_known(s.at);
}

bool straight_equal(struct straight a, struct straight b)
{
    return a.upright == b.upright && number_equal(a.slope, b.slope) &&
           number_equal(a.at, b.at);
}

int straight_compare_direction(struct straight a, struct straight b)
{
    if (a.upright != b.upright)
        return a.upright ? 1 : -1;
    return number_compare(a.slope, b.slope);
}

int straight_compare(struct straight a, struct straight b)
{
    const int by_direction = straight_compare_direction(a, b);
    return by_direction != 0 ? by_direction : number_compare(a.at, b.at);
}

/* requires: not upright. */
static number height_at(struct straight s, number x)
{
    return number_add(number_mul(s.slope, x), s.at);
}

struct vertex straight_meet(struct straight a, struct straight b)
{
    if (a.upright)
        return (struct vertex){a.at, height_at(b, a.at)};
    if (b.upright)
        return (struct vertex){b.at, height_at(a, b.at)};
    const number x =
        number_div(number_sub(b.at, a.at), number_sub(a.slope, b.slope));
    return (struct vertex){x, height_at(a, x)};
}

int straight_side(struct straight s, struct vertex v)
{
    const number off =
        s.upright ? number_sub(v.x, s.at) : number_sub(v.y, height_at(s, v.x));
    return number_known(off) ? number_sign(off) : 2;
}

int vertex_turn(struct vertex a, struct vertex b, struct vertex v)
{
    const number turn =
        number_sub(number_mul(number_sub(b.x, a.x), number_sub(v.y, a.y)),
                   number_mul(number_sub(b.y, a.y), number_sub(v.x, a.x)));
    return number_known(turn) ? number_sign(turn) : 2;
}

/* Keeps what of [*from, *to], shares of a way that moves `step` from `begin`,
 * does not come below `low`. Where that cannot be told both are unknown.
 * ensures: false where nothing is left. */
static bool keep_above(number begin, number step, number low, number *from,
                       number *to)
{
    const number room = number_sub(low, begin);
    if (number_known(step) && number_sign(step) == 0 && number_known(room))
        return number_sign(room) <= 0;
    const number at = number_div(room, step);
    if (!number_known(at) || !number_known(*from)) {
        *from = *to = number_unknown();
        return true;
    }
    if (number_sign(step) > 0)
        *from = number_compare(at, *from) > 0 ? at : *from;
    else
        *to = number_compare(at, *to) < 0 ? at : *to;
    return true;
}

/* On the exact line, whatever the share. */
static struct vertex point_along(struct segment s, number share)
{
    const number x = number_mul(number_sub(s.to.x, s.from.x), share);
    const number y = number_mul(number_sub(s.to.y, s.from.y), share);
    return (struct vertex){number_add(s.from.x, x), number_add(s.from.y, y)};
}

/* The point at a share, its own ends as they are. */
static struct vertex end_at(struct segment s, number share)
{
    if (number_known(share) && number_sign(share) == 0)
        return s.from;
    return number_equal(share, number_whole(1)) ? s.to : point_along(s, share);
}

/* By shares of its way (Liang and Barsky, 1984, from memory). */
bool segment_within(struct segment segment, struct extent extent,
                    struct segment *inside)
{
    const number x = number_sub(segment.to.x, segment.from.x);
    const number y = number_sub(segment.to.y, segment.from.y);
    number from = number_whole(0), to = number_whole(1);
    if (!keep_above(segment.from.x, x, extent.low.x, &from, &to) ||
        !keep_above(segment.from.y, y, extent.low.y, &from, &to) ||
        !keep_above(number_negative(segment.from.x), number_negative(x),
                    number_negative(extent.high.x), &from, &to) ||
        !keep_above(number_negative(segment.from.y), number_negative(y),
                    number_negative(extent.high.y), &from, &to) ||
        (number_known(from) && number_compare(from, to) >= 0))
        return false;
    *inside = (struct segment){end_at(segment, from), end_at(segment, to)};
    return true;
}
