#pragma once

#include <memory>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "phonics/sound_step.h"
#include "planning/block_list.h"

namespace sheaf {

/// A word of one beat and few sounds, for games with single sounds.
struct ShortWord {
  /// With its patterns where it has one of the lesson's; else perhaps without.
  std::shared_ptr<const Reading> reading;
  std::vector<SoundPiece> pieces;
  /// Whether it has one of the lesson's patterns or may be read with what was
  /// taught: then the lesson would have it with its patterns.
  bool told = false;
  bool own = false;          ///< on the lesson's list
  bool has_pattern = false;  ///< one of the lesson's
  bool readable = false;     ///< with what was taught and the pattern
  bool made_up = false;
  /// The lower the sooner a child knows it and reads it, in tenths of what one
  /// grapheme of several letters costs.
  int cost = 0;

  const std::string& word() const { return reading->word; }
};

/// The lesson's words and Sheaf's everyday words, each once, the cheapest
/// first, in an order that the lesson's seed decides among equals. None is
/// blocked, said in several ways, spelled as in Britain only, or has a grapheme
/// that says something unusual. Where nothing is known of what was taught, a
/// word counts as readable if all but the pattern is plain: single letters with
/// their usual sounds, doubled ones at the end, and sh, ch, th, ck, ng.
std::vector<ShortWord> short_words(const AnalyzedLesson& lesson,
                                   const BlockList* blocked);
/// Those that are readable alone, in their order: in less time.
std::vector<ShortWord> readable_short_words(const AnalyzedLesson& lesson,
                                            const BlockList* blocked);

/// The same for one word; its cost is the caller's.
ShortWord short_word(const AnalyzedLesson& lesson,
                     std::shared_ptr<const Reading> reading);

/// The word as the lesson would have it.
AnalyzedWord analyzed_word(const AnalyzedLesson& lesson, const ShortWord& word);

}  // namespace sheaf
