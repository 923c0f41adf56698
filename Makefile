# Sheaf: the commands for every day. CMakeLists.txt is the build; this file is
# only a front for it.
#
#   make deps              install what is needed (Debian; sudo unless root)
#   make                   build the program, then a packet for each lesson
#   make YEAR=1            the packets of the 36 lessons in lessons/year/ too
#   make test              build and run every test
#   make print LESSON=x    send the packet of lessons/x.yaml to the printer
#                          (DRY=1 shows the command, PRINTER=name picks one)
#   make bench             speed, as ratios; never part of the tests
#   make clean             remove what was built

BUILD := build
PAPER :=
SHEAF := $(BUILD)/sheaf
BUILT := $(BUILD)/.built
# YEAR=1 makes the packets of lessons/year/ too, into out/year/.
YEAR :=
LESSONS := $(sort $(wildcard lessons/*.yaml))
PACKETS := $(LESSONS:lessons/%.yaml=out/%/packet.pdf)

BUILD_PACKAGES := g++ make cmake ninja-build pkg-config libhpdf-dev \
  libyaml-cpp-dev libharfbuzz-dev libfreetype-dev libpng-dev \
  libjpeg62-turbo-dev zlib1g-dev libfmt-dev libcli11-dev \
  nlohmann-json3-dev libutf8proc-dev libgtest-dev libbenchmark-dev \
  festlex-cmu scowl
TEST_PACKAGES := qpdf libqpdf-dev poppler-utils mupdf-tools espeak-ng \
  espeak-ng-data wamerican
PACKAGES := $(BUILD_PACKAGES) $(TEST_PACKAGES)

.PHONY: all test deps print bench clean
.DELETE_ON_ERROR:

all: $(PACKETS) $(if $(YEAR),year)

.PHONY: year
YEAR_LESSONS := $(filter-out %/sequence.yaml,$(sort \
  $(wildcard lessons/year/*.yaml)))
year: $(SHEAF)
	$(SHEAF) build $(YEAR_LESSONS) --out out/year \
	  $(if $(PAPER),--paper $(PAPER))

# ---- the program -----------------------------------------------------------
# One stamp for everything that CMake builds for use. It is made again when a
# source is newer; whether the program itself changed is for CMake to say, and
# only then are packets made again.
SOURCES := CMakeLists.txt $(shell find src -type f)

$(BUILT): $(SOURCES)
	@command -v cmake ninja c++ >/dev/null || \
	  { echo "A tool to build Sheaf is missing: run make deps"; exit 1; }
	@[ -f $(BUILD)/build.ninja ] || cmake --preset release -B $(BUILD) || \
	  { echo; echo "Something is missing: run make deps"; exit 1; }
	cmake --build $(BUILD) --target sheaf
	@touch $@

$(SHEAF) $(BUILD)/share/sheaf/phonics.bin: $(BUILT) ;

# ---- packets ---------------------------------------------------------------
# The dependency file names the layout, typefaces and word list that a packet
# was made from.
out/%/packet.pdf out/%/teacher.pdf &: lessons/%.yaml $(SHEAF)
	@mkdir -p out/$*
	$(SHEAF) build $< --deps out/$*/packet.d $(if $(PAPER),--paper $(PAPER))

-include $(LESSONS:lessons/%.yaml=out/%/packet.d)

# ---- tests and speed -------------------------------------------------------
test:
	@command -v cmake ninja c++ ctest >/dev/null || \
	  { echo "A tool to build Sheaf is missing: run make deps"; exit 1; }
	@[ -f $(BUILD)/build.ninja ] || cmake --preset release -B $(BUILD) || \
	  { echo; echo "Something is missing: run make deps"; exit 1; }
	@for tool in qpdf pdftotext mutool espeak-ng; do \
	  command -v $$tool >/dev/null || \
	    { echo "The tests need $$tool: run make deps"; exit 1; }; done
	cmake --build $(BUILD)
	ctest --test-dir $(BUILD) --output-on-failure -j2

bench: $(BUILT)
	cmake --build $(BUILD) --target sheaf_bench
	$(BUILD)/bench/sheaf_bench $(SHEAF) $(LESSONS)

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

# ---- paper -----------------------------------------------------------------
# Both sides, turned on the long edge, at the size that was laid out.
LP := lp $(if $(PRINTER),-d $(PRINTER)) -o sides=two-sided-long-edge \
  -o print-scaling=none

ifneq ($(filter print,$(MAKECMDGOALS)),)
ifeq ($(LESSON),)
$(error Which lesson? Say make print LESSON=NAME, one of: $(LESSONS:lessons/%.yaml=%))
endif
ifeq ($(wildcard lessons/$(LESSON).yaml),)
$(error There is no lessons/$(LESSON).yaml; there are: $(LESSONS:lessons/%.yaml=%))
endif
endif

print: out/$(LESSON)/packet.pdf
ifneq ($(DRY),)
	@echo "$(LP) $<"
else
	@command -v lp >/dev/null || { echo "There is no print command (lp)" \
	  "here. Install cups-client, or open $< and print it double-sided," \
	  "without scaling."; exit 1; }
	@[ -n "$(PRINTER)" ] || lpstat -d 2>/dev/null | grep -q : || \
	  lpstat -e 2>/dev/null | grep -q . || \
	  { echo "There is no printer set up here. Add one in the system" \
	  "settings, or open $< and print it double-sided, without scaling."; \
	  exit 1; }
	$(LP) $<
endif

clean:
	rm -rf $(BUILD) out
