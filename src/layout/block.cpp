#include "layout/block.h"

#include <algorithm>
#include <map>

namespace sheaf {

void shift(Mark& mark, Point by) {
  struct Mover {
    Point by;
    void operator()(GlyphMark& m) const { m.at = m.at + by; }
    void operator()(LineMark& m) const {
      m.from = m.from + by;
      m.to = m.to + by;
    }
    void operator()(RectMark& m) const { move(m.rect); }
    void operator()(DotMark& m) const { m.centre = m.centre + by; }
    void operator()(PathMark& m) const { m.at = m.at + by; }
    void operator()(PictureMark& m) const { move(m.box); }
    void move(Rect& r) const {
      r.x += by.x;
      r.y += by.y;
    }
  };
  std::visit(Mover{by}, mark);
}

std::shared_ptr<const Block> repeated_head(const Block& block) {
  Block head = block;
  for (Mark& mark : head.marks) {
    std::visit([](auto& m) { m.element = kPageHeader; }, mark);
  }
  return std::make_shared<const Block>(std::move(head));
}

ElementId Composer::add(Role role, ElementId parent, std::string alternative) {
  return add(Element{
      .role = role, .parent = parent, .alternative = std::move(alternative)});
}

ElementId Composer::add(Element element) {
  if (element.parent == 0) element.parent = section_;
  if (!element.span) element.span = from_;
  return document_->add(std::move(element));
}

GlyphRun Composer::shape(const TextStyle& style, std::string_view text) {
  return {&shaper_->shape(*style.font, text, style.features), style.size,
          style.tracking, style.word_gap};
}

Block& Composer::block(Length height, Length space_before) {
  Block& b = blocks_.emplace_back();
  b.height = height;
  b.space_before = space_before;
  return b;
}

void Composer::note_too_wide(std::string text) {
  if (std::ranges::find(too_wide_, text) == too_wide_.end()) {
    too_wide_.push_back(std::move(text));
  }
}

ListItem add_list_item(Composer& composer, ElementId list) {
  const ElementId item = composer.add(Role::list_item, list);
  const ElementId label = composer.add(Role::list_label, item);
  return {label, composer.add(Role::list_body, item)};
}

ElementId add_list_body(Composer& composer, ElementId list) {
  return composer.add(Role::list_body, composer.add(Role::list_item, list));
}

Length height_of(std::span<const Block> blocks) {
  Length height;
  for (const Block& block : blocks) {
    height += block.space_before + block.height;
  }
  return height;
}

Length height_on_last_page(std::span<const Block> blocks) {
  Length height;
  for (const Block& block : blocks) {
    if (block.new_page) height = -block.space_before;
    height += block.space_before + block.height;
  }
  return height;
}

void keep_on_one_page(std::span<Block> blocks) {
  for (std::size_t i = 0; i + 1 < blocks.size(); ++i) {
    blocks[i].keep_with_next = true;
  }
}

int even_rows(int total, int capacity) {
  capacity = std::max(capacity, 1);
  const int pages = std::max(1, (total + capacity - 1) / capacity);
  return std::max(1, (total + pages - 1) / pages);
}

namespace {

Length head_height(const Block& block) {
  return block.head == nullptr ? Length() : block.head->height;
}

// The number of blocks from `first` on that must stand on one page of this
// height, and the height that they take at its top, without a table's head.
// What is to be kept together and is more than a page is not.
std::pair<std::size_t, Length> group_at(std::span<const Block> blocks,
                                        std::size_t first, Length page) {
  std::size_t last = first;
  Length height = blocks[first].height;
  while (blocks[last].keep_with_next && last + 1 < blocks.size() &&
         !blocks[last + 1].new_page) {
    const Block& next = blocks[last + 1];
    const Length longer = height + next.space_before + next.height;
    if (head_height(blocks[first]) + longer > page) break;
    height = longer;
    ++last;
  }
  return {last - first + 1, height};
}

// The blocks that begin a page where pages have this height.
std::vector<std::size_t> page_starts(std::span<const Block> blocks,
                                     Length height) {
  std::vector<std::size_t> starts;
  Length y;
  for (std::size_t i = 0; i < blocks.size();) {
    const auto [count, group] = group_at(blocks, i, height);
    const Length needed = blocks[i].space_before + group;
    if (starts.empty() || blocks[i].new_page || y + needed > height) {
      starts.push_back(i);
      y = head_height(blocks[i]) + group;
    } else {
      y += needed;
    }
    i += count;
  }
  return starts;
}

class PageFiller {
 public:
  PageFiller(const Rect& body, Size paper) : body_(body), paper_(paper) {}

