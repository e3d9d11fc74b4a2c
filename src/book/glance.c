/* At a glance, on one page. The words are measured first; the figures take what
 * they leave. Read next: place_table.c. */
#include <math.h>
#include <string.h>

#include "overview.h"
#include "place.h"
#include "structure.h"

/* The figures are no lower than that; else the page runs over. */
#define FIGURE_LEAST MM(36.0)
#define FIGURE_MOST MM(92.0)
#define MAP_MOST MM(56.0)

/* ---- figures ---- */

/* Below its caption, which is a heading. */
static struct box *headed_figure(struct booklet *booklet,
                                 const struct told_figure *told,
                                 const struct box *figure)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *head =
        box_heading(canvas, told->caption, style_bold(), figure->width, "H2");
    struct box *box = box_new(canvas, figure->width,
                              head->height + SPACE_HALF + figure->height);
    box_put(canvas, box, head, 0.0, 0.0);
    put_figure(booklet, box, figure, 0.0, head->height + SPACE_HALF,
               told->told);
    return box;
}

/* A block, or the quilt with its borders. */
static struct box *draw_figure(struct booklet *booklet,
                               const struct told_figure *told, double width,
                               double height)
{
    const struct heap *heap = &booklet->quilt->heaps.items[told->heap];
    return headed_figure(
        booklet, told,
        told->drawing == DRAWING_BLOCK
            ? exploded_block(booklet, heap, width, height)
            : bordered_quilt(booklet, told->labels.items, width, height));
}

/* Side by side; the last one ends at the edge. */
static struct box *side_figures(struct booklet *booklet,
                                struct box *const *figures, size_t count)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    for (size_t i = 0; i < count; i++) {
        box_put(canvas, box, figures[i],
                i == 0 ? 0.0 : canvas->width - figures[i]->width, 0.0);
        box->height = fmax(box->height, figures[i]->height);
    }
    return box;
}

/* Two blocks share the page; the quilt beside a block has less of it. */
static struct box *figures_box(struct booklet *booklet,
                               const struct contents *contents, double height)
{
    const struct told_figure *told[2];
    struct box *figures[2];
    size_t count = 0;
    for (size_t i = 0; i < contents->items.count; i++)
        if (contents->items.items[i].part == PART_FIGURES)
            told[count++] = &contents->items.items[i].as.figure;
    const bool quilt = told[count - 1]->drawing == DRAWING_BORDERS;
    for (size_t i = 0; i < count; i++)
        figures[i] = draw_figure(booklet, told[i],
                                 columns_wide(count == 1 ? 12
                                              : !quilt   ? 6
                                              : i == 0   ? 8
                                                         : 4),
                                 height);
    return side_figures(booklet, figures, count);
}

/* ---- the way through ---- */

/* Where the quilt has no figure of its own, its borders are told at the right
 * of the head. */
static struct box *map_box(struct booklet *booklet,
                           const struct contents *contents, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct told_figure *told =
        &content_of(contents, PART_WAY, CONTENT_FIGURE)->as.figure;
    struct box *box =
        headed_figure(booklet, told, step_map(booklet, canvas->width, height));
    if (told->labels.count == 0)
        return box;
    struct text_style style = style_figure();
    style.align = ALIGN_RIGHT;
    box_put(canvas, box,
            box_text(canvas, told->labels.items[0], style, columns_wide(6)),
            canvas->width - columns_wide(6), 1.5);
    return box;
}

/* ---- materials, tools, words ---- */

static struct box *side_box(const struct booklet *booklet,
                            const struct contents *contents, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *parts[2] = {
        place_part(canvas, contents, PART_TOOLS, style_step(), width),
        place_part(canvas, contents, PART_TERMS, style_step(), width)};
    return box_stack(canvas, parts, 2, SPACE_HALF);
}

/* The table of what is bought, and the notes to it. */
struct materials {
    struct boxes rows;
    struct box *notes;
};

static struct materials place_materials(const struct canvas *canvas,
                                        const struct contents *contents,
                                        double width)
{
    /* Swatch and cloth, what for, how much. */
    const double widths[] = {width * 0.40, width * 0.38, width * 0.22};
    const struct table_look look = {widths, style_bold(), false};
    struct canvas narrow = *canvas;
    narrow.width = width;
    struct text_style style = style_small();
    style.color = ink;
    return (struct materials){
        place_rows(
            &narrow,
            &content_of(contents, PART_MATERIALS, CONTENT_TABLE)->as.table,
            &look),
        place_paragraph(canvas,
                        &content_of(contents, PART_MATERIALS, CONTENT_PARAGRAPH)
                             ->as.paragraph,
                        style, width)};
}

/* Few cloths: the table at the left, tools and words beside it. */
static struct box *side_by_side(const struct booklet *booklet,
                                const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct materials materials =
        place_materials(canvas, contents, columns_wide(8));
    struct box *parts[2] = {table_box(canvas, &materials.rows),
                            materials.notes};
    struct box *left =
        headed_box(canvas, heading_of(contents, PART_MATERIALS)->title,
                   style_step(), box_stack(canvas, parts, 2, SPACE_QUARTER));
    left->width = columns_wide(8);
    struct box *columns[2] = {left,
                              side_box(booklet, contents, columns_wide(4))};
    return box_row(canvas, columns, 2, GRID_GUTTER);
}

/* ---- cautions ---- */

