#include "marking/target_choice.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "base/nearest.h"
#include "marking/written_word.h"
#include "phonics/words_in.h"

namespace sheaf {
namespace {

// In the costs of `align_graphemes`, tuned on the likely errors of the lessons
// that Sheaf comes with and on attempts labelled by hand
// (`marking_target_choice_test`). The next word must cost
// this much more than the nearest, or the teacher is asked.
constexpr int kClearlyNearer = 450;
// More than this for each grapheme of the word is no attempt at it. A grapheme
// that is missing costs 800.
constexpr int kFarForEach = 480;
constexpr int kFarAtLeast = 780;
// A whole sentence, in percent of its letters.
constexpr int kLikeSentence = 45;
constexpr int kClearlyNearerSentence = 15;
constexpr std::size_t kMostAsked = 4;

struct Place {
  std::size_t item = 0;
  std::size_t word = 0;
};

// A word with all places at which it was dictated: the list, then sentences.
struct Word {
  std::string signs;
  std::string shown;
  const Reading* reading = nullptr;
  std::vector<Place> places;
};

struct Sentence {
  std::size_t item = 0;
  std::string letters;
};

std::string letters_alone(std::string_view text) {
  std::string letters;
  for (const WordPlace& place : words_in(text)) {
    letters +=
        read_written(text.substr(place.begin, place.end - place.begin)).letters;
  }
  return letters;
}

std::string signs_of(std::string_view text) {
  std::string signs;
  for (const WordPlace& place : words_in(text)) {
    const auto word = text.substr(place.begin, place.end - place.begin);
    signs += (signs.empty() ? "" : " ") + read_written(word).signs;
  }
  return signs;
}

// What was dictated, ready to be compared.
class Dictated {
 public:
  explicit Dictated(std::span<const DictatedItem> items) : items_(items) {
    for (const DictatedItem& item : items) {
      item_signs_.push_back(signs_of(item.text));
    }
    for (const bool sentences : {false, true}) {
      for (std::size_t i = 0; i < items.size(); ++i) {
        if (items[i].sentence != sentences) continue;
        for (std::size_t w = 0; w < items[i].words.size(); ++w) add(i, w);
        if (sentences) sentences_.push_back({i, letters_alone(items[i].text)});
      }
    }
  }

  std::span<const DictatedItem> items() const { return items_; }
  std::span<const Word> words() const { return words_; }
  std::span<const Sentence> sentences() const { return sentences_; }

  const Word* find(std::string_view signs) const {
    const auto found = std::ranges::find(words_, signs, &Word::signs);
    return found == words_.end() ? nullptr : &*found;
  }
  /// Whether the lesson dictates this as it stands: a word of the list, or a
  /// whole sentence.
  std::optional<std::size_t> item(std::string_view text) const {
    const auto found = std::ranges::find(item_signs_, signs_of(text));
    if (found == item_signs_.end()) return std::nullopt;
    return static_cast<std::size_t>(found - item_signs_.begin());
  }

 private:
  void add(std::size_t item, std::size_t word) {
    const Reading& reading = items_[item].words[word];
    std::string signs = read_written(reading.word).signs;
    if (signs.empty()) return;
    const auto known = std::ranges::find(words_, signs, &Word::signs);
    if (known != words_.end()) {
      known->places.push_back({item, word});
      return;
    }
    words_.push_back(
        {std::move(signs), reading.word, &reading, {{item, word}}});
  }

  std::span<const DictatedItem> items_;
  std::vector<std::string> item_signs_;
  std::vector<Word> words_;
  std::vector<Sentence> sentences_;
};

// A sentence with what was written for some of its words, and for the others
// themselves.
std::string sentence_with(const DictatedItem& item,
                          const std::map<std::size_t, std::string>& words) {
  const std::vector<WordPlace> places = words_in(item.text);
  std::string text;
  std::size_t at = 0;
  for (std::size_t w = 0; w < places.size(); ++w) {
    const auto other = words.find(w);
    if (other == words.end()) continue;
    text += item.text.substr(at, places[w].begin - at) + other->second;
    at = places[w].end;
  }
  return text + item.text.substr(at);
}

// One learner's attempts.
class Finder {
 public:
  Finder(const Dictated& dictated, const SoundSpellings& spellings,
         MarkingOptions options, LearnerCode learner, RecordTargets& result)
      : dictated_(dictated),
        spellings_(spellings),
        options_(std::move(options)),
        learner_(std::move(learner)),
        result_(result),
        taken_(dictated.words().size(), 0),
        named_(dictated.words().size(), 0),
        item_taken_(dictated.items().size(), false) {}

