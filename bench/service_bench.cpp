// How soon an answer is there after a key, as processor time; for each lesson
// the middle of many keys, the worst twentieth, and the ratio to a check of the
// same lesson from nothing.
//
//     sheaf_bench_service SHIPPED LESSON...

#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <functional>

#include "base/error.h"
#include "driver/check_file.h"
#include "files/disk_files.h"
#include "service/service.h"

namespace sheaf {
namespace {

double cpu_now() {
  timespec t{};
  ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e3 +
         static_cast<double>(t.tv_nsec) / 1e6;
}

struct Times {
  std::vector<double> all;
  void add(const std::function<void()>& work) {
    const double begin = cpu_now();
    work();
    all.push_back(cpu_now() - begin);
  }
  double part(double share) {
    std::ranges::sort(all);
    return all[std::min(
        all.size() - 1,
        static_cast<std::size_t>(share * static_cast<double>(all.size())))];
  }
  double middle() { return part(0.5); }
  double worst() { return part(0.95); }
};

// Types a letter behind a word of the list and takes it out again, many times.
void measure(const std::string& shipped, const std::string& path) {
  constexpr int kKeys = 40;
  Times fresh;
  for (int i = 0; i < 5; ++i) {
    fresh.add([&] {
      Workspace workspace(disk(), shipped);
      check_file(workspace, {}, path);
    });
  }
  Service service(disk(), shipped);
  const std::string text = service.text(path).value();
  const std::size_t at = text.find('\n', text.find("words:"));
  std::string typed = text;
  typed.insert(at, "s");
  service.pages(path);
  Times messages, all, pages, page, hover, offers;
  for (int i = 0; i < kKeys; ++i) {
    // A remark makes every text another.
    const std::string& now = i % 2 == 0 ? typed : text;
    service.change(path, fmt::format("{}# {}\n", now, i));
    messages.add([&] { service.messages(path, false); });
    all.add([&] { service.messages(path); });
    pages.add([&] { service.pages(path); });
    page.add([&] { service.draw(path, 2); });
    const auto place = static_cast<std::uint32_t>(at);
    hover.add([&] { service.hover(path, place - 2); });
    offers.add([&] { service.completions(path, place); });
  }
  const auto print = [&](const char* what, Times& times) {
    fmt::print(
        "  {:<28} {:7.2f} ms, worst of 20 {:7.2f} ms, {:5.2f} of a check\n",
        what, times.middle(), times.worst(), times.middle() / fresh.middle());
  };
  fmt::print("{}\n  {:<28} {:7.2f} ms\n", path, "a check from nothing",
             fresh.middle());
  print("messages after a key", messages);
  print("and what the pages show", all);
  print("the list of pages", pages);
  print("one page drawn, 96 dpi", page);
  print("hover over a word", hover);
  print("words offered", offers);
}

}  // namespace
}  // namespace sheaf

int main(int count, char** texts) {
  if (count < 3) {
    fmt::print(stderr, "usage: sheaf_bench_service SHIPPED LESSON...\n");
    return 2;
  }
  try {
    for (int i = 2; i < count; ++i) sheaf::measure(texts[1], texts[i]);
  } catch (const sheaf::MachineError& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 3;
  }
  return 0;
}
