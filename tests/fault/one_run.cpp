#include "fault/one_run.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

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
constexpr std::string_view kWaits = "waiting for the next save";

// What a run tells the one who started it, in memory that both have.
struct Area {
  bool ended = false;
  int code = -1;
  long system_calls = 0, allocations = 0;
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
  int ends[2];
  if (::pipe(ends) != 0) ::_exit(9);
  if (::write(ends[1], typed.data(), typed.size()) < 0) ::_exit(9);
  ::close(ends[1]);
  ::dup2(ends[0], STDIN_FILENO);
  ::close(ends[0]);
}

// In a process of its own.
[[noreturn]] void run_here(const Command& command, const std::string& folder,
                           const Point& point, AtAllocation ask) {
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
  if (ask != nullptr) ask_at_allocations(ask);
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
  ended.failed = area.failed;
  return ended;
}

// ---- trials ----

const Trials* trials = nullptr;
std::string trial_folder;

// Asked in the middle of a run, at an allocation; comes back in two processes
// where it is tried.
void try_here(long number) {
  if (!trials->chosen(number)) return;
  for (const bool for_good : {false, true}) {
    Area& area = trial_area();
    area.clear();
    append(area.out, area.out_size, mine->out.data(), mine->out_size);
    append(area.err, area.err_size, mine->err.data(), mine->err_size);
    const pid_t process = ::fork();
    if (process == 0) {
      mine = &area;
      if (::chdir(trial_folder.c_str()) != 0) ::_exit(9);
      limit_time();
      fail_now(for_good);
      return;
    }
    Ended ended = wait_for(process, area);
    trials->tried({Kind::allocation, number, for_good, 0}, ended);
  }
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

long run_trials(const Command& command, const std::string& folder,
                const std::string& other_folder, const Trials& wanted) {
  trials = &wanted;
  trial_folder = other_folder;
  static_cast<void>(trial_area());
  Area& area = run_area();
  area.clear();
  static long* first_not_tried =
      static_cast<long*>(::mmap(nullptr, sizeof(long), PROT_READ | PROT_WRITE,
                                MAP_SHARED | MAP_ANONYMOUS, -1, 0));
  *first_not_tried = 1;
  const pid_t process = ::fork();
  if (process == 0) {
    mine = &area;
    run_here(command, folder, {}, [](long number) {
      *first_not_tried = number + 1;
      try_here(number);
    });
  }
  wait_for(process, area);
  return *first_not_tried;
}

}  // namespace sheaf::fault
