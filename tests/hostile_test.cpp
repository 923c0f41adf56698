// Files from strangers: each case is a folder with a lesson (and what goes with
// it) that means harm or is broken. The program ends with code 1 and a message
// that names the file and the place, within a small memory and a short time,
// and nothing is written.

#include <sys/stat.h>

#include "hostile_cases.h"
#include "support/small_font.h"
#include "unit/pictures_made_images.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::TemporaryFolder;

constexpr const char* kGood = "pattern: sh\nwords: ship shed fish\n";

struct Case {
  std::string name;
  std::string lesson;
  /// What the message names; the lesson where empty.
  std::string blamed = "lesson.yaml:";
  std::function<void(const TemporaryFolder&)> prepare = {};
  std::string layout = {};
};

std::vector<Case> text_cases() {
  using namespace std::string_literals;
  return {
      {"empty", ""},
      {"only a comment", "# nothing here\n"},
      {"deep lists", "words: " + repeated("[", 20000)},
      {"deep maps", "words: " + repeated("{a: ", 20000)},
      {"deep blocks",
       [] {
         std::string text;
         for (int i = 0; i < 600; ++i) {
           text += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
         }
         return text;
       }()},
      {"alias bomb", alias_bomb(kGood)},
      {"an alias to itself", "words: &a [*a]\n"s + kGood},
      {"one scalar of a megabyte", kGood + "title: "s + repeated("x", 1 << 20)},
      {"one word of a megabyte",
       "pattern: sh\nwords: " + repeated("sh", 1 << 19) + "\n"},
      {"100,000 words",
       "pattern: sh\nwords:" + many_words(100000, "sh") + "\n"},
      {"a larger file than any lesson", kGood + repeated("# x\n", 3 << 20)},
      {"a hundred thousand keys",
       [] {
         std::string text = kGood;
         for (int i = 0; i < 100000; ++i) {
           text += "k" + std::to_string(i) + ": x\n";
         }
         return text;
       }()},
      {"NULs", "pattern: sh\nwords: sh\0ip fish\n"s},
      {"a NUL at the start", "\0"s + kGood},
      {"broken UTF-8", "pattern: sh\nwords: sh\xC3 fi\xFFsh\n"},
      {"overlong UTF-8", "pattern: sh\nwords: sh\xC0\xAFip\n"},
      {"surrogates", "pattern: sh\nwords: ship \xED\xA0\x80\n"},
      {"UTF-16", "\xFF\xFEp\0a\0t\0t\0e\0r\0n\0:\0s\0h\0"s},
      {"bidi controls", "pattern: sh\nwords: ship \xE2\x80\xAEhsif\n"},
      {"bidi controls in a title",
       kGood + "title: \xE2\x81\xA6week\xE2\x80\xAE 3\n"s},
      {"a flood of combining marks",
       "pattern: sh\nwords: ship s" + repeated("\xCC\x81", 5000) + "h\n"},
      {"combining marks in a title",
       kGood + "title: Z"s + repeated("\xCC\x9F\xCC\xB4", 200) + "\n"},
      {"emoji as words", "pattern: sh\nwords: ship \xF0\x9F\x90\x9F\n"},
      {"digits as words", "pattern: sh\nwords: ship 12345\n"},
      {"another alphabet",
       "pattern: sh\nwords: ship \xD1\x88\xD0\xB8\xD0\xBF\n"},
      {"a pattern that is none", "pattern: " + repeated("q", 3000) + "\n"},
      {"five patterns", "pattern: sh, ch, th, wh, ck\nwords: ship\n"},
      {"a number out of range", kGood + "days: 999999999999999999999\n"s},
      {"a negative number", kGood + "minutes: -5\n"s},
      {"not a number", kGood + "days: .nan\n"s},
      {"a number in hex", kGood + "days: 0x7FFFFFFF\n"s},
      {"a tag that makes objects", kGood + "title: !!python/object:os x\n"s},
      {"two documents", kGood + "---\n"s + kGood},
      {"an unclosed quote", kGood + "title: \"week"s},
      {"a tab as indent", "pattern: sh\nwords:\n\t- ship\n"},
      {"the same key twice", kGood + "words: shop\n"s},
      {"a map for a word list", "pattern: sh\nwords: {ship: {shed: fish}}\n"},
      {"a list for a pattern's name", "pattern: [[[sh]]]\nwords: ship\n"},
      {"a split that spells another word", kGood + "split: {ship: f i sh}\n"s},
      {"a command for a title", kGood + "layout: $(touch owned)\n"s},
      {"a layout that climbs out", kGood + "layout: ../../etc/week\n"s},
      {"an absolute layout", kGood + "layout: /etc/passwd\n"s},
  };
}

