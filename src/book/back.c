/* The back cover is read in a shop, before the booklet is opened. Lengths are
 * points. Read next: place_table.c. */
#include <math.h>

#include "cover_picture.h"
#include "place.h"
#include "structure.h"

/* Room for a label with price and code. */
#define PRICE_WIDTH columns_wide(3)
#define PRICE_HEIGHT MM(21.0)
/* A table that is higher goes on over pages. */
#define TABLE_MOST MM(128.0)

/* ---- head ---- */

/* The ornament is a strip of the quilt's first unit, so that the page is known
 * as that of this quilt. */
static struct box *head_box(const struct booklet *booklet,
                            const struct told_heading *head)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct text_style style = style_section();
    style.color = canvas->accent;
    struct box *parts[3] = {
        ornament(booklet, canvas->width, MM(7.0)),
        box_heading(canvas, head->title, style, canvas->width, "H1"),
        box_text(canvas, head->lead, style_body(), columns_wide(8))};
    struct box *box = box_new(canvas, canvas->width, 0.0);
    static const double above[3] = {0.0, SPACE_HALF, 0.0};
    for (int i = 0; i < 3; i++) {
        box_put(canvas, box, parts[i], 0.0, box->height + above[i]);
        box->height += above[i] + parts[i]->height;
    }
    return box;
}

/* ---- sizes ---- */

/* The scale of all quilts side by side; their captions are not in `height`. */
static double sizes_scale(const struct sewn *sewn, double width, double height)
{
    double across = 0.0, down = 0.0;
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        across += rational_double(sewn->quilts.items[i].width);
        down = fmax(down, rational_double(sewn->quilts.items[i].height));
    }
    return fmin(fmin(width / across, height / down), MM(108.0) / down);
}

/* All quilts side by side in one scale, their feet in line. */
static struct box *sizes_box(struct booklet *booklet,
                             const struct contents *contents, double width,
                             double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct sewn *sewn = booklet->plan->all->sewn;
    const size_t count = sewn->quilts.count;
    const double captions = MM(9.0), gap = SPACE_STEP;
    double down = 0.0, x = 0.0;
    for (size_t i = 0; i < count; i++)
        down = fmax(down, rational_double(sewn->quilts.items[i].height));
    const double scale =
        sizes_scale(sewn, width - gap * (double)(count - 1), height - captions);
    struct box *box = box_new(canvas, width, down * scale + captions);
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct told_figure *told = &contents->items.items[i].as.figure;
        if (contents->items.items[i].kind != CONTENT_FIGURE)
            continue; /* all figures of the back are sizes */
        const struct sewn_quilt *quilt = told->quilt;
        const double wide = rational_double(quilt->width) * scale;
        const double high = rational_double(quilt->height) * scale;
        struct text_style style =
            quilt == booklet->quilt ? style_figure() : style_size();
        style.color = ink;
        put_figure(
            booklet, box,
            figure_cloth(canvas, told->colorway, quilt->cloth, wide, high), x,
            down * scale - high, told->told);
        box_put(canvas, box,
                box_text(canvas, told->caption, style,
                         quilt == &sewn->quilts.items[count - 1]
                             ? width - x
                             : wide + gap * 0.8),
                x, down * scale + SPACE_QUARTER);
        x += wide + gap;
    }
    return headed_box(canvas, heading_of(contents, PART_SIZES)->title,
                      style_bold(), box);
}

/* ---- lists ---- */

/* Techniques, where there are any, and tools. */
static struct box *techniques_box(const struct booklet *booklet,
                                  const struct contents *contents, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *parts[2] = {
        NULL, place_part(canvas, contents, PART_TOOLS, style_bold(), width)};
    if (content_of(contents, PART_TECHNIQUES, CONTENT_LIST) == NULL)
        return parts[1];
    parts[0] =
        place_part(canvas, contents, PART_TECHNIQUES, style_bold(), width);
    return box_stack(canvas, parts, 2, SPACE_LINE);
}

/* A section and the page it begins on, which is not known before all boxes are
 * on pages. */
