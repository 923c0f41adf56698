#include "driver/speech_of_class.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/nearest.h"
#include "phonics/conventions.h"

namespace sheaf {

namespace {

class SpeechReader {
 public:
  explicit SpeechReader(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  LearnerSpeech read(const LearnerSettings& settings, LearnerSpeech speech) {
    if (settings.accent.given()) read_accent(settings.accent, speech);
    for (const PlacedWord& pair : settings.confuses) {
      if (read_confusion(pair.value, speech)) continue;
      error(pair, "is not two sounds",
            std::string("write them as in `th/f` or `e/i`"));
    }
    for (const PlacedWord& name : settings.speech) {
      if (add_variety(name.value, speech)) continue;
      std::vector<std::string_view> names;
      for (const SpeechVariety& one : speech_varieties()) {
        names.push_back(one.name);
      }
      Help help = did_you_mean(name.value, names, Suggests::fixed_choice);
      if (help.empty()) {
        help = fmt::format(
            "choose from {}, or write two sounds after "
            "`confuses:`",
            fmt::join(names, ", "));
      }
      error(name, "is no way of speaking that Sheaf knows", std::move(help));
    }
    return speech;
  }

 private:
  void read_accent(const PlacedWord& accent, LearnerSpeech& speech) {
    Conventions conventions;
    const auto fault = set_convention(conventions, "accent", accent.value);
    if (!fault) {
      speech.accent = conventions.accent;
    } else if (said_.insert(accent.span.begin).second) {
      diagnostics_.error(diagnostic::unknown_convention, accent.span,
                         as_written_in(fault.text, accent.value), fault.help);
    }
  }

  void error(const PlacedWord& what, std::string_view text, Help help) {
    if (!said_.insert(what.span.begin).second) return;
    diagnostics_.error(diagnostic::wrong_value, what.span,
                       fmt::format("{} {}", as_written(what.value), text),
                       std::move(help));
  }

  Diagnostics& diagnostics_;
  std::set<std::uint32_t> said_;  ///< several learners may have one setting
};

}  // namespace

std::map<LearnerCode, LearnerSpeech> speech_of_class(
    const ClassFile& pupils, const LearnerSpeech& of_all,
    Diagnostics& diagnostics) {
  std::map<LearnerCode, LearnerSpeech> all;
  SpeechReader reader(diagnostics);
  for (const LearnerEntry& learner : pupils.learners) {
    const LearnerSettings settings = settings_for(pupils, learner);
    if (settings.accent.given() || !settings.confuses.empty() ||
        !settings.speech.empty()) {
      all.emplace(learner.code.value, reader.read(settings, of_all));
    }
  }
  return all;
}

}  // namespace sheaf
