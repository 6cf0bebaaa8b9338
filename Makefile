# SPDX-License-Identifier: GPL-3.0-or-later
# One Makefile.  `make help` lists the targets.
#
#   make demo       install what is missing, build, run the main job
#   make check      install what is missing, build, run every test but those of
#   make check-page the command as WebAssembly, and its page and the report in a
#                   browser where there is one
#   make check-docs what README.md and docs/ show, beside what the program prints
#   make check-rest both of them
#   make all        the library, static and shared, and the command
#   make machines   build and tests for i386, s390x (qemu), musl and the newest
#                   compilers (gcc-new, clang-new); ONLY=musl for one of them
#   make lint       floors, references, banned calls, sizes, exports, statics,
#                   functions nobody calls, frames, format, clang-tidy (of
#                   files that changed since `make tidied`; EVERY=1: of all)
#   make deps       install what is missing, say what it does; FOR="check lint":
#                   for these goals
#   make coverage   the tests under gcov, lines reached by file
#   make fuzz       each reader under libFuzzer, FUZZ_TIME=60 seconds each
#   make bench      speed and accuracy, as ratios
#   make page       the whole program as one page, build/page/dewledger.html
#   make wasm       the command as WebAssembly, see docs/page.md; bench-wasm
#   make study      the long studies
#   make mutants    changes of arithmetic that no test fails for, MUTANTS=500
#                   of them, drawn by SEED=1; an hour or less; AGAIN=FILE,
#                   what it printed before: those that lived then
#   make pictures   docs/img anew, from the demo
#   make real       the outputs shown in README.md and docs/ anew
#   make first-results   docs/dev/first-results.md anew, from the data
#   make evidence        the windows in docs/evidence.md anew, from the data
#   make ducts-answer    the table of duct layouts in docs/ducts.md anew
#   make atlas           what a thousand places answer: docs/atlas.md, its map and
#                   weather/answers.csv; hours, goes on where it was stopped, anew
#                   after rm -r build/atlas; atlas-answers: from what was marched
#   make format     clang-format in place
#   make install uninstall    [PREFIX=/usr/local] [DESTDIR=]
#   make dist deb   the source archive and Debian packages of the last commit;
#                   symbols: the list of what the library exports, anew;
#                   abi: and of what a program built before relies on
#   make clean help
#
#   make times      processor seconds of each test of the last check, MOST=25
#
#   SAN=1 address and undefined-behaviour sanitizers, COV=1 coverage,
#   WERROR=1 warnings are errors, CC=clang: each has its own tree in build/
#   MPI=1 the command for many machines, by Open MPI: docs/survey.md
#   EVERY=1 runs in this build also the tests that tests/once.txt leaves to
#   another

VERSION   := 0.1.0
SOVERSION := 0
PREFIX    ?= /usr/local
DESTDIR   ?=
CFLAGS    ?= $(if $(SAN),-O1,-O2) -g
PKGS      := gsl yaml-0.1 jansson zlib libmd sqlite3

# ---- packages: build/deps.mk is made first, and make starts again with it --
NEED_all   := gcc libc6-dev binutils pkg-config libgsl-dev libcsv-dev \
              libyaml-dev libjansson-dev zlib1g-dev libmd-dev \
              libsqlite3-dev
NEED_check := libcmocka-dev liberfa-dev units locales g++ libxml2-utils \
              python3
NEED_lint  := $(NEED_check) clang-format clang-tidy abigail-tools xz-utils
NEED_clang := clang libclang-rt-14-dev lld
NEED_deb   := debhelper lintian dpkg-dev xz-utils git
NEED_machines := $(NEED_check) gcc-i686-linux-gnu gcc-s390x-linux-gnu \
              qemu-user-static musl-tools tcl dpkg-dev
NEED_mpi   := libopenmpi-dev openmpi-bin
NEED_wasm  := clang lld wasi-libc libclang-rt-14-dev-wasm32 dpkg-dev nodejs

# Debian's, where it is: the first on the path may be a script that looks for one,
# ten times as long.
PYTHON ?= $(or $(wildcard /usr/bin/python3),python3)
export PYTHON

# the first rule below is not what `make` alone means
.DEFAULT_GOAL := all

