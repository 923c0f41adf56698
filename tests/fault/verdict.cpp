#include "fault/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <csignal>
#include <cstring>
#include <set>
#include <sstream>
#include <stdexcept>

namespace sheaf::fault {

namespace {

bool is_temporary(const std::string& name) {
  return name.find(".sheaf-") != std::string::npos;
}

// Empty folders hold nothing of anybody's.
Files without_folders(const Files& all) {
  Files files;
  for (const auto& [name, bytes] : all) {
    if (!name.ends_with('/')) files.emplace(name, bytes);
  }
  return files;
}

std::vector<std::string> sentences(const std::string& text) {
  std::vector<std::string> found;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("sheaf")) found.push_back(line);
  }
  return found;
}

bool names_cause(const std::string& sentence, const Point& point) {
  return sentence.find(point.kind == Kind::allocation
                           ? "not enough memory"
                           : std::strerror(point.error)) != std::string::npos;
}

std::string last_part(const std::string& path) {
  return path.substr(path.rfind('/') + 1);
}

// What is neither old nor new as it should be, by name.
struct Mixture {
  std::set<std::string> old_ones, new_ones, strange, temporaries;
};

Mixture mixture_of(const Files& now, const Files& before, const Files& after) {
  Mixture mixture;
  std::set<std::string> names;
  for (const Files* files : {&now, &before, &after}) {
    for (const auto& [name, bytes] : *files) names.insert(name);
  }
  const auto same = [](const Files& one, const Files& other,
                       const std::string& name) {
    const auto a = one.find(name), b = other.find(name);
    if (a == one.end() || b == other.end()) {
      return a == one.end() && b == other.end();
    }
    return a->second == b->second;
  };
  for (const std::string& name : names) {
    const bool is_old = same(now, before, name),
               is_new = same(now, after, name);
    if (is_temporary(name)) {
      mixture.temporaries.insert(name);
    } else if (is_old && !is_new) {
      mixture.old_ones.insert(name);
    } else if (is_new && !is_old) {
      mixture.new_ones.insert(name);
    } else if (!is_old) {
      mixture.strange.insert(name);
    }
  }
  return mixture;
}

bool all_named(const std::set<std::string>& names, const std::string& text) {
  for (const std::string& name : names) {
    if (text.find(last_part(name)) == std::string::npos) return false;
  }
  return true;
}

Verdict failure(std::string why) { return {Outcome::failure, std::move(why)}; }

}  // namespace

Played play(const Scene& scene, const std::string& folder) {
  restore(folder, {});
  restore(folder, scene.files);
  for (const auto& arguments : scene.before) {
    const Ended ended = run_once({.arguments = arguments}, folder, {});
    if (ended.code != 0) {
      throw std::runtime_error(scene.name + ": " + ended.err);
    }
  }
  Played played{scene, files_in(folder), {}, {}};
  for (const auto& [name, bytes] : scene.then) played.before[name] = bytes;
  restore(folder, played.before);
  played.ended = run_once(scene.command, folder, {});
  if (played.ended.code != 0) {
    throw std::runtime_error(scene.name + ": " + played.ended.err);
  }
  played.after = files_in(folder);
  restore(folder, played.before);
  return played;
}

Verdict judge(const Played& played, const std::string& folder,
              const Point& point, const Ended& ended) {
  if (ended.signal == SIGALRM) return failure("it goes on for ever");
  if (ended.code < 0) {
    return failure(fmt::format("it was ended by signal {}", ended.signal));
  }
  const Files now = files_in(folder);
  if (ended.code == 0) {
    if (now != played.after) return failure("code 0, and other files");
    if (ended.out != played.ended.out) return failure("code 0, other results");
    if (ended.err != played.ended.err) return failure("code 0, other messages");
    return {Outcome::same, {}};
  }
  if (ended.code != 3) return failure(fmt::format("code {}", ended.code));
  const std::vector<std::string> said = sentences(ended.err);
  if (said.empty()) return failure("code 3, and nothing is said");
  if (!names_cause(said.front(), point))
    return failure("the cause is not named");
  Files old = without_folders(played.before);
  Files fresh = without_folders(played.after);
  Mixture mixture = mixture_of(without_folders(now), old, fresh);
  const std::string& saved = played.scene.command.saved_file;
  if (!saved.empty()) {
    // A file was saved; its pages may be those of the first time.
    if (mixture.temporaries.empty()) return {Outcome::clean, {}};
    Verdict verdict = failure("left: " + *mixture.temporaries.begin());
    verdict.may_be_left = all_named(mixture.temporaries, ended.err);
    return verdict;
  }
  if (!mixture.strange.empty()) {
    return failure("neither old nor new: " + *mixture.strange.begin());
  }
  const bool mixed = !mixture.old_ones.empty() && !mixture.new_ones.empty();
  if (mixture.temporaries.empty() && !mixed) {
    // That a disk may not keep what is in place is told beside any other fault.
    const auto beside =
        std::ranges::count_if(said, [](const std::string& line) {
          return line.find(" may lose what was just written") !=
                 std::string::npos;
        });
    if (said.size() == 1 || said.size() - beside == 1) {
      return {Outcome::clean, {}};
    }
    return failure(fmt::format("{} sentences", said.size()));
  }
  Verdict verdict =
      failure(mixed ? fmt::format("{} old, {} new", *mixture.old_ones.begin(),
                                  *mixture.new_ones.begin())
                    : "left without a word: " + *mixture.temporaries.begin());
  // What is there that should not be, or is not what it should be.
  const std::string all = ended.err + ended.out;
  verdict.may_be_left = all_named(mixture.temporaries, ended.err) &&
                        (!mixed || all_named(mixture.old_ones, all) ||
                         all_named(mixture.new_ones, all));
  return verdict;
}

Verdict run_and_judge(const Played& played, const std::string& folder,
                      const Point& point, Ended& ended) {
  ended = run_once(played.scene.command, folder, point);
  Verdict verdict = judge(played, folder, point, ended);
  if (verdict.may_be_left) {
    const Ended next = run_once(played.scene.command, folder, {});
    if (next.code == 0 && files_in(folder) == played.after) {
      verdict = {Outcome::left, {}};
    } else {
      verdict.why += ", and the next run does not put it right";
    }
  }
  restore(folder, played.before);
  return verdict;
}

}  // namespace sheaf::fault
