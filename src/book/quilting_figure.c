/* Quilting as lines on the pale top: the map by areas, a figure for each stage,
 * the largest gaps. Read next: quilting_path.c. */
#include "quilting_figure.h"

#include <math.h>

#include "figure_parts.h"

/* ---- views ---- */

struct quilting_view quilting_view(const struct canvas *canvas,
                                   const struct quilting_plan *plan,
                                   const struct colorway *colorway)
{
    return (struct quilting_view){
        .canvas = canvas,
        .plan = plan,
        .colorway = colorway,
        .colorway_index = (size_t)(colorway - canvas->design->colorways.items),
        .scale = 1.0};
}

struct point quilting_point(const struct quilting_view *view, struct spot at)
{
    return (struct point){view->x + (at.x - view->left) * view->scale,
                          view->y + (at.y - view->top) * view->scale};
}

/* A box that the whole top fits, and its view. */
static struct box *top_box(struct quilting_view *view, double width,
                           double height)
{
    const double across = rational_double(view->plan->quilt->width);
    const double down = rational_double(view->plan->quilt->height);
    view->scale = fmin(width / across, height / down);
    return box_new(view->canvas, across * view->scale, down * view->scale);
}

/* Exact points are rounded only here, where they are drawn. */
static struct point vertex_point(const struct quilting_view *view,
                                 struct vertex v)
{
    return quilting_point(
        view, (struct spot){rational_double(v.x), rational_double(v.y)});
}

/* ---- threads ---- */

/* 3 : 1 on paper and on each pale cloth, as the contrast of lines that must be
 * seen (WCAG 2.1, 1.4.11). */
static bool seen_on_all(const struct canvas *canvas,
                        const struct colorway *colorway, struct color color)
{
    const double wanted = 3.05;
    for (size_t f = 0; f < canvas->design->fabrics.count; f++)
        if (contrast(color, face_fill(canvas, colorway, (int)f, false,
                                      SHADE_WORK)
                                .fill) < wanted)
            return false;
    return contrast(color, white) >= wanted;
}

/* A thread that would not be seen is drawn darker; its sample in the table has
 * an edge and its own color. */
static struct color drawn_color(const struct canvas *canvas,
                                const struct colorway *colorway,
                                struct color color)
{
    const double step = 0.08;
    for (double share = 0.0; share < 1.0; share += step) {
        const struct color darker = mixed(color, ink, share);
        if (seen_on_all(canvas, colorway, darker))
            return darker;
    }
    return ink;
}

/* As the colorway has it. */
static struct color thread_color_of(const struct canvas *canvas,
                                    const struct quilting_plan *plan,
                                    const struct colorway *colorway,
                                    size_t thread)
{
    const size_t index = (size_t)(colorway - canvas->design->colorways.items);
    const struct thread_dress *dress =
        &plan->dresses[index * plan->told->threads.count + thread];
    return (struct color){dress->red, dress->green, dress->blue};
}

struct path_item thread_line(const struct canvas *canvas,
                             const struct quilting_plan *plan,
                             const struct colorway *colorway, size_t thread)
{
    static const double dashes[][6] = {
        {0.0},
        {MM(3.6), MM(0.5)},
        {MM(0.7), MM(0.6)},
        {MM(2.4), MM(0.6), MM(0.6), MM(0.6)},
        {MM(2.4), MM(0.6), MM(0.6), MM(0.6), MM(0.6), MM(0.6)}};
    enum { PATTERNS = sizeof dashes / sizeof *dashes };
    struct path_item line = {.stroke = LINE_MIDDLE, .role = ROLE_MARK};
    line.stroke_color =
        drawn_color(canvas, colorway,
                    thread_color_of(canvas, plan, colorway, thread));
    for (int i = 0; i < 6; i++)
        line.dash[i] = dashes[thread % PATTERNS][i];
    return line;
}

