/* Two ways to press or to join the same cloth: a seam that only one of them
 * has, or that goes another way there, has an arrow. The cloth itself is the
 * same in both, so that nothing else can tell them apart. */
#include "errata_parts.h"

#include <math.h>
#include <string.h>

#include "buffer.h"
#include "figure.h"
#include "name_table.h"

/* More arrows than these hide the cloth; then one of each way stands for all
 * that go as it does. */
enum { ARROWS_MOST = 40 };

/* Seams of one step, in the order of the work. */
struct seam_list {
    struct revision_seam *items;
    size_t count, capacity;
};

/* A seam has no beginning, so the end that comes first in a text does not
 * count. */
static const char *seam_text(struct arena *arena,
                             const struct revision_seam *seam)
{
    struct buffer ends[2] = {buffer_in(arena), buffer_in(arena)};
    const struct vertex points[2] = {seam->from, seam->to};
    for (int i = 0; i < 2; i++) {
        rational_key(&ends[i], points[i].x);
        buffer_char(&ends[i], ',');
        rational_key(&ends[i], points[i].y);
    }
    const char *a = buffer_string(&ends[0]), *b = buffer_string(&ends[1]);
    const bool first = strcmp(a, b) < 0;
    return arena_printf(arena, "%s %s %s", seam->way, first ? a : b,
                        first ? b : a);
}

/* ensures: the seams of the step that the other has not, or that go another way
 * there. */
static struct seam_list other_seams(struct arena *arena,
                                    const struct revision_step *step,
                                    const struct revision_step *other)
{
    struct seam_list found = {0};
    struct name_table there = {0};
    size_t number;
    for (size_t i = 0; i < other->actions.count; i++)
        for (size_t k = 0; k < other->actions.items[i].seams.count; k++)
            name_table_add(
                arena, &there,
                seam_text(arena, &other->actions.items[i].seams.items[k]), k);
    for (size_t i = 0; i < step->actions.count; i++)
        for (size_t k = 0; k < step->actions.items[i].seams.count; k++) {
            const struct revision_seam *seam =
                &step->actions.items[i].seams.items[k];
            if (!name_table_find(&there, seam_text(arena, seam), &number))
                *LIST_ADD(arena, &found) = *seam;
        }
    return found;
}

/* The words of the data as steps to the right and down; both 0 for open. */
static struct point way_to(const char *way)
{
    return (struct point){
        (strstr(way, "right") != NULL) - (strstr(way, "left") != NULL),
        (strstr(way, "down") != NULL) - (strstr(way, "up") != NULL)};
}

/* The middle of the seam; nearer to its beginning where another seam ends
 * there, as an arrow along that one would not be seen. */
