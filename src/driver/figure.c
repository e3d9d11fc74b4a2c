/* seamwright figure: the names of a booklet's figures, or one of them as a file
 * of its own. Where several quilts or colorways are chosen, the first is
 * drawn. Read next: book/named.c. */
#include <stdio.h>
#include <string.h>

#include "buffer.h"
#include "compose.h"
#include "diag.h"
#include "files.h"
#include "selection.h"

/* Sharp on a screen and fair on paper, at a few dozen kilobytes. */
enum { RESOLUTION = 150 };

/* What one run of the command works on. The plan is of one quilt and colorway;
 * options are asked again where a figure is written. */
struct drawing {
    struct arena *arena;
    const struct options *options;
    struct typeset *typeset;
    const struct cutplan *plan;
    struct figures figures;
};

/* The name of the file alone decides: an option beside it could say something
 * else. */
enum form { FORM_SVG, FORM_PNG, FORM_UNKNOWN };

/* By the ending of the file; standard output gets SVG. */
static enum form form_of(const struct options *options)
{
    if (options->folder == NULL)
        return FORM_SVG;
    const char *dot = strrchr(options->folder, '.');
    if (dot != NULL && strcmp(dot, ".svg") == 0)
        return FORM_SVG;
    return dot != NULL && strcmp(dot, ".png") == 0 ? FORM_PNG : FORM_UNKNOWN;
}

/* Asked before the file is read, so that wrong usage is told at once. ensures:
 * true, or a message. */
static bool usage_holds(const struct options *options)
{
    const char *problem = NULL;
    if (options->file_count == 1 && options->folder != NULL)
        problem = "figure writes with -o only where a figure is named";
    else if (form_of(options) == FORM_UNKNOWN)
        problem = "figure writes files that end in .svg or .png";
    else if (options->resolution > 0 && form_of(options) != FORM_PNG)
        problem = "--resolution is for a file that ends in .png";
    if (problem != NULL)
        complain("seamwright: %s\nTry 'seamwright figure --help'.\n", problem);
    return problem == NULL;
}

/* Two columns: a script takes the first word of each line. */
static int list_figures(const struct drawing *drawing)
{
    struct buffer table = buffer_in(drawing->arena);
    int width = 0;
    for (size_t i = 0; i < drawing->figures.items.count; i++) {
        const int length = (int)strlen(drawing->figures.items.items[i].name);
        width = length > width ? length : width;
    }
    for (size_t i = 0; i < drawing->figures.items.count; i++) {
        const struct named_figure *named = &drawing->figures.items.items[i];
        buffer_printf(&table, "%-*s  %s\n", width, named->name, named->title);
    }
    return write_text(buffer_string(&table));
}

/* reports: on standard error, with the names that are near. */
static int unknown_figure(const struct drawing *drawing, const char *name)
{
    const size_t count = drawing->figures.items.count;
    const char **names = ARENA_ARRAY(drawing->arena, const char *, count);
    for (size_t i = 0; i < count; i++)
        names[i] = drawing->figures.items.items[i].name;
    const char *near = near_names(drawing->arena, name, names, count);
    complain("seamwright: no figure is called %s\n",
             quoted(drawing->arena, name));
    if (near != NULL)
        complain("help: did you mean %s?\n", near);
    else
        complain("help: 'seamwright figure FILE' lists all names\n");
    return STATUS_USAGE;
}

/* Ids tell quilt and colorway as well: two forms of one figure may stand in
 * one page. */
static struct rendered render_figure(const struct drawing *drawing,
                                     const struct named_figure *named)
{
    const int resolution = drawing->options->resolution;
    const struct figure_words words = {
        arena_printf(drawing->arena, "%s-%s-%s", named->name,
                     drawing->plan->quilt->definition->id,
                     drawing->plan->colorway->id),
        named->title};
    return form_of(drawing->options) == FORM_PNG
               ? render_png(drawing->arena, drawing->typeset, named->book,
                            resolution > 0 ? resolution : RESOLUTION)
               : render_svg(drawing->arena, drawing->typeset, named->book,
                            &words);
}

/* Silent where it writes a file, as a compiler is. */
static int write_figure(const struct drawing *drawing, struct rendered rendered)
{
    const char *path = drawing->options->folder, *problem = NULL;
    if (path == NULL)
        return write_bytes(rendered.bytes, rendered.length);
    if (files_replace_file(drawing->arena, path, rendered.bytes,
                           rendered.length, &problem))
        return STATUS_CLEAN;
    complain("seamwright: %s\n", problem);
    return STATUS_FILES;
}

