/* Backing, layers and quilting. May assume that the plan's sizes are known.
 * Read next: binding_figure.c. */
#include <math.h>

#include "dimension.h"
#include "figure_parts.h"
#include "finishing_figures.h"
#include "trade.h"

#define ROW_HEIGHT MM(37.0)

/* ---- backing ---- */

/* What is cut off keeps a third of its color. */
static struct path_item cut_off(struct path_item fill)
{
    fill.fill = mixed(fill.fill, white, 0.66);
    fill.hatch = NULL;
    return fill;
}

/* The panels, `across` their seams and along them, in points. */
struct panels {
    const struct backing_plan *plan;
    double left, top; /* of what is drawn */
    double scale, across, along;
    double off;         /* trimmed from each end across the seams */
    double panel, side; /* width of one as cut, and its seam allowance */
};

/* A point by its place across and along the seams. */
static struct point panel_point(const struct panels *p, double across,
                                double along)
{
    return p->plan->seams_vertical
               ? (struct point){p->left + across, p->top + along}
               : (struct point){p->left + along, p->top + across};
}

/* From one place across the seams to another, as long as the panels. */
static void panel_rectangle(const struct canvas *canvas, struct box *box,
                            const struct panels *p, double from, double to,
                            struct path_item like)
{
    const struct point a = panel_point(p, from, 0.0);
    const struct point b = panel_point(p, to, p->along);
    box_rectangle(canvas, box, a.x, a.y, b.x - a.x, b.y - a.y, like);
}

/* Scissors need room at the ends of the cuts. */
static struct panels find_panels(const struct booklet *booklet, double width)
{
    const struct backing_plan *plan = &booklet->plan->backing;
    struct panels p = {
        .plan = plan, .left = DIMENSION_SPACE, .top = DIMENSION_SPACE};
    const double count = (double)plan->panels;
    p.panel = rational_double(plan->bolt->width);
    p.side = rational_double(
        trade_length(TRADE_BACKING_SEAM, booklet->design->pattern->units));
    p.across = count * p.panel - (count - 1.0) * 2.0 * p.side;
    p.along = rational_double(plan->panel_length);
    p.off = (p.across - rational_double(plan->seams_vertical ? plan->width
                                                             : plan->height)) /
            2.0;
    const double room = width - DIMENSION_SPACE - MM(6.0);
    const double high = ROW_HEIGHT - DIMENSION_SPACE - MM(6.0);
    p.scale = plan->seams_vertical ? fmin(room / p.across, high / p.along)
                                   : fmin(room / p.along, high / p.across);
    double *const lengths[] = {&p.across, &p.along, &p.off, &p.panel, &p.side};
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++)
        *lengths[i] *= p.scale;
    return p;
}

/* Stitched, and pressed open: arrows part from it. */
static void panel_seam(const struct canvas *canvas, struct box *box,
                       const struct panels *p, double at)
{
    const double reach = fmin(MM(6.0), p->panel * 0.35);
    draw_mark(canvas, box, MARK_SEWN, panel_point(p, at, 0.0),
              panel_point(p, at, p->along));
    for (int place = 1; place <= 3; place += 2)
        for (int side = -1; side <= 1; side += 2) {
            const double along = p->along * place / 4.0;
            const struct point from =
                panel_point(p, at + side * MM(0.8), along);
            const struct point to = panel_point(p, at + side * reach, along);
            draw_arrow(canvas, box, from.x, from.y, to.x, to.y);
        }
}

/* Cuts begin at the bottom or at the right, where no size stands, and end
 * before the size's extension lines at the other side. */
static void panel_cuts(const struct canvas *canvas, struct box *box,
                       const struct panels *p)
{
    if (p->off <= 0.0)
        return;
    for (int end = 0; end < 2; end++) {
        const double at = end == 0 ? p->off : p->across - p->off;
        draw_mark(canvas, box, MARK_CUT, panel_point(p, at, p->along + MM(2.0)),
                  panel_point(p, at, -MM(0.4)));
    }
}

