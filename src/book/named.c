/* Figures that can be asked for alone. Sections hand over the boxes that they
 * put on their pages; only the finished units and blocks are drawn here, by the
 * function that draws the cover. Read next: compose.c. */
#include <string.h>

#include "section.h"

/* Points: the longer side of a unit or block. */
enum { CLOTH_SIDE = 216 };

/* Good until the next name is added, as lists move.
 * ensures: the figure of that name; a new one has the title. */
static struct named_box *named_box(struct booklet *booklet, const char *name,
                                   const char *title)
{
    for (size_t i = 0; i < booklet->named.count; i++)
        if (strcmp(booklet->named.items[i].name, name) == 0)
            return &booklet->named.items[i];
    struct named_box *named = LIST_ADD(booklet->wording.arena, &booklet->named);
    named->name = name;
    named->title = title;
    return named;
}

/* The drawing inside a figure of the structure that tells it in words: sections
 * open it only on the page, around more than the drawing. */
static struct box *told(struct booklet *booklet, const struct box *drawing,
                        const char *words)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_new(canvas, drawing->width, drawing->height);
    box_tag(canvas, box, "Figure", words);
    box_put(canvas, box, drawing, 0.0, 0.0);
    box_tag_end(canvas, box, "Figure");
    return box;
}

/* The title is that of the first box of the name. */
static void name_box(struct booklet *booklet, const char *name,
                     const char *title, struct box *box)
{
    struct named_box *named = named_box(booklet, name, title);
    *LIST_ADD(booklet->wording.arena, &named->parts) = box;
}

/* The cover's picture has no words of its own: its title tells it. */
void name_quilt_figure(struct booklet *booklet, const struct box *box)
{
    const char *title = title_of_quilt(&booklet->wording);
    name_box(booklet, "quilt", title, told(booklet, box, title));
}

void unname_figures(struct booklet *booklet, size_t count)
{
    booklet->named.count = count;
}

/* The boxes of a step carry their captions, and their words with them. */
void name_step_figure(struct booklet *booklet, const struct heap *heap,
                      struct box *box)
{
    struct arena *arena = booklet->wording.arena;
    const size_t index = (size_t)(heap - booklet->quilt->heaps.items);
    name_box(booklet,
             arena_printf(arena, "step-%s", say_count(arena, heap->step)),
             title_of_step(&booklet->wording, index), box);
}

/* The whole cloth before its first line. Below each other, lines say what the
 * numbers say beside the page's text. One drawing serves both names. */
void name_cutting_figure(struct booklet *booklet, int fabric, size_t number,
                         const char *text, const struct box *box)
{
    struct arena *arena = booklet->wording.arena;
    const struct wording *w = &booklet->wording;
    const struct colorway *colorway = booklet->plan->colorway;
    const char *letter = fabric_letter(arena, fabric);
    struct box *drawing = told(booklet, box, text);
    name_box(booklet, arena_printf(arena, "cutting-%s", letter),
             title_of_cutting(w, colorway, fabric, 0), drawing);
    name_box(
        booklet,
        arena_printf(arena, "cutting-%s-%s", letter, say_count(arena, number)),
        title_of_cutting(w, colorway, fabric, number), drawing);
}

void name_quilting_figure(struct booklet *booklet, const char *name,
                          const char *title, const struct box *box)
{
    name_box(booklet, name, title, told(booklet, box, title));
}

/* Its drawings carry their words. */
void name_coloring_figure(struct booklet *booklet, const char *title,
                          struct box *box)
{
    name_box(booklet, "coloring", title, box);
}

/* ---- finished cloth ---- */

/* A line along an axis: x or y is at most, or at least, `value`. */
struct limit {
    bool vertical, least;
    struct rational value;
};

/* How far the point lies beyond the limit: positive is off. Exact, as a rounded
 * sign would leave slivers along the edge. */
static struct rational beyond(struct limit limit, struct vertex v)
{
    const struct rational at = limit.vertical ? v.x : v.y;
    return limit.least ? rational_sub(limit.value, at)
                       : rational_sub(at, limit.value);
}

/* Where the edge from a, on one side of the limit, to b, on the other, meets
 * it. */
static struct vertex meeting(struct limit limit, struct vertex a,
                             struct vertex b)
{
    const struct rational off_a = beyond(limit, a);
    const struct rational share =
        rational_div(off_a, rational_sub(off_a, beyond(limit, b)));
    return (struct vertex){
        rational_add(a.x, rational_mul(share, rational_sub(b.x, a.x))),
        rational_add(a.y, rational_mul(share, rational_sub(b.y, a.y)))};
}

/* Most faces do; they share their corners with the cloth. */
static bool lies_within(struct face face, struct limit limit)
{
    for (size_t i = 0; i < face.count; i++) {
        const struct vertex v = face.points[i];
        const int side =
            rational_compare(limit.vertical ? v.x : v.y, limit.value);
        if (limit.least ? side < 0 : side > 0)
            return false;
    }
    return true;
}

/* What of a convex face lies within the limit (Sutherland and Hodgman, 1974).
 * Exact, so that neighbours still meet. */
