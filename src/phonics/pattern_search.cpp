#include "phonics/pattern_search.h"

#include <algorithm>
#include <array>

#include "phonics/notation.h"
#include "phonics/own_pattern.h"
#include "phonics/pattern_guess.h"
#include "phonics/pattern_terms.h"

namespace sheaf {

namespace {

// More than all patterns, and than any lesson tells apart.
constexpr std::size_t kMostNames = 250, kMostInContrast = 8;
constexpr std::size_t kLongestText = 4096;

bool is_separator(std::string_view word) {
  constexpr std::array<std::string_view, 12> kBetween = {
      "and", "or", "vs", "vs.", "v", "v.", "versus", "&", "+", "/", ",", ";"};
  return std::ranges::find(kBetween, plain_name(word)) != kBetween.end();
}

struct Range {
  std::size_t begin = 0, end = 0;
};

// What stands between blanks; a sound between slashes is kept together, and
// other signs that part names stand by themselves.
std::vector<Range> tokens_of(std::string_view text) {
  constexpr std::string_view kSigns = "/,;&+";
  std::vector<Range> tokens;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == ' ') {
      ++i;
      continue;
    }
    std::size_t end = i;
    const std::size_t slash = text.find('/', i + 1);
    const bool sound = text[i] == '/' && slash != std::string_view::npos &&
                       slash > i + 1 && text[i + 1] != ' ' &&
                       (i == 0 || text[i - 1] == ' ');
    if (sound) {
      end = slash + 1;
    } else if (kSigns.find(text[i]) != std::string_view::npos) {
      end = i + 1;
    } else {
      end = std::min(text.find_first_of(" /,;&+", i), text.size());
    }
    tokens.push_back({i, end});
    i = end;
  }
  return tokens;
}

// The sounds that a pattern teaches, each with its usual phonemes.
bool teaches(const Pattern& pattern, const std::vector<Phoneme>& sound) {
  return std::ranges::find(pattern.teaches, sound, &TaughtUnit::phonemes) !=
         pattern.teaches.end();
}

class NameSearch {
 public:
  NameSearch(const PatternCatalogue& catalogue, const HasPattern& has_pattern)
      : catalogue_(catalogue), has_pattern_(has_pattern) {}

  std::vector<PatternName> run(std::string_view written) const {
    PatternName whole;
    if (written.size() <= kLongestText) whole = look_up(written);
    whole.end = written.size();
    if (written.size() > kLongestText) return {whole};
    if (is_clear(whole) || is_own_pattern(written)) return {whole};
    const std::vector<Range> tokens = tokens_of(written);
    auto names = at_signs(written, tokens);
    if (names.empty()) names = at_blanks(written, tokens);
    if (!names.empty()) return names;
    guess_pattern(catalogue_, written, whole);
    return {whole};
  }

 private:
  static bool is_clear(const PatternName& name) {
    return name.meant || name.is_group;
  }

  PatternName look_up(std::string_view written, Range range) const {
    PatternName name = look_up(text_of(written, range));
    name.begin = range.begin;
    name.end = range.end;
    return name;
  }

  // The names between signs and words such as "and"; none where it does not
  // read so.
  std::vector<PatternName> at_signs(std::string_view written,
                                    const std::vector<Range>& tokens) const {
    std::vector<Range> ranges;
    bool open = false;
    for (const Range& token : tokens) {
      if (is_separator(text_of(written, token))) {
        open = false;
      } else if (open) {
        ranges.back().end = token.end;
      } else {
        ranges.push_back(token);
        open = true;
      }
    }
    if (ranges.size() < 2 || ranges.size() > kMostNames) return {};
    std::vector<PatternName> names;
    for (const Range& range : ranges) names.push_back(look_up(written, range));
    share_words(written, names);
    if (std::ranges::none_of(names, is_clear)) return {};
    choose_by_sound(names);
    for (PatternName& name : names) {
      if (!is_clear(name)) {
        guess_pattern(catalogue_, text_of(written, {name.begin, name.end}),
                      name);
      }
    }
    return names;
  }

