#include "sheets/word_parts_content.h"

#include <algorithm>

#include "base/utf8.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

bool is_irregular(const AnalyzedWord& word) {
  return std::ranges::any_of(graphemes_of(word), &Grapheme::shaded);
}

void add_irregular(std::vector<Irregular>& list, const AnalyzedWord& word,
                   bool begins_sentence) {
  std::string text = word.reading.word;
  if (begins_sentence && text != "I") text = lower_case(text);
  const bool known =
      std::ranges::find(list, text, &Irregular::text) != list.end();
  if (!known && is_irregular(word)) list.push_back({&word, std::move(text)});
}

template <typename T>
void cut(std::vector<T>& list, bool wanted, int most) {
  const auto room = static_cast<std::size_t>(wanted ? most : 0);
  if (list.size() > room)
    list.erase(list.begin() + static_cast<std::ptrdiff_t>(room), list.end());
}

}  // namespace

WordParts word_parts_of(const SheetInput& in) {
  WordParts content;
  for (const AnalyzedWord& word : in.lesson.words) {
    EndingAnalysis parts = base_and_ending(word.reading, *in.lesson.phonics);
    auto syllables = syllable_letters(word.reading, *in.lesson.phonics);
    if (parts) {
      content.built.push_back({&word, std::move(parts)});
    } else if (syllables.size() > 1) {
      content.divided.push_back({&word, std::move(syllables)});
    } else {
      add_irregular(content.irregular, word, false);
    }
  }
  for (const AnalyzedSentence& sentence : in.lesson.sentences) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      if (!part.sight_word) continue;
      add_irregular(content.irregular, part.word, part.begin == 0);
    }
  }
  const int most = in.options.count("words");
  cut(content.built, in.options.flag("endings"), most);
  cut(content.divided, in.options.flag("syllables"), most);
  cut(content.irregular, in.options.flag("irregular"), most);
  return content;
}

}  // namespace sheaf
