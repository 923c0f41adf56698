#include "planning/fill_lesson.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "analysis/pattern_names.h"
#include "base/utf8.h"
#include "phonics/ed_sounds.h"
#include "phonics/pattern_rule.h"
#include "planning/contrast.h"
#include "planning/fill_sentences.h"

namespace sheaf {

namespace {

constexpr int kUsualPick = 10;
constexpr std::size_t kOfTheList = 4;
constexpr std::size_t kNewWords = 4;
constexpr int kUsualReview = 2;
// What a column of a sort needs to show what its words share.
constexpr std::size_t kFullColumn = 4;

std::string counted_words(std::size_t count) {
  return fmt::format("{} word{}", count, count == 1 ? "" : "s");
}

class Filler {
 public:
  Filler(Lesson& lesson, const SearchGround& source, Diagnostics& diagnostics)
      : lesson_(lesson), source_(source), diagnostics_(diagnostics) {
    Diagnostics unheard;  // the analysis reports the names
    for (const NamedPattern& p :
         find_patterns(lesson.patterns, source.phonics, unheard)) {
      if (std::ranges::find(patterns_, p.id) == patterns_.end()) {
        patterns_.push_back(p.id);
      }
    }
    for (const LessonWord& word : lesson.words) use(word.spelling.value);
    for (const auto* list : {&lesson.sort_words, &lesson.dictate_words}) {
      for (const LessonWord& word : *list) use(word.spelling.value);
    }
  }

  std::vector<FilledKey> run() {
    // A check of where to begin has its words, and no others.
    if (patterns_.empty() || lesson_.placement.given()) return {};
    const bool leaves_words = lesson_.words.empty();
    pick_words();
    if (lesson_.dictate_words.empty()) {
      fill_dictation();
    } else if (lesson_.review.given()) {
      add_review(static_cast<std::size_t>(lesson_.review.value));
    }
    fill_sort();
    for (FilledKey& filled :
         fill_sentences(lesson_, source_, patterns_,
                        leaves_words && !lesson_.words.empty(), diagnostics_)) {
      filled_.push_back(std::move(filled));
    }
    return std::move(filled_);
  }

 private:
  void use(std::string_view word) { used_.insert(lower_case(word)); }

  Span place() const {
    return lesson_.pick.given() ? lesson_.pick.span
                                : lesson_.patterns.front().span;
  }

  // Words of one pattern and none of the lesson's others; where it is given,
  // with a picture and at most so many syllables.
  std::vector<std::string> search(PatternId pattern, std::size_t count,
                                  bool first_set, int pictured_syllables = 0) {
    WordQuery query;
    if (pictured_syllables > 0) {
      query.pictures_only = true;
      query.syllables.most = pictured_syllables;
    }
    query.pattern = pattern;
    query.count = count;
    query.first_set = first_set;
    query.leave_out = used_;
    query.prefer = keys_;
    query.prefer.insert(query.prefer.end(), pairs_.begin(), pairs_.end());
    for (const PatternId other : patterns_) {
      if (other != pattern) query.without.push_back(other);
    }
    std::vector<std::string> words;
    for (const FoundWord& found : find_words(source_, query)) {
      // A picture is no reason to take a word that shows nothing of the rule.
      if (query.pictures_only && found.fit != ContrastFit::shows) continue;
      words.push_back(found.reading->word);
      use(found.reading->word);
      if (found.fit == ContrastFit::breaks) {
        exceptions_.push_back(found.reading->word);
      }
    }
    return words;
  }

  // Puts a word with a picture first where none of them has one: it is to be
  // the key word, and its sound is tied to what a child sees. It is not much
  // longer than the others, and nothing that only looks like a form of a word
  // (shorts, scissors).
  void add_pictured(PatternId pattern, bool first_set, std::size_t most,
                    std::vector<std::string>& words) {
    const auto rules = source_.phonics.patterns().rules(pattern);
    if (!source_.has_picture || words.empty() ||
        std::ranges::any_of(words, source_.has_picture) ||
        std::ranges::any_of(rules, &PatternRule::of_ending)) {
      return;
    }
    int syllables = 2;
    for (const std::string& word : words) {
      syllables = std::max(
          syllables,
          source_.phonics.first_units(word, source_.conventions)->syllables());
    }
    const auto found = search(pattern, 1, first_set, syllables);
    if (found.empty()) return;
    if (words.size() == most) {
      used_.erase(lower_case(words.back()));
      words.pop_back();
    }
    words.insert(words.begin(), found.front());
  }

