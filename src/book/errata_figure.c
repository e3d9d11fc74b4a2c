/* The old and the new form of what a change is about: two pieces, or the cloth
 * of a step as it was and as it is. Faces that only one of them has are
 * outlined in the color of what hands do. Read next: errata_press.c and
 * errata_quilting.c. */
#include "errata_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"

/* Of more faces than these it is a quilt, mostly. */
enum { FACES_SMALL = 100 };
/* Pieces are told by their sizes; many of them must fit a page. */
#define PIECE_SIDE MM(15.0)

/* ---- cloths ---- */

/* "#1d2540"; grey where the data do not tell a color. */
static void read_color(const char *text, struct bolt *bolt)
{
    const long value =
        text[0] == '#' ? strtol(text + 1, NULL, 16) : 0xb4b4b4;
    bolt->red = (double)(value >> 16 & 255) / 255.0;
    bolt->green = (double)(value >> 8 & 255) / 255.0;
    bolt->blue = (double)(value & 255) / 255.0;
}

const struct colorway *errata_colors(struct arena *arena,
                                     const struct revision *revision,
                                     const struct revision_quilt *quilt)
{
    struct colorway *colorway = ARENA_NEW(arena, struct colorway);
    struct bolt *bolts =
        ARENA_ARRAY(arena, struct bolt, revision->fabrics.count + 1);
    for (size_t f = 0; f < revision->fabrics.count; f++) {
        bolts[f].fabric = (int)f;
        bolts[f].name = revision->fabrics.items[f].name;
        read_color("", &bolts[f]);
        for (size_t i = 0; quilt->colorways.count > 0 &&
                           i < quilt->colorways.items[0].cloths.count;
             i++)
            if (quilt->colorways.items[0].cloths.items[i].fabric == (int)f)
                read_color(quilt->colorways.items[0].cloths.items[i].color,
                           &bolts[f]);
    }
    colorway->id = colorway->name = "";
    colorway->bolts = bolts;
    return colorway;
}

/* A stretch of an edge, from 0 to 1 along it. */
struct stretch {
    double from, to;
};
struct stretches {
    LIST(struct stretch) items;
};

/* How far along the edge from `a` a point lies; NAN where it lies beside it. */
static double along(struct point a, struct point b, struct point p)
{
    const double x = b.x - a.x, y = b.y - a.y, length = hypot(x, y);
    const double beside = ((p.x - a.x) * y - (p.y - a.y) * x) / length;
    return fabs(beside) > 1e-6
               ? (double)NAN
               : ((p.x - a.x) * x + (p.y - a.y) * y) / (length * length);
}

/* Takes one stretch out of those that are left. */
static void take_out(struct arena *arena, struct stretches *left, double from,
                     double to)
{
    const double least = 1e-6;
    struct stretches rest = {.items = {0}};
    for (size_t i = 0; i < left->items.count; i++) {
        const struct stretch s = left->items.items[i];
        const struct stretch parts[2] = {{s.from, fmin(s.to, from)},
                                         {fmax(s.from, to), s.to}};
        for (int k = 0; k < 2; k++)
            if (parts[k].to - parts[k].from > least)
                *LIST_ADD(arena, &rest.items) = parts[k];
    }
    *left = rest;
}

/* Rounded only here, where it is drawn. */
struct point errata_point(struct vertex at, double scale)
{
    return (struct point){rational_double(at.x) * scale,
                          rational_double(at.y) * scale};
}

static struct point corner_of(const struct face *face, size_t index,
                              double scale)
{
    return errata_point(face->points[index % face->count], scale);
}

/* What of an edge no other of the faces has: the outline of all of them. */
static struct stretches outer_stretches(struct arena *arena,
                                        const struct face_list *faces,
                                        size_t own, struct point a,
                                        struct point b, double scale)
{
    struct stretches left = {.items = {0}};
    *LIST_ADD(arena, &left.items) = (struct stretch){0.0, 1.0};
    for (size_t i = 0; i < faces->count && left.items.count > 0; i++) {
        const struct face *face = &faces->items[i];
        for (size_t k = 0; i != own && k < face->count; k++) {
            const double p = along(a, b, corner_of(face, k, scale));
            const double q = along(a, b, corner_of(face, k + 1, scale));
            if (!isnan(p) && !isnan(q) && fmin(p, q) < 1.0 && fmax(p, q) > 0.0)
                take_out(arena, &left, fmin(p, q), fmax(p, q));
        }
    }
    return left;
}

/* Round all faces that lie together, so that a block that lies otherwise is one
 * shape and not each triangle in it. A white casing parts the line from cloth
 * of its color. */