Case picture_case(const std::string& name, const std::string& file,
                  std::function<void(const TemporaryFolder&)> prepare = {}) {
  return {name, kGood + ("pictures: {ship: " + file + "}\n"),
          "lesson.yaml:3:18:", std::move(prepare)};
}

Case image_case(const std::string& name, const std::string& file,
                const std::string& bytes) {
  return picture_case(name, file, [=](const TemporaryFolder& folder) {
    folder.write(file, bytes);
  });
}

std::string grey_rows(std::size_t width, std::size_t height) {
  return std::string((width + 1) * height, '\0');
}

std::string png_of(std::uint32_t width, std::uint32_t height,
                   const std::string& rows) {
  return kPngSignature + png_header(width, height, 8, 0) +
         png_chunk("IDAT", deflated(rows)) + png_chunk("IEND", "");
}

std::vector<Case> picture_cases() {
  using namespace std::string_literals;
  const std::string whole = png_of(8, 8, grey_rows(8, 8));
  std::string wrong_sum = whole;
  wrong_sum[kPngSignature.size() + 24] ^= 1;
  return {
      picture_case("a picture that is not there", "none.png"),
      picture_case("a picture that climbs out", "../secret.png"),
      picture_case("a picture that climbs out by a folder", "a/../../b.png"),
      picture_case("an absolute picture", "/etc/passwd"),
      picture_case("a device", "/dev/zero"),
      picture_case("an address", "http://pictures.example/ship.png"),
      picture_case("a home folder", "~/ship.png"),
      picture_case("a link to a device", "zero.png",
                   [](const TemporaryFolder& folder) {
                     fs::create_symlink("/dev/zero",
                                        folder.path() + "/zero.png");
                   }),
      picture_case("a link out of the folder", "link.png",
                   [](const TemporaryFolder& folder) {
                     fs::create_symlink("/etc/passwd",
                                        folder.path() + "/link.png");
                   }),
      picture_case("a link to itself", "loop.png",
                   [](const TemporaryFolder& folder) {
                     fs::create_symlink("loop.png",
                                        folder.path() + "/loop.png");
                   }),
      picture_case(
          "a pipe", "pipe.png",
          [](const TemporaryFolder& folder) {
            ASSERT_EQ(mkfifo((folder.path() + "/pipe.png").c_str(), 0600), 0);
          }),
      picture_case("a folder", "folder.png",
                   [](const TemporaryFolder& folder) {
                     fs::create_directory(folder.path() + "/folder.png");
                   }),
      image_case("an empty PNG", "a.png", ""),
      image_case("text as PNG", "a.png", "this is a picture of a ship"),
      image_case("a PNG cut short", "a.png", whole.substr(0, 40)),
      image_case("a PNG of a million pixels a side", "a.png",
                 png_of(1000000, 1000000, grey_rows(8, 8))),
      image_case("a PNG of no size", "a.png", png_of(0, 0, "")),
      image_case("a PNG of the largest size and hardly any data", "a.png",
                 png_of(8192, 2048, "x")),
      image_case("a PNG with a broken sum", "a.png", wrong_sum),
      image_case("a JPEG cut short", "a.jpg", "\xFF\xD8\xFF\xE0\0\x10JFIF"s),
      image_case("a JPEG of the largest size and no data", "a.jpg",
                 "\xFF\xD8\xFF\xC0\0\x11\x08\xFF\xFF\xFF\xFF\x03\x01\x22\0"
                 "\x02\x11\x01\x03\x11\x01\xFF\xD9"s),
      image_case("a page description as picture", "a.png",
                 "%!PS-Adobe-3.0\n(/etc/passwd) (r) file\n"),
  };
}

Case layout_case(const std::string& name, const std::string& text) {
  return {name, kGood, "layout.yaml", {}, text};
}

