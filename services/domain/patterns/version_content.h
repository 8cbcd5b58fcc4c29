// What a version says: everything that the content hash covers, and nothing else. Number, parent,
// author, time, findings and estimates are stored beside it. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_VERSION_CONTENT_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_VERSION_CONTENT_H_

#include <cstddef>
#include <optional>
#include <string>

#include "absl/status/status.h"
#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::patterns {

// Bytes of UTF-8.
inline constexpr size_t kLongestTitle = 200;
inline constexpr size_t kLongestLevel = 60;
inline constexpr size_t kLongestPassage = 20'000;
inline constexpr size_t kLongestDesignerText = 1'000'000;
inline constexpr size_t kMostLines = 10'000;  // of one text

struct VersionContent {
  std::string title;  // as printed
  chart::Design design;
  estimate::Materials materials;
  std::string introduction;  // before the rows; may be empty, as all that follow
  std::string notes;
  std::string finishing;  // border, ends, blocking, care
  std::string level;      // how hard it is, in the designer's words: "intermediate"
  // The designer's own written rows; empty: the rows are written from the chart.
  std::string designer_text;
  // None: as the text declares or shows; only if there is a text.
  std::optional<chart::Terms> designer_text_terms = chart::Terms::kUs;
  chart::Hand designer_text_hand = chart::Hand::kRight;
  // How rows are written from its chart if a reader does not ask for anything else. The names of
  // colours are those of its own text, too.
  rows::RowStyle row_style;

  bool operator==(const VersionContent&) const = default;
};

// INVALID_ARGUMENT with the field's path ("title", "design.sizes[1].row_repeats",
// "materials.gauge.stitches_per_decimetre", "designer_text") for a text that is too long, is not
// UTF-8 or holds control characters (line feeds and tabs are allowed in passages and in the
// designer's text), for a design that is not well formed and materials with a value out of range. A
// design that cannot be worked is well formed: that is what chart::Check finds.
absl::Status Validate(const VersionContent& content);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_VERSION_CONTENT_H_
