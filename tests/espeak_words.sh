#!/bin/sh
# Writes a table of the plain words of SCOWL up to size 35 and what eSpeak NG
# (voice en-gb) says for each. Usage: espeak_words.sh ESPEAK SCOWL OUT
set -eu
espeak=$1
scowl=$2
out=$3
LC_ALL=C
export LC_ALL
for size in 10 20 35; do
  cat "$scowl/english-words.$size" "$scowl/american-words.$size"
done | grep '^[a-z][a-z]*$' | sort -u >"$out.words"
"$espeak" -v en-gb -q --ipa --sep=_ <"$out.words" >"$out.said"
if [ "$(wc -l <"$out.words")" != "$(wc -l <"$out.said")" ]; then
  echo "espeak-ng did not answer word by word" >&2
  exit 1
fi
paste "$out.words" "$out.said" >"$out.part"
rm "$out.words" "$out.said"
mv "$out.part" "$out"
