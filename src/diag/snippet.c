/* A line may be megabytes long, so only the bytes around the span are looked
 * at (the region), and of these only what fits the terminal is shown (the
 * window). Columns here count from 0 at the start of the region, in the line
 * as it is shown: U+202E takes six there and none in the source. */
#include "snippet.h"

#include <string.h>

#include "character.h"

enum {
    LINE_COLUMNS = 100,
    NUMBER_COLUMNS = 5, /* of the gutter, more for longer line numbers */
    REGION_BYTES = 1024,
    TAB_STOP = 8
};

static const char gutter_bar[] = " | ";
static const char dots[] = "...";

/* What one character, or a tab, becomes in the shown line. */
struct cell {
    struct character character;
    const char *bytes;
    uint32_t offset;
    size_t column, width;
};

struct region {
    const struct source *source;
    struct span bytes;
    bool cut_left, cut_right; /* the line goes on beyond it */
    size_t origin;            /* column of its start in the line, for tabs */
    size_t width;
    size_t caret_from, caret_to;
};

struct window {
    size_t left, right; /* columns of the region that are shown */
    bool dots_left, dots_right;
};

static size_t smaller(size_t a, size_t b)
{
    return a < b ? a : b;
}

static bool begins_file(const struct source *source, uint32_t offset)
{
    return source_part(source, offset)->start == offset;
}

/* ensures: the cell of the character at `offset`, standing at `column`. */
static struct cell cell_at(const struct region *region, uint32_t offset,
                           size_t column)
{
    const char *bytes = region->source->bytes + offset;
    const struct character c = character_at(bytes, region->bytes.end - offset);
    struct cell cell = {c, bytes, offset, column, shown_width(c)};
    if (c.code == '\t')
        cell.width = TAB_STOP - (region->origin + column) % TAB_STOP;
    else if (c.code == 0xFEFF && begins_file(region->source, offset))
        cell.width = 0; /* the byte order mark is no part of the text */
    return cell;
}

static void add_spaces(struct buffer *buffer, size_t count)
{
    for (size_t i = 0; i < count; i++)
        buffer_char(buffer, ' ');
}

/* Tabs become spaces: a terminal's stops count from its own left edge, not
 * from the gutter's. */
static void add_cell(struct buffer *buffer, const struct cell *cell)
{
    if (cell->character.code == '\t')
        add_spaces(buffer, cell->width);
    else if (cell->width > 0 || cell->character.code != 0xFEFF)
        add_shown(buffer, cell->bytes, cell->character);
}

/* Finds the width of the region and where the span lies in it. */
static void measure(struct region *region, struct span span)
{
    size_t column = 0;
    for (uint32_t at = region->bytes.start; at < region->bytes.end;) {
        const struct cell cell = cell_at(region, at, column);
        /* A combining mark is pointed at below the letter that bears it. */
        if (at <= span.start && cell.width > 0)
            region->caret_from = column;
        column += cell.width;
        if (at < span.end)
            region->caret_to = column;
        at += cell.character.size;
    }
    region->width = column;
    /* A line end, and the end of the file, show behind the line. */
    if (span.start >= region->bytes.end)
        region->caret_from = column;
    /* An empty span, or a mark on its own, still needs a caret. */
    if (region->caret_to <= region->caret_from)
        region->caret_to = region->caret_from + 1;
}

/* At most REGION_BYTES to either side of the start of the span. They hold
 * more than a window of any text but one that is hostile, as a thousand
 * accents on one letter; such a line just counts as cut. */
static struct region find_region(const struct source *source, struct span line,
                                 struct span span)
{
    struct span bytes = line;
    if (span.start - line.start > REGION_BYTES) {
        bytes.start = span.start - REGION_BYTES;
        /* Do not start inside a character; it has three more bytes at most. */
        for (int i = 0; i < 3; i++)
            if (((unsigned char)source->bytes[bytes.start] & 0xC0U) == 0x80)
                bytes.start++;
    }
    if (line.end - bytes.start > 2 * REGION_BYTES)
        bytes.end = bytes.start + 2 * REGION_BYTES;
    struct region region = {.source = source, .bytes = bytes};
    region.cut_left = bytes.start > line.start;
    region.cut_right = bytes.end < line.end;
    region.origin = source_place(source, bytes.start).column - 1;
    measure(&region, span);
    return region;
}

/* The whole region where it fits, else the part with the span in its middle
 * and dots where something is left out. */
static struct window choose_window(const struct region *region, size_t room)
{
    if (!region->cut_left && !region->cut_right && region->width <= room)
        return (struct window){0, region->width, false, false};

