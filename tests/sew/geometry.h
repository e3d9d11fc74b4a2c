/* Cloth as polygons of GEOS, an independent library of plane geometry, and
 * the samples below: faces of a cloth against another cloth's. */
#ifndef SEAMWRIGHT_TESTS_GEOMETRY_H
#define SEAMWRIGHT_TESTS_GEOMETRY_H

#include <geos_c.h>
#include <math.h>
#include <stdlib.h>

#include "../resolve/small.h"
#include "cloth.h"

static inline void assert_close(double found, double wanted)
{
    if (fabs(found - wanted) > 1e-9)
        fail_msg("%.12g instead of %.12g", found, wanted);
}

static inline GEOSContextHandle_t geometry_start(void)
{
    return GEOS_init_r();
}

static inline GEOSGeometry *face_geometry(GEOSContextHandle_t geos,
                                          struct face face)
{
    GEOSCoordSequence *ring =
        GEOSCoordSeq_create_r(geos, (unsigned)face.count + 1, 2);
    for (size_t i = 0; i <= face.count; i++) {
        const struct vertex v = face.points[i % face.count];
        GEOSCoordSeq_setX_r(geos, ring, (unsigned)i, rational_double(v.x));
        GEOSCoordSeq_setY_r(geos, ring, (unsigned)i, rational_double(v.y));
    }
    GEOSGeometry *polygon = GEOSGeom_createPolygon_r(
        geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
    assert_non_null(polygon);
    assert_int_equal(GEOSisValid_r(geos, polygon), 1);
    return polygon;
}

static inline double geometry_area(GEOSContextHandle_t geos,
                                   const GEOSGeometry *geometry)
{
    double area = -1;
    assert_int_equal(GEOSArea_r(geos, geometry, &area), 1);
    return area;
}

/* All faces of one fabric together (of all fabrics for NO_FABRIC), clipped to
 * the finished rectangle. */
static inline GEOSGeometry *
fabric_geometry(GEOSContextHandle_t geos, const struct cloth *cloth, int fabric)
{
    GEOSGeometry **faces = malloc((cloth->faces.count + 1) * sizeof *faces);
    unsigned count = 0;
    for (size_t i = 0; i < cloth->faces.count; i++)
        if (fabric == NO_FABRIC || cloth->faces.items[i].fabric == fabric)
            faces[count++] = face_geometry(geos, cloth->faces.items[i]);
    GEOSGeometry *apart = GEOSGeom_createCollection_r(
        geos, GEOS_GEOMETRYCOLLECTION, faces, count);
    free(faces);
    GEOSGeometry *all = GEOSUnaryUnion_r(geos, apart);
    assert_non_null(all);
    GEOSGeom_destroy_r(geos, apart);
    const struct vertex corners[4] = {{{0, 1}, {0, 1}},
                                      {cloth->width, {0, 1}},
                                      {cloth->width, cloth->height},
                                      {{0, 1}, cloth->height}};
    GEOSGeometry *finished =
        face_geometry(geos, (struct face){.points = corners, .count = 4});
    GEOSGeometry *inside = GEOSIntersection_r(geos, all, finished);
    assert_non_null(inside);
    GEOSGeom_destroy_r(geos, finished);
    GEOSGeom_destroy_r(geos, all);
    return inside;
}

/* The area in which the two do not show the same fabric. */
static inline double cloth_difference(GEOSContextHandle_t geos,
                                      const struct cloth *a,
                                      const struct cloth *b, int fabrics)
{
    double area = fabs(rational_double(a->width) - rational_double(b->width)) +
                  fabs(rational_double(a->height) - rational_double(b->height));
    for (int fabric = 0; fabric < fabrics; fabric++) {
        GEOSGeometry *p = fabric_geometry(geos, a, fabric);
        GEOSGeometry *q = fabric_geometry(geos, b, fabric);
        GEOSGeometry *other = GEOSSymDifference_r(geos, p, q);
        assert_non_null(other);
        area += geometry_area(geos, other);
        GEOSGeom_destroy_r(geos, p);
        GEOSGeom_destroy_r(geos, q);
        GEOSGeom_destroy_r(geos, other);
    }
    return area;
}

/* Twice the exact area of the faces inside the finished rectangle. */
static inline struct rational inner_double_area(struct arena *arena,
                                                const struct cloth *cloth)
{
    const struct rational zero = {0, 1}, one = {1, 1}, minus = {-1, 1};
    const struct half_plane sides[4] = {{minus, zero, zero},
                                        {zero, minus, zero},
                                        {one, zero, cloth->width},
                                        {zero, one, cloth->height}};
    struct rational area = zero;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        for (size_t k = 0; k < 4; k++)
            face = face_clip(arena, face, sides[k]);
        area = rational_add(area, face_double_area(face));
    }
    return area;
}

#endif
