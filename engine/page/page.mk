# SPDX-License-Identifier: GPL-3.0-or-later
# The command as WebAssembly: build/wasm/plain.wasm, and build/wasm/simd.wasm
# for where vectors of two numbers are at hand.  See docs/page.md.

W    := build/wasm
WLIB := $W/src

# What the linker needs of each library.
WASM_GSL := version blas/blas cblas/daxpy cblas/ddot cblas/dgemv cblas/dger \
  cblas/dnrm2 cblas/dscal cblas/dtrsv cblas/xerbla cdf/beta cdf/betainv \
  eigen/jacobi err/error err/stream interpolation/cspline interpolation/inline \
  interpolation/interp interpolation/linear interpolation/steffen \
  linalg/cholesky linalg/householder linalg/qr linalg/tridiag matrix/matrix \
  matrix/rowcol matrix/submatrix matrix/view qrng/inline qrng/qrng qrng/sobol \
  randist/beta randist/gauss rng/inline rng/mt rng/rng sort/sortvec \
  specfunc/beta specfunc/erfc specfunc/exp specfunc/gamma specfunc/gamma_inc \
  specfunc/log specfunc/psi specfunc/zeta statistics/covariance \
  statistics/mean statistics/variance sys/pow_int \
  multifit_nlinear/cholesky multifit_nlinear/convergence multifit_nlinear/covar \
  multifit_nlinear/dogleg multifit_nlinear/fdf multifit_nlinear/fdfvv \
  multifit_nlinear/fdjac multifit_nlinear/lm multifit_nlinear/mcholesky \
  multifit_nlinear/qr multifit_nlinear/scaling multifit_nlinear/subspace2D \
  multifit_nlinear/svd multifit_nlinear/trust multimin/fminimizer \
  multimin/simplex2 multimin/convergence matrix/init matrix/oper matrix/getset \
  matrix/copy matrix/swap block/init permutation/init permutation/permutation \
  permutation/permute linalg/qrpt linalg/trimult linalg/invtri linalg/condest \
  cblas/dsyrk cblas/dasum cblas/dcopy cblas/dtrmm cblas/dtrmv cblas/dtrsm \
  cblas/idamax permutation/inline vector/swap sys/infnan vector/init vector/oper vector/copy vector/minmax \
  vector/subvector vector/vector vector/view
WASM_LIB := $(WASM_GSL:%=gsl/%) \
  $(addprefix libyaml/src/,api parser reader scanner) \
  $(addprefix jansson/src/,dump error hashtable hashtable_seed load memory \
    pack_unpack strbuffer strconv utf value version) \
  libcsv/libcsv \
  $(addprefix zlib/,adler32 crc32 inffast inflate inftrees zutil) \
  $(addprefix libmd/src/,sha2 sha256hl) \
  $(addprefix gnulib/lib/,argp-ba argp-eexst argp-fmtstream argp-help \
    argp-parse argp-pv argp-pvh basename-lgpl getopt getopt1)

# Theirs warns of what is theirs.  -Iengine/page/port comes first: it has what
# wasi-libc has not.
WASM_CC   := clang --target=wasm32-wasi -O2 -msign-ext -mnontrapping-fptoint \
             -Iengine/page/port -I$W/include \
             -D_WASI_EMULATED_GETPID -D_WASI_EMULATED_SIGNAL
WASM_WARN := -Werror -Wall -Wextra -Wshadow -Wstrict-prototypes
WASM_OURS := $(filter-out -W% -fPIC -fstack-usage -DMARCH__WIDE,$(OURS)) \
             $(WASM_WARN) -I$W/include/gnulib
WASM_THEIRS := -w -ffp-contract=off -ffunction-sections -D_GNU_SOURCE \
             -DHAVE_CONFIG_H -I$W/include/gnulib -I$(WLIB)/gsl
WASM_LINK := -Wl,-error-limit=0,--gc-sections,--strip-all,--stack-first,-z,stack-size=1048576 \
             -Wl,--import-memory,--initial-memory=8388608 \
             -lm -lwasi-emulated-getpid -lwasi-emulated-signal

# The march alone differs, by how its two lanes are done: each by itself is no
# slower than one house, so that one code does.
WASM_MARCH := $(patsubst %.c,%.o,$(filter engine/march/%,$(LIB_SRC))) \
              engine/march/lanes_2.o
# Surveys need SQLite and threads, which the module has not.
WASM_SRC   := $(filter-out engine/march/% engine/survey/% engine/core/journal.c \
                engine/cli/cmd_survey.c engine/cli/survey_%.c,$(LIB_SRC) $(CLI_SRC)) engine/page/port/port.c engine/page/port/bulk.c
