# The first heading of pages as `sheaf dump pages` has them: what a sheet is
# called on paper.

/^ *#[0-9]+ heading1/ && element == "" { element = $1 }

$1 == "text" && $2 == element {
  split($3, place, ",")
  match($0, /pt ".*"/)
  heading = heading (heading == "" || place[2] == line ? "" : " ") \
    substr($0, RSTART + 4, RLENGTH - 5)
  line = place[2]
}

# Another document begins.
/^title/ && heading != "" { exit }

END { print heading }
