#pragma once

#include <string>
#include <utility>

#include "files/disk_files.h"
#include "service/service.h"

namespace sheaf::test {

/// A service over what comes with Sheaf, with one text in it. The place that a
/// test is about is marked in the text by ^.
class Marked {
 public:
  explicit Marked(std::string text, std::string path = "/desk/lesson.yaml")
      : path_(std::move(path)) {
    const std::size_t mark = text.find('^');
    if (mark != std::string::npos) text.erase(mark, 1);
    at_ = static_cast<std::uint32_t>(mark == std::string::npos ? 0 : mark);
    text_ = std::move(text);
    service.change(path_, text_);
  }

  const std::string& path() const { return path_; }
  const std::string& text() const { return text_; }
  std::uint32_t at() const { return at_; }

  std::string part(TextRange range) const {
    return text_.substr(range.begin, range.end - range.begin);
  }
  /// The text with edits of this file put in.
  std::string with(const std::vector<FileEdits>& files) const {
    std::string text = text_;
    for (const FileEdits& file : files) {
      if (file.path != path_) continue;
      for (auto edit = file.edits.rbegin(); edit != file.edits.rend(); ++edit) {
        text.replace(edit->range.begin, edit->range.end - edit->range.begin,
                     edit->replacement);
      }
    }
    return text;
  }

  Service service{disk(), SHEAF_SHIPPED};

 private:
  std::string path_, text_;
  std::uint32_t at_ = 0;
};

}  // namespace sheaf::test