GOALS := $(or $(MAKECMDGOALS),all)
FOR   := $(GOALS)
NEED  := $(NEED_all) \
  $(if $(filter check% coverage bench study mutants,$(FOR)),$(NEED_check)) \
  $(if $(filter first-results ducts-answer evidence atlas%,$(FOR)),python3) \
  $(if $(filter lint tidy format format-check abi abi-check,$(FOR)),$(NEED_lint)) \
  $(if $(filter clang%,$(CC))$(filter fuzz,$(FOR)),$(NEED_clang)) \
  $(if $(filter wasm% bench-wasm build/wasm/% page build/page/%,$(FOR)),$(NEED_wasm)) \
  $(if $(filter dist deb,$(FOR)),$(NEED_deb)) \
  $(if $(filter machines,$(FOR)),$(NEED_machines)) \
  $(if $(MPI),$(NEED_mpi))

# What builds or tests uses all processors, unless -j says otherwise; some tests
# wait more than they work.
ifeq ($(MAKELEVEL)$(filter-out all demo check check-% coverage lint programs page \
      wasm install,$(GOALS)),0)
MAKEFLAGS += -j$(shell expr $$(nproc 2>/dev/null || echo 2) + 2)
endif

# Made again when this goal needs a package that was not looked for yet.
ifneq ($(filter-out clean help uninstall,$(GOALS)),)
include build/deps.mk
ifneq ($(filter-out $(HAVE),$(NEED))$(filter-out $(PKG_FOR),$(PKGS)),)
build/deps.mk: again
endif
endif

.PHONY: again
build/deps.mk: engine/deps.sh
	@sh engine/deps.sh $@ "$(PKGS)" "$(sort $(HAVE) $(NEED))"

# ---- what is built with what ------------------------------------------------
# CFLAGS and LDFLAGS are the user's; ours are kept apart, so that
# `make CFLAGS=-O3` never drops a flag the code needs.
WARN := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes \
        -Wmissing-prototypes -Wwrite-strings -Wcast-qual -Wvla -Wundef \
        -Wformat=2 \
        -Wno-enum-float-conversion # a whole number with a name beside a double is meant
OURS := -std=c11 -D_POSIX_C_SOURCE=200809L -D_FILE_OFFSET_BITS=64 -fPIC -ffp-contract=off \
        -fno-math-errno -fno-trapping-math -ffunction-sections -Iinclude -Iengine $(WARN) $(PKG_CFLAGS) \
        -DDEW_VERSION='"$(VERSION)"'
LIBS := $(PKG_LIBS) -lcsv -lm -pthread
KIND := $(if $(filter clang%,$(CC)),clang,gcc)
ifeq ($(KIND)$(SAN)$(COV)$(FUZZ),gcc)
OURS += -fstack-usage # for `make frames`
endif

ifdef SAN
KIND := $(KIND)-san
OURS += -fsanitize=address,undefined -fno-sanitize-recover=all \
        -fno-omit-frame-pointer -Wno-pass-failed
LINK := -fsanitize=address,undefined
FIXED := -no-pie # begins a sixth sooner, some thousand times
endif
ifdef COV
KIND := $(KIND)-cov
OURS += --coverage -O0
LINK := --coverage
endif
ifdef FUZZ
KIND := $(KIND)-fuzz
OURS += -fsanitize=fuzzer-no-link,address,undefined -fno-omit-frame-pointer
LINK := -fsanitize=address,undefined
endif
# Its flags are for the one file that sees it.
MPI_FILE := engine/cli/survey_ranks.c
ifdef MPI
KIND := $(KIND)-mpi
OURS += -DCLI__MPI
MPI_CFLAGS := $(patsubst -I%,-isystem %,$(shell pkg-config --cflags ompi-c))
LIBS += $(shell pkg-config --libs ompi-c)
endif
ifeq ($(SAN)$(NARROW)$(filter-out x86_64%,$(shell $(CC) -dumpmachine)),)
OURS += -DMARCH__WIDE
endif
ifdef WERROR
OURS += -Werror
endif

# Each kind has its own tree: switching flags never mixes objects.
B := build/$(KIND)

