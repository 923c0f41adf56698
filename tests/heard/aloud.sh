#!/bin/sh
# Lets eSpeak NG read what is heard of a document: each line of FILE, a tab, and
# how it is said, in the letters of the IPA. With -w the speech itself goes into
# FOLDER/NAME.wav instead. The voice follows the line "language: ..." of FILE,
# or -v.
#
#   tests/heard/aloud.sh tests/heard/gaps.txt
#   tests/heard/aloud.sh -w out/speech tests/heard/*.txt
set -eu
usage="usage: aloud.sh [-v VOICE] [-w FOLDER] FILE..."
voice=
folder=
while getopts v:w: option; do
  case $option in
    v) voice=$OPTARG ;;
    w) folder=$OPTARG ;;
    *) echo "$usage" >&2; exit 2 ;;
  esac
done
shift $((OPTIND - 1))
[ $# -gt 0 ] || { echo "$usage" >&2; exit 2; }

# eSpeak NG has no Australian voice; those of its regions of English are these.
voice_of() {
  case $(sed -n 's/^language: *//p' "$1" | head -n 1) in
    en-GB-scotland* | en-gb-scotland*) echo en-gb-scotland ;;
    en-GB* | en-AU* | en-NZ* | en-IE*) echo en-gb ;;
    *) echo en-us ;;
  esac
}

# One call for all lines. A word between them, as a paragraph of its own, tells
# which of the clauses that come back belong to which line.
between=xylophone
spoken() {
  between_said=$(echo "$between" | espeak-ng -v "$1" -q --ipa | tr -d ' ')
  sed "s/^ *//; s/\$/\n\n$between\n/" "$2" |
    espeak-ng -v "$1" -q --ipa |
    awk -v between="$between_said" '
      { bare = $0; gsub(/ /, "", bare) }
      bare == between { print said; said = ""; next }
      bare != "" { sub(/^ */, ""); said = said (said == "" ? "" : " | ") $0 }'
}

for file; do
  say=${voice:-$(voice_of "$file")}
  if [ -n "$folder" ]; then
    mkdir -p "$folder"
    name=${file##*/}
    espeak-ng -v "$say" -w "$folder/${name%.txt}.wav" -f "$file"
  else
    said=$(mktemp)
    spoken "$say" "$file" >"$said"
    if [ "$(wc -l <"$file")" != "$(wc -l <"$said")" ]; then
      rm "$said"
      echo "espeak-ng did not answer line by line: $file" >&2
      exit 1
    fi
    paste "$file" "$said"
    rm "$said"
  fi
done
