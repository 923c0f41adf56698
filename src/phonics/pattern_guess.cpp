#include "phonics/pattern_guess.h"

#include <algorithm>
#include <array>
#include <iterator>

#include "base/nearest.h"
#include "phonics/pattern_terms.h"

namespace sheaf {

namespace {

// Terms for several patterns that have all of the words; of terms for the same,
// the commonest.
std::vector<std::string_view> terms_with(
    const std::vector<std::string>& wanted) {
  constexpr std::size_t kMost = 5;
  std::vector<std::string_view> found;
  for (const PatternTerm& term : pattern_terms()) {
    if (term.ids.size() < 2) continue;
    for (const std::string_view one : term.terms) {
      const auto words = name_words(one);
      const bool has_all =
          !wanted.empty() &&
          std::ranges::all_of(wanted, [&](const std::string& word) {
            return std::ranges::find(words, word) != words.end();
          });
      if (!has_all) continue;
      if (found.size() < kMost) found.push_back(one);
      break;
    }
  }
  return found;
}

// How much of what was written a pattern's id and name have; how the parts
// weigh is a judgement, made by reading what came first.
int likeness(const Pattern& pattern, const std::vector<std::string>& wanted,
             const std::string& plain) {
  constexpr std::array<std::string_view, 11> kWeak = {
      "a",    "as",    "in",     "with",    "of",      "the",
      "word", "sound", "letter", "pattern", "spelling"};
  constexpr int kWord = 4, kPart = 2, kAbout = 6, kHasAbout = 3, kBegins = 1;
  std::vector<std::string> own = name_words(pattern.id);
  std::ranges::copy(name_words(pattern.name), std::back_inserter(own));
  int score = 0;
  for (const std::string& word : wanted) {
    const bool weak =
        wanted.size() > 1 && std::ranges::find(kWeak, word) != kWeak.end();
    if (weak) continue;
    if (std::ranges::find(own, word) != own.end()) score += kWord;
    if (wanted.size() > 1 && is_about_grapheme(pattern, word)) {
      score += kHasAbout;
    }
  }
  // The beginning of a word, where that is all there is.
  if (score == 0 && wanted.size() == 1 && wanted[0].size() > 1 &&
      std::ranges::any_of(own, [&](const std::string& word) {
        return word.starts_with(wanted[0]);
      })) {
    score = kPart;
  }
  if (score == 0) return 0;
  if (is_about_grapheme(pattern, plain)) score += kAbout;
  if (plain_name(pattern.name).starts_with(plain)) score += kBegins;
  return score;
}

}  // namespace

bool is_about_grapheme(const Pattern& pattern, const std::string& plain) {
  const bool taught =
      std::ranges::any_of(pattern.teaches, [&](const TaughtUnit& unit) {
        return plain_name(unit.grapheme) == plain;
      });
  if (!taught) return false;
  const std::string id = " " + plain_name(pattern.id) + " ";
  if (id.find(" " + plain + " ") != std::string::npos) return true;
  const auto words = name_words(pattern.name);
  return std::ranges::find(words, plain) != words.end();
}

void guess_pattern(const PatternCatalogue& catalogue, std::string_view text,
                   PatternName& name) {
  constexpr std::size_t kMost = 6, kLongest = 100;
  if (text.size() > kLongest) return;
  const std::vector<std::string> wanted = name_words(text);
  const std::string plain = plain_name(text);
  name.nearest = terms_with(wanted);
  if (!name.nearest.empty()) return;
  struct Likely {
    int score;
    PatternId id;
  };
  std::vector<Likely> likely;
  for (const Pattern& pattern : catalogue.all()) {
    const int score = likeness(pattern, wanted, plain);
    if (score > 0) likely.push_back({score, catalogue.id_of(pattern)});
  }
  std::ranges::stable_sort(likely, std::greater<>(), &Likely::score);
  for (const Likely& one : likely) {
    // What matches much less than the best is not meant.
    const bool far = 2 * one.score < likely.front().score;
    if (name.could_be.size() == kMost || far) break;
    name.could_be.push_back(one.id);
  }
  if (!likely.empty()) return;
  std::vector<std::string_view> names;
  for (const Pattern& pattern : catalogue.all()) {
    names.push_back(pattern.id);
    if (pattern.name != pattern.id) names.push_back(pattern.name);
  }
  for (const PatternTerm& term : pattern_terms()) {
    names.insert(names.end(), term.terms.begin(), term.terms.end());
  }
  name.nearest = nearest_names(text, names);
}

}  // namespace sheaf
