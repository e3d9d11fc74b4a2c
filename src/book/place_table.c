/* Tables with swatches, for page 2 and the back cover: a letter, a cloth, a
 * code. Read next: glance.c. */
#include <math.h>
#include <string.h>

#include "place.h"
#include "quilting_figure.h"

/* Above and below the text of a row; between columns. */
#define PAD 2.4
#define COLUMN_SPACE 6.0
#define SWATCH MM(4.7)
#define SWATCH_WIDE MM(8.2)
/* Under this width name and code stand below the swatch. */
#define NARROW MM(27.0)

/* A row on its way: cells side by side, a line below. Cells are boxes with
 * their own text; `tag` is TD, or TH in the head. */
struct row {
    struct box *box;
    double x; /* where the next cell begins */
};

/* The row is tagged here and closed by row_end; cells are put between. */
static struct row row_begin(const struct canvas *canvas, double width)
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

/* A size that is wider than its cell breaks before the sign, not in a word:
 * "62½ / × 62½ in". Other words of the text break at their blanks. */
static const char *broken_size(const struct canvas *canvas, const char *text,
                               struct text_style style, double width)
{
    const char *sign = strstr(text, "\u00a0\u00d7");
    if (sign == NULL)
        return text;
    const char *from = sign;
    while (from > text && from[-1] != ' ')
        from--;
    const char *size =
        arena_copy(canvas->arena, from, strcspn(from, " "));
    if (typeset_measure(canvas->typeset, size, style, 0.0).width <= width)
        return text;
    return arena_printf(canvas->arena, "%.*s\n%s", (int)(sign - text), text,
                        sign + strlen("\u00a0"));
}

/* Text that is aligned right keeps the space between columns at its left, other
 * text at its right. An empty cell heads nothing. */
static void row_text(const struct canvas *canvas, struct row *row, double width,
                     const char *text, struct text_style style, bool head)
{
    const bool heads = head && text[0] != '\0';
    const double room = fmax(width - COLUMN_SPACE, 0.0);
    struct box *cell =
        box_heading(canvas, broken_size(canvas, text, style, room), style, room,
                    heads ? "TH" : "TD");
    if (heads)
        cell->items.items[0].as.tag.role = ROLE_COLUMN_HEAD;
    const bool right = style.align == ALIGN_RIGHT;
    box_put(canvas, row->box, cell, row->x + (right ? COLUMN_SPACE : 0.0), PAD);
    grow(row, width, cell->height);
}

/* Swatch with its letter, the cloth's name and behind it, or below where there
 * is no room, its code; the swatch stands above the name in a narrow cell. The
 * code stands behind the name on one line where both fit, so that the row
 * stays low. */
static void row_cloth(const struct canvas *canvas, struct row *row,
                      double width, const struct told_cell *cell,
                      struct text_style name)
{
    const char *code = cell->others.count > 0 ? cell->others.items[0] : "";
    const bool narrow = width < NARROW;
    const struct box *swatch =
        cell->swatch.there
            ? told_swatch_box(canvas, &cell->swatch, SWATCH_WIDE, SWATCH)
            : swatch_of(canvas, cell->colorway, cell->fabric, SWATCH_WIDE,
                        SWATCH);
    const double left = narrow ? 0.0 : SWATCH_WIDE + 5.0;
    const double wide = width - left - COLUMN_SPACE;
    double y = narrow ? SWATCH + 1.0 : 0.0, x = 0.0;
    if (narrow)
        name.size = style_small().size;
    struct box *texts[2] = {box_text(canvas, cell->text.text, name, wide),
                            box_text(canvas, code, style_small(), wide)};
    const struct text_extent one =
        typeset_measure(canvas->typeset, cell->text.text, name, 0.0);
    const double code_width =
        typeset_measure(canvas->typeset, code, style_small(), 0.0).width;
    /* Its rectangle is a look, its letter an element, and so are the texts. */
    box_tag(canvas, row->box, "TD", NULL);
    box_put(canvas, row->box, swatch, row->x, PAD + (narrow ? 0.0 : -0.5));
    box_put(canvas, row->box, texts[0], row->x + left, PAD + y);
    if (!narrow && one.width + 5.0 + code_width <= wide) {
        x = one.width + 5.0;
        y += one.height - texts[1]->height - 0.6;
    } else {
        y += texts[0]->height;
    }
    if (code[0] != '\0')
        box_put(canvas, row->box, texts[1], row->x + left + x, PAD + y);
    y += code[0] != '\0' ? texts[1]->height : 0.0;
    box_tag_end(canvas, row->box, "TD");
    grow(row, width, fmax(fmax(y, texts[0]->height), SWATCH - 1.0));
}

/* A sample of the thread, and its name. */
static void row_thread(const struct canvas *canvas, struct row *row,
                       double width, const struct told_cell *cell)
{
    const double left = SWATCH_WIDE + 5.0;
    const struct box *sample =
        thread_sample(canvas, cell->quilting, cell->colorway, cell->thread,
                      SWATCH_WIDE, SWATCH);
    const struct box *text = box_text(canvas, cell->text.text, style_body(),
                                      fmax(width - left - COLUMN_SPACE, 1.0));
    box_tag(canvas, row->box, "TD", NULL);
    box_put(canvas, row->box, sample, row->x, PAD - 0.5);
    box_put(canvas, row->box, text, row->x + left, PAD);
    box_tag_end(canvas, row->box, "TD");
    grow(row, width, fmax(text->height, SWATCH));
}

