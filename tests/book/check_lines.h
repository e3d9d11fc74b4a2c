/* Rules of a printed page about how lines lie to each other: guides, lines side
 * by side, lines on each other, leaders. Functions that look at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_LINES_H
#define SEAMWRIGHT_TESTS_CHECK_LINES_H

#include "check_layout.h"
#include "check_text.h"

/* ---- figures as lines and areas ---- */

/* The items of a figure, without its tags, in the order of drawing. */
struct sketch {
    size_t page;
    const struct item *items;
    size_t count;
    double width; /* of all that is drawn */
};
struct sketches {
    LIST(struct sketch) items;
};

static inline double width_of(const struct visit *visit,
                              const struct item *items, size_t count)
{
    struct mark_box box = {{1e9, 1e9}, {-1e9, -1e9}};
    for (size_t i = 0; i < count; i++)
        if (items[i].kind == ITEM_PATH)
            extend_item(visit, &box, &items[i]);
    return box.high.x - box.low.x;
}

/* Of all pages but the cover, where lines only give depth. */
static inline struct sketches sketches_of(struct visit *visit)
{
    struct sketches sketches = {.items = {0}};
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        size_t first = 0;
        for (size_t i = 0; i < items->count; i++) {
            if (opens(&items->items[i], "Figure"))
                first = i + 1;
            if (closes(&items->items[i], "Figure"))
                *LIST_ADD(visit->scratch, &sketches.items) = (struct sketch){
                    p, items->items + first, i - first,
                    width_of(visit, items->items + first, i - first)};
        }
    }
    return sketches;
}

/* A straight piece of a stroked path. */
struct stroke {
    struct point from, to;
    const struct path_item *path;
    size_t item; /* of its sketch */
};
struct strokes {
    LIST(struct stroke) items;
};

static inline size_t edges_of(const struct path_item *path)
{
    return path->count < 2 ? 0 : path->closed ? path->count : path->count - 1;
}

static inline struct point nth_corner(const struct path_item *path, size_t k)
{
    return path->points[k % path->count];
}

/* Where p lies along the line, as a share of it, and how far off. */
static inline double share_along(const struct stroke *line, struct point p)
{
    const double dx = line->to.x - line->from.x, dy = line->to.y - line->from.y;
    return ((p.x - line->from.x) * dx + (p.y - line->from.y) * dy) /
           (dx * dx + dy * dy);
}

static inline double off_line(const struct stroke *line, struct point p)
{
    const double dx = line->to.x - line->from.x, dy = line->to.y - line->from.y;
    return fabs((p.x - line->from.x) * dy - (p.y - line->from.y) * dx) /
           hypot(dx, dy);
}

static inline double length_of(const struct stroke *line)
{
    return hypot(line->to.x - line->from.x, line->to.y - line->from.y);
}

static inline struct point point_along(const struct stroke *line, double share)
{
    return (struct point){line->from.x + share * (line->to.x - line->from.x),
                          line->from.y + share * (line->to.y - line->from.y)};
}

/* How far p lies from the line between its ends. */
static inline double from_line(const struct stroke *line, struct point p)
{
    const double share = fmin(fmax(share_along(line, p), 0.0), 1.0);
    const struct point at = point_along(line, share);
    return hypot(p.x - at.x, p.y - at.y);
}

