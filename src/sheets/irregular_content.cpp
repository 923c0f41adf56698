#include "sheets/irregular_content.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "sheets/word_parts.h"

namespace sheaf::irregular_sheet {

namespace {

// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& things) {
  std::string text;
  for (std::size_t i = 0; i < things.size(); ++i) {
    text += i == 0 ? "" : i + 1 == things.size() ? " and " : ", ";
    text += things[i];
  }
  return text;
}

// What of a word is as expected, and what says something else: "ai says /e/".
struct Parts {
  std::vector<std::string> expected, remembered;
};
Parts parts_of(const AnalyzedLesson& lesson, const RememberedWord& word) {
  Parts parts;
  for (std::size_t i = 0; i < word.parts.size(); ++i) {
    const Unit& unit = word.word.reading.units[i];
    if (word.parts[i]) {
      parts.remembered.push_back(unit.grapheme + " says " +
                                 said(lesson, unit.phonemes));
    } else {
      parts.expected.push_back(unit.grapheme);
    }
  }
  return parts;
}

// How often a word is written after the first time.
std::string tried_again(int tries) {
  switch (tries) {
    case 1:
      return "";
    case 2:
      return "; the same once more";
    case 3:
      return "; the same twice more";
    default:
      return fmt::format("; the same {} times more", tries - 1);
  }
}

// For learners to hear.
std::string word_told(const AnalyzedLesson& lesson,
                      const RememberedWord& word) {
  const Parts parts = parts_of(lesson, word);
  std::string text = fmt::format("“{}. Tap it: {}. ", word.word.reading.word,
                                 sounds_of(lesson, word.word));
  if (parts.remembered.empty()) return text + "You can read all of it now.”";
  if (!parts.expected.empty()) {
    text += fmt::format("You expect {}. ", listed(parts.expected));
  }
  return text + fmt::format("Remember: {}.”", listed(parts.remembered));
}

}  // namespace

Content content_of(const SheetInput& in) {
  Content content;
  RememberedWords found = remembered_words(in.lesson);
  const auto most = static_cast<std::size_t>(in.options.count("words"));
  for (std::size_t i = 0; i < found.words.size(); ++i) {
    RememberedWord& word = found.words[i];
    if (!word.any()) {
      content.expected.push_back(word);
    } else if (content.words.size() < most) {
      content.words.push_back(std::move(word));
    } else if (i < found.recent) {
      content.for_later.push_back(std::move(word));
    }
  }
  // Where there is room, the page itself says that a word is no more trouble.
  for (const RememberedWord& word : content.expected) {
    if (content.words.empty() || content.words.size() >= most) break;
    content.words.push_back(word);
  }
  return content;
}

std::string names(const std::vector<RememberedWord>& words) {
  std::vector<std::string> texts;
  for (const RememberedWord& word : words) {
    texts.push_back(word.word.reading.word);
  }
  return listed(texts);
}

std::string parts_told(const AnalyzedLesson& lesson,
                       const RememberedWord& word) {
  const Parts parts = parts_of(lesson, word);
  if (parts.remembered.empty()) return "all of it is as expected by now.";
  const std::string expected =
      parts.expected.empty()
          ? "nothing is as expected"
          : fmt::format("as expected {}", fmt::join(parts.expected, ", "));
  return fmt::format("{}; to remember: {}.", expected,
                     listed(parts.remembered));
}

ScriptLines script(const SheetInput& in, const DayStep&) {
  const Content content = content_of(in);
  if (content.words.empty()) return {};
  ScriptLines lines = {
      {Lead::show, fmt::format("the first word, {}. Say it in a sentence.",
                               content.words.front().word.reading.word)}};
  for (const RememberedWord& word : content.words) {
    lines.push_back({Lead::say, word_told(in.lesson, word)});
  }
  const bool use = in.options.count("sentence-lines") > 0;
  lines.push_back(
      {Lead::act,
       fmt::format(
           "Learners say the word and tap a dot for each sound. They read the "
           "letters in the boxes: those they could have written. Then they "
           "write the underlined letters into the empty box, saying its sound. "
           "With a hand over the word they write it whole, look, and mend{}.{}",
           tried_again(in.options.count("tries")),
           use ? " Last they say a sentence with it and write it." : "")});
  lines.push_back({Lead::wait,
                   "an answer to “Which part would you not expect?” before the "
                   "next word."});
  lines.push_back({Lead::done_when,
                   use ? "each word was written right with the word covered, "
                         "and its sentence was read back."
                       : "each word was written right with the word covered."});
  return lines;
}

}  // namespace sheaf::irregular_sheet
