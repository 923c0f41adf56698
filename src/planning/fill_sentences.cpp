#include "planning/fill_sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "base/utf8.h"
#include "planning/sentence_search.h"

namespace sheaf {

namespace {

constexpr int kUsualSentences = 6;
constexpr int kUsualToWrite = 3;
constexpr int kWeeksUntilUsedAgain = 4;
// Of so many words in a sentence that is dictated, as many as a memory holds.
constexpr int kMostToWrite = 9;

// Passages for the first weeks are short.
constexpr int kFirstWeeks = 20;
constexpr Range kShortPassage = {20, 70};
constexpr Range kUsualPassage = {35, 180};
constexpr Range kAnyLength = {1, 1000};
constexpr std::size_t kAllPassages = 1000;

Range words_near(int wanted) { return {wanted / 2, wanted * 2}; }

class SentenceFiller {
 public:
  SentenceFiller(Lesson& lesson, const SearchGround& source,
                 const std::vector<PatternId>& patterns, bool of_itself,
                 Diagnostics& diagnostics)
      : lesson_(lesson),
        source_(source),
        patterns_(patterns),
        of_itself_(of_itself),
        diagnostics_(diagnostics) {}

  std::vector<FilledKey> run() {
    const int to_read =
        wanted(lesson_.sentences, lesson_.sentence_count, kUsualSentences);
    const int to_write = wanted(lesson_.dictate_sentences,
                                lesson_.dictate_sentence_count, kUsualToWrite);
    const bool passage = wants_passage();
    if (to_read == 0 && to_write == 0 && !passage) return {};
    note_used();
    if (passage) add_passage();
    add("sentences", to_read, false, lesson_.sentence_count, lesson_.sentences);
    add("dictate-sentences", to_write, true, lesson_.dictate_sentence_count,
        lesson_.dictate_sentences);
    return std::move(filled_);
  }

 private:
  int wanted(const std::vector<LessonLine>& there, const Spanned<int>& count,
             int usual) const {
    if (!there.empty()) return 0;
    if (count.given()) return count.value;
    return of_itself_ ? usual : 0;
  }

  bool wants_passage() const {
    const LessonPassage& passage = lesson_.passage;
    if (!passage.paragraphs.empty() || passage.title.span()) return false;
    return passage.words.given() ? passage.words.value > 0 : of_itself_;
  }

  Span place(const Spanned<int>& count) const {
    return count.given() ? count.span : lesson_.patterns.front().span;
  }

  void use(const std::vector<LessonLine>& lines) {
    for (const LessonLine& line : lines)
      used_.insert(sentence_key(line.text()));
  }

  // What the lesson has, what a lesson of each of the weeks before was given,
  // and the sets of this pattern before this one. What was chosen weeks ago
  // depends on the weeks before it, so the search begins as many weeks earlier.
  void note_used() {
    use(lesson_.sentences);
    use(lesson_.dictate_sentences);
    const int step = source_.taught.step();
    std::vector<std::vector<std::string>> weeks;
    for (int week = std::max(0, step - 2 * kWeeksUntilUsedAgain); week < step;
         ++week) {
      const auto& taught = source_.taught.patterns_of(week);
      std::set<std::string, std::less<>> before;
      const std::size_t recent = weeks.size() < kWeeksUntilUsedAgain
                                     ? 0
                                     : weeks.size() - kWeeksUntilUsedAgain;
      for (std::size_t i = recent; i < weeks.size(); ++i) {
        before.insert(weeks[i].begin(), weeks[i].end());
      }
      weeks.push_back(taught.empty() ? std::vector<std::string>()
                                     : usual_of(week, taught, before));
    }
    const std::size_t recent = weeks.size() < kWeeksUntilUsedAgain
                                   ? 0
                                   : weeks.size() - kWeeksUntilUsedAgain;
    for (std::size_t i = recent; i < weeks.size(); ++i) {
      used_.insert(weeks[i].begin(), weeks[i].end());
    }
    for (int set = 1; set < lesson_.set.value; ++set) {
      for (const bool to_write : {false, true}) {
        const auto keys = usual_set(source_, patterns_, used_, to_write);
        used_.insert(keys.begin(), keys.end());
      }
    }
  }

  // What a lesson of a week before was given, had it left all to Sheaf.
  std::vector<std::string> usual_of(
      int week, const std::vector<PatternId>& patterns,
      const std::set<std::string, std::less<>>& before) const {
    const Taught taught = source_.taught.before(week);
    const SearchGround then{
        source_.phonics, source_.conventions, taught,
        source_.blocked, source_.has_picture, source_.own_sentences};
    return usual_set(then, patterns, before);
  }

  static std::vector<std::string> usual_set(
      const SearchGround& ground, const std::vector<PatternId>& patterns,
      const std::set<std::string, std::less<>>& before, bool to_write = false) {
    SentenceQuery query;
    query.patterns = patterns;
    query.to_write = to_write;
    if (to_write) query.words.most = kMostToWrite;
    query.count = kUsualSentences + kUsualToWrite;
    query.leave_out = before;
    std::vector<std::string> keys;
    for (const FoundSentence& found : find_sentences(ground, query)) {
      keys.push_back(sentence_key(found.text));
    }
    return keys;
  }

  std::vector<FoundSentence> search(int count, bool to_write, bool practised) {
    if (count <= 0) return {};
    SentenceQuery query;
    query.patterns = patterns_;
    query.count = static_cast<std::size_t>(count);
    query.to_write = to_write;
    if (to_write) query.words.most = kMostToWrite;
    if (practised) {
      for (const LessonWord& word : lesson_.words) {
        query.practised.insert(lower_case(word.spelling.value));
      }
    }
    query.leave_out = used_;
    auto found = find_sentences(source_, query);
    for (const FoundSentence& sentence : found) {
      used_.insert(sentence_key(sentence.text));
    }
    return found;
  }

