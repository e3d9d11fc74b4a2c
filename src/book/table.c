/* Rows are boxes, so a table may run over pages like anything else. Read next:
 * figure.c. */
#include <math.h>

#include "figure_parts.h"
#include "structure.h"

/* Most rows lead nowhere. */
struct box *table_row(const struct canvas *canvas, const struct table_row *row)
{
    return table_row_linked(canvas, row, NULL);
}

/* A head over a column of swatches says nothing, so it is no head. */
static struct box *cell_box(const struct canvas *canvas,
                            const struct table_row *row, size_t index,
                            double width, const struct told_text *link)
{
    const bool head = row->head && row->cells[index][0] != '\0';
    const struct told_text plain = {row->cells[index], NULL, NULL};
    struct box *cell =
        box_runs(canvas, link != NULL && index == 0 ? link : &plain, 1,
                 row->head ? style_small() : style_body(), width - 8.0,
                 head ? "TH" : "TD");
    if (head)
        cell->items.items[0].as.tag.role = ROLE_COLUMN_HEAD;
    return cell;
}

/* Text wraps in its cell; the highest one makes the row. Only the first cell is
 * a link, as it holds the label. Swatch and rule lie outside the cells: they
 * are looks, and nobody should hear them. */
struct box *table_row_linked(const struct canvas *canvas,
                             const struct table_row *row,
                             const struct told_text *link)
{
    const double pad = 3.0;
    double width = 0.0, height = row->swatch != NULL ? 20.0 : 0.0;
    struct box **cells = ARENA_ARRAY(canvas->arena, struct box *, row->count);
    /* The last column takes what the paper leaves. */
    double *widths = ARENA_ARRAY(canvas->arena, double, row->count);
    double left = canvas->width;
    for (size_t i = 0; i < row->count; i++) {
        widths[i] = i + 1 == row->count ? left : row->widths[i];
        left -= row->widths[i];
    }
    for (size_t i = 0; i < row->count; i++) {
        cells[i] = cell_box(canvas, row, i, widths[i], link);
        if (cells[i]->height > height)
            height = cells[i]->height;
        width += widths[i];
    }
    struct box *box = box_new(canvas, width, height + 2.0 * pad);
    box->group = "Table";
    box->group_begins = row->head;
    box_tag(canvas, box, "TR", NULL);
    double x = 0.0;
    for (size_t i = 0; i < row->count; i++) {
        box_put(canvas, box, cells[i], x, pad);
        x += widths[i];
    }
    box_tag_end(canvas, box, "TR");
    if (row->swatch != NULL)
        box_rectangle(canvas, box, 0.0, pad, widths[0] - 8.0, height - 1.0,
                      *row->swatch);
    struct path_item line = outline_narrow();
    line.stroke = row->head ? LINE_MIDDLE : LINE_FINE;
    line.stroke_color = row->head ? ink : rule_grey;
    box_stroke(canvas, box, 0.0, box->height, width, box->height, line);
    return box;
}

/* White or ink, whichever stands out more; on a plate where neither does. */
struct box *swatch_of(const struct canvas *canvas,
                      const struct colorway *colorway, int fabric, double width,
                      double side)
{
    struct box *box = box_new(canvas, width, side);
    const struct path_item fill =
        face_fill(canvas, colorway, fabric, false, SHADE_DONE);
    struct path_item edge = outline_wide();
    edge.filled = true;
    edge.fill = fill.fill;
    edge.hatch = fill.hatch;
    edge.role = ROLE_CLOTH;
    box_rectangle(canvas, box, 0.0, 0.0, width, side, edge);
    struct text_style style = side < MM(6.0) ? style_figure() : style_bold();
    style.align = ALIGN_CENTER;
    const double light = contrast(fill.fill, white);
    const double dark = contrast(fill.fill, ink);
    style.color = light > dark ? white : ink;
    const bool plate = fmax(light, dark) < 4.5 || fill.hatch.spacing > 0.0;
    if (plate)
        style.color = ink;
    const char *letter = fabric_letter(canvas->arena, fabric);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, letter, style, 0.0);
    box_tag(canvas, box, "Span", NULL);
    const double aside = has_way(canvas, fabric) ? side * 0.17 : 0.0;
    box_label(canvas, box, width / 2.0 - aside, (side - extent.height) / 2.0,
              letter, style, 0.0, plate);
    box_tag_end(canvas, box, "Span");
    if (aside > 0.0)
        draw_print(canvas, box, width - side * 0.2, side / 2.0, 0, side * 0.62,
                   light > dark ? white : ink);
    return box;
}

/* In the colorway of the booklet, as all of its figures are. */
struct box *swatch_box(struct booklet *booklet, int fabric, double side)
{
    return swatch_of(&booklet->flow.canvas, booklet->plan->colorway, fabric,
                     side, side);
}
