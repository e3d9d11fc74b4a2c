/* The legend against the figures of the steps: what is drawn there is
 * explained, and what is explained is drawn. Functions that look at one
 * booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_LEGEND_H
#define SEAMWRIGHT_TESTS_CHECK_LEGEND_H

#include "figures.h"

/* The items of the legend: from the head of its section to the first step. */
struct legend {
    const struct page *page;
    size_t first, last;
};

static inline struct legend legend_of(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (!is_section(item) || strcmp(item->as.text.text, "Sewing") != 0)
                continue;
            size_t last = i;
            while (last < page->items.count &&
                   heading_number(&page->items.items[last]) == 0)
                last++;
            return (struct legend){page, i, last};
        }
    }
    fail_msg("%s: no legend", visit->where);
    return (struct legend){0};
}

/* A casing parts a line from cloth; it is no line. */
static inline bool is_line_casing(const struct path_item *path)
{
    return path->stroke > 0.0 && path->stroke_color.red == 1.0 &&
           path->stroke_color.green == 1.0 && path->stroke_color.blue == 1.0;
}

/* The first thing drawn behind these words, or NULL where they are not said. */
static inline const struct path_item *sign_of(const struct legend *legend,
                                              const char *words)
{
    bool said = false;
    for (size_t i = legend->first; i < legend->last; i++) {
        const struct item *item = &legend->page->items.items[i];
        said |=
            item->kind == ITEM_TEXT && strcmp(item->as.text.text, words) == 0;
        if (said && item->kind == ITEM_PATH && !is_line_casing(&item->as.path))
            return &item->as.path;
    }
    return NULL;
}

/* Width, dashes and colour: what the eye goes by. */
static inline bool same_line(const struct path_item *a,
                             const struct path_item *b)
{
    return a->stroke == b->stroke &&
           memcmp(a->dash, b->dash, sizeof a->dash) == 0 &&
           memcmp(&a->stroke_color, &b->stroke_color, sizeof a->stroke_color) ==
               0;
}

static inline bool same_hatch(const struct path_item *a,
                              const struct path_item *b)
{
    if (a->hatch == NULL || b->hatch == NULL)
        return a->hatch == b->hatch;
    return a->hatch->angle == b->hatch->angle &&
           a->hatch->spacing == b->hatch->spacing &&
           a->hatch->dotted == b->hatch->dotted;
}

/* ---- marks ---- */

/* Folds lie in cutting alone, which tells them itself. */
#define KINDS (MARK_CUT + 1)
static const char *const mark_words[KINDS] = {
    [MARK_DRAWN] = "draw", [MARK_SEWN] = "sew", [MARK_CUT] = "cut"};

/* Is a line of the style between the two ends of the mark? One that is sewn may
 * lie on one that is drawn. */
static inline bool has_mark_line(const struct drawn *drawn,
                                 const struct mark *mark,
                                 const struct path_item *style)
{
    const struct point offset = offset_of(drawn, 0, 0);
    const struct point from = real_point(mark->from);
    const struct point to = real_point(mark->to);
    const struct point ends[2] = {
        {offset.x + from.x * drawn->scale, offset.y + from.y * drawn->scale},
        {offset.x + to.x * drawn->scale, offset.y + to.y * drawn->scale}};
    for (size_t i = 0; i < drawn->paths.count; i++) {
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        if (path->count == 2 && !path->closed && same_line(path, style) &&
            edge(path->points[0], ends[0]) < 0.01 &&
            edge(path->points[1], ends[1]) < 0.01)
            return true;
    }
    return false;
}

/* In some frame of the step that shows the state. */
static inline bool is_drawn_somewhere(const struct drawings *drawings,
                                      const struct drawn *one,
                                      const struct mark *mark,
                                      const struct path_item *style)
{
    bool found = false;
    for (size_t i = 0; i < drawings->items.count; i++) {
        const struct drawn *drawn = &drawings->items.items[i];
        found |=
            drawn->state == one->state && has_mark_line(drawn, mark, style);
    }
    return found;
}

/* Does a figure that is no state of a heap, as of a corner that is folded, have
 * a line of that style? */
static inline bool is_drawn_elsewhere(struct visit *visit,
                                      const struct path_item *style)
{
    const struct drawings drawings = all_drawings_of(visit);
    for (size_t i = 0; style != NULL && i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        for (size_t k = 0; drawn->state == NULL && k < drawn->paths.count; k++)
            if (same_line(&drawn->paths.items[k]->as.path, style))
                return true;
    }
    return false;
}

