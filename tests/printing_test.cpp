// Packets as they come from the program, and what a printer and a screen reader
// make of them: every rule of our PDF/UA checker, how to print, which paper,
// which page is which, and what lies on the back of what is cut.

#include <gtest/gtest.h>

#include <map>

#if defined(SHEAF_PDFUA)
#include "pdfua/checker.h"
#endif
#include "project_files.h"
#include "support/pdf_file.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::PdfFile;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// Sheets of the demo lessons in every layout, sheets to be cut with and without
// others between, and a class; all made once.
class Printing : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = new TemporaryFolder;
    std::vector<std::string> lessons;
    for (const char* name : {"sh-ship", "ai-ay-rain", "i-e-kite"}) {
      lessons.push_back(
          (project() / "lessons" / (std::string(name) + ".yaml")).string());
    }
    int turn = 0;
    for (const fs::path& layout :
         files_below(project() / "layouts", {".yaml"})) {
      const char* paper = turn++ % 2 == 0 ? "letter" : "a4";
      build(layout.stem().string(), lessons,
            {"--layout", layout.stem().string(), "--paper", paper});
    }
    build("cut", lessons,
          {"--only", "trace", "--only", "word-cards", "--only", "picture-cards",
           "--only", "cover-write", "--only", "grapheme-cards", "--only",
           "home-note", "--only", "mark-sheet", "--only", "writing-tally"});
    build("class", {},
          {"--class", (project() / "lessons/class.yaml").string()});
    build("separate", {lessons[0]}, {"--separate"});
  }
  static void TearDownTestSuite() {
    delete folder_;
    folder_ = nullptr;
  }

  static void build(const std::string& out,
                    const std::vector<std::string>& lessons,
                    const std::vector<std::string>& options) {
    std::vector<std::string> call = {SHEAF_PROGRAM, "build", "--out",
                                     folder_->path() + "/" + out};
    call.insert(call.end(), lessons.begin(), lessons.end());
    call.insert(call.end(), options.begin(), options.end());
    const Outcome built = run_program(call);
    ASSERT_EQ(built.status, 0) << built.out;
  }

  // The name of each file below the folder, with its bytes.
  static std::map<std::string, std::string> packets() {
    std::map<std::string, std::string> all;
    for (const fs::path& file : files_below(folder_->path(), {".pdf"})) {
      all[fs::relative(file, folder_->path()).string()] = read(file);
    }
    return all;
  }

  static TemporaryFolder* folder_;
};
TemporaryFolder* Printing::folder_ = nullptr;

std::vector<std::string> labels_of(const PdfFile& pdf) {
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < pdf.page_count(); ++i) {
    labels.push_back(pdf.label(static_cast<int>(i)));
  }
  return labels;
}

// "B7 word-cards 2" is of the sheet "B7 word-cards".
std::string sheet_of(const std::string& label) {
  return label.substr(0, label.find_last_not_of("0123456789 ") + 1);
}

bool is_blank(const std::string& label) { return label.ends_with("blank"); }

#if defined(SHEAF_PDFUA)
TEST_F(Printing, BreaksNoRuleOfPdfUa) {
  const auto all = packets();
  EXPECT_GE(all.size(), 50U);
  for (const auto& [name, bytes] : all) {
    const pdfua::Report report = pdfua::check(bytes);
    for (const auto& [rule, entry] : report.entries()) {
      ADD_FAILURE() << name << ": " << rule.first << "-" << rule.second << ": "
                    << entry.first << " (" << entry.count << ")";
    }
  }
}
#endif

TEST_F(Printing, SaysHowToPrint) {
  for (const auto& [name, bytes] : packets()) {
    SCOPED_TRACE(name);
    const PdfFile pdf(bytes);
    EXPECT_EQ(pdf.catalog("/ViewerPreferences/PrintScaling"), "/None");
    EXPECT_EQ(pdf.catalog("/ViewerPreferences/Duplex"), "/DuplexFlipLongEdge");
    const std::string paper = pdf.page(0, "/MediaBox");
    if (name.starts_with("class/")) {
      EXPECT_EQ(paper, "[ 0 0 612 792 ]");  // ANSI/ASME Y14.1, in points
    }
    for (std::size_t i = 0; i < pdf.page_count(); ++i) {
      for (const char* box : {"/MediaBox", "/CropBox", "/TrimBox"}) {
        EXPECT_EQ(pdf.page(i, box), paper) << box << " of page " << i + 1;
      }
      EXPECT_EQ(pdf.page(i, "/Rotate"), "null") << "page " << i + 1;
    }
  }
}

TEST_F(Printing, NamesEachPageAndLeadsToEachSheet) {
  for (const auto& [name, bytes] : packets()) {
    SCOPED_TRACE(name);
    const PdfFile pdf(bytes);
    const std::vector<std::string> labels = labels_of(pdf);
    ASSERT_FALSE(labels.empty());
    // A line of the outline for each run of pages of a sheet, in order.
    std::vector<std::size_t> begins;
    std::string sheet;
    int number = 0;
    for (std::size_t i = 0; i < labels.size(); ++i) {
      if (is_blank(labels[i])) continue;
      const bool begins_here =
          sheet_of(labels[i]) != sheet || labels[i].ends_with(" 1");
      if (begins_here) begins.push_back(i);
      number = begins_here ? 1 : number + 1;
      sheet = sheet_of(labels[i]);
      EXPECT_EQ(labels[i], sheet + " " + std::to_string(number));
    }
    const auto outline = pdf.outline();
    ASSERT_EQ(outline.size(), begins.size());
    for (std::size_t i = 0; i < begins.size(); ++i) {
      EXPECT_EQ(outline[i].page, static_cast<int>(begins[i]));
      EXPECT_NE(outline[i].title, "");
    }
  }
}

