/* The quilt as it will lie on the ground. The display list knows no light and
 * nothing that is seen through: shades are opaque shapes, the lighter ones
 * below, each reaching down to the end so that no gaps show between. These
 * lines only give depth and are no part of the series of look.h. Read next:
 * cover.c. */
#include "cover_picture.h"

#include <math.h>

#include "figure_parts.h"

/* Around the quilt, and how many shades a ground has. */
#define AIR MM(11.0)
#define BINDING MM(1.1)
enum { BANDS = 56, SOFT = 9 };

struct picture {
    const struct canvas *canvas;
    const struct booklet *booklet;
    struct box *box;
    struct color light, deep;        /* of the ground, top and bottom */
    double left, top, right, bottom; /* of the quilt with its binding */
    double corner;                   /* how far it is turned up, or 0 */
    double binding;                  /* width of its frame, or 0 */
};

/* ---- the ground ---- */

/* Sorted by lightness, by insertion; the median of the cloths that are used.
 * Grey where none is. */
struct color middle_cloth(const struct booklet *booklet)
{
    struct color colors[64];
    size_t count = 0;
    for (size_t i = 0; i < booklet->design->fabrics.count && count < 64; i++) {
        if (booklet->plan->fabrics[i].items.count == 0)
            continue;
        const struct bolt *bolt = &booklet->plan->colorway->bolts[i];
        const struct color color = {bolt->red, bolt->green, bolt->blue};
        size_t at = count++;
        for (; at > 0 && lightness(colors[at - 1]) > lightness(color); at--)
            colors[at] = colors[at - 1];
        colors[at] = color;
    }
    return count == 0 ? grey : colors[(count - 1) / 2];
}

/* Its color at a height, so much darker than it is in the light. */
static struct color ground_at(const struct picture *picture, double y,
                              double darkness)
{
    const double share = fmin(fmax(y / picture->box->height, 0.0), 1.0);
    return mixed(mixed(picture->light, picture->deep, share), ink, darkness);
}

static struct path_item plain(struct color color)
{
    return (struct path_item){.filled = true, .fill = color};
}

/* The bands begin between `top` and `bottom`. */
static size_t bands_between(const struct picture *picture, double top,
                            double bottom)
{
    return (size_t)ceil((bottom - top) / picture->box->height * BANDS);
}

/* What of the ground lies in a rectangle whose lower right corner is cut off,
 * `cut` along each side. */
static void draw_ground(const struct picture *picture, double left, double top,
                        double right, double bottom, double cut,
                        double darkness)
{
    const size_t bands = bands_between(picture, top, bottom);
    for (size_t i = 0; i < bands; i++) {
        const double y = top + (bottom - top) * (double)i / (double)bands;
        const double past = fmax(y - (bottom - cut), 0.0);
        const struct point points[5] = {{left, y},
                                        {right - past, y},
                                        {right - past, fmax(y, bottom - cut)},
                                        {right - cut, bottom},
                                        {left, bottom}};
        box_polygon(picture->canvas, picture->box, points, 5,
                    plain(ground_at(picture, y, darkness)));
    }
}

static struct picture picture_of(const struct booklet *booklet, double width,
                                 double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct picture picture = {.canvas = canvas, .booklet = booklet};
    const struct color cloth = middle_cloth(booklet);
    picture.box = box_new(canvas, width, height);
    picture.light = mixed(cloth, white, 0.78);
    picture.deep = mixed(cloth, white, 0.45);
    draw_ground(&picture, 0.0, 0.0, width, height, 0.0, 0.0);
    return picture;
}

struct box *ground_box(const struct booklet *booklet, double width,
                       double height)
{
    return picture_of(booklet, width, height).box;
}

/* ---- the shadow ---- */

/* How far a shade of the shadow reaches beyond the quilt, and how dark. */
static double shadow_reach(size_t shade)
{
    return MM(4.2) - MM(0.42) * (double)shade;
}
/* A share of black; each shade inward is a little darker than the one around
 * it, so that the edge looks soft. */
static double shadow_darkness(size_t shade)
{
    return 0.02 + 0.036 * (double)shade;
}

/* Light comes from the top left. */
static void draw_shadow(const struct picture *picture)
{
    for (size_t i = 0; i < SOFT; i++) {
        const double reach = shadow_reach(i);
        draw_ground(picture, picture->left + MM(2.4), picture->top + MM(2.8),
                    picture->right + reach, picture->bottom + reach,
                    picture->corner + MM(1.2), shadow_darkness(i));
    }
}

