#include "services/images/picture.h"

#include <algorithm>

#include "services/domain/check.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

namespace {

// Pixels of memory that are touched for the first time before the next look: all of them take a
// tenth of a second on a slow machine.
constexpr size_t kStep = size_t{1} << 20;

}  // namespace

Picture::Picture(int width, int height, const Stop* stop)
    : width_(width), height_(height), stop_(stop) {
  ROWPROOF_CHECK(width >= 1 && width <= kMostPixelsAcross);
  ROWPROOF_CHECK(height >= 1 && height <= kMostPixelsAcross);
  // A picture that is not whole is never looked at.
  const size_t pixels = static_cast<size_t>(width) * static_cast<size_t>(height);
  narrow_.reserve(pixels);
  while (narrow_.size() < pixels && !StopAfter(kStep)) {
    narrow_.resize(std::min(pixels, narrow_.size() + kStep));
  }
}

bool Picture::Widen() {
  wide_.reserve(narrow_.size());
  for (size_t i = 0; i < narrow_.size(); i += kStep) {
    if (StopAfter(kStep)) return false;
    const size_t end = std::min(narrow_.size(), i + kStep);
    wide_.insert(wide_.end(), narrow_.data() + i, narrow_.data() + end);
  }
  narrow_ = {};
  return true;
}

bool Picture::FindNumber(Rgb colour) {
  constexpr size_t kNarrowColours = 256;
  const uint32_t packed = Packed(colour);
  const auto found = numbers_.find(packed);
  if (found == numbers_.end()) {
    if (palette_.size() >= static_cast<size_t>(kMostPictureColours)) return false;
    if (palette_.size() == kNarrowColours) {
      if (!Widen()) return false;
    }
    last_number_ = static_cast<uint16_t>(palette_.size());
    numbers_.emplace(packed, last_number_);
    palette_.push_back(colour);
  } else {
    last_number_ = found->second;
  }
  last_colour_ = packed;
  return true;
}

bool Picture::Set(int x, int y, Rgb colour) {
  if (Packed(colour) != last_colour_ && !FindNumber(colour)) return false;
  const size_t i = Index(x, y);
  if (wide_.empty()) {
    narrow_[i] = static_cast<uint8_t>(last_number_);
  } else {
    wide_[i] = last_number_;
  }
  return true;
}

void Picture::CopyLine(int y, Span columns, uint16_t* out) const {
  const size_t i = Index(columns.begin, y);
  const auto length = static_cast<size_t>(columns.length());
  if (wide_.empty()) {
    std::copy_n(narrow_.data() + i, length, out);
  } else {
    std::copy_n(wide_.data() + i, length, out);
  }
}

void Picture::Count(const Region& region, PixelCounts* counts) const {
  for (int y = region.y.begin; y < region.y.end; ++y) {
    if (StopAfter(region.x.length() / 4)) return;
    const size_t first = Index(region.x.begin, y);
    const size_t last = first + static_cast<size_t>(region.x.length());
    for (size_t i = first; i < last; ++i) ++(*counts)[wide_.empty() ? narrow_[i] : wide_[i]];
  }
}

Region Within(const Picture& picture, const Margins& margins) {
  return {{margins.left, picture.width() - margins.right},
          {margins.top, picture.height() - margins.bottom}};
}

Margins MarginsOf(const Picture& picture, const Region& region) {
  return {region.x.begin, region.y.begin, picture.width() - region.x.end,
          picture.height() - region.y.end};
}

}  // namespace rowproof::images
