/* The pages on quilting: map and areas, stages, lines, paths, threads. Figures
 * of areas that no page shows are made here, too, for who asks for them. Read
 * next: quilting_figure.c. */
#include <math.h>

#include "frames.h"
#include "place.h"
#include "portion.h"
#include "quilting_figure.h"
#include "steps.h"
#include "structure.h"

/* ---- what the parts share ---- */

/* What a figure says decides who draws it. */
static struct box *figure_of(struct booklet *booklet,
                             const struct told_figure *told, double width,
                             double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    if (told->drawing == DRAWING_QUILTING_STAGE)
        return quilting_stage(canvas, told->quilting, told->colorway,
                              told->stage, width, height);
    if (told->drawing == DRAWING_QUILTING_SEQUENCE)
        return quilting_sequence(canvas, told->quilting, told->colorway,
                                 told->kind, width, height);
    return quilting_map(canvas, told->quilting, told->colorway, width, height);
}

/* A part begins with its heading and what is said below it; both stay with what
 * follows. */
static void add_head(struct booklet *booklet, const struct contents *contents,
                     enum content_part part)
{
    struct flow *flow = &booklet->flow;
    const struct step_head head = {.title = heading_of(contents, part)->title,
                                   .right = ""};
    flow_add(flow, step_head(booklet, &head, flow->canvas.width), SPACE_STEP)
        ->keep_with_next = true;
    const struct content *words = content_of(contents, part, CONTENT_PARAGRAPH);
    if (words == NULL)
        return;
    flow_add(flow,
             place_paragraph(&flow->canvas, &words->as.paragraph, style_body(),
                             columns_wide(8)),
             SPACE_QUARTER)
        ->keep_with_next = true;
}

/* Rows of a table, each a box. */
static struct boxes rows_of(struct booklet *booklet,
                            const struct contents *contents,
                            enum content_part part, const double *widths)
{
    const struct table_look look = {widths, style_body(), false};
    return place_rows(&booklet->flow.canvas,
                      &content_of(contents, part, CONTENT_TABLE)->as.table,
                      &look);
}

/* A table that goes on over a page has its head again there; no row stands
 * alone, neither above the break nor below it. */
static void add_rows(struct booklet *booklet, struct boxes rows)
{
    for (size_t i = 0; i < rows.items.count; i++) {
        if (i > 0)
            rows.items.items[i]->again = rows.items.items[0];
        if (i <= 1 || i + 2 == rows.items.count)
            rows.items.items[i]->keep_with_next = i + 1 < rows.items.count;
        flow_add(&booklet->flow, rows.items.items[i],
                 i == 0 ? SPACE_HALF : 0.0);
    }
}

/* ---- stages ---- */

/* How stages stand: in one row, small, where paths have few starts; else so
 * large that four of them share a page with their heading. */
struct stage_look {
    int columns;
    double height;
};

static struct stage_look stages_look(const struct booklet *booklet,
                                     size_t stages)
{
    enum { HALF = 6, MEASURE = 12, FEW = 40 };
    const bool few = booklet->plan->quilting->starts <= FEW;
    const struct stage_look look = {
        stages == 3 || few ? MEASURE / (int)stages : HALF,
        frame_room(HALF, false) * (few ? 0.58 : 1.0)};
    return look;
}

/* Frames on their way into one row. */
struct frame_line {
    struct framed frames[4];
    size_t count;
    int columns;
};

/* Frames that are there are put, and the next line is empty. */
static void end_line(struct booklet *booklet, struct frame_line *line)
{
    if (line->count > 0)
        flow_add(&booklet->flow,
                 frames_row(booklet, line->frames, line->count, 0), SPACE_HALF);
    line->count = 0;
    line->columns = 0;
}

/* Of one kind, to know how many share a row. */
static size_t count_figures(const struct contents *contents,
                            enum content_part part)
{
    size_t count = 0;
    for (size_t i = 0; i < contents->items.count; i++)
        count += contents->items.items[i].part == part &&
                 contents->items.items[i].kind == CONTENT_FIGURE;
    return count;
}

/* Drawn and named. */
static struct framed stage_frame(struct booklet *booklet,
                                 const struct told_figure *told, int columns,
                                 double height)
{
    struct box *drawing =
        figure_of(booklet, told, frame_room(columns, false), height);
    name_quilting_figure(booklet, stage_figure(booklet, told->stage),
                         title_of_stage(&booklet->wording, told->stage),
                         drawing);
    return framed_as(told, drawing, columns);
}