static inline void look_at_marks(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    const struct drawings drawings = drawings_of(visit);
    bool used[KINDS] = {false};
    for (int kind = 0; kind < KINDS; kind++)
        used[kind] =
            is_drawn_elsewhere(visit, sign_of(&legend, mark_words[kind]));
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        for (size_t k = 0; k < drawn->state->marks.count; k++) {
            const struct mark *mark = &drawn->state->marks.items[k];
            const struct path_item *style =
                (int)mark->kind < KINDS
                    ? sign_of(&legend, mark_words[mark->kind])
                    : NULL;
            if ((int)mark->kind >= KINDS)
                continue;
            used[mark->kind] = true;
            if (style == NULL ||
                !is_drawn_somewhere(&drawings, drawn, mark, style))
                breach(visit->breaches, "step %zu: \"%s\" has another style",
                       drawn->step->number, mark_words[mark->kind]);
        }
    }
    for (int kind = 0; kind < KINDS; kind++)
        if (used[kind] != (sign_of(&legend, mark_words[kind]) != NULL))
            breach(visit->breaches, "\"%s\" is %s", mark_words[kind],
                   used[kind] ? "not explained" : "explained in vain");
}

/* Is any line drawn in a step? Straight joins alone draw none. */
static inline bool draws_lines(const struct visit *visit)
{
    for (size_t i = 0; i < visit->plan->quilt->heaps.count; i++) {
        const struct heap *heap = &visit->plan->quilt->heaps.items[i];
        for (size_t a = 0; a < heap->actions.count; a++)
            if (heap->actions.items[a].before.marks.count > 0)
                return true;
    }
    return false;
}

/* No two kinds of line look alike (ISO 128: a style for each role). */
static inline void look_at_kinds(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    size_t pairs = 0;
    for (int a = 0; a < KINDS; a++)
        for (int b = a + 1; b < KINDS; b++) {
            const struct path_item *one = sign_of(&legend, mark_words[a]);
            const struct path_item *other = sign_of(&legend, mark_words[b]);
            if (one == NULL || other == NULL)
                continue;
            pairs++;
            if (memcmp(one->dash, other->dash, sizeof one->dash) == 0)
                breach(visit->breaches, "\"%s\" and \"%s\" look alike",
                       mark_words[a], mark_words[b]);
        }
    if (pairs == 0 && draws_lines(visit))
        breach(visit->breaches, "no two kinds of line");
}

/* ---- dashes and dots ---- */

typedef bool is_same(const struct path_item *a, const struct path_item *b);

static inline bool legend_has(const struct legend *legend,
                              const struct path_item *path, is_same *same)
{
    for (size_t i = legend->first; i < legend->last; i++)
        if (legend->page->items.items[i].kind == ITEM_PATH &&
            same(path, &legend->page->items.items[i].as.path))
            return true;
    return false;
}

static inline bool steps_have(const struct drawings *drawings,
                              const struct path_item *path, is_same *same)
{
    for (size_t d = 0; d < drawings->items.count; d++)
        for (size_t i = 0; i < drawings->items.items[d].paths.count; i++)
            if (same(path, &drawings->items.items[d].paths.items[i]->as.path))
                return true;
    return false;
}

/* What is used is explained. */
static inline void look_at_used(struct visit *visit,
                                const struct legend *legend,
                                const struct drawn *drawn)
{
    for (size_t i = 0; i < drawn->paths.count; i++) {
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        if (path->dash[0] > 0.0 && !legend_has(legend, path, same_line))
            breach(visit->breaches,
                   "step %zu: dashes of %.1f, %.1f are not "
                   "explained",
                   drawn->step->number, path->dash[0], path->dash[1]);
        if (path->hatch != NULL && !legend_has(legend, path, same_hatch))
            breach(visit->breaches,
                   "step %zu: a hatch of %.1f degrees is not "
                   "explained",
                   drawn->step->number, path->hatch->angle);
    }
}

/* What is explained is used. */
static inline void look_at_paths(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    const struct drawings drawings = all_drawings_of(visit);
    for (size_t d = 0; d < drawings.items.count; d++)
        look_at_used(visit, &legend, &drawings.items.items[d]);
    for (size_t i = legend.first; i < legend.last; i++) {
        const struct path_item *path = &legend.page->items.items[i].as.path;
        if (legend.page->items.items[i].kind != ITEM_PATH)
            continue;
        if (path->dash[0] > 0.0 && !steps_have(&drawings, path, same_line))
            breach(visit->breaches, "dashes of %.1f, %.1f are in vain",
                   path->dash[0], path->dash[1]);
        if (path->hatch != NULL && !steps_have(&drawings, path, same_hatch))
            breach(visit->breaches, "a hatch of %.1f degrees is in vain",
                   path->hatch->angle);
    }
}

