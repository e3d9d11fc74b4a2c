/* Rules of the page that hold for a whole booklet, as functions that look at
 * one: a test runs them over all samples, another counts what they find in a
 * booklet that was damaged. */
#ifndef SEAMWRIGHT_TESTS_CHECK_DESIGN_H
#define SEAMWRIGHT_TESTS_CHECK_DESIGN_H

#include "figures.h"

/* ---- both papers ---- */

/* Without the foot and what stands on the last lines of A4. */
static inline bool in_text(const struct item *item)
{
    return item->kind != ITEM_TEXT || item->as.text.y < MM(262.5);
}

struct items {
    LIST(const struct item *) list;
};

static inline struct items drawn_items(struct arena *arena,
                                       const struct page *page)
{
    struct items items = {.list = {0}};
    for (size_t i = 0; i < page->items.count; i++)
        if ((page->items.items[i].kind == ITEM_PATH ||
             page->items.items[i].kind == ITEM_TEXT) &&
            in_text(&page->items.items[i]))
            *LIST_ADD(arena, &items.list) = &page->items.items[i];
    return items;
}

/* Moved to the side by what A4 is narrower, and by nothing else. */
static inline bool same_place(const struct item *a, const struct item *b,
                              double by)
{
    if (a->kind != b->kind)
        return false;
    if (a->kind == ITEM_TEXT)
        return strcmp(a->as.text.text, b->as.text.text) == 0 &&
               fabs(a->as.text.x + by - b->as.text.x) < 0.01 &&
               fabs(a->as.text.y - b->as.text.y) < 0.01;
    if (a->as.path.count != b->as.path.count)
        return false;
    for (size_t i = 0; i < a->as.path.count; i++)
        if (fabs(a->as.path.points[i].x + by - b->as.path.points[i].x) > 0.01 ||
            fabs(a->as.path.points[i].y - b->as.path.points[i].y) > 0.01)
            return false;
    return true;
}

static inline void compare_pages(struct visit *visit, const struct book *other,
                                 size_t p)
{
    const double by = (other->width - visit->book->width) / 2.0;
    const struct items a =
        drawn_items(visit->scratch, visit->book->pages.items[p]);
    const struct items b = drawn_items(visit->scratch, other->pages.items[p]);
    if (a.list.count != b.list.count) {
        breach(visit->breaches, "page %zu: %zu items, not %zu", p + 1,
               a.list.count, b.list.count);
        return;
    }
    for (size_t i = 0; i < a.list.count; i++)
        if (!same_place(a.list.items[i], b.list.items[i], by)) {
            breach(visit->breaches, "page %zu: item %zu lies elsewhere (%s)",
                   p + 1, i,
                   a.list.items[i]->kind == ITEM_TEXT
                       ? a.list.items[i]->as.text.text
                       : "a path");
            return;
        }
}

/* Same figures, same breaks: each page is the other paper's, moved. */
static inline void look_at_papers(struct visit *visit)
{
    const struct visit *other = visit;
    for (size_t i = 0; i < visit->all->visits.count; i++)
        if (visit->all->visits.items[i].plan == visit->plan &&
            visit->all->visits.items[i].book != visit->book)
            other = &visit->all->visits.items[i];
    if (other == visit)
        breach(visit->breaches, "it has one paper only");
    if (visit->book->pages.count != other->book->pages.count) {
        breach(visit->breaches, "%zu pages on one paper, %zu on the other",
               visit->book->pages.count, other->book->pages.count);
        return;
    }
    for (size_t p = 0; p < visit->book->pages.count; p++)
        compare_pages(visit, other->book, p);
}

/* ---- red ---- */

/* Does the text hold nothing but a size or a number? */
static inline bool is_measure(const char *text)
{
    for (; *text != '\0'; text++)
        if ((*text >= 'a' && *text <= 'z') || (*text >= 'A' && *text <= 'Z'))
            return false;
    return true;
}

/* Behind the cover, whose cloths may be red themselves, red paths are lines,
 * heads and dots; red words are turns and places of cuts. */
