#include "planning/sentence_search.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <set>
#include <unordered_map>
#include <utility>

#include "base/utf8.h"
#include "phonics/words_in.h"

namespace sheaf {

namespace {

// Points by which sentences are chosen. How they weigh against each other is a
// judgement, made by reading the first eight of every pattern.
constexpr int kPatternWord = 10;  // each, as far as `kRich` of them
constexpr int kRich = 3;
constexpr int kWrittenFor = 12;  // for one of the patterns
constexpr int kPractised = 4;    // a word of the lesson
constexpr int kSaidAgain = 14;   // a word with a pattern, for each time
constexpr int kWordAgain = 2;    // another word of some weight
constexpr int kSameOpening = 30;
constexpr int kSamePerson = 4;  // two sentences of one set about her
constexpr int kLonger = 2;      // to write, for each word above `kShort`
constexpr int kShort = 6;
constexpr int kFewestInPassage = 4;
constexpr int kNotYet = 100;  // a word that cannot be read yet

// What is known of a word of a sentence, for one group and some patterns.
struct BankedWord {
  std::string lower;
  std::size_t number = 0;  // one for each word in lower case
  bool small = false;
  bool practised = false;
  bool has_pattern = false;
  bool readable = false;
};

// Words that stand in most sentences, of which none is the richer.
bool is_small_word(std::string_view word) {
  constexpr std::array kSmall = {
      "a",   "an",  "the",  "i",   "is",   "it",   "in",   "on",   "at",
      "to",  "of",  "and",  "but", "he",   "she",  "we",   "they", "you",
      "his", "her", "my",   "our", "your", "that", "this", "was",  "are",
      "had", "has", "have", "not", "for",  "with", "as",   "so",   "can",
      "did", "do",  "from", "its", "be",   "by",   "if",   "up",   "out"};
  return std::ranges::find(kSmall, word) != kSmall.end();
}

struct SentenceCandidate {
  std::string_view text;
  Readers readers = Readers::both;
  std::vector<const BankedWord*> words;
  std::pair<std::size_t, std::size_t> opening;
  int pattern_words = 0;
  int missing = 0;
  int points = 0;
  bool own = false;
};

bool suits(Readers text, Readers wanted) {
  return text == Readers::both || wanted == Readers::both || text == wanted;
}

class SentenceSearch {
 public:
  SentenceSearch(const SearchGround& source, const SentenceQuery& query)
      : source_(source), query_(query), bank_(source.phonics.bank()) {}

  std::vector<FoundSentence> sentences() {
    std::vector<SentenceCandidate> all;
    const OwnSentences* own =
        source_.own_sentences ? source_.own_sentences() : nullptr;
    if (own != nullptr) add_own(*own, all);
    for (const std::uint16_t number : numbers()) {
      if (!bank_.is_sentence(number)) continue;
      const BankSentence sentence = bank_.sentence(number);
      if (!suits(sentence.readers, query_.readers)) continue;
      if (own != nullptr && own->has(sentence_key(sentence.text))) continue;
      SentenceCandidate candidate = look_at(sentence.text, words_of(sentence));
      candidate.readers = sentence.readers;
      if (is_wanted(sentence.pattern)) candidate.points += kWrittenFor;
      consider(std::move(candidate), all);
    }
    return choose(all);
  }

  std::vector<FoundPassage> passages() {
    struct Ranked {
      int missing, points;
      FoundPassage passage;
    };
    std::vector<Ranked> ranked;
    for (const std::uint16_t number : numbers()) {
      if (!bank_.is_passage(number)) continue;
      const BankPassage passage = bank_.passage(number);
      if (!suits(passage.readers, query_.readers)) continue;
      if (query_.leave_out.contains(sentence_key(passage.title.text))) continue;
      FoundPassage found = found_of(passage);
      const auto missing = static_cast<int>(found.not_yet.size());
      if (!query_.words.holds(found.words) ||
          found.pattern_words < kFewestInPassage ||
          (missing > 0 && !query_.near_ones)) {
        continue;
      }
      const int share = found.pattern_words * 100 / std::max(1, found.words);
      const int points = share + (is_wanted(passage.pattern) ? kWrittenFor : 0);
      ranked.push_back({missing, points, std::move(found)});
    }
    std::ranges::stable_sort(ranked, [](const Ranked& a, const Ranked& b) {
      return a.missing != b.missing ? a.missing < b.missing
                                    : a.points > b.points;
    });
    std::vector<FoundPassage> found;
    for (Ranked& one : ranked) {
      if (found.size() == query_.count) break;
      found.push_back(std::move(one.passage));
    }
    return found;
  }

