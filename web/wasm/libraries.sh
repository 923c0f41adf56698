#!/bin/sh
# Builds the libraries of the browser edition into build-web/libs, unless what is
# there was made from these very sources, lists, flags and compiler: some two
# minutes once. A cache may keep the folder; nothing in it knows of times.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
build="$root/build-web"

for tool in cmake ninja clang-19 wasm-ld-19 llvm-ar-19 node; do
  command -v "$tool" >/dev/null || {
    echo "The browser edition needs $tool: run make web-deps" >&2
    exit 1
  }
done

# Two makes at once would take the folder from under one another.
mkdir -p "$build"
exec 9>"$build/.lock"
flock 9

made_from=$({
  cat "$here/sources.tsv" "$here/toolchain.cmake" "$here"/shims/*
  find "$here/libs" -type f | LC_ALL=C sort | xargs cat
  for header in hpdf_version.h hpdf_config.h CLI/Version.hpp \
      nlohmann/detail/abi_macros.hpp; do
    cat "/usr/include/$header" 2>/dev/null || echo "no $header"
  done
  clang-19 --version | head -n 1
} | sha256sum | cut -d' ' -f1)
if [ "$(cat "$build/libs/.made-from" 2>/dev/null)" = "$made_from" ]; then
  exit 0
fi

# What was compiled with other headers is of no use, whatever their times say.
rm -rf "$build/libs" "$build/libs-build" "$build/sheaf"
sh "$here/fetch.sh" "$build/sources"
echo "Building the libraries of the browser edition"
cmake -G Ninja -S "$here/libs" -B "$build/libs-build" \
  --toolchain "$here/toolchain.cmake" >"$build/libs.log" 2>&1 &&
  cmake --build "$build/libs-build" >>"$build/libs.log" 2>&1 || {
    grep -A8 -E '^FAILED|rror' "$build/libs.log" | head -n 30 >&2
    echo "The libraries are not built. All that was said: build-web/libs.log" >&2
    exit 1
  }
node --no-warnings "$here/run.mjs" "$build/libs-build/probe.wasm" || {
  echo "The libraries are built, but do not work as they should." >&2
  exit 1
}
rm -rf "$build/libs-build"
echo "$made_from" >"$build/libs/.made-from"
