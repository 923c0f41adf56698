#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "analysis/analyzed_lesson.h"
#include "analysis/key_words.h"
#include "analysis/lesson_conventions.h"
#include "analysis/near_in_meaning.h"
#include "analysis/pattern_names.h"
#include "analysis/standing_reports.h"
#include "analysis/warm_up.h"
#include "analysis/word_finder.h"
#include "base/shuffle.h"
#include "base/utf8.h"

namespace sheaf {

int AnalyzedWord::pattern() const {
  for (std::size_t i = 0; i < hits.size(); ++i) {
    if (hits[i].has) return static_cast<int>(i);
  }
  return -1;
}

bool AnalyzedWord::is_pattern_unit(std::size_t index) const {
  return std::ranges::any_of(hits, [&](const Hit& hit) {
    return std::ranges::find(hit.units, index) != hit.units.end();
  });
}

int AnalyzedSentence::pattern_words() const {
  return static_cast<int>(std::ranges::count_if(
      words, [](const Part& p) { return p.word.has_pattern(); }));
}

int AnalyzedPassage::pattern_words() const {
  int count = 0;
  for (const AnalyzedSentence& paragraph : paragraphs) {
    count += paragraph.pattern_words();
  }
  return count;
}

std::vector<AnalyzedWord::Hit> find_hits(
    const Reading& reading, const std::vector<LessonPattern>& patterns,
    const Phonics& phonics) {
  std::vector<AnalyzedWord::Hit> hits;
  for (const LessonPattern& pattern : patterns) {
    const PatternPlace* place = reading.find(pattern.id);
    AnalyzedWord::Hit hit;
    hit.has = place != nullptr;
    if (hit.has && phonics.patterns()[pattern.id].of_units) {
      hit.units = place->units;
    }
    hits.push_back(std::move(hit));
  }
  return hits;
}

std::string short_code(std::uint64_t hash) {
  constexpr std::string_view kSigns = "23456789CDFGHJKMNPQRTVWX";
  std::string code;
  for (int i = 0; i < 4; ++i) {
    code += kSigns[hash % kSigns.size()];
    hash /= kSigns.size();
  }
  return code;
}

std::string seed_text(std::uint64_t seed) {
  return fmt::format("{}{:016x}", kSettledSeed, seed);
}

namespace {

// A seed is any text; that of a settled lesson is the number itself.
std::uint64_t seed_of(std::string_view text) {
  std::uint64_t number = 0;
  if (text.starts_with(kSettledSeed)) {
    const std::string_view digits = text.substr(kSettledSeed.size());
    const auto read = std::from_chars(
        digits.data(), digits.data() + digits.size(), number, 16);
    if (digits.size() == 16 && read.ec == std::errc() &&
        read.ptr == digits.data() + digits.size()) {
      return number;
    }
  }
  return text_hash(text);
}

class Analyzer {
 public:
  Analyzer(const Lesson& lesson, const Phonics& phonics, Taught taught,
           const PictureTest& pictures, Diagnostics& diagnostics,
           WordTest may_suggest)
      : lesson_(lesson),
        phonics_(phonics),
        pictures_(pictures),
        diagnostics_(diagnostics),
        conventions_(lesson_conventions(lesson, diagnostics)),
        finder_(lesson, phonics, conventions_, diagnostics, may_suggest) {
    result_.lesson = &lesson;
    result_.phonics = &phonics;
    result_.conventions = conventions_;
    result_.taught = std::move(taught);
    result_.may_suggest = std::move(may_suggest);
  }

  AnalyzedLesson run() {
    const int errors = diagnostics_.error_count();
    find_patterns();
    all_patterns_known_ =
        diagnostics_.error_count() == errors && !result_.patterns.empty();
    for (const LessonWord& word : lesson_.words) {
      result_.words.push_back(look_up_divided(word));
      check_has_pattern(result_.words.back());
    }
    check_every_pattern_has_words();
    choose_key_words();
    describe_patterns(result_.patterns, result_.words, result_.key_words);
    add_sentences(lesson_.sentences, result_.sentences, true);
    for (const LessonWord& word : lesson_.dictate_words) {
      result_.dictate_words.push_back(look_up_divided(word));
    }
    for (const LessonWord& word : lesson_.sort_words) {
      result_.sort_words.push_back(look_up_divided(word));
    }
    add_sentences(lesson_.dictate_sentences, result_.dictate_sentences, false);
    result_.passage.title = lesson_.passage.title;
    add_sentences(lesson_.passage.paragraphs, result_.passage.paragraphs,
                  false);
    add_sentences(lesson_.passage.questions, result_.passage.questions, false);
    finder_.report_unused_splits();
    set_seed_and_code();
    choose_dictation();
    report_standings(result_, diagnostics_);
    report_read_sentences(result_, diagnostics_);
    result_.warm_up = warm_up_of(result_, {});
    return std::move(result_);
  }

