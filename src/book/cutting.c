/* Cutting, in two columns: for each cloth its amount, its lines in their order,
 * each over its drawing, and the count that closes it; then the labels of the
 * heaps. Read next: cutting_figure.c, cutting_labels.c. */
#include <math.h>

#include "cutting.h"
#include "place.h"
#include "structure.h"

/* Points: where the number of a line stands, and its words; the space between
 * parts of a line, lines, and cloths. */
enum { NUMBER = 12, WORDS = 27, AIR = 3, LINE_GAP = 9, BLOCK_GAP = 14 };

/* ---- boxes of a column ---- */

static struct box *add_half(struct booklet *booklet, struct box *box,
                            double space, const struct box *again)
{
    box->half = true;
    box->again = again;
    return flow_add(&booklet->flow, box, space);
}

/* A box to tick. */
static void put_tick(const struct canvas *canvas, struct box *box, double y)
{
    box_rectangle(canvas, box, 0.5, y + 2.5, 7.0, 7.0, outline_narrow());
}

/* Words below each other between two edges; what has a letter begins a strip,
 * and what follows it belongs to that. */
static double put_column(const struct canvas *canvas, struct box *box,
                         const struct told_cut *cuts, size_t count, double y,
                         double left, double right)
{
    enum { STEP = 11 };
    const bool lettered = count > 0 && cuts[0].letter != NULL;
    for (size_t i = 0; i < count; i++) {
        const double indent = !lettered                ? 0.0
                              : cuts[i].letter != NULL ? STEP
                                                       : 2.0 * STEP;
        const struct box *text =
            box_text(canvas, cuts[i].text, style_body(), right - left - indent);
        if (cuts[i].letter != NULL)
            box_tagged_label(canvas, box, "Span", left, y, cuts[i].letter,
                             style_bold());
        box_put(canvas, box, text, left + indent, y);
        y += text->height;
    }
    return y;
}

/* In two columns where the box is as wide as the page: the strips of the first
 * half beside the others. */
static double put_cuts(const struct canvas *canvas, struct box *box,
                       const struct told_cut *cuts, size_t count, double y,
                       bool wide)
{
    if (!wide || count < 4)
        return put_column(canvas, box, cuts, count, y, WORDS, box->width);
    size_t half = (count + 1) / 2;
    while (half < count && cuts[half].letter == NULL)
        half++;
    const double middle = (WORDS + box->width) / 2.0;
    const double first =
        put_column(canvas, box, cuts, half, y, WORDS, middle - 8.0);
    return fmax(first, put_column(canvas, box, cuts + half, count - half, y,
                                  middle, box->width));
}

/* Head and, on its right, what the line gives: beside the first of its words,
 * and below them only where both are so long that it takes a line less. */
static double put_head(const struct canvas *canvas, struct box *box,
                       const struct told_line *line, double width)
{
    struct text_style bold = style_bold();
    const double room = width - WORDS, air = 8.0;
    const double gives =
        typeset_measure(canvas->typeset, line->gives, bold, 0.0).width + 2.0;
    const struct box *text = box_text(canvas, line->head, style_body(), room);
    const struct box *narrow = box_text(canvas, line->head, style_body(),
                                        fmax(room - gives - air, 1.0));
    bold.align = ALIGN_RIGHT;
    const struct box *right =
        box_text(canvas, line->gives, bold, fmin(gives, room));
    const bool beside = room - gives > room / 2.0 &&
                        narrow->height <= text->height + right->height + 0.5;
    if (beside)
        text = narrow;
    box_put(canvas, box, text, WORDS, 0.0);
    box_put(canvas, box, right, width - right->width,
            beside ? 0.0 : text->height);
    return beside ? fmax(text->height, right->height)
                  : text->height + right->height;
}

/* A drawing under the words that it shows. The words are its alternate
 * description, too, for those who have it read aloud (ISO 32000-1, 14.9.3). */
static double put_drawing(struct booklet *booklet, struct box *box,
                          const struct box *drawing, const char *words,
                          double y)
{
    if (drawing == NULL)
        return y;
    put_figure(booklet, box, drawing, 0.0, y + 3.0, words);
    return y + 3.0 + drawing->height;
}

/* The drawings of a line: what is cut folded, and what is opened; either may be
 * NULL. */
struct drawings {
    const struct box *folded, *opened;
};

