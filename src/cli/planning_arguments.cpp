#include "cli/planning_arguments.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/options.h"
#include "base/utf8.h"
#include "cli/files.h"
#include "pictures/picture_words.h"

namespace sheaf {

namespace fs = std::filesystem;

std::optional<PatternId> pattern_argument(const std::string& name,
                                          const Phonics& phonics) {
  const PatternSearch search = phonics.patterns().find(name);
  if (search.found.size() == 1) return search.found.front();
  if (search.found.empty()) {
    const std::string nearest = did_you_mean(search.nearest);
    fmt::print(stderr, "sheaf: there is no pattern called {}; {}\n",
               sheaf::quoted(name),
               nearest.empty() ? "`sheaf patterns` lists them" : nearest);
  } else {
    fmt::print(stderr, "sheaf: {} could be one of these:\n",
               sheaf::quoted(name));
    for (const PatternId id : search.found) {
      const Pattern& p = phonics.patterns()[id];
      fmt::print(stderr, "  {:<16} {}\n", p.id, p.name);
    }
  }
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
  const fs::path path =
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

BlockList own_block_list(Workspace& workspace, const std::string& asked_for,
                         const fs::path& folder) {
  BlockList list;
  const fs::path path =
      asked_for.empty() ? folder / kBlockedFile : fs::path(asked_for);
  if (!asked_for.empty() || workspace.has_file(path)) {
    list.add(workspace.open(path).text());
  }
  return list;
}

bool has_clear_picture(std::string_view word) {
  const PictureWord* row = find_picture_word(word);
  return row != nullptr && row->clear;
}

}  // namespace sheaf
