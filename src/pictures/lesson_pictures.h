#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "pictures/picture_book.h"

namespace sheaf {

/// The pictures that one lesson may use: the teacher's own first, then those
/// that come with Sheaf. Pages hold plain pointers into it and into the book.
class LessonPictures {
 public:
  /// `book` must outlive it.
  explicit LessonPictures(PictureBook& book) : book_(&book) {}

  /// A picture of the teacher's for a word.
  void add(std::string_view word, Picture picture);
  /// A picture of the book for a word that the lesson names another for.
  void add(std::string_view word, const Picture* picture);

  /// Null where the word has none.
  const Picture* find(std::string_view word) const;
  /// Whether it has one, told without making it.
  bool has(std::string_view word) const;
  /// Whether most children would say the word on seeing its picture: the
  /// teacher's own, or one that the table calls clear.
  bool is_clear(std::string_view word) const;

 private:
  PictureBook* book_;
  std::map<std::string, const Picture*, std::less<>> own_;
  std::vector<std::unique_ptr<Picture>> kept_;
};

}  // namespace sheaf
