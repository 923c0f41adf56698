#include "pdf/pdf_writer.h"

#include <cassert>
#include <new>

#include "base/error.h"
#include "pdf/colour_profile.h"
#include "pdf/deflate.h"
#include "pdf/document_entries.h"
#include "pdf/file_writer.h"
#include "pdf/font_set.h"
#include "pdf/objects.h"
#include "pdf/operators.h"
#include "pdf/page_content.h"
#include "pdf/picture_set.h"
#include "pdf/structure_tree.h"
#include "pdf/text_operators.h"

namespace sheaf {

namespace {

// Far beyond any class's packets, and still well within what a PDF can number.
constexpr std::size_t kMaxPages = 100000;

// Made at the start, while there is memory to make it with.
const MachineError kNoMemory("there is not enough memory to write the PDF");

// The three boxes are one: nothing is trimmed off a sheet of paper.
void append_boxes(std::string& out, const Size& size) {
  for (const char* name : {"/MediaBox", "/CropBox", "/TrimBox"}) {
    out += name;
    out += "[0 0 ";
    append_size(out, size.width);
    out += ' ';
    append_size(out, size.height);
    out += ']';
  }
}

}  // namespace

// A file in the making.
class PdfFile {
 public:
  explicit PdfFile(FileHead head)
      : head_(std::move(head)),
        texts_(fonts_),
        content_(tree_, texts_, pictures_),
        file_(*deflater_),
        info_(objects_.take_info()) {
    // First of all, so that `read_own_pdf` finds it at the head of the file.
    file_.unpacked(info_, info_entries(head_));
  }

  std::size_t page_count() const { return pages_.size(); }

  void add_root() { tree_.add({{Role::document}}); }
  void add_whole(const Document& document) {
    write_pages(document, tree_.add(document.elements));
  }
  void add_section(const Document& section) {
    write_pages(section, tree_.add(section.elements, kDocumentElement));
  }

  std::string finish();

 private:
  // What is known of a page when it has been written, and needed at the end.
  struct WrittenPage {
    Size size;
    std::vector<std::size_t> pictures;
  };
  struct OutlineLine {
    std::string title;
    std::size_t page;
  };

  void write_pages(const Document& document, ElementId shift);
  std::string page_entries(std::size_t page, ObjectId font_resources,
                           const std::vector<ObjectId>& pictures) const;

  LentDeflater deflater_;
  FileHead head_;
  Objects objects_;
  StructureTree tree_;
  FontSet fonts_;
  PictureSet pictures_;
  TextOperators texts_;
  PageContent content_;
  FileWriter file_;
  ObjectId info_;
  PageLabels labels_;
  std::vector<Objects::PageObjects> page_objects_;
  std::vector<WrittenPage> pages_;
  std::vector<OutlineLine> outline_;
};

void PdfFile::write_pages(const Document& document, ElementId shift) {
  if (pages_.size() + document.pages.size() > kMaxPages) {
    throw MachineError("a PDF of more than 100,000 pages is too large");
  }
  for (const OutlineEntry& entry : document.outline) {
    assert(entry.page < document.pages.size());
    outline_.push_back({entry.title, pages_.size() + entry.page});
  }
  for (const Page& page : document.pages) {
    const std::string& operators =
        content_.write(page, static_cast<std::uint32_t>(pages_.size()), shift);
    const Objects::PageObjects objects = objects_.add_page();
    file_.stream(objects.contents, "/Filter/FlateDecode",
                 deflater_->deflate(operators));
    labels_.add(page.label);
    page_objects_.push_back(objects);
    pages_.push_back({page.size, content_.pictures_used()});
  }
}

std::string PdfFile::page_entries(std::size_t page, ObjectId font_resources,
                                  const std::vector<ObjectId>& pictures) const {
  std::string entries;
  append_boxes(entries, pages_[page].size);
  entries += "/Resources<</Font ";
  append_reference(entries, font_resources);
  if (!pages_[page].pictures.empty()) {
    entries += "/XObject<<";
    for (const std::size_t number : pages_[page].pictures) {
      entries += "/X";
      append_integer(entries, static_cast<std::int64_t>(number));
      entries += ' ';
      append_reference(entries, pictures[number]);
    }
    entries += ">>";
  }
  entries += ">>/Tabs/S";
  if (tree_.has_content(static_cast<std::uint32_t>(page))) {
    entries += "/StructParents ";
    append_integer(entries, static_cast<std::int64_t>(page));
  }
  return entries;
}

std::string PdfFile::finish() {
  if (pages_.empty()) throw MachineError("there is no page to print");
  const ObjectId font_resources =
      objects_.add_dictionary(fonts_.embed(objects_, *deflater_));
  const std::vector<ObjectId> pictures = pictures_.write(objects_, *deflater_);
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    objects_.set_entries(page_objects_[i].page,
                         page_entries(i, font_resources, pictures));
  }
  for (const OutlineLine& line : outline_) {
    objects_.add_outline(line.title, page_objects_[line.page].page);
  }
  // Metadata stays readable to programs that do not know PDF.
  const ObjectId xmp =
      objects_.add_stream("/Type/Metadata/Subtype/XML",
                          metadata(head_, !content_.has_ink_colours()));
  const ObjectId profile =
      objects_.add_stream("/N 3/Filter/FlateDecode",
                          deflater_->deflate_recurring(colour_profile()));
  const ObjectId intent =
      objects_.add_dictionary(output_intent_entries(profile));
  const ObjectId structure = objects_.last() + 1;
  objects_.set_entries(objects_.catalog(),
                       catalog_entries(head_, labels_, xmp, structure, intent));

  file_.reserve(objects_.last() + tree_.object_count());
  objects_.write(file_);
  tree_.write(file_, structure, page_objects_);
  return file_.finish(objects_.catalog(), info_);
}

namespace {

template <typename Work>
auto or_no_memory(Work work) {
  try {
    return work();
  } catch (const std::bad_alloc&) {
    throw MachineError(kNoMemory);
  }
}

}  // namespace

PdfWriter::PdfWriter(FileHead head) {
  or_no_memory([&] {
    file_ = std::make_unique<PdfFile>(std::move(head));
    file_->add_root();
  });
}

PdfWriter::~PdfWriter() = default;

void PdfWriter::add(const Document& section) {
  or_no_memory([&] { file_->add_section(section); });
}

std::size_t PdfWriter::page_count() const { return file_->page_count(); }

std::string PdfWriter::finish() {
  return or_no_memory([&] { return file_->finish(); });
}

std::string write_pdf(const Document& document) {
  return or_no_memory([&] {
    PdfFile writer({document.title, document.language, document.duplex});
    writer.add_whole(document);
    return writer.finish();
  });
}

}  // namespace sheaf
