#!/bin/sh
# open.sh SHEAF CHECKS: every kind of sheet, on both papers, for the learner and
# the teacher, the reports, and pictures of every kind, opened by readers of
# other makers. Each must draw every page and say nothing. CHECKS is a folder in
# which npm has installed what open.mjs needs. Ghostscript, MuPDF, poppler and
# qpdf must be there; Chromium is used if it is.
sheaf=$1
checks=$2
folder=$(mktemp -d) || exit 3
trap 'rm -rf "$folder"' EXIT
sheets=$("$sheaf" sheets | sed -n 's/^  \([a-z-]*\): .*/\1/p')

# A picture in each kind of colours, and one with a mask.
mkdir "$folder/lessons"
picture() { # DEVICE NAME
  gs -q -sDEVICE="$1" -r20 -g120x90 -o "$folder/lessons/$2" -c \
    "1 .5 0 setrgbcolor 20 20 200 150 rectfill 0 .5 .5 setrgbcolor
     90 90 300 200 rectfill showpage" || exit 3
}
picture png16m colour.png
picture pngalpha mask.png
picture pnggray grey.png
picture jpeg colour.jpg
picture jpeggray grey.jpg
picture jpegcmyk inks.jpg

cat >"$folder/lessons/pictures.yaml" <<EOF
pattern: oa
words: boat coat goat road toad soap
pictures:
  boat: colour.png
  coat: mask.png
  goat: grey.png
  road: colour.jpg
  toad: grey.jpg
  soap: inks.jpg
sentences: |
  The goat is on the boat.
dictate-words: boat coat goat
EOF
cat >"$folder/lessons/parts.yaml" <<EOF
pattern: ing
words: raining sailing waiting jumping resting helping
taught: ai
dictate-words: raining sailing
EOF

for paper in letter a4; do
  # shellcheck disable=SC2086 # one argument for each kind of sheet
  "$sheaf" build lessons/sh-ship.yaml lessons/i-e-kite.yaml \
    lessons/demo-term/week-09-i-e.yaml "$folder/lessons/pictures.yaml" \
    "$folder/lessons/parts.yaml" --only $sheets --separate --paper "$paper" \
    --out "$folder/$paper" >"$folder/said" 2>&1 ||
    { cat "$folder/said"; exit 1; }
done
"$sheaf" mark lessons/demo-term/records --pdf "$folder/mark.pdf" >/dev/null &&
  "$sheaf" progress lessons/demo-term/records --pdf "$folder/progress.pdf" \
    >/dev/null || exit 1
for sheet in $sheets; do
  [ -n "$(find "$folder" -name "$sheet.pdf")" ] ||
    { echo "no lesson here has the sheet $sheet"; exit 1; }
done

find "$folder" -name '*.pdf' | sort >"$folder/files"
count=$(wc -l <"$folder/files")
faults=0

# What a reader says is a fault, and so is a code that is not 0.
opened() { # READER COMMAND...: the file comes last
  reader=$1
  shift
  bad=0
  while read -r file; do
    "$@" "$file" >"$folder/said" 2>&1 </dev/null
    code=$?
    if [ $code -ne 0 ] || [ -s "$folder/said" ]; then
      bad=$((bad + 1))
      echo "$reader on ${file#"$folder/"}: code $code"
      head -n 5 "$folder/said"
    fi
  done <"$folder/files"
  echo "$reader: $count files, $bad with messages"
  faults=$((faults + bad))
}

# MuPDF as Debian builds it says so of each file that has a colour profile.
cat >"$folder/mupdf" <<'EOF'
mutool draw -q -r 40 -F pgm -o /dev/null "$1" >"$1.said" 2>&1
code=$?
grep -v "^warning: ICC support is not available$" "$1.said"
exit $code
EOF
cat >"$folder/poppler" <<'EOF'
pdftoppm -r 40 "$1" "$1.page" && rm "$1".page*
pdftotext "$1" /dev/null
EOF
# qpdf tells what it found on standard output, always; its code says the rest.
echo 'qpdf --check "$1" >/dev/null' >"$folder/qpdf"

opened Ghostscript gs -q -dSAFER -dBATCH -dNOPAUSE -dPDFSTOPONWARNING \
  -r40 -sDEVICE=pgmraw -sOutputFile=/dev/null
opened MuPDF sh "$folder/mupdf"
opened poppler sh "$folder/poppler"
opened qpdf sh "$folder/qpdf"
for reader in pdfium pdfjs; do
  opened "$reader" node "$checks/open.mjs" "$reader"
done

# In the packets stands all that the single sheets have.
if command -v chromium >/dev/null; then
  set --
  while read -r file; do
    case ${file##*/} in
      packet.pdf | teacher.pdf | mark.pdf | progress.pdf) set -- "$@" "$file" ;;
    esac
  done <"$folder/files"
  node tests/readers/open_chromium.mjs chromium "$@" || faults=$((faults + 1))
else
  echo "Chromium: not installed here"
fi
[ "$faults" -eq 0 ]
