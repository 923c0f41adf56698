#!/bin/sh
# Runs fuzz targets for a time and says what came of it, a line each:
#
#     run.sh BUILD SECONDS [KIND...]      all targets that there is a corpus for
#
# Lines are added to BUILD/runs.tsv as well, which merge.sh takes into runs.tsv
# here, and table.sh sums both up: the day, the target, its program's checksum,
# executions, seconds of the processor, edges covered, and after how many seconds
# of the processor their count last grew beyond what runs of the same program had
# reached: 0 where it did not, or only while it read what it begins with.
# What a run finds stays in BUILD/found; what it learns stays in BUILD/work, or
# the folder WORK, from where `make fuzz-merge` brings the least that covers as
# much into tests/fuzz/corpus.

here=$(dirname "$0")
project=$here/../..
build=$1
seconds=$2
shift 2
[ $# -gt 0 ] || set -- $(ls "$here/corpus")

mkdir -p "$build/found"
inputs=$build/tests/fuzz/fuzz_inputs
status=0
ticks=$(getconf CLK_TCK)

# What the processes took that have ended, put into `used`, as `times` says:
# 1m2.50s 0m0.30s. A subshell would tell of its own.
read_used() {
  times > "$build/times.$$"
  used=$(tail -n 1 "$build/times.$$" | tr 'ms' '  ' |
    awk '{ printf "%d", $1 * 60 + $2 + $3 * 60 + $4 }')
}

# Passes a log on and keeps in $1, when the count of edges grew beyond $2, both
# the count and how much of the processor process $3 had used by then.
watch_growth() {
  edges=$2
  while IFS= read -r line; do
    printf '%s\n' "$line"
    case $line in
      *" cov: "*)
        now=${line#* cov: }
        now=${now%% *}
        [ "$now" -gt "$edges" ] 2>/dev/null || continue
        edges=$now
        took=$(cut -d ' ' -f 14,15 "/proc/$3/stat" 2>/dev/null | tr ' ' '+')
        printf '%s %s\n' "$edges" $(((${took:-0}) / ticks)) > "$1"
        ;;
    esac
  done
}

for kind in "$@"; do
  program=$build/tests/fuzz/fuzz_$kind
  work=${WORK:-$build/work}/$kind
  log=$build/$kind.log
  grown=$build/$kind.grown
  words=$build/$kind.dict
  pipe=$build/$kind.pipe
  mkdir -p "$work"
  touch "$build/runs.tsv"
  sum=$(cksum < "$program" | cut -d ' ' -f 1)
  most=$(awk -v kind="$kind" -v sum="$sum" -F '\t' \
    '$2 == kind && $3 == sum && $6 > most { most = $6 }
    END { print most + 0 }' "$here/runs.tsv" "$build/runs.tsv")
  echo "$most 0" > "$grown"
  "$inputs" dictionary "$kind" "$project" > "$words" || exit 1
  dictionary=
  [ ! -s "$words" ] || dictionary=-dict=$words
  "$inputs" seeds "$kind" "$project" "$build/seeds/$kind" || exit 1
  rm -f "$pipe"
  mkfifo "$pipe" || exit 1
  read_used
  before=$used
  # To weigh inputs by how rare what they reach is costs large programs more
  # than to run them. Time is that of a clock: at the lowest priority, beside
  # others, a packet of a second has taken twenty.
  "$program" -max_total_time="$seconds" -rss_limit_mb=2048 -timeout=90 \
    -print_final_stats=1 -entropic=0 $dictionary \
    -artifact_prefix="$build/found/$kind-" \
    "$work" "$here/corpus/$kind" "$build/seeds/$kind" > "$pipe" 2>&1 &
  process=$!
  watch_growth "$grown" "$most" "$process" < "$pipe" > "$log"
  if ! wait "$process"; then
    status=1
    tail -n 40 "$log"
  fi
  rm -f "$pipe"
  read_used
  cpu=$((used - before))
  read -r edges last < "$grown"
  executions=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
  printf '%s\t%s\t%s\t%s\t%s\t%s\t%s\n' "$(date +%F)" "$kind" "$sum" \
    "${executions:-0}" "$cpu" "$edges" "$last" >> "$build/runs.tsv"
  echo "$kind: ${executions:-0} executions, $cpu s of the processor," \
    "$edges edges, which last grew after $last s"
done
exit $status
