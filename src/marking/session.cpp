#include "marking/session.h"

#include <algorithm>
#include <optional>
#include <set>

#include "analysis/word_finder.h"
#include "marking/written_word.h"

namespace sheaf {
namespace {

// A sentence as its words alone, so that its marks and case do not matter.
std::string words_alone(std::string_view text) {
  std::string all;
  for (const WordPlace& place : words_in(text)) {
    const auto word = text.substr(place.begin, place.end - place.begin);
    all += (all.empty() ? "" : " ") + read_written(word).signs;
  }
  return all;
}

class SessionMarker {
 public:
  SessionMarker(SessionResult& result, const SoundSpellings& spellings,
                const Phonics& phonics, const MarkingOptions& options)
      : result_(result),
        spellings_(spellings),
        phonics_(phonics),
        options_(options) {
    for (const DictatedItem& item : result.items) {
      keys_.push_back(words_alone(item.text));
    }
    of_lesson_ = keys_.size();
  }

  /// The learner whose writing comes next, judged by how this one speaks.
  LearnerResult& learner(const LearnerCode& code) {
    own_ = options_for(options_, code);
    speaks_as_all_ = !options_.of_learners.contains(code);
    const auto found =
        std::ranges::find(result_.learners, code, &LearnerResult::code);
    if (found != result_.learners.end()) return *found;
    result_.learners.push_back({.code = code});
    return result_.learners.back();
  }

  // Marks a learner of whom all is known: what was not given was right.
  void mark_all(LearnerResult& learner, const OfLearner<Attempt>* wrong) {
    std::vector<const Attempt*> attempts(of_lesson_);
    std::vector<const Attempt*> others;
    if (wrong != nullptr) {
      for (const Attempt& attempt : wrong->entries) {
        const std::size_t item = item_of(attempt.target, attempts);
        if (item < of_lesson_) {
          attempts[item] = &attempt;
        } else {
          others.push_back(&attempt);
        }
      }
    }
    for (std::size_t item = 0; item < of_lesson_; ++item) {
      if (attempts[item] == nullptr) {
        add_right(learner, item);
      } else {
        add(learner, item, written_of(*attempts[item]));
      }
    }
    for (const Attempt* attempt : others) add_single(learner, *attempt);
  }

  void add_each(LearnerResult& learner, const OfLearner<Attempt>& some) {
    for (const Attempt& attempt : some.entries) add_single(learner, attempt);
  }

  void add_single(LearnerResult& learner, const Attempt& attempt) {
    add(learner, item_of(attempt.target, {}), written_of(attempt));
  }

 private:
  static std::string_view written_of(const Attempt& attempt) {
    return attempt.blank ? std::string_view{}
                         : std::string_view(attempt.written.text());
  }

  // The item that a target names, the first that has no attempt yet; a new one
  // where the lesson did not dictate it.
  std::size_t item_of(const PlacedText& target,
                      std::span<const Attempt* const> taken) {
    const std::string key = words_alone(target.text());
    std::size_t found = keys_.size();
    for (std::size_t i = 0; i < keys_.size(); ++i) {
      if (keys_[i] != key) continue;
      found = i;
      if (i >= taken.size() || taken[i] == nullptr) return i;
    }
    if (found < keys_.size()) return found;
    if (said_.insert(key).second) result_.not_dictated.push_back(target);
    result_.items.push_back(dictated_item(target.text(), phonics_));
    keys_.push_back(key);
    return keys_.size() - 1;
  }

  // What was written as it was dictated is most of all writing; it is marked
  // once for all who speak alike.
  void add_right(LearnerResult& learner, std::size_t item) {
    if (!speaks_as_all_) {
      add(learner, item, result_.items[item].text);
      return;
    }
    right_.resize(of_lesson_);
    std::optional<LearnerResult>& right = right_[item];
    if (!right) add(right.emplace(), item, result_.items[item].text);
    learner.words.insert(learner.words.end(), right->words.begin(),
                         right->words.end());
    learner.extra_words.insert(learner.extra_words.end(),
                               right->extra_words.begin(),
                               right->extra_words.end());
  }

  void add(LearnerResult& learner, std::size_t item, std::string_view written) {
    const DictatedItem& dictated = result_.items[item];
    if (!dictated.sentence) {
      if (dictated.words.empty()) return;
      learner.words.push_back(
          {item, 0, MarkedWord::Kind::matched,
           mark_attempt(spellings_, dictated.words[0], written, own_)});
      return;
    }
    MarkedSentence sentence =
        mark_sentence(spellings_, dictated.words, written, own_);
    for (std::size_t w = 0; w < sentence.words.size(); ++w) {
      MarkedWord& word = sentence.words[w];
      learner.words.push_back({item, w, word.kind, std::move(word.attempt)});
    }
    std::ranges::move(sentence.extra, std::back_inserter(learner.extra_words));
  }