/* Its color, and below it its line as figures have it. */
struct box *thread_sample(const struct canvas *canvas,
                          const struct quilting_plan *plan,
                          const struct colorway *colorway, size_t thread,
                          double width, double height)
{
    struct box *box = box_new(canvas, width, height);
    struct path_item spool = outline_narrow();
    spool.filled = true;
    spool.fill = thread_color_of(canvas, plan, colorway, thread);
    box_rectangle(canvas, box, 0.0, 0.0, width, height * 0.6, spool);
    struct path_item line = thread_line(canvas, plan, colorway, thread);
    line.stroke = LINE_BROAD;
    box_stroke(canvas, box, 0.0, height - LINE_BROAD, width,
               height - LINE_BROAD, line);
    return box;
}

/* ---- cloth and lines ---- */

/* Drawn last, as lines end on it. */
static void draw_outline(const struct quilting_view *view, struct box *box)
{
    box_rectangle(view->canvas, box, view->x, view->y,
                  rational_double(view->plan->quilt->width) * view->scale,
                  rational_double(view->plan->quilt->height) * view->scale,
                  outline_wide());
}

/* Seams are a shade of their cloth: they are where lines are found from, and
 * must not be taken for lines. */
void draw_pale_top(const struct quilting_view *view, struct box *box)
{
    enum { CORNERS = 64 };
    const struct cloth *cloth =
        finished_cloth(view->canvas->arena, view->plan->quilt->cloth);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        struct point points[CORNERS];
        const size_t count = face->count < CORNERS ? face->count : CORNERS;
        for (size_t k = 0; k < count; k++)
            points[k] = vertex_point(view, face->points[k]);
        struct path_item fill = face_fill(view->canvas, view->colorway,
                                          face->fabric, false, SHADE_WORK);
        fill.stroke_color = mixed(fill.fill, rule_grey, 0.6);
        box_polygon(view->canvas, box, points, count, fill);
    }
    draw_outline(view, box);
}

/* Points that are nearer than that on paper are left out: of a circle as wide
 * as 11 points, no place is then off by more than 0.06. */
static void draw_polyline(const struct quilting_view *view, struct box *box,
                          const struct spot *points, size_t count, bool closed,
                          struct path_item style)
{
    const double hair = 1.6;
    struct point *shown = ARENA_ARRAY(view->canvas->arena, struct point, count);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct point p = quilting_point(view, points[i]);
        if (kept == 0 || i + 1 == count ||
            hypot(p.x - shown[kept - 1].x, p.y - shown[kept - 1].y) >= hair)
            shown[kept++] = p;
    }
    if (kept < 2)
        return;
    box_polygon(view->canvas, box, shown, kept, style);
    box->items.items[box->items.count - 1].as.path.closed = closed;
}

void draw_open_line(const struct quilting_view *view, struct box *box,
                    const struct spot *points, size_t count,
                    struct path_item style)
{
    draw_polyline(view, box, points, count, false, style);
}

void draw_quilted_line(const struct quilting_view *view, struct box *box,
                       const struct quilted_line *line, struct path_item style)
{
    draw_polyline(view, box, line->points, line->count, line->closed, style);
}

/* ---- areas ---- */

/* Does a ray to the right cross the ring an odd number of times? */
static bool ring_crossed(const struct quilted_ring *ring, struct spot at)
{
    bool odd = false;
    for (size_t i = 0, k = ring->count - 1; i < ring->count; k = i++) {
        const struct spot a = ring->points[i], b = ring->points[k];
        if ((a.y > at.y) != (b.y > at.y) &&
            at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y))
            odd = !odd;
    }
    return odd;
}

/* Holes count as rings, so that a place within one is outside. */
bool area_shows(const struct quilted_area *area, struct spot at)
{
    bool odd = false;
    for (size_t i = 0; i < area->ring_count; i++)
        odd ^= area->rings[i].count > 0 && ring_crossed(&area->rings[i], at);
    return odd;
}

