// Conversions, repeats and imported files, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CONVERSION_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CONVERSION_H_

#include <string>

#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_file.pb.h"
#include "rowproof/v1/conversion.pb.h"

namespace rowproof::client {

std::string TextOf(const v1::ConvertedChart& converted);
std::string TextOf(const v1::Repeats& repeats);
std::string TextOf(const v1::ImportedChart& imported);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CONVERSION_H_
