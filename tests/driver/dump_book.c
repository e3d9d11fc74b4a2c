/* dump_book SOURCE FOLDER: the booklets that `build` would print, as text.
 *
 * One file for each quilt and colorway, FOLDER/ID-QUILT-COLORWAY.book: all
 * that the display list holds, one item a line, indented below the structure
 * element that it belongs to. run_goldens.sh compares them with what is kept.
 * FOLDER is there already. Prints the quilt and the path of each file. */
#include <math.h>
#include <stdio.h>

#include "buffer.h"
#include "compose.h"
#include "compose_kits.h"
#include "kitting.h"
#include "selection.h"

enum { HUNDREDTHS = 100, THOUSAND = 1000, DASH_LIMIT = 6 };

/* Far below a hundredth and far above what compilers make of one sum: halves,
 * of which sizes in eighths have many, then go up on every machine. */
static const double HALF_UP = 1e-6;

static void add_number(struct buffer *out, double value)
{
    /* A zero has no sign. */
    const double rounded =
        floor(value * HUNDREDTHS + 0.5 + HALF_UP) / HUNDREDTHS + 0.0;
    const bool whole = rounded == floor(rounded);
    buffer_printf(out, whole ? "%.0f" : "%.2f", rounded);
}

static void add_named(struct buffer *out, const char *name, double value)
{
    buffer_printf(out, " %s=", name);
    add_number(out, value);
}

static void add_place(struct buffer *out, double x, double y)
{
    buffer_char(out, ' ');
    add_number(out, x);
    buffer_char(out, ',');
    add_number(out, y);
}

/* Thousandths of full light, as a light tint differs in little. */
static void add_color(struct buffer *out, const char *name, struct color color)
{
    const double parts[] = {color.red, color.green, color.blue};
    buffer_printf(out, " %s=", name);
    for (int i = 0; i < 3; i++)
        buffer_printf(out, "%s%03d", i == 0 ? "" : "/",
                      (int)(parts[i] * THOUSAND + 0.5 + HALF_UP));
}

static void add_flag(struct buffer *out, bool is, const char *name)
{
    if (is)
        buffer_printf(out, " %s", name);
}

/* ---- items ---- */

static const char *path_role_name(enum path_role role)
{
    switch (role) {
    case ROLE_DRAWING:
        return "drawing";
    case ROLE_CLOTH:
        return "cloth";
    case ROLE_WRONG_SIDE:
        return "wrong-side";
    case ROLE_OUTLINE:
        return "outline";
    case ROLE_MARK:
        return "mark";
    case ROLE_WASTE:
        return "waste";
    }
    return "?";
}

static void add_hatch(struct buffer *out, const struct hatch *hatch)
{
    if (hatch == NULL)
        return;
    add_named(out, "hatch", hatch->spacing);
    add_named(out, "turned", hatch->angle);
    add_named(out, "lines", hatch->width);
    add_flag(out, hatch->dotted, "dotted");
    add_color(out, "of", hatch->color);
}

static void add_stroke(struct buffer *out, const struct path_item *path)
{
    if (path->stroke == 0)
        return;
    add_named(out, "stroke", path->stroke);
    add_color(out, "of", path->stroke_color);
    for (int i = 0; i < DASH_LIMIT && path->dash[i] > 0; i++)
        add_named(out, i % 2 == 0 ? "dash" : "gap", path->dash[i]);
    add_flag(out, path->round_ends, "round");
}

static void add_path(struct buffer *out, const struct path_item *path)
{
    buffer_printf(out, "%s %s", path->closed ? "polygon" : "line",
                  path_role_name(path->role));
    if (path->filled)
        add_color(out, "fill", path->fill);
    add_hatch(out, path->hatch);
    add_stroke(out, path);
    buffer_text(out, " at");
    for (size_t i = 0; i < path->count; i++)
        add_place(out, path->points[i].x, path->points[i].y);
}

static void add_text_item(struct buffer *out, const struct text_item *text)
{
    static const char *const faces[] = {"regular", "bold", "italic", "display"};
    static const char *const aligns[] = {"left", "center", "right"};
    const struct text_style *style = &text->style;
    buffer_text(out, "text");
    add_place(out, text->x, text->y);
    add_named(out, "width", text->width);
    if (text->angle != 0)
        add_named(out, "turned", text->angle);
    buffer_printf(out, " %s %s", faces[style->face], aligns[style->align]);
    add_named(out, "size", style->size);
    add_color(out, "of", style->color);
    add_flag(out, text->plate, "plate");
    buffer_char(out, ' ');
    buffer_json(out, text->text);
}

/* The bytes of a photo by their sum (FNV-1a), as they are the user's own. */
static void add_image(struct buffer *out, const struct image_item *image)
{
    unsigned long long sum = 14695981039346656037u;
    for (size_t i = 0; i < image->length; i++)
        sum = (sum ^ (unsigned char)image->bytes[i]) * 1099511628211u;
    buffer_printf(out, "image %s %ux%u bytes=%zu sum=%016llx",
                  image->jpeg ? "jpeg" : "png", image->pixels_across,
                  image->pixels_down, image->length, sum);
    buffer_printf(out, " turn=%u", image->turn);
    add_place(out, image->x, image->y);
    add_place(out, image->width, image->height);
}

static void add_tag(struct buffer *out, const struct tag_item *tag)
{
    static const char *const roles[] = {"", " column-head", " numbered",
                                        " lettered", " bulleted"};
    buffer_printf(out, "%s%s", tag->name, roles[tag->role]);
    if (tag->attributes != NULL && tag->attributes[0] != '\0')
        buffer_printf(out, " (%s)", tag->attributes);
    if (tag->alternative != NULL) {
        buffer_char(out, ' ');
        buffer_json(out, tag->alternative);
    }
}