/* Other sizes or colorways that need another amount stand below, small. */
static void row_amount(const struct canvas *canvas, struct row *row,
                       double width, const struct told_cell *cell)
{
    struct text_style style = style_bold(), small = style_small();
    style.align = small.align = ALIGN_RIGHT;
    small.color = ink;
    const double wide = width - COLUMN_SPACE;
    double y = 0.0;
    box_tag(canvas, row->box, "TD", NULL);
    for (size_t i = 0; i <= cell->others.count; i++) {
        const struct box *text =
            i == 0 ? box_text(canvas,
                              broken_size(canvas, cell->text.text, style, wide),
                              style, wide)
                   : box_text(canvas, cell->others.items[i - 1], small, wide);
        box_put(canvas, row->box, text, row->x + COLUMN_SPACE, PAD + y);
        y += text->height;
    }
    box_tag_end(canvas, row->box, "TD");
    grow(row, width, y);
}

/* Boxes to tick, in lines as the cell is wide. They are drawn, not told: who
 * hears the table hears the row. */
static void row_ticks(const struct canvas *canvas, struct row *row,
                      double width, size_t ticks)
{
    const double side = 7.0, step = 10.0;
    const size_t across =
        width < 2.0 * step ? 1 : (size_t)((width - COLUMN_SPACE) / step);
    box_put(canvas, row->box,
            box_heading(canvas, "", style_body(), width, "TD"), row->x, PAD);
    for (size_t i = 0; i < ticks; i++)
        box_rectangle(canvas, row->box,
                      row->x + 0.5 + step * (double)(i % across),
                      PAD + 2.0 + step * (double)(i / across), side, side,
                      outline_narrow());
    grow(row, width, step * (double)((ticks + across - 1) / across) + 1.0);
}

/* The line below a head is heavier. Rows are a group, so that a table that goes
 * on over a page has its head again. */
static struct box *row_end(const struct canvas *canvas, const struct row *row,
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

/* ---- the table ---- */

static void put_cell(const struct canvas *canvas, struct row *row,
                     const struct told_cell *cell, enum column_kind kind,
                     double width, const struct table_look *look)
{
    struct text_style bold = style_bold(), plain = style_body();
    bold.align = plain.align = ALIGN_RIGHT;
    if (cell->quilting != NULL)
        row_thread(canvas, row, width, cell);
    else if (cell->ticks > 0)
        row_ticks(canvas, row, width, cell->ticks);
    else if (cell->colorway != NULL || cell->swatch.there)
        row_cloth(canvas, row, width, cell, look->cloth);
    else if (kind == COLUMN_AMOUNT && look->apart)
        row_amount(canvas, row, width, cell);
    else
        row_text(canvas, row, width, cell->text.text,
                 kind == COLUMN_AMOUNT   ? bold
                 : kind == COLUMN_NUMBER ? plain
                 : kind == COLUMN_CLOTH  ? look->cloth
                                         : style_body(),
                 false);
}

/* Words behind a number would touch it. */
static double space_behind(const struct told_table *table, size_t column)
{
    if (column == 0 || table->columns.items[column].kind != COLUMN_WORDS)
        return 0.0;
    const enum column_kind before = table->columns.items[column - 1].kind;
    return before == COLUMN_NUMBER || before == COLUMN_AMOUNT
               ? 2.0 * COLUMN_SPACE
               : 0.0;
}

/* A cell that reaches over columns has them beside it, empty and without any
 * width, as each row has as many as the table. */
static struct box *place_row(const struct canvas *canvas,
                             const struct told_table *table,
                             const struct told_row *told,
                             const struct table_look *look)
{
    struct row row = row_begin(canvas, canvas->width);
    size_t column = 0;
    for (size_t i = 0; i < told->cells.count; i++) {
        const struct told_cell *cell = &told->cells.items[i];
        double width = 0.0;
        for (size_t k = 0; k <= cell->more; k++)
            width += look->widths[column + k];
        const double space = space_behind(table, column);
        row.x += space;
        put_cell(canvas, &row, cell, table->columns.items[column].kind,
                 width - space, look);
        for (size_t k = 0; k < cell->more; k++)
            row_text(canvas, &row, 0.0, "", style_body(), false);
        column += cell->more + 1;
    }
    return row_end(canvas, &row, false);
}

/* The head is a row of its own, as it is repeated where the table goes on. */
static struct box *place_head(const struct canvas *canvas,
                              const struct told_table *table,
                              const struct table_look *look)
{
    struct row row = row_begin(canvas, canvas->width);
    for (size_t i = 0; i < table->columns.count; i++) {
        const struct told_column *column = &table->columns.items[i];
        struct text_style style = style_small();
        if (column->kind == COLUMN_AMOUNT || column->kind == COLUMN_NUMBER)
            style.align = ALIGN_RIGHT;
        const double space = space_behind(table, i);
        row.x += space;
        row_text(canvas, &row, look->widths[i] - space, column->head, style,
                 true);
    }
    struct box *box = row_end(canvas, &row, true);
    box->keep_with_next = true;
    return box;
}

struct boxes place_rows(const struct canvas *canvas,
                        const struct told_table *table,
                        const struct table_look *look)
{
    struct boxes rows = {.items = {0}};
    *LIST_ADD(canvas->arena, &rows.items) = place_head(canvas, table, look);
    for (size_t i = 0; i < table->rows.count; i++)
        *LIST_ADD(canvas->arena, &rows.items) =
            place_row(canvas, table, &table->rows.items[i], look);
    return rows;
}

/* For tables that do not go over a page; others are put row by row. */
struct box *table_box(const struct canvas *canvas, const struct boxes *rows)
{
    const struct box *stack =
        box_stack(canvas, rows->items.items, rows->items.count, 0.0);
    struct box *box = box_new(canvas, stack->width, stack->height);
    box_tag(canvas, box, "Table", NULL);
    box_put(canvas, box, stack, 0.0, 0.0);
    box_tag_end(canvas, box, "Table");
    return box;
}
