#!/bin/sh
# What all runs came to, those of runs.tsv here and then those of a build, a line
# for each target:
#
#     table.sh BUILD
#
# Executions and seconds of the processor are those of all runs. How long the
# count of edges has been the same is counted for the newest program, and for those
# before it with the same count: what changed in them these inputs do not reach. A
# program with another count begins anew. An hour (3,600) is enough.

cat "$(dirname "$0")/runs.tsv" "$1/runs.tsv" 2> /dev/null | awk -F '\t' '
  !($2 in executions) { kinds[++count] = $2 }
  {
    executions[$2] += $4
    seconds[$2] += $5
    if ($3 != program[$2]) {
      program[$2] = $3
      if ($6 != edges[$2]) edges[$2] = of_program[$2] = grown[$2] = 0
    }
    if ($6 > edges[$2]) {
      edges[$2] = $6
      grown[$2] = of_program[$2] + $7
    }
    of_program[$2] += $5
  }
  END {
    form = "%-10s %12s %9s %8s %11s\n"
    printf form, "target", "executions", "CPU s", "edges", "flat, CPU s"
    for (i = 1; i <= count; ++i) {
      kind = kinds[i]
      printf form, kind, executions[kind], seconds[kind], edges[kind],
        of_program[kind] - grown[kind]
      all += executions[kind]
      time += seconds[kind]
    }
    printf form, "all", all, time, "", ""
  }'
