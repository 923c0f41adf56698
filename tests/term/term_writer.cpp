// Writes the invented term: 18 learners in four groups over twelve weeks, their
// lessons, their class and what they wrote. Every choice comes from a seed, so
// the same program writes the same term; `make term-test` compares it with the
// one that lies here.
//
//     term_writer WORDS FOLDER [SEED]
//
// In the term: A5 comes new in week 5; B1 moves from red to blue after week 6;
// learners are away now and then; codes are written small in some records; one
// word of a lesson is known by sight; green and gold have lessons of the same
// file names. Every week has a dictation of words and two sentences; three
// times there is a check of earlier patterns, once a count from a journal.

#include <array>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

using Words = std::vector<std::string>;

constexpr int kWeeks = 12;
constexpr std::uint64_t kSeed = 20260911;

// Steele, Lea and Flood 2014: SplitMix.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  double next() {
    state_ += 0x9e3779b97f4a7c15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    z ^= z >> 31U;
    return static_cast<double>(z >> 11U) * 0x1.0p-53;
  }

 private:
  std::uint64_t state_;
};

// Week 1 is 2026-09-11, a Friday; `more` are days after that week's Friday.
std::string date_of(int week, int more = 0) {
  constexpr std::array kDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int month = 9, day = 11 + 7 * (week - 1) + more;
  while (day > kDays[static_cast<std::size_t>(month - 1)]) {
    day -= kDays[static_cast<std::size_t>(month - 1)];
    ++month;
  }
  std::string text = "2026-";
  text += month < 10 ? "0" : "";
  text += std::to_string(month) + "-" + (day < 10 ? "0" : "");
  return text + std::to_string(day);
}

struct Group {
  std::string name;
  std::string file;  // what its lessons are called
  Words learners;
  Words patterns;  // by week; one that was taught before is practised again
};

std::vector<Group> groups() {
  return {{"red",
           "red",
           {"A1", "A2", "A3", "A4", "A5"},
           {"sh", "ch", "ck", "ng", "nk", "qu", "ee", "ai", "ay", "oa", "ar",
            "igh"}},
          {"blue",
           "blue",
           {"B1", "B2", "B3", "B4", "B5"},
           {"ck", "ng", "nk", "ee", "ai", "ay", "oa", "ar", "ck", "igh", "ee",
            "ai"}},
          {"green",
           "week",
           {"C1", "C2", "C3", "C4"},
           {"ee", "ai", "oa", "ar", "ee", "igh", "ay", "ai", "oa", "ar", "qu",
            "igh"}},
          {"gold",
           "week",
           {"D1", "D2", "D3", "D4"},
           {"sh", "ng", "sh", "nk", "ch", "sh", "ng", "qu", "ch", "nk", "sh",
            "ck"}}};
}

std::string two_digits(int number) {
  return (number < 10 ? "0" : "") + std::to_string(number);
}

std::string joined(const Words& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : " ") + word;
  return text;
}

// The words of a pattern one after the other, each once, then again.
class Pool {
 public:
  explicit Pool(const std::string& path) {
    std::ifstream in(path);
    for (std::string line; std::getline(in, line);) {
      if (line.empty() || line[0] == '#') continue;
      std::istringstream parts(line);
      std::string pattern;
      parts >> pattern;
      for (std::string word; parts >> word;) words_[pattern].push_back(word);
    }
  }
  std::string next(const std::string& pattern) {
    const Words& words = words_.at(pattern);
    return words[used_[pattern]++ % words.size()];
  }
  const Words& of(const std::string& pattern) const {
    return words_.at(pattern);
  }

 private:
  std::map<std::string, Words> words_;
  std::map<std::string, std::size_t> used_;
};

struct Item {
  std::string text;     // a word or a sentence
  std::string word;     // the word that may be missed
  std::string pattern;  // of that word
};

// How well a learner has a pattern, in weeks since teaching.
double chance(const std::string& learner, int weeks) {
  const int number = learner[1] - '0';
  if (number == 1) return 0.98;                    // has it
  if (number == 2) return weeks < 2 ? 0.6 : 0.97;  // learns it
  if (number == 3) return weeks < 8 ? 0.98 : 0.4;  // forgets it
  if (number == 4) return 0.8;                     // in between
  return 0.9;
}

