/* Walks the display list of a page. A polygon is filled, hatched and stroked
 * in this order. Hatches are clipped strokes: they stay small and sharp in
 * every format, where repeating patterns would not. */
#include "draw.h"

#include <math.h>
#include <string.h>

#include "shortage.h"

enum { DASH_LIMIT = 6, HATCH_LINE_LIMIT = 20000 };

/* Beyond this the point of a sharp corner would stick out of the true outline
 * by more than five line widths, so it is cut off. */
static const double MITER_LIMIT = 10;

/* A quilt of thousands of patches is told by its numbers, and a PDF writes each
 * of them with all its digits. What is finer than a printer shows only makes
 * the file longer: a hundredth of a point is 0.0035 mm, a thousandth of a color
 * a quarter of the least step that a screen has. Other formats keep all. */
static double told(cairo_t *cairo, double value, double steps)
{
    return cairo_surface_get_type(cairo_get_target(cairo)) ==
                   CAIRO_SURFACE_TYPE_PDF
               ? round(value * steps) / steps
               : value;
}

static double told_place(cairo_t *cairo, double points)
{
    return told(cairo, points, 100);
}

/* Colours are always opaque: transparency makes a PDF slow to print. */
static void set_color(cairo_t *cairo, struct color color)
{
    cairo_set_source_rgb(cairo, told(cairo, color.red, 1000),
                         told(cairo, color.green, 1000),
                         told(cairo, color.blue, 1000));
}

/* Paths of one style that are drawn as one; mostly a single one. */
struct run {
    const struct item *items;
    size_t count;
};

static const struct path_item *run_path(struct run run, size_t i)
{
    return &run.items[i].as.path;
}

static double signed_area(const struct path_item *path)
{
    double area = 0;
    for (size_t i = 0; i < path->count; i++) {
        const struct point p = path->points[i];
        const struct point q = path->points[(i + 1) % path->count];
        area += (p.x * q.y - q.x * p.y) / 2;
    }
    return area;
}

/* All run round the same way: where two lie on one another, cloth remains. */
static void add_path(cairo_t *cairo, const struct path_item *path)
{
    const bool backwards = path->closed && signed_area(path) < 0;
    cairo_new_sub_path(cairo);
    for (size_t i = 0; i < path->count; i++) {
        const size_t at = backwards ? path->count - 1 - i : i;
        cairo_line_to(cairo, told_place(cairo, path->points[at].x),
                      told_place(cairo, path->points[at].y));
    }
    if (path->closed && path->count > 0)
        cairo_close_path(cairo);
}

/* Makes the paths the current one. They are traced anew for the fill, the hatch
 * and the stroke, because each of them uses it up. */
static void trace_run(cairo_t *cairo, struct run run)
{
    cairo_new_path(cairo);
    for (size_t i = 0; i < run.count; i++)
        add_path(cairo, run_path(run, i));
}

/* The reach of paths along a direction of length 1. */
struct reach {
    double least, most;
};

/* ensures: an empty reach (least > most) for paths without points. */
static struct reach run_reach(struct run run, struct point direction)
{
    struct reach reach = {HUGE_VAL, -HUGE_VAL};
    for (size_t i = 0; i < run.count; i++) {
        const struct path_item *path = run_path(run, i);
        for (size_t k = 0; k < path->count; k++) {
            const double at = path->points[k].x * direction.x +
                              path->points[k].y * direction.y;
            reach.least = fmin(reach.least, at);
            reach.most = fmax(reach.most, at);
        }
    }
    return reach;
}

/* Adds the hatch lines that meet the run. They are counted from the page's
 * corner, not from the run's: neighbours with one hatch look like one cloth.
 * Each line starts at a multiple of the spacing (half a step later in every
 * other line), so that dots line up too. */
static void add_hatch_lines(cairo_t *cairo, struct run run)
{
    const struct hatch *hatch = run_path(run, 0)->hatch;
    const double spacing = hatch->spacing;
    const double turn = hatch->angle * acos(-1) / 180;
    const struct point along = {cos(turn), -sin(turn)};
    const struct point across = {sin(turn), cos(turn)};
    const struct reach lines = run_reach(run, across);
    const struct reach ends = run_reach(run, along);
    /* A line whose middle lies just outside still shows half of its width. */
    const double first = ceil((lines.least - hatch->width) / spacing);
    const double last = floor((lines.most + hatch->width) / spacing);
    /* So fine a hatch would be solid, and a file of many megabytes. The test
     * is turned round so that it holds for what is no number, too. */
    if (!(last - first < HATCH_LINE_LIMIT))
        return;
    for (double i = first; i <= last; i++) {
        const double shift = fmod(i, 2) == 0 ? 0 : spacing / 2;
        const double from = floor(ends.least / spacing - 1) * spacing + shift;
        const double to = ends.most + spacing;
        const double off = i * spacing;
        cairo_move_to(cairo, off * across.x + from * along.x,
                      off * across.y + from * along.y);
        cairo_line_to(cairo, off * across.x + to * along.x,
                      off * across.y + to * along.y);
    }
}

