#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/cards.h"
#include "layout/style.h"
#include "sheets/sheet.h"

namespace sheaf {

/// Options that several sheets have. Each is one row here, so that it is called
/// and explained the same on all of them; a sheet says only what differs. What
/// sheets make of such an option stands below its row.

/// How tall the learner writes; the layout's own height unless the sheet's
/// entry says otherwise.
constexpr OptionSpec line_height_option(std::string_view most = "15 mm") {
  return {.name = "line-height",
          .kind = OptionSpec::Kind::length,
          .fallback = "6 mm",
          .help = "height of small letters",
          .least = "3 mm",
          .most = most,
          .from_layout = true};
}
/// The layout's ruling, as tall as the sheet's `line-height`.
Ruling ruling_of(const SheetInput& input, const Style& style);

/// Words of the list to practise, few enough for one sitting.
inline constexpr OptionSpec kPractiseWordsOption = {
    .name = "words",
    .kind = OptionSpec::Kind::count,
    .fallback = "8",
    .help = "most words on the sheet",
    .least = "1",
    .most = "60"};

/// Whether the first item is done for the learner to look at, in a box headed
/// "Like this" (layout/model_frame.h). It counts as one of the sheet's items. A
/// sheet that tests what a learner knows has no such option.
inline constexpr OptionSpec kModelOption = {
    .name = "model",
    .kind = OptionSpec::Kind::flag,
    .fallback = "yes",
    .help = "the first one done, in a box: Like this"};
/// For older learners: words of several beats are what is left to learn.
inline constexpr OptionSpec kLongerFirstOption = {
    .name = "longer-first",
    .kind = OptionSpec::Kind::flag,
    .fallback = "no",
    .help = "words of more beats before shorter ones"};
/// Puts words so, each length in its order before, if the option says it.
void order_by_length(const OptionValues& options,
                     std::vector<const AnalyzedWord*>& words);
/// Whether it is wanted and there are words enough: two are left to the
/// learner.
bool is_model_asked(const OptionValues& options, std::size_t items);

inline constexpr OptionSpec kReadingsOption = {
    .name = "readings",
    .kind = OptionSpec::Kind::count,
    .fallback = "3",
    .help = "rings to tick for each reading",
    .least = "0",
    .most = "6"};

constexpr OptionSpec card_columns_option(std::string_view fallback,
                                         std::string_view least,
                                         std::string_view most) {
  return {.name = "columns",
          .kind = OptionSpec::Kind::count,
          .fallback = fallback,
          .help = "cards beside each other",
          .least = least,
          .most = most};
}
constexpr OptionSpec card_height_option(std::string_view fallback,
                                        std::string_view most) {
  return {.name = "card-height",
          .kind = OptionSpec::Kind::length,
          .fallback = fallback,
          .help = "height of a card",
          .least = "25 mm",
          .most = most};
}
/// Cards as these two ask for, marked with the lesson's code.
CardGrid card_grid(const SheetInput& input);

/// Tables with a row for each learner, on teacher's pages.
inline constexpr OptionSpec kLearnersOption = {
    .name = "learners",
    .kind = OptionSpec::Kind::count,
    .fallback = "8",
    .help = "rows for learners, where there is no class file",
    .least = "1",
    .most = "40"};
constexpr OptionSpec learner_row_height_option(std::string_view fallback,
                                               std::string_view least,
                                               std::string_view most) {
  return {.name = "row-height",
          .kind = OptionSpec::Kind::length,
          .fallback = fallback,
          .help = "height of a learner's row",
          .least = least,
          .most = most};
}
inline constexpr OptionSpec kNameWidthOption = {
    .name = "name-width",
    .kind = OptionSpec::Kind::length,
    .fallback = "34 mm",
    .help = "room for a learner's name",
    .least = "15 mm",
    .most = "80 mm"};
/// The codes of the learners of a class whom the pages are for, else as many
/// empty ones as option `learners` says.
std::vector<std::string> learner_rows(const SheetInput& input);

}  // namespace sheaf
