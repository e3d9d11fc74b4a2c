/* Text by Pango over the bundled fonts. Nothing is rounded to whole points, and
 * the height of a line depends on the size alone, so a symbol from the second
 * font never moves the lines below it. Read next: fonts.c. */
#include "typeset.h"

#include "diag.h"
#include "fonts.h"

#include <dirent.h>
#include <math.h>
#include <string.h>
#include <time.h>

#include <pango/pangocairo.h>

#include "measures.h"

enum { WAIT_LIMIT = 1000, MOST_KEPT = 2048 };

/* In units of the size (em). The digits of Noto Sans are 0.714 em high and its
 * descenders reach 0.293 em down: with the baseline here the digits stand in
 * the middle of the line, so a label whose box is centred looks centred. */
static const double LINE_HEIGHT = 1.3;
static const double BASELINE = 1.007;
static const double PLATE_PADDING = 0.15;

struct typeset {
    struct arena *arena;
    int threads_before; /* how many ran before Pango started its own */
    struct fonts fonts;
    struct measures measures;
    PangoLayout *empty;    /* of which all others are copies */
    PangoAttrList *lining; /* figures of the height of capitals */
    GHashTable *kept;      /* what was set, by struct setting */
    PangoLayout *layout;   /* the one at hand, of those */
};

/* All that a layout depends on. Texts come again and again: when they are
 * drawn, in tables, in the booklet of the next colorway. */
struct setting {
    const char *text; /* a key of the table has a copy, right behind it */
    enum text_face face;
    double size, width;
};

/* The number of this process's threads, or 0 where the system cannot tell. */
static int count_threads(void)
{
    DIR *tasks = opendir("/proc/self/task");
    if (tasks == NULL)
        return 0;
    int count = 0;
    for (const struct dirent *task; (task = readdir(tasks)) != NULL;)
        count += task->d_name[0] != '.' ? 1 : 0;
    closedir(tasks);
    return count;
}

static guint setting_hash(gconstpointer key)
{
    return g_str_hash(((const struct setting *)key)->text);
}

/* Sizes and widths are copies of what the caller asked before, so equal ones
 * are equal to the last bit. */
static gboolean setting_equal(gconstpointer a, gconstpointer b)
{
    const struct setting *one = a, *other = b;
    return one->face == other->face &&
           memcmp(&one->size, &other->size, sizeof one->size) == 0 &&
           memcmp(&one->width, &other->width, sizeof one->width) == 0 &&
           strcmp(one->text, other->text) == 0;
}

struct typeset *typeset_create(void)
{
    return typeset_create_with(NULL);
}

struct typeset *typeset_create_with(const struct font *display)
{
    struct arena *arena = arena_create();
    struct typeset *typeset = ARENA_NEW(arena, struct typeset);
    typeset->arena = arena;
    typeset->measures.arena = arena;
    typeset->threads_before = count_threads();
    fonts_open(&typeset->fonts, arena, display);
    typeset->empty = pango_layout_new(typeset->fonts.context);
    pango_layout_set_auto_dir(typeset->empty, FALSE);
    pango_layout_set_wrap(typeset->empty, PANGO_WRAP_WORD_CHAR);
    typeset->lining = pango_attr_list_new();
    pango_attr_list_insert(typeset->lining,
                           pango_attr_font_features_new("lnum=1"));
    typeset->kept = g_hash_table_new_full(setting_hash, setting_equal, g_free,
                                          g_object_unref);
    return typeset;
}

/* ---- reading back what was set ---- */

/* The most boxes that a text must print as: one for each character that no font
 * has, or for each part of it, as shaping may take it apart (a Thai sara am).
 * requires: UTF-8, as Pango's copy is. */
static int uncovered(struct typeset *typeset, const char *text)
{
    int count = 0;
    for (const char *c = text; *c != '\0'; c = g_utf8_next_char(c)) {
        const gunichar character = g_utf8_get_char(c);
        if (!fonts_have(&typeset->fonts, character))
            count += (int)g_unichar_fully_decompose(character, TRUE, NULL, 0);
    }
    return count;
}

/* ensures: the characters that the line's glyphs stand for; -1 where one of
 * them stands for none. */
static long set_characters(PangoLayoutLine *line)
{
    long characters = 0;
    for (const GSList *run = line->runs; run != NULL; run = run->next) {
        const PangoLayoutRun *set = run->data;
        characters += set->item->num_chars;
        for (int i = 0; i < set->glyphs->num_glyphs; i++)
            if (set->glyphs->glyphs[i].glyph == 0)
                return -1;
        if (set->glyphs->num_glyphs == 0)
            return -1;
    }
    return characters;
}

/* A layout that lacks letters would be drawn as it is. Ends the program where
 * the lines do not hold all characters of the text, or more of them as boxes
 * than no font has. */
