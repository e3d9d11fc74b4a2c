/* The only file that knows what a display list looks like while it is made;
 * back ends (render/draw.c) walk it. Nothing here can fail. */
#include "box.h"

#include <string.h>

#include "buffer.h"

struct box *box_new(const struct canvas *canvas, double width, double height)
{
    struct box *box = ARENA_NEW(canvas->arena, struct box);
    box->width = width;
    box->height = height;
    return box;
}

/* Points are copied, as the same part may be put into several places; where
 * they do not move, both have the same. */
static struct item moved_item(const struct canvas *canvas, struct item item,
                              double x, double y)
{
    if (item.kind == ITEM_TEXT) {
        item.as.text.x += x;
        item.as.text.y += y;
    } else if (item.kind == ITEM_IMAGE) {
        item.as.image.x += x;
        item.as.image.y += y;
    } else if (item.kind == ITEM_PATH && (x != 0.0 || y != 0.0)) {
        const size_t count = item.as.path.count;
        struct point *points = ARENA_ARRAY(canvas->arena, struct point, count);
        for (size_t i = 0; i < count; i++)
            points[i] = (struct point){item.as.path.points[i].x + x,
                                       item.as.path.points[i].y + y};
        item.as.path.points = points;
    }
    return item;
}

/* Tags are copied in their order, so structure nests as boxes do. */
void box_put(const struct canvas *canvas, struct box *box,
             const struct box *part, double x, double y)
{
    for (size_t i = 0; i < part->items.count; i++)
        *LIST_ADD(canvas->arena, &box->items) =
            moved_item(canvas, part->items.items[i], x, y);
}

/* Kept as one box, so no page ends inside it. */
struct box *box_stack(const struct canvas *canvas, struct box *const *parts,
                      size_t count, double gap)
{
    struct box *box = box_new(canvas, 0.0, 0.0);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            box->height += gap;
        box_put(canvas, box, parts[i], 0.0, box->height);
        box->height += parts[i]->height;
        if (parts[i]->width > box->width)
            box->width = parts[i]->width;
    }
    return box;
}

/* The same, side by side: text and figure of a step stay together. */
struct box *box_row(const struct canvas *canvas, struct box *const *parts,
                    size_t count, double gap)
{
    struct box *box = box_new(canvas, 0.0, 0.0);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            box->width += gap;
        box_put(canvas, box, parts[i], box->width, 0.0);
        box->width += parts[i]->width;
        if (parts[i]->height > box->height)
            box->height = parts[i]->height;
    }
    return box;
}

/* A blank before or behind the sign of a size, "6 × 2". */
static bool is_beside_times(const char *text, const char *c)
{
    static const char times[] = "\u00d7";
    return *c == ' ' && (strncmp(c + 1, times, 2) == 0 ||
                         (c - text >= 2 && strncmp(c - 2, times, 2) == 0));
}

/* Measured here, once: what is drawn later breaks its lines in the same places,
 * as it is set by the same code (typeset.c). Blanks become no-break spaces. */
const char *box_bind_units(const struct canvas *canvas, const char *text)
{
    static const char *const units[] = {" in", " Zoll", " cm", " yd", " m"};
    enum { UNITS = sizeof units / sizeof units[0] };
    struct buffer out = buffer_in(canvas->arena);
    for (const char *c = text; *c != '\0'; c++) {
        size_t length = 0;
        const unsigned char before = c == text ? 0 : (unsigned char)c[-1];
        /* Behind a digit, or the last byte of a fraction sign. */
        const bool number = (before >= '0' && before <= '9') ||
                            (before >= 0x80 && before < 0xC0);
        for (size_t i = 0; number && i < UNITS; i++) {
            const size_t size = strlen(units[i]);
            if (strncmp(c, units[i], size) == 0 &&
                strchr(" .,;:)", c[size]) != NULL)
                length = size;
        }
        const bool bound = length > 0 || is_beside_times(text, c);
        buffer_text(&out, bound ? "\u00a0" : "");
        if (!bound)
            buffer_char(&out, *c);
    }
    return buffer_string(&out);
}

