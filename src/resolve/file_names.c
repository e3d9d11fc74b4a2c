/* Names of booklets, which are made of ids: told before anything is made where
 * two booklets would have one name, or a file system has no room for it. */
#include "identifier.h"
#include "resolver.h"

#include <string.h>

/* Of a name, on every file system in use (POSIX NAME_MAX where it is least that
 * people meet). And more booklets than anybody makes of one pattern. */
enum { LIMIT_NAME_BYTES = 255, LIMIT_BOOKLETS = 500 };

const char *booklet_name(struct arena *arena, const struct design *design,
                         const struct definition *quilt,
                         const struct colorway *colorway,
                         enum booklet_file file)
{
    static const char *const endings[] = {[BOOKLET_WHOLE] = "",
                                          [BOOKLET_FOLDING] = "-folding",
                                          [BOOKLET_PREVIEW] = "-preview"};
    return arena_printf(arena, "%s-%s-%s%s.pdf", design->id, quilt->id,
                        colorway->id, endings[file]);
}

/* All pairs of a quilt and a colorway. */
struct booklets {
    struct resolver *resolver;
    LIST(const struct definition *) quilts;
    struct name_table names; /* folded; the number tells the pair */
};

static size_t number_of(const struct booklets *booklets, size_t quilt,
                        size_t colorway)
{
    return quilt * booklets->resolver->design->colorways.count + colorway;
}

/* reports: two pairs that make one name. */
static void report_clash(struct booklets *booklets, size_t first, size_t second,
                         const char *name)
{
    const struct design *design = booklets->resolver->design;
    const size_t count = design->colorways.count;
    const struct definition *quilts[2] = {
        booklets->quilts.items[first / count],
        booklets->quilts.items[second / count]};
    const struct colorway *colorways[2] = {
        &design->colorways.items[first % count],
        &design->colorways.items[second % count]};
    struct run *run = booklets->resolver->run;
    struct diagnostic *d = report_about(
        booklets->resolver, quilts[1]->element, DIAG_DOUBLE_NAME,
        value_span(quilts[1]->element, ATTR_ID),
        "two booklets would have one file name, %s", quoted(run->arena, name));
    for (int i = 0; i < 2; i++)
        diag_note(run, d, value_span(colorways[i]->element, ATTR_ID),
                  "%s is `%s` in the colorway `%s`",
                  i == 0 ? "the first" : "the second", quilts[i]->id,
                  colorways[i]->id);
    diag_help(run, d,
              "give one of the quilts or colorways another id; file "
              "names are put together with -, and capitals do not tell "
              "them apart everywhere");
}

/* ensures: false where something was reported. */
static bool check_pair(struct booklets *booklets, size_t quilt, size_t colorway)
{
    struct resolver *resolver = booklets->resolver;
    struct arena *arena = resolver->run->arena;
    const struct definition *of = booklets->quilts.items[quilt];
    const struct colorway *in = &resolver->design->colorways.items[colorway];
    const size_t number = number_of(booklets, quilt, colorway);
    for (int file = BOOKLET_WHOLE; file <= BOOKLET_PREVIEW; file++) {
        const char *name = booklet_name(arena, resolver->design, of, in,
                                        (enum booklet_file)file);
        const char *folded = identifier_folded(arena, name);
        size_t first;
        if (!name_table_add(arena, &booklets->names, folded, number) &&
            name_table_find(&booklets->names, folded, &first)) {
            report_clash(booklets, first, number, name);
            return false;
        }
        if (file != BOOKLET_PREVIEW || strlen(name) <= LIMIT_NAME_BYTES)
            continue;
        struct diagnostic *d = report_about(
            resolver, of->element, DIAG_LIMIT, value_span(of->element, ATTR_ID),
            "the file name of a booklet takes %zu bytes, but at most %d fit",
            strlen(name), LIMIT_NAME_BYTES);
        diag_note(resolver->run, d, value_span(in->element, ATTR_ID),
                  "it is made of the ids of pattern, quilt and colorway");
        diag_help(resolver->run, d, "give one of them a shorter id");
        return false;
    }
    return true;
}

/* Ids that stand twice, or are missing, were told as that. */
static bool ids_sound(const struct design *design)
{
    struct arena *scratch = arena_create();
    struct name_table seen = {0};
    bool sound = value_of(design->pattern->root, ATTR_ID) != NULL;
    for (size_t i = 0; i < design->colorways.count; i++)
        sound &=
            value_of(design->colorways.items[i].element, ATTR_ID) != NULL &&
            name_table_add(scratch, &seen, design->colorways.items[i].id, i);
    arena_destroy(scratch);
    return sound;
}

void check_file_names(struct resolver *resolver)
{
    const struct design *design = resolver->design;
    struct booklets booklets = {.resolver = resolver};
    bool sound = ids_sound(design);
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *quilt = design->definitions.items[i];
        if (quilt->kind != DEFINE_QUILT)
            continue;
        /* A second one of that name was told. */
        sound &= design_find(design, quilt->id, DEFINE_QUILT) == quilt &&
                 value_of(quilt->element, ATTR_ID) != NULL;
        *LIST_ADD(resolver->run->arena, &booklets.quilts) = quilt;
    }
    const size_t count = booklets.quilts.count * design->colorways.count;
    if (sound && count > LIMIT_BOOKLETS)
        diag_report(resolver->run, DIAG_LIMIT, design->pattern->root->name,
                    "more than %d booklets: %zu quilts in %zu colorways",
                    LIMIT_BOOKLETS, booklets.quilts.count,
                    design->colorways.count);
    for (size_t i = 0; sound && count <= LIMIT_BOOKLETS && i < count; i++)
        sound = check_pair(&booklets, i / design->colorways.count,
                           i % design->colorways.count);
}
