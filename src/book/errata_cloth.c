/* The finished cloth of a step as a revision's data tell it. Of large cloths
 * they tell no faces; but all that such a one is joined from lies in it with its
 * place and turn, so that the cloth can be laid out of that. Read next:
 * errata_figure.c. */
#include "errata.h"

#include <string.h>

#include "buffer.h"
#include "name_table.h"
#include "section.h"

/* More faces show no difference that a reader would find; and no quilt is worth
 * more steps on the way down. */
enum { FACES_MOST = 6000, LAID_MOST = 6000 };

struct laying {
    struct arena *arena;
    const struct revision_quilt *quilt;
    struct errata_cloth *out;
    struct cloth *cloth;
    size_t work;
};

/* ---- places ---- */

/* Quarter turns, clockwise, about the corner at the top left; then a shift. */
struct lying {
    unsigned turn;
    struct rational x, y;
};

static struct vertex moved(struct lying by, struct vertex p)
{
    struct vertex q = p;
    for (unsigned i = 0; i < by.turn; i++)
        q = (struct vertex){rational_times(q.y, -1), q.x};
    return (struct vertex){rational_add(q.x, by.x), rational_add(q.y, by.y)};
}

/* A part says where its top left corner lies after its turn; so it is shifted
 * by what the turn has brought outside, too. */
static struct lying place_part(struct lying whole,
                                 const struct revision_part *part,
                                 struct rational width, struct rational height)
{
    const unsigned turn = (unsigned)(part->turn / 90) % 4;
    const struct rational none = rational_whole(0);
    const struct vertex at = {
        rational_add(part->x, turn == 1   ? height
                              : turn == 2 ? width
                                          : none),
        rational_add(part->y, turn == 2   ? height
                              : turn == 3 ? width
                                          : none)};
    const struct vertex corner = moved(whole, at);
    return (struct lying){(whole.turn + turn) % 4, corner.x, corner.y};
}

/* ---- faces ---- */

static struct face rectangle(struct arena *arena, struct rational width,
                             struct rational height, int fabric)
{
    const struct rational none = rational_whole(0);
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 4);
    points[0] = (struct vertex){none, none};
    points[1] = (struct vertex){width, none};
    points[2] = (struct vertex){width, height};
    points[3] = (struct vertex){none, height};
    return (struct face){.fabric = fabric, .points = points, .count = 4};
}

static struct face moved_face(struct arena *arena, struct lying by,
                              const struct face *face)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, face->count);
    for (size_t i = 0; i < face->count; i++)
        points[i] = moved(by, face->points[i]);
    return (struct face){
        .fabric = face->fabric, .points = points, .count = face->count};
}

/* Twice the area; corners run clockwise, or all of them do not. */
static struct rational area_of(const struct face *face)
{
    struct rational sum = rational_whole(0);
    for (size_t i = 0; i < face->count; i++) {
        const struct vertex a = face->points[i];
        const struct vertex b = face->points[(i + 1) % face->count];
        sum = rational_add(sum, rational_sub(rational_mul(a.x, b.y),
                                             rational_mul(b.x, a.y)));
    }
    return rational_sign(sum) < 0 ? rational_times(sum, -1) : sum;
}

/* ---- laying ---- */

/* Faces that share a mark are outlined together where one of them differs. */
static void put_face(struct laying *of, struct face face, size_t mark)
{
    *LIST_ADD(of->arena, &of->cloth->faces) = face;
    *LIST_ADD(of->arena, &of->out->mark_of) = mark;
}

static size_t add_mark(struct laying *of, struct face mark)
{
    *LIST_ADD(of->arena, &of->out->marks) = mark;
    return of->out->marks.count - 1;
}

/* What is told with its faces is one mark: a block, mostly. */
static void lay_told(struct laying *of, const struct revision_step *step,
                     struct lying at)
{
    const struct cloth *cloth = finished_cloth(of->arena, step->cloth);
    const struct face box =
        rectangle(of->arena, step->width, step->height, NOWHERE);
    const size_t mark = add_mark(of, moved_face(of->arena, at, &box));
    for (size_t i = 0; i < cloth->faces.count; i++)
        put_face(of, moved_face(of->arena, at, &cloth->faces.items[i]), mark);
}

/* ensures: false where older data do not tell how large it is in the end. */
static bool lay_piece(struct laying *of, const struct revision_part *part,
                      struct lying whole)
{
    const struct revision_piece *piece = &of->quilt->pieces.items[part->piece];
    if (!rational_known(piece->finished_width) ||
        !rational_known(piece->finished_height))
        return false;
    const struct face face =
        rectangle(of->arena, piece->finished_width, piece->finished_height,
                  piece->fabric);
    const struct lying at = place_part(whole, part, piece->finished_width,
                                         piece->finished_height);
    const struct face laid = moved_face(of->arena, at, &face);
    put_face(of, laid, add_mark(of, laid));
    return true;
}

static bool lay_step(struct laying *of, const struct revision_step *step,
                     struct lying at);

/* ensures: false where one of them does not tell how it lies. */
static bool lay_parts(struct laying *of, const struct revision_step *step,
                      struct lying at)
{
    bool laid = step->parts.count > 0;
    for (size_t i = 0; i < step->parts.count && laid; i++) {
        const struct revision_part *part = &step->parts.items[i];
        if (part->slanted || !rational_known(part->x) ||
            !rational_known(part->y))
            return false;
        if (part->piece != NOWHERE) {
            laid = lay_piece(of, part, at);
            continue;
        }
        const struct revision_step *made = &of->quilt->steps.items[part->step];
        laid = rational_known(made->width) && rational_known(made->height) &&
               lay_step(of, made,
                        place_part(at, part, made->width, made->height));
    }
    return laid;
}

