#include "fault/one_run.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "cli/run.h"

namespace sheaf::fault {

namespace fs = std::filesystem;

Files files_in(const std::string& folder) {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string name = fs::relative(entry.path(), folder).string();
    if (entry.is_directory()) {
      files[name + "/"];
      continue;
    }
    std::ifstream file(entry.path(), std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    files[name] = std::move(bytes).str();
  }
  return files;
}

void restore(const std::string& folder, const Files& files) {
  fs::create_directories(folder);
  const Files there = files_in(folder);
  for (const auto& [name, bytes] : there) {
    if (!files.contains(name)) fs::remove_all(fs::path(folder) / name);
  }
  for (const auto& [name, bytes] : files) {
    const auto found = there.find(name);
    if (found != there.end() && found->second == bytes) continue;
    const fs::path path = fs::path(folder) / name;
    if (name.ends_with('/')) {
      fs::create_directories(path);
      continue;
    }
    fs::create_directories(path.parent_path());
    // Another file of that name, as an editor would put it there.
    fs::remove(path);
    std::ofstream(path, std::ios::binary) << bytes;
  }
}

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr unsigned kMostWork = 20;  // seconds
#else
constexpr unsigned kMostWork = 2;
#endif
constexpr unsigned kMostSeconds = 10 * kMostWork;
constexpr unsigned kMostTrying = 3600;  // all trials of a scene
constexpr std::string_view kWaits = "waiting for the next save";

// What a run tells the one who started it, in memory that both have.
struct Area {
  bool ended = false;
  int code = -1;
  long system_calls = 0, allocations = 0;
  Held held;
  SystemCall failed = SystemCall::open;
  std::size_t out_size = 0, err_size = 0;
  std::array<char, 1U << 19U> out;
  std::array<char, 1U << 16U> err;

