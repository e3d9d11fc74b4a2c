/* Landlock by its three system calls, as no C library wraps them. Kernels
 * differ in what they can refuse: each version of the interface (ABI) knows
 * more, and one that is asked for what it does not know refuses the whole.
 * Source of the numbers: the kernel's Documentation/userspace-api/landlock.rst.
 */
#define _GNU_SOURCE /* syscall, O_PATH */
#include "sandbox.h"

#if defined(__linux__) && defined(__has_include)
#if __has_include(<linux/landlock.h>)
#define HAS_LANDLOCK 1
#endif
#endif

#ifdef HAS_LANDLOCK

#include <errno.h>
#include <fcntl.h>
#include <linux/landlock.h>
#include <stdint.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

/* What headers older than the kernel lack. */
#define ACCESS_REFER (UINT64_C(1) << 13)     /* ABI 2 */
#define ACCESS_TRUNCATE (UINT64_C(1) << 14)  /* ABI 3 */
#define ACCESS_IOCTL_DEV (UINT64_C(1) << 15) /* ABI 5 */
#define NET_BOTH UINT64_C(3)                 /* ABI 4: bind and connect, TCP */
#define SCOPE_BOTH UINT64_C(3) /* ABI 6: abstract sockets, signals */

/* The first ABI's thirteen rights. */
#define ACCESS_FIRST (ACCESS_REFER - 1)

#define ACCESS_READ (LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR)
/* All that is needed to make, fill, rename and delete files and folders; no
 * device, socket, pipe or link. */
#define ACCESS_CHANGE                                              \
    (ACCESS_READ | LANDLOCK_ACCESS_FS_WRITE_FILE |                 \
     LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_MAKE_DIR | \
     LANDLOCK_ACCESS_FS_REMOVE_FILE | LANDLOCK_ACCESS_FS_MAKE_REG)
/* What a rule on a file, not a folder, may grant. */
#define ACCESS_OF_FILE LANDLOCK_ACCESS_FS_READ_FILE

/* struct landlock_ruleset_attr as it is today; the size that is handed over
 * tells an older kernel how much of it there is. */
struct ruleset {
    uint64_t files;
    uint64_t net;
    uint64_t scoped;
};

static struct ruleset handled_by(long version, size_t *size)
{
    struct ruleset rules = {.files = ACCESS_FIRST};
    if (version >= 2)
        rules.files |= ACCESS_REFER;
    if (version >= 3)
        rules.files |= ACCESS_TRUNCATE;
    if (version >= 4)
        rules.net = NET_BOTH;
    if (version >= 5)
        rules.files |= ACCESS_IOCTL_DEV;
    if (version >= 6)
        rules.scoped = SCOPE_BOTH;
    *size = version >= 6   ? sizeof rules
            : version >= 4 ? 2 * sizeof rules.files
                           : sizeof rules.files;
    return rules;
}

/* ensures: false only where the rule is refused. What cannot be opened needs no
 * rule: it cannot be opened later either. */
static bool add_rule(int ruleset, const struct sandbox_path *path)
{
    struct stat about;
    const int place = open(path->path, O_PATH | O_CLOEXEC);
    if (place < 0)
        return true;
    struct landlock_path_beneath_attr rule = {
        .allowed_access = path->writable ? ACCESS_CHANGE : ACCESS_READ,
        .parent_fd = place};
    const bool known = fstat(place, &about) == 0;
    if (known && !S_ISDIR(about.st_mode))
        rule.allowed_access &= ACCESS_OF_FILE;
    /* A pipe that is named by its number lies in no folder, and is not refused.
     */
    const bool added =
        known && (syscall(SYS_landlock_add_rule, ruleset,
                          LANDLOCK_RULE_PATH_BENEATH, &rule, 0) == 0 ||
                  errno == EBADFD);
    close(place);
    return added;
}

bool sandbox_enter(const struct sandbox_path *paths, size_t count)
{
    size_t size;
    const long version = syscall(SYS_landlock_create_ruleset, NULL, 0,
                                 LANDLOCK_CREATE_RULESET_VERSION);
    if (version < 1)
        return false;
    const struct ruleset rules = handled_by(version, &size);
    const int ruleset =
        (int)syscall(SYS_landlock_create_ruleset, &rules, size, 0);
    if (ruleset < 0)
        return false;
    bool holds = true;
    for (size_t i = 0; i < count && holds; i++)
        holds = add_rule(ruleset, &paths[i]);
    /* Without privileges to gain, a process may restrict itself. */
    holds = holds && prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
            syscall(SYS_landlock_restrict_self, ruleset, 0) == 0;
    close(ruleset);
    return holds;
}

#else

bool sandbox_enter(const struct sandbox_path *paths, size_t count)
{
    (void)paths;
    (void)count;
    return false;
}

#endif
