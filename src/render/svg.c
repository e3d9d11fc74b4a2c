/* One page as SVG 1.1, written as text from the display list, so that words
 * stay words: they can be searched, read aloud and translated. Looks stand in
 * attributes, not in a style sheet, which would leak into a page that holds the
 * file; class words are for style sheets of others. Read next: draw.c, whose
 * picture this must match. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "character.h"
#include "render.h"

/* What the functions below share. A file holds one page, so nothing is kept
 * from one picture to the next. */
struct svg {
    struct arena *arena;
    struct typeset *typeset;
    struct buffer out;
    const char *name;           /* safe in ids */
    LIST(struct hatch) hatches; /* each is a pattern */
};

/* ---- text and numbers ---- */

/* Escapes what XML would read, and what a terminal would act on. Characters
 * that XML 1.0 does not allow become the sign for a character that is not
 * known. */
static void add_escaped(struct svg *svg, const char *text, size_t length)
{
    for (size_t i = 0, size = 1; i < length; i += size) {
        const struct character at = character_at(text + i, length - i);
        const unsigned char c = (unsigned char)text[i];
        size = at.size;
        if (c >= 0x7F && character_hidden(at))
            buffer_printf(&svg->out, "&#x%X;", (unsigned)at.code);
        else if (c == '&')
            buffer_text(&svg->out, "&amp;");
        else if (c == '<')
            buffer_text(&svg->out, "&lt;");
        else if (c == '>')
            buffer_text(&svg->out, "&gt;");
        else if (c == '"')
            buffer_text(&svg->out, "&quot;");
        else if (c < 0x20 && c != '\n' && c != '\t')
            buffer_text(&svg->out, "\uFFFD");
        else
            buffer_add(&svg->out, text + i, size);
    }
}

/* Three decimals: a thousandth of a point is finer than any printer. By whole
 * numbers, as no locale must change the sign between them. */
static const char *number(struct svg *svg, double value)
{
    const long long thousandths = llround(value * 1000.0);
    const long long size = llabs(thousandths);
    const char *sign = thousandths < 0 ? "-" : "";
    if (size % 1000 == 0)
        return arena_printf(svg->arena, "%s%lld", sign, size / 1000);
    char *text = arena_printf(svg->arena, "%s%lld.%03lld", sign, size / 1000,
                              size % 1000);
    size_t length = strlen(text);
    while (text[length - 1] == '0')
        text[--length] = '\0';
    return text;
}

/* A blank, the attribute and its value. */
static void add_number(struct svg *svg, const char *attribute, double value)
{
    buffer_printf(&svg->out, " %s=\"%s\"", attribute, number(svg, value));
}

/* Out of bounds would make three digits, and another colour. */
static unsigned channel(double share)
{
    return (unsigned)lround(fmin(fmax(share, 0.0), 1.0) * 255.0);
}

/* Six digits are read by every program; newer ways to tell a colour are not.
 */
static void add_color(struct svg *svg, const char *attribute,
                      struct color color)
{
    buffer_printf(&svg->out, " %s=\"#%02x%02x%02x\"", attribute,
                  channel(color.red), channel(color.green),
                  channel(color.blue));
}

/* Names of the source may hold what an id must not, or what url() would end at.
 * ensures: letters, digits, hyphens, dots and low lines only. */
static const char *safe_name(struct arena *arena, const char *name)
{
    char *safe = arena_copy(arena, name, strlen(name));
    for (char *c = safe; *c != '\0'; c++)
        if (strchr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                   "0123456789-._",
                   *c) == NULL)
            *c = '_';
    return safe;
}

/* ---- hatches ---- */

/* Bit for bit: hatches that are alike come from the same line of code. */
static bool same_hatch(const struct hatch *a, const struct hatch *b)
{
    return a->angle == b->angle && a->spacing == b->spacing &&
           a->width == b->width && a->dotted == b->dotted &&
           a->color.red == b->color.red && a->color.green == b->color.green &&
           a->color.blue == b->color.blue;
}

/* A page has few kinds of hatch, and hundreds of paths that share them.
 * ensures: the index of the hatch among the patterns, from 0. */