/* ensures: the status to leave with; bytes where a figure was asked for. */
static int draw(const struct drawing *drawing, struct rendered *rendered)
{
    const struct options *options = drawing->options;
    if (options->file_count == 1)
        return list_figures(drawing);
    const struct named_figure *named =
        compose_figure(&drawing->figures, options->files[1]);
    if (named == NULL)
        return unknown_figure(drawing, options->files[1]);
    *rendered = render_figure(drawing, named);
    if (rendered->problem == NULL)
        return STATUS_CLEAN;
    complain("seamwright: internal error: a figure cannot be drawn: %s\n",
             rendered->problem);
    return STATUS_INTERNAL;
}

/* The plan of the first quilt and colorway that are chosen: a name must mean
 * one figure, and the first is the one that the writer thought of first. */
static const struct cutplan *first_plan(const struct compiled *compiled,
                                        const struct selection *selection)
{
    for (size_t i = 0; i < compiled->plans->items.count; i++)
        if (selected(selection, &compiled->plans->items.items[i]))
            return &compiled->plans->items.items[i];
    return NULL;
}

/* Quilting that is refused has one figure that shows why: the chosen quilt's
 * where it is at fault, else the first that is. NULL for none. */
static const struct quilting_plan *refused(const struct compiled *compiled,
                                           const struct options *options)
{
    const bool asked = options->file_count > 1 &&
                       strcmp(options->files[1], "quilting-gaps") == 0;
    if (!asked || compiled->quilted == NULL || compiled->plans != NULL ||
        !quilting_failed(compiled->quilted))
        return NULL;
    for (size_t i = 0; i < compiled->quilted->plans.count; i++) {
        const struct quilting_plan *plan = &compiled->quilted->plans.items[i];
        if (plan->told != NULL && plan->gaps.count > 0 &&
            (options->quilt == NULL ||
             strcmp(options->quilt, plan->quilt->definition->id) == 0))
            return plan;
    }
    return NULL;
}

static const struct colorway *colorway_of(const struct compiled *compiled,
                                          const struct options *options)
{
    const struct design *design = compiled->design;
    for (size_t i = 0; options->colorway != NULL && i < design->colorways.count;
         i++)
        if (strcmp(design->colorways.items[i].id, options->colorway) == 0)
            return &design->colorways.items[i];
    return &design->colorways.items[0];
}

static const struct phrases *phrases_of(struct arena *arena,
                                        const struct compiled *compiled,
                                        const struct options *options)
{
    return phrases_load(arena, options->language != NULL
                                   ? options->language
                                   : compiled->pattern->language);
}

/* ensures: the status of the mistakes, or why the figure could not be written:
 * the pattern stays refused. */
static int draw_refused(struct arena *arena, const struct options *options,
                        const struct compiled *compiled, int status)
{
    const struct quilting_plan *plan = refused(compiled, options);
    if (plan == NULL)
        return status;
    const struct cutplan cut = {.quilt = plan->quilt,
                                .colorway = colorway_of(compiled, options)};
    struct drawing drawing = {.arena = arena, .options = options, .plan = &cut};
    drawing.typeset = typeset_create_with(compiled->design->display);
    drawing.figures = compose_gaps(arena, drawing.typeset,
                                   phrases_of(arena, compiled, options),
                                   compiled->design, plan, cut.colorway);
    struct rendered rendered = {0};
    int drawn = draw(&drawing, &rendered);
    typeset_destroy(drawing.typeset);
    if (rendered.bytes != NULL)
        drawn = write_figure(&drawing, rendered);
    return drawn == STATUS_CLEAN ? status : drawn;
}

/* All figures are made to find one: that takes as long as a booklet without
 * its PDF, a few hundredths of a second, and no figure can differ from the
 * booklet's. */
int command_figure(struct arena *arena, const struct options *options)
{
    if (!usage_holds(options))
        return STATUS_USAGE;
    const struct compiled compiled = compile_file(arena, options->files[0]);
    if (compiled.status != STATUS_CLEAN)
        return compiled.status;
    int status = finish_diagnostics(&compiled, options, false);
    if (status != STATUS_CLEAN)
        return draw_refused(arena, options, &compiled, status);
    struct selection selection;
    if (!select_outputs(&compiled, options, &selection))
        return STATUS_USAGE;
    struct drawing drawing = {.arena = arena, .options = options};
    drawing.plan = first_plan(&compiled, &selection);
    if (drawing.plan == NULL) {
        complain("seamwright: the pattern has no quilt to draw\n");
        return STATUS_USAGE;
    }
    drawing.typeset = typeset_create_with(compiled.design->display);
    drawing.figures = compose_figures(
        arena, drawing.typeset, phrases_of(arena, &compiled, options),
        compiled.design, drawing.plan, paper_is_a4(&compiled, options));
    struct rendered rendered = {0};
    status = draw(&drawing, &rendered);
    typeset_destroy(drawing.typeset);
    return rendered.bytes == NULL ? status : write_figure(&drawing, rendered);
}
