/* Backing, layers and binding: what comes after the top, as steps that go on
 * with the numbers of the others. Each says nothing where the source does not
 * ask for it. Read next: layers_figure.c. */
#include "finishing_figures.h"
#include "frames.h"
#include "steps.h"
#include "structure.h"
#include "trade.h"

/* ---- what the steps share ---- */

/* Behind the last of the steps that are sewn; `count` steps of finishing come
 * before. */
static size_t next_step(const struct booklet *booklet, size_t count)
{
    size_t last = 0;
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++)
        if (booklet->quilt->heaps.items[i].step > last)
            last = booklet->quilt->heaps.items[i].step;
    return last + 1 + count;
}

/* One step of this part, in one size of its figures. */
struct finish {
    struct booklet *booklet;
    double size; /* of figures, of their usual one; they fill their frames */
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
static void add_head(struct finish *finish, size_t number, const char *title,
                     const char *place)
{
    struct booklet *booklet = finish->booklet;
    const struct step_head head = {
        .number = number, .title = title, .right = ""};
    struct box *box = step_head(booklet, &head, booklet->flow.canvas.width);
    box->place = place;
    add_box(finish, box, finish->drawn.boxes.count > 0 ? SPACE_HALF : 0.0,
            false);
}

/* ---- backing and layers ---- */

/* Wider than seams of the top, as the trade has it; the number stands in
 * trade.c. */
static const char *backing_seam(const struct wording *w)
{
    return word_length_unit(
        w, trade_length(TRADE_BACKING_SEAM, w->design->pattern->units));
}

/* Panels that were cut with the pieces have labels. */
static const char *together_text(const struct wording *w,
                                 const struct backing_plan *backing)
{
    const char *const *labels = backing->labels;
    const char *both = labels[0] == NULL   ? labels[1]
                       : labels[1] == NULL ? labels[0]
                                           : arena_printf(w->arena, "%s, %s",
                                                          labels[0], labels[1]);
    const char *size = word_size_unit(w, backing->width, backing->height);
    if (backing->panels == 1)
        return say(w->arena, w->phrases, "backing.together-one", "label", both,
                   "size", size, NULL);
    return say(w->arena, w->phrases,
               backing->seams_vertical ? "backing.together-down"
                                       : "backing.together-across",
               "count", say_count(w->arena, backing->panels), "labels", both,
               "seam", backing_seam(w), "size", size, NULL);
}

/* The seam of a backing is half an inch, whatever the pattern's seam: it is
 * pressed open and carries weight (published practice; cut/cut.c counts it).
 * One panel needs no seam, so its selvages may stay until it is trimmed. */
static const char *panels_text(const struct wording *w,
                               const struct backing_plan *backing)
{
    const char *size = word_size_unit(w, backing->width, backing->height);
    const char *length = word_length_unit(w, backing->panel_length);
    const char *text =
        backing->together ? together_text(w, backing)
        : backing->panels == 1
            ? say(w->arena, w->phrases, "backing.one", "length", length, "size",
                  size, NULL)
            : say(w->arena, w->phrases,
                  backing->seams_vertical ? "backing.down" : "backing.across",
                  "count", say_count(w->arena, backing->panels), "length",
                  length, "seam", backing_seam(w), "size", size, NULL);
    return backing->one_way
               ? word_then(w, text,
                           say(w->arena, w->phrases, "backing.print", "count",
                               say_count(w->arena, backing->panels), NULL))
               : text;
}

/* The figure in words, for those who do not see it. */
static const char *panels_told(const struct wording *w,
                               const struct backing_plan *backing)
{
    return say(w->arena, w->phrases,
               backing->panels == 1      ? "backing.told-one"
               : backing->seams_vertical ? "backing.told-down"
                                         : "backing.told-across",
               "count", say_count(w->arena, backing->panels), NULL);
}

/* What is taken: the cloth of the backing, the batting. */
static void add_layer_parts(struct finish *finish)
{
    struct booklet *booklet = finish->booklet;
    const struct wording *w = &booklet->wording;
    const struct cutplan *plan = booklet->plan;
    struct part_entry entries[2];
    size_t count = 0;
    if (plan->backing.wanted)
        entries[count++] = (struct part_entry){
            .picture = swatch_box(booklet, plan->backing.fabric, PART_HEIGHT),
            .label = say(w->arena, w->phrases, "backing.title", NULL),
            .words = say(w->arena, w->phrases, "backing.part", "cloth",
                         plan->backing.bolt->name, "amount",
                         word_backing_amount(w, &plan->backing), NULL),
            .count = ""};
    if (plan->batting_wanted)
        entries[count++] = (struct part_entry){
            .label = say(w->arena, w->phrases, "layers.part", NULL),
            .words =
                word_size_unit(w, plan->batting_width, plan->batting_height),
            .count = ""};
    add_box(finish,
            parts_line(booklet, entries, count, booklet->flow.canvas.width),
            SPACE_QUARTER, false);
}

/* The batting's maker knows how far apart lines may be; so words defer to that.
 */
static size_t layer_frames(const struct finish *finish, struct framed frames[2])
{
    enum { COLUMNS = 4 };
    struct booklet *booklet = finish->booklet;
    const struct wording *w = &booklet->wording;
    const struct cutplan *plan = booklet->plan;
    const double room = room_of(finish, COLUMNS, false);
    if (!plan->batting_wanted)
        return 0;
    frames[0] = (struct framed){layers_figure(booklet, room),
                                say(w->arena, w->phrases, "layers.baste", NULL),
                                say(w->arena, w->phrases, "layers.told", NULL),
                                COLUMNS, false};
    const bool known = rational_known(plan->batting_gap);
    frames[1] = (struct framed){
        quilting_figure(booklet, room),
        known ? say(w->arena, w->phrases, "layers.quilt-gap", "gap",
                    word_length_unit(w, plan->batting_gap), NULL)
              : say(w->arena, w->phrases, "layers.quilt", NULL),
        say(w->arena, w->phrases, "layers.told-quilt", NULL), COLUMNS, false};
    return 2;
}

/* By what the source asks for. */
static const char *layers_title(const struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    if (!booklet->plan->batting_wanted)
        return say(w->arena, w->phrases, "backing.title", NULL);
    return booklet->plan->backing.wanted
               ? say(w->arena, w->phrases, "backing.layers", NULL)
               : say(w->arena, w->phrases, "layers.title", NULL);
}

/* One row: panels, layers, quilting. */
static void add_layers(struct finish *finish, size_t number)
{
    enum { COLUMNS = 4 };
    struct booklet *booklet = finish->booklet;
    const struct backing_plan *backing = &booklet->plan->backing;
    struct framed frames[3];
    size_t count = 0;
    if (backing->wanted)
        frames[count++] = (struct framed){
            backing_figure(booklet, room_of(finish, COLUMNS, false)),
            panels_text(&booklet->wording, backing),
            panels_told(&booklet->wording, backing), COLUMNS, false};
    count += layer_frames(finish, frames + count);
    add_head(finish, number, layers_title(booklet), NULL);
    add_layer_parts(finish);
    add_box(finish, frames_row(booklet, frames, count, 'a'), SPACE_QUARTER,
            true);
}

/* ---- binding ---- */

/* How long the loose ends are, and how much of a side stays open for them: what
 * the strips are planned to give beyond the edge, but not more than half of the
 * longest side. Both ends then reach over the open part together. */
static struct rational loose_end(const struct booklet *booklet)
{
    const struct rational side =
        rational_max(booklet->quilt->width, booklet->quilt->height);
    const struct rational half = rational_div(side, rational_whole(2));
    const struct rational tail = booklet->plan->binding.tail;
    if (rational_compare(tail, half) <= 0)
        return tail;
    return rational_floor(half) > 0 ? rational_whole(rational_floor(half))
                                    : half;
}

/* Its label leads to the cutting of its cloth. */
static void add_binding_parts(struct finish *finish)
{
    struct booklet *booklet = finish->booklet;
    const struct wording *w = &booklet->wording;
    const struct binding_plan *binding = &booklet->plan->binding;
    const struct fabric_plan *fabric = &booklet->plan->fabrics[binding->fabric];
    const char *label = binding->labels;
    const struct part_entry entry = {
        .picture = swatch_box(booklet, binding->fabric, PART_HEIGHT),
        .label = label,
        .words = say(w->arena, w->phrases, "binding.part", "cloth",
                     fabric->bolt->name, "count",
                     say_count(w->arena, binding->strips), "width",
                     word_length_unit(w, binding->width), "length",
                     word_length_unit(w, binding->length), NULL),
        .count = "",
        .place = place_cloth(w->arena, binding->fabric),
        .told =
            say(w->arena, w->phrases, "link.cutting", "label", label, "fabric",
                booklet->design->fabrics.items[binding->fabric].name, NULL)};
    add_box(finish, parts_line(booklet, &entry, 1, booklet->flow.canvas.width),
            SPACE_QUARTER, false);
}

enum { BINDING_COLUMNS = 3, BINDING_FRAMES = 8 };

/* From the strip to the first corner. One strip alone needs no join. */
static size_t strip_frames(struct booklet *booklet,
                           const struct binding_view *view,
                           struct framed *frames)
{
    const struct wording *w = &booklet->wording;
    const struct binding_plan *binding = &booklet->plan->binding;
    const char *seam = word_length_unit(w, booklet->design->pattern->seam);
    const char *tail = word_length_unit(w, loose_end(booklet));
    size_t count = 0;
    if (binding->strips > 1)
        frames[count++] = (struct framed){
            binding_join(view),
            say(w->arena, w->phrases, "binding.join", "count",
                say_count(w->arena, binding->strips), "seam", seam, NULL),
            say(w->arena, w->phrases, "binding.told-join", NULL),
            BINDING_COLUMNS, false};
    frames[count++] = (struct framed){
        binding_fold(view), say(w->arena, w->phrases, "binding.fold", NULL),
        say(w->arena, w->phrases, "binding.told-fold", NULL), BINDING_COLUMNS,
        false};
    frames[count++] =
        (struct framed){binding_start(view, tail),
                        say(w->arena, w->phrases, "binding.start", "tail", tail,
                            "seam", seam, NULL),
                        say(w->arena, w->phrases, "binding.told-start", NULL),
                        BINDING_COLUMNS, false};
    frames[count++] = (struct framed){
        binding_stop(view),
        say(w->arena, w->phrases, "binding.stop", "seam", seam, NULL),
        say(w->arena, w->phrases, "binding.told-stop", NULL), BINDING_COLUMNS,
        false};
    return count;
}

/* From the corner to the label. */
static size_t corner_frames(const struct finish *finish,
                            const struct binding_view *view,
                            struct framed *frames)
{
    struct booklet *booklet = finish->booklet;
    const struct wording *w = &booklet->wording;
    frames[0] = (struct framed){
        binding_up(view), say(w->arena, w->phrases, "binding.up", NULL),
        say(w->arena, w->phrases, "binding.told-up", NULL), BINDING_COLUMNS,
        false};
    frames[1] = (struct framed){
        binding_down(view), say(w->arena, w->phrases, "binding.down", NULL),
        say(w->arena, w->phrases, "binding.told-down", NULL), BINDING_COLUMNS,
        false};
    frames[2] = (struct framed){
        binding_close(view),
        say(w->arena, w->phrases, "binding.close", "gap",
            word_length_unit(w, loose_end(booklet)), "width",
            word_length_unit(w, booklet->plan->binding.width), NULL),
        say(w->arena, w->phrases, "binding.told-close", NULL), BINDING_COLUMNS,
        false};
    frames[3] = (struct framed){
        binding_back(view, room_of(finish, BINDING_COLUMNS, true)),
        say(w->arena, w->phrases, "binding.back", NULL),
        say(w->arena, w->phrases, "binding.told-back", NULL), BINDING_COLUMNS,
        true};
    return 4;
}

/* Two rows, and how the length comes about. */
static void add_binding(struct finish *finish, size_t number)
{
    enum { ROW = 4 };
    struct booklet *booklet = finish->booklet;
    const struct wording *w = &booklet->wording;
    const struct binding_plan *binding = &booklet->plan->binding;
    const struct binding_view view =
        binding_view(booklet, room_of(finish, BINDING_COLUMNS, false));
    struct framed frames[BINDING_FRAMES];
    size_t count = strip_frames(booklet, &view, frames);
    count += corner_frames(finish, &view, frames + count);
    add_head(finish, number, say(w->arena, w->phrases, "binding.title", NULL),
             place_binding());
    add_binding_parts(finish);
    for (size_t i = 0; i < count; i += ROW)
        add_box(finish,
                frames_row(booklet, frames + i,
                           count - i < ROW ? count - i : ROW,
                           (char)('a' + (int)i)),
                i == 0 ? SPACE_QUARTER : SPACE_HALF, false);
    add_box(finish,
            note_box(booklet, say(w->arena, w->phrases, "binding.check", NULL),
                     say(w->arena, w->phrases, "binding.length", "edge",
                         word_length_unit(
                             w, rational_sub(binding->length, binding->tail)),
                         "length", word_length_unit(w, binding->length), NULL),
                     booklet->flow.canvas.width),
            SPACE_HALF, true);
}

/* ---- portions ---- */

/* The head of the section stands above the first of its steps. */
static void add_title(struct finish *finish)
{
    const struct wording *w = &finish->booklet->wording;
    struct box *head = flow_head(
        &finish->booklet->flow,
        say(w->arena, w->phrases, "finishing.title", NULL), "", false);
    drawn_add(w->arena, &finish->drawn, head, 0.0);
}

/* Larger than their frames they cannot be. */
static struct portion
finish_portion(struct booklet *booklet, size_t number, bool first,
               void (*add)(struct finish *finish, size_t number))
{
    struct portion portion = {.space = first ? SPACE_MOST : STEP_GAP};
    for (size_t k = 0; k < SIZES; k++) {
        struct finish finish = {booklet, figure_sizes[k], {.height = 0.0}};
        if (k < USUAL_SIZE)
            finish.size = 1.0;
        if (first)
            add_title(&finish);
        add(&finish, number);
        portion.drawn[k] = finish.drawn;
    }
    return portion;
}

void finishing_portions(struct booklet *booklet, struct portions *portions)
{
    struct arena *arena = booklet->wording.arena;
    const struct cutplan *plan = booklet->plan;
    const bool layers = plan->backing.wanted || plan->batting_wanted;
    if (layers)
        *LIST_ADD(arena, &portions->items) =
            finish_portion(booklet, next_step(booklet, 0), true, add_layers);
    if (plan->binding.wanted)
        *LIST_ADD(arena, &portions->items) = finish_portion(
            booklet, next_step(booklet, layers ? 1 : 0), !layers, add_binding);
}
