#include <string_view>

#include "services/images/formats/csv_import.h"
#include "tests/fuzz/chart_round_trip.h"

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace rowproof::images;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  // Settings other than the usual, by the last two bytes.
  const uint8_t choice = size == 0 ? 0 : data[size - 1];
  const uint8_t more = size < 2 ? 0 : data[size - 2];
  ReadBothWays([&](const ImportSettings& settings) { return ImportCsv(bytes, settings); }, choice,
               more);
  return 0;
}
