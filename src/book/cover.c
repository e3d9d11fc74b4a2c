/* The cover: the whole quilt, large. The picture takes what the words leave, so
 * words are measured first. Read next: materials.c. */
#include <string.h>

#include "section.h"
#include "structure.h"
#include "words.h"

/* Empty text takes no room. */
static void add_line(struct booklet *booklet, const char *text,
                     struct text_style style, double space)
{
    if (text[0] != '\0')
        flow_add(&booklet->flow,
                 box_text(&booklet->flow.canvas, text, style,
                          booklet->flow.canvas.width),
                 space);
}

/* The letter of a cloth is the label of its name. */
static void put_entry(const struct canvas *canvas, struct box *box,
                      const struct box *swatch, const struct box *name,
                      double x, double y)
{
    box_tag(canvas, box, "LI", NULL);
    box_tag(canvas, box, "Lbl", NULL);
    box_put(canvas, box, swatch, x, y);
    box_tag_end(canvas, box, "Lbl");
    box_tag(canvas, box, "LBody", NULL);
    box_put(canvas, box, name, x + swatch->width + 6.0, y + 4.0);
    end_list_item(canvas, box);
}

/* Swatches with the names of the cloths, in lines as wide as the page. */
static struct box *palette(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t count = booklet->design->fabrics.count;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    double x = 0.0, y = 0.0;
    box_tag(canvas, box, "L", NULL);
    box->items.items[0].as.tag.role = ROLE_LETTERED;
    for (size_t i = 0; i < count; i++) {
        const struct bolt *bolt = &booklet->plan->colorway->bolts[i];
        struct box *name = box_line(
            canvas,
            box_fitted(canvas, bolt->name, style_small(), canvas->width * 0.8),
            style_small());
        struct box *swatch = swatch_box(booklet, (int)i, 20.0);
        const double width = swatch->width + 6.0 + name->width + 22.0;
        /* A name that is wider than the page still gets a line of its own. */
        if (x > 0.0 && x + width > canvas->width) {
            x = 0.0;
            y += 28.0;
        }
        put_entry(canvas, box, swatch, name, x, y);
        x += width;
    }
    box_tag_end(canvas, box, "L");
    box->height = y + 22.0;
    return box;
}

/* "Designed by ... for ...". Either of the two may be missing; "" where both
 * are. */
static const char *credit(const struct booklet *booklet)
{
    const struct design *design = booklet->design;
    if (design->designer[0] == '\0')
        return design->publisher;
    return design->publisher[0] == '\0'
               ? say(booklet->wording.arena, booklet->wording.phrases,
                     "cover.designer", "designer", design->designer, NULL)
               : say(booklet->wording.arena, booklet->wording.phrases,
                     "cover.designer-publisher", "designer", design->designer,
                     "publisher", design->publisher, NULL);
}

/* A sentence for each of the grammar's words. */
static const char *skill_text(const struct wording *w)
{
    static const char *const skills[][2] = {
        {"beginner", "cover.skill-beginner"},
        {"confident", "cover.skill-confident"},
        {"experienced", "cover.skill-experienced"}};
    for (size_t i = 0; i < sizeof skills / sizeof skills[0]; i++)
        if (strcmp(w->design->skill, skills[i][0]) == 0)
            return say(w->arena, w->phrases, skills[i][1], NULL);
    return "";
}

/* What stands on the page so far. */
static double heights(const struct flow *flow)
{
    double height = 0.0;
    for (size_t i = 0; i < flow->boxes.count; i++)
        height +=
            flow->boxes.items[i]->height + flow->boxes.items[i]->space_before;
    return height;
}

/* Wide as the column, the picture in its middle. */
static struct box *centred(struct booklet *booklet, const struct box *picture)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct sewn_quilt *quilt = booklet->quilt;
    struct box *box = box_new(canvas, canvas->width, picture->height);
    put_figure(booklet, box, picture, (canvas->width - picture->width) / 2.0,
               0.0,
               say(w->arena, w->phrases, "figure.whole", "quilt",
                   quilt->definition->name, "colorway",
                   booklet->plan->colorway->name, "size",
                   word_size_unit(w, quilt->width, quilt->height), NULL));
    return box;
}

/* requires: an empty flow; the cover is its first page. */
void section_cover(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct sewn_quilt *quilt = booklet->quilt;
    struct flow *flow = &booklet->flow;
    struct text_style size = style_section();
    size.face = FACE_REGULAR;
    /* Between title and text. */
    size.size = 14.0;
    flow_add(flow,
             box_heading(&flow->canvas, booklet->design->title, style_title(),
                         flow->canvas.width, "H1"),
             0.0);
    /* The first bookmark leads back to the start. */
    flow->boxes.items[0]->outline = booklet->design->title;
    add_line(booklet,
             say(w->arena, w->phrases, "cover.size", "quilt",
                 quilt->definition->name, "size",
                 word_size_unit(w, quilt->width, quilt->height), NULL),
             size, 2.0);
    add_line(booklet,
             word_words(w, booklet->plan->colorway, booklet->design->summary,
                        NULL),
             style_body(), 6.0);
    const char *colorway =
        say(w->arena, w->phrases, "cover.colorway", "colorway",
            booklet->plan->colorway->name, NULL);
    struct box *below[4];
    size_t count = 0;
    const struct canvas *canvas = &flow->canvas;
    below[count++] = box_text(canvas, colorway, style_bold(), canvas->width);
    below[count++] = palette(booklet);
    if (booklet->design->skill[0] != '\0')
        below[count++] =
            box_text(canvas, skill_text(w), style_body(), canvas->width);
    below[count++] =
        box_text(canvas, credit(booklet), style_body(), canvas->width);
    struct box *foot = box_stack(canvas, below, count, 6.0);
    /* 44 points: the two gaps around the picture, and a little air. */
    const double room =
        flow_page_height(flow) - heights(flow) - foot->height - 44.0;
    struct box *picture = figure_cloth(canvas, booklet->plan->colorway,
                                       quilt->cloth, canvas->width, room);
    name_quilt_figure(booklet, picture);
    flow_add(flow, centred(booklet, picture), 18.0);
    flow_add(flow, foot, 18.0);
}
