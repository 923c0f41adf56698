#include "analysis/standing_reports.h"

#include <fmt/format.h>

#include <map>

#include "base/utf8.h"
#include "phonics/notation.h"

namespace sheaf {

namespace {

// The words alone, so that "Stop, Kim!" and "stop Kim" are one sentence.
std::string words_alone(const AnalyzedSentence& sentence) {
  std::string words;
  for (const AnalyzedSentence::Part& part : sentence.words) {
    words += lower_case(part.word.spelling.value) + " ";
  }
  return words;
}

struct NotYet {
  const AnalyzedWord* first = nullptr;
  int times = 0;
  /// Readable words for its first place in a sentence.
  const std::vector<std::string>* near = nullptr;
};

// "`raft`, `ship` or `tub`".
std::string choices(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += as_written(words[i]);
  }
  return text;
}

// What to do about a word. Near words can be put in its place where it stands
// only once.
Help help_for(const NotYet& entry) {
  const PlacedWord& word = entry.first->spelling;
  if (entry.near == nullptr || entry.near->empty()) {
    return "choose another word, or add this one to `sight-words:` if learners "
           "know it by sight";
  }
  Help help(
      fmt::format("{} can be read in its place; or add {} to `sight-words:` if "
                  "learners know it by "
                  "sight",
                  choices(*entry.near), as_written(word.value)));
  if (entry.times > 1) return help;
  for (const std::string& near : *entry.near) {
    std::string better = near;
    if (word.value != lower_case(word.value)) {
      better = upper_case(near.substr(0, 1)) + near.substr(1);
    }
    help.fixes.push_back(
        {word.span, better, is_now(word.value, better), false});
  }
  return help;
}

template <typename Call>
void each_sentence(const AnalyzedLesson& lesson, Call call) {
  for (const auto* texts :
       {&lesson.sentences, &lesson.dictate_sentences,
        &lesson.passage.paragraphs, &lesson.passage.questions}) {
    for (const AnalyzedSentence& sentence : *texts) call(sentence);
  }
}

}  // namespace

void each_word(const AnalyzedLesson& lesson,
               const std::function<void(const AnalyzedWord&)>& call) {
  for (const AnalyzedWord& word : lesson.words) call(word);
  for (const AnalyzedSentence& sentence : lesson.sentences) {
    for (const AnalyzedSentence::Part& part : sentence.words) call(part.word);
  }
  for (const AnalyzedWord& word : lesson.dictate_words) call(word);
  for (const AnalyzedWord& word : lesson.sort_words) call(word);
  for (const auto* texts :
       {&lesson.dictate_sentences, &lesson.passage.paragraphs,
        &lesson.passage.questions}) {
    for (const AnalyzedSentence& sentence : *texts) {
      for (const AnalyzedSentence::Part& part : sentence.words) call(part.word);
    }
  }
}

std::string why_not_yet(const AnalyzedLesson& lesson,
                        const AnalyzedWord& word) {
  const Unit& unit =
      word.reading.units[static_cast<std::size_t>(word.standing.unit)];
  const std::string what =
      fmt::format("`{}` as /{}/", unit.grapheme,
                  sound_name(unit.phonemes, lesson.conventions));
  if (word.standing.step < 0) {
    return what + (lesson.taught.steps().empty()
                       ? " has not been taught"
                       : " is not taught in any step of the sequence");
  }
  const auto step = static_cast<std::size_t>(word.standing.step);
  return fmt::format("{} is taught in {}", what,
                     step_name(lesson.taught.steps()[step]));
}

void report_standings(const AnalyzedLesson& lesson, Diagnostics& diagnostics) {
  std::map<std::string, NotYet> found;
  std::vector<std::string> order;
  each_word(lesson, [&](const AnalyzedWord& word) {
    if (word.standing.kind != WordStanding::Kind::not_yet) return;
    const std::string key = lower_case(word.spelling.value);
    NotYet& entry = found[key];
    if (entry.times++ > 0) return;
    entry.first = &word;
    order.push_back(key);
  });
  each_sentence(lesson, [&](const AnalyzedSentence& sentence) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      const auto entry = found.find(lower_case(part.word.spelling.value));
      if (entry != found.end() && entry->second.near == nullptr) {
        entry->second.near = &part.near;
      }
    }
  });
  for (const std::string& key : order) {
    const NotYet& entry = found.at(key);
    const AnalyzedWord& word = *entry.first;
    std::string text =
        fmt::format("{} is not decodable yet: {}",
                    as_written(word.spelling.value), why_not_yet(lesson, word));
    if (entry.times > 1) {
      text += fmt::format("; it is used {} times here", entry.times);
    }
    const Help help = help_for(entry);
    const Span span = word.spelling.span;
    if (lesson.lesson->strict.value) {
      diagnostics.error(diagnostic::not_yet_taught, span, text, help);
    } else {
      diagnostics.warning(diagnostic::not_yet_taught, span, text, help);
    }
  }
}

void report_read_sentences(const AnalyzedLesson& lesson,
                           Diagnostics& diagnostics) {
  std::map<std::string, const AnalyzedSentence*> read;
  for (const AnalyzedSentence& sentence : lesson.sentences) {
    read.try_emplace(words_alone(sentence), &sentence);
  }
  for (const AnalyzedSentence& sentence : lesson.dictate_sentences) {
    const auto found = read.find(words_alone(sentence));
    if (found == read.end()) continue;
    Diagnostic& d =
        diagnostics.warning(diagnostic::read_and_dictated, sentence.text.span(),
                            "this sentence to dictate was also read",
                            "dictate another one with the same words, so that "
                            "learners do not write it from memory");
    d.remarks.push_back({found->second->text.span(), "read here"});
  }
}

}  // namespace sheaf
