#include "lexicon/derived_words.h"

#include <algorithm>
#include <array>

#include "lexicon/sources.h"
#include "phonics/aligner.h"
#include "phonics/derive.h"
#include "phonics/ending_rules.h"

namespace sheaf {
namespace {

using P = Phoneme;

constexpr int kDeepest = 3;
// Parts of a compound must be words that people meet.
constexpr int kLargestCompoundList = 40;

bool same_or_weak(P a, P b) {
  const auto weak = [](P p) { return p == P::ax || p == P::ih; };
  return a == b || (weak(a) && weak(b));
}

bool only_letters(std::string_view word) {
  return std::ranges::all_of(word, [](char c) { return c >= 'a' && c <= 'z'; });
}

struct Affix {
  std::string_view letters;
  std::string_view sounds;  // as in the supplement
  std::string_view graphemes = {};
};

constexpr std::array kPrefixRows = {
    Affix{"under", "'ah n|d er"}, Affix{"inter", "ih n|t er"},
    Affix{"super", "'s uw|p er"}, Affix{"over", "'ow|v er"},
    Affix{"anti", "'ae n|t iy"},  Affix{"fore", "'f ao r"},
    Affix{"semi", "'s eh|m iy"},  Affix{"dis", "d ih s"},
    Affix{"mis", "m ih s"},       Affix{"out", "'aw t"},
    Affix{"non", "'n aa n"},      Affix{"pre", "p r iy"},
    Affix{"sub", "'s ah b"},      Affix{"un", "ah n"},
    Affix{"re", "r iy"},          Affix{"de", "d iy"},
    Affix{"up", "'ah p"},         Affix{"in", "ih n"},
    Affix{"im", "ih m"},
};

constexpr std::array kSuffixRows = {
    Affix{"able", "ax|b ax l"},
    Affix{"ably", "ax|b l iy"},
    Affix{"ability", "ax|b ih|l ih|t iy"},
    Affix{"like", "'l ay k"},
    Affix{"ship", "sh ih p"},
    Affix{"hood", "hh uh d"},
    Affix{"some", "s ax m"},
    Affix{"ward", "w er d"},
    Affix{"wards", "w er d z"},
    Affix{"man", "m ax n"},
    Affix{"men", "m eh n"},
    Affix{"ish", "ih sh"},
    Affix{"ism", "ih z|ax m"},
    Affix{"ist", "ih s t"},
    Affix{"ize", "ay z"},
    Affix{"or", "er"},
    Affix{"en", "ax n"},
    Affix{"th", "th"},
    Affix{"ally", "l iy"},
    Affix{"fold", "f ow l d"},
    Affix{"wise", "w ay z"},
    Affix{"dom", "d ax m"},
    Affix{"ess", "ih s"},
};

struct Respelling {
  std::string_view british;
  std::string_view american;
  bool at_end;
};

// British spellings and the American ones that the dictionary has.
constexpr std::array kRespellings = {
    Respelling{"our", "or", false},
    Respelling{"isation", "ization", false},
    Respelling{"ise", "ize", false},
    Respelling{"ising", "izing", false},
    Respelling{"yse", "yze", false},
    Respelling{"ysing", "yzing", false},
    Respelling{"tre", "ter", false},
    Respelling{"bre", "ber", false},
    Respelling{"ogue", "og", false},
    Respelling{"ll", "l", false},
    Respelling{"ence", "ense", false},
    Respelling{"ae", "e", false},
    Respelling{"oe", "e", false},
    Respelling{"l", "ll", false},
    Respelling{"mme", "m", false},
    Respelling{"que", "ck", true},
    Respelling{"grey", "gray", false},
    Respelling{"plough", "plow", false},
    Respelling{"mould", "mold", false},
    Respelling{"tyre", "tire", false},
    Respelling{"pp", "p", false},
    // Older or other spellings within America.
    Respelling{"izer", "iser", false},
    Respelling{"or", "our", false},
    Respelling{"ize", "ise", false},
    Respelling{"izing", "ising", false},
    Respelling{"er", "re", true},
    Respelling{"ense", "ence", false},
    Respelling{"og", "ogue", true},
};

// Endings that are words too: alternation is not of a nation.
bool is_ending(std::string_view part) {
  constexpr std::string_view kEndings[] = {"nation", "ion", "ions", "ally",
                                           "ants",   "red", "sure"};
  return std::ranges::find(kEndings, part) != std::ranges::end(kEndings);
}

}  // namespace

const WordDeriver::Records& WordDeriver::make(const std::string& word,
                                              int depth) {
  const auto found = made_.find(word);
  if (found != made_.end()) return found->second;
  static const Records kNone;
  if (depth > kDeepest || word.size() < 3) return kNone;
  Records records;
  if (only_letters(word)) {
    records =
        inflected(word, depth, [](const auto&, const auto&) { return true; });
  } else {
    records = with_sign(word, depth);
    if (records.empty()) return kNone;
  }
  if (records.empty()) records = stripped(word);
  if (records.empty()) records = respelled(word, depth);
  if (records.empty()) records = with_prefix(word, depth);
  if (records.empty()) records = with_suffix(word, depth);
  if (records.empty()) records = compound(word);
  if (records.empty()) return kNone;
  return made_[word] = std::move(records);
}

const WordDeriver::Records* WordDeriver::known(const std::string& word,
                                               int depth) {
  if (const Records* records = find_(word)) return records;
  if (tier_(word) == 0) return nullptr;
  const Records& records = make(word, depth + 1);
  return records.empty() ? nullptr : &records;
}

WordDeriver::Records WordDeriver::form(const std::string& word, bool name,
                                       bool by_sounds) {
  return inflected(
      word, kDeepest, [&](const EndingAnalysis& a, const WordRecord& base) {
        const bool plural = a.ending == Ending::s || a.ending == Ending::es;
        if (base.name ? !plural : name) return false;
        if (!by_sounds) return true;
        const auto right =
            put_ending_on(a.base, a.ending, traits_of(base, inventory_));
        return std::ranges::find(right, word, &EndedWord::spelling) !=
               right.end();
      });
}

WordDeriver::Records WordDeriver::inflected(const std::string& word, int depth,
                                            const Allow& allow) {
  Records result;
  int best_rank = 0;
  const auto rank_of = [&](const EndingAnalysis& analysis) {
    const Records* bases = known(analysis.base, depth);
    if (bases == nullptr) return -1;
    Records made;
    for (const WordRecord& base : *bases) {
      if (!allow(analysis, base)) continue;
      auto record =
          derive_record(word, word, analysis, base, label_(base), inventory_);
      if (record) made.push_back(std::move(*record));
    }
    if (made.empty()) return -1;
    constexpr int kUnlisted = 99;
    const int tier = tier_(analysis.base);
    const bool plural = tier_(std::string(without_plural_s(analysis.base))) > 0;
    const int rank = (tier == 0 ? kUnlisted : tier) + joint_rank(analysis) +
                     (plural ? kPluralRank : 0);
    if (result.empty() || rank < best_rank) {
      result = std::move(made);
      best_rank = rank;
    }
    return rank;
  };
  take_off_ending(word, rank_of);
  return result;
}

// The base of a word that the dictionary has only with an ending: astonish
// from astonished. Taken where putting the ending back gives the same sounds.
WordDeriver::Records WordDeriver::stripped(const std::string& word) {
  struct Form {
    EndedWord made;
    std::size_t sounds;  // that the ending may have
  };
  std::vector<Form> forms;
  for (const Ending ending :
       {Ending::s, Ending::ing, Ending::ed, Ending::ly, Ending::er}) {
    for (const EndedWord& made : put_ending_on(word, ending)) {
      // swagger is not from swag, nor probable from probably.
      const bool doubtful =
          (ending == Ending::er && made.joint == Joint::doubled) ||
          (ending == Ending::ly && made.joint != Joint::plain);
      if (doubtful) continue;
      for (const std::size_t sounds : {1U, 2U}) forms.push_back({made, sounds});
    }
  }
  Records result;
  for (const Form& form : forms) {
    const Records* records = find_(form.made.spelling);
    if (records == nullptr || tier_(form.made.spelling) == 0) continue;
    for (const WordRecord& longer : *records) {
      const std::vector<P> sounds = phonemes_of(longer.segments, inventory_);
      if (sounds.size() < form.sounds + 2) continue;
      std::vector<P> base(sounds.begin(), sounds.end() - form.sounds);
      // lozenges and demoted end in a beat of their own.
      if ((base.back() == P::ax || base.back() == P::ih) &&
          !word.ends_with('a') && !word.ends_with('y')) {
        continue;
      }
      // rustling has no weak vowel before its l, rustle has.
      if (form.made.joint == Joint::dropped_e && word.ends_with("le") &&
          base.back() == P::l && !is_vowel(base[base.size() - 2])) {
        base.insert(base.end() - 1, P::ax);
      }
      const auto again =
          add_ending_sounds(base, {form.made.ending, form.made.joint, word});
      if (!again || !std::ranges::equal(*again, sounds, same_or_weak)) continue;
      AlignTask task;
      task.letters = word;
      task.phonemes = base;
      WordRecord record = longer;
      record.spelling = word;
      record.origin = Reading::Origin::derived;
      record.segments = align(inventory_, task);
      if (!record.segments.empty()) result.push_back(std::move(record));
    }
    if (!result.empty()) return result;
  }
  return result;
}

WordDeriver::Records WordDeriver::respelled(const std::string& word,
                                            int depth) {
  Records result;
  for (const Respelling& r : kRespellings) {
    for (std::size_t at = word.find(r.british); at != std::string::npos;
         at = word.find(r.british, at + 1)) {
      if (r.at_end && at + r.british.size() != word.size()) continue;
      std::string other = word;
      other.replace(at, r.british.size(), r.american);
      if (other == word || tier_(other) == 0) continue;
      const Records* bases = find_(other);
      if (bases == nullptr && depth == 0) {
        const Records& made = make(other, kDeepest);
        if (!made.empty()) bases = &made;
      }
      if (bases == nullptr) continue;
      for (const WordRecord& base : *bases) {
        const std::vector<P> sounds = phonemes_of(base.segments, inventory_);
        AlignTask task;
        task.letters = word;
        task.phonemes = sounds;
        if (word.ends_with("ed") && other.ends_with("ed") &&
            inventory_[base.segments.back().id].grapheme() == "ed") {
          task.ending_ed = static_cast<int>(word.size()) - 2;
        }
        WordRecord record = base;
        record.spelling = word;
        record.origin = Reading::Origin::derived;
        record.segments = align(inventory_, task);
        if (!record.segments.empty()) result.push_back(std::move(record));
      }
      if (!result.empty()) return result;
    }
  }
  return result;
}

WordDeriver::Records WordDeriver::with_prefix(const std::string& word,
                                              int depth) {
  Records result;
  for (const Affix& prefix : kPrefixRows) {
    if (!word.starts_with(prefix.letters)) continue;
    const std::string rest = word.substr(prefix.letters.size());
    if (rest.size() < 3 || tier_(rest) == 0) continue;
    const Records* bases = known(rest, depth);
    if (bases == nullptr) continue;
    Pronunciation own;
    if (!read_sounds(prefix.sounds, own)) continue;
    AlignTask task;
    task.letters = prefix.letters;
    task.phonemes = own.phonemes;
    WordRecord first;
    first.spelling = prefix.letters;
    first.stress = own.stress;
    first.segments = align(inventory_, task);
    if (first.segments.empty()) continue;
    for (const WordRecord& base : *bases) {
      WordRecord record = join_records(first, base, word, inventory_);
      record.label = base.label;
      result.push_back(std::move(record));
    }
    return result;
  }
  return result;
}

WordDeriver::Records WordDeriver::with_suffix(const std::string& word,
                                              int depth) {
  Records result;
  for (const Affix& suffix : kSuffixRows) {
    if (!word.ends_with(suffix.letters)) continue;
    const std::string stem =
        word.substr(0, word.size() - suffix.letters.size());
    if (stem.size() < 3) continue;
    const bool vowel = std::string_view("aeiou").find(suffix.letters[0]) !=
                       std::string_view::npos;
    for (const auto& [candidate, joint] :
         possible_suffix_bases(word, suffix.letters)) {
      if (tier_(candidate) == 0) continue;
      const Records* bases = known(candidate, depth);
      if (bases == nullptr) continue;
      Pronunciation own;
      if (!read_sounds(suffix.sounds, own)) continue;
      for (const WordRecord& base : *bases) {
        std::vector<P> sounds = phonemes_of(base.segments, inventory_);
        sounds.insert(sounds.end(), own.phonemes.begin(), own.phonemes.end());
        AlignTask task;
        task.letters = word;
        task.phonemes = sounds;
        WordRecord record = base;
        record.spelling = word;
        record.origin = Reading::Origin::derived;
        record.stress = static_cast<std::uint16_t>(
            base.stress | own.stress
                              << syllable_count(base.segments, inventory_));
        record.segments = align(inventory_, task);
        if (candidate == stem && !vowel) {
          WordRecord tail;
          tail.spelling = suffix.letters;
          AlignTask part;
          part.letters = suffix.letters;
          part.phonemes = own.phonemes;
          tail.segments = align(inventory_, part);
          tail.stress = own.stress;
          if (!tail.segments.empty()) {
            record = join_records(base, tail, word, inventory_);
          }
        }
        if (!record.segments.empty()) result.push_back(std::move(record));
      }
      if (!result.empty()) return result;
    }
  }
  return result;
}

WordDeriver::Records WordDeriver::compound(const std::string& word) {
  if (!may_be_compound_(word)) return {};
  // The most even split of two common words.
  const auto fits = [&](const std::string& part) {
    const int tier = tier_(part);
    return part.size() >= 3 && tier > 0 && tier <= kLargestCompoundList &&
           find_(part) != nullptr;
  };
  std::size_t best = 0;
  int best_tier = 1000;
  for (std::size_t at = 3; at + 3 <= word.size(); ++at) {
    const std::string first = word.substr(0, at), second = word.substr(at);
    if (!fits(first) || !fits(second) || is_ending(second)) continue;
    const int tier = tier_(first) + tier_(second);
    if (tier < best_tier) {
      best = at;
      best_tier = tier;
    }
  }
  if (best == 0) return {};
  const WordRecord& first = find_(word.substr(0, best))->front();
  const WordRecord& second = find_(word.substr(best))->front();
  WordRecord record = join_records(first, second, word, inventory_);
  record.label = 0;
  return {record};
}

}  // namespace sheaf