static size_t hatch_index(struct svg *svg, const struct hatch *hatch)
{
    for (size_t i = 0; i < svg->hatches.count; i++)
        if (same_hatch(&svg->hatches.items[i], hatch))
            return i;
    *LIST_ADD(svg->arena, &svg->hatches) = *hatch;
    return svg->hatches.count - 1;
}

/* On paper a dot is a dash of no length, which some programs leave out. */
static void add_dot(struct svg *svg, const struct hatch *hatch, double x,
                    double y)
{
    buffer_text(&svg->out, "<circle");
    add_number(svg, "cx", x);
    add_number(svg, "cy", y);
    add_number(svg, "r", hatch->width / 2.0);
    add_color(svg, "fill", hatch->color);
    buffer_text(&svg->out, "/>");
}

/* In the middle of the tile; as long as it, so that tiles join. */
static void add_hatch_line(struct svg *svg, const struct hatch *hatch)
{
    buffer_text(&svg->out, "<rect x=\"0\"");
    add_number(svg, "y", (hatch->spacing - hatch->width) / 2.0);
    add_number(svg, "width", hatch->spacing);
    add_number(svg, "height", hatch->width);
    add_color(svg, "fill", hatch->color);
    buffer_text(&svg->out, "/>");
}

/* A tile of the size of the spacing, turned as a whole. It begins half a step
 * before the first line, so that no line is cut in two. Dots need two rows, as
 * each row is shifted against the last. The tile is moved by its transform:
 * programs do not agree whether x and y move what lies in it. */
static void add_pattern(struct svg *svg, size_t index)
{
    const struct hatch *hatch = &svg->hatches.items[index];
    const double step = hatch->spacing;
    buffer_printf(&svg->out,
                  "<pattern id=\"%s-hatch-%zu\" "
                  "patternUnits=\"userSpaceOnUse\" x=\"0\" y=\"0\"",
                  svg->name, index + 1);
    add_number(svg, "width", step);
    add_number(svg, "height", hatch->dotted ? 2.0 * step : step);
    buffer_printf(&svg->out,
                  " patternTransform=\"rotate(%s) translate(%s %s)\">",
                  number(svg, -hatch->angle),
                  number(svg, hatch->dotted ? -step / 4.0 : 0.0),
                  number(svg, -step / 2.0));
    if (hatch->dotted) {
        add_dot(svg, hatch, step * 0.25, step * 0.5);
        add_dot(svg, hatch, step * 0.75, step * 1.5);
    } else {
        add_hatch_line(svg, hatch);
    }
    buffer_text(&svg->out, "</pattern>\n");
}

/* Patterns stand before what uses them: some readers look back only. The page
 * is walked once more for it, as a pattern is found with its path. */
static void add_patterns(struct svg *svg, const struct page *page)
{
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        if (item->kind == ITEM_PATH && item->as.path.hatch != NULL)
            hatch_index(svg, item->as.path.hatch);
    }
    if (svg->hatches.count == 0)
        return;
    buffer_text(&svg->out, "<defs>\n");
    for (size_t i = 0; i < svg->hatches.count; i++)
        add_pattern(svg, i);
    buffer_text(&svg->out, "</defs>\n");
}

/* ---- paths ---- */

/* Words for style sheets: they stay the same from version to version. No
 * default, so that a new role is given a word by whoever adds it. */
static const char *role_word(enum path_role role)
{
    switch (role) {
    case ROLE_CLOTH:
        return "cloth";
    case ROLE_WRONG_SIDE:
        return "cloth wrong-side";
    case ROLE_OUTLINE:
        return "outline";
    case ROLE_MARK:
        return "mark";
    case ROLE_WASTE:
        return "waste";
    case ROLE_DRAWING:
        break;
    }
    return "drawing";
}

/* Absolute, as in the display list: a test compares the two. */
static void add_points(struct svg *svg, const struct path_item *path)
{
    buffer_text(&svg->out, " d=\"");
    for (size_t i = 0; i < path->count; i++)
        buffer_printf(&svg->out, "%s%s %s", i == 0 ? "M" : "L",
                      number(svg, path->points[i].x),
                      number(svg, path->points[i].y));
    buffer_text(&svg->out, path->closed ? "Z\"" : "\"");
}

