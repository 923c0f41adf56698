# The page of the browser edition: part of the Makefile by way of web.mk.
#
#   make web           the page, served and in one file: out/web (after web-deps)
#   make web-test      its tests, in Node and in Chromium; PART=keyboard for those
#                      in Chromium whose file has that in its name
#   make web-unit      those that need no browser and no module
#   make web-bytes     every PDF from the module beside the native one
#   make web-zip       the page for other machines: out/sheaf-web.zip

WEB_OUT := out/web
WEB_MODULE := build-web/sheaf.wasm
WEB_BUILD = node web/build/build.mjs --module $(WEB_MODULE) \
  --share $(BUILD)/share/sheaf --guide out/guide --out

.PHONY: web web-test web-unit web-bytes web-zip web-tools web-built web-twice

# What stands in web/node_modules was read from package-lock.json by web-deps.
web-tools:
	@command -v node >/dev/null && [ -d web/node_modules/esbuild ] || \
	  { echo "The browser edition needs more tools: run make web-deps"; exit 1; }

# The guide goes with it where there is one to make.
web: web-tools web-module $(SHEAF) $(if $(wildcard docs/guide/*.md),guide)
	cd web && npx --no-install tsc --noEmit
	$(WEB_BUILD) $(WEB_OUT)

# The same sources must give the same bytes, wherever they are put.
web-twice: web-tools
	@$(WEB_BUILD) build-web/again >/dev/null
	@diff -r $(WEB_OUT) build-web/again && \
	  echo "Built twice, and the same to the byte."

web-unit: web-tools
	cd web && node tests/run.mjs unit $(PART)

web-bytes: web-tools $(SHEAF)
	cd web && node tests/run.mjs bytes

web-built:
	@[ -f $(WEB_OUT)/sheaf.html ] || { echo "There is no page yet: run make web"; exit 1; }
	@for tool in chromium qpdf pdftotext; do command -v $$tool >/dev/null || \
	  { echo "The tests need $$tool: run make web-deps"; exit 1; }; done

web-test: web-tools web-built $(SHEAF)
	$(if $(PART),,@$(MAKE) --no-print-directory web-unit)
	cd web && node tests/run.mjs browser $(PART)
	$(if $(PART),,@$(MAKE) --no-print-directory web-bytes web-twice)

web-zip: web-tools web-built
	node web/build/zip.mjs $(WEB_OUT) out/sheaf-web.zip