// The pattern written otherwise, or another letter of the word; never both.
std::string missed(const Item& item, bool in_pattern) {
  static const std::map<std::string, std::string> kWrong = {
      {"sh", "s"}, {"ch", "c"}, {"ck", "k"},  {"ng", "n"},
      {"nk", "k"}, {"qu", "k"}, {"ee", "e"},  {"ai", "a"},
      {"ay", "a"}, {"oa", "o"}, {"igh", "i"}, {"ar", "a"}};
  std::string text = item.word;
  const std::size_t at = text.find(item.pattern);
  if (in_pattern) {
    return text.replace(at, item.pattern.size(), kWrong.at(item.pattern));
  }
  static const std::map<char, char> kOther = {
      {'a', 'e'}, {'e', 'a'}, {'i', 'o'}, {'o', 'u'}, {'u', 'i'},
      {'b', 'd'}, {'d', 'b'}, {'p', 't'}, {'t', 'p'}, {'m', 'n'},
      {'n', 'm'}, {'l', 'r'}, {'r', 'l'}, {'s', 'f'}, {'f', 's'}};
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i >= at && i < at + item.pattern.size()) continue;
    const auto other = kOther.find(text[i]);
    if (other == kOther.end()) continue;
    text[i] = other->second;
    return text;
  }
  return "";
}

class Writer {
 public:
  Writer(const std::string& words, std::filesystem::path folder, int seed)
      : words_(words), folder_(std::move(folder)), seed_(seed) {}

  void write() {
    write_class();
    int group_number = 0;
    for (const Group& group : groups()) {
      Dice dice(kSeed +
                static_cast<std::uint64_t>(1000 * seed_ + ++group_number));
      write_group(group, dice);
    }
  }

 private:
  void write_class() {
    std::string text =
        "# The invented term at its end.\ntitle: Invented term\ngroups:\n";
    for (const Group& group : groups()) text += "  " + group.name + ": {}\n";
    text += "learners:\n";
    for (const Group& group : groups()) {
      for (const std::string& learner : group.learners) {
        text += "  " + learner + ": {group: " + group.name;
        if (learner == "A5") text += ", from: " + date_of(5);
        text += "}\n";
      }
    }
    save("class.yaml", text);
  }

  // Who is in a group in a week.
  static Words learners_in(const Group& group, int week) {
    Words all;
    for (const std::string& learner : group.learners) {
      if (learner == "A5" && week < 5) continue;
      if (learner == "B1" && week <= 6) continue;
      all.push_back(learner);
    }
    if (group.name == "red" && week <= 6) all.push_back("B1");
    return all;
  }

  void write_group(const Group& group, Dice& dice) {
    Pool pool(words_);
    std::string records =
        "# What the group " + group.name +
        " wrote; errors alone.\nclass: class.yaml\nmarked: all\nrecords:\n";
    std::map<std::string, int> taught;  // the week, by pattern
    Words order;
    for (int week = 1; week <= kWeeks; ++week) {
      const std::string& pattern =
          group.patterns[static_cast<std::size_t>(week - 1)];
      if (taught.emplace(pattern, week).second) order.push_back(pattern);
      const std::vector<Item> items =
          write_lesson(group, week, pattern, order, pool);
      records += record(group, week, 0, lesson_name(group, week), "dictation",
                        items, taught, dice);
      if (week % 4 == 0) {
        const std::vector<Item> checked = write_check(group, week, order, pool);
        records += record(group, week, 3, check_name(group, week), "retention",
                          checked, taught, dice);
      }
      if (group.name == "blue" && week == 6) {
        records += "  - date: " + date_of(week, 2) +
                   "\n    lesson: " + lesson_name(group, week) +
                   "\n    kind: writing\n    writing:\n"
                   "      B2: {ck: 3/4, ai: 2/2}\n      B4: {ng: 1/3}\n";
      }
    }
    save("records/" + group.name + ".yaml", records);
  }

  static std::string lesson_name(const Group& group, int week) {
    return group.name + "/" + group.file + "-" + two_digits(week) + ".yaml";
  }
  static std::string check_name(const Group& group, int week) {
    return group.name + "/check-" + group.name + "-" + two_digits(week) +
           ".yaml";
  }

