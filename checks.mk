# Checks that take long or need tools beside those of `make deps`; none is part
# of `make test`. Each says what it needs where that is missing.
#
#   make fuzz SECONDS=60   each fuzz target for so long (clang-16)
#   make fuzz-checked      what it learned under the checks of the compiler, and
#                          on from there (SECONDS)
#   make fuzz-table        what all its runs came to
#   make fuzz-merge        the least of what it learned into tests/fuzz/corpus
#   make lint              clang-tidy-16 over src, bench and tests
#   make coverage          share of the lines of src that the tests run (gcovr)
#   make valgrind          the demo build under valgrind
#   make kill-test         builds killed at random moments (KILLS=200, SEED=1)
#   make print-test        make print through CUPS to an IPP printer (root)
#   make pdfjs             the packets as a web browser reads them (npm)
#   make readers           every kind of sheet in six readers of other makers,
#                          Chromium as the seventh (npm, ghostscript, chromium)
#   make undefined         the tests with every check for undefined behaviour
#   make memory-test       builds with too little memory
#   make fault-test        the verbs with a fault at every call of the system and
#                          at every allocation of one lesson (SAMPLES=100 for
#                          some of each; BUILD=build-debug under the sanitizers)
#   make name-test         no message shows a name (RUNS=10000)
#   make bounds            every verb at its limits: seconds and memory
#   make page-fill         pages of ten weeks, those blank or under half full
#                          (LAYOUT=week, PAPER=letter)
#   make calibrate         simulated learners: how often the rules for secure
#                          and check again are right
#   make calibrate-placement  the same for the step that `place` names
#   make term-test         a term of 18 invented learners, each number counted
#                          again by a second program
#   make threads           lessons, a class and marks on four threads, under the
#                          thread checks of the compiler

SECONDS := 60
FUZZ := build-fuzz
FUZZ_CHECKED := build-fuzz-checked
LINT := build-lint
COVERAGE := build-coverage
UNDEFINED := build-undefined
THREADS := build-threads

.PHONY: page-fill fuzz fuzz-checked fuzz-table fuzz-merge
.PHONY: lint coverage valgrind kill-test memory-test fault-test undefined print-test pdfjs readers threads calibrate \
  calibrate-placement term-test name-test bounds

LAYOUT := week
page-fill: $(BUILT)
	cmake --build $(BUILD) --target page_fill
	$(BUILD)/tests/page_fill $(LAYOUT) $(or $(PAPER),letter)

need = command -v $(1) >/dev/null || \
  { echo "This check needs $(1): apt-get install $(2)"; exit 1; }

# One after the other, each for SECONDS; a line for each, and see the head of
# tests/fuzz/run.sh. TARGETS="lesson record" runs those alone. Asserts are on.
# What is learned without the checks of the compiler, which is several times as
# fast, is read under them by fuzz-checked, which then goes on from there.
TARGETS :=
FUZZ_PROGRAMS = $(patsubst tests/fuzz/fuzz_%.cpp,fuzz_%, \
  $(wildcard tests/fuzz/fuzz_*.cpp))
$(FUZZ)/.built: FUZZ_FLAGS := "-DCMAKE_CXX_FLAGS_RELEASE=-O2 -g1" \
  -DSHEAF_HARDEN=OFF
$(FUZZ_CHECKED)/.built: FUZZ_FLAGS := "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -g1" \
  -DSHEAF_SANITIZE=ON
$(FUZZ)/.built $(FUZZ_CHECKED)/.built: %/.built: \
  $(BUILT) $(wildcard tests/fuzz/*.*)
	@$(call need,clang++-16,clang-16 libclang-rt-16-dev)
	@[ -f $*/build.ninja ] || cmake -S . -B $* -G Ninja \
	  -DCMAKE_CXX_COMPILER=clang++-16 -DCMAKE_BUILD_TYPE=Release \
	  -DSHEAF_WORD_LIST_MADE=$(CURDIR)/$(BUILD)/share/sheaf/phonics.bin \
	  -DSHEAF_FUZZ=ON -DSHEAF_PRECOMPILE=OFF $(FUZZ_FLAGS)
	cmake --build $(BUILD) --target sheaf_word_list
	cmake --build $* --target fuzz_inputs $(FUZZ_PROGRAMS)
	@touch $@

fuzz: $(FUZZ)/.built
	nice -n 19 tests/fuzz/run.sh $(FUZZ) $(SECONDS) $(TARGETS)

