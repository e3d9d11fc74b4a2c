/* Faces below, then outlines and labels, then lines, then pressing: what
 * matters to hands lies on top. Points from the box's corner; `origin` is what
 * is taken off. */
#include "figure_parts.h"

#include <math.h>
#include <string.h>

/* ---- fills and lines ---- */

/* Under this width a whole cloth has no lines between its patches: they would
 * be all that is seen. */
#define ICON_MOST MM(25.0)
/* And so they would where patches are narrower than this. */
#define PATCH_LEAST MM(1.5)

/* Cloth in work and its wrong side, as shares of white. */
static const double in_work = 0.60, behind = 0.90;

struct path_item face_fill(const struct canvas *canvas,
                           const struct colorway *colorway, int fabric,
                           bool wrong_side, enum shade shade)
{
    struct path_item path = outline_narrow();
    const struct bolt *bolt = &colorway->bolts[fabric];
    const struct color cloth = {bolt->red, bolt->green, bolt->blue};
    path.filled = true;
    path.role = wrong_side ? ROLE_WRONG_SIDE : ROLE_CLOTH;
    path.fill = cloth;
    if (wrong_side) {
        path.fill = mixed(cloth, white, behind);
        struct hatch *dots = ARENA_NEW(canvas->arena, struct hatch);
        *dots = (struct hatch){45.0, MM(2.2), MM(0.48), true,
                               mixed(cloth, white, 0.25)};
        /* Dots of a pale cloth would not be seen. */
        if (contrast(dots->color, path.fill) < 1.4)
            dots->color = mixed(cloth, ink, 0.35);
        path.hatch = dots;
    } else if (shade == SHADE_WORK) {
        path.fill = mixed(cloth, white, in_work);
    } else {
        /* A dark line on dark cloth would not be seen (WCAG 2.1, 1.4.11): ink
         * is 3:1 from a lightness of 0.154 on, the pale line up to 0.177 and
         * more, as who lacks red or green cones sees red cloth darker or
         * lighter. */
        if (lightness(cloth) < 0.177)
            path.stroke_color = (struct color){0.85, 0.87, 0.89};
        if (canvas->hatched)
            path.hatch = cloth_hatch(canvas->arena, fabric, cloth);
    }
    return path;
}

/* The place of a face decides: the same cloth has its hatch where it is large
 * and none where it is small. */
static struct path_item fill_within(struct path_item fill,
                                    const struct point *points, size_t count)
{
    if (fill.role != ROLE_WRONG_SIDE && fill.hatch != NULL &&
        !hatch_fits(fill.hatch, points, count))
        fill.hatch = NULL;
    return fill;
}

/* Rising lines of 45 degrees are the waste's alone: no cloth has them. */
struct path_item waste_fill(const struct canvas *canvas)
{
    struct path_item waste = outline_narrow();
    waste.filled = true;
    waste.role = ROLE_WASTE;
    waste.fill = white;
    struct hatch *lines = ARENA_NEW(canvas->arena, struct hatch);
    *lines = (struct hatch){45.0, MM(2.6), LINE_FINE, false, grey};
    waste.hatch = lines;
    return waste;
}

/* Red is what hands do: stitches of 2 mm, a cut without a gap. A drawn line is
 * dots, a fold dashes. */
struct path_item mark_style(enum mark_kind kind)
{
    struct path_item path = outline_narrow();
    path.role = ROLE_MARK;
    path.stroke = LINE_MIDDLE;
    switch (kind) {
    case MARK_SEWN:
        path.stroke = LINE_BROAD;
        path.stroke_color = action_red;
        path.dash[0] = MM(2.0);
        path.dash[1] = MM(1.0);
        break;
    case MARK_CUT:
    case MARK_DOT:
        path.stroke_color = action_red;
        break;
    case MARK_FOLD:
        path.dash[0] = MM(2.0);
        path.dash[1] = MM(0.8);
        break;
    case MARK_DRAWN:
        path.round_ends = true;
        path.dash[0] = 0.01;
        path.dash[1] = MM(1.4) - 0.01;
        break;
    }
    return path;
}