struct box *box_heading(const struct canvas *canvas, const char *text,
                        struct text_style style, double width, const char *tag)
{
    text = box_bind_units(canvas, text);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, width);
    struct box *box = box_new(canvas, width, extent.height);
    box_tag(canvas, box, tag, NULL);
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_TEXT;
    item->as.text =
        (struct text_item){text, 0.0, 0.0, width, 0.0, style, false};
    box_tag_end(canvas, box, tag);
    return box;
}

struct box *box_text(const struct canvas *canvas, const char *text,
                     struct text_style style, double width)
{
    return box_heading(canvas, text, style, width, "P");
}

/* True where a character of UTF-8 goes on at the byte. */
static bool in_character(const char *text, size_t at)
{
    return ((unsigned char)text[at] & 0xC0) == 0x80;
}

const char *box_fitted(const struct canvas *canvas, const char *text,
                       struct text_style style, double width)
{
    enum { SHORT = 40 }; /* fits every column that is asked for */
    if (strlen(text) < SHORT ||
        typeset_measure(canvas->typeset, text, style, 0.0).width <= width)
        return text;
    size_t fits = 0, end = strlen(text);
    for (;;) { /* bisection over bytes, never in the middle of a character */
        size_t middle = (fits + end) / 2;
        while (middle > fits && in_character(text, middle))
            middle--;
        for (middle += middle == fits; in_character(text, middle);)
            middle++;
        if (middle >= end)
            return arena_printf(canvas->arena, "%.*s\u2026", (int)fits, text);
        const char *part =
            arena_printf(canvas->arena, "%.*s\u2026", (int)middle, text);
        if (typeset_measure(canvas->typeset, part, style, 0.0).width <= width)
            fits = middle;
        else
            end = middle;
    }
}

/* Never wrapped, so its width is its own. */
struct box *box_line(const struct canvas *canvas, const char *text,
                     struct text_style style)
{
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    struct box *box = box_new(canvas, extent.width, extent.height);
    box_label(canvas, box, 0.0, 0.0, text, style, 0.0, false);
    return box;
}

/* `like` may come from any style: only its points and their count are set. */
void box_polygon(const struct canvas *canvas, struct box *box,
                 const struct point *points, size_t count,
                 struct path_item like)
{
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    struct point *copy = ARENA_ARRAY(canvas->arena, struct point, count);
    if (count > 0)
        memcpy(copy, points, count * sizeof *points);
    item->kind = ITEM_PATH;
    item->as.path = like;
    item->as.path.points = copy;
    item->as.path.count = count;
    item->as.path.closed = true;
}

void box_rectangle(const struct canvas *canvas, struct box *box, double x,
                   double y, double width, double height, struct path_item like)
{
    const struct point points[4] = {
        {x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
    box_polygon(canvas, box, points, 4, like);
}

void box_stroke(const struct canvas *canvas, struct box *box, double x1,
                double y1, double x2, double y2, struct path_item like)
{
    const struct point points[2] = {{x1, y1}, {x2, y2}};
    box_polygon(canvas, box, points, 2, like);
    box->items.items[box->items.count - 1].as.path.closed = false;
}

/* No box of its own: it lies on what is drawn there, so it takes no room. */
void box_label(const struct canvas *canvas, struct box *box, double x, double y,
               const char *text, struct text_style style, double angle,
               bool plate)
{
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_TEXT;
    item->as.text = (struct text_item){text, x, y, 0.0, angle, style, plate};
}

/* What is written in a figure belongs to the figure. */
double box_words(const struct canvas *canvas, struct box *box, double x,
                 double y, const char *text, struct text_style style,
                 double width)
{
    text = box_bind_units(canvas, text);
    box_label(canvas, box, x, y, text, style, 0.0, false);
    box->items.items[box->items.count - 1].as.text.width = width;
    return typeset_measure(canvas->typeset, text, style, width).height;
}

void box_tag(const struct canvas *canvas, struct box *box, const char *name,
             const char *alternative)
{
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_TAG_BEGIN;
    item->as.tag = (struct tag_item){name, "", alternative, ROLE_NONE};
}

/* A back end pairs it with the tag that was opened last. */
void box_tag_end(const struct canvas *canvas, struct box *box, const char *name)
{
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_TAG_END;
    item->as.tag.name = name;
}