  // The names one behind the other, each as long as it can be: "short a sh".
  std::vector<PatternName> at_blanks(std::string_view written,
                                     const std::vector<Range>& tokens) const {
    constexpr std::size_t kLongest = 6;
    std::vector<PatternName> names;
    for (std::size_t i = 0; i < tokens.size();) {
      std::size_t used = 0;
      std::size_t most = std::min(kLongest, tokens.size() - i);
      for (; most > 0 && used == 0; --most) {
        PatternName name =
            look_up(written, {tokens[i].begin, tokens[i + most - 1].end});
        if (!is_clear(name)) continue;
        names.push_back(std::move(name));
        used = most;
      }
      if (used == 0 || names.size() > kMostNames) return {};
      i += used;
    }
    if (names.size() < 2) return {};
    choose_by_sound(names);
    return names;
  }

  static std::string_view text_of(std::string_view written, Range range) {
    return written.substr(range.begin, range.end - range.begin);
  }

  // "short a and e" is short a and short e; "voiced and voiceless th" is
  // voiced th and voiceless th.
  void share_words(std::string_view written,
                   std::vector<PatternName>& names) const {
    const auto whole = [&](const PatternName& name) {
      return std::string(text_of(written, {name.begin, name.end}));
    };
    const std::string first = whole(names.front()), last = whole(names.back());
    const std::size_t head = first.rfind(' '), tail = last.find(' ');
    for (PatternName& name : names) {
      if (is_clear(name)) continue;
      for (const std::string& full :
           {head == std::string::npos ? std::string()
                                      : first.substr(0, head + 1) + whole(name),
            tail == std::string::npos ? std::string()
                                      : whole(name) + last.substr(tail)}) {
        PatternName other = look_up(full);
        if (full.empty() || !other.meant) continue;
        name.meant = other.meant;
        break;
      }
    }
  }

  // Of names that stand for several patterns, the one choice whose patterns
  // are spellings of one sound.
  void choose_by_sound(std::vector<PatternName>& names) const {
    const bool all_clear = std::ranges::all_of(names, is_clear);
    const bool all_meant = std::ranges::all_of(
        names, [](const PatternName& name) { return name.meant.has_value(); });
    if (!all_clear || all_meant || names.size() > kMostInContrast) return;
    std::vector<std::vector<Phoneme>> sounds;
    for (const PatternId id : choices(names.front())) {
      for (const TaughtUnit& unit : catalogue_[id].teaches) {
        if (std::ranges::find(sounds, unit.phonemes) == sounds.end()) {
          sounds.push_back(unit.phonemes);
        }
      }
    }
    std::vector<PatternId> chosen;
    for (const std::vector<Phoneme>& sound : sounds) {
      std::vector<PatternId> these;
      for (const PatternName& name : names) {
        std::vector<PatternId> with_sound;
        for (const PatternId id : choices(name)) {
          if (teaches(catalogue_[id], sound)) with_sound.push_back(id);
        }
        if (with_sound.size() > 1) return;
        if (!with_sound.empty()) these.push_back(with_sound.front());
      }
      if (these.size() < names.size() || these == chosen) continue;
      if (!chosen.empty()) return;
      chosen = these;
    }
    for (std::size_t i = 0; i < chosen.size(); ++i) names[i].meant = chosen[i];
  }

  static std::vector<PatternId> choices(const PatternName& name) {
    return name.meant ? std::vector<PatternId>{*name.meant} : name.could_be;
  }

