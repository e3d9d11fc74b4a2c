/* Structure that is more than a paragraph. A text with links is set in pieces,
 * each where the whole text would have it, so that pages look the same with and
 * without them. Read next: flow.c. */
#include "structure.h"

#include <ctype.h>
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
                      struct text_place place, const struct link *link)
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
                       const struct link *link)
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

/* How many bytes from `at` on are the words, or 0. Blanks of either kind are
 * the same: which of them break lines depends on what stands around. */
static size_t match_words(const char *whole, size_t at, const char *words)
{
    static const char NO_BREAK[] = "\u00a0";
    const char *text = whole + at;
    if (at > 0 && isalnum((unsigned char)whole[at - 1]))
        return 0;
    while (*words != '\0') {
        const size_t text_blank = *text == ' '                      ? 1
                                  : strncmp(text, NO_BREAK, 2) == 0 ? 2
                                                                    : 0;
        const size_t word_blank = *words == ' '                      ? 1
                                  : strncmp(words, NO_BREAK, 2) == 0 ? 2
                                                                     : 0;
        if ((text_blank == 0) != (word_blank == 0) ||
            (text_blank == 0 && *text != *words))
            return 0;
        text += text_blank > 0 ? text_blank : 1;
        words += word_blank > 0 ? word_blank : 1;
    }
    /* Not inside a longer word: "A1" is no part of "A12". */
    return isalnum((unsigned char)*text) ? 0 : (size_t)(text - whole) - at;
}

/* Links come in the order in which their words stand: each is looked for behind
 * the last one, so that a word that stands twice is linked where it is meant.
 * One that is not found is passed over, and its words stay plain: a page
 * without a link can still be sewn from. */
struct box *box_linked(const struct canvas *canvas, const char *text,
                       struct text_style style, double width, const char *tag,
                       const struct link *links, size_t count)
{
    if (count == 0 || text[0] == '\0')
        return box_heading(canvas, text, style, width, tag);
    text = box_bind_units(canvas, text);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, width);
    struct box *box = box_new(canvas, width, extent.height);
    const struct pieces pieces = {canvas, box, text, style, width};
    box_tag(canvas, box, tag, NULL);
    size_t done = 0;
    for (size_t i = 0; i < count; i++) {
        size_t start = done, length = 0;
        while (text[start] != '\0' &&
               (length = match_words(text, start, links[i].text)) == 0)
            start++;
        if (length == 0)
            continue;
        put_pieces(&pieces, done, start, NULL);
        put_pieces(&pieces, start, start + length, &links[i]);
        done = start + length;
    }
    put_pieces(&pieces, done, strlen(text), NULL);
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

/* The label of a line is what stands before its colon. */
static void put_numbered_line(const struct pieces *pieces, size_t start,
                              size_t end)
{
    const struct canvas *canvas = pieces->canvas;
    const char *colon = memchr(pieces->text + start, ':', end - start);
    const size_t label =
        colon == NULL ? start : (size_t)(colon + 1 - pieces->text);
    box_tag(canvas, pieces->box, "LI", NULL);
    box_tag(canvas, pieces->box, "Lbl", NULL);
    put_pieces(pieces, start, label, NULL);
    box_tag_end(canvas, pieces->box, "Lbl");
    box_tag(canvas, pieces->box, "LBody", NULL);
    put_pieces(pieces, label, end, NULL);
    end_list_item(canvas, pieces->box);
}

/* Broken as a whole, so that lines stand where box_text would put them. */
struct box *box_numbered_lines(const struct canvas *canvas, const char *text,
                               struct text_style style, double width)
{
    text = box_bind_units(canvas, text);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, width);
    struct box *box = box_new(canvas, width, extent.height);
    const struct pieces pieces = {canvas, box, text, style, width};
    box_tag(canvas, box, "L", NULL);
    box->items.items[0].as.tag.role = ROLE_NUMBERED;
    for (size_t start = 0; text[start] != '\0';) {
        const size_t end = start + strcspn(text + start, "\n");
        put_numbered_line(&pieces, start, end);
        start = text[end] == '\n' ? end + 1 : end;
    }
    box_tag_end(canvas, box, "L");
    return box;
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
struct told_figure {
    const struct booklet *booklet;
    const struct box *drawing;
    double x, y;
    const char *words;
};

