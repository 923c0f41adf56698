#include "cli/confinement.h"

#include <algorithm>
#include <iterator>

#include "base/error.h"
#include "files/disk_files.h"

namespace sheaf {

namespace {

struct VerbHold {
  std::string_view verb;
  Hold hold;
  /// Records lie in folders of their own, and name what is beside those.
  bool reads_above = false;
};

// What reads files that came from somebody else and gives out pages or text is
// held to the files of its command line. What changes a teacher's own files,
// wherever those are, keeps all of them, and gives up the rest.
constexpr VerbHold kHolds[] = {
    {"build", Hold::all},
    {"check", Hold::all, true},  // with --fix it writes what it reads
    {"preview", Hold::all},
    {"dump", Hold::all},
    {"mark", Hold::all, true},
    {"writing", Hold::all},
    {"progress", Hold::all, true},
    {"place", Hold::all, true},
    {"find", Hold::all},
    // What reads nothing but what comes with Sheaf.
    {"word", Hold::all},
    {"patterns", Hold::all},
    {"pictures", Hold::all},
    {"sheets", Hold::all},
    {"layouts", Hold::all},
    {"speech", Hold::all},
    {"explain", Hold::all},
    {"schema", Hold::all},
    {"manual", Hold::all},
    {"completions", Hold::all},
    // What writes lessons, records, lists and classes beside others.
    {"record", Hold::calls},
    {"review", Hold::calls},
    {"week", Hold::calls},
    {"forget", Hold::calls},
    {"block", Hold::calls},
    {"draft", Hold::calls},
    {"settle", Hold::calls},
    {"keep", Hold::calls},
    {"probe", Hold::calls},
    {"placement", Hold::calls},
    // An editor opens files as it likes, and whoever watches a folder may put
    // new ones there.
    {"lsp", Hold::calls},
    {"watch", Hold::calls},  // but see `confine_verb`
};

const VerbHold* find_hold(std::string_view verb) {
  const auto* found = std::ranges::find(kHolds, verb, &VerbHold::verb);
  return found == std::end(kHolds) ? nullptr : found;
}

FilePath folder_beside(const FilePath& file) {
  const FilePath parent = file.parent_path();
  return parent.empty() ? FilePath(".") : parent;
}

// Names what a verb needs. A machine that refuses to look at what the command
// line names, or at what comes with Sheaf, is believed: a place that was left
// out would later be called one that the user may not read. What lies beside is
// looked at as far as that goes.
class NeedsMaker {
 public:
  explicit NeedsMaker(const Files& files) : files_(files) {}

  /// A folder with what its links lead to. Such a link was put there by whoever
  /// has the folder; one that a file names is looked at when it is found.
  void read_folder(const FilePath& folder) {
    needs_.read.push_back(folder);
    for (const FilePath& entry : list(folder)) {
      if (!is_link(entry)) continue;
      if (const auto real = real_of(entry)) needs_.read.push_back(*real);
    }
  }
  void read_file(const FilePath& file) {
    needs_.read.push_back(file);
    if (const auto real = files_.real(file)) needs_.read.push_back(*real);
  }
  /// What comes with Sheaf is ours, and may be links all through.
  void read_shipped(const FilePath& folder, bool with_folders = true) {
    needs_.read.push_back(folder);
    for (const FilePath& entry : files_.list(folder)) {
      if (files_.own_status(entry).kind == Standing::link) read_file(entry);
      if (with_folders && files_.is_folder(entry)) read_shipped(entry, false);
    }
  }
  /// A lesson, a class, a record: with what is beside it, beside what it is a
  /// link to, and in folders there.
  void read_named(const std::string& name, bool with_above) {
    if (name.empty() || name == "-") return;
    const FilePath path(name);
    const Standing there = files_.status(path).kind;
    if (there == Standing::none) return;
    std::vector<FilePath> names = {path};
    if (const auto real = files_.real(path)) names.push_back(*real);
    for (const FilePath& one : names) {
      const FilePath folder =
          there == Standing::folder ? one : folder_beside(one);
      read_folder(folder);
      if (with_above) read_folder(folder / "..");
    }
  }
  void read_named(const std::vector<std::string>& names, bool with_above) {
    for (const std::string& name : names) read_named(name, with_above);
  }

