#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "driver/check_file.h"
#include "service/service.h"

namespace sheaf {

/// What a text came to at one reading. It owns all that its messages, words
/// and pages point into.
struct TextReading {
  Workspace workspace;
  const SourceFile* file = nullptr;  ///< null where it cannot be read
  std::string fault;                 ///< why not
  FileKind kind = FileKind::lesson;
  Diagnostics diagnostics;
  CheckedFile other;  ///< of kinds other than lessons and layouts
  std::unique_ptr<PreparedLesson> lesson;
  bool composed = false;
  Packet packet;

  explicit TextReading(const Workspace& ground) : workspace(ground) {}
  const Diagnostics& found() const {
    return kind == FileKind::lesson || kind == FileKind::layout
               ? diagnostics
               : other.diagnostics;
  }
  bool has_pages() const {
    return composed && lesson != nullptr && !diagnostics.has_errors();
  }
};

/// What the service knows of one file.
struct Service::State {
  std::unique_ptr<TextReading> now;
  bool fresh = false;  ///< `now` is of the text as it stands
  /// The last reading whose lesson could be read to its end, where `now` has
  /// errors; and the last that made pages. None where it was very large.
  std::unique_ptr<TextReading> whole, paged;

  /// The newest reading with a lesson; null where there never was one.
  const TextReading* with_lesson() const;
  TextReading* with_pages() const;
};

/// Reads what is not fresh.
TextReading& read_now(Service::State& state, const std::string& path,
                      const Workspace& ground, const LessonRequest& request);
/// Makes the pages of a reading with a lesson.
void compose(TextReading& reading, const LessonRequest& request);

/// A page of a packet: the learner's first, then the teacher's.
struct PageOf {
  const Document* document = nullptr;
  const Page* page = nullptr;
};
std::vector<PageOf> all_pages(const Packet& packet);

/// A number that is the same for pages that look alike.
std::uint64_t look_of(const Page& page);

/// Messages as data that stands by itself.
std::vector<ServiceMessage> messages_of(const Diagnostics& diagnostics,
                                        const SourceFile& file);

}  // namespace sheaf
