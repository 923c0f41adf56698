#include "sheets/word_parts.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/shuffle.h"
#include "layout/heard_text.h"
#include "layout/ruled_lines.h"
#include "phonics/explain.h"
#include "phonics/notation.h"
#include "sheets/word_division.h"

namespace sheaf {

std::vector<Grapheme> graphemes_of(const AnalyzedWord& word) {
  std::vector<Grapheme> result;
  for (std::size_t i = 0; i < word.reading.units.size(); ++i) {
    const Unit& unit = word.reading.units[i];
    Grapheme g;
    g.begin = unit.begin;
    g.end = unit.end;
    if (unit.is_split()) g.split_e = static_cast<std::size_t>(unit.split_e);
    g.shaded = unit.irregular && !word.is_pattern_unit(i);
    g.of_pattern = word.is_pattern_unit(i);
    result.push_back(g);
  }
  return result;
}

namespace {

// The letters of a unit with the signs that follow it (an apostrophe).
std::string letters_of(const Reading& reading, std::size_t index) {
  const Unit& unit = reading.units[index];
  std::size_t end = unit.end;
  const auto taken = [&](std::size_t at) {
    for (const Unit& u : reading.units) {
      if (at >= u.begin && at < u.end) return true;
      if (u.is_split() && at == static_cast<std::size_t>(u.split_e)) {
        return true;
      }
    }
    return at >= reading.word.size();
  };
  while (!taken(end)) ++end;
  return reading.word.substr(unit.begin, end - unit.begin);
}

}  // namespace

std::vector<SoundBox> boxes_of(const AnalyzedWord& word,
                               const std::vector<bool>& given) {
  const auto is_given = [&](std::size_t unit) {
    return unit < given.size() && given[unit];
  };
  const Reading& reading = word.reading;
  std::vector<SoundBox> boxes;
  std::size_t before = 0;  // where the unit of the box before begins
  for (std::size_t i = 0; i < reading.sounds.size(); ++i) {
    const Sound& sound = reading.sounds[i];
    const Unit& unit = reading.units[sound.unit];
    SoundBox box;
    for (std::size_t k = 0; k < sound.units; ++k) {
      box.letters += letters_of(reading, sound.unit + k);
    }
    box.part = sound.part;
    box.parts = sound.parts;
    // A doubled letter has one box, which closes the part before: rabb-it.
    box.starts_beat = std::ranges::any_of(word.parts, [&](const WordPart& p) {
      return i > 0 && p.begin > before && p.begin <= unit.begin;
    });
    before = unit.begin;
    box.of_pattern = word.is_pattern_unit(sound.unit);
    box.given = true;
    for (std::size_t k = 0; k < sound.units; ++k) {
      box.given &= is_given(sound.unit + k);
    }
    const Unit& last = reading.units[sound.unit + sound.units - 1U];
    if (sound.part + 1 == sound.parts) {
      for (std::size_t k = 0; k < reading.units.size(); ++k) {
        const Unit& other = reading.units[k];
        if (!other.is_split() || other.split_e != last.end) continue;
        box.slot_after =
            reading.word.substr(static_cast<std::size_t>(other.split_e), 1);
        box.slot_of_pattern = word.is_pattern_unit(k);
        box.slot_given = is_given(k);
      }
    }
    boxes.push_back(std::move(box));
  }
  return boxes;
}

std::string spelled_out(const AnalyzedWord& word) {
  return graphemes_text(word.reading);
}

TextPiece spelled_piece(const AnalyzedWord& word, const TextStyle& style,
                        std::string_view before, std::string_view after) {
  const std::string text = spelled_out(word);
  TextPiece piece{.text = fmt::format("{}{}{}", before, text, after),
                  .style = style};
  while (after.ends_with(' ')) after.remove_suffix(1);
  piece.heard = fmt::format("{}{}{}", before, heard_graphemes(text), after);
  return piece;
}

std::string said(const AnalyzedLesson& lesson,
                 const std::vector<Phoneme>& sound) {
  if (sound.empty()) return "";
  return "/" + sound_name(sound, lesson.conventions) + "/";
}

std::string sounds_of(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  return sounds_text(word.reading, lesson.conventions);
}

std::vector<bool> pattern_bytes(const AnalyzedLesson& lesson,
                                const AnalyzedWord& word) {
  std::vector<bool> flags(word.reading.word.size(), false);
  for (std::size_t i = 0; i < word.reading.units.size(); ++i) {
    if (!word.is_pattern_unit(i)) continue;
    const Unit& unit = word.reading.units[i];
    for (std::size_t k = unit.begin; k < unit.end; ++k) flags[k] = true;
    if (unit.is_split()) flags[static_cast<std::size_t>(unit.split_e)] = true;
  }
  const std::vector<Unit>& units = word.reading.units;
  const std::size_t last = units.size() - 1;
  if (last > 0 && word.is_pattern_unit(last) &&
      !word.is_pattern_unit(last - 1)) {
    const EndingAnalysis own = base_and_ending(word.reading, *lesson.phonics);
    const std::size_t size = ending_text(own.ending).size();
    const std::size_t begin = flags.size() - size;
    if (own && begin < units[last].begin && begin > units[last - 1].begin) {
      std::fill(flags.end() - static_cast<std::ptrdiff_t>(size), flags.end(),
                true);
    }
  }
  return flags;
}

std::vector<TextPiece> marked_word(const AnalyzedLesson& lesson,
                                   const AnalyzedWord& word,
                                   const TextStyle& style,
                                   const TextStyle& pattern_style) {
  const std::vector<bool> flags = pattern_bytes(lesson, word);
  const std::string& text = word.reading.word;
  std::vector<TextPiece> pieces;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i + 1;
    while (end < text.size() && flags[end] == flags[i]) ++end;
    pieces.push_back(
        {text.substr(i, end - i), flags[i] ? pattern_style : style, flags[i]});
    i = end;
  }
  return pieces;
}

