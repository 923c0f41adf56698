// What a teacher says to a learner about an error: a sentence for each kind,
// and the rule where there is one. It leads to the sound or the rule and never
// shows the wrong spelling. Common practice, no source; the wording is ours.

#include "marking/error_cue.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "marking/sound_place.h"

namespace sheaf {
namespace {

bool has_silent_letter(std::string_view grapheme) {
  constexpr std::string_view kSilent[] = {"kn", "wr", "gn", "mb", "st", "bt",
                                          "mn", "rh", "wh", "gh", "ps", "gu"};
  return std::ranges::find(kSilent, grapheme) != std::ranges::end(kSilent);
}

class CueWriter {
 public:
  CueWriter(const Reading& word, const WordError& error, FoundRule rule,
            const Conventions& conventions)
      : word_(word),
        error_(error),
        unit_(word.units[error.unit]),
        rule_(rule),
        conventions_(conventions) {}

  CueKind kind() const {
    switch (error_.cause) {
      case Cause::none:
        return CueKind::none;
      case Cause::other_spelling:
      case Cause::not_used_here:
        if (rule_) return CueKind::rule;
        if (has_silent_letter(unit_.grapheme)) return CueKind::silent;
        return error_.other_word ? CueKind::other_word : CueKind::other_way;
      case Cause::reads_otherwise:
      case Cause::changes_vowel:
        return CueKind::read_back;
      case Cause::near_sound:
        return CueKind::near;
      case Cause::own_speech:
        return CueKind::speech;
      case Cause::sound_lost:
        return CueKind::tap;
      case Cause::ending_by_sound:
        return CueKind::ending;
      case Cause::doubling:
        return CueKind::doubling;
      case Cause::dropped_e:
        return CueKind::dropped_e;
      case Cause::y_to_i:
        return CueKind::y_to_i;
      case Cause::turned_letter:
        return CueKind::turned;
      case Cause::left_out:
        return CueKind::missing;
      case Cause::no_vowel:
        return CueKind::beat_vowel;
      case Cause::order:
        return CueKind::order;
      case Cause::extra_letter:
        return CueKind::extra;
    }
    return CueKind::none;
  }

  std::string text(CueKind kind) const {
    switch (kind) {
      case CueKind::none:
      case CueKind::apostrophe:
        return {};
      case CueKind::rule:
        return fmt::format("“I can hear {}. {}” Show {}.", sound(), rule_.text,
                           unit_.grapheme);
      case CueKind::other_way:
        return fmt::format(
            "“I can hear {}. {} How is it written in {}?” Show {}.", sound(),
            error_.cause == Cause::not_used_here
                ? "We write it like that in other words."
                : "That is one way to write it.",
            word_.word, unit_.grapheme);
      case CueKind::other_word:
        return other_word();
      case CueKind::silent:
        return fmt::format(
            "“I can hear {}. In {}, one letter makes no sound. Which?” Show "
            "{}.",
            sound(), word_.word, unit_.grapheme);
      case CueKind::read_back:
        return read_back();
      case CueKind::near:
        return near();
      case CueKind::tap:
        return tap();
      case CueKind::missing:
        return missing();
      case CueKind::beat_vowel:
        return beat_vowel();
      case CueKind::order:
        return fmt::format(
            "“Say {} and point to each sound as you say it. What comes first, "
            "what next?” Show {}.",
            word_.word, unit_.grapheme);
      case CueKind::turned:
        return fmt::format(
            "“Say {}. Write its letter in the air. Which way does it face?” "
            "{}.",
            sound(), unit_.grapheme);
      case CueKind::ending:
        return fmt::format(
            "“It has happened already. How do we write that ending, whatever "
            "it sounds like?” Show {}.",
            unit_.grapheme);
      case CueKind::speech:
        return by_meaning();
      case CueKind::doubling:
        return doubling();
      case CueKind::dropped_e:
        return from_base("What does its e do before the ending?");
      case CueKind::y_to_i:
        return from_base("What does its y do before the ending?");
      case CueKind::extra:
        return fmt::format(
            "“Say {} and touch a grapheme for each sound. Is there a letter "
            "too many?”",
            word_.word);
    }
    return {};
  }

 private:
  std::string sound() const {
    return sound_of_unit(word_, error_.unit, conventions_);
  }
  SoundPlace place() const {
    return sound_place(word_, error_.unit, conventions_);
  }

