/* The back cover is read in a shop, before the booklet is opened: what to buy
 * for each size and colorway, how large the sizes are, what is used, what is
 * inside. Amounts come from the same plans as those of page 2. Lengths are
 * points. Read next: back_table.c. */
#include "back.h"

#include <math.h>

#include "cover_picture.h"
#include "structure.h"
#include "words.h"

/* Room for a label with price and code. */
#define PRICE_WIDTH columns_wide(3)
#define PRICE_HEIGHT MM(21.0)
/* A table that is higher goes on over pages. */
#define TABLE_MOST MM(128.0)

/* ---- head ---- */

/* The width that all cloth has that is sold by its length; unknown where they
 * differ. */
static struct rational common_width(const struct design *design)
{
    struct rational width = {0};
    for (size_t c = 0; c < design->colorways.count; c++)
        for (size_t f = 0; f < design->fabrics.count; f++) {
            const struct bolt *bolt = &design->colorways.items[c].bolts[f];
            if (bolt->sold != SOLD_YARDAGE)
                continue;
            if (rational_known(width) && !rational_equal(width, bolt->width))
                return (struct rational){0};
            width = bolt->width;
        }
    return width;
}

static const char *lead_text(const struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct rational width = common_width(booklet->design);
    return word_then(
        w,
        say(w->arena, w->phrases, "back.choice", "sizes",
            say_count(w->arena, booklet->plan->all->sewn->quilts.count),
            "colorways", say_count(w->arena, booklet->design->colorways.count),
            NULL),
        rational_known(width) ? say(w->arena, w->phrases, "back.width", "width",
                                    word_length_unit(w, width), NULL)
                              : "");
}

/* The ornament is a strip of the quilt's first unit, so that the page is known
 * as that of this quilt. */
static struct box *head_box(const struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    struct text_style style = style_section();
    style.color = canvas->accent;
    struct box *parts[3] = {
        ornament(booklet, canvas->width, MM(7.0)),
        box_heading(canvas, say(w->arena, w->phrases, "back.title", NULL),
                    style, canvas->width, "H1"),
        box_text(canvas, lead_text(booklet), style_body(), canvas->width)};
    struct box *box = box_new(canvas, canvas->width, 0.0);
    static const double above[3] = {0.0, SPACE_HALF, 0.0};
    for (int i = 0; i < 3; i++) {
        box_put(canvas, box, parts[i], 0.0, box->height + above[i]);
        box->height += above[i] + parts[i]->height;
    }
    return box;
}

/* ---- sizes ---- */

/* All quilts side by side in one scale, their feet in line. */
static struct box *sizes_box(struct booklet *booklet, double width,
                             double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct sewn *sewn = booklet->plan->all->sewn;
    const size_t count = sewn->quilts.count;
    const double captions = MM(9.0), gap = SPACE_STEP;
    double across = 0.0, down = 0.0;
    for (size_t i = 0; i < count; i++) {
        across += rational_double(sewn->quilts.items[i].width);
        down = fmax(down, rational_double(sewn->quilts.items[i].height));
    }
    const double room = width - gap * (double)(count - 1);
    const double scale =
        fmin(fmin(room / across, (height - captions) / down), MM(108.0) / down);
    struct box *box = box_new(canvas, width, down * scale + captions);
    double x = 0.0;
    for (size_t i = 0; i < count; i++) {
        const struct sewn_quilt *quilt = &sewn->quilts.items[i];
        const double wide = rational_double(quilt->width) * scale;
        const double high = rational_double(quilt->height) * scale;
        const char *text =
            say(w->arena, w->phrases, "glance.size", "name",
                quilt->definition->name, "size",
                word_size_unit(w, quilt->width, quilt->height), NULL);
        struct text_style style =
            quilt == booklet->quilt ? style_figure() : style_size();
        style.color = ink;
        put_figure(booklet, box,
                   figure_cloth(canvas, booklet->plan->colorway, quilt->cloth,
                                wide, high),
                   x, down * scale - high, text);
        box_put(canvas, box,
                box_text(canvas, text, style,
                         i + 1 == count ? width - x : wide + gap * 0.8),
                x, down * scale + SPACE_QUARTER);
        x += wide + gap;
    }
    return headed_box(canvas,
                      say(w->arena, w->phrases, "back.sizes", "count",
                          say_count(w->arena, count), NULL),
                      style_bold(), box);
}

/* ---- lists ---- */

/* A quilt of plain patches has no technique to name; then the tools stand
 * alone. */
