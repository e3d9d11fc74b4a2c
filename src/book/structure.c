/* Structure that is more than a paragraph. A text with links is set in pieces,
 * each where the whole text would have it, so that pages look the same with and
 * without them. Read next: flow.c. */
#include "structure.h"

#include <string.h>

#include "buffer.h"

/* ---- links ---- */

/* A text that is set piece by piece. A piece ends where its line does, or where
 * a link begins or ends; each is an element of its own, as Cairo 1.16 loses the
 * marks of an element that has others inside. */
struct pieces {
    const struct canvas *canvas;
    struct box *box;
    const char *text;
    struct text_style style;
    double width;
};

/* One piece in an element of its own. */
static void put_piece(const struct pieces *pieces, size_t start, size_t end,
                      struct text_place place, const struct told_text *link)
{
    const struct canvas *canvas = pieces->canvas;
    const char *words = arena_printf(canvas->arena, "%.*s", (int)(end - start),
                                     pieces->text + start);
    const char *tag = link == NULL ? "Span" : "Link";
    box_tag(canvas, pieces->box, tag, link == NULL ? NULL : link->told);
    if (link != NULL)
        pieces->box->items.items[pieces->box->items.count - 1]
            .as.tag.attributes =
            arena_printf(canvas->arena, "dest='%s'", link->place);
    struct text_style style = pieces->style;
    style.align = ALIGN_LEFT; /* the place tells where it starts */
    box_label(canvas, pieces->box, place.x, place.y, words, style, 0.0, false);
    box_tag_end(canvas, pieces->box, tag);
}

/* From one byte to another; lines are broken as the whole text's are. A line
 * may end before `start`, as what separates lines or paragraphs has up to three
 * bytes; each step goes on all the same. */
static void put_pieces(const struct pieces *pieces, size_t start, size_t end,
                       const struct told_text *link)
{
    while (start < end) {
        const struct text_place place =
            typeset_place(pieces->canvas->typeset, pieces->text, pieces->style,
                          pieces->width, start);
        const size_t stop = place.line_end < end ? place.line_end : end;
        if (stop > start)
            put_piece(pieces, start, stop, place, link);
        start = stop > start ? stop : start + 1;
    }
}

/* How many bytes the run takes from `at` on: blanks before units were bound,
 * which takes a byte more for each. */
static size_t bound_length(const char *at, const char *run)
{
    const char *end = at;
    for (; *run != '\0'; run++)
        end += *run == ' ' && *end != ' ' ? strlen("\u00a0") : 1;
    return (size_t)(end - at);
}

/* Broken into lines as a whole. */
struct box *box_runs(const struct canvas *canvas, const struct told_text *runs,
                     size_t count, struct text_style style, double width,
                     const char *tag)
{
    const struct told_paragraph all = {runs, count};
    const char *text = content_words(canvas->arena, &all);
    bool linked = false;
    for (size_t i = 0; i < count; i++)
        linked |= runs[i].place != NULL;
    if (!linked || text[0] == '\0')
        return box_heading(canvas, text, style, width, tag);
    text = box_bind_units(canvas, text);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, width);
    struct box *box = box_new(canvas, width, extent.height);
    const struct pieces pieces = {canvas, box, text, style, width};
    box_tag(canvas, box, tag, NULL);
    size_t start = 0;
    for (size_t i = 0; i < count; i++) {
        const size_t end = start + bound_length(text + start, runs[i].text);
        put_pieces(&pieces, start, end,
                   runs[i].place == NULL ? NULL : &runs[i]);
        start = end;
    }
    box_tag_end(canvas, box, tag);
    return box;
}

/* ---- lists ---- */

/* For the parts of a list item, each of which is an element (ISO 32000-1,
 * 14.8.4.3). */
void box_tagged_label(const struct canvas *canvas, struct box *box,
                      const char *tag, double x, double y, const char *text,
                      struct text_style style)
{
    box_tag(canvas, box, tag, NULL);
    box_label(canvas, box, x, y, text, style, 0.0, false);
    box_tag_end(canvas, box, tag);
}

/* Leaves the body open, as what lies in it is drawn by the caller;
 * end_list_item closes both, or elements would not nest. */
void begin_list_item(const struct canvas *canvas, struct box *box, double x,
                     double y, const char *label, struct text_style style)
{
    box_tag(canvas, box, "LI", NULL);
    box_tagged_label(canvas, box, "Lbl", x, y, label, style);
    box_tag(canvas, box, "LBody", NULL);
}