 private:
  bool is_wanted(PatternId pattern) const {
    return std::ranges::find(query_.patterns, pattern) != query_.patterns.end();
  }

  // The texts with one of the patterns, each once, in the bank's order.
  std::vector<std::uint16_t> numbers() const {
    std::vector<std::uint16_t> all;
    for (const PatternId pattern : query_.patterns) {
      const auto some = bank_.with(pattern);
      all.insert(all.end(), some.begin(), some.end());
    }
    std::ranges::sort(all);
    const auto rest = std::ranges::unique(all);
    all.erase(rest.begin(), rest.end());
    return all;
  }

  const BankedWord& word(std::string_view spelling) {
    const auto [place, is_new] = words_.try_emplace(std::string(spelling));
    BankedWord& known = place->second;
    if (!is_new) return known;
    known.lower = lower_case(spelling);
    known.number =
        numbers_.try_emplace(known.lower, numbers_.size()).first->second;
    known.small = is_small_word(known.lower);
    known.practised = query_.practised.contains(known.lower);
    const auto reading =
        source_.phonics.first_reading(spelling, source_.conventions);
    known.has_pattern = std::ranges::any_of(
        query_.patterns,
        [&](PatternId pattern) { return reading->find(pattern) != nullptr; });
    known.readable = source_.taught.is_sight_word(known.lower) ||
                     source_.taught.is_decodable(*reading);
    return known;
  }

  std::vector<const BankedWord*> words_of(const BankText& text) {
    std::vector<const BankedWord*> words;
    words.reserve(text.words.size());
    for (const BankWord number : text.words) {
      if (number >= of_bank_.size()) of_bank_.resize(number + 1);
      if (of_bank_[number] == nullptr) {
        of_bank_[number] = &word(bank_.spelling(number));
      }
      words.push_back(of_bank_[number]);
    }
    return words;
  }

  // A word that no list knows is read by Sheaf's guess, as in a lesson, as long
  // as there are not too many.
  void add_own(const OwnSentences& own, std::vector<SentenceCandidate>& all) {
    std::vector<const BankedWord*> known(own.word_count());
    std::vector<bool> seen(own.word_count());
    int guesses = 0;
    for (const OwnSentences::Sentence& sentence : own.all()) {
      std::vector<const BankedWord*> words;
      for (const std::uint32_t number : sentence.words) {
        if (!seen[number]) {
          seen[number] = true;
          const std::string_view spelling = own.spelling(number);
          if (source_.phonics.knows(spelling) ||
              ++guesses <= kMostGuessedWords) {
            known[number] = &word(spelling);
          }
        }
        words.push_back(known[number]);
      }
      if (std::ranges::find(words, nullptr) != words.end()) continue;
      SentenceCandidate candidate = look_at(sentence.text, std::move(words));
      candidate.own = true;
      consider(std::move(candidate), all);
    }
  }

  SentenceCandidate look_at(std::string_view text,
                            std::vector<const BankedWord*> words) {
    SentenceCandidate candidate{.text = text, .words = std::move(words)};
    candidate.opening = opening(candidate.words);
    const BankedWord* practised = nullptr;
    int practised_words = 0;  // two are as good as more
    for (const BankedWord* w : candidate.words) {
      candidate.pattern_words += w->has_pattern ? 1 : 0;
      candidate.missing += w->readable ? 0 : 1;
      if (!w->practised || practised_words == 2 ||
          (practised != nullptr && practised->number == w->number)) {
        continue;
      }
      practised = w;
      ++practised_words;
    }
    const int rich = query_.to_write ? 2 : kRich;
    candidate.points = std::min(candidate.pattern_words, rich) * kPatternWord +
                       practised_words * kPractised;
    if (query_.to_write) {
      candidate.points -=
          std::max(0, static_cast<int>(candidate.words.size()) - kShort) *
          kLonger;
    }
    return candidate;
  }

  void consider(SentenceCandidate candidate,
                std::vector<SentenceCandidate>& all) const {
    if (candidate.pattern_words == 0 ||
        !query_.words.holds(static_cast<int>(candidate.words.size())) ||
        (candidate.missing > 0 && !query_.near_ones) ||
        (!query_.leave_out.empty() &&
         query_.leave_out.contains(sentence_key(candidate.text)))) {
      return;
    }
    candidate.points -= candidate.missing * kNotYet;
    all.push_back(std::move(candidate));
  }

