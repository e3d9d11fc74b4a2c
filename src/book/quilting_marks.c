/* What is drawn on the cloth, in true size: one kind of area after another,
 * with its outline to lay on the seams. What is larger than a page is cut into
 * sheets, whose marks meet at the joins. Read next: scale.c. */
#include <math.h>

#include "place.h"
#include "quilting_figure.h"
#include "scale.h"
#include "structure.h"

/* A sheet's longest side, in units of the pattern: within what A4 and letter
 * share, in whole ones, so that joins lie on whole ones, too. */
struct sheet_of {
    double unit; /* points for one of the pattern's units */
    double side;
    double left, top, width, height; /* what of the top lies on it */
};

static const double INCH = 72.0, CENTIMETRE = 72.0 / 2.54;

/* ---- lines within a sheet ---- */

/* The part of a stretch that lies within the sheet (Liang and Barsky, 1984).
 * ensures: false for none. */
static bool clip(const struct sheet_of *sheet, struct spot *from,
                 struct spot *to)
{
    const double dx = to->x - from->x, dy = to->y - from->y;
    const double steps[4] = {-dx, dx, -dy, dy};
    const double rooms[4] = {
        from->x - sheet->left, sheet->left + sheet->width - from->x,
        from->y - sheet->top, sheet->top + sheet->height - from->y};
    double begin = 0.0, end = 1.0;
    for (int i = 0; i < 4; i++) {
        if (fabs(steps[i]) < 1e-12) {
            if (rooms[i] < -1e-9)
                return false;
            continue;
        }
        const double at = rooms[i] / steps[i];
        if (steps[i] < 0.0)
            begin = fmax(begin, at);
        else
            end = fmin(end, at);
    }
    if (begin >= end)
        return false;
    const struct spot first = *from;
    *from = (struct spot){first.x + begin * dx, first.y + begin * dy};
    *to = (struct spot){first.x + end * dx, first.y + end * dy};
    return true;
}

/* Stretch by stretch: where a line leaves the sheet, it goes on on the next. */
static void draw_clipped(const struct canvas *canvas, struct box *box,
                         const struct sheet_of *sheet,
                         const struct spot *points, size_t count, bool closed,
                         struct path_item style)
{
    for (size_t i = 0; i + (closed ? 0 : 1) < count; i++) {
        struct spot a = points[i], b = points[(i + 1) % count];
        if (clip(sheet, &a, &b))
            box_stroke(canvas, box, (a.x - sheet->left) * sheet->unit,
                       (a.y - sheet->top) * sheet->unit,
                       (b.x - sheet->left) * sheet->unit,
                       (b.y - sheet->top) * sheet->unit, style);
    }
}

/* ---- joins ---- */

/* A half of a diamond at the middle of a join, and its letter. */
static void draw_join(const struct canvas *canvas, struct box *box, double x,
                      double y, bool down, double side, const char *letter)
{
    const double half = MM(3.0);
    const struct path_item fill = {.filled = true, .fill = ink};
    const struct point points[3] = {
        {down ? x : x - half, down ? y - half : y},
        {down ? x : x + half, down ? y + half : y},
        {down ? x + side * half : x, down ? y : y + side * half}};
    box_polygon(canvas, box, points, 3, fill);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const double away = MM(5.0);
    const double line =
        typeset_measure(canvas->typeset, letter, style, 0.0).height;
    box_label(canvas, box, down ? x + side * away : x,
              (down ? y : y + side * away) - line / 2.0, letter, style, 0.0,
              true);
}

/* How many sheets an area takes. */
struct sheets {
    size_t across, down;
};

/* Upright joins are counted first, row by row, then level ones: no number
 * stands at two joins of an area. */
static const char *join_letter(const struct canvas *canvas, bool down,
                               size_t row, size_t column,
                               const struct sheets *sheets)
{
    const size_t number = down ? row * (sheets->across - 1) + column
                               : sheets->down * (sheets->across - 1) +
                                     row * sheets->across + column;
    return say_count(canvas->arena, number + 1);
}

/* Both sheets at a join have the same number and their half of the mark; the
 * dashed edge is what is cut along. An area on one sheet has none of it. */
