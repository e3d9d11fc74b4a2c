/* Whether two compiled sources make the same quilts: the tops decided by GEOS,
 * a library of plane geometry that shares nothing with the sewing. */
#include <math.h>
#include <string.h>

#include "mutants.h"

/* ---- tops ---- */

static GEOSGeometry *face_polygon(GEOSContextHandle_t geos, struct face face)
{
    GEOSCoordSequence *ring =
        GEOSCoordSeq_create_r(geos, (unsigned)face.count + 1, 2);
    for (size_t i = 0; i <= face.count; i++) {
        const struct vertex v = face.points[i % face.count];
        GEOSCoordSeq_setX_r(geos, ring, (unsigned)i, rational_double(v.x));
        GEOSCoordSeq_setY_r(geos, ring, (unsigned)i, rational_double(v.y));
    }
    return GEOSGeom_createPolygon_r(
        geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
}

/* The union of the faces of one fabric that show one side. */
static GEOSGeometry *fabric_view(GEOSContextHandle_t geos, struct arena *arena,
                                 const struct cloth *cloth, int fabric,
                                 bool wrong_side)
{
    GEOSGeometry **all =
        ARENA_ARRAY(arena, GEOSGeometry *, cloth->faces.count + 1);
    unsigned count = 0;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face face = cloth->faces.items[i];
        if (face.fabric == fabric && face.wrong_side == wrong_side)
            all[count++] = face_polygon(geos, face);
    }
    GEOSGeometry *together =
        GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, all, count);
    GEOSGeometry *one = GEOSUnaryUnion_r(geos, together);
    GEOSGeom_destroy_r(geos, together);
    return one;
}

struct top_view *view_tops(GEOSContextHandle_t geos, struct arena *arena,
                           const struct sewn *sewn)
{
    const size_t fabrics = sewn->sized->design->fabrics.count;
    struct top_view *tops =
        ARENA_ARRAY(arena, struct top_view, sewn->quilts.count + 1);
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        tops[i].count = 2 * fabrics;
        tops[i].fabrics = ARENA_ARRAY(arena, GEOSGeometry *, 2 * fabrics);
        for (size_t k = 0; k < 2 * fabrics; k++)
            tops[i].fabrics[k] =
                fabric_view(geos, arena, sewn->quilts.items[i].cloth,
                            (int)(k / 2), k % 2 == 1);
    }
    return tops;
}

void destroy_tops(GEOSContextHandle_t geos, struct top_view *tops,
                  const struct sewn *sewn)
{
    for (size_t i = 0; i < sewn->quilts.count; i++)
        for (size_t k = 0; k < tops[i].count; k++)
            GEOSGeom_destroy_r(geos, tops[i].fabrics[k]);
}

static double area_of(GEOSContextHandle_t geos, const GEOSGeometry *geometry)
{
    double area = -1;
    return geometry != NULL && GEOSArea_r(geos, geometry, &area) == 1 ? area
                                                                      : -1;
}

double tops_difference(GEOSContextHandle_t geos, const struct top_view *a,
                       const struct top_view *b)
{
    double area = 0;
    for (size_t i = 0; i < a->count; i++) {
        if (a->fabrics[i] == NULL || b->fabrics[i] == NULL)
            return -1;
        if (GEOSEqualsExact_r(geos, a->fabrics[i], b->fabrics[i], 0) == 1)
            continue;
        GEOSGeometry *other =
            GEOSSymDifference_r(geos, a->fabrics[i], b->fabrics[i]);
        const double one = area_of(geos, other);
        GEOSGeom_destroy_r(geos, other);
        if (one < 0)
            return -1;
        area += one;
    }
    return area;
}

static double whole_area(const struct sewn_quilt *quilt)
{
    return rational_double(quilt->width) * rational_double(quilt->height);
}

