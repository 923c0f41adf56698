# Sheaf: the commands for every day. CMakeLists.txt is the build; this file is
# only a front for it.
#
#   make deps              install what is needed (Debian; sudo unless root)
#   make                   build the program, then a packet for each lesson
#                          and for each learner of a class
#   make YEAR=1            the packets of the 36 lessons in lessons/year/ too
#   make test              build and run every test
#   make format            write all sources in the style that the tests ask for
#   make demo-term         an invented term: packets, marks, progress, a plan
#   make print LESSON=x    send the packet of lessons/x.yaml to the printer
#                          (DRY=1 shows the command, PRINTER=name picks one)
#   make bench             speed, as ratios; never part of the tests
#   make install           put Sheaf in place for all (PREFIX=/usr/local; root)
#   make deb               a Debian package: out/sheaf_VERSION_ARCH.deb
#   make gallery           every sheet in every layout, as pictures
#   make guide             the teacher's guide as pages for a browser: out/guide
#   make web               the edition for browsers: out/web (after make web-deps;
#                          web.mk and web/page.mk have the rest)
#   make clean             remove what was built

BUILD := build
PAPER :=
SHEAF := $(BUILD)/sheaf
BUILT := $(BUILD)/.built
# YEAR=1 makes the packets of lessons/year/ too, into out/year/.
YEAR :=

# No lesson's file name stands in this file, nor in what it lets a shell read:
# Sheaf is given the folder. A name may then hold blanks, quotes or dollars.
PAPER_OPTION := $(if $(PAPER),--paper '$(PAPER)')

BUILD_PACKAGES := g++ make cmake ninja-build pkg-config libhpdf-dev \
  libyaml-cpp-dev libharfbuzz-dev libfreetype-dev libpng-dev \
  libjpeg62-turbo-dev libdeflate-dev libfmt-dev libcli11-dev \
  nlohmann-json3-dev libutf8proc-dev libevent-dev libgtest-dev libbenchmark-dev \
  festlex-cmu scowl wordnet-base
TEST_PACKAGES := qpdf libqpdf-dev zlib1g-dev poppler-utils mupdf-tools \
  ghostscript cmark-gfm \
  espeak-ng espeak-ng-data wamerican dpkg-dev clang-format
PACKAGES := $(BUILD_PACKAGES) $(TEST_PACKAGES)

.PHONY: all test deps print bench gallery guide schemas clean demo-term \
  install deb format
.DELETE_ON_ERROR:

# What is up to date is left as it is; a lesson with errors stops no other.
all: $(SHEAF)
	@status=0; \
	$(SHEAF) build lessons $(PAPER_OPTION) || status=$$?; \
	$(if $(YEAR),$(SHEAF) build lessons/year --out out/year $(PAPER_OPTION) \
	  || status=$$?;) \
	exit $$status

# ---- the program -----------------------------------------------------------
# One stamp for everything that CMake builds for use. It is made again when a
# source is newer; whether the program itself changed is for CMake to say.
SOURCES := CMakeLists.txt $(shell find src -type f)

$(BUILT): $(SOURCES)
	@command -v cmake ninja c++ >/dev/null || \
	  { echo "A tool to build Sheaf is missing: run make deps"; exit 1; }
	@[ -f $(BUILD)/build.ninja ] || cmake --preset release -B $(BUILD) || \
	  { echo; echo "Something is missing: run make deps"; exit 1; }
	cmake --build $(BUILD) --target sheaf
	@touch $@

$(SHEAF) $(BUILD)/share/sheaf/phonics.bin: $(BUILT) ;

# ---- an invented term ------------------------------------------------------
# Five learners over ten weeks: every packet, the marks, a page for each learner
# and the group, what one of them wrote, and the plan for the week after.
TERM := lessons/demo-term
TERM_OUT := out/demo-term
TERM_NEXT := 2026-11-16

demo-term: $(SHEAF)
	@mkdir -p $(TERM_OUT)
	$(SHEAF) build $(TERM) --out $(TERM_OUT)/packets
	$(SHEAF) mark $(TERM)/records --pdf $(TERM_OUT)/marks.pdf \
	  >$(TERM_OUT)/marks.txt
	$(SHEAF) writing $(TERM)/journal-C3.txt --learner C3 \
	  --sequence $(TERM)/term-sequence.yaml >$(TERM_OUT)/journal-C3.txt
	$(SHEAF) build $(TERM)/probes --out $(TERM_OUT)/probes
	$(SHEAF) progress $(TERM)/records $(TERM)/probe-records \
	  --pdf $(TERM_OUT)/progress.pdf >$(TERM_OUT)/progress.txt
	$(SHEAF) progress $(TERM)/records $(TERM)/probe-records --for home \
	  --pdf $(TERM_OUT)/home.pdf >$(TERM_OUT)/home.txt
	$(SHEAF) progress $(TERM)/records $(TERM)/probe-records --for meeting \
	  --pdf $(TERM_OUT)/meeting.pdf >$(TERM_OUT)/meeting.txt
	$(SHEAF) review --class $(TERM)/class.yaml --records $(TERM)/records \
	  --week $(TERM_NEXT) --out $(TERM_OUT)/plan | tee $(TERM_OUT)/plan.txt
	$(SHEAF) build $(TERM_OUT)/plan/check-$(TERM_NEXT).yaml \
	  --out $(TERM_OUT)/plan
	$(SHEAF) build $(TERM)/week-11-oo.yaml \
	  --class $(TERM_OUT)/plan/class-$(TERM_NEXT).yaml --out $(TERM_OUT)/plan

