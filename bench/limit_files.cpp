#include "limit_files.h"

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace sheaf::bench {

namespace {

namespace fs = std::filesystem;

// The limits that src states; a run that crosses one fails, which shows.
constexpr int kWords = 2000;       // words.h
constexpr int kLines = 150;        // lines.cpp
constexpr int kLineLength = 500;   // characters of one
constexpr int kSteps = 200;        // sequence.cpp
constexpr int kLearners = 100;     // class_file.cpp
constexpr int kReviewWords = 100;  // of a learner
// As many as are marked at once (marking_desk.cpp), of the 500 of a file.
constexpr int kRecords = 165;
constexpr int kSentences = 10'000;  // sentence_file.h
constexpr int kTextWords = 2500;    // writing.cpp
constexpr int kSheets = 200;        // layout_file.cpp
constexpr std::size_t kBlocked = 20'000;
constexpr std::size_t kPairs = std::size_t{512} << 10U;  // mark.cpp

std::string read(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

// The words of a list, its remarks left out.
std::vector<std::string> words_of(const fs::path& path) {
  std::istringstream lines(read(path));
  std::vector<std::string> words;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with('#')) continue;
    std::istringstream parts(line);
    for (std::string word; parts >> word;) words.push_back(word);
  }
  return words;
}

class Writer {
 public:
  Writer(fs::path folder, const fs::path& data) : folder_(std::move(folder)) {
    // Some that have the lessons' pattern come first.
    words_ = {"ship", "shed", "fish",  "dish",  "brush", "shop",
              "wish", "rush", "shell", "shelf", "crash", "flash"};
    for (const char* list : {"first_words.txt", "everyday_words.txt"}) {
      for (std::string& word : words_of(data / list)) {
        if (word.find('-') == std::string::npos) words_.push_back(word);
      }
    }
    // No word twice.
    std::vector<std::string> once;
    for (const std::string& word : words_) {
      bool there = false;
      for (const std::string& known : once) there = there || known == word;
      if (!there) once.push_back(word);
    }
    words_ = std::move(once);
  }

  void write() {
    // Without sheets that want all words in one part of a page.
    put("lesson.yaml", "layout: long.yaml\n" + lesson(kWords, kLines));
    put("long.yaml",
        "sheets: [blending, sound-boxes, word-cards, sentences, "
        "rereading, passage, trace, dictation, script, "
        "answer-key]\n");
    put("week.yaml", lesson(12, 6));
    put("many-sheets.yaml", "layout: many.yaml\n" + lesson(40, 30));
    put("many.yaml", layout());
    put("sequence.yaml", sequence(kSteps));
    put("class.yaml", pupils("week.yaml"));
    put("more/long.yaml", read(folder_ / "long.yaml"));
    put("more/large.yaml", "layout: long.yaml\n" + lesson(150, 40));
    put("more/large-class.yaml", pupils("large.yaml"));
    put("two-learners.yaml", "lesson: lesson.yaml\nlearners: L1, L2\n");
    put("more/dense.yaml", "layout: long.yaml\n" + dense());
    put("layouts/many.yaml", "# two hundred sheets\n" + layout());
    put("more/many-sentences.yaml",
        "layout: many-long.yaml\n" + lesson(40, 60));
    put("more/many-long.yaml", layout("passage", "passage"));
    put("more/many-passages.yaml",
        "layout: passages.yaml\n" + lesson(kWords, kLines));
    put("more/passages.yaml",
        "sheets: [passage, passage, passage, passage, passage, passage, "
        "passage, passage, passage, passage, passage, passage]\n");
    put("blocked-words.txt", blocked());
    put("big-class.yaml", pupils("lesson.yaml"));
    put("records/records.yaml", records(kRecords));
    put("sentences.txt", sentences());
    put("journal.txt", journal());
    put("pairs.txt", pairs());
  }

 private:
  void put(const std::string& name, const std::string& text) const {
    const fs::path path = folder_ / name;
    fs::create_directories(path.parent_path());
    std::ofstream file(path, std::ios::binary);
    file << text;
    if (!file.flush()) throw std::runtime_error("cannot write " + name);
  }

  const std::string& word(std::size_t number) const {
    return words_[number % words_.size()];
  }
  std::string list(int count) const {
    std::string all;
    for (int i = 0; i < count && i < static_cast<int>(words_.size()); ++i) {
      all += " " + word(static_cast<std::size_t>(i));
    }
    return all;
  }
  // A sentence of about so many characters.
  std::string sentence(std::size_t seed, int length) const {
    std::string text = "The";
    for (std::size_t i = seed * 7;; i += 13) {
      const std::string& next = word(i);
      if (static_cast<int>(text.size() + next.size()) + 2 > length) break;
      text += " " + next;
    }
    return text + ".";
  }
  std::string lines(int count, int length) const {
    std::string all = "\n";
    for (int i = 0; i < count; ++i) {
      all += "  - " + sentence(static_cast<std::size_t>(i), length) + "\n";
    }
    return all;
  }

  std::string lesson(int words, int count) const {
    const int length = count == kLines ? kLineLength : 60;
    return "pattern: sh\nwords:" + list(words) +
           "\ndictate-words:" + list(words) + "\nsight-words:" + list(words) +
           "\nsentences:" + lines(count, length) +
           "dictate-sentences:" + lines(count, length) +
           "passage:\n  text: |\n    " + passage(count, length) + "\n";
  }
  std::string passage(int count, int length) const {
    std::string text;
    for (int i = 0; i < count; ++i) {
      text += (i > 0 ? "\n\n    " : "") +
              sentence(static_cast<std::size_t>(i) + 3, length);
    }
    return text;
  }

  // Words as short as words can be.
  std::string dense() const {
    std::string line = "I";
    while (static_cast<int>(line.size()) < kLineLength - 70) line += " a";
    std::string text = "pattern: sh\nwords:" + list(kWords) + "\n";
    for (const char* key : {"sentences", "dictate-sentences"}) {
      text += std::string(key) + ":\n";
      for (int i = 0; i < kLines; ++i) {
        text += "  - " + word(static_cast<std::size_t>(i)) + " " + line + ".\n";
      }
    }
    text += "passage:\n  text: |\n";
    for (int i = 0; i < kLines; ++i) text += "    " + line + ".\n\n";
    return text;
  }

  std::string blocked() const {
    std::string text;
    for (std::size_t i = 0; i < kBlocked; ++i) text += word(i) + "x\n";
    return text;
  }

  static std::string layout(const std::string& first = "sound-boxes",
                            const std::string& second = "word-cards") {
    std::string text = "paper: letter\nsheets:\n";
    for (int i = 0; i < kSheets; ++i) {
      text += "  - " + (i % 2 == 0 ? first : second) + "\n";
    }
    return text;
  }

  std::string sequence(int steps) const {
    static const std::vector<std::string> kPatterns = {
        "short a", "short i", "short o", "short u", "short e", "sh",
        "ch",      "ck",      "ng",      "ee",      "ai",      "oa"};
    std::string text = "steps:\n";
    for (int i = 0; i < steps; ++i) {
      const auto at = static_cast<std::size_t>(i);
      text += "  - {name: week " + std::string(1, 'a' + char(i % 26)) +
              std::to_string(i) +
              ", patterns: " + kPatterns[at % kPatterns.size()] +
              ", sight-words: " + word(at * 3) + " " + word(at * 3 + 1) + "}\n";
    }
    return text;
  }

  std::string pupils(const std::string& lesson) const {
    std::string text = "lesson: " + lesson + "\nlearners:\n";
    for (int i = 0; i < kLearners; ++i) {
      text += "  L" + std::to_string(i) + ":\n    review-words:";
      for (int w = 0; w < kReviewWords; ++w) {
        text += " " + word(static_cast<std::size_t>(i * 31 + w));
      }
      text += "\n";
    }
    return text;
  }

  std::string records(int count) const {
    std::string text = "lesson: week.yaml\nclass: class.yaml\nrecords:\n";
    for (int i = 0; i < count; ++i) {
      const int day = i % 28 + 1, month = i / 28 % 12 + 1,
                year = 2026 + i / 336;
      text += "  - date: " + std::to_string(year) + "-" +
              (month < 10 ? "0" : "") + std::to_string(month) + "-" +
              (day < 10 ? "0" : "") + std::to_string(day) +
              "\n    marked: all\n    wrong:\n";
      for (int learner = 0; learner < 6; ++learner) {
        const int number = (i + learner) % kLearners;
        text += "      L" + std::to_string(number) + ": {";
        for (std::size_t w = 0; w < 6; ++w) {
          std::string attempt = word(w);
          attempt.erase(attempt.size() / 2, 1);
          text += (w > 0 ? ", " : "") + word(w) + ": " + attempt + "x";
        }
        text += "}\n";
      }
    }
    return text;
  }

  std::string sentences() const {
    std::string text;
    for (int i = 0; i < kSentences; ++i) {
      text += sentence(static_cast<std::size_t>(i), 90) + "\n";
    }
    return text;
  }

  // Half of its words are misspelled.
  std::string journal() const {
    std::string text;
    for (int i = 0; i < kTextWords; ++i) {
      std::string next = word(static_cast<std::size_t>(i) * 17);
      if (i % 2 == 0) {
        next.insert(next.size() / 2, 1, static_cast<char>('a' + i % 26));
      }
      text += next + (i % 10 == 9 ? ".\n" : " ");
    }
    return text;
  }

  std::string pairs() const {
    std::string text;
    for (std::size_t i = 0; text.size() < kPairs - 100; ++i) {
      std::string attempt = word(i);
      attempt.erase(attempt.size() / 2, 1);
      text += word(i) + "\t" + attempt + "\n";
    }
    return text;
  }

  fs::path folder_;
  std::vector<std::string> words_;
};

}  // namespace

void write_limit_files(const std::string& folder, const std::string& data) {
  Writer(folder, data).write();
}

}  // namespace sheaf::bench
