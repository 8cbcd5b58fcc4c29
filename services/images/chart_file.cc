#include "services/images/chart_file.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/images/formats/csv_import.h"
#include "services/images/formats/png_decoder.h"
#include "services/images/formats/png_import.h"
#include "services/images/formats/pnm_import.h"
#include "services/images/refusal.h"

namespace rowproof::images {
namespace {

constexpr char kFormats[] = "save the chart as PNG, PBM, PGM, PPM, CSV or TSV";

absl::Status WrongFormat(const char* what) {
  return Refusal("content", fmt::format("{}; {}.", what, kFormats));
}

// Text without control characters other than line ends and tabs, at least at its beginning: a CSV,
// though perhaps a wrong one.
bool LooksLikeText(std::string_view bytes) {
  constexpr size_t kLookedAt = 64;
  if (bytes.starts_with("\xef\xbb\xbf")) return true;
  const std::string_view start = bytes.substr(0, kLookedAt);
  return std::all_of(start.begin(), start.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return c == '\n' || c == '\r' || c == '\t' || (byte >= 0x20 && byte != 0x7f);
  });
}

}  // namespace

absl::StatusOr<ImportedChart> ImportChart(std::string_view bytes, const ImportSettings& settings,
                                          const Stop& stop) {
  if (auto status = CheckFileBytes("content", bytes.size()); !status.ok()) return status;
  if (HasPngSignature(bytes)) return ImportPng(bytes, settings, stop);
  const std::string_view magic = bytes.substr(0, 2);
  if (magic >= "P1" && magic <= "P6") return ImportPnm(bytes, settings, stop);
  if (magic == "P7") return WrongFormat("Netpbm files of the kind P7 cannot be read");
  if (bytes.starts_with("\x89PNG")) {
    return WrongFormat("The first eight bytes of this PNG are damaged");
  }
  if (LooksLikeText(bytes)) return ImportCsv(bytes, settings, stop);
  return WrongFormat("The file is of an unknown kind");
}

}  // namespace rowproof::images
