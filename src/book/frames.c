/* Heads, lines of parts, rows of frames and notes of steps. Read next: steps.c.
 */
#include "frames.h"

#include <math.h>

#include "structure.h"

/* ---- head ---- */

/* The numeral is twice as high as the title; both stand on one line. */
#define HEAD_HEIGHT MM(9.2)
#define TITLE_DOWN 6.5

/* On the line of the title. An empty text would be an empty paragraph for a
 * screen reader, so none is put. */
static void put_right(struct booklet *booklet, struct box *box,
                      const char *text, double right)
{
    struct text_style style = style_step();
    style.face = FACE_REGULAR;
    style.align = ALIGN_RIGHT;
    if (text[0] != '\0')
        box_tagged_label(&booklet->flow.canvas, box, "P", right, TITLE_DOWN,
                         text, style);
}

/* The numeral belongs to the title: both are one heading. */
struct box *step_head(struct booklet *booklet, const struct step_head *head,
                      double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const char *number = head->number == 0
                             ? ""
                             : arena_printf(canvas->arena, "%zu", head->number);
    const double numeral =
        head->number == 0
            ? 0.0
            : typeset_measure(canvas->typeset, number, style_section(), 0.0)
                      .width +
                  SPACE_HALF;
    struct text_style right = style_step();
    right.face = FACE_REGULAR;
    const double where = head->where == NULL ? 0.0 : head->where->width + 8.0;
    const double make =
        typeset_measure(canvas->typeset, head->right, right, 0.0).width;
    const double room = width - numeral - make - where - 10.0;
    const struct box *title =
        box_heading(canvas, head->title, style_step(), room, "Span");
    struct box *box = box_new(
        canvas, width, fmax(HEAD_HEIGHT, TITLE_DOWN + title->height + 3.0));
    struct path_item line = outline_wide();
    line.role = ROLE_DRAWING;
    box_stroke(canvas, box, 0.0, 0.0, width, 0.0, line);
    box_tag(canvas, box, "H2", NULL);
    struct text_style style = style_section();
    style.color = canvas->accent;
    if (head->number > 0)
        box_tagged_label(canvas, box, "Span", 0.0, -4.5, number, style);
    box_put(canvas, box, title, numeral, TITLE_DOWN);
    box_tag_end(canvas, box, "H2");
    put_right(booklet, box, head->right, width - where);
    if (head->where != NULL)
        box_put(canvas, box, head->where, width - head->where->width,
                SPACE_QUARTER + 1.0);
    box->keep_with_next = true;
    return box;
}

/* ---- parts ---- */

/* A label that leads where the part comes from. */
static void put_link(const struct canvas *canvas, struct box *box,
                     const struct told_text *label, double x, double y)
{
    const char *tag = label->place == NULL ? "Span" : "Link";
    box_tag(canvas, box, tag, label->told);
    if (label->place != NULL)
        box->items.items[box->items.count - 1].as.tag.attributes =
            arena_printf(canvas->arena, "dest='%s'", label->place);
    box_label(canvas, box, x, y, label->text, style_bold(), 0.0, false);
    box_tag_end(canvas, box, tag);
}

/* ensures: where the next words begin, in points; 5 points are a wide blank. */
static double put_words(const struct canvas *canvas, struct box *box,
                        const char *text, struct text_style style, double x,
                        double y)
{
    if (text[0] == '\0')
        return x;
    box_tagged_label(canvas, box, "Span", x, y, text, style);
    return x + typeset_measure(canvas->typeset, text, style, 0.0).width + 5.0;
}

/* A swatch, or a small picture of sewn cloth; NULL for neither. */
static const struct box *picture_of(struct booklet *booklet,
                              const struct told_entry *entry)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    switch (entry->picture) {
    case PICTURE_NONE:
        return NULL;
    case PICTURE_SWATCH:
        return swatch_box(booklet, entry->fabric, PART_HEIGHT);
    case PICTURE_CLOTH:
        return figure_cloth(
            canvas, booklet->plan->colorway,
            finished_cloth(canvas->arena,
                           booklet->quilt->heaps.items[entry->heap].cloth),
            MM(12.0), PART_HEIGHT);
    }
    return NULL;
}

/* Picture, label, words and count beside each other: an item of a list. Label
 * and body are elements of their own, the link lies in the label. */
static struct box *part_box(struct booklet *booklet,
                            const struct told_entry *entry, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *picture = picture_of(booklet, entry);
    struct box *box = box_new(canvas, 0.0, PART_HEIGHT);
    const double middle = (PART_HEIGHT - 12.35) / 2.0;
    double x = 0.0;
    box_tag(canvas, box, "LI", NULL);
    box_tag(canvas, box, "Lbl", NULL);
    if (picture != NULL) {
        box_put(canvas, box, picture, 0.0,
                (PART_HEIGHT - picture->height) / 2.0);
        x = picture->width + 5.0;
    }
    const double count =
        typeset_measure(canvas->typeset, entry->count, style_bold(), 0.0).width;
    struct told_text label = entry->label;
    /* Short words are never cut, so that a long label leaves them room. */
    const double least = fmin(
        typeset_measure(canvas->typeset, entry->words, style_body(), 0.0).width,
        MM(30.0));
    label.text = box_fitted(canvas, label.text, style_bold(),
                            width - x - count - least - 20.0);
    put_link(canvas, box, &label, x, middle);
    box_tag_end(canvas, box, "Lbl");
    box_tag(canvas, box, "LBody", NULL);
    x += typeset_measure(canvas->typeset, label.text, style_bold(), 0.0).width +
         5.0;
    const char *words = box_fitted(canvas, entry->words, style_body(),
                                   fmax(width - x - count - 10.0, least));
    x = put_words(canvas, box, words, style_body(), x, middle);
    x = put_words(canvas, box, entry->count, style_bold(), x, middle);
    end_list_item(canvas, box);
    box->width = x;
    return box;
}

