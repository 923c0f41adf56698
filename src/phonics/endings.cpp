#include "phonics/endings.h"

#include <array>

namespace sheaf {
namespace {

struct EndingRow {
  Ending ending;
  std::string_view text;
};

// Longest first, so that "es" is tried before "s".
constexpr std::array kEndings = {
    EndingRow{Ending::ness, "ness"},     EndingRow{Ending::less, "less"},
    EndingRow{Ending::ment, "ment"},     EndingRow{Ending::ful, "ful"},
    EndingRow{Ending::ing, "ing"},       EndingRow{Ending::est, "est"},
    EndingRow{Ending::possessive, "'s"}, EndingRow{Ending::ed, "ed"},
    EndingRow{Ending::er, "er"},         EndingRow{Ending::es, "es"},
    EndingRow{Ending::ly, "ly"},         EndingRow{Ending::s, "s"},
    EndingRow{Ending::y, "y"},
};

bool is_vowel_letter(char c) {
  return std::string_view("aeiou").find(c) != std::string_view::npos;
}

bool has_vowel_letter(std::string_view text) {
  return text.find_first_of("aeiouy") != std::string_view::npos;
}

// -es stands behind a hiss and behind o: wishes, boxes, goes. Behind another
// consonant the s has an e of its own: rinses, hearses; lens is the exception.
bool takes_es(std::string_view stem) {
  const std::size_t n = stem.size();
  if (stem.ends_with('s') && n > 2 && !is_vowel_letter(stem[n - 2]) &&
      !stem.ends_with("ss") && !stem.ends_with("lens")) {
    return false;
  }
  return stem.ends_with("ch") || stem.ends_with("sh") ||
         std::string_view("sxzo").find(stem.back()) != std::string_view::npos;
}

bool begins_with_vowel(Ending ending) {
  switch (ending) {
    case Ending::ed:
    case Ending::ing:
    case Ending::er:
    case Ending::est:
    case Ending::y:
      return true;
    default:
      return false;
  }
}

}  // namespace

std::string_view ending_text(Ending ending) {
  for (const EndingRow& row : kEndings) {
    if (row.ending == ending) return row.text;
  }
  return {};
}

std::string_view ending_name(Ending ending) {
  return ending == Ending::possessive ? "possessive" : ending_text(ending);
}

int joint_rank(const EndingAnalysis& analysis) {
  const bool own = analysis.joint == Joint::doubled &&
                   std::string_view("slfz").find(analysis.base.back()) !=
                       std::string_view::npos;
  return own ? 100 : 0;
}

std::string_view without_plural_s(std::string_view base) {
  if (base.size() < 4 || !base.ends_with('s') || base.ends_with("ss"))
    return {};
  return base.substr(0, base.size() - 1);
}

bool doubles_its_end(std::string_view base) {
  const std::size_t n = base.size();
  if (n < 3) return false;
  const char last = base[n - 1];
  if (is_vowel_letter(last) || last == 'w' || last == 'x' || last == 'y') {
    return false;
  }
  if (!is_vowel_letter(base[n - 2])) return false;
  const bool qu = n >= 4 && base[n - 3] == 'u' && base[n - 4] == 'q';
  if (is_vowel_letter(base[n - 3]) && !qu) return false;
  std::string_view before = base.substr(0, qu ? n - 4 : n - 2);
  if (before.starts_with('y')) before.remove_prefix(1);
  return !has_vowel_letter(before);
}

std::vector<EndingAnalysis> possible_bases(std::string_view word,
                                           Ending ending) {
  std::vector<EndingAnalysis> result;
  const std::string_view text = ending_text(ending);
  if (text.empty() || word.size() < text.size() + 2 || !word.ends_with(text)) {
    return result;
  }
  const std::string stem(word.substr(0, word.size() - text.size()));
  if (!has_vowel_letter(stem)) return result;
  const auto add = [&](Joint joint, std::string base) {
    result.push_back({ending, joint, std::move(base)});
  };
  const std::size_t n = stem.size();
  const bool vowel_ending = begins_with_vowel(ending);
  if (stem[n - 1] == 'i' && ending != Ending::ing && ending != Ending::y &&
      ending != Ending::s && ending != Ending::possessive) {
    add(Joint::y_to_i, stem.substr(0, n - 1) + "y");
  }
  // run, running; a base of more beats (prefer) comes after the others, so
  // that finessed is from finesse and not from fines.
  const std::string single = stem.substr(0, n - 1);
  const bool doubled = vowel_ending && n >= 3 && stem[n - 1] == stem[n - 2] &&
                       !is_vowel_letter(stem[n - 1]);
  if (doubled && doubles_its_end(single)) add(Joint::doubled, single);
  if (ending == Ending::ing && stem[n - 1] == 'y') {
    add(Joint::y_to_i, stem.substr(0, n - 1) + "ie");  // die, dying
  }
  if (vowel_ending) {
    // weed is not from we: an e before the ending is one of ee.
    const bool before_e = stem[n - 1] == 'e' && ending != Ending::ing;
    if (!doubles_its_end(stem) && !before_e) add(Joint::plain, stem);
    // see, seeing: ee, oe and ye keep their e before i.
    const bool keeps =
        ending == Ending::ing &&
        std::string_view("eoy").find(stem[n - 1]) != std::string_view::npos;
    if (!keeps) add(Joint::dropped_e, stem + "e");
    if (stem[n - 1] == 'k' && n >= 3 && stem[n - 2] == 'c') {
      add(Joint::plain, stem.substr(0, n - 1));  // picnicked
    }
    if (doubled && !doubles_its_end(single)) add(Joint::doubled, single);
  } else if (ending == Ending::ly) {
    add(Joint::plain, stem);
    if (stem.ends_with("ical")) add(Joint::plain, stem.substr(0, n - 2));
    add(Joint::dropped_e, stem + "e");  // truly
    if (!is_vowel_letter(stem[n - 1])) {
      add(Joint::dropped_e, stem + "le");                     // gently
      if (stem[n - 1] == 'l') add(Joint::plain, stem + "l");  // fully
    }
  } else if (ending != Ending::es || takes_es(stem)) {
    add(Joint::plain, stem);
  }
  return result;
}

EndingAnalysis take_off_ending(
    std::string_view word,
    const std::function<int(const EndingAnalysis&)>& rank) {
  for (const EndingRow& row : kEndings) {
    EndingAnalysis best;
    int best_rank = -1;
    for (EndingAnalysis& analysis : possible_bases(word, row.ending)) {
      const int own = rank(analysis);
      if (own < 0 || (best_rank >= 0 && own >= best_rank)) continue;
      best_rank = own;
      best = std::move(analysis);
    }
    if (best) return best;
  }
  return {};
}

}  // namespace sheaf
