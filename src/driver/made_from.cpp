#include "driver/made_from.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "base/error.h"
#include "base/shuffle.h"
#include "files/files.h"
#include "phonics/table_text.h"

namespace sheaf {

namespace {

constexpr std::string_view kFirstLine =
    "# What these pages were made from, "
    "for `sheaf build`; version 1";
constexpr std::string_view kLastLine = "end";
constexpr std::string_view kNone = "none";
// Above what any file that Sheaf reads may have.
constexpr std::size_t kLargestInput = std::size_t{64} << 20U;
// Sheaf's own are read whole; a program built for work has a hundred million.
constexpr std::size_t kLargestOwn = std::size_t{1} << 30U;
constexpr std::size_t kLargestRecord = std::size_t{1} << 20U;

std::string number_text(std::uint64_t number) {
  return fmt::format("{:016x}", number);
}

std::optional<std::uint64_t> read_number(std::string_view text) {
  std::uint64_t number = 0;
  const auto [end, fault] =
      std::from_chars(text.data(), text.data() + text.size(), number, 16);
  if (fault != std::errc() || end != text.data() + text.size()) return {};
  return number;
}

// In one line and with no blank at either end, whatever a name is made of.
std::string escaped(std::string_view text) {
  std::string result;
  for (const char c : text) {
    const bool plain = c > ' ' && c != '\\' && c != '\x7F';
    result += plain || static_cast<unsigned char>(c) >= 0x80
                  ? std::string(1, c)
                  : fmt::format("\\{:02x}", c);
  }
  return result;
}

std::optional<std::string> unescaped(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      result += text[i];
      continue;
    }
    const auto number = read_number(text.substr(i + 1, 2));
    if (i + 2 >= text.size() || !number) return std::nullopt;
    result += static_cast<char>(*number);
    i += 2;
  }
  return result;
}

// Nothing where there is no file, or none that can be read.
std::optional<std::uint64_t> digest_of(const Files& files,
                                       const FilePath& path) {
  try {
    if (!files.is_file(path)) return std::nullopt;
    return text_hash(files.read(path, kLargestInput));
  } catch (const MachineError&) {
    return std::nullopt;
  }
}

// The program, its word list and its typefaces, as one number.
std::uint64_t own_digest(const Files& files, const FilePath& shipped) {
  std::vector<FilePath> own = files.list(shipped / "fonts");
  own.insert(own.begin(), {files.program(), shipped / "phonics.bin"});
  std::uint64_t digest = text_hash("");
  for (const FilePath& file : own) {
    if (files.is_file(file)) {
      digest = text_hash(files.read(file, kLargestOwn), digest);
    }
  }
  return digest;
}

// Whether each file is what it was.
bool are_same(const std::vector<FilesRead::Entry>& entries,
              const FilePath& folder, Workspace& workspace) {
  return std::ranges::all_of(entries, [&](const FilesRead::Entry& entry) {
    const FilePath path = folder / entry.path;
    if (digest_of(workspace.files(), path) != entry.digest) return false;
    if (entry.digest)
      workspace.files_read().add_known(path.string(), *entry.digest);
    return true;
  });
}

// The pages, if all are there as they were made.
std::optional<std::vector<std::string>> pages_there(const MadeFrom& made,
                                                    const FilePath& folder,
                                                    const Files& files) {
  std::vector<std::string> pages;
  // Learners have folders of their own, and none has another below it.
  std::vector<FilePath> all = files.list(folder);
  for (std::size_t i = 0, own = all.size(); i < own; ++i) {
    if (files.own_status(all[i]).kind != Standing::folder) continue;
    const std::vector<FilePath> learners = files.list(all[i]);
    all.insert(all.end(), learners.begin(), learners.end());
  }
  for (const FilePath& path : all) {
    if (path.extension() != ".pdf") continue;
    const auto known =
        made.pages.find(text_hash(path.lexically_relative(folder).string()));
    if (known == made.pages.end()) continue;
    if (digest_of(files, path) != known->second) return std::nullopt;
    pages.push_back(path.string());
  }
  if (pages.size() != made.pages.size()) return std::nullopt;
  std::ranges::sort(pages);
  return pages;
}

