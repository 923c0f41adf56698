#include "phonics/notation.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "phonics/accent.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

using P = Phoneme;

struct SoundRow {
  std::array<P, 3> phonemes;
  int count;
  std::string_view plain;
  std::string_view marks;
  std::string_view american;  // IPA
  std::string_view british;   // IPA
  std::string_view word;
  /// More ways to write it, parted by spaces.
  std::string_view also;
};

// Rows of several phonemes stand first, so that the longest one fits first.
// Plain names are ours; marks are those of American dictionaries, IPA that of
// the curriculum's table (RP) and of broad General American (all from memory).
constexpr std::array kRows = {
    SoundRow{{P::y, P::uh, P::r}, 3, "yoor", "yo͝or", "jʊr", "jʊə", "cure", ""},
    SoundRow{{P::y, P::ua}, 2, "yoor", "yo͝or", "jʊr", "jʊə", "", ""},
    SoundRow{{P::y, P::uw}, 2, "yoo", "yo͞o", "ju", "juː", "cube", "ue"},
    SoundRow{{P::aa, P::r}, 2, "ar", "är", "ɑr", "ɑː", "car", ""},
    SoundRow{{P::ao, P::r}, 2, "or", "ôr", "ɔr", "ɔː", "fork", "ore"},
    SoundRow{{P::eh, P::r}, 2, "air", "âr", "ɛr", "ɛə", "chair", ""},
    SoundRow{{P::ih, P::r}, 2, "ear", "îr", "ɪr", "ɪə", "deer", "eer"},
    SoundRow{{P::uh, P::r}, 2, "oor", "o͝or", "ʊr", "ʊə", "tour", ""},
    SoundRow{{P::ax, P::l}, 2, "ul", "əl", "əl", "əl", "table", "el"},
    SoundRow{{P::ax, P::m}, 2, "um", "əm", "əm", "əm", "rhythm", ""},
    SoundRow{{P::ae}, 1, "a", "ă", "æ", "æ", "hand", "a"},
    SoundRow{{P::eh}, 1, "e", "ĕ", "ɛ", "ɛ", "bed", "e"},
    SoundRow{{P::ih}, 1, "i", "ĭ", "ɪ", "ɪ", "lid", "i"},
    SoundRow{{P::oh}, 1, "o", "ŏ", "ɑ", "ɒ", "pond", "o"},
    SoundRow{{P::ah}, 1, "u", "ŭ", "ʌ", "ʌ", "drum", "u"},
    SoundRow{{P::uh}, 1, "uu", "o͝o", "ʊ", "ʊ", "book", "short-oo"},
    SoundRow{{P::aa}, 1, "ah", "ä", "ɑ", "ɑː", "father", ""},
    SoundRow{{P::ax}, 1, "uh", "ə", "ə", "ə", "about", "schwa"},
    SoundRow{{P::ey}, 1, "ay", "ā", "eɪ", "eɪ", "rain", "ai"},
    SoundRow{{P::iy}, 1, "ee", "ē", "i", "iː", "tree", "ea"},
    SoundRow{{P::ay}, 1, "igh", "ī", "aɪ", "aɪ", "night", "ie eye"},
    SoundRow{{P::ow}, 1, "oh", "ō", "oʊ", "əʊ", "boat", "oa"},
    SoundRow{{P::uw}, 1, "oo", "o͞o", "u", "uː", "moon", "ew"},
    SoundRow{{P::ao}, 1, "aw", "ô", "ɔ", "ɔː", "saw", "au"},
    SoundRow{{P::aw}, 1, "ow", "ou", "aʊ", "aʊ", "cow", "ou"},
    SoundRow{{P::oy}, 1, "oi", "oi", "ɔɪ", "ɔɪ", "coin", "oy"},
    SoundRow{{P::ia}, 1, "ear", "îr", "ɪr", "ɪə", "", ""},
    SoundRow{{P::ea}, 1, "air", "âr", "ɛr", "ɛə", "", ""},
    SoundRow{{P::ua}, 1, "oor", "o͝or", "ʊr", "ʊə", "", ""},
    SoundRow{{P::er}, 1, "er", "ûr", "ɝ", "ɜː", "bird", "ur ir"},
    SoundRow{{P::axr}, 1, "er", "ər", "ɚ", "ɚ", "sister", ""},
    SoundRow{{P::b}, 1, "b", "b", "b", "b", "", ""},
    SoundRow{{P::ch}, 1, "ch", "ch", "tʃ", "tʃ", "chin", ""},
    SoundRow{{P::d}, 1, "d", "d", "d", "d", "", ""},
    SoundRow{{P::dh}, 1, "dh", "t͟h", "ð", "ð", "this", "TH"},
    SoundRow{{P::f}, 1, "f", "f", "f", "f", "", ""},
    SoundRow{{P::g}, 1, "g", "g", "ɡ", "ɡ", "", ""},
    SoundRow{{P::hh}, 1, "h", "h", "h", "h", "", ""},
    SoundRow{{P::hw}, 1, "wh", "hw", "ʍ", "ʍ", "when", ""},
    SoundRow{{P::jh}, 1, "j", "j", "dʒ", "dʒ", "jump", ""},
    SoundRow{{P::k}, 1, "k", "k", "k", "k", "", "c"},
    SoundRow{{P::l}, 1, "l", "l", "l", "l", "", ""},
    SoundRow{{P::m}, 1, "m", "m", "m", "m", "", ""},
    SoundRow{{P::n}, 1, "n", "n", "n", "n", "", ""},
    SoundRow{{P::ng}, 1, "ng", "ng", "ŋ", "ŋ", "ring", ""},
    SoundRow{{P::p}, 1, "p", "p", "p", "p", "", ""},
    SoundRow{{P::r}, 1, "r", "r", "r", "r", "", ""},
    SoundRow{{P::s}, 1, "s", "s", "s", "s", "", ""},
    SoundRow{{P::sh}, 1, "sh", "sh", "ʃ", "ʃ", "ship", ""},
    SoundRow{{P::t}, 1, "t", "t", "t", "t", "", ""},
    SoundRow{{P::th}, 1, "th", "th", "θ", "θ", "thin", ""},
    SoundRow{{P::v}, 1, "v", "v", "v", "v", "", ""},
    SoundRow{{P::w}, 1, "w", "w", "w", "w", "", ""},
    SoundRow{{P::y}, 1, "y", "y", "j", "j", "yes", ""},
    SoundRow{{P::z}, 1, "z", "z", "z", "z", "", ""},
    SoundRow{{P::zh}, 1, "zh", "zh", "ʒ", "ʒ", "treasure", ""},
};

