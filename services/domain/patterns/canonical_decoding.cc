#include "services/domain/patterns/canonical_decoding.h"

#include <bit>
#include <climits>
#include <cmath>
#include <cstring>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/patterns/canonical.h"
#include "services/domain/patterns/canonical_schema.h"
#include "services/domain/text.h"
#include "services/text/utf8.h"

namespace rowproof::patterns {
namespace {

// Reads fields strictly in order. After the first fault every read does nothing.
class Reader {
 public:
  Reader(std::string_view in, uint32_t format) : in_(in), format_(format) {}

  uint32_t format() const { return format_; }

  void Number(uint8_t tag, int& value) {
    if (!Head(tag, 'u')) return;
    const uint32_t word = Word();
    if (word > uint32_t{INT_MAX}) return Fail(fmt::format("{} in field {}", word, tag));
    value = static_cast<int>(word);
  }
  void Flag(uint8_t tag, bool& value) { value = Limited(tag, 1) == 1; }
  template <typename E>
  void Enum(uint8_t tag, E& value, E last) {
    value = static_cast<E>(Limited(tag, static_cast<int>(last)));
  }
  void Real(uint8_t tag, double& value) {
    if (!Head(tag, 'd')) return;
    const uint64_t high = Word();
    const auto read = std::bit_cast<double>(high << 32 | Word());
    if (!std::isfinite(read)) return Fail(fmt::format("a number not finite in field {}", tag));
    if (read == 0 && std::signbit(read)) return Fail(fmt::format("-0 in field {}", tag));
    value = read;
  }
  void Text(uint8_t tag, std::string& text, size_t longest) {
    if (!Head(tag, 's')) return;
    const std::string_view bytes = Counted(longest);
    if (!text::IsUtf8(bytes)) return Fail(fmt::format("bytes that are not UTF-8 in field {}", tag));
    text = bytes;
  }
  void Cells(uint8_t tag, chart::Grid& cells) {
    const int rows = Limited(tag, chart::kMostRows);
    const int stitches = Limited(static_cast<uint8_t>(tag + 1), chart::kMostStitches);
    if (!Head(static_cast<uint8_t>(tag + 2), 'b')) return;
    const size_t row_bytes = (static_cast<size_t>(stitches) + 7) / 8;
    const size_t wanted = row_bytes * static_cast<size_t>(rows);
    const std::string_view bytes = Counted(wanted);
    if (!ok()) return;
    if (wanted == 0 || bytes.size() != wanted) {
      return Fail(fmt::format("{} bytes for {} rows of {} stitches", bytes.size(), rows, stitches));
    }
    cells = chart::Grid(rows, stitches);
    for (int row = 1; row <= rows; ++row) {
      ReadRow(bytes.substr(static_cast<size_t>(row - 1) * row_bytes, row_bytes),
              cells.mutable_row(row));
      if ((cells.row(row).back() & ~cells.last_word_mask()) != 0) {
        return Fail(fmt::format("a cell past the last stitch of row {}", row));
      }
    }
  }
  void Colours(uint8_t tag, std::vector<chart::Colour>& colours, size_t most, chart::Colour last) {
    if (!Head(tag, 'b')) return;
    const std::string_view bytes = Counted(most);
    colours.reserve(bytes.size());
    for (const char byte : bytes) {
      const auto number = static_cast<uint8_t>(byte);
      if (number > static_cast<uint8_t>(last)) {
        return Fail(fmt::format("colour number {}", number));
      }
      colours.push_back(static_cast<chart::Colour>(number));
    }
  }
  template <typename T, typename Fields>
  void Record(uint8_t tag, T& value, const Fields& fields) {
    if (Head(tag, 'r')) Body(value, fields);
  }
  template <typename T, typename Fields>
  void List(uint8_t tag, std::vector<T>& items, size_t most, const Fields& fields) {
    if (!Head(tag, 'l')) return;
    const uint32_t count = Word();
    if (count > most) return Fail(fmt::format("{} entries in field {}", count, tag));
    items.clear();
    for (uint32_t n = 0; n < count && ok(); ++n) Body(items.emplace_back(), fields);
  }
  template <typename Fields>
  void Paths(uint8_t tag, estimate::StitchPaths& paths, const Fields& fields) {
    if (!Head(tag, 'l')) return;
    const uint32_t count = Word();
    if (count != paths.size()) return Fail(fmt::format("{} entries in field {}", count, tag));
    for (auto& path : paths) Body(path, fields);
  }
  template <typename T, typename Field>
  void Optional(uint8_t tag, std::optional<T>& value, const Field& field) {
    if (ok() && !in_.empty() && static_cast<uint8_t>(in_.front()) == tag) field(value.emplace());
  }

