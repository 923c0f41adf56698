#include "support/running_program.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <stdexcept>

namespace sheaf::testing_support {

namespace {

// Long enough for a machine that is busy with other tests.
constexpr std::chrono::seconds kPatience{30};

struct Pipe {
  Pipe() {
    if (::pipe2(ends, O_CLOEXEC) != 0) throw std::runtime_error("pipe");
  }
  int ends[2] = {-1, -1};
};

}  // namespace

RunningProgram::RunningProgram(const std::vector<std::string>& arguments,
                               const std::string& folder) {
  const Pipe input, results, messages;
  child_ = ::fork();
  if (child_ < 0) throw std::runtime_error("fork");
  if (child_ == 0) {
    ::dup2(input.ends[0], STDIN_FILENO);
    ::dup2(results.ends[1], STDOUT_FILENO);
    ::dup2(messages.ends[1], STDERR_FILENO);
    // In the background, shells have it ignored.
    std::signal(SIGINT, SIG_DFL);
    if (::chdir(folder.c_str()) != 0) ::_exit(127);
    std::vector<char*> argv;
    for (const std::string& argument : arguments) {
      argv.push_back(const_cast<char*>(argument.c_str()));
    }
    argv.push_back(nullptr);
    ::execvp(argv[0], argv.data());
    ::_exit(127);
  }
  ::close(input.ends[0]);
  ::close(results.ends[1]);
  ::close(messages.ends[1]);
  to_ = input.ends[1];
  results_end_ = results.ends[0];
  messages_end_ = messages.ends[0];
}

RunningProgram::~RunningProgram() {
  if (child_ > 0) {
    ::kill(child_, SIGKILL);
    ::waitpid(child_, nullptr, 0);
  }
  for (int* one : {&to_, &results_end_, &messages_end_}) close_end(*one);
}

void RunningProgram::close_end(int& end) {
  if (end >= 0) ::close(end);
  end = -1;
}

bool RunningProgram::write(const std::string& bytes) {
  // One that has ended must not end the test.
  std::signal(SIGPIPE, SIG_IGN);
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t got = ::write(to_, bytes.data() + done, bytes.size() - done);
    if (got <= 0) return false;
    done += static_cast<std::size_t>(got);
  }
  return true;
}

// False where both ends are closed, or nothing comes for a second.
bool RunningProgram::read_some() {
  std::array<pollfd, 2> ends = {pollfd{results_end_, POLLIN, 0},
                                pollfd{messages_end_, POLLIN, 0}};
  if (::poll(ends.data(), ends.size(), 1000) <= 0) return false;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    if (ends[i].fd < 0 || ends[i].revents == 0) continue;
    std::array<char, 65536> buffer{};
    const ssize_t got = ::read(ends[i].fd, buffer.data(), buffer.size());
    if (got <= 0) {
      close_end(i == 0 ? results_end_ : messages_end_);
      continue;
    }
    (i == 0 ? results_ : messages_)
        .append(buffer.data(), static_cast<std::size_t>(got));
  }
  return true;
}

bool RunningProgram::read_until(const std::function<bool()>& enough) {
  const auto last = std::chrono::steady_clock::now() + kPatience;
  while (!enough()) {
    if (results_end_ < 0 && messages_end_ < 0) return false;
    if (std::chrono::steady_clock::now() > last) return false;
    read_some();
  }
  return true;
}

int RunningProgram::end(int signal) {
  close_end(to_);
  if (signal != 0) ::kill(child_, signal);
  read_until([&] { return results_end_ < 0 && messages_end_ < 0; });
  if (results_end_ >= 0 || messages_end_ >= 0) ::kill(child_, SIGKILL);
  int status = 0;
  ::waitpid(child_, &status, 0);
  child_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace sheaf::testing_support