/* The clip is set back with the rest of the state, so that it does not cut
 * what is drawn next. */
static void draw_hatch(cairo_t *cairo, struct run run)
{
    const struct hatch *hatch = run_path(run, 0)->hatch;
    cairo_save(cairo);
    trace_run(cairo, run);
    cairo_clip(cairo);
    cairo_new_path(cairo);
    add_hatch_lines(cairo, run);
    /* A dot is a dash of no length with round ends. */
    const double dots[] = {0, hatch->spacing};
    cairo_set_dash(cairo, dots, hatch->dotted ? 2 : 0, 0);
    cairo_set_line_cap(cairo, hatch->dotted ? CAIRO_LINE_CAP_ROUND
                                            : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_width(cairo, hatch->width);
    set_color(cairo, hatch->color);
    cairo_stroke(cairo);
    cairo_restore(cairo);
}

static double distance(struct point a, struct point b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* The number of edges, with the one that closes the path. */
static size_t edge_count(const struct path_item *path)
{
    if (path->count < 2)
        return 0;
    return path->closed ? path->count : path->count - 1;
}

/* The last edge of a closed path ends where the first begins. */
static struct point edge_end(const struct path_item *path, size_t edge)
{
    return path->points[(edge + 1) % path->count];
}

/* Sets the dash, drawn out or in a little so that the line begins and ends
 * with a whole dash (ISO 128-20). */
static void set_fitted_dash(cairo_t *cairo, const struct path_item *path,
                            double length)
{
    double dash[DASH_LIMIT];
    double period = 0;
    int count = 0;
    while (count < DASH_LIMIT && path->dash[count] > 0)
        period += path->dash[count++];
    /* An odd list is used twice, with gaps and dashes changed over. */
    if (count % 2 == 1)
        period *= 2;
    /* From the start of one dash to the start of the next, as often as it
     * fits, and one dash more. */
    const double periods = fmax(round((length - path->dash[0]) / period), 0);
    const double factor =
        periods > 0 ? length / (periods * period + path->dash[0]) : 1;
    for (int i = 0; i < count; i++)
        dash[i] = path->dash[i] * factor;
    /* A line that has room for one dash alone is that dash. */
    cairo_set_dash(cairo, dash, periods > 0 ? count : 0, 0);
}

/* An edge that is shorter than this has no room for a gap of its own. */
static bool edges_take_dashes(const struct path_item *path)
{
    double least = 2 * path->dash[0];
    for (int i = 1; i < DASH_LIMIT && path->dash[i] > 0; i++)
        least += path->dash[i];
    for (size_t i = 0; i < edge_count(path); i++)
        if (distance(path->points[i], edge_end(path, i)) < least)
            return false;
    return true;
}

/* Dashes meet at the corners of a polygon. A curve, which is many short edges,
 * is dashed as a whole. */
static void stroke_dashed(cairo_t *cairo, const struct path_item *path)
{
    double length = 0;
    const bool by_edge = edges_take_dashes(path);
    for (size_t i = 0; i < edge_count(path); i++) {
        const struct point start = path->points[i];
        const struct point end = edge_end(path, i);
        length += distance(start, end);
        if (!by_edge)
            continue;
        set_fitted_dash(cairo, path, distance(start, end));
        cairo_move_to(cairo, start.x, start.y);
        cairo_line_to(cairo, end.x, end.y);
        cairo_stroke(cairo);
    }
    if (by_edge)
        return;
    set_fitted_dash(cairo, path, length);
    add_path(cairo, path);
    cairo_stroke(cairo);
}

/* Corners are pointed: the point of an outline is where a maker measures.
 * requires: dashes only for a single path. */
static void draw_stroke(cairo_t *cairo, struct run run)
{
    const struct path_item *path = run_path(run, 0);
    cairo_save(cairo);
    cairo_set_line_width(cairo, path->stroke);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_MITER);
    cairo_set_miter_limit(cairo, MITER_LIMIT);
    cairo_set_line_cap(cairo, path->round_ends ? CAIRO_LINE_CAP_ROUND
                                               : CAIRO_LINE_CAP_BUTT);
    set_color(cairo, path->stroke_color);
    cairo_new_path(cairo);
    if (path->dash[0] > 0) {
        stroke_dashed(cairo, path);
    } else {
        trace_run(cairo, run);
        cairo_stroke(cairo);
    }
    cairo_restore(cairo);
}

/* The hatch lies over the fill, and the outline over both. */
static void draw_run(cairo_t *cairo, struct run run)
{
    const struct path_item *path = run_path(run, 0);
    if (path->filled) {
        trace_run(cairo, run);
        set_color(cairo, path->fill);
        cairo_fill(cairo);
    }
    if (path->hatch != NULL)
        draw_hatch(cairo, run);
    if (path->stroke > 0)
        draw_stroke(cairo, run);
}

/* ---- patches ---- */

static bool is_patch(const struct item *item)
{
    const struct path_item *path = &item->as.path;
    return item->kind == ITEM_PATH && path->role == ROLE_CLOTH &&
           path->closed && path->dash[0] <= 0;
}

static bool same_color(struct color a, struct color b)
{
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

static bool same_hatch(const struct hatch *a, const struct hatch *b)
{
    if (a == NULL || b == NULL)
        return a == b;
    return a->spacing == b->spacing && a->angle == b->angle &&
           a->width == b->width && a->dotted == b->dotted &&
           same_color(a->color, b->color);
}

static bool same_style(const struct path_item *a, const struct path_item *b)
{
    return a->filled == b->filled && same_color(a->fill, b->fill) &&
           same_hatch(a->hatch, b->hatch) && a->stroke == b->stroke &&
           same_color(a->stroke_color, b->stroke_color);
}

/* The path at `first`; with it, if it is a patch, the patches of its cloth that
 * follow at once: fewer bytes in a PDF, and no hairline of paper between two
 * that touch. Not without end, as a PDF's reader holds a path whole. */
static struct run run_from(const struct item_list *list, size_t first)
{
    enum { MOST = 500 };
    const struct item *items = list->items;
    size_t count = 1;
    while (is_patch(&items[first]) && count < MOST &&
           first + count < list->count && is_patch(&items[first + count]) &&
           same_style(&items[first].as.path, &items[first + count].as.path))
        count++;
    return (struct run){&items[first], count};
}

/* ---- photos ---- */

/* What of a file is still to be read. */
struct unread {
    const char *bytes;
    size_t length;
};

static cairo_status_t read_bytes(void *closure, unsigned char *bytes,
                                 unsigned int length)
{
    struct unread *unread = closure;
    if (length > unread->length)
        return CAIRO_STATUS_READ_ERROR;
    memcpy(bytes, unread->bytes, length);
    unread->bytes += length;
    unread->length -= length;
    return CAIRO_STATUS_SUCCESS;
}

/* A PDF takes a JPEG as it is: the pixels of this surface are never looked at
 * there. The bytes outlive the surface, so nothing has to be freed. */
static cairo_surface_t *jpeg_surface(const struct image_item *image)
{
    cairo_surface_t *surface = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)image->pixels_across, (int)image->pixels_down);
    const cairo_status_t status = cairo_surface_set_mime_data(
        surface, CAIRO_MIME_TYPE_JPEG, (const unsigned char *)image->bytes,
        image->length, NULL, NULL);
    if (status == CAIRO_STATUS_SUCCESS)
        return surface;
    cairo_surface_destroy(surface);
    return NULL;
}

