#include "support/run_program.h"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace sheaf::testing_support {

namespace {

void limit(int resource, unsigned long most) {
  if (most == 0) return;
  const rlimit limits{most, most};
  setrlimit(static_cast<__rlimit_resource_t>(resource), &limits);
}

// A process that sends the signal when its time has come.
pid_t start_timer(pid_t child, const Burden& burden) {
  if (burden.signal == 0) return -1;
  const pid_t timer = fork();
  if (timer != 0) return timer;
  usleep(static_cast<useconds_t>(burden.microseconds));
  kill(child, burden.signal);
  _exit(0);
}

}  // namespace

Outcome run_program(const std::vector<std::string>& arguments) {
  return run_program(arguments, Burden{});
}

Outcome run_program(const std::vector<std::string>& arguments,
                    const Burden& burden) {
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("pipe");
  const pid_t child = fork();
  if (child == 0) {
    dup2(ends[1], STDOUT_FILENO);
    dup2(ends[1], STDERR_FILENO);
    close(ends[0]);
    close(ends[1]);
    std::vector<char*> argv;
    for (const std::string& argument : arguments) {
      argv.push_back(const_cast<char*>(argument.c_str()));
    }
    argv.push_back(nullptr);
    const rlimit none{0, 0};
    if (burden.address_space != 0) setrlimit(RLIMIT_CORE, &none);
    limit(RLIMIT_AS, burden.address_space);
    limit(RLIMIT_FSIZE, burden.file_size);
    execvp(argv[0], argv.data());
    _exit(127);
  }
  close(ends[1]);
  const pid_t timer = start_timer(child, burden);
  Outcome outcome;
  char buffer[4096];
  for (ssize_t got = 0; (got = read(ends[0], buffer, sizeof buffer)) > 0;) {
    outcome.out.append(buffer, static_cast<std::size_t>(got));
  }
  close(ends[0]);
  int status = 0;
  // The child is waited for last, so that its number is nobody else's when the
  // signal is sent.
  if (timer > 0) waitpid(timer, nullptr, 0);
  waitpid(child, &status, 0);
  if (WIFEXITED(status)) outcome.status = WEXITSTATUS(status);
  return outcome;
}

TemporaryFolder::TemporaryFolder() {
  // mkdtemp puts letters of its own in place of the last six.
  std::string name =
      (std::filesystem::temp_directory_path() / "sheaf-test-").string() +
      std::string(6, 'X');
  if (!mkdtemp(name.data())) throw std::runtime_error("mkdtemp");
  path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string TemporaryFolder::write(const std::string& name,
                                   const std::string& bytes) const {
  std::string path = path_ + "/" + name;
  std::ofstream file(path, std::ios::binary);
  file << bytes;
  if (!file.flush()) throw std::runtime_error("cannot write " + path);
  return path;
}

std::string file_bytes(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

}  // namespace sheaf::testing_support