std::vector<TextPiece> marked_sentence(const AnalyzedSentence& sentence,
                                       const TextStyle& style,
                                       const TextStyle& pattern_style) {
  std::vector<TextPiece> pieces;
  const std::string& text = sentence.text.text();
  std::size_t done = 0;
  for (const AnalyzedSentence::Part& part : sentence.words) {
    if (!part.word.has_pattern()) continue;
    if (part.begin > done) {
      pieces.push_back({text.substr(done, part.begin - done), style});
    }
    pieces.push_back({.text = text.substr(part.begin, part.end - part.begin),
                      .style = pattern_style,
                      .marked = true});
    done = part.end;
  }
  if (done < text.size()) pieces.push_back({text.substr(done), style});
  return pieces;
}

std::vector<const AnalyzedWord*> words_of_list(const AnalyzedLesson& lesson) {
  std::vector<const AnalyzedWord*> words;
  for (const AnalyzedWord& word : lesson.words) words.push_back(&word);
  return words;
}

std::vector<const AnalyzedWord*> mixed_words(const AnalyzedLesson& lesson,
                                             std::string_view salt) {
  std::vector<const AnalyzedWord*> words = words_of_list(lesson);
  Random random(text_hash(salt, lesson.seed));
  shuffle(words, random);
  return words;
}

std::vector<const AnalyzedWord*> practice_words(const AnalyzedLesson& lesson,
                                                int most) {
  // Turn by turn from each pattern, so that none is cut off.
  std::vector<std::vector<const AnalyzedWord*>> by_pattern(
      lesson.patterns.size());
  for (const AnalyzedWord& word : lesson.words) {
    if (!word.has_pattern()) continue;
    by_pattern[static_cast<std::size_t>(word.pattern())].push_back(&word);
  }
  std::vector<const AnalyzedWord*> words;
  for (std::size_t turn = 0; turn < lesson.words.size(); ++turn) {
    for (const auto& own : by_pattern) {
      if (turn < own.size() && words.size() < static_cast<std::size_t>(most)) {
        words.push_back(own[turn]);
      }
    }
  }
  // As the lesson lists them: its words stand in one array.
  std::ranges::sort(words);
  return words;
}

Length widest_word(Composer& composer, const TextStyle& style,
                   const std::vector<const AnalyzedWord*>& words) {
  return widest_text(composer, style, words, [](const AnalyzedWord* word) {
    return std::string_view(word->reading.word);
  });
}

Length widest_by_hand(const std::vector<const AnalyzedWord*>& words,
                      Length x_height) {
  Length widest;
  for (const AnalyzedWord* word : words) {
    widest = std::max(widest, hand_width(word->reading.word, x_height));
  }
  return widest;
}

TextStyle fitted_style(TextStyle style, Length width, Length room) {
  if (width <= room || width == Length()) return style;
  style.size = scaled(style.size, static_cast<double>(room.mils()) /
                                      static_cast<double>(width.mils()));
  return style;
}

std::string counted(int count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace sheaf
