#!/bin/sh
# Makes the teacher's guide: tools/guide.sh FOLDER writes index.html, a page for
# each chapter of docs/guide, guide.css and the pictures. SHEAF names the
# program. What Sheaf itself can say (its sheets, messages and keys) is asked of
# it each time, so the guide cannot say anything else.
set -e
target=${1:?which folder?}
program=${SHEAF:-build/sheaf}
source=docs/guide
command -v cmark-gfm >/dev/null || {
  echo "make guide needs cmark-gfm: run make deps" >&2
  exit 1
}
case $program in /*) ;; *) program=$PWD/$program ;; esac
if [ -e "$target" ] && [ ! -e "$target/guide.css" ]; then
  echo "$target is there already and is no guide; it stays as it is" >&2
  exit 1
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$work/files" "$work/made" "$work/guide/pictures"

# The chapters in their order: the numbered list of the first page.
chapters=$(sed -n 's/^[0-9]*\. \[[^]]*\](\([a-z-]*\)\.md).*/\1/p' \
  "$source/index.md")
title_of() { sed -n 's/^# //p' "$source/$1.md" | head -n 1; }

# ---- the lessons that the pictures are made of ------------------------------
# They are those that the chapters show: each named block of YAML is a file.
for chapter in $chapters; do
  mkdir -p "$work/files/$chapter"
  awk -v folder="$work/files/$chapter" '
    /^```yaml [a-z]/ {
      file = folder "/" $2
      inside = file
      sub(/\/[^\/]*$/, "", inside)
      system("mkdir -p \"" inside "\"")
      printf "" > file
      next }
    /^```/ { if (file != "") close(file); file = "" }
    file != "" { print > file }' "$source/$chapter.md"
done
# A lesson is found by a path without this machine's folders in it.
cd "$work/files"
(cd term && "$program" placement sequence.yaml --file where-to-begin.yaml &&
  "$program" probe sequence.yaml --forms 2 &&
  "$program" draft --step 4 --file coin.yaml) >/dev/null
cd - >/dev/null

# ---- the chapter of the sheets ----------------------------------------------
# A lesson of the guide that has something for the sheet $1.
lessons_for() {
  case $1 in
    placement-*) echo term/where-to-begin.yaml ;;
    probe-*) echo term/probes/probe-a.yaml ;;
    *) echo term/cloud-clown.yaml keys/hopped.yaml term/coin.yaml ;;
  esac
}

# Draws the picture $1 with the rest of the words, and notes how large it is.
draw() {
  picture=$1
  shift
  (cd "$work/files" && "$program" preview "$@" \
    --out "$work/guide/pictures/$picture.png") 2>/dev/null >"$work/drawn" &&
    sed -n "s/.*, \([0-9]*\) by \([0-9]*\) pixels\$/$picture \1 \2/p" \
      "$work/drawn" >>"$work/sizes"
}

# Draws the first page of the sheet $1; $2 is --teacher or nothing. Prints the
# heading that the sheet has on paper.
draw_sheet() {
  for lesson in $(lessons_for "$1"); do
    if draw "$1" "$lesson" --sheet "$1" --page 1 --dpi 96 $2; then
      (cd "$work/files" && "$program" dump pages "$lesson" --only "$1") \
        2>/dev/null | awk -f tools/guide_heading.awk
      return
    fi
  done
  echo "no lesson of the guide has something for the sheet $1" >&2
  exit 1
}

# What `sheaf preview` makes of the first lesson.
draw first-lesson first-lesson/cloud.yaml
echo "![All pages of the packet for the learner, side by side: words to" \
  "discover, the key word, words to blend, sound boxes, pictures to sort," \
  "and lines to write on](pictures/first-lesson.png)" \
  >"$work/made/first-pages.md"

