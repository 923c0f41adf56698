#!/bin/sh
# Renders every kind of sheet in every layout on both papers to
# FOLDER/LAYOUT/PAPER/LESSON-SHEET-n.png. SHEAF names the program.
set -e
folder=${1:?which folder?}
program=${SHEAF:-build/sheaf}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
kinds=$("$program" sheets | sed -n 's/^  \([a-z][a-z-]*\): .*/\1/p')
layouts=$("$program" layouts | cut -d ' ' -f 1)
for layout in $layouts; do
  for paper in letter a4; do
    target=$folder/$layout/$paper
    mkdir -p "$target"
    for lesson in lessons/*.yaml; do
      case $lesson in *class.yaml) continue ;; esac
      name=${lesson#lessons/}
      name=${name%.yaml}
      only=
      for kind in $kinds; do only="$only --only $kind"; done
      # shellcheck disable=SC2086
      "$program" build "$lesson" --layout "$layout" --paper "$paper" \
        --separate $only --out "$work" 2>/dev/null >/dev/null ||
        { echo "$layout, $paper: $name does not fit"; continue; }
      for kind in $kinds; do
        pdf=$work/$name/$kind.pdf
        [ -f "$pdf" ] || continue
        pdftoppm -r 60 -gray -png "$pdf" "$target/$name-$kind"
      done
      rm -rf "${work:?}/$name"
    done
    echo "$layout, $paper: $(find "$target" -name '*.png' | wc -l) pages"
  done
done
