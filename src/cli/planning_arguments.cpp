#include "cli/planning_arguments.h"

#include <fmt/format.h>

#include "analysis/pattern_names.h"
#include "base/error.h"
#include "base/nearest.h"
#include "base/options.h"
#include "base/utf8.h"
#include "cli/messages.h"
#include "files/files.h"
#include "pictures/picture_words.h"

namespace sheaf {

namespace {

void print_unclear(const PatternName& name, std::string_view written,
                   const PatternCatalogue& catalogue) {
  const PatternFault fault = fault_of(name, written, catalogue);
  if (name.could_be.empty()) {
    fmt::print(stderr, "sheaf: {}; {}\n", fault.text, fault.help.text);
    return;
  }
  fmt::print(stderr, "sheaf: {}; {}\n", fault.text,
             name.is_group               ? "name one of them:"
             : name.could_be.size() == 1 ? "did you mean this one?"
                                         : "did you mean one of these?");
  for (const PatternId id : name.could_be) {
    const Pattern& p = catalogue[id];
    fmt::print(stderr, "  {:<16} {:<44} {}\n", p.id, p.name, p.example);
  }
}

}  // namespace

std::optional<std::vector<PatternId>> pattern_arguments(
    const std::string& name, const Phonics& phonics) {
  std::vector<PatternId> ids;
  bool clear = true;
  for (const PatternName& part : phonics.find_patterns(name)) {
    if (part.meant) {
      ids.push_back(*part.meant);
      continue;
    }
    clear = false;
    print_unclear(
        part, std::string_view(name).substr(part.begin, part.end - part.begin),
        phonics.patterns());
  }
  if (clear) return ids;
  return std::nullopt;
}

std::optional<Conventions> accent_argument(const std::string& accent) {
  Conventions conventions;
  if (accent.empty()) return conventions;
  const auto fault = set_convention(conventions, "accent", accent);
  if (!fault) return conventions_for(conventions.accent);
  fmt::print(stderr, "sheaf: {}; {}\n", fault.text, fault.help.text);
  return std::nullopt;
}

std::optional<Range> range_argument(const std::string& text,
                                    std::string_view option) {
  Range range;
  if (text.empty()) return range;
  const std::size_t dash = text.find('-');
  const auto least = read_count(text.substr(0, dash));
  const auto most =
      dash == std::string::npos ? least : read_count(text.substr(dash + 1));
  if (least && most && *least <= *most) return Range{*least, *most};
  fmt::print(stderr,
             "sheaf: {} has `{}` after it; write a count or two with a dash "
             "between them, as in 1-2\n",
             option, text);
  return std::nullopt;
}

std::optional<Taught> taught_argument(Workspace& workspace,
                                      const CommandLine::Planning& planning) {
  if (planning.step.empty() && planning.sequence.empty()) return Taught();
  const FilePath path =
      planning.sequence.empty() ? "sequence.yaml" : planning.sequence;
  Diagnostics diagnostics;
  const SequenceFile* sequence = workspace.sequence(path, diagnostics);
  if (sequence != nullptr) {
    const SequenceStep* step = planning.step.empty()
                                   ? &sequence->steps.back()
                                   : find_step(*sequence, planning.step);
    if (step == nullptr) {
      fmt::print(stderr, "sheaf: {} has no step {}\n", printable(path.string()),
                 sheaf::quoted(planning.step));
      return std::nullopt;
    }
    Taught taught =
        taught_at(*sequence, static_cast<int>(step - sequence->steps.data()),
                  workspace.phonics(), diagnostics);
    print(diagnostics);
    if (!diagnostics.has_errors()) return taught;
    return std::nullopt;
  }
  print(diagnostics);
  return std::nullopt;
}

}  // namespace sheaf