/* The inner one first, as elements nest. */
void end_list_item(const struct canvas *canvas, struct box *box)
{
    box_tag_end(canvas, box, "LBody");
    box_tag_end(canvas, box, "LI");
}

/* The list itself is opened by flow.c. A box does not know its neighbours, and
 * a list may go on over pages. */
void box_in_list(struct box *box, enum tag_role role, bool begins)
{
    box->group = "L";
    box->group_role = role;
    box->group_begins = begins;
}

/* ---- figures ---- */

/* Texts that were told, by hash: a power of two places, with free ones. */
struct told {
    const char **texts;
    size_t places;
};

/* A label stands in a figure as often as its part does, and is told once.
 * ensures: false where it was told before. */
static bool tell_once(struct told *told, const char *text)
{
    size_t at = 14695981039346656037u; /* FNV-1a */
    for (const char *c = text; *c != '\0'; c++)
        at = (at ^ (unsigned char)*c) * 1099511628211u;
    at &= told->places - 1;
    for (; told->texts[at] != NULL; at = (at + 1) & (told->places - 1))
        if (strcmp(told->texts[at], text) == 0)
            return false;
    told->texts[at] = text;
    return true;
}

static size_t count_texts(const struct canvas *canvas,
                          const struct box *drawing)
{
    const struct box *below = box_below(canvas, drawing);
    size_t texts = below == NULL ? 0 : count_texts(canvas, below);
    for (size_t i = 0; i < drawing->items.count; i++)
        texts += drawing->items.items[i].kind == ITEM_TEXT;
    for (size_t i = 0; i < drawing->parts.count; i++)
        texts += count_texts(canvas, drawing->parts.items[i].box);
    return texts;
}

static void add_labels(const struct canvas *canvas, struct told *told,
                       struct buffer *labels, const struct box *drawing)
{
    size_t part = 0;
    const struct box *below = box_below(canvas, drawing);
    if (below != NULL)
        add_labels(canvas, told, labels, below);
    for (size_t i = 0; i <= drawing->items.count; i++) {
        const struct box_part *parts = drawing->parts.items;
        for (; part < drawing->parts.count && parts[part].behind == i; part++)
            add_labels(canvas, told, labels, parts[part].box);
        if (i == drawing->items.count ||
            drawing->items.items[i].kind != ITEM_TEXT)
            continue;
        const char *text = drawing->items.items[i].as.text.text;
        if (tell_once(told, text))
            buffer_printf(labels, "%s%s", labels->length == 0 ? "" : ", ",
                          text);
    }
}

/* In the order in which they were drawn: "A1, B2". */
static const char *labels_of(const struct canvas *canvas,
                             const struct box *drawing)
{
    struct arena *arena = canvas->arena;
    struct buffer labels = buffer_in(arena);
    const size_t texts = count_texts(canvas, drawing);
    struct told told = {.places = 4};
    while (told.places < 2 * texts)
        told.places *= 2;
    told.texts = ARENA_ARRAY(arena, const char *, told.places);
    add_labels(canvas, &told, &labels, drawing);
    return labels.length == 0 ? "" : buffer_string(&labels);
}

/* A figure with the words that it has beside its labels. */
struct worded_figure {
    const struct booklet *booklet;
    const struct box *drawing;
    double x, y;
    const char *words;
};

/* Who does not see the figure must hear what is written in it, too (WCAG 2.2,
 * technique PDF1). */
static void draw_worded_figure(struct box *box, const void *what)
{
    const struct worded_figure *figure = what;
    const struct booklet *booklet = figure->booklet;
    const struct canvas *canvas = &booklet->flow.canvas;
    const char *labels = labels_of(canvas, figure->drawing);
    const char *words = figure->words;
    if (labels[0] != '\0' && words[0] != '\0')
        words = say(canvas->arena, booklet->wording.phrases, "figure.labeled",
                    "labels", labels, "caption", words, NULL);
    box_tag(canvas, box, "Figure", words[0] == '\0' ? labels : words);
    box_put(canvas, box, figure->drawing, figure->x, figure->y);
    box_tag_end(canvas, box, "Figure");
}

/* Its labels are known when it is drawn. */
void put_figure(struct booklet *booklet, struct box *box,
                const struct box *drawing, double x, double y,
                const char *words)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct worded_figure *figure =
        ARENA_NEW(canvas->arena, struct worded_figure);
    *figure = (struct worded_figure){booklet, drawing, x, y, words};
    struct box *told = box_new(canvas, box->width, box->height);
    box_draw_late(canvas, told, draw_worded_figure, figure);
    box_put(canvas, box, told, 0.0, 0.0);
}
