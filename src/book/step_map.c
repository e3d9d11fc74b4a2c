/* The way from parts to quilt in one panel: pictures of what each step makes,
 * and arrows in the second ink, as nobody does anything here. Read next:
 * step_graph.c, which finds the places. */
#include "step_map.h"

#include <math.h>
#include <string.h>

#include "overview.h"

/* Inside the panel; between picture and words; for arrows between columns. */
#define PANEL_PAD MM(3.3)
#define PANEL_PAD_DOWN MM(2.4)
#define WORDS_GAP MM(1.6)
#define ARROW_LENGTH MM(2.2)
#define GUTTER_LEAST MM(5.5)
#define GUTTER_MOST MM(15.0)

struct map {
    const struct booklet *booklet;
    struct step_graph graph;
    struct box *box;
    double picture, words; /* sizes: side of a picture, width of its words */
    double last;           /* side of the picture of the quilt */
    double top;            /* of the columns */
    double gutter;         /* between columns */
};

/* The quilt itself, which is drawn larger; not where it is all there is. */
static bool is_last(const struct map *map, size_t node)
{
    return node + 1 == map->graph.nodes.count && map->graph.depth > 1;
}

/* The side of the square, in points, that the picture of a node fills. */
static double picture_side(const struct map *map, size_t node)
{
    return is_last(map, node) ? map->last : map->picture;
}

/* A cloth that is higher than wide leaves room at both sides of its square. */
static double spare_beside(const struct map *map, size_t node)
{
    const struct cloth *cloth = map->graph.nodes.items[node].cloth;
    const double shape =
        rational_double(cloth->width) / rational_double(cloth->height);
    return picture_side(map, node) * (1.0 - fmin(shape, 1.0)) / 2.0;
}

/* Between number and name. */
static double number_width(const struct map *map, const struct map_node *node)
{
    return typeset_measure(map->booklet->flow.canvas.typeset, node->number,
                           style_figure(), 0.0)
               .width +
           3.0;
}

static struct text_style name_style(void)
{
    struct text_style style = style_size();
    style.color = ink;
    return style;
}

/* Each width is measured anew; what fits in one line has but one size. */
static struct text_extent name_size(const struct map *map,
                                    const struct map_node *node, double width)
{
    struct typeset *typeset = map->booklet->flow.canvas.typeset;
    const struct text_extent line =
        typeset_measure(typeset, node->name, name_style(), 0.0);
    return line.width < width
               ? line
               : typeset_measure(typeset, node->name, name_style(), width);
}

/* How wide number, name and count are, and how high. */
static struct figure_size words_size(const struct map *map,
                                     const struct map_node *node)
{
    struct typeset *typeset = map->booklet->flow.canvas.typeset;
    const double left = number_width(map, node);
    const struct text_extent name = name_size(map, node, map->words - left);
    const struct text_extent count =
        typeset_measure(typeset, node->count, style_figure(), 0.0);
    return (struct figure_size){left + fmax(name.width, count.width),
                                name.height + count.height};
}

/* No word of a name is broken. */
static bool words_whole(const struct map *map)
{
    const struct canvas *canvas = &map->booklet->flow.canvas;
    for (size_t i = 0; i < map->graph.nodes.count; i++) {
        const struct map_node *node = &map->graph.nodes.items[i];
        const double room = map->words - number_width(map, node);
        for (const char *word = node->name; *word != '\0';
             word += strspn(word, " ")) {
            const size_t length = strcspn(word, " ");
            const char *alone =
                arena_printf(canvas->arena, "%.*s", (int)length, word);
            if (typeset_measure(canvas->typeset, alone, name_style(), 0.0)
                    .width > room)
                return false;
            word += length;
        }
    }
    return true;
}

/* Number in bold, name, and below it the count. */
static void draw_node(const struct map *map, const struct map_node *node,
                      double side, double x, double y)
{
    const struct canvas *canvas = &map->booklet->flow.canvas;
    const struct box *cloth = figure_cloth(canvas, map->booklet->plan->colorway,
                                           node->cloth, side, side);
    const struct figure_size words = words_size(map, node);
    const double left = x + side + WORDS_GAP;
    const double name = left + number_width(map, node);
    double line = y - words.height / 2.0;
    box_put(canvas, map->box, cloth, x + (side - cloth->width) / 2.0,
            y - cloth->height / 2.0);
    box_label(canvas, map->box, left, line, node->number, style_figure(), 0.0,
              false);
    line += box_words(canvas, map->box, name, line, node->name, name_style(),
                      map->words - (name - left));
    box_label(canvas, map->box, name, line, node->count, style_figure(), 0.0,
              false);
}

/* ---- lines ---- */

static struct path_item thin(void)
{
    struct path_item line = outline_narrow();
    line.stroke = LINE_MIDDLE;
    line.stroke_color = grey;
    return line;
}

