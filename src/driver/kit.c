/* seamwright kit: what is bought, cut and packed for an order of kits, or for
 * so many of one pattern. All files are written together or none. Read next:
 * kitting.c. */
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "files.h"
#include "kitting.h"
#include "selection.h"

/* Files are made in memory, and written when all of them are there. */
static void add_text(struct arena *arena, struct kit_files *files,
                     const char *name, const char *text)
{
    *LIST_ADD(arena, &files->items) =
        (struct output_file){name, text, strlen(text)};
}

/* A sum that lacks a price would look like less than it is. */
static void tell_money(struct buffer *text, const struct kits *kits,
                       const char *what, struct rational sum)
{
    const char *currency = kits->order->currency;
    if (rational_known(sum))
        buffer_printf(text, "%s: %s%s%s\n", what,
                      money_text(text->arena, kits->order, sum),
                      currency[0] == '\0' ? "" : " ", currency);
    else
        buffer_printf(text, "%s: a price lacks\n", what);
}

/* Told after the files: what they come to. */
static const char *sums(struct arena *arena, const struct kits *kits)
{
    struct buffer text = buffer_in(arena);
    buffer_printf(&text, "%zu kit%s of %zu line%s, %zu cloth%s\n",
                  kits->kit_count, kits->kit_count == 1 ? "" : "s",
                  kits->order->lines.count,
                  kits->order->lines.count == 1 ? "" : "s", kits->cloths.count,
                  kits->cloths.count == 1 ? "" : "s");
    tell_money(&text, kits, "to buy", kits->bought_cost);
    tell_money(&text, kits, "all kits cost", kits->kits_cost);
    return buffer_string(&text);
}

static int write_kits(struct arena *arena, const struct options *options,
                      const struct kits *kits, const struct kept_facts *kept,
                      const char *language)
{
    struct kit_files files = {.items = {0}};
    const int status =
        add_kit_papers(arena, &files, kits,
                       options->language != NULL ? options->language : language,
                       options->paper_chosen
                           ? options->paper == PAPER_A4
                           : kits->order->paper == 1 ||
                                 (kits->order->paper < 0 &&
                                  kits->order->units == UNIT_CM));
    if (status != STATUS_CLEAN)
        return status;
    add_text(arena, &files, "purchase.csv", render_purchase_csv(arena, kits));
    add_text(arena, &files, "bolts.csv", render_bolts_csv(arena, kits));
    add_text(arena, &files, "strips.csv", render_strips_csv(arena, kits));
    add_text(arena, &files, "picking.csv", render_picking_csv(arena, kits));
    add_text(arena, &files, "slips.csv", render_slips_csv(arena, kits));
    add_text(arena, &files, "count.csv", render_count_csv(arena, kits));
    add_text(arena, &files, "costs.csv", render_costs_csv(arena, kits));
    add_text(arena, &files, "next-shelf.xml", render_next_shelf(arena, kits));
    if (kept != NULL)
        add_text(arena, &files, KEPT_FACTS_NAME, kept_facts_bytes(kept));
    return write_folder(arena, output_folder(arena, options), files.items.items,
                        files.items.count, sums(arena, kits));
}

/* Options that only a pattern takes. */
static bool chooses_one(const struct options *options)
{
    return options->quilt != NULL || options->colorway != NULL ||
           options->kits > 0 || options->style >= 0;
}

/* What was kept is read from the place of the output, which this run may
 * read and replace. */
static int kit_of_order(struct run *run, const struct options *options)
{
    if (chooses_one(options)) {
        complain("seamwright: --quilt, --colorway, --kits and --style are for "
                 "kits of one pattern; %s is an order\n",
                 options->files[0]);
        return STATUS_USAGE;
    }
    struct kept_facts *kept =
        kept_facts_open(run->arena, output_folder(run->arena, options));
    const struct kits *kits = plan_order(run, kept);
    const struct compiled compiled = {.run = run};
    const int status = finish_diagnostics(&compiled, options, true);
    return status == STATUS_CLEAN ? write_kits(run->arena, options, kits, kept,
                                               kits->order->language)
                                  : status;
}

/* An order of one line, with nothing on the shelf. What is wrong in the file is
 * told before the options that lack: it may be an order whose root is misspelt.
 */
static int kit_of_pattern(struct arena *arena, const struct source *source,
                          const struct options *options)
{
    const struct compiled compiled = compile_source(arena, source);
    struct selection selection;
    int status = diag_count(compiled.run, DIAG_ERROR) > 0
                     ? finish_diagnostics(&compiled, options, true)
                     : STATUS_CLEAN;
    if (status != STATUS_CLEAN)
        return status;
    if (options->quilt == NULL || options->colorway == NULL ||
        options->kits == 0) {
        complain("seamwright: kits of one pattern need --quilt, --colorway and "
                 "--kits\n");
        return STATUS_USAGE;
    }
    if (!select_outputs(&compiled, options, &selection))
        return STATUS_USAGE;
    const struct kit_facts *facts = kit_facts_find(
        kit_facts(arena, compiled.plans), options->quilt, options->colorway);
    const struct order *order = order_of_one(
        arena, compiled.pattern->units, options->files[0], options->quilt,
        options->colorway, (size_t)options->kits,
        options->style < 0 ? KIT_YARDAGE : (enum kit_style)options->style);
    const struct kits *kits = plan_kits(compiled.run, order, &facts);
    if (kits != NULL)
        prove_kits(kits);
    status = finish_diagnostics(&compiled, options, true);
    return status == STATUS_CLEAN ? write_kits(arena, options, kits, NULL,
                                               compiled.pattern->language)
                                  : status;
}

/* The root of the file tells what it is. */
int command_kit(struct arena *arena, const struct options *options)
{
    struct compiled compiled = {.status = STATUS_CLEAN};
    if (!date_holds(arena))
        return STATUS_USAGE;
    if (!read_source(arena, options->files[0], &compiled))
        return compiled.status;
    return is_order(compiled.run->source)
               ? kit_of_order(compiled.run, options)
               : kit_of_pattern(arena, compiled.run->source, options);
}