/* As many in a row as the look has. */
static void add_stages(struct booklet *booklet, const struct contents *contents)
{
    enum { MEASURE = 12 };
    struct frame_line line = {.count = 0};
    const struct stage_look look =
        stages_look(booklet, count_figures(contents, PART_STAGES));
    add_head(booklet, contents, PART_STAGES);
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->part != PART_STAGES || content->kind != CONTENT_FIGURE)
            continue;
        line.frames[line.count++] = stage_frame(booklet, &content->as.figure,
                                                look.columns, look.height);
        line.columns += look.columns;
        if (line.columns == MEASURE)
            end_line(booklet, &line);
    }
    end_line(booklet, &line);
}

/* ---- paths ---- */

/* In the order of their letters; a frame that does not fit the line begins the
 * next one. */
static void add_sequences(struct booklet *booklet,
                          const struct contents *contents)
{
    struct frame_line line = {.count = 0};
    if (content_of(contents, PART_SEQUENCES, CONTENT_FIGURE) == NULL)
        return;
    add_head(booklet, contents, PART_SEQUENCES);
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->part != PART_SEQUENCES || content->kind != CONTENT_FIGURE)
            continue;
        const struct told_figure *told = &content->as.figure;
        const struct path_room fits = path_room(told);
        const int columns = fits.columns;
        if (line.columns + columns > 12)
            end_line(booklet, &line);
        const double room = frame_room(columns, false);
        struct box *drawing = figure_of(
            booklet, told, room,
            columns == 3 && fits.height < PATH_TALL ? room : fits.height);
        const struct quilted_kind *kind =
            &told->quilting->kinds.items[told->kind];
        name_quilting_figure(booklet, area_figure(booklet, kind, true),
                             title_of_area(&booklet->wording, kind, true),
                             drawing);
        line.frames[line.count++] = framed_as(told, drawing, columns);
        line.columns += columns;
    }
    end_line(booklet, &line);
}

/* ---- lines, threads, words ---- */

/* The names of lines and the words on finding them are long, numbers are not.
 */
static void add_lines(struct booklet *booklet, const struct contents *contents)
{
    const double wide = booklet->flow.canvas.width;
    const double widths[] = {wide * 0.30, wide * 0.41, wide * 0.08,
                             wide * 0.105, wide * 0.105};
    if (content_of(contents, PART_LINES, CONTENT_TABLE) == NULL)
        return;
    add_head(booklet, contents, PART_LINES);
    add_rows(booklet, rows_of(booklet, contents, PART_LINES, widths));
}

/* The note below the table stays with its last row. */
static void add_threads(struct booklet *booklet,
                        const struct contents *contents)
{
    const double wide = booklet->flow.canvas.width;
    const double widths[] = {wide * 0.13, wide * 0.30, wide * 0.09,
                             wide * 0.07, wide * 0.06, wide * 0.08,
                             wide * 0.11, wide * 0.08, wide * 0.08};
    const struct step_head head = {
        .title = heading_of(contents, PART_THREADS)->title, .right = ""};
    flow_add(&booklet->flow, step_head(booklet, &head, wide), SPACE_STEP)
        ->keep_with_next = true;
    add_rows(booklet, rows_of(booklet, contents, PART_THREADS, widths));
    booklet->flow.boxes.items[booklet->flow.boxes.count - 1]->keep_with_next =
        true;
    flow_add(
        &booklet->flow,
        place_paragraph(&booklet->flow.canvas,
                        &content_of(contents, PART_THREADS, CONTENT_PARAGRAPH)
                             ->as.paragraph,
                        style_body(), columns_wide(8)),
        SPACE_HALF);
}

/* Below its heading. */
static struct box *headed(struct booklet *booklet,
                          const struct contents *contents,
                          enum content_part part, struct box *below,
                          double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct step_head title = {.title = heading_of(contents, part)->title,
                                    .right = ""};
    struct box *head = step_head(booklet, &title, width);
    struct box *box =
        box_new(canvas, width, head->height + SPACE_QUARTER + below->height);
    box_put(canvas, box, head, 0.0, 0.0);
    box_put(canvas, box, below, 0.0, head->height + SPACE_QUARTER);
    return box;
}

