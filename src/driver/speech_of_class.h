#pragma once

#include <map>

#include "base/diagnostics.h"
#include "input/class_file.h"
#include "input/learner_code.h"
#include "marking/learner_speech.h"

namespace sheaf {

/// How those learners of a class speak of whom it says so, on top of what holds
/// for all: `accent:` takes the place of the accent, `confuses:` and `speech:`
/// are added. Reports what is no accent, no two sounds and no way of speaking,
/// each place once.
std::map<LearnerCode, LearnerSpeech> speech_of_class(
    const ClassFile& pupils, const LearnerSpeech& of_all,
    Diagnostics& diagnostics);

}  // namespace sheaf