/* A list for screen readers, an item for each part. A part that does not fit
 * begins a line, but never leaves an empty one above. */
struct box *place_entries(struct booklet *booklet, const struct told_work *work,
                          double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double line = PART_HEIGHT + SPACE_QUARTER;
    struct box *box = box_new(canvas, width, PART_HEIGHT);
    double x = 0.0, y = 0.0;
    box_tag(canvas, box, "L", NULL);
    for (size_t i = 0; i < work->parts.count; i++) {
        const struct box *part =
            part_box(booklet, &work->parts.items[i], width);
        if (x > 0.0 && x + part->width > width) {
            x = 0.0;
            y += line;
        }
        box_put(canvas, box, part, x, y);
        x += part->width + SPACE_LINE;
    }
    box_tag_end(canvas, box, "L");
    box->height = y + PART_HEIGHT;
    return box;
}

/* ---- frames ---- */

/* A figure in a high row stands at most so far above its caption. */
#define CAPTION_MOST MM(17.0)
/* Inside of a panel, at all sides. */
#define PANEL_PAD MM(3.0)

/* A result lies on a panel, whose padding takes room at both sides; other
 * figures keep 2 points to their neighbours. */
double frame_room(int columns, bool result)
{
    return columns_wide(columns) - (result ? 2.0 * PANEL_PAD : 4.0);
}

/* The letter hangs in a narrow column of its own. */
static double put_caption(struct booklet *booklet, struct box *box,
                          const struct framed *frame, char letter, double x,
                          double y)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double hang = letter == 0 ? 0.0 : 10.0;
    if (frame->caption[0] == '\0')
        return 0.0;
    const struct box *text = box_text(
        canvas, frame->caption, style_body(),
        fmin(columns_wide(frame->columns), columns_wide(8)) - hang - 3.0);
    if (letter != 0)
        box_tagged_label(canvas, box, "Span", x, y,
                         arena_printf(canvas->arena, "%c", letter),
                         style_bold());
    box_put(canvas, box, text, x + hang, y);
    return text->height;
}

/* What is free above and below a result on its panel, at most. */
#define PANEL_FREE MM(9.0)

/* The panel is as high as the row, unless most of it would be empty; it stands
 * on one line with all other frames. Captions hang from one line below. */
struct box *frames_row(struct booklet *booklet, const struct framed *frames,
                       size_t count, char letter)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    double high = 0.0, width = -GRID_GUTTER, captions = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double pad = frames[i].result ? 2.0 * PANEL_PAD : SPACE_LINE;
        high = fmax(high, frames[i].figure->height + pad);
        width += columns_wide(frames[i].columns) + GRID_GUTTER;
    }
    struct box *box = box_new(canvas, width, high);
    double x = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double wide = columns_wide(frames[i].columns);
        const struct box *figure = frames[i].figure;
        const double low = fmin((high - figure->height) / 2.0,
                                frames[i].result ? PANEL_FREE : CAPTION_MOST);
        const double panel = figure->height + 2.0 * low;
        if (frames[i].result)
            box_rectangle(canvas, box, x, high - panel, wide, panel,
                          (struct path_item){.filled = true, .fill = pale});
        put_figure(booklet, box, figure, x + (wide - figure->width) / 2.0,
                   high - figure->height - low, frames[i].told);
        captions = fmax(captions,
                        put_caption(booklet, box, &frames[i],
                                    letter == 0 ? 0 : (char)(letter + (int)i),
                                    x, high + SPACE_QUARTER + 1.0));
        x += wide + GRID_GUTTER;
    }
    box->height = high + SPACE_QUARTER + 1.0 + captions;
    return box;
}

struct framed framed_as(const struct told_figure *told,
                        const struct box *figure, int columns)
{
    return (struct framed){figure, told->caption, told->told, columns,
                           told->result};
}

/* ---- notes ---- */

/* Words are no wider than 8 of the 12 columns: longer lines are hard to read.
 * Without a lead they begin at the bar. */
struct box *note_box(struct booklet *booklet, const struct told_note *note,
                     double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const char *lead = note->lead;
    const double bar = SPACE_HALF + LINE_BROAD;
    const double hang =
        lead[0] == '\0'
            ? 0.0
            : typeset_measure(canvas->typeset, lead, style_bold(), 0.0).width +
                  5.0;
    const double most = fmin(width, columns_wide(8));
    const struct box *words =
        box_text(canvas, note->text, style_body(), most - bar - hang);
    struct box *box = box_new(canvas, width, words->height + 2.0);
    box_stroke(canvas, box, LINE_BROAD / 2.0, 0.0, LINE_BROAD / 2.0,
               box->height,
               (struct path_item){.stroke = LINE_BROAD, .stroke_color = ink});
    if (lead[0] != '\0')
        box_tagged_label(canvas, box, "Span", bar, 0.5, lead, style_bold());
    box_put(canvas, box, words, bar + hang, 0.5);
    return box;
}
