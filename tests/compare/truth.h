/* What an edit did, found in the compiled pattern and on the cloth, not in the
 * data that the comparison reads. */
#ifndef SEAMWRIGHT_TESTS_TRUTH_H
#define SEAMWRIGHT_TESTS_TRUTH_H

#include <math.h>
#include <stdlib.h>

#include "compiled.h"

struct truth {
    bool lost, gained; /* sizes of pieces, of some quilt */
    bool lost_and_gained; /* both, in one quilt */
    bool counts;
    bool amounts; /* of cloth, backing, batting; or its width or form */
    bool top;     /* looks otherwise somewhere, or has other seam lines */
    bool seams;   /* are pressed otherwise */
    bool order;   /* of steps */
    bool methods; /* corners are sewn another way */
};

/* ---- pieces ---- */

struct key {
    const char *fabric;
    struct rational a, b; /* the longer first, unless the print has a way */
    enum patch_shape shape;
    size_t border;
    bool strip;
    size_t count;
};
struct keys {
    LIST(struct key) items;
};

static inline void add_key(struct arena *arena, struct keys *keys,
                           struct key key, bool way)
{
    if (!way && rational_compare(key.a, key.b) < 0) {
        const struct rational a = key.a;
        key.a = key.b;
        key.b = a;
    }
    *LIST_ADD(arena, &keys->items) = key;
}

static inline struct keys keys_of(struct arena *arena, const struct compiled *c,
                                  size_t quilt)
{
    const struct sewn_quilt *q = &c->plans->sewn->quilts.items[quilt];
    struct keys keys = {.items = {0}};
    for (size_t i = 0; i < q->heaps.count; i++) {
        const struct heap *heap = &q->heaps.items[i];
        if (heap->technique != TECHNIQUE_CUT || heap->count == 0)
            continue;
        const struct fabric *f =
            &c->design->fabrics.items[heap->of.cut.fabric];
        add_key(arena, &keys,
                (struct key){f->id, heap->of.cut.width, heap->of.cut.height,
                             heap->of.cut.shape, heap->of.cut.border, false,
                             heap->count},
                f->one_way);
    }
    for (size_t i = 0; i < c->plans->items.count; i++) {
        const struct cutplan *plan = &c->plans->items.items[i];
        if (plan->quilt != q || !plan->binding.wanted)
            continue;
        add_key(arena, &keys,
                (struct key){
                    c->design->fabrics.items[plan->binding.fabric].id,
                    plan->binding.width, rational_whole(0), PATCH_WHOLE, 0,
                    true, 0},
                true);
        break;
    }
    return keys;
}

/* The same piece of the other; NULL for none. */
static inline const struct key *find_key(const struct keys *keys,
                                         const struct key *key)
{
    for (size_t i = 0; i < keys->items.count; i++) {
        const struct key *k = &keys->items.items[i];
        if (strcmp(k->fabric, key->fabric) == 0 &&
            rational_equal(k->a, key->a) && rational_equal(k->b, key->b) &&
            k->shape == key->shape && k->border == key->border &&
            k->strip == key->strip)
            return k;
    }
    return NULL;
}

static inline void judge_pieces(struct arena *arena, const struct compiled *a,
                                const struct compiled *b, size_t quilt,
                                struct truth *truth)
{
    const struct keys old = keys_of(arena, a, quilt);
    const struct keys now = keys_of(arena, b, quilt);
    bool lost = false, gained = false;
    for (size_t i = 0; i < old.items.count; i++) {
        const struct key *same = find_key(&now, &old.items.items[i]);
        lost |= same == NULL;
        truth->counts |=
            same != NULL && same->count != old.items.items[i].count;
    }
    for (size_t i = 0; i < now.items.count; i++)
        gained |= find_key(&old, &now.items.items[i]) == NULL;
    truth->lost |= lost;
    truth->gained |= gained;
    truth->lost_and_gained |= lost && gained;
}

/* ---- cloth ---- */

static inline bool same_cloth(const struct fabric_plan *a,
                              const struct fabric_plan *b)
{
    if (a->items.count == 0 || b->items.count == 0)
        return a->items.count == b->items.count;
    return rational_equal(a->bought, b->bought) &&
           a->bought_sheets == b->bought_sheets &&
           a->bolt->sold == b->bolt->sold &&
           rational_equal(a->bolt->width, b->bolt->width);
}

/* requires: as many plans in both, and the same order of fabrics. */
static inline bool same_amounts(const struct compiled *a,
                                const struct compiled *b)
{
    bool same = true;
    for (size_t i = 0; i < a->plans->items.count; i++) {
        const struct cutplan *x = &a->plans->items.items[i];
        const struct cutplan *y = &b->plans->items.items[i];
        for (size_t f = 0; f < a->design->fabrics.count; f++)
            same &= same_cloth(&x->fabrics[f], &y->fabrics[f]);
        same &= x->backing.wanted == y->backing.wanted;
        if (x->backing.wanted && y->backing.wanted)
            same &= rational_equal(x->backing.bought, y->backing.bought) &&
                    x->backing.fabric == y->backing.fabric &&
                    rational_equal(x->backing.width, y->backing.width) &&
                    rational_equal(x->backing.height, y->backing.height);
        same &= rational_equal(x->batting_width, y->batting_width) ==
                (x->batting_wanted && y->batting_wanted);
        same &= rational_known(x->batting_gap) ==
                    rational_known(y->batting_gap) &&
                (!rational_known(x->batting_gap) ||
                 rational_equal(x->batting_gap, y->batting_gap));
    }
    return same;
}

