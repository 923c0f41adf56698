#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phoneme.h"

namespace sheaf {

/// How a sound is made: a row of src/data/sound_making.tsv, which names its
/// source. Lives as long as the program.
struct SoundMaking {
  enum class Lips : std::uint8_t { shut, teeth, round, forward, spread, open };
  enum class Tongue : std::uint8_t {
    rest,
    teeth,  ///< the tip between them
    ridge,  ///< the tip behind the top teeth
    hiss,   ///< close behind them
    roof,   ///< near the roof of the mouth
    back,   ///< its back against the soft roof
    drawn,  ///< drawn back, touching nothing
    high_front,
    near_high_front,
    mid_front,
    low_front,
    middle,
    low_middle,
    low_back,
    mid_back,
    near_high_back,
    high_back,
  };
  enum class Air : std::uint8_t { stop, rush, rub, sides, free, nose };

  Phoneme phoneme = Phoneme::ae;
  Lips lips = Lips::open;
  int jaw = 0;  ///< how far it is down, 0 to 3
  Tongue tongue = Tongue::rest;
  Air air = Air::free;
  bool voice = false;
  std::optional<Phoneme> end;   ///< what a glide moves to
  std::vector<Phoneme> beside;  ///< taken for it, the likeliest first
  std::string_view source;
};

const SoundMaking& making_of(Phoneme phoneme);

/// Reads the table; `fault` says what is wrong with it, or stays empty.
std::vector<SoundMaking> read_sound_making(std::string_view text,
                                           std::string& fault);

/// What each does, in plain words to a learner: whole short sentences.
std::string_view told_lips(const SoundMaking& making);
std::string_view told_tongue(const SoundMaking& making);
std::string_view told_air(const SoundMaking& making);
std::string_view told_voice(const SoundMaking& making);
/// Where it moves to while it is said, by what it ends with.
std::string_view told_end(const SoundMaking& end);

}  // namespace sheaf
