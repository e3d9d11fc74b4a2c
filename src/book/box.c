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

/* Items belong to pages only once, however deep boxes lie in each other. */
void box_put(const struct canvas *canvas, struct box *box,
             const struct box *part, double x, double y)
{
    *LIST_ADD(canvas->arena, &box->parts) =
        (struct box_part){part, x, y, box->items.count};
}

void box_draw_late(const struct canvas *canvas, struct box *box,
                   void (*draw)(struct box *box, const void *what),
                   const void *what)
{
    box->late = ARENA_NEW(canvas->arena, struct late_drawing);
    *box->late = (struct late_drawing){draw, what, NULL};
}

const struct box *box_below(const struct canvas *canvas, const struct box *box)
{
    struct late_drawing *late = box->late;
    if (late == NULL)
        return NULL;
    if (late->drawn == NULL) {
        late->drawn = box_new(canvas, box->width, box->height);
        late->draw(late->drawn, late->what);
    }
    return late->drawn;
}

/* Where a box lies in the one around it, and that in the next. */
struct position {
    const struct position *around;
    double x, y;
};

/* Points are copied, as the same part may be put into several places; where
 * they do not move, both have the same. */
static const struct point *moved_points(const struct canvas *canvas,
                                        const struct path_item *path,
                                        const struct position *at)
{
    struct point *points = NULL;
    for (; at != NULL; at = at->around) {
        if (at->x == 0.0 && at->y == 0.0)
            continue;
        if (points == NULL) {
            points = ARENA_ARRAY(canvas->arena, struct point, path->count);
            if (path->count > 0)
                memcpy(points, path->points, path->count * sizeof *points);
        }
        for (size_t i = 0; i < path->count; i++)
            points[i] =
                (struct point){points[i].x + at->x, points[i].y + at->y};
    }
    return points == NULL ? path->points : points;
}

/* From the inside out, so that sums are rounded as boxes nest. */
static struct item moved_item(const struct canvas *canvas, struct item item,
                              const struct position *at)
{
    if (item.kind == ITEM_PATH)
        item.as.path.points = moved_points(canvas, &item.as.path, at);
    for (; at != NULL; at = at->around) {
        if (item.kind == ITEM_TEXT) {
            item.as.text.x += at->x;
            item.as.text.y += at->y;
        } else if (item.kind == ITEM_IMAGE) {
            item.as.image.x += at->x;
            item.as.image.y += at->y;
        }
    }
    return item;
}

/* ---- paths that are made later ---- */

/* Paths of a box in a row. */
struct stored {
    const struct item *items;
    size_t count;
};

static void make_stored(const void *what, struct arena *arena,
                        struct item_list *items)
{
    const struct stored *stored = what;
    for (size_t i = 0; i < stored->count; i++)
        *LIST_ADD(arena, items) = stored->items[i];
}

/* The paths of the box from the index on, up to its next part. */
static size_t paths_from(const struct box *box, size_t index, size_t end)
{
    size_t count = 0;
    while (index + count < end &&
           box->items.items[index + count].kind == ITEM_PATH)
        count++;
    return count;
}

/* The moves as moved_points makes them. */
static struct item moved_later(const struct canvas *canvas, struct item item,
                               const struct position *at)
{
    struct later_item *later = &item.as.later;
    LIST(struct point) moves = {0};
    for (size_t i = 0; i < later->move_count; i++)
        *LIST_ADD(canvas->arena, &moves) = later->moves[i];
    for (; at != NULL; at = at->around)
        if (at->x != 0.0 || at->y != 0.0)
            *LIST_ADD(canvas->arena, &moves) = (struct point){at->x, at->y};
    later->moves = moves.items;
    later->move_count = moves.count;
    return item;
}

