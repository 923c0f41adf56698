#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// A text file that a teacher wrote, kept whole while Sheaf runs so that any
/// message can show the line it speaks of. Places in it are byte offsets into
/// `text()`, which starts after a byte order mark if there was one.
class SourceFile {
 public:
  /// `name` is the path as the user gave it; it is printed, never opened.
  SourceFile(std::string name, std::string text);

  const std::string& name() const { return name_; }
  /// Whether it is about learners: then no message shows what stands in it,
  /// unless Sheaf knows that it is no name (base/private_text.h). What a file's
  /// name and its text tell of that is known at once.
  bool is_private() const { return private_; }
  /// It is read as a file about learners, whatever it looks like.
  void keep_private() const { private_ = true; }
  const std::string& text() const { return text_; }

  /// A place as people count: lines from 1, columns from 1 in characters as a
  /// reader sees them (a letter with its combining marks is one).
  struct Place {
    int line;
    int column;
  };
  Place place_of(std::uint32_t offset) const;

  /// The text of a line without its line break; `line` counts from 1.
  std::string_view line(int line) const;
  /// Where a line begins; `line` counts from 1.
  std::uint32_t line_begin(int line) const;

 private:
  std::string name_;
  std::string text_;
  std::vector<std::uint32_t> line_begins_;
  mutable bool private_ = false;
};

/// A stretch of one source file: bytes [begin, end). A span without a file
/// stands for a value that nobody wrote (a default).
struct Span {
  static constexpr std::uint32_t kNowhere = 0xFFFFFFFF;

  const SourceFile* file = nullptr;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;

  /// What is about a file and no place in it.
  static Span whole(const SourceFile* file) {
    return {file, kNowhere, kNowhere};
  }
  bool is_whole() const { return begin == kNowhere; }
  explicit operator bool() const { return file != nullptr; }
  std::string_view text() const;
  friend bool operator==(const Span&, const Span&) = default;
};

/// The smallest span that covers both; they must be of one file.
Span join(const Span& a, const Span& b);

/// A value and the place it was read from.
template <typename T>
struct Spanned {
  T value{};
  Span span;

  bool given() const { return static_cast<bool>(span); }
};

}  // namespace sheaf
