# The browser edition: what it needs, and the module that its page loads. Part
# of the Makefile; nothing of it is needed for the program itself.
#
#   make web-deps      install what is needed besides `make deps`
#   make web-libs      build the libraries of the module (once, two minutes)
#   make web-module    build the module: build-web/sheaf.wasm

WEB := build-web
# For make clean: all but what was downloaded and the libraries, which are made
# again by themselves where they are not up to date.
WEB_BUILT = $(filter-out %/sources %/libs,$(wildcard $(WEB)/*))
WEB_PACKAGES := clang-19 lld-19 llvm-19 wasi-libc libclang-rt-19-dev-wasm32 \
  xz-utils bzip2 binaryen chromium libdeflate-tools

.PHONY: web-deps web-libs web-module

# A node that is here already, from wherever, is not replaced by Debian's.
web-deps: deps
	@missing=""; for p in $(WEB_PACKAGES); do \
	  [ "$$(dpkg-query -W -f='$${Status}' $$p 2>/dev/null)" = \
	    "install ok installed" ] || missing="$$missing $$p"; done; \
	command -v node >/dev/null || missing="$$missing nodejs"; \
	command -v npm >/dev/null || missing="$$missing npm"; \
	if [ -n "$$missing" ]; then \
	  if [ "$$(id -u)" = 0 ]; then sudo=""; else sudo=sudo; fi; \
	  echo "Installing:$$missing"; \
	  $$sudo apt-get update -q && \
	  $$sudo env DEBIAN_FRONTEND=noninteractive \
	    apt-get install -q -y --no-install-recommends $$missing || exit 1; \
	fi
	cd web && npm ci

web-libs:
	@sh web/wasm/libraries.sh

# What web-module has built by then.
$(WEB)/sheaf/sheaf.wasm: ;

$(WEB)/sheaf/build.ninja: | web-libs
	cmake -G Ninja -S . -B $(WEB)/sheaf -DSHEAF_WEB=ON -DSHEAF_TESTS=OFF \
	  -DCMAKE_TOOLCHAIN_FILE=$(CURDIR)/web/wasm/toolchain.cmake

web-module: web-libs $(WEB)/sheaf/build.ninja
	cmake --build $(WEB)/sheaf --target sheaf_module
	@$(MAKE) --no-print-directory $(WEB)/sheaf.wasm

# A sixth smaller than as it was linked. While working, the latter will do. Large
# functions are not put into those that call them: a browser takes tens of
# megabytes to compile the one that comes of it.
$(WEB)/sheaf.wasm: $(WEB)/sheaf/sheaf.wasm
	@command -v wasm-opt >/dev/null || \
	  { echo "The module needs wasm-opt: run make web-deps"; exit 1; }
	wasm-opt -Oz --one-caller-inline-max-function-size=100 $< -o $@.part && \
	  mv $@.part $@

include web/page.mk
