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

number vertex_aside(struct vertex a, struct vertex b, struct vertex v)
{
    return number_sub(number_mul(number_sub(b.x, a.x), number_sub(v.y, a.y)),
                      number_mul(number_sub(b.y, a.y), number_sub(v.x, a.x)));
}

int vertex_turn(struct vertex a, struct vertex b, struct vertex v)
{
    const number turn = vertex_aside(a, b, v);
    return number_known(turn) ? number_sign(turn) : 2;
}