  // Two patterns are told apart by words that differ in one sound.
  void pair_words(std::size_t count) {
    pairs_.clear();
    if (patterns_.size() != 2) return;
    WordQuery query;
    query.pattern = patterns_[0];
    query.count = count / 2;
    query.leave_out = used_;
    pairs_ = words_of(contrast_pairs(source_, query, patterns_[1]));
  }

  // An equal part of the count for each pattern.
  std::vector<std::string> for_each_pattern(std::size_t count, bool first_set,
                                            bool with_key = false) {
    pair_words(count);
    std::vector<std::string> words;
    for (std::size_t i = 0; i < patterns_.size(); ++i) {
      const std::size_t share =
          count * (i + 1) / patterns_.size() - count * i / patterns_.size();
      if (share == 0) continue;
      if (with_key) {
        const int stage = source_.taught.stage(patterns_[i]);
        const auto keys = source_.taught.key_words(stage);
        keys_.assign(keys.begin(), keys.end());
      }
      auto found = search(patterns_[i], share, first_set);
      keys_.clear();
      if (with_key) add_pictured(patterns_[i], first_set, share, found);
      words.insert(words.end(), found.begin(), found.end());
    }
    return words;
  }

  void pick_words() {
    if (!lesson_.words.empty() && !lesson_.pick.given()) return;
    auto wanted = static_cast<std::size_t>(
        lesson_.pick.given() ? lesson_.pick.value : kUsualPick);
    wanted -= std::min(wanted, lesson_.words.size());
    std::vector<std::string> words;
    if (lesson_.words.empty() && lesson_.key_word.given()) {
      words.push_back(lesson_.key_word.value);
      use(lesson_.key_word.value);
      --wanted;
    }
    // What the sets before had is used up.
    const std::size_t each = std::max(wanted, std::size_t{1});
    for (int set = 1; set < lesson_.set.value; ++set) {
      for_each_pattern(each, set == 1);
    }
    exceptions_.clear();
    const bool with_key = lesson_.words.empty() && !lesson_.key_word.given();
    const auto found =
        for_each_pattern(wanted, lesson_.set.value == 1, with_key);
    words.insert(words.end(), found.begin(), found.end());
    if (found.size() < wanted) report_few(found.size(), wanted);
    if (words.empty()) return;
    diagnostics_.note(
        diagnostic::words_chosen, place(),
        fmt::format("{} {}: {}{}", why_chosen(), words.size(),
                    fmt::join(words, " "), exceptions_text()),
        "`sheaf check` shows them ready to paste; read them before you print");
    add("words", words, lesson_.words);
  }

  std::string why_chosen() const {
    if (lesson_.words.empty())
      return "the lesson lists no words, so Sheaf chose";
    return fmt::format("the lesson lists {} of {} words, so Sheaf added",
                       lesson_.words.size(), lesson_.pick.value);
  }

  // Those among the chosen, for which the rule of the contrast does not hold.
  std::string exceptions_text() const {
    if (exceptions_.empty()) return {};
    return fmt::format("; {} {} {} to the rule", fmt::join(exceptions_, " "),
                       exceptions_.size() == 1 ? "is" : "are",
                       exceptions_.size() == 1 ? "an exception" : "exceptions");
  }

  void report_few(std::size_t found, std::size_t wanted) {
    diagnostics_.warning(
        diagnostic::not_enough_words, place(),
        fmt::format("Sheaf found only {} of the {} it was to choose", found,
                    counted_words(wanted)),
        source_.taught.known()
            ? "ask for fewer, or move the lesson to a later step of the "
              "sequence"
            : "ask for fewer, or add words of your own; `sheaf find` with "
              "`--older` shows words that older learners know");
  }

  // Practised, new and review words, in this order.
  void fill_dictation() {
    std::vector<std::string> words;
    // A word that nobody knows comes after the others, if it is not a
    // misspelled one.
    for (const bool known : {true, false}) {
      for (const LessonWord& word : lesson_.words) {
        if (words.size() == kOfTheList) break;
        if (is_known(word) != known) continue;
        const std::string& spelling = word.spelling.value;
        if (known || source_.phonics.right_forms(spelling).empty()) {
          words.push_back(spelling);
        }
      }
    }
    const auto fresh = for_each_pattern(kNewWords, lesson_.set.value == 1);
    words.insert(words.end(), fresh.begin(), fresh.end());
    const int review =
        lesson_.review.given() ? lesson_.review.value : kUsualReview;
    const auto old = review_words(static_cast<std::size_t>(review));
    words.insert(words.end(), old.begin(), old.end());
    add("dictate-words", words, lesson_.dictate_words);
  }

