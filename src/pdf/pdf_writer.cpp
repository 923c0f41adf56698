#include "pdf/pdf_writer.h"

#include <new>

#include "base/error.h"
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

// What is known of a page when it has been written, and needed at the end.
struct WrittenPages {
  std::vector<Objects::PageObjects> objects;
  std::vector<std::vector<std::size_t>> pictures;
};

WrittenPages write_pages(const Document& document, Objects& objects,
                         Deflater& deflater, StructureTree& tree,
                         FontSet& fonts, PictureSet& pictures) {
  WrittenPages written;
  TextOperators texts(fonts);
  PageContent content(tree, texts, pictures);
  for (std::uint32_t i = 0; i < document.pages.size(); ++i) {
    const std::string& operators = content.write(document.pages[i], i);
    const Objects::PageObjects page = objects.add_page();
    objects.set_stream(page.contents, "/Filter/FlateDecode",
                       deflater.deflate(operators));
    written.objects.push_back(page);
    written.pictures.push_back(content.pictures_used());
  }
  return written;
}

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

void finish_pages(const Document& document, const WrittenPages& written,
                  const StructureTree& tree, ObjectId font_resources,
                  const std::vector<ObjectId>& pictures, Objects& objects) {
  for (std::size_t i = 0; i < written.objects.size(); ++i) {
    std::string entries;
    append_boxes(entries, document.pages[i].size);
    entries += "/Resources<</Font ";
    append_reference(entries, font_resources);
    if (!written.pictures[i].empty()) {
      entries += "/XObject<<";
      for (const std::size_t number : written.pictures[i]) {
        entries += "/X";
        append_integer(entries, static_cast<std::int64_t>(number));
        entries += ' ';
        append_reference(entries, pictures[number]);
      }
      entries += ">>";
    }
    entries += ">>/Tabs/S";
    if (tree.has_content(static_cast<std::uint32_t>(i))) {
      entries += "/StructParents ";
      append_integer(entries, static_cast<std::int64_t>(i));
    }
    objects.set_entries(written.objects[i].page, std::move(entries));
  }
}

std::string write_document(const Document& document) {
  Objects objects;
  // Set up once for all documents. One thread.
  static Deflater deflater;
  StructureTree tree(document);
  FontSet fonts;
  PictureSet pictures;
  const WrittenPages written =
      write_pages(document, objects, deflater, tree, fonts, pictures);
  const ObjectId font_resources =
      objects.add_dictionary(fonts.embed(objects, deflater));
  finish_pages(document, written, tree, font_resources,
               pictures.write(objects, deflater), objects);
  for (const OutlineEntry& entry : document.outline) {
    objects.add_outline(entry.title, written.objects.at(entry.page).page);
  }
  std::string title = "/Title";
  append_text_string(title, document_title(document));
  objects.set_entries(objects.info(), std::move(title));
  // Metadata stays readable to programs that do not know PDF.
  const ObjectId xmp =
      objects.add_stream("/Type/Metadata/Subtype/XML", metadata(document));
  const ObjectId structure = objects.last() + 1;
  objects.set_entries(objects.catalog(),
                      catalog_entries(document, xmp, structure));

  FileWriter file(objects.last() + tree.object_count(), deflater);
  objects.write(file);
  tree.write(file, structure, written.objects);
  return file.finish(objects.catalog(), objects.info());
}

}  // namespace

std::string write_pdf(const Document& document) {
  if (document.pages.empty()) {
    throw MachineError("there is no page to print");
  }
  if (document.pages.size() > kMaxPages) {
    throw MachineError("a PDF of more than 100,000 pages is too large");
  }
  try {
    return write_document(document);
  } catch (const std::bad_alloc&) {
    throw MachineError(kNoMemory);
  }
}

}  // namespace sheaf
