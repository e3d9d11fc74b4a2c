/* The cover sells the quilt: its picture or photo, as large as the words leave
 * room for, so words are measured first. Read next: cover_picture.c. */
#include <math.h>

#include "cover_picture.h"
#include "figure_parts.h"
#include "place.h"
#include "structure.h"

/* ---- words above the picture ---- */

/* The paragraph, or an empty one that keeps its line. */
static struct box *box_or_line(const struct canvas *canvas,
                               const struct content *content,
                               struct text_style style, double width)
{
    return content == NULL
               ? box_text(canvas, "", style, width)
               : place_paragraph(canvas, &content->as.paragraph, style, width);
}

/* Two texts in one line: the right one ends at the edge, or at the logo, which
 * stands at the edge, and in whose middle the line then lies. Either may be "".
 */
static struct box *credit_box(struct booklet *booklet,
                              const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *logo = booklet->design->logo == NULL
                                 ? box_new(canvas, 0.0, 0.0)
                                 : logo_box(booklet, MM(34.0), MM(13.0));
    const double edge = logo->width > 0.0 ? logo->width + SPACE_HALF : 0.0;
    const double half = columns_wide(6);
    struct text_style style = style_body();
    const struct content *designer =
        content_of(contents, PART_DESIGNER, CONTENT_PARAGRAPH);
    const struct content *publisher =
        content_of(contents, PART_PUBLISHER, CONTENT_PARAGRAPH);
    const struct box *left = box_or_line(canvas, designer, style, half);
    style.align = ALIGN_RIGHT;
    const struct box *right =
        box_or_line(canvas, publisher, style, half - edge);
    const double high = fmax(left->height, right->height);
    struct box *box = box_new(canvas, canvas->width, fmax(high, logo->height));
    const double y = (box->height - high) / 2.0;
    if (designer != NULL)
        box_put(canvas, box, left, 0.0, y);
    if (publisher != NULL)
        box_put(canvas, box, right, canvas->width - half, y);
    box_put(canvas, box, logo, canvas->width - logo->width,
            (box->height - logo->height) / 2.0);
    return box;
}

/* The largest size, from 60 points down, in which a line holds it; a longer
 * title takes two lines, of 44 points at most. */
static double title_size(const struct canvas *canvas, const char *title)
{
    enum { LARGEST = 60, ONE_LINE = 40, TWO_LINES = 44, SMALLEST = 16 };
    for (double size = LARGEST; size >= ONE_LINE; size -= 1.0)
        if (typeset_measure(canvas->typeset, title, style_cover(size), 0.0)
                .width <= canvas->width)
            return size;
    for (double size = TWO_LINES; size > SMALLEST; size -= 2.0) {
        const struct text_extent extent = typeset_measure(
            canvas->typeset, title, style_cover(size), canvas->width);
        if (extent.lines <= 2 && extent.width <= canvas->width)
            return size;
    }
    return SMALLEST;
}

/* The darkest cloth, if it can be read on white as well as text must (WCAG 2.2,
 * 1.4.6), else ink. */
static struct color title_color(const struct booklet *booklet)
{
    if (booklet->design->accent.stated)
        return booklet->flow.canvas.accent;
    struct color darkest = white;
    for (size_t i = 0; i < booklet->design->fabrics.count; i++) {
        const struct bolt *bolt = &booklet->plan->colorway->bolts[i];
        const struct color color = {bolt->red, bolt->green, bolt->blue};
        if (contrast(color, white) > contrast(darkest, white))
            darkest = color;
    }
    return contrast(darkest, white) >= 7.0 ? darkest : ink;
}

static struct box *title_box(const struct booklet *booklet, const char *title)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct text_style style = style_cover(title_size(canvas, title));
    style.color = title_color(booklet);
    struct box *box = box_heading(canvas, title, style, canvas->width, "H1");
    /* The first bookmark leads back to the start. */
    box->outline = title;
    return box;
}

static struct box *summary_box(const struct booklet *booklet,
                               const char *summary)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct text_style style = style_step();
    style.face = FACE_REGULAR;
    if (summary[0] == '\0')
        return box_new(canvas, canvas->width, 0.0);
    return box_text(canvas, summary, style, columns_wide(10));
}

/* ---- the picture ---- */

/* The strip of units, and the panel with the drawing, or with the photo in its
 * place. */