 private:
  void find_patterns() {
    const auto named =
        sheaf::find_patterns(lesson_.patterns, phonics_, diagnostics_);
    for (const NamedPattern& pattern : named) {
      const auto same =
          std::ranges::find(result_.patterns, pattern.id, &LessonPattern::id);
      if (same != result_.patterns.end()) {
        diagnostics_.error(diagnostic::repeated_pattern, pattern.written.span,
                           fmt::format("{} is the same pattern as {}",
                                       as_written(pattern.written.value),
                                       as_written(same->written.value)),
                           "take one of the two out");
        continue;
      }
      result_.patterns.push_back(
          {.id = pattern.id,
           .written = pattern.written,
           .name = name_of(pattern.id, phonics_, conventions_)});
    }
    // One name may be a contrast of several. A check of where to begin has
    // those of a whole sequence.
    if (result_.patterns.size() > kMostLessonPatterns &&
        !lesson_.placement.given()) {
      diagnostics_.error(
          diagnostic::too_many,
          result_.patterns[kMostLessonPatterns].written.span,
          fmt::format("a lesson takes up to {} patterns; this one has {}",
                      kMostLessonPatterns, result_.patterns.size()),
          "keep the ones that learners are to tell apart this week");
    }
  }

  AnalyzedWord look_up(const LessonWord& word) {
    AnalyzedWord result = finder_.look_up(word);
    result.hits = find_hits(result.reading, result_.patterns, phonics_);
    if (result_.taught.known()) {
      result.standing = result_.taught.standing(result.reading);
      if (result.standing.kind == WordStanding::Kind::not_yet &&
          result_.taught.is_sight_word(result.spelling.value)) {
        result.standing.kind = WordStanding::Kind::sight_word;
      }
    }
    return result;
  }

  AnalyzedWord look_up_divided(const LessonWord& word) {
    AnalyzedWord result = look_up(word);
    result.parts = divide_word(result.reading, phonics_);
    return result;
  }

  void check_has_pattern(const AnalyzedWord& word) {
    // Where a pattern could not be found, a word may well have that one.
    if (word.has_pattern() || !all_patterns_known_) return;
    const LessonPattern& first = result_.patterns.front();
    std::string names;
    for (const LessonPattern& pattern : result_.patterns) {
      names += (names.empty() ? "" : " or ") + pattern.name;
    }
    diagnostics_.warning(
        diagnostic::pattern_not_in_word, word.spelling.span,
        fmt::format("{} does not have {}: {}", as_written(word.spelling.value),
                    names,
                    phonics_.why_not(word.reading, first.id, conventions_)),
        "take it out, or keep it as a word to tell apart from the others");
  }

  // Pages about a pattern that no word has would be about nothing.
  void check_every_pattern_has_words() {
    if (result_.words.empty() || !all_patterns_known_) return;
    for (std::size_t i = 0; i < result_.patterns.size(); ++i) {
      const bool has_word = std::ranges::any_of(
          result_.words,
          [&](const AnalyzedWord& word) { return word.hits[i].has; });
      if (has_word) continue;
      const LessonPattern& pattern = result_.patterns[i];
      const std::string shared = shared_pattern();
      diagnostics_.error(
          diagnostic::no_word_with_pattern, pattern.written.span,
          fmt::format("none of the words has {}", pattern.name),
          shared.empty()
              ? "add words that have it, or take the pattern out"
              : fmt::format("all of them have {}: write `pattern: {}`, or "
                            "choose words that have this pattern",
                            shared, shared));
    }
  }

  // The id of a pattern that all words have and the lesson does not name, or
  // nothing; one that is about graphemes, as more is said by it.
  std::string shared_pattern() const {
    const PatternCatalogue& catalogue = phonics_.patterns();
    for (const PatternPlace& place : result_.words.front().reading.places) {
      const bool is_shared =
          catalogue[place.pattern].of_units && result_.words.size() > 1 &&
          std::ranges::find(result_.patterns, place.pattern,
                            &LessonPattern::id) == result_.patterns.end() &&
          std::ranges::all_of(result_.words, [&](const AnalyzedWord& word) {
            return word.reading.find(place.pattern) != nullptr;
          });
      if (is_shared) return std::string(catalogue[place.pattern].id);
    }
    return {};
  }