/* A surface with a mistake hands it to the context, as all mistakes. */
static void draw_image(cairo_t *cairo, const struct image_item *image)
{
    struct unread unread = {image->bytes, image->length};
    cairo_surface_t *surface =
        image->jpeg
            ? jpeg_surface(image)
            : cairo_image_surface_create_from_png_stream(read_bytes, &unread);
    cairo_save(cairo);
    /* Turned about the middle of the box, whose sides then change over. */
    const bool across = image->turn % 2 == 1;
    const double width = across ? image->height : image->width;
    const double height = across ? image->width : image->height;
    cairo_translate(cairo, image->x + image->width / 2,
                    image->y + image->height / 2);
    cairo_rotate(cairo, image->turn * acos(-1) / 2);
    cairo_translate(cairo, -width / 2, -height / 2);
    cairo_scale(cairo, width / image->pixels_across,
                height / image->pixels_down);
    cairo_set_source_surface(cairo, surface, 0, 0);
    cairo_paint(cairo);
    cairo_restore(cairo);
    cairo_surface_destroy(surface);
}

/* An end of a tag has no checks here: pdf.c has compared all of them before. */
void draw_page(cairo_t *cairo, struct typeset *typeset, const struct page *page)
{
    struct arena *scratch = arena_create();
    const struct item_list items = page_items(scratch, page);
    for (size_t i = 0; i < items.count; i++) {
        const struct item *item = &items.items[i];
        struct run run;
        switch (item->kind) {
        case ITEM_PATH:
            run = run_from(&items, i);
            draw_run(cairo, run);
            i += run.count - 1;
            break;
        case ITEM_TEXT:
            typeset_draw(typeset, cairo, &item->as.text);
            break;
        case ITEM_IMAGE:
            draw_image(cairo, &item->as.image);
            break;
        case ITEM_TAG_BEGIN:
            cairo_tag_begin(cairo, item->as.tag.name, item->as.tag.attributes);
            break;
        case ITEM_TAG_END:
            cairo_tag_end(cairo, item->as.tag.name);
            break;
        case ITEM_LATER: /* was made */
            break;
        }
    }
    arena_destroy(scratch);
}

const char *drawing_problem(cairo_status_t status)
{
    if (status == CAIRO_STATUS_NO_MEMORY)
        end_out_of_memory(NULL);
    return status == CAIRO_STATUS_SUCCESS ? NULL
                                          : cairo_status_to_string(status);
}
