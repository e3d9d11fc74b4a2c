/* The errata sheet: one page where it can be, as a longer one is not read. First
 * who is concerned and what to do from where one is, then what changed, worst
 * first; old words are struck through and say that they are old, so that it is
 * no matter of color. Read next: errata_figure.c. */
#include "errata.h"

#include <string.h>

#include "buffer.h"
#include "compose.h"
#include "place.h"

struct errata {
    struct flow flow;
    struct change_wording wording;
    const size_t *alike; /* by change (changes_alike) */
};

/* ---- text ---- */

/* A paragraph as wide as the page. `keep`: no page ends behind it, as it leads
 * to what comes next. */
static void add_text(struct errata *sheet, const char *text,
                     struct text_style style, double space, bool keep)
{
    struct box *box =
        box_text(&sheet->flow.canvas, text, style, sheet->flow.canvas.width);
    box->keep_with_next = keep;
    flow_add(&sheet->flow, box, space);
}

/* A line through each line of the text, at the middle of its small letters. */
static struct box *struck_text(const struct canvas *canvas, const char *text,
                               struct text_style style, double width)
{
    struct box *box = box_new(canvas, width, 0.0);
    /* Lines break as those of box_text. */
    const struct text_item item = {.text = box_bind_units(canvas, text), .width = width, .style = style};
    const struct box *words = box_text(canvas, text, style, width);
    struct path_item line = outline_narrow();
    size_t count;
    const struct text_line *lines =
        typeset_lines(canvas->typeset, canvas->arena, &item, &count);
    line.stroke = LINE_MIDDLE;
    line.stroke_color = action_red;
    box_put(canvas, box, words, 0.0, 0.0);
    box->height = words->height;
    for (size_t i = 0; i < count; i++) {
        const double y = lines[i].baseline - 0.26 * style.size;
        box_stroke(canvas, box, lines[i].x, y, lines[i].x + lines[i].width, y,
                   line);
    }
    return box;
}

/* A word and, behind it, what it is about: "old:" stays to be read. */
static struct box *worded(const struct canvas *canvas, const char *word,
                          struct box *text, double left)
{
    struct box *box = box_new(canvas, left + text->width, text->height);
    box_put(canvas, box, box_text(canvas, word, style_bold(), left), 0.0, 0.0);
    box_put(canvas, box, text, left, 0.0);
    return box;
}

/* ---- what to do ---- */

/* Lines of an advice stand under each other in the right cell. */
static struct box *advice_row(struct errata *sheet, enum progress at)
{
    const struct canvas *canvas = &sheet->flow.canvas;
    const struct told_advice advice = tell_advice(&sheet->wording, at);
    const double left = columns_wide(3) + GRID_GUTTER;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    struct path_item rule = outline_narrow();
    rule.stroke_color = rule_grey;
    double y = SPACE_QUARTER;
    box_tag(canvas, box, "TR", NULL);
    box_put(canvas, box,
            box_heading(canvas, tell_progress(&sheet->wording, at),
                        style_bold(), columns_wide(3), "TH"),
            0.0, y);
    box_tag(canvas, box, "TD", NULL);
    for (size_t i = 0; i < advice.lines.count; i++) {
        const struct box *line = box_text(canvas, advice.lines.items[i],
                                          style_body(), canvas->width - left);
        box_put(canvas, box, line, left, y);
        y += line->height;
    }
    box_tag_end(canvas, box, "TD");
    box_tag_end(canvas, box, "TR");
    box->height = y + SPACE_QUARTER;
    box_stroke(canvas, box, 0.0, box->height, canvas->width, box->height, rule);
    box->group = "Table";
    return box;
}

/* The five rows stand in the order of the work, also those that ask for
 * nothing: who is that far wants to read that there is nothing to do. */
static void add_table(struct errata *sheet)
{
    const struct change_wording *w = &sheet->wording;
    flow_heading(&sheet->flow,
                 say(w->arena, w->phrases, "compare.where-are-you", NULL));
    for (int at = 0; at < PROGRESS_COUNT; at++) {
        struct box *row = advice_row(sheet, (enum progress)at);
        row->group_begins = at == 0;
        flow_add(&sheet->flow, row, at == 0 ? SPACE_QUARTER : 0.0);
    }
    /* Only who cuts needs it. */
    if (w->comparison->saved.count > 0)
        add_text(sheet, say(w->arena, w->phrases, "compare.cutter", NULL),
                 style_small(), SPACE_QUARTER, false);
}

