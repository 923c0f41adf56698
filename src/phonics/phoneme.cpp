#include "phonics/phoneme.h"

#include <array>

namespace sheaf {
namespace {

struct PhonemeRow {
  std::string_view name;
  std::string_view ipa;
};

// In the order of the enumeration. IPA: the symbols of the International
// Phonetic Association's chart, in the broad use of American dictionaries.
constexpr std::array<PhonemeRow, kPhonemeCount> kRows = {{
    {"ae", "æ"},  {"eh", "ɛ"},  {"ih", "ɪ"},  {"aa", "ɑ"},  {"ah", "ʌ"},
    {"uh", "ʊ"},  {"oh", "ɒ"},  {"ax", "ə"},  {"ey", "eɪ"}, {"iy", "i"},
    {"ay", "aɪ"}, {"ow", "oʊ"}, {"uw", "u"},  {"ao", "ɔ"},  {"aw", "aʊ"},
    {"oy", "ɔɪ"}, {"er", "ɝ"},  {"ia", "ɪə"}, {"ea", "ɛə"}, {"ua", "ʊə"},
    {"b", "b"},   {"ch", "tʃ"}, {"d", "d"},   {"dh", "ð"},  {"f", "f"},
    {"g", "ɡ"},   {"hh", "h"},  {"hw", "hw"}, {"jh", "dʒ"}, {"k", "k"},
    {"l", "l"},   {"m", "m"},   {"n", "n"},   {"ng", "ŋ"},  {"p", "p"},
    {"r", "r"},   {"s", "s"},   {"sh", "ʃ"},  {"t", "t"},   {"th", "θ"},
    {"v", "v"},   {"w", "w"},   {"y", "j"},   {"z", "z"},   {"zh", "ʒ"},
}};

}  // namespace

std::string_view phoneme_name(Phoneme phoneme) {
  return kRows[static_cast<std::size_t>(phoneme)].name;
}

std::optional<Phoneme> phoneme_from_name(std::string_view name) {
  for (std::size_t i = 0; i < kRows.size(); ++i) {
    if (kRows[i].name == name) return static_cast<Phoneme>(i);
  }
  return std::nullopt;
}

std::string_view to_ipa(Phoneme phoneme, bool stressed) {
  if (phoneme == Phoneme::er && !stressed) return "ɚ";
  return kRows[static_cast<std::size_t>(phoneme)].ipa;
}

}  // namespace sheaf
