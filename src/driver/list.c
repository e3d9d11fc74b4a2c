/* seamwright list: the solved pattern as tables or JSON. */
#include <stdio.h>
#include <string.h>

#include "diag.h"
#include "driver.h"
#include "selection.h"
#include "tolerance.h"
#include "trade.h"

/* Strips that are further off were not cut or not sewn as the test asks. */
enum { MOST_STRIPS_OFF = 7 }; /* a seventh: 1/2 in of 3 1/2 */

/* ensures: what a person's test strips measure, unknown where nothing is told;
 * or false, and a message: the unit is known only when the pattern is. */
static bool read_strips(const struct compiled *compiled,
                        const struct options *options, struct rational *strips)
{
    *strips = rational_unknown();
    if (options->strips == NULL)
        return true;
    const struct pattern *pattern = compiled->pattern;
    const enum length_unit units = pattern->units;
    const struct rational right = test_strips(pattern);
    *strips =
        length_parse(options->strips, strlen(options->strips), units).value;
    const struct rational off = rational_max(rational_sub(*strips, right),
                                             rational_sub(right, *strips));
    if (rational_known(off) &&
        rational_compare(rational_times(off, MOST_STRIPS_OFF), right) <= 0)
        return true;
    struct arena *arena = compiled->run->arena;
    complain("seamwright: --strips: %s is too far from what the test makes\n",
             quoted(arena, options->strips));
    complain("help: three strips of %s make %s %s with a seam of %s; measure "
             "them sewn side by side and pressed\n",
             length_plain(arena, trade_length(TRADE_TEST_STRIP, units), units),
             length_plain(arena, right, units), length_unit_name(units),
             length_plain(arena, pattern->seam, units));
    return false;
}

/* Same passes as build, nothing written. */
int command_list(struct arena *arena, const struct options *options)
{
    const struct compiled compiled = compile_file(arena, options->files[0]);
    if (compiled.status != STATUS_CLEAN)
        return compiled.status;
    const int status = finish_diagnostics(&compiled, options, false);
    if (status != STATUS_CLEAN)
        return status;
    struct selection selection;
    if (!select_outputs(&compiled, options, &selection))
        return STATUS_USAGE;
    struct rational strips;
    if (!read_strips(&compiled, options, &strips))
        return STATUS_USAGE;
    if (options->tolerance)
        return write_text(
            (options->json ? render_tolerance_json : render_tolerance)(
                arena, compiled.sewn, &selection, strips));
    const char *text =
        options->json ? render_json(compiled.run, compiled.plans, &selection)
        : options->cutting  ? render_cutting(arena, compiled.plans, &selection)
        : options->least    ? render_least(arena, compiled.plans, &selection)
        : options->quilting ? render_quilting(arena, compiled.plans, &selection)
                            : render_tables(arena, compiled.plans, &selection);
    return write_text(text);
}
