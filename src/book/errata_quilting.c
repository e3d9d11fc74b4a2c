/* Lines of quilting as they were and as they are, on the pale top: fine where
 * both have them, broad where only one has. Swirls and pebbles have no lines in
 * the data; an area that only one revision fills so has a dashed outline. */
#include "errata_parts.h"

#include <math.h>
#include <string.h>

#include "buffer.h"
#include "name_table.h"

/* ---- what differs ---- */

/* To a thousandth of the unit: what is known exactly in one revision may be
 * known to six places in the other. */
static const char *spot_text(struct arena *arena, struct spot at)
{
    const double parts = 1000.0;
    return arena_printf(arena, "%lld,%lld", llround(at.x * parts),
                        llround(at.y * parts));
}

/* How many stretches, a closed line's last one with them. */
static size_t stretch_count(const struct revision_line *line)
{
    return line->closed ? line->count : line->count - 1;
}

/* Of the last stretch of a closed line, the point where it began. */
static struct spot stretch_end(const struct revision_line *line, size_t index)
{
    return line->points[(index + 1) % line->count];
}

/* A stretch has no beginning; neither may the end count that a line begins
 * at. */
static const char *stretch_text(struct arena *arena,
                                const struct revision_line *line, size_t index)
{
    const char *a = spot_text(arena, line->points[index]);
    const char *b = spot_text(arena, stretch_end(line, index));
    const bool first = strcmp(a, b) < 0;
    return arena_printf(arena, "%s %s", first ? a : b, first ? b : a);
}

/* The outline from its least corner on, and what covers the area. */
static const char *ring_text(struct arena *arena,
                             const struct revision_line *ring)
{
    struct buffer out = buffer_in(arena);
    size_t first = 0;
    for (size_t i = 1; i < ring->count; i++)
        if (strcmp(spot_text(arena, ring->points[i]),
                   spot_text(arena, ring->points[first])) < 0)
            first = i;
    for (size_t i = 0; i < ring->count; i++)
        buffer_printf(
            &out, "%s ",
            spot_text(arena, ring->points[(first + i) % ring->count]));
    return buffer_string(&out);
}

/* What the other revision has, to be looked up. */
struct quilted_before {
    struct name_table stretches, rings;
    const struct revision_quilt *quilt;
};

/* Both tables hold texts, so that what is asked for is found among thousands of
 * lines at once. */
static struct quilted_before before_of(struct arena *arena,
                                           const struct revision_quilt *quilt)
{
    struct quilted_before there = {.quilt = quilt};
    for (size_t i = 0; i < quilt->quilting_lines.count; i++) {
        const struct revision_line *line = &quilt->quilting_lines.items[i];
        for (size_t k = 0; k < stretch_count(line); k++)
            name_table_add(arena, &there.stretches,
                           stretch_text(arena, line, k), i);
    }
    for (size_t i = 0; i < quilt->quilting_areas.count; i++)
        name_table_add(arena, &there.rings,
                       ring_text(arena, &quilt->quilting_areas.items[i]), i);
    return there;
}

/* By eye, so that no line of the data shows it. */
static bool is_free(const char *fill)
{
    return strstr(fill, "swirls") != NULL || strstr(fill, "pebbles") != NULL;
}

/* An area that only one of them has lies between lines that differ, which show
 * it. */
static bool is_filled_otherwise(struct arena *arena,
                                const struct quilted_before *there,
                                const struct revision_line *ring)
{
    size_t number;
    if (!name_table_find(&there->rings, ring_text(arena, ring), &number))
        return false;
    const char *fill = there->quilt->quilting_areas.items[number].fill;
    return strcmp(fill, ring->fill) != 0 &&
           (is_free(fill) || is_free(ring->fill));
}

/* ---- drawing ---- */

/* Where one of the two tops is drawn, and what was found on it so far. Only
 * drawing looks each stretch up, so that it is done once. */
struct quilted_view {
    const struct canvas *canvas;
    struct box *box;
    double scale;
    size_t lines, areas; /* how many the other has not so */
};

/* The pale cloth, so that lines are seen on it; its outline alone where the
 * data do not tell the cloth of so large a top. */
static void draw_top(const struct quilted_view *view,
                     const struct revision_quilt *quilt,
                     const struct colorway *colors)
{
    const struct revision_step *top =
        &quilt->steps.items[quilt->steps.count - 1];
    const struct errata_cloth *laid =
        errata_cloth(view->canvas->arena, quilt, top);
    const struct cloth none = {.width = quilt->width,
                               .height = quilt->height};
    errata_pale_cloth(view->canvas, view->box,
                      laid == NULL ? &none : laid->cloth, colors, view->scale,
                      false);
}

/* From one point of a line on, so many stretches. Points that are nearer than a
 * hair on paper are left out, but for the last. */
