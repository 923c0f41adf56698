#include "cli/check_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/standing_reports.h"
#include "base/utf8.h"
#include "phonics/explain.h"
#include "planning/lesson_text.h"
#include "sheets/sound_sort.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using Kind = WordStanding::Kind;

std::string listed(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

void add_once(std::vector<std::string>& words, std::string word) {
  if (std::ranges::find(words, word) == words.end()) {
    words.push_back(std::move(word));
  }
}

// The letter that counts as taught though its vowel is weak: the o of dragon.
std::string weak_vowel(const AnalyzedWord& word) {
  return word.reading.units[static_cast<std::size_t>(word.standing.weak_unit)]
      .grapheme;
}

void print_sentence(std::string& out, const AnalyzedLesson& lesson,
                    const AnalyzedSentence& sentence, bool own) {
  std::vector<std::string> pattern, sight, weak;
  std::vector<const AnalyzedSentence::Part*> not_yet;
  for (const AnalyzedSentence::Part& part : sentence.words) {
    const std::string word = lower_case(part.word.spelling.value);
    if (part.word.has_pattern()) add_once(pattern, word);
    if (part.word.standing.kind == Kind::sight_word) add_once(sight, word);
    if (part.word.standing.weak_unit >= 0) {
      add_once(weak, fmt::format("{} ({})", word, weak_vowel(part.word)));
    }
    if (part.word.standing.kind == Kind::not_yet) not_yet.push_back(&part);
  }
  out += fmt::format("  {}\n    ", sentence.text.text());
  if (own) {
    out += counted(static_cast<int>(sentence.words.size()), "word", "words");
    out += ", ";
  }
  if (pattern.empty()) {
    out += "none with the pattern";
  } else {
    if (own) out += fmt::format("{} ", sentence.pattern_words());
    out += "with the pattern: " + listed(pattern);
  }
  if (!sight.empty()) out += fmt::format("; by sight: {}", listed(sight));
  if (!weak.empty()) {
    out += fmt::format("; with a weak vowel: {}", listed(weak));
  }
  out += fmt::format("\n");
  for (const AnalyzedSentence::Part* part : not_yet) {
    out += fmt::format("    not yet: {} ({})", part->word.spelling.value,
                       why_not_yet(lesson, part->word));
    if (!part->near.empty()) {
      out += fmt::format("; near in meaning: {}", listed(part->near));
    }
    out += fmt::format("\n");
  }
}

// Words of the picture sort that the lesson does not name itself.
void print_picture_words(std::string& out, const PreparedLesson& lesson) {
  const auto [same, other] = picture_sort_words(lesson);
  if (!same.empty() && lesson.lesson.same_sound.empty()) {
    out += fmt::format("same-sound: {}\n", fmt::join(same, " "));
  }
  if (!other.empty() && lesson.lesson.other_sound.empty()) {
    out += fmt::format("other-sound: {}\n", fmt::join(other, " "));
  }
}

}  // namespace

std::string standing_text(const AnalyzedLesson& lesson,
                          const AnalyzedWord& word) {
  if (!lesson.taught.known()) return "";
  switch (word.standing.kind) {
    case Kind::decodable:
      if (word.standing.weak_unit < 0) return "decodable";
      return fmt::format("decodable; {} is weak", weak_vowel(word));
    case Kind::sight_word:
      return "by sight";
    case Kind::not_yet:
      return "not yet: " + why_not_yet(lesson, word);
  }
  return "";
}

void print_sentences(std::string& out, const AnalyzedLesson& lesson,
                     const OwnTexts& own) {
  out += fmt::format("sentences to read: {}\n", lesson.sentences.size());
  for (const AnalyzedSentence& s : lesson.sentences) {
    print_sentence(out, lesson, s, own.sentences);
  }
  if (!lesson.sentences.empty()) {
    std::vector<std::string> unused;
    for (const AnalyzedWord& word : lesson.words) {
      const std::string wanted = lower_case(word.spelling.value);
      const bool used =
          std::ranges::any_of(lesson.sentences, [&](const AnalyzedSentence& s) {
            return std::ranges::any_of(
                s.words, [&](const AnalyzedSentence::Part& part) {
                  return lower_case(part.word.spelling.value) == wanted;
                });
          });
      if (!used) unused.push_back(word.spelling.value);
    }
    out +=
        fmt::format("words of the list in no sentence: {}{}\n", unused.size(),
                    unused.empty() ? "" : ": " + listed(unused));
  }
  out += fmt::format("sentences to dictate: {}\n",
                     lesson.dictate_sentences.size());
  for (const AnalyzedSentence& s : lesson.dictate_sentences) {
    print_sentence(out, lesson, s, own.dictate_sentences);
  }
  const AnalyzedPassage& passage = lesson.passage;
  if (passage.empty()) return;
  std::size_t words = 0;
  for (const AnalyzedSentence& p : passage.paragraphs) words += p.words.size();
  out += fmt::format("passage: {}{}, {} with the pattern\n",
                     passage.title.text().empty()
                         ? ""
                         : fmt::format("“{}”, ", passage.title.text()),
                     counted(static_cast<int>(words), "word", "words"),
                     passage.pattern_words());
}

WordShare word_share(const AnalyzedLesson& lesson) {
  WordShare share;
  if (!lesson.taught.known()) return share;
  each_word(lesson, [&](const AnalyzedWord& word) {
    share.decodable += word.standing.kind == Kind::decodable;
    share.sight += word.standing.kind == Kind::sight_word;
    share.not_yet += word.standing.kind == Kind::not_yet;
  });
  return share;
}

void print_share(std::string& out, const AnalyzedLesson& lesson) {
  if (!lesson.taught.known()) {
    out += fmt::format(
        "decodable: not known; a `sequence:` or `taught:` says what was "
        "taught before\n");
    return;
  }
  const WordShare share = word_share(lesson);
  if (share.all() == 0) return;
  out +=
      fmt::format("readable: {}% of {} ({} decodable, {} by sight, {} not yet)",
                  share.percent(), counted(share.all(), "word", "words"),
                  share.decodable, share.sight, share.not_yet);
  if (lesson.taught.step() >= 0) {
    const auto step = static_cast<std::size_t>(lesson.taught.step());
    out += fmt::format(" at {}", step_name(lesson.taught.steps()[step]));
  }
  out += fmt::format("\n");
}

void print_filled(std::string& out, const PreparedLesson& lesson) {
  out += fmt::format("chosen by Sheaf; paste what you want to keep:\n");
  for (const FilledKey& filled : lesson.filled) {
    if (filled.key == "passage") {
      out += passage_text(lesson.lesson.passage);
    } else if (filled.key.ends_with("sentences")) {
      out += sentences_text(filled.key, filled.key == "sentences"
                                            ? lesson.lesson.sentences
                                            : lesson.lesson.dictate_sentences);
    } else {
      out += fmt::format("{}: {}\n", filled.key, fmt::join(filled.words, " "));
    }
  }
  print_picture_words(out, lesson);
}

}  // namespace sheaf
