// `sheaf explain`: what a kind of message means, with an example that is wrong
// and the same mended. The examples are those of the goldens.

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "base/diagnostics.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/tables.h"
#include "cli/verbs.h"
#include "phonics/table_text.h"

namespace sheaf {

namespace {

enum Column : std::size_t { kName, kGolden, kWrong, kMended, kText };

// Lines of a file as a cell of the table has them.
std::string lines_in(std::string_view cell) {
  std::string text;
  for (std::size_t at = 0; at < cell.size(); ++at) {
    const char sign =
        cell[at] == '\\' && at + 1 < cell.size() ? cell[at + 1] : '\0';
    int byte = 0;
    if (sign == 'n' || sign == 't') {
      text += sign == 'n' ? '\n' : '\t';
      ++at;
    } else if (sign == 'x' && at + 4 <= cell.size()) {
      const char* digits = cell.data() + at + 2;
      std::from_chars(digits, digits + 2, byte, 16);
      text += static_cast<char>(byte);
      at += 3;
    } else {
      text += cell[at];
    }
  }
  return text;
}

void print_example(std::string_view heading, const std::string& text) {
  fmt::print("{}\n", heading);
  for (std::string_view line : split_at(text, '\n')) {
    if (line.empty()) continue;
    // A tab is wide, and nobody would see it otherwise.
    const std::size_t tabs =
        std::min(line.find_first_not_of('\t'), line.size());
    line.remove_prefix(tabs);
    std::string shown;
    for (std::size_t i = 0; i < tabs; ++i) shown += "(tab) ";
    shown += printable(line);
    constexpr std::size_t kLongest = 70;
    const auto parts = characters(shown);
    if (parts.size() > kLongest) {
      shown.resize(
          static_cast<std::size_t>(parts[kLongest].data() - shown.data()));
      shown += "…";
    }
    fmt::print("    {}\n", shown);
  }
}

void print_paragraph(std::string_view text) {
  constexpr int kWidest = 78;
  int width = 0;
  for (const std::string_view word : split_at(text, ' ')) {
    const int size = display_width(word);
    if (width > 0 && width + 1 + size > kWidest) {
      fmt::print("\n");
      width = 0;
    }
    fmt::print("{}{}", width > 0 ? " " : "", word);
    width += size + (width > 0 ? 1 : 0);
  }
  fmt::print("\n");
}

void print_explanation(const DiagnosticName& name) {
  const std::vector<TableRow> rows = table_rows(messages_table());
  const auto row = std::ranges::find_if(
      rows, [&](const TableRow& r) { return r.cell(kName) == name.name; });
  fmt::print("{}: {}\n\n", name.name, name.meaning);
  if (row == rows.end()) return;
  print_paragraph(row->cell(kText));
  fmt::print("\n");
  print_example("Wrong:", lines_in(row->cell(kWrong)));
  if (row->cell(kMended).empty()) {
    fmt::print("Mended: without it\n");
  } else {
    print_example("Mended:", lines_in(row->cell(kMended)));
  }
}

void print_list() {
  std::size_t widest = 0;
  for (const DiagnosticName& name : diagnostic_names()) {
    widest = std::max(widest, name.name.size());
  }
  for (const DiagnosticName& name : diagnostic_names()) {
    fmt::print("{:<{}}  {}\n", name.name, widest, name.meaning);
  }
}

// As a message shows it, in brackets, or without.
std::string_view without_brackets(std::string_view name) {
  if (name.size() > 2 && name.starts_with('[') && name.ends_with(']')) {
    name = name.substr(1, name.size() - 2);
  }
  return name;
}

const DiagnosticName* find_name(std::string_view name) {
  const auto names = diagnostic_names();
  const auto found = std::ranges::find(names, name, &DiagnosticName::name);
  return found == names.end() ? nullptr : &*found;
}

}  // namespace

int run_explain(const CommandLine& line) {
  if (line.arguments.empty()) {
    print_list();
    return kDone;
  }
  bool good = true;
  bool first = true;
  for (const std::string& given : line.arguments) {
    const std::string_view wanted = without_brackets(given);
    if (const DiagnosticName* name = find_name(wanted)) {
      if (!std::exchange(first, false)) fmt::print("\n");
      print_explanation(*name);
      continue;
    }
    std::vector<std::string_view> names;
    for (const DiagnosticName& name : diagnostic_names()) {
      names.push_back(name.name);
    }
    const Help near = did_you_mean(wanted, names);
    fmt::print(stderr, "sheaf: there is no message named {}; {}\n",
               quoted(wanted),
               near.empty() ? "`sheaf explain` lists them" : near.text);
    good = false;
  }
  return good ? kDone : kWrongCommandLine;
}

}  // namespace sheaf