/* Down to what has faces. Data that are no longer a pattern may have no end of
 * parts in parts, so the way is counted. */
static bool lay_step(struct laying *of, const struct revision_step *step,
                     struct lying at)
{
    if (++of->work > LAID_MOST || of->cloth->faces.count > FACES_MOST)
        return false;
    if (step->cloth == NULL)
        return lay_parts(of, step, at);
    lay_told(of, step, at);
    return true;
}

/* Joined parts fill the whole and no more. Where they do not, it was trimmed,
 * mitred or flipped, and parts do not show it. */
static bool fills(const struct cloth *cloth)
{
    struct rational sum = rational_whole(0);
    for (size_t i = 0; i < cloth->faces.count; i++)
        sum = rational_add(sum, area_of(&cloth->faces.items[i]));
    return rational_equal(
        sum, rational_times(rational_mul(cloth->width, cloth->height), 2));
}

/* Corners may begin anywhere, but run the same way: from the topmost on, of
 * those the leftmost. Fabrics by their ids, as two revisions may number them
 * otherwise; NULL: by their numbers. */
static const char *face_text(struct arena *arena,
                             const struct revision *revision,
                             const struct face *face)
{
    struct buffer out = buffer_in(arena);
    size_t first = 0;
    for (size_t i = 1; i < face->count; i++) {
        const struct vertex *a = &face->points[i], *b = &face->points[first];
        const int down = rational_compare(a->y, b->y);
        if (down < 0 || (down == 0 && rational_compare(a->x, b->x) < 0))
            first = i;
    }
    if (revision == NULL)
        buffer_printf(&out, "%d", face->fabric);
    else
        buffer_text(&out, revision->fabrics.items[face->fabric].id);
    for (size_t i = 0; i < face->count; i++) {
        const struct vertex *at = &face->points[(first + i) % face->count];
        buffer_char(&out, ' ');
        rational_key(&out, at->x);
        buffer_char(&out, ',');
        rational_key(&out, at->y);
    }
    return buffer_string(&out);
}

/* Has each cloth the faces of the other? */
static bool same_faces(struct arena *arena, const struct cloth *a,
                       const struct cloth *b)
{
    struct name_table there = {0};
    bool same = a->faces.count == b->faces.count;
    size_t number;
    for (size_t i = 0; i < a->faces.count && same; i++)
        name_table_add(arena, &there, face_text(arena, NULL, &a->faces.items[i]),
                       i);
    for (size_t i = 0; i < b->faces.count && same; i++)
        same = name_table_find(
            &there, face_text(arena, NULL, &b->faces.items[i]), &number);
    return same;
}

static struct laying laying_of(struct arena *arena,
                               const struct revision_quilt *quilt,
                               const struct revision_step *step)
{
    struct laying laying = {.arena = arena, .quilt = quilt};
    laying.out = ARENA_NEW(arena, struct errata_cloth);
    laying.out->cloth = laying.cloth = ARENA_NEW(arena, struct cloth);
    laying.cloth->width = step->width;
    laying.cloth->height = step->height;
    return laying;
}

/* Out of its parts, as a part that lies otherwise is what a reader looks for.
 * Else its own faces where the data tell them: each is a mark of its own. */
const struct errata_cloth *errata_cloth(struct arena *arena,
                                        const struct revision_quilt *quilt,
                                        const struct revision_step *step)
{
    const struct rational none = rational_whole(0);
    struct laying laid = laying_of(arena, quilt, step);
    if (!rational_known(step->width) || !rational_known(step->height))
        return NULL;
    const struct cloth *told =
        step->cloth == NULL ? NULL : finished_cloth(arena, step->cloth);
    if (lay_parts(&laid, step, (struct lying){0, none, none}) &&
        fills(laid.cloth) &&
        (told == NULL || same_faces(arena, told, laid.cloth)))
        return laid.out;
    struct laying faces = laying_of(arena, quilt, step);
    for (size_t i = 0; told != NULL && i < told->faces.count; i++)
        put_face(&faces, told->faces.items[i],
                 add_mark(&faces, told->faces.items[i]));
    return told == NULL || told->faces.count > FACES_MOST ? NULL : faces.out;
}

/* ---- what differs ---- */

/* By texts of faces: each is looked up among all of the other cloth. */
struct face_list errata_differing(struct arena *arena,
                                  const struct comparison *of, int side,
                                  const struct errata_cloth *const cloths[2])
{
    const struct errata_cloth *own = cloths[side], *other = cloths[1 - side];
    struct face_list found = {0};
    struct name_table there = {0};
    bool *marked = ARENA_ARRAY(arena, bool, own->marks.count + 1);
    size_t number;
    for (size_t i = 0; i < other->cloth->faces.count; i++)
        name_table_add(arena, &there,
                       face_text(arena, of->revisions[1 - side],
                                 &other->cloth->faces.items[i]),
                       i);
    for (size_t i = 0; i < own->cloth->faces.count; i++) {
        const size_t mark = own->mark_of.items[i];
        if (marked[mark] ||
            name_table_find(&there,
                            face_text(arena, of->revisions[side],
                                      &own->cloth->faces.items[i]),
                            &number))
            continue;
        marked[mark] = true;
        *LIST_ADD(arena, &found) = own->marks.items[mark];
    }
    return found;
}