bool read_line(std::string_view line, MadeFrom& made) {
  const std::size_t first = line.find(' ');
  if (first == std::string_view::npos) return false;
  const std::string_view key = line.substr(0, first);
  const std::string_view rest = line.substr(first + 1);
  if (key == "with") {
    made.made_with = rest;
    return true;
  }
  const std::size_t second = rest.find(' ');
  if (second == std::string_view::npos) return false;
  const auto digest = read_number(rest.substr(0, second));
  const std::string_view name = rest.substr(second + 1);
  if (key == "page") {
    const auto number = read_number(name);
    if (!digest || !number) return false;
    return made.pages.emplace(*number, *digest).second;
  }
  const auto path = unescaped(name);
  if (!path || (!digest && rest.substr(0, second) != kNone)) return false;
  if (key == "file") made.files.push_back({*path, digest});
  if (key == "shipped") made.shipped.push_back({*path, digest});
  return key == "file" || key == "shipped";
}

}  // namespace

std::string made_with_now(const Workspace& workspace,
                          const LessonRequest& request, bool separate) {
  std::string text =
      number_text(own_digest(workspace.files(), workspace.shipped()));
  const auto add = [&](std::string_view option, const std::string& value) {
    if (!value.empty()) text += fmt::format(" {}={}", option, escaped(value));
  };
  add("paper", request.paper);
  add("layout", request.layout);
  for (const std::string& sheet : request.only) add("only", sheet);
  for (const std::string& folder : request.allowed_folders)
    add("allow", folder);
  if (separate) add("separate", "yes");
  return text;
}

void add_inputs(const std::vector<FilesRead::Entry>& read,
                const FilePath& shipped, MadeFrom& made) {
  const std::string prefix = shipped.string() + "/";
  for (const FilesRead::Entry& entry : read) {
    if (entry.path.starts_with(prefix)) {
      made.shipped.push_back({entry.path.substr(prefix.size()), entry.digest});
    } else {
      made.files.push_back(entry);
    }
  }
}

std::string made_from_text(const MadeFrom& made) {
  std::string text = fmt::format("{}\nwith {}\n", kFirstLine, made.made_with);
  const auto add = [&](std::string_view key,
                       const std::vector<FilesRead::Entry>& entries) {
    for (const FilesRead::Entry& entry : entries) {
      text += fmt::format(
          "{} {} {}\n", key,
          entry.digest ? number_text(*entry.digest) : std::string(kNone),
          escaped(entry.path));
    }
  };
  add("shipped", made.shipped);
  add("file", made.files);
  for (const auto& [name, digest] : made.pages) {
    text += fmt::format("page {} {}\n", number_text(digest), number_text(name));
  }
  return text.append(kLastLine) + '\n';
}

std::optional<MadeFrom> read_made_from(const Files& files,
                                       const FilePath& folder) {
  std::string text;
  try {
    text = files.read(folder / kMadeFromFile, kLargestRecord);
  } catch (const MachineError&) {
    return std::nullopt;
  }
  MadeFrom made;
  std::vector<std::string_view> lines = split_at(text, '\n');
  // The last ends with a line break, too.
  const bool whole = lines.size() > 3 && lines.front() == kFirstLine &&
                     lines.back().empty() &&
                     lines[lines.size() - 2] == kLastLine;
  if (!whole) return std::nullopt;
  for (std::size_t i = 1; i + 2 < lines.size(); ++i) {
    if (!read_line(lines[i], made)) return std::nullopt;
  }
  return made;
}

std::optional<std::vector<std::string>> pages_up_to_date(
    const MadeFrom& made, const std::string& made_with,
    const std::string& source, const FilePath& folder, Workspace& workspace) {
  const bool has_source =
      std::ranges::find(made.files, source, &FilesRead::Entry::path) !=
      made.files.end();
  if (!has_source || made.made_with != made_with ||
      !are_same(made.files, "", workspace) ||
      !are_same(made.shipped, workspace.shipped(), workspace)) {
    return std::nullopt;
  }
  return pages_there(made, folder, workspace.files());
}

}  // namespace sheaf