/* Seen from behind, as it lies when its seams are pressed. */
struct box *backing_figure(struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct panels p = find_panels(booklet, width);
    const bool down = p.plan->seams_vertical;
    struct path_item wrong = face_fill(canvas, booklet->plan->colorway,
                                       p.plan->fabric, true, SHADE_WORK);
    wrong.stroke = 0.0;
    struct box *box = box_new(
        canvas, p.left + (down ? p.across : p.along) + (down ? 0.0 : MM(6.0)),
        p.top + (down ? p.along : p.across) + (down ? MM(6.0) : 0.0));
    panel_rectangle(canvas, box, &p, 0.0, p.across, cut_off(wrong));
    panel_rectangle(canvas, box, &p, p.off, p.across - p.off, wrong);
    panel_rectangle(canvas, box, &p, 0.0, p.across, outline_wide());
    for (size_t i = 1; i < p.plan->panels; i++)
        panel_seam(canvas, box, &p,
                   (double)i * (p.panel - 2.0 * p.side) + p.side);
    panel_cuts(canvas, box, &p);
    const struct point first = panel_point(&p, p.off, 0.0);
    draw_dimension(canvas, box, first.x, p.top,
                   down ? p.across - 2.0 * p.off : p.along, false,
                   word_length_unit(w, p.plan->width));
    draw_dimension(canvas, box, p.left, first.y,
                   down ? p.along : p.across - 2.0 * p.off, true,
                   word_length_unit(w, p.plan->height));
    return box;
}

/* ---- a top drawn at a slant ---- */

/* Real lengths from the middle of a sheet, to the right and down, to points. */
struct slant {
    double x, y;              /* the middle */
    double scale, lean, flat; /* points a unit; to the left, and shortened */
};

/* Where a point of a sheet lies in the figure. */
static struct point slanted(const struct slant *s, double x, double y)
{
    return (struct point){s->x + s->scale * (x - s->lean * y),
                          s->y + s->scale * s->flat * y};
}

/* A rectangle around the middle of the view. */
static void slanted_sheet(const struct canvas *canvas, struct box *box,
                          const struct slant *s, double width, double height,
                          struct path_item like)
{
    const struct point points[4] = {slanted(s, -width / 2.0, -height / 2.0),
                                    slanted(s, width / 2.0, -height / 2.0),
                                    slanted(s, width / 2.0, height / 2.0),
                                    slanted(s, -width / 2.0, height / 2.0)};
    box_polygon(canvas, box, points, 4, like);
}

/* Cloth alone, as on icons: its seams would be all that is seen. */
static struct path_item *plain_fills(const struct booklet *booklet,
                                     enum shade shade)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t count = booklet->design->fabrics.count;
    struct path_item *fills =
        ARENA_ARRAY(canvas->arena, struct path_item, count);
    for (size_t i = 0; i < count; i++) {
        fills[i] =
            face_fill(canvas, booklet->plan->colorway, (int)i, false, shade);
        fills[i].stroke_color = fills[i].fill;
        fills[i].hatch = NULL;
    }
    return fills;
}

/* As it comes from the machine, with the allowance around it. */
static void draw_top(const struct booklet *booklet, struct box *box,
                     const struct slant *s, enum shade shade)
{
    enum { CORNERS = 64 };
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct cloth *cloth = booklet->quilt->cloth;
    const struct path_item *fills = plain_fills(booklet, shade);
    const double across = rational_double(cloth->width);
    const double down = rational_double(cloth->height);
    const double seams = 2.0 * rational_double(booklet->design->pattern->seam);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        struct point points[CORNERS];
        const size_t count = face->count < CORNERS ? face->count : CORNERS;
        for (size_t k = 0; k < count; k++)
            points[k] =
                slanted(s, rational_double(face->points[k].x) - across / 2.0,
                        rational_double(face->points[k].y) - down / 2.0);
        box_polygon(canvas, box, points, count, fills[face->fabric]);
    }
    slanted_sheet(canvas, box, s, across + seams, down + seams, outline_wide());
}

/* ---- layers ---- */

enum layer { LAYER_TOP, LAYER_BATTING, LAYER_BACKING, LAYERS };

struct sheet_size {
    double width, height;
};

/* From the top one down. What no cloth of the plan backs is as large as the
 * batting. */
static void layer_sizes(const struct booklet *booklet,
                        struct sheet_size sizes[LAYERS])
{
    const struct cutplan *plan = booklet->plan;
    const double seams = 2.0 * rational_double(booklet->design->pattern->seam);
    sizes[LAYER_TOP] =
        (struct sheet_size){rational_double(booklet->quilt->width) + seams,
                            rational_double(booklet->quilt->height) + seams};
    sizes[LAYER_BATTING] =
        (struct sheet_size){rational_double(plan->batting_width),
                            rational_double(plan->batting_height)};
    sizes[LAYER_BACKING] = sizes[LAYER_BATTING];
    if (plan->backing.wanted)
        sizes[LAYER_BACKING] =
            (struct sheet_size){rational_double(plan->backing.width),
                                rational_double(plan->backing.height)};
}

