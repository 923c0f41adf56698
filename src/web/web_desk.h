#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "files/memory_files.h"
#include "service/service.h"

namespace sheaf {

/// What a page in a browser asks while somebody writes, and the answers. It
/// owns nothing of a browser: the module's exported functions hand requests on
/// to it (see web/wasm/exports.cpp), and so do tests.

/// An answer: one line of JSON, and what is too large for that.
struct WebAnswer {
  std::string json;
  std::vector<std::string> parts;
};

/// The service over files in memory. Places in requests and answers count in
/// units of UTF-16 from the text's beginning, as a browser does; points of a
/// page are in 1/72 inch.
class WebDesk {
 public:
  /// `files` must outlive it, and hold what comes with Sheaf in `shipped`.
  WebDesk(MemoryFiles& files, const FilePath& shipped)
      : files_(files), shipped_(shipped), service_(files, shipped) {}

  /// Files beside the text, such as a sequence, are others now.
  void put(const std::string& path, std::string bytes);
  void remove(const std::string& path);

  /// A request is an object with `do` and, for most, `path`:
  ///
  ///     change (text), close, options (paper)       -> {}
  ///     messages, outline, formatted, form          -> list, list, text, list
  ///     hover, completions (at), actions, inlays (from, to)
  ///     form-edits (key, text)                      -> list of edits
  ///     pages                                       -> {pages, stale, why}
  ///     draw (page, dpi)         -> {width, height, colour}; part: rows from
  ///                                 the top, a byte a pixel (0 is black), or
  ///                                 where it has colour three
  ///     at-point (page, x, y), pages-of (from, to)
  ///     packets                  -> {files, learnerPages, teacherPages,
  ///                                  errors}; a part for each file
  ///     patterns, layouts, version
  ///
  /// What cannot be answered gives `{"fault": "..."}`: a request that is none,
  /// or a machine that refuses, which adds `"spent": true`: whoever threw from
  /// the depths may have cleared nothing up, and the desk is not asked again.
  /// Want of memory throws std::bad_alloc.
  WebAnswer ask(std::string_view request);

  Service& service() { return service_; }

 private:
  MemoryFiles& files_;
  FilePath shipped_;
  Service service_;
};

}  // namespace sheaf
