#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "analysis/analyzed_lesson.h"
#include "analysis/lesson_conventions.h"
#include "analysis/pattern_names.h"
#include "analysis/standing_reports.h"
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

void find_hits(AnalyzedWord& word, const std::vector<LessonPattern>& patterns,
               const PatternCatalogue& catalogue) {
  for (const LessonPattern& pattern : patterns) {
    const PatternPlace* place = word.reading.find(pattern.id);
    AnalyzedWord::Hit hit;
    hit.has = place != nullptr;
    if (hit.has && catalogue[pattern.id].of_units) hit.units = place->units;
    word.hits.push_back(std::move(hit));
  }
}

// What to print on a sound card: the graphemes by which the list shows the
// pattern, and the sound of the commonest.
void describe_patterns(std::vector<LessonPattern>& patterns,
                       const std::vector<AnalyzedWord>& words) {
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    std::map<std::string, int> counts;
    std::vector<std::string> order;
    std::map<std::string, std::vector<Phoneme>> sounds;
    for (const AnalyzedWord& word : words) {
      for (const std::uint8_t unit : word.hits[i].units) {
        const Unit& u = word.reading.units[unit];
        if (++counts[u.grapheme] == 1) order.push_back(u.grapheme);
        sounds.try_emplace(u.grapheme, u.phonemes);
      }
    }
    std::ranges::stable_sort(order, std::greater<>(),
                             [&](const std::string& g) { return counts[g]; });
    if (!order.empty()) patterns[i].sound = sounds[order.front()];
    patterns[i].graphemes = std::move(order);
  }
}

namespace {

std::uint64_t content_hash(const std::vector<LessonPattern>& patterns,
                           const std::vector<AnalyzedWord>& words,
                           const PatternCatalogue& catalogue) {
  std::uint64_t hash = text_hash("lesson");
  for (const LessonPattern& p : patterns) {
    hash = text_hash(catalogue[p.id].id, hash);
  }
  for (const AnalyzedWord& w : words) {
    hash = text_hash(w.spelling.value + " ", hash);
  }
  return hash;
}

}  // namespace

std::uint64_t seed_of(const Lesson& lesson,
                      const std::vector<LessonPattern>& patterns,
                      const std::vector<AnalyzedWord>& words,
                      const PatternCatalogue& catalogue) {
  if (!lesson.seed.given()) return content_hash(patterns, words, catalogue);
  return text_hash(lesson.seed.value);
}

namespace {

class Analyzer {
 public:
  Analyzer(const Lesson& lesson, const Phonics& phonics, Taught taught,
           const std::function<bool(std::string_view)>& has_picture,
           Diagnostics& diagnostics)
      : lesson_(lesson),
        phonics_(phonics),
        has_picture_(has_picture),
        diagnostics_(diagnostics),
        conventions_(lesson_conventions(lesson, diagnostics)),
        finder_(lesson, phonics, conventions_, diagnostics) {
    result_.lesson = &lesson;
    result_.phonics = &phonics;
    result_.conventions = conventions_;
    result_.taught = std::move(taught);
  }

