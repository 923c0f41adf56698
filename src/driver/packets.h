#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "driver/class_job.h"
#include "driver/workspace.h"
#include "files/path.h"

namespace sheaf {

/// A PDF file of a packet.
struct PacketFile {
  FilePath name;  ///< below the packet's folder
  std::string bytes;
};

/// The pages of a lesson or a class, ready to be written. What its messages
/// point to belongs to the workspace.
struct MadePackets {
  Diagnostics diagnostics;
  std::vector<PacketFile> files;  ///< none where there is an error
  std::size_t learners = 0;       ///< of a class
  std::size_t learner_pages = 0, teacher_pages = 0;

  bool good() const { return !diagnostics.has_errors(); }
};

/// The learner's and the teacher's pages of a lesson; with `separate`, a file
/// for each sheet besides. `folder` is where the files that it names lie.
MadePackets make_lesson_packets(Workspace& workspace,
                                const LessonRequest& request,
                                const SourceFile& file, const FilePath& folder,
                                bool separate);

/// A packet for each learner of a class file, all of them in one file for the
/// printer, and the teacher's pages. Where only some learners are asked for,
/// the names of the files that have all of those say so
/// ("packets-for-B7-C3.pdf"); of one learner there are none. Learners are
/// shared out to `workers` threads; the pages are the same whatever their
/// number. `step` is called after each learner, on the calling thread.
MadePackets make_class_packets(Workspace& workspace,
                               const ClassRequest& request,
                               const std::string& path, int workers,
                               const std::function<void(std::size_t of)>& step);

}  // namespace sheaf
