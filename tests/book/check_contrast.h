/* What can be told apart on the pages, by the ratios of WCAG 2.2: functions
 * that look at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_CONTRAST_H
#define SEAMWRIGHT_TESTS_CHECK_CONTRAST_H

#include "../../src/render/draw.h"
#include "figure_parts.h"
#include "figures.h"
#include <cairo.h>

/* ---- light ---- */

static inline double linear(double value)
{
    return value <= 0.04045 ? value / 12.92 : pow((value + 0.055) / 1.055, 2.4);
}

static inline double encoded(double value)
{
    value = fmax(0.0, fmin(1.0, value));
    return value <= 0.0031308 ? value * 12.92
                              : 1.055 * pow(value, 1.0 / 2.4) - 0.055;
}

static inline double luminance(struct color color)
{
    return 0.2126 * linear(color.red) + 0.7152 * linear(color.green) +
           0.0722 * linear(color.blue);
}

static inline double ratio(struct color a, struct color b)
{
    const double x = luminance(a) + 0.05, y = luminance(b) + 0.05;
    return fmax(x, y) / fmin(x, y);
}

/* Sight without red or without green cones: matrices over linear RGB of
 * Machado, Oliveira and Fernandes, "A Physiologically-based Model for
 * Simulation of Color Vision Deficiency", IEEE TVCG 15(6), 2009, severity 1.0
 * (numbers from memory; their rows must sum to 1, as white stays white). */
enum { SIGHT_FULL, SIGHT_PROTAN, SIGHT_DEUTAN, SIGHTS };
static const double sights[SIGHTS][3][3] = {
    {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}},
    {{0.152286, 1.052583, -0.204868},
     {0.114503, 0.786281, 0.099216},
     {-0.003882, -0.048116, 1.051998}},
    {{0.367322, 0.860646, -0.227968},
     {0.280085, 0.672501, 0.047413},
     {-0.011820, 0.042940, 0.968881}}};
static const char *const sight_names[] = {"full", "protan", "deutan"};

static inline struct color seen_by(int sight, struct color color)
{
    const double in[3] = {linear(color.red), linear(color.green),
                          linear(color.blue)};
    double out[3];
    for (int i = 0; i < 3; i++)
        out[i] =
            encoded(sights[sight][i][0] * in[0] + sights[sight][i][1] * in[1] +
                    sights[sight][i][2] * in[2]);
    return (struct color){out[0], out[1], out[2]};
}

/* ---- what lies at a point of a page ---- */

