/* A card for the shelf: the quilt at the left, words at the right, a fine line
 * around both to cut along. Read next: kit_labels.c. */
#include <math.h>

#include "figure_parts.h"
#include "kit_boxes.h"
#include "structure.h"

#define CARD_HEIGHT MM(119.0)
#define PANEL_WIDE columns_wide(6)
#define INSIDE MM(6.0)

/* ---- the quilt ---- */

/* What is drawn of a kept picture, and where. */
struct kit_view {
    const struct kit_facts *facts;
    double scale; /* points for a step of its grid */
};

/* The shape's own color fills the gap to its neighbours. */
static struct path_item shape_fill(struct color color)
{
    return (struct path_item){.closed = true,
                              .filled = true,
                              .fill = color,
                              .stroke = LINE_FINE,
                              .stroke_color = color,
                              .role = ROLE_CLOTH};
}

/* Hundreds of shapes a card: they are made when their page is drawn. */
static void make_shapes(const void *what, struct arena *arena,
                        struct item_list *items)
{
    const struct kit_view *view = what;
    const struct kit_picture *picture = view->facts->picture;
    for (size_t i = 0; i < picture->shapes.count; i++) {
        const struct kit_shape *shape = &picture->shapes.items[i];
        struct point *points = ARENA_ARRAY(arena, struct point, shape->count);
        for (size_t k = 0; k < shape->count; k++) {
            const struct kit_spot *spot =
                &picture->spots.items[shape->first + k];
            points[k] =
                (struct point){spot->x * view->scale, spot->y * view->scale};
        }
        struct item *item = LIST_ADD(arena, items);
        item->kind = ITEM_PATH;
        item->as.path =
            shape_fill(color_of(view->facts->colors.items[shape->fabric]));
        item->as.path.points = points;
        item->as.path.count = shape->count;
    }
}

/* The binding, or bare paper: it covers the allowances at the edge. */
static void put_edge(const struct canvas *canvas, struct box *box,
                     const struct kit_facts *facts, double scale)
{
    const double seam = facts->picture->allowance * scale;
    const double width = box->width, height = box->height;
    const double wide = fmax(seam, LINE_BROAD);
    const struct path_item cloth = {
        .filled = true,
        .fill = facts->binding
                    ? color_of(facts->fabrics.items[facts->binding_fabric].color)
                    : white,
        .role = ROLE_CLOTH};
    box_rectangle(canvas, box, -wide, -wide, width + 2.0 * wide, wide, cloth);
    box_rectangle(canvas, box, -wide, height, width + 2.0 * wide, wide, cloth);
    box_rectangle(canvas, box, -wide, 0.0, wide, height, cloth);
    box_rectangle(canvas, box, width, 0.0, wide, height, cloth);
    if (facts->binding)
        box_rectangle(canvas, box, -wide, -wide, width + 2.0 * wide,
                      height + 2.0 * wide, outline_narrow());
    else
        box_rectangle(canvas, box, 0.0, 0.0, width, height, outline_narrow());
}

/* ensures: the quilt in its colors, its longer side `side`; NULL where no
 * picture is kept. */
static struct box *quilt_box(const struct canvas *canvas,
                             const struct kit_facts *facts, double side)
{
    if (facts->picture == NULL)
        return NULL;
    struct kit_view *view = ARENA_NEW(canvas->arena, struct kit_view);
    *view = (struct kit_view){facts, side / KIT_PICTURE_SIDE};
    struct box *box = box_new(canvas, facts->picture->width * view->scale,
                              facts->picture->height * view->scale);
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_LATER;
    item->as.later = (struct later_item){make_shapes, view, NULL, 0};
    put_edge(canvas, box, facts, view->scale);
    return box;
}

/* The panel, and the quilt in the middle of it. */
static void put_quilt(struct kit_book *book, struct box *card,
                      const struct told_figure *figure)
{
    const struct canvas *canvas = &book->booklet.flow.canvas;
    const struct path_item panel = {.filled = true, .fill = pale};
    box_rectangle(canvas, card, 0.0, 0.0, PANEL_WIDE, card->height, panel);
    const struct box *quilt =
        quilt_box(canvas, figure->kit, PANEL_WIDE - 2.0 * INSIDE);
    if (quilt != NULL)
        put_figure(&book->booklet, card, quilt,
                   (PANEL_WIDE - quilt->width) / 2.0,
                   (card->height - quilt->height) / 2.0, figure->told);
}

/* ---- words ---- */

/* One below the other, as a column. */
static void put_below(const struct canvas *canvas, struct box *column,
                      const struct box *part, double space)
{
    box_put(canvas, column, part, 0.0, column->height + space);
    column->height += space + part->height;
}

/* Its height is what the words need; the card grows with it. */
static struct box *words_box(const struct canvas *canvas,
                             const struct contents *contents)
{
    const double width = GRID_WIDTH - PANEL_WIDE - 2.0 * INSIDE;
    const struct told_heading *title = heading_of(contents, PART_MAIN);
    struct box *column = box_new(canvas, width, 0.0);
    put_below(canvas, column,
              box_heading(canvas, title->title, style_section(), width, "H1"),
              0.0);
    put_below(canvas, column,
              box_text(canvas, title->lead, style_body(), width), 0.0);
    put_below(canvas, column,
              box_heading(canvas, heading_of(contents, PART_SLIP)->title,
                          style_bold(), width, "H2"),
              SPACE_LINE);
    put_below(
        canvas, column,
        place_list(canvas,
                   &content_of(contents, PART_SLIP, CONTENT_LIST)->as.list,
                   width),
        0.0);
    put_below(
        canvas, column,
        place_list(canvas,
                   &content_of(contents, PART_HELD, CONTENT_LIST)->as.list,
                   width),
        SPACE_LINE);
    return column;
}

/* At the lower right, where a hand that holds the card does not cover it. */
static struct box *price_box(const struct canvas *canvas,
                             const struct contents *contents)
{
    struct text_style style = style_section();
    style.align = ALIGN_RIGHT;
    const struct content *price =
        content_of(contents, PART_PRICE, CONTENT_PARAGRAPH);
    const char *words =
        content_words(canvas->arena, &price->as.paragraph);
    return words[0] == '\0'
               ? box_new(canvas, 0.0, 0.0)
               : box_text(canvas, words, style,
                          GRID_WIDTH - PANEL_WIDE - 2.0 * INSIDE);
}

/* Two of usual height fill a page. */
struct box *kit_card_box(struct kit_book *book, const struct contents *contents)
{
    const struct canvas *canvas = &book->booklet.flow.canvas;
    const struct box *words = words_box(canvas, contents);
    const struct box *price = price_box(canvas, contents);
    const double height =
        words->height + price->height + 2.0 * INSIDE + SPACE_LINE;
    struct box *card = box_new(canvas, GRID_WIDTH, fmax(CARD_HEIGHT, height));
    put_quilt(book, card,
              &content_of(contents, PART_PICTURE, CONTENT_FIGURE)->as.figure);
    box_put(canvas, card, words, PANEL_WIDE + INSIDE, INSIDE - 6.0);
    box_put(canvas, card, price, PANEL_WIDE + INSIDE,
            card->height - INSIDE - price->height);
    box_rectangle(canvas, card, 0.0, 0.0, card->width, card->height,
                  outline_narrow());
    return card;
}
