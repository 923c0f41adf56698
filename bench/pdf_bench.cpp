// How fast and how small PDFs come out, with tags, against the floor: zlib
// alone over the same content streams. Prints one figure a line.

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "pdf/deflate.h"
#include "pdf/font_set.h"
#include "pdf/objects.h"
#include "pdf/page_content.h"
#include "pdf/pdf_writer.h"
#include "pdf/picture_set.h"
#include "pdf/structure_tree.h"
#include "pdf/text_operators.h"
#include "support/sample_document.h"

#include "pdf_streams.h"

#include <fmt/format.h>
#include <zlib.h>

namespace {

using sheaf::Document;
using sheaf::testing_support::DocumentMaker;

double cpu_ms() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto ms = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) * 1e3 +
           static_cast<double>(t.tv_usec) / 1e3;
  };
  return ms(usage.ru_utime) + ms(usage.ru_stime);
}

// The best of several runs of each work, in turns: what disturbs one run does
// not disturb all, and what disturbs for a while disturbs all works alike.
std::vector<double> best_ms(const std::vector<std::function<void()>>& works,
                            int runs = 15) {
  std::vector<double> best(works.size(), std::numeric_limits<double>::max());
  for (int run = 0; run < runs; ++run) {
    for (std::size_t i = 0; i < works.size(); ++i) {
      const double start = cpu_ms();
      works[i]();
      best[i] = std::min(best[i], cpu_ms() - start);
    }
  }
  return best;
}

// The operators of every page, as the writer makes them.
std::vector<std::string> content_streams(const Document& document) {
  sheaf::FontSet fonts;
  sheaf::PictureSet pictures;
  sheaf::TextOperators texts(fonts);
  sheaf::StructureTree tree;
  tree.add(document.elements);
  sheaf::PageContent content(tree, texts, pictures);
  std::vector<std::string> streams;
  for (std::uint32_t i = 0; i < document.pages.size(); ++i) {
    streams.push_back(content.write(document.pages[i], i));
  }
  return streams;
}

// All streams of a file but those of its tags and numbers, unpacked: what zlib
// has to do for this document whoever writes it.
std::vector<std::string> drawn_streams(const std::string& pdf) {
  std::vector<std::string> streams;
  const auto unpack = [&](const auto& dictionary, const auto& data) {
    const bool is_drawn = dictionary.find("FlateDecode") != std::string::npos &&
                          dictionary.find("/ObjStm") == std::string::npos &&
                          dictionary.find("/XRef") == std::string::npos;
    if (!is_drawn) return;
    std::string out(data.size() * 100 + 1000, '\0');
    uLongf size = out.size();
    uncompress(reinterpret_cast<Bytef*>(out.data()), &size,
               reinterpret_cast<const Bytef*>(data.data()), data.size());
    out.resize(size);
    streams.push_back(std::move(out));
  };
  sheaf::bench::for_each_stream(pdf, unpack);
  return streams;
}

// zlib at its usual level (6), set up once, into a buffer that is large enough.
void compress_all(const std::vector<std::string>& streams) {
  z_stream zlib{};
  deflateInit(&zlib, 6);
  std::string out;
  for (const std::string& stream : streams) {
    out.resize(deflateBound(&zlib, stream.size()));
    deflateReset(&zlib);
    zlib.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(stream.data()));
    zlib.avail_in = static_cast<uInt>(stream.size());
    zlib.next_out = reinterpret_cast<Bytef*>(out.data());
    zlib.avail_out = static_cast<uInt>(out.size());
    deflate(&zlib, Z_FINISH);
  }
  deflateEnd(&zlib);
}

void measure_one_document(DocumentMaker& maker, std::size_t pages) {
  const Document document = maker.worksheet(pages, 1);
  const auto count = static_cast<double>(pages);
  const std::vector<std::string> streams = content_streams(document);
  std::size_t content = 0, marks = 0;
  for (const std::string& stream : streams) content += stream.size();
  for (const sheaf::Page& page : document.pages) marks += page.marks.size();
  fmt::print(
      "one document of {} pages, {:.0f} elements and {:.0f} marks a "
      "page\n",
      pages, static_cast<double>(document.elements.size()) / count,
      static_cast<double>(marks) / count);
  std::string bytes;
  const std::vector<double> ms = best_ms(
      {[&] { bytes = write_pdf(document); }, [&] { compress_all(streams); },
       [&] { content_streams(document); },
       [&] {
         sheaf::Objects objects;
         for (std::size_t i = 0; i < pages; ++i) objects.add_page();
       }});
  const double whole = ms[0], floor = ms[1], operators = ms[2],
               page_objects = ms[3];
  fmt::print("  pages a second         {:8.0f}\n", count / whole * 1e3);
  fmt::print("  ratio to the floor     {:8.2f}   (gate 2.50)\n", whole / floor);
  fmt::print("  bytes a page           {:8.0f}   (content unpacked {:.0f})\n",
             static_cast<double>(bytes.size()) / count,
             static_cast<double>(content) / count);
  fmt::print(
      "  CPU ms a page: whole {:.4f}, zlib over content {:.4f}, "
      "operators {:.4f}, libharu's pages {:.4f}, tags, fonts and file "
      "{:.4f}\n",
      whole / count, floor / count, operators / count, page_objects / count,
      (whole - floor - operators - page_objects) / count);
}