std::span<const P> phonemes_of(const SoundRow& row) {
  return {row.phonemes.data(), static_cast<std::size_t>(row.count)};
}

bool begins_with(std::span<const P> whole, std::span<const P> part) {
  return whole.size() >= part.size() &&
         std::equal(part.begin(), part.end(), whole.begin());
}

std::string_view sign_of(const SoundRow& row, const Conventions& c) {
  switch (c.notation) {
    case Notation::plain:
      // Without r, father and car rhyme, and so do saw and more.
      if (!c.rhotic() && row.count == 1 && row.phonemes[0] == P::aa)
        return "ar";
      if (!c.rhotic() && row.count == 1 && row.phonemes[0] == P::ao)
        return "or";
      return row.plain;
    case Notation::marks:
      return row.marks;
    case Notation::ipa:
      break;
  }
  // The vowels of Scotland that we tell apart are nearer to America's where r
  // is said, and short o is the vowel of caught.
  const bool scottish = c.accent == Accent::scottish;
  if (scottish && row.phonemes[0] == P::oh) return "ɔ";
  const bool with_r = row.count > 1 || row.phonemes[0] == P::er;
  return c.accent == Accent::general_american || (scottish && with_r)
             ? row.american
             : row.british;
}

// Whether a row is of a sound that the accent has. Where r is not said behind a
// vowel, near and hair have vowels of their own; an r behind a short vowel is a
// sound by itself there (hurry, squirrel).
bool is_in_accent(const SoundRow& row, const Conventions& c) {
  const P first = row.phonemes[0];
  if (row.count == 2 && row.phonemes[1] == P::r && !c.rhotic()) {
    return first != P::ih && first != P::eh && first != P::uh;
  }
  if (row.count > 1) return true;
  if (first == P::axr) return c.rhotic();
  if (first == P::hw) return c.wh_hw;
  return first != P::ao || !c.cot_caught_merged;
}