  void add(std::string_view key, int count, bool to_write,
           const Spanned<int>& asked, std::vector<LessonLine>& lines) {
    if (count == 0) return;
    // To write: words that were practised and, in the last third, others.
    const int fresh = to_write ? count / 3 : 0;
    auto found = search(count - fresh, to_write, true);
    for (FoundSentence& more : search(fresh, to_write, false)) {
      found.push_back(std::move(more));
    }
    if (asked.given() && static_cast<int>(found.size()) < count) {
      diagnostics_.warning(
          diagnostic::not_enough_sentences, asked.span,
          fmt::format(
              "Sheaf found {} of the {} it was to choose",
              found.empty() ? "none" : fmt::format("only {}", found.size()),
              count == 1 ? "sentence" : fmt::format("{} sentences", count)),
          fmt::format(
              "write some of your own; `sheaf find {} --sentences` says what "
              "is "
              "missing for others{}",
              source_.phonics.patterns()[patterns_.front()].id,
              source_.taught.known() && source_.taught.sight_words().empty()
                  ? ", and small words such as `the` count only if they stand "
                    "under `sight-words:`"
                  : ""));
    }
    if (found.empty()) return;
    FilledKey& filled = filled_.emplace_back();
    filled.key = key;
    const auto own = std::ranges::count_if(found, &FoundSentence::own);
    for (const FoundSentence& sentence : found) {
      filled.words.push_back(sentence.text);
      lines.push_back(PlacedText::chosen(sentence.text, place(asked)));
    }
    diagnostics_.note(
        diagnostic::sentences_chosen, place(asked),
        fmt::format("the lesson has no `{}`, so Sheaf chose {}{}", key,
                    found.size(),
                    own == 0 ? "" : fmt::format(", {} of them your own", own)),
        "`sheaf check` shows them ready to paste; read them before you print");
  }

  // One of another length than was asked for, which is said; none where the
  // bank has none at all for the step.
  std::vector<FoundPassage> nearest_passage(SentenceQuery query,
                                            const Spanned<int>& asked) {
    query.words = kAnyLength;
    query.count = kAllPassages;
    auto all = find_passages(source_, query);
    std::ranges::stable_sort(all, {}, [&](const FoundPassage& found) {
      return std::abs(found.words - asked.value);
    });
    const auto set = static_cast<std::size_t>(lesson_.set.value);
    if (all.size() < set) {
      diagnostics_.warning(
          diagnostic::not_enough_sentences, asked.span,
          all.empty()
              ? std::string(
                    "Sheaf has no passage that can be read at this step")
              : fmt::format("Sheaf has only {} passages for this step, and set "
                            "{} is to have others",
                            all.size(), set),
          "write one of your own under `passage: |`");
      return {};
    }
    all.resize(set);
    diagnostics_.warning(
        diagnostic::not_enough_sentences, asked.span,
        fmt::format("Sheaf has no passage of about {} words for this step, so "
                    "it took one of {}",
                    asked.value, all.back().words),
        "write one of your own under `passage: |` if that is not the length "
        "for your group");
    return all;
  }

  void add_passage() {
    SentenceQuery query;
    query.patterns = patterns_;
    query.count = static_cast<std::size_t>(lesson_.set.value);
    const Spanned<int>& asked = lesson_.passage.words;
    const int step = source_.taught.step();
    query.words = asked.given()                     ? words_near(asked.value)
                  : step >= 0 && step < kFirstWeeks ? kShortPassage
                                                    : kUsualPassage;
    auto all = find_passages(source_, query);
    if (all.size() < query.count && asked.given()) {
      all = nearest_passage(query, asked);
    }
    if (all.empty() || (!asked.given() && all.size() < query.count)) return;
    const FoundPassage& found = all.back();
    LessonPassage& passage = lesson_.passage;
    const Span span = place(asked);
    FilledKey& filled = filled_.emplace_back();
    filled.key = "passage";
    passage.title = PlacedText::chosen(found.title, span);
    filled.words.push_back(found.title);
    for (std::size_t begin = 0; begin < found.text.size();) {
      const std::size_t end =
          std::min(found.text.find('\n', begin), found.text.size());
      passage.paragraphs.push_back(
          PlacedText::chosen(found.text.substr(begin, end - begin), span));
      filled.words.push_back(passage.paragraphs.back().text());
      begin = end + 1;
    }
    for (const std::string& question : found.questions) {
      passage.questions.push_back(PlacedText::chosen(question, span));
      filled.words.push_back(question);
    }
    diagnostics_.note(
        diagnostic::sentences_chosen, span,
        fmt::format("the lesson has no `passage`, so Sheaf chose “{}” ({} "
                    "words)",
                    found.title, found.words),
        "`sheaf check` shows it ready to paste; read it before you print");
  }

  Lesson& lesson_;
  const SearchGround& source_;
  const std::vector<PatternId>& patterns_;
  bool of_itself_;
  Diagnostics& diagnostics_;
  std::set<std::string, std::less<>> used_;
  std::vector<FilledKey> filled_;
};

}  // namespace

std::vector<FilledKey> fill_sentences(Lesson& lesson,
                                      const SearchGround& source,
                                      const std::vector<PatternId>& patterns,
                                      bool of_itself,
                                      Diagnostics& diagnostics) {
  return SentenceFiller(lesson, source, patterns, of_itself, diagnostics).run();
}

}  // namespace sheaf
