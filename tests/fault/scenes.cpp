#include "fault/scenes.h"

namespace sheaf::fault {

namespace {

// Two sheets make a packet with a teacher's file soon enough to be made some
// thousand times. The lesson is invented, and so are the learners.
const std::string kLayout =
    "layout:\n  sheets:\n    - sound-boxes\n    - answer-key\n";
const std::string kOld = "pattern: sh\nwords: ship shed\n" + kLayout;
const std::string kNew = "pattern: sh\nwords: dish fish\n" + kLayout;
const std::string kLater = "pattern: sh\nwords: rush shop\n" + kLayout;
const std::string kClass =
    "lesson: lesson.yaml\nlearners:\n  B7:\n  C3:\n    review-words: chin\n";
const std::string kRecord =
    "date: 2026-03-12\nlesson: lesson.yaml\nclass: class.yaml\nmarked: all\n"
    "wrong:\n  B7: {dish: dis}\n  C3: {fish: fis}\n";

Files class_files() {
  return {{"lesson.yaml", kNew},
          {"class.yaml", kClass},
          {"records/one.yaml", kRecord}};
}

Scene build(std::string name, Files files) {
  return {.name = std::move(name),
          .command = {{"build", "lesson.yaml", "--out", "out", "--jobs", "1"}},
          .files = std::move(files)};
}

std::vector<Scene> builds() {
  Scene fresh = build("build, nothing there", {{"lesson.yaml", kNew}});
  fresh.every_allocation = true;
  Scene again = build("build, over an old packet", {{"lesson.yaml", kOld}});
  again.before = {again.command.arguments};
  again.then = {{"lesson.yaml", kNew}};
  Scene listed =
      build("build --deps, over an old packet", {{"lesson.yaml", kOld}});
  listed.command.arguments.insert(listed.command.arguments.end(),
                                  {"--deps", "made/lesson.d"});
  listed.before = {again.command.arguments};
  listed.then = {{"lesson.yaml", kNew}};
  Scene folder = build("build, a folder of lessons", {{"week/a.yaml", kOld}});
  folder.command.arguments[1] = "week";
  folder.before = {folder.command.arguments};
  folder.then = {{"week/a.yaml", kNew}};
  Scene pupils{.name = "build --class",
               .command = {{"build", "--class", "class.yaml", "--out", "out",
                            "--jobs", "1"}},
               .files = class_files()};
  pupils.files["lesson.yaml"] = kOld;
  pupils.before = {pupils.command.arguments};
  pupils.then = {{"lesson.yaml", kNew}};
  Scene threads = pupils;
  threads.name = "build --class, on threads";
  threads.command.arguments.back() = "2";
  threads.threads = threads.alone = true;
  return {fresh, again, listed, folder, pupils, threads};
}

}  // namespace

std::vector<Scene> all_scenes() {
  std::vector<Scene> scenes = builds();
  scenes.push_back({.name = "check",
                    .command = {{"check", "lesson.yaml", "class.yaml",
                                 "records/one.yaml", "--jobs", "1"}},
                    .files = class_files()});
  scenes.push_back(
      {.name = "check --fix",
       .command = {{"check", "lesson.yaml", "--fix"}},
       .files = {{"lesson.yaml", "patern: sh\nwords: dish fish\n" + kLayout}}});
  scenes.push_back({.name = "mark",
                    .command = {{"mark", "records", "--jobs", "1"}},
                    .files = class_files()});
  Scene pages{
      .name = "mark --pdf",
      .command = {{"mark", "records", "--pdf", "marks.pdf", "--jobs", "1"}},
      .files = class_files()};
  pages.before = {pages.command.arguments};
  pages.then = {{"records/two.yaml", kRecord}};
  scenes.push_back(pages);
  scenes.push_back({.name = "mark --pairs",
                    .command = {.arguments = {"mark", "--pairs", "-"},
                                .typed = "ship\tsip\nshed\tshed\n"}});
  scenes.push_back(
      {.name = "progress --pdf",
       .command = {{"progress", "records", "--pdf", "progress.pdf"}},
       .files = class_files()});
  Files unmarked = class_files();
  unmarked.erase("records/one.yaml");
  scenes.push_back({.name = "record",
                    .command = {{"record", "lesson.yaml", "--class",
                                 "class.yaml", "--date", "2026-03-12"}},
                    .files = std::move(unmarked)});
  scenes.push_back({.name = "settle",
                    .command = {{"settle", "lesson.yaml"}},
                    .files = {{"lesson.yaml", "pattern: sh\n" + kLayout}}});
  scenes.push_back(
      {.name = "forget",
       .command = {{"forget", "B7", "--class", "class.yaml", "--yes"}},
       .before = {{"build", "--class", "class.yaml", "--out", "out", "--jobs",
                   "1"}},
       .files = class_files()});
  Scene watch{
      .name = "watch",
      .command = {.arguments = {"watch", "lesson.yaml", "--out", "out"},
                  .saved_file = "lesson.yaml",
                  .saved_text = kLater},
      .before = {{"build", "lesson.yaml", "--out", "out", "--jobs", "1"}},
      .files = {{"lesson.yaml", kOld}},
      .then = {{"lesson.yaml", kNew}}};
  watch.alone = watch.waits = true;
  scenes.push_back(watch);
  return scenes;
}

}  // namespace sheaf::fault
