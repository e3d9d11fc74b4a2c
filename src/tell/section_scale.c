/* What is drawn in true size: squares to measure by, the seam, and the sizes of
 * cut pieces, so that ruler and machine can be checked. The ruler at the foot
 * is as long as a page allows, and so the page's own. Read next:
 * section_sewing.c.
 */
#include "contents.h"
#include "trade.h"

/* ---- squares ---- */

static void add_square(const struct wording *w, struct contents *contents,
                       enum drawing_kind drawing, const char *words)
{
    add_figure(w, contents, PART_SQUARES,
               (struct told_figure){
                   .drawing = drawing, .caption = words, .told = words});
}

void add_squares(const struct wording *w, struct contents *contents)
{
    add_square(w, contents, DRAWING_INCH,
               say(w->arena, w->phrases, "scale.inch", NULL));
    add_square(w, contents, DRAWING_CENTIMETRES,
               say(w->arena, w->phrases, "scale.centimetres", NULL));
}

/* ---- seam gauge ---- */

const char *word_true_length(const struct wording *w, const char *key,
                             struct rational length)
{
    return say(w->arena, w->phrases, key, "length",
               arena_printf(w->arena, "%s\u00a0%s", word_length(w, length),
                            word_unit(w)),
               NULL);
}

/* Two strips ten seams wide: what they are together when the seam is right.
 * Common practice. */
static const char *gauge_words(const struct wording *w, struct rational seam)
{
    return say(w->arena, w->phrases, "scale.gauge", "strip",
               word_length_unit(w, rational_times(seam, 10)), "joined",
               word_length_unit(w, rational_times(seam, 18)), NULL);
}

/* A scant seam is narrower by the thickness of the fold. One that is hardly
 * wider than the difference has no scant one. */
static void add_gauge(const struct wording *w, struct contents *contents)
{
    const struct rational seam = w->design->pattern->seam;
    const struct rational less =
        trade_length(TRADE_SCANT, w->design->pattern->units);
    const char *words = word_true_length(w, "scale.seam", seam);
    add_heading(w, contents, PART_GAUGE,
                say(w->arena, w->phrases, "scale.width", NULL));
    add_paragraph(w, contents, PART_GAUGE, gauge_words(w, seam));
    struct told_figure *figure =
        add_figure(w, contents, PART_GAUGE,
                   (struct told_figure){.drawing = DRAWING_SEAM,
                                        .width = seam,
                                        .height = rational_sub(seam, less),
                                        .caption = "",
                                        .told = words});
    *LIST_ADD(w->arena, &figure->labels) =
        say(w->arena, w->phrases, "scale.edge", NULL);
    *LIST_ADD(w->arena, &figure->labels) = words;
    if (rational_compare(seam, rational_times(less, 3)) > 0)
        *LIST_ADD(w->arena, &figure->labels) =
            word_true_length(w, "scale.scant", less);
}

/* ---- sizes of cut pieces ---- */

/* One size, and the labels of all cut pieces that have it. */
struct cut_shape {
    struct rational width, height;
    const struct strip_shape *shape; /* of slanted edges, or NULL */
    const char *labels;
    bool corner; /* sewn on as a corner square */
};
/* Named, as one function gathers them and another lays them out. */
struct cut_shapes {
    LIST(struct cut_shape) items;
};

/* Is the heap laid on the corner of another in this action? */
static bool lays_on_corner(const struct heap *heap, const struct action *action,
                           size_t index)
{
    for (size_t i = 1; action->operation->at_corner && i < action->parts.count;
         i++)
        if (heap->inputs.items[action->parts.items[i]].heap == index)
            return true;
    return false;
}

/* A square that is sewn across a corner: it stands first, as its drawn line is
 * what a template helps with most. */
static bool is_corner_square(const struct sewn_quilt *quilt, size_t index)
{
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->actions.count; k++)
            if (lays_on_corner(heap, &heap->actions.items[k], index))
                return true;
    }
    return false;
}

/* Of the same corners? */
static bool same_outline(const struct strip_shape *a,
                         const struct strip_shape *b)
{
    if (a == NULL || b == NULL || a->as_cut.count != b->as_cut.count)
        return a == b;
    for (size_t i = 0; i < a->as_cut.count; i++)
        if (!rational_equal(a->as_cut.points[i].x, b->as_cut.points[i].x) ||
            !rational_equal(a->as_cut.points[i].y, b->as_cut.points[i].y))
            return false;
    return true;
}