/* Who does not see the figure must hear what is written in it, too (WCAG 2.2,
 * technique PDF1). */
static void draw_told_figure(struct box *box, const void *what)
{
    const struct told_figure *figure = what;
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
    struct told_figure *figure = ARENA_NEW(canvas->arena, struct told_figure);
    *figure = (struct told_figure){booklet, drawing, x, y, words};
    struct box *told = box_new(canvas, box->width, box->height);
    box_draw_late(canvas, told, draw_told_figure, figure);
    box_put(canvas, box, told, 0.0, 0.0);
}

/* ---- places ---- */

/* A link and its target both ask here for the name of the place, so they cannot
 * differ. Cloths are counted from 1, as people count. */
const char *place_cloth(struct arena *arena, int fabric)
{
    return arena_printf(arena, "cloth-%d", fabric + 1);
}

/* By the number that the page shows. */
const char *place_step(struct arena *arena, size_t step)
{
    return arena_printf(arena, "step-%zu", step);
}

/* From the inside, as the finishing counts them. */
/* A quilt has one, so it needs no number. */
const char *place_binding(void)
{
    return "binding";
}

/* The box that was added last, so this is called right behind flow_add. An
 * empty flow has no box to lead to. */
void flow_place(struct flow *flow, const char *place)
{
    if (flow->boxes.count > 0)
        flow->boxes.items[flow->boxes.count - 1]->place = place;
}

/* ---- from steps to cutting and back ---- */

/* A part that an earlier step made. */
struct link link_to_step(const struct booklet *booklet, size_t index)
{
    const struct wording *w = &booklet->wording;
    const size_t step = booklet->quilt->heaps.items[index].step;
    const char *number = say_count(w->arena, step);
    return (struct link){
        word_part(w, index), place_step(w->arena, step),
        say(w->arena, w->phrases, "link.step", "step", number, NULL)};
}

/* A part that was cut; the cloth is told by its role, which is on every page.
 */
struct link link_to_cutting(const struct booklet *booklet, size_t index)
{
    const struct wording *w = &booklet->wording;
    const struct heap *heap = &booklet->quilt->heaps.items[index];
    return (struct link){
        heap->of.cut.label, place_cloth(w->arena, heap->of.cut.fabric),
        say(w->arena, w->phrases, "link.cutting", "label", heap->of.cut.label,
            "fabric", booklet->design->fabrics.items[heap->of.cut.fabric].name,
            NULL)};
}

/* The first step that takes pieces of this label, or 0. */
static size_t step_using(const struct booklet *booklet, const char *label)
{
    const struct sewn_quilt *quilt = booklet->quilt;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->inputs.count && heap->step > 0; k++) {
            const struct heap *part =
                &quilt->heaps.items[heap->inputs.items[k].heap];
            if (part->technique == TECHNIQUE_CUT &&
                strcmp(part->of.cut.label, label) == 0)
                return heap->step;
        }
    }
    return 0;
}

/* A strip that is joined first has more than one label; binding is sewn on in
 * no step. */
bool link_to_use(const struct booklet *booklet, const struct cut_item *item,
                 struct link *link)
{
    const struct wording *w = &booklet->wording;
    const size_t step = step_using(booklet, item->label);
    link->text = item->label;
    if (step > 0) {
        link->place = place_step(w->arena, step);
        link->told = say(w->arena, w->phrases, "link.step", "step",
                         say_count(w->arena, step), NULL);
    } else if (item->use == CUT_BORDER) {
        const struct sewn_quilt *quilt = booklet->quilt;
        const size_t border = quilt->borders.items[item->border - 1].heap;
        link->place = place_step(w->arena, quilt->heaps.items[border].step);
        link->told = say(w->arena, w->phrases, "link.border", "number",
                         say_count(w->arena, item->border), NULL);
    } else if (item->use == CUT_BINDING) {
        link->place = place_binding();
        link->told = say(w->arena, w->phrases, "link.binding", NULL);
    } else {
        return false;
    }
    return true;
}