/* By the number of edges to the right of the point, even or odd. */
static inline bool contains(const struct path_item *path, struct point p)
{
    bool inside = false;
    for (size_t i = 0; i < path->count; i++) {
        const struct point a = path->points[i];
        const struct point b = path->points[(i + 1) % path->count];
        if ((a.y > p.y) != (b.y > p.y) &&
            p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

/* The path that fills the point, of the items before `item`; NULL for paper. */
static inline const struct path_item *fill_at(const struct page *page,
                                              size_t item, struct point p)
{
    const struct path_item *found = NULL;
    for (size_t i = 0; i < item; i++)
        if (page->items.items[i].kind == ITEM_PATH &&
            page->items.items[i].as.path.filled &&
            contains(&page->items.items[i].as.path, p))
            found = &page->items.items[i].as.path;
    return found;
}

static const struct color paper = {1.0, 1.0, 1.0};

/* ---- text ---- */

static inline void look_at_point(struct visit *visit, const struct page *page,
                                 size_t item, struct point p, bool *told)
{
    const struct text_item *text = &page->items.items[item].as.text;
    const struct path_item *below = text->plate ? NULL : fill_at(page, item, p);
    const bool large =
        text->style.face == FACE_BOLD && text->style.size >= 14.0;
    const double least = large ? 3.0 : 4.5;
    const double found =
        ratio(text->style.color, below == NULL ? paper : below->fill);
    const bool hatched = below != NULL && below->hatch != NULL;
    if ((found >= least && !hatched) || *told)
        return;
    *told = true;
    breach(visit->breaches, "page %s: \"%.40s\" has %.2f : 1%s", page->label,
           text->text, found, hatched ? " on a hatch" : "");
}

/* A grid of points over the ink of each text. */
static inline void look_at_texts(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            if (page->items.items[i].kind != ITEM_TEXT)
                continue;
            const struct quad q = text_quad(
                visit->all->typeset, &page->items.items[i].as.text, true);
            bool told = false;
            for (int n = 0; n <= 8; n++)
                for (int k = 1; k < 4; k++) {
                    const double s = n / 8.0, t = k / 4.0;
                    const struct point *c = q.corner;
                    look_at_point(
                        visit, page, i,
                        (struct point){c[0].x + s * (c[1].x - c[0].x) +
                                           t * (c[3].x - c[0].x),
                                       c[0].y + s * (c[1].y - c[0].y) +
                                           t * (c[3].y - c[0].y)},
                        &told);
                }
        }
    }
}

/* ---- lines ---- */

static inline double distance_to(struct point p, struct point a, struct point b)
{
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double t = fmax(0.0, fmin(1.0, ((p.x - a.x) * dx + (p.y - a.y) * dy) /
                                             (dx * dx + dy * dy)));
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/* Fills, and other lines below; a line of the same colour only joins it. */
static inline struct color color_at(const struct page *page, size_t item,
                                    struct point p)
{
    const struct color own = page->items.items[item].as.path.stroke_color;
    struct color found = paper;
    for (size_t i = 0; i < item; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH)
            continue;
        if (path->filled && contains(path, p))
            found = path->fill;
        if (path->stroke > 0.0 && path->count == 2 && !path->closed &&
            path->stroke_color.red != own.red &&
            distance_to(p, path->points[0], path->points[1]) <
                path->stroke / 2.0)
            found = path->stroke_color;
    }
    return found;
}

/* Open lines of two points: marks, shafts, dimensions, rules. Along an edge of
 * 3 : 1, which is seen by itself, a line need only stand out on one side. */
static inline void look_at_line(struct visit *visit, const struct page *page,
                                size_t item)
{
    const struct path_item *path = &page->items.items[item].as.path;
    const struct point a = path->points[0], b = path->points[1];
    const double length = hypot(b.x - a.x, b.y - a.y);
    const double off = path->stroke / 2.0 + 0.15;
    const double x = (a.y - b.y) / length * off, y = (b.x - a.x) / length * off;
    for (int n = 1; n < 8; n++) {
        const struct point p = {a.x + (b.x - a.x) * n / 8.0,
                                a.y + (b.y - a.y) * n / 8.0};
        const struct color one =
            color_at(page, item, (struct point){p.x + x, p.y + y});
        const struct color other =
            color_at(page, item, (struct point){p.x - x, p.y - y});
        const double less = fmin(ratio(path->stroke_color, one),
                                 ratio(path->stroke_color, other));
        if (less >= 3.0 || ratio(one, other) >= 3.0)
            continue;
        breach(visit->breaches,
               "page %s: a line of %.2f pt has %.2f : 1 at "
               "%.0f, %.0f",
               page->label, path->stroke, less, p.x, p.y);
        return;
    }
}

static inline bool is_halo(const struct path_item *path)
{
    return path->stroke_color.red == 1.0 && path->stroke_color.green == 1.0;
}

/* Between rows of a table, which stand apart without it. */
static inline bool is_rule(const struct path_item *path)
{
    return path->stroke_color.red == rule_grey.red &&
           path->stroke_color.blue == rule_grey.blue;
}

/* Lines of the cover's picture only give depth. */
static inline void look_at_line_contrast(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct path_item *path = &page->items.items[i].as.path;
            if (page->items.items[i].kind == ITEM_PATH && path->count == 2 &&
                !path->closed && path->stroke > 0.0 && !is_halo(path) &&
                !is_rule(path))
                look_at_line(visit, page, i);
        }
    }
}

/* ---- neighbours ---- */

struct bounds {
    struct point low, high;
};

static inline struct bounds bounds_of(const struct path_item *path)
{
    struct bounds box = {path->points[0], path->points[0]};
    for (size_t k = 1; k < path->count; k++) {
        const struct point p = path->points[k];
        box.low = (struct point){fmin(box.low.x, p.x), fmin(box.low.y, p.y)};
        box.high = (struct point){fmax(box.high.x, p.x), fmax(box.high.y, p.y)};
    }
    return box;
}

/* With half a point between them. */
static inline bool apart(const struct bounds *a, const struct bounds *b)
{
    return a->low.x > b->high.x + 0.5 || b->low.x > a->high.x + 0.5 ||
           a->low.y > b->high.y + 0.5 || b->low.y > a->high.y + 0.5;
}