/* Loose fibres: short dashes in rows. */
static void draw_batting(const struct canvas *canvas, struct box *box,
                         const struct slant *s, struct sheet_size size)
{
    enum { ROWS = 5 };
    struct path_item sheet = outline_wide();
    struct path_item fibre = {.stroke = LINE_FINE,
                              .stroke_color = rule_grey,
                              .dash = {MM(1.2), MM(2.2)}};
    sheet.filled = true;
    sheet.fill = white;
    slanted_sheet(canvas, box, s, size.width, size.height, sheet);
    for (int i = 1; i < ROWS; i++) {
        const double y = size.height * (i / (double)ROWS - 0.5);
        const struct point a = slanted(s, -size.width * 0.48, y);
        const struct point b = slanted(s, size.width * 0.48, y);
        box_stroke(canvas, box, a.x, a.y, b.x, b.y, fibre);
    }
}

/* In its own look: the top as it is, fibres, the wrong side. */
static void draw_layer(const struct booklet *booklet, struct box *box,
                       const struct slant *s, int layer, struct sheet_size size)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct backing_plan *backing = &booklet->plan->backing;
    if (layer == LAYER_TOP) {
        draw_top(booklet, box, s, SHADE_DONE);
    } else if (layer == LAYER_BATTING) {
        draw_batting(canvas, box, s, size);
    } else {
        struct path_item sheet = outline_wide();
        sheet.filled = true;
        sheet.fill = white;
        if (backing->wanted)
            sheet = face_fill(canvas, booklet->plan->colorway, backing->fabric,
                              true, SHADE_WORK);
        sheet.stroke = LINE_MIDDLE;
        slanted_sheet(canvas, box, s, size.width, size.height, sheet);
    }
}

/* Front corners of one sheet lie above those of the next. */
static void draw_guides(const struct canvas *canvas, struct box *box,
                        const struct slant *upper, struct sheet_size above,
                        const struct slant *lower, struct sheet_size below)
{
    const struct path_item guide = {
        .stroke = LINE_FINE, .stroke_color = ink, .dash = {MM(1.6), MM(0.6)}};
    for (int side = -1; side <= 1; side += 2) {
        const struct point a =
            slanted(upper, side * above.width / 2.0, above.height / 2.0);
        const struct point b =
            slanted(lower, side * below.width / 2.0, below.height / 2.0);
        box_stroke(canvas, box, a.x, a.y, b.x, b.y, guide);
    }
}

/* What the sheet is, in bold, and which of its sides is up. */
static void layer_label(const struct canvas *canvas, struct box *box, double x,
                        double y, double width, const char *name,
                        const char *side)
{
    struct text_style style = style_size();
    style.color = ink;
    const double height =
        typeset_measure(canvas->typeset, name, style_figure(), 0.0).height;
    box_label(canvas, box, x, y, name, style_figure(), 0.0, false);
    if (side[0] == '\0')
        return;
    box_label(canvas, box, x, y + height, side, style, 0.0, false);
    box->items.items[box->items.count - 1].as.text.width = width;
}

/* Beside the sheet, at the height of its middle. */
static void label_layer(const struct booklet *booklet, struct box *box,
                        int layer, double x, double y, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    if (layer == LAYER_TOP)
        layer_label(canvas, box, x, y, width,
                    say(w->arena, w->phrases, "layers.top", NULL),
                    say(w->arena, w->phrases, "layers.right-side", NULL));
    else if (layer == LAYER_BATTING)
        layer_label(canvas, box, x, y, width,
                    say(w->arena, w->phrases, "layers.batting", NULL), "");
    else
        layer_label(canvas, box, x, y, width,
                    say(w->arena, w->phrases, "layers.backing", NULL),
                    say(w->arena, w->phrases, "layers.wrong-side", NULL));
}

