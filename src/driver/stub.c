#include "driver.h"
int command_build(struct arena *arena, const struct options *options){(void)arena;(void)options;return 0;}
int command_list(struct arena *arena, const struct options *options){(void)arena;(void)options;return 0;}