fuzz-checked: $(FUZZ_CHECKED)/.built
	WORK=$(FUZZ)/work nice -n 19 tests/fuzz/run.sh $(FUZZ_CHECKED) \
	  $(SECONDS) $(TARGETS)

fuzz-table:
	@tests/fuzz/table.sh $(FUZZ)

# What runs have learned, the least of it that covers as much, joins the corpus
# that the tests replay. Inputs that take long stay out of it.
fuzz-merge: $(FUZZ)/.built
	@for kind in $(or $(TARGETS),$(notdir $(wildcard tests/fuzz/corpus/*))); do \
	  tests/fuzz/merge.sh $(FUZZ) $$kind || exit 1; done; \
	du -sh tests/fuzz/corpus

# Each file is linted as it is compiled: one that was clean is not read again
# before it, or what it includes, changes. The first run takes over an hour.
$(LINT)/build.ninja: .clang-tidy tests/.clang-tidy
	@$(call need,clang-tidy-16,clang-tidy-16)
	rm -rf $(LINT)
	cmake -S . -B $(LINT) -G Ninja -DCMAKE_BUILD_TYPE=Debug \
	  -DCMAKE_CXX_FLAGS_DEBUG=-O0 -DSHEAF_PRECOMPILE=OFF \
	  "-DCMAKE_CXX_CLANG_TIDY=clang-tidy-16;-quiet" >/dev/null

lint: $(LINT)/build.ninja
	cmake --build $(LINT) -j 2 --target all sheaf_bench sheaf_bench_phonics \
	  sheaf_bench_pdf sheaf_kills -- -k 0

# Compiling the word list counts as well: its program runs at build time. The
# tests of full disks are left out: the counts themselves would not be written.
coverage:
	@$(call need,gcovr,gcovr)
	@[ -f $(COVERAGE)/build.ninja ] || cmake -S . -B $(COVERAGE) -G Ninja \
	  -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG="-O0 --coverage -DSHEAF_COVERAGE" \
	  -DSHEAF_PRECOMPILE=OFF
	@find $(COVERAGE) -name '*.gcda' -delete
	@rm -f $(COVERAGE)/share/sheaf/phonics.bin
	cmake --build $(COVERAGE)
	GTEST_FILTER=-Keeping.OutlastsAFullDisk:Keeping.SaysThat* \
	  ctest --test-dir $(COVERAGE) -j2
	gcovr -r . --filter src/ --object-directory $(COVERAGE) \
	  --exclude-throw-branches --print-summary --output $(COVERAGE)/lines.txt
	@tail -n 12 $(COVERAGE)/lines.txt

valgrind: $(BUILT)
	@$(call need,valgrind,valgrind libc6-dbg)
	rm -rf $(BUILD)/valgrind
	valgrind -q --error-exitcode=9 --leak-check=full \
	  --errors-for-leak-kinds=definite $(SHEAF) build lessons --no-sandbox \
	  --out $(BUILD)/valgrind

KILLS := 200
SEED := 1
kill-test: $(BUILT)
	cmake --build $(BUILD) --target sheaf_kills
	$(BUILD)/tests/sheaf_kills $(SHEAF) lessons/ai-ay-rain.yaml \
	  lessons/class.yaml $(KILLS) $(SEED)

# Tables of every rule that was tried; fails if the one in use does not keep its
# limits. LEARNERS of each kind.
LEARNERS := 1000
calibrate: $(BUILT)
	cmake --build $(BUILD) --target sheaf_calibrate
	$(BUILD)/bench/sheaf_calibrate $(BUILD)/share/sheaf/phonics.bin $(LEARNERS)

# How often `place` names the right step; fails if it does not keep its limits.
NEWCOMERS := 100
calibrate-placement: $(BUILT)
	cmake --build $(BUILD) --target sheaf_calibrate_placement
	$(BUILD)/bench/sheaf_calibrate_placement $(BUILD)/share/sheaf $(NEWCOMERS) \
	  lessons/year/sequence.yaml lessons/second-year/sequence.yaml

# The term in tests/term, and as many others as TERMS says.
TERMS := 40
term-test: $(BUILT)
	cmake --build $(BUILD) --target test_term
	SHEAF_TERMS=$(TERMS) $(BUILD)/tests/test_term

# A name in broken files of every kind that is about learners; the tests do a
# tenth of it. SHEAF_NAME_LOG=FILE lists the runs that show it.
RUNS := 10000
name-test: $(BUILT)
	cmake --build $(BUILD) --target test_names
	SHEAF_NAME_RUNS=$(RUNS) SHEAF_NAME_FIRST=$(or $(FIRST),1) \
	  $(BUILD)/tests/test_names

# Every verb with files at the limits that Sheaf states: seconds and memory.
bounds: $(BUILT)
	cmake --build $(BUILD) --target sheaf_bounds
	$(BUILD)/bench/sheaf_bounds $(SHEAF) src/data $(PART)

# Lessons and a class, in ever more memory.
STEP := 32
memory-test: $(BUILT)
	@run="sh tests/strain/memory.sh $(SHEAF) $(STEP)"; \
	$$run build lessons/ai-ay-rain.yaml && \
	$$run build --class lessons/class.yaml

# A table of points and of what came of them; fails where a run ended as none
# may. Failures are printed above their row.
SAMPLES := 0
SCENES :=
fault-test: $(BUILT)
	cmake --build $(BUILD) --target sheaf_faults
	$(BUILD)/tests/sheaf_faults --samples $(SAMPLES) --only "$(SCENES)"

# The debug preset leaves out what is slow to compile (null, alignment, vptr).
undefined:
	@[ -f $(UNDEFINED)/build.ninja ] || cmake -S . -B $(UNDEFINED) -G Ninja \
	  -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG="-O1 -g1 \
	  -fsanitize=undefined -fno-sanitize-recover=all"
	cmake --build $(UNDEFINED)
	ctest --test-dir $(UNDEFINED) --output-on-failure -j2

# A packet through CUPS to a printer, all on loopback.
print-test: $(BUILT)
	sh tests/strain/print.sh sh-ship

# What a web browser and poppler read, on samples and on the demo packets.
pdfjs: all
	@$(call need,npm,npm)
	cmake --build $(BUILD) --target pdfjs-check
	find out -mindepth 2 -maxdepth 2 -name '*.pdf' -exec \
	  sh tests/pdfjs/packets.sh $(BUILD)/tests/pdfjs/reading_order.mjs {} +

# Every sheet must open without a message. Chromium is used where it is
# installed (apt-get install chromium).
READERS := $(BUILD)/tests/readers
readers: $(BUILT)
	@$(call need,npm,npm)
	@$(call need,gs,ghostscript)
	@$(call need,mutool,mupdf-tools)
	@$(call need,pdftoppm,poppler-utils)
	@$(call need,qpdf,qpdf)
	@mkdir -p $(READERS)
	@cp tests/readers/open.mjs $(READERS)/
	@cp tests/readers/open_package.json $(READERS)/package.json
	npm install --prefix $(READERS) --no-audit --no-fund --silent
	sh tests/readers/open.sh $(SHEAF) $(READERS)

# What the checks cannot see into (libraries that were not built with them) is
# named in the list of exceptions, with the reason.
threads:
	@[ -f $(THREADS)/build.ninja ] || cmake -S . -B $(THREADS) -G Ninja \
	  -DCMAKE_BUILD_TYPE=Release -DSHEAF_PRECOMPILE=OFF -DSHEAF_TESTS=ON \
	  "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -g1 -fsanitize=thread"
	cmake --build $(THREADS) --target sheaf sheaf_word_list test_base
	@export TSAN_OPTIONS="suppressions=$(CURDIR)/tests/threads.supp"; set -e; \
	echo "the pool"; $(THREADS)/tests/test_base --gtest_filter='Pool.*' -q; \
	echo "lessons and a class"; \
	$(THREADS)/sheaf build lessons/year lessons --jobs 4 \
	  --out $(THREADS)/out >/dev/null 2>$(THREADS)/said; \
	$(THREADS)/sheaf build --class lessons/class.yaml --jobs 4 \
	  --out $(THREADS)/out >/dev/null 2>>$(THREADS)/said; \
	echo "check"; \
	$(THREADS)/sheaf check lessons/year/*-*.yaml --jobs 4 \
	  >/dev/null 2>>$(THREADS)/said; \
	echo "mark"; \
	$(THREADS)/sheaf mark lessons/demo-term/records --jobs 4 \
	  >/dev/null 2>>$(THREADS)/said; \
	! grep -A20 ThreadSanitizer $(THREADS)/said
