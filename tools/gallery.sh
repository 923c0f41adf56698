#!/bin/sh
# Draws every kind of sheet in every layout on both papers, its pages side by
# side, to FOLDER/LAYOUT/PAPER/LESSON-SHEET.png, and the picture in README.md.
# SHEAF names the program.
set -e
folder=${1:?which folder?}
program=${SHEAF:-build/sheaf}
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
      for kind in $kinds; do
        status=0
        "$program" preview "$lesson" --layout "$layout" --paper "$paper" \
          --sheet "$kind" --strip --dpi 60 --out "$target/$name-$kind.png" \
          >/dev/null 2>&1 || status=$?
        # With 2, the lesson has nothing for the sheet.
        case $status in
          0 | 2) ;;
          *) echo "$layout, $paper: $name does not fit on $kind" ;;
        esac
      done
    done
    echo "$layout, $paper: $(find "$target" -name '*.png' | wc -l) pictures"
  done
done
"$program" preview lessons/i-e-kite.yaml --sheet blending,sound-boxes \
  --page 3,1 --strip --dpi 72 --out docs/pages.png
