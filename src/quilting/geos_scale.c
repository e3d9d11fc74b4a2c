/* How large whole numbers are made of points before the library of geometry gets
 * them: by the common denominator, or, where there is none that has room, by a
 * power of 2. Read next: geos_room.c. */
#include <math.h>

#include "geos_room.h"

/* Stops at 2^52: what is above that is not whole in doubles anyway. A root is
 * whole at no scale: its parts are 0. */
static int64_t common_multiple(int64_t a, int64_t b)
{
    const int64_t most = (int64_t)1 << 52;
    if (b == 0)
        return most;
    const int64_t rest = b / whole_common_divisor(a, b);
    return a > most / rest ? most : a * rest;
}

/* What the scale must make whole, and the farthest that it reaches. */
struct scaling {
    int64_t parts;
    double far;
};

/* The scale has room for the farthest point. */
static void take_point(struct scaling *s, struct vertex v)
{
    s->parts = common_multiple(s->parts, number_parts(v.x));
    s->parts = common_multiple(s->parts, number_parts(v.y));
    s->far =
        fmax(s->far, fmax(fabs(number_double(v.x)), fabs(number_double(v.y))));
}

/* Room for 2^44 on the way in leaves doubles 8 bits behind the point for what
 * buffers make of it. */
static double scale_of(struct scaling s)
{
    const double most = 0x1p44 / fmax(s.far, 1);
    return (double)s.parts <= most ? (double)s.parts : exp2(floor(log2(most)));
}

double geos_scale(const struct shape *const *shapes, size_t count,
                  const struct segment *lines, size_t line_count)
{
    struct scaling s = {1, 1};
    for (size_t k = 0; k < count; k++)
        for (size_t r = 0; r < shapes[k]->count; r++)
            for (size_t i = 0; i < shapes[k]->rings[r].count; i++)
                take_point(&s, shapes[k]->rings[r].points[i]);
    for (size_t i = 0; i < line_count; i++) {
        take_point(&s, lines[i].from);
        take_point(&s, lines[i].to);
    }
    return scale_of(s);
}
