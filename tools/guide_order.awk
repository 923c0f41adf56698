# `sheaf sheets` in the order of teaching: first the sheets of the layout that is
# given before it, as they stand there, then the others.

FILENAME ~ /\.yaml$/ {
  if (/^  - [a-z-]+:?( |$)/) {
    sub(/:$/, "", $2)
    order[++count] = $2
  }
  next
}

# A line that heads a part of the list.
/^[A-Z]/ {
  part = ++parts
  head[part] = $0
  name = ""
  next
}

/^  [a-z]/ {
  name = substr($1, 1, length($1) - 1)
  if (!(name in placed)) order[++count] = name
  placed[name] = part
}

# Settings stand under no sheet.
{ block[part, name] = block[part, name] $0 "\n" }

END {
  for (part = 1; part <= parts; ++part) {
    print head[part]
    printf "%s", block[part, ""]
    for (i = 1; i <= count; ++i) {
      if (!((part, order[i]) in block) || done[part, order[i]]++) continue
      printf "%s", block[part, order[i]]
    }
  }
}