  // The vowel that has changed stands before the grapheme that changed it.
  std::string read_back() const {
    const bool of_vowel = error_.cause == Cause::changes_vowel &&
                          error_.unit > 0 && !is_vowel(unit_.phonemes[0]);
    const std::size_t about = of_vowel ? error_.unit - 1 : error_.unit;
    return fmt::format(
        "“Read me what you wrote.” Wait. “We want {}. {}” Show {}.",
        sound_of_unit(word_, about, conventions_),
        rule_ ? rule_.text : "What makes it say that?",
        word_.units[about].is_split() && !rule_ ? word_.units[about].grapheme
                                                : unit_.grapheme);
  }

  // The ear cannot help where the learner says it so; what the word means and
  // what it is built from can.
  std::string by_meaning() const {
    const bool last = error_.unit + 1 == word_.units.size();
    const std::string_view whole = word_.word;
    if (last && whole.ends_with("ed") && unit_.grapheme != "e") {
      return "“It has happened already, so it ends in ed, whatever we hear.” "
             "Show ed.";
    }
    if (last && error_.written.empty() &&
        (unit_.grapheme == "s" || unit_.grapheme == "es")) {
      return fmt::format(
          "“What does the end of {} tell us? We write it, whatever we hear.” "
          "Show {}.",
          word_.word, unit_.grapheme);
    }
    if (last && error_.written.empty()) {
      return fmt::format(
          "“Think of a longer word made from {}. What comes before the new "
          "ending? We write it in {} as well, whatever we hear.” Show {}.",
          word_.word, word_.word, unit_.grapheme);
    }
    return fmt::format(
        "“We do not all say {} in the same way, but we all write it with {}. "
        "Say it in a sentence, then write it.” Show {}.",
        word_.word, unit_.grapheme, unit_.grapheme);
  }

  // Nobody can hear which of two words is meant, so a sentence tells.
  std::string other_word() const {
    if (error_.sentence.empty()) {
      return fmt::format(
          "“That is a word, but a different one. It does not mean {}. How is "
          "{} written in the one that we want?” Show {}.",
          word_.word, sound(), unit_.grapheme);
    }
    return fmt::format(
        "“That is a word, but a different one. We want the {} of this "
        "sentence: {} How is {} written there?” Show {}.",
        word_.word, error_.sentence, sound(), unit_.grapheme);
  }

  std::string near() const {
    const SoundPlace at = place();
    if (at.beat.empty()) {
      return fmt::format("“Watch my mouth: {}. Say it slowly. {}” {}.",
                         word_.word, question(at), sound());
    }
    return fmt::format(
        "“Watch my mouth: {}. Say it in beats. Say the {} beat slowly. {}” "
        "{}.",
        word_.word, at.beat, question(at), sound());
  }

  std::string tap() const {
    const SoundPlace at = place();
    if (at.beat.empty()) {
      return fmt::format("“Say {} and tap its sounds. {}” {}.", word_.word,
                         question(at), sound());
    }
    return fmt::format(
        "“Say {} in beats. Tap the sounds of the {} beat. {}” {}.", word_.word,
        at.beat, question(at), sound());
  }

  static std::string question(const SoundPlace& at) {
    return at.sound.empty() ? "What do you hear?"
                            : fmt::format("What is {}?", at.sound);
  }

  std::string missing() const {
    const SoundPlace at = place();
    const std::string taps =
        at.sounds == 1 ? "1 tap" : fmt::format("{} taps", at.sounds);
    if (at.beat.empty()) {
      return fmt::format(
          "“Say {} and tap its sounds: {}. Touch a letter for each. Which has "
          "none?” {}.",
          word_.word, taps, sound());
    }
    return fmt::format(
        "“Say {} in beats. Tap the sounds of the {} beat: {}. Touch a letter "
        "for each. Which has none?” {}.",
        word_.word, at.beat, taps, sound());
  }

  std::string beat_vowel() const {
    if (rule_) {
      return fmt::format(
          "“Say {} in beats. Every beat needs a vowel letter. {}” Show {}.",
          word_.word, rule_.text, unit_.grapheme);
    }
    if (word_.syllables() == 1) {
      return fmt::format(
          "“Every beat needs a vowel letter. Say {} slowly. Where is the "
          "vowel?” Show {}.",
          word_.word, unit_.grapheme);
    }
    return fmt::format(
        "“Say {} in beats. Every beat needs a vowel letter. Which beat has "
        "none?” Show {}.",
        word_.word, unit_.grapheme);
  }

