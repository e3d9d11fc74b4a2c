/* The resolving stage: pattern to design. May assume a tree whose elements
 * stand where they may, with values read or marked. Fabrics come before pieces,
 * which name them; all definitions before any assembly, which names both.
 * Nothing is measured here. Read next: definitions.c. */
#include "resolver.h"

#include <stdarg.h>
#include <string.h>

/* The definition that is the element, or that it stands in; NULL outside. */
static struct definition *definition_around(const struct design *design,
                                            const struct element *element)
{
    while (element->parent != NULL && element->parent->parent != NULL)
        element = element->parent;
    /* They stand in the order of the pattern, whatever file they lie in. */
    size_t low = 0, high = design->definitions.count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        struct definition *found = design->definitions.items[middle];
        if (found->element == element)
            return found;
        if (found->element->place < element->place)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

void mark_definition(struct resolver *resolver, const struct element *element)
{
    struct definition *around = definition_around(resolver->design, element);
    if (around != NULL)
        around->unsound = true;
}

struct diagnostic *report_about(struct resolver *resolver,
                                const struct element *element,
                                enum diag_code code, struct span span,
                                const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_vprintf(resolver->run->arena, format, arguments);
    va_end(arguments);
    if (diag_entry(code)->level == DIAG_ERROR)
        mark_definition(resolver, element);
    return diag_report(resolver->run, code, span, "%s", text);
}

void report_second(struct resolver *resolver, const struct element *second,
                   const struct element *first, enum attribute_id id,
                   const char *text)
{
    struct diagnostic *d = report_about(resolver, second, DIAG_DOUBLE_NAME,
                                        value_span(second, id), "%s", text);
    diag_note(resolver->run, d, value_span(first, id), "the first one");
}

/* Gathered only for the message, which is mostly not needed. */
static void report_unnamed(struct resolver *resolver,
                           const struct element *element, enum attribute_id id,
                           bool pieces, const char *what)
{
    const struct design *design = resolver->design;
    const size_t most = design->definitions.count + design->pieces.count;
    struct arena *scratch = arena_create();
    const char **names = ARENA_ARRAY(scratch, const char *, most + 1);
    size_t count = 0;
    for (size_t i = 0; i < design->definitions.count; i++)
        names[count++] = design->definitions.items[i]->id;
    for (size_t i = 0; pieces && i < design->pieces.count; i++)
        if (design->pieces.items[i]->id != NULL)
            names[count++] = design->pieces.items[i]->id;
    report_unknown_name(resolver, DIAG_UNKNOWN_PIECE, element, id, what, names,
                        count);
    arena_destroy(scratch);
}

/* Units, blocks and quilts win over pieces of the same id. */
struct named bind_named(struct resolver *resolver,
                        const struct element *element, enum attribute_id id,
                        bool pieces, const char *what)
{
    struct named named = {NULL, NULL};
    const char *wanted = text_of(element, id, NULL);
    if (wanted == NULL)
        return named;
    const struct design *design = resolver->design;
    size_t index;
    for (int kind = 0; kind < DEFINE_COUNT; kind++)
        if (name_table_find(&design->named[kind], wanted, &index))
            named.definition = design->definitions.items[index];
    if (named.definition != NULL)
        return named;
    if (pieces && name_table_find(&resolver->pieces, wanted, &index))
        named.piece = design->pieces.items[index];
    if (named.piece == NULL)
        report_unnamed(resolver, element, id, pieces, what);
    return named;
}

/* count 0 stands for "not stated"; values.c refuses a written 0. Pieces can be
 * made only where it is known whose assembly this is: one cause, one message.
 */
static void add_step(struct resolver *resolver, struct assembly *assembly,
                     const struct element *element)
{
    struct assembly_step *step =
        LIST_ADD(resolver->run->arena, &assembly->steps);
    step->element = element;
    step->name = text_of(element, ATTR_MAKE, "?");
    step->mirror = choice_of(element, ATTR_MIRROR, 0) == 1;
    step->count = whole_of(element, ATTR_COUNT);
    const struct named named =
        bind_named(resolver, element, ATTR_MAKE, assembly->of != NULL,
                   "unit, block or piece");
    step->make = named.definition;
    step->piece = named.piece;
    resolver->within =
        named.piece != NULL ? named.piece->owner : named.definition;
    step->press = resolve_press(resolver, element);
    resolver->within = NULL;
}

/* reports: a second assembly of the same thing. */
static void check_assembly_twice(struct resolver *resolver,
                                 const struct assembly *assembly)
{
    const struct design *design = resolver->design;
    for (size_t i = 0; i + 1 < design->assemblies.count; i++) {
        const struct assembly *other = &design->assemblies.items[i];
        if (other->of == NULL || other->of != assembly->of)
            continue;
        report_second(resolver, assembly->element, other->element, ATTR_OF,
                      arena_printf(resolver->run->arena,
                                   "a second assembly of `%s`",
                                   assembly->of->id));
        return;
    }
}

/* A step finds a piece by its id: it must be the only one. */
static void check_piece_ids(struct resolver *resolver)
{
    const struct design *design = resolver->design;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        size_t first;
        if (piece->id == NULL || piece->first != piece ||
            name_table_add(resolver->run->arena, &resolver->pieces, piece->id,
                           i) ||
            !name_table_find(&resolver->pieces, piece->id, &first))
            continue;
        const struct element *other = design->pieces.items[first]->element;
        struct diagnostic *d =
            report_about(resolver, piece->element, DIAG_DOUBLE_NAME,
                         value_span(piece->element, ATTR_ID),
                         "the name `%s` is taken", piece->id);
        diag_note(resolver->run, d, value_span(other, ATTR_ID),
                  "by the first `%s`", element_name(other->kind));
    }
}