/* How large it gets is asked before anything is stitched. */
static struct box *facts_box(struct booklet *booklet,
                             const struct contents *contents, double width)
{
    const struct told_paragraph *told =
        &content_of(contents, PART_FACTS, CONTENT_PARAGRAPH)->as.paragraph;
    return headed(
        booklet, contents, PART_FACTS,
        place_paragraph(&booklet->flow.canvas, told, style_body(), width),
        width);
}

static struct box *cautions_box(struct booklet *booklet,
                                const struct contents *contents, double width)
{
    const struct told_list *told =
        &content_of(contents, PART_CAUTIONS, CONTENT_LIST)->as.list;
    return headed(booklet, contents, PART_CAUTIONS,
                  place_list(&booklet->flow.canvas, told, width), width);
}

/* One at the left edge, one at the right, each with its width. */
static struct box *side_by_side(const struct canvas *canvas,
                                const struct box *left, const struct box *right)
{
    struct box *both =
        box_new(canvas, canvas->width, fmax(left->height, right->height));
    box_put(canvas, both, left, 0.0, 0.0);
    box_put(canvas, both, right, canvas->width - right->width, 0.0);
    return both;
}

/* Size and cautions side by side: short words, and many. They come before the
 * first stitch. */
static void add_before(struct booklet *booklet, const struct contents *contents)
{
    flow_add(&booklet->flow,
             side_by_side(&booklet->flow.canvas,
                          facts_box(booklet, contents, columns_wide(4)),
                          cautions_box(booklet, contents, columns_wide(8))),
             SPACE_STEP);
}

/* ---- the map ---- */

/* A map still tells its lines apart at this height; where its table would leave
 * less, it has the page to itself. */
#define MAP_LEAST MM(105.0)
/* Beside words it is as wide as half of the measure, and no higher than that. */
#define MAP_BESIDE MM(94.0)

/* Where what is said of the map stands. */
enum map_words { WORDS_ABOVE, WORDS_BELOW, WORDS_ELSEWHERE };

/* What is said of the map; of a plan of one stage it is long. */
static struct box *map_words(struct booklet *booklet,
                             const struct contents *contents, double width)
{
    return box_text(
        &booklet->flow.canvas,
        content_of(contents, PART_AREAS, CONTENT_FIGURE)->as.figure.caption,
        style_body(), fmin(width, columns_wide(8)));
}

/* `width` wide, the map no higher than `height`. */
static struct box *map_box(struct booklet *booklet,
                           const struct contents *contents, double width,
                           double height, enum map_words place)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct told_figure *told =
        &content_of(contents, PART_AREAS, CONTENT_FIGURE)->as.figure;
    struct box *map = figure_of(booklet, told, width, height);
    struct box *words = map_words(booklet, contents, width);
    const double below = place == WORDS_ELSEWHERE ? 0.0 : words->height;
    struct box *box = box_new(canvas, width, below + SPACE_HALF + map->height);
    if (place == WORDS_ABOVE)
        box_put(canvas, box, words, 0.0, 0.0);
    put_figure(booklet, box, map, (width - map->width) / 2.0,
               place == WORDS_ABOVE ? below + SPACE_HALF : 0.0, told->told);
    if (place == WORDS_BELOW)
        box_put(canvas, box, words, 0.0, map->height + SPACE_HALF);
    name_quilting_figure(booklet, "quilting",
                         title_of_quilting(&booklet->wording), map);
    return box;
}

/* The map takes the measure, or what the heading and the table below it leave
 * of the page. */
static void add_large_map(struct booklet *booklet,
                          const struct contents *contents, double below)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct box *head = flow->boxes.items[flow->boxes.count - 1];
    const struct box *words = map_words(booklet, contents, canvas->width);
    const double room = flow_page_height(flow) - head->height - words->height -
                        SPACE_LINE - SPACE_HALF - 1.0;
    flow_add(flow,
             map_box(booklet, contents, canvas->width,
                     room - below < MAP_LEAST ? room : room - below,
                     WORDS_ABOVE),
             SPACE_HALF);
}

/* Letter, cloth, filler, thread, areas, length in each. */
static struct boxes area_rows(struct booklet *booklet,
                              const struct contents *contents)
{
    const double wide = booklet->flow.canvas.width;
    const double widths[] = {wide * 0.08, wide * 0.27, wide * 0.29,
                             wide * 0.13, wide * 0.08, wide * 0.15};
    struct boxes none = {.items = {0}};
    return content_of(contents, PART_AREAS, CONTENT_TABLE) == NULL
               ? none
               : rows_of(booklet, contents, PART_AREAS, widths);
}