  void begin_page(const Block* head) {
    pages_.push_back({.size = paper_, .body = body_});
    y_ = Length();
    if (head == nullptr) return;
    for (Mark mark : head->marks) place(std::move(mark));
    y_ += head->height;
  }
  void skip(Length space) { y_ += space; }
  void place(Block& block) {
    for (Mark& mark : block.marks) place(std::move(mark));
    y_ += block.height;
    if (block.own_leaf) pages_.back().own_leaf = true;
    if (block.back) pages_.back().is_back = true;
  }
  bool fits(Length height) const {
    return !pages_.empty() && y_ + height <= body_.height;
  }
  std::vector<Page> take() { return std::move(pages_); }

 private:
  void place(Mark mark) {
    shift(mark, {body_.x, body_.y + y_});
    pages_.back().marks.push_back(std::move(mark));
  }

  Rect body_;
  Size paper_;
  Length y_;
  std::vector<Page> pages_;
};

// The same of blocks of which none but the first must begin a page.
void even_run(std::span<Block> blocks, Length height) {
  const std::size_t pages = page_starts(blocks, height).size();
  if (pages < 2) return;
  // The lowest pages that still are no more.
  std::int64_t low = 0, high = height.mils();
  while (high - low > 1) {
    const std::int64_t middle = (low + high) / 2;
    const Length tried = Length::from_mils(middle);
    (page_starts(blocks, tried).size() > pages ? low : high) = middle;
  }
  for (const std::size_t start : page_starts(blocks, Length::from_mils(high))) {
    if (start > 0) blocks[start].new_page = true;
  }
}

void outline_tints(std::span<Mark> marks, Length weight) {
  constexpr Ink kLightest = 160;
  for (Mark& mark : marks) {
    auto* rect = std::get_if<RectMark>(&mark);
    const bool is_tint = rect != nullptr && rect->filled &&
                         rect->fill >= kLightest && rect->fill != kWhite;
    if (!is_tint) continue;
    rect->filled = false;
    if (rect->stroked) continue;
    rect->stroked = true;
    rect->stroke = {.width = weight};
  }
}

}  // namespace

void even_pages(std::vector<Block>& blocks, Length height) {
  for (std::size_t first = 0; first < blocks.size();) {
    std::size_t last = first + 1;
    while (last < blocks.size() && !blocks[last].new_page) ++last;
    even_run(std::span(blocks).subspan(first, last - first), height);
    first = last;
  }
}

void stretch_blanks(std::vector<Block>& blocks, Length height, double least,
                    double most) {
  Length inked, blank;
  for (const Block& block : blocks) {
    // The first on a page has none before it.
    if (&block != blocks.data()) blank += block.space_before;
    inked += block.height;
  }
  if (blank <= Length() || inked + scaled(blank, least) > height) return;
  const Length room = std::min(height - inked, scaled(blank, most));
  for (Block& block : blocks) {
    // Rounded down: all of them together are no more than the room.
    block.space_before = block.space_before * room.mils() / blank.mils();
  }
}

namespace {

// Makes the blanks narrower by as little as brings all onto at most so many
// pages. False where that cannot be done: they are as they were.
bool narrow_to_pages(std::vector<Block>& blocks, std::size_t pages,
                     Length height, double least) {
  constexpr int kSteps = 10;
  std::vector<Length> blanks;
  for (const Block& block : blocks) blanks.push_back(block.space_before);
  const auto fits_at = [&](double part) {
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      blocks[i].space_before = scaled(blanks[i], part);
    }
    return page_starts(blocks, height).size() <= pages;
  };
  // Where the narrowest do not help, no others are tried.
  const bool possible = fits_at(least);
  for (int step = 0; possible && step < kSteps; ++step) {
    if (fits_at(1 - (1 - least) * step / kSteps)) return true;
  }
  if (possible) return fits_at(least);
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    blocks[i].space_before = blanks[i];
  }
  return false;
}