static double put_section(struct booklet *booklet, struct box *box, double y,
                          struct box *section, size_t number)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    section->page_label = ARENA_ARRAY(canvas->arena, char, PAGE_LABEL);
    if (section->place == NULL)
        section->place = arena_printf(canvas->arena, "section-%zu", number);
    const struct told_text link = {section->outline, section->place,
                                   section->outline};
    const struct box *title =
        box_runs(canvas, &link, 1, style_body(), box->width - MM(8.0), "P");
    struct text_style style = style_body();
    style.align = ALIGN_RIGHT;
    box_tag(canvas, box, "LI", NULL);
    box_tagged_label(canvas, box, "Lbl", box->width, y, section->page_label,
                     style);
    box_tag(canvas, box, "LBody", NULL);
    box_put(canvas, box, title, 0.0, y);
    end_list_item(canvas, box);
    return y + title->height;
}

/* requires: all other sections are in the flow. */
static struct box *sections_box(struct booklet *booklet, const char *title,
                                double width)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    struct box *box = box_new(canvas, width, 0.0);
    size_t number = 0;
    box_tag(canvas, box, "L", NULL);
    for (size_t i = 0; i < flow->boxes.count; i++) {
        struct box *section = flow->boxes.items[i];
        if (section->outline == NULL || section->outline_depth > 0)
            continue;
        /* The first one is the cover. */
        if (number++ > 0)
            box->height =
                put_section(booklet, box, box->height, section, number);
    }
    box_tag_end(canvas, box, "L");
    return headed_box(canvas, title, style_bold(), box);
}

/* Sizes at the left, the lists below each other at the right; or, where the
 * table leaves less room, three columns. */
static struct box *middle_box(struct booklet *booklet,
                              const struct contents *contents, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double width = columns_wide(4);
    struct box *lists[2] = {
        techniques_box(booklet, contents, width),
        sections_box(booklet, heading_of(contents, PART_SECTIONS)->title,
                     width)};
    const double both = lists[0]->height + SPACE_LINE + lists[1]->height;
    const bool high = both <= height;
    struct box *columns[3] = {
        sizes_box(booklet, contents, columns_wide(high ? 8 : 4) - MM(6.0),
                  height - MM(6.0)),
        high ? box_stack(canvas, lists, 2, SPACE_LINE) : lists[0], lists[1]};
    columns[0]->width = columns_wide(high ? 8 : 4);
    return box_row(canvas, columns, high ? 2 : 3, GRID_GUTTER);
}

/* ---- foot ---- */

/* The booklet's title, and below it each paragraph. */
static struct box *imprint_box(const struct booklet *booklet,
                               const struct contents *contents, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct boxes lines = {.items = {0}};
    *LIST_ADD(canvas->arena, &lines.items) = box_text(
        canvas, heading_of(contents, PART_IMPRINT)->title, style_bold(), width);
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->part == PART_IMPRINT && content->kind == CONTENT_PARAGRAPH)
            *LIST_ADD(canvas->arena, &lines.items) = place_paragraph(
                canvas, &content->as.paragraph, style_body(), width);
    }
    return box_stack(canvas, lines.items.items, lines.items.count, 1.0);
}

/* The logo's frame of room is as high as that of the price, so that both stand
 * in one line. ensures: the width that logo and gap take, 0 without one. */
static double put_logo(struct booklet *booklet, struct box *box)
{
    if (booklet->design->logo == NULL)
        return 0.0;
    const struct box *logo = logo_box(booklet, MM(34.0), PRICE_HEIGHT);
    box_put(&booklet->flow.canvas, box, logo, 0.0, SPACE_HALF + SPACE_QUARTER);
    return logo->width + SPACE_LINE;
}

/* The frame is for the shop's own label. The foot is as high as the frame, also
 * where the text is short. */