  AnalyzedLesson run() {
    const int errors = diagnostics_.error_count();
    find_patterns();
    all_patterns_known_ =
        diagnostics_.error_count() == errors && !result_.patterns.empty();
    for (const LessonWord& word : lesson_.words) {
      result_.words.push_back(look_up(word));
      check_has_pattern(result_.words.back());
    }
    describe_patterns(result_.patterns, result_.words);
    choose_key_words();
    add_sentences(lesson_.sentences, result_.sentences, true);
    for (const LessonWord& word : lesson_.dictate_words) {
      result_.dictate_words.push_back(look_up(word));
    }
    add_sentences(lesson_.dictate_sentences, result_.dictate_sentences, false);
    finder_.report_unused_splits();
    set_seed_and_code();
    report_standings(result_, diagnostics_);
    report_read_sentences(result_, diagnostics_);
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
                                       quoted(pattern.written.value),
                                       quoted(same->written.value)),
                           "take one of the two out");
        continue;
      }
      result_.patterns.push_back(
          {pattern.id,
           pattern.written,
           std::string(phonics_.patterns()[pattern.id].name),
           {},
           {}});
    }
  }

  AnalyzedWord look_up(const LessonWord& word) {
    AnalyzedWord result = finder_.look_up(word);
    find_hits(result, result_.patterns, phonics_.patterns());
    if (result_.taught.known()) {
      result.standing = result_.taught.standing(result.reading);
      if (result.standing.kind == WordStanding::Kind::not_yet &&
          result_.taught.is_sight_word(result.spelling.value)) {
        result.standing.kind = WordStanding::Kind::sight_word;
      }
    }
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
        fmt::format("{} does not have {}: {}", quoted(word.spelling.value),
                    names, phonics_.why_not(word.reading, first.id)),
        "take it out, or keep it as a word to tell apart from the others");
  }

  void choose_key_words() {
    result_.key_words.assign(result_.patterns.size(), -1);
    for (std::size_t i = 0; i < result_.patterns.size(); ++i) {
      int& key = result_.key_words[i];
      bool pictured = false;
      for (std::size_t k = 0; k < result_.words.size() && !pictured; ++k) {
        if (!result_.words[k].hits[i].has) continue;
        pictured = has_picture_(result_.words[k].spelling.value);
        if (key < 0 || pictured) key = static_cast<int>(k);
      }
    }
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
                       fmt::format("the key word {} is not a word of the list "
                                   "that has the pattern",
                                   quoted(lesson_.key_word.value)),
                       "put it into `words`, or choose one that is there");
  }

  void add_sentences(const std::vector<LessonLine>& lines,
                     std::vector<AnalyzedSentence>& sentences, bool to_read) {
    for (const LessonLine& line : lines) {
      AnalyzedSentence sentence;
      sentence.text = line;
      for (const WordPlace& place : words_in(line.text())) {
        const PlacedWord word = line.part(place.begin, place.end);
        sentence.words.push_back({place.begin, place.end, look_up({word, {}}),
                                  finder_.is_sight_word(word.value)});
      }
      if (to_read && sentence.pattern_words() == 0 &&
          !result_.patterns.empty()) {
        diagnostics_.warning(diagnostic::sentence_without_pattern, line.span(),
                             "no word of this sentence has the pattern",
                             "use at least one, or take the sentence out");
      }
      sentences.push_back(std::move(sentence));
    }
  }

  // A short code that changes with the lesson's content, without letters and
  // digits that look alike.
  void set_seed_and_code() {
    std::uint64_t hash =
        content_hash(result_.patterns, result_.words, phonics_.patterns());
    result_.seed =
        seed_of(lesson_, result_.patterns, result_.words, phonics_.patterns());
    for (const auto* sentences :
         {&result_.sentences, &result_.dictate_sentences}) {
      for (const AnalyzedSentence& s : *sentences) {
        hash = text_hash(s.text.text() + "\n", hash);
      }
    }
    hash = text_hash(std::to_string(lesson_.set.value), hash);
    constexpr std::string_view kSigns = "23456789CDFGHJKMNPQRTVWX";
    for (int i = 0; i < 4; ++i) {
      result_.code += kSigns[hash % kSigns.size()];
      hash /= kSigns.size();
    }
  }

  const Lesson& lesson_;
  const Phonics& phonics_;
  const std::function<bool(std::string_view)>& has_picture_;
  Diagnostics& diagnostics_;
  Conventions conventions_;
  WordFinder finder_;
  AnalyzedLesson result_;
  bool all_patterns_known_ = false;
};

}  // namespace

AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       Taught taught,
                       const std::function<bool(std::string_view)>& has_picture,
                       Diagnostics& diagnostics) {
  return Analyzer(lesson, phonics, std::move(taught), has_picture, diagnostics)
      .run();
}

}  // namespace sheaf
