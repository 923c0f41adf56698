#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <hpdf.h>
#include <hpdf_doc.h>

namespace sheaf {

using ObjectId = std::uint32_t;

/// Takes objects in the order of the file. `text` is the object without its
/// number, `data` what stands between `stream` and `endstream`.
class ObjectSink {
 public:
  virtual ~ObjectSink() = default;
  virtual void stream(ObjectId id, std::string_view entries,
                      std::string_view data) = 0;
  virtual void plain(ObjectId id, std::string_view text) = 0;
};

/// The objects of one PDF while it is made. libharu gives them their numbers
/// and keeps pages, page tree, outline and catalog; what is large or has a
/// shape that libharu does not know is kept as ready text, and printed by
/// libharu at the end of its dictionary. A failure of libharu is thrown as
/// MachineError by the call in which it came about, never through libharu.
class Objects {
 public:
  Objects();
  ~Objects();
  Objects(const Objects&) = delete;
  Objects& operator=(const Objects&) = delete;

  /// A new page at the end; what it shows is the stream `contents`, which the
  /// caller writes.
  struct PageObjects {
    ObjectId page, contents;
  };
  PageObjects add_page();
  ObjectId add_dictionary(std::string entries = {});
  ObjectId add_stream(std::string entries, std::string data);
  /// A line of the outline, at the end, that leads to the top of a page.
  void add_outline(std::string_view title, ObjectId page);
  ObjectId catalog() const;
  /// The number of the file's own title and maker, which the caller writes.
  ObjectId take_info();

  /// What is printed besides what libharu prints; replaces what was set.
  void set_entries(ObjectId id, std::string entries);
  void set_stream(ObjectId id, std::string entries, std::string data);

  /// The highest number in use.
  ObjectId last() const;
  /// Gives up all objects, streams first, in the order of their numbers.
  void write(ObjectSink& sink);

 private:
  struct Body {
    std::string entries;
    std::string data;
    bool is_stream = false;
    bool is_unused = false;
  };
  Body& body(ObjectId id);
  HPDF_Dict dictionary(ObjectId id) const;
  HPDF_Dict new_dictionary();
  void* checked(void* object) const;
  void check() const;
  static HPDF_STATUS print_entries(HPDF_Dict dictionary, HPDF_Stream stream);
  static HPDF_STATUS print_to_text(HPDF_Stream stream, const HPDF_BYTE* bytes,
                                   HPDF_UINT size);

  HPDF_Doc document_ = nullptr;
  std::vector<Body> bodies_;
  std::string text_;  // the object being printed
};

}  // namespace sheaf
