#!/bin/sh
# Sends the packet of a lesson, or all packets of a class, to the printer: on
# both sides of the paper, turned on the long edge, at the size that was laid
# out. `make print` calls it. Everything comes from the environment, and every
# name is passed on as it is: SHEAF_LESSON (NAME for lessons/NAME.yaml), SHEAF,
# and PAPER, PRINTER and DRY where they are set.
set -u
lesson=${SHEAF_LESSON:-}

visible() {
  LC_ALL=C tr '[:cntrl:]' '?'
}

list_lessons() {
  for file in lessons/*.yaml; do
    [ -f "$file" ] || continue
    name=${file#lessons/}
    printf '%s' "${name%.yaml}" | visible
    echo
  done
}

# As a shell would have to be told it, but for control characters.
quoted() {
  case $1 in
    *[!A-Za-z0-9_./=:-]*)
      printf " '"
      printf '%s' "$1" | sed "s/'/'\\\\''/g" | visible
      printf "'"
      ;;
    *) printf ' %s' "$1" ;;
  esac
}

if [ -z "$lesson" ]; then
  {
    echo "Which lesson? Say make print LESSON=NAME, with one of these names:"
    list_lessons
  } >&2
  exit 1
fi
file=lessons/$lesson.yaml
if ! [ -f "$file" ]; then
  {
    printf 'There is no %s; there are:\n' "$(printf '%s' "$file" | visible)"
    list_lessons
  } >&2
  exit 1
fi

case $lesson in
  */*) out=out/${lesson%/*} ;;
  *) out=out ;;
esac
set -- build --if-needed --out "$out"
[ -z "${PAPER:-}" ] || set -- "$@" --paper "$PAPER"
"$SHEAF" "$@" "$file" >/dev/null || exit

packet=$out/${lesson##*/}/packet.pdf
packets=$out/${lesson##*/}/packets.pdf
if [ -f "$packets" ] && ! [ "$packet" -nt "$packets" ]; then
  packet=$packets
fi
set -- -o sides=two-sided-long-edge -o print-scaling=none "$packet"
[ -z "${PRINTER:-}" ] || set -- -d "$PRINTER" "$@"
printf lp
for word; do quoted "$word"; done
echo
[ -z "${DRY:-}" ] || exit 0
by_hand="open $(printf '%s' "$packet" | visible) and print it double-sided, without scaling."
command -v lp >/dev/null || {
  printf 'There is no print command (lp) here. Install cups-client, or %s\n' \
    "$by_hand"
  exit 1
}
[ -n "${PRINTER:-}" ] || lpstat -d 2>/dev/null | grep -q : ||
  lpstat -e 2>/dev/null | grep -q . || {
  printf 'There is no printer set up here. Add one in the system settings, '
  printf 'or %s\n' "$by_hand"
  exit 1
}
exec lp "$@"
