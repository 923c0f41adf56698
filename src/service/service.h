#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "base/error.h"
#include "driver/packets.h"
#include "driver/workspace.h"
#include "files/memory_files.h"
#include "preview/preview.h"

namespace sheaf {

/// Sheaf at hand while somebody writes: texts are opened and changed, and it
/// answers questions about places in them. The same in an editor and in a
/// browser, so it knows nothing of processes, terminals and disks: it reads
/// through `Files`, and open texts hide what is below.
///
/// Places are bytes of a text, from 0, behind a byte order mark if there is
/// one. Every answer owns what it holds. What was never opened is read from
/// below. An answer about a text that cannot be read is empty, but for
/// messages, which say why.

/// Of a page that a lesson does not have, or no longer: texts change while
/// pages are asked for.
class NoSuchPage : public MachineError {
 public:
  using MachineError::MachineError;
};

/// A stretch of a text: bytes [begin, end).
struct TextRange {
  std::uint32_t begin = 0, end = 0;
  friend bool operator==(const TextRange&, const TextRange&) = default;
};

/// A change that can be made: all its parts together.
struct TextEdit {
  TextRange range;
  std::string replacement;
};
struct FileEdits {
  std::string path;
  std::vector<TextEdit> edits;  ///< by place; none overlap
};

struct ServiceFix {
  std::string label;  ///< what has changed then: "Ship is now ship"
  std::vector<FileEdits> files;
  /// It cannot change what the teacher meant.
  bool certain = false;
};

struct ServiceMessage {
  Severity severity = Severity::error;
  std::string name;                ///< as `sheaf explain` knows it
  std::string path;                ///< of the file that it is about
  std::optional<TextRange> range;  ///< none: the file as a whole
  std::string text, help;
  struct Remark {
    std::string path;
    std::optional<TextRange> range;
    std::string text;
  };
  std::vector<Remark> remarks;
  std::vector<ServiceFix> fixes;
};

/// What is known of what stands at a place: lines of text, the first the
/// thing itself. Plain text; backticks around words of the file.
struct Hover {
  TextRange range;
  std::vector<std::string> lines;
};

struct Completion {
  enum class Kind { key, value, pattern, word, sheet, option, file, step };
  Kind kind = Kind::value;
  std::string label;
  TextRange range;   ///< what it takes the place of
  std::string text;  ///< what is put there
  std::string detail, more;
};

/// A part of a file for its outline.
struct Symbol {
  std::string name, detail;
  TextRange range;  ///< all of it
  TextRange name_range;
  std::vector<Symbol> parts;
};

/// A short remark to be shown behind a place.
struct Inlay {
  std::uint32_t at = 0;
  std::string text, more;
};

/// A change that may be wanted at a place, with a fix or without a message.
struct ServiceAction {
  std::string title;
  std::vector<FileEdits> files;
  /// The message that it mends, an index into `messages`; -1: none.
  int message = -1;
  bool certain = false;
};

/// A key of a lesson for those who would rather not see the file.
struct FormField {
  std::string key;
  bool present = false;
  /// As it would be typed: words with blanks between, or a line each.
  std::string text;
  bool lines = false;  ///< it takes lines: sentences, a note
  /// False where the file has something there that has no place in a form.
  bool editable = true;
  std::optional<TextRange> range;
};

/// A pattern as it may be looked for.
struct PatternEntry {
  std::string id, name, family, remark;
  /// What else the family is called: "magic e, split digraph".
  std::string terms;
  std::string rule;
};

/// The pages of a lesson, the learner's first.
struct ServicePages {
  struct Page {
    std::string label;
    bool teacher = false;
    Size size;
    /// The same for pages that look alike, so that only changed ones need to be
    /// drawn.
    std::uint64_t look = 0;
  };
  std::vector<Page> pages;
  /// They are those of an earlier text, since this one has errors: the first
  /// of them, in words.
  bool stale = false;
  std::string why;
};

/// Where a part of a page comes from.
struct PlaceInFile {
  std::string path;
  TextRange range;
};

class Service {
 public:
  struct State;

  /// `below` must outlive it; `shipped` is the folder of what comes with Sheaf.
  Service(const Files& below, FilePath shipped, LessonRequest request = {});
  ~Service();

  /// A text was opened, or is another now.
  void change(const std::string& path, std::string text);
  void close(const std::string& path);
  /// Files below may be others now.
  void look_again();
  /// Whoever asks wants it otherwise from now on: another paper, say.
  void set_request(LessonRequest request);

  /// The text as the service sees it; nothing where there is none.
  std::optional<std::string> text(const std::string& path);

  /// All there is to say of the file, errors first read. `with_pages` also says
  /// what only the making of pages shows (sheets left out, what does not fit).
  std::vector<ServiceMessage> messages(const std::string& path,
                                       bool with_pages = true);
  std::vector<ServiceAction> actions(const std::string& path, TextRange range);
  std::optional<Hover> hover(const std::string& path, std::uint32_t at);
  std::vector<Completion> completions(const std::string& path,
                                      std::uint32_t at);
  std::vector<Symbol> symbols(const std::string& path);
  std::vector<Inlay> inlays(const std::string& path, TextRange range);
  /// The text with its lines put in order: nothing that it says is changed.
  std::string formatted(const std::string& path);

  /// The keys of a lesson as a form shows them, in its order.
  std::vector<FormField> form(const std::string& path);
  /// What has to be changed for a key of that form to say `value`; an empty one
  /// takes the key out. Nothing where the form cannot hold what is there.
  std::vector<TextEdit> form_edits(const std::string& path,
                                   std::string_view key,
                                   std::string_view value);
  /// All patterns, family by family.
  std::vector<PatternEntry> patterns();

  /// The pages of a lesson; the last good ones while the text has errors.
  ServicePages pages(const std::string& path);
  /// One of them, drawn. Throws NoSuchPage where there are fewer by now, and
  /// another MachineError where it cannot be drawn.
  PreviewImage draw(const std::string& path, std::size_t page,
                    const PreviewOptions& options = {});
  /// Where what stands at a point of a page comes from; nothing where nobody
  /// wrote it.
  std::optional<PlaceInFile> at_point(const std::string& path, std::size_t page,
                                      Point point);
  /// The pages, by number, that show something of these bytes.
  std::vector<std::size_t> pages_of(const std::string& path, TextRange range);
  /// What `build` writes; the same bytes.
  MadePackets packets(const std::string& path);

 private:
  /// What is known of a file, read again where that is needed.
  State& state(const std::string& path);
  State& state_with_pages(const std::string& path);

  MemoryFiles files_;
  FilePath shipped_;
  LessonRequest request_;
  std::unique_ptr<Workspace> ground_;
  std::map<std::string, std::unique_ptr<State>> states_;
};

}  // namespace sheaf
