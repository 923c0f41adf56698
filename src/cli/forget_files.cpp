#include "cli/forget_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "base/error.h"
#include "base/utf8.h"
#include "files/disk_files.h"
#include "files/left_behind.h"

namespace sheaf {

namespace {

using Place = ForgetFile::Place;

[[noreturn]] void fail_to_look(const FilePath& path, std::string_view why) {
  throw MachineError(fmt::format("cannot look at {}: {}", path.string(), why));
}

// The name without links of what must be there.
FilePath real_of(const FilePath& path) {
  auto real = disk().real(path);
  if (!real) fail_to_look(path, "it is not there");
  return *std::move(real);
}

bool is_below(const FilePath& path, const FilePath& folder) {
  const FilePath relative = path.lexically_relative(folder);
  return !relative.empty() && *relative.begin() != "..";
}

class Walk {
 public:
  explicit Walk(bool clears) : clears_(clears) {}

  void look_at_folder(const FilePath& folder, Place place, bool below) {
    root_ = real_of(folder);
    look_through(folder, place, below);
  }

  void look_at_file(const FilePath& path, Place place) {
    ForgetFile file{path, {}, place, false, true};
    add(std::move(file));
  }

  // A file is looked at once, as a record if any of its names is a record's,
  // and by its own name rather than by a link's.
  ForgetGround take() {
    std::ranges::stable_sort(ground_.files, {}, [](const ForgetFile& file) {
      return std::tuple(!file.is_yaml(), file.is_link, !file.asked_for,
                        file.place != Place::out);
    });
    std::set<FilePath> seen;
    std::erase_if(ground_.files, [&](const ForgetFile& file) {
      return !seen.insert(file.real).second;
    });
    std::ranges::stable_sort(ground_.files, {}, &ForgetFile::path);
    return std::move(ground_);
  }

 private:
  void look_through(const FilePath& folder, Place place, bool below) {
    if (clears_) clear_left_behind(folder);
    for (const FilePath& path : disk().list(folder)) {
      look_at_entry(path.lexically_normal(), place, below);
    }
  }

  void look_at_entry(const FilePath& path, Place place, bool below) {
    const Standing own = disk().own_status(path).kind;
    if (own == Standing::none) return;  // gone in the meantime
    if (own == Standing::link) {
      look_at_link(path, place, below);
    } else if (own != Standing::folder) {
      add({path, {}, place, false, false});
    } else if (below) {
      ground_.folders.push_back(path);
      look_through(path, place, below);
    }
  }

  void look_at_link(const FilePath& path, Place place, bool below) {
    const auto real = disk().real(path);
    ForgetFile file{path, real.value_or(FilePath()), place, true, false};
    if (!real) {
      // Nothing can be known of a record that is somewhere else now.
      if (!file.is_yaml()) return;
      throw MachineError(
          fmt::format("cannot read {}: it is a link to something that is not "
                      "there; remove the link, or put back what it leads to",
                      path.string()));
    }
    if (!disk().is_folder(*real)) {
      ground_.files.push_back(std::move(file));
    } else if (below && !is_below(*real, root_)) {
      ground_.folder_links.push_back({path, *real, place});
    }
  }

  void add(ForgetFile file) {
    file.is_link = disk().own_status(file.path).kind == Standing::link;
    auto real = disk().real(file.path);
    // Another run may take it away while this one looks.
    if (!real && !file.asked_for) return;
    if (!real) fail_to_look(file.path, "it is not there");
    file.real = *std::move(real);
    ground_.files.push_back(std::move(file));
  }

  /// Whether what earlier runs had to leave goes: it may have the learner.
  const bool clears_;
  ForgetGround ground_;
  FilePath root_;
};

}  // namespace

bool ForgetFile::is_yaml() const {
  const std::string ending = lower_case(path.extension().string());
  return asked_for || ending == ".yaml" || ending == ".yml";
}

ForgetGround forget_ground(const CommandLine& line) {
  Walk walk(line.marking.yes);
  const FilePath records =
      line.marking.records.empty() ? "records" : line.marking.records;
  const Standing kind = disk().status(records).kind;
  if (kind == Standing::folder) {
    walk.look_at_folder(records, Place::records, true);
  } else if (kind != Standing::none) {
    walk.look_at_file(records, Place::records);
  } else {
    throw MachineError(fmt::format(
        "there is no file or folder of records called {}", records.string()));
  }
  if (!line.marking.class_file.empty()) {
    const FilePath class_file = line.marking.class_file;
    if (!disk().is_file(class_file)) {
      throw MachineError(
          fmt::format("there is no file {}", class_file.string()));
    }
    walk.look_at_file(class_file, Place::class_folder);
    const FilePath folder = class_file.parent_path();
    walk.look_at_folder(folder.empty() ? "." : folder, Place::class_folder,
                        false);
  }
  if (disk().is_folder(line.out)) {
    walk.look_at_folder(line.out, Place::out, true);
  }
  return walk.take();
}

std::vector<FilePath> with_names_elsewhere(const ForgetGround& ground,
                                           const std::vector<FilePath>& files) {
  std::map<std::pair<std::uint64_t, std::uint64_t>, std::uint64_t> names;
  for (const ForgetFile& file : ground.files) {
    const FileStatus one = disk().status(file.real);
    ++names[{one.device, one.number}];
  }
  std::vector<FilePath> found;
  for (const FilePath& file : files) {
    const FileStatus one = disk().status(file);
    if (one.names > names[{one.device, one.number}]) found.push_back(file);
  }
  return found;
}

}  // namespace sheaf
