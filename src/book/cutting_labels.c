/* Labels of the heaps of cut pieces, to cut apart: as wide as the page where
 * they fit under what was cut last, else in its two columns, so that they fill
 * what is free there and take no page of their own. Read next: steps.c. */
#include <math.h>

#include "cutting.h"
#include "structure.h"

/* To cut out: the label, how many of which size, what for. */
static struct box *label_box(struct booklet *booklet,
                             const struct canvas *canvas,
                             const struct cut_item *item, double width)
{
    const struct wording *w = &booklet->wording;
    const char *pieces =
        item->joined ? say(w->arena, w->phrases, "cutting.label-strips",
                           "count", say_count(w->arena, item->count), "width",
                           word_length_unit(w, item->height), NULL)
                     : say(w->arena, w->phrases, "cutting.label-pieces",
                           "count", say_count(w->arena, item->count), "size",
                           word_size_unit(w, item->width, item->height), NULL);
    const struct told_text use = link_to_use(w, item);
    /* The label stands out beside what it says, if it is short. */
    struct box *name =
        box_runs(canvas, &use, 1, style_step(), width - 12.0, "Div");
    const double wide =
        typeset_measure(canvas->typeset, item->label, style_step(), 0.0).width;
    const double left = fmax(wide, MM(8.0)) + 4.0;
    struct box *words[2] = {
        box_text(canvas, pieces, style_body(), width - left - 10.0),
        box_text(canvas, word_purpose(w, item), style_small(),
                 width - left - 10.0)};
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
static struct box *row_box(struct booklet *booklet,
                           const struct label_rows *rows,
                           const struct cut_item *const *items, size_t count)
{
    const struct canvas *canvas = rows->canvas;
    const double width = canvas->width / (double)rows->across;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    for (size_t i = 0; i < count; i++) {
        const struct box *label = label_box(booklet, canvas, items[i], width);
        box->height = fmax(box->height, label->height + 8.0);
        box_put(canvas, box, label, width * (double)i + 6.0, 4.0);
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
static struct label_rows label_rows(struct booklet *booklet,
                                    const struct canvas *canvas, size_t across)
{
    enum { MOST = 4 };
    const struct wording *w = &booklet->wording;
    struct label_rows rows = {.canvas = canvas, .across = across};
    add_row(&rows,
            box_heading(canvas,
                        say(w->arena, w->phrases, "cutting.labels", NULL),
                        style_step(), canvas->width, "H2"),
            SPACE_STEP);
    add_row(&rows,
            box_text(canvas,
                     say(w->arena, w->phrases, "cutting.labels-intro", NULL),
                     style_body(), canvas->width),
            4.0);
    const size_t heads = rows.boxes.count;
    const struct cut_item *row[MOST];
    size_t count = 0;
    for (size_t f = 0; f < booklet->design->fabrics.count; f++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[f];
        for (size_t i = 0; i < plan->items.count; i++) {
            row[count++] = &plan->items.items[i];
            if (count < across)
                continue;
            add_row(&rows, row_box(booklet, &rows, row, count),
                    rows.boxes.count == heads ? 8.0 : 0.0);
            count = 0;
        }
    }
    if (count > 0)
        add_row(&rows, row_box(booklet, &rows, row, count),
                rows.boxes.count == heads ? 8.0 : 0.0);
    for (size_t i = 0; i < heads; i++)
        rows.boxes.items[i]->keep_with_next = true;
    return rows;
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
void add_cutting_labels(struct booklet *booklet)
{
    enum { ROOMY = 2, WIDE = 4, HALF = 2 };
    struct flow *flow = &booklet->flow;
    const struct flow_end end = flow_end(flow);
    struct label_rows rows = label_rows(booklet, &flow->canvas, WIDE);
    if (rows.height > end.room) {
        const struct canvas column = flow_column(flow);
        const struct label_rows half = label_rows(booklet, &column, HALF);
        const size_t count = flow->boxes.count;
        put_rows(flow, &half, true);
        if (flow_end(flow).page == end.page)
            return;
        flow->boxes.count = count;
        rows = label_rows(booklet, &flow->canvas, ROOMY);
    }
    put_rows(flow, &rows, false);
}