  // `known`: what is not listed was right, in a sentence too.
  std::vector<Attempt> settle(std::span<const Attempt> attempts, bool known) {
    for (const Attempt& attempt : attempts) {
      if (attempt.names_target()) take_named(attempt, known);
    }
    for (const Attempt& attempt : attempts) {
      if (!attempt.names_target()) find(attempt);
    }
    for (const auto& [item, words] : in_sentences_) {
      const DictatedItem& sentence = dictated_.items()[item];
      std::string written = sentence_with(sentence, words);
      const Span span = sentence_spans_.at(item);
      Attempt attempt{PlacedText::chosen(sentence.text, span), {}};
      attempt.blank = letters_alone(written).empty();
      attempt.written =
          PlacedText::chosen(attempt.blank ? "" : std::move(written), span);
      settled_.push_back(std::move(attempt));
    }
    return std::move(settled_);
  }

 private:
  std::size_t index(const Word& word) const {
    return static_cast<std::size_t>(&word - dictated_.words().data());
  }

  void take_named(const Attempt& attempt, bool known) {
    const std::string& target = attempt.target.text();
    const Word* word = dictated_.find(signs_of(target));
    if (known && word != nullptr) {
      take_place(*word, attempt);
      return;
    }
    if (const auto item = dictated_.item(target)) item_taken_[*item] = true;
    settled_.push_back(attempt);
  }

  void find(const Attempt& attempt) {
    const std::string& written = attempt.written.text();
    const std::string signs = read_written(written).signs;
    if (signs.find(' ') != std::string::npos && find_sentence(attempt)) return;
    struct Near {
      const Word* word;
      int cost;
    };
    std::vector<Near> all;
    bool is_right = false;
    for (const Word& word : dictated_.words()) {
      if (word.signs == signs) {
        is_right = true;
        continue;
      }
      all.push_back(
          {&word,
           mark_attempt(spellings_, *word.reading, written, options_).cost});
    }
    std::ranges::stable_sort(all, {}, &Near::cost);
    std::erase_if(all, [](const Near& near) {
      const auto units = static_cast<int>(near.word->reading->units.size());
      return near.cost > std::max(kFarAtLeast, kFarForEach * units);
    });
    if (all.empty()) {
      unclear(attempt,
              is_right ? UnclearTarget::Why::right : UnclearTarget::Why::none);
      return;
    }
    std::vector<const Word*> words;
    for (const Near& near : all) {
      if (near.cost - all[0].cost < kClearlyNearer) words.push_back(near.word);
    }
    // What the teacher has named an attempt for is not asked about again.
    if (words.size() > 1) {
      std::erase_if(words, [&](const Word* word) {
        return named_[index(*word)] >= word->places.size();
      });
    }
    if (words.size() == 1 && !is_right) {
      take_place(*words[0], attempt);
      return;
    }
    if (words.empty()) words.push_back(all[0].word);
    std::vector<std::string> shown;
    for (const Word* word : words) {
      if (shown.size() < kMostAsked) shown.push_back(word->shown);
    }
    unclear(attempt,
            is_right           ? UnclearTarget::Why::right
            : words.size() > 1 ? UnclearTarget::Why::several
                               : UnclearTarget::Why::taken,
            std::move(shown));
  }

  // A whole sentence, if it is like one and like no other.
  bool find_sentence(const Attempt& attempt) {
    const std::string letters = letters_alone(attempt.written.text());
    struct Near {
      std::size_t item;
      int apart;
    };
    std::vector<Near> all;
    for (const Sentence& sentence : dictated_.sentences()) {
      const auto longest = static_cast<int>(
          std::max({sentence.letters.size(), letters.size(), std::size_t{1}}));
      all.push_back(
          {sentence.item,
           100 * edit_distance(sentence.letters, letters, longest) / longest});
    }
    std::ranges::stable_sort(all, {}, &Near::apart);
    if (all.empty() || all[0].apart > kLikeSentence) return false;
    std::vector<std::string> texts;
    for (const Near& near : all) {
      if (near.apart - all[0].apart < kClearlyNearerSentence) {
        texts.push_back(dictated_.items()[near.item].text);
      }
    }
    const std::size_t item = all[0].item;
    if (texts.size() > 1) {
      unclear(attempt, UnclearTarget::Why::several, std::move(texts));
    } else if (item_taken_[item] || in_sentences_.contains(item)) {
      unclear(attempt, UnclearTarget::Why::in_sentence, std::move(texts));
    } else {
      item_taken_[item] = true;
      Attempt named = attempt;
      named.target = PlacedText::chosen(texts[0], attempt.written.span());
      settled_.push_back(std::move(named));
      result_.found.push_back({learner_, attempt.written, texts[0], {}});
    }
    return true;
  }