bool oracle_sees(GEOSContextHandle_t geos, struct top_view *top,
                 const struct sewn_quilt *quilt)
{
    const double whole = whole_area(quilt);
    double sum = 0, wrong = 0;
    for (size_t i = 0; i < top->count; i++) {
        sum += area_of(geos, top->fabrics[i]);
        wrong += i % 2 == 1 ? area_of(geos, top->fabrics[i]) : 0;
    }
    if (fabs(sum - whole) > 1e-9 * whole || wrong > 1e-9 * whole)
        return false;
    GEOSGeometry *exchanged[2] = {top->fabrics[2], top->fabrics[0]};
    struct top_view two = {top->fabrics, 3};
    struct top_view other = {
        (GEOSGeometry *[]){exchanged[0], top->fabrics[1], exchanged[1]}, 3};
    return tops_difference(geos, &two, &two) == 0 &&
           tops_difference(geos, &two, &other) > 1e-6 * whole;
}

/* ---- the cut list and the amounts ---- */

static bool same_length(struct rational a, struct rational b)
{
    return rational_known(a) == rational_known(b) &&
           (!rational_known(a) || rational_equal(a, b));
}

static bool same_lengths(const struct cut_item *a, const struct cut_item *b)
{
    bool same = a->lengths.count == b->lengths.count;
    for (size_t i = 0; same && i < a->lengths.count; i++)
        same = same_length(a->lengths.items[i], b->lengths.items[i]);
    return same;
}

/* Strips that are joined are as long as the cloth is wide: how many there are,
 * how high, and what is cut from them is what counts. */
static bool same_item(const struct cut_item *a, const struct cut_item *b)
{
    if (a->use != b->use || a->joined != b->joined)
        return false;
    if (a->joined)
        return same_length(a->height, b->height) && same_lengths(a, b);
    return rational_equal(rational_min(a->width, a->height),
                          rational_min(b->width, b->height)) &&
           rational_equal(rational_max(a->width, a->height),
                          rational_max(b->width, b->height));
}

static size_t count_like(const struct fabric_plan *plan,
                         const struct cut_item *item)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->items.count; i++)
        if (same_item(&plan->items.items[i], item))
            count += plan->items.items[i].count;
    return count;
}

static bool holds_all(const struct fabric_plan *plan,
                      const struct fabric_plan *other)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (count_like(plan, item) != count_like(other, item))
            return false;
    }
    return true;
}

static bool same_cut_list(const struct cutplan *a, const struct cutplan *b,
                          size_t fabrics)
{
    for (size_t i = 0; i < fabrics; i++)
        if (!holds_all(&a->fabrics[i], &b->fabrics[i]) ||
            !holds_all(&b->fabrics[i], &a->fabrics[i]))
            return false;
    return true;
}

static bool same_amounts(const struct cutplan *a, const struct cutplan *b,
                         size_t fabrics)
{
    for (size_t i = 0; i < fabrics; i++)
        if (!rational_equal(a->fabrics[i].bought, b->fabrics[i].bought) ||
            a->fabrics[i].bought_sheets != b->fabrics[i].bought_sheets)
            return false;
    return true;
}

static bool same_finishing(const struct cutplan *a, const struct cutplan *b)
{
    return a->backing.wanted == b->backing.wanted &&
           a->backing.fabric == b->backing.fabric &&
           same_length(a->backing.width, b->backing.width) &&
           same_length(a->backing.height, b->backing.height) &&
           same_length(a->backing.bought, b->backing.bought) &&
           a->batting_wanted == b->batting_wanted &&
           same_length(a->batting_width, b->batting_width) &&
           same_length(a->batting_height, b->batting_height) &&
           same_length(a->batting_gap, b->batting_gap) &&
           a->binding.wanted == b->binding.wanted &&
           a->binding.fabric == b->binding.fabric &&
           same_length(a->binding.width, b->binding.width) &&
           same_length(a->binding.length, b->binding.length);
}

/* What differs between two plans, or NULL. */
static const char *plans_difference(const struct cutplan *a,
                                    const struct cutplan *b, size_t fabrics)
{
    return !same_cut_list(a, b, fabrics)  ? "the cut list differs"
           : !same_amounts(a, b, fabrics) ? "the amounts of cloth differ"
           : !same_finishing(a, b)        ? "backing, batting or binding differ"
                                          : NULL;
}

