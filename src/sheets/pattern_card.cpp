#include "sheets/pattern_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "analysis/analyzed_lesson.h"
#include "base/utf8.h"
#include "phonics/division.h"
#include "phonics/word_facts.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using Look = PatternText::Card;

void replace_all(std::string& text, std::string_view what,
                 std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size())) {
    text.replace(at, what.size(), with);
  }
}

// What a contraction is short for: its first word and the second. Those of n't
// lose letters of the verb in places. Common practice, no source.
std::vector<std::string> long_form(const std::string& word) {
  constexpr std::array<std::array<std::string_view, 3>, 4> kWhole = {{
      {"won't", "will", "not"},
      {"can't", "can", "not"},
      {"shan't", "shall", "not"},
      {"let's", "let", "us"},
  }};
  constexpr std::array<std::array<std::string_view, 2>, 7> kEnds = {{
      {"n't", "not"},
      {"'re", "are"},
      {"'ve", "have"},
      {"'ll", "will"},
      {"'m", "am"},
      {"'s", "is"},
      {"'d", "would"},
  }};
  std::string plain = lower_case(word);
  replace_all(plain, "’", "'");
  for (const auto& [text, first, second] : kWhole) {
    if (plain == text) return {std::string(first), std::string(second)};
  }
  for (const auto& [end, second] : kEnds) {
    if (!plain.ends_with(end)) continue;
    return {word.substr(0, plain.size() - end.size()), std::string(second)};
  }
  return {};
}

class CardMaker {
 public:
  CardMaker(const AnalyzedLesson& lesson, std::size_t index)
      : lesson_(lesson),
        pattern_(lesson.patterns[index]),
        about_(lesson.phonics->patterns()[pattern_.id]) {
    const int key = lesson.key_words[index];
    if (key >= 0) card_.key = &lesson.words[static_cast<std::size_t>(key)];
    card_.text = find_pattern_text(about_.id);
  }

  PatternCard make() {
    card_.look = card_.text != nullptr ? card_.text->card : Look::sound;
    if (!card_.is_sound() && !(card_.key != nullptr && add_face())) {
      card_.look = Look::sound;
    }
    if (card_.is_sound()) {
      card_.face = !pattern_.graphemes.empty() ? pattern_.graphemes.front()
                   : card_.key != nullptr      ? word()
                                               : pattern_.name;
    }
    if (card_.text != nullptr) add_texts();
    return std::move(card_);
  }

 private:
  const Reading& reading() const { return card_.key->reading; }
  const std::string& word() const { return reading().word; }

  bool add_face() {
    const LetterMap map = map_letters(word());
    if (!map.good) return false;
    facts_ = find_facts(reading(), map, lesson_.phonics->lexicon());
    switch (card_.look) {
      case Look::blend:
        return add_blend();
      case Look::closed:
        card_.face = word();
        add_touched(0, reading().units.size());
        return true;
      case Look::syllable:
        return add_beats();
      case Look::ending:
        return add_ending();
      case Look::join:
        return add_join();
      case Look::prefix:
        return add_prefix();
      case Look::parts:
        return add_parts();
      case Look::sound:
      case Look::unusual:
      case Look::silent:
        break;
    }
    return false;
  }

  std::string said_by(const Unit& unit) const {
    return said(lesson_, unit.phonemes);
  }

  // Units as they stand in `face`, which begins with the first of them.
  void add_touched(std::size_t begin, std::size_t end) {
    const auto all = graphemes_of(*card_.key);
    const std::size_t offset = all[begin].begin;
    for (std::size_t i = begin; i < end; ++i) {
      Grapheme g = all[i];
      g.begin -= offset;
      g.end -= offset;
      if (g.split_e != std::string::npos) g.split_e -= offset;
      g.of_pattern = false;
      card_.touched.push_back(g);
      card_.said.push_back(said_by(reading().units[i]));
    }
  }

  const PatternPlace* place() const { return reading().find(pattern_.id); }

  // The consonants before the first vowel, or those behind the last.
  bool add_blend() {
    const auto& units = reading().units;
    const PatternPlace* where = place();
    if (where == nullptr || where->units.empty()) return false;
    const bool first = std::ranges::find(where->units, 0) != where->units.end();
    std::size_t begin = 0, end = 0;
    if (first) {
      while (end < units.size() && !has_vowel(units[end])) ++end;
    } else {
      begin = end = facts_.base_units;
      while (begin > 0 && !has_vowel(units[begin - 1])) --begin;
    }
    if (end < begin + 2) return false;
    card_.face = word().substr(units[begin].begin,
                               units[end - 1].end - units[begin].begin);
    add_touched(begin, end);
    return true;
  }

