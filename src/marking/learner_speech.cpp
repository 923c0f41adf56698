#include "marking/learner_speech.h"

#include <algorithm>

#include "marking/tables.h"
#include "phonics/notation.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

using P = Phoneme;
using Where = SoundConfusion::Where;

P voiced_twin(P sound) {
  switch (sound) {
    case P::f:
      return P::v;
    case P::s:
      return P::z;
    case P::t:
      return P::d;
    default:
      return sound;
  }
}

std::vector<SpeechVariety> read_varieties() {
  std::vector<SpeechVariety> all;
  for (const TableRow& row : table_rows(speech_varieties_table())) {
    if (row.cell(0) == "name") continue;
    all.push_back(
        {row.cell(0), row.cell(1), row.cell(2), row.cell(3), row.cell(4)});
  }
  return all;
}

// What a word of a rule does by itself, other than pairs of sounds and the
// names of other rows.
bool set_unheard(std::string_view word, LearnerSpeech& speech) {
  if (word == "cluster") return speech.no_cluster_end = true;
  if (word == "ed") return speech.no_ed = true;
  if (word == "s") return speech.no_s = true;
  if (word == "h") return speech.no_h = true;
  if (word == "before-s") return speech.vowel_before_s = true;
  return false;
}

// Where the pairs that stand right before it hold.
bool read_where(std::string_view word, Where& where) {
  if (word == "start") return (where = Where::start, true);
  if (word == "end") return (where = Where::end, true);
  if (word == "nasal") return (where = Where::before_nasal, true);
  return false;
}

const SpeechVariety* find_variety(std::string_view name) {
  const auto all = speech_varieties();
  const auto found = std::ranges::find(all, name, &SpeechVariety::name);
  return found == all.end() ? nullptr : &*found;
}

void add_rule(const SpeechVariety& variety, int depth, LearnerSpeech& speech) {
  std::size_t pairs = speech.confusions.size();
  for (const std::string_view word : split_at(variety.rule, ' ')) {
    Where where = Where::anywhere;
    if (read_where(word, where)) {
      for (; pairs < speech.confusions.size(); ++pairs) {
        speech.confusions[pairs].where = where;
      }
    } else if (word.find('/') != std::string_view::npos) {
      read_confusion(word, speech);
    } else if (const SpeechVariety* other = find_variety(word);
               other != nullptr && other != &variety && depth > 0) {
      add_rule(*other, depth - 1, speech);
      pairs = speech.confusions.size();
    } else {
      set_unheard(word, speech);
    }
  }
}

}  // namespace

bool read_confusion(std::string_view written, LearnerSpeech& speech) {
  const auto stroke = written.find('/', 1);
  if (stroke == std::string_view::npos) return false;
  const auto one = read_sound(written.substr(0, stroke));
  const auto other = read_sound(written.substr(stroke + 1));
  if (!one || !other || one->size() != 1 || other->size() != 1) return false;
  const P a = one->front(), b = other->front();
  speech.confusions.push_back({a, b});
  // The spelling th has a voiced sound too: fink, and muvver, and wif.
  const auto add_voiced = [&](P th, P sound) {
    if (th != P::th) return;
    speech.confusions.push_back({P::dh, sound});
    if (const P voiced = voiced_twin(sound); voiced != sound) {
      speech.confusions.push_back({P::dh, voiced});
    }
  };
  add_voiced(a, b);
  add_voiced(b, a);
  return true;
}

std::span<const SpeechVariety> speech_varieties() {
  static const std::vector<SpeechVariety> all = read_varieties();
  return all;
}

bool add_variety(std::string_view name, LearnerSpeech& speech) {
  const SpeechVariety* variety = find_variety(name);
  if (variety == nullptr) return false;
  // Rows are made up of single rules, not of rows that are made up themselves.
  add_rule(*variety, 1, speech);
  return true;
}

}  // namespace sheaf
