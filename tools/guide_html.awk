# What the guide asks of its pages beyond Markdown: headings that can be linked
# to ("## Title {#name}" gives the name, else the title does), links to pages in
# place of Markdown files, a label over each block of code, blocks that can be
# scrolled with the keyboard, and pictures that say how large they are.

# Sizes of the pictures: name, width and height. A page that knows them does not
# jump while it loads.
BEGIN {
  while ((getline line < sizes) > 0) {
    split(line, cell, " ")
    width_of[cell[1]] = " width=\"" cell[2] "\" height=\"" cell[3] "\"" \
      (cell[2] > cell[3] ? " class=\"wide\"" : "")
  }
}

function name_of(title) {
  gsub(/<[^>]*>|&[a-z]+;/, "", title)
  title = tolower(title)
  gsub(/[^a-z0-9]+/, "-", title)
  gsub(/^-|-$/, "", title)
  return title
}

/^<h[1-6]>/ {
  level = substr($0, 3, 1)
  title = substr($0, 5)
  sub(/<\/h[1-6]>.*/, "", title)
  name = name_of(title)
  if (match(title, / \{#[a-z0-9-]+\}$/)) {
    name = substr(title, RSTART + 3, RLENGTH - 4)
    title = substr(title, 1, RSTART - 1)
  }
  printf "<h%s id=\"%s\">%s</h%s>\n", level, name, title, level
  next
}

/^<pre><code class="language-/ {
  match($0, /language-[a-z]+/)
  kind = substr($0, RSTART + 9, RLENGTH - 9)
  meta = ""
  if (match($0, /data-meta="[^"]*"/))
    meta = substr($0, RSTART + 11, RLENGTH - 12)
  sub(/ data-meta="[^"]*"/, "")
  label = ""
  if (kind == "sh") label = "Type this:"
  if (kind == "text") label = "Sheaf answers:"
  if (kind == "yaml" && meta != "") label = "The file <code>" meta "</code>:"
  if (label != "") printf "<p class=\"label\">%s</p>\n", label
  sub(/<pre>/, "<pre class=\"" kind "\" tabindex=\"0\">")
}

# A narrow window shows the cells of a row below each other (guide.css). Roles
# keep them a table for those who hear it.
/^<t(able|r|h|d)>/ {
  sub(/^<table>/, "<table role=\"table\">")
  sub(/^<tr>/, "<tr role=\"row\">")
  sub(/^<th>/, "<th role=\"columnheader\" scope=\"col\">")
  sub(/^<td>/, "<td role=\"cell\">")
}

/<img / {
  match($0, /pictures\/[a-z-]+/)
  name = substr($0, RSTART + 9, RLENGTH - 9)
  gsub(/<img /, "<img" width_of[name] " loading=\"lazy\" ")
}

/href="[a-z-]+\.md/ { $0 = with_pages($0) }

function with_pages(line,    done, at) {
  done = ""
  while (match(line, /href="[a-z-]+\.md/)) {
    done = done substr(line, 1, RSTART + RLENGTH - 4) ".html"
    line = substr(line, RSTART + RLENGTH)
  }
  return done line
}

{ print }
