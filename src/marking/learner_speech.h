#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/conventions.h"
#include "phonics/phoneme.h"

namespace sheaf {

/// Two sounds that a learner does not keep apart in speech: th and f, short e
/// and i. Works both ways.
struct SoundConfusion {
  enum class Where : std::uint8_t { anywhere, start, end, before_nasal };
  Phoneme one;
  Phoneme other;
  Where where = Where::anywhere;
};

/// How the learner speaks, as far as marking should know. A spelling of what
/// the learner says is plausible then, not wrong; it never becomes correct.
struct LearnerSpeech {
  Accent accent = Accent::general_american;
  std::vector<SoundConfusion> confusions;
  /// What may not be heard: the last of two consonants at a word's end (hand),
  /// the endings -ed (where it is no beat) and -s, h at a word's beginning.
  bool no_cluster_end = false, no_ed = false, no_s = false, no_h = false;
  /// A vowel is heard before s with a consonant (estop).
  bool vowel_before_s = false;
};

/// Reads "th/f", "e/i", "short-oo/oo": two sounds by their plain names, parted
/// by a stroke. th stands for both of its sounds: th/f is about mother too.
/// False, and nothing added, where a name is unknown or not one sound.
bool read_confusion(std::string_view written, LearnerSpeech& speech);

/// A way of speaking that a teacher may declare, a row of
/// `speech_varieties.tsv`.
struct SpeechVariety {
  std::string_view name;
  std::string_view rule;
  std::string_view about;
  std::string_view example;
  std::string_view source;
};
std::span<const SpeechVariety> speech_varieties();

/// Adds what a variety says to how a learner speaks. False, and nothing added,
/// where there is none of the name.
bool add_variety(std::string_view name, LearnerSpeech& speech);

}  // namespace sheaf
