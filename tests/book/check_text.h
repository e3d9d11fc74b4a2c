/* Where texts lie and how large they are, which lines are drawn, in what order
 * steps come: functions that look at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_TEXT_H
#define SEAMWRIGHT_TESTS_CHECK_TEXT_H

#include "look.h"
#include "pages.h"

/* The measure of 182 mm is in the middle of both papers; text begins 15 mm
 * below the edge, and the foot's line ends 9 mm above it. */
static inline void look_at_margins(struct visit *visit)
{
    const struct book *book = visit->book;
    const double margin = (book->width - MM(182.0)) / 2.0;
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT)
                continue;
            const struct quad quad =
                text_quad(visit->all->typeset, &item->as.text, true);
            for (int k = 0; k < 4; k++) {
                const struct point at = quad.corner[k];
                if (at.x > margin - 0.5 && at.x < book->width - margin + 0.5 &&
                    at.y > MM(15.0) - 0.5 && at.y < book->height - MM(9.0))
                    continue;
                breach(visit->breaches, "page %zu: \"%s\" reaches %.1f, %.1f",
                       p + 1, item->as.text.text, at.x, at.y);
                break;
            }
        }
}

/* Four sizes, and one more on the cover, which is fitted to its measure. */
static inline void look_at_type_sizes(struct visit *visit)
{
    static const double sizes[] = {7.5, 9.5, 13.0, 24.0};
    double cover = 0.0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT)
                continue;
            const double size = item->as.text.style.size;
            bool of_four = false;
            for (size_t k = 0; k < UNIT_COUNT(sizes); k++)
                of_four |= size == sizes[k];
            if (!of_four && p == 0 && (cover == 0.0 || cover == size)) {
                cover = size;
                of_four = true;
            }
            if (!of_four)
                breach(visit->breaches, "page %zu: \"%s\" is %.1f pt high",
                       p + 1, item->as.text.text, size);
            if (typeset_missing_glyphs(visit->all->typeset,
                                       item->as.text.text) > 0)
                breach(visit->breaches, "page %zu: \"%s\" lacks a glyph", p + 1,
                       item->as.text.text);
        }
}

/* Every other width of the series of ISO 128-20, from the thinnest that a home
 * printer holds: each twice the one before. */
static inline bool in_series(double points)
{
    static const double series[] = {0.18, 0.35, 0.7};
    for (size_t i = 0; i < UNIT_COUNT(series); i++)
        if (fabs(points * 25.4 / 72.0 - series[i]) < 0.005)
            return true;
    return false;
}

static inline bool is_white(struct color color)
{
    return color.red > 0.99 && color.green > 0.99 && color.blue > 0.99;
}

/* But for the cover, where lines only give depth. */
static inline void look_at_line_widths(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_PATH)
                continue;
            const struct path_item *path = &item->as.path;
            /* White is a halo around a line, not a line. */
            if (path->stroke > 0.0 && !is_white(path->stroke_color) &&
                !in_series(path->stroke))
                breach(visit->breaches, "page %zu: a line of %.3f pt", p + 1,
                       path->stroke);
            if (path->hatch != NULL && !path->hatch->dotted &&
                !in_series(path->hatch->width))
                breach(visit->breaches, "page %zu: a hatch of %.3f pt", p + 1,
                       path->hatch->width);
            for (size_t k = 0; k < path->count; k++)
                if (!isfinite(path->points[k].x) ||
                    !isfinite(path->points[k].y) || path->points[k].x < 18.0 ||
                    path->points[k].x > visit->book->width - 18.0 ||
                    path->points[k].y < 18.0 ||
                    path->points[k].y > visit->book->height - 18.0)
                    breach(visit->breaches, "page %zu: a point at %.1f, %.1f",
                           p + 1, path->points[k].x, path->points[k].y);
        }
}

struct placed {
    const struct text_item *text;
    struct quad whole, ink;
    bool label;
};

/* Two texts of a page may not lie in each other. Running text is compared by
 * its lines' whole height, labels of figures by their ink. */