/* One numbered line: words and drawings, which never part. */
static struct box *line_box(struct booklet *booklet,
                            const struct canvas *canvas, size_t number,
                            const struct told_line *line,
                            struct drawings drawings)
{
    struct box *box = box_new(canvas, canvas->width, 0.0);
    const char *words = whole_line(&booklet->wording, line);
    put_tick(canvas, box, 0.0);
    box_in_list(box, ROLE_NUMBERED, false);
    begin_list_item(canvas, box, NUMBER, 0.0, say_count(canvas->arena, number),
                    style_bold());
    const bool wide = canvas->width == booklet->flow.canvas.width;
    double y = put_head(canvas, box, line, box->width);
    y = put_cuts(canvas, box, line->cuts.items, line->cuts.count, y, wide);
    y = put_drawing(booklet, box, drawings.folded, words, y);
    y = put_cuts(canvas, box, line->opened.items, line->opened.count,
                 line->opened.count > 0 ? y + AIR : y, wide);
    y = put_drawing(booklet, box, drawings.opened, words, y);
    y = put_cuts(canvas, box, line->last.items, line->last.count,
                 line->last.count > 0 ? y + AIR : y, wide);
    end_list_item(canvas, box);
    box->height = y;
    return box;
}

/* ---- a cloth ---- */

/* Where a cloth's lines go, and its head again, for the top of a column. */
struct block {
    struct booklet *booklet;
    const struct told_cloth *told;
    struct canvas column;
    const struct box *again;
};

/* Rests that are longer than the folded cloth are as wide as the page: they
 * hold many small pieces. */
static bool is_large(const struct fabric_plan *plan,
                     const struct told_cutting *line)
{
    if (line->figures.count == 0 ||
        line->figures.items[0].drawing != DRAWING_SHEET)
        return false;
    const struct sheet *rest = line->figures.items[0].sheet;
    return rest->kind == SHEET_REST &&
           rational_compare(
               rational_times(rational_max(rest->width, rest->height), 2),
               plan->strip_length) > 0;
}

static struct box *draw_line(const struct cloth_view *view,
                             const struct told_figure *told)
{
    return told->drawing == DRAWING_FOLDED_STRIP
               ? draw_folded_strip(view, told->strip)
           : told->drawing == DRAWING_SHAPES ? draw_shapes(view, told->strip)
           : told->drawing == DRAWING_OPENED_STRIP
               ? draw_opened_strip(view, told->strip)
           : told->drawing == DRAWING_LENGTHWISE
               ? draw_lengthwise(view, told->sheet)
               : draw_sheet(view, told->sheet);
}

/* The drawings are parts of figures that can be asked for alone. */
static void add_line(const struct block *block, size_t number,
                     const struct told_cutting *line)
{
    struct booklet *booklet = block->booklet;
    const int fabric = block->told->fabric;
    const struct fabric_plan *plan = &booklet->plan->fabrics[fabric];
    const bool large = is_large(plan, line);
    const struct canvas *canvas =
        large ? &booklet->flow.canvas : &block->column;
    const struct cloth_view view = {booklet, plan, canvas->width};
    struct drawings drawings = {NULL, NULL};
    for (size_t i = 0; i < line->figures.count; i++) {
        const struct told_figure *told = &line->figures.items[i];
        const struct box *drawing = draw_line(&view, told);
        if (told->drawing == DRAWING_OPENED_STRIP)
            drawings.opened = drawing;
        else
            drawings.folded = drawing;
        name_cutting_figure(booklet, fabric, number, told->told, drawing);
    }
    struct box *box = line_box(booklet, canvas, number, &line->words, drawings);
    if (large)
        flow_add(&booklet->flow, box, LINE_GAP)->again = block->again;
    else
        add_half(booklet, box, LINE_GAP, block->again);
}

/* The rule, swatch and name, at the right what is bought; or, at the head of
 * another column, that the cloth goes on. */
