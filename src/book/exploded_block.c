/* The first block of a quilt apart, every part with the name that its step
 * uses: what is met here is never met under another name. Read next:
 * apart.c. */
#include <math.h>

#include "apart.h"
#include "overview.h"

/* ---- cloths and leaders ---- */

/* Turned clockwise by quarter turns; x and y are the upper left corner of what
 * comes of it. The outline goes around the turned cloth. */
void draw_cloth(const struct booklet *booklet, struct box *box,
                const struct cloth *cloth, unsigned turn, double x, double y,
                double scale)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double across = rational_double(cloth->width);
    const double down = rational_double(cloth->height);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        struct point points[64];
        const size_t count = face->count < 64 ? face->count : 64;
        for (size_t k = 0; k < count; k++) {
            const double at_x = rational_double(face->points[k].x);
            const double at_y = rational_double(face->points[k].y);
            const struct point ways[4] = {{at_x, at_y},
                                          {down - at_y, at_x},
                                          {across - at_x, down - at_y},
                                          {at_y, across - at_x}};
            points[k] = (struct point){x + ways[turn % 4].x * scale,
                                       y + ways[turn % 4].y * scale};
        }
        box_polygon(canvas, box, points, count,
                    face_fill(canvas, booklet->plan->colorway, face->fabric,
                              face->wrong_side, SHADE_DONE));
    }
    const bool lies = turn % 2 == 1;
    box_rectangle(canvas, box, x, y, (lies ? down : across) * scale,
                  (lies ? across : down) * scale, outline_wide());
}

/* The dot has a white rim, so that it is seen on dark cloth, too. */
void draw_leader(const struct canvas *canvas, struct box *box,
                 const struct point *points, size_t count)
{
    const struct path_item lines[2] = {casing(LINE_FINE), outline_narrow()};
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i + 1 < count; i++)
            box_stroke(canvas, box, points[i].x, points[i].y, points[i + 1].x,
                       points[i + 1].y, lines[pass]);
    const double radius[2] = {MM(0.9), MM(0.55)};
    for (int pass = 0; pass < 2; pass++) {
        enum { CORNERS = 16 };
        struct point dot[CORNERS];
        for (int i = 0; i < CORNERS; i++) {
            const double angle = 2.0 * acos(-1.0) * i / CORNERS;
            dot[i] =
                (struct point){points[count - 1].x + radius[pass] * cos(angle),
                               points[count - 1].y + radius[pass] * sin(angle)};
        }
        box_polygon(canvas, box, dot, CORNERS,
                    (struct path_item){.filled = true,
                                       .fill = pass == 0 ? white : ink});
    }
}

/* ---- names ---- */

/* A name, the part that it is led to, and its place beside the block. */
struct named_part {
    const char *text;
    size_t heap;
    LIST(struct point) places; /* where it could lead, in the block */
    struct point at;           /* the one that was chosen */
    bool chosen, left;         /* at the block's left */
    double y, width, height;   /* middle and size of its lines */
};

struct naming {
    const struct booklet *booklet;
    LIST(struct named_part) names;
};

/* A cut piece by its label and cloth, all else as its step is called. */
static const char *part_text(const struct booklet *booklet, size_t index)
{
    const struct wording *w = &booklet->wording;
    const struct heap *heap = &booklet->quilt->heaps.items[index];
    if (heap->technique != TECHNIQUE_CUT)
        return word_heap(w, index);
    return say(w->arena, w->phrases, "glance.cut-part", "label",
               heap->of.cut.label, "cloth",
               booklet->plan->colorway->bolts[heap->of.cut.fabric].name, NULL);
}

/* How far a point lies from the nearer side of the block. */
static double from_side(struct point at, double width)
{
    return fmin(at.x, width - at.x);
}

/* ensures: the name of the heap, added where it is not there yet: parts that
 * are alike share a name and a line. */
static struct named_part *name_of(struct naming *naming, size_t heap)
{
    for (size_t i = 0; i < naming->names.count; i++)
        if (naming->names.items[i].heap == heap)
            return &naming->names.items[i];
    struct named_part *name =
        LIST_ADD(naming->booklet->wording.arena, &naming->names);
    *name = (struct named_part){.text = part_text(naming->booklet, heap),
                                .heap = heap};
    return name;
}

/* Each kind of part is named once. A leader ends about a third of the way in
 * from the side: clear of the seams that meet in the middle. */
static void name_parts(struct naming *naming, const struct apart *e,
                       double left, double top, double width)
{
    for (size_t i = 0; i < e->parts.count; i++) {
        const struct loose_part *part = &e->parts.items[i];
        const double x = left + part->left, y = top + part->top;
        if (part->inside != NULL) {
            name_parts(naming, part->inside, x, y, width);
            continue;
        }
        struct named_part *name = name_of(naming, part->heap);
        const double middle = x + part->wide / 2.0;
        const double share = middle < width / 2.0 ? 0.36 : 0.64;
        *LIST_ADD(naming->booklet->wording.arena, &name->places) =
            (struct point){x + part->wide * share, y + part->high * 0.42};
    }
}

/* What speaks against leading a name to a place: the way across the block, and
 * names that stand at the same height of the same side. */
static double place_cost(const struct naming *naming, struct point at,
                         double width)
{
    const double line = MM(5.0);
    double cost = from_side(at, width);
    for (size_t i = 0; i < naming->names.count; i++) {
        const struct named_part *other = &naming->names.items[i];
        if (!other->chosen || other->left != (at.x < width / 2.0))
            continue;
        cost += MM(1.5) + 3.0 * fmax(line - fabs(other->at.y - at.y), 0.0);
    }
    return cost;
}