/* ---- geometry ---- */

struct point shown_point(const struct figure *figure, struct vertex v,
                         int gap_x, int gap_y)
{
    return (struct point){
        rational_double(v.x) * figure->scale + gap_x * figure->gap,
        rational_double(v.y) * figure->scale + gap_y * figure->gap};
}

static void grow(struct extent *extent, struct point p)
{
    extent->left = p.x < extent->left ? p.x : extent->left;
    extent->top = p.y < extent->top ? p.y : extent->top;
    extent->right = p.x > extent->right ? p.x : extent->right;
    extent->bottom = p.y > extent->bottom ? p.y : extent->bottom;
}

static struct extent nothing(void)
{
    return (struct extent){1e9, 1e9, -1e9, -1e9};
}

struct extent state_extent(const struct figure *figure,
                           const struct state *state)
{
    struct extent extent = nothing();
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        for (size_t k = 0; k < shown->face.count; k++)
            grow(&extent, shown_point(figure, shown->face.points[k],
                                      shown->gap_x, shown->gap_y));
    }
    return extent;
}

struct figure_size figure_size(const struct figure *figure,
                               const struct state *state)
{
    const struct extent extent = state_extent(figure, state);
    return (struct figure_size){extent.right - extent.left,
                                extent.bottom - extent.top};
}

/* ---- drawing ---- */

/* Fills of one figure by fabric and side: the colour of a hatch is searched
 * for, and figures have thousands of faces of few cloths. */
struct known_fills {
    LIST(struct known_fill {
        int fabric;
        bool wrong_side;
        struct path_item fill;
    })
    list;
};

static struct path_item known_fill(const struct figure *figure,
                                   struct known_fills *fills, int fabric,
                                   bool wrong_side)
{
    for (size_t i = 0; i < fills->list.count; i++)
        if (fills->list.items[i].fabric == fabric &&
            fills->list.items[i].wrong_side == wrong_side)
            return fills->list.items[i].fill;
    const struct path_item fill = face_fill(figure->canvas, figure->colorway,
                                            fabric, wrong_side, figure->shade);
    *LIST_ADD(figure->canvas->arena, &fills->list) =
        (struct known_fill){fabric, wrong_side, fill};
    return fill;
}

/* Faces that are drawn now, or later where they are many (book.h). */
struct drawing {
    struct canvas canvas;
    struct figure figure;
    void (*draw)(const struct figure *figure, struct box *box,
                 const void *what);
    const void *what;
};

static void draw_later(const void *what, struct arena *arena,
                       struct item_list *items)
{
    const struct drawing *drawing = what;
    struct canvas canvas = drawing->canvas;
    struct figure figure = drawing->figure;
    struct box box = {.items = *items};
    canvas.arena = arena;
    figure.canvas = &canvas;
    drawing->draw(&figure, &box, drawing->what);
    *items = box.items;
}

/* requires: that `draw` adds paths alone, so many; what it reads stays as it is
 * as long as the book. */
static void
draw_many(const struct figure *figure, struct box *box, size_t count,
          void (*draw)(const struct figure *, struct box *, const void *),
          const void *what)
{
    if (count < BOX_MANY) {
        LIST_RESERVE(figure->canvas->arena, &box->items, count + 1);
        draw(figure, box, what);
        return;
    }
    struct arena *arena = figure->canvas->arena;
    struct drawing *drawing = ARENA_NEW(arena, struct drawing);
    *drawing = (struct drawing){*figure->canvas, *figure, draw, what};
    struct item *item = LIST_ADD(arena, &box->items);
    item->kind = ITEM_LATER;
    item->as.later = (struct later_item){draw_later, drawing, NULL, 0};
}

