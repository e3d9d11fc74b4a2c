/* Where the fabric of a top changes, and where its blocks lie. The oracle asks
 * for the face on both sides of points, and knows nothing of lines. */
#include "cloth_edges.h"
#include "sample.h"
#include "section.h"

/* The fabric at a point; NO_FABRIC outside. Convex faces, in floating point:
 * points are never asked for nearer to an edge than `NEAR`. */
static const double NEAR = 1e-4;
static int fabric_at(const struct cloth *cloth, double x, double y)
{
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        bool left = true, right = true;
        for (size_t k = 0; k < face->count && (left || right); k++) {
            const struct vertex p = face->points[k];
            const struct vertex q = face->points[(k + 1) % face->count];
            const double px = rational_double(p.x), py = rational_double(p.y);
            const double cross = (rational_double(q.x) - px) * (y - py) -
                                 (rational_double(q.y) - py) * (x - px);
            left = left && cross > 0.0;
            right = right && cross < 0.0;
        }
        if (left || right)
            return face->fabric;
    }
    return NO_FABRIC;
}

/* Do both sides of a line differ at a share of its length? */
static bool differs(const struct cloth *cloth, struct vertex from,
                    struct vertex to, double share)
{
    const double x1 = rational_double(from.x), y1 = rational_double(from.y);
    const double dx = rational_double(to.x) - x1;
    const double dy = rational_double(to.y) - y1;
    const double length = hypot(dx, dy);
    const double x = x1 + dx * share, y = y1 + dy * share;
    const double across = -dy / length * NEAR, down = dx / length * NEAR;
    return fabric_at(cloth, x + across, y + down) !=
           fabric_at(cloth, x - across, y - down);
}

static bool lies_on(const struct cloth_edge *edge, double x, double y)
{
    const double x1 = rational_double(edge->from.x);
    const double y1 = rational_double(edge->from.y);
    const double dx = rational_double(edge->to.x) - x1;
    const double dy = rational_double(edge->to.y) - y1;
    const double square = dx * dx + dy * dy;
    const double t = ((x - x1) * dx + (y - y1) * dy) / square;
    return t > 0.0 && t < 1.0 &&
           fabs((x - x1) * dy - (y - y1) * dx) < 1e-9 * sqrt(square);
}

/* Every edge parts fabrics, and where an edge of a face does, one lies. */
static void check_edges(const struct cloth *cloth,
                        const struct cloth_edges *edges, const char *name)
{
    static const double shares[] = {0.137, 0.618};
    for (size_t i = 0; i < edges->items.count; i++)
        for (int s = 0; s < 2; s++)
            if (!differs(cloth, edges->items.items[i].from,
                         edges->items.items[i].to, shares[s]))
                fail_msg("%s: edge %zu parts nothing", name, i);
    for (size_t i = 0; i < cloth->faces.count; i += 7)
        for (size_t k = 0; k < cloth->faces.items[i].count; k++) {
            const struct face *face = &cloth->faces.items[i];
            const struct vertex p = face->points[k];
            const struct vertex q = face->points[(k + 1) % face->count];
            const double x = rational_double(p.x) * 0.863 +
                             rational_double(q.x) * 0.137;
            const double y = rational_double(p.y) * 0.863 +
                             rational_double(q.y) * 0.137;
            bool found = false;
            for (size_t e = 0; e < edges->items.count && !found; e++)
                found = lies_on(&edges->items.items[e], x, y);
            if (found != differs(cloth, p, q, 0.137))
                fail_msg("%s: face %zu, edge %zu", name, i, k);
        }
}

static void test_samples(void **state)
{
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
        const struct cloth *cloth = finished_cloth(*state, quilt->cloth);
        const struct cloth_edges edges = cloth_edges(*state, cloth);
        check_edges(cloth, &edges, SAMPLES[s]);
    }
}

#define PATTERN(inside)                                                      \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" title=\"P\">"      \
    "<fabrics><fabric id=\"a\"/><fabric id=\"b\"/></fabrics><colorway "      \
    "id=\"c\"><cloth fabric=\"a\" color=\"#d8d2c8\"/><cloth fabric=\"b\" "   \
    "color=\"#5a4632\"/></colorway>" inside "</pattern>"

/* One cloth all over has but its outline, each side in one piece; two cloths
 * share one line. */
static void test_few_lines(void **state)
{
    static const struct {
        const char *cells;
        size_t edges;
    } cases[] = {
        {"a a a a", 4},
        {"a a b b", 5}, /* sides go on past the line that meets them */
        {"a b b a", 6},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *patches = "";
        for (const char *c = cases[i].cells; *c != '\0'; c++)
            if (*c != ' ')
                patches = arena_printf(*state, "%s<patch fabric=\"%c\" width=\"4\" "
                                       "height=\"4\"/>",
                                       patches, *c);
        const struct sample sample = sample_text(
            *state, arena_printf(*state,
                                 PATTERN("<quilt id=\"q\" name=\"Q\" "
                                         "finished=\"8 x 8\"><grid "
                                         "across=\"2\" down=\"2\" "
                                         "press=\"open\">%s</grid></quilt>"),
                                 patches));
        const struct cloth *cloth =
            finished_cloth(*state, sample.sewn->quilts.items[0].cloth);
        const struct cloth_edges edges = cloth_edges(*state, cloth);
        assert_int_equal(edges.items.count, cases[i].edges);
        check_edges(cloth, &edges, cases[i].cells);
    }
}

/* As many as are counted, each of its size, none over another. */
static void test_blocks_of_samples(void **state)
{
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        for (size_t q = 0; q < sample.sewn->quilts.count; q++) {
            const struct sewn_quilt *quilt = &sample.sewn->quilts.items[q];
            const struct block_places places = block_places(*state, quilt);
            double counted = 0.0, found = 0.0;
            for (size_t i = 0; i < quilt->heaps.count; i++)
                for (size_t k = 0; k < quilt->heaps.items[i].names.count; k++)
                    if (is_sewn_block(
                            &quilt->heaps.items[i],
                            &quilt->heaps.items[i].names.items[k]))
                        counted +=
                            (double)quilt->heaps.items[i].names.items[k].count *
                            rational_double(quilt->heaps.items[i].width) *
                            rational_double(quilt->heaps.items[i].height);
            for (size_t i = 0; i < places.items.count; i++) {
                const struct block_place *p = &places.items.items[i];
                found += p->width * p->height;
                assert_true(p->x > -NEAR && p->y > -NEAR);
                assert_true(p->x + p->width <
                            rational_double(quilt->width) + NEAR);
                assert_true(p->y + p->height <
                            rational_double(quilt->height) + NEAR);
                for (size_t k = 0; k < i; k++) {
                    const struct block_place *o = &places.items.items[k];
                    assert_true(o->x + o->width < p->x + NEAR ||
                                p->x + p->width < o->x + NEAR ||
                                o->y + o->height < p->y + NEAR ||
                                p->y + p->height < o->y + NEAR);
                }
            }
            assert_true(places.items.count > 0);
            assert_true(fabs(counted - found) < 1e-6);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_samples),
        cmocka_unit_test(test_few_lines),
        cmocka_unit_test(test_blocks_of_samples),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