/* ---- changes ---- */

/* "Piece A1 is cut otherwise", and beside it quilt and page, or below it where
 * the line is too short for both. */
static struct box *change_head(const struct errata *sheet,
                               const struct change *change,
                               const struct told_change *told, double width)
{
    const struct canvas *canvas = &sheet->flow.canvas;
    const struct change *first = sheet->wording.comparison->changes.items;
    const char *where =
        tell_places(&sheet->wording, sheet->alike, (size_t)(change - first));
    const double title = box_line(canvas, told->title, style_bold())->width;
    const double place = box_line(canvas, where, style_small())->width;
    const bool beside = title + SPACE_LINE + place < width;
    struct box *parts[2] = {
        box_heading(canvas, told->title, style_bold(),
                    beside ? title + 1.0 : width, "H3"),
        box_text(canvas, where, style_small(),
                 beside ? width - title - SPACE_LINE : width)};
    if (where[0] == '\0')
        return parts[0];
    if (!beside)
        return box_stack(canvas, parts, 2, 0.0);
    struct box *box = box_new(canvas, width, parts[0]->height);
    box_put(canvas, box, parts[0], 0.0, 0.0);
    /* Both stand on one line. */
    box_put(canvas, box, parts[1], title + SPACE_LINE,
            parts[0]->height - parts[1]->height);
    return box;
}

/* Old words, struck through, and new ones: beside each other where both are
 * short, as a sheet of many lines is not read. */
static struct box *both_words(const struct errata *sheet,
                              const struct told_change *told, double width)
{
    const struct canvas *canvas = &sheet->flow.canvas;
    const struct change_wording *w = &sheet->wording;
    const char *none = say(w->arena, w->phrases, "compare.none", NULL);
    const char *was = told->was[0] == '\0' ? none : told->was;
    const char *is = told->is[0] == '\0' ? none : told->is;
    const double left = MM(10.0), half = (width - GRID_GUTTER) / 2.0;
    const bool beside =
        left + box_line(canvas, was, style_body())->width < half - 1.0 &&
        left + box_line(canvas, is, style_body())->width < half - 1.0;
    const double text = (beside ? half : width) - left;
    struct text_style old = style_body();
    old.color = grey;
    struct box *parts[2] = {
        worded(canvas, say(w->arena, w->phrases, "compare.old-word", NULL),
               struck_text(canvas, was, old, text), left),
        worded(canvas, say(w->arena, w->phrases, "compare.new-word", NULL),
               box_text(canvas, is, style_body(), text), left)};
    return beside ? box_row(canvas, parts, 2, GRID_GUTTER)
                  : box_stack(canvas, parts, 2, 1.0);
}

/* Words at the left, figures at the right where there are some. */
static struct box *change_box(const struct errata *sheet,
                              const struct change *change)
{
    const struct canvas *canvas = &sheet->flow.canvas;
    const struct change *first = sheet->wording.comparison->changes.items;
    struct told_change told = tell_change(&sheet->wording, change);
    told.title =
        tell_title(&sheet->wording, sheet->alike, (size_t)(change - first));
    struct box *figure = errata_figure(canvas, &sheet->wording, change);
    const double width = figure == NULL
                             ? canvas->width
                             : canvas->width - figure->width - GRID_GUTTER;
    const bool words = told.was[0] != '\0' || told.is[0] != '\0';
    struct box *parts[2] = {change_head(sheet, change, &told, width), NULL};
    if (words)
        parts[1] = both_words(sheet, &told, width);
    struct box *text = box_stack(canvas, parts, words ? 2 : 1, 1.0);
    if (figure == NULL)
        return text;
    struct box *sides[2] = {text, figure};
    text->width = width;
    return box_row(canvas, sides, 2, GRID_GUTTER);
}

/* All changes of a class below its heading. What follows from another is summed
 * later, as a list that is too long is not read. */
static void add_changes(struct errata *sheet, enum harm harm)
{
    const struct change_wording *w = &sheet->wording;
    const struct comparison *of = w->comparison;
    bool begun = false;
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (change->harm != harm || change->follows ||
            sheet->alike[i] != i)
            continue;
        if (!begun)
            flow_heading(&sheet->flow, tell_harm(w, harm));
        flow_add(&sheet->flow, change_box(sheet, change),
                 begun ? SPACE_LINE : SPACE_QUARTER);
        begun = true;
    }
}