/* Do two faces share more than a point of their edges? Tells the middle of
 * what they share. */
static inline bool touch(const struct path_item *a, const struct path_item *b,
                         struct point *middle)
{
    for (size_t i = 0; i < a->count; i++)
        for (size_t k = 0; k < b->count; k++) {
            const struct point p = a->points[i];
            const struct point q = a->points[(i + 1) % a->count];
            const struct point r = b->points[k];
            const struct point s = b->points[(k + 1) % b->count];
            const double length = hypot(q.x - p.x, q.y - p.y);
            const double ux = (q.x - p.x) / length, uy = (q.y - p.y) / length;
            const double off1 = fabs((r.x - p.x) * uy - (r.y - p.y) * ux);
            const double off2 = fabs((s.x - p.x) * uy - (s.y - p.y) * ux);
            const double from = (r.x - p.x) * ux + (r.y - p.y) * uy;
            const double to = (s.x - p.x) * ux + (s.y - p.y) * uy;
            const double low = fmax(0.0, fmin(from, to));
            const double high = fmin(length, fmax(from, to));
            *middle = (struct point){p.x + ux * (low + high) / 2.0,
                                     p.y + uy * (low + high) / 2.0};
            if (off1 < 0.05 && off2 < 0.05 && high - low > 0.5)
                return true;
        }
    return false;
}

/* Rules of ISO 128-3 practice: 30 degrees, or twice the spacing; a hatch that
 * is not seen is none. */
static inline bool hatches_differ(const struct path_item *a,
                                  const struct path_item *b, int sight)
{
    const struct path_item *both[2] = {a, b};
    bool seen[2];
    for (int i = 0; i < 2; i++)
        seen[i] = both[i]->hatch != NULL &&
                  ratio(seen_by(sight, both[i]->hatch->color),
                        seen_by(sight, both[i]->fill)) >= 1.6;
    if (!seen[0] || !seen[1])
        return seen[0] != seen[1];
    double turn = fmod(fabs(a->hatch->angle - b->hatch->angle), 180.0);
    turn = fmin(turn, 180.0 - turn);
    const double wide = fmax(a->hatch->spacing, b->hatch->spacing) /
                        fmin(a->hatch->spacing, b->hatch->spacing);
    return turn >= 30.0 - 1e-9 || wide >= 2.0 - 1e-9 ||
           a->hatch->dotted != b->hatch->dotted;
}

/* For the two simulated kinds of sight a little less, as their matrices are
 * only approximations of sight. */
static const double least_edge[SIGHTS] = {3.0, 2.9, 2.9};

/* An edge of 3 : 1 between them, by their fills or by the line along it, which
 * is the stroke of the one that was drawn later. */
static inline bool told_apart(const struct path_item *below,
                              const struct path_item *above, int sight)
{
    const struct color a = seen_by(sight, below->fill);
    const struct color b = seen_by(sight, above->fill);
    const struct color line = seen_by(sight, above->stroke_color);
    const double least = least_edge[sight];
    return ratio(a, b) >= least ||
           (above->stroke > 0.0 &&
            (ratio(line, a) >= least || ratio(line, b) >= least));
}

/* Under 1.5 mm a figure shows cloth without lines between its patches (section
 * 4 of the design): they would be all that is seen. */
static inline bool is_tiny(const struct path_item *path)
{
    const struct bounds b = bounds_of(path);
    return fmin(b.high.x - b.low.x, b.high.y - b.low.y) < MM(1.5);
}

static inline void look_at_pair(struct visit *visit, const struct drawn *drawn,
                                size_t i, size_t k, size_t *pairs)
{
    const struct path_item *one = &drawn->paths.items[i]->as.path;
    const struct path_item *other = &drawn->paths.items[k]->as.path;
    struct point middle;
    if (is_tiny(one) || is_tiny(other) || !touch(one, other, &middle))
        return;
    ++*pairs;
    for (int sight = 0; sight < SIGHTS; sight++)
        if (!told_apart(one, other, sight))
            breach(
                visit->breaches,
                "step %zu: patches of cloths %d and %d look "
                "like one (%s) at %.0f, %.0f of page %zu",
                drawn->step->number, drawn->state->faces.items[i].face.fabric,
                drawn->state->faces.items[k].face.fabric, sight_names[sight],
                middle.x, middle.y, drawn->page + 1);
}