/* The outline in the pale color of its cloth. */
void draw_area(const struct quilting_view *view, struct box *box,
               const struct quilted_area *area)
{
    struct path_item fill = outline_wide();
    fill.filled = true;
    fill.fill = pale;
    if (area->fabric != NO_FABRIC)
        fill.fill = face_fill(view->canvas, view->colorway, area->fabric, false,
                              SHADE_WORK)
                        .fill;
    for (size_t i = 0; i < area->ring_count; i++) {
        draw_polyline(view, box, area->rings[i].points, area->rings[i].count,
                      true, fill);
        fill.fill = white;
    }
}

/* Holes lie within the outline. */
struct area_bounds area_bounds(const struct quilted_area *area)
{
    struct area_bounds around = {{INFINITY, INFINITY}, {-INFINITY, -INFINITY}};
    for (size_t i = 0; i < area->rings[0].count; i++) {
        const struct spot p = area->rings[0].points[i];
        around.least.x = fmin(around.least.x, p.x);
        around.least.y = fmin(around.least.y, p.y);
        around.most.x = fmax(around.most.x, p.x);
        around.most.y = fmax(around.most.y, p.y);
    }
    return around;
}

/* A line of one area lies in it as a whole; one of a shape may go on in the
 * next area, and belongs to that in which it begins. */
bool line_within(const struct quilted_line *line,
                 const struct quilted_area *area)
{
    const struct spot a = line->points[0], b = line->points[1];
    return area_shows(area,
                      (struct spot){(a.x + b.x) / 2.0, (a.y + b.y) / 2.0});
}

/* So far a sample keeps off seams and lines, as two lines that must be told
 * apart do (0.7 mm clear, ISO 128-20). */
#define TEXTURE_MARGIN MM(1.1)

/* By eye, in the thread of the filler. */
static void draw_textures(const struct quilting_view *view, struct box *box)
{
    for (size_t i = 0; i < view->plan->areas.count; i++) {
        const struct quilted_area *area = &view->plan->areas.items[i];
        if (area->fill == NULL || area->fill->thread == NO_ITEM)
            continue;
        struct path_item style =
            thread_line(view->canvas, view->plan, view->colorway,
                        (size_t)area->fill->thread);
        style.stroke = LINE_FINE;
        style.dash[0] = 0.0;
        draw_texture_in(view, box, area, TEXTURE_MARGIN, style);
    }
}

/* ---- letters ---- */

/* Is there room for a letter of that size around the place? */
static bool letter_fits(const struct quilting_view *view,
                        const struct quilted_area *area, struct spot at,
                        struct text_extent size)
{
    for (int i = 0; i < 4; i++) {
        const double x = (i % 2 == 0 ? -0.5 : 0.5) * (size.width + 2.0);
        const double y = (i / 2 == 0 ? -0.5 : 0.5) * (size.height - 2.0);
        if (!area_shows(area, (struct spot){at.x + x / view->scale,
                                            at.y + y / view->scale}))
            return false;
    }
    return true;
}

/* The place of the area's label, or where that has no room the one that has
 * most of those that have. */
static bool letter_place(const struct quilting_view *view,
                         const struct quilted_area *area,
                         struct text_extent size, struct spot *at)
{
    enum { PARTS = 16 };
    const struct area_bounds around = area_bounds(area);
    double best = 0.0;
    *at = area->label;
    if (letter_fits(view, area, *at, size))
        return true;
    for (int i = 1; i < PARTS * PARTS; i++) {
        const double x = (double)(i % PARTS) / PARTS;
        const double y = (double)(i / PARTS) / PARTS;
        const struct spot try = {
            around.least.x + x * (around.most.x - around.least.x),
            around.least.y + y * (around.most.y - around.least.y)};
        const double room = area_room(area, try);
        if (room <= best + 1e-9 || !letter_fits(view, area, try, size))
            continue;
        best = room;
        *at = try;
    }
    return best > 0.0;
}

/* Letters that were put: their middles and sizes, in the box. */
struct letters {
    LIST(struct point) middles;
    LIST(struct text_extent) sizes;
};

