// How fast Sheaf is, as figures for people and as ratios that mean the same on
// any machine: never part of the tests. The floor is zlib alone over the same
// page contents, at its usual level (6); the writer itself packs with
// libdeflate.
//
//     sheaf_bench PROGRAM LESSONS YEAR (two folders)

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <zlib.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <functional>
#include <limits>

#include "driver/workspace.h"
#include "files/disk_files.h"
#include "input/file_kind.h"
#include "pdf/pdf_writer.h"
#include "support/pdf_file.h"

#include "pdf_streams.h"

namespace sheaf {
namespace {

namespace fs = std::filesystem;

// Processor time of this process, in milliseconds.
double cpu_now() {
  timespec t{};
  ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e3 +
         static_cast<double>(t.tv_nsec) / 1e6;
}

// The least processor time of several runs, in milliseconds: what disturbs a
// run only ever makes it longer.
double best_of(int runs, const std::function<void()>& work) {
  double best = 1e18;
  for (int i = 0; i < runs; ++i) {
    const double begin = cpu_now();
    work();
    best = std::min(best, cpu_now() - begin);
  }
  return best;
}

// Least processor time of a whole process, start to exit, in milliseconds; a
// run that fails counts as never.
double best_process(int runs, const std::vector<std::string>& command) {
  double best = 1e18;
  for (int i = 0; i < runs; ++i) {
    std::vector<char*> arguments;
    for (const std::string& a : command) {
      arguments.push_back(const_cast<char*>(a.c_str()));
    }
    arguments.push_back(nullptr);
    std::fflush(stdout);
    const pid_t child = ::fork();
    if (child == 0) {
      std::freopen("/dev/null", "w", stdout);
      std::freopen("/dev/null", "w", stderr);
      ::execv(arguments[0], arguments.data());
      ::_exit(127);
    }
    int status = 0;
    rusage use{};
    ::wait4(child, &status, 0, &use);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
      return std::numeric_limits<double>::infinity();
    }
    const auto ms = [](const timeval& t) {
      return static_cast<double>(t.tv_sec) * 1e3 +
             static_cast<double>(t.tv_usec) / 1e3;
    };
    best = std::min(best, ms(use.ru_utime) + ms(use.ru_stime));
  }
  return best;
}

std::vector<std::string> page_contents(const std::string& pdf) {
  const testing_support::PdfFile file(pdf);
  std::vector<std::string> contents;
  for (std::size_t page = 0; page < file.page_count(); ++page) {
    contents.push_back(file.page_stream(page, "/Contents"));
  }
  return contents;
}

// Bytes of a file's fonts and drawings, which its pages share.
std::size_t shared_bytes(const std::string& pdf) {
  std::size_t sum = 0;
  bench::for_each_stream(pdf, [&](const auto& dictionary, const auto& data) {
    const bool is_shared = dictionary.find("/Length1") != std::string::npos ||
                           dictionary.find("/XObject") != std::string::npos;
    if (is_shared) sum += dictionary.size() + data.size();
  });
  return sum;
}

// One reused stream, set up once.
void deflate_all(const std::vector<std::string>& contents) {
  z_stream stream{};
  deflateInit(&stream, 6);
  std::string out;
  for (const std::string& content : contents) {
    deflateReset(&stream);
    out.resize(deflateBound(&stream, content.size()));
    stream.next_in =
        reinterpret_cast<Bytef*>(const_cast<char*>(content.data()));
    stream.avail_in = static_cast<uInt>(content.size());
    stream.next_out = reinterpret_cast<Bytef*>(out.data());
    stream.avail_out = static_cast<uInt>(out.size());
    deflate(&stream, Z_FINISH);
  }
  deflateEnd(&stream);
}

void report(const std::string& what, double ms, std::size_t pages) {
  fmt::print("{:<44} {:8.2f} ms {:>7.0f} pages/s\n", what, ms,
             static_cast<double>(pages) / ms * 1e3);
}

// All stages of one lesson, each by itself.
void stages(Workspace& workspace, const LessonRequest& request,
            const std::string& path) {
  std::unique_ptr<PreparedLesson> lesson;
  Packet packet;
  std::string pdf;
  const double prepare_ms = best_of(20, [&] {
    Diagnostics d;
    lesson = prepare(workspace, request, path, d);
  });
  const double compose_ms = best_of(20, [&] {
    Diagnostics d;
    packet = make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                         lesson->style, workspace.shaper(), {}, d);
  });
  const double write_ms = best_of(20, [&] { pdf = write_pdf(packet.learner); });
  const std::size_t pages = packet.learner.pages.size();
  fmt::print("one lesson, {} learner's pages, in a warm process\n", pages);
  report("  read, analyse, layout", prepare_ms, pages);
  report("  compose both documents", compose_ms, pages);
  report("  write the learner's PDF", write_ms, pages);
  const auto contents = page_contents(pdf);
  const double floor_ms = best_of(20, [&] { deflate_all(contents); });
  report("  floor: zlib alone over the same pages", floor_ms, pages);
  fmt::print(
      "  writing is {:.2f} times the floor (gate 2.50); {} bytes a page, of "
      "which content and tags {}\n",
      write_ms / floor_ms, pdf.size() / pages,
      (pdf.size() - shared_bytes(pdf)) / pages);
}