static void prove_layout(struct typeset *typeset, PangoLayout *layout)
{
    const char *text = pango_layout_get_text(layout);
    bool whole = true;
    for (const GSList *at = pango_layout_get_lines_readonly(layout); at != NULL;
         at = at->next) {
        PangoLayoutLine *line = at->data;
        whole &= set_characters(line) ==
                 g_utf8_strlen(text + line->start_index, line->length);
    }
    const int boxes = pango_layout_get_unknown_glyphs_count(layout);
    if (!whole || (boxes > 0 && boxes > uncovered(typeset, text)))
        internal_error("letters are lost where this is set: %.60s", text);
}

/* An absolute size, because a size in points would be rounded with the
 * resolution. ensures: a new layout. */
static PangoLayout *set_anew(struct typeset *typeset,
                             const struct setting *setting)
{
    PangoLayout *layout = pango_layout_copy(typeset->empty);
    PangoFontDescription *description = fonts_describe(
        &typeset->fonts, setting->face, setting->size, setting->text);
    pango_layout_set_font_description(layout, description);
    pango_font_description_free(description);
    if (setting->width > 0)
        pango_layout_set_width(layout, pango_units_from_double(setting->width));
    if (setting->face == FACE_DISPLAY)
        pango_layout_set_attributes(layout, typeset->lining);
    pango_layout_set_text(layout, setting->text, -1);
    prove_layout(typeset, layout);
    return layout;
}

/* The layout at hand becomes that of the text. Those that were kept may go:
 * whoever still needs one holds a reference. */
static void set_text(struct typeset *typeset, const char *text,
                     struct text_style style, double width)
{
    const struct setting wanted = {text, style.face, style.size, width};
    typeset->layout = g_hash_table_lookup(typeset->kept, &wanted);
    if (typeset->layout != NULL)
        return;
    if (g_hash_table_size(typeset->kept) == MOST_KEPT)
        g_hash_table_remove_all(typeset->kept);
    typeset->layout = set_anew(typeset, &wanted);
    struct setting *key = g_malloc(sizeof *key + strlen(text) + 1);
    *key = wanted;
    key->text = strcpy((char *)(key + 1), text);
    g_hash_table_insert(typeset->kept, key, typeset->layout);
}

/* Pango asks Fontconfig in threads that nobody joins. They hold references to
 * the configuration, so nothing may be torn down before they are gone, which
 * takes a millisecond. The wait ends in any case: other threads may have been
 * started meanwhile. */
static void wait_for_threads(int before)
{
    const struct timespec pause = {.tv_nsec = 500 * 1000};
    for (int i = 0; i < WAIT_LIMIT && count_threads() > before; i++)
        nanosleep(&pause, NULL);
}

void typeset_destroy(struct typeset *typeset)
{
    wait_for_threads(typeset->threads_before);
    g_hash_table_destroy(typeset->kept);
    pango_attr_list_unref(typeset->lining);
    g_object_unref(typeset->empty);
    fonts_close(&typeset->fonts);
    arena_destroy(typeset->arena);
}

/* How far the pen moves, not how far the ink reaches: blanks at the end of a
 * broken line do not count. */
static double line_width(PangoLayoutLine *line)
{
    PangoRectangle logical;
    pango_layout_line_get_extents(line, NULL, &logical);
    return pango_units_to_double(logical.width);
}

/* The same layout is made again when the text is drawn; it comes out the same,
 * as nothing in between can change it. */
struct text_extent typeset_measure(struct typeset *typeset, const char *text,
                                   struct text_style style, double width)
{
    const struct text_extent *kept =
        measures_find(&typeset->measures, text, style, width);
    if (kept != NULL)
        return *kept;
    set_text(typeset, text, style, width);
    struct text_extent extent = {.baseline = BASELINE * style.size};
    extent.lines = pango_layout_get_line_count(typeset->layout);
    extent.height = extent.lines * LINE_HEIGHT * style.size;
    for (int i = 0; i < extent.lines; i++) {
        PangoLayoutLine *line =
            pango_layout_get_line_readonly(typeset->layout, i);
        extent.width = fmax(extent.width, line_width(line));
    }
    measures_keep(&typeset->measures, text, style, width, extent);
    return extent;
}

/* All faces were cut to the same characters, so one speaks for all. */
int typeset_missing_glyphs(struct typeset *typeset, const char *text)
{
    const struct text_style style = {.face = FACE_REGULAR, .size = 10};
    set_text(typeset, text, style, 0);
    return pango_layout_get_unknown_glyphs_count(typeset->layout);
}

/* Where a line starts, seen from the item's x: inside the box, or at, around
 * or before x where there is no box. */
static double line_start(const struct text_item *text, double length)
{
    const double room = text->width > 0 ? text->width - length : -length;
    switch (text->style.align) {
    case ALIGN_CENTER:
        return room / 2;
    case ALIGN_RIGHT:
        return room;
    case ALIGN_LEFT:
        break;
    }
    return 0;
}