static inline bool same_tone(struct color a, struct color b)
{
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

/* Casings are white; circles and bows are many short edges. */
static inline struct strokes strokes_of(struct visit *visit,
                                        const struct sketch *sketch)
{
    enum { CURVE = 10 };
    struct strokes strokes = {.items = {0}};
    for (size_t i = 0; i < sketch->count; i++) {
        const struct path_item *path = &sketch->items[i].as.path;
        if (sketch->items[i].kind != ITEM_PATH || path->stroke <= 0.0 ||
            is_white(path->stroke_color) || path->count >= CURVE ||
            (path->filled && same_tone(path->stroke_color, path->fill)))
            continue;
        for (size_t k = 0; k < edges_of(path); k++) {
            const struct stroke stroke = {nth_corner(path, k),
                                          nth_corner(path, k + 1), path, i};
            if (length_of(&stroke) > 0.01)
                *LIST_ADD(visit->scratch, &strokes.items) = stroke;
        }
    }
    return strokes;
}

/* The rule of even and odd: a ray to the right. */
static inline bool is_within(const struct path_item *path, struct point p)
{
    bool inside = false;
    for (size_t k = 0; k < path->count; k++) {
        const struct point a = nth_corner(path, k), b = nth_corner(path, k + 1);
        if ((a.y > p.y) != (b.y > p.y) &&
            p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

/* Does something that is drawn behind an item, up to another, lie over that
 * point of it? */
static inline bool is_covered(const struct sketch *sketch, size_t item,
                              size_t end, struct point p)
{
    for (size_t i = item + 1; i < end; i++)
        if (sketch->items[i].kind == ITEM_PATH &&
            sketch->items[i].as.path.filled &&
            is_within(&sketch->items[i].as.path, p))
            return true;
    return false;
}

/* ---- B3: guides ---- */

/* Fine dashes: from part to part, or an edge that cloth hides. */
static inline bool is_guide(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.count == 2 &&
           fabs(item->as.path.dash[0] - MM(1.6)) < 0.01 &&
           fabs(item->as.path.dash[1] - MM(0.6)) < 0.01;
}

static const double guide_slack = MM(0.3);

/* How far a point is from the corners of a shape, or from all of its edge. */
static inline double from_shape(const struct path_item *path, struct point p,
                                bool corners)
{
    double least = 1e9;
    for (size_t k = 0; k < edges_of(path); k++) {
        const struct stroke side = {nth_corner(path, k),
                                    nth_corner(path, k + 1), path, 0};
        if (length_of(&side) > 0.01)
            least = fmin(least,
                         corners ? hypot(p.x - side.from.x, p.y - side.from.y)
                                 : from_line(&side, p));
    }
    return least;
}

/* A guide joins a corner of one part to a corner of another; a hidden edge runs
 * through one part from edge to edge. */
static inline bool ends_rightly(const struct sketch *sketch,
                                const struct path_item *guide)
{
    const struct point *p = guide->points;
    const struct point middle = {(p[0].x + p[1].x) / 2.0,
                                 (p[0].y + p[1].y) / 2.0};
    size_t from = 0, to = 0, both = 0;
    for (size_t i = 0; i < sketch->count; i++) {
        const struct path_item *shape = &sketch->items[i].as.path;
        if (sketch->items[i].kind != ITEM_PATH || shape->count < 3)
            continue;
        if (is_within(shape, middle) &&
            from_shape(shape, p[0], false) < guide_slack &&
            from_shape(shape, p[1], false) < guide_slack)
            return true;
        const bool at_from = from_shape(shape, p[0], true) < guide_slack;
        const bool at_to = from_shape(shape, p[1], true) < guide_slack;
        from += at_from;
        to += at_to;
        both += at_from && at_to;
    }
    return from > both && to > both;
}

static inline void look_at_guides(struct visit *visit)
{
    const struct sketches sketches = sketches_of(visit);
    for (size_t s = 0; s < sketches.items.count; s++) {
        const struct sketch *sketch = &sketches.items.items[s];
        for (size_t i = 0; i < sketch->count; i++) {
            const struct path_item *guide = &sketch->items[i].as.path;
            if (is_guide(&sketch->items[i]) && !ends_rightly(sketch, guide))
                breach(visit->breaches,
                       "page %zu: a guide from %.0f, %.0f to %.0f, %.0f",
                       sketch->page + 1, guide->points[0].x, guide->points[0].y,
                       guide->points[1].x, guide->points[1].y);
        }
    }
}

/* ---- pairs of lines ---- */

/* Two parallel lines, where they run side by side. */
struct beside {
    const struct stroke *first, *second; /* in the order of drawing */
    struct point at, there;              /* in the middle, on each of them */
    double apart;                        /* from middle line to middle line */
};

/* ensures: false for lines that are not parallel, to a degree, or that have
 * less than 0.7 mm side by side. */
static inline bool run_beside(const struct stroke *a, const struct stroke *b,
                              struct beside *pair)
{
    const double ax = a->to.x - a->from.x, ay = a->to.y - a->from.y;
    const double bx = b->to.x - b->from.x, by = b->to.y - b->from.y;
    const double turn = (ax * by - ay * bx) / (length_of(a) * length_of(b));
    if (fabs(turn) > sin(acos(-1.0) / 180.0))
        return false;
    const double s = share_along(a, b->from), t = share_along(a, b->to);
    const double from = fmax(fmin(s, t), 0.0), to = fmin(fmax(s, t), 1.0);
    if ((to - from) * length_of(a) < MM(0.7))
        return false;
    const struct point at = point_along(a, (from + to) / 2.0);
    *pair = (struct beside){a, b, at, point_along(b, share_along(b, at)),
                            off_line(b, at)};
    return true;
}

static const double on_each_other = MM(0.05);

typedef void pair_visitor(struct visit *visit, const struct sketch *sketch,
                          const struct beside *pair);

/* Of one figure, less than 2 mm apart. Seams of cloth are no lines to read:
 * pairs of patches are left out. */
static inline void each_pair(struct visit *visit, const struct sketch *sketch,
                             pair_visitor *look)
{
    const struct strokes strokes = strokes_of(visit, sketch);
    struct beside pair;
    for (size_t i = 0; i < strokes.items.count; i++)
        for (size_t k = i + 1; k < strokes.items.count; k++) {
            const struct stroke *a = &strokes.items.items[i];
            const struct stroke *b = &strokes.items.items[k];
            if ((a->path->role == ROLE_CLOTH && b->path->role == ROLE_CLOTH) ||
                off_line(a, b->from) > MM(2.0) || !run_beside(a, b, &pair))
                continue;
            look(visit, sketch, &pair);
        }
}

/* In figures from a width on. */
static inline void each_figure(struct visit *visit, double least,
                               pair_visitor *look)
{
    const struct sketches sketches = sketches_of(visit);
    for (size_t s = 0; s < sketches.items.count; s++)
        if (sketches.items.items[s].width >= least)
            each_pair(visit, &sketches.items.items[s], look);
}

/* ---- C4: lines side by side ---- */

/* Where one is covered, there is only one line. */
static inline void look_at_clear_space(struct visit *visit,
                                       const struct sketch *sketch,
                                       const struct beside *pair)
{
    const double clear =
        pair->apart -
        (pair->first->path->stroke + pair->second->path->stroke) / 2.0;
    if (pair->apart > on_each_other && clear < MM(0.7) - 0.01 &&
        !is_covered(sketch, pair->first->item, sketch->count, pair->at) &&
        !is_covered(sketch, pair->second->item, sketch->count, pair->there))
        breach(visit->breaches, "page %zu: lines %.2f mm apart at %.0f, %.0f",
               sketch->page + 1, clear / MM(1.0), pair->at.x, pair->at.y);
}

/* Smaller figures are small for want of room: a seam of a quarter inch lies as
 * near to its line as their scale has it, and that goes first (D14). */
static inline void look_at_parallels(struct visit *visit)
{
    each_figure(visit, MM(25.0), look_at_clear_space);
}

/* ---- C7: lines on each other ---- */

/* Of an area or a part, as broad as edges are. */
static inline bool is_edge(const struct path_item *path)
{
    return path->role != ROLE_MARK && path->dash[0] == 0.0 &&
           path->stroke > LINE_MIDDLE - 0.01 &&
           same_tone(path->stroke_color, ink);
}

/* Red is what hands do, and lies on all else (section 5 of the design). */
static inline bool is_less(const struct path_item *path)
{
    return !is_edge(path) && !same_tone(path->stroke_color, action_red);
}

static inline void look_at_order_of(struct visit *visit,
                                    const struct sketch *sketch,
                                    const struct beside *pair)
{
    if (pair->apart <= on_each_other && is_edge(pair->first->path) &&
        is_less(pair->second->path) &&
        !is_covered(sketch, pair->first->item, pair->second->item, pair->at))
        breach(visit->breaches, "page %zu: an edge lies below at %.0f, %.0f",
               sketch->page + 1, pair->at.x, pair->at.y);
}

static inline void look_at_edges(struct visit *visit)
{
    each_figure(visit, 0.0, look_at_order_of);
}

/* ---- D10: leaders ---- */

struct leader {
    struct point points[4]; /* from the words to the dot */
    size_t count;
    size_t dot; /* its item; 0 where it has none */
    const char *text;
};
struct leaders {
    LIST(struct leader) items;
};

static const double dot_radius = MM(0.55);

static inline bool is_leader_line(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.count == 2 &&
           item->as.path.dash[0] == 0.0 &&
           fabs(item->as.path.stroke - LINE_FINE) < 0.01 &&
           same_tone(item->as.path.stroke_color, ink);
}

static inline bool is_leader_casing(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.count == 2 &&
           fabs(item->as.path.stroke - LINE_FINE - LINE_BROAD) < 0.01 &&
           is_white(item->as.path.stroke_color);
}

/* In ink, round its middle. */
static inline bool is_dot_at(const struct item *item, struct point middle)
{
    const struct path_item *path = &item->as.path;
    if (item->kind != ITEM_PATH || path->count < 12 || !path->filled ||
        !same_tone(path->fill, ink))
        return false;
    for (size_t k = 0; k < path->count; k++)
        if (fabs(hypot(path->points[k].x - middle.x,
                       path->points[k].y - middle.y) -
                 dot_radius) > 0.01)
            return false;
    return true;
}

/* Casings, then the line that they are for, then the dot, then the words. */
static inline struct leaders leaders_of(struct visit *visit,
                                        const struct sketch *sketch)
{
    struct leaders leaders = {.items = {0}};
    for (size_t i = 0; i < sketch->count; i++) {
        struct leader leader = {.text = ""};
        size_t lines = 0;
        for (; i < sketch->count && is_leader_casing(&sketch->items[i]); i++)
            lines++;
        if (lines == 0 || lines > 3 || i == sketch->count ||
            !is_leader_line(&sketch->items[i]))
            continue;
        for (; i < sketch->count && leader.count < lines &&
               is_leader_line(&sketch->items[i]);
             i++) {
            leader.points[leader.count++] = sketch->items[i].as.path.points[0];
            leader.points[leader.count] = sketch->items[i].as.path.points[1];
        }
        for (size_t k = i; k < sketch->count && k < i + 2; k++)
            if (is_dot_at(&sketch->items[k], leader.points[leader.count]))
                leader.dot = k;
        for (size_t k = i; k < sketch->count && leader.text[0] == '\0'; k++)
            if (sketch->items[k].kind == ITEM_TEXT)
                leader.text = sketch->items[k].as.text.text;
        leader.count++;
        *LIST_ADD(visit->scratch, &leaders.items) = leader;
    }
    return leaders;
}

/* What lies there on top, below the leaders: the patch, or the outline of a
 * part; or NULL. */
static inline const struct path_item *
area_at(const struct sketch *sketch, struct point p, enum path_role role)
{
    const struct path_item *area = NULL;
    for (size_t i = 0; i < sketch->count; i++)
        if (sketch->items[i].kind == ITEM_PATH &&
            sketch->items[i].as.path.role == role &&
            is_within(&sketch->items[i].as.path, p))
            area = &sketch->items[i].as.path;
    return area;
}

/* The cloth that the words name, or NULL: the longest of the names, as one may
 * be in another. */
static inline const struct bolt *bolt_named(const struct visit *visit,
                                            const char *text)
{
    const struct bolt *named = NULL;
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++) {
        const struct bolt *bolt = &visit->plan->colorway->bolts[f];
        if (strstr(text, bolt->name) != NULL &&
            (named == NULL || strlen(bolt->name) > strlen(named->name)))
            named = bolt;
    }
    return named;
}

/* The patch of the cloth that is named, else the outline of a part; not on its
 * edge. */
static inline bool is_in_its_area(const struct visit *visit,
                                  const struct sketch *sketch,
                                  const struct leader *leader)
{
    const struct point end = leader->points[leader->count - 1];
    const struct bolt *bolt = bolt_named(visit, leader->text);
    const struct path_item *area =
        area_at(sketch, end, bolt == NULL ? ROLE_OUTLINE : ROLE_CLOTH);
    if (area == NULL || from_shape(area, end, false) < MM(0.3))
        return false;
    return bolt == NULL || (fabs(area->fill.red - bolt->red) < 0.001 &&
                            fabs(area->fill.green - bolt->green) < 0.001 &&
                            fabs(area->fill.blue - bolt->blue) < 0.001);
}

static inline double turn_to(struct point a, struct point b, struct point p)
{
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static inline bool cross_each_other(const struct leader *a,
                                    const struct leader *b)
{
    for (size_t i = 0; i + 1 < a->count; i++)
        for (size_t k = 0; k + 1 < b->count; k++) {
            const struct point *p = &a->points[i], *q = &b->points[k];
            if (turn_to(p[0], p[1], q[0]) * turn_to(p[0], p[1], q[1]) < 0.0 &&
                turn_to(q[0], q[1], p[0]) * turn_to(q[0], q[1], p[1]) < 0.0)
                return true;
        }
    return false;
}

static inline void look_at_leaders_of(struct visit *visit,
                                      const struct sketch *sketch)
{
    const struct leaders leaders = leaders_of(visit, sketch);
    for (size_t i = 0; i < leaders.items.count; i++) {
        const struct leader *leader = &leaders.items.items[i];
        if (leader->dot == 0)
            breach(visit->breaches, "page %zu: no dot for \"%s\"",
                   sketch->page + 1, leader->text);
        else if (!is_in_its_area(visit, sketch, leader))
            breach(visit->breaches, "page %zu: \"%s\" leads elsewhere",
                   sketch->page + 1, leader->text);
        for (size_t k = 0; k < i; k++)
            if (cross_each_other(leader, &leaders.items.items[k]))
                breach(visit->breaches, "page %zu: \"%s\" crosses \"%s\"",
                       sketch->page + 1, leader->text,
                       leaders.items.items[k].text);
    }
}

static inline void look_at_leaders(struct visit *visit)
{
    const struct sketches sketches = sketches_of(visit);
    for (size_t s = 0; s < sketches.items.count; s++)
        look_at_leaders_of(visit, &sketches.items.items[s]);
}

#endif