# ---- the parts --------------------------------------------------------------
LIB_SRC   := $(filter-out engine/cli/% engine/page/% engine/march/lanes.c,$(wildcard engine/*/*.c))
# The hour in lanes: the same file for each width of vector, the narrowest alone
# where time counts and speed does not (SAN, NARROW).
X86       := $(filter x86_64%,$(shell $(CC) -dumpmachine))
LANES     := 2 $(if $(filter -DMARCH__WIDE,$(OURS)),4 8)
LANES_2   := $(if $(X86),-march=x86-64-v2)
LANES_4   := -march=x86-64-v3
LANES_8   := -march=x86-64-v4
# Its functions are long and straight: where one begins in the cache's lines made
# a tenth of the time, by chance of what is linked before it.
LANES_AT  := -falign-functions=64
# ... and of so many inlined variables a debugger's lists of where each stands take
# gcc as long to make as the code; of all the others together a twelfth of it.
LESS_G    := $(if $(filter clang%,$(CC)),,-fno-var-tracking)
CLI_SRC   := $(filter-out $(if $(MPI),,$(MPI_FILE)),$(wildcard engine/cli/*.c \
               engine/cli/*/*.c engine/page/*.c))
TEST_SRC  := $(wildcard tests/*/test_*.c)
ifdef SAN
TEST_SRC  := $(filter-out %/test_alloc.c,$(TEST_SRC))  # has its own malloc
endif
STUDY_SRC := $(wildcard tests/study/study_*.c)
TEST_SH   := $(wildcard tests/*/test_*.sh)
FUZZ_SRC  := $(wildcard tests/fuzz/fuzz_*.c)
BENCH_SRC := $(wildcard tests/bench/bench_*.c)
SUPPORT   := $(filter-out tests/support/test_%.c,$(wildcard tests/support/*.c))
HEADERS   := $(wildcard include/dew/*.h)
ALL_C     := $(wildcard engine/*/*.[ch] engine/cli/*/*.[ch] include/*.h \
               include/dew/*.h tests/*/*.[ch] engine/page/port/*.[ch] \
               engine/page/port/*/*.h)
# Files compiled in, byte for byte: NAME.EXT becomes core__data_NAME_EXT, see
# engine/core/embed.h.
EMBED     := $(wildcard engine/draw/*.css engine/sheets/*.js engine/sheets/*.css) \
             weather/climates.csv weather/answers.csv docs/references.md docs/words.md
EMBED_SUP := $(wildcard tests/support/*.csv)

LANES_OBJ := $(LANES:%=$B/engine/march/lanes_%.o)
LIB_OBJ   := $(LIB_SRC:%.c=$B/%.o) $(LANES_OBJ) $(EMBED:%=$B/%.o)
CLI_OBJ   := $(CLI_SRC:%.c=$B/%.o)
SUP_OBJ   := $(SUPPORT:%.c=$B/%.o) $(EMBED_SUP:%=$B/%.o)
TESTS     := $(TEST_SRC:%.c=$B/%)
BENCHES   := $(BENCH_SRC:%.c=$B/%)
FUZZERS   := $(FUZZ_SRC:%.c=$B/%)
STUDIES   := $(STUDY_SRC:%.c=$B/%)

.DELETE_ON_ERROR:
.SUFFIXES:
.SECONDARY:
.PHONY: all deps demo check check-page check-docs check-rest lint floors refs banned size spdx names umbrella \
        exports abi abi-check statics kept frames format format-check tidy coverage \
        fuzz fuzzers bench machines \
        study mutants weather-years first-results ducts-answer evidence atlas \
        atlas-answers pictures install uninstall clean help

MAN := $B/dewledger.1 $B/dewledger-scenario.5
all: $B/libdew.a $B/libdew.so.$(SOVERSION) $B/dewledger $(MAN)

deps:
	@sh engine/deps.sh build/deps.mk "$(PKGS)" "$(sort $(HAVE) $(NEED))"

demo: all
	@if [ -f scenarios/demo.yaml ]; then \
	  $B/dewledger run scenarios/demo.yaml --out build/demo; \
	else $B/dewledger --version; fi

# made anew, so that what is no longer built is no longer in it
$B/libdew.a: $(LIB_OBJ)
	@rm -f $@
	$(AR) rcs $@ $^

$B/libdew.so.$(SOVERSION): $(LIB_OBJ) engine/dew.map
	$(CC) -shared -Wl,-soname,libdew.so.$(SOVERSION) \
	  -Wl,--version-script=engine/dew.map $(LINK) $(LDFLAGS) -o $@ \
	  $(LIB_OBJ) $(LIBS)

# without what it does not call: `make lint` looks for what is left over
$B/dewledger: $(CLI_OBJ) $B/libdew.a
	$(CC) $(LINK) $(FIXED) -Wl,--gc-sections $(LDFLAGS) -o $@ $^ $(LIBS)

# Manual pages: what commands and keys are is told by the program's tables.
$B/dewledger.1: docs/dewledger.1.in $B/dewledger
	@$B/dewledger complete --manual >$@.part
	@sed -e 's/@VERSION@/$(VERSION)/' -e '/^@COMMANDS@/{' -e 'r $@.part' \
	  -e d -e '}' $< >$@
$B/dewledger-scenario.5: $B/dewledger
	@$B/dewledger explain --manual >$@

# -MMD -MP: header dependencies come from the compiler; a removed header does
# not break the next build.  The Makefile itself is a dependency.
$B/%.o: %.c Makefile
	@mkdir -p $(@D)
	$(CC) $(OURS) $(LESS_G) $(CFLAGS) $(QUICK) -Itests -MMD -MP -c $< -o $@

# Tests spend their time in the library: theirs is compiled and linked quickly,
# unless asked otherwise; with sanitizers all but those that step an hour in code
# of their own, and with them the floors that no hour passes through, whose checks
# take clang four times as long to optimize.
ifeq ($(origin CFLAGS)$(COV),file)
$(TEST_SRC:%.c=$B/%.o): QUICK := -O0 -g1
endif
ifdef SAN
STILL := $(wildcard $(patsubst %,engine/%/*.c,cli draw report scenario sheets survey))
$(patsubst %.c,$B/%.o,$(STILL) $(filter-out tests/air/% tests/march/% tests/plant/%,$(TEST_SRC))): QUICK := -O0
LINK_QUICK := $(if $(filter clang%,$(CC)),$(if $(shell command -v ld.lld),-fuse-ld=lld))
else
LINK_QUICK := $(if $(COV),,$(if $(shell command -v ld.gold),-fuse-ld=gold))
endif

$B/$(MPI_FILE:.c=.o): OURS += $(MPI_CFLAGS)

$B/engine/march/lanes_%.o: engine/march/lanes.c Makefile
	@mkdir -p $(@D)
	$(CC) $(OURS) $(LESS_G) $(CFLAGS) $(LANES_$*) $(LANES_AT) -DCORE__LANES=$* -MMD -MP -c $< -o $@

define embed
$$B/$(1).o: $(1) engine/core/embed.S Makefile
	@mkdir -p $$(@D)
	$$(CC) -DDEW_NAME=core__data_$(subst -,_,$(subst .,_,$(notdir $(1)))) \
	  -DDEW_FILE='"$(1)"' -c engine/core/embed.S -o $$@
endef
$(foreach file,$(EMBED) $(EMBED_SUP),$(eval $(call embed,$(file))))

$B/tests/%: $B/tests/%.o $(SUP_OBJ) $B/libdew.a
	$(CC) $(LINK) $(FIXED) $(LINK_QUICK) $(LDFLAGS) -o $@ $^ -lcmocka $(TEST_LIBS) $(LIBS)

# the sun is checked against a library of astronomy
$B/tests/weather/test_sun: TEST_LIBS := -lerfa

# ---- checks -----------------------------------------------------------------
# Each program writes its own log, so that -j2 keeps them apart; tally.sh shows
# what failed and counts.  Shell tests get the build tree in DEW_BUILD.
# Scripts go first: they need the command alone, and the longest wait is theirs.
# The longest of all begin, or a processor waits at the end (`make times`).
LONG := $(patsubst %,tests/%.sh,page/test_page cli/test_real page/test_wasm \
          cli/test_memory cli/test_size cli/test_kept cli/test_one_truth \
          cli/test_suggest cli/test_writing cli/test_screen cli/test_spread_worth \
          cli/test_fit_house sheets/test_browser lint/test_lint cli/test_survey \
          survey/test_disk)
TEST_SH := $(filter $(TEST_SH),$(LONG)) $(filter-out $(LONG),$(TEST_SH))
LONG := $(patsubst %,$B/tests/%,run/test_size made/test_made scenario/test_doubt_march \
          run/test_learning)
TESTS := $(filter $(TESTS),$(LONG)) $(filter-out $(LONG),$(TESTS))
LOGS := $(TEST_SH:%=$B/%.log) $(TESTS:%=%.log)

# What tests/once.txt leaves to another build is told as skipped.  A kind of
# build has a word there.
WORD   := $(if $(filter %-san %-cov,$(KIND)),san,$(KIND))
ONCE   := $(if $(EVERY),,$(shell awk -v word=$(WORD) '/^tests/ && \
            !index("," $$2 ",", "," word ",") { print $$1 }' tests/once.txt))
# A second compiler runs those alone that name it.
ifeq ($(WORD)$(EVERY),clang)
TEST_SRC := $(shell awk '$$1 ~ /^tests.*\.c$$/ && $$2 ~ /clang/ { print $$1 }' tests/once.txt)
TEST_SH  := $(shell awk '$$1 ~ /^tests.*\.sh$$/ && $$2 ~ /clang/ { print $$1 }' tests/once.txt)
TESTS    := $(TEST_SRC:%.c=$B/%)
LOGS     := $(TEST_SH:%=$B/%.log) $(TESTS:%=%.log)
ONCE     :=
endif
# The page's compile all of it once more or wait for a browser, the documents'
# march some thousand houses: `make check-page`, `make check-docs`, or EVERY=1.
PAGE_LOGS := $(filter $B/tests/page/% $B/tests/sheets/test_browser.sh.log,$(LOGS))
DOCS_LOGS := $(filter $B/tests/cli/test_real.sh.log,$(LOGS))
LOGS   := $(if $(EVERY),$(LOGS),$(filter-out $(PAGE_LOGS) $(DOCS_LOGS),$(LOGS)))
ELSE   := $(patsubst %,$B/%.log,$(patsubst %.c,%,$(ONCE)))
KILLS  ?= $(if $(filter gcc,$(WORD)),20,8)

export DEW_BUILD := $B
export KILLS

# One year of each scenario that comes along, for the tests that read it.
SHIPPED := $(patsubst scenarios/%.yaml,$B/shipped/%/key,$(wildcard scenarios/*.yaml))
READERS := $(filter-out $(ELSE),$(patsubst %,$B/tests/%.sh.log,cli/test_cores \
             cli/test_one_truth cli/test_run_books cli/test_screen sheets/test_browser))
$B/shipped/%/key: scenarios/%.yaml $B/dewledger
	@sh tests/support/shipped.sh $< >/dev/null
$(READERS): $(SHIPPED)

# Another build is held to the bytes of gcc's.
ifneq ($(KIND),gcc)
$B/tests/cli/test_same_bytes.sh.log: gcc-too
endif
.PHONY: gcc-too
gcc-too:
	@$(MAKE) -s CC=gcc SAN= COV= CFLAGS='-O2 -g' build/gcc/dewledger

check: all $(LOGS)
	@sh tests/support/tally.sh $(LOGS)

check-page: all $(PAGE_LOGS)
	@sh tests/support/tally.sh $(PAGE_LOGS)

check-docs: all $(DOCS_LOGS)
	@sh tests/support/tally.sh $(DOCS_LOGS)

check-rest: all $(PAGE_LOGS) $(DOCS_LOGS)
	@sh tests/support/tally.sh $(PAGE_LOGS) $(DOCS_LOGS)

.PHONY: $(LOGS) $(PAGE_LOGS) $(DOCS_LOGS)
$(filter-out $(ELSE),$(TESTS:%=%.log)): %.log: %
	@r=0; $< >$@ 2>&1 </dev/null || r=$$?; echo "status $$r" >>$@; times >>$@
$(filter-out $(ELSE),$(TEST_SH:%=$B/%.log)): $B/%.log: % all
	@mkdir -p $(@D); r=0; sh $< >$@ 2>&1 </dev/null || r=$$?; \
	  echo "status $$r" >>$@; times >>$@
$(ELSE):
	@mkdir -p $(@D); echo "skip $(@:$B/%.log=%): by tests/once.txt" >$@; \
	  echo "status 77" >>$@

# where the time of the last check went: processor seconds of each log
times:
	@sh tests/support/times.sh $(LOGS) | head -$(or $(MOST),25)
programs: all $(TESTS)

lint: floors refs banned size spdx names umbrella exports abi-check statics kept frames \
      format-check tidy
floors refs banned size spdx names umbrella:
	@STRICT=1 sh tests/lint/$@.sh
exports: $B/libdew.so.$(SOVERSION)
	@sh tests/lint/exports.sh $<
abi-check: $B/libdew.so.$(SOVERSION)
	@sh tests/lint/abi.sh $<
abi: $B/libdew.so.$(SOVERSION)
	@sh tests/lint/abi.sh $< write
statics: $B/libdew.a
	@sh tests/lint/statics.sh $<
kept: $B/dewledger $B/libdew.a
	@sh tests/lint/kept.sh $^
frames: $(LIB_OBJ) $(CLI_OBJ)
	@sh tests/lint/frames.sh $B/engine
format:
	clang-format -i $(ALL_C)
format-check:
	@clang-format --dry-run --Werror $(ALL_C)

# What was found clean before, with all it includes, is not looked at again: here,
# or as tests/lint/tidied.txt has it.  EVERY=1 looks at all.
TIDIED := build/tidied.txt
tidy:
	@EVERY=$(EVERY) $(PYTHON) tests/lint/tidy.py $(TIDIED) $(LIB_SRC) $(CLI_SRC) -- $(TIDY_FLAGS)
TIDY_FLAGS := $(filter-out -DDEW_VERSION% -Werror -fstack-usage,$(OURS)) \
  -DDEW_VERSION='""' $(MPI_CFLAGS)
tidied: tidy
	@cp $(TIDIED) tests/lint/tidied.txt

coverage:
	$(MAKE) COV=1 check
	@sh tests/support/coverage.sh build/gcc-cov

# ---- long runs --------------------------------------------------------------
FUZZ_TIME ?= 60
fuzz:
	$(MAKE) CC=clang FUZZ=1 fuzzers
	@sh tests/support/fuzz.sh $(FUZZ_TIME) $(FUZZ_SRC:%.c=build/clang-fuzz/%)
fuzzers: $(FUZZERS)
$B/tests/fuzz/%: $B/tests/fuzz/%.o $B/libdew.a
	$(CC) -fsanitize=fuzzer $(LINK) $(LDFLAGS) -o $@ $^ $(LIBS)
bench: $(BENCHES)
	@for b in $(BENCHES); do $$b || exit 1; done
	@[ ! -f $(PAGE) ] || sh tests/page/speed.sh $(PAGE) $B/dewledger
study: all $(STUDIES)
	@for s in $(STUDIES); do $$s || exit 1; done
MUTANTS ?= 500
SEED    ?= 1
mutants:
	@$(PYTHON) tests/support/mutants.py $(MUTANTS) $(SEED) $(AGAIN)

# as tests/support/machines.sh has them in its table
machines: all
	@sh tests/support/machines.sh $B $(ONLY)

real: all
	@for f in README.md docs/tutorial.md docs/results.md docs/ducts.md docs/spread.md docs/size.md; do \
	  sh tests/support/real.sh $B $$f >$$f.part && mv $$f.part $$f; done

first-results: $B/dewledger
	@$(PYTHON) tests/study/first_results.py $B/dewledger \
	  "$${DEW_DATA:-../shared/data}" >docs/dev/first-results.md.part
	@mv docs/dev/first-results.md.part docs/dev/first-results.md

evidence: $B/dewledger
	@for what in windows house; do \
	  $(PYTHON) tests/study/evidence_$$what.py $B/dewledger \
	    "$${DEW_DATA:-../shared/data}" docs/evidence.md || exit 1; done

ducts-answer: $B/dewledger
	@$(PYTHON) tests/study/ducts_answer.py $B/dewledger docs/ducts.md

# The survey's own journal knows what is marched; a file that is whole stays.
build/atlas/march.sqlite: scenarios/atlas.yaml tests/study/atlas_survey.yaml | $B/dewledger
	$B/dewledger survey tests/study/atlas_survey.yaml --out build/atlas \
	  $(if $(wildcard build/atlas),--resume)

STATES := build/us-atlas/states-10m.json
$(STATES):
	@mkdir -p $(@D)
	@cd $(@D) && npm pack --silent us-atlas@3.0.1 >/dev/null && tar xzmf \
	  us-atlas-3.0.1.tgz --strip-components=1 package/$(@F) || \
	  echo "no state lines: npm could not fetch us-atlas"

atlas: build/atlas/march.sqlite
	@$(MAKE) -s atlas-answers
atlas-answers: $(STATES)
	@$(PYTHON) -B tests/study/atlas.py build/atlas/march.sqlite . $(STATES)

# ---- the command as WebAssembly ----------------------------------------------
include engine/page/page.mk
include .packaging/deb.mk

# ---- the picture that the README shows ----------------------------------------
pictures: $B/dewledger
	$B/dewledger run scenarios/demo.yaml --out build/demo >/dev/null
	@mkdir -p docs/img
	cp build/demo/charts/answer.svg docs/img
	chmod 644 docs/img/*.svg

# ---- the made years that come along ------------------------------------------
weather-years: $B/dewledger
	$B/dewledger weather make 722020 --out weather/miami-made.csv
	$B/dewledger weather make 726580 --out weather/minneapolis-made.csv
	$B/dewledger weather make 727930 --out weather/seattle-made.csv
	$B/dewledger weather make 723650 --out weather/albuquerque-made.csv
	chmod 644 weather/*-made.csv

# ---- install ----------------------------------------------------------------
LIB    ?= $(PREFIX)/lib
LIBDIR := $(DESTDIR)$(LIB)
SHARE  := $(DESTDIR)$(PREFIX)/share
BASH   := $(SHARE)/bash-completion/completions
ZSH    := $(SHARE)/zsh/site-functions
FISH   := $(SHARE)/fish/vendor_completions.d

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(LIBDIR)/pkgconfig \
	  $(DESTDIR)$(PREFIX)/include/dew $(SHARE)/man/man1 $(SHARE)/man/man5 \
	  $(BASH) $(ZSH) $(FISH)
	install -m 755 $B/dewledger $(DESTDIR)$(PREFIX)/bin
	install -m 644 $B/libdew.a $(LIBDIR)
	install -m 755 $B/libdew.so.$(SOVERSION) $(LIBDIR)
	ln -sf libdew.so.$(SOVERSION) $(LIBDIR)/libdew.so
	install -m 644 include/dew.h $(DESTDIR)$(PREFIX)/include
	install -m 644 $(HEADERS) $(DESTDIR)$(PREFIX)/include/dew
	sed 's,@PREFIX@,$(PREFIX),; s,@LIB@,$(LIB),; s,@VERSION@,$(VERSION),; s,@PKGS@,$(PKGS),' \
	  engine/dew.pc.in >$(LIBDIR)/pkgconfig/dew.pc
	chmod 644 $(LIBDIR)/pkgconfig/dew.pc
	install -m 644 $B/dewledger.1 $(SHARE)/man/man1
	install -m 644 $B/dewledger-scenario.5 $(SHARE)/man/man5
	install -m 644 docs/shells/dewledger.bash $(BASH)/dewledger
	install -m 644 docs/shells/_dewledger $(ZSH)
	install -m 644 docs/shells/dewledger.fish $(FISH)
	if [ -f build/page/dewledger.html ]; then install -d $(SHARE)/dewledger; \
	  install -m 644 build/page/dewledger.html $(SHARE)/dewledger; fi

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/dewledger $(LIBDIR)/libdew.a \
	  $(LIBDIR)/libdew.so $(LIBDIR)/libdew.so.$(SOVERSION) \
	  $(LIBDIR)/pkgconfig/dew.pc $(DESTDIR)$(PREFIX)/include/dew.h \
	  $(SHARE)/man/man1/dewledger.1 $(SHARE)/man/man5/dewledger-scenario.5 \
	  $(BASH)/dewledger $(ZSH)/_dewledger $(FISH)/dewledger.fish
	rm -rf $(DESTDIR)$(PREFIX)/include/dew $(SHARE)/dewledger

clean:
	rm -rf build
help:
	@sed -n 's/^#   //p' Makefile

-include $(shell find $B -name '*.d' 2>/dev/null)