  // What the sentences chosen so far take from the worth of one more.
  struct Used {
    std::vector<int> words;   // by number, how often
    std::vector<int> people;  // by number of the first word
    std::set<std::pair<std::size_t, std::size_t>> openings;
  };

  // The numbers of the first word and, behind a small one, of the second.
  static std::pair<std::size_t, std::size_t> opening(
      const std::vector<const BankedWord*>& words) {
    constexpr std::size_t kNone = SIZE_MAX;
    if (words.empty()) return {kNone, kNone};
    const bool small = words.front()->small && words.size() > 1;
    return {words.front()->number, small ? words[1]->number : kNone};
  }

  static int worth(const SentenceCandidate& candidate, const Used& used) {
    int points = candidate.points;
    for (const BankedWord* w : candidate.words) {
      points -=
          used.words[w->number] * (w->has_pattern ? kSaidAgain : kWordAgain);
    }
    if (used.openings.contains(candidate.opening)) points -= kSameOpening;
    return points - used.people[candidate.words.front()->number] * kSamePerson;
  }

  // A teacher's own that can be read come before all others, and what can be
  // read before what cannot.
  static int rank(const SentenceCandidate& candidate) {
    return candidate.missing > 0 ? 2 : candidate.own ? 0 : 1;
  }

  std::vector<FoundSentence> choose(std::vector<SentenceCandidate>& all) const {
    std::vector<FoundSentence> chosen;
    Used used{std::vector<int>(numbers_.size()),
              std::vector<int>(numbers_.size()),
              {}};
    std::ranges::stable_sort(all, {}, rank);
    std::vector<bool> taken(all.size());
    while (chosen.size() < query_.count) {
      std::optional<std::size_t> best;
      int best_worth = 0;
      for (std::size_t i = 0; i < all.size(); ++i) {
        if (taken[i]) continue;
        if (best && rank(all[i]) > rank(all[*best])) break;
        const int now = worth(all[i], used);
        if (best && now <= best_worth) continue;
        best = i;
        best_worth = now;
      }
      if (!best) break;
      taken[*best] = true;
      const SentenceCandidate& candidate = all[*best];
      for (const BankedWord* w : candidate.words) {
        if (w->has_pattern || !w->small) ++used.words[w->number];
      }
      used.openings.insert(candidate.opening);
      ++used.people[candidate.words.front()->number];
      chosen.push_back(found_of(candidate));
    }
    return chosen;
  }

  static void note_missing(const std::vector<const BankedWord*>& words,
                           std::vector<std::string>& not_yet) {
    for (const BankedWord* w : words) {
      if (!w->readable &&
          std::ranges::find(not_yet, w->lower) == not_yet.end()) {
        not_yet.push_back(w->lower);
      }
    }
  }

  static FoundSentence found_of(const SentenceCandidate& candidate) {
    FoundSentence found;
    found.text = candidate.text;
    found.readers = candidate.readers;
    found.words = static_cast<int>(candidate.words.size());
    found.pattern_words = candidate.pattern_words;
    found.own = candidate.own;
    note_missing(candidate.words, found.not_yet);
    return found;
  }

  FoundPassage found_of(const BankPassage& passage) {
    FoundPassage found;
    found.title = passage.title.text;
    found.text = passage.text.text;
    found.readers = passage.readers;
    note_missing(words_of(passage.title), found.not_yet);
    const auto words = words_of(passage.text);
    note_missing(words, found.not_yet);
    found.words = static_cast<int>(words.size());
    found.pattern_words = static_cast<int>(std::ranges::count_if(
        words, [](const BankedWord* w) { return w->has_pattern; }));
    for (const BankText& question : passage.questions) {
      found.questions.emplace_back(question.text);
      note_missing(words_of(question), found.not_yet);
    }
    return found;
  }

  const SearchGround& source_;
  const SentenceQuery& query_;
  const SentenceBank& bank_;
  std::unordered_map<std::string, BankedWord> words_;
  std::unordered_map<std::string, std::size_t> numbers_;
  std::vector<const BankedWord*> of_bank_;  // by the bank's numbers
};

}  // namespace

std::vector<FoundSentence> find_sentences(const SearchGround& source,
                                          const SentenceQuery& query) {
  return SentenceSearch(source, query).sentences();
}

std::vector<FoundPassage> find_passages(const SearchGround& source,
                                        const SentenceQuery& query) {
  return SentenceSearch(source, query).passages();
}

}  // namespace sheaf
