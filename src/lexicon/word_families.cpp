#include "lexicon/word_families.h"

#include <algorithm>
#include <optional>

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
      return (a.base.ends_with("ed") && !a.base.ends_with("ted") &&
              !a.base.ends_with("ded")) ||
             word.ends_with("ically");
    case Ending::er:
      return a.base.ends_with("ee");
    default:
      return false;
  }
}

// -er, -est and -ly often only look like endings (tower, early), behind short
// words at least.
bool is_doubtful(const EndingAnalysis& a) {
  constexpr std::size_t kLong = 6;
  return a.ending == Ending::er || a.ending == Ending::est ||
         (a.ending == Ending::ly && a.base.size() < kLong);
}

// Sounds that one dictionary has now so, now so, without any difference for
// teaching: the y of happy in happiness, the u of handful.
void level(const EndingAnalysis& a, std::size_t base_size,
           std::vector<Phoneme>& sounds) {
  if (a.joint == Joint::y_to_i && base_size > 0 && base_size <= sounds.size() &&
      sounds[base_size - 1] == Phoneme::iy) {
    sounds[base_size - 1] = Phoneme::ih;
  }
  if (a.ending == Ending::ful && sounds.size() > 1 &&
      sounds[sounds.size() - 2] == Phoneme::uh) {
    sounds[sounds.size() - 2] = Phoneme::ax;
  }
}

using FindBase =
    std::function<const std::vector<WordRecord>*(const std::string&)>;

// How many sounds the nearest base would have otherwise in this form; nothing
// where no base could be meant.
std::optional<std::size_t> distance_from_base(const WordRecord& record,
                                              const WordFamilies& families,
                                              const FindBase& find) {
  const Inventory& inventory = families.inventory;
  const std::vector<Phoneme> own = phonemes_of(record.segments, inventory);
  std::optional<std::size_t> nearest;
  for (const Ending ending :
       {Ending::es, Ending::s, Ending::ed, Ending::ing, Ending::er, Ending::est,
        Ending::ly, Ending::ful, Ending::less, Ending::ness, Ending::ment}) {
    for (const EndingAnalysis& a : possible_bases(record.spelling, ending)) {
      if (a.base.size() < 3 || changes_base(a, record.spelling)) continue;
      const std::vector<WordRecord>* found = find(a.base);
      if (found == nullptr) continue;
      for (const WordRecord& base : *found) {
        const auto derived =
            derive_record(record.spelling, record.spelling, a, base,
                          families.label(base), inventory);
        if (!derived) continue;
        auto sounds = phonemes_of(derived->segments, inventory);
        if (is_doubtful(a) && sounds.size() != own.size()) continue;
        std::vector<Phoneme> leveled = own;
        const std::size_t size = phonemes_of(base.segments, inventory).size();
        level(a, size, leveled);
        level(a, size, sounds);
        const std::size_t steps = distance(leveled, sounds);
        if (steps <= kMostDifferences && (!nearest || steps < *nearest)) {
          nearest = steps;
        }
      }
    }
  }
  return nearest;
}

}  // namespace

std::set<std::string> stray_forms(const WordFamilies& families) {
  std::set<std::string> strays;
  const FindBase any = [&](const std::string& word) {
    const auto found = families.known.find(word);
    return found != families.known.end() && families.may_be_base(word)
               ? &found->second
               : nullptr;
  };
  const FindBase stray = [&](const std::string& word) {
    return strays.contains(word) ? &families.known.at(word) : nullptr;
  };
  // A form of two readings strays where both do.
  const auto all_are = [&](const std::vector<WordRecord>& records,
                           const FindBase& find, std::size_t least) {
    return std::ranges::all_of(records, [&](const WordRecord& record) {
      const auto distance = distance_from_base(record, families, find);
      return distance && *distance >= least;
    });
  };
  for (const auto& [word, records] : families.known) {
    if (families.may_stray(word) && all_are(records, any, 1)) {
      strays.insert(word);
    }
  }
  for (std::size_t before = 0; before != strays.size();) {
    before = strays.size();
    for (const auto& [word, records] : families.known) {
      if (!strays.contains(word) && families.may_stray(word) &&
          all_are(records, stray, 0)) {
        strays.insert(word);
      }
    }
  }
  return strays;
}

}  // namespace sheaf