/* ---- signs without a line of their own ---- */

static inline void expect_sign(struct visit *visit, const struct legend *legend,
                               const char *words, bool used)
{
    if ((sign_of(legend, words) != NULL) != used)
        breach(visit->breaches, "\"%s\" is %s", words,
               used ? "not explained" : "explained in vain");
}

/* Which signs the figures of the steps hold. */
struct used_signs {
    bool wrong, open, press, flap, turned, numbers;
};

static inline void note_texts(const struct visit *visit,
                              const struct drawn *drawn,
                              struct used_signs *signs)
{
    const struct page *page = visit->book->pages.items[drawn->page];
    for (size_t i = drawn->first; i < drawn->last; i++) {
        signs->numbers |= is_seam_number(&page->items.items[i]);
        signs->turned |= is_turn(&page->items.items[i]);
    }
}

static inline void look_at_signs(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    const struct drawings drawings = all_drawings_of(visit);
    struct used_signs signs = {0};
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        note_texts(visit, drawn, &signs);
        for (size_t k = 0; k < drawn->paths.count; k++)
            signs.wrong |= drawn->paths.items[k]->as.path.hatch != NULL &&
                           drawn->paths.items[k]->as.path.hatch->dotted;
        if (drawn->state == NULL)
            continue;
        for (size_t k = 0; k < drawn->state->presses.count; k++) {
            const struct press_mark *mark = &drawn->state->presses.items[k];
            signs.open |= mark->x == 0 && mark->y == 0;
            signs.press |= mark->x != 0 || mark->y != 0;
        }
        signs.flap |= drawn->state->turns.count > 0;
    }
    expect_sign(visit, &legend, "full color: done; pale: in work", true);
    expect_sign(visit, &legend, "wrong side of the fabric", signs.wrong);
    expect_sign(visit, &legend, "press this way", signs.press);
    expect_sign(visit, &legend, "press open", signs.open);
    expect_sign(visit, &legend, "turn the flap over", signs.flap);
    expect_sign(visit, &legend, "turned clockwise by \u00bc, \u00bd or \u00be",
                signs.turned);
    expect_sign(visit, &legend, "order of the seams", signs.numbers);
}

/* ---- E6: greys ---- */

/* Lightness of greys that are keys, each once. */
struct greys {
    LIST(double) items;
};

static inline bool is_color(struct color a, struct color b)
{
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

/* White is paper, and the panel lies below all keys. Red, green and blue of a
 * grey are alike, but for what an eye takes for none. */
static inline void add_grey(struct visit *visit, struct greys *greys,
                            const struct item *item)
{
    if (item->kind != ITEM_PATH || !item->as.path.filled)
        return;
    const struct color fill = item->as.path.fill;
    const double most = fmax(fill.red, fmax(fill.green, fill.blue));
    const double least = fmin(fill.red, fmin(fill.green, fill.blue));
    if (most - least > 0.06 || is_color(fill, white) || is_color(fill, pale))
        return;
    for (size_t i = 0; i < greys->items.count; i++)
        if (fabs(greys->items.items[i] - (most + least) / 2.0) < 0.02)
            return;
    *LIST_ADD(visit->scratch, &greys->items) = (most + least) / 2.0;
}

static inline void count_greys(struct visit *visit, const struct greys *greys,
                               const char *where)
{
    enum { MOST = 6 };
    if (greys->items.count > MOST)
        breach(visit->breaches, "%zu greys in %s", greys->items.count, where);
}

/* Two legends: of the signs before the first step, and of the cloths on the
 * second page, beside its figures. */
static inline void look_at_greys(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    const struct item_list *items = &visit->book->pages.items[1]->items;
    struct greys signs = {.items = {0}}, cloths = {.items = {0}};
    bool inside = false;
    for (size_t i = legend.first; i < legend.last; i++)
        add_grey(visit, &signs, &legend.page->items.items[i]);
    for (size_t i = 0; i < items->count; i++) {
        inside |= is_tag(&items->items[i], "Figure");
        inside &= items->items[i].kind != ITEM_TAG_END ||
                  !is_tag(&items->items[i], "Figure");
        if (!inside)
            add_grey(visit, &cloths, &items->items[i]);
    }
    count_greys(visit, &signs, "the legend");
    count_greys(visit, &cloths, "the materials");
}

#endif
