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

bool is_about(const AnalyzedLesson& lesson, std::string_view family) {
  return std::ranges::any_of(lesson.patterns, [&](const LessonPattern& p) {
    return lesson.phonics->patterns()[p.id].family == family;
  });
}

bool follows_questions(const Built& b) {
  const std::string base = lower_case(b.parts.base);
  return joined_by_questions(base, b.parts.ending) ==
         lower_case(b.word->reading.word);
}

// By turns one of each change; nothing to change comes last in a turn.
std::vector<Built> by_turns(std::vector<Built> words) {
  std::vector<Joint> joints;
  for (const Built& b : words) {
    if (std::ranges::find(joints, b.parts.joint) == joints.end()) {
      joints.push_back(b.parts.joint);
    }
  }
  std::ranges::stable_partition(joints,
                                [](Joint j) { return j != Joint::plain; });
  std::vector<Built> ordered;
  while (!words.empty()) {
    for (const Joint joint : joints) {
      const auto next = std::ranges::find_if(
          words, [&](const Built& b) { return b.parts.joint == joint; });
      if (next == words.end()) continue;
      ordered.push_back(std::move(*next));
      words.erase(next);
    }
  }
  // The second is half done: it shows something only where something changes.
  if (ordered.size() > 2 && ordered[1].parts.joint == Joint::plain) {
    const auto other = std::find_if(
        ordered.begin() + 2, ordered.end(),
        [](const Built& b) { return b.parts.joint != Joint::plain; });
    if (other != ordered.end())
      std::rotate(ordered.begin() + 1, other, other + 1);
  }
  return ordered;
}

// Words to sort that change otherwise than the list's, where that has one
// change only.
void add_contrast(std::vector<Built>& words, const AnalyzedLesson& lesson,
                  std::size_t most) {
  for (const AnalyzedWord& word : lesson.sort_words) {
    if (most == 0) return;
    EndingAnalysis parts = base_and_ending(word.reading, *lesson.phonics);
    const bool new_change =
        parts && !words.empty() && parts.joint != words.front().parts.joint;
    if (!new_change) continue;
    words.push_back({&word, std::move(parts)});
    --most;
  }
}

}  // namespace

bool is_about_word_parts(const AnalyzedLesson& lesson) {
  return is_about(lesson, "suffixes") || is_about(lesson, "prefixes");
}

WordParts word_parts_of(const SheetInput& in) {
  WordParts content;
  const int most = in.options.count("words");
  const bool prefixes = in.options.flag("prefixes");
  const bool prefix_first = is_about(in.lesson, "prefixes");
  std::vector<Built> built;
  for (const AnalyzedWord& word : in.lesson.words) {
    EndingAnalysis parts = base_and_ending(word.reading, *in.lesson.phonics);
    std::vector<std::string> syllables;
    for (const WordPart& part : word.parts) {
      syllables.emplace_back(part.of(word.reading.word));
    }
    PrefixedWord prefixed;
    if (prefixes && (prefix_first || !parts)) {
      prefixed = prefix_and_base(word.reading, *in.lesson.phonics);
    }
    if (prefixed && prefix_first && prefixed.meaning.empty()) {
      content.unexplained.push_back(&word);
    }
    if (prefixed && !prefixed.meaning.empty()) {
      content.prefixed.push_back({&word, std::move(prefixed)});
    } else if (parts) {
      built.push_back({&word, std::move(parts)});
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
  const auto own_way = std::ranges::stable_partition(built, follows_questions);
  content.own_way.assign(own_way.begin(), own_way.end());
  built.erase(own_way.begin(), own_way.end());
  const auto others = static_cast<std::size_t>(most / 3);
  add_contrast(built, in.lesson, others);
  std::erase_if(built, [](const Built& b) { return !follows_questions(b); });
  content.asked = by_turns(std::move(built));
  const bool endings = in.options.flag("endings");
  cut(content.asked, endings, most);
  cut(content.own_way, endings, most - static_cast<int>(content.asked.size()));
  cut(content.prefixed, prefixes, most);
  cut(content.divided, in.options.flag("syllables"), most);
  cut(content.irregular, in.options.flag("irregular"), most);
  return content;
}

}  // namespace sheaf