/* Pointed corners and dashes as they are told. On paper dashes are fitted to
 * the length of each edge; no attribute of SVG can say that for a polygon. */
static void add_stroke(struct svg *svg, const struct path_item *path)
{
    if (path->stroke <= 0.0)
        return;
    add_color(svg, "stroke", path->stroke_color);
    add_number(svg, "stroke-width", path->stroke);
    buffer_text(&svg->out, " stroke-miterlimit=\"10\"");
    if (path->round_ends)
        buffer_text(&svg->out, " stroke-linecap=\"round\"");
    if (path->dash[0] <= 0.0)
        return;
    buffer_text(&svg->out, " stroke-dasharray=\"");
    for (int i = 0; i < 6 && path->dash[i] > 0.0; i++)
        buffer_printf(&svg->out, "%s%s", i == 0 ? "" : " ",
                      number(svg, path->dash[i]));
    buffer_text(&svg->out, "\"");
}

/* A path with a hatch is drawn twice: what SVG fills, it fills with one paint.
 */
static void add_path(struct svg *svg, const struct path_item *path)
{
    const bool hatched = path->hatch != NULL;
    if (path->count == 0 || (!path->filled && !hatched && path->stroke <= 0.0))
        return;
    if (path->filled || !hatched) {
        buffer_printf(&svg->out, "<path class=\"%s\"", role_word(path->role));
        add_points(svg, path);
        if (path->filled)
            add_color(svg, "fill", path->fill);
        else
            buffer_text(&svg->out, " fill=\"none\"");
        if (!hatched)
            add_stroke(svg, path);
        buffer_text(&svg->out, "/>\n");
    }
    if (!hatched)
        return;
    buffer_printf(&svg->out, "<path class=\"%s hatch\"", role_word(path->role));
    add_points(svg, path);
    buffer_printf(&svg->out, " fill=\"url(#%s-hatch-%zu)\"", svg->name,
                  hatch_index(svg, path->hatch) + 1);
    add_stroke(svg, path);
    buffer_text(&svg->out, "/>\n");
}

/* ---- text ---- */

/* White behind the letters, where they lie over a drawing. It is as wide as our
 * own letters: other fonts may reach over it by a little. */
static void add_plates(struct svg *svg, const struct text_line *lines,
                       size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (lines[i].plate_width <= 0.0)
            continue;
        buffer_text(&svg->out, "<rect class=\"plate\"");
        add_number(svg, "x", lines[i].plate_x);
        add_number(svg, "y", lines[i].plate_y);
        add_number(svg, "width", lines[i].plate_width);
        add_number(svg, "height", lines[i].plate_height);
        buffer_text(&svg->out, " fill=\"#ffffff\"/>");
    }
}

/* The family is asked for by name and may not be there: the anchor keeps a
 * wider letter's words in their middle or at their end. */
static void add_style(struct svg *svg, const struct text_style *style)
{
    buffer_text(&svg->out,
                style->face == FACE_DISPLAY
                    ? " font-family=\"Vollkorn, serif\""
                    : " font-family=\"'Noto Sans', 'DejaVu Sans', sans-serif\"");
    add_number(svg, "font-size", style->size);
    if (style->face == FACE_BOLD || style->face == FACE_DISPLAY)
        buffer_text(&svg->out, " font-weight=\"bold\"");
    if (style->face == FACE_ITALIC)
        buffer_text(&svg->out, " font-style=\"italic\"");
    if (style->align == ALIGN_CENTER)
        buffer_text(&svg->out, " text-anchor=\"middle\"");
    if (style->align == ALIGN_RIGHT)
        buffer_text(&svg->out, " text-anchor=\"end\"");
    add_color(svg, "fill", style->color);
}

/* Where the anchor of the line lies, in the turned system of its text. */
static double anchor(const struct text_line *line, enum text_align align)
{
    switch (align) {
    case ALIGN_CENTER:
        return line->x + line->width / 2.0;
    case ALIGN_RIGHT:
        return line->x + line->width;
    case ALIGN_LEFT:
        break;
    }
    return line->x;
}

