// The one file that knows the JSON library.

#include "cli/json.h"

#include <algorithm>

#include "analysis/standing_reports.h"
#include "base/private_text.h"
#include "base/utf8.h"
#include "cli/check_report.h"
#include "cli/long_lists.h"
#include "json/json.h"
#include "marking/score_words.h"
#include "phonics/division.h"
#include "phonics/explain.h"
#include "phonics/notation.h"

namespace sheaf {

namespace {

Json reading_json(const Phonics& phonics, const Reading& reading,
                  const Conventions& conventions) {
  Json j;
  j["word"] = reading.word;
  if (!reading.label.empty()) j["label"] = reading.label;
  Json graphemes = Json::array();
  Json irregular = Json::array();
  for (const Unit& unit : reading.units) {
    graphemes.push_back(unit.grapheme);
    if (unit.irregular) irregular.push_back(unit.grapheme);
  }
  Json sounds = Json::array();
  for (const Sound& sound : reading.sounds) {
    sounds.push_back(sound_name(sound.phonemes, conventions));
  }
  Json patterns = Json::array();
  for (const PatternPlace& place : reading.places) {
    patterns.push_back(phonics.patterns()[place.pattern].id);
  }
  j["graphemes"] = std::move(graphemes);
  j["phonemes"] = ipa_phonemes(reading, conventions);
  j["sounds"] = std::move(sounds);
  j["boxes"] = reading.boxes();
  if (const auto beats = divided_letters(reading, phonics); beats.size() > 1) {
    j["beats"] = beats;
  }
  j["patterns"] = std::move(patterns);
  if (!irregular.empty()) j["irregular"] = std::move(irregular);
  if (reading.origin == Reading::Origin::guess) j["guess"] = true;
  return j;
}

}  // namespace

std::string words_json(const Phonics& phonics,
                       const std::vector<std::vector<Reading>>& words,
                       const Conventions& conventions) {
  Json all = Json::array();
  for (const auto& readings : words) {
    Json first = reading_json(phonics, readings.front(), conventions);
    Json others = Json::array();
    for (std::size_t i = 1; i < readings.size(); ++i) {
      others.push_back(reading_json(phonics, readings[i], conventions));
    }
    if (!others.empty()) first["readings"] = std::move(others);
    all.push_back(std::move(first));
  }
  return all.dump(2, ' ', false, Json::error_handler_t::replace);
}

std::string found_json(std::string_view pattern,
                       const std::vector<FoundJson>& words) {
  Json list = Json::array();
  for (const FoundJson& word : words) {
    Json j;
    j["word"] = word.word;
    if (!word.graphemes.empty()) j["graphemes"] = word.graphemes;
    if (!word.sounds.empty()) j["sounds"] = word.sounds;
    if (!word.graphemes.empty()) j["picture"] = word.picture;
    if (word.exception) j["exception"] = true;
    if (!word.pair.empty()) j["pair"] = word.pair;
    list.push_back(std::move(j));
  }
  Json all;
  all["pattern"] = pattern;
  all["words"] = std::move(list);
  return all.dump(2, ' ', false, Json::error_handler_t::replace);
}

std::string_view readers_name(Readers readers) {
  constexpr std::string_view kNames[] = {"both", "younger", "older"};
  return kNames[static_cast<int>(readers)];
}

namespace {

// What sentences and passages have alike.
template <typename Text>
void add_counts(Json& j, const Text& text) {
  j["readers"] = readers_name(text.readers);
  j["words"] = text.words;
  j["pattern_words"] = text.pattern_words;
  if (!text.not_yet.empty()) j["not_yet"] = text.not_yet;
}

std::string texts_json(const std::vector<std::string>& patterns,
                       std::string_view key, Json list) {
  Json all;
  all["patterns"] = patterns;
  all[key] = std::move(list);
  return all.dump(2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::string sentences_json(const std::vector<std::string>& patterns,
                           const std::vector<FoundSentence>& found) {
  Json list = Json::array();
  for (const FoundSentence& sentence : found) {
    Json j;
    j["text"] = sentence.text;
    j["own"] = sentence.own;
    add_counts(j, sentence);
    list.push_back(std::move(j));
  }
  return texts_json(patterns, "sentences", std::move(list));
}

std::string passages_json(const std::vector<std::string>& patterns,
                          const std::vector<FoundPassage>& found) {
  Json list = Json::array();
  for (const FoundPassage& passage : found) {
    Json j;
    j["title"] = passage.title;
    j["text"] = passage.text;
    j["questions"] = passage.questions;
    add_counts(j, passage);
    list.push_back(std::move(j));
  }
  return texts_json(patterns, "passages", std::move(list));
}

namespace {

Json attempt_json(const AttemptRow& row) {
  const MarkedAttempt& a = row.attempt;
  Json j;
  if (!row.date.empty()) j["date"] = row.date;
  if (!row.lesson.empty()) j["lesson"] = row.lesson;
  if (!row.kind.empty()) j["kind"] = row.kind;
  if (!row.learner.empty()) j["learner"] = row.learner;
  j["target"] = a.target;
  j["written"] = a.written;
  Json graphemes = Json::array();
  for (const MarkedGrapheme& g : a.graphemes) {
    Json one;
    one["grapheme"] = g.grapheme;
    one["written"] = g.written;
    one["right"] = g.result == GraphemeResult::correct;
    one["result"] = result_name(g.result);
    one["cause"] = nullptr;
    if (g.cause != Cause::none) one["cause"] = cause_name(g.cause);
    graphemes.push_back(std::move(one));
  }
  j["graphemes"] = std::move(graphemes);
  j["extra"] = a.extra_letters();
  j["extra_letters"] = Json::array();
  for (const ExtraLetter& extra : a.extra) {
    j["extra_letters"].push_back(
        {{"letter", std::string(1, extra.letter)}, {"before", extra.before}});
  }
  j["letter_sequences"] = a.sequences.correct;
  j["letter_sequences_possible"] = a.sequences.possible;
  j["right"] = a.right;
  if (!row.learner.empty()) {
    j["patterns"] = Json::array();
    for (const AttemptRow::Chance& chance : row.patterns) {
      j["patterns"].push_back(
          {{"pattern", chance.pattern}, {"right", chance.right}});
    }
  }
  return j;
}

}  // namespace

std::string AttemptsJson::add(const AttemptRow& row) {
  std::string text = empty_ ? "{\n  \"attempts\": [\n    " : ",\n    ";
  empty_ = false;
  // As deep as it stands in the whole.
  for (const char c :
       attempt_json(row).dump(2, ' ', false, Json::error_handler_t::replace)) {
    text += c;
    if (c == '\n') text += "    ";
  }
  return text;
}

std::string AttemptsJson::end() const {
  return empty_ ? "{\n  \"attempts\": []\n}" : "\n  ]\n}";
}

namespace {

std::string_view kind_word(NotedWord::Kind kind) {
  switch (kind) {
    case NotedWord::Kind::misspelled:
      return "misspelled";
    case NotedWord::Kind::rare:
      return "rare";
    case NotedWord::Kind::not_known:
      return "not-known";
    case NotedWord::Kind::name:
      return "name";
  }
  return {};
}

std::string_view verdict_word(WritingChance::Verdict verdict) {
  switch (verdict) {
    case WritingChance::Verdict::right:
      return "right";
    case WritingChance::Verdict::wrong:
      return "wrong";
    case WritingChance::Verdict::possible:
      return "possible";
    case WritingChance::Verdict::unsure:
      return "unsure";
  }
  return {};
}

// A word of the text with what is said of it; null where nothing is.
Json text_word_json(const FreeWriting& writing,
                    const PatternCatalogue& catalogue, const SourceFile& file,
                    std::size_t index) {
  const auto noted = std::ranges::find(writing.noted, index, &NotedWord::word);
  const bool is_noted = noted != writing.noted.end();
  Json patterns = Json::array();
  Json meant = Json::array();
  bool any = is_noted;
  for (const WritingChance& chance : writing.chances) {
    if (chance.word != index) continue;
    any = any || chance.verdict != WritingChance::Verdict::right;
    Json one;
    one["pattern"] = catalogue[chance.pattern].id;
    one["meant"] = chance.meant;
    one["result"] = verdict_word(chance.verdict);
    one["cause"] = nullptr;
    if (chance.cause != Cause::none) one["cause"] = cause_name(chance.cause);
    patterns.push_back(std::move(one));
    if (chance.verdict == WritingChance::Verdict::possible && meant.empty()) {
      meant.push_back({{"word", chance.meant}, {"sure", chance.sure}});
    }
  }
  if (!any) return nullptr;
  if (is_noted) {
    for (const NotedWord::Meant& word : noted->meant) {
      meant.push_back({{"word", word.word}, {"sure", word.sure}});
    }
  }
  const TextWord& word = writing.text.words[index];
  const auto place = file.place_of(static_cast<std::uint32_t>(word.begin));
  Json j;
  j["written"] = word.text;
  j["line"] = place.line;
  j["column"] = place.column;
  j["kind"] = is_noted ? kind_word(noted->kind) : "possible";
  j["meant"] = std::move(meant);
  j["patterns"] = std::move(patterns);
  return j;
}

}  // namespace

std::string writing_json(const FreeWriting& writing,
                         const PatternCatalogue& catalogue,
                         const SourceFile& file, std::string_view learner) {
  Json all;
  if (!learner.empty()) all["learner"] = learner;
  all["words"] = writing.text.words.size();
  all["patterns"] = Json::array();
  for (const PatternCount& count : writing.counts) {
    if (count.chances == 0) continue;
    all["patterns"].push_back({{"pattern", catalogue[count.pattern].id},
                               {"right", count.right},
                               {"chances", count.chances}});
  }
  all["noted"] = Json::array();
  for (std::size_t i = 0; i < writing.text.words.size(); ++i) {
    Json word = text_word_json(writing, catalogue, file, i);
    if (!word.is_null()) all["noted"].push_back(std::move(word));
  }
  return all.dump(2, ' ', false, Json::error_handler_t::replace);
}

namespace {

Json position_json(const SourceFile& file, std::uint32_t offset) {
  const int line = file.place_of(offset).line;
  const std::uint32_t begin = file.line_begin(line);
  const std::string_view before =
      std::string_view(file.text()).substr(begin, offset - begin);
  int units = 0;
  for (std::size_t at = 0; at < before.size();) {
    units += next_code_point(before, at) > 0xFFFF ? 2 : 1;
  }
  return {{"line", line}, {"utf8", before.size()}, {"utf16", units}};
}

Json place_json(const Span& span) {
  if (!span) return nullptr;
  Json j;
  j["file"] = span.file->name();
  if (span.is_whole()) return j;
  j["begin"] = position_json(*span.file, span.begin);
  j["end"] = position_json(*span.file, span.end);
  return j;
}

std::string_view severity_word(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      break;
  }
  return "note";
}

Json message_json(const Diagnostic& d) {
  Json j;
  j["name"] = d.name->name;
  j["severity"] = severity_word(d.severity);
  j["text"] = d.text;
  j["help"] = nullptr;
  if (!d.help.empty()) j["help"] = d.help;
  j["place"] = place_json(d.span);
  j["remarks"] = Json::array();
  for (const Remark& remark : d.remarks) {
    j["remarks"].push_back(
        {{"text", remark.text}, {"place", place_json(remark.span)}});
  }
  j["fixes"] = Json::array();
  for (const Fix& fix : d.fixes) {
    // Of a file about learners no more is said here than in the message.
    if (fix.span.file->is_private() && may_be_name(fix.replacement) &&
        d.help.find("`" + fix.replacement + "`") == std::string::npos) {
      continue;
    }
    j["fixes"].push_back({{"place", place_json(fix.span)},
                          {"replacement", fix.replacement},
                          {"label", fix.label},
                          {"certain", fix.certain}});
  }
  return j;
}

Json analyzed_json(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  Json j = reading_json(*lesson.phonics, word.reading, lesson.conventions);
  j["standing"] = nullptr;
  if (!lesson.taught.known()) return j;
  switch (word.standing.kind) {
    case WordStanding::Kind::decodable:
      j["standing"] = "decodable";
      break;
    case WordStanding::Kind::sight_word:
      j["standing"] = "by-sight";
      break;
    case WordStanding::Kind::not_yet:
      j["standing"] = "not-yet";
      j["why"] = why_not_yet(lesson, word);
      break;
  }
  return j;
}

Json analyzed_list(const AnalyzedLesson& lesson,
                   const std::vector<AnalyzedWord>& words, LongLists& lists) {
  LongLists::List list;
  for (const AnalyzedWord& word : words) {
    list.push_back(analyzed_json(lesson, word));
  }
  return lists.sign_for(list.take());
}

Json sentences_json(const AnalyzedLesson& lesson,
                    const std::vector<AnalyzedSentence>& sentences, bool own,
                    LongLists& lists) {
  LongLists::List list;
  for (const AnalyzedSentence& sentence : sentences) {
    Json words = Json::array();
    for (const AnalyzedSentence::Part& part : sentence.words) {
      Json word = analyzed_json(lesson, part.word);
      if (!part.near.empty()) word["near"] = part.near;
      words.push_back(std::move(word));
    }
    list.push_back({{"text", sentence.text.text()},
                    {"place", place_json(sentence.text.span())},
                    {"own", own},
                    {"pattern_words", sentence.pattern_words()},
                    {"words", std::move(words)}});
  }
  return lists.sign_for(list.take());
}

Json lesson_json(const PreparedLesson& prepared, LongLists& lists) {
  const AnalyzedLesson& lesson = prepared.analyzed;
  const OwnTexts own = own_texts(prepared.filled);
  Json j;
  j["code"] = lesson.code;
  j["patterns"] = Json::array();
  for (const LessonPattern& pattern : lesson.patterns) {
    j["patterns"].push_back(lesson.phonics->patterns()[pattern.id].id);
  }
  j["words"] = analyzed_list(lesson, lesson.words, lists);
  j["sentences"] =
      sentences_json(lesson, lesson.sentences, own.sentences, lists);
  if (!lesson.sort_words.empty()) {
    j["sort_words"] = analyzed_list(lesson, lesson.sort_words, lists);
  }
  j["dictate_words"] = analyzed_list(lesson, lesson.dictate_words, lists);
  j["dictate_sentences"] = sentences_json(lesson, lesson.dictate_sentences,
                                          own.dictate_sentences, lists);
  if (!lesson.passage.empty()) {
    j["passage"] = {
        {"title", lesson.passage.title.text()},
        {"paragraphs",
         sentences_json(lesson, lesson.passage.paragraphs, own.passage, lists)},
        {"questions",
         sentences_json(lesson, lesson.passage.questions, own.passage, lists)}};
  }
  j["readable"] = nullptr;
  const WordShare share = word_share(lesson);
  if (share.all() > 0) {
    j["readable"] = {{"percent", share.percent()},
                     {"decodable", share.decodable},
                     {"by_sight", share.sight},
                     {"not_yet", share.not_yet}};
  }
  return j;
}

Json sentence_report_json(const SentenceReport& report) {
  Json rows = Json::array();
  for (const SentenceReport::Row& row : report.rows) {
    Json j = {{"pattern", row.pattern},
              {"sentences", row.having},
              {"step", nullptr},
              {"readable", nullptr}};
    if (row.step >= 0) {
      j["step"] = report.steps[static_cast<std::size_t>(row.step)].number;
      j["readable"] = row.readable;
    }
    rows.push_back(std::move(j));
  }
  return {{"count", report.sentences},
          {"long", report.long_ones},
          {"patterns", std::move(rows)}};
}

}  // namespace

std::string check_json(std::string_view path, const CheckedFile& checked) {
  LongLists lists;
  Json j;
  // The name of a file may have any sign in it.
  j["file"] = lists.sign_for(as_one_line(Json(path)));
  j["good"] = checked.good();
  LongLists::List messages;
  for (const Diagnostic* d : checked.diagnostics.sorted()) {
    messages.push_back(message_json(*d));
  }
  j["messages"] = lists.sign_for(messages.take());
  j["lesson"] = nullptr;
  if (checked.lesson) j["lesson"] = lesson_json(*checked.lesson, lists);
  j["sentences"] = nullptr;
  if (!checked.records.empty()) {
    j["records"] = Json::array();
    for (const RecordReport& record : checked.records) {
      j["records"].push_back({{"date", date_text(record.date)},
                              {"lesson", record.lesson},
                              {"kind", kind_name(record.kind)},
                              {"marked", record.marked},
                              {"absent", record.absent},
                              {"words_wrong", record.errors}});
    }
  }
  if (checked.sentences) {
    j["sentences"] = sentence_report_json(*checked.sentences);
  }
  return lists.printed(j);
}

}  // namespace sheaf