  void clear() {
    ended = false;
    code = -1;
    out_size = err_size = 0;
    failed = SystemCall::open;
  }
};

Area* new_area() {
  void* memory = ::mmap(nullptr, sizeof(Area), PROT_READ | PROT_WRITE,
                        MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  if (memory == MAP_FAILED) throw std::runtime_error("no memory to share");
  return new (memory) Area;
}

Area& run_area() {
  static Area* area = new_area();
  return *area;
}
Area& trial_area() {
  static Area* area = new_area();
  return *area;
}

// Of the process that runs the program.
Area* mine = nullptr;
const Command* running = nullptr;
int times_waited = 0;

[[noreturn]] void end_run(int code) {
  mine->system_calls = system_calls_made();
  mine->allocations = allocations_made();
  mine->held = held_after();
  mine->failed = failed_call();
  end_faults();
  mine->code = code;
  mine->ended = true;
  ::_exit(0);
}

template <std::size_t size>
void append(std::array<char, size>& text, std::size_t& at, const char* bytes,
            std::size_t count) {
  const std::size_t fits = std::min(count, size - at);
  std::memcpy(text.data() + at, bytes, fits);
  at += fits;
}

// `watch` waits: the first time a file is saved, the second is the end.
void at_wait(std::string_view said) {
  if (++times_waited == 1) {
    const int file = ::open(running->saved_file.c_str(),
                            O_WRONLY | O_TRUNC | O_CREAT | O_CLOEXEC, 0644);
    const std::string& text = running->saved_text;
    if (::write(file, text.data(), text.size()) < 0) ::_exit(9);
    ::close(file);
    return;
  }
  end_run(said.find("not built") == std::string_view::npos ? 0 : 3);
}

ssize_t take_out(void*, const char* bytes, std::size_t count) {
  if (own_call_fails(SystemCall::write)) return 0;
  append(mine->out, mine->out_size, bytes, count);
  const std::string_view said(bytes, count);
  if (!running->saved_file.empty() &&
      said.find(kWaits) != std::string_view::npos) {
    at_wait(said);
  }
  return static_cast<ssize_t>(count);
}

ssize_t take_err(void*, const char* bytes, std::size_t count) {
  append(mine->err, mine->err_size, bytes, count);
  return static_cast<ssize_t>(count);
}

// Whoever works for ever is ended, and so is who waits for ever.
void limit_time() {
  const rlimit most{kMostWork, kMostWork};
  ::setrlimit(RLIMIT_CPU, &most);
  ::alarm(kMostSeconds);
}

void give_input(const std::string& typed) {
  const int file = ::memfd_create("typed", 0);
  if (::write(file, typed.data(), typed.size()) < 0) ::_exit(9);
  if (::lseek(file, 0, SEEK_SET) != 0) ::_exit(9);
  ::dup2(file, STDIN_FILENO);
  ::close(file);
}

// In a process of its own.
[[noreturn]] void run_here(const Command& command, const std::string& folder,
                           const Point& point, AtPoint ask) {
  if (::chdir(folder.c_str()) != 0) ::_exit(9);
  running = &command;
  stdout = ::fopencookie(nullptr, "w", {.write = take_out});
  stderr = ::fopencookie(nullptr, "w", {.write = take_err});
  std::setvbuf(stderr, nullptr, _IONBF, 0);
  give_input(command.typed);
  std::vector<std::string> words = command.arguments;
  words.insert(words.begin(), "sheaf");
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  set_point(point);
  if (ask != nullptr) ask_at_points(ask);
  end_run(run_command(static_cast<int>(words.size()), arguments.data()));
}

Ended wait_for(pid_t process, const Area& area) {
  int status = 0;
  while (::waitpid(process, &status, 0) < 0 && errno == EINTR) {
  }
  Ended ended;
  if (WIFSIGNALED(status)) ended.signal = WTERMSIG(status);
  const bool worked_on = ended.signal == SIGXCPU || ended.signal == SIGKILL;
  if (worked_on) ended.signal = SIGALRM;
  if (WIFEXITED(status)) {
    // The sanitizers end a run with a code of their own.
    ended.code = area.ended ? area.code : -1;
    if (!area.ended) ended.signal = SIGABRT;
  }
  ended.out.assign(area.out.data(), area.out_size);
  ended.err.assign(area.err.data(), area.err_size);
  ended.system_calls = area.system_calls;
  ended.allocations = area.allocations;
  ended.held = area.held;
  ended.failed = area.failed;
  return ended;
}

// ---- trials ----

// Of the run in the middle of which they are made.
struct Trials {
  const std::vector<Point>* points = nullptr;
  char* done = nullptr;  // of each, in memory that all have
  // Those of calls and those of allocations, by number, and which comes next.
  struct Queue {
    std::vector<std::size_t> points;
    std::size_t next = 0;
  };
  Queue calls, allocations;
  void (*tried)(const Point& point, const Ended& ended) = nullptr;
  std::string folder;
  Files files;            // as they are at the moment
  bool is_known = false;  // whether those are
  bool holds_lock = false, lock_is_known = false;
};
Trials trials;

// A process has its place in open files in common with those that it begins,
// and so it has their locks. It has none of its own when it tries a point.
class Places {
 public:
  Places() {
    for (std::size_t i = 0; i < places_.size(); ++i) {
      places_[i] = ::lseek(static_cast<int>(i), 0, SEEK_CUR);
    }
  }
  void put_back() const {
    for (std::size_t i = 0; i < places_.size(); ++i) {
      const auto file = static_cast<int>(i);
      if (places_[i] >= 0) ::lseek(file, places_[i], SEEK_SET);
      if (file > STDERR_FILENO) ::flock(file, LOCK_UN);
    }
  }

 private:
  std::array<off_t, 24> places_{};
};

// A lock stays until all processes have let go of it: whoever wanted it in a
// trial would wait for the run that waits for the trial.
bool holds_lock() {
  if (trials.lock_is_known) return trials.holds_lock;
  trials.lock_is_known = true;
  trials.holds_lock = false;
  for (int file = 3; file < 24; ++file) {
    std::ifstream about("/proc/self/fdinfo/" + std::to_string(file));
    for (std::string line; std::getline(about, line);) {
      trials.holds_lock |= line.find("FLOCK") != std::string::npos;
    }
  }
  return trials.holds_lock;
}

// Comes back in two processes; true in the one that meets the fault.
bool meets(const Point& point) {
  if (!trials.is_known) trials.files = files_in(trials.folder);
  trials.is_known = true;
  Area& area = trial_area();
  area.clear();
  append(area.out, area.out_size, mine->out.data(), mine->out_size);
  append(area.err, area.err_size, mine->err.data(), mine->err_size);
  const Places places;
  const pid_t process = ::fork();
  if (process < 0) ::_exit(9);
  if (process == 0) {
    mine = &area;
    limit_time();
    fail_at(point);
    return true;
  }
  const Ended ended = wait_for(process, area);
  places.put_back();
  trials.tried(point, ended);
  restore(trials.folder, trials.files);
  return false;
}

bool changes_files(SystemCall call) {
  return call == SystemCall::make || call == SystemCall::rename ||
         call == SystemCall::link || call == SystemCall::unlink;
}

// Those with numbers up to this one, or all that are left. True in a process
// that meets a fault.
bool try_next(Trials::Queue& queue, long number, bool all) {
  for (; queue.next < queue.points.size(); ++queue.next) {
    const std::size_t index = queue.points[queue.next];
    const Point& point = (*trials.points)[index];
    if (!all && point.number > number) break;
    if (!all && (point.number < number || holds_lock())) continue;
    trials.done[index] = 1;
    if (meets(point)) return true;
  }
  return false;
}

void try_here(Kind kind, long number, SystemCall call) {
  if (kind == Kind::allocation) {
    try_next(trials.allocations, number, false);
    return;
  }
  trials.lock_is_known = false;
  const bool is_last = changes_files(call);
  if (try_next(trials.calls, number, is_last)) return;
  if (is_last) {
    if (try_next(trials.allocations, 0, true)) return;
    end_run(0);
  }
  if (call == SystemCall::mkdir) trials.is_known = false;
}

}  // namespace

Ended run_once(const Command& command, const std::string& folder,
               const Point& point) {
  Area& area = run_area();
  area.clear();
  const pid_t process = ::fork();
  if (process == 0) {
    mine = &area;
    limit_time();
    run_here(command, folder, point, nullptr);
  }
  return wait_for(process, area);
}

std::vector<Point> run_trials(const Command& command, const std::string& folder,
                              const std::vector<Point>& points,
                              void (*tried)(const Point& point,
                                            const Ended& ended)) {
  void* memory = ::mmap(nullptr, points.size() + 1, PROT_READ | PROT_WRITE,
                        MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  if (memory == MAP_FAILED) throw std::runtime_error("no memory to share");
  trials = {};
  trials.points = &points;
  trials.done = static_cast<char*>(memory);
  trials.tried = tried;
  trials.folder = folder;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool is_call = points[i].kind == Kind::system_call;
    (is_call ? trials.calls : trials.allocations).points.push_back(i);
  }
  for (Trials::Queue* queue : {&trials.calls, &trials.allocations}) {
    std::ranges::stable_sort(queue->points, {},
                             [&](std::size_t i) { return points[i].number; });
  }
  static_cast<void>(trial_area());
  Area& area = run_area();
  area.clear();
  const pid_t process = ::fork();
  if (process == 0) {
    mine = &area;
    pretend_to_hold();
    ::alarm(kMostTrying);
    run_here(command, folder, {}, try_here);
  }
  wait_for(process, area);
  std::vector<Point> rest;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (trials.done[i] == 0) rest.push_back(points[i]);
  }
  ::munmap(memory, points.size() + 1);
  return rest;
}

}  // namespace sheaf::fault