    /* Room for both dots is kept even where the window touches an end, so
     * that it does not jump between two spans near that end. */
    const size_t shown = room - 2 * strlen(dots);
    const size_t carets = region->caret_to - region->caret_from;
    const size_t margin = (shown - smaller(carets, shown)) / 2;
    struct window window = {0};
    if (region->caret_from > margin)
        window.left = region->caret_from - margin;
    /* Rather more of the line's end than a half-empty window. */
    if (!region->cut_right && window.left + shown > region->width)
        window.left = region->width > shown ? region->width - shown : 0;
    window.right = smaller(window.left + shown, region->width);
    window.dots_left = region->cut_left || window.left > 0;
    window.dots_right = region->cut_right || window.right < region->width;
    return window;
}

/* Adds the shown part of the source line, without the gutter. */
static void add_window(struct buffer *buffer, const struct region *region,
                       struct window window)
{
    if (window.dots_left)
        buffer_text(buffer, dots);
    size_t column = 0;
    size_t filled = window.left; /* the columns before it are written */
    for (uint32_t at = region->bytes.start; at < region->bytes.end;) {
        const struct cell cell = cell_at(region, at, column);
        at += cell.character.size;
        column += cell.width;
        if (column > window.right)
            break;
        /* A mark at the edge has lost its letter, and goes with it. */
        if (cell.column < window.left ||
            (cell.width == 0 && cell.column == window.left && window.left > 0))
            continue;
        /* Half of a wide character at the left edge is a space. */
        add_spaces(buffer, cell.column - filled);
        add_cell(buffer, &cell);
        filled = column;
    }
    if (window.dots_right) {
        add_spaces(buffer, window.right - filled);
        buffer_text(buffer, dots);
    }
}

/* Puts the label behind the carets, or on a line of its own where it would
 * run past the edge. */
static void add_label(struct buffer *buffer, const char *label, size_t gutter,
                      size_t caret_end)
{
    const size_t width = shown_text_width(label);
    if (caret_end + 1 + width > LINE_COLUMNS) {
        const size_t room = LINE_COLUMNS - gutter;
        const size_t indent = width < room ? room - width : 0;
        buffer_char(buffer, '\n');
        add_spaces(buffer, gutter - strlen(gutter_bar));
        buffer_text(buffer, gutter_bar);
        add_spaces(buffer, smaller(indent, caret_end - gutter));
    } else {
        buffer_char(buffer, ' ');
    }
    add_shown_text(buffer, label);
}

/* Adds the line below the source line. Carets stop where the window does: of
 * a span over several lines the first is enough to find it. */
static void add_carets(struct buffer *buffer, const struct snippet *snippet,
                       const struct region *region, struct window window,
                       size_t gutter)
{
    size_t indent = region->caret_from - window.left;
    if (window.dots_left)
        indent += strlen(dots);
    size_t count = 1;
    if (window.right > region->caret_from + 1)
        count = smaller(region->caret_to, window.right) - region->caret_from;

    add_spaces(buffer, gutter - strlen(gutter_bar));
    buffer_text(buffer, gutter_bar);
    add_spaces(buffer, indent);
    if (snippet->color)
        buffer_text(buffer, STYLE_CARET);
    for (size_t i = 0; i < count; i++)
        buffer_char(buffer, '^');
    if (snippet->label != NULL)
        add_label(buffer, snippet->label, gutter, gutter + indent + count);
    if (snippet->color)
        buffer_text(buffer, STYLE_OFF);
    buffer_char(buffer, '\n');
}

void add_snippet(struct buffer *buffer, const struct snippet *snippet)
{
    const size_t line = source_line(snippet->source, snippet->span.start);
    const struct source_part *part =
        source_part(snippet->source, snippet->span.start);
    const struct span bytes = source_line_span(snippet->source, part, line);
    const struct region region =
        find_region(snippet->source, bytes, snippet->span);

    /* Measured, as line numbers above 99,999 push the bar to the right. */
    const size_t before = buffer->length;
    buffer_printf(buffer, "%*zu%s", NUMBER_COLUMNS, line, gutter_bar);
    const size_t gutter = buffer->length - before;
    const struct window window = choose_window(&region, LINE_COLUMNS - gutter);
    add_window(buffer, &region, window);
    /* No blanks behind an empty line's bar. */
    if (region.width == 0 && bytes.start == bytes.end)
        buffer->length--;
    buffer_char(buffer, '\n');
    add_carets(buffer, snippet, &region, window, gutter);
}
