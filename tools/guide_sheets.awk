# Parts of the chapter of the sheets in Markdown, from a list of headings (name,
# heading, layouts) and from `sheaf sheets`, which is given twice. With
# part=sheets, each sheet; with part=settings, the settings of a layout.

function begin_table() {
  if (in_table) return
  print "\n| option, with its usual value | what it is |\n| --- | --- |"
  in_table = 1
}

function sentence(text) {
  return toupper(substr(text, 1, 1)) substr(text, 2) "."
}

FILENAME ~ /headings/ {
  split($0, cell, "\t")
  heading[cell[1]] = cell[2]
  layouts[cell[1]] = cell[3]
  next
}

# `sheaf sheets` is read twice: the first time for the lists that lead on.
FNR == 1 { ++times }

times == 1 {
  if (/^[A-Z]/) {
    teacher = /teacher/
    if (!/^Settings/)
      listed[teacher] = "\n| sheet | what it is |\n| --- | --- |\n"
  } else if (/^  [a-z]/) {
    name = substr($1, 1, length($1) - 1)
    listed[teacher] = listed[teacher] "| [" heading[name] "](#" name ") | " \
      substr($0, length(name) + 5) " |\n"
  }
  next
}

/^[A-Z]/ {
  settings = /^Settings/
  teacher = /teacher/
  if (part == "sheets" && !settings) printf "\n## %s\n%s", $0, listed[teacher]
  next
}

settings != (part == "settings") { next }

# A sheet: its name and what it is for.
/^  [a-z]/ {
  name = substr($1, 1, length($1) - 1)
  what = substr($0, length(name) + 5)
  in_table = 0
  printf "\n### %s {#%s}\n\n%s\n\n", heading[name], name, sentence(what)
  if (layouts[name] == "")
    printf "Its name is `%s`. No layout that comes with Sheaf has it: add it to a layout of yours, or ask for it with `--only %s`.\n\n", name, name
  else if (layouts[name] !~ / and /)
    printf "Its name is `%s`. It is in the layout %s.\n\n", name, layouts[name]
  else
    printf "Its name is `%s`. It is in the layouts %s.\n\n", name, layouts[name]
  printf "![The first page of %s: %s](pictures/%s.png)\n", heading[name], what, name
}

# An option: its value begins after the colon, and what it is about in a column
# of its own.
/^    [a-z]/ {
  begin_table()
  option = substr($1, 1, length($1) - 1)
  column = 34
  value = substr($0, length(option) + 7, column - length(option) - 7)
  sub(/ +$/, "", value)
  if (value != "") value = " " value
  text = substr($0, column)
  gsub(/\|/, "\\|", text)
  printf "| `%s:%s` | %s |\n", option, value, text
}