  bool is_known(const LessonWord& word) const {
    const auto is_split = [&](const LessonSplit& split) {
      return lower_case(split.word.value) == lower_case(word.spelling.value);
    };
    return !word.graphemes.empty() ||
           source_.phonics.knows(word.spelling.value) ||
           std::ranges::any_of(lesson_.splits, is_split);
  }

  void add_review(std::size_t count) {
    add("dictate-words", review_words(count), lesson_.dictate_words);
  }

  // -ed is sorted by its three sounds. What the list lacks for that comes from
  // outside it: a list for -ed as /t/ has one sound only.
  void fill_sort() {
    const PatternCatalogue& all = source_.phonics.patterns();
    if (!lesson_.sort_words.empty() || lesson_.words.empty() ||
        !std::ranges::all_of(
            patterns_, [&](PatternId id) { return is_about_ed(all[id].id); })) {
      return;
    }
    std::array<std::size_t, kEdSounds.size()> have = {};
    for (const LessonWord& word : lesson_.words) {
      const int sound = ed_sound(*source_.phonics.first_reading(
                                     word.spelling.value, source_.conventions),
                                 all);
      if (sound >= 0) ++have[static_cast<std::size_t>(sound)];
    }
    std::vector<std::string> words;
    for (std::size_t i = 0; i < have.size(); ++i) {
      const Pattern* pattern = all.by_id(kEdSounds[i]);
      if (pattern == nullptr || have[i] >= kFullColumn) continue;
      const auto found =
          search(all.id_of(*pattern), kFullColumn - have[i], true);
      words.insert(words.end(), found.begin(), found.end());
    }
    add("sort-words", words, lesson_.sort_words);
  }

  // One word of each pattern that is due, then a second of each.
  std::vector<std::string> review_words(std::size_t count) {
    std::vector<PatternId> due;
    for (const int step : source_.taught.due_steps()) {
      for (const PatternId id : source_.taught.patterns_of(step)) {
        if (std::ranges::find(due, id) == due.end() &&
            std::ranges::find(patterns_, id) == patterns_.end()) {
          due.push_back(id);
        }
      }
    }
    std::vector<std::string> words;
    for (bool found = true; found && words.size() < count;) {
      found = false;
      for (const PatternId id : due) {
        if (words.size() == count) break;
        for (std::string& word : search(id, 1, false)) {
          words.push_back(std::move(word));
          found = true;
        }
      }
    }
    if (words.size() < count && lesson_.review.given()) {
      diagnostics_.warning(
          diagnostic::not_enough_words, lesson_.review.span,
          fmt::format("Sheaf found only {} of the {} for review", words.size(),
                      counted_words(count)),
          due.empty() ? "name a sequence, so that Sheaf knows what was taught "
                        "before"
                      : "ask for fewer");
    }
    return words;
  }

  void add(std::string_view key, const std::vector<std::string>& words,
           std::vector<LessonWord>& list) {
    if (words.empty()) return;
    for (const std::string& word : words) {
      list.push_back({.spelling = {word, lesson_.patterns.front().span}});
    }
    FilledKey& filled = filled_.emplace_back();
    filled.key = key;
    for (const LessonWord& word : list) {
      filled.words.push_back(word.spelling.value);
    }
  }

  Lesson& lesson_;
  const SearchGround& source_;
  Diagnostics& diagnostics_;
  std::vector<PatternId> patterns_;
  std::set<std::string, std::less<>> used_;
  std::vector<std::string> pairs_;
  /// Those that the sequence names for the pattern that is looked for.
  std::vector<std::string> keys_;
  std::vector<FilledKey> filled_;
  std::vector<std::string> exceptions_;
};

}  // namespace

std::vector<FilledKey> fill_lesson(Lesson& lesson, const SearchGround& source,
                                   Diagnostics& diagnostics) {
  return Filler(lesson, source, diagnostics).run();
}

}  // namespace sheaf
