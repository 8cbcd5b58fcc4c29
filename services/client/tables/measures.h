// In which units and how fully an answer is shown. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_MEASURES_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_MEASURES_H_

#include <string>
#include <vector>

#include "services/quantities/measured.h"

namespace rowproof::client {

using quantities::Units;

// How an answer is shown.
struct Style {
  Units units = Units::kMetric;
  // Everything, and not only what the command was called for.
  bool details = false;
  // What the design calls the colours, from A on; empty: by their letters.
  std::vector<std::string> colour_names = {};
};

// Imperial if the locale's territory measures so (United States, Liberia, Myanmar); empty: metric.
Units UnitsOfLocale(const std::string& locale);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_MEASURES_H_