  // A name that is clear, or that stands for several patterns.
  PatternName look_up(std::string_view text) const {
    PatternName name;
    const std::string wanted = plain_name(text);
    if (wanted.empty()) return name;
    name.meant = catalogue_.find_exact(wanted);
    if (name.meant) return name;
    if (wanted.size() > 2 && wanted.front() == '/' && wanted.back() == '/') {
      take(with_sound(wanted), name);
      return name;
    }
    if (const PatternTerm* term = find_pattern_term(text)) {
      take(members(*term), name);
      return name;
    }
    if (with_word(wanted, name)) return name;
    // Of the graphemes only those like u_e have a gap.
    constexpr std::size_t kLongestSplit = 3;
    if (wanted.find(' ') != std::string::npos &&
        wanted.size() > kLongestSplit) {
      return name;
    }
    const std::vector<PatternId> of_grapheme = with_grapheme(wanted);
    // One alone may be meant or not: ge stands in other patterns as well.
    if (of_grapheme.size() > 1) take(of_grapheme, name);
    return name;
  }

  // One is meant; several are a group; of none nothing is known.
  static void take(std::vector<PatternId> ids, PatternName& name) {
    name.is_group = ids.size() > 1;
    if (ids.size() == 1) {
      name.meant = ids.front();
    } else {
      name.could_be = std::move(ids);
    }
  }

  std::vector<PatternId> members(const PatternTerm& term) const {
    std::vector<PatternId> ids;
    for (const std::string_view id : term.ids) {
      if (const Pattern* pattern = catalogue_.by_id(id)) {
        ids.push_back(catalogue_.id_of(*pattern));
      }
    }
    return ids;
  }

  // Those that teach it first come first.
  std::vector<PatternId> with_sound(std::string_view written) const {
    const auto sound = read_sound(written);
    std::vector<PatternId> ids;
    if (!sound) return ids;
    for (const bool first : {true, false}) {
      for (const Pattern& pattern : catalogue_.all()) {
        if (!pattern.of_units || !teaches(pattern, *sound)) continue;
        if ((pattern.teaches.front().phonemes == *sound) == first) {
          ids.push_back(catalogue_.id_of(pattern));
        }
      }
    }
    return ids;
  }

  // The patterns about a grapheme: they teach it, and their id or name has it.
  std::vector<PatternId> with_grapheme(const std::string& plain) const {
    std::vector<PatternId> ids;
    for (const Pattern& pattern : catalogue_.all()) {
      if (pattern.of_units && is_about_grapheme(pattern, plain)) {
        ids.push_back(catalogue_.id_of(pattern));
      }
    }
    return ids;
  }

  // "ow as in cow", "ow (cow)": of the patterns about ow, the one cow has.
  bool with_word(const std::string& plain, PatternName& name) const {
    constexpr std::string_view kAsIn = " as in ";
    std::string what, word;
    const std::size_t as_in = plain.find(kAsIn);
    const std::size_t bracket = plain.find(" (");
    if (as_in != std::string::npos) {
      what = plain.substr(0, as_in);
      word = plain.substr(as_in + kAsIn.size());
    } else if (bracket != std::string::npos && plain.ends_with(')')) {
      what = plain.substr(0, bracket);
      word = plain.substr(bracket + 2, plain.size() - bracket - 3);
    }
    const bool is_word = !word.empty() && std::ranges::all_of(word, [](char c) {
      return c >= 'a' && c <= 'z';
    });
    if (!is_word || !has_pattern_) return false;
    PatternName about = look_up(what);
    std::vector<PatternId> ids =
        about.is_group ? about.could_be : with_grapheme(what);
    std::erase_if(ids, [&](PatternId id) { return !has_pattern_(word, id); });
    take(std::move(ids), name);
    return is_clear(name);
  }

  const PatternCatalogue& catalogue_;
  const HasPattern& has_pattern_;
};

}  // namespace

std::vector<PatternName> find_pattern_names(const PatternCatalogue& catalogue,
                                            std::string_view written,
                                            const HasPattern& has_pattern) {
  return NameSearch(catalogue, has_pattern).run(written);
}

}  // namespace sheaf
