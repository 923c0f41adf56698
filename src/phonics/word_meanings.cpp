#include "phonics/word_meanings.h"

#include <algorithm>
#include <array>
#include <unordered_map>

#include "phonics/irregular_forms.h"

namespace sheaf {

namespace {

constexpr double kWhole = 255;
// Below this, two things are no more alike than any two (a whale and a box).
constexpr double kLeastLikeness = 0.7;
constexpr double kLeastNearness = 0.4;
// Nobody thinks of a sense that is rarer than this beside the others: the
// queen of the bees, a cake of soap.
constexpr double kLeastUsualHere = 0.25;
constexpr double kLeastUsualThere = 0.15;
// Deeper than any chain of wider things; damaged bytes may have a ring.
constexpr int kMostSteps = 24;

struct KindEndings {
  WordKind kind;
  Ending ending;
};
// Those that leave a word what it is.
constexpr std::array kInflections = {
    KindEndings{WordKind::noun, Ending::s},
    KindEndings{WordKind::noun, Ending::es},
    KindEndings{WordKind::verb, Ending::s},
    KindEndings{WordKind::verb, Ending::es},
    KindEndings{WordKind::verb, Ending::ed},
    KindEndings{WordKind::verb, Ending::ing},
    KindEndings{WordKind::adjective, Ending::er},
    KindEndings{WordKind::adjective, Ending::est},
};

bool takes(WordKind kind, Ending ending) {
  return ending == Ending::none ||
         std::ranges::any_of(kInflections, [&](const KindEndings& row) {
           return row.kind == kind && row.ending == ending;
         });
}

}  // namespace

WordMeanings::WordMeanings(const LexiconFile& file, const Lexicon& lexicon)
    : lexicon_(lexicon),
      senses_(file.records<WordSense>(Section::senses)),
      concepts_(file.records<Concept>(Section::concepts)),
      opposites_(file.records<OppositeConcepts>(Section::opposites)) {}

std::span<const WordSense> WordMeanings::senses_at(std::uint32_t place) const {
  const auto found =
      std::ranges::equal_range(senses_, place, {}, &WordSense::word);
  return {found.begin(), found.end()};
}

std::span<const WordSense> WordMeanings::senses_of(
    std::string_view base) const {
  const std::uint32_t place = lexicon_.find(base);
  return place == kNoWord ? std::span<const WordSense>{} : senses_at(place);
}

void WordMeanings::add_form(std::vector<WordForm>& forms, std::string_view base,
                            Ending ending) const {
  std::array<double, 4> shares{};
  for (const WordSense& sense : senses_of(base)) {
    shares[static_cast<std::size_t>(sense.kind())] += sense.share / kWhole;
  }
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const auto kind = static_cast<WordKind>(i);
    if (shares[i] == 0 || !takes(kind, ending)) continue;
    const Ending plain = ending == Ending::es ? Ending::s : ending;
    const bool there = std::ranges::any_of(forms, [&](const WordForm& form) {
      return form.kind == kind && form.ending == plain && form.base == base;
    });
    if (!there) forms.push_back({kind, plain, std::string(base), shares[i]});
  }
}

std::vector<WordForm> WordMeanings::forms(std::string_view word) const {
  std::vector<WordForm> forms;
  add_form(forms, word, Ending::none);
  for (const Ending ending : {Ending::s, Ending::es, Ending::ed, Ending::ing,
                              Ending::er, Ending::est}) {
    for (const std::string& base : bases_of_irregular(word, ending)) {
      add_form(forms, base, ending);
    }
    for (const EndingAnalysis& analysis : possible_bases(word, ending)) {
      // What a row says of the base outdoes the rules: runned is no word.
      const auto right = irregular_forms(analysis.base, ending);
      if (right.empty() || std::ranges::find(right, word) != right.end()) {
        add_form(forms, analysis.base, ending);
      }
    }
  }
  std::ranges::stable_sort(forms, std::ranges::greater{}, &WordForm::share);
  return forms;
}

bool WordMeanings::can_be(std::string_view word, WordKind kind,
                          Ending ending) const {
  return std::ranges::any_of(forms(word), [&](const WordForm& form) {
    return form.kind == kind && form.ending == ending;
  });
}

double WordMeanings::likeness(std::uint16_t a, std::uint16_t b) const {
  if (a >= concepts_.size() || b >= concepts_.size()) return 0;
  if (a == b) return 1;
  std::array<std::uint16_t, kMostSteps> above{};
  std::size_t count = 0;
  for (std::uint16_t at = a; at < concepts_.size() && count < above.size();
       at = concepts_[at].parent) {
    above[count++] = at;
  }
  std::uint16_t at = b;
  for (int steps = 0; at < concepts_.size() && steps < kMostSteps; ++steps) {
    const auto end = above.begin() + static_cast<std::ptrdiff_t>(count);
    if (std::find(above.begin(), end, at) != end) {
      const double sum = concepts_[a].information + concepts_[b].information;
      return sum == 0 ? 0 : 2.0 * concepts_[at].information / sum;
    }
    at = concepts_[at].parent;
  }
  return 0;
}

bool WordMeanings::is_form_of_another(std::string_view word,
                                      WordKind kind) const {
  return std::ranges::any_of(forms(word), [&](const WordForm& form) {
    if (form.base == word) return false;
    if (kind == WordKind::noun || kind == WordKind::verb) {
      return form.kind == kind;
    }
    return form.ending == Ending::er || form.ending == Ending::est;
  });
}

std::vector<WordMeanings::Near> WordMeanings::near(const WordForm& form,
                                                   Object object) const {
  const std::uint32_t own = lexicon_.find(form.base);
  std::unordered_map<std::uint32_t, double> best;
  for (const WordSense& sense : senses_of(form.base)) {
    if (sense.kind() != form.kind) continue;
    const double usual = sense.share / kWhole / form.share;
    if (usual < kLeastUsualHere) continue;
    for (const WordSense& other : senses_) {
      if (other.kind() != form.kind || other.word == own ||
          other.share < kLeastUsualThere * kWhole) {
        continue;
      }
      if ((object == Object::with &&
           (other.traits & WordSense::kWithObject) == 0) ||
          (object == Object::without &&
           (other.traits & WordSense::kWithoutObject) == 0)) {
        continue;
      }
      const double like = likeness(sense.topic, other.topic);
      if (like < kLeastLikeness) continue;
      const OppositeConcepts pair = {std::min(sense.topic, other.topic),
                                     std::max(sense.topic, other.topic)};
      if (std::ranges::binary_search(opposites_, pair)) continue;
      const double nearness =
          like * (0.5 + usual / 2) * (0.5 + other.share / kWhole / 2);
      if (nearness < kLeastNearness) continue;
      double& kept = best[other.word];
      kept = std::max(kept, nearness);
    }
  }
  std::vector<Near> near;
  for (const auto& [place, nearness] : best) {
    const auto record = lexicon_.record(place);
    if (!record || record->name || !record->everyday ||
        is_form_of_another(record->spelling, form.kind)) {
      continue;
    }
    near.push_back({record->spelling, nearness});
  }
  std::ranges::sort(near, [](const Near& a, const Near& b) {
    return a.nearness != b.nearness ? a.nearness > b.nearness : a.word < b.word;
  });
  return near;
}

}  // namespace sheaf