/* A page for the map of a long plan and its table. */
static void open_long(struct booklet *booklet, const struct contents *contents)
{
    const struct boxes rows = area_rows(booklet, contents);
    double below = SPACE_HALF;
    for (size_t i = 0; i < rows.items.count; i++)
        below += rows.items.items[i]->height;
    add_large_map(booklet, contents, below);
    add_rows(booklet, rows);
    add_before(booklet, contents);
    add_stages(booklet, contents);
}

/* Two stages stand side by side at half of the measure. */
static struct box *stages_box(struct booklet *booklet,
                              const struct contents *contents)
{
    enum { QUARTER = 3 };
    const struct canvas *canvas = &booklet->flow.canvas;
    struct framed frames[2];
    size_t count = 0;
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->part == PART_STAGES && content->kind == CONTENT_FIGURE)
            frames[count++] = stage_frame(booklet, &content->as.figure, QUARTER,
                                          frame_room(QUARTER, false));
    }
    const double width = columns_wide(6);
    struct box *words = place_paragraph(
        canvas,
        &content_of(contents, PART_STAGES, CONTENT_PARAGRAPH)->as.paragraph,
        style_body(), width);
    struct box *row = frames_row(booklet, frames, count, 0);
    struct box *below =
        box_new(canvas, width, words->height + SPACE_HALF + row->height);
    box_put(canvas, below, words, 0.0, 0.0);
    box_put(canvas, below, row, 0.0, words->height + SPACE_HALF);
    return headed(booklet, contents, PART_STAGES, below, width);
}

/* One below the other. */
static struct box *stacked(const struct canvas *canvas, struct box *above,
                           struct box *below)
{
    struct box *box = box_new(canvas, above->width,
                              above->height + SPACE_HALF + below->height);
    box_put(canvas, box, above, 0.0, 0.0);
    box_put(canvas, box, below, 0.0, above->height + SPACE_HALF);
    return box;
}

/* Cautions, and the size below them: both are read before the first stitch, and
 * there is no room for a second heading. */
static struct box *words_box(struct booklet *booklet,
                             const struct contents *contents)
{
    const double width = columns_wide(6);
    return stacked(
        &booklet->flow.canvas, cautions_box(booklet, contents, width),
        place_paragraph(
            &booklet->flow.canvas,
            &content_of(contents, PART_FACTS, CONTENT_PARAGRAPH)->as.paragraph,
            style_body(), width));
}

/* The map of a short plan is half as wide as the page. Beside it stands what is
 * said before the first stitch or, where there are two stages, their figures;
 * what is said of the map, too, where that is not higher than the map. */
static void open_short(struct booklet *booklet, const struct contents *contents,
                       double size)
{
    enum quilting_stage last;
    const size_t stages = quilting_stages(booklet->plan->quilting, &last);
    const struct canvas *canvas = &booklet->flow.canvas;
    const double width = columns_wide(6), height = MAP_BESIDE * size;
    if (content_of(contents, PART_AREAS, CONTENT_FIGURE) == NULL) {
        add_before(booklet, contents);
        return;
    }
    struct box *beside = stages > 1 ? stages_box(booklet, contents)
                                    : words_box(booklet, contents);
    struct box *words = map_words(booklet, contents, width);
    const bool fits =
        stages <= 1 && beside->height + words->height < MAP_BESIDE;
    if (stages > 1)
        add_before(booklet, contents);
    if (fits)
        beside = stacked(canvas, beside, words);
    flow_add(&booklet->flow,
             side_by_side(canvas,
                          map_box(booklet, contents, width - SPACE_HALF, height,
                                  fits ? WORDS_ELSEWHERE : WORDS_BELOW),
                          beside),
             stages > 1 ? SPACE_LINE : SPACE_HALF);
    add_rows(booklet, area_rows(booklet, contents));
}

/* A long path of the only stage has most of a page. */
static void add_whole_way(struct booklet *booklet,
                          const struct contents *contents, double size)
{
    enum { MEASURE = 12 };
    const struct content *content =
        content_of(contents, PART_STAGES, CONTENT_FIGURE);
    const struct flow *flow = &booklet->flow;
    const size_t boxes = flow->boxes.count;
    add_head(booklet, contents, PART_STAGES);
    double above = 0.0;
    for (size_t i = boxes; i < flow->boxes.count; i++)
        above += flow->boxes.items[i]->height + SPACE_LINE;
    const struct framed frame =
        stage_frame(booklet, &content->as.figure, MEASURE,
                    size * (flow_page_height(flow) - above - 4.0 * SPACE_LINE));
    flow_add(&booklet->flow, frames_row(booklet, &frame, 1, 0), SPACE_HALF);
}

