#include "services/domain/rows/writing/row_layout.h"

#include <algorithm>
#include <optional>

#include "services/domain/chart/expand.h"
#include "services/domain/rows/index.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

using Rows = std::vector<std::vector<int>>;  // by size, by expanded row: index of a kind

constexpr RowRange kNone{kNotWorked, kNotWorked};

// Every size is `start - 1` rows, then passes[i] times `length` rows, then the same rest.
struct Passes {
  int start = 0;
  int length = 0;
  std::vector<int> of_size;
  size_t longest = 0;  // the size with the most passes
};

bool Agree(const std::vector<int>& a, int a_row, const std::vector<int>& b, int b_row, int count) {
  return std::equal(a.begin() + (a_row - 1), a.begin() + (a_row - 1 + count),
                    b.begin() + (b_row - 1));
}

bool Fits(const Rows& rows, const Passes& passes) {
  const std::vector<int>& model = rows[passes.longest];
  const auto end_of_passes = [&](size_t size) {
    return passes.start + passes.of_size[size] * passes.length;
  };
  const int rest = static_cast<int>(model.size()) + 1 - end_of_passes(passes.longest);
  if (rest < 0) return false;
  for (size_t size = 0; size < rows.size(); ++size) {
    if (!Agree(rows[size], 1, model, 1, passes.start - 1)) return false;
    for (int n = 0; n < passes.of_size[size]; ++n) {
      const int row = passes.start + n * passes.length;
      if (!Agree(rows[size], row, model, passes.start, passes.length)) return false;
    }
    if (!Agree(rows[size], end_of_passes(size), model, end_of_passes(passes.longest), rest)) {
      return false;
    }
  }
  return true;
}

// Where the passes of the declared row band may start in the worked rows, and how many fewer they
// are than the size's repeats, in the order of trial. A picture's marks stand a row higher, so its
// band a..b is worked as a+1..b+1; if that does not hold (the band reaches the last row, or the
// row over its end differs), as a..b, or as the rows from b+1 on, one pass fewer. In inset a row's
// marks are also the stitches that the worked rows before it skip, so that the passes of a working
// chart start earlier.
std::vector<std::pair<int, int>> Tries(const chart::Design& design) {
  const int each = chart::WorkedRows(design);
  const int first = (design.row_band->first - 1) * each + 1;
  const int last = design.row_band->last * each;
  if (design.convention == chart::Convention::kPicture) {
    return {{first + 1, 0}, {first, 0}, {last + 1, 1}};
  }
  if (each == 1) return {{first, 0}, {last + 1, 1}};
  return {{first - 1, 0}, {first, 0}, {first - 2, 0}, {last - 1, 1}, {last + 1, 1}};
}

// How the declared row band repeats in the worked rows.
std::optional<Passes> FindPasses(const chart::Design& design, const Rows& rows) {
  const int length = design.row_band->length() * chart::WorkedRows(design);
  for (const auto& [start, fewer] : Tries(design)) {
    if (start < 1) continue;
    Passes passes{start, length, {}, 0};
    for (const chart::Size& size : design.sizes) {
      passes.of_size.push_back(size.row_repeats - fewer);
    }
    passes.longest = Index(static_cast<int>(
        std::max_element(passes.of_size.begin(), passes.of_size.end()) - passes.of_size.begin()));
    if (Fits(rows, passes)) return passes;
  }
  return std::nullopt;
}

LaidRow Gap() {
  LaidRow gap;
  gap.type = LaidRow::Type::kGap;
  return gap;
}

