#include "services/domain/patterns/canonical.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>

#include "services/domain/check.h"
#include "services/domain/patterns/canonical_schema.h"

namespace rowproof::patterns {
namespace {

class Writer {
 public:
  Writer(std::string& out, uint32_t format) : out_(out), format_(format) {}

  uint32_t format() const { return format_; }

  void Number(uint8_t tag, int value) {
    ROWPROOF_CHECK(value >= 0);
    Head(tag, 'u');
    Word(static_cast<uint32_t>(value));
  }
  void Flag(uint8_t tag, bool value) { Number(tag, value ? 1 : 0); }
  template <typename E>
  void Enum(uint8_t tag, E value, E last) {
    ROWPROOF_CHECK(value <= last);
    Number(tag, static_cast<int>(value));
  }
  void Real(uint8_t tag, double value) {
    ROWPROOF_CHECK(std::isfinite(value));
    Head(tag, 'd');
    const auto bits = std::bit_cast<uint64_t>(value == 0 ? 0.0 : value);
    Word(static_cast<uint32_t>(bits >> 32));
    Word(static_cast<uint32_t>(bits));
  }
  void Text(uint8_t tag, const std::string& text, size_t longest) {
    ROWPROOF_CHECK(text.size() <= longest);
    Head(tag, 's');
    Word(static_cast<uint32_t>(text.size()));
    out_ += text;
  }
  void Cells(uint8_t tag, const chart::Grid& cells) {
    Number(tag, cells.rows());
    Number(static_cast<uint8_t>(tag + 1), cells.stitches());
    Head(static_cast<uint8_t>(tag + 2), 'b');
    const size_t row_bytes = (static_cast<size_t>(cells.stitches()) + 7) / 8;
    const size_t bytes = row_bytes * static_cast<size_t>(cells.rows());
    Word(static_cast<uint32_t>(bytes));
    size_t at = out_.size();
    out_.resize(at + bytes);
    for (int row = 1; row <= cells.rows(); ++row, at += row_bytes) {
      CopyRow(cells.row(row), row_bytes, out_.data() + at);
    }
  }
  void Colours(uint8_t tag, const std::vector<chart::Colour>& colours, size_t most,
               chart::Colour last) {
    ROWPROOF_CHECK(colours.size() <= most);
    Head(tag, 'b');
    Word(static_cast<uint32_t>(colours.size()));
    for (const chart::Colour colour : colours) {
      ROWPROOF_CHECK(colour <= last);
      out_ += static_cast<char>(colour);
    }
  }
  template <typename T, typename Fields>
  void Record(uint8_t tag, const T& value, const Fields& fields) {
    Head(tag, 'r');
    Body(value, fields);
  }
  template <typename Items, typename Fields>
  void List(uint8_t tag, const Items& items, size_t most, const Fields& fields) {
    ROWPROOF_CHECK(items.size() <= most);
    Head(tag, 'l');
    Word(static_cast<uint32_t>(items.size()));
    for (const auto& item : items) Body(item, fields);
  }
  template <typename Fields>
  void Paths(uint8_t tag, const estimate::StitchPaths& paths, const Fields& fields) {
    List(tag, paths, paths.size(), fields);
  }
  template <typename T, typename Field>
  void Optional(uint8_t, const std::optional<T>& value, const Field& field) {
    if (value.has_value()) field(*value);
  }
  void Word(uint32_t value) {
    const char bytes[] = {static_cast<char>(value >> 24), static_cast<char>(value >> 16),
                          static_cast<char>(value >> 8), static_cast<char>(value)};
    out_.append(bytes, sizeof(bytes));
  }

 private:
  void Head(uint8_t tag, char type) {
    out_ += static_cast<char>(tag);
    out_ += type;
  }
  template <typename T, typename Fields>
  void Body(const T& value, const Fields& fields) {
    const size_t at = out_.size();
    Word(0);
    fields(*this, value);
    const auto length = static_cast<uint32_t>(out_.size() - at - 4);
    for (size_t n = 0; n < 4; ++n) out_[at + n] = static_cast<char>(length >> (24 - 8 * n));
  }
  static void CopyRow(std::span<const uint64_t> words, size_t bytes, char* to) {
    if constexpr (std::endian::native == std::endian::little) {
      std::memcpy(to, words.data(), bytes);
    } else {
      for (size_t n = 0; n < bytes; ++n) to[n] = static_cast<char>(words[n / 8] >> n % 8 * 8);
    }
  }

  std::string& out_;
  const uint32_t format_;
};

bool GoesBeyondFormat1(const estimate::Materials& materials) {
  const auto has_tex = [](const estimate::Yarn& yarn) { return yarn.tex.has_value(); };
  return !materials.more_yarns.empty() || !materials.calibration.empty() ||
         materials.assumptions.path_covariance.has_value() || has_tex(materials.yarn_a) ||
         has_tex(materials.yarn_b) ||
         (materials.border_yarn.has_value() && has_tex(*materials.border_yarn)) ||
         materials.foundation.colour.value_or(chart::Colour::kA) > kFormat1LastColour ||
         materials.border.colour > kFormat1LastYarn ||
         materials.added_fringe.size() > kFormat1Yarns ||
         std::any_of(materials.added_fringe.begin(), materials.added_fringe.end(),
                     [](const auto& fringe) { return fringe.colour > kFormat1LastYarn; });
}

size_t SizeHint(const VersionContent& content) {
  constexpr size_t kRest = 4096;
  return kRest + content.designer_text.size() + content.introduction.size() + content.notes.size() +
         content.finishing.size() + content.design.row_colours.size() +
         content.design.picture_colours.size() +
         static_cast<size_t>(content.design.cells.rows()) *
             (static_cast<size_t>(content.design.cells.stitches()) / 8 + 1);
}

}  // namespace

uint32_t FormatOf(const VersionContent& content) {
  if (content.row_style != rows::RowStyle()) return 5;
  if (content.materials.calibration_scope.has_value()) return 4;
  if (!content.designer_text_terms.has_value()) return 3;
  const chart::Design& design = content.design;
  const bool beyond = chart::HasMoreThanTwoColours(design) || chart::NamesColours(design) ||
                      design.foundation_colour.has_value() || GoesBeyondFormat1(content.materials);
  return beyond ? 2 : 1;
}

std::string Encode(const VersionContent& content) {
  std::string out;
  out.reserve(SizeHint(content));
  Writer writer(out, FormatOf(content));
  writer.Word(writer.format());
  ContentFields(writer, content);
  return out;
}

}  // namespace rowproof::patterns