static void outline_faces(const struct canvas *canvas, struct box *box,
                          const struct face_list *faces, double scale)
{
    struct path_item line = outline_wide();
    line.stroke = LINE_BROAD;
    line.stroke_color = action_red;
    line.role = ROLE_MARK;
    line.round_ends = true;
    struct path_item under = casing(LINE_BROAD);
    under.round_ends = true;
    for (int layer = 0; layer < 2; layer++)
        for (size_t i = 0; i < faces->count; i++)
            for (size_t k = 0; k < faces->items[i].count; k++) {
                const struct point a = corner_of(&faces->items[i], k, scale);
                const struct point b =
                    corner_of(&faces->items[i], k + 1, scale);
                const struct stretches outer = outer_stretches(
                    canvas->arena, faces, i, a, b, scale);
                for (size_t n = 0; n < outer.items.count; n++) {
                    const struct stretch s = outer.items.items[n];
                    box_stroke(canvas, box, a.x + (b.x - a.x) * s.from,
                               a.y + (b.y - a.y) * s.from,
                               a.x + (b.x - a.x) * s.to,
                               a.y + (b.y - a.y) * s.to,
                               layer == 0 ? under : line);
                }
            }
}

/* The cloth as the booklet draws it when it is finished, and over it the
 * outlines of what the other one has not. */
static struct box *cloth_box(const struct canvas *canvas,
                             const struct cloth *cloth,
                             const struct face_list *differing,
                             const struct colorway *colors, double scale)
{
    const double width = rational_double(cloth->width) * scale;
    const double height = rational_double(cloth->height) * scale;
    struct box *box = box_new(canvas, width, height);
    box_put(canvas, box, figure_cloth(canvas, colors, cloth, width, height),
            0.0, 0.0);
    outline_faces(canvas, box, differing, scale);
    return box;
}

/* Cloth in work is pale in the booklet, too, so that what is drawn on it reads as
 * what hands do and not as a print. */
void errata_pale_cloth(const struct canvas *canvas, struct box *box,
                       const struct cloth *cloth,
                       const struct colorway *colors, double scale,
                       bool seams)
{
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        struct point *points =
            ARENA_ARRAY(canvas->arena, struct point, face->count);
        struct path_item fill =
            face_fill(canvas, colors, face->fabric, false, SHADE_WORK);
        for (size_t k = 0; k < face->count; k++)
            points[k] = errata_point(face->points[k], scale);
        fill.stroke = seams ? LINE_FINE : 0.0;
        fill.stroke_color = ink;
        box_polygon(canvas, box, points, face->count, fill);
    }
    box_rectangle(canvas, box, 0.0, 0.0, box->width, box->height,
                  outline_wide());
}

/* ---- pieces ---- */

/* A plain rectangle in the color of its cloth, in the scale of both. */
static struct box *piece_box(const struct canvas *canvas,
                             const struct revision_piece *piece,
                             const struct colorway *colors, double scale)
{
    const double width = rational_double(piece->width) * scale;
    const double height = rational_double(piece->height) * scale;
    struct box *box = box_new(canvas, width, height);
    struct path_item like =
        face_fill(canvas, colors, piece->fabric, false, SHADE_DONE);
    like.stroke = LINE_MIDDLE;
    like.stroke_color = ink;
    box_rectangle(canvas, box, 0.0, 0.0, width, height, like);
    return box;
}

/* The edge of the old piece over the new one, which may be smaller. */
static void draw_old_edge(const struct canvas *canvas, struct box *box,
                          const struct revision_piece *old, double scale)
{
    const double width = rational_double(old->width) * scale;
    const double height = rational_double(old->height) * scale;
    struct path_item line = outline_wide();
    line.stroke_color = action_red;
    line.stroke = LINE_BROAD;
    line.role = ROLE_MARK;
    box_rectangle(canvas, box, 0.0, 0.0, width, height, casing(LINE_BROAD));
    line.dash[0] = 4.0;
    line.dash[1] = 2.5;
    box_rectangle(canvas, box, 0.0, 0.0, width, height, line);
    box->width = fmax(box->width, width);
    box->height = fmax(box->height, height);
}

/* ---- both ---- */

/* One above its caption, told in words for who does not see it. */
static struct box *captioned(const struct canvas *canvas, struct box *drawing,
                             const char *caption, double width)
{
    struct box *box = box_new(canvas, width, 0.0);
    const struct box *text =
        box_text(canvas, caption, style_small(), width - SPACE_LINE);
    box_tag(canvas, box, "Figure", caption);
    box_put(canvas, box, drawing, 0.0, 0.0);
    box_tag_end(canvas, box, "Figure");
    box_put(canvas, box, text, 0.0, drawing->height + SPACE_QUARTER);
    box->height = drawing->height + SPACE_QUARTER + text->height;
    return box;
}

/* In the order in which they are read. */
struct box *errata_both(const struct canvas *canvas, struct box *drawings[2],
                        const char *const captions[2], double width)
{
    struct box *boxes[2];
    for (int side = 0; side < 2; side++)
        boxes[side] = captioned(canvas, drawings[side], captions[side],
                                width);
    return box_row(canvas, boxes, 2, GRID_GUTTER);
}

/* Points to a unit of length: the longest of all four sides fills `side`, so
 * that both are drawn in one scale and can be compared by eye. */
static double scale_of(struct rational a, struct rational b, struct rational c,
                       struct rational d, double side)
{
    const double most = fmax(fmax(rational_double(a), rational_double(b)),
                             fmax(rational_double(c), rational_double(d)));
    return side / most;
}