/* ensures: `depth` is that of the next item. */
static void add_item(struct buffer *out, const struct item *item, int *depth)
{
    *depth -= item->kind == ITEM_TAG_END;
    buffer_printf(out, "%*s", 2 * *depth, "");
    switch (item->kind) {
    case ITEM_PATH:
        add_path(out, &item->as.path);
        break;
    case ITEM_TEXT:
        add_text_item(out, &item->as.text);
        break;
    case ITEM_IMAGE:
        add_image(out, &item->as.image);
        break;
    case ITEM_TAG_BEGIN:
        buffer_text(out, "begin ");
        add_tag(out, &item->as.tag);
        ++*depth;
        break;
    case ITEM_TAG_END:
        buffer_text(out, "end ");
        buffer_text(out, item->as.tag.name);
        break;
    case ITEM_LATER: /* was made */
        break;
    }
    buffer_char(out, '\n');
}

/* ---- the book ---- */

static void add_line(struct buffer *out, const char *name, const char *text)
{
    buffer_printf(out, "%s ", name);
    if (text == NULL)
        buffer_text(out, "none");
    else
        buffer_json(out, text);
    buffer_char(out, '\n');
}

static void add_head(struct buffer *out, const struct book *book)
{
    buffer_text(out, "paper");
    add_place(out, book->width, book->height);
    add_flag(out, book->true_scale, "true-scale");
    buffer_char(out, '\n');
    add_line(out, "title", book->title);
    add_line(out, "author", book->author);
    add_line(out, "subject", book->subject);
    add_line(out, "language", book->language);
    add_line(out, "date", book->date);
    for (size_t i = 0; i < book->outline.count; i++) {
        const struct outline_entry *entry = &book->outline.items[i];
        buffer_printf(out, "outline %*spage %zu", 2 * entry->depth, "",
                      entry->page);
        add_named(out, "y", entry->y);
        buffer_char(out, ' ');
        buffer_json(out, entry->title);
        buffer_char(out, '\n');
    }
}

static const char *dump(struct arena *arena, const struct book *book)
{
    struct buffer out = buffer_in(arena);
    add_head(&out, book);
    for (size_t i = 0; i < book->pages.count; i++) {
        const struct page *page = book->pages.items[i];
        int depth = 1;
        buffer_printf(&out, "\npage %zu", i);
        add_flag(&out, page->true_to_scale, "true-to-scale");
        add_line(&out, " label", page->label);
        const struct item_list items = page_items(arena, page);
        for (size_t j = 0; j < items.count; j++)
            add_item(&out, &items.items[j], &depth);
    }
    return buffer_string(&out);
}

static bool save_text(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL || fputs(text, file) < 0 || fclose(file) != 0) {
        perror(path);
        return false;
    }
    return true;
}

/* The same steps as `kit` takes without options: all papers of an order. */
static bool dump_order(struct arena *arena, struct run *run, const char *folder)
{
    const struct kits *kits = plan_order(run, NULL);
    if (kits == NULL)
        return false;
    const struct phrases *phrases =
        phrases_load(arena, kits->order->language);
    struct typeset *typeset = typeset_create();
    bool good = true;
    for (int i = 0; i < KIT_PAPERS && good; i++) {
        const char *file = kit_paper_file((enum kit_paper)i);
        const struct book *book =
            compose_kit_paper(arena, typeset, phrases, kits, (enum kit_paper)i,
                              kits->order->paper == 1);
        if (book != NULL)
            good = save_text(arena_printf(arena, "%s/%s.book", folder, file),
                             dump(arena, book));
    }
    typeset_destroy(typeset);
    return good;
}

/* The same steps as `build` takes without options. */
static bool dump_all(struct arena *arena, const struct compiled *compiled,
                     const char *folder)
{
    const struct options options = {0};
    const struct phrases *phrases =
        phrases_load(arena, compiled->pattern->language);
    struct typeset *typeset = typeset_create();
    bool good = true;
    for (size_t i = 0; i < compiled->plans->items.count && good; i++) {
        const struct cutplan *plan = &compiled->plans->items.items[i];
        const struct book *book =
            compose_book(arena, typeset, phrases, compiled->design, plan,
                         paper_is_a4(compiled, &options));
        const char *path = arena_printf(
            arena, "%s/%s-%s-%s.book", folder, compiled->design->id,
            plan->quilt->definition->id, plan->colorway->id);
        good = save_text(path, dump(arena, book));
        printf("%s %s\n", plan->quilt->definition->id, path);
    }
    typeset_destroy(typeset);
    return good;
}

int main(int count, char **words)
{
    if (count != 3) {
        fprintf(stderr, "usage: dump_book SOURCE FOLDER\n");
        return 2;
    }
    struct arena *arena = arena_create();
    struct compiled read = {.status = STATUS_CLEAN};
    bool good = false;
    if (read_source(arena, words[1], &read) &&
        is_order(read.run->source)) {
        good = dump_order(arena, read.run, words[2]);
    } else {
        const struct compiled compiled = compile_file(arena, words[1]);
        good = compiled.plans != NULL && dump_all(arena, &compiled, words[2]);
    }
    if (!good)
        fprintf(stderr, "dump_book: %s is not clean\n", words[1]);
    arena_destroy(arena);
    return good ? 0 : 1;
}
