// The one file that knows the JSON library.

#include "cli/json.h"

#include <nlohmann/json.hpp>

namespace sheaf {

namespace {

using Json = nlohmann::ordered_json;

std::string ipa(const std::vector<Phoneme>& phonemes, bool stressed) {
  std::string text;
  for (const Phoneme p : phonemes) text += to_ipa(p, stressed);
  return text;
}

Json reading_json(const Phonics& phonics, const Reading& reading) {
  Json j;
  j["word"] = reading.word;
  if (!reading.label.empty()) j["label"] = reading.label;
  Json graphemes = Json::array();
  Json phonemes = Json::array();
  for (const Unit& unit : reading.units) {
    graphemes.push_back(unit.grapheme);
    for (const Phoneme p : unit.phonemes) {
      phonemes.push_back(to_ipa(p, unit.stressed));
    }
  }
  Json sounds = Json::array();
  for (const Sound& sound : reading.sounds) {
    sounds.push_back(
        ipa(sound.phonemes, reading.units[sound.unit].stressed));
  }
  Json patterns = Json::array();
  for (const PatternPlace& place : reading.places) {
    patterns.push_back(phonics.patterns()[place.pattern].id);
  }
  j["graphemes"] = std::move(graphemes);
  j["phonemes"] = std::move(phonemes);
  j["sounds"] = std::move(sounds);
  j["boxes"] = reading.boxes();
  j["patterns"] = std::move(patterns);
  if (reading.origin == Reading::Origin::guess) j["guess"] = true;
  return j;
}

}  // namespace

std::string words_json(const Phonics& phonics,
                       const std::vector<std::vector<Reading>>& words,
                       const Conventions&) {
  Json all = Json::array();
  for (const auto& readings : words) {
    Json first = reading_json(phonics, readings.front());
    Json others = Json::array();
    for (std::size_t i = 1; i < readings.size(); ++i) {
      others.push_back(reading_json(phonics, readings[i]));
    }
    if (!others.empty()) first["readings"] = std::move(others);
    all.push_back(std::move(first));
  }
  return all.dump(2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace sheaf