  std::vector<Item> write_lesson(const Group& group, int week,
                                 const std::string& pattern, const Words& order,
                                 Pool& pool) {
    Words list, dictated;
    std::vector<Item> items;
    const auto dictate = [&](const std::string& word, const std::string& of) {
      for (const Item& item : items) {
        if (item.word == word) return;
      }
      items.push_back({word, word, of});
      dictated.push_back(word);
    };
    for (int i = 0; i < 6; ++i) list.push_back(pool.next(pattern));
    for (int i = 0; i < 4; ++i) {
      dictate(list[static_cast<std::size_t>(i)], pattern);
    }
    for (int i = 0; i < 2; ++i) dictate(pool.next(pattern), pattern);
    for (std::size_t p = 0; p < order.size(); ++p) {
      if (order[p] == pattern) continue;
      dictate(pool.of(order[p])[static_cast<std::size_t>(week) % 6], order[p]);
      dictate(pool.next(order[p]), order[p]);
      if (p < 3) dictate(pool.next(order[p]), order[p]);
    }
    // One that is dictated as a word as well, and one that is not.
    std::string sentences;
    for (const std::string& word : {list[0], list[5]}) {
      const std::string sentence = "It is a " + word + ".";
      items.push_back({sentence, word, pattern});
      sentences += "  " + sentence + "\n";
    }
    save(lesson_name(group, week),
         "# Invented.\npattern: " + pattern + "\nwords: " + joined(list) +
             "\nsight-words: " + dictated[4] + "\ndictate-words: " +
             joined(dictated) + "\ndictate-sentences: |\n" + sentences);
    return items;
  }

  // Three words of each pattern so far, four patterns at most.
  std::vector<Item> write_check(const Group& group, int week,
                                const Words& order, Pool& pool) {
    Words dictated, names;
    std::vector<Item> items;
    for (std::size_t p = 0; p < order.size() && p < 4; ++p) {
      names.push_back(order[p]);
      for (int i = 0; i < 3; ++i) {
        const std::string word = pool.next(order[p]);
        items.push_back({word, word, order[p]});
        dictated.push_back(word);
      }
    }
    std::string patterns;
    for (const std::string& name : names) {
      patterns += (patterns.empty() ? "" : ", ") + name;
    }
    save(check_name(group, week),
         "# Invented.\npattern: [" + patterns + "]\nwords: " +
             joined(dictated) + "\ndictate-words: " + joined(dictated) + "\n");
    return items;
  }

  std::string record(const Group& group, int week, int more,
                     const std::string& lesson, const std::string& kind,
                     const std::vector<Item>& items,
                     const std::map<std::string, int>& taught, Dice& dice) {
    std::string text = "  - date: " + date_of(week, more) +
                       "\n    lesson: " + lesson + "\n    kind: " + kind + "\n";
    std::string absent, wrong;
    for (const std::string& learner : learners_in(group, week)) {
      if (dice.next() < 0.06) {
        absent += (absent.empty() ? "" : ", ") + learner;
        continue;
      }
      std::string code = learner;
      if (learner == "B2" && week % 3 == 0) code = "b2";
      std::string entries;
      for (const Item& item : items) {
        const double right = chance(learner, week - taught.at(item.pattern));
        const double draw = dice.next();
        if (draw < right) continue;
        const double how = dice.next();
        std::string written = how < 0.05   ? "."
                              : how < 0.25 ? missed(item, false)
                                           : missed(item, true);
        if (written.empty()) continue;
        if (item.text != item.word && written != ".") {
          written = "It is a " + written + ".";
        }
        const auto quoted = [&](const std::string& s) {
          return s.find(' ') == std::string::npos ? s : "\"" + s + "\"";
        };
        entries += (entries.empty() ? "" : ", ") + quoted(item.text) + ": " +
                   quoted(written);
      }
      wrong += "      " + code + ": {" + entries + "}\n";
    }
    if (!absent.empty()) text += "    absent: " + absent + "\n";
    return text + "    wrong:\n" + wrong;
  }

  void save(const std::string& name, const std::string& text) {
    const std::filesystem::path path = folder_ / name;
    std::filesystem::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << text;
  }

  std::string words_;
  std::filesystem::path folder_;
  int seed_;
};

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3 || argc > 4) {
    std::cerr << "term_writer WORDS FOLDER [SEED]\n";
    return 2;
  }
  Writer(argv[1], argv[2], argc == 4 ? std::atoi(argv[3]) : 0).write();
  return 0;
}