/* How many bytes of a text, whole words, one line of that width holds. */
static size_t words_within(const struct canvas *canvas, const char *text,
                           struct text_style style, double width)
{
    size_t fits = 0;
    for (size_t end = strcspn(text, " ");;
         end += 1 + strcspn(text + end + 1, " ")) {
        const char *part = arena_printf(canvas->arena, "%.*s", (int)end, text);
        if (typeset_measure(canvas->typeset, part, style, 0.0).width > width)
            return fits;
        fits = end;
        if (text[end] == '\0')
            return fits;
    }
}

/* Its head in bold, as the label of an item; the text begins on the same line.
 * ensures: how far down it reaches. */
static double put_caution(const struct booklet *booklet, struct box *box,
                          double x, double y, const struct told_point *item)
{
    const char *text = item->text;
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct text_style style = style_body();
    const double width = columns_wide(4);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, item->label, style_bold(), 0.0);
    const double left = extent.width + 3.6;
    const size_t first = words_within(canvas, text, style, width - left);
    begin_list_item(canvas, box, x, y, item->label, style_bold());
    box_label(canvas, box, x + left, y,
              arena_printf(canvas->arena, "%.*s", (int)first, text), style, 0.0,
              false);
    y += extent.height;
    if (text[first] != '\0')
        y += box_words(canvas, box, x, y, text + first + (first > 0), style,
                       width);
    end_list_item(canvas, box);
    return y;
}

/* In three columns, between two lines. */
static struct box *cautions_box(const struct booklet *booklet,
                                const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct told_list *cautions =
        &content_of(contents, PART_CAUTIONS, CONTENT_LIST)->as.list;
    double y[3] = {0.0, 0.0, 0.0};
    struct box *list = box_new(canvas, canvas->width, 0.0);
    box_tag(canvas, list, "L", NULL);
    /* Each in the column that is shortest so far. */
    for (size_t i = 0; i < cautions->items.count; i++) {
        int column = 0;
        for (int k = 1; k < 3; k++)
            column = y[k] < y[column] - 1.0 ? k : column;
        y[column] =
            put_caution(booklet, list, (columns_wide(4) + GRID_GUTTER) * column,
                        y[column], &cautions->items.items[i]) +
            SPACE_QUARTER;
        list->height = fmax(list->height, y[column]);
    }
    box_tag_end(canvas, list, "L");
    struct box *box = headed_box(
        canvas, heading_of(contents, PART_CAUTIONS)->title, style_step(), list);
    struct box *ruled =
        box_new(canvas, canvas->width, box->height + SPACE_HALF);
    box_stroke(canvas, ruled, 0.0, 0.0, canvas->width, 0.0, outline_wide());
    box_put(canvas, ruled, box, 0.0, SPACE_HALF);
    return ruled;
}

/* ---- the page ---- */

static bool many_cloths(const struct booklet *booklet)
{
    enum { FEW = 7 };
    size_t used = 0;
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        used += booklet->plan->fabrics[i].items.count > 0;
    return used > FEW;
}

/* The table row by row, over as many pages as it takes; tools and words below
 * it. */
static void add_long_table(struct booklet *booklet,
                           const struct contents *contents)
{
    struct flow *flow = &booklet->flow;
    const struct materials materials =
        place_materials(&flow->canvas, contents, flow->canvas.width);
    flow_heading(flow, heading_of(contents, PART_MATERIALS)->title);
    for (size_t i = 0; i < materials.rows.items.count; i++)
        flow_add(flow, materials.rows.items.items[i], 0.0);
    flow_add(flow, materials.notes, SPACE_QUARTER);
    flow_add(flow, side_box(booklet, contents, columns_wide(8)), SPACE_LINE);
}

/* Figures as high as the page leaves them; the map is made first. `below` is
 * what stands under them, or NULL. */
static void add_figures(struct booklet *booklet,
                        const struct contents *contents,
                        const struct box *below, const struct box *cautions)
{
    struct flow *flow = &booklet->flow;
    const double head = flow->boxes.items[flow->boxes.count - 1]->height;
    /* Two figures with their heads, and the spaces between the boxes. */
    const double heads = 2.0 * (style_bold().size * 1.3 + SPACE_HALF);
    const double room =
        flow_page_height(flow) - head - heads - 4.0 * SPACE_LINE - 2.0 -
        (below == NULL ? 0.0 : below->height + cautions->height);
    struct box *map = map_box(
        booklet, contents, fmin(fmax(room - FIGURE_LEAST, MM(24.0)), MAP_MOST));
    const double figure =
        fmin(fmax(room + heads / 2.0 - map->height, FIGURE_LEAST), FIGURE_MOST);
    struct box *figures = figures_box(booklet, contents, figure);
    figures->keep_with_next = true;
    flow_add(flow, figures, SPACE_LINE);
    flow_add(flow, map, SPACE_LINE);
}

/* Materials have a bookmark of their own. */
void section_glance(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct contents contents =
        tell_glance(&booklet->wording, booklet->plan);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    const bool many = many_cloths(booklet);
    flow_section(flow, heading->title, heading->lead, true);
    struct box *below = many ? NULL : side_by_side(booklet, &contents);
    struct box *cautions = cautions_box(booklet, &contents);
    add_figures(booklet, &contents, below, cautions);
    const size_t materials = flow->boxes.count;
    if (many)
        add_long_table(booklet, &contents);
    else
        flow_add(flow, below, SPACE_LINE);
    flow->boxes.items[materials]->outline =
        heading_of(&contents, PART_MATERIALS)->title;
    flow->boxes.items[materials]->outline_depth = 1;
    flow_add(flow, cautions, SPACE_LINE);
}