/* Names that can be led to few places choose first. */
static void choose_places(struct naming *naming, double width)
{
    for (size_t done = 0; done < naming->names.count; done++) {
        struct named_part *next = NULL;
        for (size_t i = 0; i < naming->names.count; i++) {
            struct named_part *name = &naming->names.items[i];
            if (!name->chosen &&
                (next == NULL || name->places.count < next->places.count))
                next = name;
        }
        double least = HUGE_VAL;
        for (size_t i = 0; i < next->places.count; i++) {
            const double cost =
                place_cost(naming, next->places.items[i], width);
            if (cost < least) {
                least = cost;
                next->at = next->places.items[i];
            }
        }
        next->left = next->at.x < width / 2.0;
        next->chosen = true;
    }
}

/* Between two names of a side. */
static const double name_gap = MM(1.0);

/* Down each side in the order of what they name, so that no leader crosses
 * another; as near to it as the lines above allow. ensures: how far down they
 * reach. */
static double place_names(struct naming *naming, double height)
{
    double end = height;
    for (int side = 0; side < 2; side++) {
        struct named_part *order[64];
        size_t count = 0;
        for (size_t i = 0; i < naming->names.count && count < 64; i++) {
            struct named_part *name = &naming->names.items[i];
            if (name->left != (side == 0))
                continue;
            size_t at = count++;
            for (; at > 0 && order[at - 1]->at.y > name->at.y; at--)
                order[at] = order[at - 1];
            order[at] = name;
        }
        double lowest = height;
        for (size_t i = count; i-- > 0;) {
            const double half = order[i]->height / 2.0;
            order[i]->y = fmin(order[i]->at.y, lowest - half);
            lowest = order[i]->y - half - name_gap;
        }
        double highest = 0.0;
        for (size_t i = 0; i < count; i++) {
            const double half = order[i]->height / 2.0;
            order[i]->y = fmax(order[i]->y, highest + half);
            highest = order[i]->y + half + name_gap;
        }
        end = fmax(end, highest - name_gap);
    }
    return end;
}

/* ---- the figure ---- */

/* Recursive, as the parts of a block may be taken apart themselves. */
static void draw_parts(const struct booklet *booklet, struct box *box,
                       const struct apart *e, double left, double top,
                       double scale)
{
    for (size_t i = 0; i < e->parts.count; i++) {
        const struct loose_part *part = &e->parts.items[i];
        const double x = left + part->left, y = top + part->top;
        if (part->inside != NULL) {
            draw_parts(booklet, box, part->inside, x, y, scale);
            continue;
        }
        struct arena *scratch = arena_create();
        draw_cloth(booklet, box,
                   finished_cloth(
                       scratch, booklet->quilt->heaps.items[part->heap].cloth),
                   part->turn, x, y, scale);
        arena_destroy(scratch);
    }
}

static const double leader_room = MM(7.0);

/* Long names have two lines or more. ensures: how wide the names of a side are,
 * with the room of their leaders. */
static double names_width(struct naming *naming, bool left, double most)
{
    const struct canvas *canvas = &naming->booklet->flow.canvas;
    double width = 0.0;
    for (size_t i = 0; i < naming->names.count; i++) {
        struct named_part *name = &naming->names.items[i];
        if (name->left != left)
            continue;
        const struct text_extent extent =
            typeset_measure(canvas->typeset, name->text, style_figure(), most);
        name->width = extent.width;
        name->height = extent.height;
        width = fmax(width, name->width + leader_room);
    }
    return width;
}

/* The line ends 2 points before the words. */
static void draw_names(const struct naming *naming, struct box *box,
                       double left, double width)
{
    const struct canvas *canvas = &naming->booklet->flow.canvas;
    for (size_t i = 0; i < naming->names.count; i++) {
        const struct named_part *name = &naming->names.items[i];
        struct text_style style = style_figure();
        style.align = name->left ? ALIGN_RIGHT : ALIGN_LEFT;
        const double x =
            name->left ? left - leader_room : left + width + leader_room;
        const struct point points[2] = {
            {name->left ? x + 2.0 : x - 2.0, name->y},
            {left + name->at.x, name->at.y}};
        draw_leader(canvas, box, points, 2);
        /* A little wider than measured, so that no line breaks anew. */
        const double wide = name->width + 1.0;
        box_words(canvas, box, name->left ? x - wide : x,
                  name->y - name->height / 2.0, name->text, style, wide);
    }
}

struct box *exploded_block(const struct booklet *booklet,
                           const struct heap *block, double width,
                           double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct apart *e = take_apart(booklet, block);
    struct naming naming = {.booklet = booklet};
    double scale = apart_scale(canvas->arena, e, width * 0.55, height);
    double left = 0.0, right = 0.0;
    /* Names take room from the block, and its size decides where they stand:
     * the second laying is near enough. */
    for (int pass = 0; pass < 3; pass++) {
        lay_apart(canvas->arena, e, scale);
        naming.names.count = 0;
        name_parts(&naming, e, 0.0, 0.0, e->width);
        choose_places(&naming, e->width);
        left = names_width(&naming, true, width * 0.26);
        right = names_width(&naming, false, width * 0.26);
        if (pass < 2)
            scale = apart_scale(canvas->arena, e, width - left - right, height);
    }
    struct box *box = box_new(canvas, width, place_names(&naming, e->height));
    const double at = left + fmax((width - left - right - e->width) / 2.0, 0.0);
    draw_parts(booklet, box, e, at, 0.0, scale);
    draw_names(&naming, box, at, e->width);
    return box;
}
