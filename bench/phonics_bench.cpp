// How fast words are looked up, aligned and guessed, and how large the word
// list is: figures beside their bounds, never part of the tests.
//
//     sheaf_bench_phonics WORD_LIST PROGRAM

#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "files/disk_files.h"
#include "phonics/phonics.h"

namespace sheaf {
namespace {

// Processor time of this process, or the clock on the wall for others.
double now(clockid_t clock) {
  timespec t{};
  ::clock_gettime(clock, &t);
  return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_nsec) / 1e9;
}

// Least seconds of several runs: what disturbs a run only makes it longer.
double best_of(int runs, const std::function<void()>& work,
               clockid_t clock = CLOCK_PROCESS_CPUTIME_ID) {
  double best = 1e9;
  for (int i = 0; i < runs; ++i) {
    const double begin = now(clock);
    work();
    best = std::min(best, now(clock) - begin);
  }
  return best;
}

// False where the program did not end well.
bool run_process(const std::vector<std::string>& command) {
  std::vector<char*> arguments;
  for (const std::string& a : command) {
    arguments.push_back(const_cast<char*>(a.c_str()));
  }
  arguments.push_back(nullptr);
  std::fflush(stdout);
  const pid_t child = ::fork();
  if (child == 0) {
    if (std::freopen("/dev/null", "w", stdout) == nullptr) ::_exit(127);
    ::execv(arguments[0], arguments.data());
    ::_exit(127);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

// Milliseconds on the clock, start to exit; a run that fails counts as never.
double process_ms(const std::vector<std::string>& command) {
  bool good = true;
  const double best = best_of(
      20, [&] { good = run_process(command) && good; }, CLOCK_MONOTONIC);
  return good ? best * 1e3 : std::numeric_limits<double>::infinity();
}

int run(int argc, char** argv) {
  if (argc != 3) return 2;
  const std::string list = argv[1], program = argv[2];
  fmt::print("compiled word list: {} bytes (bound 6291456)\n",
             std::filesystem::file_size(list));

  const double first = best_of(50, [&] {
    const Phonics phonics(disk(), list);
    phonics.read("ship", {});
  });
  fmt::print("open the list and read one word: {:.3f} ms (bound 2)\n",
             first * 1e3);
  fmt::print(
      "`sheaf word ship`, start to exit: {:.2f} ms; `--version`: {:.2f}"
      " ms\n",
      process_ms({program, "word", "ship"}),
      process_ms({program, "--version"}));

  const Phonics phonics(disk(), list);
  std::vector<std::string> words;
  phonics.each_word(35, {}, [&](const Reading& reading, const WordInfo&) {
    words.push_back(reading.word);
    return true;
  });
  std::size_t known = 0;
  const double looking = best_of(5, [&] {
    known = 0;
    for (const std::string& word : words) {
      known += phonics.info(word) ? 1U : 0U;
    }
  });
  fmt::print("look-ups: {:.2f} million a second over {} words (bound 1)\n",
             static_cast<double>(words.size()) / looking / 1e6, known);
  std::size_t boxes = 0;
  const double reading = best_of(3, [&] {
    for (const std::string& word : words) {
      boxes += phonics.read(word, {}).front().sounds.size();
    }
  });
  fmt::print("readings with units, boxes and patterns: {:.1f} us each\n",
             reading / static_cast<double>(words.size()) * 1e6);

  // Words that nobody knows: the beginnings of some with the ends of others.
  std::vector<std::string> unknown;
  for (std::size_t i = 0; i + 1000 < words.size(); i += 7) {
    const std::string& a = words[i];
    const std::string& b = words[i + 1000];
    std::string made = a.substr(0, (a.size() + 1) / 2) + b.substr(b.size() / 2);
    if (is_word(made) && !phonics.knows(made)) {
      unknown.push_back(std::move(made));
    }
  }
  const double guessing = best_of(3, [&] {
    for (const std::string& word : unknown) {
      boxes += phonics.read(word, {}).front().sounds.size();
    }
  });
  fmt::print(
      "unknown words, guessed and aligned: {:.4f} ms each over {}"
      " (bound 0.1)\n",
      guessing / static_cast<double>(unknown.size()) * 1e3, unknown.size());
  return boxes > 0 ? 0 : 1;
}

}  // namespace
}  // namespace sheaf

int main(int argc, char** argv) { return sheaf::run(argc, argv); }