/* ---- all together ---- */

static bool tops_differ(GEOSContextHandle_t geos, const struct sample *sample,
                        const struct compiled *other, char *why, size_t room)
{
    const struct sewn *sewn = other->sewn;
    struct top_view *tops = view_tops(geos, other->run->arena, sewn);
    bool differs = false;
    for (size_t i = 0; i < sewn->quilts.count && !differs; i++) {
        const struct sewn_quilt *quilt = &sewn->quilts.items[i];
        const double area = tops_difference(geos, &sample->tops[i], &tops[i]);
        differs = !(area >= 0 && area < 1e-9 * whole_area(quilt));
        if (differs)
            snprintf(why, room, "the top of `%s` differs in %.2f square %s",
                     quilt->definition->id, area,
                     length_unit_name(other->pattern->units));
    }
    destroy_tops(geos, tops, sewn);
    return differs;
}

static const char *sizes_difference(const struct compiled *ours,
                                    const struct compiled *other)
{
    const struct sewn *a = ours->sewn, *b = other->sewn;
    if (a->quilts.count != b->quilts.count ||
        ours->design->fabrics.count != other->design->fabrics.count ||
        ours->plans->items.count != other->plans->items.count)
        return "there are other quilts, fabrics or colorways";
    for (size_t i = 0; i < a->quilts.count; i++) {
        const struct sewn_quilt *one = &a->quilts.items[i];
        const struct sewn_quilt *two = &b->quilts.items[i];
        if (!rational_equal(one->width, two->width) ||
            !rational_equal(one->height, two->height))
            return "a quilt has another size";
    }
    return NULL;
}

/* Where lines run and what fills the areas, by sums that another plan has not.
 */
static const char *quilting_difference(const struct compiled *ours,
                                       const struct compiled *other)
{
    for (size_t i = 0; i < ours->quilted->plans.count; i++) {
        const struct quilting_plan *a = &ours->quilted->plans.items[i];
        const struct quilting_plan *b = &other->quilted->plans.items[i];
        if ((a->told == NULL) != (b->told == NULL) ||
            a->lines.count != b->lines.count ||
            a->areas.count != b->areas.count ||
            fabs(a->length - b->length) > 1e-6)
            return "its quilting differs";
        for (size_t k = 0; k < a->lines.count; k++)
            if (a->lines.items[k].thread != b->lines.items[k].thread ||
                hypot(a->lines.items[k].points[0].x -
                          b->lines.items[k].points[0].x,
                      a->lines.items[k].points[0].y -
                          b->lines.items[k].points[0].y) > 1e-6)
                return "its quilting differs";
    }
    return NULL;
}

/* The cheap comparisons come first; but where the top differs, that is what is
 * told. */
bool products_differ(GEOSContextHandle_t geos, const struct sample *sample,
                     const struct compiled *other, char *why, size_t room)
{
    const struct compiled *ours = &sample->compiled;
    const char *what = sizes_difference(ours, other);
    for (size_t i = 0; i < ours->plans->items.count && what == NULL; i++)
        what = plans_difference(&ours->plans->items.items[i],
                                &other->plans->items.items[i],
                                ours->design->fabrics.count);
    if (what == NULL && ours->quilted->plans.count ==
                            other->quilted->plans.count)
        what = quilting_difference(ours, other);
    if (what != NULL)
        snprintf(why, room, "%s", what);
    const size_t said = what == NULL ? 0 : strlen(what);
    if (what == NULL)
        return tops_differ(geos, sample, other, why, room);
    if (ours->sewn->quilts.count == other->sewn->quilts.count &&
        said + 2 < room) {
        char top[80] = "";
        if (tops_differ(geos, sample, other, top, sizeof top))
            snprintf(why + said, room - said, "; %s", top);
    }
    return true;
}
