/* Placers of what has no looks of its own. Read next: place_table.c. */
#include "place.h"

#include "structure.h"

const struct told_heading *heading_of(const struct contents *contents,
                                      enum content_part part)
{
    return &content_of(contents, part, CONTENT_HEADING)->as.heading;
}

/* Runs that lead somewhere become links, the others are plain. */
struct box *place_paragraph(const struct canvas *canvas,
                            const struct told_paragraph *paragraph,
                            struct text_style style, double width)
{
    return box_runs(canvas, paragraph->runs, paragraph->count, style, width,
                    "P");
}

/* An empty list has no height and no tag. The dash stands 10 points before the
 * text, and lines that break hang below the text. */
struct box *place_list(const struct canvas *canvas,
                       const struct told_list *list, double width)
{
    struct box *box = box_new(canvas, width, 0.0);
    if (list->items.count == 0)
        return box;
    box_tag(canvas, box, "L", NULL);
    box->items.items[0].as.tag.role = ROLE_BULLETED;
    for (size_t i = 0; i < list->items.count; i++) {
        const struct box *text = box_text(canvas, list->items.items[i].text,
                                          style_body(), width - 10.0);
        begin_list_item(canvas, box, 0.0, box->height, "\u2013", style_body());
        box_put(canvas, box, text, 10.0, box->height);
        end_list_item(canvas, box);
        box->height += text->height;
    }
    box_tag_end(canvas, box, "L");
    return box;
}

/* All that belongs to one part, one below the other, in one box: what a page
 * must not tear apart. */
struct box *place_part(const struct canvas *canvas,
                       const struct contents *contents, enum content_part part,
                       struct text_style style, double width)
{
    const struct content *list = content_of(contents, part, CONTENT_LIST);
    const struct content *words = content_of(contents, part, CONTENT_PARAGRAPH);
    struct box *below = list != NULL
                            ? place_list(canvas, &list->as.list, width)
                            : place_paragraph(canvas, &words->as.paragraph,
                                              style_body(), width);
    return headed_box(canvas, heading_of(contents, part)->title, style, below);
}

/* A title over a box that it stays with. */
struct box *headed_box(const struct canvas *canvas, const char *title,
                       struct text_style style, struct box *below)
{
    struct box *head = box_heading(canvas, title, style, below->width, "H2");
    struct box *parts[2] = {head, below};
    return box_stack(canvas, parts, 2, 1.0);
}