// Only what is cut bears lines of 2 mm dashes and 2.5 mm gaps. Behind it lies
// nothing, or for cards the backs of their own.
TEST_F(Printing, NeverBacksWhatIsCutWithAnotherSheet) {
  std::map<std::string, int> cut_pages;
  for (const auto& [name, bytes] : packets()) {
    SCOPED_TRACE(name);
    const PdfFile pdf(bytes);
    const std::vector<std::string> labels = labels_of(pdf);
    for (std::size_t i = 0; i < labels.size(); ++i) {
      const auto is_cut = [&](std::size_t page) {
        return pdf.page_stream(page, "/Contents").find("[5.67 7.09]") !=
               std::string::npos;
      };
      if (is_blank(labels[i]) || !is_cut(i)) continue;
      const std::string sheet = sheet_of(labels[i]);
      ++cut_pages[sheet.substr(sheet.rfind(' ') + 1)];
      EXPECT_EQ(i % 2, 0U) << labels[i] << " is page " << i + 1;
      if (i + 1 == labels.size() || is_blank(labels[i + 1])) continue;
      EXPECT_TRUE(sheet.ends_with("-cards")) << labels[i];
      EXPECT_EQ(sheet_of(labels[i + 1]), sheet) << labels[i];
      EXPECT_FALSE(is_cut(i + 1)) << labels[i + 1];
    }
  }
  // The leaf of all sorts, and that of one alone.
  for (const char* sheet : {"cards", "picture-sort", "word-cards",
                            "picture-cards", "grapheme-cards"}) {
    EXPECT_GT(cut_pages[sheet], 2) << sheet;
  }
}

// Nothing that a printer would have to blend: no opacity below one, no blend
// mode; a picture with a mask of its own is the exception (a teacher's PNG).
TEST_F(Printing, HasNoTransparency) {
  for (const auto& [name, bytes] : packets()) {
    const PdfFile pdf(bytes);
    for (std::size_t i = 0; i < pdf.page_count(); ++i) {
      EXPECT_EQ(pdf.page(i, "/Resources/ExtGState"), "null") << name;
      EXPECT_EQ(pdf.page(i, "/Group"), "null") << name;
    }
  }
}

// `make print` with a print command of ours in the place of the system's: what
// it is given, and that the file arrives whole.
TEST(PrintCommand, SendsThePacketOnBothSidesAndUnscaled) {
  const TemporaryFolder folder;
  for (const char* name :
       {"Makefile", "checks.mk", "web.mk", "web", "lessons"}) {
    fs::create_symlink(project() / name, fs::path(folder.path()) / name);
  }
  fs::create_directories(folder.path() + "/src");
  fs::create_directories(folder.path() + "/tools");
  fs::create_symlink(project() / "tools/print.sh",
                     folder.path() + "/tools/print.sh");
  folder.write("CMakeLists.txt", "");
  folder.write("built", "");  // so that make has nothing to compile
  folder.write("tools/lp",
               "#!/bin/sh\nprintf '%s\\n' \"$@\" >called\n"
               "for last; do :; done; cp \"$last\" printed\n");
  folder.write("tools/lpstat", "#!/bin/sh\necho desk\n");
  for (const char* tool : {"/tools/lp", "/tools/lpstat"}) {
    fs::permissions(folder.path() + tool, fs::perms::owner_all);
  }
  const char* const run_make =
      "unset MAKEFLAGS MFLAGS MAKELEVEL; cd \"$0\" && PATH=$0/tools:$PATH "
      "exec make -s \"$@\"";
  const auto make_print = [&](const std::vector<std::string>& more) {
    std::vector<std::string> call = {"sh",
                                     "-c",
                                     run_make,
                                     folder.path(),
                                     "print",
                                     "BUILT=built",
                                     std::string("SHEAF=") + SHEAF_PROGRAM};
    call.insert(call.end(), more.begin(), more.end());
    return run_program(call);
  };
  Outcome printed = make_print({"LESSON=sh-ship"});
  ASSERT_EQ(printed.status, 0) << printed.out;
  EXPECT_EQ(read(folder.path() + "/called"),
            "-o\nsides=two-sided-long-edge\n-o\nprint-scaling=none\n"
            "out/sh-ship/packet.pdf\n");
  EXPECT_TRUE(read(folder.path() + "/printed") ==
              read(folder.path() + "/out/sh-ship/packet.pdf"));
  printed = make_print({"LESSON=class", "PRINTER=desk"});
  ASSERT_EQ(printed.status, 0) << printed.out;
  EXPECT_EQ(read(folder.path() + "/called"),
            "-d\ndesk\n-o\nsides=two-sided-long-edge\n-o\n"
            "print-scaling=none\nout/class/packets.pdf\n");
  EXPECT_TRUE(read(folder.path() + "/printed") ==
              read(folder.path() + "/out/class/packets.pdf"));
  fs::remove(folder.path() + "/called");
  printed = make_print({"LESSON=sh-ship", "DRY=1"});
  EXPECT_EQ(printed.out,
            "lp -o sides=two-sided-long-edge -o print-scaling=none "
            "out/sh-ship/packet.pdf\n");
  EXPECT_FALSE(fs::exists(folder.path() + "/called"));
}

}  // namespace
}  // namespace sheaf::test
