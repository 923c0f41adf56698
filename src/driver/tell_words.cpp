#include "driver/tell_words.h"

#include "analysis/words_alone.h"
#include "driver/planning_ground.h"
#include "planning/block_list.h"

namespace sheaf {

void tell_words(Workspace& workspace, const FilePath& folder,
                const Lesson& lesson, Diagnostics& diagnostics) {
  const BlockList own = own_block_list(workspace, "", folder);
  report_words_alone(
      lesson, workspace.phonics(), diagnostics, [&](std::string_view word) {
        return !BlockList::shipped().blocks(word) && !own.blocks(word);
      });
}

}  // namespace sheaf