static inline void look_at_red(struct visit *visit, const struct page *page,
                               size_t item)
{
    const struct item *it = &page->items.items[item];
    if (it->kind == ITEM_TEXT && is_red(it->as.text.style.color) &&
        !is_measure(it->as.text.text))
        breach(visit->breaches, "page %s: \"%s\" is red", page->label,
               it->as.text.text);
    if (it->kind == ITEM_PATH && it->as.path.filled &&
        is_red(it->as.path.fill) && it->as.path.role != ROLE_MARK &&
        it->as.path.role != ROLE_CLOTH)
        breach(visit->breaches, "page %s: a red area", page->label);
}

/* Is the middle of the line on cloth? */
static inline bool on_cloth(const struct page *page, size_t line)
{
    const struct path_item *path = &page->items.items[line].as.path;
    const struct point p = {(path->points[0].x + path->points[1].x) / 2.0,
                            (path->points[0].y + path->points[1].y) / 2.0};
    for (size_t i = 0; i < line; i++) {
        const struct path_item *cloth = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH ||
            (cloth->role != ROLE_CLOTH && cloth->role != ROLE_WRONG_SIDE))
            continue;
        bool inside = false;
        for (size_t k = 0; k < cloth->count; k++) {
            const struct point a = cloth->points[k];
            const struct point b = cloth->points[(k + 1) % cloth->count];
            if ((a.y > p.y) != (b.y > p.y) &&
                p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
                inside = !inside;
        }
        if (inside)
            return true;
    }
    return false;
}

/* A white line as long, below it, broader by 0.7 mm. */
static inline bool has_casing(const struct page *page, size_t line)
{
    const struct path_item *path = &page->items.items[line].as.path;
    for (size_t i = 0; i < line; i++) {
        const struct path_item *below = &page->items.items[i].as.path;
        if (page->items.items[i].kind == ITEM_PATH && below->count == 2 &&
            below->stroke_color.red == 1.0 && below->stroke_color.blue == 1.0 &&
            fabs(below->stroke - path->stroke - MM(0.7)) < 0.01 &&
            edge(below->points[0], path->points[0]) < 0.01 &&
            edge(below->points[1], path->points[1]) < 0.01)
            return true;
    }
    return false;
}

static inline void look_at_all_red(struct visit *visit)
{
    size_t lines = 0;
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct path_item *path = &page->items.items[i].as.path;
            look_at_red(visit, page, i);
            if (page->items.items[i].kind != ITEM_PATH || path->count != 2 ||
                path->stroke <= 0.0 || !is_red(path->stroke_color) ||
                !on_cloth(page, i))
                continue;
            lines++;
            if (!has_casing(page, i))
                breach(visit->breaches,
                       "page %s: a red line at %.0f, %.0f has "
                       "no casing",
                       page->label, path->points[0].x, path->points[0].y);
        }
    }
    if (lines == 0)
        breach(visit->breaches, "no red line on cloth");
}

/* ---- shades of cloth ---- */

static inline bool is_share(struct color fill, const struct bolt *bolt,
                            double share)
{
    return fabs(1.0 - share * (1.0 - bolt->red) - fill.red) < 0.001 &&
           fabs(1.0 - share * (1.0 - bolt->green) - fill.green) < 0.001 &&
           fabs(1.0 - share * (1.0 - bolt->blue) - fill.blue) < 0.001;
}

/* All of it, 40 % in work, 10 % from behind; 22 % around the places that a
 * small picture shows. */
static inline bool is_shade(const struct visit *visit,
                            const struct path_item *path)
{
    static const double shares[] = {1.0, 0.4, 0.22, 0.1};
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++)
        for (size_t k = 0; k < UNIT_COUNT(shares); k++)
            if ((shares[k] == 0.1) == (path->role == ROLE_WRONG_SIDE) &&
                is_share(path->fill, &visit->plan->colorway->bolts[f],
                         shares[k]))
                return true;
    return false;
}