static struct box *techniques_box(const struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct texts used = techniques_used(booklet);
    const struct texts tools = tools_needed(booklet);
    struct box *parts[2] = {
        headed_box(canvas, say(w->arena, w->phrases, "back.techniques", NULL),
                   style_bold(), texts_box(canvas, &used, width)),
        headed_box(canvas, say(w->arena, w->phrases, "glance.tools", NULL),
                   style_bold(), texts_box(canvas, &tools, width))};
    return used.items.count == 0 ? parts[1]
                                 : box_stack(canvas, parts, 2, SPACE_LINE);
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
    const struct link link = {section->outline, section->place,
                              section->outline};
    const struct box *title = box_linked(canvas, section->outline, style_body(),
                                         box->width - MM(8.0), "P", &link, 1);
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
static struct box *contents_box(struct booklet *booklet, double width)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct wording *w = &booklet->wording;
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
    return headed_box(canvas, say(w->arena, w->phrases, "back.contents", NULL),
                      style_bold(), box);
}

/* Sizes at the left, the lists below each other at the right; or, where the
 * table leaves less room, three columns. */
static struct box *middle_box(struct booklet *booklet, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double width = columns_wide(4);
    struct box *lists[2] = {techniques_box(booklet, width),
                            contents_box(booklet, width)};
    const double both = lists[0]->height + SPACE_LINE + lists[1]->height;
    const bool high = both <= height;
    struct box *columns[3] = {
        sizes_box(booklet, columns_wide(high ? 8 : 4) - MM(6.0),
                  height - MM(6.0)),
        high ? box_stack(canvas, lists, 2, SPACE_LINE) : lists[0], lists[1]};
    columns[0]->width = columns_wide(high ? 8 : 4);
    return box_row(canvas, columns, high ? 2 : 3, GRID_GUTTER);
}

/* ---- foot ---- */

/* What the booklet is, for who sees its back first. */
static struct box *foot_text(const struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const char *summary = word_words(&booklet->wording, booklet->plan->colorway,
                                     booklet->design->summary, NULL);
    struct box *lines[3];
    size_t count = 0;
    lines[count++] =
        box_text(canvas, booklet->design->title, style_bold(), width);
    if (summary[0] != '\0')
        lines[count++] = box_text(canvas, summary, style_body(), width);
    if (booklet->design->skill[0] != '\0')
        lines[count++] =
            box_text(canvas, skill_text(booklet), style_body(), width);
    return box_stack(canvas, lines, count, 1.0);
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
static struct box *foot_box(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    struct path_item edge = outline_narrow();
    edge.stroke_color = rule_grey;
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    const double left = canvas->width - PRICE_WIDTH;
    box_stroke(canvas, box, 0.0, 0.0, canvas->width, 0.0, outline_wide());
    const double indent = put_logo(booklet, box);
    const struct box *text = foot_text(booklet, columns_wide(8) - indent);
    box_put(canvas, box, text, indent, SPACE_HALF);
    box->height = SPACE_HALF + fmax(text->height, PRICE_HEIGHT + SPACE_QUARTER);
    box_rectangle(canvas, box, left, SPACE_HALF + SPACE_QUARTER, PRICE_WIDTH,
                  PRICE_HEIGHT, edge);
    box_put(canvas, box,
            box_text(canvas, say(w->arena, w->phrases, "back.price", NULL),
                     style, PRICE_WIDTH),
            left, SPACE_HALF + SPACE_QUARTER + PRICE_HEIGHT / 2.0 - 5.0);
    return box;
}

/* ---- the page ---- */

/* One box as high as the page, so that it has the page for itself. */
static struct box *page_box(struct booklet *booklet, struct box *head,
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
    box_put(canvas, page, middle_box(booklet, bottom - top - SPACE_LINE), 0.0,
            top);
    box_put(canvas, page, foot, 0.0, bottom);
    return page;
}

/* On one page where the table is low enough. Else head, rows, pictures and foot
 * flow one by one, and the head stays with the first row. */
void section_back(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct wording *w = &booklet->wording;
    const struct back_rows rows = back_rows(booklet);
    const struct box *table =
        table_box(&flow->canvas, rows.items.items, rows.items.count);
    struct box *head = head_box(booklet);
    struct box *foot = foot_box(booklet);
    const bool one_page = table->height <= TABLE_MOST;
    struct box *first = one_page ? page_box(booklet, head, table, foot) : head;
    struct box *middle = one_page ? NULL : middle_box(booklet, MM(70.0));
    first->starts_page = true;
    first->outline = say(w->arena, w->phrases, "back.title", NULL);
    first->keep_with_next = !one_page;
    flow_add(flow, first, SPACE_MOST);
    if (one_page)
        return;
    for (size_t i = 0; i < rows.items.count; i++)
        flow_add(flow, rows.items.items[i], i == 0 ? SPACE_LINE : 0.0);
    flow_add(flow, middle, SPACE_STEP);
    flow_add(flow, foot, SPACE_STEP);
}
