#pragma once

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/mark.h>

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/yaml_faults.h"

namespace sheaf {

/// Thrown through the YAML library when a file has been refused; what is wrong
/// has been reported already.
struct FileRefused {};

/// Builds values from what the YAML library reads, and refuses what a
/// teacher's file has no use for.
class ValueBuilder : public YAML::EventHandler {
 public:
  /// `source` is the text given to the library, of the same length as the
  /// file's; it must outlive the builder.
  ValueBuilder(const SourceFile& file, std::string_view source,
               Diagnostics& diagnostics);

  Value take() { return std::move(root_); }
  /// What is known when the library gives up at `at` for `reason`.
  Stop stop(std::size_t at, std::string_view reason) const;

  void OnDocumentStart(const YAML::Mark& mark) override;
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnScalar(const YAML::Mark& mark, const std::string& tag,
                YAML::anchor_t anchor, const std::string& text) override;
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag,
                       YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override;
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag,
                  YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override;
  void OnMapEnd() override { close(); }

 private:
  // A list or keys still open.
  struct Frame {
    Value value;
    bool brackets = false;
    bool has_key = false;
    Spanned<std::string> key;
    Span key_place;  ///< the key with its colon
    std::map<std::string, Span, std::less<>> seen;
  };

  Span span(std::size_t begin, std::size_t end) const;
  std::size_t place(const YAML::Mark& mark) const;
  void refuse_marks(std::size_t at, YAML::anchor_t anchor);
  void open(std::size_t at, YAML::anchor_t anchor, Value::Kind kind,
            YAML::EmitterStyle::value style);
  void close();
  void add(Value value);
  void add_key(const Value& value);
  void add_text(std::size_t at, const std::string& text);
  void add_nothing(std::size_t at);
  bool expects_key() const;
  std::string null_word(std::size_t at) const;
  bool belongs_to_open_value(std::size_t at) const;
  std::size_t dash() const;
  void check_comment(const Value& value, std::size_t end);
  void check_dashes(const Value& value);
  void check_curly_quotes(const Value& value);
  void check_unseen(const Value& value);

  const SourceFile& file_;
  std::string_view source_;
  Diagnostics& diagnostics_;
  std::vector<Frame> open_;
  Value root_;
  int documents_ = 0;
  int values_ = 0;
  // From here on nothing has been looked at yet.
  std::size_t next_ = 0;
  // The last text or bracket that was read whole.
  std::size_t last_begin_ = 0;
  std::size_t last_end_ = 0;
};

}  // namespace sheaf
