// RFC 4180 (quoted fields, CRLF), with a comma, a semicolon or a tab between fields.
#include "services/images/formats/csv_import.h"

#include <algorithm>
#include <cstddef>
#include <string>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "services/images/formats/csv_table.h"
#include "services/images/import_settings.h"
#include "services/images/imported_chart.h"
#include "services/images/picture.h"
#include "services/images/picture_reading.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

bool IsMargin(TableEntry entry) {
  return entry == TableEntry::kNumber || entry == TableEntry::kEmpty;
}

// Takes off outer lines, then outer columns, of numbers and nothing.
Region WithoutNumbers(const Table& table, Region region) {
  const auto line_is_margin = [&](int y) {
    for (int x = region.x.begin; x < region.x.end; ++x) {
      if (!IsMargin(table.at(x, y))) return false;
    }
    return true;
  };
  const auto column_is_margin = [&](int x) {
    for (int y = region.y.begin; y < region.y.end; ++y) {
      if (!IsMargin(table.at(x, y))) return false;
    }
    return true;
  };
  while (region.y.length() > 0 && line_is_margin(region.y.begin)) ++region.y.begin;
  while (region.y.length() > 0 && line_is_margin(region.y.end - 1)) --region.y.end;
  if (region.y.length() == 0) return region;
  while (column_is_margin(region.x.begin)) ++region.x.begin;
  while (column_is_margin(region.x.end - 1)) --region.x.end;
  return region;
}

MarkedSides FindNumbers(const Table& table, const Region& region) {
  MarkedSides marked;
  for (int y = 0; y < table.height; ++y) {
    for (int x = 0; x < table.width; ++x) {
      if (table.at(x, y) != TableEntry::kNumber) continue;
      marked.left = marked.left || x < region.x.begin;
      marked.right = marked.right || x >= region.x.end;
      marked.top = marked.top || y < region.y.begin;
      marked.bottom = marked.bottom || y >= region.y.end;
    }
  }
  return marked;
}

absl::Status CheckEntries(const Table& table, const Region& region) {
  for (int y = region.y.begin; y < region.y.end; ++y) {
    for (int x = region.x.begin; x < region.x.end; ++x) {
      if (!IsMargin(table.at(x, y))) continue;
      return Refusal(
          "content",
          fmt::format("Line {}, entry {} is {}; give every cell a colour or stitch, and keep "
                      "numbers in lines and columns of their own at the sides.",
                      y + 1, x + 1, table.at(x, y) == TableEntry::kEmpty ? "empty" : "a number"));
    }
  }
  return absl::OkStatus();
}

// Its palette's colours are the numbers of the entries.
Picture PictureOf(const Table& table, const Stop& stop) {
  Picture picture(table.width, table.height, &stop);
  for (int y = 0; y < table.height; ++y) {
    if (stop.After(table.width)) return picture;
    for (int x = 0; x < table.width; ++x) {
      picture.Set(x, y, Unpacked(static_cast<uint32_t>(table.at(x, y))));
    }
  }
  return picture;
}

CellColours ColoursOf(const Picture& picture) {
  CellColours colours;
  for (const Rgb entry : picture.palette()) {
    const auto code = static_cast<TableEntry>(Packed(entry));
    colours.class_of.push_back(code == TableEntry::kPlain  ? CellClass{0}
                               : code == TableEntry::kDrop ? CellClass{1}
                                                           : static_cast<CellClass>(code));
  }
  return colours;
}

}  // namespace

absl::StatusOr<ImportedChart> ImportCsv(std::string_view bytes, const ImportSettings& settings,
                                        const Stop& stop) {
  if (auto status = CheckSettings(settings); !status.ok()) return status;
  if (auto status = CheckFileBytes("content", bytes.size()); !status.ok()) return status;
  if (settings.grid.has_value()) {
    return Refusal("grid", "A table has no grid lines; leave the grid unset.");
  }
  auto table = ReadTable(bytes, CountOfLetters(settings), stop);
  if (!table.ok()) return table.status();
  const Picture picture = PictureOf(*table, stop);
  if (!stop.status().ok()) return stop.status();
  if (auto status = CheckCrop(picture, settings.crop); !status.ok()) return status;
  const Region region = WithoutNumbers(*table, Within(picture, settings.crop));
  if (region.y.length() == 0) {
    return Refusal("content", fmt::format("The file has no cells; {}.", kTableForm));
  }
  if (auto status = CheckEntries(*table, region); !status.ok()) return status;
  auto found =
      ReadTouching(picture, region, ColoursOf(picture), settings.cell_scale.value_or(1), "content");
  if (!found.ok()) return found.status();
  if (auto status = CheckCounts(*found, settings); !status.ok()) return status;
  auto chart = ChartOf(picture, *found, settings);
  if (!chart.ok()) return chart;
  chart->report.format = table->separator == '\t' ? FileFormat::kTsv : FileFormat::kCsv;
  chart->report.marked = FindNumbers(*table, region);
  return chart;
}

}  // namespace rowproof::images
