#include "tests/domain/rows/text_reader.h"

#include <cctype>
#include <optional>
#include <stdexcept>

namespace rowproof::rows {
namespace {

class Line {
 public:
  Line(const std::string& text, size_t sizes, size_t size)
      : text_(text), sizes_(sizes), size_(size) {}

  bool Try(const std::string& word) {
    if (text_.compare(at_, word.size(), word) != 0) return false;
    at_ += word.size();
    return true;
  }
  void Need(const std::string& word) {
    if (!Try(word)) Fail("'" + word + "' expected");
  }
  bool AtEnd() const { return at_ == text_.size(); }
  [[noreturn]] void Fail(const std::string& what) const {
    throw std::runtime_error(what + " at " + std::to_string(at_) + " of: " + text_);
  }

  int Number() {
    const size_t start = at_;
    while (at_ < text_.size() && std::isdigit(static_cast<unsigned char>(text_[at_])) != 0) ++at_;
    if (start == at_) Fail("a number expected");
    if (text_[start] == '0' && at_ - start > 1) Fail("a number without leading zeros expected");
    return std::stoi(text_.substr(start, at_ - start));
  }

  // One value, or one a size: the value of this size.
  template <typename Read>
  auto List(const Read& read) {
    std::vector<decltype(read())> values = {read()};
    // A head's "(RS, A)" is no list.
    if (text_.compare(at_, 2, " (") == 0 && at_ + 2 < text_.size() &&
        (std::isdigit(static_cast<unsigned char>(text_[at_ + 2])) != 0 || text_[at_ + 2] == '-')) {
      at_ += 2;
      do values.push_back(read());
      while (Try(", "));
      Need(")");
      if (values.size() != sizes_) Fail("one number a size expected");
    }
    return values.size() == 1 ? values[0] : values[size_];
  }
  int Count() {
    return List([this] { return Number(); });
  }

  struct Range {
    int first = 0;
    int last = 0;
    bool absent = false;
  };
  Range Rows() {
    const bool round = Try("Rnd");
    if (!round) Need("Row");
    const bool several = Try("s");
    Need(" ");
    return List([&] {
      Range range;
      if (Try("-")) {
        range.absent = true;
        return range;
      }
      range.first = range.last = Number();
      if (Try("-")) range.last = Number();
      if (!several && range.last != range.first) Fail("one row expected");
      if (range.last < range.first) Fail("rows in ascending order expected");
      return range;
    });
  }

  std::string Steps() {
    std::string stitches = Step();
    while (Try(", ")) stitches += Step();
    return stitches;
  }

 private:
  std::string Step() {
    if (Try("[")) {
      const std::string inside = Steps();
      Need("] ");
      const int times = Count();
      Need(" times");
      return Times(inside, times);
    }
    const bool drop = Try("ssc");
    if (!drop) Need("sc");
    const std::string stitch = drop ? "x" : ".";
    const bool counted = at_ + 1 < text_.size() && text_[at_] == ' ' &&
                         std::isdigit(static_cast<unsigned char>(text_[at_ + 1])) != 0;
    if (!counted) return stitch;
    Need(" ");
    return Times(stitch, Count());
  }

  static std::string Times(const std::string& unit, int times) {
    std::string all;
    for (int n = 0; n < times; ++n) all += unit;
    return all;
  }

  const std::string& text_;
  size_t sizes_;
  size_t size_;
  size_t at_ = 0;
};

void ReadRepeat(Line& line, const Line::Range& rows, std::map<int, ReadRow>& known) {
  const Line::Range again = line.Rows();
  int times = 1;
  if (line.Try(" twice.")) {
    times = 2;
  } else if (!line.Try(".")) {
    line.Need(" ");
    times = line.Count();
    line.Need(" times.");
  }
  if (!line.AtEnd()) line.Fail("the end expected");
  if (rows.absent) {
    if (times != 0) line.Fail("rows that this size does not work are repeated");
    return;
  }
  const int unit = again.last - again.first + 1;
  if (again.absent || unit * times != rows.last - rows.first + 1) line.Fail("rows do not add up");
  for (int i = 0; i < unit * times; ++i) {
    const auto source = known.find(again.first + i % unit);
    if (source == known.end()) line.Fail("a row is repeated before it is written");
    if (!known.emplace(rows.first + i, source->second).second) line.Fail("a row stands twice");
  }
}

void ReadLine(Line& line, int chain, std::map<int, ReadRow>& known) {
  const Line::Range rows = line.Rows();
  if (line.Try(": rep ")) return ReadRepeat(line, rows, known);
  ReadRow row;
  line.Need(" (");
  row.side = line.Try("RS") ? "RS" : (line.Need("WS"), "WS");
  line.Need(", ");
  row.colour = line.Try("A") ? "A" : (line.Need("B"), "B");
  line.Need("): ");
  if (line.Try("sc in 2nd ch from hook and in each ch across") ||
      line.Try("sc in each ch around")) {
    row.stitches = std::string(static_cast<size_t>(chain), '.');
  } else {
    row.stitches = line.Steps();
  }
  line.Need(". (");
  if (line.Count() != static_cast<int>(row.stitches.size())) line.Fail("the count is wrong");
  line.Need(" sts)");
  if (!line.AtEnd()) line.Fail("the end expected");
  if (rows.absent) return;
  if (rows.first != rows.last) line.Fail("one row expected");
  if (!known.emplace(rows.first, row).second) line.Fail("a row stands twice");
}

}  // namespace

ReadPattern ReadBack(const std::vector<std::string>& lines,
                     const std::vector<std::string>& size_names, size_t size, int chain) {
  ReadPattern pattern;
  std::optional<std::string> only;
  try {
    for (const std::string& text : lines) {
      if (text.rfind("Size ", 0) == 0) {
        only = text.substr(5, text.size() - 6);
        continue;
      }
      if (only.has_value() && *only != size_names[size]) continue;
      Line line(text, size_names.size(), size);
      ReadLine(line, chain, pattern.rows);
    }
  } catch (const std::runtime_error& error) {
    pattern.error = error.what();
  }
  return pattern;
}

}  // namespace rowproof::rows
