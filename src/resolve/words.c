/* The designer's own words: references in them are bound to what they name.
 * After all definitions, as words may speak of any of them. The text itself is
 * left as the reader made it. */
#include "resolver.h"

/* Only a patch is cut as it is named; all else is sewn from what is cut.
 * reports: a cut size asked of anything else. */
static void check_cut(struct resolver *resolver,
                      const struct reference *reference)
{
    const bool patch =
        reference->piece != NULL && reference->piece->kind == PIECE_PATCH;
    const bool bound = reference->piece != NULL || reference->make != NULL;
    if (reference->as != AS_CUT || patch || !bound)
        return;
    const struct element *element = reference->element;
    const struct element *found = reference->piece != NULL
                                      ? reference->piece->element
                                      : reference->make->element;
    struct diagnostic *d = diag_report(
        resolver->run, DIAG_UNKNOWN_PIECE, value_span(element, ATTR_OF),
        "`%s` is no patch, so it has no cut size", reference->name);
    diag_note(resolver->run, d, found->name, "it is a `%s`, which is sewn",
              element_name(found->kind));
    diag_mend(resolver->run, d, value_span(element, ATTR_AS), "unfinished",
              "as=\"unfinished\" is the size with its seam allowances");
}

/* A name that is not there was reported and leaves the reference unbound. It is
 * added all the same: runs and references are joined by their index, and one
 * too few would move all that follow. */
static void bind_reference(struct resolver *resolver, struct words *words,
                           const struct element *element)
{
    struct reference *reference =
        LIST_ADD(resolver->run->arena, &words->references);
    *reference = (struct reference){.kind = REFER_CLOTH,
                                    .element = element,
                                    .name = text_of(element, ATTR_OF, "?"),
                                    .fabric = NO_FABRIC};
    if (element->kind == ELEMENT_CLOTH_NAME) {
        reference->fabric = bind_fabric(resolver, element, ATTR_OF);
        return;
    }
    const struct named named =
        bind_named(resolver, element, ATTR_OF, true, "unit, block or piece");
    reference->kind = element->kind == ELEMENT_QTY ? REFER_COUNT : REFER_SIZE;
    reference->make = named.definition;
    reference->piece = named.piece;
    reference->as = (enum size_as)choice_of(element, ATTR_AS, AS_UNFINISHED);
    check_cut(resolver, reference);
}

/* One for each child, so that references and runs keep step. All words are also
 * kept in one list, for checks that look at every text. */
static const struct words *bind_words(struct resolver *resolver,
                                      const struct element *element)
{
    struct words *words = ARENA_NEW(resolver->run->arena, struct words);
    words->element = element;
    for (size_t i = 0; i < element->children.count; i++)
        bind_reference(resolver, words, element->children.items[i]);
    *LIST_ADD(resolver->run->arena, &resolver->design->words) = words;
    return words;
}

/* The summary first, then the steps in their order. */
void resolve_words(struct resolver *resolver)
{
    struct design *design = resolver->design;
    const struct element *root = design->pattern->root;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *about = root->children.items[i];
        for (size_t k = 0;
             about->kind == ELEMENT_ABOUT && k < about->children.count; k++)
            design->summary = bind_words(resolver, about->children.items[k]);
    }
    for (size_t i = 0; i < design->assemblies.count; i++) {
        struct assembly *assembly = &design->assemblies.items[i];
        for (size_t k = 0; k < assembly->steps.count; k++) {
            struct assembly_step *step = &assembly->steps.items[k];
            for (size_t s = 0; s < step->element->children.count; s++)
                *LIST_ADD(resolver->run->arena, &step->says) =
                    bind_words(resolver, step->element->children.items[s]);
        }
    }
}
