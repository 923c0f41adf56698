// Every verb with files at the limits that Sheaf states: how long the processor
// worked on it and how much memory it took, beside what is allowed. Fails where
// one takes more. `make bounds` runs it.

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "limit_files.h"

namespace {

constexpr double kMostSeconds = 5;
constexpr double kMostMegabytes = 256;  // MiB
constexpr rlim_t kEnd = 15;             // seconds

struct Taken {
  int status = -1;
  double seconds = 0, megabytes = 0;
};

// Waits until a process has had nothing to do for a while, or has ended.
void wait_for_rest(pid_t child) {
  std::string before;
  for (int quiet = 0; quiet < 4;) {
    ::usleep(100'000);
    std::ifstream file("/proc/" + std::to_string(child) + "/stat");
    std::string line;
    std::getline(file, line);
    std::istringstream fields(
        line.substr(std::min(line.size(), line.rfind(')') + 1)));
    std::string state, skipped, user, system;
    fields >> state;
    for (int i = 0; i < 10; ++i) fields >> skipped;
    fields >> user >> system;
    if (state.empty() || state == "Z") return;
    const std::string now = user + " " + system;
    quiet = state == "S" && now == before ? quiet + 1 : 0;
    before = now;
  }
}

void write_all(int end, const std::string& bytes) {
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t got = ::write(end, bytes.data() + done, bytes.size() - done);
    if (got <= 0) return;
    done += static_cast<std::size_t>(got);
  }
}

// What somebody does while it runs.
void sit_beside(pid_t child, int to, const std::string& folder,
                const sheaf::bench::LimitRun& one) {
  for (const std::string& piece : one.input) {
    write_all(to, piece);
    wait_for_rest(child);
  }
  if (one.saved.empty()) return;
  wait_for_rest(child);
  std::ofstream(folder + "/" + one.saved, std::ios::app) << "\n";
  wait_for_rest(child);
  ::kill(child, SIGINT);
}

Taken run(const std::string& program, const std::string& folder,
          const sheaf::bench::LimitRun& one) {
  int input[2];
  if (::pipe2(input, O_CLOEXEC) != 0) return {};
  const pid_t child = ::fork();
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    ::dup2(input[0], STDIN_FILENO);
    ::dup2(nowhere, STDOUT_FILENO);
    ::dup2(nowhere, STDERR_FILENO);
    // In the background, shells have it ignored.
    std::signal(SIGINT, SIG_DFL);
    // What takes far too long is ended, and named.
    const rlimit limit{kEnd, kEnd};
    ::setrlimit(RLIMIT_CPU, &limit);
    if (::chdir(folder.c_str()) != 0) ::_exit(127);
    std::vector<char*> argv = {const_cast<char*>(program.c_str())};
    for (const std::string& argument : one.arguments) {
      argv.push_back(const_cast<char*>(argument.c_str()));
    }
    argv.push_back(nullptr);
    ::execv(program.c_str(), argv.data());
    ::_exit(127);
  }
  ::close(input[0]);
  if (child > 0) sit_beside(child, input[1], folder, one);
  ::close(input[1]);
  Taken taken;
  rusage usage{};
  int status = 0;
  if (child < 0 || ::wait4(child, &status, 0, &usage) != child) return taken;
  taken.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  constexpr int kInterrupted = 130;  // exit_codes.h
  if (!one.saved.empty() && taken.status == kInterrupted) taken.status = 0;
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) +
           static_cast<double>(time.tv_usec) / 1e6;
  };
  taken.seconds = seconds(usage.ru_utime) + seconds(usage.ru_stime);
  taken.megabytes = static_cast<double>(usage.ru_maxrss) / 1024;
  return taken;
}

int measure(const std::string& program, const std::string& data,
            const std::string& wanted) {
  namespace fs = std::filesystem;
  std::string folder = fs::temp_directory_path() / "sheaf-bounds-XXXXXX";
  if (::mkdtemp(folder.data()) == nullptr) {
    std::perror("a folder cannot be made");
    return 2;
  }
  sheaf::bench::write_limit_files(folder, data);
  bool good = true;
  std::printf("%-40s %9s %9s %5s\n", "at its limit", "seconds", "MiB", "code");
  std::signal(SIGPIPE, SIG_IGN);
  for (const auto& one : sheaf::bench::limit_runs(folder)) {
    if (one.name.find(wanted) == std::string::npos) continue;
    if (one.before) one.before(folder);
    const Taken taken = run(program, folder, one);
    // Code 1: Sheaf had something to say, as of words that do not suffice for
    // 26 forms of a probe.
    const bool over = taken.seconds > kMostSeconds ||
                      taken.megabytes > kMostMegabytes || taken.status < 0 ||
                      taken.status > 1;
    std::printf("%-40s %9.2f %9.0f %5d%s\n", one.name.c_str(), taken.seconds,
                taken.megabytes, taken.status, over ? "  <-" : "");
    std::fflush(stdout);
    good = good && !over;
  }
  fs::remove_all(folder);
  return good ? 0 : 1;
}

}  // namespace

// The program, the folder src/data and, if wanted, a part of the names.
int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr, "usage: sheaf_bounds PROGRAM DATA [PART]\n");
    return 2;
  }
  try {
    const std::string program = std::filesystem::absolute(argv[1]);
    return measure(program, argv[2], argc > 3 ? argv[3] : "");
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "sheaf_bounds: %s\n", fault.what());
    return 2;
  }
}
