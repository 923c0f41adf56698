#!/bin/sh
# print.sh LESSON: prints a packet with `make print` through CUPS to an IPP
# Everywhere printer, all of them private and on loopback, and looks at what the
# printer got: every page as it was, on both sides, not scaled. Needs (Debian)
# cups, cups-ipp-utils, dbus and poppler-utils; CUPS wants to be run by root.
set -u
lesson=$1
packet=out/$lesson/packet.pdf
printer_port=${PRINTER_PORT:-8631} server_port=${SERVER_PORT:-8632}
for tool in cupsd lpadmin ippeveprinter ipptool dbus-daemon pdftoppm; do
  command -v $tool >/dev/null || {
    echo "This check needs $tool: apt-get install cups cups-ipp-utils dbus"
    exit 1
  }
done
[ "$(id -u)" = 0 ] || {
  echo "This check needs root: CUPS gives its files to other users"
  exit 1
}
folder=$(mktemp -d) || exit 3
chmod 755 "$folder"
started=
finish() {
  for process in $started; do kill "$process" 2>/dev/null; done
  wait
  rm -rf "$folder"
}
trap finish EXIT
trap 'exit 130' INT TERM
fail() {
  echo "$*"
  tail -n 20 "$folder"/*.log
  exit 1
}

# The printer makes itself known through a system bus: one of its own.
cat >"$folder/bus.conf" <<END
<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN"
 "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig>
  <type>custom</type>
  <listen>unix:path=$folder/bus</listen>
  <policy context="default">
    <allow send_destination="*" eavesdrop="true"/>
    <allow receive_sender="*" eavesdrop="true"/>
    <allow own="*"/>
  </policy>
</busconfig>
END
dbus-daemon --config-file="$folder/bus.conf" --nofork >"$folder/bus.log" 2>&1 &
started="$started $!"
export DBUS_SYSTEM_BUS_ADDRESS="unix:path=$folder/bus"

mkdir "$folder/paper"
for attempt in 1 2 3 4 5 6 7 8 9 10; do
  [ -S "$folder/bus" ] && break
  sleep 0.3
done
# A fast printer: this is about the file.
ippeveprinter -2 -r off -k -d "$folder/paper" -f application/pdf -s 1000,0 \
  -n localhost -p "$printer_port" "Sheaf test" >"$folder/printer.log" 2>&1 &
started="$started $!"

for part in root spool spool/tmp cache state log; do
  mkdir "$folder/$part"
done
cat >"$folder/cupsd.conf" <<END
Listen localhost:$server_port
Browsing Off
WebInterface No
DefaultAuthType None
<Location />
  Order allow,deny
  Allow localhost
</Location>
<Policy default>
  <Limit All>
    Order allow,deny
    Allow localhost
  </Limit>
</Policy>
END
cat >"$folder/cups-files.conf" <<END
ServerRoot $folder/root
RequestRoot $folder/spool
TempDir $folder/spool/tmp
CacheDir $folder/cache
StateDir $folder/state
AccessLog $folder/log/access
ErrorLog $folder/cups.log
PageLog $folder/log/page
SystemGroup root
END
cupsd -f -c "$folder/cupsd.conf" -s "$folder/cups-files.conf" \
  >"$folder/server.log" 2>&1 &
started="$started $!"

export CUPS_SERVER="localhost:$server_port"
printer="ipp://localhost:$printer_port/ipp/print"
for attempt in 1 2 3 4 5 6 7 8 9 10; do
  lpadmin -p sheaf -E -v "$printer" -m everywhere 2>"$folder/lpadmin.log" &&
    break
  [ "$attempt" = 10 ] && fail "no queue could be made"
  sleep 0.5
done

make -s print LESSON="$lesson" PRINTER=sheaf || fail "make print failed"
cat >"$folder/job.test" <<'END'
{
  OPERATION Get-Job-Attributes
  GROUP operation-attributes-tag
  ATTR charset attributes-charset utf-8
  ATTR naturalLanguage attributes-natural-language en
  ATTR uri printer-uri $uri
  ATTR integer job-id 1
  STATUS successful-ok
}
END
attempt=0
until ipptool -tv "$printer" "$folder/job.test" >"$folder/job.log" 2>&1 &&
  grep -q 'job-state (enum) = completed' "$folder/job.log"; do
  attempt=$((attempt + 1))
  [ $attempt = 120 ] && fail "the printer did not end the job"
  sleep 0.5
done
grep -q 'sides (keyword) = two-sided-long-edge' "$folder/job.log" ||
  fail "the printer was not told to use both sides"

# CUPS writes the file anew (its filter pdftopdf); the pages must be the same.
got=$(ls "$folder"/paper/*.pdf) || fail "the printer got no PDF"
for file in "$got" "$packet"; do
  pdfinfo "$file" | grep -E '^(Pages|Page size|Tagged):'
  pdftoppm -r 60 -gray "$file" "$folder/page"
  cat "$folder"/page-*.pgm | cksum
  pdftotext -layout "$file" - | cksum
  rm "$folder"/page-*.pgm
done >"$folder/seen"
[ "$(head -n 5 "$folder/seen")" = "$(tail -n 5 "$folder/seen")" ] || {
  cat "$folder/seen"
  fail "the printer got other pages"
}
echo "The printer got $packet as it is, for both sides: $(
  pdfinfo "$got" | grep '^Pages:' | tr -s ' ')"