  uint32_t Word() {
    const std::string_view bytes = Take(4);
    uint32_t value = 0;
    for (const char byte : bytes) value = value << 8 | static_cast<uint8_t>(byte);
    return value;
  }
  void End() {
    if (ok() && !in_.empty()) Fail(fmt::format("{} bytes after the last field", in_.size()));
  }
  bool ok() const { return fault_.empty(); }
  const std::string& fault() const { return fault_; }

 private:
  void Fail(std::string fault) {
    if (ok()) fault_ = std::move(fault);
    in_ = {};
  }
  std::string_view Take(size_t count) {
    if (!ok()) return {};
    if (count > in_.size()) {
      Fail("an end in the middle of a field");
      return {};
    }
    const std::string_view taken = in_.substr(0, count);
    in_.remove_prefix(count);
    return taken;
  }
  std::string_view Counted(size_t most) {
    const uint32_t count = Word();
    if (count > most) {
      Fail(fmt::format("a length of {} bytes, over the limit of {}", count, most));
      return {};
    }
    return Take(count);
  }
  bool Head(uint8_t tag, char type) {
    const std::string_view head = Take(2);
    if (!ok()) return false;
    if (static_cast<uint8_t>(head[0]) == tag && head[1] == type) return true;
    Fail(fmt::format("field {} where field {} was expected", static_cast<uint8_t>(head[0]), tag));
    return false;
  }
  int Limited(uint8_t tag, int most) {
    int value = 0;
    Number(tag, value);
    if (value <= most) return value;
    Fail(fmt::format("{} in field {}", value, tag));
    return 0;
  }
  template <typename T, typename Fields>
  void Body(T& value, const Fields& fields) {
    Reader inner(Counted(UINT32_MAX), format_);
    if (!ok()) return;
    fields(inner, value);
    inner.End();
    if (!inner.ok()) Fail(inner.fault());
  }
  static void ReadRow(std::string_view bytes, std::span<uint64_t> words) {
    if constexpr (std::endian::native == std::endian::little) {
      std::memcpy(words.data(), bytes.data(), bytes.size());
    } else {
      for (size_t n = 0; n < bytes.size(); ++n) {
        words[n / 8] |= uint64_t{static_cast<uint8_t>(bytes[n])} << n % 8 * 8;
      }
    }
  }

  std::string_view in_;
  uint32_t format_;
  std::string fault_;
};

}  // namespace

absl::StatusOr<VersionContent> Decode(std::string_view encoding) {
  Reader head(encoding.substr(0, 4), 0);
  const uint32_t format = head.Word();
  if (!head.ok()) return InvalidField("encoding", head.fault(), "a version's canonical encoding");
  if (format < 1 || format > kNewestFormat) {
    return InvalidField("encoding", fmt::format("format {}", format),
                        fmt::format("format 1 to {}", kNewestFormat));
  }
  Reader reader(encoding.substr(4), format);
  VersionContent content;
  if (format >= 3) content.designer_text_terms.reset();
  ContentFields(reader, content);
  reader.End();
  if (!reader.ok()) {
    return InvalidField("encoding", reader.fault(), "a version's canonical encoding");
  }
  if (FormatOf(content) != format) {
    return InvalidField(
        "encoding", fmt::format("format {}", format),
        fmt::format("in format {}, the first that can hold this content", FormatOf(content)));
  }
  if (auto status = chart::Validate(content.design); !status.ok()) {
    return UnderField(status, "encoding.design");
  }
  return content;
}

}  // namespace rowproof::patterns
