# SPDX-License-Identifier: MIT
# libbrake and the command stopmargin. `make help` lists the targets.

PREFIX ?= /usr/local
BINDIR ?= $(PREFIX)/bin
LIBDIR ?= $(PREFIX)/lib
INCLUDEDIR ?= $(PREFIX)/include
DOCDIR ?= $(PREFIX)/share/doc/libbrake
MANDIR ?= $(PREFIX)/share/man
BASHDIR ?= $(PREFIX)/share/bash-completion/completions
CFLAGS ?= -O3 -fno-math-errno -fno-trapping-math
# Give another folder with another compiler or other flags: objects do not remember theirs.
BUILD ?= build
# Debian's own, for Debian's NumPy, SciPy and Hypothesis.
PYTHON ?= /usr/bin/python3

VERSION := $(shell sed -n 's/^\#define BRAKE_VERSION "\(.*\)"$$/\1/p' libbrake/include/brake/version.h)
SONAME := libbrake.so.$(basename $(VERSION))

# -Wdouble-promotion: a float that slipped in costs digits. -Wconversion: so does a silent cast.
# Errors only in `make lint`: a later compiler warns of more, and whoever has it wants to build. But for a
# row that stops short of its last member: an option of the command without help.
WARNINGS := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wdouble-promotion -Werror=missing-field-initializers
# -ffp-contract=off: a product and a sum are rounded each, on every processor.
LANGUAGE := -std=c11 -fopenmp -ffp-contract=off -Ilibbrake/include -Ilibbrake
# What makes a fault of memory end the program; sanitizers see more without it, -O0 has none of it.
FORTIFY = $(if $(INSTRUMENT)$(filter -O0,$(CFLAGS)),,-U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2)
HARDENING = $(FORTIFY) -fstack-protector-strong
HARDENED_LINK := -Wl,-z,relro -Wl,-z,now
PIE := -pie
# The same bytes in whatever folder it is built.
ANYWHERE = '-ffile-prefix-map=$(CURDIR)=.'
COMPILE = $(CC) $(LANGUAGE) $(WARNINGS) -fPIC -fno-semantic-interposition $(ANYWHERE) $(HARDENING) \
    $(DEFINES) $(CPPFLAGS) $(CFLAGS) $(INSTRUMENT)
LINK = $(CC) -fopenmp $(CFLAGS) $(HARDENED_LINK) $(INSTRUMENT) $(LDFLAGS)
LIBS := -lm

# What must be installed: to build, and in addition to test.
CORE_PACKAGES := gcc libc6-dev pkg-config
# What the Python package is built with, what its tests use, what its examples show.
PYTHON_PACKAGES := mypy python3-dev python3-distributed python3-ipykernel python3-matplotlib python3-nbclient \
    python3-pandas python3-pip python3-setuptools python3-venv python3-wheel python3-xarray swig
PACKAGES := $(CORE_PACKAGES) $(PYTHON_PACKAGES) abigail-tools binutils chromium clang clang-format clang-tidy cmake cppcheck \
    doxygen g++ libcjson-dev libclang-rt-dev libclang-rt-dev-wasm32 libcmocka-dev libomp-dev libsundials-dev lld llvm locales man-db \
    nodejs poppler-utils python3 python3-html5lib python3-hypothesis python3-jsonschema python3-markdown python3-numpy python3-pytest \
    python3-pytest-xdist python3-scipy units valgrind wasi-libc

# From the npm registry, into the build: rules of accessibility, a second checker of types. What they
# say is skipped without.
NPM_PACKAGES := axe-core@4.14.1 pyright@1.1.414
# Other browsers, large, for `make check-browsers` alone.
BROWSER_PACKAGES := firefox-esr webkit2gtk-driver xvfb