/* ---- the top ---- */

static inline bool holds(const struct face *face, double x, double y)
{
    bool inside = false;
    for (size_t i = 0, j = face->count - 1; i < face->count; j = i++) {
        const double xi = rational_double(face->points[i].x);
        const double yi = rational_double(face->points[i].y);
        const double xj = rational_double(face->points[j].x);
        const double yj = rational_double(face->points[j].y);
        if ((yi > y) != (yj > y) && x < (xj - xi) * (y - yi) / (yj - yi) + xi)
            inside = !inside;
    }
    return inside;
}

enum { POINTS = 97 };

/* What is seen at so many points across and down: the face that lies there, by
 * its fabric, its box and, where the print has one, its way. */
static inline const char **seen_on(struct arena *arena,
                                   const struct compiled *c, size_t quilt)
{
    const struct cloth *cloth = c->plans->sewn->quilts.items[quilt].cloth;
    const double w = rational_double(cloth->width);
    const double h = rational_double(cloth->height);
    const char **seen = ARENA_ARRAY(arena, const char *, POINTS *POINTS);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        const struct fabric *fabric = &c->design->fabrics.items[face->fabric];
        double left = w, right = 0, top = h, bottom = 0;
        for (size_t k = 0; k < face->count; k++) {
            left = fmin(left, rational_double(face->points[k].x));
            right = fmax(right, rational_double(face->points[k].x));
            top = fmin(top, rational_double(face->points[k].y));
            bottom = fmax(bottom, rational_double(face->points[k].y));
        }
        const char *what = arena_printf(
            arena, "%s %u %.4f %.4f %.4f %.4f", fabric->id,
            fabric->one_way ? face->turn * 2 + face->slanted : 0, left, right,
            top, bottom);
        for (int py = 0; py < POINTS; py++) {
            const double y = h * (py + 0.31) / POINTS;
            for (int px = 0; y >= top && y <= bottom && px < POINTS; px++) {
                const double x = w * (px + 0.47) / POINTS;
                if (x >= left && x <= right && holds(face, x, y))
                    seen[py * POINTS + px] = what;
            }
        }
    }
    return seen;
}

static inline bool same_top(struct arena *arena, const struct compiled *a,
                            const struct compiled *b, size_t quilt)
{
    const char **x = seen_on(arena, a, quilt), **y = seen_on(arena, b, quilt);
    for (size_t i = 0; i < (size_t)POINTS * POINTS; i++)
        if (x[i] == NULL || y[i] == NULL || strcmp(x[i], y[i]) != 0)
            return x[i] == NULL && y[i] == NULL;
    return true;
}

/* ---- seams and steps ---- */

/* Corners that are cut before they are sewn. */
static inline size_t cut_first(const struct compiled *c, size_t quilt)
{
    const struct sewn_quilt *q = &c->plans->sewn->quilts.items[quilt];
    size_t count = 0;
    for (size_t i = 0; i < q->heaps.count; i++)
        for (size_t k = 0; k < q->heaps.items[i].inputs.count; k++)
            count += q->heaps.items[i].inputs.items[k].method ==
                     CORNER_CUT_FIRST;
    return count;
}

/* A sum that no order changes: where each seam lies and which way it goes. */
static inline uint64_t seams_of(const struct compiled *c, size_t quilt)
{
    const struct cloth *cloth = c->plans->sewn->quilts.items[quilt].cloth;
    uint64_t sum = 0;
    for (size_t i = 0; i < cloth->seams.count; i++) {
        const struct seam *s = &cloth->seams.items[i];
        const int64_t parts[] = {
            s->from.x.num, s->from.x.den, s->from.y.num, s->from.y.den,
            s->to.x.num,   s->to.x.den,   s->to.y.num,   s->to.y.den,
            (s->x > 0) - (s->x < 0) + 7, (s->y > 0) - (s->y < 0) + 11};
        uint64_t one = 17;
        for (size_t k = 0; k < UNIT_COUNT(parts); k++)
            one = (one ^ (uint64_t)parts[k]) * 0x9E3779B97F4A7C15u;
        sum += one ^ one >> 29;
    }
    return sum;
}

/* What each step makes, in the order of their numbers. */
static inline const char *steps_of(struct arena *arena,
                                   const struct compiled *c, size_t quilt)
{
    const struct sewn_quilt *q = &c->plans->sewn->quilts.items[quilt];
    const char *told = "";
    for (size_t step = 1; step <= q->heaps.count; step++)
        for (size_t i = 0; i < q->heaps.count; i++) {
            const struct heap *heap = &q->heaps.items[i];
            if (heap->step == step && heap->within == i)
                told = arena_printf(
                    arena, "%s|%d %s %zu %zu", told, heap->technique,
                    heap->named == NULL ? "" : heap->named->id,
                    heap->inputs.count, heap->count);
        }
    return told;
}

/* requires: as many quilts and colorways in both. */
static inline struct truth truth_of(struct arena *arena,
                                    const struct compiled *a,
                                    const struct compiled *b)
{
    struct truth truth = {0};
    for (size_t q = 0; q < a->plans->sewn->quilts.count; q++) {
        judge_pieces(arena, a, b, q, &truth);
        truth.top |= !same_top(arena, a, b, q);
        truth.seams |= seams_of(a, q) != seams_of(b, q);
        truth.methods |= cut_first(a, q) != cut_first(b, q);
        truth.order |=
            strcmp(steps_of(arena, a, q), steps_of(arena, b, q)) != 0;
    }
    truth.amounts = !same_amounts(a, b);
    return truth;
}

#endif
