#include "driver/planning_ground.h"

#include <fmt/format.h>

#include <memory>
#include <optional>

#include "base/error.h"
#include "pictures/picture_words.h"

namespace sheaf {

BlockList own_block_list(Workspace& workspace, const std::string& asked_for,
                         const FilePath& folder) {
  BlockList list;
  const FilePath path =
      asked_for.empty() ? folder / kBlockedFile : FilePath(asked_for);
  if (!asked_for.empty() || workspace.has_file(path)) {
    const std::string& text = workspace.open(path).text();
    if (text.size() > kLargestBlockedList) {
      throw MachineError(
          fmt::format("the list of words not to suggest, {}, is longer than {} "
                      "kB; take some out",
                      path.string(), kLargestBlockedList >> 10U));
    }
    list.add(text);
  }
  return list;
}

std::function<const OwnSentences*()> own_sentences(Workspace& workspace,
                                                   const std::string& asked_for,
                                                   const FilePath& folder,
                                                   Diagnostics& diagnostics) {
  const FilePath path =
      asked_for.empty() ? folder / kSentencesFile : FilePath(asked_for);
  const bool must_be_there = !asked_for.empty();
  // Copies ask once all together.
  const auto known = std::make_shared<std::optional<const OwnSentences*>>();
  return [&workspace, &diagnostics, path, must_be_there, known] {
    if (!*known) {
      *known = must_be_there || workspace.has_file(path)
                   ? workspace.sentences(path, diagnostics)
                   : nullptr;
    }
    return **known;
  };
}

bool has_clear_picture(std::string_view word) {
  const PictureWord* row = find_picture_word(word);
  return row != nullptr && row->clear;
}

}  // namespace sheaf
