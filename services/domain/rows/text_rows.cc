#include "services/domain/rows/text_rows.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/chart/grid.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

constexpr int kMostPlaced = 2 * chart::kMostRows;

// Puts the rows of one size in order, and says what is wrong with repeats if asked.
class Placing {
 public:
  Placing(const TextDocument& document, int size, std::vector<TextFinding>* findings,
          std::vector<bool>* reported)
      : document_(document), size_(size), findings_(findings), reported_(reported) {
    int largest = 0;
    for (const TextRow& row : document.rows) {
      for (const NumberedRows& rows : row.numbers) {
        largest = std::max(largest, rows.last.Largest());
      }
    }
    last_of_number_.resize(static_cast<size_t>(largest) + 1, -1);
  }

  std::vector<PlacedRow> Place() {
    for (size_t line = 0; line < document_.rows.size(); ++line) {
      const TextRow& row = document_.rows[line];
      if (row.only_size != -1 && row.only_size != size_) continue;
      if (row.body == TextRow::Body::kReference) {
        PlaceRepeat(static_cast<int>(line));
      } else {
        ForEachNumber(row.numbers, kMostPlaced, [&](int number, int) {
          Add({number, static_cast<int>(line), static_cast<int>(line), row.side, row.colour});
        });
      }
      if (static_cast<int>(placed_.size()) >= kMostPlaced) break;
    }
    return std::move(placed_);
  }

 private:
  int64_t CountOf(const std::vector<NumberedRows>& numbers) const {
    int64_t count = 0;
    for (const NumberedRows& rows : numbers) {
      if (rows.first.Of(size_) != kNotWorked)
        count += rows.last.Of(size_) - rows.first.Of(size_) + 1;
    }
    return count;
  }

  // Calls take(number, index) for the first numbers.
  template <typename Take>
  void ForEachNumber(const std::vector<NumberedRows>& numbers, int64_t most,
                     const Take& take) const {
    int index = 0;
    for (const NumberedRows& rows : numbers) {
      const int first = rows.first.Of(size_);
      const int last = rows.last.Of(size_);
      if (first == kNotWorked) continue;
      for (int number = first; number <= last; ++number) {
        if (index >= most) return;
        take(number, index++);
      }
    }
  }

  void Add(PlacedRow row) {
    if (static_cast<int>(placed_.size()) >= kMostPlaced) return;
    last_of_number_[static_cast<size_t>(row.number)] = static_cast<int>(placed_.size());
    placed_.push_back(row);
  }

  int PlacedNumber(int number) const {
    if (number < 0 || number >= static_cast<int>(last_of_number_.size())) return -1;
    return last_of_number_[static_cast<size_t>(number)];
  }

  void PlaceRepeat(int line) {
    const TextRow& row = document_.rows[static_cast<size_t>(line)];
    const int64_t count = CountOf(row.numbers);
    const int64_t unit = CountOf(row.sources);
    // The rows to repeat, as they are before this line; no more of them than are needed.
    std::vector<int> sources;
    int unknown = -1;
    ForEachNumber(row.sources, count, [&](int number, int) {
      sources.push_back(PlacedNumber(number));
      if (sources.back() < 0 && unknown < 0) unknown = number;
    });
    CheckRepeat(line, count, unit, unknown);
    ForEachNumber(row.numbers, kMostPlaced, [&](int number, int index) {
      const int source =
          sources.empty() ? -1 : sources[static_cast<size_t>(index) % sources.size()];
      PlacedRow placed{number, line, -1, row.side, row.colour};
      if (source >= 0) {
        const PlacedRow& repeated = placed_[static_cast<size_t>(source)];
        placed.worked = repeated.worked;
        if (!row.side.has_value()) placed.side = repeated.side;
        if (!row.colour.has_value()) placed.colour = repeated.colour;
      }
      Add(placed);
    });
  }

  void CheckRepeat(int line, int64_t count, int64_t unit, int unknown) {
    const TextRow& row = document_.rows[static_cast<size_t>(line)];
    const int times = row.times.Of(size_);
    if (count > 0 && unknown >= 0) {
      Report(line, TextFindingCode::kUnknownSource, fmt::format("Row {}", unknown),
             "a row further up");
      return;
    }
    const int64_t wanted = unit * times;
    const bool adds_up = row.times_stated ? wanted == count || (unit == 0 && count == 0)
                         : unit > 0       ? count % unit == 0
                                          : count == 0;
    if (adds_up) return;
    Report(line, TextFindingCode::kRowsDoNotAddUp, fmt::format("{} rows", count),
           row.times_stated ? fmt::format("{}: {} repeats of {}", wanted, times, unit)
                            : fmt::format("a multiple of the {} rows repeated", unit));
  }

  void Report(int line, TextFindingCode code, std::string met, std::string fits) {
    if (findings_ == nullptr || (*reported_)[static_cast<size_t>(line)]) return;
    (*reported_)[static_cast<size_t>(line)] = true;
    findings_->push_back({code, chart::Severity::kError,
                          document_.rows[static_cast<size_t>(line)].at, line, std::move(met),
                          std::move(fits)});
  }

  const TextDocument& document_;
  int size_;
  std::vector<TextFinding>* findings_;
  std::vector<bool>* reported_;
  std::vector<int> last_of_number_;  // index of placed_, by number
  std::vector<PlacedRow> placed_;
};

}  // namespace

std::vector<PlacedRow> RowsOfSize(const TextDocument& document, int size) {
  return Placing(document, size, nullptr, nullptr).Place();
}

void CheckReferences(const TextDocument& document, std::vector<TextFinding>& findings) {
  const bool any = std::any_of(document.rows.begin(), document.rows.end(), [](const TextRow& row) {
    return row.body == TextRow::Body::kReference;
  });
  if (!any) return;
  std::vector<bool> reported(document.rows.size(), false);
  for (int size = 0; size < document.size_count(); ++size) {
    Placing(document, size, &findings, &reported).Place();
  }
}

}  // namespace rowproof::rows
