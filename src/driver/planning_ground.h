#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "driver/workspace.h"
#include "files/path.h"
#include "planning/block_list.h"
#include "planning/own_sentences.h"

namespace sheaf {

/// The teacher's own list of blocked words, if there is one: the file asked
/// for, else the one in `folder`. Throws MachineError where it is too long.
inline constexpr std::string_view kBlockedFile = "blocked-words.txt";
BlockList own_block_list(Workspace& workspace, const std::string& asked_for,
                         const FilePath& folder);

/// Where the teacher's own sentences come from: the file asked for, else the
/// one in `folder`, if there is one. It is read when it is first asked for;
/// null where there is none or it has errors, which are reported once.
/// `workspace` and `diagnostics` must outlive it.
inline constexpr std::string_view kSentencesFile = "sentences.txt";
std::function<const OwnSentences*()> own_sentences(Workspace& workspace,
                                                   const std::string& asked_for,
                                                   const FilePath& folder,
                                                   Diagnostics& diagnostics);

/// Whether the picture table has a picture of the word that children name so.
bool has_clear_picture(std::string_view word);

}  // namespace sheaf