/* ---- the corner that is turned up ---- */

/* The ground below the corner, so far beyond the fold. */
static void uncover(struct picture shown, double beyond, double darkness)
{
    /* A little more than the cloth, or its edge would shine through. */
    const double bleed = 0.6;
    shown.right += bleed;
    shown.bottom += bleed;
    shown.corner += 2.0 * bleed;
    const struct picture *picture = &shown;
    const double top = picture->bottom - picture->corner;
    const size_t bands = bands_between(picture, top, picture->bottom);
    for (size_t i = 0; i < bands; i++) {
        const double y = top + picture->corner * (double)i / (double)bands;
        const double fold = picture->right - (y - top);
        const double below = fmax(y, fmin(top + beyond, picture->bottom));
        const struct point points[5] = {
            {fold, y},
            {fmin(fold + beyond, picture->right), y},
            {picture->right, below},
            {fmin(picture->right - picture->corner + beyond, picture->right),
             picture->bottom},
            {picture->right - picture->corner, picture->bottom}};
        /* Below the end of the shade's upper edge the right side is the
         * shade's own end. */
        const bool whole = fold + beyond >= picture->right;
        struct point shape[4] = {points[0], points[1], points[3], points[4]};
        const struct path_item fill = plain(ground_at(picture, y, darkness));
        if (whole)
            box_polygon(picture->canvas, picture->box, points, 5, fill);
        else
            box_polygon(picture->canvas, picture->box, shape, 4, fill);
    }
}

static struct color cloth_color(const struct picture *picture, int fabric)
{
    const struct bolt *bolt = &picture->booklet->plan->colorway->bolts[fabric];
    return (struct color){bolt->red, bolt->green, bolt->blue};
}

/* The back of the corner, rounded toward the fold: darker there. */
static void draw_backing(const struct picture *picture)
{
    const double x = picture->right - picture->corner;
    const double y = picture->bottom - picture->corner;
    const struct color cloth =
        cloth_color(picture, picture->booklet->plan->backing.fabric);
    enum { SHADES = 14 };
    for (int i = 0; i < SHADES; i++) {
        const double share = 1.0 - 0.035 * i;
        const double reach = picture->corner * share;
        const struct point points[3] = {{x, y}, {x + reach, y}, {x, y + reach}};
        const double dark = 0.34 * pow(1.0 - (double)i / SHADES, 2.0);
        box_polygon(picture->canvas, picture->box, points, 3,
                    plain(mixed(mixed(cloth, white, 0.06), ink, dark)));
    }
    /* Lines of quilting show on the back, too. */
    struct path_item line = {.stroke = 0.4,
                             .stroke_color = mixed(cloth, ink, 0.3),
                             .dash = {2.0, 1.2}};
    for (double at = MM(5.0); at < picture->corner - MM(2.0); at += MM(5.0)) {
        box_stroke(picture->canvas, picture->box, x + at, y, x + at,
                   y + picture->corner - at, line);
        box_stroke(picture->canvas, picture->box, x, y + at,
                   x + picture->corner - at, y + at, line);
    }
}

/* The binding goes round to the back, mitered in the corner. */
static void draw_turned_binding(const struct picture *picture)
{
    const double x = picture->right - picture->corner;
    const double y = picture->bottom - picture->corner;
    const double wide = picture->binding, far = picture->corner;
    const struct point sides[2][4] = {{{x, y},
                                       {x, y + far},
                                       {x + wide, y + far - wide},
                                       {x + wide, y + wide}},
                                      {{x, y},
                                       {x + far, y},
                                       {x + far - wide, y + wide},
                                       {x + wide, y + wide}}};
    for (int i = 0; i < 2 && wide > 0.0; i++)
        box_polygon(
            picture->canvas, picture->box, sides[i], 4,
            plain(mixed(
                cloth_color(picture, picture->booklet->plan->binding.fabric),
                i == 0 ? ink : white, 0.1)));
    const struct path_item edge = outline_narrow();
    box_stroke(picture->canvas, picture->box, x, y, x, y + far, edge);
    box_stroke(picture->canvas, picture->box, x, y, x + far, y, edge);
}