static struct box *foot_box(struct booklet *booklet,
                            const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct content *price =
        content_of(contents, PART_PRICE, CONTENT_PARAGRAPH);
    struct box *box = box_new(canvas, canvas->width, 0.0);
    struct path_item edge = outline_narrow();
    edge.stroke_color = rule_grey;
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    const double left = canvas->width - PRICE_WIDTH;
    box_stroke(canvas, box, 0.0, 0.0, canvas->width, 0.0, outline_wide());
    const double indent = put_logo(booklet, box);
    const struct box *text =
        imprint_box(booklet, contents, columns_wide(8) - indent);
    box_put(canvas, box, text, indent, SPACE_HALF);
    box->height = SPACE_HALF + fmax(text->height, PRICE_HEIGHT + SPACE_QUARTER);
    box_rectangle(canvas, box, left, SPACE_HALF + SPACE_QUARTER, PRICE_WIDTH,
                  PRICE_HEIGHT, edge);
    box_put(canvas, box,
            place_paragraph(canvas, &price->as.paragraph, style, PRICE_WIDTH),
            left, SPACE_HALF + SPACE_QUARTER + PRICE_HEIGHT / 2.0 - 5.0);
    return box;
}

/* ---- the page ---- */

/* One box as high as the page, so that it has the page for itself. */
static struct box *page_box(struct booklet *booklet,
                            const struct contents *contents, struct box *head,
                            const struct box *table, const struct box *foot)
{
    const struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    struct box *page =
        box_new(canvas, canvas->width, flow_page_height(flow) - 0.5);
    const double top = head->height + SPACE_LINE + table->height + SPACE_STEP;
    const double bottom = page->height - foot->height;
    box_put(canvas, page, head, 0.0, 0.0);
    box_put(canvas, page, table, 0.0, head->height + SPACE_LINE);
    box_put(canvas, page,
            middle_box(booklet, contents, bottom - top - SPACE_LINE), 0.0, top);
    box_put(canvas, page, foot, 0.0, bottom);
    return page;
}

/* Widths in points: parts and amounts have what their words need, cloths share
 * the rest. Many colorways or sizes leave less for all. */
static const double *column_widths(const struct canvas *canvas,
                                   size_t colorways, size_t quilts)
{
    const bool many = colorways > 4;
    const double part = many ? MM(20.0) : MM(24.0);
    double amount = quilts > 2 ? MM(72.0) / (double)quilts
                    : many     ? MM(23.0)
                               : MM(27.0);
    double cloth =
        (canvas->width - part - amount * (double)quilts) / (double)colorways;
    /* No cloth needs more; the rest goes to the amounts. */
    if (cloth > MM(60.0)) {
        cloth = MM(60.0);
        amount =
            (canvas->width - part - cloth * (double)colorways) / (double)quilts;
    }
    double *widths = ARENA_ARRAY(canvas->arena, double, 1 + colorways + quilts);
    for (size_t i = 0; i < 1 + colorways + quilts; i++)
        widths[i] = i == 0 ? part : i <= colorways ? cloth : amount;
    return widths;
}

/* A row for each part, over all colorways and quilts of the pattern. */
static struct boxes rows_of(const struct booklet *booklet,
                            const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct table_look look = {
        column_widths(canvas, booklet->design->colorways.count,
                      booklet->plan->all->sewn->quilts.count),
        style_body(), true};
    return place_rows(
        canvas, &content_of(contents, PART_MATERIALS, CONTENT_TABLE)->as.table,
        &look);
}

/* On one page where the table is low enough. Else head, rows, pictures and foot
 * flow one by one, and the head stays with the first row. */
void section_back(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct contents contents =
        tell_back(&booklet->wording, booklet->plan);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    const struct boxes rows = rows_of(booklet, &contents);
    const struct box *table = table_box(&flow->canvas, &rows);
    struct box *head = head_box(booklet, heading);
    struct box *foot = foot_box(booklet, &contents);
    const bool one_page = table->height <= TABLE_MOST;
    struct box *first =
        one_page ? page_box(booklet, &contents, head, table, foot) : head;
    struct box *middle =
        one_page ? NULL : middle_box(booklet, &contents, MM(70.0));
    first->starts_page = true;
    first->outline = heading->title;
    first->keep_with_next = !one_page;
    flow_add(flow, first, SPACE_MOST);
    if (one_page)
        return;
    for (size_t i = 0; i < rows.items.count; i++)
        flow_add(flow, rows.items.items[i], i == 0 ? SPACE_LINE : 0.0);
    flow_add(flow, middle, SPACE_STEP);
    flow_add(flow, foot, SPACE_STEP);
}
