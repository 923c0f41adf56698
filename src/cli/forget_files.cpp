#include "cli/forget_files.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "base/error.h"
#include "base/utf8.h"
#include "files/files.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

using Place = ForgetFile::Place;

[[noreturn]] void fail_to_look(const fs::path& path, std::string_view why) {
  throw MachineError(fmt::format("cannot look at {}: {}", path.string(), why));
}

void check(const std::error_code& fault, const fs::path& path) {
  check_memory(fault);
  if (fault) fail_to_look(path, fault.message());
}

bool is_below(const fs::path& path, const fs::path& folder) {
  const fs::path relative = path.lexically_relative(folder);
  return !relative.empty() && *relative.begin() != "..";
}

class Walk {
 public:
  void look_at_folder(const fs::path& folder, Place place, bool below) {
    std::error_code fault;
    root_ = fs::canonical(folder, fault);
    check(fault, folder);
    look_through(folder, place, below);
  }

  void look_at_file(const fs::path& path, Place place) {
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
    std::set<fs::path> seen;
    std::erase_if(ground_.files, [&](const ForgetFile& file) {
      return !seen.insert(file.real).second;
    });
    std::ranges::stable_sort(ground_.files, {}, &ForgetFile::path);
    return std::move(ground_);
  }

 private:
  void look_through(const fs::path& folder, Place place, bool below) {
    std::error_code fault;
    std::vector<fs::directory_entry> entries;
    fs::directory_iterator entry(folder, fault), end;
    for (; !fault && entry != end; entry.increment(fault)) {
      entries.push_back(*entry);
    }
    check(fault, folder);
    std::ranges::sort(entries, {}, &fs::directory_entry::path);
    for (const fs::directory_entry& one : entries) {
      look_at_entry(one.path().lexically_normal(), place, below);
    }
  }

  void look_at_entry(const fs::path& path, Place place, bool below) {
    std::error_code fault;
    const fs::file_status own = fs::symlink_status(path, fault);
    if (!fs::exists(own)) return;  // gone in the meantime
    check(fault, path);
    if (fs::is_symlink(own)) {
      look_at_link(path, place, below);
    } else if (!fs::is_directory(own)) {
      add({path, {}, place, false, false});
    } else if (below) {
      ground_.folders.push_back(path);
      look_through(path, place, below);
    }
  }

  void look_at_link(const fs::path& path, Place place, bool below) {
    std::error_code fault;
    const fs::path real = fs::canonical(path, fault);
    check_memory(fault);
    ForgetFile file{path, real, place, true, false};
    if (fault) {
      // Nothing can be known of a record that is somewhere else now.
      if (!file.is_yaml()) return;
      throw MachineError(fmt::format(
          "cannot read {}: it is a link to something that is not there; take "
          "the link out, or put back what it leads to",
          path.string()));
    }
    if (!fs::is_directory(real, fault)) {
      ground_.files.push_back(std::move(file));
    } else if (below && !is_below(real, root_)) {
      ground_.folder_links.push_back({path, real, place});
    }
  }

  void add(ForgetFile file) {
    std::error_code fault;
    file.is_link = fs::is_symlink(fs::symlink_status(file.path, fault));
    file.real = fs::canonical(file.path, fault);
    check(fault, file.path);
    ground_.files.push_back(std::move(file));
  }

  ForgetGround ground_;
  fs::path root_;
};

}  // namespace

bool ForgetFile::is_yaml() const {
  const std::string ending = lower_case(path.extension().string());
  return asked_for || ending == ".yaml" || ending == ".yml";
}

ForgetGround forget_ground(const CommandLine& line) {
  Walk walk;
  const fs::path records =
      line.marking.records.empty() ? "records" : line.marking.records;
  std::error_code fault;
  if (fs::is_directory(records, fault)) {
    walk.look_at_folder(records, Place::records, true);
  } else if (fs::exists(records, fault)) {
    walk.look_at_file(records, Place::records);
  } else {
    throw MachineError(
        fmt::format("there are no records {}", records.string()));
  }
  if (!line.marking.class_file.empty()) {
    const fs::path class_file = line.marking.class_file;
    if (!fs::is_regular_file(class_file, fault)) {
      throw MachineError(
          fmt::format("there is no file {}", class_file.string()));
    }
    walk.look_at_file(class_file, Place::class_folder);
    const fs::path folder = class_file.parent_path();
    walk.look_at_folder(folder.empty() ? "." : folder, Place::class_folder,
                        false);
  }
  if (fs::is_directory(line.out, fault)) {
    walk.look_at_folder(line.out, Place::out, true);
  }
  return walk.take();
}

std::vector<fs::path> with_names_elsewhere(const ForgetGround& ground,
                                           const std::vector<fs::path>& files) {
  const auto about = [](const fs::path& path) {
    struct stat result {};
    ::stat(path.c_str(), &result);
    return result;
  };
  std::map<std::pair<dev_t, ino_t>, nlink_t> names;
  for (const ForgetFile& file : ground.files) {
    const struct stat one = about(file.real);
    ++names[{one.st_dev, one.st_ino}];
  }
  std::vector<fs::path> found;
  for (const fs::path& file : files) {
    const struct stat one = about(file);
    if (one.st_nlink > names[{one.st_dev, one.st_ino}]) found.push_back(file);
  }
  return found;
}

}  // namespace sheaf
