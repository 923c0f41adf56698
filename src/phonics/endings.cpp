#include "phonics/endings.h"

#include <algorithm>
#include <array>

#include "phonics/ending_rules.h"
#include "phonics/irregular_forms.h"
#include "phonics/letters.h"

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

bool has_vowel_letter(std::string_view text) {
  return text.find_first_of("aeiouy") != std::string_view::npos;
}

// Behind another consonant an s has an e of its own: rinses, hearses; lens is
// the exception.
bool wants_own_e(std::string_view stem) {
  const std::size_t n = stem.size();
  return stem.ends_with('s') && n > 2 && !is_full_vowel_letter(stem[n - 2]) &&
         !stem.ends_with("ss") && !stem.ends_with("lens") &&
         !stem.ends_with("summons");
}

// What the base may have been, whatever the rules say, in the order in which
// bases are preferred where nothing else tells them apart.
class BaseList {
 public:
  BaseList(std::string_view word, Ending ending, bool by_rule)
      : word_(word), ending_(ending), by_rule_(by_rule) {
    const std::string_view text = ending_text(ending);
    stem_ = word.substr(0, word.size() - text.size());
  }

  std::vector<EndingAnalysis> run() {
    for (std::string& base : bases_of_irregular(word_, ending_)) {
      add_any(std::move(base));
    }
    if (stem_.ends_with('i')) add(Joint::y_to_i, shorter() + "y");
    if (begins_with_vowel(ending_)) {
      before_vowel();
    } else if (ending_ == Ending::ly) {
      before_ly();
    } else if (ending_ != Ending::es || !wants_own_e(stem_)) {
      add(Joint::plain, stem_);
      if (ending_ == Ending::es && is_doubled()) add(Joint::doubled, shorter());
    }
    return std::move(result_);
  }

 private:
  std::string shorter() const { return stem_.substr(0, stem_.size() - 1); }
  bool is_doubled() const {
    const std::size_t n = stem_.size();
    return n > 2 && stem_[n - 1] == stem_[n - 2] &&
           !is_full_vowel_letter(stem_[n - 1]);
  }

  void before_vowel() {
    // A base of more beats (prefer) comes after the others, so that finessed
    // is from finesse and not from fines.
    const bool doubled = is_doubled();
    const bool one_beat = doubled && doubles_its_end(shorter());
    if (one_beat) add(Joint::doubled, shorter());
    if (stem_.ends_with('y')) add(Joint::ie_to_y, shorter() + "ie");
    add(Joint::plain, stem_);
    add(Joint::dropped_e, stem_ + "e");
    if (stem_.ends_with("ck")) add(Joint::c_to_ck, shorter());
    if (doubled && !one_beat) add(Joint::doubled, shorter());
  }

  void before_ly() {
    add(Joint::plain, stem_);
    if (stem_.ends_with("ical")) {
      add(Joint::plain, stem_.substr(0, stem_.size() - 2));
    }
    add(Joint::dropped_e, stem_ + "e");                        // truly
    add(Joint::dropped_e, stem_ + "le");                       // gently
    if (stem_.ends_with('l')) add(Joint::plain, stem_ + "l");  // fully
  }

  // Taken where the rules put the ending on in just this way.
  void add(Joint joint, std::string base) {
    if (!by_rule_) {
      put(joint, std::move(base));
      return;
    }
    for (const EndedWord& made : put_ending_on(base, ending_)) {
      if (made.spelling == word_ && made.ending == ending_ &&
          made.joint == joint) {
        put(joint, std::move(base));
        return;
      }
    }
  }
  void add_any(std::string base) {
    for (const EndedWord& made : put_ending_on(base, ending_)) {
      if (made.spelling == word_ && made.ending == ending_) {
        put(made.joint, std::move(base));
        return;
      }
    }
  }
  void put(Joint joint, std::string base) {
    if (std::ranges::find(result_, base, &EndingAnalysis::base) ==
        result_.end()) {
      result_.push_back({ending_, joint, std::move(base)});
    }
  }

  std::string_view word_;
  Ending ending_;
  bool by_rule_;
  std::string stem_;
  std::vector<EndingAnalysis> result_;
};

bool may_have(std::string_view word, Ending ending) {
  const std::string_view text = ending_text(ending);
  return !text.empty() && word.size() >= text.size() + 2 &&
         word.ends_with(text) &&
         has_vowel_letter(word.substr(0, word.size() - text.size()));
}

}  // namespace

std::string_view ending_text(Ending ending) {
  for (const EndingRow& row : kEndings) {
    if (row.ending == ending) return row.text;
  }
  return {};
}

Ending ending_of_text(std::string_view text) {
  for (const EndingRow& row : kEndings) {
    if (row.text == text) return row.ending;
  }
  return Ending::none;
}

std::string_view ending_name(Ending ending) {
  return ending == Ending::possessive ? "possessive" : ending_text(ending);
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

std::vector<EndingAnalysis> possible_bases(std::string_view word,
                                           Ending ending) {
  if (!may_have(word, ending)) return {};
  return BaseList(word, ending, true).run();
}

std::vector<EndingAnalysis> conceivable_bases(std::string_view word,
                                              Ending ending) {
  if (!may_have(word, ending)) return {};
  return BaseList(word, ending, false).run();
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
