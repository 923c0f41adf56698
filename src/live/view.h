#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "service/service.h"

namespace sheaf {

/// What the browser is told: texts ready to be sent.
class View {
 public:
  View(Service& service, std::string path)
      : service_(service), path_(std::move(path)) {}

  /// Reads everything again. The number of the state grows.
  void look_again();
  std::uint64_t number() const { return number_; }
  /// The state as JSON: `number`, `file`, `stale`, `why`, `pages` (`label`,
  /// `look`, `width`, `height` in points, `teacher`), `messages` (`severity`,
  /// `text`, `help`, `file`, `line`, `column`), and `cursor`: the `line` where
  /// an editor says that it is, with the `pages` that show something of it.
  const std::string& state();
  /// A page as a PNG file; nothing where it is not there. Kept by its look.
  std::optional<std::string> image(std::size_t page, int dpi);
  /// Where what stands at a point (in points) of a page comes from, as JSON:
  /// `file`, `line`, `column`, `text` of the line; or null.
  std::string place(std::size_t page, double x, double y);
  /// An editor says where it is; lines from 1.
  void set_cursor(int line);

 private:
  std::string made_state();

  Service& service_;
  std::string path_;
  std::uint64_t number_ = 1;
  int cursor_ = 0;
  std::optional<std::string> state_;
  std::map<std::string, std::string> images_;
};

/// The three files of the page itself.
std::string_view page_html();
std::string_view page_css();
std::string_view page_js();

}  // namespace sheaf
