// What was dictated, a tab, and what was written for it. Two bytes come before:
// how much memory there is (see short_memory.h), and how the learner speaks.

#include <algorithm>
#include <array>
#include <memory>

#include "base/utf8.h"
#include "driver/marking_desk.h"
#include "fuzz_checks.h"
#include "ground.h"
#include "marking/score_words.h"
#include "short_memory.h"

namespace {

using sheaf::fuzz::require;

struct Desks {
  sheaf::fuzz::Ground ground;
  std::array<std::unique_ptr<sheaf::MarkingDesk>, 8> desks;

  Desks() {
    constexpr const char* kAccents[] = {"general-american", "british",
                                        "scottish", "australian"};
    for (std::size_t i = 0; i < desks.size(); ++i) {
      sheaf::MarkingRequest request;
      request.accent = kAccents[i % 4];
      if (i >= 4) request.confusions = {"th/f", "e/i"};
      std::vector<std::string> faults;
      desks[i] = std::make_unique<sheaf::MarkingDesk>(ground.workspace, request,
                                                      faults);
      require(faults.empty());
    }
  }
};

void check_attempt(const sheaf::MarkedAttempt& a, std::size_t graphemes) {
  require(graphemes == 0 || a.graphemes.size() == graphemes);
  require(a.sequences.correct >= 0);
  require(a.sequences.correct <= a.sequences.possible);
  require(!(a.right && a.blank) && a.cost >= 0);
  for (const sheaf::MarkedGrapheme& g : a.graphemes) {
    require((g.result == sheaf::GraphemeResult::correct) ==
            (g.cause == sheaf::Cause::none));
  }
  for (const sheaf::ExtraLetter& extra : a.extra) {
    require(extra.before <= a.graphemes.size());
  }
  require(sheaf::labels_text(a).size() + 1 >= 2 * a.graphemes.size());
  sheaf::faults_text(a);
}

void mark(sheaf::MarkingDesk& desk, std::string_view target,
          std::string_view written) {
  const sheaf::MarkingOptions& options = desk.options();
  const sheaf::DictatedItem item = sheaf::dictated_item(target, desk.phonics());
  if (item.words.empty()) return;
  if (item.sentence) {
    const sheaf::MarkedSentence marked =
        sheaf::mark_sentence(desk.spellings(), item.words, written, options);
    require(marked.words.size() == item.words.size());
    for (std::size_t i = 0; i < marked.words.size(); ++i) {
      check_attempt(marked.words[i].attempt, item.words[i].units.size());
    }
    require(marked.sequences.correct <= marked.sequences.possible);
    return;
  }
  const auto readings = desk.phonics().read(
      target, sheaf::conventions_for(options.speech.accent));
  require(!readings.empty());
  const sheaf::MarkedAttempt marked =
      sheaf::mark_attempt(desk.spellings(), readings, written, options);
  check_attempt(marked, 0);
  // The word itself is right, and nothing is wrong in it. What has signs in it
  // that no word has (7up) has no graphemes to be right.
  if (!sheaf::is_word(target)) return;
  const sheaf::MarkedAttempt self =
      sheaf::mark_attempt(desk.spellings(), readings, target, options);
  require(self.right && sheaf::faults_text(self).empty());
  require(self.sequences.correct == self.sequences.possible);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  static auto* const all = new Desks;
  // What is laid against each other grows with both; files hold it back.
  if (size < 2 || size > 400) return 0;
  sheaf::MarkingDesk& desk = *all->desks[data[1] % all->desks.size()];
  const std::string_view line = sheaf::fuzz::text_of(data + 2, size - 2);
  if (sheaf::find_bad_utf8(line)) return 0;
  const std::size_t tab = line.find('\t');
  if (tab == std::string_view::npos) return 0;
  sheaf::fuzz::run_short(data[0], [&] {
    // As from a file: blanks around the word are none of it.
    std::string_view word = line.substr(0, tab);
    word.remove_prefix(std::min(word.find_first_not_of(' '), word.size()));
    word = word.substr(0, word.find_last_not_of(' ') + 1);
    const std::string target = sheaf::normalized(word);
    if (!target.empty()) mark(desk, target, line.substr(tab + 1));
  });
  return 0;
}