static void turn_corner(const struct picture *picture)
{
    if (!(picture->corner > 0.0))
        return;
    uncover(*picture, 2.0 * picture->corner, 0.0);
    /* Outside of the fold the quilt throws its shadow. */
    for (size_t i = 0; i < SOFT; i++)
        uncover(*picture, shadow_reach(i) * 1.3, shadow_darkness(i));
    draw_backing(picture);
    draw_turned_binding(picture);
}

/* ---- the quilt ---- */

/* Edges of a patch that face the light are lit, the others lie in shade, as
 * cloth is thick and quilted down along its seams. */
static void draw_edges(const struct picture *picture,
                       const struct path_item *face, double x, double y)
{
    const double thick = 0.55;
    double area = 0.0;
    for (size_t i = 0; i < face->count; i++) {
        const struct point a = face->points[i];
        const struct point b = face->points[(i + 1) % face->count];
        area += a.x * b.y - b.x * a.y;
    }
    for (size_t i = 0; i < face->count; i++) {
        const struct point a = face->points[i];
        const struct point b = face->points[(i + 1) % face->count];
        const double length = hypot(b.x - a.x, b.y - a.y);
        if (length < 5.0)
            continue;
        /* Inward, as y points down. */
        const double sign = area > 0.0 ? 1.0 : -1.0;
        const double in_x = -sign * (b.y - a.y) / length * thick;
        const double in_y = sign * (b.x - a.x) / length * thick;
        const bool lit = in_x + in_y > 0.01;
        const bool shaded = in_x + in_y < -0.01;
        if (!lit && !shaded)
            continue;
        const struct path_item line = {
            .stroke = 0.5,
            .stroke_color = mixed(face->fill, lit ? white : ink,
                                  !lit                            ? 0.30
                                  : lightness(face->fill) < 0.137 ? 0.14
                                                                  : 0.32)};
        box_stroke(picture->canvas, picture->box, x + a.x + in_x,
                   y + a.y + in_y, x + b.x + in_x, y + b.y + in_y, line);
    }
}

/* Seams are no lines from afar, but where two cloths meet in the shade. */
static void soften_seams(const struct picture *picture, size_t first)
{
    for (size_t i = first; i < picture->box->items.count; i++) {
        struct path_item *path = &picture->box->items.items[i].as.path;
        const struct color fill = path->filled ? path->fill : ink;
        path->stroke = LINE_FINE;
        path->stroke_color =
            mixed(fill, ink, lightness(fill) < 0.137 ? 0.6 : 0.45);
    }
}

static void draw_quilt(const struct picture *picture, const struct box *cloth)
{
    enum { FACES_MOST = 4000 };
    const double x = picture->left + picture->binding;
    const double y = picture->top + picture->binding;
    if (picture->binding > 0.0) {
        box_rectangle(picture->canvas, picture->box, picture->left,
                      picture->top, picture->right - picture->left,
                      picture->bottom - picture->top,
                      plain(cloth_color(
                          picture, picture->booklet->plan->binding.fabric)));
    }
    const size_t first = picture->box->items.count;
    box_copy(picture->canvas, picture->box, cloth, x, y);
    soften_seams(picture, first);
    for (size_t i = 0;
         i < cloth->items.count && cloth->items.count < FACES_MOST; i++)
        if (cloth->items.items[i].kind == ITEM_PATH &&
            cloth->items.items[i].as.path.filled)
            draw_edges(picture, &cloth->items.items[i].as.path, x, y);
}

struct figure_size quilt_room(double width, double height)
{
    return (struct figure_size){width - 2.0 * (AIR + BINDING),
                                height - 2.0 * (AIR + BINDING)};
}

struct box *quilt_on_ground(const struct booklet *booklet, double width,
                            double height, const struct box *cloth)
{
    struct picture picture = picture_of(booklet, width, height);
    const struct cutplan *plan = booklet->plan;
    picture.binding = plan->binding.wanted ? BINDING : 0.0;
    const double wide = cloth->width + 2.0 * picture.binding;
    const double high = cloth->height + 2.0 * picture.binding;
    picture.left = (width - wide) / 2.0;
    picture.top = (height - high) / 2.0;
    picture.right = picture.left + wide;
    picture.bottom = picture.top + high;
    picture.corner =
        plan->backing.wanted ? fmin(MM(24.0), 0.22 * fmin(wide, high)) : 0.0;
    draw_shadow(&picture);
    draw_quilt(&picture, cloth);
    turn_corner(&picture);
    return picture.box;
}
