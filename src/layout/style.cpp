#include "layout/style.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "text/letter_shapes.h"

namespace sheaf {

namespace {

using Kind = OptionSpec::Kind;

constexpr std::string_view kOwnTypeface = "Andika";

constexpr OptionSpec kPageOptions[] = {
    {.name = "paper",
     .kind = Kind::choice,
     .fallback = "letter",
     .help = "paper size; screen is 16 to 9, for a projector",
     .choices = "letter a4 screen"},
    {.name = "orientation",
     .kind = Kind::choice,
     .fallback = "portrait",
     .help = "which way paper is turned; a screen is wide always",
     .choices = "portrait landscape"},
    // Printers leave up to 6 mm blank; 12.7 mm and more is safe to hold.
    {"margin", Kind::length, "15 mm", "blank edge on all four sides", "8 mm",
     "40 mm"},
    {"typeface", Kind::text, kOwnTypeface,
     "a family of the fonts folder, or a font file beside the layout"},
    {"bold-typeface", Kind::text, "", "a file for bold, if not in the family"},
    {.name = "letter-shapes",
     .kind = Kind::choice,
     .fallback = "single-storey",
     .help = "the form of a and g: as handwritten, or as in most books",
     .choices = "single-storey two-storey"},
    {"heading-size", Kind::length, "20 pt", "name of the sheet", "12 pt",
     "48 pt"},
    {"text-size", Kind::length, "15 pt", "directions to the learner", "12 pt",
     "40 pt"},
    {"reading-size", Kind::length, "22 pt", "sentences to read", "14 pt",
     "72 pt"},
    {"word-size", Kind::length, "28 pt", "lists of words", "14 pt", "72 pt"},
    {"blending-size", Kind::length, "44 pt", "words to blend", "20 pt",
     "120 pt"},
    {"teacher-size", Kind::length, "11 pt", "text on teacher's pages", "8 pt",
     "24 pt"},
    {"footer-size", Kind::length, "9 pt", "the line for filing", "6 pt",
     "18 pt"},
    {"least-size", Kind::length, "14 pt",
     "nothing that a learner reads is smaller, but for footers and codes",
     "12 pt", "28 pt"},
    {"leading", Kind::number, "1.5", "line distance, as a ratio of the size",
     "1.2", "3"},
    {"letter-spacing", Kind::length, "0 pt",
     "added after each letter where sentences are read, elsewhere in "
     "proportion; word spaces grow with it",
     "0 pt", "12 pt"},
    {"word-spacing", Kind::length, "0 pt",
     "added to each word space, in the same way", "0 pt", "40 pt"},
    {"line-height", Kind::length, "6 mm",
     "writing lines: height of small letters", "3 mm", "15 mm"},
    {.name = "line-style",
     .kind = Kind::choice,
     .fallback = "four-line",
     .help = "writing lines: how many lines a set has",
     .choices = "four-line two-line base-only"},
    {"line-gap", Kind::length, "5 mm", "writing lines: between two sets",
     "0 mm", "30 mm"},
    {"guide-weight", Kind::length, "0.5 pt", "thickness of guide lines",
     "0.5 pt", "2 pt"},
    {"box-weight", Kind::length, "1 pt", "thickness of boxes and base lines",
     "0.5 pt", "4 pt"},
    {"days", Kind::count, "5",
     "days of teaching, where the lesson does not say", "1", "7"},
    {"minutes", Kind::count, "25",
     "minutes a day, where the lesson does not "
     "say",
     "5", "120"},
    {.name = "tints",
     .kind = Kind::choice,
     .fallback = "filled",
     .help = "light grounds: filled, or outlined to save ink",
     .choices = "filled outlined"},
    {.name = "picture-names",
     .kind = Kind::choice,
     .fallback = "said",
     .help = "what someone who cannot see the pictures hears in their place: "
             "the word, only a number (for a test), or nothing (for a copy in "
             "braille)",
     .choices = "said numbered left-out"},
    {.name = "picture-colours",
     .kind = Kind::choice,
     .fallback = "kept",
     .help = "your own pictures as they are, or in shades of grey",
     .choices = "kept grey"},
    {.name = "voice",
     .kind = Kind::choice,
     .fallback = "warm",
     .help = "how directions speak: in short steps with a small picture, as to "
             "a child; or plainly and without one, as to older learners",
     .choices = "warm plain"},
    {"name-line", Kind::flag, "yes",
     "a line for name and date on learners' pages"},
    {"mark-spacing", Kind::length, "10 mm",
     "touch marks: least distance, centre to centre", "6 mm", "30 mm"},
};

// ISO 216 gives A4 as 210 mm x 297 mm; letter is 8.5 in x 11 in. A screen has
// no size of its own: it is as wide as letter paper is long.
Size paper_size(const std::string& name, bool landscape) {
  if (name == "screen") return {Length::from_pt(792), Length::from_pt(445.5)};
  const Size upright = name == "a4"
                           ? Size{Length::from_mm(210), Length::from_mm(297)}
                           : Size{Length::from_pt(612), Length::from_pt(792)};
  return landscape ? Size{upright.height, upright.width} : upright;
}

LineStyle line_style(const std::string& name) {
  if (name == "two-line") return LineStyle::two_line;
  if (name == "base-only") return LineStyle::base_only;
  return LineStyle::four_line;
}

PictureNames picture_names(const std::string& name) {
  if (name == "numbered") return PictureNames::numbered;
  if (name == "left-out") return PictureNames::left_out;
  return PictureNames::said;
}

const Font* face(FontLibrary& fonts, const std::string& family, FontRole role,
                 Span span, Diagnostics& diagnostics) {
  if (const Font* found = fonts.find(family, role)) return found;
  // Nobody but Sheaf is at fault where the one is missing that it comes with.
  if (lower_case(family) == lower_case(kOwnTypeface)) {
    throw MachineError(fmt::format(
        "Sheaf's own typeface {} is not in its list of fonts; build or install "
        "Sheaf again",
        sheaf::quoted(kOwnTypeface)));
  }
  std::vector<std::string> families = fonts.families();
  std::vector<std::string_view> names(families.begin(), families.end());
  Help nearest = did_you_mean(family, names);
  std::string known;
  for (const auto& name : families) known += " `" + name + "`";
  diagnostics.error(
      diagnostic::unknown_typeface, span,
      fmt::format("there is no typeface {} here", as_written(family)),
      nearest.empty() ? Help("write one of" + known +
                             ", or the name of a font file beside the layout")
                      : std::move(nearest));
  return nullptr;
}

}  // namespace

OptionTable page_options() { return kPageOptions; }

TextStyle Style::text(Length size, bool is_bold) const {
  const double ratio = static_cast<double>(size.mils()) /
                       static_cast<double>(reading_size.mils());
  return {.font = is_bold ? bold : regular,
          .size = size,
          .leading = leading,
          .tracking = scaled(tracking, ratio),
          .word_gap = scaled(word_gap, ratio),
          .features = features};
}

TextStyle Style::teacher_text(bool is_bold) const {
  constexpr double kTeacherLeading = 1.4;
  return {.font = is_bold ? bold : regular,
          .size = teacher_size,
          .leading = kTeacherLeading,
          .features = features};
}

Style make_style(const OptionValues& settings, FontLibrary& fonts,
                 Diagnostics& diagnostics) {
  Style s;
  s.paper = paper_size(settings.choice("paper"),
                       settings.choice("orientation") == "landscape");
  s.teacher_paper =
      paper_size(settings.choice("paper") == "a4" ? "a4" : "letter", false);
  s.on_paper = settings.choice("paper") != "screen";
  s.fills_tints = settings.choice("tints") == "filled";
  s.has_name_line = settings.flag("name-line");
  s.plain_voice = settings.choice("voice") == "plain";
  s.picture_names = picture_names(settings.choice("picture-names"));
  s.grey_pictures = settings.choice("picture-colours") == "grey";
  s.margin = settings.length("margin");
  const std::string& family = settings.text("typeface");
  s.regular = face(fonts, family, FontRole::regular, settings.span("typeface"),
                   diagnostics);
  const std::string& bold = settings.text("bold-typeface");
  s.bold = bold.empty() ? fonts.find(family, FontRole::bold)
                        : face(fonts, bold, FontRole::bold,
                               settings.span("bold-typeface"), diagnostics);
  if (s.bold == nullptr) s.bold = s.regular;
  if (s.regular != nullptr) {
    const auto features = features_for(
        *s.regular, settings.choice("letter-shapes") == "two-storey"
                        ? LetterShapes::two_storey
                        : LetterShapes::single_storey);
    s.has_letter_shapes = features.has_value();
    s.features = features.value_or("");
  }
  s.tracking = settings.length("letter-spacing");
  // Wider letters without wider word spaces slow reading down (Galliussi et
  // al. 2020), so word spaces grow by three and a half times as much (the
  // ratio of the British Dyslexia Association's style guide, from memory).
  s.word_gap = settings.length("word-spacing") + scaled(s.tracking, 3.5);
  s.heading_size = settings.length("heading-size");
  s.text_size = settings.length("text-size");
  s.reading_size = settings.length("reading-size");
  s.word_size = settings.length("word-size");
  s.blending_size = settings.length("blending-size");
  s.teacher_size = settings.length("teacher-size");
  s.footer_size = settings.length("footer-size");
  s.least_size = settings.length("least-size");
  s.leading = settings.number("leading");
  s.ruling = {settings.length("line-height"),
              line_style(settings.choice("line-style")),
              settings.length("line-gap")};
  s.guide_weight = settings.length("guide-weight");
  s.box_weight = settings.length("box-weight");
  s.mark_spacing = settings.length("mark-spacing");
  return s;
}

}  // namespace sheaf