static struct box *picture_box(struct booklet *booklet,
                               const struct told_figure *told, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *strip = ornament(booklet, canvas->width, MM(7.0));
    const double high = height - strip->height;
    const struct figure_size room = quilt_room(canvas->width, high);
    struct box *box = box_new(canvas, canvas->width, height);
    struct box *cloth =
        figure_cloth(canvas, booklet->plan->colorway, booklet->quilt->cloth,
                     room.width, room.height);
    name_quilt_figure(booklet, cloth);
    box_put(canvas, box, strip, 0.0, 0.0);
    if (told->drawing == DRAWING_QUILT) {
        put_figure(booklet, box,
                   quilt_on_ground(booklet, canvas->width, high, cloth), 0.0,
                   strip->height, told->told);
        return box;
    }
    box_put(canvas, box, ground_box(booklet, canvas->width, high), 0.0,
            strip->height);
    const struct box *picture =
        photo_box(canvas, booklet->design->photo, canvas->width, high);
    put_figure(booklet, box, picture, (canvas->width - picture->width) / 2.0,
               strip->height + (high - picture->height) / 2.0, told->told);
    return box;
}

/* ---- below the picture ---- */

/* The size stands out. */
static struct box *facts_box(const struct booklet *booklet,
                             const struct contents *contents, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct boxes lines = {.items = {0}};
    struct text_style style = style_step();
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->part != PART_FACTS || content->kind != CONTENT_PARAGRAPH)
            continue;
        *LIST_ADD(canvas->arena, &lines.items) =
            place_paragraph(canvas, &content->as.paragraph, style, width);
        style = style_body();
    }
    return box_stack(canvas, lines.items.items, lines.items.count, 1.0);
}

/* A small quilt in a colorway, with its name; this booklet's is framed. */
static struct box *colorway_box(struct booklet *booklet,
                                const struct told_figure *told, double side,
                                double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const bool own = told->colorway == booklet->plan->colorway;
    const struct box *cloth =
        figure_cloth(canvas, told->colorway, told->quilt->cloth, side, side);
    const double left = (width - cloth->width) / 2.0;
    struct text_style style = own ? style_figure() : style_size();
    style.color = ink;
    style.align = ALIGN_CENTER;
    const struct box *name = box_text(canvas, told->caption, style, width);
    struct box *box = box_new(canvas, width, cloth->height);
    put_figure(booklet, box, cloth, left, 0.0, told->told);
    struct path_item frame = outline_wide();
    frame.stroke = LINE_BROAD;
    if (own)
        box_rectangle(canvas, box, left - 2.5, -2.5, cloth->width + 5.0,
                      cloth->height + 5.0, frame);
    const double name_top = cloth->height + SPACE_QUARTER;
    box_put(canvas, box, name, 0.0, name_top);
    box->height = name_top + name->height;
    return box;
}

/* All colorways: up to four in a row, more of them in two rows. */
static struct box *colorways_box(struct booklet *booklet,
                                 const struct content *first, size_t count,
                                 double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t rows = count > 4 ? 2 : 1;
    const size_t columns = (count + rows - 1) / rows;
    const double largest = rows == 1 ? MM(23.5) : MM(11.0);
    const double cell = fmin((width + SPACE_LINE) / (double)columns, MM(31.0));
    const double inner = cell - SPACE_LINE;
    const double side = fmin(largest, inner);
    struct box *box = box_new(canvas, width, 0.0);
    double y = 0.0, high = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && i % columns == 0) {
            y += high + SPACE_HALF;
            high = 0.0;
        }
        const struct box *one =
            colorway_box(booklet, &first[i].as.figure, side, inner);
        /* The last picture ends at the edge. */
        box_put(canvas, box, one,
                width + SPACE_LINE + (rows == 1 ? (inner - side) / 2.0 : 0.0) -
                    cell * (double)(columns - i % columns),
                y);
        high = fmax(high, one->height);
    }
    box->height = y + high;
    return box;
}

/* Many cloths are swatches with their letters; page 2 has their names. */
static struct box *swatches_box(struct booklet *booklet,
                                const struct told_list *cloths, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double side = MM(5.2), step = MM(7.4);
    const size_t columns = (size_t)(width / step);
    struct box *box = box_new(canvas, width, 0.0);
    for (size_t i = 0; i < cloths->items.count; i++) {
        const double y = step * (double)(i / columns);
        box_put(canvas, box,
                swatch_box(booklet, cloths->items.items[i].fabric, side),
                step * (double)(i % columns), y);
        box->height = y + side;
    }
    return box;
}

