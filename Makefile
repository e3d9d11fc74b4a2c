# seamwright: `make` builds, `make demo` shows, `make test` tests.
# Variables: CC=clang, BUILD=folder, PREFIX=/usr/local, DESTDIR=, WERROR=-Werror, V=1.

BUILD  ?= build
PREFIX ?= /usr/local
ifeq ($(origin CC),default)
CC = gcc
endif
export CC BUILD

PACKAGES = cairo-pdf cairo-ft cairo harfbuzz harfbuzz-subset freetype2 \
           pangocairo pangoft2 fontconfig glib-2.0 libxml-2.0 libpng libjpeg \
           zlib libdeflate geos jansson gmp
DEBIAN = gcc libc6-dev pkg-config libcairo2-dev libpango1.0-dev \
         libharfbuzz-dev libfreetype-dev libfontconfig-dev libglib2.0-dev \
         libxml2-dev libpng-dev libjpeg-dev zlib1g-dev libdeflate-dev libgeos-dev \
         libjansson-dev libgmp-dev
PROBE := $(shell pkg-config --exists $(PACKAGES) 2>/dev/null && echo found)
LIBS  := $(shell pkg-config --libs $(PACKAGES) 2>/dev/null) -lm
TEST_LIBS = $(shell pkg-config --cflags --libs cmocka)
SYSTEM := $(patsubst -I%,-isystem %,\
            $(shell pkg-config --cflags $(PACKAGES) 2>/dev/null))

# No fused multiply-add, which clang takes where the machine has it: it rounds
# otherwise, and the planner then chooses another plan of the same cloth.
STANDARD = -std=c11 -ffp-contract=off -D_POSIX_C_SOURCE=200809L
WARNINGS = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes \
  -Wmissing-prototypes -Wold-style-definition -Wwrite-strings -Wpointer-arith \
  -Wundef -Wdouble-promotion -Wformat=2 -Wvla -Wswitch-enum -Wredundant-decls
# Control-flow protection is a feature of x86 processors only.
GUARD_CALLS := $(if $(filter x86_64 i%86,$(shell uname -m)),-fcf-protection)
RELEASE = -O2 -g -D_FORTIFY_SOURCE=2 -fstack-protector-strong \
          -fstack-clash-protection $(GUARD_CALLS)
CHECKED = -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all \
          -fno-omit-frame-pointer -DSEAMWRIGHT_CHECKED
OPTIONS = $(RELEASE)
COMPILE = $(CC) $(STANDARD) $(WARNINGS) $(WERROR) $(OPTIONS) -fPIE $(CFLAGS)
LINK    = $(COMPILE) -pie -Wl,-z,relro,-z,now -Wl,--as-needed $(LDFLAGS)

