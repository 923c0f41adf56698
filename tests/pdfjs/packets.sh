#!/bin/sh
# packets.sh SCRIPT PDF...: two readers of other makers, pdf.js (through
# reading_order.mjs, given as SCRIPT) and poppler, must tell the same texts in
# the same order, each under the same tag. Not compared is what differs by the
# readers' ways: spaces (pdf.js tells the no-break ones as plain ones), tags
# without text, and that pdf.js tells the way down to a piece anew on each page.
script=$1
shift
folder=$(mktemp -d) || exit 3
trap 'rm -rf "$folder"' EXIT

# A line for each text, with the tag that is above it.
texts() {
  sed -E -e '/^ *\/[A-Z]/d' -e 's/ \((block|inline|table|list)\)//' \
    -e '/^ *[A-Z][A-Za-z0-9]*:$/s/:$//' -e 's/ //g' -e 's/\xC2\xA0//g' |
    awk '/^"/ { if ($0 != "\"\"") print tag, $0; next } { tag = $0 }'
}

status=0
for pdf; do
  pdfinfo -struct-text "$pdf" | texts >"$folder/poppler"
  node "$script" "$pdf" 2>/dev/null | sed -n -e '/^Document$/,$p' |
    texts >"$folder/pdfjs"
  if [ -s "$folder/pdfjs" ] &&
    diff "$folder/poppler" "$folder/pdfjs" >"$folder/differences"; then
    echo "$pdf: $(wc -l <"$folder/pdfjs") texts agree"
  else
    status=1
    echo "$pdf: poppler (<) and pdf.js (>) differ"
    head -n 20 "$folder/differences"
  fi
done
exit $status