void keep_group(std::vector<Block>& blocks, const BlockGroup& group) {
  keep_on_one_page(std::span(blocks).subspan(group.first, group.count));
}

// A single line is lost at the foot of a page, and at the head of the next.
void keep_ends(std::vector<Block>& blocks, const BlockGroup& group) {
  if (group.count < 2) return;
  keep_on_one_page(std::span(blocks).subspan(group.first, 2));
  keep_on_one_page(std::span(blocks).subspan(group.first + group.count - 2, 2));
}

}  // namespace

void save_pages(std::vector<Block>& blocks, Length height, double least) {
  const std::size_t pages = page_starts(blocks, height).size();
  if (pages > 1) narrow_to_pages(blocks, pages - 1, height, least);
}

void save_pages_with_groups(std::vector<Block>& blocks,
                            std::span<const BlockGroup> groups, Length height,
                            double least) {
  // Tried on blocks without their marks, since copies of those take long.
  std::vector<Block> tried;
  for (const Block& block : blocks) {
    tried.push_back({.height = block.height,
                     .space_before = block.space_before,
                     .keep_with_next = block.keep_with_next,
                     .new_page = block.new_page,
                     .head = block.head});
  }
  std::vector<Block> saved = tried;
  save_pages(saved, height, least);
  const std::size_t pages = page_starts(saved, height).size();
  // Blanks become a little narrower than for a page saved: rather that than a
  // line alone.
  const double tightest = least * 0.7;
  double tried_least = least;
  const auto keep_where_free = [&](const BlockGroup& group, auto keep) {
    std::vector<Block> kept = tried;
    keep(kept, group);
    for (const double narrowest : {tried_least, tightest}) {
      std::vector<Block> narrow = kept;
      if (!narrow_to_pages(narrow, pages, height, narrowest)) continue;
      tried = std::move(kept);
      tried_least = narrowest;
      return;
    }
  };
  std::vector<BlockGroup> short_first(groups.begin(), groups.end());
  std::ranges::stable_sort(short_first, {}, &BlockGroup::count);
  constexpr std::size_t kFew = 6;
  for (const BlockGroup& group : short_first) {
    if (group.count <= kFew) keep_where_free(group, keep_group);
  }
  for (const BlockGroup& group : short_first) keep_where_free(group, keep_ends);
  // A page that ends long before its foot would be worse than a division.
  const Length most = height / 3;
  for (const BlockGroup& group : short_first) {
    const auto its = std::span(blocks).subspan(group.first, group.count);
    if (group.count <= kFew || height_of(its) > most) continue;
    keep_where_free(group, keep_group);
  }
  narrow_to_pages(tried, pages, height, tried_least);
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    blocks[i].keep_with_next = tried[i].keep_with_next;
    blocks[i].space_before = tried[i].space_before;
  }
}

void outline_tints(std::vector<Block>& blocks, Length weight) {
  std::map<const Block*, std::shared_ptr<const Block>> heads;  // outlined ones
  for (Block& block : blocks) {
    outline_tints(std::span(block.marks), weight);
    if (block.head == nullptr) continue;
    auto& head = heads[block.head.get()];
    if (head == nullptr) {
      Block outlined = *block.head;
      outline_tints(std::span(outlined.marks), weight);
      head = std::make_shared<const Block>(std::move(outlined));
    }
    block.head = head;
  }
}

std::vector<Page> paginate(std::vector<Block> blocks, const Rect& body,
                           Size paper) {
  PageFiller filler(body, paper);
  for (std::size_t i = 0; i < blocks.size();) {
    const auto [count, height] = group_at(blocks, i, body.height);
    if (blocks[i].new_page || !filler.fits(blocks[i].space_before + height)) {
      filler.begin_page(blocks[i].head.get());
    } else {
      filler.skip(blocks[i].space_before);
    }
    for (std::size_t k = i; k < i + count; ++k) {
      if (k > i) filler.skip(blocks[k].space_before);
      filler.place(blocks[k]);
    }
    i += count;
  }
  return filler.take();
}

}  // namespace sheaf
