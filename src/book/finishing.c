/* Backing, layers and binding, as portions of pages. Read next:
 * layers_figure.c. */
#include "finishing_figures.h"
#include "frames.h"
#include "place.h"
#include "steps.h"

/* One step of this part, in one size of its figures. */
struct finish {
    struct booklet *booklet;
    double size; /* of figures, of their usual one; they fill their frames, and
                    details of the binding are lower alone */
    struct drawn drawn;
};

/* All but the last keep with the next one, so that none is split. */
static void add_box(struct finish *finish, struct box *box, double space,
                    bool last)
{
    box->keep_with_next = !last;
    drawn_add(finish->booklet->wording.arena, &finish->drawn, box, space);
}

static double room_of(const struct finish *finish, int columns, bool result)
{
    return frame_room(columns, result) * finish->size;
}

/* The first one stands right below the head of the section. */
static void add_head(struct finish *finish, const struct told_work *work)
{
    struct booklet *booklet = finish->booklet;
    const struct step_head head = {
        .number = work->number, .title = work->title, .right = work->made};
    struct box *box = step_head(booklet, &head, booklet->flow.canvas.width);
    const double width = booklet->flow.canvas.width;
    box->place = work->place;
    add_box(finish, box, finish->drawn.boxes.count > 0 ? SPACE_HALF : 0.0,
            false);
    add_box(finish, place_entries(booklet, work, width), SPACE_QUARTER, false);
}

/* ---- backing and layers ---- */

static struct box *draw_layer(const struct finish *finish,
                              enum drawing_kind drawing, int columns)
{
    const double room = room_of(finish, columns, false);
    return drawing == DRAWING_BACKING  ? backing_figure(finish->booklet, room)
           : drawing == DRAWING_LAYERS ? layers_figure(finish->booklet, room)
                                       : quilting_figure(finish->booklet, room);
}

/* One row: panels, layers, quilting. */
static void add_layers(struct finish *finish, const struct told_work *work)
{
    enum { COLUMNS = 4, MOST = 3 };
    struct framed frames[MOST];
    const size_t count = work->frames.count;
    for (size_t i = 0; i < count && i < MOST; i++) {
        const struct told_figure *told = &work->frames.items[i];
        frames[i] = framed_as(told, draw_layer(finish, told->drawing, COLUMNS),
                              COLUMNS);
    }
    add_head(finish, work);
    add_box(finish, frames_row(finish->booklet, frames, count, 'a'),
            SPACE_QUARTER, true);
}

/* ---- binding ---- */

enum { BINDING_COLUMNS = 3, BINDING_FRAMES = 8 };

/* The last is drawn on the panel, which leaves it less room. */
static struct box *draw_binding(const struct binding_view *view,
                                const struct told_figure *told)
{
    static struct box *(*const draw[])(const struct binding_view *) = {
        [DRAWING_BINDING_JOIN] = binding_join,
        [DRAWING_BINDING_FOLD] = binding_fold,
        [DRAWING_BINDING_STOP] = binding_stop,
        [DRAWING_BINDING_UP] = binding_up,
        [DRAWING_BINDING_DOWN] = binding_down,
        [DRAWING_BINDING_CLOSE] = binding_close};
    return told->drawing == DRAWING_BINDING_START
               ? binding_start(view, told->labels.items[0])
           : told->drawing == DRAWING_BINDING_BACK
               ? binding_back(view, frame_room(BINDING_COLUMNS, true))
               : draw[told->drawing](view);
}

/* Two rows, and how the length comes about. */
static void add_binding(struct finish *finish, const struct told_work *work)
{
    enum { ROW = 4 };
    struct booklet *booklet = finish->booklet;
    const struct binding_view view =
        binding_view(booklet, frame_room(BINDING_COLUMNS, false), finish->size);
    struct framed frames[BINDING_FRAMES];
    const size_t count = work->frames.count;
    for (size_t i = 0; i < count && i < BINDING_FRAMES; i++)
        frames[i] = framed_as(&work->frames.items[i],
                              draw_binding(&view, &work->frames.items[i]),
                              BINDING_COLUMNS);
    add_head(finish, work);
    for (size_t i = 0; i < count; i += ROW)
        add_box(finish,
                frames_row(booklet, frames + i,
                           count - i < ROW ? count - i : ROW,
                           (char)('a' + (int)i)),
                i == 0 ? SPACE_QUARTER : SPACE_HALF, false);
    add_box(
        finish,
        note_box(booklet, &work->after.items[0], booklet->flow.canvas.width),
        SPACE_HALF, true);
}

/* ---- portions ---- */

/* Larger than their frames they cannot be. The head of the section, if there is
 * one, stands above the first of its steps. */
static struct portion finish_portion(struct booklet *booklet,
                                     const struct content *content,
                                     const struct told_heading *heading)
{
    struct portion portion = {.space = heading != NULL ? SPACE_MOST : STEP_GAP};
    for (size_t k = 0; k < SIZES; k++) {
        struct finish finish = {booklet, figure_sizes[k], {.height = 0.0}};
        if (k < USUAL_SIZE)
            finish.size = 1.0;
        if (heading != NULL)
            drawn_add(
                booklet->wording.arena, &finish.drawn,
                flow_head(&booklet->flow, heading->title, heading->lead, false),
                0.0);
        if (content->part == PART_LAYERS)
            add_layers(&finish, &content->as.work);
        else
            add_binding(&finish, &content->as.work);
        portion.drawn[k] = finish.drawn;
    }
    return portion;
}

void finishing_portions(struct booklet *booklet, enum content_part part,
                        struct portions *portions)
{
    const struct contents contents =
        tell_finishing(&booklet->wording, booklet->plan);
    const struct told_heading *heading = NULL;
    for (size_t i = 0; i < contents.items.count; i++) {
        const struct content *content = &contents.items.items[i];
        if (content->kind == CONTENT_WORK && content->part == part)
            *LIST_ADD(booklet->wording.arena, &portions->items) =
                finish_portion(booklet, content, heading);
        heading =
            content->kind == CONTENT_HEADING ? &content->as.heading : NULL;
    }
}