/* The rectangle that a cut piece lies in. */
static struct cut_shape shape_of(const struct cut_piece *cut)
{
    struct cut_shape shape = {
        .width = cut->width, .height = cut->height, .shape = cut->strip};
    if (cut->strip == NULL)
        return shape;
    shape.width = shape.height = rational_whole(0);
    for (size_t i = 0; i < cut->strip->as_cut.count; i++) {
        const struct vertex v = cut->strip->as_cut.points[i];
        shape.width = rational_max(shape.width, v.x);
        shape.height = rational_max(shape.height, v.y);
    }
    return shape;
}

/* One entry a size, however many cloths are cut that size. A label belongs to
 * one heap, so none is told twice. */
static void add_shape(const struct wording *w, struct cut_shapes *shapes,
                      const struct heap *heap, bool corner)
{
    struct arena *arena = w->arena;
    struct cut_shape new = shape_of(&heap->of.cut);
    for (size_t i = 0; i < shapes->items.count; i++) {
        struct cut_shape *shape = &shapes->items.items[i];
        if (!rational_equal(shape->width, new.width) ||
            !rational_equal(shape->height, new.height) ||
            !same_outline(shape->shape, new.shape))
            continue;
        shape->labels = say(arena, w->phrases, "scale.and", "first",
                            shape->labels, "next", heap->of.cut.label, NULL);
        shape->corner |= corner;
        return;
    }
    new.labels = heap->of.cut.label;
    new.corner = corner;
    *LIST_ADD(arena, &shapes->items) = new;
}

/* Corner squares before what is cut aslant, that before other pieces, then the
 * smaller before the larger: what is most easily cut wrong stands on the page
 * even where not all fit. */
static bool comes_before(const struct cut_shape *a, const struct cut_shape *b)
{
    if (a->corner != b->corner)
        return a->corner;
    if ((a->shape == NULL) != (b->shape == NULL))
        return a->shape != NULL;
    return rational_compare(rational_mul(a->width, a->height),
                            rational_mul(b->width, b->height)) < 0;
}

/* Up to 4 in or 10 cm on each side: larger ones leave no room for others, and a
 * ruler that is right over 4 in is right. What is cut aslant may be as wide as
 * the page: no ruler alone tells its outline. */
static bool is_shown(const struct wording *w, const struct heap *heap)
{
    const bool metric = w->design->pattern->units == UNIT_CM;
    const struct rational most = rational_whole(metric ? 10 : 4);
    const struct rational widest = rational_whole(metric ? 18 : 7);
    if (heap->technique != TECHNIQUE_CUT)
        return false;
    const struct cut_shape shape = shape_of(&heap->of.cut);
    return rational_compare(shape.width,
                            shape.shape == NULL ? most : widest) <= 0 &&
           rational_compare(shape.height, most) <= 0;
}

/* In the order of `comes_before`. */
static struct cut_shapes find_shapes(const struct wording *w)
{
    struct cut_shapes shapes = {0};
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        if (is_shown(w, heap))
            add_shape(w, &shapes, heap, is_corner_square(w->quilt, i));
    }
    for (size_t i = 1; i < shapes.items.count; i++) {
        const struct cut_shape shape = shapes.items.items[i];
        size_t at = i;
        for (; at > 0 && comes_before(&shape, &shapes.items.items[at - 1]);
             at--)
            shapes.items.items[at] = shapes.items.items[at - 1];
        shapes.items.items[at] = shape;
    }
    return shapes;
}

/* Cut pieces in true size, one outline for all labels of a size. */
static void add_shapes(const struct wording *w, struct contents *contents)
{
    const struct cut_shapes shapes = find_shapes(w);
    if (shapes.items.count == 0)
        return;
    add_heading(w, contents, PART_SHAPES,
                say(w->arena, w->phrases, "scale.sizes", NULL));
    add_paragraph(w, contents, PART_SHAPES,
                  say(w->arena, w->phrases, "scale.ruler", NULL));
    for (size_t i = 0; i < shapes.items.count; i++) {
        const struct cut_shape *shape = &shapes.items.items[i];
        struct told_figure *figure = add_figure(
            w, contents, PART_SHAPES,
            (struct told_figure){
                .drawing = DRAWING_SHAPE,
                .width = shape->width,
                .height = shape->height,
                .shape = shape->shape,
                .caption = "",
                .told =
                    say(w->arena, w->phrases, "scale.shape", "labels",
                        shape->labels, "size",
                        word_size_unit(w, shape->width, shape->height), NULL)});
        *LIST_ADD(w->arena, &figure->labels) = shape->labels;
    }
}

/* ---- the section ---- */

struct contents tell_scale(const struct wording *w)
{
    struct contents contents = {.items = {0}};
    add_title(w, &contents, say(w->arena, w->phrases, "scale.title", NULL), "");
    add_squares(w, &contents);
    add_gauge(w, &contents);
    add_shapes(w, &contents);
    return contents;
}
