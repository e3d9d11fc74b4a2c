/* Tables without swatches, whose rows are boxes, so that they may run over
 * pages like anything else; and swatches. Read next: figure.c. */
#include <math.h>

#include "figure_parts.h"
#include "place.h"
#include "structure.h"

/* A head over a column without words says nothing, so it is no head. */
static struct box *cell_box(const struct canvas *canvas,
                            const struct told_text *text, double width,
                            bool head)
{
    const bool heads = head && text->text[0] != '\0';
    struct box *cell =
        box_runs(canvas, text, 1, head ? style_small() : style_body(),
                 width - 8.0, heads ? "TH" : "TD");
    if (heads)
        cell->items.items[0].as.tag.role = ROLE_COLUMN_HEAD;
    return cell;
}

/* Text wraps in its cell; the highest one makes the row. The rule lies outside
 * the cells: it is looks, and nobody should hear it. */
static struct box *row_box(const struct canvas *canvas,
                           const struct told_text *texts, const double *widths,
                           size_t count, bool head)
{
    const double pad = 3.0;
    double width = 0.0, height = 0.0, left = canvas->width;
    struct box **cells = ARENA_ARRAY(canvas->arena, struct box *, count);
    struct box *box = box_new(canvas, 0.0, 0.0);
    box->group = "Table";
    box->group_begins = head;
    box_tag(canvas, box, "TR", NULL);
    for (size_t i = 0; i < count; i++) {
        /* The last column takes what the paper leaves. */
        const double wide = i + 1 == count ? left : widths[i];
        cells[i] = cell_box(canvas, &texts[i], wide, head);
        height = fmax(height, cells[i]->height);
        box_put(canvas, box, cells[i], width, pad);
        left -= widths[i];
        width += wide;
    }
    box_tag_end(canvas, box, "TR");
    box->width = width;
    box->height = height + 2.0 * pad;
    struct path_item line = outline_narrow();
    line.stroke = head ? LINE_MIDDLE : LINE_FINE;
    line.stroke_color = head ? ink : rule_grey;
    box_stroke(canvas, box, 0.0, box->height, width, box->height, line);
    return box;
}

/* As many texts in a row as the table has columns. */
struct boxes plain_rows(const struct canvas *canvas,
                        const struct told_table *table, const double *widths)
{
    struct boxes rows = {.items = {0}};
    const size_t count = table->columns.count;
    struct told_text *texts =
        ARENA_ARRAY(canvas->arena, struct told_text, count);
    for (size_t i = 0; i < count; i++)
        texts[i].text = table->columns.items[i].head;
    *LIST_ADD(canvas->arena, &rows.items) =
        row_box(canvas, texts, widths, count, true);
    for (size_t r = 0; r < table->rows.count; r++) {
        for (size_t i = 0; i < count; i++)
            texts[i] = table->rows.items[r].cells.items[i].text;
        *LIST_ADD(canvas->arena, &rows.items) =
            row_box(canvas, texts, widths, count, false);
    }
    return rows;
}

/* ---- swatches ---- */

/* White or ink, whichever stands out more; on a plate where neither does. The
 * letter stands `aside` of the middle. */
static struct box *lettered_swatch(const struct canvas *canvas,
                                   struct path_item edge, const char *letter,
                                   double aside, double width, double side)
{
    struct box *box = box_new(canvas, width, side);
    box_rectangle(canvas, box, 0.0, 0.0, width, side, edge);
    if (letter[0] == '\0')
        return box;
    struct text_style style = side < MM(6.0) ? style_figure() : style_bold();
    style.align = ALIGN_CENTER;
    const double light = contrast(edge.fill, white);
    const double dark = contrast(edge.fill, ink);
    style.color = light > dark ? white : ink;
    const bool plate = fmax(light, dark) < 4.5 || edge.hatch != NULL;
    if (plate)
        style.color = ink;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, letter, style, 0.0);
    box_tag(canvas, box, "Span", NULL);
    box_label(canvas, box, width / 2.0 - aside, (side - extent.height) / 2.0,
              letter, style, 0.0, plate);
    box_tag_end(canvas, box, "Span");
    return box;
}

/* The outline of a swatch, filled as its cloth is. */
static struct path_item swatch_edge(struct color fill,
                                    const struct hatch *hatch)
{
    struct path_item edge = outline_wide();
    edge.filled = true;
    edge.fill = fill;
    edge.hatch = hatch;
    edge.role = ROLE_CLOTH;
    return edge;
}

/* A print that has a way has its arrow beside the letter. */
struct box *swatch_of(const struct canvas *canvas,
                      const struct colorway *colorway, int fabric, double width,
                      double side)
{
    const struct path_item fill =
        face_fill(canvas, colorway, fabric, false, SHADE_DONE);
    const double aside = has_way(canvas, fabric) ? side * 0.17 : 0.0;
    struct box *box = lettered_swatch(
        canvas, swatch_edge(fill.fill, fill.hatch),
        fabric_letter(canvas->arena, fabric), aside, width, side);
    if (aside > 0.0)
        draw_print(canvas, box, width - side * 0.2, side / 2.0, 0, side * 0.62,
                   contrast(fill.fill, white) > contrast(fill.fill, ink) ? white
                                                                         : ink);
    return box;
}

struct box *told_swatch_box(const struct canvas *canvas,
                            const struct told_swatch *swatch, double width,
                            double side)
{
    return lettered_swatch(
        canvas, swatch_edge(color_of(swatch->color), NULL),
        swatch->letter, 0.0, width, side);
}

/* In the colorway of the booklet, as all of its figures are. */
const struct box *swatch_box(struct booklet *booklet, int fabric, double side)
{
    for (size_t i = 0; i < booklet->swatches.count; i++)
        if (booklet->swatches.items[i].fabric == fabric &&
            booklet->swatches.items[i].side == side)
            return booklet->swatches.items[i].box;
    struct box *box = swatch_of(&booklet->flow.canvas, booklet->plan->colorway,
                                fabric, side, side);
    *LIST_ADD(booklet->wording.arena, &booklet->swatches) =
        (struct kept_swatch){fabric, side, box};
    return box;
}
