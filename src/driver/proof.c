/* seamwright proof: a packet for one tester of each booklet, and the claims as
 * a table. All files are written together or none. Read next: gather.c. */
#include <string.h>

#include "buffer.h"
#include "compose.h"
#include "files.h"
#include "selection.h"

struct packets {
    const struct compiled *compiled;
    struct selection selection;
    struct testers testers;
    struct typeset *typeset;
    const struct phrases *phrases;
    unsigned form;
    LIST(struct output_file) files;
};

/* Pages take far more memory than their file, and go when that is made. */
static bool add_packet(struct packets *packets, const struct cutplan *plan)
{
    struct arena *kept = packets->compiled->run->arena;
    struct arena *arena = arena_create();
    const struct design *design = packets->compiled->design;
    const struct rendered pdf = render_pdf(
        arena, packets->typeset,
        compose_proof(arena, packets->typeset, packets->phrases, design, plan,
                      packets->form, packets->testers));
    if (pdf.problem != NULL)
        complain("seamwright: internal error: a page cannot be drawn: %s\n",
                 pdf.problem);
    else
        *LIST_ADD(kept, &packets->files) = (struct output_file){
            arena_printf(kept, "proof-%s",
                         booklet_name(kept, design, plan->quilt->definition,
                                      plan->colorway, BOOKLET_WHOLE)),
            arena_copy(kept, pdf.bytes, pdf.length), pdf.length};
    const bool made = pdf.problem == NULL;
    arena_destroy(arena);
    return made;
}

static bool add_packets(struct packets *packets)
{
    struct arena *arena = packets->compiled->run->arena;
    const struct cutplans *plans = packets->compiled->plans;
    for (size_t i = 0; i < plans->items.count; i++)
        if (selected(&packets->selection, &plans->items.items[i]) &&
            !add_packet(packets, &plans->items.items[i]))
            return false;
    const char *csv = render_claims_csv(arena, packets->phrases, plans,
                                        &packets->selection, packets->testers);
    *LIST_ADD(arena, &packets->files) =
        (struct output_file){"claims.csv", csv, strlen(csv)};
    return true;
}

/* Without --testers there is one, and all claims are theirs. */
static bool share(const struct options *options, struct testers *testers)
{
    *testers =
        (struct testers){options->testers > 0 ? (size_t)options->testers : 1,
                         options->tester > 0 ? (size_t)options->tester : 1};
    if ((options->testers > 0) != (options->tester > 0)) {
        complain("seamwright: --testers and --tester go together: of how many, "
                 "and for whom this packet is\n");
        return false;
    }
    if (testers->tester <= testers->count)
        return true;
    complain("seamwright: --tester is from 1 to %zu, as there are %zu\n",
             testers->count, testers->count);
    return false;
}

/* A packet is made of one pattern, a sum of many tables; what one of the two
 * takes, the other does not. */
static bool usage_holds(const struct options *options)
{
    const char *problem = NULL;
    if (!options->gather && options->json)
        problem = "--json goes with --gather: packets are pages and a table";
    else if (!options->gather && options->file_count > 1)
        problem = "one file at a time for proof, but for --gather";
    else if (options->gather && options->folder != NULL)
        problem = "--gather writes no folder (-o): it prints what was found";
    else if (options->gather && (options->testers > 0 || options->tester > 0))
        problem = "--gather takes no --testers or --tester: the tables tell";
    else if (options->gather &&
             (options->quilt != NULL || options->colorway != NULL))
        problem = "--gather takes no --quilt or --colorway: it tells of all";
    else if (options->gather &&
             (options->paper_chosen || options->language != NULL))
        problem = "--gather takes no --paper or --language: it prints no page";
    if (problem != NULL)
        complain("seamwright: %s\nTry 'seamwright proof --help'.\n", problem);
    return problem == NULL;
}

int command_proof(struct arena *arena, const struct options *options)
{
    struct packets packets = {.files = {0}};
    if (!usage_holds(options))
        return STATUS_USAGE;
    if (options->gather)
        return command_gather(arena, options);
    if (!share(options, &packets.testers))
        return STATUS_USAGE;
    const struct compiled compiled = compile_file(arena, options->files[0]);
    if (compiled.status != STATUS_CLEAN)
        return compiled.status;
    const int status = finish_diagnostics(&compiled, options, true);
    if (status != STATUS_CLEAN)
        return status;
    packets.compiled = &compiled;
    if (!select_outputs(&compiled, options, &packets.selection))
        return STATUS_USAGE;
    packets.form = paper_is_a4(&compiled, options) ? FORM_A4 : FORM_LETTER;
    packets.phrases = phrases_load(arena, options->language != NULL
                                              ? options->language
                                              : compiled.pattern->language);
    packets.typeset = typeset_create_with(compiled.design->display);
    const bool made = add_packets(&packets);
    typeset_destroy(packets.typeset);
    return made ? write_folder(arena, output_folder(arena, options),
                               packets.files.items, packets.files.count, "")
                : STATUS_INTERNAL;
}
