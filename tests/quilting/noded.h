/* An arrangement against a second method, and what must hold of any. */
#ifndef SEAMWRIGHT_TESTS_NODED_H
#define SEAMWRIGHT_TESTS_NODED_H

#include <geos_c.h>
#include <math.h>
#include <stdlib.h>

#include "tops.h"

/* How many random tops are asked for. */
static inline size_t wanted_tops(void)
{
    const char *text = getenv("SEAMWRIGHT_TOPS");
    return text == NULL ? 60 : (size_t)atoi(text);
}

/* ---- the second method ---- */

/* Faces by GEOS, whose lines are `scale` times as long: whole numbers. It
 * rounds meetings to the grid, so that three lines through one point still meet
 * in one: without a grid a quarter of these tops got a face too many or too
 * few, which counting in fractions (faces = pieces - points + parts) showed to
 * be wrong. */
static inline size_t geos_faces(const segments *list, double scale, double grid,
                         double *area)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry **lines = calloc(list->count, sizeof *lines);
    size_t count = 0;
    for (size_t i = 0; i < list->count; i++) {
        const struct segment s = list->items[i];
        if (vertex_equal(s.from, s.to))
            continue;
        GEOSCoordSequence *ends = GEOSCoordSeq_create_r(geos, 2, 2);
        const struct spot p = vertex_spot(s.from), q = vertex_spot(s.to);
        GEOSCoordSeq_setXY_r(geos, ends, 0, p.x * scale, p.y * scale);
        GEOSCoordSeq_setXY_r(geos, ends, 1, q.x * scale, q.y * scale);
        lines[count++] = GEOSGeom_createLineString_r(geos, ends);
    }
    GEOSGeometry *all = GEOSGeom_createCollection_r(geos, GEOS_MULTILINESTRING,
                                                    lines, (unsigned)count);
    GEOSGeometry *noded = GEOSUnaryUnionPrec_r(geos, all, grid);
    const GEOSGeometry *one = noded;
    GEOSGeometry *faces = GEOSPolygonize_r(geos, &one, 1);
    const int found = GEOSGetNumGeometries_r(geos, faces);
    assert_int_equal(GEOSArea_r(geos, faces, area), 1);
    *area /= scale * scale;
    GEOSGeom_destroy_r(geos, faces);
    GEOSGeom_destroy_r(geos, noded);
    GEOSGeom_destroy_r(geos, all);
    free(lines);
    GEOS_finish_r(geos);
    return (size_t)found;
}

/* ---- what must hold of any ---- */

/* Each piece stands in the rings of the faces at its hands, and no where else.
 */
static inline void assert_rings(const struct arrangement *a)
{
    size_t *seen = calloc(a->piece_count + 1, sizeof *seen);
    for (size_t f = 0; f < a->face_count; f++) {
        assert_true(a->faces[f].area > 0);
        for (size_t r = 0; r < a->faces[f].count; r++) {
            const struct arranged_ring ring = a->faces[f].rings[r];
            for (size_t i = 0; i < ring.count; i++) {
                const struct arranged_piece *p = &a->pieces[ring.pieces[i]];
                const bool onwards = p->from == ring.points[i];
                assert_int_equal(onwards ? p->right : p->left, f);
                assert_int_equal(ring.points[(i + 1) % ring.count],
                                 onwards ? p->to : p->from);
                seen[ring.pieces[i]]++;
            }
        }
    }
    for (size_t p = 0; p < a->piece_count; p++) {
        const long right = a->pieces[p].right, left = a->pieces[p].left;
        assert_int_equal(seen[p],
                         right == left ? 0 : (right >= 0) + (left >= 0));
    }
    free(seen);
}

/* Each segment is covered by pieces from end to end. */
static inline void assert_sources(const struct arrangement *a, const segments *list)
{
    double *covered = calloc(list->count, sizeof *covered);
    for (size_t p = 0; p < a->piece_count; p++) {
        const struct arranged_piece *piece = &a->pieces[p];
        const struct spot f = a->spots[piece->from], t = a->spots[piece->to];
        assert_true(piece->last > piece->first);
        for (size_t s = piece->first; s < piece->last; s++)
            covered[a->sources[s]] += hypot(t.x - f.x, t.y - f.y);
    }
    for (size_t i = 0; i < list->count; i++) {
        const struct spot f = vertex_spot(list->items[i].from);
        const struct spot t = vertex_spot(list->items[i].to);
        assert_true(fabs(covered[i] - hypot(t.x - f.x, t.y - f.y)) < 1e-9);
    }
    free(covered);
}

#endif
