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

static bool same_item(const struct cut_item *a, const struct cut_item *b)
{
    return a->use == b->use &&
           rational_equal(rational_min(a->width, a->height),
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

static bool same_length(struct rational a, struct rational b)
{
    return rational_known(a) == rational_known(b) &&
           (!rational_known(a) || rational_equal(a, b));
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

static bool quilt_differs(GEOSContextHandle_t geos, const struct top_view *a,
                          const struct top_view *b,
                          const struct sewn_quilt *one,
                          const struct sewn_quilt *other, char *why,
                          size_t room)
{
    const char *id = one->definition->id;
    if (!rational_equal(one->width, other->width) ||
        !rational_equal(one->height, other->height)) {
        snprintf(why, room, "`%s` has another size", id);
        return true;
    }
    const double area = tops_difference(geos, a, b);
    if (area >= 0 && area < 1e-9 * whole_area(one))
        return false;
    snprintf(why, room, "the top of `%s` differs in %.2f square %s", id, area,
             "units");
    return true;
}

bool products_differ(GEOSContextHandle_t geos, const struct sample *sample,
                     const struct compiled *other, char *why, size_t room)
{
    const struct compiled *ours = &sample->compiled;
    const struct sewn *a = ours->sewn, *b = other->sewn;
    const size_t fabrics = ours->design->fabrics.count;
    if (a->quilts.count != b->quilts.count ||
        fabrics != other->design->fabrics.count ||
        ours->plans->items.count != other->plans->items.count) {
        snprintf(why, room, "there are other quilts, fabrics or plans");
        return true;
    }
    struct top_view *tops = view_tops(geos, other->run->arena, b);
    bool differs = false;
    for (size_t i = 0; i < a->quilts.count && !differs; i++)
        differs =
            quilt_differs(geos, &sample->tops[i], &tops[i], &a->quilts.items[i],
                          &b->quilts.items[i], why, room);
    destroy_tops(geos, tops, b);
    for (size_t i = 0; i < ours->plans->items.count && !differs; i++) {
        const char *what =
            plans_difference(&ours->plans->items.items[i],
                             &other->plans->items.items[i], fabrics);
        differs = what != NULL;
        if (differs)
            snprintf(why, room, "%s", what);
    }
    return differs;
}