/* The blank at which a line is broken belongs to that line. */
struct text_place typeset_place(struct typeset *typeset, const char *text,
                                struct text_style style, double width,
                                size_t at)
{
    set_text(typeset, text, style, width);
    const struct text_item item = {.width = width, .style = style};
    const int lines = pango_layout_get_line_count(typeset->layout);
    int i = 0;
    PangoLayoutLine *line = pango_layout_get_line_readonly(typeset->layout, 0);
    while (i + 1 < lines && (size_t)(line->start_index + line->length) <= at) {
        PangoLayoutLine *next =
            pango_layout_get_line_readonly(typeset->layout, i + 1);
        /* Between two lines stands the line feed that parts them. */
        if ((size_t)next->start_index > at)
            break;
        line = next;
        i++;
    }
    int x = 0;
    pango_layout_line_index_to_x(line, (int)at, 0, &x);
    return (struct text_place){line_start(&item, line_width(line)) +
                                   pango_units_to_double(x),
                               i * LINE_HEIGHT * style.size,
                               (size_t)(line->start_index + line->length)};
}

/* Calls for each line with the pen at its start on the baseline. */
static void each_line(struct typeset *typeset, cairo_t *cairo,
                      const struct text_item *text,
                      void (*act)(struct typeset *, cairo_t *,
                                  PangoLayoutLine *, struct text_style))
{
    const double size = text->style.size;
    set_text(typeset, text->text, text->style, text->width);
    PangoLayout *whole = g_object_ref(typeset->layout);
    const int lines = pango_layout_get_line_count(whole);
    for (int i = 0; i < lines; i++) {
        PangoLayoutLine *line = pango_layout_get_line_readonly(whole, i);
        cairo_move_to(cairo, line_start(text, line_width(line)),
                      (BASELINE + i * LINE_HEIGHT) * size);
        act(typeset, cairo, line, text->style);
    }
    g_object_unref(whole);
}

/* Pango swallows the blank at which a line is broken. It is drawn here after
 * all: who copies the text or has it read aloud needs it between the words. */
static void fill_text(struct typeset *typeset, cairo_t *cairo,
                      PangoLayoutLine *line, struct text_style style)
{
    const char *text = pango_layout_get_text(line->layout);
    char *words = g_strndup(text + line->start_index, (gsize)line->length);
    set_text(typeset, words, style, 0);
    g_free(words);
    pango_cairo_show_layout_line(
        cairo, pango_layout_get_line_readonly(typeset->layout, 0));
}

/* The line's ink with some padding: the plate must hide a hatch behind the
 * letters and no more of the drawing than that. */
static void plate_of(PangoLayoutLine *line, double size, struct text_line *seen)
{
    PangoRectangle ink;
    pango_layout_line_get_extents(line, &ink, NULL);
    if (ink.width == 0)
        return;
    const double padding = PLATE_PADDING * size;
    seen->plate_x = seen->x + pango_units_to_double(ink.x) - padding;
    seen->plate_y = seen->baseline + pango_units_to_double(ink.y) - padding;
    seen->plate_width = pango_units_to_double(ink.width) + 2 * padding;
    seen->plate_height = pango_units_to_double(ink.height) + 2 * padding;
}

/* At the current point, the start of the line's baseline. */
static void add_plate(struct typeset *typeset, cairo_t *cairo,
                      PangoLayoutLine *line, struct text_style style)
{
    (void)typeset;
    struct text_line seen = {0};
    cairo_get_current_point(cairo, &seen.x, &seen.baseline);
    plate_of(line, style.size, &seen);
    if (seen.plate_width > 0)
        cairo_rectangle(cairo, seen.plate_x, seen.plate_y, seen.plate_width,
                        seen.plate_height);
}

/* Pango's lines point into its own copy of the text; ours outlive it. */
const struct text_line *typeset_lines(struct typeset *typeset,
                                      struct arena *arena,
                                      const struct text_item *text,
                                      size_t *count)
{
    set_text(typeset, text->text, text->style, text->width);
    *count = (size_t)pango_layout_get_line_count(typeset->layout);
    struct text_line *lines = ARENA_ARRAY(arena, struct text_line, *count);
    for (size_t i = 0; i < *count; i++) {
        PangoLayoutLine *line =
            pango_layout_get_line_readonly(typeset->layout, (int)i);
        const double width = line_width(line);
        lines[i].text = text->text + line->start_index;
        lines[i].length = (size_t)line->length;
        lines[i].x = line_start(text, width);
        lines[i].baseline =
            (BASELINE + (double)i * LINE_HEIGHT) * text->style.size;
        lines[i].width = width;
        plate_of(line, text->style.size, &lines[i]);
    }
    return lines;
}

double typeset_baseline(void)
{
    return BASELINE;
}

/* Pango is not told of the transformation: the layout stays the one that was
 * measured, and Cairo turns its glyphs. */
void typeset_draw(struct typeset *typeset, cairo_t *cairo,
                  const struct text_item *text)
{
    cairo_save(cairo);
    cairo_translate(cairo, text->x, text->y);
    cairo_rotate(cairo, text->angle * acos(-1) / 180);
    if (text->plate) {
        cairo_new_path(cairo);
        each_line(typeset, cairo, text, add_plate);
        cairo_set_source_rgb(cairo, 1, 1, 1);
        cairo_fill(cairo);
    }
    cairo_set_source_rgb(cairo, text->style.color.red, text->style.color.green,
                         text->style.color.blue);
    each_line(typeset, cairo, text, fill_text);
    cairo_restore(cairo);
}
