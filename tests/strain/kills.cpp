// kills SHEAF LESSON CLASS [KILLS [SEED]]: kills builds without notice at
// random moments and looks at what is there then. Every file must be its old or
// its new self, whole; only in the moment between two renames may some files of
// a set be new and the rest old. What a kill leaves lying about must be gone
// after the next build. Prints the counts; exit code 1 where a part of a file,
// or anything else, was found.

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>

#include "base/shuffle.h"
#include "support/run_program.h"

namespace {

namespace fs = std::filesystem;
using sheaf::testing_support::file_bytes;
using sheaf::testing_support::run_program;
using sheaf::testing_support::TemporaryFolder;

using Files = std::map<std::string, std::string>;
using Call = std::vector<std::string>;

struct Counts {
  int kills = 0, ended_before = 0;
  int all_old = 0, all_new = 0, some_of_each = 0;
  int with_leftovers = 0;
  int faults = 0;
};

bool is_leftover(const std::string& name) {
  return fs::path(name).filename().string().starts_with(".sheaf-");
}

Files files_in(const fs::path& folder) {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    files[fs::relative(entry.path(), folder).string()] =
        file_bytes(entry.path().string());
  }
  return files;
}

// One of two ways to build the same files, with what comes out.
struct State {
  Call call;
  Files files;
};

State built(Call call, const std::string& out) {
  State state{std::move(call), {}};
  state.call.insert(state.call.end(), {"--out", out});
  if (run_program(state.call).status != 0) {
    throw std::runtime_error("a build failed");
  }
  state.files = files_in(out);
  return state;
}

void look(const Files& found, const State& before, const State& after,
          Counts& counts) {
  int old = 0, fresh = 0;
  bool has_leftovers = false;
  for (const auto& [name, bytes] : found) {
    if (is_leftover(name)) {
      has_leftovers = true;
      continue;
    }
    const auto was = before.files.find(name), will_be = after.files.find(name);
    if (was != before.files.end() && bytes == was->second) {
      ++old;
    } else if (will_be != after.files.end() && bytes == will_be->second) {
      ++fresh;
    } else {
      ++counts.faults;
      fmt::print("a part, or something else: {}\n", name);
    }
  }
  if (old + fresh != static_cast<int>(before.files.size())) {
    ++counts.faults;
    fmt::print("a file is missing\n");
  }
  ++(fresh == 0 ? counts.all_old
     : old == 0 ? counts.all_new
                : counts.some_of_each);
  counts.with_leftovers += has_leftovers ? 1 : 0;
}

void kill_builds(const std::string& name, const Call& one, const Call& two,
                 int kills, sheaf::Random& random) {
  const TemporaryFolder folder;
  const std::string out = folder.path() + "/out";
  const State states[] = {built(one, out), built(two, out)};
  const auto began = std::chrono::steady_clock::now();
  run_program(states[0].call);
  const auto whole = std::chrono::duration_cast<std::chrono::microseconds>(
                         std::chrono::steady_clock::now() - began)
                         .count();
  Counts counts;
  while (counts.kills < kills) {
    const State& before = states[counts.kills % 2];
    const State& after = states[1 - counts.kills % 2];
    if (run_program(before.call).status != 0 || files_in(out) != before.files) {
      ++counts.faults;
      fmt::print("the build after a kill does not put things right\n");
    }
    // Half of the kills fall into the last third, where files are written.
    const auto from = random.below(2) == 0 ? 0 : whole * 2 / 3;
    const auto moment = from + static_cast<long>(random.below(
                                   static_cast<std::uint64_t>(whole - from)));
    const auto outcome =
        run_program(after.call, {.signal = SIGKILL, .microseconds = moment});
    // A build that was done before the kill came counts for nothing.
    ++(outcome.status == 0 ? counts.ended_before : counts.kills);
    look(files_in(out), before, after, counts);
  }
  fmt::print(
      "{}: {} builds killed ({} were done before), {} files; all old {}, all "
      "new {}, some of each {}; temporary files left {}; faults {}\n",
      name, counts.kills, counts.ended_before, states[0].files.size(),
      counts.all_old, counts.all_new, counts.some_of_each,
      counts.with_leftovers, counts.faults);
  if (counts.faults > 0) throw std::runtime_error("faults were found");
}

}  // namespace

int main(int count, char** arguments) try {
  if (count < 4) {
    fmt::print(stderr, "kills SHEAF LESSON CLASS [KILLS [SEED]]\n");
    return 2;
  }
  const std::string program = arguments[1], lesson = arguments[2],
                    class_file = arguments[3];
  const int kills = count > 4 ? std::stoi(arguments[4]) : 200;
  sheaf::Random random(count > 5 ? std::stoull(arguments[5]) : 1);
  // The same files on other paper: the same names, other bytes.
  kill_builds("a lesson", {program, "build", lesson},
              {program, "build", lesson, "--paper", "a4"}, (kills + 1) / 2,
              random);
  kill_builds("a class", {program, "build", "--class", class_file},
              {program, "build", "--class", class_file, "--paper", "a4"},
              kills / 2, random);
  return 0;
} catch (const std::exception& fault) {
  fmt::print(stderr, "kills: {}\n", fault.what());
  return 1;
}