  // Puts an attempt into the next free place of a word.
  void take_place(const Word& word, const Attempt& attempt) {
    std::size_t& taken = taken_[index(word)];
    if (taken >= word.places.size()) {
      unclear(attempt, UnclearTarget::Why::taken, {word.shown});
      return;
    }
    const Place place = word.places[taken++];
    if (attempt.names_target()) ++named_[index(word)];
    const DictatedItem& item = dictated_.items()[place.item];
    const bool said = !attempt.names_target();
    if (!item.sentence) {
      Attempt named = attempt;
      named.target = PlacedText::chosen(item.text, attempt.written.span());
      settled_.push_back(std::move(named));
      if (said) {
        result_.found.push_back({learner_, attempt.written, word.shown, {}});
      }
      return;
    }
    if (item_taken_[place.item]) {
      unclear(attempt, UnclearTarget::Why::in_sentence, {word.shown});
      return;
    }
    in_sentences_[place.item][place.word] =
        attempt.blank ? std::string() : attempt.written.text();
    sentence_spans_.try_emplace(place.item, attempt.written.span());
    if (said) {
      result_.found.push_back(
          {learner_, attempt.written, word.shown, item.text});
    }
  }

  void unclear(const Attempt& attempt, UnclearTarget::Why why,
               std::vector<std::string> words = {}) {
    const PlacedText& shown =
        attempt.written.text().empty() ? attempt.target : attempt.written;
    std::string example = words.empty() || why == UnclearTarget::Why::taken
                              ? nearest_free(shown.text())
                              : words[0];
    result_.unclear.push_back({learner_, shown, why, std::move(words),
                               std::move(example), attempt.names_target()});
  }

  // The dictated word that is nearest, however far, and may still be named:
  // one of the list before those of sentences, which say less.
  std::string nearest_free(const std::string& written) const {
    const std::string signs = read_written(written).signs;
    std::string nearest;
    std::optional<std::pair<bool, int>> least;
    for (const Word& word : dictated_.words()) {
      const std::size_t taken = taken_[index(word)];
      if (word.signs == signs || taken >= word.places.size()) continue;
      const std::pair rank(
          dictated_.items()[word.places[taken].item].sentence,
          mark_attempt(spellings_, *word.reading, written, options_).cost);
      if (least && *least <= rank) continue;
      least = rank;
      nearest = word.shown;
    }
    return nearest;
  }

  const Dictated& dictated_;
  const SoundSpellings& spellings_;
  MarkingOptions options_;
  LearnerCode learner_;
  RecordTargets& result_;
  /// Of each word, how many places have an attempt, and how many of those the
  /// record names.
  std::vector<std::size_t> taken_, named_;
  std::vector<bool> item_taken_;
  std::map<std::size_t, std::map<std::size_t, std::string>> in_sentences_;
  std::map<std::size_t, Span> sentence_spans_;
  std::vector<Attempt> settled_;
};

bool is_marked(const Record& record, const LearnerCode& code) {
  return record.marked_all ||
         std::ranges::any_of(record.marked, [&](const PlacedCode& one) {
           return one.value == code;
         });
}

}  // namespace

RecordTargets find_targets(const Record& record,
                           std::span<const DictatedItem> items,
                           const SoundSpellings& spellings,
                           const MarkingOptions& options) {
  RecordTargets result;
  result.record = record;
  const Dictated dictated(items);
  for (OfLearner<Attempt>& learner : result.record.wrong) {
    Finder finder(dictated, spellings, options_for(options, learner.code.value),
                  learner.code.value, result);
    learner.entries =
        finder.settle(learner.entries, is_marked(record, learner.code.value));
  }
  return result;
}

RecordTargets find_targets(const OfLearner<Attempt>& wrong,
                           std::span<const DictatedItem> items,
                           const SoundSpellings& spellings,
                           const MarkingOptions& options) {
  Record record;
  record.marked_all = true;
  record.wrong.push_back(wrong);
  return find_targets(record, items, spellings, options);
}

std::size_t finding_work(const Record& record, std::size_t lesson_work) {
  std::size_t work = 0;
  for (const auto& learner : record.wrong) {
    for (const Attempt& attempt : learner.entries) {
      if (!attempt.names_target()) work += lesson_work;
    }
  }
  return work;
}

}  // namespace sheaf
