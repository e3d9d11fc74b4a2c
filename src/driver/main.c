/* seamwright: a pattern source becomes a booklet. */
#include <errno.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "driver.h"

/* One arena for the whole run, as no command needs memory back. */
int main(int count, char **words)
{
    /* Numbers are never printed or read by locale; a closed pipe is a failed
     * write, not a signal. */
    setlocale(LC_NUMERIC, "C");
    signal(SIGPIPE, SIG_IGN);
    hold_streams();
    struct options options;
    const int usage = read_options(count, words, &options);
    if (usage >= 0)
        return usage;
    struct arena *arena = arena_create();
    int status;
    if (strcmp(options.command, "check") == 0)
        status = command_check(arena, &options);
    else if (strcmp(options.command, "build") == 0)
        status = command_build(arena, &options);
    else if (strcmp(options.command, "figure") == 0)
        status = command_figure(arena, &options);
    else if (strcmp(options.command, "plan") == 0)
        status = command_plan(arena, &options);
    else if (strcmp(options.command, "explain") == 0)
        status = command_explain(arena, &options);
    else
        status = command_list(arena, &options);
    arena_destroy(arena);
    return status;
}