/* Convex faces of sewn cloth have a handful of corners. */
static void draw_face(const struct figure *figure, struct known_fills *fills,
                      struct box *box, struct face face, int gap_x, int gap_y,
                      struct extent origin)
{
    struct point points[64];
    const size_t count = face.count < 64 ? face.count : 64;
    for (size_t i = 0; i < count; i++) {
        points[i] = shown_point(figure, face.points[i], gap_x, gap_y);
        points[i].x -= origin.left;
        points[i].y -= origin.top;
    }
    box_polygon(
        figure->canvas, box, points, count,
        fill_within(known_fill(figure, fills, face.fabric, face.wrong_side),
                    points, count));
}

static double polygon_area(const struct point *points, size_t count)
{
    double area = 0.0;
    for (size_t i = 0; i < count; i++) {
        const struct point p = points[i], q = points[(i + 1) % count];
        area += (p.x * q.y - q.x * p.y) / 2.0;
    }
    return fabs(area);
}

static void add_to_part(const struct figure *figure, struct part_view *part,
                        const struct shown_face *shown)
{
    struct point points[64];
    const size_t count = shown->face.count < 64 ? shown->face.count : 64;
    for (size_t i = 0; i < count; i++) {
        points[i] = shown_point(figure, shown->face.points[i], shown->gap_x,
                                shown->gap_y);
        grow(&part->extent, points[i]);
    }
    part->area += polygon_area(points, count);
}

/* Faces of one part that lie apart are parts of their own. */
static struct part_view part_view(const struct figure *figure,
                                  const struct state *state, int part,
                                  int gap_x, int gap_y)
{
    struct part_view view = {.extent = nothing()};
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part == part && shown->gap_x == gap_x &&
            shown->gap_y == gap_y)
            add_to_part(figure, &view, shown);
    }
    return view;
}

/* A rectangular part gets a wide outline, so that it reads as one piece. */
static void outline_part(const struct figure *figure, struct box *box,
                         const struct part_view *part, struct extent origin)
{
    const double width = part->extent.right - part->extent.left;
    const double height = part->extent.bottom - part->extent.top;
    if (fabs(width * height - part->area) > 0.01 * width * height)
        return;
    box_rectangle(figure->canvas, box, part->extent.left - origin.left,
                  part->extent.top - origin.top, width, height, outline_wide());
}

/* Many like parts are labelled once for each kind. */
static bool label_wanted(const struct figure *figure,
                         const struct part_view *view, int part, bool *told)
{
    enum { FEW = 48, VERY_FEW = 24 };
    const size_t heap = figure->parts[part].heap;
    const bool roomy = fmin(view->extent.right - view->extent.left,
                            view->extent.bottom - view->extent.top) >
                       (figure->part_count > VERY_FEW ? 24.0 : 12.0);
    const bool first = !told[heap];
    told[heap] = true;
    return first || (roomy && figure->part_count <= FEW);
}

/* All faces of a state, seen from the origin. */
struct state_faces {
    const struct shown_face *faces;
    size_t count;
    struct extent origin;
};

/* Lines around patches that are hardly wider than they are would make one dark
 * blot of a whole quilt: such a patch shows its cloth alone. */
static void bare_if_tiny(struct path_item *path)
{
    struct extent extent = nothing();
    for (size_t i = 0; i < path->count; i++)
        grow(&extent, path->points[i]);
    if (fmin(extent.right - extent.left, extent.bottom - extent.top) <
        PATCH_LEAST)
        path->stroke_color = path->fill;
}

static void draw_state_faces(const struct figure *figure, struct box *box,
                             const void *what)
{
    const struct state_faces *faces = what;
    struct known_fills fills = {.list = {0}};
    for (size_t i = 0; i < faces->count; i++) {
        draw_face(figure, &fills, box, faces->faces[i].face,
                  faces->faces[i].gap_x, faces->faces[i].gap_y, faces->origin);
        if (figure->bare)
            bare_if_tiny(&box->items.items[box->items.count - 1].as.path);
    }
}

/* Faces of a part stand together in a state, so a change of part or gap begins
 * a new one. */