static void draw_stretches(const struct quilted_view *view,
                           const struct revision_line *line, size_t from,
                           size_t count, struct path_item style)
{
    const double hair = 0.6;
    struct point *points =
        ARENA_ARRAY(view->canvas->arena, struct point, count + 1);
    size_t kept = 0;
    for (size_t i = 0; i <= count; i++) {
        const struct spot at = line->points[(from + i) % line->count];
        const struct point p = {at.x * view->scale, at.y * view->scale};
        if (kept == 0 || i == count ||
            hypot(p.x - points[kept - 1].x, p.y - points[kept - 1].y) >= hair)
            points[kept++] = p;
    }
    box_polygon(view->canvas, view->box, points, kept, style);
    view->box->items.items[view->box->items.count - 1].as.path.closed = false;
}

/* Runs of stretches that are in the other, or are not, are one path each.
 * `differing`: which of the two are drawn. */
static void draw_line(struct quilted_view *view,
                      const struct revision_line *line,
                      const struct quilted_before *there, bool differing)
{
    const struct path_item kept = {.stroke = LINE_FINE,
                                   .stroke_color = pencil_grey};
    const struct path_item other = {.stroke = LINE_MIDDLE,
                                    .stroke_color = action_red,
                                    .role = ROLE_MARK};
    const size_t count = stretch_count(line);
    size_t begin = 0, number;
    bool last = false;
    for (size_t i = 0; i <= count; i++) {
        const bool differs =
            i < count &&
            !name_table_find(&there->stretches,
                             stretch_text(view->canvas->arena, line, i),
                             &number);
        if (i > 0 && (i == count || differs != last)) {
            if (last == differing)
                draw_stretches(view, line, begin, i - begin,
                               differing ? other : kept);
            view->lines += differing && last;
            begin = i;
        }
        last = differs;
    }
}

/* Lines that both have come first, so that none of them hides one that
 * differs. */
static void draw_quilting(struct quilted_view *view,
                          const struct revision_quilt *quilt,
                          const struct quilted_before *there)
{
    const struct path_item outline = {.stroke = LINE_MIDDLE,
                                      .stroke_color = action_red,
                                      .dash = {MM(1.2), MM(0.8)},
                                      .role = ROLE_MARK};
    /* Twice over all lines, as one line may hold stretches of both. */
    for (int differing = 0; differing < 2; differing++)
        for (size_t i = 0; i < quilt->quilting_lines.count; i++)
            draw_line(view, &quilt->quilting_lines.items[i], there,
                      differing == 1);
    for (size_t i = 0; i < quilt->quilting_areas.count; i++) {
        const struct revision_line *ring = &quilt->quilting_areas.items[i];
        if (!is_filled_otherwise(view->canvas->arena, there, ring))
            continue;
        draw_stretches(view, ring, 0, ring->count, outline);
        view->areas++;
    }
}

/* NULL where no line lies otherwise: another thread, or another way from line
 * to line, has nothing to show here. */
struct box *quilting_difference(const struct canvas *canvas,
                                const struct change_wording *w,
                                const struct revision_quilt *const quilts[2])
{
    struct box *drawings[2];
    size_t differing = 0;
    bool dashed = false;
    double most = 0.0;
    for (int side = 0; side < 2; side++) {
        /* Data of a build before sizes were told have nothing to lay out. */
        if (!rational_known(quilts[side]->width) ||
            !rational_known(quilts[side]->height) ||
            quilts[side]->steps.count == 0)
            return NULL;
        most = fmax(most, fmax(rational_double(quilts[side]->width),
                               rational_double(quilts[side]->height)));
    }
    /* One scale for both: a top that was made larger shows as that. */
    for (int side = 0; side < 2; side++) {
        const double scale = LARGE_SIDE / most;
        const struct quilted_before there =
            before_of(canvas->arena, quilts[1 - side]);
        struct quilted_view view = {canvas, NULL, scale, 0, 0};
        view.box = drawings[side] = box_new(
            canvas, rational_double(quilts[side]->width) * scale,
            rational_double(quilts[side]->height) * scale);
        draw_top(&view, quilts[side],
                 errata_colors(canvas->arena, w->comparison->revisions[side],
                               quilts[side]));
        draw_quilting(&view, quilts[side], &there);
        differing += view.lines + view.areas;
        dashed |= view.areas > 0;
    }
    const char *const captions[2] = {
        say(w->arena, w->phrases, "compare.quilting-old", NULL),
        say(w->arena, w->phrases,
            dashed ? "compare.quilting-filled" : "compare.quilting-new",
            NULL)};
    return differing == 0
               ? NULL
               : errata_both(canvas, drawings, captions, columns_wide(4));
}