bool spells(const SoundRow& row, std::string_view text) {
  if (text == row.plain || text == row.marks || text == row.american ||
      text == row.british) {
    return true;
  }
  for (const std::string_view other : split_at(row.also, ' ')) {
    if (!other.empty() && text == other) return true;
  }
  return false;
}

const SoundRow* longest_row(std::string_view text, std::size_t& length) {
  for (length = std::min<std::size_t>(text.size(), 12); length > 0; --length) {
    for (const SoundRow& row : kRows) {
      if (spells(row, text.substr(0, length))) return &row;
    }
  }
  return nullptr;
}

// Whether signs side by side are read as just these.
bool are_read_apart(const std::vector<std::string_view>& signs) {
  std::string text;
  for (const std::string_view sign : signs) text += sign;
  std::string_view rest = text;
  for (const std::string_view sign : signs) {
    std::size_t length = 0;
    longest_row(rest, length);
    if (length != sign.size()) return false;
    rest.remove_prefix(length);
  }
  return true;
}

}  // namespace

std::string sound_name(std::span<const Phoneme> phonemes,
                       const Conventions& conventions) {
  std::vector<std::string_view> signs;
  while (!phonemes.empty()) {
    const auto fits = [&](const SoundRow& row) {
      return begins_with(phonemes, phonemes_of(row));
    };
    auto row = std::ranges::find_if(kRows, [&](const SoundRow& r) {
      return fits(r) && is_in_accent(r, conventions);
    });
    if (row == kRows.end()) row = std::ranges::find_if(kRows, fits);
    signs.push_back(sign_of(*row, conventions));
    phonemes = phonemes.subspan(static_cast<std::size_t>(row->count));
  }
  const std::string_view between =
      signs.size() < 2 || are_read_apart(signs) ? "" : "+";
  std::string name;
  for (const std::string_view sign : signs) {
    if (!name.empty()) name += between;
    name += sign;
  }
  return name;
}

std::vector<NotationKeyLine> notation_key(const Conventions& conventions) {
  std::vector<NotationKeyLine> key;
  for (const SoundRow& row : kRows) {
    if (row.word.empty()) continue;
    // Where r is lost, car and deer have one vowel, with a sign of its own or
    // the sign of two.
    const bool loses_r =
        row.count == 2 && row.phonemes[1] == P::r && !conventions.rhotic();
    if (!loses_r && !is_in_accent(row, conventions)) continue;
    std::string sign(sign_of(row, conventions));
    if (loses_r &&
        sign != sound_name(in_accent({}, {row.phonemes[0], P::r}, conventions),
                           conventions)) {
      continue;
    }
    if (std::ranges::find(key, sign, &NotationKeyLine::sign) == key.end()) {
      key.push_back({std::move(sign), std::string(row.word)});
    }
  }
  return key;
}

bool is_plain_consonant(std::string_view name) {
  return std::ranges::any_of(kRows, [&](const SoundRow& row) {
    return row.count == 1 && !is_vowel(row.phonemes[0]) && row.word.empty() &&
           (name == row.plain || name == row.american);
  });
}

std::optional<std::vector<Phoneme>> read_said_sound(std::string_view written) {
  while (written.starts_with('/')) written.remove_prefix(1);
  while (written.ends_with('/')) written.remove_suffix(1);
  const std::string text = normalized(written);
  if (text.empty()) return std::nullopt;
  std::vector<Phoneme> phonemes;
  std::string_view rest = text;
  while (!rest.empty()) {
    if (rest.starts_with(' ') || rest.starts_with('+')) {
      rest.remove_prefix(1);
      continue;
    }
    std::size_t length = 0;
    const SoundRow* row = longest_row(rest, length);
    if (row == nullptr) return std::nullopt;
    const auto read = phonemes_of(*row);
    phonemes.insert(phonemes.end(), read.begin(), read.end());
    rest.remove_prefix(length);
  }
  if (phonemes.empty()) return std::nullopt;
  return phonemes;
}

std::optional<std::vector<Phoneme>> read_sound(std::string_view written) {
  auto phonemes = read_said_sound(written);
  if (phonemes) phonemes = as_listed(std::move(*phonemes));
  return phonemes;
}

std::vector<std::string_view> plain_sound_names() {
  std::vector<std::string_view> names;
  for (const SoundRow& row : kRows) names.push_back(row.plain);
  return names;
}

}  // namespace sheaf