static void draw_parts(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    bool *told = figure->parts == NULL
                     ? NULL
                     : ARENA_ARRAY(figure->canvas->arena, bool,
                                   figure->wording->quilt->heaps.count);
    struct state_faces *faces =
        ARENA_NEW(figure->canvas->arena, struct state_faces);
    *faces =
        (struct state_faces){state->faces.items, state->faces.count, origin};
    draw_many(figure, box, state->faces.count, draw_state_faces, faces);
    draw_waste(figure, box, state, origin);
    int part = WHOLE - 1, gap_x = 0, gap_y = 0;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part == part && shown->gap_x == gap_x &&
            shown->gap_y == gap_y)
            continue;
        part = shown->part;
        gap_x = shown->gap_x;
        gap_y = shown->gap_y;
        const struct part_view view =
            part_view(figure, state, part, gap_x, gap_y);
        outline_part(figure, box, &view, origin);
        if (figure->parts != NULL && part != WHOLE &&
            label_wanted(figure, &view, part, told))
            label_part(figure, box, state, &view, part, origin);
    }
}

/* A state that is drawn where it is asked for. */
struct state_drawing {
    struct canvas canvas;
    struct figure figure;
    struct state state;
    struct extent origin;
};

static void draw_state(struct box *box, const void *what)
{
    const struct state_drawing *drawing = what;
    draw_parts(&drawing->figure, box, &drawing->state, drawing->origin);
    draw_signs(&drawing->figure, box, &drawing->state, drawing->origin);
}

struct box *figure_state(const struct figure *figure, const struct state *state)
{
    const struct extent origin = state_extent(figure, state);
    struct box *box = box_new(figure->canvas, origin.right - origin.left,
                              origin.bottom - origin.top);
    struct state_drawing *drawing =
        ARENA_NEW(figure->canvas->arena, struct state_drawing);
    *drawing = (struct state_drawing){*figure->canvas, *figure, *state, origin};
    drawing->figure.canvas = &drawing->canvas;
    box_draw_late(figure->canvas, box, draw_state, drawing);
    return box;
}

/* The same for all patches, by the narrowest. */
static bool shows_seams(const struct figure *figure, const struct cloth *cloth,
                        double width)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct extent extent = nothing();
        for (size_t k = 0; k < cloth->faces.items[i].count; k++)
            grow(&extent,
                 shown_point(figure, cloth->faces.items[i].points[k], 0, 0));
        least = fmin(least, fmin(extent.right - extent.left,
                                 extent.bottom - extent.top));
    }
    return width >= ICON_MOST && least >= PATCH_LEAST;
}

/* All faces of a cloth. */
struct cloth_faces {
    const struct cloth *cloth;
    bool seams;
};

static void draw_cloth_faces(const struct figure *figure, struct box *box,
                             const void *what)
{
    const struct cloth_faces *faces = what;
    struct known_fills fills = {.list = {0}};
    const struct extent origin = {0.0, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < faces->cloth->faces.count; i++) {
        draw_face(figure, &fills, box, faces->cloth->faces.items[i], 0, 0,
                  origin);
        struct path_item *path =
            &box->items.items[box->items.count - 1].as.path;
        if (!faces->seams) { /* no gaps where edges are smoothed */
            path->stroke_color = path->fill;
            path->hatch = NULL;
        }
    }
}

/* No labels, marks or gaps: the cloth as it will hang. */
struct box *figure_cloth(const struct canvas *canvas,
                         const struct colorway *colorway,
                         const struct cloth *cloth, double width, double height)
{
    const double across = rational_double(cloth->width);
    const double down = rational_double(cloth->height);
    const double scale = fmin(width / across, height / down);
    const struct figure figure = {
        .canvas = canvas, .colorway = colorway, .scale = scale};
    struct box *box = box_new(canvas, across * scale, down * scale);
    struct cloth_faces *faces = ARENA_NEW(canvas->arena, struct cloth_faces);
    *faces =
        (struct cloth_faces){cloth, shows_seams(&figure, cloth, box->width)};
    draw_many(&figure, box, cloth->faces.count, draw_cloth_faces, faces);
    box_rectangle(canvas, box, 0.0, 0.0, box->width, box->height,
                  box->width < ICON_MOST ? outline_narrow() : outline_wide());
    return box;
}