// What `work` costs in a process of its own, where nothing has been done
// before.
double fresh_ms(const std::function<void()>& work, int runs = 9) {
  double best = std::numeric_limits<double>::max();
  for (int i = 0; i < runs; ++i) {
    int ends[2];
    if (pipe(ends) != 0) std::abort();
    const pid_t child = fork();
    if (child == 0) {
      const double start = cpu_ms();
      work();
      const double ms = cpu_ms() - start;
      const bool told = write(ends[1], &ms, sizeof ms) == sizeof ms;
      _exit(told ? 0 : 1);
    }
    double ms = 0;
    if (read(ends[0], &ms, sizeof ms) == sizeof ms) best = std::min(best, ms);
    close(ends[0]);
    close(ends[1]);
    waitpid(child, nullptr, 0);
  }
  return best;
}

void measure_packets(DocumentMaker& maker, unsigned learners,
                     std::size_t pages) {
  std::vector<Document> packets;
  for (unsigned i = 0; i < learners; ++i) {
    packets.push_back(maker.worksheet(pages, i));
  }
  const double whole = fresh_ms([&] {
    for (const Document& packet : packets) write_pdf(packet);
  });
  std::vector<std::string> content, all;
  std::size_t bytes = 0;
  for (const Document& packet : packets) {
    const std::string pdf = write_pdf(packet);
    bytes += pdf.size();
    for (auto& stream : content_streams(packet)) content.push_back(stream);
    for (auto& stream : drawn_streams(pdf)) all.push_back(stream);
  }
  const double floor = fresh_ms([&] { compress_all(content); });
  const double wide_floor = fresh_ms([&] { compress_all(all); });
  fmt::print("{} packets of {} pages, in a fresh process\n", learners, pages);
  fmt::print("  CPU ms                 {:8.1f}   (aim 150 for 240 pages)\n",
             whole);
  fmt::print("  ratio to the floor     {:8.2f}   (pages' streams only)\n",
             whole / floor);
  fmt::print("  ratio to the floor     {:8.2f}   (fonts and drawings too)\n",
             whole / wide_floor);
  fmt::print(
      "  bytes a page           {:8.0f}   (fonts and all)\n",
      static_cast<double>(bytes) / static_cast<double>(learners * pages));
}

// Runs one measurement where no other has been before it.
void apart(const std::function<void()>& measurement) {
  const pid_t child = fork();
  if (child == 0) {
    measurement();
    std::fflush(stdout);
    _exit(0);
  }
  waitpid(child, nullptr, 0);
}

// Peak memory of a process of its own that makes packets of 16 pages and writes
// them into one file, as for a class.
void measure_memory(std::size_t pages) {
  std::fflush(stdout);
  const pid_t child = fork();
  if (child == 0) {
    DocumentMaker maker(SHEAF_FONTS);
    sheaf::PdfWriter writer({"All"});
    for (unsigned seed = 1; writer.page_count() < pages; ++seed) {
      writer.add(maker.worksheet(
          std::min<std::size_t>(16, pages - writer.page_count()), seed));
    }
    _exit(writer.finish().empty() ? 1 : 0);
  }
  int status = 0;
  rusage usage{};
  wait4(child, &status, 0, &usage);
  fmt::print("peak memory for {:5} pages: {:.1f} MiB, packets and all\n", pages,
             static_cast<double>(usage.ru_maxrss) / 1024);
}

}  // namespace

int main() {
  // First, while this process itself is small: a child starts as its copy.
  for (const std::size_t pages : {1U, 300U, 1200U, 4800U}) {
    measure_memory(pages);
  }
  DocumentMaker maker(SHEAF_FONTS);
  std::fflush(stdout);
  apart([&] { measure_packets(maker, 1, 8); });
  apart([&] { measure_packets(maker, 30, 8); });
  apart([&] { measure_one_document(maker, 500); });
  return 0;
}