static bool is_clear(const struct letters *letters, struct point at,
                     struct text_extent size)
{
    for (size_t i = 0; i < letters->middles.count; i++) {
        const struct point p = letters->middles.items[i];
        const struct text_extent other = letters->sizes.items[i];
        if (fabs(p.x - at.x) < (size.width + other.width) / 2.0 + 3.0 &&
            fabs(p.y - at.y) < (size.height + other.height) / 2.0)
            return false;
    }
    return true;
}

/* On a plate in the middle of the area; in the second pass also where it is
 * larger than the area, but never on another letter. ensures: was it put? */
static bool put_letter(const struct quilting_view *view, struct box *box,
                       const struct quilted_area *area, bool anywhere,
                       struct letters *letters)
{
    struct arena *arena = view->canvas->arena;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const char *letter = view->plan->kinds.items[area->kind].letter;
    const struct text_extent size =
        typeset_measure(view->canvas->typeset, letter, style, 0.0);
    struct spot place;
    if (!letter_place(view, area, size, &place) && !anywhere)
        return false;
    const struct point at = quilting_point(view, place);
    if (!is_clear(letters, at, size))
        return false;
    *LIST_ADD(arena, &letters->middles) = at;
    *LIST_ADD(arena, &letters->sizes) = size;
    box_label(view->canvas, box, at.x, at.y - size.height / 2.0, letter, style,
              0.0, true);
    return true;
}

/* Where no area of a kind has room, one of them is named all the same; kinds
 * that are not told have no letter. */
static void draw_letters(const struct quilting_view *view, struct box *box)
{
    const struct quilting_plan *plan = view->plan;
    bool *named = ARENA_ARRAY(view->canvas->arena, bool, plan->kinds.count);
    bool *shown = ARENA_ARRAY(view->canvas->arena, bool, plan->kinds.count);
    struct letters letters = {.middles = {0}};
    for (size_t k = 0; k < plan->kinds.count; k++)
        shown[k] = quilting_kind_shown(plan, k);
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < plan->areas.count; i++) {
            const struct quilted_area *area = &plan->areas.items[i];
            if (shown[area->kind] && (pass == 0 || !named[area->kind]) &&
                put_letter(view, box, area, pass == 1, &letters))
                named[area->kind] = true;
        }
}

/* ---- stages ---- */

/* Still seen at arm's length. */
double path_dot(size_t starts)
{
    enum { CROWD = 12 };
    return starts > CROWD ? MM(0.45) : MM(0.75);
}

void draw_path_end(const struct canvas *canvas, struct box *box,
                   struct point at, double radius, bool start)
{
    enum { CORNERS = 10 };
    const double turn = 2.0 * acos(-1.0) / CORNERS;
    struct point points[CORNERS];
    struct path_item dot = outline_wide();
    dot.filled = true;
    dot.fill = start ? ink : white;
    for (int i = 0; i < CORNERS; i++)
        points[i] = (struct point){at.x + radius * cos(turn * i),
                                   at.y + radius * sin(turn * i)};
    box_polygon(canvas, box, points, CORNERS, dot);
}

/* Paths of a stage follow each other. In its first two stages they run on
 * over the whole top, and are shown turn by turn; echoes and fillers are shown
 * so for each kind of area. */
static void draw_stage_way(const struct quilting_view *view, struct box *box,
                           enum quilting_stage stage, bool turn_by_turn)
{
    const struct quilted_route *routes = view->plan->routes.items;
    size_t first = 0, end;
    while (first < view->plan->routes.count && routes[first].stage != stage)
        first++;
    for (end = first;
         end < view->plan->routes.count && routes[end].stage == stage;)
        end++;
    if (stage <= STAGE_LINES && turn_by_turn)
        draw_path_way(view, box, routes + first, end - first, true);
    else
        draw_path_ends(view, box, routes + first, end - first);
}

