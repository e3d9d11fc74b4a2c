/* What is told of figures, what belongs to nothing, and that elements stand on
 * the page in the order in which they are read: functions that look at one
 * booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_STRUCTURE_H
#define SEAMWRIGHT_TESTS_CHECK_STRUCTURE_H

#include "pages.h"
#include "structure.h"

/* The elements that are open at an item, innermost last. */
struct open_elements {
    const struct tag_item *tags[16];
    size_t count;
};

/* ensures: true where an element begins. */
static inline bool follow(struct open_elements *open, const struct item *item)
{
    if (item->kind == ITEM_TAG_BEGIN) {
        assert_true(open->count < 16);
        open->tags[open->count++] = &item->as.tag;
        return strcmp(item->as.tag.name, TAG_PLACE) != 0;
    }
    if (item->kind == ITEM_TAG_END) {
        assert_true(open->count > 0);
        assert_string_equal(open->tags[--open->count]->name, item->as.tag.name);
    }
    return false;
}

/* Calls for each item of the booklet, with what is open around it. */
static inline void each_item(struct visit *visit,
                             void (*look)(struct visit *,
                                          const struct open_elements *,
                                          const struct page *, size_t))
{
    struct open_elements open = {.count = 0};
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            follow(&open, &page->items.items[i]);
            look(visit, &open, page, i);
        }
    }
    assert_int_equal(open.count, 0);
}

/* ---- words for figures ---- */

static inline void look_at_alternative(struct visit *visit,
                                       const struct open_elements *open,
                                       const struct page *page, size_t index)
{
    const struct item *item = &page->items.items[index];
    const struct tag_item *tag =
        open->count == 0 ? NULL : open->tags[open->count - 1];
    if (item->kind != ITEM_TEXT || tag == NULL ||
        strcmp(tag->name, "Figure") != 0)
        return;
    if (tag->alternative == NULL ||
        strstr(tag->alternative, item->as.text.text) == NULL)
        breach(visit->breaches, "page %s: `%s' is not told of its figure",
               page->label, item->as.text.text);
}

static inline void look_at_alternatives(struct visit *visit)
{
    each_item(visit, look_at_alternative);
}

/* ---- what belongs to nothing ---- */

/* Only the foot does, which stands below the column. */
static inline void look_at_artifact(struct visit *visit,
                                    const struct open_elements *open,
                                    const struct page *page, size_t index)
{
    const struct item *item = &page->items.items[index];
    if (item->kind != ITEM_TEXT)
        return;
    const bool furniture = item->as.text.y > visit->book->height - 45.0;
    const char *name =
        open->count == 0 ? "" : open->tags[open->count - 1]->name;
    const char *const leaves[] = {"P",  "H1", "H2",  "Span",  "Link",
                                  "TH", "TD", "Lbl", "LBody", "Figure"};
    bool leaf = false;
    for (size_t i = 0; i < sizeof leaves / sizeof leaves[0]; i++)
        leaf |= strcmp(name, leaves[i]) == 0;
    if (leaf == furniture)
        breach(visit->breaches, "page %s: `%s' stands in `%s'", page->label,
               item->as.text.text, name);
}

static inline void look_at_artifacts(struct visit *visit)
{
    each_item(visit, look_at_artifact);
}

/* ---- order ---- */

/* The top left corner of what an element shows; `false` for an empty one. */
static inline bool corner_of(const struct page *page, size_t begin,
                             struct point *corner)
{
    int depth = 0;
    *corner = (struct point){1e9, 1e9};
    for (size_t i = begin; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        depth += item->kind == ITEM_TAG_BEGIN;
        depth -= item->kind == ITEM_TAG_END;
        if (depth == 0)
            break;
        if (item->kind == ITEM_TEXT &&
            item->as.text.style.align == ALIGN_LEFT) {
            corner->x = fmin(corner->x, item->as.text.x);
            corner->y = fmin(corner->y, item->as.text.y);
        }
        for (size_t k = 0; item->kind == ITEM_PATH && k < item->as.path.count;
             k++) {
            corner->x = fmin(corner->x, item->as.path.points[k].x);
            corner->y = fmin(corner->y, item->as.path.points[k].y);
        }
    }
    return corner->x < 1e9;
}

/* Down the page; where it goes up again, to the right. Corners of figures reach
 * a little over their boxes. */
static inline void look_at_order(struct visit *visit)
{
    const double slack = 8.0;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        struct point last = {0.0, 0.0};
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            const char *const blocks = " P H1 H2 TR LI Figure ";
            struct point corner;
            if (item->kind != ITEM_TAG_BEGIN ||
                strstr(blocks, arena_printf(visit->all->arena, " %s ",
                                            item->as.tag.name)) == NULL ||
                !corner_of(page, i, &corner))
                continue;
            if (corner.y < last.y - slack && corner.x < last.x + slack)
                breach(visit->breaches,
                       "page %s: a %s at %.0f, %.0f is read behind %.0f, %.0f",
                       page->label, item->as.tag.name, corner.x, corner.y,
                       last.x, last.y);
            last = corner;
        }
    }
}

/* ---- links ---- */

/* Each step leads to all that it is made from. */
static inline void look_at_links(struct visit *visit)
{
    size_t wanted = 0, found = 0;
    const struct told_steps steps = tell_steps(&visit->wording);
    for (size_t i = 0; i < steps.items.count; i++) {
        const struct told_step *step = &steps.items.items[i];
        wanted += step->parts.items.count;
        for (size_t z = 0; z < step->sizes.count; z++)
            for (size_t k = 0; k < step->sizes.items[z].parts.items.count; k++)
                wanted += is_other_cast(visit->plan->quilt,
                                        step->sizes.items[z].heap) &&
                          !step->parts.items.items[k].shared;
    }
    for (size_t i = 0; i < visit->sample->design->fabrics.count; i++)
        wanted += visit->plan->fabrics[i].items.count;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++)
            found += page->items.items[i].kind == ITEM_TAG_BEGIN &&
                     strcmp(page->items.items[i].as.tag.name, "Link") == 0;
    }
    /* A name that is broken over two lines is two links; the contents on the
     * back cover have some. */
    enum { CONTENTS = 8 };
    if (found < wanted || found > wanted + wanted / 4 + CONTENTS)
        breach(visit->breaches, "%zu links for %zu parts and pieces", found,
               wanted);
}

#endif