static inline void compare_texts(struct visit *visit, size_t page,
                                 const struct placed *a, const struct placed *b)
{
    const bool labels = a->label || b->label;
    const double depth = labels ? quad_overlap(&a->ink, &b->ink)
                                : quad_overlap(&a->whole, &b->whole);
    if (depth > 0.5)
        breach(visit->breaches, "page %zu: \"%.40s\" and \"%.40s\" by %.1f pt",
               page + 1, a->text->text, b->text->text, depth);
}

/* Lines of the display type have a sixth of its size more air on both sides
 * than its letters take. */
static inline struct quad line_quad(struct visit *visit,
                                    const struct text_item *text)
{
    struct quad quad = text_quad(visit->all->typeset, text, false);
    const double air =
        text->style.face == FACE_DISPLAY ? 0.16 * text->style.size : 0.0;
    for (int i = 0; i < 4; i++)
        quad.corner[i].y += i < 2 ? air : -air;
    return quad;
}

static inline void look_at_overlaps(struct visit *visit)
{
    struct arena *arena = visit->all->arena;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        LIST(struct placed) texts = {0};
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (item->kind != ITEM_TEXT || item->as.text.text[0] == '\0')
                continue;
            *LIST_ADD(arena, &texts) = (struct placed){
                &item->as.text, line_quad(visit, &item->as.text),
                text_quad(visit->all->typeset, &item->as.text, true),
                is_label(item)};
        }
        for (size_t i = 0; i < texts.count; i++)
            for (size_t k = i + 1; k < texts.count; k++)
                compare_texts(visit, p, &texts.items[i], &texts.items[k]);
    }
}

/* Walks all items in reading order. Steps of finishing are numbered on. */
static inline void look_at_steps(struct visit *visit)
{
    size_t number = 0, heading_page = 0;
    bool figure_seen = true;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t step = heading_number(item);
            if (step > 0) {
                if (step != number + 1)
                    breach(visit->breaches, "step %zu behind %zu", step,
                           number);
                if (!figure_seen)
                    breach(visit->breaches, "step %zu has no figure", number);
                number = step;
                heading_page = p;
                figure_seen = false;
            } else if (!figure_seen && item->kind == ITEM_TAG_BEGIN &&
                       strcmp(item->as.tag.name, "Figure") == 0) {
                figure_seen = true;
                if (p != heading_page)
                    breach(visit->breaches,
                           "step %zu on page %zu, figure on "
                           "page %zu",
                           number, heading_page + 1, p + 1);
            }
        }
    if (number < step_count(visit) || number == 0)
        breach(visit->breaches, "%zu steps, not %zu", number,
               step_count(visit));
}

/* At its head, not somewhere on it. */
static inline bool begins_section(const struct page *page)
{
    for (size_t i = 0; i < page->items.count; i++)
        if (page->items.items[i].kind == ITEM_TEXT)
            return is_section(&page->items.items[i]);
    return false;
}

/* How far down a page has marks, of the 247 mm below the head; the foot is none
 * of them. */
static inline double filled(struct visit *visit, const struct page *page)
{
    const double top = MM(15.0), bottom = visit->book->height - MM(14.0);
    double lowest = top;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        if (item->kind == ITEM_TEXT && item->as.text.y < bottom) {
            const struct quad q =
                text_quad(visit->all->typeset, &item->as.text, false);
            lowest = fmax(lowest, q.corner[2].y);
        }
        for (size_t k = 0; item->kind == ITEM_PATH && k < item->as.path.count;
             k++)
            lowest = fmax(lowest, item->as.path.points[k].y);
    }
    return (lowest - top) / MM(247.0);
}

/* Every page is used to 70 % of its height, but for the last one of a section,
 * which may end at a quarter, and two of each booklet, where what follows does
 * not fit in its smallest size: they end behind their middle. */
static inline void look_at_page_fill(struct visit *visit)
{
    size_t short_ones = 0;
    for (size_t p = 0; p + 1 < visit->book->pages.count; p++) {
        const double full = filled(visit, visit->book->pages.items[p]);
        const bool last = begins_section(visit->book->pages.items[p + 1]);
        short_ones += !last && full < 0.7;
        if (full < (last ? 0.25 : short_ones < 3 ? 0.5 : 0.7))
            breach(visit->breaches, "page %zu is %.0f %% full", p + 1,
                   100.0 * full);
    }
}

/* ---- labels ---- */