static struct box *head_box(const struct block *block, bool again)
{
    enum { SWATCH = 16, TOP = 7 };
    struct booklet *booklet = block->booklet;
    const struct canvas *canvas = &block->column;
    const struct wording *w = &booklet->wording;
    const char *name = block->told->name;
    if (again)
        name =
            say(w->arena, w->phrases, "cutting.continued", "name", name, NULL);
    const char *amount = again ? "" : block->told->amount;
    struct text_style right = style_body();
    right.align = ALIGN_RIGHT;
    const double amount_width =
        typeset_measure(canvas->typeset, amount, right, 0.0).width + 2.0;
    const struct box *swatch = swatch_box(booklet, block->told->fabric, SWATCH);
    const double left = swatch->width + 8.0;
    struct box *title = box_text(canvas, name, style_step(),
                                 canvas->width - left - amount_width - 6.0);
    struct box *box =
        box_new(canvas, canvas->width,
                TOP + fmax(title->height, SWATCH) + (again ? LINE_GAP : 0.0));
    box_stroke(canvas, box, 0.0, 0.0, canvas->width, 0.0, outline_narrow());
    title = box_heading(canvas, name, style_step(), title->width,
                        again ? "P" : "H2");
    box_put(canvas, box, swatch, 0.0, TOP);
    box_put(canvas, box, title, left, TOP);
    if (amount[0] != '\0')
        box_put(canvas, box, box_text(canvas, amount, right, amount_width),
                canvas->width - amount_width, TOP + 1.5);
    return box;
}

/* They stay with the line that follows. */
static void add_warnings(const struct block *block)
{
    for (size_t i = 0; i < block->told->warnings.count; i++) {
        const struct told_warning *warning = &block->told->warnings.items[i];
        struct box *box =
            box_text(&block->column, warning->text,
                     warning->weight == WEIGHT_STRONG  ? style_bold()
                     : warning->weight == WEIGHT_SMALL ? style_small()
                                                       : style_body(),
                     block->column.width);
        box->keep_with_next = true;
        add_half(block->booklet, box, 4.0, block->again);
    }
}

/* The count closes the lines; then what is joined, and what is known of the
 * plan. It stays with the last line. */
static void add_end(const struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct told_cloth *told = block->told;
    const struct canvas *canvas = &block->column;
    LIST(struct box *) parts = {0};
    const struct box *text =
        box_text(canvas, told->count, style_body(), canvas->width - NUMBER);
    struct box *count = box_new(canvas, canvas->width, text->height);
    put_tick(canvas, count, 0.0);
    box_put(canvas, count, text, NUMBER, 0.0);
    *LIST_ADD(canvas->arena, &parts) = count;
    for (size_t i = 0; i < told->joined.count; i++)
        *LIST_ADD(canvas->arena, &parts) = box_text(
            canvas, told->joined.items[i], style_body(), canvas->width);
    if (told->notes[0] != '\0')
        *LIST_ADD(canvas->arena, &parts) =
            box_text(canvas, told->notes, style_small(), canvas->width);
    booklet->flow.boxes.items[booklet->flow.boxes.count - 1]->keep_with_next =
        true;
    add_half(booklet, box_stack(canvas, parts.items, parts.count, 4.0),
             LINE_GAP, block->again);
}

static void add_cloth(struct booklet *booklet, const struct told_cloth *told)
{
    struct block block = {booklet, told, flow_column(&booklet->flow), NULL};
    struct box *head = head_box(&block, false);
    head->place = told->place;
    head->keep_with_next = true;
    add_half(booklet, head, BLOCK_GAP, NULL);
    block.again = head_box(&block, true);
    add_warnings(&block);
    for (size_t i = 0; i < told->lines.count; i++)
        add_line(&block, i + 1, &told->lines.items[i]);
    add_end(&block);
}

/* ---- the section ---- */

/* How cloth is folded, beside its figure. */
static void add_intro(struct booklet *booklet, const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *fold = draw_fold(booklet);
    const double left = fold->width + 14.0;
    struct boxes texts = {.items = {0}};
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->part == PART_MAIN && content->kind == CONTENT_PARAGRAPH)
            *LIST_ADD(canvas->arena, &texts.items) = place_paragraph(
                canvas, &content->as.paragraph, style_body(), columns_wide(8));
    }
    const struct box *words =
        box_stack(canvas, texts.items.items, texts.items.count, 4.0);
    struct box *box =
        box_new(canvas, canvas->width, fmax(fold->height, words->height));
    put_figure(booklet, box, fold, 0.0, 0.0,
               content_of(contents, PART_MAIN, CONTENT_FIGURE)->as.figure.told);
    box_put(canvas, box, words, left, 0.0);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 8.0);
}

void section_cutting(struct booklet *booklet)
{
    const struct contents contents =
        tell_cutting(&booklet->wording, booklet->plan);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    flow_section(&booklet->flow, heading->title, heading->lead, true);
    add_intro(booklet, &contents);
    for (size_t i = 0; i < contents.items.count; i++)
        if (contents.items.items[i].kind == CONTENT_CLOTH)
            add_cloth(booklet, &contents.items.items[i].as.cloth);
    add_cutting_labels(booklet, &contents);
}
