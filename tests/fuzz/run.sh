#!/bin/sh
# Runs fuzz targets for a time and says what came of it, a line each:
#
#     run.sh BUILD SECONDS [KIND...]      all targets that there is a corpus for
#
# Lines are added to BUILD/fuzz.tsv as well: the day, the target, executions,
# seconds of the processor, edges covered, and how many seconds before the end
# of the run their count last grew. What a run finds stays in BUILD/found; what
# it learns stays in BUILD/work, from where `make fuzz-merge` brings the least
# that covers as much into tests/fuzz/corpus.

here=$(dirname "$0")
project=$here/../..
build=$1
seconds=$2
shift 2
[ $# -gt 0 ] || set -- $(ls "$here/corpus")

mkdir -p "$build/found"
inputs=$build/tests/fuzz/fuzz_inputs
status=0

# Passes a log on and keeps in $2 when the count of edges last grew.
watch_growth() {
  edges=0
  while IFS= read -r line; do
    printf '%s\n' "$line"
    case $line in
      *" cov: "*)
        now=${line#* cov: }
        now=${now%% *}
        [ "$now" -gt "$edges" ] 2>/dev/null || continue
        edges=$now
        printf '%s %s\n' "$edges" "$(date +%s)" > "$1"
        ;;
    esac
  done
}

for kind in "$@"; do
  work=$build/work/$kind
  log=$build/$kind.log
  grown=$build/$kind.grown
  words=$build/$kind.dict
  mkdir -p "$work"
  echo "0 $(date +%s)" > "$grown"
  "$inputs" dictionary "$kind" "$project" > "$words" || exit 1
  dictionary=
  [ ! -s "$words" ] || dictionary=-dict=$words
  "$inputs" seeds "$kind" "$project" "$build/seeds/$kind" || exit 1
  if ! { "$build/tests/fuzz/fuzz_$kind" -max_total_time="$seconds" \
    -rss_limit_mb=2048 -timeout=20 -print_final_stats=1 $dictionary \
    -artifact_prefix="$build/found/$kind-" \
    "$work" "$here/corpus/$kind" "$build/seeds/$kind" 2>&1
    echo "exit: $?"; times; } | watch_growth "$grown" > "$log" ||
    ! grep -q '^exit: 0$' "$log"; then
    status=1
    tail -n 40 "$log"
  fi
  read -r edges last < "$grown"
  executions=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
  # The last line of `times`: what the children took, as in 1m2.50s 0m0.30s.
  cpu=$(tail -n 1 "$log" | tr 'ms' '  ' |
    awk '{ printf "%d", $1 * 60 + $2 + $3 * 60 + $4 }')
  flat=$(($(date +%s) - last))
  printf '%s\t%s\t%s\t%s\t%s\t%s\n' "$(date +%F)" "$kind" \
    "${executions:-0}" "$cpu" "$edges" "$flat" >> "$build/fuzz.tsv"
  echo "$kind: ${executions:-0} executions, $cpu s of the processor," \
    "$edges edges, which last grew $flat s ago"
done
exit $status
