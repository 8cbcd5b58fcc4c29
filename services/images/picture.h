// A picture as numbers of its palette, and rectangles of it.
#ifndef ROWPROOF_SERVICES_IMAGES_PICTURE_H_
#define ROWPROOF_SERVICES_IMAGES_PICTURE_H_

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "absl/container/flat_hash_map.h"
#include "services/domain/stop.h"
#include "services/images/colour.h"
#include "services/images/import_report.h"

namespace rowproof::images {

// Pixels begin..end-1 along one axis.
struct Span {
  int begin = 0;
  int end = 0;
  int length() const { return end - begin; }
  bool operator==(const Span&) const = default;
};

struct Region {
  Span x;
  Span y;
  bool operator==(const Region&) const = default;
};

// How often each colour of a palette occurs.
using PixelCounts = std::vector<int64_t>;

// Pixels are counted from 0 at the top left corner. A picture belongs to one piece of work, whose
// stop it has: whatever looks at its pixels asks it, and gives no result if the work has to stop.
class Picture {
 public:
  // All pixels of colour number 0, which the first Set decides. The dimensions have passed
  // CheckDimensions.
  Picture(int width, int height) : Picture(width, height, nullptr) {}
  // The same, for work that can be stopped. The stop outlives the picture.
  Picture(int width, int height, const Stop* stop);

  // Counts `work` units (services/domain/stop.h); whether the work has to end.
  template <typename Work>
  bool StopAfter(Work work) const {
    return stop_ != nullptr && stop_->After(work);
  }
  // OK, or why the work had to end.
  absl::Status stop_status() const { return stop_ == nullptr ? absl::OkStatus() : stop_->status(); }

  int width() const { return width_; }
  int height() const { return height_; }
  Region whole() const { return {{0, width_}, {0, height_}}; }
  const std::vector<Rgb>& palette() const { return palette_; }

  // False, and nothing set, if this would be colour number kMostPictureColours + 1, or the work has
  // to stop.
  bool Set(int x, int y, Rgb colour);

  // Number of the pixel's colour in the palette.
  size_t at(int x, int y) const {
    const size_t i = Index(x, y);
    return wide_.empty() ? narrow_[i] : wide_[i];
  }
  Rgb colour(int x, int y) const { return palette_[at(x, y)]; }
  // Numbers of the pixels of line y, x in `columns`; `out` has room for them.
  void CopyLine(int y, Span columns, uint16_t* out) const;

  // Adds to `counts`, which has an entry for each colour of the palette; not all pixels if the work
  // has to stop.
  void Count(const Region& region, PixelCounts* counts) const;

 private:
  size_t Index(int x, int y) const {
    return static_cast<size_t>(y) * static_cast<size_t>(width_) + static_cast<size_t>(x);
  }
  bool FindNumber(Rgb colour);
  // From narrow_ to wide_; false, and nothing whole, if the work has to stop.
  bool Widen();

  int width_;
  int height_;
  const Stop* stop_;
  std::vector<Rgb> palette_;
  absl::flat_hash_map<uint32_t, uint16_t> numbers_;  // by Packed
  uint32_t last_colour_ = ~uint32_t{0};              // the colour set last: none at first
  uint16_t last_number_ = 0;
  // One of the two is used: a byte per pixel, until the palette outgrows it.
  std::vector<uint8_t> narrow_;
  std::vector<uint16_t> wide_;
};

// What the margins leave of the picture. They leave something (CheckSettings and ReadPicture see to
// that).
Region Within(const Picture& picture, const Margins& margins);
Margins MarginsOf(const Picture& picture, const Region& region);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_PICTURE_H_
