/* Labels of bags, where their sheet has them: places come from the order in
 * exact numbers, each by itself, so that none moves the next. Nothing is put
 * nearer than 2 mm to the edge of a label. Read next: kit_papers.c. */
#include <math.h>

#include "figure_parts.h"
#include "kit_boxes.h"
#include "structure.h"

#define LABEL_AIR MM(2.0)

/* Where a label lies on its page, in points. */
struct label_place {
    double x, y, width, height;
};

/* Rounded once, from the exact length. */
static double points(const struct order *order, struct rational length)
{
    return rational_double(length) *
           (order->units == UNIT_CM ? 72.0 / 2.54 : 72.0);
}

/* `number` is from 0, by rows. */
static struct label_place place_of(const struct order *order, size_t number)
{
    const struct order_labels *sheet = order->labels;
    const int64_t column = (int64_t)(number % sheet->columns);
    const int64_t row = (int64_t)(number / sheet->columns);
    const struct rational x =
        rational_add(rational_add(sheet->left, sheet->offset_x),
                     rational_times(sheet->across, column));
    const struct rational y =
        rational_add(rational_add(sheet->top, sheet->offset_y),
                     rational_times(sheet->down, row));
    return (struct label_place){points(order, x), points(order, y),
                                points(order, sheet->width),
                                points(order, sheet->height)};
}

/* ---- a label ---- */

/* The four sizes of type are few; a label takes those that it has room for. */
struct label_type {
    struct text_style title, words;
    double swatch;
};

/* By the height of the label; the width only cuts lines. */
static struct label_type type_of(double height)
{
    struct label_type type = {style_bold(), style_small(), MM(4.0)};
    if (height > MM(45.0))
        type = (struct label_type){style_step(), style_body(), MM(6.5)};
    else if (height < MM(12.0))
        type.title = style_figure();
    type.words.color = ink;
    return type;
}

/* One line where there is room for it, cut to the width. ensures: where the
 * next may stand. */
static double put_line(const struct canvas *canvas, struct box *box, double y,
                       const char *text, struct text_style style,
                       const char *tag)
{
    const double height =
        typeset_measure(canvas->typeset, "x", style, 0.0).height;
    if (y + height > box->height + 0.01)
        return y;
    box_tagged_label(canvas, box, tag, 0.0, y,
                     box_cut(canvas, text, style, box->width), style);
    return y + height;
}

/* At the foot, as many as fit beside each other, where there is room left. */
static void put_swatches(const struct canvas *canvas, struct box *box, double y,
                         const struct told_label *label, double side)
{
    if (box->height - y < side + 1.0)
        return;
    const double step = side + 2.0;
    for (size_t i = 0; i < label->swatches.count; i++) {
        const double x = step * (double)i;
        if (x + side > box->width)
            break;
        box_put(canvas, box,
                told_swatch_box(canvas, &label->swatches.items[i], side, side),
                x, box->height - side);
    }
}

/* The bag before the quilt: it is what tells labels of one kit apart. */
static struct box *label_box(const struct canvas *canvas,
                             const struct told_label *label,
                             const struct label_place *place)
{
    const struct label_type type = type_of(place->height);
    struct box *box =
        box_new(canvas, place->width - 2.0 * LABEL_AIR,
                place->height - 2.0 * LABEL_AIR);
    double y = put_line(canvas, box, 0.0, label->title, type.title, "H1");
    y = put_line(canvas, box, y, label->bag, type.words, "P");
    y = put_line(canvas, box, y, label->quilt, type.words, "P");
    if (label->swatches.count > 0) {
        box_tag(canvas, box, "P", NULL);
        put_swatches(canvas, box, y, label, type.swatch);
        box_tag_end(canvas, box, "P");
    }
    return box;
}

/* ---- sheets ---- */

/* All sheets are one document. */
static void add_document(struct arena *arena, struct page *page,
                         enum item_kind kind)
{
    struct item *item = LIST_ADD(arena, &page->items);
    item->kind = kind;
    item->as.tag =
        (struct tag_item){.name = "Document", .attributes = ""};
}

/* No foot: a label may lie there. */
static struct page *new_page(struct arena *arena, struct book *book)
{
    struct page *page = ARENA_NEW(arena, struct page);
    *LIST_ADD(arena, &book->pages) = page;
    page->label = arena_printf(arena, "%zu", book->pages.count);
    page->true_to_scale = true;
    if (book->pages.count == 1)
        add_document(arena, page, ITEM_TAG_BEGIN);
    return page;
}

