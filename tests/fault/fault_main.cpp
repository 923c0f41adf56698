// sheaf_faults [--samples N] [--allocations N] [--workers N] [--only PART]
// [--show N] [--point N] [--plain yes]: runs the verbs with a fault at every
// call of the system, and at every allocation of one lesson and some of the
// rest, and prints what came of it. With --samples, that many points of each
// kind in each scene. Exit code 1 where a run ended as none may: see verdict.h.
//
// What a verb does before a fault is done once for many faults (see
// `run_trials`), and with --plain for each anew.

#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <stdexcept>

#include "fault/verdict.h"
#include "support/run_program.h"

namespace sheaf::fault {
namespace {

constexpr std::size_t kOutcomes = 4;
constexpr int kErrors[] = {EIO, ENOSPC, EPERM, EINTR};

struct Wishes {
  long samples = 0;        ///< of each kind in each scene; 0 for all
  long allocations = 300;  ///< where not every one is tried
  int workers = 2;
  int shown = 5;  ///< failures of each scene
  std::string only;
  long point = 0;      ///< this system call alone, to look into a failure
  bool plain = false;  ///< each run from its beginning
};

// What several processes count together.
struct Tally {
  std::array<std::array<std::atomic<long>, kOutcomes>, 4> counts;
  std::array<std::atomic<long>, 4> shown;
};

Tally& tally() {
  static Tally* shared = [] {
    void* memory = ::mmap(nullptr, sizeof(Tally), PROT_READ | PROT_WRITE,
                          MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED) throw std::runtime_error("no memory to share");
    return new (memory) Tally;
  }();
  return *shared;
}

std::size_t row_of(const Point& point) {
  return (point.kind == Kind::allocation ? 2U : 0U) +
         (point.for_good ? 1U : 0U);
}

std::string described(const Point& point) {
  return fmt::format(
      "{} {}{}{}{}",
      point.kind == Kind::allocation ? "allocation" : "system call",
      point.number, point.for_good ? " and all after it" : "",
      point.error != 0 ? ": " : "",
      point.error != 0 ? std::strerror(point.error) : "");
}

constexpr const char* kCalls[] = {
    "open",   "make",  "read", "write", "sync",  "rename",    "link",
    "unlink", "mkdir", "stat", "chmod", "chown", "attribute", "lock",
    "close",  "list",  "real", "map",   "watch", "wait"};

void note(const Point& point, const Verdict& verdict, const Ended& ended,
          const Wishes& wishes) {
  ++tally().counts[row_of(point)][static_cast<std::size_t>(verdict.outcome)];
  if (verdict.outcome != Outcome::failure) return;
  if (tally().shown[row_of(point)]++ >= wishes.shown) return;
  std::string said = ended.err;
  if (said.size() > 600) said = "… " + said.substr(said.size() - 600);
  fmt::print("  {}{}: {}\n{}", described(point),
             point.kind == Kind::system_call
                 ? fmt::format(" ({})", kCalls[static_cast<int>(ended.failed)])
                 : "",
             verdict.why, said.empty() ? "" : "    | " + said);
  if (!said.empty() && !said.ends_with('\n')) fmt::print("\n");
  std::fflush(stdout);
}

// Of so many, the ones to be tried, evenly over all.
std::vector<long> chosen(long count, long most) {
  std::vector<long> numbers;
  if (most <= 0 || most >= count) most = count;
  for (long i = 0; i < most; ++i) numbers.push_back(1 + i * count / most);
  return numbers;
}

std::vector<Point> system_points(const Played& played, const Wishes& wishes) {
  std::vector<Point> points;
  std::size_t turn = 0;
  for (const long n : chosen(played.ended.system_calls, wishes.samples)) {
    if (wishes.point != 0 && n != wishes.point) continue;
    // With few points, one error each in turn.
    const std::size_t first = wishes.samples != 0 ? turn++ % 4 : 0;
    const std::size_t count = wishes.samples != 0 ? 1 : std::size(kErrors);
    for (std::size_t i = first; i < first + count; ++i) {
      points.push_back({Kind::system_call, n, false, kErrors[i]});
      points.push_back({Kind::system_call, n, true, kErrors[i]});
    }
  }
  return points;
}

std::vector<Point> allocation_points(const Played& played, long most) {
  std::vector<Point> points;
  for (const long n : chosen(played.ended.allocations, most)) {
    for (const bool for_good : {false, true}) {
      points.push_back({Kind::allocation, n, for_good, 0});
    }
  }
  return points;
}

// ---- a scene ----

// What ended badly in the middle of another run is run from the beginning, so
// that it can be seen what a next run makes of it. Such points cross to the
// process that began it all.
struct Again {
  static constexpr std::size_t kMost = 1U << 16U;
  std::size_t count = 0;
  std::array<Point, kMost> points;
};
Again* again = nullptr;

// What the run in the middle of which trials are made has to know.
struct Trying {
  const Played* played = nullptr;
  const Wishes* wishes = nullptr;
  std::string folder;
};
Trying trying;

void note_trial(const Point& point, const Ended& ended) {
  const Verdict verdict = judge(*trying.played, trying.folder, point, ended);
  if (verdict.outcome == Outcome::failure && again->count < Again::kMost) {
    again->points[again->count++] = point;
  } else {
    note(point, verdict, ended, *trying.wishes);
  }
}

bool is_plain(const Played& played, const Point& point, const Wishes& wishes) {
  const Held& held = played.ended.held;
  return wishes.plain || played.scene.alone ||
         point.number <= (point.kind == Kind::allocation ? held.allocations
                                                         : held.system_calls);
}

void work(const Scene& scene, const std::string& folder, int worker,
          Wishes wishes) {
  if (scene.threads && wishes.samples == 0) wishes.samples = wishes.allocations;
  const Played played = play(scene, folder);
  const bool all = scene.every_allocation && wishes.samples == 0;
  std::vector<Point> points = system_points(played, wishes);
  const long most = all                   ? 0
                    : wishes.samples != 0 ? wishes.samples
                                          : wishes.allocations;
  const std::vector<Point> more = allocation_points(played, most);
  if (wishes.point == 0) points.insert(points.end(), more.begin(), more.end());
  std::vector<Point> plain, trials;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point& point = points[i];
    if (static_cast<int>(i / 2) % wishes.workers != worker) continue;
    (is_plain(played, point, wishes) ? plain : trials).push_back(point);
  }
  again =
      static_cast<Again*>(::mmap(nullptr, sizeof(Again), PROT_READ | PROT_WRITE,
                                 MAP_SHARED | MAP_ANONYMOUS, -1, 0));
  again->count = 0;
  trying = {&played, &wishes, folder};
  if (!trials.empty()) {
    const std::vector<Point> rest =
        run_trials(scene.command, folder, trials, note_trial);
    restore(folder, played.before);
    plain.insert(plain.end(), rest.begin(), rest.end());
    plain.insert(plain.end(), again->points.begin(),
                 again->points.begin() + static_cast<long>(again->count));
  }
  for (const Point& point : plain) {
    Ended ended;
    const Verdict verdict = run_and_judge(played, folder, point, ended);
    note(point, verdict, ended, wishes);
  }
}

// The counts of a scene, printed and added to those of all.
bool print_row(const Scene& scene, double seconds,
               std::array<std::array<long, 4>, 4>& sums) {
  constexpr const char* kRows[] = {
      "a system call, once", "a system call, from then on",
      "an allocation, once", "an allocation, from then on"};
  bool good = true;
  for (std::size_t row = 0; row < 4; ++row) {
    std::array<long, 4> now{};
    for (std::size_t i = 0; i < kOutcomes; ++i) {
      now[i] = tally().counts[row][i];
      sums[row][i] += now[i];
    }
    fmt::print("{:<33} {:<27} {:>7} {:>7} {:>7} {:>6} {:>8} {:>8}\n",
               row == 0 ? scene.name : "", kRows[row],
               now[0] + now[1] + now[2] + now[3], now[0], now[1], now[2],
               now[3], row == 0 ? fmt::format("{:.0f}", seconds) : "");
    good = good && now[3] == 0;
  }
  std::fflush(stdout);
  return good;
}

// Of a processor, by all processes that have ended.
double worked() {
  rusage used{};
  ::getrusage(RUSAGE_CHILDREN, &used);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) +
           static_cast<double>(time.tv_usec) / 1e6;
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

int run_all(const Wishes& asked) {
  constexpr int kWaiting = 5;  // that keep a processor busy
  const testing_support::TemporaryFolder home;
  std::array<std::array<long, 4>, 4> sums{};
  bool good = true;
  fmt::print("{:<33} {:<27} {:>7} {:>7} {:>7} {:>6} {:>8} {:>8}\n", "scene",
             "what fails", "points", "same", "clean", "left", "failure",
             "seconds");
  for (const Scene& scene : all_scenes()) {
    if (scene.name.find(asked.only) == std::string::npos) continue;
    Wishes wishes = asked;
    if (scene.waits) wishes.workers *= kWaiting;
    for (auto& row : tally().counts) {
      for (auto& count : row) count = 0;
    }
    for (auto& shown : tally().shown) shown = 0;
    std::fflush(stdout);
    const double before = worked();
    std::vector<pid_t> workers;
    for (int i = 0; i < wishes.workers; ++i) {
      const pid_t worker = ::fork();
      if (worker == 0) {
        try {
          work(scene, fmt::format("{}/{}", home.path(), i), i, wishes);
        } catch (const std::exception& fault) {
          fmt::print("{}\n", fault.what());
          std::fflush(stdout);
          ::_exit(1);
        }
        ::_exit(0);
      }
      workers.push_back(worker);
    }
    for (const pid_t worker : workers) {
      int status = 0;
      ::waitpid(worker, &status, 0);
      good = good && status == 0;
    }
    good = print_row(scene, worked() - before, sums) && good;
    std::filesystem::remove_all(home.path());
    std::filesystem::create_directory(home.path());
  }
  constexpr const char* kAll[] = {"system calls", "system calls, from then on",
                                  "allocations", "allocations, from then on"};
  long points = 0;
  for (std::size_t row = 0; row < 4; ++row) {
    const auto& now = sums[row];
    const long all = now[0] + now[1] + now[2] + now[3];
    points += all;
    fmt::print("{:<33} {:<27} {:>7} {:>7} {:>7} {:>6} {:>8} {:>8}\n",
               row == 0 ? "all" : "", kAll[row], all, now[0], now[1], now[2],
               now[3], row == 0 ? fmt::format("{:.0f}", worked()) : "");
  }
  return good && points > 0 ? 0 : 1;
}

}  // namespace
}  // namespace sheaf::fault

int main(int count, char** arguments) {
  sheaf::fault::Wishes wishes;
  for (int i = 1; i + 1 < count; i += 2) {
    const std::string name = arguments[i], value = arguments[i + 1];
    if (name == "--samples") wishes.samples = std::stol(value);
    if (name == "--allocations") wishes.allocations = std::stol(value);
    if (name == "--workers") wishes.workers = std::stoi(value);
    if (name == "--show") wishes.shown = std::stoi(value);
    if (name == "--only") wishes.only = value;
    if (name == "--point") wishes.point = std::stol(value);
    if (name == "--plain") wishes.plain = value == "yes";
  }
  return sheaf::fault::run_all(wishes);
}
