#include "phonics/sound_making.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <span>

#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {

namespace {

// What the cells of a column may say and what a learner is told of it, in the
// order of the enumeration.
struct Told {
  std::string_view name, told;
};
constexpr std::array<Told, 6> kLips = {{
    {"shut", "Lips shut."},
    {"teeth", "Bottom lip on the top teeth."},
    {"round", "Lips round."},
    {"forward", "Lips a little forward."},
    {"spread", "Lips wide, as in a smile."},
    {"open", "Lips apart and loose."},
}};
constexpr std::array<Told, 17> kTongues = {{
    {"rest", "Tongue at rest."},
    {"teeth", "Tongue tip between the teeth."},
    {"ridge", "Tongue tip behind the top teeth."},
    {"hiss", "Teeth together, tongue behind."},
    {"roof", "Teeth together, tongue lifted."},
    {"back", "Back of the tongue up."},
    {"drawn", "Tongue back. It touches nothing."},
    {"high-front", "Tongue high at the front."},
    {"near-high-front", "Tongue nearly high at the front."},
    {"mid-front", "Tongue halfway up at the front."},
    {"low-front", "Tongue low at the front."},
    {"middle", "Tongue loose, in the middle."},
    {"low-middle", "Tongue low."},
    {"low-back", "Tongue low at the back."},
    {"mid-back", "Tongue halfway up at the back."},
    {"near-high-back", "Tongue nearly high at the back."},
    {"high-back", "Tongue high at the back."},
}};
constexpr std::array<Told, 6> kAir = {{
    {"stop", "Air stops, then pops out."},
    {"rush", "Air stops, then rushes out."},
    {"rub", "Air squeezes out. You can hold it."},
    {"sides", "Air goes round the tongue. You can hold it."},
    {"free", "Air flows out."},
    {"nose", "Air through the nose. You can hold it."},
}};

std::optional<std::size_t> index_of(std::span<const Told> all,
                                    std::string_view name) {
  const auto found = std::ranges::find(all, name, &Told::name);
  if (found == all.end()) return std::nullopt;
  return static_cast<std::size_t>(found - all.begin());
}

// Takes the cells of a row; says what is wrong with them.
std::string read_making(const TableRow& row, SoundMaking& making) {
  const auto phoneme = phoneme_from_name(row.cell(0));
  if (!phoneme) return "no such phoneme";
  making.phoneme = *phoneme;
  const auto lips = index_of(kLips, row.cell(1));
  const auto tongue = index_of(kTongues, row.cell(3));
  const auto air = index_of(kAir, row.cell(4));
  if (!lips || !tongue || !air) return "lips, tongue or air";
  making.lips = static_cast<SoundMaking::Lips>(*lips);
  making.tongue = static_cast<SoundMaking::Tongue>(*tongue);
  making.air = static_cast<SoundMaking::Air>(*air);
  const std::string_view jaw = row.cell(2);
  if (jaw.size() != 1 || jaw[0] < '0' || jaw[0] > '3') return "jaw";
  making.jaw = jaw[0] - '0';
  if (row.cell(5) != "on" && row.cell(5) != "off") return "voice";
  making.voice = row.cell(5) == "on";
  if (row.cell(6) != "-") {
    making.end = phoneme_from_name(row.cell(6));
    if (!making.end) return "end";
  }
  for (const std::string_view name : split_at(row.cell(7), ' ')) {
    const auto beside = phoneme_from_name(name);
    if (!beside) return "beside";
    making.beside.push_back(*beside);
  }
  making.source = row.cell(8);
  return making.source.empty() ? "no source" : "";
}

const std::array<SoundMaking, kPhonemeCount>& sound_makings() {
  static const auto all = [] {
    std::array<SoundMaking, kPhonemeCount> makings;
    std::string fault;
    for (SoundMaking& m : read_sound_making(sound_making_table(), fault)) {
      makings[static_cast<std::size_t>(m.phoneme)] = std::move(m);
    }
    assert(fault.empty());
    return makings;
  }();
  return all;
}

}  // namespace

std::vector<SoundMaking> read_sound_making(std::string_view text,
                                           std::string& fault) {
  std::vector<SoundMaking> all;
  for (const TableRow& row : table_rows(text)) {
    if (row.cell(0) == "phoneme") continue;
    SoundMaking making;
    const std::string why = read_making(row, making);
    if (!why.empty()) {
      fault = fmt::format("line {}: {}", row.line, why);
      return all;
    }
    all.push_back(std::move(making));
  }
  return all;
}

const SoundMaking& making_of(Phoneme phoneme) {
  return sound_makings()[static_cast<std::size_t>(phoneme)];
}

std::string_view told_lips(const SoundMaking& making) {
  using Lips = SoundMaking::Lips;
  if (making.jaw == 3 && making.lips == Lips::open) {
    return "Mouth wide open.";
  }
  if (making.jaw == 3 && making.lips == Lips::round) {
    return "Mouth open, lips round.";
  }
  if (making.jaw == 2 && making.lips == Lips::open) return "Mouth half open.";
  return kLips[static_cast<std::size_t>(making.lips)].told;
}

std::string_view told_tongue(const SoundMaking& making) {
  return kTongues[static_cast<std::size_t>(making.tongue)].told;
}

std::string_view told_air(const SoundMaking& making) {
  return kAir[static_cast<std::size_t>(making.air)].told;
}

std::string_view told_voice(const SoundMaking& making) {
  return making.voice ? "Voice on: your throat hums."
                      : "Voice off: your throat is still.";
}

std::string_view told_end(const SoundMaking& end) {
  using Tongue = SoundMaking::Tongue;
  if (end.phoneme == Phoneme::r) return "Then the tongue draws back.";
  if (end.lips == SoundMaking::Lips::round) return "Then the lips close in.";
  return end.tongue == Tongue::middle ? "Then the tongue goes loose."
                                      : "Then the tongue glides up.";
}

}  // namespace sheaf