/* A name of its line of parts. */
static inline bool is_part_of(const struct visit *visit, size_t step,
                              const char *text)
{
    const struct told_step *told = told_step(visit, step);
    for (size_t i = 0; i < told->parts.items.count; i++)
        if (is_name_of(visit, told->parts.items.items[i].heap, text))
            return true;
    return false;
}

/* In a figure of a step: a part of that step's line, or a direction. */
static inline void look_at_label_names(struct visit *visit)
{
    size_t step = 0, figures = 0, seen = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t heading = heading_number(item);
            step = heading > 0 ? heading : is_section(item) ? 0 : step;
            figures += item->kind == ITEM_TAG_BEGIN &&
                       strcmp(item->as.tag.name, "Figure") == 0;
            figures -= item->kind == ITEM_TAG_END &&
                       strcmp(item->as.tag.name, "Figure") == 0;
            if (figures == 0 || !is_label(item) ||
                told_step(visit, step) == NULL)
                continue;
            seen++;
            if (!is_direction(visit, item->as.text.text) &&
                !is_part_of(visit, step, item->as.text.text))
                breach(visit->breaches, "page %zu, step %zu: label \"%s\"",
                       p + 1, step, item->as.text.text);
        }
    if (seen < step_count(visit))
        breach(visit->breaches, "%zu labels in all steps", seen);
}

/* The other way round: each label of a cut piece is in a figure of a strip or
 * beside it, and each part of a step is named in that step. */
static inline size_t times_told(const struct visit *visit, const char *label)
{
    size_t found = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t k = 0; k < page->items.count; k++)
            found += page->items.items[k].kind == ITEM_TEXT &&
                     strstr(page->items.items[k].as.text.text, label) != NULL;
    }
    return found;
}

/* In the table, in a strip, and where it is sewn. Shapes that are cut from one
 * strip have their labels in one. */
static inline void look_for_labels(struct visit *visit)
{
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++)
        for (size_t i = 0; i < visit->plan->fabrics[f].items.count; i++) {
            char *labels =
                arena_printf(visit->scratch, "%s",
                             visit->plan->fabrics[f].items.items[i].label);
            for (char *rest = labels, *label;
                 (label = strtok_r(rest, ", ", &rest)) != NULL;)
                if (times_told(visit, label) < 3)
                    breach(visit->breaches, "%s is told %zu times", label,
                           times_told(visit, label));
        }
}

/* ---- the same twice ---- */

static inline bool same_path(const struct path_item *a,
                             const struct path_item *b)
{
    return a->count == b->count && a->closed == b->closed &&
           a->filled == b->filled &&
           memcmp(a->points, b->points, a->count * sizeof *a->points) == 0 &&
           memcmp(&a->fill, &b->fill, sizeof a->fill) == 0 &&
           memcmp(a->dash, b->dash, sizeof a->dash) == 0;
}

static inline bool same_text(const struct text_item *a,
                             const struct text_item *b)
{
    return strcmp(a->text, b->text) == 0 &&
           memcmp(&a->x, &b->x, 4 * sizeof a->x) == 0 &&
           a->style.size == b->style.size && a->plate == b->plate;
}

static inline void look_twice(struct visit *visit)
{
    const struct book *again = compose_book(
        visit->all->arena, visit->all->typeset, visit->all->phrases,
        visit->sample->design, visit->plan, visit->book->width < 600.0);
    assert_int_equal(again->pages.count, visit->book->pages.count);
    assert_int_equal(again->outline.count, visit->book->outline.count);
    for (size_t p = 0; p < again->pages.count; p++) {
        const struct page *a = again->pages.items[p];
        const struct page *b = visit->book->pages.items[p];
        assert_int_equal(a->items.count, b->items.count);
        for (size_t i = 0; i < a->items.count; i++) {
            const struct item *x = &a->items.items[i], *y = &b->items.items[i];
            if (x->kind != y->kind ||
                (x->kind == ITEM_PATH &&
                 !same_path(&x->as.path, &y->as.path)) ||
                (x->kind == ITEM_TEXT && !same_text(&x->as.text, &y->as.text)))
                breach(visit->breaches, "page %zu, item %zu differs", p + 1, i);
        }
    }
}

#endif
