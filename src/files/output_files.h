#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.h"
#include "files/path.h"

namespace sheaf {

/// A file is not as it was when it was read, or one is there that was not. What
/// was to be written is left out; it may be made anew from what is there now.
class FileChanged : public MachineError {
 public:
  using MachineError::MachineError;
};

/// A regular file to read parts of.
class OpenFile {
 public:
  virtual ~OpenFile() = default;
  virtual std::uint64_t size() const = 0;
  /// Up to `most` bytes from `begin` on; fewer at the end of the file. Throws
  /// MachineError where they cannot be read.
  virtual std::string read(std::uint64_t begin, std::size_t most) const = 0;
};

/// A kind of file that Sheaf writes anew each time. Only one that it made
/// itself may be in the way.
struct OwnForm {
  /// Whether a file is of the kind.
  bool (*is_own)(const OpenFile& file) = nullptr;
  /// "not a PDF as Sheaf made it" and so on, for the sentence that says why a
  /// file is left alone.
  std::string_view why_not;
  /// Whether nothing is lost that a further run could not make again.
  bool can_be_made_again = false;
};

/// Files that are written together. What is guaranteed:
///
/// - A target is its old self or its new self, whole.
/// - Nothing is replaced but a file that Sheaf made itself, or one that is
///   still what it was when it was read.
/// - Of the set, nothing is replaced before everything is written, and what
///   can be known to stand in the way is looked for before. So a full disk or a
///   wrong target leaves all old files.
/// - What cannot be finished leaves nothing behind, and nothing changed.
class OutputFiles {
 public:
  virtual ~OutputFiles() = default;

  /// Throws as `add` would, before any work is done for the file.
  virtual void check(const FilePath& target, const OwnForm& form,
                     std::string_view way_out) = 0;
  /// A file of a kind that Sheaf makes anew each time. Makes the folder if
  /// needed. Throws MachineError where it cannot write, or where something
  /// else is there; then `way_out` says what to do, as in "name another file
  /// after `--pdf`".
  virtual void add(const FilePath& target, std::string_view bytes,
                   const OwnForm& form, std::string_view way_out) = 0;
  /// A file that must not be there yet.
  virtual void add_new(const FilePath& target, std::string_view bytes) = 0;
  /// A file whose bytes were `before` when it was read.
  virtual void rewrite(const FilePath& target, std::string_view bytes,
                       std::string before) = 0;

  /// Puts everything in its place. Throws MachineError where it cannot, and
  /// FileChanged where a file came or changed in the meantime; what came
  /// before it in the set is put back then, as far as the machine lets it.
  virtual void finish() = 0;
  /// How many are in their place, in the order in which they came.
  virtual std::size_t placed() const = 0;
};

/// What may be in the way of a target: a file of a form, else one with these
/// bytes, else nothing.
struct InTheWay {
  std::optional<OwnForm> form;
  std::optional<std::string> before;
  std::string way_out;
};

/// Throws where what stands under the target's name may not be replaced, or
/// where nothing is there and something should. `there` is the file, null where
/// it cannot be read; not called with a folder or a device.
void check_in_the_way(const FilePath& target, const InTheWay& allowed,
                      bool is_there, const OpenFile* there);

/// Throws MachineError: "cannot write TARGET: why".
[[noreturn]] void fail_to_write(const FilePath& target, std::string_view why);

}  // namespace sheaf
