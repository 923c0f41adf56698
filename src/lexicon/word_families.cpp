#include "lexicon/word_families.h"

#include <algorithm>

#include "phonics/derive.h"

namespace sheaf {
namespace {

constexpr std::size_t kMostDifferences = 2;

std::size_t distance(std::span<const Phoneme> a, std::span<const Phoneme> b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j < row.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
      corner = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row.back();
}

bool hisses(std::string_view base) {
  return std::string_view("sxz").find(base.back()) != std::string_view::npos ||
         base.ends_with("sh") || base.ends_with("ch");
}

// Endings that do not leave the base as it is, or that bases like this do not
// take: supposedly, basically, needless from needles, houses, leer.
bool changes_base(const EndingAnalysis& a, std::string_view word) {
  switch (a.ending) {
    case Ending::s:
      return hisses(a.base) || a.base.ends_with("house");
    case Ending::ly:
      return a.base.ends_with("ed") || word.ends_with("ically");
    case Ending::er:
      return a.base.ends_with("ee");
    default:
      return false;
  }
}

// -er, -est and -ly often only look like endings (tower, early).
bool is_doubtful(Ending ending) {
  return ending == Ending::er || ending == Ending::est || ending == Ending::ly;
}

}  // namespace

bool strays_from_base(const WordRecord& record, const Inventory& inventory,
                      const BaseLookup& bases) {
  const std::vector<Phoneme> own = phonemes_of(record.segments, inventory);
  std::size_t nearest = kMostDifferences + 1;
  for (const Ending ending : {Ending::es, Ending::s, Ending::ed, Ending::ing,
                              Ending::er, Ending::est, Ending::ly}) {
    for (const EndingAnalysis& a : possible_bases(record.spelling, ending)) {
      if (a.base.size() < 3 || changes_base(a, record.spelling)) continue;
      const std::vector<WordRecord>* found = bases.find(a.base);
      if (found == nullptr) continue;
      for (const WordRecord& base : *found) {
        const auto derived = derive_record(record.spelling, record.spelling, a,
                                           base, bases.label(base), inventory);
        if (!derived) continue;
        const auto sounds = phonemes_of(derived->segments, inventory);
        if (is_doubtful(ending) && sounds.size() != own.size()) continue;
        nearest = std::min(nearest, distance(own, sounds));
      }
    }
  }
  return nearest > 0 && nearest <= kMostDifferences;
}

}  // namespace sheaf
