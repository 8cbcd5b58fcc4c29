#include "tests/bench/reading_figure.h"

#include <cstring>
#include <stdexcept>

#include "fmt/format.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/text_expansion.h"
#include "services/domain/rows/text_rows.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/bench/sample_charts.h"

namespace rowproof::bench {
namespace {

// Every row as the writer writes it, a line each.
std::string RowsOf(const chart::Design& design) {
  rows::WriterSettings settings;
  settings.every_row = true;
  const auto pattern = rows::WriteRows(design, settings);
  if (!pattern.ok()) throw std::runtime_error("the rows cannot be written");
  std::string text;
  for (const rows::WrittenRow& row : pattern->rows) text += row.text + '\n';
  return text;
}

// Whole rows of a random chart, again and again up to a length.
std::string TextOf(size_t bytes) {
  const std::string rows = RowsOf(RandomDesign(400, 300, 4));
  std::string text;
  while (text.size() < bytes) text += rows;
  text.resize(text.rfind('\n', bytes - 1) + 1);
  return text;
}

size_t CountLines(const std::string& text) {
  size_t lines = 0;
  const char* at = text.data();
  const char* end = at + text.size();
  while ((at = static_cast<const char*>(std::memchr(at, '\n', static_cast<size_t>(end - at)))) !=
         nullptr) {
    ++lines;
    ++at;
  }
  return lines;
}

// Whatever a pass counts, so that it is not left out by the compiler.
volatile size_t counted = 0;

// In MB/s, over finding the ends of the lines.
Figure ReadingOf(const std::string& name, size_t bytes) {
  constexpr int kRuns = 11;
  constexpr int kPasses = 100;
  const std::string text = TextOf(bytes);
  const Pair pair = Interleaved(
      kRuns,
      [&] {
        const auto document = rows::ReadRows(text);
        if (!document.ok() || !document->findings.empty()) {
          throw std::runtime_error("the text cannot be read");
        }
        counted = document->rows.size();
      },
      [&] {
        for (int pass = 0; pass < kPasses; ++pass) counted = CountLines(text);
      });
  // Bytes in a microsecond are megabytes in a second.
  const auto size = static_cast<double>(text.size());
  return {name, size / pair.value_us, "MB/s", size / (pair.floor_us / kPasses),
          fmt::format("at least 20 MB/s (of {:.1f} MB)", size / 1e6)};
}

// The stitches of all rows, as a comparison needs them at least.
void ReadAndExpand(const std::string& text, int stitches) {
  const auto document = rows::ReadRows(text);
  if (!document.ok()) throw std::runtime_error("the text cannot be read");
  size_t runs = 0;
  for (const rows::PlacedRow& row : rows::RowsOfSize(*document, 0)) {
    const rows::TextRow& worked = document->rows[static_cast<size_t>(row.worked)];
    runs += rows::ExpandSteps(worked.steps, 0, {stitches, {}}).runs.size();
  }
  counted = runs;
}

}  // namespace

Figure MeasureReading() { return ReadingOf("read-text", rows::kLongestText); }

Figure MeasureReadingOfATenth() { return ReadingOf("read-text-tenth", rows::kLongestText / 10); }

Figure MeasureComparison() {
  constexpr int kRuns = 11;
  constexpr double kUsInAMs = 1000;
  const chart::Design design = EdgedMotifDesign(400, 300);
  const std::string text = RowsOf(design);
  const Pair pair = Interleaved(
      kRuns,
      [&] {
        const auto compared = rows::CompareRows(design, text);
        if (!compared.ok() || !compared->equal() || !compared->findings.empty()) {
          throw std::runtime_error("text and chart do not agree");
        }
        counted = compared->rows.size();
      },
      [&] { counted = static_cast<size_t>(ReadCells(design.cells)); });
  const double read_us = Interleaved(
                             kRuns, [&] { ReadAndExpand(text, design.cells.stitches()); }, [] {})
                             .value_us;
  return {"compare-300x400", pair.value_us / kUsInAMs, "ms", pair.floor_us / kUsInAMs,
          fmt::format("{:.3g} ms of it to read and expand the {:.2f} MB of text",
                      read_us / kUsInAMs, static_cast<double>(text.size()) / 1e6)};
}

}  // namespace rowproof::bench