  bool add_beats() {
    const PatternPlace* where = place();
    if (where == nullptr || where->units.empty()) return false;
    const auto& units = reading().units;
    const auto parts = divide_word(reading(), *lesson_.phonics);
    card_.beats.clear();
    for (const WordPart& part : parts) {
      card_.beats.emplace_back(part.of(word()));
    }
    std::size_t unit = where->units.front();
    // Doubled consonants are about the vowel that they shut in.
    if (!has_vowel(units[unit]) && unit > 0) --unit;
    card_.beat = 0;
    for (std::size_t i = 1; i < parts.size(); ++i) {
      if (parts[i].begin <= units[unit].begin) card_.beat = static_cast<int>(i);
    }
    card_.face = fmt::format("{}", fmt::join(card_.beats, "·"));
    return true;
  }

  // What of the word an ending has: -ed, or from the first letters of a pattern
  // such as -tion to the end of the base.
  bool add_ending() {
    const auto& units = reading().units;
    if (const auto own = base_and_ending(reading(), *lesson_.phonics);
        own && !facts_.endings.empty()) {
      card_.face = "-" + std::string(ending_text(own.ending));
      card_.parts = {own.base, std::string(ending_text(own.ending))};
      card_.joint = own.joint;
      add_said(facts_.endings.front().begin, units.size());
      add_sounds(facts_.endings.front().begin);
      return true;
    }
    const PatternPlace* where = place();
    if (where == nullptr || where->units.empty()) return false;
    const std::size_t begin = where->units.front();
    const std::size_t end = std::max(begin + 1, facts_.base_units);
    card_.face = "-" + word().substr(units[begin].begin,
                                     ending_letter(end) - units[begin].begin);
    add_said(begin, end);
    return true;
  }

  // The byte behind the first `units` units and the e of a split one of them.
  std::size_t ending_letter(std::size_t units) const {
    const auto& all = reading().units;
    return units < all.size() ? all[units].begin : word().size();
  }

  void add_said(std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) {
      card_.said.push_back(said_by(reading().units[i]));
    }
  }

  static std::vector<Phoneme> sounds_from(const Reading& reading,
                                          std::size_t begin) {
    std::vector<Phoneme> sounds;
    for (std::size_t i = begin; i < reading.units.size(); ++i) {
      const auto& own = reading.units[i].phonemes;
      sounds.insert(sounds.end(), own.begin(), own.end());
    }
    return sounds;
  }

  // Each word of the table with what its ending says in the lesson's accent.
  void add_sounds(std::size_t begin) {
    if (card_.text->words.empty()) return;
    const auto own = sounds_from(reading(), begin);
    for (const std::string_view example : card_.text->words) {
      const auto other =
          lesson_.phonics->first_reading(example, lesson_.conventions);
      const auto facts = find_facts(*other, map_letters(other->word),
                                    lesson_.phonics->lexicon());
      if (facts.endings.empty()) continue;
      const auto sounds = sounds_from(*other, facts.endings.front().begin);
      card_.sounds.push_back(
          {std::string(example), said(lesson_, sounds), sounds == own});
    }
  }

  bool add_join() {
    const auto own = base_and_ending(reading(), *lesson_.phonics);
    if (!own || own.joint == Joint::plain) return false;
    card_.face = word();
    card_.parts = {own.base, std::string(ending_text(own.ending))};
    card_.joint = own.joint;
    const std::size_t end = word().size() - card_.parts[1].size();
    switch (own.joint) {
      case Joint::doubled:
      case Joint::c_to_ck:
      case Joint::y_to_i:
      case Joint::f_to_v:
      case Joint::ie_to_y:
        card_.changed_begin = end - 1;
        card_.changed_end = end;
        break;
      case Joint::dropped_e:
      case Joint::plain:
        break;
    }
    return true;
  }

  bool add_prefix() {
    if (facts_.prefix.empty()) return false;
    const std::size_t size = facts_.prefix.size();
    card_.face = word().substr(0, size) + "-";
    const std::size_t rest = word()[size] == '-' ? size + 1 : size;
    card_.parts = {word().substr(0, size), word().substr(rest)};
    return true;
  }

  bool add_parts() {
    card_.face = word();
    if (facts_.compound_at > 0 && word().find('-') == std::string::npos) {
      const std::size_t at = reading().units[facts_.compound_at].begin;
      card_.parts = {word().substr(0, at), word().substr(at)};
    } else if (about_.id == "contraction") {
      card_.parts = long_form(word());
    } else {
      std::string rest = word();
      for (std::size_t at = rest.find('-'); at != std::string::npos;
           at = rest.find('-')) {
        card_.parts.push_back(rest.substr(0, at));
        rest = rest.substr(at + 1);
      }
      const std::size_t mark = std::min(rest.find('\''), rest.find("’"));
      if (card_.parts.empty() && mark != std::string::npos) {
        card_.parts.push_back(rest.substr(0, mark));
        rest = rest.substr(mark);
      }
      card_.parts.push_back(rest);
    }
    return card_.parts.size() > 1;
  }

  void add_texts() {
    card_.learner = card_.text->learner;
    replace_all(card_.learner, "{key}",
                card_.key != nullptr ? word() : std::string(about_.example));
    const bool affix = !card_.face.empty() && card_.face.starts_with('-');
    replace_all(card_.learner, "{g}",
                pattern_.graphemes.empty()
                    ? affix ? card_.face.substr(1) : card_.face
                    : pattern_.graphemes.front());
    replace_all(card_.learner, "{p}", card_.face);
    for (const auto& [own, meaning] : card_.text->meanings) {
      const bool ends = affix && card_.face == "-" + std::string(own);
      const bool begins = !affix && card_.face == std::string(own) + "-";
      if (ends || begins) replace_all(card_.learner, "{m}", meaning);
    }
    // An affix whose meaning is not known is shown, and said by the teacher.
    if (card_.learner.find("{m}") != std::string::npos) card_.learner.clear();
  }

  const AnalyzedLesson& lesson_;
  const LessonPattern& pattern_;
  const Pattern& about_;
  WordFacts facts_;
  PatternCard card_;
};

}  // namespace