  // The vowel letter before a doubled consonant is short: hop, hopping. Where
  // an e was dropped the consonant stays single: hope, hoping.
  std::string doubling() const {
    if (static_cast<int>(error_.unit) == word_.doubled ||
        unit_.grapheme.size() > 1) {
      std::string base;
      for (std::size_t i = 0; i < error_.unit; ++i) {
        base += word_.units[i].grapheme;
      }
      base += unit_.grapheme.substr(0, 1);
      return fmt::format(
          "“Say {}, then {}. {}”", base, word_.word,
          rule_ ? rule_.text : "What happens to its last letter?");
    }
    return fmt::format(
        "“Read me what you wrote.” Wait. “Which word is {} made from? {}” Show "
        "{}.",
        word_.word, rule_ ? rule_.text : "What happens to its last letters?",
        unit_.grapheme);
  }

  std::string from_base(std::string_view question) const {
    return fmt::format("“Which word is {} made from? {}”", word_.word,
                       rule_ ? rule_.text : question);
  }

  const Reading& word_;
  const WordError& error_;
  const Unit& unit_;
  FoundRule rule_;
  const Conventions& conventions_;
};

// Kinds of cue that say the rule; the others lead to a sound.
bool says_rule(CueKind kind) {
  switch (kind) {
    case CueKind::read_back:
    case CueKind::beat_vowel:
    case CueKind::doubling:
    case CueKind::dropped_e:
    case CueKind::y_to_i:
    case CueKind::rule:
      return true;
    default:
      return false;
  }
}

// The vowel letter that an e made long (hope for hop), as an error of its own.
WordError lengthened(const Reading& word, std::size_t before,
                     std::string& written) {
  WordError error{.unit = before, .cause = Cause::changes_vowel};
  for (std::size_t i = before; i-- > 0;) {
    if (!is_vowel(word.units[i].phonemes[0])) continue;
    written = word.units[i].grapheme + "_e";
    error.unit = i;
    break;
  }
  error.written = written;
  return error;
}

}  // namespace

std::string_view cue_kind_name(CueKind kind) {
  constexpr std::array<std::string_view, 19> kNames = {
      "none",   "read-back", "beat-vowel", "doubling",  "drop-e",
      "y-to-i", "ending",    "rule",       "other-way", "other-word",
      "silent", "near",      "tap",        "missing",   "order",
      "turned", "extra",     "apostrophe", "speech"};
  return kNames[static_cast<std::size_t>(kind)];
}

ErrorCue error_cue(const Reading& word, const WordError& error,
                   const CueRules* rules, const Conventions& conventions) {
  if (error.unit >= word.units.size()) {
    return {CueKind::apostrophe,
            fmt::format("“Something was left out when {} was made shorter. "
                        "What stands in its place?” Show the apostrophe.",
                        word.word),
            {}};
  }
  FoundRule rule;
  if (rules != nullptr) {
    rule = rules->find(word, error.unit, error.cause, error.written);
  }
  const CueWriter writer(word, error, rule, conventions);
  const CueKind kind = writer.kind();
  return {kind, writer.text(kind),
          says_rule(kind) ? rule.pattern : std::string_view{}};
}

ErrorCue first_cue(const Reading& word, const MarkedAttempt& attempt,
                   const CueRules* rules, const Conventions& conventions) {
  if (attempt.right || attempt.blank) return {};
  std::string lengthened_by;
  for (std::size_t i = 0; i <= attempt.graphemes.size(); ++i) {
    for (const ExtraLetter& extra : attempt.extra) {
      if (extra.before != i) continue;
      WordError error{.unit = i > 0 ? i - 1 : 0, .cause = extra.cause};
      if (extra.cause == Cause::changes_vowel) {
        error = lengthened(word, i, lengthened_by);
      }
      return error_cue(word, error, rules, conventions);
    }
    if (i == attempt.graphemes.size()) break;
    const MarkedGrapheme& g = attempt.graphemes[i];
    if (g.result == GraphemeResult::correct) continue;
    return error_cue(word,
                     {.unit = i,
                      .cause = g.cause,
                      .written = g.written,
                      .other_word = attempt.other_word},
                     rules, conventions);
  }
  if (!attempt.only_marks_wrong) return {};
  return error_cue(word, {.unit = word.units.size(), .cause = Cause::left_out},
                   rules, conventions);
}

}  // namespace sheaf