static struct item later_paths(const struct canvas *canvas,
                               const struct box *box, size_t index,
                               size_t count, const struct position *at)
{
    struct stored *stored = ARENA_NEW(canvas->arena, struct stored);
    *stored = (struct stored){&box->items.items[index], count};
    struct item item = {.kind = ITEM_LATER};
    item.as.later = (struct later_item){make_stored, stored, NULL, 0};
    return moved_later(canvas, item, at);
}

/* What is made may share its points with others, so they are copied. */
static void add_made(struct arena *arena, const struct later_item *later,
                     struct item_list *items)
{
    size_t made = items->count;
    later->make(later->what, arena, items);
    for (; later->move_count > 0 && made < items->count; made++) {
        struct path_item *path = &items->items[made].as.path;
        struct point *points = ARENA_ARRAY(arena, struct point, path->count);
        for (size_t k = 0; k < path->count; k++) {
            points[k] = path->points[k];
            for (size_t m = 0; m < later->move_count; m++) {
                points[k].x += later->moves[m].x;
                points[k].y += later->moves[m].y;
            }
        }
        path->points = points;
    }
}

static bool has_later(const struct item_list *items)
{
    for (size_t i = 0; i < items->count; i++)
        if (items->items[i].kind == ITEM_LATER)
            return true;
    return false;
}

/* Adds the items, with what is made later in its place. */
static void add_all(struct arena *arena, const struct item_list *from,
                    struct item_list *to)
{
    for (size_t i = 0; i < from->count; i++) {
        if (from->items[i].kind == ITEM_LATER)
            add_made(arena, &from->items[i].as.later, to);
        else
            *LIST_ADD(arena, to) = from->items[i];
    }
}

struct item_list page_items(struct arena *arena, const struct page *page)
{
    struct item_list items = {0};
    if (!has_later(&page->items))
        return page->items;
    add_all(arena, &page->items, &items);
    return items;
}

/* ---- flat lists ---- */

/* Tags stay in their order, so structure nests as boxes do. */
static void flatten(const struct canvas *canvas, const struct box *box,
                    const struct position *at, struct item_list *items)
{
    size_t part = 0;
    const struct box *below = box_below(canvas, box);
    if (below != NULL)
        flatten(canvas, below, at, items);
    for (size_t i = 0; i <= box->items.count; i++) {
        for (; part < box->parts.count && box->parts.items[part].behind == i;
             part++) {
            const struct box_part *inner = &box->parts.items[part];
            const struct position inside = {at, inner->x, inner->y};
            flatten(canvas, inner->box, &inside, items);
        }
        if (i == box->items.count)
            break;
        const size_t end = part < box->parts.count
                               ? box->parts.items[part].behind
                               : box->items.count;
        const size_t paths = end - i < BOX_MANY ? 0 : paths_from(box, i, end);
        struct item item = box->items.items[i];
        if (paths >= BOX_MANY) {
            item = later_paths(canvas, box, i, paths, at);
            i += paths - 1;
        } else if (item.kind == ITEM_LATER) {
            item = moved_later(canvas, item, at);
        } else {
            item = moved_item(canvas, item, at);
        }
        *LIST_ADD(canvas->arena, items) = item;
    }
}

void box_flatten(const struct canvas *canvas, const struct box *box, double x,
                 double y, struct item_list *items)
{
    const struct position at = {NULL, x, y};
    flatten(canvas, box, &at, items);
}

void box_copy(const struct canvas *canvas, struct box *box,
              const struct box *part, double x, double y)
{
    struct item_list items = {0};
    box_flatten(canvas, part, x, y, &items);
    add_all(canvas->arena, &items, &box->items);
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
    static const char *const units[] = {" in", " Inch", " cm", " yd", " m"};
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
    LIST_RESERVE(canvas->arena, &box->items, 3);
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
    return strlen(text) < SHORT ? text : box_cut(canvas, text, style, width);
}

const char *box_cut(const struct canvas *canvas, const char *text,
                    struct text_style style, double width)
{
    if (typeset_measure(canvas->typeset, text, style, 0.0).width <= width)
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
