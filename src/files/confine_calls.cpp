#include "files/confine_calls.h"

#if defined(__linux__) && (defined(__x86_64__) || defined(__aarch64__))

#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sched.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace sheaf {

namespace {

// A filter in the language of seccomp(2), written out by hand: there is little
// of it. It names what is refused and lets the rest through, since what a C
// library calls changes with its version; what came into the kernel after
// everything known here answers as if the kernel did not have it.

#if defined(__x86_64__)
constexpr std::uint32_t kArchitecture = AUDIT_ARCH_X86_64;
#else
constexpr std::uint32_t kArchitecture = AUDIT_ARCH_AARCH64;
#endif
// cachestat; the numbers of later calls are the same on all machines.
constexpr std::uint32_t kLastKnown = 451;
constexpr std::uint32_t kBitOfX32 = 0x40000000;

constexpr std::uint32_t kRefused[] = {
    // Other machines and programs.
    __NR_socket,
    __NR_socketpair,
    __NR_connect,
    __NR_bind,
    __NR_listen,
    __NR_accept,
    __NR_accept4,
    __NR_sendto,
    __NR_sendmsg,
    __NR_sendmmsg,
    __NR_recvfrom,
    __NR_recvmsg,
    __NR_recvmmsg,
    __NR_setsockopt,
    // Programs and processes; `clone` is looked at below.
    __NR_execve,
    __NR_execveat,
#ifdef __NR_fork
    __NR_fork,
    __NR_vfork,
#endif
    __NR_setns,
    __NR_unshare,
    __NR_personality,
    __NR_userfaultfd,
    // Other processes.
    __NR_process_vm_readv,
    __NR_process_vm_writev,
    __NR_process_madvise,
    __NR_pidfd_open,
    __NR_pidfd_getfd,
    __NR_pidfd_send_signal,
    __NR_kcmp,
    __NR_kill,
    __NR_tkill,
    __NR_rt_sigqueueinfo,
    __NR_rt_tgsigqueueinfo,
    __NR_migrate_pages,
    __NR_move_pages,
    __NR_perf_event_open,
#ifndef SHEAF_CHECKED
    __NR_ptrace,
#endif
    // Ways round a filter, and around the names of files.
    __NR_io_uring_setup,
    __NR_io_uring_enter,
    __NR_io_uring_register,
    __NR_io_setup,
    __NR_io_submit,
    __NR_bpf,
    __NR_open_by_handle_at,
    __NR_name_to_handle_at,
    __NR_fanotify_init,
    __NR_fanotify_mark,
    // Keys, users and rights.
    __NR_add_key,
    __NR_request_key,
    __NR_keyctl,
    __NR_setuid,
    __NR_setgid,
    __NR_setreuid,
    __NR_setregid,
    __NR_setresuid,
    __NR_setresgid,
    __NR_setfsuid,
    __NR_setfsgid,
    __NR_setgroups,
    __NR_capset,
    // The tree of files as a whole, and what is no file in it.
    __NR_mount,
    __NR_umount2,
    __NR_pivot_root,
    __NR_chroot,
    __NR_swapon,
    __NR_swapoff,
    __NR_quotactl,
    __NR_quotactl_fd,
    __NR_move_mount,
    __NR_open_tree,
    __NR_fsopen,
    __NR_fsconfig,
    __NR_fsmount,
    __NR_fspick,
    __NR_mount_setattr,
    __NR_mknodat,
#ifdef __NR_mknod
    __NR_mknod,
#endif
    // The machine.
    __NR_reboot,
    __NR_kexec_load,
    __NR_kexec_file_load,
    __NR_init_module,
    __NR_finit_module,
    __NR_delete_module,
    __NR_acct,
    __NR_syslog,
    __NR_settimeofday,
    __NR_clock_settime,
    __NR_adjtimex,
    __NR_clock_adjtime,
    __NR_sethostname,
    __NR_setdomainname,
    __NR_vhangup,
    __NR_lookup_dcookie,
#ifdef __NR_iopl
    __NR_iopl,
    __NR_ioperm,
    __NR_modify_ldt,
#endif
#ifdef __NR_uselib
    __NR_uselib,
    __NR_ustat,
    __NR_sysfs,
#endif
};

constexpr std::uint32_t kAllow = SECCOMP_RET_ALLOW;
constexpr std::uint32_t kEnd = SECCOMP_RET_KILL_PROCESS;
constexpr std::uint32_t answer(int fault) {
  return SECCOMP_RET_ERRNO |
         (static_cast<std::uint32_t>(fault) & SECCOMP_RET_DATA);
}

class Filter {
 public:
  void load(std::size_t place) {
    add(BPF_LD | BPF_W | BPF_ABS, static_cast<std::uint32_t>(place));
  }
  void keep_bits(std::uint32_t bits) { add(BPF_ALU | BPF_AND | BPF_K, bits); }
  void give(std::uint32_t result) { add(BPF_RET | BPF_K, result); }
  /// What the next `count` lines do holds only where the value is this one, is
  /// not, or is at least so much.
  void where_is(std::uint32_t value, std::uint8_t count) {
    add(BPF_JMP | BPF_JEQ | BPF_K, value, 0, count);
  }
  void where_is_not(std::uint32_t value, std::uint8_t count) {
    add(BPF_JMP | BPF_JEQ | BPF_K, value, count, 0);
  }
  void where_at_least(std::uint32_t value, std::uint8_t count) {
    add(BPF_JMP | BPF_JGE | BPF_K, value, 0, count);
  }
  bool install() {
    const sock_fprog program{static_cast<unsigned short>(lines_.size()),
                             lines_.data()};
    return ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program, 0, 0) == 0;
  }

