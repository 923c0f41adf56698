#include "lexicon/listed_forms.h"

#include <algorithm>
#include <array>

#include "phonics/derive.h"
#include "phonics/ending_rules.h"
#include "phonics/irregular_forms.h"

namespace sheaf {
namespace {

// A base of an irregular form is a word that people meet.
constexpr int kLargestBaseList = 50;

int plain_tier(const WordLists& lists, const std::string& word) {
  const auto found = lists.find(word);
  return found == lists.end() || found->second.name ? 0 : found->second.tier;
}

bool is_plain(std::string_view word) {
  return std::ranges::all_of(word, [](char c) { return c >= 'a' && c <= 'z'; });
}

// Whether the word is right as some form of a listed word.
bool is_right_form(const WordLists& lists, const std::string& word) {
  return static_cast<bool>(take_off_ending(word, [&](const EndingAnalysis& a) {
    return plain_tier(lists, a.base) > 0 ? 0 : -1;
  }));
}

// Whether the word is an irregular one made regular.
bool is_made_regular(const WordLists& lists, const std::string& word) {
  for (const Ending ending :
       {Ending::s, Ending::es, Ending::ed, Ending::er, Ending::est}) {
    for (const EndingAnalysis& a : conceivable_bases(word, ending)) {
      const int tier = plain_tier(lists, a.base);
      if (tier == 0 || tier > kLargestBaseList) continue;
      const auto right = irregular_forms(a.base, ending);
      if (!right.empty() && std::ranges::find(right, word) == right.end()) {
        return true;
      }
    }
  }
  return false;
}

// So that a base comes before what is made from it.
std::vector<std::pair<std::string, ScowlWord>> shortest_first(
    const WordLists& lists) {
  std::vector<std::pair<std::string, ScowlWord>> words(lists.begin(),
                                                       lists.end());
  std::ranges::stable_sort(words, {},
                           [](const auto& word) { return word.first.size(); });
  return words;
}

}  // namespace

void drop_wrong_forms(LexiconSources& sources) {
  std::vector<std::string> wrong;
  for (const auto& [word, entry] : sources.lists) {
    if (entry.name || sources.supplement.contains(word) ||
        sources.everyday.contains(word) ||
        sources.not_inflected.contains(word)) {
      continue;
    }
    if (is_made_regular(sources.lists, word) &&
        !is_right_form(sources.lists, word)) {
      wrong.push_back(word);
    }
  }
  for (const std::string& word : wrong) {
    sources.lists.erase(word);
    sources.rare.erase(word);
  }
}

void each_listed_form(
    const LexiconSources& sources, const Inventory& inventory,
    std::map<std::string, WordDeriver::Records> known,
    const WordDeriver::Label& label,
    const std::function<void(const WordDeriver::Records&)>& call) {
  WordDeriver deriver(
      inventory,
      [&](const std::string& word) {
        const auto found = known.find(word);
        return found == known.end() ? nullptr : &found->second;
      },
      [&](const std::string& word) { return plain_tier(sources.lists, word); },
      label, [](const std::string&) { return false; });
  const auto make = [&](const std::string& word, bool name, bool by_sounds) {
    if (!is_plain(word) || known.contains(word)) return;
    WordDeriver::Records records = deriver.form(word, name, by_sounds);
    if (records.empty()) return;
    call(records);
    known.emplace(word, std::move(records));
  };
  for (const auto& [word, entry] : shortest_first(sources.lists)) {
    make(word, entry.name, false);
  }
  for (const auto& [word, entry] : shortest_first(sources.rare)) {
    if (!sources.lists.contains(word)) make(word, entry.name, true);
  }
  std::vector<std::string> own;
  for (const auto& [word, records] : known) {
    if (is_plain(word) && !records.front().name &&
        !sources.lists.contains(word) && !sources.rare.contains(word)) {
      own.push_back(word);
    }
  }
  for (const std::string& word : own) {
    const BaseTraits traits = traits_of(known.at(word).front(), inventory);
    for (const EndedWord& plural : put_ending_on(word, Ending::s, traits)) {
      make(plural.spelling, false, true);
      break;
    }
  }
}

}  // namespace sheaf
