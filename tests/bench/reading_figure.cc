#include "tests/bench/reading_figure.h"

#include <cstring>
#include <stdexcept>

#include "fmt/format.h"
#include "services/domain/rows/reader.h"
#include "services/domain/rows/writer.h"
#include "tests/bench/sample_charts.h"

namespace rowproof::bench {
namespace {

// Rows as the writer writes them, again and again up to a length.
std::string TextOf(size_t bytes) {
  rows::WriterSettings settings;
  settings.every_row = true;
  const auto pattern = rows::WriteRows(RandomDesign(400, 300, 4), settings);
  if (!pattern.ok()) throw std::runtime_error("the rows cannot be written");
  std::string text;
  for (;;) {
    for (const rows::WrittenRow& row : pattern->rows) {
      if (text.size() + row.text.size() + 1 > bytes) return text;
      text += row.text + '\n';
    }
  }
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

Figure ReadingOf(const std::string& name, size_t bytes) {
  constexpr int kRuns = 11;
  constexpr int kPasses = 100;
  constexpr double kUsInAMs = 1000;
  constexpr double kRequiredBytesAUs = 20;  // 20 MB/s
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
  const auto megabytes = static_cast<double>(text.size()) / 1e6;
  return {name, pair.value_us / kUsInAMs, "ms", pair.floor_us / kPasses / kUsInAMs,
          fmt::format("{:.1f} MB, {:.0f} MB/s; required 20 MB/s, {:.0f} ms", megabytes,
                      static_cast<double>(text.size()) / pair.value_us,
                      static_cast<double>(text.size()) / kRequiredBytesAUs / kUsInAMs)};
}

}  // namespace

Figure MeasureReading() { return ReadingOf("read-text", rows::kLongestText); }

Figure MeasureReadingOfATenth() { return ReadingOf("read-text-tenth", rows::kLongestText / 10); }

}  // namespace rowproof::bench
