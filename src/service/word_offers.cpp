#include "service/word_offers.h"

#include <set>

#include "base/utf8.h"
#include "pictures/picture_book.h"
#include "service/text_context.h"

namespace sheaf {

namespace {

// Those that stand in the text now; a lesson that was read may be of an
// earlier one.
std::vector<PatternId> patterns_in(std::string_view text,
                                   const Phonics& phonics) {
  std::vector<PatternId> patterns;
  for (const KeyLine& key : key_lines(text)) {
    if (key.indent > 0 ||
        text.substr(key.name.begin, key.name.end - key.name.begin) !=
            "pattern") {
      continue;
    }
    std::string_view value = text.substr(key.value, key.end - key.value);
    value = value.substr(0, value.find(" #"));
    for (const PatternName& name : phonics.find_patterns(value)) {
      if (name.meant) patterns.push_back(*name.meant);
    }
  }
  return patterns;
}

}  // namespace

std::vector<OfferedWord> words_for(std::string_view text,
                                   const AnalyzedLesson* lesson,
                                   Workspace& ground, std::size_t each,
                                   LeaveOut leave_out) {
  const Phonics& phonics = ground.phonics();
  const Conventions conventions =
      lesson == nullptr ? Conventions() : lesson->conventions;
  const Taught nothing;
  PictureBook& pictures = ground.pictures();
  const SearchGround search{
      phonics, conventions, lesson == nullptr ? nothing : lesson->taught,
      nullptr,
      [&](std::string_view word) { return pictures.find(word) != nullptr; }};
  std::set<std::string, std::less<>> there;
  if (leave_out == LeaveOut::there) {
    for (const PlacedWord& word :
         split_words(PlacedText(std::string(text), {}, {{0, 0}}))) {
      there.insert(lower_case(word.value));
    }
  }
  std::vector<OfferedWord> offers;
  for (const PatternId pattern : patterns_in(text, phonics)) {
    WordQuery query{.pattern = pattern, .count = each};
    query.leave_out = there;
    for (FoundWord& word : find_words(search, query)) {
      offers.push_back({pattern, std::move(word)});
    }
  }
  return offers;
}

}  // namespace sheaf