 private:
  void add(int code, std::uint32_t value, std::uint8_t if_true = 0,
           std::uint8_t if_false = 0) {
    lines_.push_back(
        {static_cast<std::uint16_t>(code), if_true, if_false, value});
  }
  std::vector<sock_filter> lines_;
};

constexpr std::size_t kNumber = offsetof(seccomp_data, nr);
// Of arguments the lower half alone: none of those looked at is longer. Both
// machines have it first.
constexpr std::size_t argument(std::size_t index) {
  return offsetof(seccomp_data, args) + index * sizeof(std::uint64_t);
}

// Of a call with this number, what its argument has in common with `bits` is
// asked for: it is refused where that is this value, or where it is another.
enum class Refused { same, other };
void refuse_where(Filter& filter, std::uint32_t call, std::size_t index,
                  std::uint32_t bits, Refused refused, std::uint32_t value) {
  filter.where_is(call, 5);
  filter.load(argument(index));
  filter.keep_bits(bits);
  if (refused == Refused::same) {
    filter.where_is(value, 1);
  } else {
    filter.where_is_not(value, 1);
  }
  filter.give(answer(EPERM));
  filter.load(kNumber);
}

}  // namespace

bool refuse_calls() {
  constexpr std::uint32_t kAnyBits = 0xFFFFFFFF;
  Filter filter;
  // No program does this by mistake.
  filter.load(offsetof(seccomp_data, arch));
  filter.where_is_not(kArchitecture, 1);
  filter.give(kEnd);
  filter.load(kNumber);
#if defined(__x86_64__)
  filter.where_at_least(kBitOfX32, 1);
  filter.give(kEnd);
#endif
  filter.where_at_least(kLastKnown + 1, 1);
  filter.give(answer(ENOSYS));
  for (const std::uint32_t call : kRefused) {
    filter.where_is(call, 1);
    filter.give(answer(EPERM));
  }
#ifndef SHEAF_CHECKED
  // Threads are begun by `clone`; what `clone3` is asked for cannot be seen, so
  // the C library is sent back to the older call.
  filter.where_is(__NR_clone3, 1);
  filter.give(answer(ENOSYS));
  refuse_where(filter, __NR_clone, 0, CLONE_THREAD, Refused::other,
               CLONE_THREAD);
  // Nothing here makes code at run time.
  refuse_where(filter, __NR_mmap, 2, PROT_EXEC, Refused::same, PROT_EXEC);
  refuse_where(filter, __NR_mprotect, 2, PROT_EXEC, Refused::same, PROT_EXEC);
  refuse_where(filter, __NR_pkey_mprotect, 2, PROT_EXEC, Refused::same,
               PROT_EXEC);
#endif
  // A process may end itself, and ask for its own limits.
  refuse_where(filter, __NR_tgkill, 0, kAnyBits, Refused::other,
               static_cast<std::uint32_t>(::getpid()));
  refuse_where(filter, __NR_prlimit64, 0, kAnyBits, Refused::other, 0);
  // Keys pressed on a terminal in the user's name: a shell would run them.
  refuse_where(filter, __NR_ioctl, 1, kAnyBits, Refused::same, TIOCSTI);
  refuse_where(filter, __NR_ioctl, 1, kAnyBits, Refused::same, TIOCLINUX);
  filter.give(kAllow);
  return filter.install();
}

}  // namespace sheaf

#else

namespace sheaf {

bool refuse_calls() { return false; }

}  // namespace sheaf

#endif
