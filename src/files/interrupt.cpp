#include "files/interrupt.h"

#include <unistd.h>

#include <algorithm>
#include <iterator>
#include <string_view>
#include <vector>

namespace sheaf {

namespace {

constexpr int kInterrupts[] = {SIGINT, SIGTERM, SIGHUP};

// Changed only while interrupts are held, so that the handler finds it whole;
// never taken down, so that it is there until the end.
std::vector<std::string>& temporary_files() {
  static auto& files = *new std::vector<std::string>;
  return files;
}

// Set once, before any handler.
int exit_code_of_interrupt = 0;

sigset_t all_interrupts() {
  sigset_t set;
  sigemptyset(&set);
  for (const int signal : kInterrupts) sigaddset(&set, signal);
  return set;
}

// Only what POSIX allows in a handler (2.4.3): unlink, write, _exit.
extern "C" void end_now(int) {
  for (const std::string& path : temporary_files()) ::unlink(path.c_str());
  constexpr std::string_view kSaid = "sheaf: interrupted\n";
  [[maybe_unused]] const ssize_t put =
      ::write(STDERR_FILENO, kSaid.data(), kSaid.size());
  ::_exit(exit_code_of_interrupt);
}

}  // namespace

void end_cleanly_on_interrupt(int exit_code) {
  exit_code_of_interrupt = exit_code;
  temporary_files();  // made here, not first in the handler
  for (const int signal : kInterrupts) {
    struct sigaction before {};
    if (::sigaction(signal, nullptr, &before) != 0) continue;
    if (before.sa_handler == SIG_IGN) continue;
    struct sigaction action {};
    action.sa_handler = end_now;
    action.sa_mask = all_interrupts();
    ::sigaction(signal, &action, nullptr);
  }
  std::signal(SIGXFSZ, SIG_IGN);
}

HoldInterrupts::HoldInterrupts() {
  const sigset_t set = all_interrupts();
  ::sigprocmask(SIG_BLOCK, &set, &before_);
}
HoldInterrupts::~HoldInterrupts() {
  ::sigprocmask(SIG_SETMASK, &before_, nullptr);
}

namespace {

volatile std::sig_atomic_t interrupt_came = 0;

extern "C" void remember_interrupt(int) { interrupt_came = 1; }

}  // namespace

CatchInterrupts::CatchInterrupts() {
  interrupt_came = 0;
  for (std::size_t i = 0; i < std::size(kInterrupts); ++i) {
    ::sigaction(kInterrupts[i], nullptr, &before_[i]);
    if (before_[i].sa_handler == SIG_IGN) continue;
    struct sigaction action {};
    action.sa_handler = remember_interrupt;  // and no SA_RESTART
    ::sigaction(kInterrupts[i], &action, nullptr);
  }
}
CatchInterrupts::~CatchInterrupts() {
  for (std::size_t i = 0; i < std::size(kInterrupts); ++i) {
    ::sigaction(kInterrupts[i], &before_[i], nullptr);
  }
}
bool CatchInterrupts::came() { return interrupt_came != 0; }

void remove_on_interrupt(const std::string& path) {
  temporary_files().push_back(path);
}
void keep_on_interrupt(std::string_view path) {
  std::erase(temporary_files(), path);
}

}  // namespace sheaf
