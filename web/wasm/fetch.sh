#!/bin/sh
# Downloads the sources of sources.tsv with apt's own tools from where this
# machine has its packages from, checks them and unpacks them.
#
#   fetch.sh FOLDER    unpacks each into FOLDER/NAME; archives stay in
#                      FOLDER/archives (but LLVM's, of which little is needed)
#
# Without a network it is enough to put the archives there by hand. What is
# unpacked already is left alone.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
folder=${1:?"name the folder for the sources"}
mkdir -p "$folder/archives"
folder=$(cd "$folder" && pwd)
tab=$(printf '\t')

rows() { grep -v '^#' "$here/sources.tsv"; }

fail() {
  echo "fetch.sh: $1" >&2
  shift
  for line in "$@"; do echo "  $line" >&2; done
  exit 1
}

is_whole() {  # archive, checksum
  [ -f "$folder/archives/$1" ] &&
    echo "$2  $folder/archives/$1" | sha256sum --check --status 2>/dev/null
}

# The mark of what is unpacked is the checksum it came from, and which folders.
is_unpacked() {  # name, checksum, folders
  [ "$(cat "$folder/$1/.unpacked" 2>/dev/null)" = "$2 $3" ]
}

# ---- where from ------------------------------------------------------------
# The machine's lists of binary packages, with deb-src in place of deb: nothing
# of the machine's own settings is changed.
apt_folder="$folder/apt"
apt() {
  "$@" -o Dir::Etc::SourceList="$apt_folder/sources.list" \
    -o Dir::Etc::SourceParts=/dev/null \
    -o Dir::State::Lists="$apt_folder/lists" \
    -o Dir::Cache="$apt_folder/cache" -o APT::Sandbox::User=root
}
find_addresses() {
  command -v apt-get >/dev/null ||
    fail "the sources come with apt-get, which is not here." \
      "Put the archives of web/wasm/sources.tsv into $folder/archives by hand."
  mkdir -p "$apt_folder/lists/partial" "$apt_folder/cache/archives/partial"
  apt-get indextargets --format \
    '$(REPO_URI)|$(RELEASE)|$(COMPONENT)|$(ORIGIN)|$(CREATED_BY)|$(SIGNED_BY)' |
    awk -F'|' '$4 == "Debian" && $5 == "Packages" {
        print "deb-src", ($6 ~ "^/" ? "[signed-by=" $6 "] " : "") $1, $2, $3
      }' | sort -u >"$apt_folder/sources.list"
  [ -s "$apt_folder/sources.list" ] ||
    fail "apt knows no Debian archive." "Run apt-get update first."
  apt apt-get update -q >"$apt_folder/update.log" 2>&1 ||
    fail "the lists of source packages cannot be read:" \
      "$(tail -n 3 "$apt_folder/update.log")"
  # Asked one by one: a package that is not found must not hide the others. And
  # in every release: a mirror may have an archive in one of them only.
  releases=$(sed 's/\[[^]]*\] //' "$apt_folder/sources.list" |
    cut -d' ' -f3 | sort -u)
  rows | while IFS=$tab read -r name package rest; do
    for release in $releases; do
      apt apt-get source --print-uris --only-source -t "$release" "$package" \
        2>/dev/null | grep "^'.*orig" || true
    done
  done >"$apt_folder/addresses"
}

download() {  # name, package, archive, checksum
  [ -f "$apt_folder/asked" ] || find_addresses
  : >"$apt_folder/asked"
  addresses=$(awk -v file="$3" '$2 == file { gsub("\047", "", $1); print $1 }' \
    "$apt_folder/addresses")
  [ -n "$addresses" ] ||
    fail "$3 is not among this machine's source packages." \
      "Its release may have another version of $2, or none. Put the archive" \
      "into $folder/archives by hand, or pin in" \
      "web/wasm/sources.tsv what the machine has:" \
      "$(grep -o "$2_[^ ]*orig[^ ]*" "$apt_folder/addresses" | head -n 1)"
  echo "Downloading $3"
  # The same archive may be in the release and among its security updates, and
  # a mirror may lack one of them.
  for address in $addresses; do
    if apt /usr/lib/apt/apt-helper download-file "$address" \
        "$folder/archives/$3.part" "SHA256:$4" >"$apt_folder/download.log" 2>&1
    then
      mv "$folder/archives/$3.part" "$folder/archives/$3"
      return
    fi
    rm -f "$folder/archives/$3.part"
  done
  fail "$3 cannot be downloaded:" "$(tail -n 3 "$apt_folder/download.log")" \
    "Run it again, or put the archive into $folder/archives by hand."
}

# ---- each of them ----------------------------------------------------------
rm -f "$apt_folder/asked"
rows | while IFS=$tab read -r name package archive checksum wanted; do
  if is_unpacked "$name" "$checksum" "$wanted"; then continue; fi
  if ! is_whole "$archive" "$checksum"; then
    rm -f "$folder/archives/$archive"
    download "$name" "$package" "$archive" "$checksum"
    is_whole "$archive" "$checksum" ||
      fail "$archive is not the file that web/wasm/sources.tsv means:" \
        "its SHA-256 is another."
  fi
  echo "Unpacking $name"
  rm -rf "${folder:?}/$name"
  mkdir "$folder/$name"
  top=$(tar -tf "$folder/archives/$archive" 2>/dev/null | head -n 1 | cut -d/ -f1)
  set --
  if [ "$wanted" != - ]; then
    for part in $wanted; do set -- "$@" "$top/$part"; done
  fi
  tar -xf "$folder/archives/$archive" -C "$folder/$name" --strip-components=1 \
    "$@" || fail "$archive cannot be unpacked."
  printf '%s %s' "$checksum" "$wanted" >"$folder/$name/.unpacked"
  # 160 MB of which a hundredth is wanted.
  [ "$name" != llvm ] || rm -f "$folder/archives/$archive"
done