/* Two bends at most; the head ends at (x2, y2). */
static void draw_way(const struct map *map, double x1, double y1, double bend,
                     double x2, double y2, bool head)
{
    const struct canvas *canvas = &map->booklet->flow.canvas;
    const double end = head ? x2 - ARROW_LENGTH * 0.8 : x2;
    /* Where it begins, others may begin, too: it is the head that moves. */
    if (fabs(y1 - y2) < 0.6)
        y2 = y1;
    const struct point way[4] = {{x1, y1}, {bend, y1}, {bend, y2}, {end, y2}};
    for (int i = 0; i < 3; i++)
        if (hypot(way[i + 1].x - way[i].x, way[i + 1].y - way[i].y) > 0.0)
            box_stroke(canvas, map->box, way[i].x, way[i].y, way[i + 1].x,
                       way[i + 1].y, thin());
    const struct point tip[3] = {{x2, y2},
                                 {x2 - ARROW_LENGTH, y2 - ARROW_LENGTH * 0.32},
                                 {x2 - ARROW_LENGTH, y2 + ARROW_LENGTH * 0.32}};
    if (head)
        box_polygon(canvas, map->box, tip, 3,
                    (struct path_item){.filled = true, .fill = grey});
}

/* Where a line leaves a slot: behind the words of a node. */
static double leaves_at(const struct map *map, size_t column,
                        const struct map_slot *slot)
{
    const struct map_column *at = &map->graph.columns[column];
    if (slot->passes)
        return at->left + at->width;
    return at->left + picture_side(map, slot->node) + WORDS_GAP +
           words_size(map, &map->graph.nodes.items[slot->node]).width + MM(1.2);
}

/* How many of those that a node takes stand above this one in the column
 * before, and how many there are. */
static size_t rank_of(const struct map *map, const struct map_node *node,
                      size_t from)
{
    const size_t column = node->depth - 1;
    const double y = slot_of(&map->graph, column, from)->y;
    size_t rank = 0;
    for (size_t i = 0; i < node->from.count; i++)
        rank += slot_of(&map->graph, column, node->from.items[i])->y < y - 1e-9;
    return rank;
}

/* Where lines from a slot bend: a place for each, so that none runs along
 * another. */
static double bends_at(const struct map *map, size_t column,
                       const struct map_slot *start)
{
    const struct map_column *before = &map->graph.columns[column - 1];
    const size_t rank = (size_t)(start - before->slots.items);
    const double room = map->gutter - ARROW_LENGTH - MM(1.8);
    const double track =
        fmin(MM(1.4), room / (double)(before->slots.count + 1));
    return map->graph.columns[column].left - ARROW_LENGTH - MM(1.2) -
           track * (double)rank;
}

/* One line from a slot of the column before. */
static void draw_edge(const struct map *map, size_t column, size_t from,
                      const struct map_slot *to)
{
    const struct map_column *at = &map->graph.columns[column];
    const struct map_slot *start = slot_of(&map->graph, column - 1, from);
    const double bend = bends_at(map, column, start);
    double y = to->y, x = at->left + at->width;
    if (!to->passes) {
        const struct map_node *node = &map->graph.nodes.items[to->node];
        const double spread = fmin(MM(2.2), picture_side(map, to->node) * 0.8 /
                                                (double)node->from.count);
        y += ((double)rank_of(map, node, from) -
              (double)(node->from.count - 1) / 2.0) *
             spread;
        x = at->left + spare_beside(map, to->node) - MM(0.6);
    }
    draw_way(map, leaves_at(map, column - 1, start), start->y, bend, x, y,
             !to->passes);
}

/* From each node to what it is made from. Where an edge goes on past a column,
 * it runs through a slot that is kept free there. */
static void draw_edges(const struct map *map)
{
    for (size_t c = 1; c < map->graph.depth; c++) {
        const struct map_column *at = &map->graph.columns[c];
        for (size_t i = 0; i < at->slots.count; i++) {
            const struct map_slot *slot = &at->slots.items[i];
            const struct map_node *node = &map->graph.nodes.items[slot->node];
            if (slot->passes)
                draw_edge(map, c, slot->node, slot);
            for (size_t k = 0; !slot->passes && k < node->from.count; k++)
                draw_edge(map, c, node->from.items[k], slot);
        }
    }
}

/* ---- columns or list ---- */

/* Widths of the columns for these sizes. ensures: their sum. */
static double measure_columns(struct map *map)
{
    double sum = 0.0;
    for (size_t c = 0; c < map->graph.depth; c++) {
        struct map_column *at = &map->graph.columns[c];
        at->width = 0.0;
        for (size_t i = 0; i < at->slots.count; i++) {
            const size_t node = at->slots.items[i].node;
            if (!at->slots.items[i].passes)
                at->width = fmax(
                    at->width,
                    picture_side(map, node) + WORDS_GAP +
                        words_size(map, &map->graph.nodes.items[node]).width +
                        MM(1.0));
        }
        sum += at->width;
    }
    return sum;
}