  void choose_key_words() {
    result_.key_words = likeliest_key_words(result_.patterns, result_.words,
                                            phonics_, pictures_);
    take_key_words_of_sequence();
    if (!lesson_.key_word.given()) return;
    const std::string wanted = lower_case(lesson_.key_word.value);
    for (std::size_t k = 0; k < result_.words.size(); ++k) {
      const AnalyzedWord& word = result_.words[k];
      if (lower_case(word.spelling.value) != wanted) continue;
      if (word.has_pattern()) {
        result_.key_words[static_cast<std::size_t>(word.pattern())] =
            static_cast<int>(k);
        return;
      }
    }
    diagnostics_.error(diagnostic::key_word_not_in_list, lesson_.key_word.span,
                       fmt::format("the key word {} is not one of the words in "
                                   "the list that have the pattern",
                                   as_written(lesson_.key_word.value)),
                       "add it to `words`, or choose one of those");
  }

  // So that a sound has one key word all year, in every lesson that lists it.
  void take_key_words_of_sequence() {
    for (std::size_t i = 0; i < result_.patterns.size(); ++i) {
      const int stage = result_.taught.stage(result_.patterns[i].id);
      for (const std::string& key : result_.taught.key_words(stage)) {
        const auto word =
            std::ranges::find_if(result_.words, [&](const AnalyzedWord& own) {
              return own.hits[i].has && lower_case(own.spelling.value) == key;
            });
        if (word == result_.words.end()) continue;
        result_.key_words[i] = static_cast<int>(word - result_.words.begin());
        break;
      }
    }
  }

  void add_sentences(const std::vector<LessonLine>& lines,
                     std::vector<AnalyzedSentence>& sentences, bool to_read) {
    for (const LessonLine& line : lines) {
      AnalyzedSentence sentence;
      sentence.text = line;
      for (const WordPlace& place : words_in(line.text())) {
        const PlacedWord word = line.part(place.begin, place.end);
        sentence.words.own().push_back(
            {.begin = place.begin,
             .end = place.end,
             .word = look_up({.spelling = word}),
             .sight_word = finder_.is_sight_word(word.value)});
      }
      if (to_read && sentence.pattern_words() == 0 &&
          !result_.patterns.empty()) {
        diagnostics_.warning(diagnostic::sentence_without_pattern, line.span(),
                             "no word of this sentence has the pattern",
                             "use at least one, or take the sentence out");
      }
      add_near_words(sentence);
      sentences.push_back(std::move(sentence));
    }
  }

  void add_near_words(AnalyzedSentence& sentence) {
    constexpr std::size_t kNearWords = 3;
    for (std::size_t i = 0; i < sentence.words.size(); ++i) {
      if (sentence.words[i].word.standing.kind == WordStanding::Kind::not_yet) {
        sentence.words.own()[i].near =
            near_in_meaning(result_, sentence, i, kNearWords, near_words_);
      }
    }
  }

  // The code changes with the lesson's content.
  void set_seed_and_code() {
    std::uint64_t hash = text_hash("lesson");
    for (const LessonPattern& p : result_.patterns) {
      hash = text_hash(phonics_.patterns()[p.id].id, hash);
    }
    for (const AnalyzedWord& w : result_.words) {
      hash = text_hash(w.spelling.value + " ", hash);
    }
    if (lesson_.placement.given()) {
      for (const AnalyzedWord& w : result_.dictate_words) {
        hash = text_hash(w.spelling.value + " ", hash);
      }
    }
    result_.seed = lesson_.seed.given() ? seed_of(lesson_.seed.value) : hash;
    for (const auto* sentences :
         {&result_.sentences, &result_.dictate_sentences}) {
      for (const AnalyzedSentence& s : *sentences) {
        hash = text_hash(s.text.text() + "\n", hash);
      }
    }
    hash = text_hash(std::to_string(lesson_.set.value), hash);
    result_.code = short_code(hash);
  }

  // Without a list of its own, the dictation takes words of the week.
  void choose_dictation() {
    constexpr std::size_t kMost = 8;
    if (!result_.dictate_words.empty()) return;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < result_.words.size(); ++i) {
      if (result_.words[i].has_pattern()) order.push_back(i);
    }
    Random random(text_hash("dictation", result_.seed));
    shuffle(order, random);
    if (order.size() > kMost) order.resize(kMost);
    for (const std::size_t i : order) {
      result_.dictate_words.push_back(result_.words[i]);
    }
  }

  const Lesson& lesson_;
  const Phonics& phonics_;
  const PictureTest& pictures_;
  Diagnostics& diagnostics_;
  Conventions conventions_;
  WordFinder finder_;
  AnalyzedLesson result_;
  KnownNearWords near_words_;
  bool all_patterns_known_ = false;
};

}  // namespace

AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       Taught taught, const PictureTest& pictures,
                       Diagnostics& diagnostics, WordTest may_suggest) {
  return Analyzer(lesson, phonics, std::move(taught), pictures, diagnostics,
                  std::move(may_suggest))
      .run();
}

AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       const PictureTest& pictures, Diagnostics& diagnostics) {
  return analyze(lesson, phonics, Taught(), pictures, diagnostics);
}

}  // namespace sheaf