/* Lines of stages to come are not there yet. */
struct box *quilting_stage(const struct canvas *canvas,
                           const struct quilting_plan *plan,
                           const struct colorway *colorway,
                           enum quilting_stage stage, double width,
                           double height)
{
    struct quilting_view view = quilting_view(canvas, plan, colorway);
    struct box *box = top_box(&view, width, height);
    const struct path_item before = {.stroke = LINE_FINE,
                                     .stroke_color = pencil_grey};
    draw_pale_top(&view, box);
    for (size_t i = 0; i < plan->lines.count; i++)
        if (plan->lines.items[i].stage < stage)
            draw_quilted_line(&view, box, &plan->lines.items[i], before);
    if (stage == STAGE_FILLERS)
        draw_textures(&view, box);
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        struct path_item style =
            thread_line(canvas, plan, colorway, line->thread);
        if (stage == STAGE_FILLERS)
            style.stroke = LINE_FINE;
        else if (stage <= STAGE_LINES)
            style.dash[0] = 0.0; /* where travel is dashed, no stitch is */
        if (line->stage == stage)
            draw_quilted_line(&view, box, line, style);
    }
    draw_outline(&view, box);
    draw_stage_way(&view, box, stage, true);
    return box;
}

/* ---- the whole map ---- */

/* Fillers are fine, so that the lines which make the areas are seen. Of a plan of
 * one stage this is its figure, too. */
struct box *quilting_map(const struct canvas *canvas,
                         const struct quilting_plan *plan,
                         const struct colorway *colorway, double width,
                         double height)
{
    struct quilting_view view = quilting_view(canvas, plan, colorway);
    struct box *box = top_box(&view, width, height);
    enum quilting_stage only;
    draw_pale_top(&view, box);
    draw_textures(&view, box);
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        struct path_item style =
            thread_line(canvas, plan, colorway, line->thread);
        if (line->stage == STAGE_FILLERS)
            style.stroke = LINE_FINE;
        draw_quilted_line(&view, box, line, style);
    }
    draw_outline(&view, box);
    if (quilting_stages(plan, &only) == 1)
        draw_stage_way(&view, box, only, quilting_way_is_short(plan, only));
    draw_letters(&view, box);
    return box;
}

/* ---- gaps ---- */

/* How wide it is, inside it where there is room. */
static void draw_gap(const struct wording *w, const struct quilting_view *view,
                     struct box *box, const struct quilted_gap *gap)
{
    enum { CORNERS = 48 };
    const double turn = 2.0 * acos(-1.0) / CORNERS;
    const struct point at = quilting_point(view, gap->at);
    const double radius = gap->most / 2.0 * view->scale;
    struct point points[CORNERS];
    for (int i = 0; i < CORNERS; i++)
        points[i] = (struct point){at.x + radius * cos(turn * i),
                                   at.y + radius * sin(turn * i)};
    box_polygon(view->canvas, box, points, CORNERS,
                (struct path_item){.stroke = LINE_BROAD,
                                   .stroke_color = action_red,
                                   .role = ROLE_MARK});
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    /* To the nearest eighth: it is known to 1/64. */
    const char *label = word_length_unit(
        w, rational_make(llround((gap->least + gap->most) * 4.0), 8));
    const struct text_extent size =
        typeset_measure(view->canvas->typeset, label, style, 0.0);
    box_label(view->canvas, box, at.x, at.y - size.height / 2.0, label, style,
              0.0, true);
}

/* More than a dozen rings hide what they show. Nothing here needs a cutting
 * plan, so that it can be drawn of a quilt that is refused. */
struct box *quilting_gaps(const struct wording *w, const struct canvas *canvas,
                          const struct quilting_plan *plan,
                          const struct colorway *colorway, double width,
                          double height)
{
    enum { GAPS_MOST = 12 };
    struct quilting_view view = quilting_view(canvas, plan, colorway);
    struct box *box = top_box(&view, width, height);
    const struct path_item line = {.stroke = LINE_MIDDLE,
                                   .stroke_color = pencil_grey};
    draw_pale_top(&view, box);
    for (size_t i = 0; i < plan->lines.count; i++)
        draw_quilted_line(&view, box, &plan->lines.items[i], line);
    draw_textures(&view, box);
    draw_outline(&view, box);
    for (size_t i = 0; i < plan->gaps.count && i < GAPS_MOST; i++)
        draw_gap(w, &view, box, &plan->gaps.items[i]);
    return box;
}