/* Tries smaller pictures and narrower words, until the map fits.
 * ensures: how high the columns are, or 0 where they do not fit. */
static double fit_columns(struct map *map, double width, double height)
{
    static const struct {
        double picture, words;
    } sizes[] = {{12.0, 24.0}, {12.0, 36.0}, {10.0, 22.0}, {10.0, 34.0},
                 {8.0, 34.0},  {8.0, 25.0},  {8.0, 20.0},  {8.0, 15.0},
                 {6.5, 25.0},  {6.5, 17.0},  {6.5, 13.0}};
    struct arena *arena = map->booklet->wording.arena;
    double *heights = ARENA_ARRAY(arena, double, map->graph.nodes.count);
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        map->picture = MM(sizes[i].picture);
        map->words = MM(sizes[i].words);
        if (!words_whole(map))
            continue;
        for (size_t k = 0; k < map->graph.nodes.count; k++)
            heights[k] =
                fmax(map->picture,
                     words_size(map, &map->graph.nodes.items[k]).height);
        const double high = place_slots(arena, &map->graph, heights);
        map->last = fmin(fmax(high, map->picture), 2.0 * map->picture);
        const double free = width - measure_columns(map) -
                            GUTTER_LEAST * (double)(map->graph.depth - 1);
        if (high > height || free < 0.0)
            continue;
        const double gutter =
            fmin(GUTTER_LEAST + (map->graph.depth < 2
                                     ? 0.0
                                     : free / (double)(map->graph.depth - 1)),
                 GUTTER_MOST);
        /* The quilt is larger than the other nodes, and stays inside. */
        struct map_slot *last =
            map->graph.columns[map->graph.depth - 1].slots.items;
        last->y = fmin(fmax(last->y, map->last / 2.0), high - map->last / 2.0);
        map->gutter = gutter;
        double x = PANEL_PAD;
        for (size_t c = 0; c < map->graph.depth; c++) {
            map->graph.columns[c].left = x;
            x += map->graph.columns[c].width + gutter;
        }
        return high;
    }
    return 0.0;
}

/* Edges lie below the nodes, so they come first. */
static void draw_columns(struct map *map)
{
    for (size_t c = 0; c < map->graph.depth; c++) {
        struct map_column *at = &map->graph.columns[c];
        for (size_t i = 0; i < at->slots.count; i++)
            at->slots.items[i].y += map->top;
    }
    draw_edges(map);
    for (size_t c = 0; c < map->graph.depth; c++) {
        const struct map_column *at = &map->graph.columns[c];
        for (size_t i = 0; i < at->slots.count; i++)
            if (!at->slots.items[i].passes)
                draw_node(map, &map->graph.nodes.items[at->slots.items[i].node],
                          picture_side(map, at->slots.items[i].node), at->left,
                          at->slots.items[i].y);
    }
}

/* The steps in rows, as many as it takes. ensures: how high they are. */
static double draw_list(struct map *map, double width)
{
    const size_t columns = map->graph.nodes.count > 24 ? 5 : 4;
    const double cell = (width + SPACE_LINE) / (double)columns;
    map->picture = map->last = MM(7.0);
    map->words = cell - SPACE_LINE - map->picture - WORDS_GAP;
    double y = map->top, high = 0.0;
    for (size_t i = 0; i < map->graph.nodes.count; i++) {
        if (i > 0 && i % columns == 0) {
            y += high + MM(1.6);
            high = 0.0;
        }
        double row = map->picture; /* all of a row are in line */
        for (size_t k = i - i % columns;
             k < map->graph.nodes.count && k < i - i % columns + columns; k++)
            row = fmax(row, words_size(map, &map->graph.nodes.items[k]).height);
        high = row;
        draw_node(map, &map->graph.nodes.items[i], map->picture,
                  PANEL_PAD + cell * (double)(i % columns), y + row / 2.0);
    }
    return y + high - map->top;
}

/* Columns where they fit the height, else a plain list of the steps. The panel
 * is drawn last but lies behind, as its height follows from the map. */
struct box *step_map(const struct booklet *booklet, double width, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct map map = {.booklet = booklet, .graph = step_graph(booklet)};
    const double inner = width - 2.0 * PANEL_PAD;
    map.top = PANEL_PAD_DOWN;
    map.box = box_new(canvas, width, 0.0);
    if (map.graph.nodes.count == 0)
        return map.box;
    const double high = fit_columns(&map, inner, height - 2.0 * PANEL_PAD_DOWN);
    if (high > 0.0)
        draw_columns(&map);
    const double used = high > 0.0 ? high : draw_list(&map, inner);
    map.box->height = used + 2.0 * PANEL_PAD_DOWN;
    struct box *panel = box_new(canvas, width, map.box->height);
    box_rectangle(canvas, panel, 0.0, 0.0, width, panel->height,
                  (struct path_item){.filled = true, .fill = pale});
    box_put(canvas, panel, map.box, 0.0, 0.0);
    return panel;
}
