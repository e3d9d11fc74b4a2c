/* Words along drawn lines in figures, each where it lies clear of the line and
 * of the edges of its cloth. */
#include "figure_parts.h"

#include <math.h>

struct shown_edges face_edges(const struct figure *figure,
                              const struct shown_face *shown)
{
    const size_t count = shown->face.count;
    struct point *points =
        ARENA_ARRAY(figure->canvas->arena, struct point, count);
    for (size_t i = 0; i < count; i++)
        points[i] = shown_point(figure, shown->face.points[i], shown->gap_x,
                                shown->gap_y);
    return (struct shown_edges){points, count, shown->part};
}

/* On the same side of all edges of a convex face. */
bool inside_face(const struct shown_edges *face, struct point p)
{
    int left = 0, right = 0;
    for (size_t i = 0; i < face->count; i++) {
        const struct point a = face->points[i];
        const struct point b = face->points[i + 1 < face->count ? i + 1 : 0];
        const double cross =
            (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
        left += cross > 0.0;
        right += cross < 0.0;
        if (left > 0 && right > 0)
            return false;
    }
    return true;
}

/* Is the cut that belongs to the line below it? Then the waste is, too, and
 * the word stands above. */
static bool word_above(const struct figure *figure, const struct state *state,
                       size_t line)
{
    const struct mark *drawn = &state->marks.items[line];
    for (size_t k = line + 1; k < state->marks.count; k++) {
        const struct mark *cut = &state->marks.items[k];
        if (cut->kind != MARK_CUT)
            continue;
        const double middle = shown_point(figure, cut->from, 0, 0).y +
                              shown_point(figure, cut->to, 0, 0).y;
        const double own = shown_point(figure, drawn->from, 0, 0).y +
                           shown_point(figure, drawn->to, 0, 0).y;
        return middle > own - 0.02;
    }
    return true;
}

/* Do two drawn lines cross in their middles? Then their names would lie where
 * all lines meet, and both are drawn whichever way they run. */
static bool crossed(const struct state *state, size_t line)
{
    const struct mark *one = &state->marks.items[line];
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *other = &state->marks.items[i];
        if (i != line && other->kind == MARK_DRAWN &&
            rational_equal(rational_add(one->from.x, one->to.x),
                           rational_add(other->from.x, other->to.x)) &&
            rational_equal(rational_add(one->from.y, one->to.y),
                           rational_add(other->from.y, other->to.y)))
            return true;
    }
    return false;
}

/* Where stitches lie on or beside the line, the caption has its word. */
static bool is_sewn(const struct state *state)
{
    for (size_t i = 0; i < state->marks.count; i++)
        if (state->marks.items[i].kind == MARK_SEWN)
            return true;
    return false;
}

/* Where the word stands at the line from p to q: mostly left of the middle, as
 * the turn of the flap is marked on the right. Between them is room for the
 * plate that hides a hatch behind the letters, so that the line stays whole. */
static void place_word(struct line_label *label, struct text_extent extent,
                       struct point p, struct point q, bool above, double along)
{
    const double beside = 0.5 + 0.15 * label->style.size;
    const double off = above ? -extent.height - beside : beside;
    const double turn = label->angle * 3.14159265358979 / 180.0;
    const double half = extent.width / 2.0;
    label->top = (struct point){p.x + (q.x - p.x) * along - sin(turn) * off,
                                p.y + (q.y - p.y) * along + cos(turn) * off};
    const struct point middle = {label->top.x - sin(turn) * extent.height / 2.0,
                                 label->top.y +
                                     cos(turn) * extent.height / 2.0};
    label->left = (struct point){middle.x - cos(turn) * half,
                                 middle.y - sin(turn) * half};
    label->right = (struct point){middle.x + cos(turn) * half,
                                  middle.y + sin(turn) * half};
}

/* The corners of the word's box, clockwise from its upper left one. */
static void word_corners(const struct line_label *label, struct point *corners)
{
    const double turn = label->angle * 3.14159265358979 / 180.0;
    const struct point up = {sin(turn) * label->height / 2.0,
                             -cos(turn) * label->height / 2.0};
    corners[0] = (struct point){label->left.x + up.x, label->left.y + up.y};
    corners[1] = (struct point){label->right.x + up.x, label->right.y + up.y};
    corners[2] = (struct point){label->right.x - up.x, label->right.y - up.y};
    corners[3] = (struct point){label->left.x - up.x, label->left.y - up.y};
}

/* How well the word lies: 2 inside one patch, clear of its edges and of what is
 * laid over it; 1 on cloth from end to end, over an edge; else 0. */
static int lies_well(const struct figure *figure, const struct state *state,
                     const struct line_label *label)
{
    enum { CORNERS = 4 };
    struct point corners[CORNERS];
    bool on_cloth[CORNERS] = {false}, in_one = false;
    word_corners(label, corners);
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_edges edges =
            face_edges(figure, &state->faces.items[i]);
        size_t inside = 0;
        for (size_t k = 0; k < CORNERS; k++)
            if (inside_face(&edges, corners[k])) {
                inside++;
                on_cloth[k] = true;
            }
        /* Faces that lie above come later. */
        if (inside == CORNERS)
            in_one = true;
        else if (inside > 0)
            in_one = false;
    }
    return in_one                                                     ? 2
           : on_cloth[0] && on_cloth[1] && on_cloth[2] && on_cloth[3] ? 1
                                                                      : 0;
}

/* The place along the line, and the side of it, where the word lies best: as
 * near to where it is wont to stand as can be. */
static struct line_label best_place(const struct figure *figure,
                                    const struct state *state,
                                    struct line_label label,
                                    struct text_extent extent, struct point p,
                                    struct point q, bool above)
{
    static const double along[] = {0.36, 0.42, 0.3, 0.5, 0.58, 0.66};
    struct line_label best = label;
    int how = -1;
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < sizeof along / sizeof along[0]; i++) {
            struct line_label tried = label;
            place_word(&tried, extent, p, q, side == 0 ? above : !above,
                       along[i]);
            const int found = lies_well(figure, state, &tried);
            if (found <= how)
                continue;
            how = found;
            best = tried;
        }
    return best;
}

/* The word repeats what the text says, at the line itself. */
struct line_label line_label(const struct figure *figure,
                             const struct state *state, size_t line)
{
    struct line_label label = {.style = style_figure()};
    const struct mark *drawn = &state->marks.items[line];
    const struct point p = shown_point(figure, drawn->from, 0, 0);
    const struct point q = shown_point(figure, drawn->to, 0, 0);
    const bool rising = q.y < p.y;
    const char *text = say(figure->canvas->arena, figure->wording->phrases,
                           rising ? "line.rising" : "line.falling", NULL);
    label.style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(figure->canvas->typeset, text, label.style, 0.0);
    if (drawn->kind != MARK_DRAWN || crossed(state, line) || is_sewn(state) ||
        hypot(q.x - p.x, q.y - p.y) < extent.width + 14.0)
        return label; /* the caption says it */
    label.text = text;
    label.height = extent.height;
    label.angle = rising ? -45.0 : 45.0;
    return best_place(figure, state, label, extent, p, q,
                      word_above(figure, state, line));
}
