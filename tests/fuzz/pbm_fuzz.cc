#include <string_view>

#include "tests/fuzz/chart_round_trip.h"

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace rowproof::images;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const uint8_t choice = size == 0 ? 0 : data[size - 1];
  for (const ImportSettings& settings : {ImportSettings{}, SettingsOf(choice)}) {
    const auto chart = ImportPbm(bytes, settings);
    if (chart.ok()) CheckRoundTrip(*chart);
  }
  return 0;
}