WASM_OBJ   := $(WASM_SRC:%.c=$W/both/%.o) $(EMBED:%=$W/both/%.o) $(WASM_LIB:%=$W/both/lib/%.o)
WASM_plain := $(WASM_MARCH:%=$W/plain/%)
WASM_simd  := $(WASM_MARCH:%=$W/simd/%)

.PHONY: wasm wasm-sources wasm-lanes bench-wasm
wasm: $W/plain.wasm $W/simd.wasm

# What a system without Debian's packages cannot have: a test asks for it alone.
wasm-sources: $W/fetched
$W/fetched: engine/page/sources.sh engine/page/sources.txt
	@sh engine/page/sources.sh $W

$W/plain.wasm: $(WASM_OBJ) $(WASM_plain)
$W/simd.wasm: $(WASM_OBJ) $(WASM_simd)

define wasm_object
	@mkdir -p $(@D)
	$(WASM_CC) $(WASM_OURS) $(1) -MMD -MP -c $< -o $@
endef
WASM_TOO := $W/fetched Makefile engine/page/page.mk
$W/both/lib/%.o: $(WASM_TOO)
	@mkdir -p $(@D)
	$(WASM_CC) $(WASM_THEIRS) -I$(WLIB)/$(*D) -MMD -MP -c $(WLIB)/$*.c -o $@
$W/both/%.o: %.c $(WASM_TOO)
	$(call wasm_object)
# Not for all of it: what knows these takes errno for a thread's own.
$W/both/engine/page/port/bulk.o: engine/page/port/bulk.c $(WASM_TOO)
	$(call wasm_object,-mbulk-memory)
$W/plain/%.o: %.c $(WASM_TOO)
	$(call wasm_object)
$W/simd/%.o: %.c $(WASM_TOO)
	$(call wasm_object,-msimd128)
$W/plain/%_2.o: %.c $(WASM_TOO)
	$(call wasm_object,-DCORE__LANES=2)
$W/simd/%_2.o: %.c $(WASM_TOO)
	$(call wasm_object,-msimd128 -DCORE__LANES=2)
$(EMBED:%=$W/both/%.o): $W/both/%.o: % engine/core/embed.S $(WASM_TOO)
	@mkdir -p $(@D)
	$(WASM_CC) -DDEW_NAME=core__data_$(subst -,_,$(subst .,_,$(notdir $<))) \
	  -DDEW_FILE='"$<"' -c engine/core/embed.S -o $@

# Programs of the tests, of the library alone: what lanes come to, and how fast.
# A module tells no processor time: the bench goes by the clock on the wall.
WASM_PLAIN_TOO := $W/lanes-plain.wasm $W/bench-plain.wasm
WASM_SIMD_TOO  := $W/lanes-simd.wasm $W/bench-simd.wasm
WASM_PART := $(filter-out $W/both/engine/cli/%,$(WASM_OBJ))
$W/both/tests/bench/%.o: tests/bench/%.c $(WASM_TOO)
	$(call wasm_object,-DCLOCK_PROCESS_CPUTIME_ID=CLOCK_MONOTONIC)
$W/lanes-plain.wasm $W/lanes-simd.wasm: $W/both/tests/page/lanes.o
$W/bench-plain.wasm $W/bench-simd.wasm: $W/both/tests/bench/bench_bundle.o
$(WASM_PLAIN_TOO): $(WASM_PART) $(WASM_plain)
$(WASM_SIMD_TOO): $(WASM_PART) $(WASM_simd)
# -O0: else clang hands the module to a wasm-opt where one happens to be on the
# path, and the page is not the same bytes everywhere (clang 14's fails on SIMD).
$W/plain.wasm $W/simd.wasm $(WASM_PLAIN_TOO) $(WASM_SIMD_TOO):
	$(WASM_CC) -O0 -o $@ $^ $(WASM_LINK)
wasm-lanes: $W/lanes-plain.wasm $W/lanes-simd.wasm
bench-wasm: wasm $W/bench-plain.wasm $W/bench-simd.wasm $B/dewledger
	@sh tests/page/bench.sh $W $B/dewledger

# The page: everything in one file.
PAGE := build/page/dewledger.html
PAGE_PARTS := $(wildcard engine/page/*.js engine/page/*.mjs) engine/page/page.html \
  engine/page/page.css engine/sheets/page.css engine/sheets/page.js \
  engine/draw/chart.css engine/draw/ducts.css scenarios/demo.yaml
.PHONY: page
page: $(PAGE)
$(PAGE): $W/plain.wasm $W/simd.wasm $(PAGE_PARTS)
	@mkdir -p $(@D)
	node engine/page/assemble.mjs $W $@

# Wall time: of a machine that does nothing else.
.PHONY: bench-page
bench-page: $(PAGE) $B/dewledger
	@sh tests/page/speed.sh $(PAGE) $B/dewledger

-include $(shell find $W -name '*.d' 2>/dev/null)
