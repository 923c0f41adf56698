#include "names/run_in_memory.h"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <stdexcept>

#include "cli/run.h"
#include "files/disk_files.h"
#include "files/memory_files.h"
#include "support/run_program.h"

namespace sheaf {

namespace {
Files* of_this_run = nullptr;
}  // namespace

// The program is linked so that it asks these for files in place of those of
// the same names without the first letters (see CMakeLists.txt).
extern "C" {
Files& __wrap__ZN5sheaf4diskEv() { return *of_this_run; }
}

namespace test {
namespace {

namespace fs = std::filesystem;

// What is written to a standard stream goes to memory while it lives.
class Caught {
 public:
  explicit Caught(int stream)
      : stream_(stream),
        before_(::dup(stream)),
        memory_(::memfd_create("caught", 0)) {
    if (before_ < 0 || memory_ < 0 || ::dup2(memory_, stream_) < 0) {
      throw std::runtime_error("a standard stream cannot be caught");
    }
  }
  ~Caught() {
    ::dup2(before_, stream_);
    ::close(before_);
    ::close(memory_);
  }
  Caught(const Caught&) = delete;
  Caught& operator=(const Caught&) = delete;

  std::string text() const {
    const off_t size = ::lseek(memory_, 0, SEEK_END);
    std::string text(static_cast<std::size_t>(std::max<off_t>(size, 0)), '\0');
    const ssize_t got = ::pread(memory_, text.data(), text.size(), 0);
    text.resize(static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    return text;
  }

 private:
  int stream_, before_, memory_;
};

// An empty folder, in which all runs are.
const fs::path& empty_folder() {
  static const testing_support::TemporaryFolder folder;
  static const fs::path path = [] {
    fs::current_path(folder.path());
    return fs::current_path();
  }();
  return path;
}

}  // namespace

MemoryOutcome run_in_memory(const std::map<std::string, std::string>& files,
                            const std::vector<std::string>& arguments) {
  const fs::path& folder = empty_folder();
  static const DiskFiles kDisk;
  MemoryFiles memory(&kDisk);
  for (const auto& [name, text] : files) memory.put(name, text);
  const auto before = memory.all();
  of_this_run = &memory;

  std::vector<std::string> words = {"sheaf"};
  words.insert(words.end(), arguments.begin(), arguments.end());
  // What a run gives up is given up for good, and many runs follow in this
  // process.
  if (words.size() > 1) words.emplace_back("--no-sandbox");
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);

  MemoryOutcome outcome;
  std::fflush(stdout);
  std::fflush(stderr);
  {
    const Caught results(STDOUT_FILENO), messages(STDERR_FILENO);
    outcome.status = run_command(static_cast<int>(words.size()), argv.data());
    std::fflush(stdout);
    std::fflush(stderr);
    outcome.results = results.text();
    outcome.messages = messages.text();
  }
  of_this_run = nullptr;
  for (const auto& [name, bytes] : memory.all()) {
    const auto was = before.find(name);
    if (was == before.end() || *was->second != *bytes) {
      outcome.written.emplace(name, *bytes);
    }
  }
  for (const auto& entry : fs::directory_iterator(folder)) {
    outcome.left_over.push_back(entry.path().filename().string());
  }
  return outcome;
}

}  // namespace test
}  // namespace sheaf