void many(Workspace& workspace, const LessonRequest& request,
          const std::vector<std::string>& lessons, std::size_t count,
          const std::string& what) {
  std::size_t pages = 0, bytes = 0;
  std::vector<std::string> contents;
  const auto work = [&](bool keep) {
    pages = bytes = 0;
    for (std::size_t i = 0; i < count; ++i) {
      Diagnostics d;
      const auto lesson =
          prepare(workspace, request, lessons[i % lessons.size()], d);
      const Packet packet =
          make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                      lesson->style, workspace.shaper(), {}, d);
      for (const Document* document : {&packet.learner, &packet.teacher}) {
        const std::string pdf = write_pdf(*document);
        pages += document->pages.size();
        bytes += pdf.size();
        if (!keep) continue;
        for (std::string& c : page_contents(pdf)) {
          contents.push_back(std::move(c));
        }
      }
    }
  };
  work(true);
  const double ms = best_of(3, [&] { work(false); });
  const double floor_ms = best_of(3, [&] { deflate_all(contents); });
  report(what, ms, pages);
  fmt::print(
      "  {} pages; {:.2f} times the floor ({:.2f} ms); {} bytes a page\n",
      pages, ms / floor_ms, floor_ms, bytes / pages);
}

std::vector<std::string> lessons_in(const char* folder) {
  Workspace workspace(disk(), "");
  std::vector<std::string> lessons;
  for (const fs::path& file : yaml_files(disk(), folder)) {
    if (likely_kind(workspace.open(file)) == FileKind::lesson) {
      lessons.push_back(file.string());
    }
  }
  return lessons;
}

int run(int argc, char** argv) {
  if (argc != 4) return 2;
  const std::string program = argv[1];
  const std::vector<std::string> lessons = lessons_in(argv[2]);
  const std::vector<std::string> year = lessons_in(argv[3]);
  if (lessons.empty()) return 2;
  const fs::path out = fs::temp_directory_path() / "sheaf-bench";
  const LessonRequest request;

  fmt::print(
      "whole process, start to exit, one lesson: {:.2f} ms of CPU\n",
      best_process(20, {program, "build", lessons[0], "--out", out.string()}));
  fmt::print("`find oa`, start to exit: {:.2f} ms of CPU (bound 50)\n",
             best_process(20, {program, "find", "oa"}));
  if (!year.empty()) {
    std::vector<std::string> command = {program, "build", "--out",
                                        out.string()};
    command.insert(command.end(), year.begin(), year.end());
    fmt::print(
        "a year, {} lessons, packets and teacher's files, one process:"
        " {:.0f} ms of CPU (bound 600)\n",
        year.size(), best_process(5, command));
  }
  Workspace workspace(disk(), fs::path(program).parent_path() / "share/sheaf");
  stages(workspace, request, lessons[0]);
  many(workspace, request, lessons, 36,
       "36 lessons, both documents, one process");
  many(workspace, request, {lessons[0]}, 30,
       "one lesson for 30 names, one process");
  fs::remove_all(out);
  return 0;
}

}  // namespace
}  // namespace sheaf

int main(int argc, char** argv) { return sheaf::run(argc, argv); }
