/* What a step makes, in a form that two revisions can be compared by. A digest
 * tells that something changed, never what: for that there are the parts, the
 * actions and, of small cloths, the faces. */
#include "json_cloth.h"

#include <inttypes.h>
#include <string.h>

#include "words.h"

/* A figure of more faces shows no difference that a reader would find. */
enum { FACES_MOST = 300 };

/* FNV-1a, 64 bits: its two constants are part of its public definition. */
static const uint64_t FNV_BASIS = 14695981039346656037u;
static uint64_t fnv(uint64_t hash, const void *bytes, size_t length)
{
    const unsigned char *at = bytes;
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ at[i]) * 1099511628211u;
    return hash;
}

/* With its end, so that "ab" and "c" are not "a" and "bc". */
static uint64_t fnv_text(uint64_t hash, const char *text)
{
    return fnv(hash, text, strlen(text) + 1);
}

/* Fractions are in lowest terms, so that equal ones have equal bytes; of other
 * numbers it is the text that says the same in every run. */
static uint64_t fnv_length(uint64_t hash, struct arena *arena,
                           struct rational value)
{
    if (!rational_is_fraction(value))
        return fnv_text(hash, rational_text(arena, value));
    const int64_t parts[2] = {value.num, value.den};
    return fnv(hash, parts, sizeof parts);
}

/* A face's first corner is where its walk began, which says nothing: it starts
 * at the topmost, of those at the leftmost. */
static size_t first_corner(const struct face *face)
{
    size_t first = 0;
    for (size_t i = 1; i < face->count; i++) {
        const struct vertex *a = &face->points[i], *b = &face->points[first];
        const int down = rational_compare(a->y, b->y);
        if (down < 0 || (down == 0 && rational_compare(a->x, b->x) < 0))
            first = i;
    }
    return first;
}

/* Fabric, side and corners; a print's turn only where it can be seen. */
static uint64_t face_hash(uint64_t hash, const struct design *design,
                          struct arena *arena, const struct face *face)
{
    const size_t first = first_corner(face);
    const struct fabric *fabric = &design->fabrics.items[face->fabric];
    hash = fnv_text(hash, fabric->id);
    hash = fnv(hash, &(char){face->wrong_side ? 'w' : 'r'}, 1);
    /* The turn of cloth without a way is not seen. */
    if (fabric->one_way)
        hash = fnv(hash, &(char){(char)('0' + face->turn * 2 + face->slanted)},
                   1);
    for (size_t i = 0; i < face->count; i++) {
        const struct vertex *at = &face->points[(first + i) % face->count];
        hash = fnv_length(hash, arena, at->x);
        hash = fnv_length(hash, arena, at->y);
    }
    return hash;
}

/* Sums of hashes as they come out of FNV would be no digest: its low byte grows
 * out of low bytes alone, so that two fabrics whose names end in the same one
 * can be exchanged without a trace in the sum. Every bit must depend on every
 * other first (the finalizer of MurmurHash3, 64 bits, in the public domain). */
static uint64_t mixed(uint64_t hash)
{
    hash = (hash ^ hash >> 33) * 0xff51afd7ed558ccdu;
    hash = (hash ^ hash >> 33) * 0xc4ceb9fe1a85ec53u;
    return hash ^ hash >> 33;
}

/* A sum of what each face gives, so that the order of sewing is not in it. The
 * first letter says how it was made: of digests that lack it, older builds made
 * others, which compare with none. */
void write_result(struct json *json, const struct design *design,
                  const struct cloth *cloth)
{
    uint64_t sums[2] = {0, 0};
    for (size_t i = 0; i < cloth->faces.count; i++)
        for (int k = 0; k < 2; k++)
            sums[k] += mixed(face_hash(FNV_BASIS + (uint64_t)k, design,
                                       json->out.arena,
                                       &cloth->faces.items[i]));
    json_text(json, "result",
              arena_printf(json->out.arena, "m%016" PRIx64 "%016" PRIx64,
                           sums[0], sums[1]));
}

static void add_point(struct buffer *out, struct vertex point)
{
    buffer_char(out, ' ');
    rational_key(out, point.x);
    buffer_char(out, ',');
    rational_key(out, point.y);
}

/* Corners as exact numbers without a unit: exact, and read back without a parser of
 * lengths. One text a face keeps large data short. */
