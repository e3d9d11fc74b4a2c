/* Tables with swatches, for page 2 and the back cover: a letter, a cloth, a
 * code. Read next: materials.c. */
#include <math.h>

#include "shop.h"

/* Above and below the text of a row; between columns. */
#define PAD 2.4
#define COLUMN_SPACE 6.0
#define SWATCH MM(4.7)
#define SWATCH_WIDE MM(8.2)
/* Under this width name and code stand below the swatch. */
#define NARROW MM(27.0)

/* The row is tagged here and closed by row_end; cells are put between. */
struct row row_begin(const struct canvas *canvas, double width)
{
    struct row row = {box_new(canvas, width, 0.0), 0.0};
    box_tag(canvas, row.box, "TR", NULL);
    return row;
}

/* The highest cell makes the row. */
static void grow(struct row *row, double width, double height)
{
    row->x += width;
    row->box->height = fmax(row->box->height, height + 2.0 * PAD);
}

/* Text that is aligned right keeps the space between columns at its left, other
 * text at its right. An empty cell heads nothing. */
void row_text(const struct canvas *canvas, struct row *row, double width,
              const char *text, struct text_style style, bool head)
{
    const bool heads = head && text[0] != '\0';
    struct box *cell =
        box_heading(canvas, text, style, fmax(width - COLUMN_SPACE, 0.0),
                    heads ? "TH" : "TD");
    if (heads)
        cell->items.items[0].as.tag.role = ROLE_COLUMN_HEAD;
    const bool right = style.align == ALIGN_RIGHT;
    box_put(canvas, row->box, cell, row->x + (right ? COLUMN_SPACE : 0.0), PAD);
    grow(row, width, cell->height);
}

/* The code stands behind the name on one line where both fit, so that the row
 * stays low. */
void row_cloth(const struct canvas *canvas, struct row *row, double width,
               const struct colorway *colorway, int fabric,
               struct text_style name)
{
    const struct bolt *bolt = &colorway->bolts[fabric];
    const bool narrow = width < NARROW;
    const struct box *swatch =
        swatch_of(canvas, colorway, fabric, SWATCH_WIDE, SWATCH);
    const double left = narrow ? 0.0 : SWATCH_WIDE + 5.0;
    const double wide = width - left - COLUMN_SPACE;
    double y = narrow ? SWATCH + 1.0 : 0.0, x = 0.0;
    if (narrow)
        name.size = style_small().size;
    struct box *texts[2] = {box_text(canvas, bolt->name, name, wide),
                            box_text(canvas, bolt->code, style_small(), wide)};
    const struct text_extent one =
        typeset_measure(canvas->typeset, bolt->name, name, 0.0);
    const double code =
        typeset_measure(canvas->typeset, bolt->code, style_small(), 0.0).width;
    /* Its rectangle is a look, its letter an element, and so are the texts. */
    box_tag(canvas, row->box, "TD", NULL);
    box_put(canvas, row->box, swatch, row->x, PAD + (narrow ? 0.0 : -0.5));
    box_put(canvas, row->box, texts[0], row->x + left, PAD + y);
    if (!narrow && one.width + 5.0 + code <= wide) {
        x = one.width + 5.0;
        y += one.height - texts[1]->height - 0.6;
    } else {
        y += texts[0]->height;
    }
    if (bolt->code[0] != '\0')
        box_put(canvas, row->box, texts[1], row->x + left + x, PAD + y);
    y += bolt->code[0] != '\0' ? texts[1]->height : 0.0;
    box_tag_end(canvas, row->box, "TD");
    grow(row, width, fmax(fmax(y, texts[0]->height), SWATCH - 1.0));
}

/* Other sizes or colorways that need another amount stand below, small. */
void row_amount(const struct canvas *canvas, struct row *row, double width,
                const char *amount, const struct texts *others)
{
    struct text_style style = style_bold(), small = style_small();
    style.align = small.align = ALIGN_RIGHT;
    small.color = ink;
    const double wide = width - COLUMN_SPACE;
    double y = 0.0;
    box_tag(canvas, row->box, "TD", NULL);
    for (size_t i = 0; i <= others->items.count; i++) {
        const struct box *text =
            i == 0 ? box_text(canvas, amount, style, wide)
                   : box_text(canvas, others->items.items[i - 1], small, wide);
        box_put(canvas, row->box, text, row->x + COLUMN_SPACE, PAD + y);
        y += text->height;
    }
    box_tag_end(canvas, row->box, "TD");
    grow(row, width, y);
}

/* The line below a head is heavier. Rows are a group, so that a table that goes
 * on over a page has its head again. */
struct box *row_end(const struct canvas *canvas, const struct row *row,
                    bool head)
{
    struct box *box = row->box;
    box_tag_end(canvas, box, "TR");
    struct path_item line = outline_narrow();
    line.stroke = head ? LINE_MIDDLE : LINE_FINE;
    line.stroke_color = head ? ink : rule_grey;
    box_stroke(canvas, box, 0.0, box->height, box->width, box->height, line);
    box->group = "Table";
    box->group_begins = head;
    return box;
}

/* For tables that do not go over a page; others are put row by row. */
struct box *table_box(const struct canvas *canvas, struct box *const *rows,
                      size_t count)
{
    const struct box *stack = box_stack(canvas, rows, count, 0.0);
    struct box *box = box_new(canvas, stack->width, stack->height);
    box_tag(canvas, box, "Table", NULL);
    box_put(canvas, box, stack, 0.0, 0.0);
    box_tag_end(canvas, box, "Table");
    return box;
}