# ---- tests and speed -------------------------------------------------------
test:
	@command -v cmake ninja c++ ctest >/dev/null || \
	  { echo "A tool to build Sheaf is missing: run make deps"; exit 1; }
	@[ -f $(BUILD)/build.ninja ] || cmake --preset release -B $(BUILD) || \
	  { echo; echo "Something is missing: run make deps"; exit 1; }
	@for tool in qpdf pdftotext mutool espeak-ng clang-format cmark-gfm; do \
	  command -v $$tool >/dev/null || \
	    { echo "The tests need $$tool: run make deps"; exit 1; }; done
	@find $(FORMATTED) -name '*.cpp' -o -name '*.h' | \
	  xargs clang-format --dry-run -Werror || \
	  { echo "Not in the style of the sources: run make format"; exit 1; }
	cmake --build $(BUILD)
	ctest --test-dir $(BUILD) --output-on-failure -j2

FORMATTED := src tests bench cmake
format:
	find $(FORMATTED) -name '*.cpp' -o -name '*.h' | xargs clang-format -i

bench: $(BUILT)
	cmake --build $(BUILD) --target sheaf_bench sheaf_bench_phonics \
	  sheaf_bench_pdf sheaf_bench_preview sheaf_bench_service
	$(BUILD)/bench/sheaf_bench $(SHEAF) lessons lessons/year
	$(BUILD)/bench/sheaf_bench_phonics $(BUILD)/share/sheaf/phonics.bin $(SHEAF)
	$(BUILD)/bench/sheaf_bench_service $(BUILD)/share/sheaf lessons/*.yaml
	$(BUILD)/tests/sheaf_bench_pdf
	$(BUILD)/bench/sheaf_bench_preview lessons
	@rm -f $(BUILD)/share/sheaf/phonics.bin
	@echo "The build step of the word list:"; \
	  time -p cmake --build $(BUILD) --target sheaf_word_list >/dev/null

# ---- what is needed --------------------------------------------------------
deps:
	@command -v apt-get >/dev/null || \
	  { echo "make deps needs Debian's apt-get; install the equivalents of:"; \
	    echo "  $(PACKAGES)"; exit 1; }
	@missing=""; for p in $(PACKAGES); do \
	  [ "$$(dpkg-query -W -f='$${Status}' $$p 2>/dev/null)" = \
	    "install ok installed" ] || missing="$$missing $$p"; done; \
	if [ -z "$$missing" ]; then \
	  echo "Everything that Sheaf needs is installed."; exit 0; fi; \
	if [ "$$(id -u)" = 0 ]; then sudo=""; else sudo=sudo; fi; \
	echo "Installing:$$missing"; \
	$$sudo apt-get update -q && \
	$$sudo env DEBIAN_FRONTEND=noninteractive \
	  apt-get install -q -y --no-install-recommends $$missing

# ---- for other machines ----------------------------------------------------
PREFIX := /usr/local

$(BUILD)/help/sheaf.1: $(BUILT)
	cmake --build $(BUILD) --target sheaf_help

# The guide goes with the program.
$(BUILD)/guide/index.html: $(BUILT) $(wildcard docs/guide/* tools/guide*)
	SHEAF=$(SHEAF) sh tools/guide.sh $(BUILD)/guide

install: $(BUILD)/help/sheaf.1 $(BUILD)/guide/index.html
	cmake --install $(BUILD) --prefix '$(PREFIX)'

deb: $(BUILD)/help/sheaf.1 $(BUILD)/guide/index.html
	@command -v dpkg-shlibdeps >/dev/null || \
	  { echo "The package needs dpkg-shlibdeps: run make deps"; exit 1; }
	@mkdir -p out
	cd $(BUILD) && cpack -B package >/dev/null
	cp $(BUILD)/package/*.deb out/
	@ls out/*.deb

# ---- paper -----------------------------------------------------------------
# The name goes to the script as it was typed: neither make nor a shell looks
# for anything in it.
export SHEAF_LESSON := $(value LESSON)
unexport LESSON
export SHEAF PAPER PRINTER DRY

print: $(SHEAF)
	@sh tools/print.sh

# ---- to look at ------------------------------------------------------------
# Every sheet in every layout on both papers, as pictures: out/gallery. The
# picture in README.md is made again as well.
gallery: $(BUILT)
	SHEAF=$(SHEAF) sh tools/gallery.sh out/gallery

# The teacher's guide, docs/guide and what the program says of itself.
guide: $(BUILT)
	SHEAF=$(SHEAF) sh tools/guide.sh out/guide

# What editors check files with, from the program's own tables.
schemas: $(BUILT)
	for kind in lesson layout class sequence record; do \
	  $(SHEAF) schema $$kind > schemas/$$kind.json || exit 1; done

include checks.mk
include web.mk

clean:
	rm -rf $(BUILD) $(FUZZ) $(FUZZ_CHECKED) $(LINT) $(COVERAGE) $(UNDEFINED) $(THREADS) out \
	  $(WEB_BUILT)