bool PatternCard::is_sound() const {
  return look == Look::sound || look == Look::unusual || look == Look::silent;
}

std::string PatternCard::sum() const {
  // The long form of a contraction is two words, and no sum.
  const bool contraction = text != nullptr && text->id == "contraction";
  return fmt::format("{}", fmt::join(parts, contraction ? " " : " + "));
}

PatternCard pattern_card(const AnalyzedLesson& lesson, std::size_t index) {
  return CardMaker(lesson, index).make();
}

std::string column_head(const AnalyzedLesson& lesson, std::size_t index) {
  const LessonPattern& pattern = lesson.patterns[index];
  const PatternCard card = pattern_card(lesson, index);
  if (card.is_sound() && !pattern.graphemes.empty()) {
    return fmt::format("{}", fmt::join(pattern.graphemes, ", "));
  }
  // Endings and prefixes stand for themselves; of a kind of word one is the
  // model for the others.
  return card.face;
}

std::string how_to_say(const AnalyzedLesson& lesson,
                       const std::vector<Phoneme>& sound) {
  if (sound.empty()) return "";
  const std::string name = said(lesson, sound);
  const SoundWay& first = way_of(sound.front());
  if (sound.size() == 2 && is_vowel(sound[0]) && sound[1] == Phoneme::r) {
    return fmt::format("Say {} in one, long and clear: {}; then the {}.", name,
                       first.how, way_of(sound[1]).how);
  }
  if (sound.size() > 1) {
    std::string text =
        fmt::format("Say {}, one sound straight after the other.", name);
    for (std::size_t i = 0; i < sound.size(); ++i) {
      text += fmt::format(" {}: {}.", i == 0 ? "First" : "Then",
                          way_of(sound[i]).how);
    }
    return text;
  }
  using Way = SoundWay::Way;
  switch (first.way) {
    case Way::hold:
      return fmt::format("Hold {}, with no “uh” after it: {}.", name,
                         first.how);
    case Way::quick:
      return fmt::format("Say {} short and clean, with no “uh” after it: {}.",
                         name, first.how);
    case Way::into:
      return fmt::format(
          "Say {} short and go straight into the vowel, with no “uh” between: "
          "{}.",
          name, first.how);
    case Way::vowel:
      return fmt::format("Say {} by itself, short and clear: {}.", name,
                         first.how);
    case Way::glide:
      return fmt::format("Say {} by itself, long and clear: {}.", name,
                         first.how);
  }
  return "";
}

}  // namespace sheaf