Case font_case(const std::string& name, const std::string& bytes) {
  return {
      name, kGood, "layout.yaml:1:",
      [=](const TemporaryFolder& folder) { folder.write("font.ttf", bytes); },
      "typeface: font.ttf\nsheets: [blending]\n"};
}

std::vector<Case> layout_cases() {
  using namespace std::string_literals;
  std::vector<Case> cases = {
      layout_case("margins wider than the paper",
                  "margin: 120 mm\nsheets: [blending]\n"),
      layout_case("a negative margin", "margin: -5 mm\nsheets: [blending]\n"),
      layout_case("letters taller than the paper",
                  "blending-size: 900 pt\nsheets: [blending]\n"),
      layout_case("no size at all", "word-size: 0 pt\nsheets: [blending]\n"),
      layout_case("lines of no height",
                  "line-height: 0 mm\nsheets: [dictation]\n"),
      layout_case("a size without a unit",
                  "word-size: 28\nsheets: [blending]\n"),
      layout_case("a size in miles", "word-size: 28 mi\nsheets: [blending]\n"),
      layout_case("not a number", "word-size: nan pt\nsheets: [blending]\n"),
      layout_case("endless", "word-size: inf pt\nsheets: [blending]\n"),
      layout_case("a million columns",
                  "sheets:\n  - discovery: {columns: 1000000}\n"),
      layout_case("a million words on a page",
                  "sheets:\n  - blending: {per-page: 1000000}\n"),
      layout_case("a sheet that is none", "sheets: [../../blending]\n"),
      layout_case("no sheets", "sheets: []\n"),
      layout_case("paper of no kind", "paper: zero\nsheets: [blending]\n"),
      layout_case("a thousand sheets",
                  "sheets: [" + repeated("blending, ", 1000) + "trace]\n"),
      layout_case("a font of the machine",
                  "typeface: /dev/zero\nsheets: [blending]\n"),
      layout_case("a font that climbs out",
                  "typeface: ../../font.ttf\nsheets: [blending]\n"),
      font_case("an empty font", ""),
      font_case("text as font", "no font at all"),
      font_case("a font of tables that are not there",
                "\0\1\0\0\0\xFF\0\0\0\0\0\0"s + repeated("head\xFF\xFF\xFF\xFF"
                                                         "\xFF\xFF\xFF\xFF"
                                                         "\xFF\xFF\xFF\xFF",
                                                         255)),
      font_case("a font collection without fonts",
                "ttcf\0\1\0\0\xFF\xFF\xFF\xFF"s),
      font_case("a font without capitals", testing_support::SmallFont{}.file()),
      font_case("a font cut short",
                read(project() / "fonts/Andika-Regular.ttf").substr(0, 20000)),
  };
  for (const char* unit : {"mm", "cm", "in", "pt"}) {
    for (const char* number :
         {"99999", "99999999999999999999999", "-3", "0", "0.0000001", "1e9"}) {
      const std::string size = std::string(number) + " " + unit;
      cases.push_back(
          layout_case("a size of " + size,
                      "word-size: " + size + "\nsheets: [blending]\n"));
    }
  }
  return cases;
}

void expect_refused(const Case& hostile) {
  SCOPED_TRACE(hostile.name);
  const TemporaryFolder folder;
  folder.write("lesson.yaml", hostile.lesson);
  if (!hostile.layout.empty()) folder.write("layout.yaml", hostile.layout);
  if (hostile.prepare) hostile.prepare(folder);
  std::vector<std::string> arguments = {"build", "lesson.yaml", "--out",
                                        "pages"};
  if (!hostile.layout.empty()) {
    arguments.insert(arguments.end(), {"--layout", "layout.yaml"});
  }
  expect_refusal(folder, run_within_limits(folder, arguments), hostile.blamed);
}

TEST(Hostile, LessonsAreRefused) {
  for (const Case& hostile : text_cases()) expect_refused(hostile);
}

TEST(Hostile, PicturesAreRefused) {
  for (const Case& hostile : picture_cases()) expect_refused(hostile);
}

TEST(Hostile, LayoutsAndFontsAreRefused) {
  for (const Case& hostile : layout_cases()) expect_refused(hostile);
}

}  // namespace
}  // namespace sheaf::test