Section LayOutPasses(const Rows& rows, const Passes& passes, bool every_row) {
  const std::vector<int>& model = rows[passes.longest];
  const int most = passes.of_size[passes.longest];
  const int fewest = *std::min_element(passes.of_size.begin(), passes.of_size.end());
  Section section;
  const auto add = [&](int model_row, const auto& row_of_size) {
    LaidRow laid;
    laid.kind = model[Index(model_row - 1)];
    for (size_t size = 0; size < rows.size(); ++size) {
      const int row = row_of_size(size);
      laid.in_every_size &= row != kNotWorked;
      laid.rows.push_back({row, row});
    }
    section.rows.push_back(std::move(laid));
  };
  for (int row = 1; row < passes.start; ++row) {
    add(row, [row](size_t) { return row; });
  }
  for (int n = 0; n < (every_row ? most : 1); ++n) {
    if (n >= fewest) section.rows.push_back(Gap());
    for (int i = 0; i < passes.length; ++i) {
      const int row = passes.start + n * passes.length + i;
      add(row, [&](size_t size) { return n < passes.of_size[size] ? row : kNotWorked; });
    }
  }
  section.rows.push_back(Gap());
  if (!every_row && most > 1) {
    LaidRow& again = section.rows.back();
    again.type = LaidRow::Type::kBandRepeat;
    again.kind = model[Index(passes.start - 1)];
    const int next = passes.start + passes.length;
    for (const int n : passes.of_size) {
      again.rows.push_back(n > 1 ? RowRange{next, passes.start + n * passes.length - 1} : kNone);
      again.repeated.push_back({passes.start, next - 1});
      again.times.push_back(std::max(0, n - 1));
    }
  }
  const int rest = static_cast<int>(model.size()) + 1 - passes.start - most * passes.length;
  for (int i = 0; i < rest; ++i) {
    add(passes.start + most * passes.length + i,
        [&](size_t size) { return passes.start + passes.of_size[size] * passes.length + i; });
  }
  return section;
}

// Rows first..last of one size, or of all sizes (-1) if they have the same numbers.
void AddRows(const Rows& rows, int only_size, int first, int last, Section& section) {
  const std::vector<int>& model = rows[Index(std::max(0, only_size))];
  for (int row = first; row <= last; ++row) {
    LaidRow laid;
    laid.kind = model[Index(row - 1)];
    for (size_t size = 0; size < rows.size(); ++size) {
      const bool holds = only_size < 0 || Index(only_size) == size;
      laid.rows.push_back(holds ? RowRange{row, row} : kNone);
    }
    section.rows.push_back(std::move(laid));
  }
}

std::vector<Section> LayOutApart(const Rows& rows) {
  size_t shared = rows[0].size();
  for (const auto& size : rows) {
    const auto end = std::min(shared, size.size());
    const auto differ = std::mismatch(size.begin(), size.begin() + static_cast<std::ptrdiff_t>(end),
                                      rows[0].begin());
    shared = static_cast<size_t>(differ.first - size.begin());
  }
  std::vector<Section> sections(1);
  AddRows(rows, -1, 1, static_cast<int>(shared), sections[0]);
  for (size_t size = 0; size < rows.size(); ++size) {
    Section section;
    section.only_size = static_cast<int>(size);
    section.rows = sections[0].rows;
    section.rows.push_back(Gap());
    section.written = section.rows.size();
    AddRows(rows, section.only_size, static_cast<int>(shared) + 1,
            static_cast<int>(rows[size].size()), section);
    if (section.rows.size() > section.written) sections.push_back(std::move(section));
  }
  return sections;
}

}  // namespace

std::vector<Section> LayOutRows(const chart::Design& design, const RowSequences& sequences,
                                bool every_row) {
  const Rows& rows = sequences.rows;
  const bool alike = std::all_of(rows.begin(), rows.end(),
                                 [&](const std::vector<int>& size) { return size == rows[0]; });
  if (alike) {
    Section section;
    AddRows(rows, -1, 1, static_cast<int>(rows[0].size()), section);
    return {section};
  }
  if (const auto passes = FindPasses(design, rows); passes.has_value()) {
    return {LayOutPasses(rows, *passes, every_row)};
  }
  return LayOutApart(rows);
}

}  // namespace rowproof::rows
