#include "sheets/sound_key.h"

#include <algorithm>

#include "sheets/listening_sort.h"
#include "sheets/pattern_card.h"
#include "sheets/sound_sort.h"

namespace sheaf {
namespace {

class KeyMaker {
 public:
  explicit KeyMaker(const SheetInput& in)
      : in_(in), key_(notation_key(in.lesson.conventions)) {}

  std::vector<NotationKeyLine> make() {
    const AnalyzedLesson& lesson = in_.lesson;
    for (const auto* words :
         {&lesson.words, &lesson.sort_words, &lesson.dictate_words}) {
      for (const AnalyzedWord& word : *words) add(word.reading);
    }
    for (const auto* sentences :
         {&lesson.sentences, &lesson.dictate_sentences}) {
      for (const AnalyzedSentence& sentence : *sentences) {
        for (const AnalyzedSentence::Part& part : sentence.words) {
          if (part.word.has_pattern()) add(part.word.reading);
        }
      }
    }
    for (const WarmUp::Item& item : lesson.warm_up.to_say) {
      add(item.sound, item.word);
    }
    for (const PlannedSheet& sheet : in_.packet) {
      if (sheet.kind->name == "picture-sort") add_pictures(sheet);
      if (sheet.kind->name == "listening-sort") add_listened(sheet);
    }
    for (const LessonPattern& pattern : lesson.patterns) {
      add_name(pattern);
    }
    for (std::size_t i = 0; i < lesson.patterns.size(); ++i) {
      for (const auto& other : pattern_card(lesson, i).sounds) {
        add_sounds(
            *lesson.phonics->first_reading(other.word, lesson.conventions));
      }
    }
    return std::move(key_);
  }

 private:
  void add(std::span<const Phoneme> sound, const std::string& word) {
    if (word.empty()) return;
    std::string name = sound_name(sound, in_.lesson.conventions);
    const bool known =
        is_plain_consonant(name) ||
        std::ranges::find(key_, name, &NotationKeyLine::sign) != key_.end();
    if (!known) key_.push_back({std::move(name), word});
  }

  void add_sounds(const Reading& reading) {
    for (const Sound& sound : reading.sounds) {
      add(sound.phonemes, reading.word);
    }
  }

  void add(const Reading& reading) {
    add_sounds(reading);
    for (const Unit& unit : reading.units) add(unit.phonemes, reading.word);
  }

  SheetInput input_of(const PlannedSheet& sheet) const {
    return {in_.lesson, sheet.options, in_.pictures,  in_.memory,
            in_.packet, in_.learners,  in_.has_script};
  }

  void add_listened(const PlannedSheet& sheet) {
    for (const SoundSort::Item* item : listening_sort(input_of(sheet)).items) {
      add_sounds(item->reading);
    }
  }

  void add_pictures(const PlannedSheet& sheet) {
    const SheetInput own = input_of(sheet);
    const SoundSort& sort = sound_sort(own, sheet.options.count("pictures"));
    for (const auto* items : {&sort.models, &sort.items}) {
      for (const SoundSort::Item& item : *items) add_sounds(item.reading);
    }
  }

  // "x as /ks/ or /gz/" may name what no word of the packet has.
  void add_name(const LessonPattern& pattern) {
    const Phonics& phonics = *in_.lesson.phonics;
    for (const TaughtUnit& taught : phonics.patterns()[pattern.id].teaches) {
      const auto said =
          phonics.taught_sound(pattern.id, taught, in_.lesson.conventions);
      const std::string name =
          "/" + sound_name(said.phonemes, in_.lesson.conventions) + "/";
      if (pattern.name.find(name) != std::string::npos) {
        add(said.phonemes, said.word);
      }
    }
  }

  const SheetInput& in_;
  std::vector<NotationKeyLine> key_;
};

}  // namespace

std::vector<NotationKeyLine> sound_key(const SheetInput& in) {
  return KeyMaker(in).make();
}

}  // namespace sheaf