/* Every figure of every step, with three kinds of sight. */
static inline void look_at_neighbours(struct visit *visit)
{
    struct drawings drawings = drawings_of(visit);
    size_t pairs = 0;
    for (size_t d = 0; d < drawings.items.count; d++) {
        const struct drawn *drawn = &drawings.items.items[d];
        const size_t count = drawn->state->faces.count;
        struct bounds *boxes =
            ARENA_ARRAY(visit->scratch, struct bounds, count);
        for (size_t i = 0; i < count; i++)
            boxes[i] = bounds_of(&drawn->paths.items[i]->as.path);
        for (size_t i = 0; i < count; i++)
            for (size_t k = i + 1; k < count; k++)
                if (!apart(&boxes[i], &boxes[k]))
                    look_at_pair(visit, drawn, i, k, &pairs);
    }
    if (pairs == 0)
        breach(visit->breaches, "no neighbours");
}

/* ---- hatches ---- */

/* None in color, but for what is left over, and dots for the wrong side. */
static inline void look_for_hatches(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct path_item *path = &page->items.items[i].as.path;
            if (page->items.items[i].kind == ITEM_PATH && path->hatch != NULL &&
                path->role != ROLE_WASTE && !path->hatch->dotted)
                breach(visit->breaches, "page %s: a hatch of %.1f degrees",
                       page->label, path->hatch->angle);
        }
    }
}

/* ---- in grey ---- */

/* A patch of each cloth, 60 points a side, on one page. */
static inline struct page *patches_of(struct arena *arena,
                                      const struct visit *visit)
{
    struct page *page = ARENA_NEW(arena, struct page);
    const size_t count = visit->sample->design->fabrics.count;
    for (size_t i = 0; i < count; i++) {
        struct point *points = ARENA_ARRAY(arena, struct point, 4);
        const double left = 60.0 * (double)i;
        points[0] = (struct point){left, 0.0};
        points[1] = (struct point){left + 60.0, 0.0};
        points[2] = (struct point){left + 60.0, 60.0};
        points[3] = (struct point){left, 60.0};
        struct item *item = LIST_ADD(arena, &page->items);
        item->kind = ITEM_PATH;
        item->as.path =
            face_fill(&(struct canvas){.arena = arena, .hatched = true},
                      visit->plan->colorway, (int)i, false, SHADE_DONE);
        item->as.path.points = points;
        item->as.path.count = 4;
        item->as.path.closed = true;
    }
    return page;
}

/* Darkest and lightest grey of a patch, away from its outline, as a printer of
 * 300 dots an inch would be told. */
static inline void grey_reach(cairo_surface_t *surface, size_t patch,
                              double *least, double *most)
{
    enum { DOTS = 250 }; /* 60 points */
    const unsigned char *data = cairo_image_surface_get_data(surface);
    const size_t stride = (size_t)cairo_image_surface_get_stride(surface);
    *least = 1.0;
    *most = 0.0;
    for (size_t y = 20; y < DOTS - 20; y++)
        for (size_t x = 20; x < DOTS - 20; x++) {
            uint32_t pixel;
            memcpy(&pixel, data + y * stride + (patch * DOTS + x) * 4, 4);
            const double light =
                luminance((struct color){(double)(pixel >> 16 & 255) / 255.0,
                                         (double)(pixel >> 8 & 255) / 255.0,
                                         (double)(pixel & 255) / 255.0});
            *least = fmin(*least, light);
            *most = fmax(*most, light);
        }
}

static inline void look_at_grey(struct visit *visit)
{
    const size_t count = visit->sample->design->fabrics.count;
    cairo_surface_t *surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)count * 250, 250);
    cairo_t *cairo = cairo_create(surface);
    cairo_scale(cairo, 300.0 / 72.0, 300.0 / 72.0);
    draw_page(cairo, visit->all->typeset, patches_of(visit->all->arena, visit));
    cairo_surface_flush(surface);
    for (size_t i = 0; i < count; i++) {
        double least, most;
        grey_reach(surface, i, &least, &most);
        const double found = (most + 0.05) / (least + 0.05);
        if (i == 0 ? found > 1.01 : found < 1.8)
            breach(visit->breaches, "cloth %zu: its hatch has %.2f : 1 in grey",
                   i, found);
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

#endif
