#!/bin/sh
# Brings into the corpus of a target what its runs have learned:
#
#     merge.sh BUILD KIND
#
# The corpus is the fewest inputs that reach every edge (how often each is
# passed does not count), of those the MOST that add most, and those with a name,
# which somebody chose: most of them were a fault once. Inputs that libFuzzer made
# have names of 40 hexadecimal digits. All corpora together stay under 3 MB, a
# block of the disk for each file. What looks like a remark about work that is
# left to do stays out: people search for those.
#
# Its runs go from BUILD/runs.tsv to runs.tsv here: an hour of one target is
# seldom to be had at once.

here=$(dirname "$0")
build=$1
kind=$2
most=${MOST:-40}
corpus=$here/corpus/$kind
all=$build/merged/$kind.all
new=$build/merged/$kind

rm -rf "$new" "$all"
mkdir -p "$new" "$all" "$corpus" "$build/work/$kind" "$build/seeds/$kind"
# Folders of their own, as two files may have one name.
for from in "$corpus" "$build/work/$kind" "$build/seeds/$kind"; do
  to=$all/$(echo "$from" | cksum | cut -d ' ' -f 1)
  mkdir -p "$to"
  grep -a -r -L -E 'TO''DO|FIX''ME|XX''X|HA''CK' "$from" | tr '\n' '\0' |
    xargs -0 -r cp -t "$to"
done
"$build/tests/fuzz/fuzz_$kind" -set_cover_merge=1 -use_counters=0 \
  -max_len=3000 -timeout=20 -rss_limit_mb=2048 "$new" "$all" \
  > "$build/merged/$kind.log" 2>&1 || { tail "$build/merged/$kind.log"; exit 1; }
find "$corpus" -type f | grep -E '/[0-9a-f]{40}$' | xargs -r rm
# Written in the order of what they add. Seeds have the names of the files that
# they came from.
ls -tr "$new" | head -n "$most" | while read -r name; do
  cp "$new/$name" "$corpus/$(sha1sum "$new/$name" | cut -c1-40)"
done
runs=$build/runs.tsv
touch "$runs"
awk -F '\t' -v kind="$kind" '$2 == kind' "$runs" >> "$here/runs.tsv"
awk -F '\t' -v kind="$kind" '$2 != kind' "$runs" > "$runs.part"
mv "$runs.part" "$runs"
echo "$kind: $(ls "$corpus" | wc -l) inputs"