/* From the first step to the head of the next section. */
static inline void look_at_shades(struct visit *visit)
{
    size_t step = 0, seen = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t heading = heading_number(item);
            step = heading > 0 ? heading : is_section(item) ? 0 : step;
            if (step == 0 || item->kind != ITEM_PATH ||
                told_step(visit, step) == NULL ||
                (item->as.path.role != ROLE_CLOTH &&
                 item->as.path.role != ROLE_WRONG_SIDE))
                continue;
            seen++;
            if (!is_shade(visit, &item->as.path))
                breach(visit->breaches,
                       "page %zu, step %zu: cloth of another "
                       "shade",
                       p + 1, step);
        }
    if (seen == 0)
        breach(visit->breaches, "no cloth");
}

/* ---- nothing on labels ---- */

/* A label as it is read, 0.7 mm clear at the most; plates hide what is below.
 */
static inline void look_at_label(struct visit *visit, const struct drawn *drawn,
                                 size_t label)
{
    const struct page *page = visit->book->pages.items[drawn->page];
    const struct text_item *text = &page->items.items[label].as.text;
    const struct quad box = text_quad(visit->all->typeset, text, true);
    for (size_t i = drawn->first; i < drawn->last; i++) {
        const struct item *item = &page->items.items[i];
        const struct path_item *path = &item->as.path;
        if (i == label)
            continue;
        if (item->kind == ITEM_TEXT) {
            const struct quad other =
                text_quad(visit->all->typeset, &item->as.text, true);
            if (quad_overlap(&box, &other) > -MM(0.3))
                breach(visit->breaches, "step %zu: \"%s\" lies on \"%s\"",
                       drawn->step->number, text->text, item->as.text.text);
        }
        if (item->kind != ITEM_PATH || path->count == 0 ||
            (path->role != ROLE_MARK && path->count != 24 && path->count != 30))
            continue;
        for (size_t n = 0; n + !path->closed < path->count; n++) {
            const struct point a = path->points[n];
            const struct point b = path->points[(n + 1) % path->count];
            if (!crosses(&box, a, b))
                continue;
            breach(visit->breaches, "step %zu: a line or mark crosses \"%s\"",
                   drawn->step->number, text->text);
            break;
        }
    }
}

static inline void look_at_clear_labels(struct visit *visit)
{
    const struct drawings drawings = all_drawings_of(visit);
    size_t seen = 0;
    for (size_t d = 0; d < drawings.items.count; d++) {
        const struct drawn *drawn = &drawings.items.items[d];
        const struct page *page = visit->book->pages.items[drawn->page];
        for (size_t i = drawn->first; i < drawn->last; i++)
            if (is_label(&page->items.items[i])) {
                look_at_label(visit, drawn, i);
                seen++;
            }
    }
    if (seen == 0)
        breach(visit->breaches, "no labels");
}

/* ---- sizes in running text ---- */

/* "6½ × 2 in": no line ends inside of a size. */
static inline void look_at_blanks(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT && item->as.text.width > 0.0 &&
                (strstr(item->as.text.text, " \u00d7") != NULL ||
                 strstr(item->as.text.text, "\u00d7 ") != NULL))
                breach(visit->breaches,
                       "page %zu: \"%.60s\" may break in a "
                       "size",
                       p + 1, item->as.text.text);
        }
}

/* How long lines of sentences are: at most 75 characters on average. */
static inline void look_at_lengths(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const struct text_item *text = &item->as.text;
            if (!is_caption(item))
                continue;
            const double one = typeset_measure(visit->all->typeset, text->text,
                                               text->style, 0.0)
                                   .width;
            size_t letters = 0;
            for (const char *c = text->text; *c != '\0'; c++)
                letters += ((unsigned char)*c & 0xC0) != 0x80;
            const double wide = fmin(one, text->width);
            if ((double)letters * wide / one > 80.0)
                breach(visit->breaches,
                       "page %zu: lines of %.0f letters: "
                       "\"%.50s\"",
                       p + 1, (double)letters * wide / one, text->text);
        }
}

#endif