HEADERS := $(sort $(wildcard libbrake/include/brake/*.h))
COMMAND := $(sort $(wildcard libbrake/command/*.c))
LIBRARY := $(filter-out $(COMMAND),$(sort $(wildcard libbrake/*/*.c)))
UNIT_TESTS := $(wildcard tests/*/test_*.c)
PUBLISHED := $(wildcard tests/published/*.c)
DRIVERS := $(wildcard tests/*/driver.c)
BENCHES := $(wildcard tests/bench/*.c)
FUZZ := $(filter-out tests/fuzz/replay.c,$(wildcard tests/fuzz/*.c))
PYTEST_FOLDERS ?= command failure file schema oracle spread browser python install lint web reference trust mutation ports
# These measure the plain build and nothing else, or build for themselves.
PLAIN_ONLY := failure install lint python web reference trust mutation ports
PYTESTS := $(foreach folder,$(PYTEST_FOLDERS),$(wildcard tests/$(folder)/test_*.py))
NODE_TESTS := $(if $(filter web,$(PYTEST_FOLDERS)),$(wildcard tests/web/*.test.mjs))

object = $(1:%.c=$(BUILD)/%.o)
TESTS := $(UNIT_TESTS:%.c=$(BUILD)/%) $(if $(PUBLISHED),$(BUILD)/tests/published/published)
DRIVER_PROGRAMS := $(DRIVERS:tests/%/driver.c=$(BUILD)/tests/%-driver)
BENCH_PROGRAMS := $(BENCHES:%.c=$(BUILD)/%)
FUZZ_PROGRAMS := $(FUZZ:%.c=$(BUILD)/%)
FACE := $(wildcard bindings/web/*.c)
PROGRAM := $(if $(COMMAND),$(BUILD)/stopmargin)
SHARED := $(BUILD)/libbrake.so.$(VERSION)
OBJECTS := $(call object,$(LIBRARY) $(COMMAND) $(UNIT_TESTS) $(PUBLISHED) $(DRIVERS) $(BENCHES) $(FUZZ) $(FACE) \
    tests/fuzz/replay.c)

.PHONY: all check check-built check-browsers check-company check-kill check-page oracle check-sanitize check-sanitize-python check-valgrind check-arm64 \
    check-allocation check-deb compiled deb dist docs fuzz fuzz-keep fuzz-programs lint mutate prove reference schema trust web \
    coverage bench deps-core deps deps-browsers install uninstall format clean help
.DELETE_ON_ERROR:

all: $(PROGRAM) $(PROGRAM:%=%.1) $(PROGRAM:%=%.bash) $(BUILD)/libbrake.a $(BUILD)/libbrake.so $(BUILD)/libbrake.pc

# `make V=1` shows whole commands.
say = @$(if $(V),:,echo '  $(1)')
Q := $(if $(V),,@)

# With `make -j deps all` nothing may be compiled before the packages are there.
$(OBJECTS): | $(filter deps deps-core,$(MAKECMDGOALS))

$(BUILD)/%.o: %.c
	@mkdir -p $(@D)
	$(call say,compile $<)
	$(Q)$(COMPILE) -MMD -MP -c -o $@ $<

-include $(OBJECTS:.o=.d)

# A fresh archive: `ar r` alone would keep the objects of files that are gone.
$(BUILD)/libbrake.a: $(call object,$(LIBRARY))
	@rm -f $@
	$(call say,archive $@)
	$(Q)$(AR) rcsD $@ $^

# The shared library offers what a public header declares and nothing else.
$(BUILD)/symbols.map: $(HEADERS)
	@mkdir -p $(@D)
	@{ echo '{ global:'; grep -oh '\bbrake_[a-z0-9_]*(' $^ | tr '(' ';' | sort -u; \
	    echo 'local: *; };'; } >$@

$(SHARED): $(call object,$(LIBRARY)) $(BUILD)/symbols.map
	$(call say,link $@)
	$(Q)$(LINK) -shared -Wl,-soname,$(SONAME) -Wl,--version-script=$(BUILD)/symbols.map \
	    $(if $(INSTRUMENT),,-Wl,--no-undefined) -o $@ $(filter %.o,$^) $(LIBS)

$(BUILD)/libbrake.so: $(SHARED)
	@ln -sf $(<F) $(BUILD)/$(SONAME)
	@ln -sf $(SONAME) $@

$(BUILD)/libbrake.pc: libbrake/libbrake.pc.in libbrake/include/brake/version.h
	@mkdir -p $(@D)
	@sed 's/@VERSION@/$(VERSION)/' $< >$@

$(BUILD)/stopmargin: $(call object,$(COMMAND)) $(BUILD)/libbrake.a
	$(call say,link $@)
	$(Q)$(LINK) $(PIE) -o $@ $^ $(LIBS)

# What the program tells of itself: its manual page, its completion.
$(BUILD)/stopmargin.1: $(BUILD)/stopmargin
	@$< help --man >$@

$(BUILD)/stopmargin.bash: $(BUILD)/stopmargin
	@$< help --bash >$@

# The Python package, as it would be installed: $(BUILD)/python/libbrake

PACKAGE := $(BUILD)/python/libbrake/made.py
PACKAGE_SOURCES := $(wildcard $(addprefix bindings/python/,* libbrake/* generator/*.py))

$(PACKAGE): $(LIBRARY) $(HEADERS) $(PACKAGE_SOURCES)
	@rm -rf $(BUILD)/python
	$(call say,package $(@D))
	$(Q)cd bindings/python && $(PYTHON) setup.py -q build \
	    --build-base $(abspath $(BUILD)/python-objects) --build-lib $(abspath $(BUILD)/python) \
	    --build-temp $(abspath $(BUILD)/python-objects)

# The page: the library as WebAssembly, and everything else, in one file: $(BUILD)/stopmargin.html

WEB_CC ?= clang
WEB_SOURCES := $(LIBRARY) $(wildcard bindings/web/*.c)
WEB_OBJECTS := $(WEB_SOURCES:%.c=$(BUILD)/web/%.o)
WEB_PAGE := $(wildcard bindings/web/*.mjs bindings/web/*.css bindings/web/*.html)
WEB_TARGET := --target=wasm32-wasi --sysroot=/usr

# No threads there: the pragmas of OpenMP are left aside. sig_atomic_t stands behind the define.
$(BUILD)/web/%.o: %.c
	@mkdir -p $(@D)
	$(call say,compile $< for the page)
	$(Q)$(WEB_CC) $(WEB_TARGET) -isystem /usr/include/wasm32-wasi -std=c11 -Os -ffp-contract=off -fno-math-errno \
	    -fno-trapping-math $(WARNINGS) -Wno-unknown-pragmas -Wno-source-uses-openmp \
	    -D_WASI_EMULATED_SIGNAL -Ilibbrake/include -Ilibbrake -Ibindings/web -MMD -MP -c -o $@ $<

-include $(WEB_OBJECTS:.o=.d)

$(BUILD)/web/core.wasm: $(WEB_OBJECTS)
	$(call say,link $@)
	$(Q)$(WEB_CC) $(WEB_TARGET) -mexec-model=reactor -fuse-ld=lld -L/usr/lib/wasm32-wasi \
	    -B/usr/lib/wasm32-wasi -Wl,--gc-sections -Wl,--strip-all -Wl,-z,stack-size=4194304 \
	    -o $@ $^ -lwasi-emulated-signal

$(BUILD)/stopmargin.html: bindings/web/join.py $(WEB_PAGE) $(BUILD)/web/core.wasm
	$(call say,page $@)
	$(Q)$(PYTHON) bindings/web/join.py bindings/web $(BUILD)/web/core.wasm >$@

web: $(BUILD)/stopmargin.html

# Tests and benchmarks

$(call object,$(UNIT_TESTS) $(PUBLISHED)): DEFINES := -DSOURCE_ROOT='"$(CURDIR)"'
$(UNIT_TESTS:%.c=$(BUILD)/%) $(BENCH_PROGRAMS): %: %.o
$(BUILD)/tests/published/published: $(call object,$(PUBLISHED))
$(DRIVER_PROGRAMS): $(BUILD)/tests/%-driver: $(BUILD)/tests/%/driver.o
# JSON is read by a parser that is not ours.
$(TESTS): TEST_LIBS := -lcmocka -lcjson
# The peer of this benchmark, when it is installed.
$(BUILD)/tests/bench/heat: TEST_LIBS := $(if $(wildcard /usr/include/cvode/cvode.h), \
    -lsundials_cvode -lsundials_nvecserial -lsundials_sunmatrixband -lsundials_sunlinsolband)
$(TESTS) $(DRIVER_PROGRAMS) $(BENCH_PROGRAMS): $(BUILD)/libbrake.a
	$(call say,link $@)
	$(Q)$(LINK) -o $@ $(filter %.o,$^) $(BUILD)/libbrake.a $(TEST_LIBS) $(LIBS)

# A target shows itself its seeds, or has clang's libFuzzer look for more (`make fuzz`). What it uses of
# the command has a main of its own.
FUZZER := $(BUILD)/tests/fuzz/replay.o
$(call object,$(FUZZ) tests/fuzz/replay.c): DEFINES := -DSOURCE_ROOT='"$(CURDIR)"' -Ilibbrake/command
# Numbers are compared by the million, and nobody's bytes are what they are compared with: to note each
# takes two thirds of the time.
$(call object,$(filter-out libbrake/file/%,$(LIBRARY))): DEFINES = $(UNNOTED)
$(BUILD)/tests/fuzz/command.a: $(call object,$(COMMAND))
	$(call say,archive $@)
	@mkdir -p $(@D)
	@objcopy --redefine-sym main=command_main $(BUILD)/libbrake/command/main.o $(@D)/main.o
	@rm -f $@
	$(Q)$(AR) rcs $@ $(filter-out %/main.o,$^) $(@D)/main.o
$(FUZZ_PROGRAMS): %: %.o $(if $(FUZZER),$(FUZZER)) $(call object,$(FACE)) $(BUILD)/tests/fuzz/command.a \
    $(BUILD)/libbrake.a
	$(call say,link $@)
	$(Q)$(LINK) $(FUZZ_LINK) -o $@ $^ -lcjson $(LIBS)

# The Python tests find what to test in these two; WRAPPER stands before each C test program.
RUN_TESTS = STOPMARGIN=$(abspath $(BUILD)/stopmargin) LIBBRAKE_BUILD=$(abspath $(BUILD)) \
    INSTRUMENT='$(INSTRUMENT)' \
    $(PYTHON) tests/run-tests --junit $(BUILD)/pytest.xml $(if $(WRAPPER),--wrapper '$(WRAPPER)')

# Preloaded by tests of what happens when memory is short, and with another C library.
SHIM := $(BUILD)/tests/failure/allocation.so $(BUILD)/tests/failure/libm.so
$(SHIM): $(BUILD)/%.so: %.c
	@mkdir -p $(@D)
	$(call say,link $@)
	$(Q)$(CC) -std=c11 $(WARNINGS) $(CFLAGS) -fPIC -fno-builtin -shared -o $@ $< $(LIBS)

# Each of the first allocations of each verb fails in turn: some 5 minutes.
ALLOCATIONS ?= 2000
check-allocation: all $(SHIM)
	ALLOCATIONS=$(ALLOCATIONS) STOPMARGIN=$(abspath $(BUILD)/stopmargin) LIBBRAKE_BUILD=$(abspath $(BUILD)) \
	    PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m pytest -q -p no:cacheprovider tests/failure/test_allocation.py

# What `check` runs: built, by `make -j` on as many processors as there are.
check-built: all $(TESTS) $(FUZZ_PROGRAMS) $(DRIVER_PROGRAMS) $(if $(filter failure,$(PYTEST_FOLDERS)),$(SHIM)) \
    $(if $(filter python,$(PYTEST_FOLDERS)),$(PACKAGE)) $(if $(filter web,$(PYTEST_FOLDERS)),web)
check: check-built
	@$(RUN_TESTS) $(TESTS) $(FUZZ_PROGRAMS) $(PYTESTS) $(NODE_TESTS)

# The page in browsers of other makers.
check-browsers: all web
	LIBBRAKE_BUILD=$(abspath $(BUILD)) STOPMARGIN=$(abspath $(BUILD)/stopmargin) PYTHONPATH=tests \
	    PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m pytest -q -rs tests/engines

# Every example and test vehicle with heat, by the page in node and in Chromium as by the command: minutes.
PAGE_FILES := $(wildcard examples/*.ini tests/vehicles/*.ini)
check-page: export EVERY_VEHICLE := 1
check-page: export LIBBRAKE_BUILD := $(abspath $(BUILD))
check-page: export STOPMARGIN := $(abspath $(BUILD)/stopmargin)
check-page: export PYTHONPATH := tests
check-page: export PYTHONDONTWRITEBYTECODE := 1
check-page: all web
	node --test tests/web/core.test.mjs
	$(PYTHON) -m pytest -q -p no:cacheprovider -k word_for_word tests/web/test_page.py
	@$(PYTHON) -m trust.record check-page --title "The page beside the command" \
	    --rests-on "Every example and test vehicle with heat, beside the vehicle as it was where there is a file of it: words and verdicts of the first screen by the page's core in node, and as they stand on the page in headless Chromium, are the command's word for word; each number of every requirement, as JSON in node, within 1e-9." \
	    --not-covered "Papers but for one report, three plans and one drive; the page in other browsers (make check-browsers)." \
	    "on the page in headless Chromium=$(words $(PAGE_FILES)) of $(words $(PAGE_FILES)) vehicles" \
	    "first screen of its core in node=$(words $(PAGE_FILES)) of $(words $(PAGE_FILES)) vehicles" \
	    "every number of its core in node=$(words $(PAGE_FILES)) of $(words $(PAGE_FILES)) vehicles"

# 99: no status of stopmargin or pytest.
check-sanitize:
	ASAN_OPTIONS=detect_leaks=1:detect_stack_use_after_return=1:exitcode=99 \
	UBSAN_OPTIONS=print_stacktrace=1:exitcode=99 \
	LSAN_OPTIONS=suppressions=$(CURDIR)/tests/lsan.supp:print_suppressions=0 \
	$(MAKE) --no-print-directory check BUILD=build/sanitize \
	    PYTEST_FOLDERS='$(filter-out $(PLAIN_ONLY),$(PYTEST_FOLDERS))' \
	    CFLAGS='-O1 -g -fno-omit-frame-pointer' \
	    INSTRUMENT='-fsanitize=address,undefined -fno-sanitize-recover=all'
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m trust.record check-sanitize --title "Tests under the sanitizers" \
	    --rests-on "Address and undefined-behaviour sanitizers ($(CC), -O1), leaks and the use of a stack that is gone too; seeds of the fuzz targets among the C tests." \
	    --not-covered "Memory read before it was set (make check-valgrind); races (make check-threads); the Python package (make check-sanitize-python)." \
	    "C test programs=$(words $(TESTS) $(FUZZ_PROGRAMS)) of $(words $(TESTS) $(FUZZ_PROGRAMS)) without a fault" \
	    "folders of Python tests=$(or $(strip $(filter-out $(PLAIN_ONLY),$(PYTEST_FOLDERS))),none in this run)"

# Races between threads, by clang: its OpenMP tells of its barriers.
.PHONY: check-threads threads-programs
threads-programs: $(PROGRAM) $(filter $(addprefix $(BUILD)/tests/,study/% answer/% locale/%),$(TESTS))
check-threads:
	$(MAKE) --no-print-directory threads-programs CC=clang BUILD=$(BUILD)/threads \
	    CFLAGS='-O1 -g -fno-omit-frame-pointer' INSTRUMENT=-fsanitize=thread
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m threads $(BUILD)/threads

# The Python package, its C with sanitizers: their runtime must come first, and what Python never gives
# back looks like a leak. Import times and installed copies are left to the plain build.
SANITIZED := $(abspath $(BUILD))/sanitize-python
check-sanitize-python: export ASAN_OPTIONS := detect_leaks=0:exitcode=99
check-sanitize-python: export UBSAN_OPTIONS := print_stacktrace=1:exitcode=99
check-sanitize-python: all
	@rm -rf $(SANITIZED)
	preload="$$($(CC) -print-file-name=libasan.so) $$($(CC) -print-file-name=libubsan.so)"; \
	(cd bindings/python && LD_PRELOAD="$$preload" LDFLAGS=-fsanitize=address,undefined \
	    CFLAGS='-O1 -g -fsanitize=address,undefined -fno-sanitize-recover=undefined' \
	    $(PYTHON) setup.py -q build --build-base $(SANITIZED)/objects \
	    --build-lib $(SANITIZED)/python --build-temp $(SANITIZED)/objects) && \
	LD_PRELOAD="$$preload" LIBBRAKE_BUILD=$(SANITIZED) STOPMARGIN=$(abspath $(PROGRAM)) \
	    PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m pytest -q -p no:cacheprovider \
	    $(filter-out %/test_package.py %/test_examples.py %/test_licences.py,$(wildcard tests/python/test_*.py))

# What the answers of each verb are as JSON, from the tables and from answers.
schema: all $(BUILD)/tests/schema-driver
	@STOPMARGIN=$(abspath $(BUILD)/stopmargin) LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests \
	    PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m schema

# Pages that are made of the tables and of runs; the guide's answers and pictures among them.
reference: all
	@STOPMARGIN=$(abspath $(BUILD)/stopmargin) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m reference

# What the targets that measure have left in $(BUILD)/trust, taken into reference/trust; the page of it.
trust:
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m trust

# What is read: the guide with what stands behind it as one page, the C API, the Python package.
docs: $(PACKAGE)
	@mkdir -p $(BUILD)/docs/c $(BUILD)/docs/python
	@PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m reference.book $(abspath $(BUILD)/docs/guide.html)
	@(cat reference/Doxyfile; echo 'OUTPUT_DIRECTORY = $(BUILD)/docs/c') | doxygen -
	@cd $(BUILD)/docs/python && PYTHONPATH=$(abspath $(BUILD)/python) $(PYTHON) -m pydoc -w $(abspath $(BUILD)/python)/ >/dev/null
	@echo 'docs $(BUILD)/docs/c/html/index.html'; echo 'docs $(BUILD)/docs/python/libbrake.html'

# Vehicles cold, and whole duties, against a second solver: some minutes.
oracle: all $(DRIVER_PROGRAMS)
	ORACLE_CASES=10000 DUTY_CASES=54 LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m pytest -q -p no:cacheprovider tests/oracle/test_oracle.py tests/oracle/test_duty.py

# Runs that write a file, ended at any moment: a minute.
check-kill: all
	KILLS=300 STOPMARGIN=$(abspath $(BUILD)/stopmargin) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m pytest -q -p no:cacheprovider tests/command/test_kill.py

# COUNT small faults of each layer, drawn by SEED, one at a time: do the tests find them? Some seconds each.
LAYER ?= model vehicle criteria study
COUNT ?= 20
SEED ?= 1
mutate:
	@set -e; for layer in $(LAYER); do \
	    LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	        nice $(PYTHON) -m mutation --layer $$layer \
	        --count $(COUNT) --seed $(SEED) --folder $(BUILD)/mutate --compiler $(CC) \
	        --flags '$(LANGUAGE)'; \
	done

# Random vehicles alone and side by side, by long steps and short: some minutes.
check-company: $(BUILD)/tests/study/test_company
	VEHICLES=10000 $<

check-valgrind: WRAPPER := valgrind --quiet --error-exitcode=99 --leak-check=full \
    --suppressions=$(CURDIR)/tests/valgrind.supp
check-valgrind: $(TESTS) $(FUZZ_PROGRAMS)
	@$(RUN_TESTS) $(TESTS) $(FUZZ_PROGRAMS)

# Any bytes at all, SECONDS for each target in TARGETS: those of tests/fuzz, and `arguments` of Python;
# fewer when it found no new edge for QUIET of them. Comparisons are not traced: in the many loops over
# numbers that took three quarters of the time, and found fewer edges in the same.
SECONDS ?= 60
TARGETS ?=
QUIET ?=
FUZZ_BUILD := $(BUILD)/fuzz
fuzz fuzz-keep: export ASAN_OPTIONS := detect_leaks=1:allocator_may_return_null=1
fuzz-keep: FUZZ_KEEP := --keep
fuzz fuzz-keep:
	@$(MAKE) --no-print-directory fuzz-programs CC=clang BUILD=$(FUZZ_BUILD) FUZZER= \
	    CFLAGS='-O1 -g -fno-omit-frame-pointer' FUZZ_LINK=-fsanitize=fuzzer \
	    INSTRUMENT='-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all'
	@OMP_NUM_THREADS=1 LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m fuzz --seconds $(SECONDS) $(if $(QUIET),--quiet $(QUIET)) $(FUZZ_KEEP) $(TARGETS)

fuzz-programs: $(FUZZ_PROGRAMS)

# What linked programs rely on is read from a build with debug information.
ABI_LIBRARY := $(BUILD)/abi/libbrake.so
.PHONY: abi abi-library
abi-library:
	$(Q)$(MAKE) --no-print-directory BUILD=$(BUILD)/abi CFLAGS='-O0 -g' $(ABI_LIBRARY)

abi: abi-library
	@PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m lint.abi $(ABI_LIBRARY)

lint: all abi-library
	@PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m lint --build $(BUILD) \
	    --flags '$(LANGUAGE) $(WARNINGS) -Werror' $(LIBRARY) $(COMMAND)

# On arm64 a compiler takes other ways, and has other faults.
ARM64_CC := aarch64-linux-gnu-gcc
check-arm64:
	@if command -v $(ARM64_CC) >/dev/null; then \
	    $(MAKE) --no-print-directory compiled CC=$(ARM64_CC) BUILD=$(BUILD)/arm64 \
	        CFLAGS='$(CFLAGS) -Werror' && \
	    echo 'check-arm64: $(words $(LIBRARY) $(COMMAND)) sources compiled'; \
	else \
	    echo 'check-arm64: skipped, there is no $(ARM64_CC);' \
	        'install the packages gcc-aarch64-linux-gnu and libc6-dev-arm64-cross'; \
	fi

compiled: $(call object,$(LIBRARY) $(COMMAND))

# Every compiler and machine that can be had here; ROOT: a root of Debian 13.
# PORTS='gcc-12 s390x': some of them. As root; some hours in all.
.PHONY: check-ports program programs portable
program: $(PROGRAM)
programs: $(PROGRAM) $(TESTS)
# Without open_memstream of POSIX.
portable: $(call object,$(filter-out %/document.c %/carry.c,$(LIBRARY)))
check-ports: all
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 \
	    $(PYTHON) -m ports --build $(abspath $(BUILD)) $(if $(ROOT),--root $(abspath $(ROOT))) $(PORTS)

# Needs the package frama-c-base and some 70 s.
prove:
	@mkdir -p $(BUILD)
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m prove

# By clang, whose counts are of the source: optimised, the tests take a fifth of their time. Counts of
# several threads would get in one another's way, even of the threads that a test asks for by itself;
# atomic ones take ten times as long.
coverage: export OMP_NUM_THREADS := 1
coverage: export OMP_THREAD_LIMIT := 1
coverage: export KMP_WARNINGS := 0
coverage: export LLVM_PROFILE_FILE = $(CURDIR)/build/coverage/profile/%4m.profraw
coverage:
	@rm -rf build/coverage/profile
	$(MAKE) --no-print-directory check CC=clang BUILD=build/coverage \
	    CFLAGS='-O2 -fno-math-errno -fno-trapping-math' \
	    INSTRUMENT='-fprofile-instr-generate -fcoverage-mapping' \
	    PYTEST_FOLDERS='$(filter-out $(PLAIN_ONLY),$(PYTEST_FOLDERS))'
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) $(PYTHON) tests/coverage.py build/coverage

bench: all $(BENCH_PROGRAMS) $(PACKAGE) web
	@set -e; for bench in $(filter-out %_helper,$(BENCH_PROGRAMS)) $(wildcard tests/bench/*.py); do \
	    LIBBRAKE_BUILD=$(BUILD) $$bench; done
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) node tests/bench/web.mjs

# Packages of Debian

APT_GET := $(if $(filter-out 0,$(shell id -u)),sudo )env DEBIAN_FRONTEND=noninteractive apt-get
GET_NPM = npm install --silent --no-audit --no-fund --no-save --prefix $(BUILD)/npm $(NPM_PACKAGES) || \
    echo 'deps: without npm or its registry there is no $(NPM_PACKAGES); its tests are skipped'
deps-core: INSTALL_PACKAGES := $(CORE_PACKAGES)
deps: INSTALL_PACKAGES := $(PACKAGES)
deps-browsers: INSTALL_PACKAGES := $(BROWSER_PACKAGES)
deps-core deps deps-browsers:
	$(APT_GET) update
	$(APT_GET) install -y --no-install-recommends $(INSTALL_PACKAGES)
	$(if $(filter deps,$@),$(GET_NPM))

# Installing

TO_BIN := $(DESTDIR)$(BINDIR)
TO_LIB := $(DESTDIR)$(LIBDIR)
TO_CMAKE := $(TO_LIB)/cmake/libbrake
TO_INCLUDE := $(DESTDIR)$(INCLUDEDIR)/brake
TO_DOC := $(DESTDIR)$(DOCDIR)
TO_MAN := $(DESTDIR)$(MANDIR)/man1
TO_BASH := $(DESTDIR)$(BASHDIR)

# The pkg-config file names no place, only ways from its own: an installed tree can be moved.
install: all
	install -d "$(TO_BIN)" "$(TO_INCLUDE)" "$(TO_LIB)/pkgconfig" "$(TO_CMAKE)" "$(TO_DOC)/schema"
	install -m 644 $(HEADERS) "$(TO_INCLUDE)"
	install -m 644 $(BUILD)/libbrake.a "$(TO_LIB)"
	install -m 755 $(SHARED) "$(TO_LIB)"
	ln -sf $(notdir $(SHARED)) "$(TO_LIB)/$(SONAME)"
	ln -sf $(SONAME) "$(TO_LIB)/libbrake.so"
	sed "s|@INCLUDEDIR@|$$(realpath -m --relative-to="$(LIBDIR)/pkgconfig" "$(INCLUDEDIR)")|" \
	    $(BUILD)/libbrake.pc >"$(TO_LIB)/pkgconfig/libbrake.pc"
	chmod 644 "$(TO_LIB)/pkgconfig/libbrake.pc"
	sed "s|@INCLUDEDIR@|$$(realpath -m --relative-to="$(LIBDIR)/cmake/libbrake" "$(INCLUDEDIR)")|" \
	    libbrake/libbrake-config.cmake.in >"$(TO_CMAKE)/libbrake-config.cmake"
	sed 's|@VERSION@|$(VERSION)|' libbrake/libbrake-config-version.cmake.in \
	    >"$(TO_CMAKE)/libbrake-config-version.cmake"
	chmod 644 "$(TO_CMAKE)"/*.cmake
	install -m 644 LICENSE NOTICE "$(TO_DOC)"
	install -m 644 reference/schema/*.json "$(TO_DOC)/schema"
	$(if $(PROGRAM),install -m 755 $(PROGRAM) "$(TO_BIN)")
	$(if $(PROGRAM),install -D -m 644 $(PROGRAM).1 "$(TO_MAN)/stopmargin.1")
	$(if $(PROGRAM),install -D -m 644 $(PROGRAM).bash "$(TO_BASH)/stopmargin")
	$(if $(DESTDIR),,-ldconfig)

uninstall:
	rm -f "$(TO_BIN)/stopmargin" "$(TO_MAN)/stopmargin.1" "$(TO_BASH)/stopmargin" "$(TO_LIB)/pkgconfig/libbrake.pc" "$(TO_LIB)/libbrake.a" \
	    "$(TO_LIB)/libbrake.so" "$(TO_LIB)/$(SONAME)" "$(TO_LIB)/$(notdir $(SHARED))"
	rm -rf "$(TO_INCLUDE)" "$(TO_CMAKE)" "$(TO_DOC)"

# Packages: the archive of the sources that git has, and of it what Debian installs.

NAME := libbrake-$(VERSION)
DIST := $(BUILD)/$(NAME).tar.gz
DEB := $(BUILD)/deb
dist:
	@mkdir -p $(BUILD)
	@git archive --format=tar --prefix=$(NAME)/ HEAD | gzip -n >$(DIST)
	@echo 'dist $(DIST)'

deb: dist
	@rm -rf $(DEB) && mkdir -p $(DEB)
	@cp $(DIST) $(DEB)/libbrake_$(VERSION).orig.tar.gz
	@tar -xf $(DIST) -C $(DEB) && cp -r bindings/debian $(DEB)/$(NAME)/debian
	@cd $(DEB)/$(NAME) && dpkg-buildpackage --build=full --unsigned-source --unsigned-changes
	@cd $(DEB) && lintian --fail-on error --profile debian libbrake_$(VERSION)-*_$$(dpkg --print-architecture).changes
	@ls $(DEB)/*.deb

# Each package in an empty root of Debian, installed and used: as root, needs the network.
check-deb: deb
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHON=$(PYTHON) tests/install/empty-root $(abspath $(DEB))

# Built in two folders, the bytes compared.
.PHONY: reproducible
reproducible:
	@LIBBRAKE_BUILD=$(abspath $(BUILD)) PYTHON=$(PYTHON) tests/install/reproducible

# Wheels for this machine and for arm64, each held to what it may need, installed and used.
.PHONY: wheels
wheels: $(PACKAGE)
	@tests/install/wheels $(abspath $(BUILD))

format:
	clang-format -i $(HEADERS) $(wildcard libbrake/*/*.[ch] tests/*/*.[ch] bindings/python/*.[ch] bindings/web/*.[ch])
	@PYTHONPATH=tests PYTHONDONTWRITEBYTECODE=1 $(PYTHON) -m lint.licences

clean:
	rm -rf build

help:
	@echo 'all             the program, both libraries and the pkg-config file, in build/'
	@echo 'web             the page, one file that needs no network: build/stopmargin.html'
	@echo 'check           every test'
	@echo 'check-sanitize  every test under the address and undefined-behaviour sanitizers'
	@echo 'check-sanitize-python  those of the Python package, its C under them'
	@echo 'check-threads   races between threads: C tests and verbs under ThreadSanitizer (clang)'
	@echo 'oracle          10,000 vehicles and 54 whole duties against a second solver (check takes 3,000 and 18)'
	@echo 'check-kill      300 runs of each verb that writes a file, ended at any moment (check takes 40)'
	@echo 'check-company   fade procedures of 10,000 random vehicles, alone and side by side (check takes 48)'
	@echo 'check-page      every vehicle with heat: the page in node and Chromium as the command (check takes one)'
	@echo 'check-valgrind  the C tests under valgrind'
	@echo 'fuzz            any bytes at all: SECONDS (60) for each of TARGETS; fewer, QUIET of them without a new edge'
	@echo 'fuzz-keep       the fewest bytes that reach every edge found in build/, into tests/fuzz/found: it goes on from there'
	@echo 'check-arm64     every source compiled for arm64, by a cross compiler'
	@echo 'check-allocation  each of the first ALLOCATIONS (2000) allocations fails in turn'
	@echo 'lint            warnings of two compilers, static analysis, measurements of the code'
	@echo 'abi             write reference/abi.txt anew: what programs linked with the library rely on'
	@echo 'reference       write anew what is made in reference: lists, guide'
	@echo 'trust           write reference/trust.md anew, from what the targets have measured'
	@echo 'dist deb        the archive of the sources; packages of Debian made of it'
	@echo 'check-deb       those packages, installed and used in an empty root (as root, by debootstrap)'
	@echo 'reproducible    built in two folders, the bytes compared'
	@echo 'wheels          the Python package for amd64 and arm64, installed and used'
	@echo 'check-ports     compilers, machines and C libraries: C tests and answers; some hours, as root'
	@echo 'docs            the guide as one page, the C and the Python interface'
	@echo 'schema          write reference/schema anew: the form of every answer as JSON'
	@echo 'prove           abstract interpretation of the physics (not part of check)'
	@echo 'mutate          COUNT ($(COUNT)) small faults of each LAYER, drawn by SEED: do the tests find them?'
	@echo 'coverage        lines and conditions that the tests reach'
	@echo 'bench           speed and size'
	@echo 'check-browsers  the page in the other browsers of Debian (deps-browsers)'
	@echo 'deps-core deps  install what building needs; what testing needs too'
	@echo 'install         below PREFIX ($(PREFIX)), staged in DESTDIR; uninstall takes it away'
	@echo 'format          lay the sources out by .clang-format'
	@echo 'clean           remove build/'