/* ---- portions ---- */

/* Boxes and names that came into the booklet since there were so many. */
static struct drawn taken_back(struct booklet *booklet, size_t boxes,
                               size_t names)
{
    struct flow *flow = &booklet->flow;
    struct drawn drawn = {.height = 0.0};
    for (size_t i = boxes; i < flow->boxes.count; i++) {
        struct box *box = flow->boxes.items[i];
        box->keep_with_next = i + 1 < flow->boxes.count;
        drawn_add(flow->canvas.arena, &drawn, box,
                  i == boxes ? 0.0 : box->space_before);
    }
    flow->boxes.count = boxes;
    drawn_take_names(booklet, names, &drawn);
    return drawn;
}

/* What is told with a figure, as large as `size` says. */
typedef void add_sized(struct booklet *booklet, const struct contents *contents,
                       double size);

/* In two sizes of the figure: drawing more of them would take longer than all
 * else of a large quilt. */
static void add_sizes(struct booklet *booklet, const struct contents *contents,
                      add_sized *add, struct portions *portions)
{
    static const double SMALLER = 0.72;
    const size_t boxes = booklet->flow.boxes.count;
    const size_t names = booklet->named.count;
    struct portion portion = {.space = STEP_GAP};
    struct drawn drawn[2];
    for (int i = 0; i < 2; i++) {
        add(booklet, contents, i == 0 ? 1.0 : SMALLER);
        drawn[i] = taken_back(booklet, boxes, names);
    }
    for (size_t k = 0; k < SIZES; k++)
        portion.drawn[k] = drawn[k > USUAL_SIZE];
    *LIST_ADD(booklet->wording.arena, &portions->items) = portion;
}

/* The heading, the map and what stands beside it. */
static void add_opening(struct booklet *booklet,
                        const struct contents *contents, double size)
{
    const struct told_heading *heading = heading_of(contents, PART_MAIN);
    const struct step_head head = {.title = heading->title, .right = ""};
    struct box *box = step_head(booklet, &head, booklet->flow.canvas.width);
    box->outline = heading->title;
    flow_add(&booklet->flow, box, SPACE_MOST);
    open_short(booklet, contents, size);
}

/* What is told below the figures, each part whole. */
static void add_part(struct booklet *booklet, const struct contents *contents,
                     void (*add)(struct booklet *booklet,
                                 const struct contents *contents),
                     struct portions *portions)
{
    const size_t boxes = booklet->flow.boxes.count;
    const size_t names = booklet->named.count;
    struct portion portion = {.space = STEP_GAP, .one_size = true};
    add(booklet, contents);
    if (booklet->flow.boxes.count == boxes)
        return;
    portion.drawn[USUAL_SIZE] = taken_back(booklet, boxes, names);
    *LIST_ADD(booklet->wording.arena, &portions->items) = portion;
}

/* A long plan begins a page, and goes on over others as its tables do. */
static void add_long(struct booklet *booklet, const struct contents *contents)
{
    const struct told_heading *heading = heading_of(contents, PART_MAIN);
    flow_section(&booklet->flow, heading->title, heading->lead, true);
    open_long(booklet, contents);
    add_lines(booklet, contents);
    add_sequences(booklet, contents);
    add_threads(booklet, contents);
    section_quilting_marks(booklet);
}

/* After the layers, before the binding; nothing where none is planned. A short
 * plan shares pages with both. */
void section_quilting(struct booklet *booklet, struct portions *portions)
{
    const struct contents contents =
        tell_quilting(&booklet->wording, booklet->plan);
    enum quilting_stage last;
    if (contents.items.count == 0)
        return;
    if (!quilting_is_short(booklet->plan)) {
        place_portions(booklet, portions);
        portions->items.count = 0;
        add_long(booklet, &contents);
        return;
    }
    add_sizes(booklet, &contents, add_opening, portions);
    add_part(booklet, &contents, add_lines, portions);
    if (quilting_stages(booklet->plan->quilting, &last) == 1 &&
        content_of(&contents, PART_STAGES, CONTENT_FIGURE) != NULL)
        add_sizes(booklet, &contents, add_whole_way, portions);
    add_part(booklet, &contents, add_sequences, portions);
    add_part(booklet, &contents, add_threads, portions);
}
