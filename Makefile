# One Makefile, no recursion.  `make help` lists the targets.
#
#   make demo       install what is missing, build, run the main job
#   make check      install what is missing, build, run every test
#   make all        the library, static and shared, and the command
#   make lint       floors, references, banned calls, exports, format, tidy
#   make deps       install what is missing, say what it does
#   make coverage fuzz bench study
#   make install uninstall    [PREFIX=/usr/local] [DESTDIR=]
#   make clean help
#
#   SAN=1 address and undefined-behaviour sanitizers, COV=1 coverage,
#   WERROR=1 warnings are errors, CC=clang: each has its own tree in build/

VERSION   := 0.1.0
SOVERSION := 0
PREFIX    ?= /usr/local
DESTDIR   ?=
CFLAGS    ?= -O2 -g
PKGS      := gsl yaml-0.1 jansson zlib libmd

# ---- packages: build/deps.mk is made first, and make starts again with it --
NEED_all   := gcc libc6-dev pkg-config libgsl-dev libcsv-dev libyaml-dev \
              libjansson-dev zlib1g-dev libmd-dev
NEED_check := $(NEED_all) libcmocka-dev liberfa-dev units locales
NEED_lint  := $(NEED_check) clang clang-format clang-tidy binutils

ifneq ($(filter-out clean help,$(or $(MAKECMDGOALS),all)),)
include build/deps.mk
endif

build/deps.mk: engine/deps.sh Makefile
	@sh engine/deps.sh "$@" "$(MAKECMDGOALS)" "$(PKGS)" \
	  "$(NEED_all)" "$(NEED_check)" "$(NEED_lint)"

# ---- what is built with what ------------------------------------------------
# CFLAGS and LDFLAGS are the user's; ours are kept apart, so that
# `make CFLAGS=-O3` never drops a flag the code needs.
WARN := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes \
        -Wmissing-prototypes -Wwrite-strings -Wcast-qual -Wvla -Wundef \
        -Wformat=2
OURS := -std=c11 -D_POSIX_C_SOURCE=200809L -fPIC -ffp-contract=off \
        -fno-math-errno -fopenmp-simd -Iinclude -Iengine $(WARN) $(PKG_CFLAGS) \
        -DDEW_VERSION='"$(VERSION)"'
LIBS := $(PKG_LIBS) -lcsv -lm
KIND := $(if $(filter clang%,$(CC)),clang,gcc)

ifdef SAN
KIND := $(KIND)-san
OURS += -fsanitize=address,undefined -fno-sanitize-recover=all \
        -fno-omit-frame-pointer
LINK := -fsanitize=address,undefined
endif
ifdef COV
KIND := $(KIND)-cov
OURS += --coverage -O0
LINK := --coverage
endif
ifdef WERROR
OURS += -Werror
endif

# Each kind has its own tree: switching flags never mixes objects.
B := build/$(KIND)

# ---- the parts --------------------------------------------------------------
LIB_SRC   := $(filter-out engine/cli/% engine/page/%,$(wildcard engine/*/*.c))
CLI_SRC   := $(wildcard engine/cli/*.c engine/page/*.c)
TEST_SRC  := $(wildcard tests/*/test_*.c)
ifdef SAN
TEST_SRC  := $(filter-out %/test_alloc.c,$(TEST_SRC))  # has its own malloc
endif
STUDY_SRC := $(wildcard tests/study/study_*.c)
FUZZ_SRC  := $(wildcard tests/fuzz/fuzz_*.c)
BENCH_SRC := $(wildcard tests/bench/bench_*.c)
SUPPORT   := $(filter-out tests/support/test_%.c,$(wildcard tests/support/*.c))
HEADERS   := $(wildcard include/dew/*.h)
ALL_C     := $(wildcard engine/*/*.[ch] include/*.h include/dew/*.h tests/*/*.[ch])

LIB_OBJ   := $(LIB_SRC:%.c=$B/%.o)
CLI_OBJ   := $(CLI_SRC:%.c=$B/%.o)
SUP_OBJ   := $(SUPPORT:%.c=$B/%.o)
TESTS     := $(TEST_SRC:%.c=$B/%)
BENCHES   := $(BENCH_SRC:%.c=$B/%)
STUDIES   := $(STUDY_SRC:%.c=$B/%)

.DELETE_ON_ERROR:
.SUFFIXES:
.SECONDARY:
.PHONY: all deps demo check lint floors refs banned exports statics size \
        format format-check tidy coverage fuzz bench study install uninstall \
        clean help

all: $B/libdew.a $B/libdew.so.$(SOVERSION) $B/dewledger
deps: build/deps.mk

$B/libdew.a: $(LIB_OBJ)
	$(AR) rcs $@ $^

$B/libdew.so.$(SOVERSION): $(LIB_OBJ) engine/dew.map
	$(CC) -shared -Wl,-soname,libdew.so.$(SOVERSION) \
	  -Wl,--version-script=engine/dew.map $(LINK) $(LDFLAGS) -o $@ \
	  $(LIB_OBJ) $(LIBS)

$B/dewledger: $(CLI_OBJ) $B/libdew.a
	$(CC) $(LINK) $(LDFLAGS) -o $@ $^ $(LIBS)

# -MMD -MP: header dependencies come from the compiler; a removed header does
# not break the next build.  The Makefile itself is a dependency.
$B/%.o: %.c Makefile
	@mkdir -p $(@D)
	$(CC) $(OURS) $(CFLAGS) -Itests -MMD -MP -c $< -o $@

# the assembler takes the table in; the compiler does not see it
$B/engine/weather/climates.o: weather/climates.csv

$B/tests/%: $B/tests/%.o $(SUP_OBJ) $B/libdew.a
	$(CC) $(LINK) $(LDFLAGS) -o $@ $^ -lcmocka $(TEST_LIBS) $(LIBS)

# the sun is checked against a library of astronomy
$B/tests/weather/test_sun: TEST_LIBS := -lerfa

# ---- checks -----------------------------------------------------------------
check: all $(TESTS)
	@bad=0; for t in $(TESTS); do $$t || bad=1; done; exit $$bad

clean:
	rm -rf build
help:
	@sed -n 's/^#   //p' Makefile

-include $(shell find $B -name '*.d' 2>/dev/null)