# The layouts that have the sheet $1, as a list in English.
layouts_with() {
  grep -lE "^  - $1:?( |\$)" layouts/*.yaml | sed 's/.*\///; s/\.yaml$//' |
    awk '{ name[NR] = "`" $0 "`" }
      END { for (i = 1; i <= NR; ++i)
          printf "%s%s", name[i], i == NR ? "" : i == NR - 1 ? " and " : ", " }'
}

"$program" sheets | awk -f tools/guide_order.awk layouts/week.yaml - \
  >"$work/sheets.txt"
for name in $(sed -n 's/^  \([a-z][a-z-]*\): .*/\1/p' "$work/sheets.txt"); do
  teacher=$(awk -v sheet="  $name:" '/^For the teacher/ { side = "--teacher" }
    index($0, sheet " ") == 1 { print side }' "$work/sheets.txt")
  heading=$(draw_sheet "$name" "$teacher")
  layouts=$(layouts_with "$name")
  printf '%s\t%s\t%s\n' "$name" "$heading" "$layouts"
done >"$work/headings.tsv"
for part in sheets settings; do
  awk -v part=$part -f tools/guide_sheets.awk "$work/headings.tsv" \
    "$work/sheets.txt" "$work/sheets.txt" >"$work/made/$part.md"
done

# ---- the chapter of the messages --------------------------------------------
"$program" explain >"$work/messages.txt"
{
  echo "| message | what it is about |"
  echo "| --- | --- |"
  sed 's/^\([a-z0-9-]*\)  *\(.*\)$/| [\1](#\1) | \2 |/' "$work/messages.txt"
  for name in $(cut -d ' ' -f 1 "$work/messages.txt"); do
    "$program" explain "$name" | awk '
      NR == 1 { at = index($0, ": "); name = substr($0, 1, at - 1)
        what = substr($0, at + 2)
        printf "\n## %s {#%s}\n\n**%s.**\n", name, name,
          toupper(substr(what, 1, 1)) substr(what, 2); next }
      /^(Wrong|Mended):$/ { if (fenced) print "```"
        printf "\n%s\n\n```yaml\n", $0; fenced = 1; next }
      /^Mended: / { if (fenced) print "```"
        fenced = 0; printf "\n%s\n", $0; next }
      fenced { print substr($0, 5); next }
      { print }
      END { if (fenced) print "```" }'
  done
} >"$work/made/messages.md"

# ---- the chapter of the keys ------------------------------------------------
# A schema has a line for each key: what it is, and an example.
for kind in lesson class sequence record; do
  "$program" schema "$kind" | awk '
    BEGIN { print "| key | what it is | for example |\n| --- | --- | --- |" }
    match($0, /^    "[a-z-]+": \{"description": "/) {
      split($0, quoted, "\"")
      text = substr($0, RSTART + RLENGTH)
      sub(/", "(type|enum|const|anyOf).*/, "", text)
      gsub(/\\"/, "\"", text)
      example = ""
      at = index(text, ", as in ")
      if (at > 0) { example = "`" substr(text, at + 8) "`"
        text = substr(text, 1, at - 1) }
      gsub(/\|/, "\\|", text); gsub(/\|/, "\\|", example)
      printf "| `%s` | %s | %s |\n", quoted[2], text, example
    }' >"$work/made/$kind-keys.md"
done

# ---- Markdown to pages ------------------------------------------------------
number=0
previous=
for chapter in index $chapters; do
  # A line <!-- made here: NAME --> stands for what was made above.
  awk -v made="$work/made/" '
    /^<!-- made here: [a-z-]+ -->$/ {
      file = made $4 ".md"
      while ((got = (getline line < file)) > 0) print line
      if (got < 0) { print "nothing is made for " $4 > "/dev/stderr"; exit 1 }
      close(file); next }
    { print }' "$source/$chapter.md" >"$work/$chapter.md"
  following=
  if [ "$chapter" = index ]; then
    following=$(echo "$chapters" | head -n 1)
  else
    following=$(echo "$chapters" | sed -n "/^$chapter\$/{n;p;}")
  fi
  {
    echo '<!DOCTYPE html>'
    echo '<html lang="en">'
    echo '<head>'
    echo '<meta charset="utf-8">'
    echo '<meta name="viewport" content="width=device-width, initial-scale=1">'
    case $chapter in
      index) echo "<title>$(title_of index)</title>" ;;
      *) echo "<title>$(title_of "$chapter") · $(title_of index)</title>" ;;
    esac
    echo '<link rel="stylesheet" href="guide.css">'
    echo '</head>'
    echo '<body>'
    echo '<a class="skip" href="#text">To the text</a>'
    echo '<nav class="chapters" aria-label="Chapters">'
    echo '<ul>'
    for other in index $chapters; do
      current=
      [ "$other" != "$chapter" ] || current=' aria-current="page"'
      echo "<li><a href=\"$other.html\"$current>$(title_of "$other")</a></li>"
    done
    echo '</ul>'
    echo '</nav>'
    echo '<main id="text">'
    cmark-gfm -e table --full-info-string "$work/$chapter.md" |
      awk -v sizes="$work/sizes" -f tools/guide_html.awk
    echo '</main>'
    echo '<nav class="onwards" aria-label="Before and after">'
    [ -z "$previous" ] || echo "<a rel=\"prev\" href=\"$previous.html\">Back:" \
      "$(title_of "$previous")</a>"
    [ -z "$following" ] || echo "<a rel=\"next\" href=\"$following.html\">Next:" \
      "$(title_of "$following")</a>"
    echo '</nav>'
    echo '</body>'
    echo '</html>'
  } >"$work/guide/$chapter.html"
  previous=$chapter
  number=$((number + 1))
done
cp "$source/guide.css" "$work/guide/"

mkdir -p "$(dirname "$target")"
rm -rf "$target"
cp -R "$work/guide" "$target"
echo "$target: $number pages," \
  "$(find "$target/pictures" -name '*.png' | wc -l) pictures"