SOURCES := $(filter-out src/driver/main.c,$(wildcard src/*/*.c))
OBJECTS := $(SOURCES:%.c=$(BUILD)/%.o) $(BUILD)/templates.o
LIBRARY := $(BUILD)/libseamwright.a
PROGRAM := $(BUILD)/seamwright
TESTS   := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/*/test_*.c))
MUTANTS := $(BUILD)/tests/mutants/mutants
DUMP    := $(BUILD)/tests/driver/dump_book
MUTATE  := $(BUILD)/tests/code-mutants/mutate
FAULTS  := $(BUILD)/tests/faults/faults.so
HOSTILE := $(BUILD)/tests/hostile/hostile
TARGETS := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/fuzz/fuzz_*.c))
BENCHES := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/*/bench_*.c))
MANUAL  := $(BUILD)/seamwright.1 $(BUILD)/seamwright-pattern.5
TEMPLATES := $(shell find templates -type f ! -name '.*' | LC_ALL=C sort)
AGAIN = $(MAKE) --no-print-directory
SHOW = $(if $(V),,@echo '$(@F)';)

.PHONY: all deps demo test test-programs check sanitize mutants code-mutants \
        pressing roots on-point faults hostile fuzz coverage bench style \
        install install-files uninstall clean probe FORCE
.DELETE_ON_ERROR:

all: $(LIBRARY) $(PROGRAM) $(MANUAL)

probe:
	@$(if $(PROBE),:,echo "Some of these Debian packages are missing:" \
	  "$(DEBIAN). Run 'make deps' to install them." >&2; exit 1)

deps:
	@tests/setup.sh build

demo: deps
	@+$(AGAIN) all
	$(BUILD)/seamwright build samples/lantern-walk.xml -o $(BUILD)/demo
	@echo "The booklet is in $(BUILD)/demo:" && ls $(BUILD)/demo

# Tests have build folders of their own, as their flags differ.
test:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/test WERROR=-Werror check

sanitize: export SANITIZED = yes
sanitize: export ASAN_OPTIONS = allocator_may_return_null=1
sanitize: export LSAN_OPTIONS = suppressions=tests/lsan.supp:print_suppressions=0
sanitize:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/sanitize WERROR=-Werror OPTIONS='$(CHECKED)' check

check style: export HEADER_FLAGS = $(STANDARD) $(WARNINGS) $(SYSTEM)
check: test-programs
	@tests/run.sh

# All test programs, built and not run.
test-programs: all $(TESTS) $(MUTANTS) $(DUMP) $(MUTATE) $(FAULTS) \
               $(HOSTILE) $(TARGETS)

# Every sample with one mistake at a time: what the checker says of each.
mutants:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/test WERROR=-Werror $(BUILD)/test/tests/mutants/mutants
	@$(BUILD)/test/tests/mutants/mutants samples/*.xml tests/mutants/*.xml
	@$(BUILD)/test/tests/mutants/mutants --pairs samples/*.xml tests/mutants/*.xml

# Pressing that is solved, on 1,000 random quilts: no choice has fewer seams that
# collide.
pressing:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/test WERROR=-Werror \
	  $(BUILD)/test/tests/sew/test_pressing
	@SEAMWRIGHT_QUILTS=$(or $(QUILTS),1000) SEAMWRIGHT_WAYS=$(or $(WAYS),12) \
	  $(BUILD)/test/tests/sew/test_pressing

# Numbers with roots, a million operations against intervals.
roots:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/test WERROR=-Werror \
	  $(BUILD)/test/tests/base/test_roots_oracle
	@SEAMWRIGHT_ROOTS=$(or $(ROUNDS),1000000) \
	  $(BUILD)/test/tests/base/test_roots_oracle

# 1,000 random settings on point, against what is painted without rows.
on-point:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/test WERROR=-Werror \
	  $(BUILD)/test/tests/sew/test_on_point
	@SEAMWRIGHT_DESIGNS=$(or $(DESIGNS),1000) \
	  $(BUILD)/test/tests/sew/test_on_point

# Every command while each allocation, and each call for a file, fails once.
faults:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/test WERROR=-Werror all \
	  $(BUILD)/test/tests/faults/faults.so
	@BUILD=$(BUILD)/test FAULTS=all tests/faults/run_faults.sh
	@BUILD=$(BUILD)/test FAULTS=60 ONLY='-o out' PATTERN=shoal \
	  tests/faults/run_faults.sh

# The program itself with one change at a time: which of them no test sees.
code-mutants:
	@tests/setup.sh test
	@tests/code-mutants/judge.sh

# Hostile files by the thousand, each checked and built under the sanitizers.
hostile: export SANITIZED = yes
hostile: export ASAN_OPTIONS = allocator_may_return_null=1:hard_rss_limit_mb=3000
hostile: export LSAN_OPTIONS = suppressions=$(CURDIR)/tests/lsan.supp:print_suppressions=0
hostile:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/sanitize WERROR=-Werror OPTIONS='$(CHECKED)' all \
	  $(BUILD)/sanitize/tests/hostile/hostile
	@$(BUILD)/sanitize/tests/hostile/hostile --seed $(or $(SEED),1) \
	  --keep $(BUILD)/sanitize/tests/hostile/kept $(BUILD)/sanitize/seamwright \
	  $(BUILD)/sanitize/tests/hostile/work samples/*.xml

# What the tests run of src. WORDS choose tests, as those of tests/run.sh.
COVERED = -O1 -g --coverage -DSEAMWRIGHT_UNCONFINED
coverage:
	@tests/setup.sh test
	@+$(AGAIN) BUILD=$(BUILD)/coverage OPTIONS='$(COVERED)' test-programs
	@find $(BUILD)/coverage -name '*.gcda' -delete
	@-BUILD=$(BUILD)/coverage TEST_SECONDS=3600 tests/run.sh $(WORDS)
	@BUILD=$(BUILD)/coverage FLOORS=$(if $(WORDS),,1) tests/coverage.sh

# FUZZ_SECONDS for each target (60), from the kept inputs on.
FUZZED = -O1 -g -fsanitize=address,fuzzer-no-link -fno-omit-frame-pointer \
         -DSEAMWRIGHT_CHECKED
fuzz:
	@CC=clang tests/setup.sh fuzz
	@+$(AGAIN) CC=clang BUILD=$(BUILD)/fuzz OPTIONS='$(FUZZED)' FUZZER=-fsanitize=fuzzer \
	  $(patsubst %.c,$(BUILD)/fuzz/%,$(wildcard tests/fuzz/fuzz_*.c))
	@BUILD=$(BUILD)/fuzz tests/fuzz/fuzz.sh

style: $(LIBRARY)
	@tests/style/check.sh

bench: all $(BENCHES)
	@for b in $(BENCHES) tests/bench/*.sh; do $$b || exit 1; done

# Records of what the files are made from: rewritten only when that changed,
# so that other flags, or a source or template that went, make them anew.
record = @mkdir -p $(@D); printf '%s\n' $1 > $@.new; \
         if cmp -s $@.new $@; then rm $@.new; else mv $@.new $@; fi
$(BUILD)/flags: FORCE | probe
	$(call record,$(foreach word,$(COMPILE) $(SYSTEM),'$(word)'))
$(BUILD)/objects.list: FORCE
	$(call record,$(OBJECTS))
$(BUILD)/templates.list: FORCE
	$(call record,$(TEMPLATES))

$(BUILD)/src/%.o: src/%.c $(BUILD)/flags
	@mkdir -p $(@D)
	$(SHOW)$(COMPILE) -MMD -MP -Iinclude -I$(<D) $(SYSTEM) -c $< -o $@

# Every file below templates/ lies in the program (include/templates.h).
$(BUILD)/templates.c: $(TEMPLATES) $(BUILD)/templates.list src/base/embed.sh
	@mkdir -p $(@D)
	@src/base/embed.sh $(BUILD)/templates.list > $@

$(BUILD)/templates.o: $(BUILD)/templates.c $(BUILD)/flags
	$(SHOW)$(COMPILE) -MMD -MP -Iinclude -Isrc/base -c $< -o $@

$(BUILD)/libseamwright.a: $(OBJECTS) $(BUILD)/objects.list
	@rm -f $@
	$(SHOW)$(AR) rcs $@ $(OBJECTS)

# For tests/code-mutants, which changes the library below its programs. Such
# objects need CFLAGS=-fPIC.
$(BUILD)/libseamwright.so: $(OBJECTS) $(BUILD)/objects.list
	$(SHOW)$(CC) -shared -Wl,-soname,$(@F) -Wl,-Bsymbolic $(OBJECTS) $(LIBS) -o $@

$(BUILD)/seamwright: $(BUILD)/src/driver/main.o $(LIBRARY)
	$(SHOW)$(LINK) $^ $(LIBS) -o $@

# Numbers with roots are judged by intervals, which only this test needs.
$(BUILD)/tests/base/test_roots_oracle: TEST_LIBS += -lmpfi -lmpfr

# A test of tests/X may look into src/X.
$(BUILD)/tests/%: tests/%.c $(LIBRARY)
	@mkdir -p $(@D)
	$(SHOW)$(LINK) -MMD -MP -MF $@.d -Iinclude -Isrc/$(notdir $(<D)) $(SYSTEM) \
	  $< $(LIBRARY) $(LIBS) $(TEST_LIBS) -o $@

# With a fuzzer, or with a main that runs the inputs it is given.
$(TARGETS): $(BUILD)/%: %.c tests/fuzz/fuzz.h tests/fuzz/plain.c $(LIBRARY)
	@mkdir -p $(@D)
	$(SHOW)$(LINK) -Iinclude -Isrc/driver -Isrc/resolve $(SYSTEM) $(FUZZER) $< \
	  $(if $(FUZZER),,tests/fuzz/plain.c) $(LIBRARY) $(LIBS) -o $@

# The tests of several files.
$(MUTANTS): $(wildcard tests/mutants/*.[ch] include/*.h) $(LIBRARY)
$(MUTATE): $(wildcard tests/code-mutants/*.[ch] include/*.h) $(LIBRARY)
$(HOSTILE): $(wildcard tests/hostile/*.[ch] include/*.h) $(LIBRARY)
$(MUTANTS) $(MUTATE) $(HOSTILE):
	@mkdir -p $(@D)
	$(SHOW)$(LINK) -Iinclude -Isrc/driver $(SYSTEM) $(filter %.c,$^) $(LIBRARY) \
	  $(LIBS) $(TEST_LIBS) -o $@

# Stands before the C library, so it keeps to plain calls of it.
$(FAULTS): tests/faults/faults.c
	@mkdir -p $(@D)
	$(SHOW)$(CC) $(STANDARD) $(WARNINGS) $(WERROR) -O1 -g -fPIC -shared $< -o $@

# The day on which the manual was last changed; it stands in the man pages, which
# must not tell the day of the build.
MANUAL_DATE = 2026-11-29
VERSION = $(shell sed -n 's/^.define SEAMWRIGHT_VERSION "\(.*\)"/\1/p' \
            src/driver/driver.h)
$(MANUAL): src/driver/manual.awk $(wildcard templates/manual/*.md) \
           src/driver/driver.h Makefile
	@mkdir -p $(@D)
	$(SHOW)LC_ALL=C awk -v section=$(subst .,,$(suffix $@)) \
	  -v date=$(MANUAL_DATE) -v version=$(VERSION) -f $< \
	  templates/manual/contents.md > $@

SHARE = $(DESTDIR)$(PREFIX)/share/seamwright
MAN   = $(DESTDIR)$(PREFIX)/share/man
install: all
	@+$(AGAIN) install-files

# What is built already.
install-files:
	install -d $(DESTDIR)$(PREFIX)/bin $(SHARE) $(MAN)/man1 $(MAN)/man5
	install -m 755 $(BUILD)/seamwright $(DESTDIR)$(PREFIX)/bin/seamwright
	install -m 644 $(wildcard templates/*.rng) $(SHARE)
	install -m 644 $(BUILD)/seamwright.1 $(MAN)/man1
	install -m 644 $(BUILD)/seamwright-pattern.5 $(MAN)/man5

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/seamwright \
	  $(addprefix $(SHARE)/,$(notdir $(wildcard templates/*.rng))) \
	  $(MAN)/man1/seamwright.1 $(MAN)/man5/seamwright-pattern.5
	[ ! -d $(SHARE) ] || rmdir --ignore-fail-on-non-empty $(SHARE)

clean:
	@! [ -e '$(BUILD)/Makefile' ] && [ '$(abspath $(BUILD))' != / ]
	rm -rf -- '$(BUILD)'

-include $(SOURCES:%.c=$(BUILD)/%.d) $(BUILD)/src/driver/main.d
-include $(TESTS:%=%.d) $(BENCHES:%=%.d) $(DUMP).d
