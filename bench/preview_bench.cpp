// How long it takes to draw a page of the demo lessons, in time of the
// processor. The goal is 10 ms at 96 dots an inch.
//   sheaf_bench_preview FOLDER

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

#include "driver/workspace.h"
#include "files/disk_files.h"
#include "preview/preview.h"

namespace {

double now() {
  timespec time{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
  return static_cast<double>(time.tv_sec) * 1e3 +
         static_cast<double>(time.tv_nsec) / 1e6;
}

struct Times {
  std::vector<double> draw, write;
};

void print(const char* what, std::vector<double>& times) {
  std::ranges::sort(times);
  double sum = 0;
  for (const double time : times) sum += time;
  const auto count = static_cast<double>(times.size());
  std::printf("  %-6s mean %.2f ms, median %.2f ms, slowest %.2f ms\n", what,
              sum / count, times[times.size() / 2], times.back());
}

}  // namespace

int main(int argc, char** argv) {
  using namespace sheaf;
  if (argc != 2) return 2;
  Workspace workspace(disk(), shipped_folder());
  auto lessons = yaml_files(disk(), argv[1]);
  std::erase_if(lessons, [](const FilePath& path) {
    return path.stem().string().ends_with("class");
  });
  for (const int dpi : {40, 96, 200}) {
    Times times;
    for (const FilePath& path : lessons) {
      Diagnostics diagnostics;
      const auto lesson = prepare(workspace, {}, path.string(), diagnostics);
      if (lesson == nullptr) return 1;
      const Packet packet =
          make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                      lesson->style, workspace.shaper(), {}, diagnostics);
      for (const Document* document : {&packet.learner, &packet.teacher}) {
        for (const Page& page : document->pages) {
          const double start = now();
          const PreviewImage image = draw_page(page, {.dpi = dpi});
          const double drawn = now();
          const std::string bytes = write_png(image);
          times.draw.push_back(drawn - start);
          times.write.push_back(now() - drawn);
        }
      }
    }
    if (times.draw.empty()) return 1;
    std::printf("%zu pages at %d dots an inch\n", times.draw.size(), dpi);
    print("drawn", times.draw);
    print("as PNG", times.write);
  }
}
