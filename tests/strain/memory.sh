#!/bin/sh
# memory.sh SHEAF STEP ARGUMENTS...: runs Sheaf in ever more memory, from 16 MiB
# of address space in steps of STEP KiB until it suffices. Where it does not,
# the run must end with code 3 and one sentence, and have written nothing.
# Before the system has loaded the program and its libraries nobody can do that
# (code 127, or GLib's own words); those runs are counted apart.
set -u
sheaf=$1 step=$2
shift 2
folder=$(mktemp -d) || exit 3
trap 'rm -rf "$folder"' EXIT
unloaded=0 lacking=0 kib=16384
while [ $kib -le 1048576 ]; do
  (ulimit -c 0 && ulimit -v $kib && exec "$sheaf" "$@" --out "$folder/out") \
    >"$folder/said" 2>&1
  status=$?
  said=$(grep -v -e ': note: ' -e '^  help: ' "$folder/said")
  written=$(find "$folder/out" -type f 2>/dev/null | wc -l)
  case $status in
    0)
      echo "$* in $kib KiB: done; $lacking runs had too little," \
        "$unloaded were not loaded"
      [ $lacking -gt 0 ]
      exit
      ;;
    3)
      lacking=$((lacking + 1))
      case $said in
        "sheaf: "*"not enough memory"*) [ "$(echo "$said" | wc -l)" = 1 ] ;;
        *) false ;;
      esac && [ "$written" = 0 ]
      ;;
    *)
      unloaded=$((unloaded + 1))
      [ $lacking = 0 ] && [ "$written" = 0 ] &&
        case $said in
          *"shared libraries"* | *"TLS data"* | *"find-object data"*) true ;;
          GLib*) true ;;
          *) false ;;
        esac
      ;;
  esac || {
    echo "$* in $kib KiB: code $status, $written files: $said"
    exit 1
  }
  kib=$((kib + step))
done
echo "$*: 1 GiB does not suffice"
exit 1