/* What follows is told by its title, and labels by both. Amounts stand in the
 * table already. */
static const char *short_title(const struct errata *sheet,
                               const struct change *change)
{
    const struct change_wording *w = &sheet->wording;
    const struct told_change told = tell_change(w, change);
    const bool brief = change->harm == HARM_WORDS &&
                       strlen(told.was) + strlen(told.is) < 60 &&
                       (told.was[0] != '\0' || told.is[0] != '\0');
    return brief ? arena_printf(w->arena, "%s (%s \u2192 %s)", told.title,
                                told.was, told.is)
                 : told.title;
}

/* ensures: the titles of all such changes, with semicolons; "" for none. */
static const char *list_titles(const struct errata *sheet, bool words,
                               size_t *count)
{
    const struct comparison *of = sheet->wording.comparison;
    struct buffer out = buffer_in(sheet->wording.arena);
    *count = 0;
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (words ? change->harm != HARM_WORDS || change->follows
                  : !change->follows || change->harm == HARM_CLOTH)
            continue;
        buffer_printf(&out, "%s%s", (*count)++ == 0 ? "" : "; ",
                      short_title(sheet, change));
    }
    return buffer_string(&out);
}

/* The first of the steps that follow whose figures show where: who sewed by the
 * old numbers looks for the place in what lies before him. */
static void add_following_figure(struct errata *sheet)
{
    const struct comparison *of = sheet->wording.comparison;
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (!change->follows ||
            errata_figure(&sheet->flow.canvas, &sheet->wording, change) == NULL)
            continue;
        flow_add(&sheet->flow, change_box(sheet, change), SPACE_QUARTER);
        return;
    }
}

/* What follows, then words in a line each, and that nothing else changed:
 * without that sentence a reader must compare all the rest. */
static void add_rest(struct errata *sheet)
{
    const struct change_wording *w = &sheet->wording;
    size_t count;
    const char *follows = list_titles(sheet, false, &count);
    if (count > 0)
        add_text(sheet,
                 arena_printf(w->arena, "%s %s.",
                              say(w->arena, w->phrases, "compare.follows",
                                  NULL),
                              follows),
                 style_body(), SPACE_LINE, false);
    add_following_figure(sheet);
    const char *words = list_titles(sheet, true, &count);
    if (count > 0)
        add_text(sheet,
                 say(w->arena, w->phrases, "compare.words-sum", "count",
                     say_count(w->arena, count), "list", words, NULL),
                 style_body(), SPACE_LINE, false);
    add_text(sheet, say(w->arena, w->phrases, "compare.rest", NULL),
             style_bold(), SPACE_LINE, false);
}

/* ---- the sheet ---- */

/* How a reader tells a revision: by its number and date, or as the old and the
 * new booklet where the source states neither. */
static const char *printing(const struct errata *sheet, int side)
{
    const struct change_wording *w = &sheet->wording;
    const char *told = tell_revision(w, side);
    return told[0] != '\0' ? told
                           : say(w->arena, w->phrases,
                                 side == 0 ? "compare.sheet-one"
                                           : "compare.sheet-two",
                                 NULL);
}

/* Is anything of that quilt told? What is told of none is of all of them. */
static bool is_concerned(const struct comparison *of, size_t quilt)
{
    for (size_t i = 0; i < of->changes.count; i++)
        if (of->changes.items[i].quilt[0] == (int)quilt ||
            of->changes.items[i].quilt[0] == NOWHERE)
            return true;
    return false;
}

/* The booklets that are concerned: quilts, each with its colorways. */
static const char *booklets(const struct errata *sheet)
{
    const struct revision *old = sheet->wording.comparison->revisions[0];
    struct buffer out = buffer_in(sheet->wording.arena);
    for (size_t i = 0; i < old->quilts.count; i++) {
        const struct revision_quilt *quilt = &old->quilts.items[i];
        if (!is_concerned(sheet->wording.comparison, i))
            continue;
        buffer_printf(&out, "%s%s", out.length == 0 ? "" : "; ", quilt->name);
        for (size_t k = 0; k < quilt->colorways.count; k++)
            buffer_printf(&out, "%s%s", k == 0 ? " (" : ", ",
                          quilt->colorways.items[k].name);
        if (quilt->colorways.count > 0)
            buffer_char(&out, ')');
    }
    return buffer_string(&out);
}

