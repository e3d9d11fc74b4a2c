/* seamwright: a pattern source becomes a booklet. */
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "confine.h"
#include "supervise.h"

/* One arena for the whole run, as no command needs memory back. */
static int do_command(const struct options *options)
{
    struct arena *arena = arena_create();
#ifndef SEAMWRIGHT_UNCONFINED /* what watches coverage writes elsewhere */
    confine(arena, options);
#endif
    int status;
    if (strcmp(options->command, "check") == 0)
        status = command_check(arena, options);
    else if (strcmp(options->command, "build") == 0)
        status = command_build(arena, options);
    else if (strcmp(options->command, "figure") == 0)
        status = command_figure(arena, options);
    else if (strcmp(options->command, "plan") == 0)
        status = command_plan(arena, options);
    else if (strcmp(options->command, "kit") == 0)
        status = command_kit(arena, options);
    else if (strcmp(options->command, "proof") == 0)
        status = command_proof(arena, options);
    else if (strcmp(options->command, "compare") == 0)
        status = command_compare(arena, options);
    else if (strcmp(options->command, "explain") == 0)
        status = command_explain(arena, options);
    else
        status = command_list(arena, options);
    arena_destroy(arena);
    return status;
}

int main(int count, char **words)
{
    /* Numbers are never printed or read by locale; a closed pipe and a full
     * disk are failed writes, not signals. Texts are written in one piece, so
     * that no buffer is wanted when the work is done. */
    setlocale(LC_NUMERIC, "C");
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
    setvbuf(stdout, NULL, _IONBF, 0);
    hold_streams();
    struct options options;
    const int usage = read_options(count, words, &options);
    return usage >= 0 ? usage : supervise(do_command, &options);
}
