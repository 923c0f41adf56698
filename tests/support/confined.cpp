// A program for tests/unit/files_confine_test.cpp. It is confined to a folder
// to read and one to write in, tries what must and what must not go any more,
// and says of each in a line what came of it: "ok", or the name of the fault.
//
//     confined READ WRITE OUTSIDE     OUTSIDE is a file that no folder holds
//     confined --foreign              a call by another machine's number
//     confined --calls [OUTSIDE]      all files stay open
//     confined --empty WRITE          nothing is done
//     confined --used WRITE           nothing but to use that folder

#include <fcntl.h>
#include <linux/bpf.h>
#include <sched.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/mount.h>
#include <sys/ptrace.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <string>
#include <thread>

#include "files/confine.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "files/used_folder.h"

namespace {

void tell(const char* what, bool good) {
  const int fault = errno;
  std::printf("%s: %s\n", what, good ? "ok" : ::strerrorname_np(fault));
}

void tell_call(const char* what, long result) { tell(what, result >= 0); }

void try_processes() {
  char* const arguments[] = {const_cast<char*>("true"), nullptr};
  tell_call("exec", ::execv("/bin/true", arguments));
  const pid_t child = ::fork();
  if (child == 0) ::_exit(0);
  tell_call("fork", child);
  const pid_t other = ::vfork();
  if (other == 0) ::_exit(0);
  tell_call("vfork", other);
  tell_call("clone3", ::syscall(SYS_clone3, nullptr, 0));
  // A process that nobody traces: ESRCH where the call is free.
  tell_call("ptrace", ::ptrace(PTRACE_CONT, ::getppid(), nullptr, nullptr));
  tell_call("kill", ::kill(::getppid(), 0));
  tell_call("tgkill of another",
            ::syscall(SYS_tgkill, ::getppid(), ::getppid(), 0));
  tell_call("tgkill of itself",
            ::syscall(SYS_tgkill, ::getpid(), ::gettid(), 0));
  tell_call("namespace", ::unshare(CLONE_NEWUSER));
  rlimit limit{};
  tell_call("limits of another",
            ::prlimit(::getppid(), RLIMIT_NOFILE, nullptr, &limit));
  tell_call("its own limits", ::getrlimit(RLIMIT_NOFILE, &limit));
  int seen = 0;
  std::thread([&] { seen = 1; }).join();
  tell("thread", seen == 1);
}

void try_machine() {
  tell_call("socket", ::socket(AF_INET, SOCK_STREAM, 0));
  tell_call("local socket", ::socket(AF_UNIX, SOCK_STREAM, 0));
  int pair[2];
  tell_call("socket pair", ::socketpair(AF_UNIX, SOCK_STREAM, 0, pair));
  tell_call("mount", ::mount("none", "/", "tmpfs", 0, nullptr));
  tell_call("kexec", ::syscall(SYS_kexec_load, 0, 0, nullptr, 0));
  tell_call("bpf", ::syscall(SYS_bpf, BPF_MAP_CREATE, nullptr, 0));
  tell_call("ring", ::syscall(SYS_io_uring_setup, 1, nullptr));
  tell_call("call to come", ::syscall(460));
  char key = 'x';
  tell_call("typing", ::ioctl(0, TIOCSTI, &key));
  void* const code = ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE | PROT_EXEC,
                            MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  tell("code", code != MAP_FAILED);
  void* const data = ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE,
                            MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  tell("memory", data != MAP_FAILED);
  tell_call("data as code", ::mprotect(data, 4096, PROT_READ | PROT_EXEC));
}

void try_open(const char* what, const std::string& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC, 0600);
  tell_call(what, file);
  if (file >= 0) ::close(file);
}

void try_write(const char* what, const std::string& folder) {
  try {
    const auto files = sheaf::disk().write();
    files->add_new(folder + "/in/a/folder/new", "text");
    files->finish();
    std::printf("%s: ok\n", what);
  } catch (const std::exception&) {
    std::printf("%s: refused\n", what);
  }
}

void try_files(const std::string& read, const std::string& write,
               const std::string& outside) {
  try_open("read", read + "/there", O_RDONLY);
  try_open("read in a folder there", read + "/inner/there", O_RDONLY);
  try_open("write where it reads", read + "/there", O_WRONLY);
  try_open("make where it reads", read + "/new", O_WRONLY | O_CREAT);
  tell_call("remove where it reads", ::unlink((read + "/there").c_str()));
  try_write("write", write);
  try_open("read outside", outside, O_RDONLY);
  try_open("write outside", outside, O_WRONLY);
  try_open("read through a link", read + "/link", O_RDONLY);
  try_open("list outside", "/etc", O_RDONLY | O_DIRECTORY);
  tell_call("make a folder outside",
            ::mkdir((outside + "-folder").c_str(), 0700));
  tell_call("move outside", ::rename((write + "/in/a/folder/new").c_str(),
                                     (outside + "-moved").c_str()));
  struct stat about {};
  tell_call("look outside", ::stat(outside.c_str(), &about));
}

}  // namespace

int main(int argc, char** argv) {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  const std::string first = argc > 1 ? argv[1] : "";
  const bool files = argc == 4;
  sheaf::Needs needs;
  if ((first == "--empty" || first == "--used") && argc == 3) {
    needs.write = {argv[2]};
    sheaf::Descriptor used;
    const sheaf::Confinement nothing_done(needs);
    // As another run would.
    if (first == "--used") used = sheaf::use_folder(argv[2]);
    return 0;
  }
  needs.only_these_files = files;
  if (files) {
    needs.read = {first};
    needs.write = {argv[2]};
  }
  const sheaf::Confinement confinement(needs);
  std::printf("calls filtered: %s\n",
              confinement.filters_calls() ? "yes" : "no");
  std::printf("rules for files: %s\n",
              confinement.rules_for_files() > 0 ? "yes" : "no");
  if (first == "--foreign") {
#if defined(__x86_64__)
    ::syscall(0x40000000 + SYS_getpid);  // x32
#endif
    std::printf("went on\n");
    return 0;
  }
  try_processes();
  try_machine();
  if (files) try_files(first, argv[2], argv[3]);
  if (first == "--calls" && argc == 3) {
    try_open("read outside", argv[2], O_RDONLY);
  }
  return 0;
}