/* The list of assemblies no longer moves. */
static void note_assemblies(struct design *design)
{
    for (size_t i = design->assemblies.count; i-- > 0;) {
        const struct assembly *assembly = &design->assemblies.items[i];
        if (assembly->of != NULL)
            design->definitions.items[assembly->of->index]->assembly = assembly;
    }
}

/* An assembly may speak of anything that is defined, wherever it stands. Its
 * steps keep their order, which is the order of the booklet. */
void resolve_assemblies(struct resolver *resolver)
{
    check_piece_ids(resolver);
    size_t steps = 0;
    const struct element *root = resolver->design->pattern->root;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *element = root->children.items[i];
        if (element->kind != ELEMENT_ASSEMBLY)
            continue;
        struct assembly *assembly =
            LIST_ADD(resolver->run->arena, &resolver->design->assemblies);
        assembly->element = element;
        assembly->of = bind_named(resolver, element, ATTR_OF, false,
                                  "unit, block or quilt")
                           .definition;
        steps += 1 + element->children.count;
        if (steps > LIMIT_STEPS) {
            report_about(resolver, element, DIAG_LIMIT, element->name,
                         "more than %d assemblies and steps together",
                         LIMIT_STEPS);
            break;
        }
        for (size_t k = 0; k < element->children.count; k++)
            add_step(resolver, assembly, element->children.items[k]);
        check_assembly_twice(resolver, assembly);
    }
    note_assemblies(resolver->design);
}

/* Text that is missing becomes "", so that pages can be made without a question
 * at every place. */
static void resolve_about(struct resolver *resolver)
{
    struct design *design = resolver->design;
    const struct element *root = design->pattern->root;
    design->paper = -1;
    design->id = text_of(root, ATTR_ID, "pattern");
    design->title = text_of(root, ATTR_TITLE, design->id);
    design->designer = design->publisher = "";
    design->revision = design->date = design->skill = "";
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *about = root->children.items[i];
        if (about->kind != ELEMENT_ABOUT)
            continue;
        design->designer = text_of(about, ATTR_DESIGNER, "");
        design->publisher = text_of(about, ATTR_PUBLISHER, "");
        design->revision = text_of(about, ATTR_REVISION, "");
        design->date = text_of(about, ATTR_DATE, "");
        design->skill = text_of(about, ATTR_SKILL, "");
        design->photo = resolve_photo(resolver->run, about);
        design->logo = resolve_logo(resolver->run, about);
        design->display = resolve_display_face(resolver->run, design, about);
        design->accent = resolve_accent(resolver->run, about);
        design->paper = choice_of(about, ATTR_PAPER, -1);
    }
}

/* Goes on after mistakes: what is not bound is NULL or NO_FABRIC, and later
 * stages pass it over, so that one run tells all mistakes. */
struct design *resolve_pattern(struct run *run, const struct pattern *pattern)
{
    struct design *design = ARENA_NEW(run->arena, struct design);
    design->pattern = pattern;
    struct resolver resolver = {.run = run, .design = design};
    resolve_about(&resolver);
    resolve_fabrics(&resolver);
    resolve_colorways(&resolver);
    resolve_definitions(&resolver);
    check_file_names(&resolver);
    resolve_assemblies(&resolver);
    resolve_quilting(&resolver);
    resolve_words(&resolver);
    return design;
}
