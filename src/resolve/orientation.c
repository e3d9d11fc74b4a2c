/* The eight symmetries of a square, and what they do to the words of a
 * pattern. x runs to the right and y down, so a clockwise quarter turn takes
 * right to down. */
#include "design.h"

/* ensures: the one orientation that does first `inner`, then `outer`. */
struct orientation orientation_compose(struct orientation outer,
                                       struct orientation inner)
{
    /* m * turn(k) = turn(-k) * m: a mirror reverses the turns before it. */
    const unsigned turned = outer.mirror ? 4 - inner.turn : inner.turn;
    return (struct orientation){(outer.turn + turned) % 4,
                                outer.mirror != inner.mirror};
}

/* ensures: composed with `o`, in either order, it is none. */
struct orientation orientation_inverse(struct orientation o)
{
    /* A mirrored one is its own inverse. */
    return (struct orientation){o.mirror ? o.turn : (4 - o.turn) % 4, o.mirror};
}

/* A quarter turn and a mirror each exchange the two diagonals; both together
 * leave them. */
enum line_direction line_oriented(enum line_direction line,
                                  struct orientation o)
{
    const bool swapped = (o.turn % 2 == 1) != o.mirror;
    if (!swapped)
        return line;
    return line == LINE_RISING ? LINE_FALLING : LINE_RISING;
}

const char *line_name(enum line_direction line)
{
    return line == LINE_RISING ? "rising" : "falling";
}

/* Places are numbered clockwise, so a turn is an addition. */
enum corner_place corner_oriented(enum corner_place at, struct orientation o)
{
    /* Left and right change places: 0<->1, 2<->3. */
    const unsigned mirrored = o.mirror ? (unsigned)at ^ 1U : (unsigned)at;
    return (enum corner_place)((mirrored + o.turn) % 4);
}

const char *corner_name(enum corner_place at)
{
    static const char *const names[] = {"top-left", "top-right", "bottom-right",
                                        "bottom-left"};
    return names[at];
}

/* The line cuts the corner off, so it runs across the diagonal that ends there.
 */
enum line_direction corner_line(enum corner_place at)
{
    return at == TOP_LEFT || at == BOTTOM_RIGHT ? LINE_RISING : LINE_FALLING;
}

/* A mirror keeps top (0) and bottom (2) and exchanges right (1) and left (3).
 */
enum side side_oriented(enum side side, struct orientation o)
{
    const unsigned mirrored =
        o.mirror ? (4U - (unsigned)side) % 4U : (unsigned)side;
    return (enum side)((mirrored + o.turn) % 4);
}