  void write_folder(const FilePath& folder) {
    needs_.write.push_back(folder);
    add_linked(folder, 0);
  }
  /// A file to write: it is written beside itself and then put in its place,
  /// or in the place of what it is a link to.
  void write_file(const std::string& name) {
    if (name.empty()) return;
    needs_.write.push_back(folder_beside(name));
    if (files_.own_status(name).kind == Standing::link) add_link(name);
  }

  Needs take() { return std::move(needs_); }

 private:
  std::vector<FilePath> list(const FilePath& folder) const {
    try {
      return files_.list(folder);
    } catch (const MachineError&) {
      return {};
    }
  }
  bool is_link(const FilePath& path) const {
    try {
      return files_.own_status(path).kind == Standing::link;
    } catch (const MachineError&) {
      return false;
    }
  }
  std::optional<FilePath> real_of(const FilePath& path) const {
    try {
      return files_.real(path);
    } catch (const MachineError&) {
      return std::nullopt;
    }
  }
  void add_link(const FilePath& link) {
    const auto real = real_of(link);
    if (!real) return;
    needs_.write.push_back(files_.is_folder(*real) ? *real
                                                   : folder_beside(*real));
  }
  // Pages may be links to where somebody wants them to be. Learners have
  // folders in that of their class, and no folder of pages is deeper.
  void add_linked(const FilePath& folder, int depth) {
    constexpr int kDeepest = 2;
    for (const FilePath& entry : list(folder)) {
      if (is_link(entry)) {
        add_link(entry);
      } else if (depth < kDeepest && files_.is_folder(entry)) {
        add_linked(entry, depth + 1);
      }
    }
  }

  const Files& files_;
  Needs needs_;
};

}  // namespace

Hold hold_of(std::string_view verb) {
  const VerbHold* found = find_hold(verb);
  return found == nullptr ? Hold::none : found->hold;
}

Needs needs_of(const CommandLine& line) {
  NeedsMaker maker(disk());
  const VerbHold* verb = find_hold(line.verb);
  const bool above = verb != nullptr && verb->reads_above;
  maker.read_file(disk().program());
  maker.read_shipped(shipped_folder());
  maker.read_named(line.arguments, above);
  maker.read_named(line.class_file, false);
  maker.read_named(line.layout, false);
  maker.read_named(line.allowed_folders, false);
  maker.read_named(line.marking.pairs, false);
  maker.read_named(line.marking.sequence, false);
  maker.read_named(line.planning.sequence, false);
  maker.read_named(line.planning.own, false);
  maker.read_named(line.planning.lessons, false);
  if (line.verb == "find") {
    // The list of blocked words, the sentences and the sequence that are here.
    maker.read_named(line.planning.file, false);
    maker.read_folder(".");
  }
  if (line.verb == "build") maker.write_folder(line.out);
  if (line.verb == "preview" && line.preview.file.empty()) {
    maker.write_folder(line.out);
  }
  if (line.verb == "check" && line.fix) {
    for (const std::string& file : line.arguments) maker.write_file(file);
  }
  for (const std::string& file : {line.dependency_file, line.pdf_file,
                                  line.preview.file, line.marking.pdf}) {
    maker.write_file(file);
  }
  return maker.take();
}

std::unique_ptr<Confinement> confine_verb(const CommandLine& line) {
  const Hold hold = hold_of(line.verb);
  // Pages in a browser are served over a socket, and by threads.
  const bool serves = line.verb == "watch" && line.page;
  if (hold == Hold::none || serves || line.no_sandbox) return nullptr;
  if (hold == Hold::all) return std::make_unique<Confinement>(needs_of(line));
  return std::make_unique<Confinement>(Needs{.only_these_files = false});
}

}  // namespace sheaf
