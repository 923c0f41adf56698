// Every verb with files at the limits that Sheaf states: how long the processor
// worked on it and how much memory it took, beside what is allowed. Fails where
// one takes more. `make bounds` runs it.

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>

#include "limit_files.h"

namespace {

constexpr double kMostSeconds = 5;
constexpr double kMostMegabytes = 256;  // MiB
constexpr rlim_t kEnd = 15;             // seconds

struct Taken {
  int status = -1;
  double seconds = 0, megabytes = 0;
};

Taken run(const std::string& program, const std::string& folder,
          const std::vector<std::string>& arguments) {
  const pid_t child = ::fork();
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    ::dup2(nowhere, STDOUT_FILENO);
    ::dup2(nowhere, STDERR_FILENO);
    // What takes far too long is ended, and named.
    const rlimit limit{kEnd, kEnd};
    ::setrlimit(RLIMIT_CPU, &limit);
    if (::chdir(folder.c_str()) != 0) ::_exit(127);
    std::vector<char*> argv = {const_cast<char*>(program.c_str())};
    for (const std::string& argument : arguments) {
      argv.push_back(const_cast<char*>(argument.c_str()));
    }
    argv.push_back(nullptr);
    ::execv(program.c_str(), argv.data());
    ::_exit(127);
  }
  Taken taken;
  rusage usage{};
  int status = 0;
  if (child < 0 || ::wait4(child, &status, 0, &usage) != child) return taken;
  taken.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
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
  for (const auto& one : sheaf::bench::limit_runs()) {
    if (one.name.find(wanted) == std::string::npos) continue;
    const Taken taken = run(program, folder, one.arguments);
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