/* Both or none: a figure of one alone has nothing to be compared with. */
bool errata_cloths(const struct canvas *canvas,
                   const struct revision_quilt *const quilts[2],
                   const struct change *change,
                   const struct revision_step *steps[2],
                   const struct errata_cloth *cloths[2])
{
    for (int side = 0; side < 2; side++) {
        if (change->step[side] == NOWHERE)
            return false;
        steps[side] = &quilts[side]->steps.items[change->step[side]];
        cloths[side] = errata_cloth(canvas->arena, quilts[side], steps[side]);
        if (cloths[side] == NULL)
            return false;
    }
    return true;
}

/* One of many faces is drawn larger. */
double errata_scale(const struct errata_cloth *const cloths[2])
{
    const struct cloth *a = cloths[0]->cloth, *b = cloths[1]->cloth;
    return scale_of(a->width, a->height, b->width, b->height,
                    a->faces.count > FACES_SMALL || b->faces.count > FACES_SMALL
                        ? LARGE_SIDE
                        : CLOTH_SIDE);
}

/* What follows from another change is drawn only where it shows a place, not
 * where all of it is other. */
static struct box *step_figure(const struct canvas *canvas,
                               const struct change_wording *w,
                               const struct change *change,
                               const struct revision_quilt *const quilts[2])
{
    struct box *drawings[2];
    const struct errata_cloth *cloths[2];
    const struct revision_step *steps[2];
    if (!errata_cloths(canvas, quilts, change, steps, cloths))
        return NULL;
    const double scale = errata_scale(cloths);
    for (int side = 0; side < 2; side++) {
        const struct face_list differing =
            errata_differing(canvas->arena, w->comparison, side, cloths);
        if (change->follows && differing.count == cloths[side]->marks.count)
            return NULL;
        drawings[side] = cloth_box(
            canvas, cloths[side]->cloth, &differing,
            errata_colors(canvas->arena, w->comparison->revisions[side],
                          quilts[side]),
            scale);
    }
    const char *const captions[2] = {
        say(w->arena, w->phrases, "compare.figure-old", "name",
            steps[0]->makes, NULL),
        say(w->arena, w->phrases, "compare.figure-new", "name",
            steps[1]->makes, NULL)};
    return errata_both(canvas, drawings, captions, columns_wide(4));
}

/* A strip that is longer than so many times its width is but a line. */
enum { LONG = 8 };

/* Drawn as a line, a border or a strip tells nothing that its size does not
 * tell better. */
static bool is_long(const struct revision_piece *piece)
{
    const double width = rational_double(piece->width);
    const double height = rational_double(piece->height);
    return fmax(width, height) > LONG * fmin(width, height);
}

/* Both pieces with their labels; the edge of the old one lies over the new one,
 * so that what to cut off, or what lacks, is seen. */
static struct box *piece_figure(const struct canvas *canvas,
                                const struct change_wording *w,
                                const struct change *change,
                                const struct revision_quilt *const quilts[2])
{
    const struct revision_piece *pieces[2];
    struct box *drawings[2];
    for (int side = 0; side < 2; side++)
        pieces[side] = &quilts[side]->pieces.items[change->piece[side]];
    if (pieces[0]->strip || is_long(pieces[0]) || is_long(pieces[1]))
        return NULL;
    const double scale = scale_of(pieces[0]->width, pieces[0]->height,
                                  pieces[1]->width, pieces[1]->height, PIECE_SIDE);
    for (int side = 0; side < 2; side++)
        drawings[side] =
            piece_box(canvas, pieces[side],
                      errata_colors(canvas->arena, w->comparison->revisions[side],
                                quilts[side]),
                      scale);
    draw_old_edge(canvas, drawings[1], pieces[0], scale);
    const char *const captions[2] = {
        say(w->arena, w->phrases, "compare.figure-old", "name",
            pieces[0]->label, NULL),
        say(w->arena, w->phrases, "compare.new", "text",
            say(w->arena, w->phrases, "compare.figure-piece", "name",
                pieces[1]->label, NULL),
            NULL)};
    return errata_both(canvas, drawings, captions, columns_wide(3));
}

/* Other kinds of change are told by their words alone: an amount or a name has
 * nothing to draw that would help. */
struct box *errata_figure(const struct canvas *canvas,
                          const struct change_wording *w,
                          const struct change *change)
{
    const struct revision_quilt *quilts[2];
    for (int side = 0; side < 2; side++) {
        if (change->quilt[side] == NOWHERE)
            return NULL;
        quilts[side] = &w->comparison->revisions[side]
                            ->quilts.items[change->quilt[side]];
    }
    if (change->kind == CHANGE_PIECE)
        return piece_figure(canvas, w, change, quilts);
    if (change->kind == CHANGE_QUILTING && change->harm == HARM_RESULT)
        return quilting_difference(canvas, w, quilts);
    if (change->kind != CHANGE_STEP)
        return NULL;
    return change->harm == HARM_RESULT
               ? step_figure(canvas, w, change, quilts)
               : press_figure(canvas, w, change, quilts);
}
