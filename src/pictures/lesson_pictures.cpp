#include "pictures/lesson_pictures.h"

#include "base/utf8.h"

namespace sheaf {

void LessonPictures::add(std::string_view word, Picture picture) {
  kept_.push_back(std::make_unique<Picture>(std::move(picture)));
  add(word, kept_.back().get());
}

void LessonPictures::add(std::string_view word, const Picture* picture) {
  own_.insert_or_assign(lower_case(word), picture);
}

const Picture* LessonPictures::find(std::string_view word) const {
  const auto found = own_.find(lower_case(word));
  return found == own_.end() ? book_->find(word) : found->second;
}

bool LessonPictures::has(std::string_view word) const {
  return own_.contains(lower_case(word)) || find_picture_word(word) != nullptr;
}

bool LessonPictures::is_clear(std::string_view word) const {
  if (own_.contains(lower_case(word))) return true;
  const PictureWord* row = find_picture_word(word);
  return row != nullptr && row->clear;
}

}  // namespace sheaf