static struct face face_within(struct arena *arena, struct face face,
                               struct limit limit)
{
    if (lies_within(face, limit))
        return face;
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count + 2);
    size_t count = 0;
    for (size_t i = 0; i < face.count; i++) {
        const struct vertex a = face.points[i];
        const struct vertex b = face.points[(i + 1) % face.count];
        const int side_a = rational_sign(beyond(limit, a));
        const int side_b = rational_sign(beyond(limit, b));
        if (side_a <= 0)
            points[count++] = a;
        if (side_a * side_b < 0)
            points[count++] = meeting(limit, a, b);
    }
    face.points = points;
    face.count = count;
    return face;
}

/* ensures: the cloth without its seam allowances, as it will be seen.
 * A face that lies in the allowance alone, or only touches the edge, keeps
 * fewer than three corners and is dropped. */
struct cloth *finished_cloth(struct arena *arena, const struct cloth *cloth)
{
    const struct limit limits[4] = {
        {true, true, rational_whole(0)},
        {true, false, cloth->width},
        {false, true, rational_whole(0)},
        {false, false, cloth->height},
    };
    struct cloth *finished = ARENA_NEW(arena, struct cloth);
    finished->width = cloth->width;
    finished->height = cloth->height;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        for (int k = 0; k < 4; k++)
            face = face_within(arena, face, limits[k]);
        if (face.count >= 3)
            *LIST_ADD(arena, &finished->faces) = face;
    }
    return finished;
}

/* "block-star", "unit-wing-mirrored" */
static const char *base_name(struct arena *arena,
                             const struct definition *definition, bool mirror)
{
    return arena_printf(arena, "%s-%s%s",
                        definition->kind == DEFINE_UNIT ? "unit" : "block",
                        definition->id, mirror ? "-mirrored" : "");
}

/* Some figure has the name, or it is kept for a unit or block. */
static bool is_taken(const struct booklet *booklet, const char *name)
{
    const struct design *design = booklet->design;
    for (size_t i = 0; i < booklet->named.count; i++)
        if (strcmp(booklet->named.items[i].name, name) == 0)
            return true;
    for (size_t i = 0; i < 2 * design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i / 2];
        if (one->kind != DEFINE_QUILT &&
            strcmp(base_name(booklet->wording.arena, one, i % 2 == 1), name) ==
                0)
            return true;
    }
    return false;
}

/* The base name, and behind it the fabrics that tell the cast from others. */
static const char *cast_figure(struct booklet *booklet,
                               const struct heap_name *of)
{
    struct arena *arena = booklet->wording.arena;
    const char *name = base_name(arena, of->definition, of->mirror);
    for (size_t i = 0; i < of->definition->role_count; i++)
        if (role_varies(&booklet->wording, of->cast, i))
            name = arena_printf(
                arena, "%s-%s", name,
                booklet->design->fabrics.items[of->cast->fabrics[i]].id);
    const char *only = name;
    for (size_t number = 2; is_taken(booklet, only); number++)
        only = arena_printf(arena, "%s-%zu", name, number);
    return only;
}

static bool same_cloth(const struct heap_name *a, const struct heap_name *b)
{
    return a->definition == b->definition && a->mirror == b->mirror &&
           (a->cast == NULL || b->cast == NULL ||
            memcmp(a->cast->fabrics, b->cast->fabrics,
                   a->definition->role_count * sizeof *a->cast->fabrics) == 0);
}

/* One name for each unit and block, for its mirrored form, which is sewn from
 * other heaps and looks like nothing that is in the source, and for each cast
 * but the first, which has the plain name. */
static void name_definition(struct booklet *booklet, const struct heap *heap,
                            const struct heap_name *of)
{
    struct arena *arena = booklet->wording.arena;
    bool first = true;
    for (size_t i = 0; i < booklet->named.count; i++) {
        const struct heap_name *other = booklet->named.items[i].cloth;
        if (other != NULL && same_cloth(other, of))
            return; /* sewn at two sizes: one picture does */
        first &= other == NULL || other->definition != of->definition ||
                 other->mirror != of->mirror;
    }
    const char *name = first ? base_name(arena, of->definition, of->mirror)
                             : cast_figure(booklet, of);
    const char *title = title_of_cloth(&booklet->wording, of);
    struct named_box *named = named_box(booklet, name, title);
    if (named->parts.count > 0)
        return; /* two ids that make one name */
    named->cloth = of;
    struct box *drawing = figure_cloth(
        &booklet->flow.canvas, booklet->plan->colorway,
        finished_cloth(arena, heap->cloth), CLOTH_SIDE, CLOTH_SIDE);
    *LIST_ADD(arena, &named->parts) = told(booklet, drawing, title);
}

/* Heaps that stand for units and blocks; cuts are no figure. */
void name_cloth_figures(struct booklet *booklet)
{
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        for (size_t k = 0; heap->step > 0 && k < heap->names.count; k++)
            name_definition(booklet, heap, &heap->names.items[k]);
    }
}