/* One element a paragraph, a span a line. Blanks between lines are kept, so
 * that the words do not run together when they are copied. */
static void add_text(struct svg *svg, const struct text_item *text)
{
    size_t count = 0;
    const struct text_line *lines =
        typeset_lines(svg->typeset, svg->arena, text, &count);
    buffer_printf(&svg->out, "<g transform=\"translate(%s %s)",
                  number(svg, text->x), number(svg, text->y));
    if (text->angle < 0.0 || text->angle > 0.0)
        buffer_printf(&svg->out, " rotate(%s)", number(svg, text->angle));
    buffer_text(&svg->out, "\">");
    if (text->plate)
        add_plates(svg, lines, count);
    buffer_text(&svg->out, "<text class=\"label\"");
    add_style(svg, &text->style);
    buffer_text(&svg->out, ">");
    for (size_t i = 0; i < count; i++) {
        buffer_text(&svg->out, "<tspan");
        add_number(svg, "x", anchor(&lines[i], text->style.align));
        add_number(svg, "y", lines[i].baseline);
        buffer_text(&svg->out, ">");
        add_escaped(svg, lines[i].text, lines[i].length);
        buffer_text(&svg->out, "</tspan>");
    }
    buffer_text(&svg->out, "</text></g>\n");
}

/* ---- the whole ---- */

/* What the figures on the page tell in words, each once: a screen reader says
 * this in place of the drawing. */
static void add_description(struct svg *svg, const struct page *page)
{
    buffer_printf(&svg->out, "<desc id=\"%s-desc\">", svg->name);
    const char *last = "";
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        if (item->kind != ITEM_TAG_BEGIN || item->as.tag.alternative == NULL ||
            strcmp(item->as.tag.alternative, last) == 0)
            continue;
        if (last[0] != '\0')
            buffer_char(&svg->out, '\n');
        last = item->as.tag.alternative;
        add_escaped(svg, last, strlen(last));
    }
    buffer_text(&svg->out, "</desc>\n");
}

/* The size is true: a point is 25.4/72 mm. */
static void add_head(struct svg *svg, const struct book *book,
                     const char *title)
{
    const double mm = 25.4 / 72.0;
    buffer_text(&svg->out,
                "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"");
    buffer_printf(&svg->out, " id=\"%s\" width=\"%smm\" height=\"%smm\"",
                  svg->name, number(svg, book->width * mm),
                  number(svg, book->height * mm));
    buffer_printf(&svg->out, " viewBox=\"0 0 %s %s\"", number(svg, book->width),
                  number(svg, book->height));
    if (book->language != NULL)
        buffer_printf(&svg->out, " xml:lang=\"%s\"", book->language);
    buffer_printf(&svg->out,
                  " role=\"img\" aria-labelledby=\"%s-title %s-desc\">\n"
                  "<title id=\"%s-title\">",
                  svg->name, svg->name, svg->name);
    add_escaped(svg, title, strlen(title));
    buffer_text(&svg->out, "</title>\n");
}

/* Structure is told by title and description; tags of the page are passed by.
 * So are photos: only the cover has one, and it is no figure. */
struct rendered render_svg(struct arena *arena, struct typeset *typeset,
                           const struct book *book,
                           const struct figure_words *words)
{
    struct svg svg = {.arena = arena,
                      .typeset = typeset,
                      .out = buffer_in(arena),
                      .name = safe_name(arena, words->name)};
    struct page page = *book->pages.items[0];
    page.items = page_items(arena, &page);
    add_head(&svg, book, words->title);
    add_description(&svg, &page);
    add_patterns(&svg, &page);
    for (size_t i = 0; i < page.items.count; i++) {
        const struct item *item = &page.items.items[i];
        if (item->kind == ITEM_PATH)
            add_path(&svg, &item->as.path);
        else if (item->kind == ITEM_TEXT)
            add_text(&svg, &item->as.text);
    }
    buffer_text(&svg.out, "</svg>\n");
    return (struct rendered){.bytes = svg.out.bytes, .length = svg.out.length};
}