/* A bookmark to the first label of a line, so that it can be printed again. */
static void mark_line(const struct kit_book *of, const struct told_label *label,
                      double y)
{
    struct book *book = of->booklet.flow.book;
    *LIST_ADD(of->booklet.flow.canvas.arena, &book->outline) =
        (struct outline_entry){kit_line_title(&of->booklet.wording, of->kits,
                                              label->line),
                               book->pages.count - 1, y, 0};
}

/* The first sheet may be one that was begun; the last is filled as far as there
 * are labels. */
void put_labels(struct kit_book *of)
{
    const struct canvas *canvas = &of->booklet.flow.canvas;
    const struct order *order = of->kits->order;
    struct book *book = of->booklet.flow.book;
    const struct told_labels labels =
        tell_kit_labels(&of->booklet.wording, of->kits);
    const size_t all = order->labels->columns * order->labels->rows;
    size_t free = order->labels->start - 1;
    struct page *page = new_page(canvas->arena, book);
    for (size_t i = 0; i < labels.items.count; i++, free++) {
        if (free == all) {
            page = new_page(canvas->arena, book);
            free = 0;
        }
        const struct label_place place = place_of(order, free);
        const struct told_label *label = &labels.items.items[i];
        if (i == 0 || label->line != label[-1].line)
            mark_line(of, label, place.y);
        box_flatten(canvas, label_box(canvas, label, &place),
                    place.x + LABEL_AIR, place.y + LABEL_AIR, &page->items);
    }
    add_document(canvas->arena, page, ITEM_TAG_END);
    book->true_scale = true;
}

/* ---- the test ---- */

/* The outer edge of the line lies on that of the label, as in scale.c. */
static void put_outline(const struct canvas *canvas, struct box *box,
                        const struct label_place *place, bool used)
{
    const double cross = fmin(fmin(place->width, place->height) / 4.0, MM(3.0));
    const double x = place->x + place->width / 2.0;
    const double y = place->y + place->height / 2.0;
    struct path_item line = outline_narrow();
    line.filled = used;
    line.fill = pale;
    box_rectangle(canvas, box, place->x + line.stroke / 2.0,
                  place->y + line.stroke / 2.0, place->width - line.stroke,
                  place->height - line.stroke, line);
    line.filled = false;
    box_stroke(canvas, box, x - cross, y, x + cross, y, line);
    box_stroke(canvas, box, x, y - cross, x, y + cross, line);
}

/* In the upper left, clear of the cross. */
static void put_number(const struct canvas *canvas, struct box *box,
                       const struct label_place *place, const char *text)
{
    const struct text_style style = style_size();
    if (place->height < MM(10.0))
        return;
    box_label(canvas, box, place->x + LABEL_AIR, place->y + LABEL_AIR,
              box_cut(canvas, text, style, place->width - 2.0 * LABEL_AIR),
              style, 0.0, false);
}

/* A box of the flow on a page of its own: its corner lies where the flow puts
 * it, so places on the page are counted from there. Labels that are used
 * already are pale. */
void add_label_outlines(struct kit_book *of)
{
    struct flow *flow = &of->booklet.flow;
    const struct canvas *canvas = &flow->canvas;
    const struct order *order = of->kits->order;
    const size_t all = order->labels->columns * order->labels->rows;
    struct box *drawing = box_new(canvas, canvas->width, 1.0);
    for (size_t i = 0; i < all; i++) {
        struct label_place place = place_of(order, i);
        place.x -= flow->margin;
        place.y -= flow->top;
        put_outline(canvas, drawing, &place, i + 1 < order->labels->start);
        put_number(canvas, drawing, &place,
                   i == 0 ? say(canvas->arena, flow->phrases, "kit.test-first",
                                NULL)
                          : say_count(canvas->arena, i + 1));
    }
    struct box *box = box_new(canvas, canvas->width, 1.0);
    box_tag(canvas, box, "Figure",
            say(canvas->arena, flow->phrases, "kit.test-outlines", "count",
                say_count(canvas->arena, all), NULL));
    box_put(canvas, box, drawing, 0.0, 0.0);
    box_tag_end(canvas, box, "Figure");
    box->turns_page = true;
    box->true_to_scale = box->bare = true;
    flow_add(flow, box, 0.0);
    flow->book->true_scale = true;
}
