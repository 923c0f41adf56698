#include "packet/shared_cuts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <deque>

#include "packet/cut_leaves.h"
#include "packet/shared_memory.h"
#include "packet/sheet_choice.h"

namespace sheaf {

namespace {

// Their codes stand on the name line.
constexpr std::size_t kMostOnALeaf = 6;

// One learner with the sheets whose cards they cut. It stays where it is: what
// the cards draw refers to it.
class Cutter {
 public:
  Cutter(const CutsOf& of, const std::vector<std::string>& only, Shaper& shaper)
      : of_(of), whom_{{of.code}, true, false}, bindery_{*of.lesson,
                                                         *of.pictures,
                                                         *of.style,
                                                         shaper,
                                                         whom_,
                                                         memory_,
                                                         false,
                                                         week_} {
    if (of.shared != nullptr) memory_ = of.shared->known();
    Diagnostics unheard;  // the learner's own packet says it all
    packet_ = plan_week(bindery_, *of.layout, only, unheard);
    std::vector<PlannedSheet> sheets = packet_;
    keep_only(sheets, only);
    sheets_ = std::move(sheets);
    cut_ = cut_frame(bindery_, sheets_, packet_);
    if (!cut_.sheets.empty()) part();
    if (of.shared != nullptr) of.shared->keep(memory_);
  }
  Cutter(const Cutter&) = delete;
  Cutter& operator=(const Cutter&) = delete;

  const std::string& code() const { return of_.code; }
  const Style& style() const { return *of_.style; }
  const Bindery& bindery() const { return bindery_; }
  const CutFrame& cut() const { return cut_; }
  FrameText shared_frame() const;
  // The height for cards below that frame in the learner's own style.
  Length room() const { return room_; }

  // The sets of each page that the learner's own leaf would have, by number.
  const std::vector<std::vector<std::size_t>>& pages() const { return pages_; }

  // The sets of one page, drawn in the learner's style and no smaller.
  std::vector<CutSet> sets(std::span<const std::size_t> page,
                           Composer& composer) const;
  Length height_of(std::span<const std::size_t> page) const;

 private:
  void part();

  const CutsOf& of_;
  SheetMemory memory_;
  PacketFor whom_;
  Week week_;
  Bindery bindery_;
  std::vector<PlannedSheet> packet_, sheets_;
  CutFrame cut_;
  std::vector<std::vector<std::size_t>> pages_;
  std::vector<Length> sizes_;  // of each set's cards, as on the own leaf
  Length room_;
};

FrameText Cutter::shared_frame() const {
  FrameText frame = cut_.frame;
  frame.sheet = "Cut these out";
  frame.direction =
      "Cut along the dashed lines. Keep each learner's cards together.";
  frame.title.clear();
  frame.day.clear();
  return frame;
}

// How the sets stand on a leaf of the learner's own.
void Cutter::part() {
  Document trial;
  Composer outer(bindery_.shaper, style(), trial, kDocumentElement,
                 style().body_size());
  room_ = body_inside(style(), outer, shared_frame()).height;
  const Rect body = body_inside(style(), outer, cut_.frame);
  if (body.height <= Length()) return;
  Composer own(bindery_.shaper, style(), trial, kDocumentElement,
               {body.width, body.height});
  std::size_t number = 0;
  for (const std::vector<CutSet>& page :
       part_cut_sets(own, cut_sets(bindery_, cut_.sheets, packet_, own),
                     cut_.several())) {
    std::vector<std::size_t>& numbers = pages_.emplace_back();
    for (const CutSet& set : page) {
      numbers.push_back(number++);
      sizes_.push_back(set.least);
    }
  }
}

std::vector<CutSet> Cutter::sets(std::span<const std::size_t> page,
                                 Composer& composer) const {
  std::vector<CutSet> all = cut_sets(bindery_, cut_.sheets, packet_, composer);
  std::vector<CutSet> sets;
  for (const std::size_t i : page) {
    CutSet& set = all[i];
    set.title = fmt::format("{}: {}", code(), set.title);
    // Who cuts needs none; the script says what to do with the cards.
    set.direction.clear();
    // Pictures keep their size; a word is as large on a card less tall.
    if (set.width == Length()) set.least = std::max(set.least, sizes_[i]);
    set.style = &style();
    sets.push_back(std::move(set));
  }
  return sets;
}

Length Cutter::height_of(std::span<const std::size_t> page) const {
  Document trial;
  Composer composer(bindery_.shaper, style(), trial, kDocumentElement,
                    style().body_size());
  return least_height_of(composer, sets(page, composer));
}

// Learners can share a leaf if its room is the same for both.
bool same_paper(const Style& a, const Style& b) {
  return a.paper.width == b.paper.width && a.paper.height == b.paper.height &&
         a.margin == b.margin;
}

// One page's sets of one learner, with the height that they take.
struct Part {
  const Cutter* cutter = nullptr;
  std::span<const std::size_t> page = {};
  Length height = {};
};

// A leaf that is shared, in the style of the learner with the smallest type:
// what is large there is the cards.
struct Leaf {
  const Cutter* host = nullptr;
  std::vector<Part> parts;
  Length height = {};

