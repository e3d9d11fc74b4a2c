/* The cover sells the quilt: its picture or photo, as large as the words leave
 * room for, so words are measured first. Read next: glance.c. */
#include <math.h>

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
static struct box *palette(struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t count = booklet->design->fabrics.count;
    struct box *box = box_new(canvas, width, 0.0);
    double x = 0.0, y = 0.0;
    box_tag(canvas, box, "L", NULL);
    box->items.items[0].as.tag.role = ROLE_LETTERED;
    for (size_t i = 0; i < count; i++) {
        const struct bolt *bolt = &booklet->plan->colorway->bolts[i];
        struct box *name = box_line(
            canvas, box_fitted(canvas, bolt->name, style_small(), width - 46.0),
            style_small());
        struct box *swatch = swatch_box(booklet, (int)i, 20.0);
        const double wide = swatch->width + 6.0 + name->width;
        /* A name that is wider than the page still gets a line of its own. */
        if (x > 0.0 && x + wide > width) {
            x = 0.0;
            y += 26.0;
        }
        put_entry(canvas, box, swatch, name, x, y);
        x += wide + 16.0;
    }
    box_tag_end(canvas, box, "L");
    box->height = y + 21.0;
    return box;
}

/* "Designed by ... for ...". Either of the two may be missing; "" where both
 * are. */
static const char *credit(const struct booklet *booklet)
{
    const struct design *design = booklet->design;
    const struct wording *w = &booklet->wording;
    if (design->designer[0] == '\0')
        return design->publisher;
    return design->publisher[0] == '\0'
               ? say(w->arena, w->phrases, "cover.designer", "designer",
                     design->designer, NULL)
               : say(w->arena, w->phrases, "cover.designer-publisher",
                     "designer", design->designer, "publisher",
                     design->publisher, NULL);
}

/* What stands on the page so far. requires: nothing beyond the first page. */
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
    put_figure(
        booklet, box, picture, (canvas->width - picture->width) / 2.0, 0.0,
        say(w->arena, w->phrases, "figure.whole", "quilt",
            quilt->definition->name, "colorway", booklet->plan->colorway->name,
            "size", word_size_unit(w, quilt->width, quilt->height), NULL));
    return box;
}

/* As large as fits, never stretched. A photo of a camera on its side stands up
 * again, so its sides change over here. */
static struct box *photo_box(const struct canvas *canvas,
                             const struct photo *photo, double width,
                             double height)
{
    const bool across = photo->turn % 2 == 1;
    const double pixels_x = across ? photo->height : photo->width;
    const double pixels_y = across ? photo->width : photo->height;
    const double scale = fmin(width / pixels_x, height / pixels_y);
    struct box *box = box_new(canvas, pixels_x * scale, pixels_y * scale);
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_IMAGE;
    item->as.image = (struct image_item){
        photo->jpeg, photo->bytes, photo->length, photo->width, photo->height,
        photo->turn, 0.0,          0.0,           box->width,   box->height};
    return box;
}

/* The drawing, or the photo in its place. Both carry words for those who cannot
 * see them (WCAG 2.1, 1.1.1); what the quilt is like, the summary tells. */
static struct box *picture_box(struct booklet *booklet, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct photo *photo = booklet->design->photo;
    if (photo == NULL) {
        struct box *picture =
            figure_cloth(canvas, booklet->plan->colorway, booklet->quilt->cloth,
                         canvas->width, height);
        name_quilt_figure(booklet, picture);
        return centred(booklet, picture);
    }
    const struct box *picture = photo_box(canvas, photo, canvas->width, height);
    struct box *box = box_new(canvas, canvas->width, picture->height);
    put_figure(booklet, box, picture, (canvas->width - picture->width) / 2.0,
               0.0, say(w->arena, w->phrases, "cover.photo", NULL));
    return box;
}

/* Colorway and, at the right, who the pattern is for; the cloths; and by whom
 * it is. */
static struct box *foot_box(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const double left = canvas->width * 0.64;
    struct text_style style = style_body();
    struct box *lines[3];
    size_t count = 0;
    /* Two texts in one line: the right one ends at the edge. */
    struct box *name =
        box_text(canvas,
                 say(w->arena, w->phrases, "cover.colorway", "colorway",
                     booklet->plan->colorway->name, NULL),
                 style_bold(), left);
    struct box *head = box_new(canvas, canvas->width, name->height);
    box_put(canvas, head, name, 0.0, 0.0);
    style.align = ALIGN_RIGHT;
    if (booklet->design->skill[0] != '\0')
        box_put(
            canvas, head,
            box_text(canvas, skill_text(booklet), style, canvas->width - left),
            left, 0.0);
    lines[count++] = head;
    lines[count++] = palette(booklet, canvas->width);
    if (credit(booklet)[0] != '\0')
        lines[count++] =
            box_text(canvas, credit(booklet), style_body(), canvas->width);
    return box_stack(canvas, lines, count, 6.0);
}

/* Title, size and summary above, the picture, the colorway below; nothing else,
 * as a cover is seen from afar.
 * requires: an empty flow; the cover is its first page. */
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
             box_heading(&flow->canvas, booklet->design->title,
                         style_cover(44.0), flow->canvas.width, "H1"),
             0.0);
    /* The first bookmark leads back to the start. */
    flow->boxes.items[0]->outline = booklet->design->title;
    add_line(booklet,
             say(w->arena, w->phrases, "cover.size", "quilt",
                 quilt->definition->name, "size",
                 word_size_unit(w, quilt->width, quilt->height), NULL),
             size, 2.0);
    add_line(
        booklet,
        word_words(w, booklet->plan->colorway, booklet->design->summary, NULL),
        style_body(), 6.0);
    struct box *foot = foot_box(booklet);
    /* The two gaps around the picture, and a little air. */
    const double room =
        flow_page_height(flow) - heights(flow) - foot->height - 36.0;
    flow_add(flow, picture_box(booklet, fmax(room, 40.0)), 16.0);
    flow_add(flow, foot, 16.0);
}