void write_faces(struct json *json, const struct wording *w,
                 const struct cloth *cloth)
{
    if (cloth->faces.count > FACES_MOST)
        return;
    json_open(json, "faces", '[');
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        struct buffer out = buffer_in(json->out.arena);
        buffer_text(&out, w->design->fabrics.items[face->fabric].id);
        for (size_t k = 0; k < face->count; k++)
            add_point(&out, face->points[k]);
        json_text(json, NULL, buffer_string(&out));
    }
    json_close(json, ']');
}

/* Diagonal seams go to a side and up or down. */
static const char *way_of(int x, int y)
{
    static const char *const words[3][3] = {{"up-left", "up", "up-right"},
                                            {"left", "open", "right"},
                                            {"down-left", "down", "down-right"}};
    return words[(y > 0) - (y < 0) + 1][(x > 0) - (x < 0) + 1];
}

/* Of a long row that is pressed one way, one word. */
void write_pressed(struct json *json, const struct action *action)
{
    const char *last = "";
    json_open(json, "pressed", '[');
    for (size_t i = 0; i < action->seams.count; i++) {
        const struct seam *seam = &action->seams.items[i].seam;
        const char *way = way_of(seam->x, seam->y);
        if (strcmp(way, last) != 0)
            json_text(json, NULL, way);
        last = way;
    }
    json_close(json, ']');
}

/* Each seam where it lies in the finished cloth: the way it is pressed, then its
 * two ends, written as corners of faces are. A hand finds a seam by its place,
 * and `pressed` leaves out what goes on alike. */
void write_seams(struct json *json, const struct action *action)
{
    if (action->seams.count > FACES_MOST)
        return;
    json_open(json, "seams", '[');
    for (size_t i = 0; i < action->seams.count; i++) {
        const struct seam *seam = &action->seams.items[i].seam;
        struct buffer out = buffer_in(json->out.arena);
        buffer_text(&out, way_of(seam->x, seam->y));
        add_point(&out, seam->from);
        add_point(&out, seam->to);
        json_text(json, NULL, buffer_string(&out));
    }
    json_close(json, ']');
}

/* What a reference stands for changes with the quilt; the words around it are
 * the designer's. */
const char *plain_words(struct arena *arena, const struct words *words)
{
    static const char *const marks[] = {"{qty}", "{size}", "{cloth}"};
    struct buffer out = buffer_in(arena);
    for (size_t i = 0; words != NULL && i < words->element->runs.count; i++) {
        const struct text_run *run = &words->element->runs.items[i];
        buffer_add(&out, run->text, run->length);
        if (i < words->references.count)
            buffer_text(&out, marks[words->references.items[i].kind]);
    }
    return buffer_string(&out);
}

/* Without any, no key. */
void write_says(struct json *json, const struct heap *heap)
{
    if (heap->says.count == 0)
        return;
    json_open(json, "says", '[');
    for (size_t i = 0; i < heap->says.count; i++)
        json_text(json, NULL,
                  plain_words(json->out.arena, heap->says.items[i]));
    json_close(json, ']');
}

/* Of the bytes as they are in the file. */
static uint64_t photo_hash(uint64_t hash, const struct photo *photo)
{
    return photo == NULL ? fnv_text(hash, "none")
                         : fnv(hash, photo->bytes, photo->length);
}

/* That something of it changed is all that is told of looks: a reader sees it,
 * and it harms nothing. */
const char *looks_digest(struct arena *arena, const struct design *design)
{
    uint64_t hash = photo_hash(FNV_BASIS, design->photo);
    hash = photo_hash(hash, design->logo);
    if (design->display != NULL)
        hash = fnv(hash, design->display->bytes, design->display->length);
    /* Colors were written with two digits each. */
    const struct accent *accent = &design->accent;
    hash = fnv_text(hash, !accent->stated
                              ? "none"
                              : arena_printf(arena, "%d %d %d",
                                             (int)(accent->red * 255 + 0.5),
                                             (int)(accent->green * 255 + 0.5),
                                             (int)(accent->blue * 255 + 0.5)));
    hash = fnv(hash, &(char){(char)('1' + design->paper)}, 1);
    hash = fnv_text(hash, design->pattern->language);
    return arena_printf(arena, "%016" PRIx64, hash);
}