/* A bold word at the left, in the column of the table below, and what it
 * says. */
static void add_labelled(struct errata *sheet, const char *label,
                         const char *text)
{
    const struct canvas *canvas = &sheet->flow.canvas;
    const double left = columns_wide(3) + GRID_GUTTER;
    const struct box *words =
        box_text(canvas, text, style_body(), canvas->width - left);
    struct box *box = box_new(canvas, canvas->width, words->height);
    box_put(canvas, box,
            box_text(canvas, label, style_bold(), columns_wide(3)), 0.0, 0.0);
    box_put(canvas, box, words, left, 0.0);
    flow_add(&sheet->flow, box, SPACE_QUARTER);
}

/* Before anything else: which booklets, and who may put the sheet away at
 * once. */
static void add_head(struct errata *sheet)
{
    const struct change_wording *w = &sheet->wording;
    const struct revision *now = w->comparison->revisions[1];
    flow_section(&sheet->flow, say(w->arena, w->phrases, "compare.sheet", NULL),
                 now->title, false);
    add_labelled(sheet, say(w->arena, w->phrases, "compare.compared", NULL),
                 say(w->arena, w->phrases, "compare.both-printings", "old",
                     printing(sheet, 0), "new", printing(sheet, 1), NULL));
    add_labelled(sheet, say(w->arena, w->phrases, "compare.booklets", NULL),
                 booklets(sheet));
    add_labelled(sheet, say(w->arena, w->phrases, "compare.concerned", NULL),
                 tell_concerned(w));
}

/* How to know which revision one holds; whom to ask. */
static void add_foot(struct errata *sheet)
{
    const struct change_wording *w = &sheet->wording;
    const struct revision *now = w->comparison->revisions[1];
    const char *told = tell_revision(w, 0);
    add_text(sheet,
             told[0] == '\0'
                 ? say(w->arena, w->phrases, "compare.tell-neither", NULL)
             : strcmp(told, printing(sheet, 1)) == 0
                 ? say(w->arena, w->phrases, "compare.tell-same", "printing",
                       told, NULL)
                 : say(w->arena, w->phrases, "compare.tell-apart", "printing",
                       arena_printf(w->arena, "%s / %s", told,
                                    printing(sheet, 1)),
                       NULL),
             style_body(), SPACE_LINE, false);
    if (now->designer[0] != '\0' || now->publisher[0] != '\0')
        add_text(sheet,
                 say(w->arena, w->phrases, "compare.questions", "designer",
                     now->publisher[0] == '\0'
                         ? now->designer
                         : arena_printf(w->arena, "%s, %s", now->designer,
                                        now->publisher),
                     NULL),
                 style_body(), SPACE_QUARTER, false);
}

/* The booklet's own flow, grid and type, so that the sheet lies well in it; no
 * cover and no contents, as it is meant to be one page. */
struct book *compose_errata(struct arena *arena, struct typeset *typeset,
                            const struct phrases *phrases,
                            const struct comparison *comparison, unsigned form)
{
    struct book *book = ARENA_NEW(arena, struct book);
    const struct revision *now = comparison->revisions[1];
    const bool a4 = (form & FORM_A4) != 0;
    book->width = a4 ? 595.276 : 612.0;
    book->height = a4 ? 841.890 : 792.0;
    book->title = arena_printf(arena, "%s: %s", now->title,
                               say(arena, phrases, "compare.sheet", NULL));
    book->author = now->designer;
    book->subject = "";
    book->language = phrases_language(phrases);
    book->date = now->date[0] == '\0' ? NULL : now->date;
    struct errata sheet = {.flow = flow_for(arena, typeset, book),
                          .wording = {arena, phrases, comparison, true}};
    sheet.alike = changes_alike(&sheet.wording);
    sheet.flow.phrases = phrases;
    sheet.flow.foot = book->title;
    add_head(&sheet);
    add_table(&sheet);
    for (int harm = 0; harm < HARM_WORDS; harm++)
        add_changes(&sheet, (enum harm)harm);
    add_rest(&sheet);
    add_foot(&sheet);
    flow_finish(&sheet.flow);
    return book;
}