  SessionResult& result_;
  const SoundSpellings& spellings_;
  const Phonics& phonics_;
  const MarkingOptions& options_;
  MarkingOptions own_;
  bool speaks_as_all_ = true;
  std::vector<std::optional<LearnerResult>> right_;  // by item of the lesson
  std::vector<std::string> keys_;
  std::size_t of_lesson_ = 0;
  std::set<std::string> said_;
};

bool names(std::span<const PlacedCode> codes, const LearnerCode& code) {
  return std::ranges::any_of(
      codes, [&](const PlacedCode& one) { return one.value == code; });
}

template <typename T>
const OfLearner<T>* entries_of(std::span<const OfLearner<T>> all,
                               const LearnerCode& code) {
  for (const OfLearner<T>& one : all) {
    if (one.code.value == code) return &one;
  }
  return nullptr;
}

// Everyone whom the record speaks of, the class first.
std::vector<LearnerCode> codes_of(const Record& record,
                                  std::span<const LearnerCode> class_codes,
                                  SessionResult& result) {
  std::vector<LearnerCode> codes(class_codes.begin(), class_codes.end());
  const auto add = [&](const PlacedCode& code) {
    if (std::ranges::find(codes, code.value) != codes.end()) return;
    codes.push_back(code.value);
    if (!class_codes.empty()) result.not_in_class.push_back(code);
  };
  for (const PlacedCode& code : record.marked) add(code);
  for (const auto& one : record.wrong) add(one.code);
  for (const auto& one : record.written) add(one.code);
  for (const auto& one : record.writing) add(one.code);
  for (const PlacedCode& code : record.absent) add(code);
  return codes;
}

void add_tallies(const OfLearner<Tally>& tallies, const Phonics& phonics,
                 LearnerResult& learner, SessionResult& result) {
  for (const Tally& tally : tallies.entries) {
    const auto names = phonics.find_patterns(tally.pattern.value);
    if (names.size() != 1 || !names[0].meant) {
      result.unknown_patterns.push_back(tally.pattern);
      continue;
    }
    learner.writing.push_back({*names[0].meant, tally.right, tally.chances});
  }
}

}  // namespace

const LearnerResult* SessionResult::find(const LearnerCode& code) const {
  const auto found = std::ranges::find(learners, code, &LearnerResult::code);
  return found == learners.end() ? nullptr : &*found;
}

DictatedItem dictated_item(std::string_view text, const Phonics& phonics,
                           const Conventions& conventions) {
  DictatedItem item;
  item.text = text;
  std::vector<Reading>& words = item.words.own();
  for (const WordPlace& place : words_in(text)) {
    const auto word = text.substr(place.begin, place.end - place.begin);
    words.push_back(phonics.read(word, conventions).front());
  }
  item.sentence = words.size() > 1;
  return item;
}

std::size_t marking_work(std::string_view target, std::string_view written) {
  // A sentence is laid against the sentence, word by word.
  const auto blanks =
      std::ranges::count(target, ' ') + std::ranges::count(written, ' ');
  return 1 + static_cast<std::size_t>(blanks) +
         target.size() * written.size() / 1000;
}

std::size_t marking_work(const Record& record, std::size_t lesson_work) {
  const std::size_t marked =
      record.marked.size() + (record.marked_all ? record.wrong.size() : 0);
  std::size_t work = marked * lesson_work;
  std::size_t attempts = 0;
  for (const auto* learners : {&record.wrong, &record.written}) {
    for (const auto& learner : *learners) {
      for (const Attempt& attempt : learner.entries) {
        ++attempts;
        work += marking_work(attempt.target.text(), attempt.written.text());
      }
    }
  }
  // The target of each is looked for among all others.
  return work + attempts * attempts / 1000;
}

SessionResult mark_session(const Record& record,
                           std::span<const LearnerCode> class_codes,
                           std::vector<DictatedItem> items,
                           const SoundSpellings& spellings,
                           const Phonics& phonics,
                           const MarkingOptions& options) {
  SessionResult result;
  result.date = record.date.value;
  result.kind = record.kind.value;
  result.lesson = record.lesson.value;
  result.items = std::move(items);
  if (record.not_yet) return result;
  SessionMarker marker(result, spellings, phonics, options);
  for (const LearnerCode& code : codes_of(record, class_codes, result)) {
    const auto* wrong = entries_of<Attempt>(record.wrong, code);
    const auto* written = entries_of<Attempt>(record.written, code);
    const auto* writing = entries_of<Tally>(record.writing, code);
    const bool absent = names(record.absent, code);
    const bool marked =
        names(record.marked, code) || (record.marked_all && wrong != nullptr);
    if (!absent && !marked && wrong == nullptr && written == nullptr &&
        writing == nullptr) {
      continue;
    }
    LearnerResult& learner = marker.learner(code);
    learner.absent = absent;
    if (absent) continue;
    if (marked && written == nullptr) {
      marker.mark_all(learner, wrong);
    } else {
      for (const auto* some : {written, wrong}) {
        if (some != nullptr) marker.add_each(learner, *some);
      }
    }
    if (writing != nullptr) {
      add_tallies(*writing, phonics, learner, result);
    }
  }
  return result;
}

}  // namespace sheaf
