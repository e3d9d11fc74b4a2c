/* The old and the new form of what a change is about: two pieces, or the cloth
 * of a step as it was and as it is. Faces that only one of them has are
 * outlined in the color of what hands do. */
#include "errata.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "section.h"

#define CLOTH_SIDE MM(36.0)
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

/* The first colorway of the quilt as bolts, as drawings ask for. */
static const struct colorway *colors_of(struct arena *arena,
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

/* Corners may begin anywhere, but run the same way. */
static bool same_face(const struct comparison *of, const struct face *a,
                      const struct face *b)
{
    if (a->count != b->count ||
        strcmp(of->revisions[0]->fabrics.items[a->fabric].id,
               of->revisions[1]->fabrics.items[b->fabric].id) != 0)
        return false;
    for (size_t first = 0; first < b->count; first++) {
        size_t same = 0;
        while (same < a->count) {
            const struct vertex *p = &a->points[same];
            const struct vertex *q = &b->points[(first + same) % b->count];
            if (!rational_equal(p->x, q->x) || !rational_equal(p->y, q->y))
                break;
            same++;
        }
        if (same == a->count)
            return true;
    }
    return false;
}

/* Has the other cloth no such face? `side` is that of `face`. */
static bool differs(const struct comparison *of, int side,
                    const struct face *face, const struct cloth *other)
{
    for (size_t i = 0; i < other->faces.count; i++)
        if (side == 0 ? same_face(of, face, &other->faces.items[i])
                      : same_face(of, &other->faces.items[i], face))
            return false;
    return true;
}

/* A white casing parts the line from cloth of its color. */
static void outline_face(const struct canvas *canvas, struct box *box,
                         const struct face *face, double scale)
{
    struct point *points = ARENA_ARRAY(canvas->arena, struct point, face->count);
    for (size_t i = 0; i < face->count; i++)
        points[i] = (struct point){rational_double(face->points[i].x) * scale,
                                   rational_double(face->points[i].y) * scale};
    struct path_item line = outline_wide();
    line.stroke = LINE_BROAD;
    line.stroke_color = action_red;
    line.role = ROLE_MARK;
    box_polygon(canvas, box, points, face->count, casing(LINE_BROAD));
    box_polygon(canvas, box, points, face->count, line);
}

/* The cloth as the booklet draws it when it is finished, and over it the
 * outlines of what the other one has not. */
static struct box *cloth_box(const struct canvas *canvas,
                             const struct change_wording *w, int side,
                             const struct cloth *const cloths[2],
                             const struct colorway *colors, double scale)
{
    const struct cloth *cloth = cloths[side];
    const double width = rational_double(cloth->width) * scale;
    const double height = rational_double(cloth->height) * scale;
    struct box *box = box_new(canvas, width, height);
    box_put(canvas, box, figure_cloth(canvas, colors, cloth, width, height),
            0.0, 0.0);
    for (size_t i = 0; i < cloth->faces.count; i++)
        if (differs(w->comparison, side, &cloth->faces.items[i],
                    cloths[1 - side]))
            outline_face(canvas, box, &cloth->faces.items[i], scale);
    return box;
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

/* The old one at the left and the new one at the right, as they are read. */
static struct box *both(const struct canvas *canvas, struct box *drawings[2],
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

/* NULL where data do not tell the faces: there are too many of them, or an
 * older build wrote the data. */
static struct box *step_figure(const struct canvas *canvas,
                               const struct change_wording *w,
                               const struct change *change,
                               const struct revision_quilt *const quilts[2])
{
    struct box *drawings[2];
    const struct cloth *cloths[2];
    const char *captions[2];
    for (int side = 0; side < 2; side++) {
        if (change->step[side] == NOWHERE)
            return NULL;
        const struct revision_step *step =
            &quilts[side]->steps.items[change->step[side]];
        captions[side] =
            side == 0 ? say(w->arena, w->phrases, "compare.figure-old", "name",
                            step->makes, NULL)
                      : say(w->arena, w->phrases, "compare.figure-new", "name",
                            step->makes, NULL);
        if (step->cloth == NULL)
            return NULL;
        cloths[side] = finished_cloth(canvas->arena, step->cloth);
    }
    const double scale = scale_of(cloths[0]->width, cloths[0]->height,
                                  cloths[1]->width, cloths[1]->height, CLOTH_SIDE);
    for (int side = 0; side < 2; side++)
        drawings[side] =
            cloth_box(canvas, w, side, cloths,
                      colors_of(canvas->arena, w->comparison->revisions[side],
                                quilts[side]),
                      scale);
    return both(canvas, drawings, captions, columns_wide(4));
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
                      colors_of(canvas->arena, w->comparison->revisions[side],
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
    return both(canvas, drawings, captions, columns_wide(3));
}

/* Other kinds of change are told by their words alone: an amount, a name, a way
 * of pressing have nothing to draw that would help. */
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
    return change->kind == CHANGE_STEP && change->harm == HARM_RESULT
               ? step_figure(canvas, w, change, quilts)
               : NULL;
}