static struct point arrow_place(const struct seam_list *seams, size_t index,
                                double scale)
{
    const struct point from = errata_point(seams->items[index].from, scale);
    const struct point to = errata_point(seams->items[index].to, scale);
    const struct point middle = {(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
    bool met = false;
    for (size_t i = 0; i < seams->count && !met; i++) {
        const struct point ends[2] = {
            errata_point(seams->items[i].from, scale),
            errata_point(seams->items[i].to, scale)};
        for (int k = 0; k < 2; k++)
            met |= hypot(ends[k].x - middle.x, ends[k].y - middle.y) < 1.0;
    }
    const double along = met ? 0.25 : 0.5;
    return (struct point){from.x + (to.x - from.x) * along,
                          from.y + (to.y - from.y) * along};
}

/* Towards where the seam is pressed, or both ways across it. */
static void draw_way(const struct canvas *canvas, struct box *box,
                     const char *way, struct point at, struct point from,
                     struct point to)
{
    const double reach = MM(2.6);
    const double x = to.x - from.x, y = to.y - from.y, length = hypot(x, y);
    struct point along = way_to(way);
    if (along.x == 0.0 && along.y == 0.0 && length > 0.0) {
        draw_open_arrow(canvas, box, at, -y / length * reach,
                        x / length * reach);
        return;
    }
    /* Diagonal ways have the length of straight ones. */
    const double size = hypot(along.x, along.y);
    if (size == 0.0)
        return;
    along.x *= reach / size;
    along.y *= reach / size;
    draw_arrow(canvas, box, at.x - along.x, at.y - along.y, at.x + along.x,
               at.y + along.y);
}

/* Do both run level, upright or aslant? Open says nothing of that. */
static bool run_alike(const struct revision_seam *a,
                      const struct revision_seam *b)
{
    return rational_equal(a->from.x, a->to.x) ==
               rational_equal(b->from.x, b->to.x) &&
           rational_equal(a->from.y, a->to.y) ==
               rational_equal(b->from.y, b->to.y);
}

/* Of many seams the one in the middle of those that run and go its way. */
static bool has_arrow(const struct seam_list *seams, size_t index)
{
    size_t before = 0, alike = 0;
    if (seams->count <= ARROWS_MOST)
        return true;
    for (size_t i = 0; i < seams->count; i++) {
        const bool same =
            strcmp(seams->items[i].way, seams->items[index].way) == 0 &&
            run_alike(&seams->items[i], &seams->items[index]);
        alike += same;
        before += same && i < index;
    }
    return before == alike / 2;
}

/* Lines first, so that no line lies on an arrow. */
static void draw_seams(const struct canvas *canvas, struct box *box,
                       const struct seam_list *seams, double scale)
{
    struct path_item line = {.stroke = LINE_MIDDLE,
                             .stroke_color = action_red,
                             .role = ROLE_MARK};
    for (int layer = 0; layer < 3; layer++)
        for (size_t i = 0; i < seams->count; i++) {
            const struct revision_seam *seam = &seams->items[i];
            const struct point from = errata_point(seam->from, scale);
            const struct point to = errata_point(seam->to, scale);
            if (layer < 2)
                box_stroke(canvas, box, from.x, from.y, to.x, to.y,
                           layer == 0 ? casing(LINE_MIDDLE) : line);
            else if (has_arrow(seams, i))
                draw_way(canvas, box, seam->way, arrow_place(seams, i, scale),
                         from, to);
        }
}

/* The two tops of the figure have the same faces; where they do not, as a craft
 * was exchanged for another, seams are compared by their places all the same.
 * NULL also where no seam differs: what hands do then, words tell better. */
struct box *press_figure(const struct canvas *canvas,
                         const struct change_wording *w,
                         const struct change *change,
                         const struct revision_quilt *const quilts[2])
{
    const struct errata_cloth *cloths[2];
    const struct revision_step *steps[2];
    struct seam_list seams[2];
    struct box *drawings[2];
    if (!errata_cloths(canvas, quilts, change, steps, cloths) ||
        !tells_seams(steps[0]) || !tells_seams(steps[1]))
        return NULL;
    for (int side = 0; side < 2; side++)
        seams[side] =
            other_seams(canvas->arena, steps[side], steps[1 - side]);
    if (seams[0].count + seams[1].count == 0)
        return NULL;
    const double scale = errata_scale(cloths);
    for (int side = 0; side < 2; side++) {
        const struct cloth *cloth = cloths[side]->cloth;
        drawings[side] =
            box_new(canvas, rational_double(cloth->width) * scale,
                    rational_double(cloth->height) * scale);
        errata_pale_cloth(canvas, drawings[side], cloth,
                          errata_colors(canvas->arena,
                                        w->comparison->revisions[side],
                                        quilts[side]),
                          scale, true);
        draw_seams(canvas, drawings[side], &seams[side], scale);
    }
    const char *const captions[2] = {
        say(w->arena, w->phrases, "compare.figure-old", "name",
            steps[0]->makes, NULL),
        say(w->arena, w->phrases, "compare.figure-pressed", "name",
            steps[1]->makes, NULL)};
    return errata_both(canvas, drawings, captions, columns_wide(4));
}
