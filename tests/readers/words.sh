#!/bin/sh
# words.sh SHEAF: makes the pages of words.yaml with each room between letters
# and counts the words that readers of five makers find whole. To be called
# where npm has installed pdfjs-dist 4.10.38 and @hyzyla/pdfium 2.1.13; the
# others are poppler, MuPDF and Ghostscript. Ends with code 1 if a word is
# missing, with 3 if there is nothing to ask.
sheaf=$1
here=$(cd "$(dirname "$0")" && pwd)
folder=$(mktemp -d) || exit 3
trap 'rm -rf "$folder"' EXIT

"$sheaf" build --class "$here/words-class.yaml" --out "$folder" >/dev/null ||
  exit 3
status=0
for learner in N1 W2 X3; do
  pdf=$folder/words-class/$learner/packet.pdf
  "$sheaf" dump pages "$here/words.yaml" --class "$here/words-class.yaml" \
    --learner $learner >"$folder/dump" || exit 3
  pdftotext "$pdf" "$folder/poppler" || exit 3
  mutool draw -q -F txt -o "$folder/mupdf" "$pdf" 2>/dev/null || exit 3
  gs -q -dNOPAUSE -dBATCH -sDEVICE=txtwrite -sOutputFile="$folder/gs" \
    "$pdf" || exit 3
  case $learner in
    N1) echo "normal spacing:" ;;
    W2) echo "spacing wide:" ;;
    X3) echo "spacing wider:" ;;
  esac
  node "$here/words.mjs" "$pdf" "$folder/dump" poppler="$folder/poppler" \
    MuPDF="$folder/mupdf" Ghostscript="$folder/gs" || status=1
done
exit $status