static void draw_joins(const struct canvas *canvas, struct box *box,
                       const struct sheet_of *sheet,
                       const struct sheets *sheets, size_t row, size_t column)
{
    const double wide = sheet->width * sheet->unit;
    const double high = sheet->height * sheet->unit;
    if (column > 0)
        draw_join(canvas, box, 0.0, high / 2.0, true, 1.0,
                  join_letter(canvas, true, row, column - 1, sheets));
    if (column + 1 < sheets->across)
        draw_join(canvas, box, wide, high / 2.0, true, -1.0,
                  join_letter(canvas, true, row, column, sheets));
    if (row > 0)
        draw_join(canvas, box, wide / 2.0, 0.0, false, 1.0,
                  join_letter(canvas, false, row - 1, column, sheets));
    if (row + 1 < sheets->down)
        draw_join(canvas, box, wide / 2.0, high, false, -1.0,
                  join_letter(canvas, false, row, column, sheets));
    if (sheets->across * sheets->down > 1)
        box_rectangle(canvas, box, 0.0, 0.0, wide, high,
                      (struct path_item){.stroke = LINE_FINE,
                                         .stroke_color = grey,
                                         .dash = {MM(1.6), MM(0.6)}});
}

/* ---- one sheet ---- */

/* The outline is what is laid on seams, so its line is fine; the line to trace
 * is broad, and its middle is meant. */
static void draw_sheet(const struct canvas *canvas, struct box *box,
                       const struct quilting_plan *plan,
                       const struct quilted_area *area,
                       const struct sheet_of *sheet)
{
    for (size_t i = 0; i < area->ring_count; i++)
        draw_clipped(canvas, box, sheet, area->rings[i].points,
                     area->rings[i].count, true, outline_narrow());
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        if (line->found == FOUND_MARK && line_within(line, area))
            draw_clipped(canvas, box, sheet, line->points, line->count,
                         line->closed,
                         (struct path_item){.stroke = LINE_BROAD,
                                            .stroke_color = ink,
                                            .role = ROLE_MARK});
    }
}

/* A box does not break, so a sheet is whole on its page. */
static void add_sheet(struct booklet *booklet, const struct told_figure *told,
                      const struct sheet_of *sheet, const struct sheets *sheets,
                      size_t row, size_t column)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct quilting_plan *plan = told->quilting;
    struct box *drawing = box_new(canvas, sheet->width * sheet->unit,
                                  sheet->height * sheet->unit);
    draw_sheet(canvas, drawing, plan,
               &plan->areas.items[plan->kinds.items[told->kind].sample], sheet);
    draw_joins(canvas, drawing, sheet, sheets, row, column);
    const struct box *words = box_text(canvas, told->caption, style_body(),
                                       booklet->flow.canvas.width);
    struct box *box =
        box_new(canvas, canvas->width,
                words->height + SPACE_HALF + drawing->height + 1.0);
    box->true_to_scale = true;
    box_put(canvas, box, words, 0.0, 0.0);
    put_figure(booklet, box, drawing, 0.0, words->height + SPACE_HALF,
               told->told);
    flow_add(&booklet->flow, box, SPACE_STEP);
}

/* ---- an area ---- */

/* Row by row from the top left of the area. What is a hair wider than whole
 * sheets needs no further one. */
static void add_area(struct booklet *booklet, const struct told_figure *told)
{
    const bool metric = booklet->design->pattern->units == UNIT_CM;
    const struct quilting_plan *plan = told->quilting;
    const struct quilted_area *area =
        &plan->areas.items[plan->kinds.items[told->kind].sample];
    struct sheet_of sheet = {.unit = metric ? CENTIMETRE : INCH,
                             .side = metric ? 18.0 : 7.0};
    const struct area_bounds bounds = area_bounds(area);
    const double across = bounds.most.x - bounds.least.x;
    const double down = bounds.most.y - bounds.least.y;
    const struct sheets sheets = {(size_t)ceil(across / sheet.side - 1e-9),
                                  (size_t)ceil(down / sheet.side - 1e-9)};
    for (size_t row = 0; row < sheets.down; row++)
        for (size_t column = 0; column < sheets.across; column++) {
            sheet.left = bounds.least.x + (double)column * sheet.side;
            sheet.top = bounds.least.y + (double)row * sheet.side;
            sheet.width = fmin(sheet.side, bounds.most.x - sheet.left);
            sheet.height = fmin(sheet.side, bounds.most.y - sheet.top);
            add_sheet(booklet, told, &sheet, &sheets, row, column);
        }
}

/* Each page says that it is true to scale; the first has squares to check the
 * print by. */
void section_quilting_marks(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct contents contents =
        tell_quilting_marks(&booklet->wording, booklet->plan);
    if (contents.items.count == 0)
        return;
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    flow_section(flow, heading->title, heading->lead, true);
    flow_add(flow, test_squares(booklet, &contents), SPACE_LINE)
        ->keep_with_next = true;
    flow->book->true_scale = true;
    for (size_t i = 0; i < contents.items.count; i++)
        if (contents.items.items[i].part == PART_MARKS)
            add_area(booklet, &contents.items.items[i].as.figure);
}