/* Upper sheets hide a part of the lower ones, so those are drawn first. */
struct box *layers_figure(struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double words = MM(19.0), lean = 0.5, flat = 0.45;
    double step = MM(11.0);
    const double room = width - words - SPACE_HALF;
    struct sheet_size sizes[LAYERS];
    layer_sizes(booklet, sizes);
    const double wide = fmax(sizes[1].width, sizes[2].width);
    const double deep = fmax(sizes[1].height, sizes[2].height);
    const double scale = fmin(room / (wide + lean * deep),
                              (ROW_HEIGHT - 2.0 * step) / (flat * deep));
    /* The front edge of a sheet keeps clear of the back edge of the next, with
     * 0.7 mm between the lines (ISO 128-20). */
    const double clear = MM(0.75) + LINE_MIDDLE;
    if (fabs(step - scale * flat * deep) < clear)
        step = scale * flat * deep + clear;
    struct slant views[LAYERS];
    struct box *box = box_new(canvas, width, scale * flat * deep + 2.0 * step);
    for (int i = 0; i < LAYERS; i++)
        views[i] =
            (struct slant){room / 2.0, scale * flat * deep / 2.0 + step * i,
                           scale, lean, flat};
    for (int i = LAYERS; i-- > 0;)
        draw_layer(booklet, box, &views[i], i, sizes[i]);
    for (int i = 0; i + 1 < LAYERS; i++)
        draw_guides(canvas, box, &views[i], sizes[i], &views[i + 1],
                    sizes[i + 1]);
    for (int i = 0; i < LAYERS; i++)
        label_layer(booklet, box, i, room + SPACE_HALF, views[i].y - SPACE_LINE,
                    words);
    return box;
}

/* ---- quilting ---- */

/* Into how many equal spaces a length is parted, so that none is wider than the
 * gap; five where nothing is stated. */
static size_t spaces(struct rational length, struct rational gap)
{
    return rational_known(gap) && rational_sign(gap) > 0
               ? (size_t)rational_ceil(rational_div(length, gap))
               : 5;
}

/* A quilting stitch is finer than a seam: many of them lie on a small top, of
 * which something must be seen between them. */
static void quilting_line(const struct canvas *canvas, struct box *box,
                          struct point from, struct point to)
{
    struct path_item line = mark_style(MARK_SEWN);
    struct path_item halo = line;
    line.stroke = LINE_MIDDLE;
    halo.stroke = casing(LINE_MIDDLE).stroke;
    halo.stroke_color = white;
    halo.role = ROLE_DRAWING;
    box_stroke(canvas, box, from.x, from.y, to.x, to.y, halo);
    box_stroke(canvas, box, from.x, from.y, to.x, to.y, line);
}

/* Lines of one direction inside the sheet. Where they would run into each
 * other, only those are left that show the gap. */
static void draw_quilting(const struct canvas *canvas, struct box *box,
                          struct sheet_size size, double top, size_t count,
                          bool down)
{
    const double step = (down ? size.width : size.height) / (double)count;
    const bool close = step < MM(2.8);
    for (size_t i = 1; i < count; i++) {
        const double at = step * (double)i;
        if (close && (!down || (i != (count - 1) / 2 && i != (count + 1) / 2)))
            continue;
        quilting_line(canvas, box,
                      down ? (struct point){at, top}
                           : (struct point){0.0, top + at},
                      down ? (struct point){at, top + size.height}
                           : (struct point){size.width, top + at});
    }
}

/* The greatest gap stands above the two lines that are that far apart, or
 * nearer where the top does not come out even. */
struct box *quilting_figure(struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct rational gap = booklet->plan->batting_gap;
    const bool known = rational_known(gap);
    const double top = known ? DIMENSION_SPACE : 0.0;
    const double across = rational_double(booklet->quilt->width);
    const double down = rational_double(booklet->quilt->height);
    const double scale = fmin(width / across, (ROW_HEIGHT - top) / down);
    const struct sheet_size size = {across * scale, down * scale};
    const struct slant flat = {size.width / 2.0, top + size.height / 2.0, scale,
                               0.0, 1.0};
    struct box *box = box_new(canvas, size.width, top + size.height);
    draw_top(booklet, box, &flat, SHADE_WORK);
    const size_t columns = spaces(booklet->quilt->width, gap);
    draw_quilting(canvas, box, size, top, columns, true);
    draw_quilting(canvas, box, size, top, spaces(booklet->quilt->height, gap),
                  false);
    const double step = size.width / (double)columns;
    if (known)
        draw_dimension(canvas, box, step * (double)((columns - 1) / 2), top,
                       step, false,
                       say(w->arena, w->phrases, "layers.gap", "gap",
                           word_length_unit(w, gap), NULL));
    return box;
}