/* In columns, each name beside its swatch. */
static struct box *cloths_box(struct booklet *booklet,
                              const struct told_list *cloths, double width)
{
    enum { NAMED = 12 };
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t count = cloths->items.count;
    if (count > NAMED)
        return swatches_box(booklet, cloths, width);
    const size_t columns = count > 3 ? 3 : 2;
    const double cell = width / (double)columns;
    struct box *box = box_new(canvas, width, 0.0);
    box_tag(canvas, box, "L", NULL);
    box->items.items[0].as.tag.role = ROLE_LETTERED;
    double y = 0.0, high = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && i % columns == 0) {
            y += high + SPACE_HALF;
            high = 0.0;
        }
        const double x = cell * (double)(i % columns);
        const struct told_point *cloth = &cloths->items.items[i];
        const struct box *swatch = swatch_box(booklet, cloth->fabric, MM(6.6));
        const struct box *name =
            box_heading(canvas, cloth->text, style_body(),
                        cell - swatch->width - 5.0 - SPACE_HALF, "LBody");
        box_tag(canvas, box, "LI", NULL);
        box_tag(canvas, box, "Lbl", NULL);
        box_put(canvas, box, swatch, x, y);
        box_tag_end(canvas, box, "Lbl");
        box_put(canvas, box, name, x + swatch->width + 5.0, y + 3.0);
        box_tag_end(canvas, box, "LI");
        high = fmax(high, fmax(swatch->height, name->height + 3.0));
    }
    box_tag_end(canvas, box, "L");
    box->height = y + high;
    return box;
}

/* Colorways beside each other, or the cloths of the only one. */
static struct box *cloth_box(struct booklet *booklet,
                             const struct contents *contents, double width)
{
    const struct content *list =
        content_of(contents, PART_COLORWAYS, CONTENT_LIST);
    return list != NULL
               ? cloths_box(booklet, &list->as.list, width)
               : colorways_box(
                     booklet,
                     content_of(contents, PART_COLORWAYS, CONTENT_FIGURE),
                     booklet->design->colorways.count, width);
}

/* Beside a photo the flat quilt stands here. */
static struct box *foot_box(struct booklet *booklet,
                            const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct content *drawing =
        content_of(contents, PART_FACTS, CONTENT_FIGURE);
    const double width = columns_wide(drawing != NULL ? 4 : 5);
    double left = width + GRID_GUTTER + SPACE_LINE;
    const struct box *facts = facts_box(booklet, contents, width);
    struct box *box = box_new(canvas, canvas->width, facts->height);
    box_put(canvas, box, facts, 0.0, 0.0);
    if (drawing != NULL) {
        const struct told_figure *told = &drawing->as.figure;
        const struct box *flat = figure_cloth(
            canvas, told->colorway, told->quilt->cloth, MM(46.0), MM(40.0));
        put_figure(booklet, box, flat, left, 0.0, told->told);
        left += flat->width + SPACE_STEP;
        box->height = fmax(box->height, flat->height);
    }
    const struct box *cloths =
        cloth_box(booklet, contents, canvas->width - left);
    box_put(canvas, box, cloths, left, 2.5);
    box->height = fmax(box->height, cloths->height + 2.5);
    return box;
}

/* requires: an empty flow; the cover is its first page. */
void section_cover(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct contents contents =
        tell_cover(&booklet->wording, booklet->plan);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    const struct content *printed =
        content_of(&contents, PART_PRINTING, CONTENT_PARAGRAPH);
    struct box *credit = credit_box(booklet, &contents);
    struct box *title = title_box(booklet, heading->title);
    struct box *summary = summary_box(booklet, heading->lead);
    struct box *foot = foot_box(booklet, &contents);
    struct box *printing =
        box_or_line(&flow->canvas, printed, style_small(), flow->canvas.width);
    /* Display type has air of its own above its letters. */
    const double above = -0.07 * title_size(&flow->canvas, heading->title);
    const double spaces = above + 2.0 * (SPACE_HALF + SPACE_LINE);
    const double words = credit->height + title->height + summary->height +
                         foot->height + printing->height + spaces;
    const double room = flow_page_height(flow) - words - 1.0;
    flow_add(flow, credit, 0.0);
    flow_add(flow, title, above);
    if (summary->height > 0.0)
        flow_add(flow, summary, SPACE_HALF);
    flow_add(
        flow,
        picture_box(
            booklet,
            &content_of(&contents, PART_PICTURE, CONTENT_FIGURE)->as.figure,
            fmin(fmax(room, MM(60.0)), MM(172.0))),
        SPACE_LINE);
    flow_add(flow, foot, SPACE_LINE);
    if (printed != NULL)
        flow_add(flow, printing, SPACE_HALF);
}