  bool has_room(const Part& part) const;
  void add(const Part& part) {
    if (host == nullptr ||
        part.cutter->style().text_size < host->style().text_size) {
      host = part.cutter;
    }
    parts.push_back(part);
    height += part.height;
  }
  std::vector<std::string> codes() const;
  FrameText frame() const;
};

std::vector<std::string> Leaf::codes() const {
  std::vector<std::string> codes;
  for (const Part& part : parts) {
    if (codes.empty() || codes.back() != part.cutter->code()) {
      codes.push_back(part.cutter->code());
    }
  }
  return codes;
}

bool Leaf::has_room(const Part& part) const {
  const std::vector<std::string> learners = codes();
  return (learners.back() == part.cutter->code() ||
          learners.size() < kMostOnALeaf) &&
         same_paper(host->style(), part.cutter->style()) &&
         height + part.height <= std::min(host->room(), part.cutter->room());
}

FrameText Leaf::frame() const {
  FrameText frame = host->shared_frame();
  const std::vector<std::string> learners = codes();
  if (learners.size() == 1) {
    frame.direction = "Cut along the dashed lines. Keep each set together.";
  }
  frame.learner = fmt::format("{}", fmt::join(learners, ", "));
  std::vector<std::string_view> lessons;
  for (const Part& part : parts) {
    const std::string_view code = part.cutter->bindery().lesson.code;
    if (std::ranges::find(lessons, code) == lessons.end()) {
      lessons.push_back(code);
    }
  }
  frame.code = fmt::format("{}", fmt::join(lessons, ", "));
  return frame;
}

// Each page's sets where they find room first.
std::vector<Leaf> shared_leaves(const std::deque<Cutter>& cutters) {
  std::vector<Leaf> leaves;
  for (const Cutter& cutter : cutters) {
    for (const std::vector<std::size_t>& page : cutter.pages()) {
      const Part part{&cutter, page, cutter.height_of(page)};
      auto leaf = std::ranges::find_if(
          leaves, [&](const Leaf& l) { return l.has_room(part); });
      if (leaf == leaves.end()) leaf = leaves.emplace(leaves.end());
      leaf->add(part);
    }
  }
  return leaves;
}

// Those who share no leaf with another keep their own.
std::vector<std::string> sharers(const std::vector<Leaf>& leaves) {
  std::vector<std::string> codes;
  for (const Leaf& leaf : leaves) {
    const std::vector<std::string> on_leaf = leaf.codes();
    if (on_leaf.size() < 2) continue;
    for (const std::string& code : on_leaf) {
      if (std::ranges::find(codes, code) == codes.end()) codes.push_back(code);
    }
  }
  return codes;
}

void compose_leaf(const Leaf& leaf, Document& document, Binder& binder,
                  Diagnostics& diagnostics) {
  const Bindery& b = leaf.host->bindery();
  const FrameText frame = leaf.frame();
  const PlannedSheet& first = *leaf.host->cut().sheets.front();
  FitCheck fit(first, *b.lesson.lesson, diagnostics);
  Style style = b.style;
  style.tracking = Length();
  style.word_gap = Length();
  std::vector<Page> pages = compose_framed(
      b, style, frame, asked_for(b, first), fit, document,
      [&](Composer& composer) {
        std::deque<Composer> own;  // one in the style of each learner
        std::vector<CutSet> sets;
        for (const Part& part : leaf.parts) {
          own.emplace_back(b.shaper, part.cutter->style(), document,
                           composer.section(), composer.body());
          for (CutSet& set : part.cutter->sets(part.page, own.back())) {
            sets.push_back(std::move(set));
          }
        }
        add_cut_sets(composer, std::move(sets), true);
      });
  binder.add_sheet("cards", frame.learner, std::move(pages));
}

}  // namespace

SharedCuts share_cuts(std::span<const CutsOf> learners,
                      const std::vector<std::string>& only, Shaper& shaper,
                      Diagnostics& diagnostics) {
  std::deque<Cutter> cutters;
  for (const CutsOf& learner : learners) {
    if (!learner.style->on_paper) continue;
    cutters.emplace_back(learner, only, shaper);
  }
  SharedCuts shared;
  const std::vector<Leaf> leaves = shared_leaves(cutters);
  shared.learners = sharers(leaves);
  const auto shares = [&](const std::string& code) {
    return std::ranges::find(shared.learners, code) != shared.learners.end();
  };
  Binder binder(shared.leaves, true);
  for (const Leaf& leaf : leaves) {
    if (!shares(leaf.codes().front())) continue;
    shared.leaves.language =
        language_tag(leaf.host->bindery().lesson.conventions.accent);
    compose_leaf(leaf, shared.leaves, binder, diagnostics);
  }
  return shared;
}

}  // namespace sheaf
