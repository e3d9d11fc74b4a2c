/* Labels of the heaps of cut pieces, to cut apart: as wide as the page where
 * they fit under what was cut last, else in its two columns, so that they fill
 * what is free there and take no page of their own. Read next: steps.c. */
#include <math.h>

#include "cutting.h"
#include "place.h"
#include "structure.h"

/* To cut out: the label, how many of which size, what for. */
static struct box *label_box(const struct canvas *canvas,
                             const struct told_row *told, double width)
{
    const struct told_text *label = &told->cells.items[0].text;
    /* The label stands out beside what it says, if it is short. */
    struct box *name =
        box_runs(canvas, label, 1, style_step(), width - 12.0, "Div");
    const double wide =
        typeset_measure(canvas->typeset, label->text, style_step(), 0.0).width;
    const double left = fmax(wide, MM(8.0)) + 4.0;
    struct box *words[2] = {box_text(canvas, told->cells.items[1].text.text,
                                     style_body(), width - left - 10.0),
                            box_text(canvas, told->cells.items[2].text.text,
                                     style_small(), width - left - 10.0)};
    const struct box *beside = box_stack(canvas, words, 2, 0.0);
    struct box *box =
        box_new(canvas, width, fmax(name->height, beside->height));
    box_put(canvas, box, name, 0.0, 0.0);
    box_put(canvas, box, beside, left, 1.0);
    return box;
}

/* Rows of labels, as they will be put: as wide as the canvas. */
struct label_rows {
    const struct canvas *canvas;
    size_t across; /* labels a row */
    double more;   /* what each row is higher than its words */
    LIST(struct box *) boxes;
    double height; /* with the spaces above them */
};

static void add_row(struct label_rows *rows, struct box *box, double space)
{
    box->space_before = space;
    rows->height += box->height + space;
    *LIST_ADD(rows->canvas->arena, &rows->boxes) = box;
}

/* With the lines to cut along; the highest label makes the row. */
static struct box *row_box(const struct label_rows *rows,
                           const struct told_row *labels, size_t count)
{
    const struct canvas *canvas = rows->canvas;
    const double width = canvas->width / (double)rows->across;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    for (size_t i = 0; i < count; i++) {
        const struct box *label = label_box(canvas, &labels[i], width);
        box->height = fmax(box->height, label->height + 8.0 + rows->more);
        box_put(canvas, box, label, width * (double)i + 6.0,
                4.0 + rows->more / 2.0);
    }
    const struct path_item cut = outline_narrow();
    for (size_t i = 0; i <= count; i++)
        box_stroke(canvas, box, width * (double)i, 0.0, width * (double)i,
                   box->height, cut);
    for (int edge = 0; edge < 2; edge++)
        box_stroke(canvas, box, 0.0, edge * box->height, width * (double)count,
                   edge * box->height, cut);
    return box;
}

/* Heading, what to do, and the labels of all cloths in their order. */
static struct label_rows label_rows(const struct contents *contents,
                                    const struct canvas *canvas, size_t across,
                                    double more)
{
    const struct told_table *table =
        &content_of(contents, PART_LABELS, CONTENT_TABLE)->as.table;
    const struct told_paragraph *intro =
        &content_of(contents, PART_LABELS, CONTENT_PARAGRAPH)->as.paragraph;
    struct label_rows rows = {
        .canvas = canvas, .across = across, .more = more};
    add_row(&rows,
            box_heading(canvas, heading_of(contents, PART_LABELS)->title,
                        style_step(), canvas->width, "H2"),
            SPACE_STEP);
    add_row(&rows, place_paragraph(canvas, intro, style_body(), canvas->width),
            4.0);
    const size_t heads = rows.boxes.count;
    for (size_t i = 0; i < table->rows.count; i += across) {
        const size_t left = table->rows.count - i;
        add_row(&rows,
                row_box(&rows, &table->rows.items[i],
                        left < across ? left : across),
                i == 0 ? 8.0 : 0.0);
    }
    for (size_t i = 0; i < heads; i++)
        rows.boxes.items[i]->keep_with_next = true;
    return rows;
}

/* What each row can be higher on the page that is begun: a larger label is
 * pinned to its stack with ease, and the page has no other use. */
static double spare_height(const struct label_rows *rows, double room)
{
    const size_t heads = 2;
    const double rest = fmax(0.0, room - rows->height - SPACE_LINE);
    return fmin(rest / (double)(rows->boxes.count - heads), MM(14.0));
}

static void put_rows(struct flow *flow, const struct label_rows *rows,
                     bool half)
{
    for (size_t i = 0; i < rows->boxes.count; i++) {
        struct box *box = rows->boxes.items[i];
        box->half = half;
        if (!half)
            box->keep_with_next = i + 1 < rows->boxes.count;
        flow_add(flow, box, box->space_before);
    }
}

/* In the columns they must end on the page that is begun: a few rows on a page
 * would be worse than all of them. On a page of their own they have more room.
 */
void add_cutting_labels(struct booklet *booklet,
                        const struct contents *contents)
{
    enum { ROOMY = 2, WIDE = 4, HALF = 2, MANY = 400 };
    struct flow *flow = &booklet->flow;
    const struct flow_end end = flow_end(flow);
    /* More than a page holds are set once only. */
    const bool many = content_of(contents, PART_LABELS, CONTENT_TABLE)
                          ->as.table.rows.count > MANY;
    struct label_rows rows =
        label_rows(contents, &flow->canvas, many ? ROOMY : WIDE, 0.0);
    if (!many && rows.height <= end.room) {
        rows = label_rows(contents, &flow->canvas, WIDE,
                          spare_height(&rows, end.room));
    } else if (!many) {
        const struct canvas column = flow_column(flow);
        const struct label_rows half = label_rows(contents, &column, HALF, 0.0);
        const size_t count = flow->boxes.count;
        put_rows(flow, &half, true);
        if (flow_end(flow).page == end.page)
            return;
        flow->boxes.count = count;
        rows = label_rows(contents, &flow->canvas, ROOMY, 0.0);
        rows = label_rows(contents, &flow->canvas, ROOMY,
                          spare_height(&rows, flow_page_height(flow)));
    }
    put_rows(flow, &rows, false);
}
